"""How far a long build is, on a terminal and elsewhere, and what it says at the end."""

from __future__ import annotations

import io
import sys

import pytest

from generator.sheet.row import ArchiveRow
from generator.site import progress as module
from generator.site.entry import Archive, Entry
from generator.site.progress import progress, summary


def test_elsewhere_a_plain_line_now_and_then(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = iter(range(0, 100_000, 4))
    monkeypatch.setattr(module.time, "monotonic", lambda: float(next(clock)))
    with progress() as told:
        for number in range(1, 1001):
            told(number, 1000)
    lines = capsys.readouterr().err.splitlines()
    assert lines[-1] == "1,000 of 1,000 sheets made"
    assert len(lines) == 250  # every fifteen seconds, and four pass between two jobs


def test_on_a_terminal_one_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    with progress() as told:
        for number in range(1, 201):
            told(number, 200)
    said = terminal.getvalue()
    assert "Making sheets" in said
    assert "200/200" in said
    assert said.count("\n") == 1


@pytest.mark.parametrize("tty", [True, False])
def test_few_jobs_are_not_worth_a_word(tty: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    out = io.StringIO()
    monkeypatch.setattr(out, "isatty", lambda: tty, raising=False)
    monkeypatch.setattr(sys, "stderr", out)
    with progress() as told:
        for number in range(1, 10):
            told(number, 9)
    assert out.getvalue() == ""


def test_one_summary_says_what_was_made_kept_and_is_not_ready() -> None:
    entries = tuple(
        Entry(f"jobs/2026/{n}/job.yml", f"{n}.html", ArchiveRow(f"{n}", "", "2026", "done", n > 2))
        for n in range(1500)
    )
    assert summary(Archive(entries, reused=1499), 2.345) == (
        "1,500 jobs, 1 made, 1,499 as before, 3 not ready to run in 2.3 s"
    )
