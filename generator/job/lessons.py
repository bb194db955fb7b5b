"""What was learned on one job and may matter on another: "do differently" and "watch out" of the logs.

    read_lessons     every lesson of an archive, with the job it comes from
    read_lessons_at  those of one job file
    lessons_of       those of one job
    likeness         what makes another job like this one
    for_job          what counts for a job

A log without such a note costs no more than looking for the two words in it, and its job is not read.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Final

from generator.errors import BadDesignation, JobProblems
from generator.job.learned import WORDS_OF_LESSONS, Alike, Found, Lesson, Lessons, Likeness
from generator.job.log import Entry
from generator.job.log_names import log_names
from generator.job.model import Job, Mate
from generator.job.operations import THREAD_ALONE
from generator.job.reading import ReadJob, ReadLog, find_jobs, read_job, read_log
from generator.job.shop import Shop
from generator.threads.designation import Designation, Hand
from generator.threads.registry import parse_designation

logger = logging.getLogger(__name__)

FINISHED: Final = ("done", "scrapped")
_LOG: Final = "log.yml"
_UNKNOWN: Final = "unknown"  # two materials that nobody knows are not the same


def likeness(job: Job) -> Likeness:
    """What makes another job like this one."""
    keys: set[tuple[Alike, str]] = {("lathe", job.lathe)}
    if job.material != _UNKNOWN:
        keys.add(("material", _plain(job.material)))
    for what in (job.drawing, job.title.partition(",")[0]):
        if job.customer and what:
            keys.add(("part", f"{_plain(job.customer)}: {_plain(what)}"))
    keys |= {("thread", key) for key in _threads(job)}
    return Likeness(tuple(sorted(keys)), tuple(sorted({one.name for one in job.operations})))


def _plain(words: str) -> str:
    return " ".join(words.lower().split())


def _threads(job: Job) -> Iterator[str]:
    """The threads that are cut and that of the mate, however they are spelt; inside and outside are one.

    A mate that is not said to be left hand has the hand of the thread it screws on.
    """
    hands: list[Hand] = []
    for one in job.operations:
        if one.thread is not None:
            with suppress(BadDesignation):
                found = one.thread.read()
                hands.append(one.thread.hand or found.hand)
                yield _thread(found, hands[-1])
    if isinstance(job.mate, Mate) and job.mate.thread:
        with suppress(BadDesignation):
            found = parse_designation(job.mate.thread)
            yield _thread(found, hands[0] if hands and found.hand == "right" else found.hand)


def _thread(found: Designation, hand: Hand) -> str:
    size = f"{found.nominal!r} {found.unit} {found.pitch} {found.lead}"
    return f"{found.family} {size} {hand} {found.form}"


def for_job(lessons: Lessons, job: Job, folder: Path) -> Found:
    """What was learned on other jobs and counts for this one; one that is done, or scrapped, learns no more.

    `folder` is its own, as year and name.
    """
    return Found() if job.status in FINISHED else lessons.found(likeness(job), folder)


def read_lessons(jobs_dir: Path, shop: Shop | JobProblems) -> Lessons:
    """Every lesson below `jobs_dir`; what cannot be read is left out, and its own page says why."""
    if isinstance(shop, JobProblems):
        return Lessons(())
    found: list[Lesson] = []
    for path in find_jobs(jobs_dir):
        try:
            found += read_lessons_at(path, shop)
        except (OSError, JobProblems):
            continue
        except Exception:  # a fault of ours in one job must not hide the others
            logger.debug("%s", path, exc_info=True)
    return Lessons(found)


def read_lessons_at(path: Path, shop: Shop) -> tuple[Lesson, ...]:
    """The lessons of the job file at `path`.

    Raises
    ------
    OSError, JobProblems
        When its log or its job file cannot be read.
    """
    beside = path.with_name(_LOG)
    if not beside.exists():
        return ()
    data = beside.read_bytes()
    if not any(key in data for key in WORDS_OF_LESSONS):
        return ()
    read = read_job(path, shop)
    lathe = shop.lathes.get(read.job.lathe)
    if lathe is None:
        return ()
    names = log_names(read.job, shop)
    return tuple(lessons_of(read, read_log(beside, read.job.units, lathe.units, data, names)))


def lessons_of(read: ReadJob, log: ReadLog) -> Iterator[Lesson]:
    """The lessons in the log of one job, oldest first."""
    own, folder, job = likeness(read.job), read.path.parent, read.job
    superseded_by = job.superseded_by if job.superseded_by not in (None, job.job) else None
    for one in log.entries:
        entry = one.entry
        if entry.taken_up is not None and entry.taken_up.lathe is not None:
            own = _on_lathe(own, entry.taken_up.lathe)
        for watch, words in ((True, entry.watch_out), (False, entry.do_differently)):
            if words:
                yield Lesson(
                    job.job, folder.parent.name, folder.name, str(entry.at.day), watch, words,
                    _operation(entry, job), entry.lesson_for, own, superseded_by or "",
                )


def _on_lathe(own: Likeness, lathe: str) -> Likeness:
    """The same on another lathe."""
    rest = tuple(key for key in own.keys if key[0] != "lathe")
    return replace(own, keys=tuple(sorted((*rest, ("lathe", lathe)))))


def _operation(entry: Entry, job: Job) -> str:
    """The name of the operation that an entry is about, "" where it does not say; a pass is the thread's.

    A number is one of the route: that of the job file, unless the sheet proposes another one.
    """
    names = [one.name for one in job.operations]
    if entry.operation is None:
        of_thread = entry.pass_ is not None or entry.stop is not None or entry.taken_up is not None
        return "thread" if of_thread and "thread" in names else ""
    name = "_".join(entry.operation.replace("_", " ").lower().split())
    if not name.isdecimal():
        return name
    proposed = job.order != "as written" or set(names) <= THREAD_ALONE
    return names[int(name) - 1] if not proposed and 0 < int(name) <= len(names) else ""
