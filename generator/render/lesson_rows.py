"""The lessons of a sheet as the page shows them: a few at once, the rest folded.

LessonRow, SearchLink, LessonBlock    what the template gets
lesson_block                          Sheet -> LessonBlock
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final
from urllib.parse import quote

from generator.language.say import say_count
from generator.sheet.happened import LessonLine
from generator.sheet.model import Sheet

AT_ONCE: Final = 4
ARCHIVE: Final = "../../index.html"  # from the page of a sheet


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
class SearchLink:
    """What the jobs that are left out share with this one; `link` searches the archive for them."""

    words: str
    link: str


@dataclass(frozen=True)
class LessonBlock:
    """What is shown at once and what is folded, and the words for both.

    `on_paper` stands in print, where nothing can be unfolded.
    """

    first: tuple[LessonRow, ...] = ()
    rest: tuple[LessonRow, ...] = ()
    more_words: str = ""
    left_out: str = ""
    search: tuple[SearchLink, ...] = ()
    on_paper: str = ""

    def without_links(self) -> LessonBlock:
        """The same for a page that stands alone."""
        first, rest = (tuple(replace(row, link="") for row in rows) for rows in (self.first, self.rest))
        return replace(self, first=first, rest=rest, search=())


def lesson_block(sheet: Sheet) -> LessonBlock:
    """The lessons, those of this job first."""
    rows = tuple(_row(line) for line in sheet.learned.lines)
    learned, rest = sheet.learned, rows[AT_ONCE:]
    unseen = len(rest) + learned.more
    return LessonBlock(
        rows[:AT_ONCE],
        rest,
        say_count("{count} more", "{count} more", len(rest)),
        _left_out(learned.more) if learned.more else "",
        tuple(SearchLink(words, f"{ARCHIVE}#find={quote(what, safe='')}") for words, what in learned.search),
        _on_the_page(unseen) if unseen else "",
    )


def _left_out(many: int) -> str:
    return say_count(
        "{count} more of other jobs is left out.", "{count} more of other jobs are left out.", many
    )


def _on_the_page(many: int) -> str:
    return say_count(
        "{count} more is on the page of this sheet and in the archive.",
        "{count} more are on the page of this sheet and in the archive.",
        many,
    )


def _row(line: LessonLine) -> LessonRow:
    link = quote(f"../{line.year}/{line.folder}.html") if line.folder else ""
    return LessonRow(line.kind, line.words, line.at, line.why, line.number, link)
