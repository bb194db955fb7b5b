"""What was learned, found by what jobs share; it knows nothing of job files.

    Likeness    what another job may share with this one
    Lesson      one note of a log, with the job it comes from
    Lessons     finds what counts for a job

A set of lessons is the bits of one whole number, the newest lesson the lowest bit: many jobs on few lathes
share so many that going through them one by one would take longer than reading the job.
"""

from __future__ import annotations

import hashlib
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import reduce
from itertools import combinations
from operator import or_
from pathlib import Path
from typing import Final, Literal

Alike = Literal["part", "thread", "lathe", "material"]
ALIKE: Final[tuple[Alike, ...]] = ("part", "thread", "lathe", "material")  # what weighs most stands first
OF_ITSELF: Final = ("part", "thread")  # count without being asked; the others with the same operation
WORDS_OF_LESSONS: Final = (b"watch_out", b"do_differently")  # a log without them has none
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

    def found(self, own: Likeness, folder: Path) -> Found:
        """What was learned on other jobs and counts for this one: part first, then thread, then the newest.

        `folder` is its own, as year and name.
        """
        others = ~self._by_folder.get((folder.parent.name, folder.name), 0)
        shared = dict.fromkeys(ALIKE, 0)
        for kind, key in _looked_up(own):
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
