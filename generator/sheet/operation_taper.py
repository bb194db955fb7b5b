"""Taper turning: which taper, by compound, attachment or tailstock, and what each is set to on this lathe.

    taper       the operation
    Shape       the taper itself
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.taper import axial_shift, half_angle, ratio_of_half_angle, ratio_per_foot, taper_ratio
from generator.job.operations import Taper
from generator.language.say import later, say
from generator.sheet.figure import Kind, Quantity
from generator.sheet.operation_cuts import CROSS_SLIDE, lay_no_stock, lay_stock
from generator.sheet.operation_feed import lay_by_hand, lay_feed
from generator.sheet.operation_load import lay_force, lay_load
from generator.sheet.operation_places import Place
from generator.sheet.operation_result import lay_roughness, lay_time
from generator.sheet.operation_speed import lay_speed
from generator.sheet.operation_task import Done, Task, done
from generator.sheet.operation_turn import ALREADY, off_work, say_last
from generator.sheet.taper_method import lay_method
from generator.sheet.wording import length_words
from generator.si import Length, degree, inch
from generator.tables.tapers import TaperRow, UnknownTaper, standard_taper

SAME = 1e-6
FITTED = 0.001 * inch  # off the diameter while a taper is fitted to its gauge
SAME_RATIO = 1e-3  # share within which two statements of one taper agree
RULES = later("Jones, Turning and Boring (1914), Rules for Figuring Tapers; geometry")

BY_SIZES = later("its diameters and length")


@dataclass(frozen=True)
class Shape:
    """A taper: change of diameter over length, its large and small end, and its length (m)."""

    ratio: float
    large: Length
    small: Length
    length: Length


def taper(task: Task) -> Done:
    """Turn a taper."""
    given, lies, system = task.entry.given, task.place, task.bench.system
    assert isinstance(given, Taper)
    has = task.work.largest(lies.low, lies.high)
    if has is None:
        return off_work(task)
    shape = _shape(task, given, has)
    if shape is None:
        lay_no_stock(task, say("the taper is not known"))
        lay_speed(task, "taper", has)
        return done(task, has, None, task.work)
    lies = _along(task, given, shape)
    method = lay_method(task, given.by, shape.ratio, shape.length)
    before, why = _before(task, given, shape, lies)
    stock = None
    if before is not None:
        depth = (before - shape.small) / 2
        stock = lay_stock(task, depth, "turn", task.bench.lathe.cross_dial, CROSS_SLIDE)
    else:
        lay_no_stock(task, why)
    diameter = before if before is not None else max(has, shape.large)
    step = lay_speed(task, "taper", diameter)
    by_hand = method in ("compound", None)
    finishing = stock is None or stock.finishing
    feed = lay_by_hand(task, "taper") if by_hand else lay_feed(
        task, "along", "turn rough", "turn finish" if finishing else None
    )
    force = lay_force(task, stock.largest if stock else None, feed.fast if feed else None,
                      say("the depth of cut is unknown") if feed else say("the feed is unknown"))
    power = lay_load(task, force, diameter, step)
    lay_roughness(task, None if by_hand or feed is None else feed.last)
    time = lay_time(task, shape.length, feed, step, len(stock.depths) if stock else None,
                    finishing=not by_hand and finishing)
    say_last(task, stock, None if by_hand else feed)
    if shape.ratio > 0:
        off, on = (length_words(one, system) for one in (FITTED, axial_shift(FITTED, shape.ratio)))
        task.remarks.append(say("{off} off the diameter lets its gauge on by {on}", off=off, on=on))
    task.remarks.append(
        say("tool exactly at center height, or the taper comes out hollow and its angle wrong")
    )
    small_right = given.end != "left"
    low_od, high_od = (shape.large, shape.small) if small_right else (shape.small, shape.large)
    return done(
        task, before, shape.small, task.work.turned(lies.low, lies.high, low_od, high_od), place=lies,
        step=step, feed=feed.usual if feed else None, depths=stock.depths if stock else (), force=force,
        power=power, time=time,
    )


def _shape(task: Task, given: Taper, has: Length) -> Shape | None:
    """The taper as far as the job file, the table of standard tapers and the work say."""
    row = _standard(task, given)
    ratios = _said(given, row)
    if not ratios:
        task.find(
            "taper-unknown", "check",
            say(
                "Nobody said how much {what} tapers: write two diameters and a length, per_foot, angle or "
                "the name of a standard taper.",
                what=task.what,
            ),
            asks=say("Which taper is it to be?"),
        )
        return None
    words, ratio = ratios[0]
    for other, value in ratios[1:]:
        if abs(value - ratio) > SAME_RATIO * ratio:
            task.find(
                "taper-differs", "stop",
                say(
                    "The taper of {what} is {ratio:.5f} on diameter over length by {words}, and {value:.5f} "
                    "by {other}. Write the one that is meant.",
                    what=task.what, ratio=ratio, words=words, value=value, other=other,
                ),
                asks=say("Which taper is it to be?"),
            )
    large = given.diameter.si if given.diameter else row.large if row and row.large else has
    length = given.length.si if given.length else None
    small = given.diameter_end.si if given.diameter_end else None
    if length is None and small is not None and ratio > 0:
        length = (large - small) / ratio
    if length is None and row is not None:
        length = row.length
    length = length if length is not None and length > 0 else task.place.length
    small = small if small is not None else large - ratio * length
    system = task.bench.system
    if length <= SAME or not 0 <= small <= large + SAME:
        task.find(
            "taper-shape", "stop",
            say(
                "The taper of {what} cannot be: from {large} over {length} it comes to {small}.",
                what=task.what, large=length_words(large, system), length=length_words(length, system),
                small=length_words(small, system),
            ),
            asks=say("What are the two diameters and the length of the taper?"),
        )
        return None
    _lay_shape(task, words, ratio, large, small, length, row)
    return Shape(ratio, large, small, length)


def _standard(task: Task, given: Taper) -> TaperRow | None:
    if given.named is None:
        return None
    try:
        return standard_taper(given.named)
    except UnknownTaper as error:
        task.find("taper-name", "stop", say(
            "In {what}: {error}.",
            what=task.what, error=error,
        ), asks=say("Which taper is it to be?"))
        return None


def _said(given: Taper, row: TaperRow | None) -> list[tuple[str, float]]:
    """Every statement of the taper's ratio, the most certain first."""
    found = []
    if row is not None:
        found.append((say("its name {name}", name=row.name), row.ratio))
    if given.diameter and given.diameter_end and given.length and given.diameter.si >= given.diameter_end.si:
        found.append((
            BY_SIZES,
            taper_ratio(given.diameter.si, given.diameter_end.si, given.length.si),
        ))
    if given.per_foot is not None:
        found.append(("per_foot", ratio_per_foot(given.per_foot.si)))
    if given.angle is not None and given.angle.si < 90 * degree:
        found.append((say("angle, taken as the angle to the axis"), ratio_of_half_angle(given.angle.si)))
    return found


def _lay_shape(
    task: Task, words: str, ratio: float, large: Length, small: Length, length: Length, row: TaperRow | None
) -> None:
    put: dict[str, tuple[float, Quantity]] = {
        "D": (large, "length"), "d": (small, "length"), "l": (length, "length"),
    }
    named = say("taper, diameter over length")
    source: str = row.source if row else RULES
    if row and row.from_memory:
        source = say("{source}, from memory", source=source)
    if row is None and words == BY_SIZES:
        task.computed("ratio", named, ratio, "ratio", "({D} − {d}) ÷ {l}", put, source)
    else:
        kind = Kind.STANDARD if row else Kind.GIVEN
        task.chosen("ratio", named, ratio, "ratio", kind, source, note=say("by {words}", words=words))
    task.computed(
        "per_foot", say("taper in a foot"), ratio * 12 * inch, "length", "12 in × {taper}",
        {"taper": (ratio, "ratio")}, RULES,
    )
    task.computed(
        "half_angle", say("angle to the axis"), half_angle(ratio), "angle", "arc tan ({taper} ÷ 2)",
        {"taper": (ratio, "ratio")}, RULES, note=say("half the included angle"),
    )
    for key, label, value in (
        ("large", say("large end of the taper"), large), ("small", say("small end of the taper"), small)
    ):
        task.computed(
            key, label, value, "length",
            "{d} + {taper} × {l}" if key == "large" else "{D} − {taper} × {l}",
            {**put, "taper": (ratio, "ratio")}, RULES,
        )


def _along(task: Task, given: Taper, shape: Shape) -> Place:
    """From the small end to the large one, as it is cut."""
    lies = task.place
    if given.end == "left" and given.from_end is None:
        return Place(lies.low, lies.low + shape.length)
    return Place(lies.start, lies.start - shape.length)


def _before(task: Task, given: Taper, shape: Shape, lies: Place) -> tuple[Length | None, str]:
    """The diameter before the taper, or why it is not known."""
    if given.from_diameter is not None:
        if given.from_diameter.si > shape.small + SAME:
            return given.from_diameter.si, ""
        return None, say("there is nothing to take off")
    largest = task.work.largest(lies.low, lies.high)
    smallest = task.work.smallest(lies.low, lies.high)
    if largest is None or smallest is None:
        return None, say("part of it lies beside the work")
    if smallest <= shape.small + SAME:
        return None, ALREADY
    return largest, ""
