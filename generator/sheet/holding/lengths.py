"""Grip, stick-out and slenderness, with the rules of thumb that the trade has for them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from generator.calc.slenderness import ALONE, BETWEEN, GRIP_SHARE, slenderness
from generator.job.model import HeldBy, Job
from generator.job.shop import House
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout

DUST = 1e-9  # of a number of diameters: what rounding leaves is not over a limit
FROM: Final[Mapping[HeldBy, str]] = {
    "chuck": later("jaws"), "collet": later("collet"), "faceplate": later("faceplate"),
    "centers": later("headstock center"),
}
HELD_BY: Final[Mapping[HeldBy, str]] = {
    "chuck": later("chuck"), "collet": later("collet"), "faceplate": later("faceplate"),
    "centers": later("centers"),
}
HELD_ALONE_BY: Final[Mapping[HeldBy, str]] = {
    "chuck": later("the chuck"), "collet": later("the collet"), "faceplate": later("the faceplate"),
    "centers": later("the centers"),
}
MANUALS = later("lathe operators' manuals (support beyond three diameters); common practice, no source")


def lay_lengths(job: Job, layout: Layout, desk: Desk) -> None:
    """Lay down length, grip and stick-out."""
    sections = {
        say("section {number}", number=number): section.length.si
        for number, section in enumerate(job.work, 1)
    }
    desk.computed(
        "work.length",
        say("Length of the work"),
        layout.total,
        "length",
        " + ".join(f"{{{name}}}" for name in sections),
        {name: (length, "length") for name, length in sections.items()},
        say("the sections of the job file"),
    )
    holding = job.holding
    kind = holding.held.kind
    if kind in ("chuck", "collet"):
        desk.given("holding.grip", say("Grip in the {from_}", from_=FROM[kind]), holding.grip, "length")
        formula, put = "{work} − {grip}", {"work": layout.total, "grip": layout.grip}
    else:
        formula, put = "{work}", {"work": layout.total}
    if holding.centers is not None:
        desk.given("holding.dog", say("Work that the dog takes"), holding.centers.dog, "length")
    desk.computed(
        "holding.stick_out",
        say("Length between the centers")
        if kind == "centers"
        else say("Stick-out from the {from_}", from_=FROM[kind]),
        layout.stick_out,
        "length",
        formula,
        {name: (value, "length") for name, value in put.items()},
        say("geometry"),
    )


def lay_slenderness(job: Job, house: House, layout: Layout, desk: Desk) -> None:
    """Lay down the stick-out in diameters, with what the rules of thumb say of it."""
    holding, at_jaws = job.holding, layout.span_at(0.0)
    if at_jaws is None:
        return  # the grip is longer than the work: the checks of the job file say so
    kind = holding.held.kind
    length = "length" if kind == "centers" else "stick-out"
    limit = house.stick_out_check.si if house.stick_out_check else ALONE
    diameters = desk.computed(
        "holding.slenderness",
        say("Length between the centers over diameter") if kind == "centers"
        else say("Stick-out over diameter at the {from_}", from_=FROM[kind]),
        slenderness(layout.stick_out, at_jaws.od_at(0.0)),
        "ratio",
        f"{{{length}}} ÷ {{diameter}}",
        {length: (layout.stick_out, "length"), "diameter": (at_jaws.od_at(0.0), "length")},
        MANUALS,
        note=rule_of_thumb(kind, limit),
        rounds="up",
    )
    alone = holding.center is None and holding.steady is None
    if alone and diameters > limit * (1 + DUST):
        desk.find(
            "stick-out",
            "check",
            say("The work stands out {diameters:.1f} diameters with nothing at its end; over {limit:g} it "
                "wants a center or a steady rest.", diameters=diameters, limit=limit),
            holding.grip.where,
        )
    if (
        holding.center is not None
        and holding.steady is None
        and not holding.follow_rest
        and diameters > BETWEEN
    ):
        what = (
            say("between the centers") if kind == "centers"
            else say("between {kind} and center", kind=HELD_BY[kind])
        )
        desk.find(
            "slender",
            "check",
            say("{diameters:.1f} diameters {what}; over {between:g} it wants a follow rest or steady rest, "
                "or much lighter cuts.", diameters=diameters, what=what, between=BETWEEN),
            holding.grip.where,
        )
    if kind not in ("chuck", "collet"):
        return  # clamps and centers do not grip along the work
    if alone and layout.grip < GRIP_SHARE * layout.stick_out:
        desk.find(
            "grip-short",
            "check",
            say("The jaws hold {grip}, less than a third of what stands out. Grip more, or support the end.",
                grip=holding.grip.with_unit) if kind == "chuck"
            else say("The collet holds {grip}, less than a third of what stands out. Grip more, or support "
                     "the end.", grip=holding.grip.with_unit),
            holding.grip.where,
        )
    if holding.steady is not None and holding.center is None and not holding.hold_back:
        desk.find(
            "no-hold-back",
            "check",
            say("With a steady rest and no center, nothing but the jaws keeps the work from walking out of "
                "the chuck. Put on a hold-back, or say why it is not needed.") if kind == "chuck"
            else say("With a steady rest and no center, nothing but the collet keeps the work from walking "
                     "out of the collet. Put on a hold-back, or say why it is not needed."),
            holding.grip.where,
        )


def rule_of_thumb(kind: HeldBy, alone: float = ALONE) -> str:
    """What the trade goes by.

    >>> rule_of_thumb("chuck")
    'rule of thumb: up to 3 alone, up to 10 with a center, over that a steady rest or follow rest as well'
    >>> rule_of_thumb("centers")
    'rule of thumb: up to 10 between centers, over that a steady rest or follow rest as well'
    """
    if kind == "centers":
        return say(
            "rule of thumb: up to {between:g} between centers, over that a steady rest or follow rest as "
            "well",
            between=BETWEEN,
        )
    return say(
        "rule of thumb: up to {alone:g} alone, up to {between:g} with a center, over that a steady rest or "
        "follow rest as well",
        alone=alone, between=BETWEEN,
    )
