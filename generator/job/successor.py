"""The job that takes the place of this one: `superseded_by` in the job file, looked for in its archive."""

from __future__ import annotations

from generator.job.beside import Successor
from generator.job.contradiction import Contradiction
from generator.job.reading import ReadJob, find_jobs


def successor(read: ReadJob) -> tuple[Successor | None, list[Contradiction]]:
    """The job that supersedes this one, and what is to be said about it; None when nothing does."""
    number, where = read.job.superseded_by, read.where("superseded_by")
    if number is None:
        return None, []
    if number in (read.job.job, read.path.parent.name):
        text = f"The job says that {number} supersedes it, which is this very job: write the other number."
        return None, [Contradiction("superseded-itself", "check", text, where)]
    found = _in_archive(read, number)
    said = f"This sheet is superseded by {number}: do not work from it."
    if not found.folder:
        said += " No job of that number is in the archive: ask the office for it."
    return found, [Contradiction("superseded", "check", said, where)]


def _in_archive(read: ReadJob, number: str) -> Successor:
    """The first job whose folder has the number or begins with it, as the command line finds jobs."""
    archive = read.path.resolve().parent.parent.parent
    if (archive / "_shop").is_dir():
        for path in find_jobs(archive):
            name = path.parent.name
            if name == number or name.startswith(f"{number}-"):
                return Successor(number, path.parent.parent.name, name)
    return Successor(number)
