"""Work clamped on the faceplate: what the clamps must hold, against what they press with."""

from __future__ import annotations

from generator.calc.grip import clamp_force
from generator.language.say import first_large, later, say
from generator.sheet.figure import Quantity
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Demand, demands, not_in_it
from generator.sheet.holding.grip_friction import lay_friction
from generator.sheet.holding.grip_words import (
    STATICS,
    lay_cut,
    lay_push,
    lay_safety,
    lay_tipping,
    lay_torque,
)
from generator.sheet.wording import force_words
from generator.si import Force, Length

STOP = later(
    "A stop bolted on the plate against the work, on the side it is driven from, takes what friction would "
    "have to"
)


def clamped_section(case: Case) -> None:
    """Lay the clamp force wanted and the one there is, with their findings."""
    plate, desk, system = case.bench.job.holding.faceplate, case.desk, case.bench.system
    assert plate is not None
    circle, clamps = plate.clamp_circle.si, plate.clamps
    friction = lay_friction(case, plate, 0).value
    worst = max(demands(case, 0.0), key=lambda one: _holds(one, circle, friction))
    safety = lay_safety(case)
    lay_cut(desk, worst)
    torque, push = lay_torque(desk, worst), lay_push(desk, worst)
    pull, tipping = max(-push, 0.0), lay_tipping(desk, worst, say("the plate")) if worst.tipping > 0 else 0.0
    put: dict[str, tuple[float, Quantity]] = {
        "up and down": (max(worst.load.heaviest.main, worst.down), "force"),
        "radial": (worst.load.heaviest.radial, "force"),
    }
    if worst.thrown:
        put["mass off the axis"] = (worst.thrown, "force")
    across = desk.computed(
        "grip.across", say("Force across the lathe in that cut"), worst.across, "force",
        "√({up and down}² + {radial}²)" + (" + {mass off the axis}" if worst.thrown else ""), put,
        STATICS, rounds="up", note=say("up and down the larger of main force and weight"),
    )
    slips = (2 * torque / circle + across) / friction >= 4 * tipping / circle
    holds = desk.computed(
        "grip.holds", say("Clamp force that just holds, together"), _holds(worst, circle, friction), "force",
        "(2 × {T} ÷ {circle} + {across}) ÷ {μ} + {pull}" if slips else "4 × {M} ÷ {circle} + {pull}",
        {
            "T": (torque, "torque"), "circle": (circle, "length"), "across": (across, "force"),
            "μ": (friction, "ratio"), "pull": (pull, "force"),
        } if slips else {"M": (tipping, "torque"), "circle": (circle, "length"), "pull": (pull, "force")},
        STATICS, rounds="up",
        note=say("friction on the plate alone") if slips else say("no side of the work leaves the plate"),
    )
    wanted = desk.computed(
        "grip.needed",
        say("Clamp force wanted, together"),
        safety * holds,
        "force",
        "{safety} × {just holds}",
        {"safety": (safety, "ratio"), "just holds": (holds, "force")},
        say("common practice, no source"),
        rounds="up",
        note=not_in_it(case),
    )
    each = desk.computed(
        "grip.clamp", say("Force wanted of each clamp"), wanted / clamps, "force", "{together} ÷ {clamps}",
        {"together": (wanted, "force"), "clamps": (float(clamps), "count")}, say("arithmetic"), rounds="up",
        note=say("all alike tight"),
    )
    said, where = plate.clamp_force, plate.clamp_circle.where
    what, force = first_large(worst.words), force_words(each, system)
    if said is None:
        desk.find(
            "grip-unknown", "note",
            say("{what} wants {force} of each clamp. Nobody said what a clamp presses with "
                "(faceplate: clamp_force). {stop}.", what=what, force=force, stop=STOP),
            where,
        )
        return
    there = desk.computed(
        "grip.force", say("Clamp force there is, together"), clamps * said.si, "force", "{clamps} × {of one}",
        {"clamps": (float(clamps), "count"), "of one": (said.si, "force")}, say("arithmetic"), rounds="down",
    )
    if there >= wanted:
        return
    desk.find(
        "grip-low", "stop" if there < holds else "check",
        say("{what} wants {force} of each clamp, and it presses with {there}; {least} just holds. {stop}. "
            "Else more clamps, or lighter cuts.",
            what=what, force=force, there=said.with_unit,
            least=force_words(holds / clamps, system), stop=STOP),
        said.where,
    )


def _holds(one: Demand, circle: Length, friction: float) -> Force:
    return clamp_force(one.torque, one.across, max(-one.push, 0.0), one.tipping, circle, friction)
