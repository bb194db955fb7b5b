"""The lessons of a sheet: its own first, why the others stand there, and how many are left out."""

from __future__ import annotations

from dataclasses import replace

from generator.job.learned import MOST, Alike, Found, Lesson, Likeness, Match
from generator.render.page import render_page
from generator.sheet.lessons import lesson_lines
from generator.sheet.model import Sheet
from generator.sheet.row import ArchiveRow, ThreadRow
from generator.si import inch

NONE = Likeness((), ())
ROW = ArchiveRow("A-2", "Pin", "2026", "planned")


def lesson(words: str = "The burr.", number: str = "A-1", watch: bool = True) -> Lesson:
    return Lesson(number, "2025", f"{number}-pin", "2025-03-04", watch, words, "", (), NONE)


def others(*lessons: Lesson, shares: tuple[Alike, ...] = ("thread",)) -> Found:
    return Found(tuple(Match(one, shares) for one in lessons))


def test_own_lessons_stand_first_without_a_job_or_a_reason() -> None:
    found = others(lesson("Other."), shares=("thread", "lathe"))
    learned = lesson_lines([lesson("Own.", watch=False)], found, ROW)
    own, other = learned.lines
    assert (own.kind, own.words, own.why, own.folder) == ("Do differently", "Own.", "", "")
    assert (other.kind, other.why, other.folder) == (
        "Watch out", "the same thread and the same lathe", "A-1-pin"
    )


def test_the_archive_is_searched_for_what_the_others_share() -> None:
    found = Found((), 3, ("thread", "lathe", "material"))
    thread = ThreadRow("2-8 UN-2A", "UN", "2 in", 2 * inch, "8 per inch", inch / 8, 1, "right", "outside")
    row = replace(ROW, thread=thread, lathe="L1 Long bed", customer="AA-01")
    learned = lesson_lines([], found, row)
    assert learned.more == 3
    assert learned.search == (("the same thread", "2-8 UN-2A"), ("the same lathe", "L1 Long bed"))


def test_a_superseded_job_says_so() -> None:
    (line,) = lesson_lines([], others(replace(lesson(), superseded_by="A-9")), ROW).lines
    assert line.why == "the same thread; superseded by A-9"


def test_the_page_shows_four_and_folds_the_rest(sheet_of) -> None:
    sheet: Sheet = sheet_of()
    found = replace(others(*(lesson(f"No {n}.") for n in range(MOST))), more=1, more_share=("lathe",))
    page = render_page(replace(sheet, learned=lesson_lines([], found, replace(ROW, lathe='L1 "& <b>'))))
    first, folded = page.split('<details class="more-lessons">')
    assert "No 3." in first
    assert "No 4." not in first
    assert "No 11." in folded
    assert "8 more" in folded
    assert "1 more of other jobs is left out. Look in the archive for " in folded
    assert '<a href="../../index.html#find=L1%20%22%26%20%3Cb%3E">the same lathe</a>.' in folded
    assert "9 more are on the page of this sheet and in the archive." in folded
    assert '<a href="../2025/A-1-pin.html">A-1</a>: the same thread' in first


def test_words_of_a_lesson_stay_words(sheet_of) -> None:
    learned = lesson_lines([], others(lesson("<img src=x onerror=alert(1)>")), ROW)
    page = render_page(replace(sheet_of(), learned=learned))
    assert "<img src=x" not in page
    assert "&lt;img src=x" in page


def test_without_lessons_there_is_no_such_part(sheet_of) -> None:
    assert "Learned before" not in render_page(sheet_of())
