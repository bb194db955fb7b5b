"""Grip that the weight alone wants of the jaws, of a job in which no cut's force is known."""

from __future__ import annotations

from generator.calc.balance import balance_point
from generator.calc.grip import friction_arm, just_holding, pressure_arm
from generator.calc.weight import weight
from generator.language.say import later, say
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Gripped
from generator.sheet.holding.grip_force import lay_force
from generator.sheet.holding.grip_friction import Friction
from generator.sheet.holding.grip_words import STATICS, lay_safety
from generator.sheet.holding.stock import finished_rounds
from generator.sheet.wording import force_words
from generator.si import Force, Torque, g_n

NO_CUTS = later("no cut is in it")


def hanging_section(case: Case, gripped: Gripped, friction: Friction) -> None:
    """Lay the grip that keeps the work from tipping out by its own weight, and judge the grip there is.

    Nothing where a steady rest or a center bears, or the balance point lies in the jaws.
    """
    holding, material = case.bench.job.holding, case.bench.material
    rounds = finished_rounds(case.bench.layout)
    balance = balance_point(rounds)
    if material is None or holding.steady is not None or holding.center is not None or balance <= 0:
        return
    heavy = weight(sum(one.volume for one in rounds), material.density) * g_n
    arm = balance + gripped.length / 2
    tipping = case.desk.computed(
        "grip.tipping", say("Moment with which its weight tips the work"), heavy * arm, "torque",
        "{weight} × {arm}",
        {"weight": (heavy, "force"), "arm": (arm, "length")}, STATICS, rounds="up",
        note=say("about the middle of the grip"),
    )
    holds = case.desk.computed(
        "grip.holds",
        say("Grip that just holds the weight"),
        _holds(tipping, gripped, gripped.friction),
        "force",
        "{M} ÷ ({lever of the pressure} + {μ} × {lever of the friction})",
        {
            "M": (tipping, "torque"),
            "μ": (gripped.friction, "ratio"),
            "lever of the pressure": (pressure_arm(gripped.length, gripped.jaws), "length"),
            "lever of the friction": (friction_arm(gripped.diameter, gripped.jaws), "length"),
        },
        STATICS,
        rounds="up",
        note=NO_CUTS,
    )
    safety = lay_safety(case)
    needed = case.desk.computed(
        "grip.needed", say("Grip wanted at rest"), safety * holds, "force", "{safety} × {just holds}",
        {"safety": (safety, "ratio"), "just holds": (holds, "force")}, STATICS, rounds="up", note=NO_CUTS,
    )
    force = lay_force(case)
    if force is not None and force < needed:
        _judge(case, force, needed, stop=force < _holds(tipping, gripped, friction.most))


def _holds(tipping: Torque, gripped: Gripped, friction: float) -> Force:
    return just_holding(
        0.0, 0.0, tipping, gripped.diameter, gripped.length, friction, gripped.jaws
    ).force


def _judge(case: Case, force: Force, needed: Force, *, stop: bool) -> None:
    system = case.bench.system
    case.desk.find(
        "grip-low", "stop" if stop else "check",
        say("The grip is {grip} at rest. The weight alone, before anything is cut, wants {wanted} with "
            "safety, or the work tips out of what holds it. Grip a longer length, support its end, or grip "
            "harder.",
            grip=force_words(force, system), wanted=force_words(needed, system)),
        case.bench.job.holding.grip.where,
    )
