"""A folder with a small archive, and the program called in it as a user would: for tests of commands."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest

from generator.__main__ import main

ROOT = Path(__file__).resolve().parent.parent
Run = Callable[..., tuple[int, str, str]]


def small_shop(folder: Path, jobs: Iterable[str]) -> Path:
    """The folder, with these jobs of the demo archive and its shop in it, without the schemas for editors."""
    without = shutil.ignore_patterns("schemas")
    shutil.copytree(ROOT / "jobs" / "_shop", folder / "jobs" / "_shop", ignore=without)
    for name in jobs:
        shutil.copytree(ROOT / "jobs" / "2026" / name, folder / "jobs" / "2026" / name)
    return folder


def runner(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *verb: str
) -> Run:
    """Calls the program in the folder, with the verb and more words: its status, and what it printed."""
    monkeypatch.chdir(folder)

    def called(*words: str) -> tuple[int, str, str]:
        try:
            status = main((*verb, *words))
        except SystemExit as stopped:
            status = int(stopped.code or 0)
        said = capsys.readouterr()
        assert "Traceback" not in said.err
        return status, said.out, said.err

    return called
