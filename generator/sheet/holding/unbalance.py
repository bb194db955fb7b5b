"""What a mass off the axis does at the speeds of the route."""

from __future__ import annotations

import numpy as np

from generator.calc.compliance import compliance
from generator.calc.unbalance import SOURCE, rotating_force, speed_of_force, whirl_amplification
from generator.job.model import Unbalance
from generator.language.say import later, say
from generator.sheet.holding.case import Case
from generator.sheet.holding.give_figures import LEAST_GIVE
from generator.sheet.holding.steady_places import tool_places
from generator.sheet.wording import fine_words, force_words, rpm_words
from generator.si import Force, Length, SpindleSpeed, g_n, rev_per_min, um

PRACTICE = later("common practice, no source")
SHARE_OF_WEIGHT = 0.2  # of the work's weight that a turning force may reach; common practice, no source
NAME = "holding.unbalance."
SEEN = 2 * um  # off the axis: less no indicator of a shop shows; common practice, no source


def unbalance_section(case: Case) -> None:
    """Lay down the pull of a mass off the axis, how far it moves the work, and the speed it may turn at."""
    off = case.bench.job.holding.unbalance
    fastest = max((plan.spindle_speed for plan in case.route.plans if plan.spindle_speed), default=None)
    if off is None:
        return
    weight = case.plan.weight_kg * g_n if case.plan.weight_kg else None
    limit = _lay_limit(case, off, weight)
    if fastest is None:
        case.desk.unknown(
            f"{NAME}force", say("Pull of the mass off the axis"), "force", say("no speed is known")
        )
        return
    force = case.desk.computed(
        f"{NAME}force", say("Pull of the mass off the axis"),
        rotating_force(off.mass.si, off.radius.si, fastest), "force", "{m} × {r} × (2 π × {n} ÷ 60)²",
        {
            "m": (off.mass.si, "mass"), "r": (off.radius.si, "length"), "n": (fastest, "spindle_speed"),
        },
        SOURCE, rounds="up", note=say("at the highest step of the route"),
    )
    moved = _lay_moved(case, off, force, fastest)
    _judge(case, off, force, weight, fastest, limit, moved)


def _lay_limit(case: Case, off: Unbalance, weight: Force | None) -> SpindleSpeed | None:
    """Speed at which it pulls with a fifth of the work's weight."""
    label = say("Highest speed with the mass off the axis")
    if not weight:
        case.desk.unknown(f"{NAME}speed", label, "spindle_speed", say("the weight is unknown"))
        return None
    return case.desk.computed(
        f"{NAME}speed", label, speed_of_force(SHARE_OF_WEIGHT * weight, off.mass.si, off.radius.si),
        "spindle_speed", "60 × √({share} × {weight} ÷ ({m} × {r})) ÷ (2 π)",
        {
            "share": (SHARE_OF_WEIGHT, "ratio"), "weight": (weight, "force"), "m": (off.mass.si, "mass"),
            "r": (off.radius.si, "length"),
        },
        f"{SOURCE}; {PRACTICE}", rounds="down",
        note=say("there it pulls with a fifth of the work's weight; over that the lathe shakes"),
    )


def _lay_moved(case: Case, off: Unbalance, force: Force, fastest: SpindleSpeed) -> Length | None:
    """How far it holds the work off its axis under the tool, with what whirling adds; None where unknown."""
    held, critical = case.held, case.desk.figures.get("holding.critical_speed")
    if held.material is None or critical is None or not isinstance(critical.value, float):
        return None
    if fastest >= critical.value:
        return None  # the speed itself is stopped
    out = held.layout.stick_out
    at = min(off.at.si, out) if off.at is not None else out
    places = sorted({*tool_places(held), out, at})
    solved = compliance(held.beam(case.plan.steady_at), places)
    tools = [number for number, x in enumerate(places) if x in tool_places(held) or not tool_places(held)]
    give = max(float(np.abs(solved.push[tools, places.index(at)]).max()), LEAST_GIVE)
    more = whirl_amplification(fastest, critical.value)
    return case.desk.computed(
        f"{NAME}deflection", say("Work off its axis by that pull"), force * give * more,
        "fine_length", "{F} ÷ {stiffness of the tool's place under it} ÷ (1 − ({n} ÷ {n critical})²)",
        {
            "F": (force, "force"), "stiffness of the tool's place under it": (1 / give, "stiffness"),
            "n": (fastest, "spindle_speed"), "n critical": (critical.value, "spindle_speed"),
        },
        say("beam elements (Cook et al.); {source}", source=SOURCE),
        note=say("what is turned so runs out by twice this once the work stands still, or turns slowly"),
        rounds="up",
    )


def _judge(
    case: Case, off: Unbalance, force: Force, weight: Force | None, fastest: SpindleSpeed,
    limit: SpindleSpeed | None, moved: Length | None,
) -> None:
    """Find a pull that is too much for the work's weight."""
    if not weight or limit is None or force <= SHARE_OF_WEIGHT * weight:
        return
    system = case.bench.system
    bends = ""
    if moved is not None and moved >= SEEN:
        bends = say(" It holds the work {moved} off its axis.", moved=fine_words(moved, system))
    case.desk.find(
        "unbalance", "stop" if force >= weight else "check",
        say("At {speed} the mass off the axis pulls with {force}, {share:.0%} of the work's weight; over "
            "{most:.0%} the lathe shakes.{bends} Put a counterweight opposite, or run no faster than {limit} "
            "rpm.",
            speed=rpm_words(fastest), force=force_words(force, system), share=force / weight,
            most=SHARE_OF_WEIGHT, bends=bends, limit=int(limit / rev_per_min)),
        off.mass.where,
    )
