"""What was learned on one job and may matter on another: "do differently" and "watch out" of the logs.

    read_lessons     every lesson of an archive, with the job it comes from
    lessons_of       those of one job
    likeness         what makes another job like this one
    Lessons          finds what counts for a job

A log without such a note costs no more than looking for the two words in it, and its job is not read. A set
of lessons is the bits of one whole number, the newest lesson the lowest bit: many jobs on few lathes share so
many that going through them one by one would take longer than reading the job.
"""

from __future__ import annotations

import hashlib
import logging
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import reduce
from itertools import combinations
from operator import or_
from pathlib import Path
from typing import Final

from generator.errors import BadDesignation, JobProblems
from generator.job.log import Alike, Entry
from generator.job.log_names import log_names
from generator.job.model import Job, Mate
from generator.job.operations import THREAD_ALONE
from generator.job.reading import ReadJob, ReadLog, find_jobs, read_job, read_log
from generator.job.shop import Shop
from generator.threads.designation import Designation, Hand
from generator.threads.registry import parse_designation

logger = logging.getLogger(__name__)

ALIKE: Final[tuple[Alike, ...]] = ("part", "thread", "lathe", "material")  # what weighs most stands first
OF_ITSELF: Final = ("part", "thread")  # count without being asked; the others with the same operation
FINISHED: Final = ("done", "scrapped")
_KEYS: Final = (b"watch_out", b"do_differently")
_LOG: Final = "log.yml"
_UNKNOWN: Final = "unknown"  # two materials that nobody knows are not the same
MOST: Final = 12  # lessons of other jobs on one sheet: more are not read at a lathe


@dataclass(frozen=True)
class Likeness:
    """What another job may share with this one, and the names of its operations."""

    keys: tuple[tuple[Alike, str], ...]
    operations: tuple[str, ...]


@dataclass(frozen=True)
class Lesson:
    """One note of a log, with the job it comes from.

    `operation` is the name of the operation it was written at, "" for none. `counts_for` is empty where the
    log does not say for which likeness it counts; `superseded_by` where another job took its job's place.
    `likeness` has the lathe that the work was on when it was written.
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
    superseded_by: str = ""


@dataclass(frozen=True)
class Match:
    """A lesson with what its job shares with this one, the weightiest first."""

    lesson: Lesson
    shares: tuple[Alike, ...]


@dataclass(frozen=True)
class Found:
    """The lessons for one job that matter most, how many more there are, and what those share with it."""

    matches: tuple[Match, ...] = ()
    more: int = 0
    more_share: tuple[Alike, ...] = ()


class Lessons:
    """The lessons of an archive, found by what jobs share; `word` is another for any other lessons."""

    def __init__(self, lessons: Iterable[Lesson]) -> None:
        lessons = tuple(lessons)
        self.word = hashlib.sha256(repr(lessons).encode("utf-8", "surrogateescape")).hexdigest()
        self._lessons = sorted(lessons, key=lambda one: (one.at, one.folder), reverse=True)
        self._by_key: defaultdict[tuple[str, ...], int] = defaultdict(int)
        self._by_folder: defaultdict[tuple[str, str], int] = defaultdict(int)
        for number, lesson in enumerate(self._lessons):
            self._by_folder[lesson.year, lesson.folder] |= 1 << number
            for key in _counts_by(lesson):
                self._by_key[key] |= 1 << number

    def for_job(self, job: Job, folder: Path) -> Found:
        """What was learned on other jobs and counts for this one: part first, then thread, then the newest.

        `folder` is its own, as year and name. A job that is done, or scrapped, learns no more.
        """
        if job.status in FINISHED:
            return Found()
        others = ~self._by_folder.get((folder.parent.name, folder.name), 0)
        shared = dict.fromkeys(ALIKE, 0)
        for kind, key in _looked_up(likeness(job)):
            shared[kind] |= self._by_key.get(key, 0) & others
        numbers, rest = _first(shared)
        return Found(
            tuple(
                Match(self._lessons[one], tuple(kind for kind in ALIKE if shared[kind] >> one & 1))
                for one in numbers
            ),
            rest.bit_count(),
            tuple(kind for kind in ALIKE if shared[kind] & rest),
        )


def _counts_by(lesson: Lesson) -> Iterator[tuple[str, ...]]:
    """What another job must share for this lesson to count: a likeness, or that and an operation."""
    for kind, what in lesson.likeness.keys:
        if lesson.counts_for:
            if kind in lesson.counts_for:
                yield kind, what
        elif kind in OF_ITSELF:
            yield kind, what
        elif lesson.operation:
            yield kind, what, lesson.operation


def _looked_up(own: Likeness) -> Iterator[tuple[Alike, tuple[str, ...]]]:
    """Under what the lessons for a job stand, as `_counts_by` put them there."""
    for kind, what in own.keys:
        yield kind, (kind, what)
        if kind not in OF_ITSELF:
            yield from ((kind, (kind, what, operation)) for operation in own.operations)


def _ranks() -> tuple[tuple[frozenset[Alike], ...], ...]:
    """What may be shared, the weightiest first; what weighs the same stands together."""
    weighed = defaultdict(list)
    for many in range(1, len(ALIKE) + 1):
        for kinds in combinations(ALIKE, many):
            weighed["part" not in kinds, "thread" not in kinds, -many].append(frozenset(kinds))
    return tuple(tuple(weighed[weight]) for weight in sorted(weighed))


_RANKS: Final = _ranks()


def _first(shared: Mapping[Alike, int]) -> tuple[list[int], int]:
    """The numbers of the `MOST` lessons that come first, and the set of the others."""
    numbers: list[int] = []
    rest = reduce(or_, shared.values())
    for rank in _RANKS:
        equal = reduce(or_, (_just(kinds, shared) for kinds in rank))
        while equal and len(numbers) < MOST:
            newest = equal & -equal
            numbers.append(newest.bit_length() - 1)
            equal ^= newest
            rest ^= newest
    return numbers, rest


def _just(kinds: frozenset[Alike], shared: Mapping[Alike, int]) -> int:
    """The lessons that share these kinds and no other."""
    found = -1
    for kind, some in shared.items():
        found &= some if kind in kinds else ~some
    return found


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


def read_lessons(jobs_dir: Path, shop: Shop | JobProblems) -> Lessons:
    """Every lesson below `jobs_dir`; what cannot be read is left out, and its own page says why."""
    if isinstance(shop, JobProblems):
        return Lessons(())
    found: list[Lesson] = []
    for path in find_jobs(jobs_dir):
        try:
            found += _lessons_at(path, shop)
        except (OSError, JobProblems):
            continue
        except Exception:  # a fault of ours in one job must not hide the others
            logger.debug("%s", path, exc_info=True)
    return Lessons(found)


def _lessons_at(path: Path, shop: Shop) -> tuple[Lesson, ...]:
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
    if not any(key in data for key in _KEYS):
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
