"""What the page at the machine needs to turn a reading into what is left on the dials."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from generator.calc import balls, wires
from generator.calc.dials import whole_graduations
from generator.calc.left_to_cut import Feed, Read
from generator.calc.passes import infeed_travel
from generator.calc.thread_form import lead_angle
from generator.job.lathe import Lathe
from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure
from generator.sheet.infeed import feeding_dial, slide_dial
from generator.sheet.lines import SizeReading, ToSize
from generator.sheet.measure_micrometer import micrometer_reads
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.si import Length, mm

STEP = 0.01 * mm  # of the pitch diameter, for how much a reading follows it
OVERSIZE = 0.05  # of the way in: a blank may be a little full; common practice, no source
TOO_DEEP = 0.5  # of the way in: a reading below that is a slip, not a thread; common practice, no source


def to_size(lathe: Lathe, thread: ThreadPlan, cuts: PassPlan, desk: Desk) -> ToSize | None:
    """The readings of this thread and the slides; None where no reading follows the depth (square, taper).

    Raises
    ------
    OutsideRange
        When a turn of the lathe's dial does not hold a whole number of its divisions.
    """
    first, small = desk.figures.get("passes.first_cut"), desk.figures.get("passes.last_cut")
    if not thread.profile.wires_measure:
        return None
    readings = tuple(_readings(thread, cuts, desk))
    if not readings or first is None or small is None:
        return None
    dial = feeding_dial(lathe, cuts.slide)
    cross = slide_dial(lathe.cross_dial)
    feed = Feed(
        along=math.cos(cuts.infeed_angle), half=dial.graduation / 2, cross_half=cross.graduation / 2,
        depth=cuts.passes[-1].depth, first=_laid(first),
        small=2 * whole_graduations(infeed_travel(_laid(small), cuts.infeed_angle), dial, rounds="up"),
    )
    return ToSize(readings, feed, cuts.slide, dial.division, cross.division, lathe.units)


def _laid(figure: Figure) -> Length:
    """The value of a figure that is laid down with the passes (m)."""
    assert isinstance(figure.value, float), figure.name
    return figure.value


def _readings(thread: ThreadPlan, cuts: PassPlan, desk: Desk) -> Iterator[SizeReading]:
    """Over wires or between balls, then on the pitch diameter by a thread micrometer."""
    last, pitch, flanks = cuts.passes[-1], thread.pitch, thread.flanks
    diameter = last.pitch_diameter
    if thread.wire is not None and last.over_wires is not None:
        wire = thread.wire

        form = wires.form_of(diameter, wire, thread.lead, flanks)

        def over(size: Length) -> Length:
            return wires.over_wires_by(form, size, wire, pitch, thread.lead, flanks)

        limits = _limits("thread.over_wires", thread, desk)
        yield SizeReading(
            "over_wires", say("Over wires"), say("micrometer and wires"),
            _read(last.over_wires, limits, _per(over, diameter), thread, cuts),
        )
    if thread.ball is not None:
        size, starts = thread.ball, thread.designation.starts

        def between(of: Length) -> Length:
            return balls.across_balls(balls.ball_circle(of, size, pitch, flanks), size, pitch, starts)

        limits = _limits("thread.between_balls", thread, desk)
        yield SizeReading(
            "between_balls", say("Between balls"), say("two balls and bore gauge"),
            _read(balls.between_balls(diameter, size, pitch, starts, flanks), limits, _per(between, diameter),
                  thread, cuts),
        )
    steep = lead_angle(thread.lead, diameter) > wires.EXACT_FROM
    if not thread.internal and micrometer_reads(thread) and not steep:
        ends = _given(thread, thread.pitch_diameter_min, thread.pitch_diameter_max)
        yield SizeReading(
            "pitch_diameter",
            say("Pitch diameter"),
            say("thread micrometer"),
            _read(diameter, ends, 1.0, thread, cuts),
        )


Ends = tuple[Length | None, Length | None]


def _limits(stem: str, thread: ThreadPlan, desk: Desk) -> Ends:
    """Both limits as the sheet shows them (m); None where no standard gives the pitch diameter's."""
    least, most = (_laid(desk.figures[f"{stem}.{end}"]) for end in ("min", "max"))
    return _given(thread, least, most)


def _given(thread: ThreadPlan, least: Length, most: Length) -> Ends:
    of = thread.limits.pitch_diameter
    return (None if of.min is None else least), (None if of.max is None else most)


def _per(reads: Callable[[Length], Length], diameter: Length) -> float:
    """How much a reading changes over the pitch diameter, at the size aimed at."""
    return (reads(diameter + STEP) - reads(diameter - STEP)) / (2 * STEP)


def _read(aim: Length, limits: Ends, per: float, thread: ThreadPlan, cuts: PassPlan) -> Read:
    way_in = 2 * cuts.passes[-1].depth * per
    full, thin = aim + way_in * (1 + OVERSIZE), aim - way_in * TOO_DEEP
    if thread.internal:
        full, thin = aim - way_in * (1 + OVERSIZE), aim + way_in * TOO_DEEP
    return Read(aim, *limits, per, min(full, thin), max(full, thin), thread.internal)
