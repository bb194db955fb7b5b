"""Hostile text in a file: read as text, or refused at its line and column; never anything else."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.errors import JobProblems
from generator.job.reading import read_job, read_log
from generator.job.written import System
from tests.hostile_texts import OWN, PUBLISHED, TEXTS, raw_files, read_plainly, written

STUD = Path(__file__).parents[2] / "jobs" / "2026" / "SW-115-gate-stud" / "job.yml"


def test_there_are_enough_of_them() -> None:
    assert len(set(PUBLISHED)) >= 450
    assert sum(len(texts) for texts in OWN.values()) >= 200
    assert len(TEXTS) >= 700


def located(error: JobProblems, path: Path, data: bytes) -> None:
    """Every problem names the file, and a line and column that are in it."""
    lines = len(data.decode("utf-8", "replace").splitlines())
    assert error.problems
    for problem in error.problems:
        where = problem.location
        assert (where.path, problem.message.strip() != "") == (path, True)
        assert str(problem).startswith(f"{path.as_posix()}:{where.line}:{where.column}: ")
        assert 1 <= where.line <= lines + 1  # what is not closed is missed at the end of the file
        assert where.column >= 1
        problem.with_caret()


def test_a_file_in_which_it_stands_as_it_is_is_refused_at_a_place(tmp_path: Path) -> None:
    """Each file lacks keys, so that none can be read."""
    path = tmp_path / "job.yml"
    for data in raw_files():
        path.write_bytes(data)
        with pytest.raises(JobProblems) as caught:
            read_job(path)
        located(caught.value, path, data)


def test_what_is_read_is_the_text_and_nothing_else(tmp_path: Path) -> None:
    """Written sign by sign, so that YAML has no say in it."""
    path, read = tmp_path / "job.yml", 0
    stud = read_plainly(STUD)
    for text in TEXTS:
        data = written({**stud, "notes": [text], "asked": text}).encode()
        path.write_bytes(data)
        try:
            job = read_job(path).job
        except JobProblems as error:
            located(error, path, data)
            continue
        assert (job.asked, job.notes) == (text.strip(), [text.strip()])
        read += 1
    assert read > len(TEXTS) * 0.95


def test_so_in_a_log(tmp_path: Path) -> None:
    path = tmp_path / "log.yml"
    units: System = "inch"
    for text in TEXTS:
        data = written([{"at": "2026-03-04", "note": text, "by": text}]).encode()
        found = read_log(path, units, units, data)
        assert len(found.entries) + bool(found.problems) == 1
        for one in found.entries:
            assert one.entry.note == text.strip()
        if found.problems:
            located(JobProblems(found.problems), path, data)
