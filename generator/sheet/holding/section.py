"""How the work is held: grip, stick-out, slenderness, weight; then steady rest, capacities and rigidity."""

from __future__ import annotations

import math

from generator.calc.slenderness import ALONE, BETWEEN, GRIP_SHARE, slenderness
from generator.calc.weight import volume, weight
from generator.errors import OutsideRange
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.shop import House
from generator.sheet.capacity import capacity_section, used_head
from generator.sheet.desk import Desk
from generator.sheet.holding.case import Case
from generator.sheet.holding.deflection import UNKNOWN as UNKNOWN_GIVE
from generator.sheet.holding.deflection import deflection_section
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.loads import cut_loads
from generator.sheet.holding.speeds import UNKNOWN as UNKNOWN_SPEED
from generator.sheet.holding.speeds import speed_section
from generator.sheet.holding.steady import steady_section
from generator.sheet.layout import Layout
from generator.sheet.model import Quantity
from generator.sheet.operation_task import Bench
from generator.sheet.plans import HoldingPlan, Route
from generator.sheet.wording import length_words, mass_words
from generator.si import Length, SpindleSpeed
from generator.tables.materials import MaterialRow

PRACTICE = "common practice, no source"
CHUCK_STIFFNESS = 1e5  # N m/rad: a light lathe with short jaws; common practice, no source
STEADY_STIFFNESS = 20e6  # N/m: middle of a planning range of 10 to 50 N/µm; common practice, no source
WEIGHT: tuple[str, str, Quantity] = ("holding.weight", "Weight of the work", "mass")
NO_BEAM = ("too-thin", "no-wall", "bore-too-large")  # findings after which nothing more is worked out
LIFT_ALONE = 25.0  # kg, HSE INDG143 guideline filter, close to the body; not a legal limit


def holding_section(
    bench: Bench, spindle_speed: SpindleSpeed | None
) -> tuple[HoldingPlan, HeldWork]:
    """Lay down how the work is held: what the route needs to know. `under_load_section` follows the route."""
    job, lathe, desk = bench.job, bench.lathe, bench.desk
    _lay_lengths(job, bench.layout, desk)
    _lay_slenderness(job, bench.house, bench.layout, desk)
    held, steady_at, kilograms = _held_work(bench), None, None
    try:
        kilograms = _lay_weight(job, lathe, bench.house, bench.material, bench.layout, desk)
        steady_at = steady_section(held, desk)
        if _stands_out(held, steady_at):
            speed_section(held, steady_at, bench.house, spindle_speed, desk)
    except OutsideRange as error:
        _lay_no_wall(job, lathe, error, desk)
    unchecked = capacity_section(job, lathe, bench.layout, bench.thread, steady_at, desk)
    plan = HoldingPlan(bench.layout.stick_out, bench.layout.grip, steady_at, kilograms, tuple(unchecked))
    return plan, held


def under_load_section(bench: Bench, held: HeldWork, plan: HoldingPlan, route: Route) -> HoldingPlan:
    """Lay down how the held work stands up to every cut of the route, to grip, load, weight and heat."""
    if any(finding.id in NO_BEAM for finding in bench.desk.findings):
        return plan
    case = Case(bench, held, plan, route, cut_loads(bench, route))
    try:
        if _stands_out(held, plan.steady_at):
            deflection_section(case)
    except OutsideRange as error:
        _lay_no_wall(bench.job, bench.lathe, error, bench.desk)
    return plan


def _stands_out(held: HeldWork, steady_at: Length | None) -> bool:
    """True when there is work outside the jaws, and the steady rest, if any, stands on it."""
    stick_out = held.layout.stick_out
    return stick_out > 0 and (steady_at is None or 0 < steady_at < stick_out)


def _lay_no_wall(job: Job, lathe: Lathe, error: OutsideRange, desk: Desk) -> None:
    """What to say of work that is no beam: somewhere its bore leaves no wall, or it is a wire."""
    bored = error.quantity == "bore"
    for name, label, quantity in (WEIGHT, *UNKNOWN_SPEED, *UNKNOWN_GIVE):
        if name not in desk.figures:
            desk.unknown(name, label, quantity, "the bore leaves no wall" if bored else error.source)
    if not bored:
        size = length_words(error.value, job.units or lathe.units)
        text = f"The {error.quantity} of {size} is {error.source}."
        desk.find("too-thin", "stop", text, job.work[0].length.where, "What are the diameters of the work?")
        return
    if any(finding.id == "bore-too-large" for finding in desk.findings):
        return  # said already, with both lines of the file
    system = job.units or lathe.units
    bore, outside = (length_words(size, system) for size in (error.value, error.high or 0.0))
    desk.find(
        "no-wall",
        "stop",
        f"Somewhere a bore of {bore} lies in an outside diameter of {outside}, the root of the thread and "
        "the relief included: there is no wall left, and deflection is not worked out.",
        job.work[0].length.where,
    )


def _held_work(bench: Bench) -> HeldWork:
    job, lathe, house, desk = bench.job, bench.lathe, bench.house, bench.desk
    head = used_head(job, lathe)
    chuck_stiffness = math.inf
    if job.holding.centers is None:
        chuck_stiffness = desk.chosen(
            "holding.chuck_stiffness",
            "Stiffness of the chuck against tilting",
            (head.stiffness if head else None) or house.chuck_stiffness,
            CHUCK_STIFFNESS,
            "angular_stiffness",
            PRACTICE + "; a light lathe with short jaws",
        )
    steady_stiffness = STEADY_STIFFNESS
    if job.holding.steady is not None:
        steady_stiffness = desk.chosen(
            "holding.steady_stiffness",
            "Stiffness of the steady rest",
            (lathe.steady.stiffness if lathe.steady else None) or house.steady_stiffness,
            STEADY_STIFFNESS,
            "stiffness",
            PRACTICE,
        )
    return HeldWork(
        job, lathe, bench.layout, bench.thread, bench.material, chuck_stiffness, steady_stiffness
    )


# -- lengths and weight ---------------------------------------------------------------------------------


def _lay_lengths(job: Job, layout: Layout, desk: Desk) -> None:
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


def _lay_slenderness(job: Job, house: House, layout: Layout, desk: Desk) -> None:
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


def _lay_weight(
    job: Job, lathe: Lathe, house: House, material: MaterialRow | None, layout: Layout, desk: Desk
) -> float | None:
    if material is None:
        desk.unknown(*WEIGHT, "the material is unknown")
        return None
    size = sum(volume(span.end - span.start, span.od_start, span.od_end, span.bore) for span in layout.spans)
    kilograms = desk.computed(
        *WEIGHT[:2],
        weight(size, material.density),
        WEIGHT[2],
        "{ρ} × sum over sections of π ÷ 12 × (D² + D d + d²) × length − π ÷ 4 × bore² × length",
        {"ρ": (material.density, "density")},
        material.source,
        rounds="up",
    )
    limit = desk.chosen(
        "holding.lift_alone",
        "Lifted by one person at most",
        house.lift_alone,
        LIFT_ALONE,
        "mass",
        "HSE INDG143 guideline filter, close to the body; not a legal limit",
    )
    system = job.units or lathe.units
    weighs = f"The work weighs about {mass_words(kilograms, system)}"
    if lathe.hoist is not None and kilograms > lathe.hoist.si:
        desk.find(
            "hoist",
            "stop",
            f"{weighs}; the hoist of {lathe.name} lifts {lathe.hoist.with_unit}. It needs a stronger hoist.",
            job.work[0].length.where,
        )
    elif kilograms > limit:
        tackle = f"is marked {lathe.hoist.with_unit}" if lathe.hoist else "is not in the lathe's record"
        desk.find(
            "lift",
            "check",
            f"{weighs}, more than the {mass_words(limit, system)} one person lifts: use a hoist. "
            f"The hoist here {tackle}.",
            job.work[0].length.where,
        )
    return kilograms
