"""Grip, stick-out and slenderness, with the rules of thumb that the trade has for them."""

from __future__ import annotations

from generator.calc.slenderness import ALONE, BETWEEN, GRIP_SHARE, slenderness
from generator.job.model import Job
from generator.job.shop import House
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout

PRACTICE = "common practice, no source"


def lay_lengths(job: Job, layout: Layout, desk: Desk) -> None:
    """Lay down length, grip and stick-out."""
    desk.computed(
        "work.length",
        "Length of the work",
        layout.total,
        "length",
        " + ".join(f"{{section {number}}}" for number in range(1, len(job.work) + 1)),
        {f"section {number}": (section.length.si, "length") for number, section in enumerate(job.work, 1)},
        "the sections of the job file",
    )
    holding = job.holding
    desk.given("holding.grip", "Grip in the jaws", holding.grip, "length")
    desk.computed(
        "holding.stick_out",
        "Stick-out from the jaws",
        layout.stick_out,
        "length",
        "{work} − {grip}",
        {"work": (layout.total, "length"), "grip": (layout.grip, "length")},
        "geometry",
    )


def lay_slenderness(job: Job, house: House, layout: Layout, desk: Desk) -> None:
    """Lay down the stick-out in diameters, with what the rules of thumb say of it."""
    holding, at_jaws = job.holding, layout.span_at(0.0)
    if at_jaws is None:
        return  # the grip is longer than the work: the checks of the job file say so
    diameters = desk.computed(
        "holding.slenderness",
        "Stick-out over diameter at the jaws",
        slenderness(layout.stick_out, at_jaws.od_at(0.0)),
        "ratio",
        "{stick-out} ÷ {diameter}",
        {"stick-out": (layout.stick_out, "length"), "diameter": (at_jaws.od_at(0.0), "length")},
        "machine-safety texts (support beyond three diameters); " + PRACTICE,
        rounds="up",
    )
    limit = house.stick_out_check.si if house.stick_out_check else ALONE
    if holding.center is None and holding.steady is None and diameters > limit:
        desk.find(
            "stick-out",
            "check",
            f"The work stands out {diameters:.1f} diameters with nothing at its end; over {limit:g} it "
            "wants a center or a steady rest.",
            holding.grip.where,
        )
    if (
        holding.center is not None
        and holding.steady is None
        and not holding.follow_rest
        and diameters > BETWEEN
    ):
        desk.find(
            "slender",
            "check",
            f"{diameters:.1f} diameters between chuck and center; over {BETWEEN:g} it wants a follow "
            "rest or steady rest, or much lighter cuts.",
            holding.grip.where,
        )
    if holding.center is None and holding.steady is None and layout.grip < GRIP_SHARE * layout.stick_out:
        desk.find(
            "grip-short",
            "check",
            f"The jaws hold {holding.grip.with_unit}, less than a third of what stands out. Grip more, "
            "or support the end.",
            holding.grip.where,
        )
    if holding.steady is not None and holding.center is None and not holding.hold_back:
        desk.find(
            "no-hold-back",
            "check",
            "With a steady rest and no center, nothing but the jaws keeps the work from walking out of the "
            "chuck. Put on a hold-back, or say why it is not needed.",
            holding.grip.where,
        )
