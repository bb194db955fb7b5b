"""Figures of every way of holding: the hardest cut, its torque, push and tipping, the safety."""

from __future__ import annotations

from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Demand
from generator.si import Force, Torque

SAFETY = 2.25  # 1.5 for the cut and 1.5 for the grip, VDI 3106
SAFETY_SOURCE = later(
    "VDI 3106: 1.5 for the cut and 1.5 for the grip; a chuck maker's guide, RN-1391, takes 2 to 2.4, and 4 "
    "where an overhang is left to it"
)
STATICS = later("statics, derived here")


def lay_safety(case: Case) -> float:
    """Lay the grip wanted over grip that just holds."""
    return case.desk.chosen(
        "grip.safety", say("Safety: grip wanted over grip that just holds"), case.bench.house.grip_safety,
        SAFETY, "ratio", SAFETY_SOURCE,
    )


def lay_cut(desk: Desk, worst: Demand, label: str = later("Cut that asks most of the grip")) -> None:
    """Lay which cut asks most of what holds the work."""
    bears = say("nothing bears at its other end") if worst.overhung else ""
    desk.lay(Figure(
        "grip.cut", label, worst.words, "text", Kind.COMPUTED,
        say("the largest of all cuts of the route"), note=bears, where=worst.load.where,
    ))


def lay_torque(desk: Desk, worst: Demand) -> Torque:
    """Lay its torque."""
    load = worst.load
    drilled = load.heaviest.main == 0 and worst.torque > 0
    put: dict[str, tuple[float, Quantity]] = (
        {"torque of the lips": (worst.torque / 2, "torque")} if drilled
        else {"F": (load.heaviest.main, "force"), "d": (load.diameter, "length")}
    )
    return desk.computed(
        "grip.torque",
        say("Torque of that cut"),
        worst.torque,
        "torque",
        "2 × {torque of the lips}" if drilled else "{F} × {d} ÷ 2",
        put,
        say("DIN 6584; arithmetic"),
        rounds="up",
        note=say("twice, for web, margins and wear") if drilled else "",
    )


def lay_push(desk: Desk, worst: Demand) -> Force:
    """Lay its push along the lathe, where there is one; returned + towards the chuck."""
    if worst.push == 0:
        return 0.0
    way = say("towards the chuck") if worst.push > 0 else say("away from the chuck")
    desk.computed(
        "grip.push", say("Push along the lathe in that cut"), abs(worst.push), "force", "{feed force}",
        {"feed force": (abs(worst.push), "force")}, say("common practice, no source"), note=way, rounds="up",
    )
    return worst.push


def lay_tipping(desk: Desk, worst: Demand, about: str) -> Torque:
    """Lay the moment that tips the work."""
    put: dict[str, tuple[float, Quantity]] = {
        "up and down": (worst.upright, "torque"), "sideways": (worst.level, "torque"),
    }
    if worst.swing:
        put["mass off the axis"] = (worst.swing, "torque")
    return desk.computed(
        "grip.tipping", say("Moment that tips the work in that cut"), worst.tipping, "torque",
        "√({up and down}² + {sideways}²)" + (" + {mass off the axis}" if worst.swing else ""), put,
        STATICS, rounds="up",
        note=say("about {about}; up and down is the weight", about=about) if worst.load.heaviest.main == 0
        else say("about {about}; up and down the larger of main force and weight; sideways radial and feed "
                 "force",
                 about=about),
    )
