"""The job that takes the place of this one: `superseded_by` in the job file, looked for in its archive."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

from generator.errors import JobProblems
from generator.job.beside import Successor
from generator.job.contradiction import Contradiction
from generator.job.reading import ReadJob, find_jobs, read_job
from generator.language.say import say


def successor(read: ReadJob) -> tuple[Successor | None, list[Contradiction]]:
    """The job that supersedes this one, and what is to be said about it; None when nothing does."""
    number, where = read.job.superseded_by, read.where("superseded_by")
    if number is None:
        return None, []
    if number in (read.job.job, read.path.parent.name):
        text = say(
            "The job says that {number} supersedes it, which is this very job: write the other number.",
            number=number,
        )
        return None, [Contradiction("superseded-itself", "check", text, where)]
    path = _in_archive(read.path, number)
    said = say("This sheet is superseded by {number}: do not work from it.", number=number)
    if path is None:
        said += say(" No job of that number is in the archive: ask the office for it.")
        return Successor(number), [Contradiction("superseded", "check", said, where)]
    after, ring = _after(read.path, path)
    if ring:
        steps = _steps([read.job.job, number, *after])
        said += say(
            " They go around in a ring ({steps}), so none is the one to work from: ask the office which is, "
            "and take superseded_by out of its file.",
            steps=steps,
        )
    elif after:
        said += say(
            " Nor from {number}: take {newest} ({steps}).",
            number=number,
            newest=after[-1],
            steps=_steps([number, *after]),
        )
    found = Successor(number, path.parent.parent.name, path.parent.name)
    if ring:
        return found, [Contradiction("superseded-ring", "stop", said, where)]
    return found, [Contradiction("superseded", "check", said, where)]


def _after(first: Path, path: Path) -> tuple[list[str], bool]:
    """The numbers that supersede the job at `path`, each the one before it, and whether they come back."""
    numbers: list[str] = []
    seen = {first.resolve(), path.resolve()}
    while True:
        try:
            number = read_job(path).job.superseded_by
        except (JobProblems, OSError):  # its own page says what is wrong with it
            return numbers, False
        found = None if number is None else _in_archive(path, number)
        if number is None or found is None:
            return numbers, False
        numbers.append(number)
        if found.resolve() in seen:
            return numbers, True
        seen.add(found.resolve())
        path = found


def _steps(numbers: list[str]) -> str:
    """Which supersedes which.

    >>> _steps(["A", "B", "C"])
    'A by B, B by C'
    """
    return ", ".join(say("{old} by {new}", old=old, new=new) for old, new in pairwise(numbers))


def _in_archive(job: Path, number: str) -> Path | None:
    """The first job whose folder has the number or begins with it, as the command line finds jobs."""
    archive = job.resolve().parent.parent.parent
    if (archive / "_shop").is_dir():
        for path in find_jobs(archive):
            name = path.parent.name
            if name == number or name.startswith(f"{number}-"):
                return path
    return None
