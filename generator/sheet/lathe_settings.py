"""Speed and levers: spindle step, gearbox entry, thread dial lines, and the time the relief gives the hand.

`lathe_section` goes the way of a machinist at the headstock: how fast may it turn, which step has the lathe,
may the chuck run at it, which lever for the lead (`gears`), where may the half nuts close (`half_nuts`), is
there time to open them.
"""

from __future__ import annotations

from generator.calc import relief as relief_calc
from generator.calc import spindle
from generator.calc.cutting import spindle_speed
from generator.job.lathe import Lathe
from generator.job.model import Job, Mate
from generator.job.operations import Relief, Thread
from generator.job.shop import House
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.exact import exact_lead
from generator.sheet.figure import Figure, Kind
from generator.sheet.gears import lay_gearbox
from generator.sheet.half_nuts import lay_thread_dial
from generator.sheet.head import HEAD_WORDS, used_head
from generator.sheet.layout import lay_out
from generator.sheet.plans import LathePlan, ThreadPlan
from generator.sheet.spindle_step import Turned, check_head, lay_step
from generator.sheet.threading import relief_operation, thread_operation
from generator.sheet.wording import rpm_words, seconds_words
from generator.si import Length, Speed, SpindleSpeed, Time, ft_per_min, m_per_min
from generator.tables.materials import MaterialRow

PRACTICE = later("common practice, no source")
COURSE = later("US Army course OD1645, Lathe Operations (1988)")
RELIEF_CHECK, RELIEF_STOP = 1.0, 0.5  # s; common practice
SAME = 1e-9                           # share within which two times are one


def lathe_section(
    job: Job, lathe: Lathe, house: House, material: MaterialRow | None, thread: ThreadPlan, desk: Desk
) -> LathePlan:
    """Lay down the settings of this lathe for this thread; what its record does not say stays unknown.

    Raises
    ------
    OutsideRange
        When the lathe's record of its change gears or its thread dial cannot be true.
    """
    operation = thread_operation(job)
    assert operation is not None
    where = operation.length.where
    wanted = _lay_wanted(operation, material, thread, desk)
    turned = Turned(say("this thread"), "spindle.step", say("Spindle step"), where)
    step = lay_step(turned, operation.spindle, lathe, wanted, desk)
    if step is not None:
        at = (operation.spindle or operation.length).where
        check_head(used_head(job, lathe), job, lathe, step, at, desk)
    lead = exact_lead(thread)
    mate = job.mate if isinstance(job.mate, Mate) else None
    engagement = mate.engagement.si if mate and mate.engagement else None
    gears = lay_gearbox(lathe, thread, engagement, where, desk)
    rule = lay_thread_dial(lathe, gears.lead or lead, thread.designation.starts, where, desk)
    closed = rule is None or rule.keep_half_nuts_closed
    if closed and lathe.spindle.nose == "screwed" and job.holding.collet is None:
        desk.find(
            "screwed-nose", "check",
            say(
                "The half nuts stay closed, so the carriage comes back by reversing the spindle, and the "
                "{head} is screwed on the nose: it can unscrew. Decide how it is kept on, or take a lathe "
                "with another nose.",
                head=HEAD_WORDS[job.holding.held.kind],
            ),
            where,
        )
    speed = _lay_carriage(thread, step, desk)
    time = _lay_relief(job, lathe, house, thread, speed, closed, desk)
    return LathePlan(gears.lead, step, speed, time, closed)


# -- spindle --------------------------------------------------------------------------------------------


def _lay_wanted(
    operation: Thread, material: MaterialRow | None, thread: ThreadPlan, desk: Desk
) -> SpindleSpeed | None:
    """The speed not to go above, from the job or from the material; None when neither says."""
    label, label_wanted = say("Threading speed, not above"), say("Spindle speed, not above")
    if operation.speed is not None:
        limit = desk.given("spindle.surface_speed", label, operation.speed, "speed")
        _check_given_speed(operation.speed, material, desk)
    elif material is not None:
        limit = material.threading_speed_high
        of_shop = "jobs/_shop" in material.speed_source
        note = say("upper end for high-speed steel in {group}", group=material.group)
        if "from memory" in material.speed_source:
            note = say("{note}; the table's value is from memory, check your copy", note=note)
        desk.lay(Figure(
            "spindle.surface_speed", label, limit, "speed", Kind.SHOP if of_shop else Kind.STANDARD,
            material.speed_source, note=note, rounds="down",
        ))
    else:
        why = say("the material is unknown and the job gives no speed")
        desk.unknown("spindle.surface_speed", label, "speed", why)
        desk.unknown("spindle.wanted", label_wanted, "spindle_speed", why)
        return None
    across = "root" if thread.internal else "blank"
    return desk.computed(
        "spindle.wanted", label_wanted, spindle_speed(limit, thread.cutting_diameter), "spindle_speed",
        f"{{v}} ÷ (π × {{{across}}})", {"v": (limit, "speed"), across: (thread.cutting_diameter, "length")},
        COURSE,
        rounds="down",
    )


def _check_given_speed(given: Given, material: MaterialRow | None, desk: Desk) -> None:
    """A cutting speed that the job chose against the upper end of the material's own."""
    if material is None or given.si <= material.threading_speed_high:
        return
    upper = material.threading_speed_high
    desk.find(
        "speed-fast", "check",
        say(
            "The threading speed of {given} is above {in_feet:.0f} ft/min ({in_meters:.1f} m/min), the upper "
            "end for high-speed steel in {group} ({source}). Decide whether tool, half nuts and hand bear "
            "it.",
            given=given.with_unit, in_feet=upper / ft_per_min, in_meters=upper / m_per_min,
            group=material.group, source=material.speed_source,
        ),
        given.where,
    )


# -- carriage and relief --------------------------------------------------------------------------------


def _lay_carriage(thread: ThreadPlan, step: SpindleSpeed | None, desk: Desk) -> Speed | None:
    """How fast the carriage moves."""
    name, label = "carriage.speed", say("Carriage speed while threading")
    if step is None:
        desk.unknown(name, label, "carriage_speed", say("the spindle step is unknown"))
        return None
    return desk.computed(
        name, label, spindle.carriage_speed(thread.lead, step), "carriage_speed", "{L} × {n}",
        {"L": (thread.lead, "fine_length"), "n": (step, "spindle_speed")}, say("arithmetic"), rounds="up",
    )


def _lay_relief(
    job: Job, lathe: Lathe, house: House, thread: ThreadPlan, speed: Speed | None, closed: bool, desk: Desk
) -> Time | None:
    """The seconds that the relief gives; what to know where it gives none."""
    operation, groove = thread_operation(job), relief_operation(job)
    assert operation is not None
    left = thread.designation.hand == "left"
    if groove is None or thread.relief_start is None or thread.relief_end is None:
        fades = not left and (operation.run_out is not None or thread.profile.taper > 0)
        if not fades and not _runs_out(job, thread):
            _find_no_relief(left, thread.internal, operation, desk)
        return None
    if left:
        desk.find(
            "left-hand-start", "note",
            say(
                "Left-hand: each pass starts with the tool in the relief at the chuck end, and the carriage "
                "runs towards the tailstock. The tool leaves the thread at the mouth of the bore."
            )
            if thread.internal
            else say(
                "Left-hand: each pass starts with the tool in the relief at the chuck end, and the carriage "
                "runs towards the tailstock. See that the tool leaves the thread there before it meets the "
                "center."
            ),
            groove.width.where,
        )
        return None
    width = thread.relief_start - thread.relief_end
    return _lay_time(groove, lathe, house, thread, width, speed, closed, desk)


def _lay_time(
    groove: Relief, lathe: Lathe, house: House, thread: ThreadPlan, width: Length, speed: Speed | None,
    closed: bool, desk: Desk,
) -> Time | None:
    """Seconds from the end of the thread to the shoulder, and whether they are enough.

    With the half nuts `closed` to the end the carriage goes on until the spindle stands.
    """
    name, label = "relief.time", say("Time in the relief")
    if speed is None:
        desk.unknown(name, label, "time", say("the carriage speed is unknown"))
        return None
    what = say("withdraw and stop the spindle") if closed else say("open the half nuts and withdraw")
    time = desk.computed(
        name, label, relief_calc.reaction_time(width, speed), "time", "{width} ÷ {carriage speed}",
        {"width": (width, "length"), "carriage speed": (speed, "carriage_speed")}, say("arithmetic"),
        rounds="down", note=say("to {what}; the tool's own width takes part of it", what=what),
    )
    check = house.relief_time_check.si if house.relief_time_check else RELIEF_CHECK
    stop = house.relief_time_stop.si if house.relief_time_stop else RELIEF_STOP
    for level, least in (("stop", stop), ("check", check)):
        if time < least * (1 - SAME):
            desk.find(
                "relief-time", level,  # type: ignore[arg-type]
                say(
                    "The tool crosses the relief in {time}, and {least:g} s are wanted to {what}. {slower}",
                    time=seconds_words(time), least=least, what=what,
                    slower=_slower(lathe, thread.lead, width, max(check, stop)),
                ),
                groove.width.where,
            )
            break
    return time


def _slower(lathe: Lathe, lead: Length, width: Length, wanted: Time) -> str:
    """What to do when the time is short."""
    highest = relief_calc.highest_speed(width, lead, wanted)
    step = spindle.highest_step([speed.si for speed in lathe.spindle.speeds], highest)
    if step is None:
        return say(
            "No step of this lathe is slow enough: widen the relief, thread away from the shoulder, or turn "
            "the last of it by hand."
        )
    return say(
        "The step of {step} gives {time}; or widen the relief.",
        step=rpm_words(step), time=seconds_words(width / (lead * step)),
    )


def _runs_out(job: Job, thread: ThreadPlan) -> bool:
    """True when the tool runs into air at the chuck end: outside smaller than the root, or bore larger."""
    beside = lay_out(job).span_at(thread.end - thread.pitch / 2)
    if thread.internal:
        return beside is None or beside.bore > thread.root_diameter
    return beside is not None and max(beside.od_start, beside.od_end) < thread.root_diameter


def _find_no_relief(left: bool, internal: bool, operation: Thread, desk: Desk) -> None:
    if left:
        words = say(
            "There is no relief to start this left-hand thread in: give one, or start the tool in a drilled "
            "hole."
        )
    elif internal:
        words = say(
            "There is no relief, and nothing larger for the tool to run out into: withdraw it at the same "
            "place in every pass, or give a relief."
        )
    else:
        words = say(
            "There is no relief, and nothing smaller for the tool to run out into: withdraw it at the same "
            "place in every pass, or give a relief."
        )
    asks = say("May a relief be cut behind the thread?")
    desk.find("no-relief", "check", words, operation.length.where, asks)
