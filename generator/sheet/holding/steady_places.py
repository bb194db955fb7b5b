"""Where on the work a steady rest can stand, and where it had better not.

    Stretch             places of its middle that are barred, and why
    barred              where it cannot stand
    drawbacks           where it can, but had better not
    against, rank_of    the worst drawback of a place, and how much it counts
    place_fault         why it cannot stand at a place that was asked for
    places_to_try       places a rule can be set to where it can stand
    cuts_with_steady    the cuts that are made while it stands, before the route is known
    tool_places         where along them the deflection is looked at
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Literal

from generator.job.operations import Drill, Turn
from generator.language.say import first_small, say
from generator.sheet.head import face_at
from generator.sheet.holding.held_work import DUST, PLACES_ALONG_CUT, HeldWork
from generator.sheet.holding.loads import ALONG
from generator.sheet.layout import Span
from generator.sheet.obstacles import LEAST_ROOM, base_known, steady_base
from generator.sheet.operation_places import Place, drilled_across, place_of
from generator.sheet.operation_words import title_of
from generator.sheet.route_entries import Entry
from generator.si import Length, inch, mm

MOST_PLACES = 60  # tried for the steady rest
STEPS = {
    "inch": tuple(step * inch for step in (1 / 8, 1 / 4, 1 / 2, 1, 2)),
    "mm": tuple(step * mm for step in (2, 5, 10, 20, 50)),
}  # places a rule can be set to
NO_CUT = ("face", "center_drill", "drill", "polish", "relief")  # relief: barred with its thread
GROUND, NOT_TURNED, CUT_LATER = 1, 2, 3  # how little a place is liked


@dataclass(frozen=True)
class Stretch:
    """The steady's middle between `start` and `end` (m), both still allowed; `why` in words for the plot.

    `fault` is the rest of a sentence on a place that was asked for: "is on the thread". `rank` says how
    little a place is liked that is only a drawback.
    """

    start: Length
    end: Length
    why: str
    fault: str = ""
    rank: int = 0

    def takes(self, x: Length) -> bool:
        """True for a place inside it."""
        return self.start + DUST < x < self.end - DUST


# -- barred -----------------------------------------------------------------------------------------------


def barred(held: HeldWork) -> tuple[Stretch, ...]:
    """Where the steady rest cannot stand: thread, relief, taper, hole, shoulder, its range, the carriage.

    Those with a `fault` come first, in the order in which they are said.
    """
    return (*_on_work(held), *_not_taken(held), *_carriage(held))


def place_fault(held: HeldWork, x: Length) -> str:
    """Why the steady rest cannot stand at x; empty when it can.

    What the lathe does not take, and the carriage's room, have findings of their own.
    """
    if not 0 < x < held.layout.stick_out:
        return say("is not on the work that stands out")
    return next((one.fault for one in _on_work(held) if one.takes(x)), "")


def _on_work(held: HeldWork) -> Iterator[Stretch]:
    half, thread, out = held.steady_half, held.thread, held.layout.stick_out
    if thread is not None and not thread.internal:
        end = held.cut_end
        assert end is not None
        yield Stretch(thread.end - half, thread.start + half, say("thread"), say("is on the thread"))
        yield Stretch(end - half, thread.start + half, say("relief"), say("is on the relief"))
    if held.job.holding.centers is not None:
        yield Stretch(-half, face_at(held.job) + half, say("dog"), say("is on the dog"))
    for low, high in _cross_holes(held):
        yield Stretch(low - half, high + half, say("cross hole"), say("has a cross hole under its fingers"))
    for span in held.layout.spans:
        if span.tapered:
            yield Stretch(span.start - DUST, span.end + DUST, say("taper"), say("is on a taper"))
    narrow = say("does not leave the fingers their whole width on one diameter")
    for start, end in _bands(held):
        nearer = say("shoulder") if start > 0 else say("jaws")
        further = say("shoulder") if end < out - DUST else say("end")
        yield Stretch(start - DUST, min(start + half, out), nearer, narrow)
        yield Stretch(max(end - half, 0.0), end + DUST, further, narrow)


def _bands(held: HeldWork) -> list[tuple[Length, Length]]:
    """Lengths of one diameter outside the jaws, sections that only differ in their bore together (m)."""
    def key(span: Span) -> tuple[Length, int]:
        return (span.od_start, span.section_index if span.tapered else -1)

    found = []
    for _, group in groupby(held.layout.spans, key):
        spans = list(group)
        if spans[-1].end > 0:
            found.append((max(spans[0].start, 0.0), spans[-1].end))
    return found


def _cross_holes(held: HeldWork) -> Iterator[tuple[Length, Length]]:
    out = held.layout.stick_out
    for hole in held.job.cross_holes:
        middle, radius = out - hole.from_end.si, hole.diameter.si / 2
        yield middle - radius, middle + radius
    for operation in held.job.operations:
        given = operation.given
        if isinstance(given, Drill) and drilled_across(given) and given.from_end is not None:
            radius = given.diameter.si / 2 if given.diameter else 0.0
            yield out - given.from_end.si - radius, out - given.from_end.si + radius


def _not_taken(held: HeldWork) -> Iterator[Stretch]:
    """Diameters that the steady rest of this lathe does not take."""
    steady = held.lathe.steady
    if steady is None:
        return
    for span in held.layout.spans:
        if span.end <= 0 or span.tapered or steady.from_.si <= span.od_start <= steady.to.si:
            continue
        small = span.od_start < steady.from_.si
        yield Stretch(
            max(span.start, 0.0), span.end, say("too thin for it") if small else say("too thick for it")
        )


def _carriage(held: HeldWork) -> Iterator[Stretch]:
    """Where the carriage would not get to both ends of the thread, as far as is known.

    Inside, a bar goes in past the steady: the reach section says whether it is long enough.
    """
    thread, end = held.thread, held.cut_end
    if thread is not None and end is not None and not thread.internal:
        yield Stretch(*_beside(held, end, thread.start), say("carriage"))


def _beside(held: HeldWork, low: Length, high: Length) -> tuple[Length, Length]:
    """Places of the steady's middle where the carriage does not get from `low` to `high` (m)."""
    near, far, base = held.lathe.carriage_left, held.lathe.carriage_right, steady_base(held.lathe)
    left = (near.si + _room(held, "right") if near else 0.0) + base[1]
    right = (far.si + _room(held, "left") if far else 0.0) + base[0]
    return low - left, high + right


def _room(held: HeldWork, side: Literal["left", "right"]) -> Length:
    """Room to leave between the carriage and that side of the steady's base, where it is known (m)."""
    return LEAST_ROOM[held.system] if base_known(held.lathe, side) else 0.0


# -- drawbacks --------------------------------------------------------------------------------------------


def drawbacks(held: HeldWork) -> tuple[Stretch, ...]:
    """Where the steady rest can stand but had better not, the worst first."""
    return (*_cut_later(held), *_surfaces(held))


def against(x: Length, drawn: Sequence[Stretch]) -> Stretch | None:
    """The worst drawback of a place; None where it has none."""
    return next((one for one in drawn if one.takes(x)), None)


def rank_of(x: Length, drawn: Sequence[Stretch]) -> int:
    """How little a place is liked; 0 where nothing speaks against it."""
    found = against(x, drawn)
    return found.rank if found else 0


def _cut_later(held: HeldWork) -> Iterator[Stretch]:
    """Surfaces that are cut while it stands: its fingers would be in the way of that cut.

    The fingers may stand as far off as the carriage needs.
    """
    for entry, place in cuts_with_steady(held):
        if place.inside or entry.name == "thread":
            continue
        words = say("cut later: {title}", title=first_small(title_of(entry)))
        yield Stretch(*_beside(held, place.low, place.high), words, rank=CUT_LATER)


def _surfaces(held: HeldWork) -> Iterator[Stretch]:
    """What is rough, or not said to be turned and not turned in this job; then what is ground."""
    bands = [
        one.given for one in held.job.operations if isinstance(one.given, Turn) and one.given.band
    ]
    placed = [
        place_of(Entry("turn", band), held.job, held.lathe, held.layout, held.thread)
        for band in bands if band.from_end is not None
    ]
    somewhere = len(bands) > len(placed)  # one is turned wherever the steady rest comes
    rough, ground, half = [], [], held.steady_half
    for span in held.layout.spans:
        surface = held.job.work[span.section_index].surface
        low = max(span.start, 0.0)
        if span.end <= 0:
            continue
        if surface == "ground":
            ground.append(Stretch(low - half, span.end + half, say("ground"), rank=GROUND))
        elif surface != "turned" and not somewhere:
            why = say("rough") if surface == "rough" else say("not turned")
            rough += [
                Stretch(a - half, b + half, why, rank=NOT_TURNED) for a, b in _without(low, span.end, placed)
            ]
    yield from rough
    yield from ground


def _without(low: Length, high: Length, bands: Sequence[Place]) -> list[tuple[Length, Length]]:
    """A stretch less the bands turned on it (m)."""
    marks = [low]
    for band in sorted(bands, key=lambda one: one.low):
        marks += [min(max(x, low), high) for x in (band.low, band.high)]
    marks.append(high)
    return [(a, b) for a, b in zip(marks[::2], marks[1::2], strict=True) if b - a > DUST]


# -- the cuts ---------------------------------------------------------------------------------------------


def cuts_with_steady(held: HeldWork) -> list[tuple[Entry, Place]]:
    """Cuts that are made while the steady rest stands, but for the relief and those in the ends.

    It stands from the start, or from after the last band that is turned for it.
    """
    operations = held.job.operations
    bands = [number for number, one in enumerate(operations) if one.turn is not None and one.turn.band]
    found = []
    for operation in operations[bands[-1] + 1 if bands else 0:]:
        entry = Entry(operation.name, operation.given)
        if entry.name in NO_CUT:
            continue
        found.append((entry, place_of(entry, held.job, held.lathe, held.layout, held.thread)))
    return found


def tool_places(held: HeldWork) -> list[Length]:
    """Places of the tool at which the steady rest has to help: along the thread, else what is turned (m).

    None where nothing is turned, bored or threaded outside the jaws.
    """
    if held.thread is not None:
        return held.cut_places()
    places: set[Length] = set()
    for entry, place in cuts_with_steady(held):
        low, high = (min(max(x, 0.0), held.layout.stick_out) for x in (place.low, place.high))
        if entry.name in ALONG and high - low > DUST:
            between = (high - low) / (PLACES_ALONG_CUT - 1)
            places.update(low + between * step for step in range(PLACES_ALONG_CUT))
    return sorted(places)


# -- places to try ----------------------------------------------------------------------------------------


def places_to_try(held: HeldWork, bars: Sequence[Stretch]) -> list[Length]:
    """Places to try for the steady rest, from the chuck outwards (m).

    They are places a rule can be set to; only where none of those will do, ends and middles of what is left.
    """
    out = held.layout.stick_out

    def free(places: Iterable[Length]) -> list[Length]:
        return [x for x in places if 0 < x < out - DUST and not any(one.takes(x) for one in bars)]

    marks = sorted({0.0, out, *(x for one in bars for x in (one.start, one.end))})
    return free(rule_places(held)) or free(sorted({*marks, *((a + b) / 2 for a, b in pairwise(marks))}))


def rule_places(held: HeldWork) -> list[Length]:
    """Places on the work that a rule can be set to, fine enough and not too many (m)."""
    out = held.layout.stick_out
    step = next((one for one in STEPS[held.system] if out / one <= MOST_PLACES), out / MOST_PLACES)
    return [step * count for count in range(1, math.ceil((out - DUST) / step))]
