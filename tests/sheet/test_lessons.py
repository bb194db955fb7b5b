"""The lessons of a sheet: its own first, why the others stand there, and how many are left out."""

from __future__ import annotations

from dataclasses import replace

from generator.job.lessons import Lesson, Likeness, Match
from generator.render.page import render_page
from generator.sheet.lessons import MOST, lesson_lines
from generator.sheet.model import Sheet

NONE = Likeness((), ())


def lesson(words: str = "The burr.", number: str = "A-1", watch: bool = True) -> Lesson:
    return Lesson(number, "2025", f"{number}-pin", "2025-03-04", watch, words, "", (), NONE)


def test_own_lessons_stand_first_without_a_job_or_a_reason() -> None:
    learned = lesson_lines([lesson("Own.", watch=False)], [Match(lesson("Other."), ("thread", "lathe"))])
    own, other = learned.lines
    assert (own.kind, own.words, own.why, own.folder) == ("Do differently", "Own.", "", "")
    assert (other.kind, other.why, other.folder) == (
        "Watch out", "the same thread and the same lathe", "A-1-pin"
    )


def test_no_more_than_can_be_read_and_the_number_of_the_others() -> None:
    learned = lesson_lines([], [Match(lesson(str(n)), ("thread",)) for n in range(MOST + 3)])
    assert (len(learned.lines), learned.more) == (MOST, 3)


def test_the_page_shows_four_and_folds_the_rest(sheet_of) -> None:
    sheet: Sheet = sheet_of()
    many = lesson_lines([], [Match(lesson(f"No {n}."), ("thread",)) for n in range(MOST + 1)])
    page = render_page(replace(sheet, learned=many))
    first, folded = page.split('<details class="more-lessons">')
    assert "No 3." in first
    assert "No 4." not in first
    assert "No 11." in folded
    assert "8 more" in folded
    assert "1 more of other jobs is left out: look for them in the archive." in folded
    assert '<a href="../2025/A-1-pin.html">A-1</a>: the same thread' in first


def test_words_of_a_lesson_stay_words(sheet_of) -> None:
    learned = lesson_lines([], [Match(lesson("<img src=x onerror=alert(1)>"), ("part",))])
    page = render_page(replace(sheet_of(), learned=learned))
    assert "<img src=x" not in page
    assert "&lt;img src=x" in page


def test_without_lessons_there_is_no_such_part(sheet_of) -> None:
    assert "Learned before" not in render_page(sheet_of())
