"""The passes as they were taken, beside those of the pass table.

    passes_taken    every pass that the log names, with its depth by the dial and its size as measured
    Travels         what every entry's dial says the infeed slide has moved, in the zero of the first pass
    infeed_travels  works them out
    log_plots       planned and taken depth over the passes, and how far the sizes were off the plan

After a thread is taken up again the dial may count from another zero: the reading in the groove, as deep as
the thread was left, tells by how much. On another lathe it is another dial, too: without that reading nothing
is known of its zero, and no depth is reckoned from it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from generator.calc import balls, wires
from generator.errors import OutsideRange
from generator.job.log import Measured
from generator.job.written import Given
from generator.language.say import say
from generator.sheet.drawn import Curve, Mark, PlotScene
from generator.sheet.figure import Quantity
from generator.sheet.happened import PassTaken
from generator.sheet.lines import PassLine
from generator.sheet.log_sizes import between_balls_at, further_sizes
from generator.sheet.log_words import dial_words
from generator.sheet.logged import Logged
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words
from generator.si import Length

FEWEST: Final = 2  # passes for a plot
TRIES: Final = 6   # of the pitch diameter by balls: the difference left is none


@dataclass(frozen=True)
class Travels:
    """Travel of the infeed slide since first touch (m), at every entry about the thread; None is not known.

    `shift` is how much more the dial counts since the thread was last taken up, as travel; 0 where it was
    not, or where the log does not say how the dial stood then. `zero_known` is False on another lathe whose
    dial was not read in the groove. `reached` is the travel of the last entry that has one.
    """

    at: tuple[Length | None, ...]
    shift: Length
    zero_known: bool
    reached: Length | None


def passes_taken(logged: Logged) -> tuple[PassTaken, ...]:
    """Every pass that the log names, in order, each start apart; of several entries the last word counts."""
    thread, cuts = logged.thread, logged.cuts
    if thread is None or cuts is None:
        return ()
    plan = {line.number: line for line in cuts.passes}
    found = dict[tuple[int, int], PassTaken]()
    for one, travel in zip(logged.threads, infeed_travels(logged).at, strict=True):
        number, start, lathe = one.entry.pass_, one.entry.start, logged.lathe_at(one)
        if number is None:
            continue
        line, key = plan.get(number), (number, start or 0)
        taken = found.get(key, PassTaken(number, line, "", None, None, _expected(line, logged), start=start))
        if one.entry.dial is not None:
            least = depth_of(logged.infeed_dial(lathe).graduation / 2, logged) if lathe is not None else None
            taken = replace(
                taken, dial=dial_words(one.entry), depth=depth_of(travel, logged), reads_to=least or 0.0
            )
        if (size := measured_size(one.entry.measured, logged)) is not None:
            taken = replace(taken, size=size)
        others = {size.name: size for size in taken.others}
        others |= {size.name: size for size in further_sizes(one.entry.measured, line, logged)}
        found[key] = replace(taken, others=tuple(others.values()))
    return tuple(found[key] for key in sorted(found))


def depth_of(travel: Length | None, logged: Logged) -> Length | None:
    """Radial depth of a travel of the infeed slide (m)."""
    return None if travel is None or logged.cuts is None else logged.cuts.depth(travel)


def infeed_travels(logged: Logged) -> Travels:
    """What every entry's dial says that the infeed slide has moved, each on the dial of its lathe."""
    plan = {line.number: line.travel for line in logged.cuts.passes} if logged.cuts else {}
    travels: list[Length | None] = []
    shift, known, last, begun = 0.0, True, None, False
    by_start: dict[int | None, Length] = {}
    lathe = logged.lathe
    for one in logged.threads:
        entry, here = one.entry, logged.lathe_at(one)
        reached = by_start.get(entry.start, last)
        if here is None or here.lathe != lathe.lathe:
            shift, known = 0.0, not begun and here is not None
        lathe = here or lathe
        back = entry.taken_up
        if back is not None and back.dial is not None and reached is not None:
            stands = logged.travel(back.turns or 0, back.dial, None, here)
            shift, known = (stands - reached, True) if stands is not None else (shift, known)
        turns, dial = entry.turns, entry.dial
        if dial is None and entry.stop is not None:
            turns, dial = entry.stop.turns, entry.stop.dial
        wanted = plan.get(entry.pass_ or 0, reached)
        read = logged.travel(turns, dial, None if wanted is None else wanted + shift, here) if known else None
        travel = None if read is None else read - shift
        travels.append(travel)
        moved = travel if travel is not None or dial is not None else plan.get(entry.pass_ or 0)
        if moved is not None:
            last = by_start[entry.start] = moved
        begun = begun or entry.pass_ is not None or entry.stop is not None or dial is not None
    return Travels(tuple(travels), shift, known, last)


def size_by_wires(logged: Logged) -> bool:
    """True where the sizes of the passes are those over the wires."""
    return logged.thread is not None and logged.thread.wire is not None


def by_words(logged: Logged) -> str:
    """How the sizes of the passes are measured, within a sentence."""
    return say("over wires") if size_by_wires(logged) else say("on pitch diameter")


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
        elif measured.between_balls is not None and thread.ball is not None:
            diameter = _by_balls(measured.between_balls.si, thread.ball, thread)
        else:
            return None
        size = diameter if thread.wire is None else wires.over_wires(diameter, thread.wire, *form)
    except OutsideRange:
        return None
    return size if final is None or abs(size - final) <= _reach(thread) else None


def _by_balls(between: Length, ball: Length, thread: ThreadPlan) -> Length:
    """The pitch diameter that a size between balls speaks of: `balls.between_balls` the other way round (m).

    That size follows the pitch diameter almost one to one, so the difference, put in again, is soon nothing.
    """
    diameter = thread.target
    for _ in range(TRIES):
        reads = balls.between_balls(diameter, ball, thread.pitch, thread.designation.starts, thread.flanks)
        diameter += between - reads
    return diameter


def off_the_thread(measured: Measured, logged: Logged) -> tuple[str, Given] | None:
    """A size that this thread cannot have, neither while it is cut nor when it is done; None where it can."""
    thread, cuts = logged.thread, logged.cuts
    if thread is None or cuts is None:
        return None
    end = cuts.passes[-1]
    own_wire = measured.wire is None or measured.wire.si == thread.wire
    for name, final in (
        ("over_wires", end.over_wires if own_wire else None), ("pitch_diameter", end.pitch_diameter),
        ("between_balls", between_balls_at(end, thread)),
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
    by_size = _points((one, depth_by_size(one, logged)) for one in taken)
    starts = sorted({one.start or 0 for one in taken})
    by_dial = {
        start: _points((one, one.depth) for one in taken if (one.start or 0) == start) for start in starts
    }
    if logged.cuts is None or max(map(len, (by_size, *by_dial.values()))) < FEWEST:
        return None
    planned = tuple((float(line.number), line.depth) for line in logged.cuts.passes)
    curves = (
        Curve(say("planned"), planned, "second"),
        *(
            Curve(
                say("taken, by the dial, start {start}", start=start) if start else say("taken, by the dial"),
                tuple(_broken(points)),
            )
            for start, points in by_dial.items()
        ),
        Curve(say("taken, by what it measured"), by_size, "third"),
    )
    last = max(one.number for one in taken)
    return _plot(
        "log-depth", say("Depth, pass by pass"), say("Depth, radial"), "length", curves,
        say("The log goes to pass {last} of {planned}.", last=last, planned=len(planned)), logged,
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
    by, most = by_words(logged), fine_words(abs(largest), logged.system)
    return _plot(
        "log-size",
        say("Off the plan, pass by pass"),
        say("Measured over the plan, {by}", by=by),
        "fine_length",
        (Curve(say("measured"), off), Curve(say("the plan"), plan, "limit")),
        say("At most {most} over the plan {by}.", most=most, by=by) if largest > 0
        else say("At most {most} under the plan {by}.", most=most, by=by),
        logged,
    )


def _plot(
    name: str, title: str, label: str, quantity: Quantity, curves: tuple[Curve, ...], says: str,
    logged: Logged,
) -> PlotScene:
    shown = tuple(curve for curve in curves if curve.points)
    stops = tuple(
        Mark(say("stopped"), float(one.entry.pass_))
        for one in logged.threads if one.entry.stop is not None and one.entry.pass_ is not None
    )
    return PlotScene(
        name,
        title,
        say("Pass"),
        "count",
        label,
        quantity,
        shown,
        (say("Pass"),),
        (),
        (),
        "",
        says,
        logged.system,
        logged.job.job,
        marks=stops,
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
