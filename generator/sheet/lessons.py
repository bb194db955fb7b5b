"""What was learned, on this job and on those like it, for the top of the sheet.

    lesson_lines     own lessons first, then those of other jobs, each with why it stands there
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from generator.job.lessons import Lesson, Match
from generator.job.log import Alike
from generator.sheet.model import LearnedHere, LessonLine

MOST: Final = 12  # lessons of other jobs: more are not read at a lathe
WORDS: Final[dict[Alike, str]] = {
    "part": "the same part of this customer", "thread": "the same thread", "lathe": "the same lathe",
    "material": "the same material",
}


def lesson_lines(own: Iterable[Lesson], others: Sequence[Match]) -> LearnedHere:
    """The lessons of a sheet in order, and how many of other jobs are left out."""
    lines = [_line(lesson, "") for lesson in own]
    lines += [_line(one.lesson, _why(one.shares)) for one in others[:MOST]]
    return LearnedHere(tuple(lines), max(len(others) - MOST, 0))


def _line(lesson: Lesson, why: str) -> LessonLine:
    return LessonLine(
        "Watch out" if lesson.watch else "Do differently", lesson.words, lesson.at, why,
        lesson.number if why else "", lesson.year if why else "", lesson.folder if why else "",
    )


def _why(shares: Sequence[Alike]) -> str:
    """Why a lesson of another job stands here.

    >>> _why(("thread", "lathe"))
    'the same thread and the same lathe'
    """
    said = [WORDS[kind] for kind in shares]
    return " and ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)
