"""Every kind of problem in job and shop files, with its place and its exact words.

Each `bad/NAME.yml` has its problems in `bad/NAME.txt`, one a line, as `line:column: field: message`. The
first word of a name says which file of the shop it stands for; all others are jobs.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.errors import JobProblems
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.reading import read_checked
from generator.job.shop import House, Materials, Tools

BAD = Path(__file__).parent / "bad"
MODELS = {"lathe": Lathe, "tools": Tools, "materials": Materials, "house": House}


def problems_of(path: Path) -> str:
    """What is said about a file, without its path."""
    with pytest.raises(JobProblems) as caught:
        read_checked(path, MODELS.get(path.stem.partition("-")[0], Job))
    return "".join(
        f"{str(problem).removeprefix(f'{path.as_posix()}:')}\n" for problem in caught.value.problems
    )


@pytest.mark.parametrize("path", sorted(BAD.glob("*.yml")), ids=lambda path: path.stem)
def test_says_exactly(path: Path) -> None:
    assert problems_of(path) == path.with_suffix(".txt").read_text("utf-8")


def test_every_expected_text_has_its_file() -> None:
    assert {path.stem for path in BAD.glob("*.txt")} == {path.stem for path in BAD.glob("*.yml")}
