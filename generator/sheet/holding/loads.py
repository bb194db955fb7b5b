"""Every cut of the route as the work feels it: forces in three directions, where, and which supports bear."""

from __future__ import annotations

from collections.abc import Iterator

from generator.calc.cutting import turning_force
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.operation_task import Bench
from generator.sheet.order_of_holding import first_supported
from generator.sheet.plans import CutLoad, Forces, OperationPlan, Route
from generator.si import Force, Length

THRUST_SHARE = 0.6          # radial over cutting force when threading; common practice, no source
TURNING_THRUST_SHARE = 0.5  # the same in turning, upper end of 0.3 to 0.5; common practice, no source
FEED_FORCE_SHARE = 0.5      # force along the feed, likewise
PLUNGE_SHARE = 1.0          # radial over cutting force of a tool that goes straight in, the cautious case
PRACTICE = later("common practice, no source")

ALONG = ("turn", "taper", "bore")
PLUNGED = ("groove", "relief", "part_off", "chamfer")
IN_THE_END = ("face", "center_drill", "drill")


def cut_loads(bench: Bench, route: Route) -> tuple[CutLoad, ...]:
    """The cuts whose force is known, in the order of the route.

    A knurl presses and a hand polishes: they are not cuts.
    """
    shares = _shares(bench, route, bench.desk)
    supported = first_supported(bench.job, route)
    return tuple(_loads(bench, route, shares, supported))


def _shares(bench: Bench, route: Route, desk: Desk) -> dict[str, float]:
    house, names = bench.house, {plan.name for plan in route.plans}
    found = {"thread": THRUST_SHARE, "turn": TURNING_THRUST_SHARE, "feed": FEED_FORCE_SHARE}
    if "thread" in names and bench.cuts is not None and bench.cuts.largest_force is not None:
        found["thread"] = desk.chosen(
            "holding.thrust_share", say("Radial force over cutting force"), house.thrust_share, THRUST_SHARE,
            "ratio", PRACTICE,
        )
    if any(plan.name in (*ALONG, "face") and plan.force is not None for plan in route.plans):
        found["turn"] = desk.chosen(
            "holding.turning_thrust_share", say("Radial force over cutting force in turning and boring"),
            house.turning_thrust_share, TURNING_THRUST_SHARE, "ratio", PRACTICE,
        )
        found["feed"] = desk.chosen(
            "holding.feed_force_share",
            say("Force along the feed over cutting force"),
            house.feed_force_share,
            FEED_FORCE_SHARE,
            "ratio",
            PRACTICE,
        )
    return found


def _loads(bench: Bench, route: Route, shares: dict[str, float], supported: int) -> Iterator[CutLoad]:
    holding, between_centers = bench.job.holding, bench.job.holding.centers is not None
    for place, (plan, work) in enumerate(zip(route.plans, route.works, strict=True)):
        if plan.force is None or plan.name not in (*ALONG, *PLUNGED, *IN_THE_END, "thread"):
            continue
        bears = place >= supported
        in_the_end = plan.name in IN_THE_END or plan.inside
        title = route.lines[place].title
        yield CutLoad(
            plan.number, plan.name, title, plan.start, plan.end, _diameter(plan),
            _forces(plan, plan.force, shares), _forces(plan, _last(bench, plan), shares),
            _tolerance(bench, plan), plan.spindle_speed, work, plan.inside,
            steady=holding.steady is not None and bears,
            center=between_centers or (holding.center is not None and bears and not in_the_end),
            follow=holding.follow_rest and plan.name in ("turn", "thread") and not plan.inside,
            where=plan.where,
        )


def _diameter(plan: OperationPlan) -> Length:
    """Where the force acts: the larger diameter, for a cut from outside; the smaller, of a bore."""
    sizes = (plan.from_diameter, plan.to_diameter)
    return max(sizes)


def _last(bench: Bench, plan: OperationPlan) -> Force:
    """Cutting force of the last cut (N); that of the largest where the cuts are not known."""
    assert plan.force is not None
    if plan.name == "thread" and bench.cuts is not None and bench.cuts.last_force is not None:
        return bench.cuts.last_force
    material, feed = bench.material, plan.feed
    if plan.name not in ALONG or material is None or feed is None or not plan.depths:
        return plan.force
    largest = turning_force(material.k_c11, material.m_c, max(plan.depths), feed)
    last = turning_force(material.k_c11, material.m_c, plan.depths[-1], plan.finish_feed or feed)
    return plan.force * last / largest


def _forces(plan: OperationPlan, force: Force, shares: dict[str, float]) -> Forces:
    """Cutting force split in three; the feed force is + towards the chuck."""
    if plan.name == "thread":
        return Forces(force, shares["thread"] * force, 0.0)
    if plan.name in PLUNGED:
        return Forces(force, PLUNGE_SHARE * force, 0.0)
    if plan.name == "face":
        return Forces(force, shares["feed"] * force, shares["turn"] * force)
    if plan.name in IN_THE_END:  # of a drill the force is its thrust
        return Forces(0.0, 0.0, force)
    towards_chuck = 1.0 if plan.start >= plan.end else -1.0
    return Forces(force, shares["turn"] * force, towards_chuck * shares["feed"] * force)


def _tolerance(bench: Bench, plan: OperationPlan) -> Length | None:
    """What the diameter may vary: a thread's by its standard, others' by the customer (m); None if unsaid."""
    thread, allowed = bench.thread, bench.job.limits.diameter
    if plan.name == "thread" and thread is not None:
        return thread.pitch_diameter_max - thread.pitch_diameter_min or None
    return allowed.si if allowed is not None and plan.name in ALONG else None
