"""Colours go to a terminal and to nothing else."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest

from generator.errors import Location, Problem
from generator.terminal import say_finding, say_problem

PROBLEM = Problem(Location(Path("job.yml"), 3, 7), "lathe", '"long" is no lathe of this shop', "lathe: long")
SIGNS = re.compile(r"\x1b\[[0-9;]*m")  # ECMA-48, "select graphic rendition"


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        """As a terminal says it."""
        return True


def said(file: io.StringIO) -> str:
    say_problem(PROBLEM, file)
    say_finding("job.yml:3:7", "stop", "The chuck is too fast.", "chuck-speed", file)
    return file.getvalue()


def test_a_file_gets_plain_words() -> None:
    assert said(io.StringIO()) == (
        f"{PROBLEM.with_caret()}\njob.yml:3:7: stop: The chuck is too fast. [chuck-speed]\n"
    )


def test_a_terminal_gets_the_same_words_in_colours(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    coloured = said(Terminal())
    assert SIGNS.search(coloured)
    assert SIGNS.sub("", coloured) == said(io.StringIO())


def test_a_terminal_of_somebody_who_wants_no_colours_gets_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """https://no-color.org: "when present and not an empty string"."""
    monkeypatch.setenv("NO_COLOR", "1")
    assert not SIGNS.search(said(Terminal()))
