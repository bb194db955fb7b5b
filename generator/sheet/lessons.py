"""What was learned, on this job and on those like it, for the top of the sheet.

    lesson_lines     own lessons first, then those of other jobs, each with why it stands there
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from generator.job.learned import Alike, Found, Lesson
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.sheet.happened import LearnedHere, LessonLine
from generator.sheet.row import ArchiveRow

WORDS: Final[dict[Alike, str]] = {
    "part": later("the same part of this customer"),
    "thread": later("the same thread"),
    "lathe": later("the same lathe"),
    "material": later("the same material"),
}


def _looked_for(row: ArchiveRow) -> dict[Alike, str]:
    return {
        "part": row.customer, "thread": row.designation, "lathe": row.lathe, "material": row.material,
    }


def lesson_lines(own: Iterable[Lesson], others: Found, row: ArchiveRow) -> LearnedHere:
    """The lessons of a sheet in order, how many of other jobs are left out, and what to search for them.

    `row` is the archive's row of this job.
    """
    lines = [_line(lesson, "") for lesson in own]
    lines += [_line(one.lesson, _why(one.shares)) for one in others.matches]
    looked = _looked_for(row)
    words = ((WORDS[kind], looked[kind]) for kind in others.more_share)
    return LearnedHere(tuple(lines), others.more, tuple(pair for pair in words if pair[1]))


def _line(lesson: Lesson, why: str) -> LessonLine:
    kind = say("Watch out") if lesson.watch else say("Do differently")
    if not why:
        return LessonLine(kind, lesson.words, lesson.at)
    if lesson.superseded_by:
        why = say("{why}; superseded by {number}", why=why, number=lesson.superseded_by)
    return LessonLine(kind, lesson.words, lesson.at, why, lesson.number, lesson.year, lesson.folder)


def _why(shares: Sequence[Alike]) -> str:
    """Why a lesson of another job stands here.

    >>> _why(("thread", "lathe"))
    'the same thread and the same lathe'
    """
    return and_words(WORDS[kind] for kind in shares)
