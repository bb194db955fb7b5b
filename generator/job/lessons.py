"""What was learned on one job and may matter on another: "do differently" and "watch out" of the logs.

    read_lessons     every lesson of an archive, with the job it comes from
    lessons_of       those of one job
    likeness         what makes another job like this one
    Lessons          finds what counts for a job

A log without such a note costs no more than looking for the two words in it, and its job is not read.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.errors import BadDesignation, JobProblems
from generator.job.log import Alike
from generator.job.model import Job, Mate
from generator.job.operations import Thread
from generator.job.reading import ReadJob, ReadLog, find_jobs, read_job, read_log
from generator.job.shop import Shop
from generator.threads.registry import parse_designation

ALIKE: Final[tuple[Alike, ...]] = ("part", "thread", "lathe", "material")  # what weighs most stands first
OF_ITSELF: Final = ("part", "thread")  # count without being asked; the others with the same operation
FINISHED: Final = ("done", "scrapped")
_KEYS: Final = (b"watch_out", b"do_differently")
_LOG: Final = "log.yml"


@dataclass(frozen=True)
class Likeness:
    """What another job may share with this one, and the names of its operations."""

    keys: tuple[tuple[Alike, str], ...]
    operations: tuple[str, ...]


@dataclass(frozen=True)
class Lesson:
    """One note of a log, with the job it comes from.

    `operation` is the name of the operation it was written at, "" for none. `counts_for` is empty where the
    log does not say for which likeness it counts.
    """

    number: str
    year: str
    folder: str
    at: str
    watch: bool
    words: str
    operation: str
    counts_for: tuple[str, ...]
    likeness: Likeness


@dataclass(frozen=True)
class Match:
    """A lesson with what its job shares with this one, the weightiest first."""

    lesson: Lesson
    shares: tuple[Alike, ...]


class Lessons:
    """The lessons of an archive, found by what jobs share; `word` is another for any other lessons."""

    def __init__(self, lessons: Iterable[Lesson]) -> None:
        lessons = tuple(lessons)
        self.word = hashlib.sha256(repr(lessons).encode("utf-8", "surrogateescape")).hexdigest()
        self._by_key: dict[tuple[Alike, str], list[Lesson]] = {}
        for lesson in lessons:
            for key in lesson.likeness.keys:
                self._by_key.setdefault(key, []).append(lesson)

    def for_job(self, job: Job, folder: Path) -> tuple[Match, ...]:
        """What was learned on other jobs and counts for this one: part first, then thread, then the newest.

        `folder` is its own, as year and name. A job that is done, or scrapped, learns no more.
        """
        if job.status in FINISHED:
            return ()
        own, own_folder = likeness(job), (folder.parent.name, folder.name)
        shared: dict[Lesson, set[Alike]] = {}
        for key in own.keys:
            for lesson in self._by_key.get(key, ()):
                if (lesson.year, lesson.folder) != own_folder and _counts(lesson, key[0], own):
                    shared.setdefault(lesson, set()).add(key[0])
        matches = [
            Match(lesson, tuple(one for one in ALIKE if one in found)) for lesson, found in shared.items()
        ]
        matches.sort(key=lambda one: (one.lesson.at, one.lesson.folder), reverse=True)
        matches.sort(
            key=lambda one: ("part" not in one.shares, "thread" not in one.shares, -len(one.shares))
        )
        return tuple(matches)


def _counts(lesson: Lesson, kind: Alike, own: Likeness) -> bool:
    """Whether a lesson counts for this kind of likeness."""
    if lesson.counts_for:
        return kind in lesson.counts_for
    return kind in OF_ITSELF or lesson.operation in own.operations


def likeness(job: Job) -> Likeness:
    """What makes another job like this one."""
    keys: set[tuple[Alike, str]] = {("lathe", job.lathe), ("material", _plain(job.material))}
    for what in (job.drawing, job.title.partition(",")[0]):
        if job.customer and what:
            keys.add(("part", f"{_plain(job.customer)}: {_plain(what)}"))
    keys |= {("thread", key) for key in _threads(job)}
    return Likeness(tuple(sorted(keys)), tuple(sorted({one.name for one in job.operations})))


def _plain(words: str) -> str:
    return " ".join(words.lower().split())


def _threads(job: Job) -> Iterator[str]:
    """The threads that are cut and that of the mate, however they are spelt; inside and outside are one."""
    said = [(cut.designation, cut.hand) for one in job.operations if isinstance(cut := one.given, Thread)]
    if isinstance(job.mate, Mate) and job.mate.thread:
        said.append((job.mate.thread, None))
    for text, hand in said:
        try:
            found = parse_designation(text)
        except BadDesignation:
            continue
        size = f"{found.nominal:g} {found.unit} {found.pitch} {found.lead}"
        yield f"{found.family} {size} {hand or found.hand} {found.form}"


def read_lessons(jobs_dir: Path, shop: Shop | JobProblems) -> Lessons:
    """Every lesson below `jobs_dir`; what cannot be read is left out, and its own page says why."""
    if isinstance(shop, JobProblems):
        return Lessons(())
    found: list[Lesson] = []
    for path in find_jobs(jobs_dir):
        log = path.with_name(_LOG)
        try:
            data = log.read_bytes()
            if not any(key in data for key in _KEYS):
                continue
            read = read_job(path, shop)
        except (OSError, JobProblems):
            continue
        lathe = shop.lathes.get(read.job.lathe)
        if lathe is not None:
            found += lessons_of(read, read_log(log, read.job.units, lathe.units, data))
    return Lessons(found)


def lessons_of(read: ReadJob, log: ReadLog) -> Iterator[Lesson]:
    """The lessons in the log of one job, oldest first."""
    own = likeness(read.job)
    for one in log.entries:
        entry = one.entry
        for watch, words in ((True, entry.watch_out), (False, entry.do_differently)):
            if words:
                folder = read.path.parent
                yield Lesson(
                    read.job.job, folder.parent.name, folder.name, str(entry.at.day), watch, words,
                    _operation(entry.operation, read.job), entry.lesson_for, own,
                )


def _operation(said: str | None, job: Job) -> str:
    """The name of the operation that an entry is about, by its name; by its number in the job's own order."""
    name = (said or "").strip().lower().replace(" ", "_")
    if name.isdigit() and 0 < int(name) <= len(job.operations):
        return job.operations[int(name) - 1].name
    return name
