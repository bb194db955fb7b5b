"""Where the thread begins, and how it ends without a relief: one that would do, run-out, blind hole.

    thread_end_section    all of it
    lay_proposed          width, diameter and radius of a relief that would do
    lay_run_out           how the thread fades out instead, and what that asks of the hand
"""

from __future__ import annotations

from generator.calc import relief as relief_calc
from generator.calc import thread_end as calc
from generator.calc.infeed_strategy import STEEP
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.operations import Thread
from generator.job.shop import House
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Kind, Quantity, System
from generator.sheet.lathe_settings import RELIEF_CHECK, RELIEF_STOP
from generator.sheet.lines import Level
from generator.sheet.plans import LathePlan, ThreadPlan
from generator.sheet.shoulder import room_behind
from generator.sheet.threading import relief_operation, thread_operation
from generator.sheet.wording import fine_words, length_words, seconds_words
from generator.si import Length, Time
from generator.tables.relief import ReliefRow, blind_beyond, relief_rows, run_out

PRACTICE = later("common practice, no source")
LEAD_IN = later(
    "GB/T 3-1997 (equivalent to ISO 3508): as deep as the thread at least; past the root: practice"
)
SAME = 1e-9      # m: two sizes closer than this are one
HAND: Time = 0.1  # s by which a steady hand varies: common practice, no source
NEAR, NEAR_INSIDE = 4, 8  # pitches: what stands nearer than this has to do with the end of the thread


def thread_end_section(
    job: Job, lathe: Lathe, house: House, thread: ThreadPlan, levers: LathePlan, desk: Desk
) -> None:
    """Lay the lead-in, and where no relief is given what to do instead; taper threads end by themselves."""
    operation, system = thread_operation(job), job.units or lathe.units
    if operation is None or thread.profile.taper:
        return
    _lay_lead_in(thread, desk)
    if relief_operation(job) is not None:
        if operation.run_out is not None:
            desk.find(
                "run-out-relief", "check",
                say(
                    "A relief and a run-out of {run_out} are both given: with a relief the thread runs out "
                    "into it at full depth. The run-out is left out.",
                    run_out=operation.run_out.with_unit,
                ),
                operation.run_out.where, say("A relief, or a run-out?"),
            )
        return
    room = room_behind(job, thread)
    if room is not None and room > (NEAR_INSIDE if thread.internal else NEAR) * thread.pitch:
        room = None
    if operation.run_out is None and room is not None:
        lay_proposed(thread, system, desk)
    if operation.run_out is not None or room is not None:
        lay_run_out(operation, house, thread, levers, room, system, desk)
    if thread.internal and room is not None:
        _lay_blind(operation, thread, room, system, desk)


def _lay_lead_in(thread: ThreadPlan, desk: Desk) -> None:
    """The chamfer at the start of the thread."""
    nominal = thread.designation.nominal * thread.designation.unit_si if thread.internal else None
    past = calc.PAST_ROOT[thread.system]
    sign = "+" if thread.internal else "−"
    desk.computed(
        "relief.chamfer", say("Chamfer at the start, 45°, to a diameter of"),
        calc.lead_in(thread.root_diameter, thread.system, nominal), "length", f"{{root}} {sign} {{past}}",
        {"root": (thread.root_diameter, "length"), "past": (past, "fine_length")}, LEAD_IN,
        kind=Kind.ASSUMED, rounds="up" if thread.internal else "down", system=thread.system,
    )


def lay_proposed(thread: ThreadPlan, system: System, desk: Desk) -> None:
    """A relief that would do: by the tables for metric threads, by practice for others."""
    row = _row(thread)
    low, high = relief_calc.usual_width(thread.pitch)
    if row is not None:
        source = row.standard
        if row.memory:
            source = say("{standard} (from memory, check your copy)", standard=source)
        _lay_size("width", say("A relief that would do: width"), row.width_most, source, "up", system, desk)
    else:
        steep = thread.flanks.included <= STEEP
        width = relief_calc.least_width(thread.pitch, 0.0, steep=True) if steep else high
        note = say("and beside that, how far the tool reaches ahead of its point") if steep else ""
        desk.computed(
            "relief.proposed.width", say("A relief that would do: width"), width, "length",
            "2 × {P}" if steep else "3 × {P}", {"P": (thread.pitch, "fine_length")}, PRACTICE,
            kind=Kind.ASSUMED, rounds="up", system=system, note=note,
        )
    diameter = _by_table(row, thread)
    if row is not None and diameter is not None:
        rounds = "up" if thread.internal else "down"
        _lay_size("diameter", say(
            "A relief that would do: diameter"
        ), diameter, row.standard, rounds, system, desk)
    else:
        usual = relief_calc.default_recess if thread.internal else relief_calc.default_diameter
        sign, under = "+" if thread.internal else "−", relief_calc.UNDER_ROOT[thread.system]
        desk.computed(
            "relief.proposed.diameter", say("A relief that would do: diameter"),
            usual(thread.root_diameter, thread.system), "length", f"{{root}} {sign} {{under}}",
            {"root": (thread.root_diameter, "length"), "under": (under, "length")}, PRACTICE,
            kind=Kind.ASSUMED, rounds="up" if thread.internal else "down", system=system,
        )
    if row is not None:
        _lay_size("radius", say(
            "A relief that would do: corner radius"
        ), row.radius, row.standard, "nearest", system, desk)
        return
    desk.computed(
        "relief.proposed.radius",
        say("A relief that would do: corner radius"),
        relief_calc.corner_radius(thread.depth)[0],
        "length",
        "{depth of thread} ÷ 4",
        {"depth of thread": (thread.depth, "length")},
        PRACTICE,
        kind=Kind.ASSUMED,
        rounds="up",
        system=system,
        note=say(
            "usual width {low} to {high}",
            low=length_words(low, system), high=length_words(high, system),
        ),
    )


def _row(thread: ThreadPlan) -> ReliefRow | None:
    """The regular form of DIN 76-1 for a metric pitch."""
    if thread.designation.family != "M":
        return None
    return next(iter(relief_rows(thread.designation.pitch, thread.internal)), None)


def _by_table(row: ReliefRow | None, thread: ThreadPlan) -> Length | None:
    """The table's diameter, where it clears the root that this tool leaves (m)."""
    if row is None:
        return None
    diameter = thread.designation.nominal * thread.designation.unit_si - row.diameter_less
    clear = diameter > thread.root_diameter if thread.internal else diameter < thread.root_diameter
    return diameter if clear else None


def _lay_size(
    name: str, label: str, value: Length, source: str, rounds: str, system: System, desk: Desk
) -> None:
    desk.computed(
        f"relief.proposed.{name}",
        label,
        value,
        "length",
        "{table}",
        {"table": (value, "length")},
        source,
        kind=Kind.STANDARD,
        rounds=rounds,
        system=system,
    )


def lay_run_out(
    operation: Thread, house: House, thread: ThreadPlan, levers: LathePlan, room: Length | None,
    system: System, desk: Desk,
) -> None:
    """The run-out, given or usual; its time for the hand; the shoulder behind it."""
    printed = run_out(thread.designation.pitch, thread.internal) if thread.designation.family == "M" else None
    if printed is not None:
        normal, short, shoulder, source = printed.normal, printed.short, printed.shoulder, printed.standard
    else:
        normal, short, shoulder = calc.usual_run_out(thread.pitch, thread.internal)
        source = say("{practice}; in pitches as ISO 3508 has it for metric threads", practice=PRACTICE)
    desk.computed(
        "relief.run_out.usual",
        say("Run-out instead of a relief, at most"),
        normal,
        "length",
        "{usual}",
        {"usual": (normal, "length")},
        source,
        kind=Kind.STANDARD if printed else Kind.ASSUMED,
        rounds="down",
        system=system,
        note=say(
            "where space is short {short}; shoulder to the last full thread {shoulder}",
            short=length_words(short, system), shoulder=length_words(shoulder, system),
        ),
    )
    given = operation.run_out
    if given is None:
        return
    length = desk.given("relief.run_out", say("Run-out"), given, "length")
    if room is not None and room < length - SAME:
        desk.find(
            "run-out-shoulder", "stop",
            say(
                "The run-out of {given} does not go into the {room} between the full thread and what stands "
                "behind it: the tool would meet it. Shorten the thread, or cut a relief.",
                given=given.with_unit, room=length_words(room, system),
            ),
            given.where, say("May the thread be shorter, or a relief be cut?"),
        )
    if length < short - SAME:
        desk.find(
            "run-out-short", "check",
            say(
                "A run-out of {given} is shorter than the {short} usual where space is short ({source}): "
                "the tool must come out within {turns:.1f} turns.",
                given=given.with_unit, short=length_words(short, system), source=source,
                turns=length / thread.lead,
            ),
            given.where, say("May the thread fade out over a longer way?"),
        )
    if thread.designation.hand == "right":
        _lay_hand(operation, house, thread, levers, length, desk)


def _lay_hand(
    operation: Thread, house: House, thread: ThreadPlan, levers: LathePlan, length: Length, desk: Desk
) -> None:
    """What the run-out asks of the hand at this speed, and how it is done."""
    assert operation.run_out is not None
    where, speed = operation.run_out.where, levers.carriage_speed
    if speed is None:
        desk.unknown(
            "relief.run_out.time", say("Time in the run-out"), "time", say("the carriage speed is unknown")
        )
        return
    put: dict[str, tuple[float, Quantity]] = {
        "run-out": (length, "length"), "carriage speed": (speed, "carriage_speed"),
    }
    time = desk.computed(
        "relief.run_out.time", say("Time in the run-out"), relief_calc.reaction_time(length, speed), "time",
        "{run-out} ÷ {carriage speed}", put, say("arithmetic"), rounds="down",
    )
    wanders = calc.scatter(speed, HAND)
    check = house.relief_time_check.si if house.relief_time_check else RELIEF_CHECK
    stop = house.relief_time_stop.si if house.relief_time_stop else RELIEF_STOP
    limits: tuple[tuple[Level, Time], ...] = (("stop", stop), ("check", check))
    what = say("stop the spindle") if levers.keep_half_nuts_closed else say("open the half nuts")
    for level, least in limits:
        if time < least:
            desk.find(
                "run-out-time", level,
                say(
                    "The tool crosses the run-out in {time}, and {least:g} s are wanted to pull it out and "
                    "{what}. Turn slower, or turn the last of it by hand.",
                    time=seconds_words(time), least=least, what=what,
                ),
                where,
            )
            break
    then = (
        say("then stop the spindle, the half nuts stay closed") if levers.keep_half_nuts_closed
        else say("the half nuts at once after")
    )
    desk.find(
        "run-out", "note",
        say(
            "No relief: begin to pull the tool out at the same mark in every pass, and have it clear within "
            "{turns:.1f} turns of the work; the cross slide first, {then}. A hand that varies by {hand:g} s "
            "moves the mark by {wanders}: set a carriage dial or an indicator beside it, and let no pass go "
            "further than the one before.",
            turns=length / thread.lead, then=then, hand=HAND, wanders=fine_words(wanders, thread.system),
        ),
        where,
    )


def _lay_blind(operation: Thread, thread: ThreadPlan, room: Length, system: System, desk: Desk) -> None:
    """How far a blind hole must go on past the thread."""
    printed = blind_beyond(thread.designation.pitch) if thread.designation.family == "M" else None
    wanted = calc.hole_beyond(thread.pitch) if printed is None else printed
    desk.computed(
        "relief.hole_beyond", say("Bore beyond the full thread, without a relief"), wanted, "length",
        "{table}" if printed is not None else "5 × {P}",
        {"table": (wanted, "length")} if printed is not None else {"P": (thread.pitch, "fine_length")},
        "DIN 76-1" if printed is not None else PRACTICE,
        kind=Kind.STANDARD if printed is not None else Kind.ASSUMED, rounds="up", system=system,
    )
    if room < wanted - SAME:
        desk.find(
            "hole-shallow", "check",
            say(
                "Behind the thread the bore goes on for {room}; without a relief {wanted} are usual for the "
                "tool, its chips and the hand. Bore it deeper, or cut a relief.",
                room=length_words(room, system), wanted=length_words(wanted, system),
            ),
            operation.length.where, say("May the bore be deeper, or a relief be cut?"),
        )
