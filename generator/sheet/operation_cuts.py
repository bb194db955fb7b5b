"""Stock divided into cuts in whole graduations, and what the dial shows after the last one.

    Stock        cuts of one operation
    lay_stock    lays passes, depth, finishing cut and the dial
    dial_words   a reading in the dial's own divisions and turns
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.depths import cuts
from generator.calc.dials import Dial, reading
from generator.job.lathe_parts import Dial as SlideDial
from generator.job.lathe_parts import TurnedDial
from generator.job.operations import Cut
from generator.job.written import Given
from generator.language.say import figure, later, say, say_count
from generator.sheet.figure import Kind, Quantity, System
from generator.sheet.operation_task import PRACTICE, Task
from generator.si import Length, inch, mm
from generator.tables.cutting_feeds import DepthRange, depth_range

CROSS_SLIDE = later("cross slide")
BACKWARDS = later("cross slide towards you: its numbers run down from 0")
STOCK_UNKNOWN: tuple[tuple[str, str, Quantity], ...] = (
    ("passes", later("passes"), "count"),
    ("depth", later("largest cut, radial"), "length"),
    ("dial", later("dial at the last cut"), "text"),
)


@dataclass(frozen=True)
class Stock:
    """The cuts in order, radial, m; `finishing` says that the last one is a finishing cut."""

    depths: tuple[Length, ...]
    finishing: bool

    @property
    def largest(self) -> Length:
        """The deepest one."""
        return max(self.depths)


def lay_stock(
    task: Task, stock: Length, kind: str, record: TurnedDial | None, slide: str, *, radial: bool = True
) -> Stock:
    """Lay the cuts that take off `stock` (m, on the radius) with the slide that `record` is the dial of.

    Parameters
    ----------
    kind : "turn", "face" or "bore", as the table of depths has it
    slide : the slide's name, in words
    radial : cuts are on the radius; else along the work, as in facing
    """
    largest, finish = _lay_limits(task, kind, radial)
    dial = _dial(record)
    depths = cuts(stock, largest, min(finish, stock), dial.graduation if dial else None)
    finishing = finish > 0 and (len(depths) > 1 or depths[0] <= finish * (1 + 1e-9))
    deepest = max(depths)
    put: dict[str, tuple[float, Quantity]] = {
        "stock": (stock, "length"), "finishing cut": (finish, "length"), "largest cut": (largest, "length"),
    }
    whole = say("in whole graduations of the dial") if dial else ""
    on = say(", radial") if radial else say(", along the work")
    task.computed(
        "passes",
        say("passes"),
        float(len(depths)),
        "count",
        say("({stock} − {finishing cut}) ÷ {largest cut}, whole passes, and the finishing cut"),
        put,
        PRACTICE,
        note=whole,
    )
    task.computed(
        "depth",
        say("largest cut{on}", on=on),
        deepest,
        "length",
        say("{stock} in {passes} cuts, the heaviest first"),
        {"stock": (stock, "length"), "passes": (float(len(depths)), "count")},
        PRACTICE,
        note=whole,
    )
    if finishing and len(depths) > 1:
        task.computed(
            "last_cut", say("last cut{on}", on=on), depths[-1], "length", "{stock} − {cuts before it}",
            {"stock": (stock, "length"), "cuts before it": (sum(depths[:-1]), "length")}, PRACTICE,
        )
    lay_dial(task, stock, record, slide)
    return Stock(depths, finishing)


def lay_dial(task: Task, travel: Length, record: TurnedDial | None, slide: str) -> None:
    """Lay what the dial shows after so much travel from touch, or from the end of the work."""
    words = say("{slide} dial at the last cut", slide=slide)
    if record is None:
        task.unknown(
            "dial", words, "text", say("the lathe's record has no dial for the {slide}", slide=slide)
        )
        return
    if task.place.inside and slide == CROSS_SLIDE:
        task.remarks.append(BACKWARDS)
    task.chosen(
        "dial",
        words,
        dial_words(travel, record),
        "text",
        Kind.COMPUTED,
        say("arithmetic of the dial"),
        note=say(
            "{division} a division, {turn} a turn; set to zero at touch",
            division=record.division.with_unit, turn=record.turn.with_unit,
        ),
    )


def lay_no_stock(task: Task, why: str) -> None:
    """Lay passes, depth and dial as unknown, for one reason."""
    for key, words, quantity in STOCK_UNKNOWN:
        task.unknown(key, words, quantity, why)


def dial_words(travel: Length, record: TurnedDial) -> str:
    """A travel as its dial shows it: "2 turns and 0.050 in, on the diameter"; finer only between lines."""
    dial = _dial(record)
    assert dial is not None
    name, size = ("mm", mm) if record.division.unit == "mm" else ("in", inch)
    turns, shown = reading(travel, dial)
    lines, on_line = shown / record.division.si, 1e-4
    places = len(f"{record.division.si / size:.6f}".rstrip("0").partition(".")[2])
    words = f"{figure(shown / size, f'.{places + (abs(lines - round(lines)) > on_line)}f')} {name}"
    if turns:
        words = say_count("{count} turn and {words}", "{count} turns and {words}", turns, words=words)
    if not isinstance(record, SlideDial):
        return words
    return (
        say("{words}, on the radius", words=words) if record.reads == "radius"
        else say("{words}, on the diameter", words=words)
    )


def cut_words(depth: Length, system: System) -> str:
    """The depth of a cut in one unit, to the graduation.

    >>> cut_words(0.000254, "inch"), cut_words(0.0005, "mm")
    ('0.010 in', '0.50 mm')
    """
    return (
        say("{depth:.3f} in", depth=depth / inch)
        if system == "inch"
        else say("{depth:.2f} mm", depth=depth / mm)
    )


def _dial(record: TurnedDial | None) -> Dial | None:
    if record is None:
        return None
    reads = record.reads if isinstance(record, SlideDial) else "radius"
    return Dial(record.division.si, record.turn.si, reads)


def _lay_limits(task: Task, kind: str, radial: bool) -> tuple[Length, Length]:
    """Largest roughing cut and finishing cut: the job's own, the shop's, the careful end of the table."""
    given, house, steel = task.entry.given, task.bench.house, task.tool.steel
    assert isinstance(given, Cut)
    on = say(", radial") if radial else say(", along the work")
    largest = _lay_limit(
        task, "largest_cut", say("largest cut allowed{on}", on=on), given.cut, house.rough_depth,
        depth_range(f"{kind} rough", steel),
    )
    finish = _lay_limit(
        task, "finish_cut", say("finishing cut{on}", on=on), given.finish, house.finish_depth,
        depth_range(f"{kind} finish", steel),
    )
    return largest, finish


def _lay_limit(
    task: Task, key: str, words: str, own: Given | None, house: Given | None, table: DepthRange
) -> Length:
    if own is not None:
        return task.given(key, words, own, "length")
    if house is not None and house.si <= table.high * (1 + 1e-9):
        task.chosen(key, words, house.si, "length", Kind.SHOP, say("the house rules"), text=house.with_unit)
        return house.si
    kind = Kind.ASSUMED if "common practice" in table.source else Kind.STANDARD
    value = table.low if house is None else table.high
    end = (
        say("careful end")
        if house is None
        else say("the house rule of {house} is above it; upper end", house=house.with_unit)
    )
    task.chosen(
        key,
        words,
        value,
        "length",
        kind,
        table.source,
        note=say(
            "{end} of {low:.3f} to {high:.3f} in ({low_mm:.2f} to {high_mm:.2f} mm)",
            end=end, low=table.low / inch, high=table.high / inch, low_mm=table.low / mm,
            high_mm=table.high / mm,
        ),
    )
    return value
