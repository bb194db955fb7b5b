"""The passes as they were taken, beside those of the pass table.

    passes_taken    every pass that the log names, with its depth by the dial and its size as measured
    infeed_travels  what every entry's dial says the infeed slide has moved, in the zero of the first pass
    log_plots       planned and taken depth over the passes, and how far the sizes were off the plan

After a thread is taken up again the dial may count from another zero: the reading in the groove, as deep as
the thread was left, tells by how much.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from generator.calc import wires
from generator.errors import OutsideRange
from generator.job.fields import Given
from generator.job.log import Measured
from generator.sheet.log_words import dial_words
from generator.sheet.logged import Logged
from generator.sheet.model import Curve, Mark, PassLine, PassTaken, PlotScene, Quantity
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words
from generator.si import Length

FEWEST: Final = 2  # passes for a plot


def passes_taken(logged: Logged) -> tuple[PassTaken, ...]:
    """Every pass that the log names, in order; of several entries for one pass the last word counts."""
    thread, cuts = logged.thread, logged.cuts
    if thread is None or cuts is None:
        return ()
    plan = {line.number: line for line in cuts.passes}
    travels, found = infeed_travels(logged)[0], dict[int, PassTaken]()
    for one, travel in zip(logged.threads, travels, strict=True):
        number = one.entry.pass_
        if number is None:
            continue
        line = plan.get(number)
        taken = found.get(number, PassTaken(number, line, "", None, None, _expected(line, logged)))
        if one.entry.dial is not None:
            taken = replace(taken, dial=dial_words(one.entry), depth=depth_of(travel, logged))
        if (size := measured_size(one.entry.measured, logged)) is not None:
            taken = replace(taken, size=size)
        found[number] = taken
    return tuple(found[number] for number in sorted(found))


def depth_of(travel: Length | None, logged: Logged) -> Length | None:
    """Radial depth of a travel of the infeed slide (m)."""
    return None if travel is None or logged.cuts is None else logged.cuts.depth(travel)


def infeed_travels(logged: Logged) -> tuple[list[Length | None], Length]:
    """Travel of the infeed slide since first touch, at every entry about the thread, and how its zero moved.

    Returns
    -------
    The travels (m), None where not known; and how much more the dial counts since the thread was last taken
    up, as travel (m), 0 where it was not, or where the log does not say how the dial stood then.
    """
    plan = {line.number: line.travel for line in logged.cuts.passes} if logged.cuts else {}
    travels: list[Length | None] = []
    shifted, reached = 0.0, None
    for one in logged.threads:
        entry = one.entry
        if entry.taken_up is not None and entry.taken_up.dial is not None and reached is not None:
            stands = logged.travel(entry.taken_up.turns or 0, entry.taken_up.dial, None)
            shifted = stands - reached if stands is not None else shifted
        turns, dial = entry.turns, entry.dial
        if dial is None and entry.stop is not None:
            turns, dial = entry.stop.turns, entry.stop.dial
        wanted = plan.get(entry.pass_ or 0, reached)
        read = logged.travel(turns, dial, None if wanted is None else wanted + shifted)
        travel = None if read is None else read - shifted
        travels.append(travel)
        if travel is not None:
            reached = travel
        elif entry.pass_ in plan and dial is None:
            reached = plan[entry.pass_]
    return travels, shifted


def size_by_wires(logged: Logged) -> bool:
    """True where the sizes of the passes are those over the wires."""
    return logged.thread is not None and logged.thread.wire is not None


def _expected(line: PassLine | None, logged: Logged) -> Length | None:
    if line is None:
        return None
    return line.over_wires if size_by_wires(logged) else line.pitch_diameter


def measured_size(measured: Measured | None, logged: Logged) -> Length | None:
    """The size over the sheet's wires, or the pitch diameter, that was measured, by whatever way (m).

    None where it was not measured, and where it is none that this thread can have.
    """
    thread, final = logged.thread, _final(logged)
    if measured is None or thread is None or off_the_thread(measured, logged) is not None:
        return None
    over, wire = measured.over_wires, measured.wire.si if measured.wire else thread.wire
    if over is not None and wire is not None and wire == thread.wire:
        return over.si
    form = thread.pitch, thread.lead, thread.flanks
    try:
        if over is not None and wire is not None:
            diameter = wires.pitch_diameter_from_wires(over.si, wire, *form)
        elif measured.pitch_diameter is not None:
            diameter = measured.pitch_diameter.si
        else:
            return None
        size = diameter if thread.wire is None else wires.over_wires(diameter, thread.wire, *form)
    except OutsideRange:
        return None
    return size if final is None or abs(size - final) <= _reach(thread) else None


def off_the_thread(measured: Measured, logged: Logged) -> tuple[str, Given] | None:
    """A size that this thread cannot have, neither while it is cut nor when it is done; None where it can."""
    thread, cuts = logged.thread, logged.cuts
    if thread is None or cuts is None:
        return None
    end = cuts.passes[-1]
    own_wire = measured.wire is None or measured.wire.si == thread.wire
    for name, final in (
        ("over_wires", end.over_wires if own_wire else None), ("pitch_diameter", end.pitch_diameter)
    ):
        given: Given | None = getattr(measured, name)
        if given is not None and final is not None and abs(given.si - final) > _reach(thread):
            return name, given
    return None


def _final(logged: Logged) -> Length | None:
    return _expected(logged.cuts.passes[-1], logged) if logged.cuts else None


def _reach(thread: ThreadPlan) -> Length:
    """How far a size can be off its end: as much as the whole depth makes on diameter."""
    return 2 * thread.depth


def depth_by_size(taken: PassTaken, logged: Logged) -> Length | None:
    """Radial depth that the measured size speaks of: half of what it is off on diameter (m)."""
    if taken.plan is None or taken.size is None or taken.expected is None:
        return None
    inside = logged.thread is not None and logged.thread.internal
    off = (taken.size - taken.expected) / 2
    return taken.plan.depth + (off if inside else -off)


def log_plots(taken: tuple[PassTaken, ...], logged: Logged) -> tuple[PlotScene, ...]:
    """Depth, and the difference of sizes, over the passes; a plot of fewer than two passes is left out."""
    return tuple(plot for plot in (_depths(taken, logged), _differences(taken, logged)) if plot is not None)


def _depths(taken: tuple[PassTaken, ...], logged: Logged) -> PlotScene | None:
    """Planned depth, that by the dial, and that which the measured sizes speak of."""
    by_dial = _points((one, one.depth) for one in taken)
    by_size = _points((one, depth_by_size(one, logged)) for one in taken)
    if logged.cuts is None or max(len(by_dial), len(by_size)) < FEWEST:
        return None
    planned = tuple((float(line.number), line.depth) for line in logged.cuts.passes)
    curves = (
        Curve("planned", planned, "second"), Curve("taken, by the dial", tuple(_broken(by_dial))),
        Curve("taken, by what it measured", by_size, "third"),
    )
    last = max(one.number for one in taken)
    return _plot(
        "log-depth", "Depth, pass by pass", "Depth, radial", "length", curves,
        f"The log goes to pass {last} of {len(planned)}.", logged,
    )


def _differences(taken: tuple[PassTaken, ...], logged: Logged) -> PlotScene | None:
    """What each pass measured over the plan, which is zero."""
    off = _points(
        (one, one.size - one.expected)
        for one in taken if one.size is not None and one.expected is not None
    )
    if len(off) < FEWEST:
        return None
    largest = max((height for _, height in off), key=abs)
    plan = ((off[0][0], 0.0), (off[-1][0], 0.0))
    by = "over wires" if size_by_wires(logged) else "on pitch diameter"
    way = "over" if largest > 0 else "under"
    return _plot(
        "log-size", "Off the plan, pass by pass", f"Measured over the plan, {by}", "fine_length",
        (Curve("measured", off), Curve("the plan", plan, "limit")),
        f"At most {fine_words(abs(largest), logged.system)} {way} the plan {by}.", logged,
    )


def _plot(
    name: str, title: str, label: str, quantity: Quantity, curves: tuple[Curve, ...], says: str,
    logged: Logged,
) -> PlotScene:
    shown = tuple(curve for curve in curves if curve.points)
    stops = tuple(
        Mark("stopped", float(one.entry.pass_))
        for one in logged.threads if one.entry.stop is not None and one.entry.pass_ is not None
    )
    return PlotScene(
        name, title, "Pass", "count", label, quantity, shown, ("Pass",), (), (), "", says, logged.system,
        logged.job.job, marks=stops,
    )


def _broken(points: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Points with a gap where passes between them are not in the log."""
    last = None
    for number, height in points:
        if last is not None and number > last + 1:
            yield (last + 1, math.nan)
        yield (number, height)
        last = number


def _points(found: Iterable[tuple[PassTaken, Length | None]]) -> tuple[tuple[float, float], ...]:
    return tuple((float(one.number), height) for one, height in found if height is not None)
