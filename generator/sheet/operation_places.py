"""Where along the work each operation lies: x from the chuck face, + towards the tailstock.

    Place         from where to where the tool goes
    place_of      of one operation
    band_width    the band that the steady rest runs on
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.operations import Bore, Chamfer, Cut, Drill, Relief, Thread, Turn
from generator.job.written import Given
from generator.language.say import say
from generator.sheet.layout import Layout, Way
from generator.sheet.plans import ThreadPlan
from generator.sheet.route_entries import BAND_OVER, SAME, Entry
from generator.si import Length


@dataclass(frozen=True)
class Place(Way):
    """The tool goes from `start` to `end` (equal for a cut straight in); `inside` is in the bore.

    `why` says what nobody wrote, where a place had to be taken for it.
    """

    start: Length
    end: Length
    inside: bool = False
    why: str = ""

    @property
    def length(self) -> Length:
        """From one end to the other."""
        return self.high - self.low

    def overlaps(self, other: Place) -> bool:
        """True when both cut the same surface somewhere, or meet in one place."""
        return (
            self.inside == other.inside
            and self.low <= other.high + SAME
            and other.low <= self.high + SAME
        )


def band_width(job: Job, lathe: Lathe, layout: Layout) -> Length | None:
    """Width of the band to be turned for the steady rest; None when it has one, or its place is not known."""
    steady = job.holding.steady
    if steady is None or not isinstance(steady.at, Given):
        return None
    span = layout.span_at(steady.at.si)
    if span is None or job.work[span.section_index].surface in ("turned", "ground"):
        return None
    return _band(job, lathe)


def place_of(
    entry: Entry, job: Job, lathe: Lathe, layout: Layout, thread: ThreadPlan | None
) -> Place:
    """Where one operation lies."""
    given, end = entry.given, layout.stick_out
    if isinstance(given, Thread):
        return _thread(given, end, thread)
    if isinstance(given, Relief):
        inside = thread is not None and thread.internal
        if thread is not None and thread.relief_start is not None and thread.relief_end is not None:
            return Place(thread.relief_start, thread.relief_end, inside)
        return Place(end, end - given.width.si, inside, say("no thread says where the relief is"))
    if entry.name == "face":
        place = -layout.grip if given.end == "left" else end
        return Place(place, place)
    if isinstance(given, Drill) or entry.name == "center_drill":
        return _hole(given, layout)
    if isinstance(given, Bore):
        return _along(given, layout, given.length or given.depth, inside=True)
    if isinstance(given, Chamfer):
        return _chamfer(given, layout)
    if entry.name == "groove":
        return _along(
            given, layout, given.width, why="" if given.from_end else say("nobody said where it is")
        )
    if entry.name == "part_off":
        off = given.from_end or given.length
        place = end - off.si if off else end
        return Place(place, place, why="" if off else say("nobody said where it is parted"))
    if isinstance(given, Turn) and given.band and given.from_end is None:
        return _steady_band(given, job, lathe, layout)
    return _along(given, layout, given.length or given.width)


def _thread(given: Thread, end: Length, thread: ThreadPlan | None) -> Place:
    if thread is None:
        start = end - (given.from_end.si if given.from_end else 0.0)
        return Place(start, start - given.length.si)
    inside = thread.internal
    if thread.designation.hand == "left":
        return Place(thread.end, thread.start, inside)
    return Place(thread.start, thread.end, inside)


def _along(
    given: Cut, layout: Layout, length: Given | None, *, inside: bool = False, why: str = ""
) -> Place:
    """From its place towards the chuck; without a length to the next shoulder, a bore right through."""
    if given.end == "left" and given.from_end is None:
        low = -layout.grip if inside else 0.0
        return Place(low + (length.si if length else 0.0), low, inside, why)
    start = layout.stick_out - (given.from_end.si if given.from_end else 0.0)
    if length is not None:
        return Place(start, start - length.si, inside, why)
    if inside:
        return Place(start, -layout.grip, inside, why or say("no length given: taken right through"))
    span = layout.span_at(start - SAME)
    shoulder = max(span.start, 0.0) if span else 0.0
    return Place(start, min(shoulder, start), inside, why or say("no length given: taken up to the shoulder"))


def _hole(given: Cut, layout: Layout) -> Place:
    end = layout.stick_out
    if isinstance(given, Drill) and drilled_across(given):
        place = end - (given.from_end.si if given.from_end else 0.0)
        return Place(place, place)
    deep = given.length or given.depth
    if deep is not None:
        return Place(end, end - deep.si, inside=True)
    if isinstance(given, Drill) and given.through:
        return Place(end, -layout.grip, inside=True)
    return Place(end, end, inside=True, why=say("nobody said how deep"))


def drilled_across(given: Drill) -> bool:
    """True for a hole across the work: it says so, or it has a place along the work."""
    return given.across or (given.from_end is not None and given.from_end.si > 0)


def _chamfer(given: Chamfer, layout: Layout) -> Place:
    wide = given.width or given.length or given.depth
    size = wide.si if wide else 0.0
    if given.end == "left" and given.from_end is None:
        return Place(-layout.grip, -layout.grip + size, given.inside)
    start = layout.stick_out - (given.from_end.si if given.from_end else 0.0)
    return Place(start, start - size, given.inside)


def _steady_band(given: Turn, job: Job, lathe: Lathe, layout: Layout) -> Place:
    steady = job.holding.steady
    if steady is None or not isinstance(steady.at, Given):
        return _along(given, layout, given.length or given.width)
    wide = given.length or given.width
    half = (wide.si if wide else _band(job, lathe)) / 2
    return Place(steady.at.si + half, steady.at.si - half)


def _band(job: Job, lathe: Lathe) -> Length:
    fingers = lathe.steady.width.si if lathe.steady and lathe.steady.width else 0.0
    return fingers + BAND_OVER[job.units or lathe.units]
