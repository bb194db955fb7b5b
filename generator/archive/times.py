"""What took how long: planned and actual time by kind of work, as a table, as sentences and as plots.

    times_page     the body of the page

In reading order: quartiles, the times of each kind, the sentence, the two plots, the page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from math import fsum, nan
from statistics import median, quantiles
from typing import Final

from generator.archive.listed import Listed
from generator.language.say import first_small, later, say, say_count
from generator.render.environment import environment
from generator.render.formats import digits, in_unit
from generator.render.plot_view import plot_view
from generator.render.svg import svg
from generator.sheet.drawn import Curve, PlotScene
from generator.sheet.figure import Quantity
from generator.sheet.row import WHOLE, ArchiveRow
from generator.si import minute

MOST_DOTS: Final = 40  # times that a plot shows one by one; more become lines
GROUPS: Final = 10  # of as many times each, from which these lines are drawn
FEW: Final = 5  # times of which a sentence says that they are few
LEAST_PLANNED: Final = 1e-3  # s: less is no plan, and nothing to divide by
LEAST_YEARS: Final = 7  # along the axis of years, so that its ticks are whole years
HOUR: Final = 60 * minute
LONG: Final = 100 * HOUR  # a sum from which on minutes say nothing
NAMES: Final = {  # kinds of work whose name on this page is not the operation's own
    WHOLE: later("Whole jobs"), "thread": later("Threading"),
    "thread outside": later("Threading, outside"), "thread inside": later("Threading, inside"),
    "face": later("Facing"), "turn": later("Turning"), "taper": later("Taper turning"),
    "bore": later("Boring"), "drill": later("Drilling"), "center drill": later("Center drilling"),
    "groove": later("Grooving"), "relief": later("Relief grooves"), "chamfer": later("Chamfering"),
    "knurl": later("Knurling"), "part off": later("Parting off"), "polish": later("Polishing"),
}  # fmt: skip
THREAD: Final = "thread"
_SIDES: Final = {"outside": "thread outside", "inside": "thread inside"}
_TOOK: Final = {  # so many times of what was planned
    "0.0": later("took next to no time"), "0.5": later("took half as long as planned"),
    "1.0": later("took about as long as planned"), "2.0": later("took twice as long as planned"),
}  # fmt: skip
_YEAR: Final = re.compile("[0-9]{4}")


@dataclass(frozen=True)
class Spread:
    """The quartiles of some values."""

    low: float
    half: float
    high: float


def spread_of(values: Sequence[float]) -> Spread:
    """Quartiles with straight lines between the values; one value is all of them.

    Examples
    --------
    >>> spread_of([10.0, 20.0, 30.0, 40.0])
    Spread(low=17.5, half=25.0, high=32.5)
    """
    if len(values) == 1:
        return Spread(values[0], values[0], values[0])
    return Spread(*quantiles(values, n=4, method="inclusive"))


@dataclass
class Kind:
    """All times of a kind of work, in the order of the archive.

    `planned` and `taken` (s) and `years` belong together, one by one; `alone` (s) are those for which nothing
    was planned. Plain lists of numbers: made of tens of thousands of objects, the page takes twice as long.
    """

    name: str
    planned: list[float] = field(default_factory=list)
    taken: list[float] = field(default_factory=list)
    years: list[int | None] = field(default_factory=list)
    alone: list[float] = field(default_factory=list)
    jobs: int = 0
    jobs_alone: int = 0
    last: ArchiveRow | None = None
    last_alone: ArchiveRow | None = None

    def add(self, row: ArchiveRow, year: int | None, planned: float | None, taken: float) -> None:
        """One time; those of a job come one after the other."""
        if planned is not None and planned >= LEAST_PLANNED:
            self.planned.append(planned)
            self.taken.append(taken)
            self.years.append(year)
            self.jobs += self.last is not row
            self.last = row
        else:
            self.alone.append(taken)
            self.jobs_alone += self.last_alone is not row
            self.last_alone = row

    @cached_property
    def ratios(self) -> list[float]:
        """Taken over planned, each."""
        return [taken / planned for planned, taken in zip(self.planned, self.taken, strict=True)]

    @cached_property
    def spread(self) -> Spread:
        """The quartiles of the ratios."""
        return spread_of(self.ratios)


def kinds_of(jobs: Iterable[Listed]) -> list[Kind]:
    """The kinds of work: whole jobs, then the one that took longest in all. Threads by where they are."""
    kinds: dict[str, Kind] = {}
    for job in jobs:
        row = job.row
        if not row.times:
            continue
        year = _year(row)
        for one in row.times:
            work = one.work if one.work != THREAD or row.thread is None else _SIDES[row.thread.side]
            kind = kinds.get(work)
            if kind is None:
                kind = kinds[work] = Kind(NAMES.get(work) or work.capitalize())
            kind.add(row, year, one.planned, one.taken)
    return sorted(kinds.values(), key=_rank)


def _rank(kind: Kind) -> tuple[bool, float, str]:
    return (kind.name != NAMES[WHOLE], -fsum(kind.taken) - fsum(kind.alone), kind.name)


def _year(row: ArchiveRow) -> int | None:
    """The year of its last day that is known, else of its folder, where that is a year."""
    said = row.days[-1].day[:4] if row.days else row.year
    return int(said) if _YEAR.fullmatch(said) else None


def says(name: str, half: float, count: int) -> str:
    """What a machinist takes away: half of so many times took `half` of what was planned, or more.

    Examples
    --------
    >>> says("Turning", 1.3, 5)
    'Turning took 1.3 times as long as planned, or longer, in half of the 5 times.'
    >>> says("Threading, inside", 0.5, 1)
    'By the one time in the logs, threading inside took half as long as planned: too few to go by.'
    """
    shown, work = digits(half, 1), str(name).replace(",", "")
    about = shown.replace(",", ".")
    took = _TOOK.get(about) or say("took {times} times as long as planned", times=shown)
    if count < FEW:
        return say_count(
            "By the one time in the logs, {work} {took}: too few to go by.",
            "By the {count} times in the logs, {work} {took}: too few to go by.",
            count, work=first_small(work), took=took,
        )  # fmt: skip
    parts = {"work": work, "took": took, "count": _count(count)}
    if about == "1.0":
        return say("{work} {took}: longer in half of the {count} times, less in the others.", **parts)
    if half > 1:
        return say("{work} {took}, or longer, in half of the {count} times.", **parts)
    return say("{work} {took}, or less, in half of the {count} times.", **parts)


def _count(number: int) -> str:
    return digits(number, 0)


# -- plots ----------------------------------------------------------------------------------------------


def _planned_and_taken(kind: Kind, number: int) -> PlotScene:
    if len(kind.planned) <= MOST_DOTS:
        dots = zip(kind.planned, kind.taken, strict=True)
        curves = [Curve("", (dot,)) for dot in dots]
    else:
        curves = _quartile_curves(_groups(kind.planned, kind.taken))
    most = max(x for curve in curves for x, _ in curve.points)
    straight = Curve(say("as planned"), ((0.0, 0.0), (most, most)), "limit")
    return _scene(
        f"times-{number}-taken", say("{name}: planned and taken", name=kind.name), say("planned"), "duration",
        say("taken"), "duration", (straight, *curves),
        say("Above the dashed line it took longer than planned."),
    )  # fmt: skip


def _groups(planned: Sequence[float], taken: Sequence[float]) -> Iterator[tuple[float, list[float]]]:
    """Times by what was planned, about as many in each group: the planned one in the middle, all taken.

    Those planned alike are in one group.
    """
    order = sorted(range(len(planned)), key=planned.__getitem__)
    start = 0
    for share in range(1, GROUPS + 1):
        end = len(order) * share // GROUPS
        while 0 < end < len(order) and planned[order[end]] == planned[order[end - 1]]:
            end += 1
        if end > start:
            group = order[start:end]
            yield median(planned[place] for place in group), [taken[place] for place in group]
            start = end


def _ratio_by_year(kind: Kind, number: int) -> PlotScene | None:
    years: dict[int, list[float]] = {}
    for year, ratio in zip(kind.years, kind.ratios, strict=True):
        if year is not None:
            years.setdefault(year, []).append(ratio)
    if not years:
        return None
    first, last = min(years), max(years)
    straight = Curve(say("as planned"), ((min(first, last - LEAST_YEARS), 1.0), (last, 1.0)), "limit")
    if sum(map(len, years.values())) <= MOST_DOTS:
        curves = [Curve("", ((year, ratio),)) for year, ratios in years.items() for ratio in ratios]
    else:
        curves = _quartile_curves((year, years.get(year, [])) for year in range(first, last + 1))
    return _scene(
        f"times-{number}-years", say("{name}: taken ÷ planned by year", name=kind.name), say("year"), "count",
        say("taken ÷ planned"), "ratio", (straight, *curves), say("At 1 it took as long as planned."),
    )  # fmt: skip


def _quartile_curves(groups: Iterable[tuple[float, list[float]]]) -> list[Curve]:
    """The middle and the edges of the middle half over x; broken where there is nothing."""
    found = [(x, spread_of(values) if values else None) for x, values in groups]

    def along(of: Callable[[Spread], float]) -> tuple[tuple[float, float], ...]:
        return tuple((x, of(spread) if spread else nan) for x, spread in found)

    return [
        Curve(say("a quarter took longer"), along(lambda spread: spread.high), "third"),
        Curve(say("middle"), along(lambda spread: spread.half)),
        Curve(say("a quarter took less"), along(lambda spread: spread.low), "third"),
    ]


def _scene(
    name: str, title: str, x_label: str, x_quantity: Quantity, y_label: str, y_quantity: Quantity,
    curves: tuple[Curve, ...], caption: str,
) -> PlotScene:  # fmt: skip
    return PlotScene(
        name, title, x_label, x_quantity, y_label, y_quantity, curves, heads=(), columns=(), rows=(),
        caption=caption, says=caption, system="mm", job="",
    )  # fmt: skip


# -- page -----------------------------------------------------------------------------------------------


def times_page(jobs: Sequence[Listed]) -> str:
    """The body of the page of times, as HTML."""
    kinds = kinds_of(jobs)
    planned = [kind for kind in kinds if kind.taken]
    logged = sum(bool(job.row.times) for job in jobs)
    return environment().get_template("archive/times.html").render(
        logged=say_count(
            "{logged} of {count} job", "{logged} of {count} jobs", len(jobs), logged=_count(logged),
            count=_count(len(jobs)),
        ),
        rows=[(kind.name, _row(kind)) for kind in planned],
        alone=[(kind.name, _alone(kind)) for kind in kinds if kind.alone],
        kinds=[_shown(kind, number) for number, kind in enumerate(planned, 1)],
        dots=str(MOST_DOTS),
    )  # fmt: skip


def _row(kind: Kind) -> tuple[str, ...]:
    ratio = kind.spread
    low, half, high = (digits(value, 2) for value in (ratio.low, ratio.half, ratio.high))
    return (
        _count(kind.jobs), _count(len(kind.taken)), *_times(kind.planned),
        *_times(kind.taken), half, _from_to(low, high),
    )  # fmt: skip


def _alone(kind: Kind) -> tuple[str, ...]:
    return (_count(kind.jobs_alone), _count(len(kind.alone)), *_times(kind.alone))


def _times(values: Sequence[float]) -> Iterator[str]:
    """The middle one, the middle half, and all together."""
    spread, total = spread_of(values), fsum(values)
    low, half, high = (in_unit(value, "duration", "mm") for value in (spread.low, spread.half, spread.high))
    yield half
    yield _from_to(low, high)
    yield f"{digits(total / HOUR, 0)} h" if total >= LONG else in_unit(total, "duration", "mm")


def _from_to(low: str, high: str) -> str:
    return low if low == high else f"{low} – {high}"


def _shown(kind: Kind, number: int) -> dict[str, object]:
    scenes = [_planned_and_taken(kind, number), _ratio_by_year(kind, number)]
    drawings = [
        replace(plot_view(scene), id=scene.id, title=scene.title) for scene in scenes if scene is not None
    ]
    return {
        "name": kind.name,
        "id": f"times-{number}",
        "says": says(kind.name, kind.spread.half, len(kind.ratios)),
        "plots": [(drawing.caption, svg(drawing, environment())) for drawing in drawings],
    }
