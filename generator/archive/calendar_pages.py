"""The calendar of the archive: what waits, stopped or is in work, and what happened on which day.

    calendar_front     the body of its first page
    calendar_pages     its pages by year, or by a part of a year in which much happened

In reading order: the days of all jobs, the parts of a year, the first page, a page of a part.
"""

from __future__ import annotations

from calendar import Calendar, weekday
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from textwrap import shorten
from typing import Final, Literal
from urllib.parse import quote

from generator.archive.listed import Content, Listed, key_of, key_of_jobs
from generator.archive.said import EVENT_HEADS, EVENT_WORDS
from generator.language.say import later, say, say_count
from generator.render.environment import environment
from generator.render.formats import digits
from generator.sheet.row import NOT_READY, ArchiveRow, Event

MOST_WAITING: Final = 100  # jobs of one status on the first page
MOST_ON_PAGE: Final = 800  # of what happened, on a page of days
MOST_IN_DAY: Final = 4  # jobs in a day of a month; all of them stand in the list under it
MOST_TITLE: Final = 60  # letters of a title in the list of days
EVENTS: Final[tuple[Event, ...]] = ("received", "stopped", "taken up", "done")
MONTHS: Final = (
    later("January"), later("February"), later("March"), later("April"), later("May"), later("June"),
    later("July"), later("August"), later("September"), later("October"), later("November"),
    later("December"),
)  # fmt: skip
DAYS: Final = (
    later("Monday"), later("Tuesday"), later("Wednesday"), later("Thursday"), later("Friday"),
    later("Saturday"), later("Sunday"),
)  # fmt: skip
SHORT_DAYS: Final = (
    later("Mon"), later("Tue"), later("Wed"), later("Thu"), later("Fri"), later("Sat"), later("Sun"),
)  # fmt: skip
MONTHS_TOGETHER: Final = (12, 6, 3, 1)  # on a page: the first with which no page has too much on it
UP: Final = "../../"  # from a page of days to the top of the site
_WEEKS: Final = Calendar()  # from Monday on, as ISO 8601 has it


Months = Mapping[str, Sequence[Listed]]  # 2026-03: its jobs, each as often as something happened to it
Days = Mapping[str, Sequence[tuple[Listed, Sequence[Event]]]]  # 2026-03-02: its jobs, what happened to each


@dataclass(frozen=True)
class Part:
    """A year or a part of it, with its months in which something happened, in their order."""

    name: str
    label: str
    months: tuple[tuple[str, Sequence[Listed]], ...]

    @property
    def file(self) -> str:
        """Where its page is, from the top of the site."""
        return f"lists/calendar/{self.name}.html"

    @property
    def jobs(self) -> list[Listed]:
        """Its jobs, each as often as something happened to it."""
        return [job for _, jobs in self.months for job in jobs]


def months_of(jobs: Iterable[Listed]) -> dict[str, list[Listed]]:
    """The months in which something happened; a day's own year decides, not the job's folder."""
    months: dict[str, list[Listed]] = {}
    for job in jobs:
        for one in job.row.days:
            month = one.day[:7]
            if month in months:
                months[month].append(job)
            else:
                months[month] = [job]
    return months


def days_of(month: str, jobs: Iterable[Listed]) -> Days:
    """The days of a month in which something happened, in their order, each with its jobs in theirs."""
    days: dict[str, dict[str, tuple[Listed, list[Event]]]] = {}
    for job in {job.link: job for job in jobs}.values():
        for one in job.row.days:
            if one.day[:7] == month:
                _, what = days.setdefault(one.day, {}).setdefault(job.link, (job, []))
                if one.what not in what:
                    what.append(one.what)
    return {day: list(days[day].values()) for day in sorted(days)}


def parts_of(months: Months) -> list[Part]:
    """The pages of days, the newest year first and within a year in its order."""
    years: dict[str, list[str]] = defaultdict(list)
    for month in sorted(months):
        years[month[:4]].append(month)
    return [part for year in sorted(years, reverse=True) for part in _parts(year, years[year], months)]


def _parts(year: str, own: Sequence[str], months: Months) -> Iterator[Part]:
    counts = {int(month[5:]): len(months[month]) for month in own}
    together = next(
        size for size in MONTHS_TOGETHER
        if size == 1 or all(most <= MOST_ON_PAGE for most in _sums(counts, size))
    )  # fmt: skip
    for first in range(1, 13, together):
        last = first + together - 1
        found = tuple((month, months[month]) for month in own if first <= int(month[5:]) <= last)
        if found:
            yield Part(*_named(year, first, last), found)


def _sums(counts: Mapping[int, int], size: int) -> Iterator[int]:
    for first in range(1, 13, size):
        yield sum(counts.get(month, 0) for month in range(first, first + size))


def _named(year: str, first: int, last: int) -> tuple[str, str]:
    """File name and label of some months of a year."""
    if last - first == len(MONTHS) - 1:
        return year, year
    if first == last:
        return f"{year}-{first:02}", f"{year}, {MONTHS[first - 1]}"
    return f"{year}-{first:02}-to-{last:02}", say(
        "{year}, {first} to {last}", year=year, first=MONTHS[first - 1], last=MONTHS[last - 1]
    )


# -- first page -----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Section:
    """The jobs of a status: `since` is the event from which on they are what they are."""

    status: str
    heading: str
    words: str
    since: Literal["received", "stopped", "last"]


_SECTIONS: Final = (
    _Section("stopped", later("Stopped"), later("Halfway, with the work to be taken up again."), "stopped"),
    _Section("in work", later("In work"), later("On a lathe, or between two operations."), "last"),
    _Section("planned", later("Planned"), later("Agreed, and waiting for a lathe."), "received"),
    _Section("quoted", later("Quoted"), later("Waiting for the customer's word."), "received"),
    _Section(
        NOT_READY.lower(), later("Not ready to run"),
        later(
            "Whatever their status in the job file: their sheets say why. Jobs that are done are left out."
        ),
        "received",
    ),
)  # fmt: skip
_HEADS: Final = {
    "received": later("Waiting since"),
    "stopped": later("Stopped since"),
    "last": later("Last day"),
}


@dataclass(frozen=True)
class _Waiting:
    link: str
    number: str
    cells: tuple[tuple[str, str], ...]


def calendar_front(jobs: Sequence[Listed]) -> str:
    """The body of the first page: jobs that wait, stopped or are in work, and the years."""
    by_status: dict[str, list[Listed]] = defaultdict(list)
    for job in jobs:
        by_status[job.row.status].append(job)
    months = months_of(jobs)
    return environment().get_template("archive/calendar_front.html").render(
        sections=[_section(one, by_status.get(one.status, [])) for one in _SECTIONS],
        events=[EVENT_HEADS[event] for event in EVENTS],
        years=_years(jobs, months),
    )  # fmt: skip


def _section(section: _Section, jobs: Sequence[Listed]) -> dict[str, object]:
    if section.status == NOT_READY.lower():
        jobs = [job for job in jobs if not _last(job.row, "done")]
    dated = sorted(((_since(job.row, section.since), job) for job in jobs), key=lambda one: one[0] or "~")
    count, more = len(jobs), len(jobs) - MOST_WAITING
    return {
        "heading": section.heading,
        "words": section.words,
        "count": say_count("{count} job", "{count} jobs", count, count=digits(count, 0))
        if count
        else say("none"),
        "heads": (say("Number"), say("Title"), say("Thread"), say("Lathe"), _HEADS[section.since]),
        "jobs": [_waiting(section, job, since) for since, job in dated[:MOST_WAITING]],
        "more": digits(more, 0) if more > 0 else "",
        "archive": f"index.html#status={quote(section.status)}",
    }


def _waiting(section: _Section, job: Listed, since: str) -> _Waiting:
    row = job.row
    cells = (row.title, row.designation, row.lathe, since or say("not written"))
    heads = (say("Title"), say("Thread"), say("Lathe"), _HEADS[section.since])
    return _Waiting(job.link, row.number, tuple(zip(heads, cells, strict=True)))


def _since(row: ArchiveRow, since: Literal["received", "stopped", "last"]) -> str:
    """The day, with what happened on it where that can be one thing or another; "" where none is written."""
    if since == "last":
        last = max(reversed(row.days), key=lambda one: one.day, default=None)
        return f"{last.day}, {EVENT_WORDS[last.what]}" if last else ""
    return _last(row, since)


def _last(row: ArchiveRow, what: Event) -> str:
    return max((one.day for one in row.days if one.what == what), default="")


def _years(jobs: Iterable[Listed], months: Months) -> list[dict[str, object]]:
    """Every year with what happened in it, and the pages of its days."""
    counts = Counter(f"{one.day[:4]} {one.what}" for job in jobs for one in job.row.days)
    pages: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for part in parts_of(months):
        year = part.name[:4]
        pages[year].append((part.file, part.label.removeprefix(f"{year}, ")))
    return [
        {"pages": files, "counts": [digits(counts[f"{year} {event}"], 0) for event in EVENTS]}
        for year, files in pages.items()
    ]


# -- pages of days --------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Line:
    """A job on a day: all that happened to it then."""

    link: str
    number: str
    what: str
    title: str


@dataclass(frozen=True)
class _Day:
    """A day, ``2026-03-02``, its number in the month, the jobs that are shown, and how many are not."""

    name: str
    number: str
    weekday: str
    lines: tuple[_Line, ...] = ()
    more: str = ""


def calendar_pages(jobs: Sequence[Listed]) -> Iterator[Content]:
    """The pages of days, each another only where a job on it is, or the page before or behind it."""
    parts = parts_of(months_of(jobs))
    around = zip((None, *parts), parts, (*parts[1:], None), strict=False)
    for newer, part, older in around:
        beside = (one.name if one else "" for one in (newer, older))
        key = key_of(key_of_jobs(part.jobs), *beside)
        title = say("Calendar {label}", label=part.label)
        yield Content(part.file, key, partial(_page, part, newer, older), title)


def _page(part: Part, newer: Part | None, older: Part | None) -> str:
    """The body of a page of days."""
    months = [(name, days_of(name, jobs)) for name, jobs in part.months]
    days = {day: found for _, month in months for day, found in month.items()}
    most = _most_in_list([len(found) for found in days.values()])
    return environment().get_template("archive/calendar_days.html").render(
        label=part.label,
        beside=[(f"{UP}{one.file}", one.label) for one in (older, newer) if one],
        weekdays=list(zip(DAYS, SHORT_DAYS, strict=True)),
        months=[_month(name, month) for name, month in months],
        days=[_day(day, found, most) for day, found in days.items()],
        top=UP,
    )  # fmt: skip


def _most_in_list(counts: Sequence[int]) -> int:
    """How many jobs of a day are listed, so that all days together keep to the page."""
    fits = (most for most in range(MOST_ON_PAGE, 1, -1) if _listed(counts, most) <= MOST_ON_PAGE)
    return next(fits, 1)


def _listed(counts: Iterable[int], most: int) -> int:
    return sum(min(count, most) for count in counts)


def _month(name: str, days: Days) -> tuple[str, list[list[_Day | None]]]:
    """Its heading, and its weeks; a day of another month is None."""
    year, number = int(name[:4]), int(name[5:])

    def day_of(day: int) -> _Day | None:
        date = f"{name}-{day:02}"
        return _day(date, days.get(date, ()), MOST_IN_DAY) if day else None

    weeks = [[day_of(day) for day in week] for week in _WEEKS.monthdayscalendar(year, number)]
    return f"{MONTHS[number - 1]} {year}", weeks


def _day(date: str, jobs: Sequence[tuple[Listed, Sequence[Event]]], most: int) -> _Day:
    more = len(jobs) - most
    return _Day(
        date,
        str(int(date[8:])),
        str(DAYS[weekday(int(date[:4]), int(date[5:7]), int(date[8:]))]),
        tuple(
            _Line(f"{UP}{job.link}", job.row.number, _what(what), _short(job.row.title))
            for job, what in jobs[:most]
        ),
        digits(more, 0) if more > 0 else "",
    )


def _what(events: Iterable[Event]) -> str:
    return ", ".join(str(EVENT_WORDS[event]) for event in events)


def _short(title: str) -> str:
    return shorten(title, MOST_TITLE, placeholder=" …")
