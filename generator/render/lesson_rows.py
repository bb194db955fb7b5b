"""The lessons of a sheet as the page shows them: a few at once, the rest folded.

LessonRow, LessonBlock    what the template gets
lesson_block              Sheet -> LessonBlock
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final
from urllib.parse import quote

from generator.sheet.model import LessonLine, Sheet

AT_ONCE: Final = 4


@dataclass(frozen=True)
class LessonRow:
    """One lesson; `link` leads from this page to the sheet of its job, empty for the sheet's own."""

    kind: str
    words: str
    at: str
    why: str
    number: str
    link: str


@dataclass(frozen=True)
class LessonBlock:
    """What is shown at once and what is folded, and the words for both."""

    first: tuple[LessonRow, ...] = ()
    rest: tuple[LessonRow, ...] = ()
    more_words: str = ""
    left_out: str = ""

    def without_links(self) -> LessonBlock:
        """The same for a page that stands alone."""
        first, rest = (tuple(replace(row, link="") for row in rows) for rows in (self.first, self.rest))
        return replace(self, first=first, rest=rest)


def lesson_block(sheet: Sheet) -> LessonBlock:
    """The lessons, those of this job first."""
    rows = tuple(_row(line) for line in sheet.learned.lines)
    more, rest = sheet.learned.more, rows[AT_ONCE:]
    return LessonBlock(
        rows[:AT_ONCE], rest, f"{len(rest)} more",
        f"{more} more of other jobs {'is' if more == 1 else 'are'} left out: look for them in the archive."
        if more else "",
    )


def _row(line: LessonLine) -> LessonRow:
    link = quote(f"../{line.year}/{line.folder}.html") if line.folder else ""
    return LessonRow(line.kind, line.words, line.at, line.why, line.number, link)
