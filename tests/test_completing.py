"""A shell asks the program for words, as argcomplete does it, and gets those of this folder."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.small_shop import ROOT, small_shop

JOBS = ("SW-109-brake-pull-rod", "SW-113-bollard-spindle")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = small_shop(tmp_path_factory.mktemp("shop"), JOBS)
    for name in ("X-7-pin", "X-7-other-pin"):
        (folder / "jobs" / "2026" / name).mkdir()
        (folder / "jobs" / "2026" / name / "job.yml").touch()
    return folder


def asked(shop: Path, line: str) -> list[str]:
    """What the shell is told for this line, with the cursor at its end."""
    answer = shop / "answer"
    told = {
        "_ARGCOMPLETE": "1", "_ARGCOMPLETE_STDOUT_FILENAME": str(answer), "_ARGCOMPLETE_IFS": "\n",
        "COMP_LINE": line, "COMP_POINT": str(len(line)), "PYTHONPATH": str(ROOT),
    }
    subprocess.run(
        [sys.executable, "-m", "generator"], cwd=shop, env={**os.environ, **told}, check=True, timeout=60
    )
    return [word.strip() for word in answer.read_text(encoding="utf-8").splitlines()]


@pytest.mark.parametrize(("line", "words"), [
    ("setup-sheets comp", ["compare"]),
    ("setup-sheets figures SW", ["SW-109", "SW-113"]),
    ("setup-sheets check SW-113 X", ["X-7-other-pin", "X-7-pin"]),
    ("setup-sheets gears --lathe l", ["long-bed"]),
    ("setup-sheets sheet SW-113 --pages m", ["machine"]),
])  # fmt: skip
def test_it_completes_commands_options_jobs_and_lathes(shop: Path, line: str, words: list[str]) -> None:
    assert asked(shop, line) == words
