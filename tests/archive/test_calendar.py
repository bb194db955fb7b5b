"""The calendar: what waits, what happened on which day, and pages that stay small and stay as they were."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.archive.calendar_pages import (
    MOST_IN_DAY,
    MOST_ON_PAGE,
    MOST_WAITING,
    calendar_front,
    calendar_pages,
    months_of,
    parts_of,
)
from generator.archive.listed import Content, Listed
from generator.sheet.row import ArchiveRow, DayRow, Event
from tests.archive.rows import made_jobs
from tests.archive.worked import worked

ROOT = Path(__file__).resolve().parent.parent.parent
HOSTILE = "</td><script>alert(1)</script>\"'&"
LARGEST = 250_000 - 40_000  # bytes of a page without the frame of the theme


def job(number: str, *days: tuple[str, Event], status: str = "done", year: str = "2026") -> Listed:
    row = ArchiveRow(number, f"Pin {number}", year, status, True, days=tuple(DayRow(*day) for day in days))
    return Listed(f"sheets/{year}/{number}-pin.html", row, number)


def received(count: int, day: str, status: str = "planned") -> list[Listed]:
    return [job(f"J-{number:05}", (day, "received"), status=status) for number in range(count)]


def texts(jobs: Iterable[Listed]) -> dict[str, str]:
    return {content.name: content.make() for content in calendar_pages(list(jobs))}


class Weeks(HTMLParser):
    """The numbers of the days in each row of the month tables, 0 where there is none."""

    def __init__(self) -> None:
        super().__init__()
        self.weeks: list[list[int]] = []
        self.cell = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A row, or a cell, begins."""
        if tag == "tr":
            self.weeks.append([])
        self.cell = tag == "td" or (self.cell and tag == "a")
        if tag == "td":
            self.weeks[-1].append(0)

    def handle_data(self, data: str) -> None:
        """The text of a cell."""
        if self.cell and data.strip():
            self.weeks[-1][-1] = int(data)
            self.cell = False


@settings(deadline=None)
@given(st.dates(date(1, 1, 1), date(9998, 12, 31)))
def test_every_day_of_a_month_stands_under_its_weekday(day: date) -> None:
    (page,) = texts([job("J-1", (day.isoformat(), "received"))]).values()
    reader = Weeks()
    reader.feed(page[: page.index("<h2>")])
    found = {number: place for week in reader.weeks for place, number in enumerate(week) if number}
    first = day.replace(day=1)
    expected = {}
    while first.month == day.month:
        expected[first.day] = first.weekday()
        first += timedelta(days=1)
    assert found == expected
    assert all(len(week) == 7 for week in reader.weeks if week)


def test_weekdays_are_those_of_published_examples() -> None:
    """ISO 8601-1:2019 gives 1985-04-12 as the fifth day of the 15th week, 1985-W15-5: a Friday."""
    (page,) = texts([job("J-1", ("1985-04-12", "received"))]).values()
    assert "1985-04-12 Friday" in page


def test_a_day_shows_all_that_happened_with_its_word_and_links_to_the_sheet() -> None:
    jobs = [
        job("J-1", ("2026-03-02", "received"), ("2026-03-04", "stopped"), ("2026-03-09", "taken up"),
            ("2026-03-09", "done")),
        job("J-2", ("2026-03-04", "received")),
    ]  # fmt: skip
    (page,) = texts(jobs).values()
    link = '<a href="../../sheets/2026/J-1-pin.html">J-1</a>'
    for what in ("received", "stopped", "taken up, done"):
        assert f"<li>{link} {what}</li>" in page
        assert f"<dd>{link} {what}: Pin J-1</dd>" in page
    fourth = page[page.index('id="d2026-03-04"') : page.index('id="d2026-03-09"')]
    assert re.findall("J-[12]</a> [a-z]+", fourth) == ["J-1</a> stopped", "J-2</a> received"]
    assert set(re.findall('href="#(d[^"]*)"', page)) == set(re.findall('id="(d[0-9][^"]*)"', page))


def test_the_year_of_a_day_decides_and_not_the_folder() -> None:
    found = texts([job("J-1", ("2025-12-30", "received"), ("2026-01-02", "done"))])
    assert list(found) == ["lists/calendar/2026.html", "lists/calendar/2025.html"]
    assert "done: Pin" in found["lists/calendar/2026.html"]
    assert "received: Pin" not in found["lists/calendar/2026.html"]


@pytest.mark.parametrize(
    ("each", "names"),
    [
        (MOST_ON_PAGE // 12, ["2026"]),
        (MOST_ON_PAGE // 6, ["2026-01-to-06", "2026-07-to-12"]),
        (MOST_ON_PAGE // 3, ["2026-01-to-03", "2026-04-to-06", "2026-07-to-09", "2026-10-to-12"]),
        (MOST_ON_PAGE, [f"2026-{month:02}" for month in range(1, 13)]),
    ],
)
def test_a_year_in_which_much_happened_has_more_pages(each: int, names: list[str]) -> None:
    jobs = [
        job(f"J-{month}-{number}", (f"2026-{month:02}-{1 + number % 28:02}", "received"))
        for month in range(1, 13) for number in range(each)
    ]  # fmt: skip
    parts = parts_of(months_of(jobs))
    assert [part.name for part in parts] == names
    assert sum(len(part.jobs) for part in parts) == len(jobs)


def test_a_day_of_thousands_says_how_many_more_there_are() -> None:
    jobs = received(5000, "2026-03-02") + [job(f"K-{number}", ("2026-03-05", "done")) for number in range(3)]
    (page,) = texts(jobs).values()
    assert len(page.encode()) < LARGEST
    assert page.count("<dd><a") == MOST_ON_PAGE
    assert f"and {5000 - (MOST_ON_PAGE - 3)} more" in page
    assert page.count("<li><a") == MOST_IN_DAY + 1 + 3


def test_the_pages_of_twenty_thousand_jobs_are_small_and_leave_nothing_out(many_worked: list[Listed]) -> None:
    found = texts(many_worked)
    assert max(len(page.encode()) for page in found.values()) < LARGEST
    assert len(calendar_front(many_worked).encode()) < LARGEST
    happened = sum(len(one.row.days) for one in many_worked)
    shown = sum(len(re.findall("<dd><a.*", page)) for page in found.values())
    twice = sum(page.count("taken up, done:") for page in found.values())
    assert shown + twice == happened


def test_calendar_and_times_are_the_same_in_every_process() -> None:
    """No order of a set, and nothing of the process, gets into them."""
    program = (
        "from generator.archive.calendar_pages import *; from generator.archive.times import times_page\n"
        "from tests.archive.rows import made_jobs; from tests.archive.worked import worked\n"
        "jobs = worked(made_jobs(500))\n"
        "print(*((one.name, one.key, one.make()) for one in calendar_pages(jobs)))\n"
        "print(calendar_front(jobs), times_page(jobs))"
    )
    said = [
        subprocess.run(
            [sys.executable, "-c", program], cwd=ROOT, env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True, check=True,
        ).stdout
        for seed in ("1", "2")
    ]  # fmt: skip
    assert said[0] == said[1] != b""


def test_only_the_pages_of_a_changed_job_and_their_neighbours_are_made_anew() -> None:
    jobs = worked(made_jobs(2000))
    before = {content.name: content.key for content in calendar_pages(jobs)}
    place = next(place for place, one in enumerate(jobs) if one.row.year == "2010")
    changed = [*jobs]
    changed[place] = replace(jobs[place], word="another", row=replace(jobs[place].row, title="Another"))
    after = {content.name: content.key for content in calendar_pages(changed)}
    assert [name for name in after if after[name] != before[name]] == ["lists/calendar/2010.html"]


def test_a_page_is_made_from_what_its_key_stands_for() -> None:
    def content(*jobs: Listed) -> Content:
        return next(one for one in calendar_pages(jobs) if one.name.endswith("2026.html"))

    one, other = job("J-1", ("2026-03-02", "received")), job("J-2", ("2025-03-02", "received"))
    assert content(one).key != content(one, other).key  # it leads to the year before
    assert 'href="../../lists/calendar/2025.html"' in content(one, other).make()
    assert 'href="../../calendar.html"' in content(one).make()


def test_the_first_page_says_what_waits_since_when_the_longest_first() -> None:
    jobs = [
        job("P-2", ("2026-03-02", "received"), status="planned"),
        job("P-1", ("2025-11-20", "received"), status="planned"),
        job("P-3", status="planned"),
        job("S-1", ("2026-01-05", "received"), ("2026-02-01", "stopped"), ("2026-02-03", "taken up"),
            ("2026-02-09", "stopped"), status="stopped"),
        job("W-1", ("2026-01-05", "received"), ("2026-02-03", "taken up"), status="in work"),
        job("N-1", ("2026-01-07", "received"), status="not ready to run"),
        job("N-2", ("2026-01-07", "received"), ("2026-01-09", "done"), status="not ready to run"),
        job("D-1", ("2026-01-07", "received"), ("2026-01-09", "done")),
    ]  # fmt: skip
    page = calendar_front(jobs)
    assert re.findall(r"<h2>(.*)</h2>", page) == [
        "Stopped: 1 job", "In work: 1 job", "Planned: 3 jobs", "Quoted: none", "Not ready to run: 1 job",
        "Day by day",
    ]  # fmt: skip
    numbers = re.findall(r'">([A-Z]-\d)</a>', page)
    assert numbers == ["S-1", "W-1", "P-1", "P-2", "P-3", "N-1"]
    assert '<td data-heading="Stopped since">2026-02-09</td>' in page
    assert '<td data-heading="Last day">2026-02-03, taken up</td>' in page
    assert '<td data-heading="Waiting since">not written</td>' in page


def test_the_first_page_counts_a_year_and_leads_to_its_pages() -> None:
    jobs = [
        job("J-1", ("2025-12-30", "received"), ("2026-01-02", "stopped"), ("2026-01-03", "taken up")),
        job("J-2", ("2026-01-04", "received"), ("2026-01-04", "done")),
    ]
    page = calendar_front(jobs)
    rows = re.findall(r'href="(lists/[^"]*)">(\d+)</a> </th>((?:<td>\d+</td>)*)', page)
    assert [(link, year, re.findall(r"\d+", cells)) for link, year, cells in rows] == [
        ("lists/calendar/2026.html", "2026", ["1", "1", "1", "1"]),
        ("lists/calendar/2025.html", "2025", ["1", "0", "0", "0"]),
    ]
    assert {link for link, _, _ in rows} == set(texts(jobs))


def test_more_than_a_hundred_lead_to_the_archive_with_the_status_chosen() -> None:
    page = calendar_front(received(MOST_WAITING + 12, "2026-03-02", "in work"))
    assert page.count("<tr><td") == MOST_WAITING
    assert 'And 12 more: <a href="index.html#status=in%20work">' in page
    assert "more:" not in calendar_front(received(MOST_WAITING, "2026-03-02"))


def test_an_empty_archive_has_no_days_and_says_so() -> None:
    assert texts([]) == {}
    assert texts([job("J-1")]) == {}
    assert "No job file or log has a day yet." in calendar_front([])


def test_nothing_a_job_says_is_markup() -> None:
    row = ArchiveRow(
        HOSTILE, HOSTILE, "2026", "planned", True, lathe=HOSTILE, days=(DayRow("2026-03-02", "received"),)
    )
    jobs = [Listed("sheets/2026/a.html", row, "a")]
    for page in (*texts(jobs).values(), calendar_front(jobs)):
        assert "<script" not in page
        assert "&lt;script" in page


def test_a_long_title_is_cut_between_words() -> None:
    one = job("J-1", ("2026-03-02", "received"))
    long = replace(one, row=replace(one.row, title="lead screw " * 40))
    (page,) = texts([long]).values()
    assert "lead screw …" in page
    assert len(page) < len("".join(texts([one]).values())) + 100
