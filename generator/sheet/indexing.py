"""A thread of several starts: how this lathe divides it, what error each way leaves, and how to check it.

The lines of the thread dial that lead to the next start stand with the half nuts (`half_nuts`).
"""

from __future__ import annotations

from generator.calc import starts as calc
from generator.calc.dials import Dial
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.sheet.threading import thread_operation
from generator.sheet.wording import fine_words
from generator.si import Angle, Length, degree, inch, mm

NAVY = "US Army Air Corps TM 1-420, Lathes (1940), p. 81; arithmetic"
JONES = "Jones, Turning and Boring (1914), on cutting multiple threads; arithmetic"
PRACTICE = "common practice, no source"
ARC = {"inch": 0.004 * inch, "mm": 0.1 * mm}  # that a slot may be out on its circle; common practice
SLANT = 0.1 * degree                          # of the compound against the bed, set with an indicator
NAMED = 6                                     # gears that are named in one line


def indexing_section(job: Job, lathe: Lathe, thread: ThreadPlan, cuts: PassPlan, desk: Desk) -> None:
    """Lay the ways from start to start, with their numbers; nothing for a thread of one start.

    Raises
    ------
    OutsideRange
        When the record of the compound's dial cannot be true.
    """
    starts = thread.designation.starts
    if starts < 2:
        return
    ways = [
        "the compound",
        *_lay_gears(lathe, thread, starts, desk),
        *_lay_driver(job, lathe, thread, starts, desk),
        *_lay_plate(lathe, starts, desk),
    ]
    _lay_compound(lathe, thread, starts, desk)
    _find_check(job, thread, starts, ways, cuts.infeed_angle, desk)


def _lay_compound(lathe: Lathe, thread: ThreadPlan, starts: int, desk: Desk) -> None:
    """The compound's dial for every start, what its rounding leaves, and what its slant does."""
    record = lathe.compound_dial
    places = calc.compound_places(
        thread.pitch, starts, Dial(record.division.si, record.turn.si, record.reads)
    )
    unit, digits = (inch, 4) if lathe.units == "inch" else (mm, 3)

    def words(place: calc.StartPlace) -> str:
        shown = f"{place.shown / unit:.{digits}f}".rstrip("0").rstrip(".")
        turns = f"{place.turns} turn{'' if place.turns == 1 else 's'}"
        return f"start {place.start}: {turns}" + (f" and {shown}" if place.shown > 1e-9 else "")

    furthest = max(places, key=lambda place: abs(place.error))
    rest = (
        f"; the dial's graduations leave {fine_words(abs(furthest.error), lathe.units)} along the axis"
        if abs(furthest.error) > 1e-7 else ""
    )
    desk.lay(Figure(
        "cut.start.compound", "Compound along the bed, from its zero", "; ".join(map(words, places)), "text",
        Kind.COMPUTED, NAVY, note=f"always on the same way, the play taken up{rest}",
    ))
    desk.computed(
        "cut.start.slant", "Depth lost or gained by 0.1° between compound and bed",
        calc.slant_error(places[-1].travel, SLANT), "fine_length", "{travel} × sin {slant}",
        {"travel": (places[-1].travel, "length"), "slant": (SLANT, "angle")}, "geometry", rounds="up",
        system=thread.system, note="set it parallel with an indicator along its side, not by its scale",
    )


def _lay_gears(lathe: Lathe, thread: ThreadPlan, starts: int, desk: Desk) -> list[str]:
    """Gears on the stud whose teeth divide by the starts."""
    if lathe.change_gears is None:
        return []
    stud = lathe.change_gears.stud
    found = [
        (teeth, step) for teeth in sorted(set(lathe.change_gears.gears), reverse=True)
        if (step := calc.teeth_between(teeth, starts, stud)) is not None
    ]
    name, label = "cut.start.gears", "Stud gear, teeth to the next start"
    if not found:
        desk.lay(Figure(
            name, label, f"no gear of this lathe divides by {starts}", "text", Kind.COMPUTED, JONES
        ))
        return []
    said = ", ".join(f"{step} of {teeth}" for teeth, step in found[:NAMED])
    least = min(teeth for teeth, _ in found)
    wrong = fine_words(thread.lead / float(least * stud), lathe.units)
    desk.lay(Figure(
        name, label, said, "text", Kind.COMPUTED, JONES,
        note="chalk the tooth in mesh, take the gear out, turn the spindle by so many teeth, mesh it again, "
             f"and take the play up the same way; one tooth wrong, of {least}, is {wrong} along the axis",
    ))
    return ["the stud gear"]


def _lay_driver(job: Job, lathe: Lathe, thread: ThreadPlan, starts: int, desk: Desk) -> list[str]:
    """The slots that take the dog's tail, where the work is driven by one."""
    kind = job.holding.held.kind
    plate = {"centers": lathe.headstock_center, "faceplate": lathe.faceplate}.get(kind)
    if plate is None:
        return []
    what = "driving plate" if kind == "centers" else "faceplate"
    step = calc.teeth_between(plate.slots, starts) if plate.slots else None
    said = (
        f"its slots are not in the lathe's record; their number must divide by {starts}" if not plate.slots
        else f"its {plate.slots} slots do not divide by {starts}" if step is None
        else f"the dog's tail {step} of its {plate.slots} slots on"
    )
    desk.lay(Figure("cut.start.driver", f"By the {what}", said, "text", Kind.COMPUTED, NAVY))
    across = plate.diameter
    if step is None or across is None:
        return []
    arc: Length = ARC[lathe.units]
    radius = across.si / 4  # slots end about half-way out
    desk.computed(
        "cut.start.slot_error", f"A slot {fine_words(arc, lathe.units)} out leaves, along the axis",
        calc.axial_error(thread.lead, arc, radius), "fine_length", "{L} × {out} ÷ (2 × π × {R})",
        {"L": (thread.lead, "fine_length"), "out": (arc, "fine_length"), "R": (radius, "length")},
        "arithmetic; slots halfway out taken: common practice", rounds="up", system=thread.system,
    )
    return [f"the {what}"]


def _lay_plate(lathe: Lathe, starts: int, desk: Desk) -> list[str]:
    """The index plate on the spindle, where the record has one."""
    holes = lathe.spindle.index_holes
    if holes is None:
        return []
    step = calc.teeth_between(holes, starts)
    said = f"its {holes} holes do not divide by {starts}"
    if step is not None:
        said = f"{step} of its {holes} holes on"
    desk.lay(Figure(
        "cut.start.plate", "By the index plate on the spindle", said, "text", Kind.COMPUTED, "arithmetic",
        note="" if step is None else "the first gear out of mesh while the spindle turns; the pin out again "
                                     "before the lathe is started",
    ))
    return [] if step is None else ["the index plate"]


def _find_check(
    job: Job, thread: ThreadPlan, starts: int, ways: list[str], set_over: Angle, desk: Desk
) -> None:
    """How it is checked, and what does not divide."""
    operation = thread_operation(job)
    assert operation is not None
    chuck = (
        " Do not loosen the chuck to turn the work on: jaws do not divide, nor do the bolts of a chuck, "
        "unless their circle was drilled for it." if job.holding.held.kind in ("chuck", "collet") else ""
    )
    measured = (
        "over the wires in every groove" if thread.wire is not None
        else "between balls in every groove" if thread.internal and not thread.flanks.square
        else "every groove and every land"
    )
    straight = (
        f" With the compound along the bed its {set_over / degree:g} degrees are lost: then write infeed: "
        "{method: plunge} and feed with the cross slide." if set_over else ""
    )
    listed = ways[0] if len(ways) == 1 else f"{', '.join(ways[:-1])} or {ways[-1]}"
    desk.find(
        "starts-check", "check",
        f"{thread.designation.text} has {starts} grooves. Bring every one to the same depth before the next "
        f"pass, or finish one after the other at the same readings; index by {listed}, with the spindle "
        f"stopped and the tool clear.{straight}{chuck} At the end measure {measured}, and the lands between "
        "neighbors: grooves alike and lands unlike are an error of indexing, which lets one start carry all "
        "the load.",
        operation.length.where,
    )
