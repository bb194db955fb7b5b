"""How the work is held, and how it stands up to what is done with it: the parts of it in order.

    holding_section      before the route, which needs the steady rest's place and the critical speeds
    under_load_section   after it, for every cut of the route
"""

from __future__ import annotations

from dataclasses import replace

from generator.errors import OutsideRange
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.language.say import say
from generator.sheet.capacity import capacity_section
from generator.sheet.desk import Desk
from generator.sheet.drawn import PlotScene
from generator.sheet.holding.case import Case
from generator.sheet.holding.deflection import UNKNOWN as UNKNOWN_GIVE
from generator.sheet.holding.deflection import deflection_section
from generator.sheet.holding.grip import grip_section
from generator.sheet.holding.handling import WEIGHT, handling_section, lay_weight
from generator.sheet.holding.heat import heat_section
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.lengths import lay_lengths, lay_slenderness
from generator.sheet.holding.loads import cut_loads
from generator.sheet.holding.push import push_section
from generator.sheet.holding.speeds import UNKNOWN as UNKNOWN_SPEED
from generator.sheet.holding.speeds import speed_section
from generator.sheet.holding.steady import steady_section
from generator.sheet.holding.stick_out import stick_out_section
from generator.sheet.holding.stiffness import held_work
from generator.sheet.holding.strength import strength_section
from generator.sheet.holding.thin import thin_section
from generator.sheet.holding.unbalance import unbalance_section
from generator.sheet.operation_task import Bench
from generator.sheet.plans import HoldingPlan, Route
from generator.sheet.wording import length_words
from generator.si import Length, SpindleSpeed

NO_BEAM = ("too-thin", "no-wall", "bore-too-large")  # findings after which nothing more is worked out


def holding_section(bench: Bench, spindle_speed: SpindleSpeed | None) -> tuple[HoldingPlan, HeldWork]:
    """Lay down how the work is held: what the route needs to know. `under_load_section` follows the route."""
    job, lathe, desk = bench.job, bench.lathe, bench.desk
    lay_lengths(job, bench.layout, desk)
    lay_slenderness(job, bench.house, bench.layout, desk)
    held, steady_at, kilograms, plot = held_work(bench), None, None, None
    try:
        kilograms = lay_weight(bench)
        steady_at, plot = steady_section(held, bench)
        if _stands_out(held, steady_at):
            speed_section(held, steady_at, bench.house, spindle_speed, desk)
    except OutsideRange as error:
        _lay_no_wall(job, lathe, error, desk)
    unchecked = capacity_section(job, lathe, bench.layout, bench.thread, steady_at, desk)
    plots = (plot,) if plot else ()
    plan = HoldingPlan(
        bench.layout.stick_out, bench.layout.grip, steady_at, kilograms, tuple(unchecked), plots
    )
    return plan, held


def under_load_section(bench: Bench, held: HeldWork, plan: HoldingPlan, route: Route) -> HoldingPlan:
    """Lay down how the held work stands up to every cut of the route, to grip, load, weight and heat."""
    if any(finding.id in NO_BEAM for finding in bench.desk.findings):
        return plan
    case = Case(bench, held, plan, route, cut_loads(bench, route))
    plots: tuple[PlotScene, ...] = ()
    try:
        if _stands_out(held, plan.steady_at):
            plots = (*deflection_section(case), *stick_out_section(case))
            push_section(case)
            unbalance_section(case)
        for section in (grip_section, thin_section, strength_section, heat_section, handling_section):
            section(case)
    except OutsideRange as error:
        _lay_no_wall(bench.job, bench.lathe, error, bench.desk)
    return replace(plan, plots=(*plan.plots, *plots))


def _stands_out(held: HeldWork, steady_at: Length | None) -> bool:
    """True when there is work outside the jaws, and the steady rest, if any, stands on it."""
    stick_out = held.layout.stick_out
    return stick_out > 0 and (steady_at is None or 0 < steady_at < stick_out)


def _lay_no_wall(job: Job, lathe: Lathe, error: OutsideRange, desk: Desk) -> None:
    """What to say of work that is no beam: somewhere its bore leaves no wall, or it is a wire."""
    bored = error.quantity == "bore"
    for name, label, quantity in (WEIGHT, *UNKNOWN_SPEED, *UNKNOWN_GIVE):
        if name not in desk.figures:
            desk.unknown(name, label, quantity, say("the bore leaves no wall") if bored else error.source)
    if not bored:
        size = length_words(error.value, job.units or lathe.units)
        text = say(
            "The {quantity} of {size} is {source}.", quantity=error.quantity, size=size, source=error.source
        )
        asks = say("What are the diameters of the work?")
        desk.find("too-thin", "stop", text, job.work[0].length.where, asks)
        return
    if any(finding.id == "bore-too-large" for finding in desk.findings):
        return  # said already, with both lines of the file
    system = job.units or lathe.units
    bore, outside = (length_words(size, system) for size in (error.value, error.high or 0.0))
    desk.find(
        "no-wall",
        "stop",
        say("Somewhere a bore of {bore} lies in an outside diameter of {outside}, the root of the thread and "
            "the relief included: there is no wall left, and deflection is not worked out.",
            bore=bore, outside=outside),
        job.work[0].length.where,
    )
