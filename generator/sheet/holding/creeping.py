"""Work creeping out of the jaws because the steady rest holds it off the spindle's axis."""

from __future__ import annotations

from generator.calc.creep import friction_moment, off_axis_limit, pressure_swing, steady_push
from generator.calc.grip import friction_arm
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Gripped
from generator.sheet.wording import fine_words, torque_words
from generator.si import Force, Length, Torque, mm, thou

TIPS_OUT = 2.0  # of the bend at which the end of a jaw lifts: see `grip.lift_moment`
UNIT = {"inch": 4 * thou, "mm": 0.1 * mm}  # off the axis, where nobody measured it
BEAM = later("beam elements (Cook et al.), chuck and steady rest as soft as said above")
DERIVED = later("friction of the jaws against a bend that turns once a turn, derived here")
HOW = later(
    "Before the fingers close, set one indicator on the front and one on top of the turned band beside them, "
    "turn the chuck by hand, and set zero at the middle of each swing. Close the fingers: what the needles "
    "have moved, on top less the sag of long work, is how far off they hold it: √(front² + top²). From then "
    "on these needles stand still, however far off it is; one that the chuck carries around swings twice it."
)
NEAR = 0.5  # of what friction holds: the friction is not known better; common practice, no source
CHECK = later(
    "Look with an indicator on the front and on top of the band, before and after the fingers close: what it "
    "moves is how far off they hold the work, and once they are closed that no longer shows."
)
MARK = later("Mark the work at the jaws, and look at the mark after the first minutes")


def creep_section(case: Case, gripped: Gripped, pressing: Force) -> None:
    """Lay the bend that the steady rest puts into the work, and how far off the axis it may hold it."""
    holding, at = case.bench.job.holding, case.plan.steady_at
    steady = holding.steady
    if steady is None or at is None or case.held.material is None:
        return
    if not 0 < at < case.held.layout.stick_out or (holding.center is not None and steady.off_axis is None):
        return
    desk, off = case.desk, steady.off_axis
    measured = (
        desk.given(
            "grip.creep.off_axis",
            say("Held off the axis by the steady rest"),
            off,
            "fine_length",
            note=say("as the indicator showed"),
        )
        if off is not None
        else None
    )
    distance = measured or UNIT[case.bench.system]
    moment = _lay_moment(case, at, distance)
    arm = friction_arm(gripped.diameter, gripped.jaws)
    held = desk.computed(
        "grip.creep.friction", say("Bend that friction in the jaws takes"),
        friction_moment(pressing, gripped.friction, arm), "torque", "{grip} × {μ} × {lever}",
        {"grip": (pressing, "force"), "μ": (gripped.friction, "ratio"), "lever": (arm, "length")},
        DERIVED, rounds="down",
        note=say("while nothing is cut, at the grip there is") if "grip.force" in desk.figures
        else say("while nothing is cut, at the grip wanted"),
    )
    swing = 0.0
    if measured is not None:
        swing = desk.computed(
            "grip.creep.swing", say("Pressure at a jaw's end, swing once a turn over its mean"),
            pressure_swing(moment, pressing, gripped.length), "ratio", "12 × {bend} ÷ ({grip} × {length})",
            {"bend": (moment, "torque"), "grip": (pressing, "force"), "length": (gripped.length, "length")},
            say("statics, derived here"), rounds="up", note=say("at 1 the end of the jaw lifts once a turn"),
        )
    limit = desk.computed(
        "grip.creep.off_axis_limit", say("Off the axis at most, before the work creeps"),
        off_axis_limit(moment, distance, held), "fine_length", "{off the axis} × {friction takes} ÷ {bend}",
        {
            "off the axis": (distance, "fine_length"), "friction takes": (held, "torque"),
            "bend": (moment, "torque"),
        },
        DERIVED, rounds="down", note=HOW,
    )
    if holding.center is None:
        _judge(case, off, moment, held, limit, tips=swing >= TIPS_OUT)


def _lay_moment(case: Case, at: Length, distance: Length) -> Torque:
    """Lay force of the fingers and bending moment at the jaws (N m) with the work so far off the axis."""
    desk, beam = case.desk, case.held.beam(None)
    give, rest = float(beam.under_tool(1.0, [at])[0]), case.held.steady_stiffness
    push = desk.computed(
        "grip.creep.push", say("Force of the fingers, so far off the axis"),
        steady_push(distance, give, rest), "force",
        "{off the axis} ÷ (1 ÷ {stiffness of work and chuck there} + 1 ÷ {stiffness of the steady rest})",
        {
            "off the axis": (distance, "fine_length"),
            "stiffness of work and chuck there": (1 / give, "stiffness"),
            "stiffness of the steady rest": (rest, "stiffness"),
        },
        BEAM, rounds="up",
    )
    reactions = beam.reactions(push, at)
    lever = at - sum(
        reaction / push * support.at for reaction, support in zip(reactions, beam.supports, strict=True)
    )
    return desk.computed(
        "grip.creep.moment", say("Bend at the jaws, once a turn"), push * lever, "torque", "{push} × {lever}",
        {"push": (push, "force"), "lever": (lever, "length")}, BEAM, rounds="up",
        note=say("held {fine_words} off the axis", fine_words=fine_words(distance, case.bench.system)),
    )


def _judge(
    case: Case, off: Given | None, moment: Torque, held: Torque, limit: Length, *, tips: bool
) -> None:
    holding, desk, system = case.bench.job.holding, case.desk, case.bench.system
    most = fine_words(limit, system)
    if off is None:
        if not holding.hold_back:
            desk.find(
                "grip-creep", "check",
                say("With the fingers more than {most} off the axis the bend beats the jaws' friction once "
                    "a turn, and the work walks out. {check} {mark}.", most=most, check=CHECK, mark=MARK),
                holding.grip.where,
            )
        return
    if off.si <= limit:
        if off.si > NEAR * limit:
            desk.find(
                "grip-creep", "check",
                say("The fingers hold the work {off} off the axis; from {most} on it creeps out of the jaws. "
                    "Over {near:.0%} of that is near: set the fingers again. {mark}.",
                    off=off.with_unit, most=most, near=NEAR, mark=MARK),
                off.where,
            )
        return
    back = "" if holding.hold_back else say(" Nothing holds it back: put on a hold-back.")
    if tips:
        back = say(
            " It may tip out of the jaws, and a hold-back does not help against that.{back}", back=back
        )
    desk.find(
        "grip-creep", "check" if holding.hold_back and not tips else "stop",
        say("The fingers hold the work {off} off the axis. From {most} on it slips in the jaws once a turn "
            "and creeps out: the bend is {bend}, and friction takes {friction}. Set the fingers again. "
            "{mark}.{back}",
            off=off.with_unit, most=most, bend=torque_words(moment, system),
            friction=torque_words(held, system), mark=MARK, back=back),
        off.where,
    )
