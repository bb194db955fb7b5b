"""Words with colours on a terminal, and plain words everywhere else.

    say_problem    a problem with its place and its line
    say_finding    a finding of a sheet
    LEVELS         how much a finding matters, as it is shown
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Final, TextIO

import click

from generator.errors import Location, Problem
from generator.language.say import later

LEVELS: Final[Mapping[str, str]] = {"stop": later("stop"), "check": later("check"), "note": later("note")}
_COLOURS = {"stop": "red", "check": "yellow"}


def say_problem(problem: Problem, file: TextIO) -> None:
    """A problem, then its line with a caret under the place."""
    head, *lines = problem.with_caret().split("\n")
    place = str(problem.location)
    marked = click.style(place, bold=True) + click.style(head.removeprefix(place), fg="red")
    _say("\n".join([marked, *lines[:-1], *(click.style(line, fg="red") for line in lines[-1:])]), file)


def say_finding(where: Location | str, level: str, text: str, id: str, file: TextIO) -> None:
    """A finding in one line: its place, how much it matters, what it says, its name."""
    word = click.style(str(LEVELS[level]), fg=_COLOURS.get(level), bold=level == "stop")
    _say(f"{click.style(str(where), bold=True)}: {word}: {text} {click.style(f'[{id}]', dim=True)}", file)


def _say(text: str, file: TextIO) -> None:
    """Colours go to a terminal alone, and not where the user wants none (no-color.org)."""
    click.echo(text, file=file, color=False if os.environ.get("NO_COLOR") else None)
