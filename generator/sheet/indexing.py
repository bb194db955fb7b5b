"""A thread of several starts: how this lathe divides it, what error each way leaves, and how to check it.

The lines of the thread dial that lead to the next start stand with the half nuts (`half_nuts`).
"""

from __future__ import annotations

from generator.calc import starts as calc
from generator.calc.dials import Dial
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.language.lists import or_words
from generator.language.say import figure, later, say, say_count
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.plans import PassPlan, ThreadPlan
from generator.sheet.threading import thread_operation
from generator.sheet.wording import fine_words
from generator.si import Angle, Length, degree, inch, mm

NAVY = later("US Army Air Corps TM 1-420, Lathes (1940), p. 81; arithmetic")
JONES = later("Jones, Turning and Boring (1914), on cutting multiple threads; arithmetic")
PRACTICE = later("common practice, no source")
ARC = {"inch": 0.004 * inch, "mm": 0.1 * mm}  # that a slot may be out on its circle; common practice
SLANT = 0.1 * degree                          # of the compound against the bed, set with an indicator
DUST = 1e-9                                   # m: a dial at its zero
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
        say("the compound"),
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
        turns = say_count("{count} turn", "{count} turns", place.turns)
        if place.shown <= DUST:
            return say("start {start}: {turns}", start=place.start, turns=turns)
        shown = figure(place.shown / unit, f".{digits}f").rstrip("0").rstrip(".,")
        return say("start {start}: {turns} and {shown}", start=place.start, turns=turns, shown=shown)

    furthest = max(places, key=lambda place: abs(place.error))
    rest = (
        say(
            "; the dial's graduations leave {error} along the axis",
            error=fine_words(abs(furthest.error), lathe.units),
        )
        if abs(furthest.error) > 1e-7
        else ""
    )
    desk.lay(
        Figure(
            "cut.start.compound",
            say("Compound along the bed, from its zero"),
            "; ".join(map(words, places)),
            "text",
            Kind.COMPUTED,
            NAVY,
            note=say("always on the same way, the play taken up{rest}", rest=rest),
        )
    )
    desk.computed(
        "cut.start.slant", say("Depth lost or gained by 0.1° between compound and bed"),
        calc.slant_error(places[-1].travel, SLANT), "fine_length", "{travel} × sin {slant}",
        {"travel": (places[-1].travel, "length"), "slant": (SLANT, "angle")}, say("geometry"), rounds="up",
        system=thread.system, note=say("set it parallel with an indicator along its side, not by its scale"),
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
    name, label = "cut.start.gears", say("Stud gear, teeth to the next start")
    if not found:
        desk.lay(
            Figure(
                name,
                label,
                say("no gear of this lathe divides by {starts}", starts=starts),
                "text",
                Kind.COMPUTED,
                JONES,
            )
        )
        return []
    said = ", ".join(say("{step} of {teeth}", step=step, teeth=teeth) for teeth, step in found[:NAMED])
    least = min(teeth for teeth, _ in found)
    wrong = fine_words(thread.lead / float(least * stud), lathe.units)
    desk.lay(
        Figure(
            name,
            label,
            said,
            "text",
            Kind.COMPUTED,
            JONES,
            note=say(
                "chalk the tooth in mesh, take the gear out, turn the spindle by so many teeth, mesh it "
                "again, and take the play up the same way; one tooth wrong, of {least}, is {wrong} along the "
                "axis",
                least=least,
                wrong=wrong,
            ),
        )
    )
    return [say("the stud gear")]


def _lay_driver(job: Job, lathe: Lathe, thread: ThreadPlan, starts: int, desk: Desk) -> list[str]:
    """The slots that take the dog's tail, where the work is driven by one."""
    kind = job.holding.held.kind
    plate = {"centers": lathe.headstock_center, "faceplate": lathe.faceplate}.get(kind)
    if plate is None:
        return []
    by_plate = kind == "centers"
    step = calc.teeth_between(plate.slots, starts) if plate.slots else None
    said = (
        say("its slots are not in the lathe's record; their number must divide by {starts}", starts=starts)
        if not plate.slots
        else say("its {slots} slots do not divide by {starts}", slots=plate.slots, starts=starts)
        if step is None
        else say("the dog's tail {step} of its {slots} slots on", step=step, slots=plate.slots)
    )
    label = say("By the driving plate") if by_plate else say("By the faceplate")
    desk.lay(Figure("cut.start.driver", label, said, "text", Kind.COMPUTED, NAVY))
    across = plate.diameter
    if step is None or across is None:
        return []
    arc: Length = ARC[lathe.units]
    radius = across.si / 4  # slots end about half-way out
    desk.computed(
        "cut.start.slot_error",
        say("A slot {arc} out leaves, along the axis", arc=fine_words(arc, lathe.units)),
        calc.axial_error(thread.lead, arc, radius),
        "fine_length",
        "{L} × {out} ÷ (2 × π × {R})",
        {"L": (thread.lead, "fine_length"), "out": (arc, "fine_length"), "R": (radius, "length")},
        say("arithmetic; slots halfway out taken: common practice"),
        rounds="up",
        system=thread.system,
    )
    return [say("the driving plate") if by_plate else say("the slots of the faceplate")]


def _lay_plate(lathe: Lathe, starts: int, desk: Desk) -> list[str]:
    """The index plate on the spindle, where the record has one."""
    holes = lathe.spindle.index_holes
    if holes is None:
        return []
    step = calc.teeth_between(holes, starts)
    said = say("its {holes} holes do not divide by {starts}", holes=holes, starts=starts)
    if step is not None:
        said = say("{step} of its {holes} holes on", step=step, holes=holes)
    desk.lay(
        Figure(
            "cut.start.plate",
            say("By the index plate on the spindle"),
            said,
            "text",
            Kind.COMPUTED,
            say("arithmetic"),
            note=""
            if step is None
            else say(
                "the first gear out of mesh while the spindle turns; the pin out again "
                "before the lathe is started"
            ),
        )
    )
    return [] if step is None else [say("the index plate")]


def _find_check(
    job: Job, thread: ThreadPlan, starts: int, ways: list[str], set_over: Angle, desk: Desk
) -> None:
    """How it is checked, and what does not divide."""
    operation = thread_operation(job)
    assert operation is not None
    chuck = (
        say(
            " Do not loosen the chuck to turn the work on: jaws do not divide, nor do the bolts of a chuck, "
            "unless their circle was drilled for it."
        )
        if job.holding.held.kind in ("chuck", "collet")
        else ""
    )
    measured = (
        say("over the wires in every groove") if thread.wire is not None
        else say("between balls in every groove") if thread.internal and not thread.flanks.square
        else say("every groove and every land")
    )
    straight = (
        say(
            " With the compound along the bed its {set_over:g} degrees are lost: then write infeed: "
            "{{method: plunge}} and feed with the cross slide.",
            set_over=set_over / degree,
        )
        if set_over
        else ""
    )
    desk.find(
        "starts-check", "check",
        say(
            "{designation} has {starts} grooves. Bring every one to the same depth before the next pass, or "
            "finish one after the other at the same readings; index by {listed}, with the spindle stopped "
            "and the tool clear.{straight}{chuck} At the end measure {measured}, and the lands between "
            "neighbors: grooves alike and lands unlike are an error of indexing, which lets one start carry "
            "all the load.",
            designation=thread.designation.text, starts=starts, listed=or_words(ways), straight=straight,
            chuck=chuck, measured=measured,
        ),
        operation.length.where,
    )
