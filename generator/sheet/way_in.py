"""The way in to the thread, counted on the slide's own dial, and what a depth leaves.

`count_way` cuts the whole travel up in graduations; `pitch_diameter_after` and `over_wires_after` say what to
expect at a depth.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate, pairwise

from generator.calc import passes, thread_form, wires
from generator.calc.dials import whole_graduations
from generator.job.operations import Thread
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.infeed import Infeed
from generator.sheet.plans import ThreadPlan
from generator.si import Length

PARTS = {  # of a graduation
    1: later(
        "rounded to whole graduations of this dial"
    ), 2: later("rounded to half graduations of this dial"),
}


@dataclass(frozen=True)
class Way:
    """The way in, counted on the dial: cumulative counts of one `step` of travel (m) each."""

    counts: tuple[int, ...]
    step: Length
    parts: int

    @property
    def travels(self) -> tuple[Length, ...]:
        """Travel after each pass, m."""
        return tuple(count * self.step for count in self.counts)


def count_way(
    infeed: Infeed, thread: ThreadPlan, first: Length, least: Length, operation: Thread, desk: Desk
) -> Way:
    """Whole graduations; half ones where no whole one lands inside the limits of the pitch diameter."""
    dial, travel = infeed.dial, passes.infeed_travel(thread.depth, infeed.angle)
    for parts in PARTS:
        step = dial.graduation / parts
        total = max(whole_graduations(travel, dial, parts), 1)
        if _lands_inside(infeed.depth(total * step), thread):
            break
    else:
        desk.find(
            "dial-coarse", "stop",
            say(
                "No reading of the {slide} dial lands inside the limits of the pitch diameter, not even at "
                "half a graduation. Set a dial indicator against the slide, or feed in with a finer dial.",
                slide=infeed.slide,
            ),
            operation.length.where,
        )
    floor = max(whole_graduations(passes.infeed_travel(least, infeed.angle), dial, parts, "up"), 1)
    cap = max(whole_graduations(passes.infeed_travel(first, infeed.angle), dial, parts, "down"), floor)
    ends = [round(end) for end in passes.schedule(float(total), float(cap), float(floor))]
    cuts = [end - before for before, end in pairwise([0, *ends])]
    if max(cuts) == cuts[0]:  # what was left over goes to an earlier pass, so that the last cuts stay small
        cuts.sort(reverse=True)
    return Way(tuple(accumulate(cuts)), step, parts)


def _lands_inside(depth: Length, thread: ThreadPlan) -> bool:
    if None in (thread.limits.pitch_diameter.max, thread.limits.pitch_diameter.min):
        return True  # no standard limits it: the nearest whole graduation
    return thread.pitch_diameter_min <= pitch_diameter_after(depth, thread) <= thread.pitch_diameter_max


def pitch_diameter_after(depth: Length, thread: ThreadPlan) -> Length:
    """Pitch diameter at a radial depth, with this thread's blank and tool (m)."""
    return thread_form.pitch_diameter_at_depth(
        thread.blank, depth, thread.pitch, thread.flanks, thread.nose_flat, thread.nose_radius,
        thread.internal,
    )


def over_wires_after(depth: Length, thread: ThreadPlan) -> Length | None:
    """Expected size over the wires; None while they would not seat, and inside a bore."""
    if thread.wire is None:
        return None
    nose = thread.nose_flat, thread.nose_radius
    if not passes.wire_seats(thread.blank, depth, thread.wire, thread.pitch, thread.flanks, *nose):
        return None
    diameter = pitch_diameter_after(depth, thread)
    return wires.over_wires(diameter, thread.wire, thread.pitch, thread.lead, thread.flanks)
