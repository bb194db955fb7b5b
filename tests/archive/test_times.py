"""The page of times: its statistics, its sentences, and that it stays small."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html.parser import HTMLParser

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.archive.listed import Listed
from generator.archive.times import MOST_DOTS, kinds_of, says, spread_of, times_page
from generator.sheet.row import ArchiveRow, DayRow, ThreadRow, TimeRow
from generator.si import minute, mm
from tests.archive.rows import made_jobs
from tests.archive.worked import worked

HOSTILE = "</table><script>alert(1)</script>\"'&"
LARGEST = 250_000  # bytes of a page


def job(number: int, *times: TimeRow, year: str = "2026", thread: ThreadRow | None = None) -> Listed:
    row = ArchiveRow(f"J-{number}", "Pin", year, "done", ready=True, thread=thread, times=times)
    return Listed(f"sheets/{year}/J-{number}.html", row, str(number))


def turned(*ratios: float) -> list[Listed]:
    """A job for each, planned at 20 min."""
    return [job(place, TimeRow("turn", 20 * minute, 20 * minute * one)) for place, one in enumerate(ratios)]


def thread_on(side: str) -> ThreadRow:
    assert side in ("outside", "inside")
    inside = side == "inside"
    return ThreadRow(
        "M30x2", "ISO metric", "30 mm", 30 * mm, "2 mm", 2 * mm, 1, "right", "inside" if inside else "outside"
    )


class Cells(HTMLParser):
    """The rows of all tables."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[list[str]] = []
        self.inside = False

    def handle_starttag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        """A row, or a cell, begins."""
        if tag == "tr":
            self.rows.append([])
        self.inside = tag in ("td", "th")
        if self.inside:
            self.rows[-1].append("")

    def handle_endtag(self, tag: str) -> None:
        """A cell ends."""
        self.inside = self.inside and tag not in ("td", "th")

    def handle_data(self, data: str) -> None:
        """The text of a cell."""
        if self.inside:
            self.rows[-1][-1] += data


def rows_of(page: str) -> dict[str, list[str]]:
    cells = Cells()
    cells.feed(page)
    return {row[0]: row[1:] for row in reversed(cells.rows) if row}  # of two tables the first


@settings(deadline=None)
@given(st.lists(st.floats(0.01, 1e6), min_size=1, max_size=60))
def test_quartiles_are_those_of_numpy(values: list[float]) -> None:
    spread = spread_of(values)
    expected = numpy.percentile(values, [25, 50, 75])
    assert [spread.low, spread.half, spread.high] == pytest.approx(list(expected), rel=1e-9)


def test_the_table_says_of_a_large_archive_what_numpy_says() -> None:
    jobs = worked(made_jobs(2000))
    pairs = [
        (one.planned, one.taken)
        for listed in jobs for one in listed.row.times if one.work == "bore" and one.planned is not None
    ]  # fmt: skip
    planned, taken = numpy.array(pairs).T
    row = rows_of(times_page(jobs))["Boring"]
    assert row[1] == str(len(pairs))
    low, half, high = numpy.percentile(taken / planned, [25, 50, 75])
    assert row[8] == f"{half:.2f}"
    assert row[9] == f"{low:.2f} – {high:.2f}"
    assert row[4] == f"{planned.sum() / 3600:.0f} h"
    assert row[7] == f"{taken.sum() / 3600:.0f} h"


def test_a_job_counts_once_however_often_the_kind_of_work_is_in_it() -> None:
    twice = job(1, TimeRow("turn", 60.0, 60.0), TimeRow("face", 60.0, 60.0), TimeRow("turn", 60.0, 90.0))
    (kind,) = [one for one in kinds_of([twice, job(2, TimeRow("turn", 60.0, 60.0))]) if one.name == "Turning"]
    assert (kind.jobs, len(kind.taken)) == (2, 3)


def test_threads_are_told_apart_by_where_they_are_and_whole_jobs_come_first() -> None:
    jobs = [
        job(1, TimeRow("thread", 60.0, 600.0), thread=thread_on("outside")),
        job(2, TimeRow("thread", 60.0, 60.0), thread=thread_on("inside")),
        job(3, TimeRow("whole job", 60.0, 61.0)),
    ]
    assert [kind.name for kind in kinds_of(jobs)] == ["Whole jobs", "Threading, outside", "Threading, inside"]


def test_a_time_without_a_planned_one_stands_apart() -> None:
    jobs = [*turned(1.0, 2.0), job(9, TimeRow("drill", None, 1200.0), TimeRow("turn", None, 99 * minute))]
    page = times_page(jobs)
    assert rows_of(page)["Drilling"] == ["1", "1", "20 min", "20 min", "20 min"]
    (kind,) = [kind for kind in kinds_of(jobs) if kind.name == "Turning"]
    assert (kind.jobs, kind.jobs_alone, kind.alone) == (2, 1, [99 * minute])
    assert kind.ratios == [1.0, 2.0]


@pytest.mark.parametrize(
    ("ratios", "sentence"),
    [
        ([1.2, 1.3, 1.3, 1.3, 9.0],
         "Turning took 1.3 times as long as planned, or longer, in half of the 5 times."),
        ([0.7] * 6, "Turning took 0.7 times as long as planned, or less, in half of the 6 times."),
        ([2.0] * 5, "Turning took twice as long as planned, or longer, in half of the 5 times."),
        ([0.9, 0.99, 1.01, 1.02, 1.04],
         "Turning took about as long as planned: longer in half of the 5 times, less in the others."),
        ([1.5, 1.7],
         "By the 2 times in the logs, turning took 1.6 times as long as planned: too few to go by."),
    ],
)  # fmt: skip
def test_a_sentence_says_what_a_machinist_takes_away(ratios: list[float], sentence: str) -> None:
    assert says("Turning", float(numpy.median(ratios)), len(ratios)) == sentence
    assert sentence in times_page(turned(*ratios))


def dots(page: str) -> int:
    return len(re.findall(r'<circle class="dot', page))


def test_few_times_are_dots_and_many_are_lines() -> None:
    few, many = turned(*[1.0 + n / 100 for n in range(MOST_DOTS)]), turned(*[1.5] * (MOST_DOTS + 1))
    assert dots(times_page(few)) == 2 * MOST_DOTS
    page = times_page(many)
    assert dots(page) <= 6  # one planned time and one year: a point for each of three lines
    assert "a quarter took longer" in page


def test_a_time_far_from_the_others_runs_off_the_plot_and_the_plot_says_so() -> None:
    page = times_page(turned(*[1.0] * 5, 200.0))
    assert "more runs off the plot" in page


def test_years_come_from_the_days_and_a_folder_that_is_none_has_no_place_by_year() -> None:
    dated = ArchiveRow(
        "J-1", "Pin", "old jobs", "done", days=(DayRow("1998-04-01", "done"),),
        times=(TimeRow("turn", 60.0, 60.0),),
    )  # fmt: skip
    assert ">1998</text>" in times_page([Listed("a.html", dated, "a")])
    page = times_page([job(1, TimeRow("turn", 60.0, 60.0), year="old jobs")])
    assert page.count("<svg") == 1


def test_an_empty_archive_says_so() -> None:
    for jobs in ([], made_jobs(0), [job(1)]):
        page = times_page(jobs)
        assert "No job has a time in its log yet." in page
        assert "<table" not in page


def test_nothing_a_row_says_is_markup() -> None:
    page = times_page([job(1, TimeRow(HOSTILE, 60.0, 60.0))])
    assert "<script" not in page
    assert "&lt;script" in page


def test_nothing_planned_and_nothing_taken_break_nothing() -> None:
    page = times_page([job(1, TimeRow("turn", 0.0, 60.0), TimeRow("face", 60.0, 0.0))])
    assert rows_of(page)["Turning"][0] == "1"
    assert "next to no time" in page


def test_the_page_of_twenty_thousand_jobs_is_small(many_worked: list[Listed]) -> None:
    assert len(times_page(many_worked).encode()) < LARGEST
