"""The push of the tailstock center: what seats it in its hole, and what bends the work out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from generator.calc.center_push import CENTER_HALF_ANGLE, center_hole_thrust, seated_push
from generator.calc.modes import buckling_push, frequencies
from generator.sheet.holding.case import Case
from generator.sheet.model import Kind, Level, Quantity
from generator.sheet.wording import force_words
from generator.si import Force, g_n

PRACTICE = "common practice, no source"
CENTER_PUSH = 1000.0  # N: the quill run up snug by hand; common practice, no source
BUCKLING_SHARE = 0.25  # of the push that buckles straight work; common practice, no source
SLENDER = 0.01         # of the push that buckles: below it no machinist need know
WORTH_SAYING = 0.05    # of the push that buckles: from there it lowers the critical speed by a fortieth
CONE = "statics of a smooth 60° center; friction, which helps, is left out"
ELEMENTS = "beam elements (Cook et al.)"
UNDER_CUT = "give.center.force"  # laid down with the other reactions


LEVELS: Mapping[tuple[bool, bool], Level] = {  # of a push that is assumed, of work that can climb off
    (False, True): "stop", (False, False): "check", (True, True): "check", (True, False): "note",
}


def push_section(case: Case) -> None:
    """Lay down the tailstock center's push, the least it has to be and the most, with what is wrong.

    What it carries under the cuts is laid down already.
    """
    held = case.held
    if held.job.holding.center is None:
        return
    push = _lay_push(case)
    if held.material is None:
        return  # force and weight are unknown, and said to be
    _lay_least(case, push, _across(case), _eased(case))
    _lay_buckling(case, push)


def _lay_push(case: Case) -> Force:
    said = case.held.job.holding.center_push
    label = "Push of the tailstock center"
    if said is not None:
        return case.desk.given("give.center.push", label, said, "force")
    return case.desk.chosen(
        "give.center.push", label, case.bench.house.center_push, CENTER_PUSH, "force",
        f"the quill run up snug by hand; {PRACTICE}",
    )


# -- what it carries --------------------------------------------------------------------------------------


def _across(case: Case) -> Force:
    """Force across the center under the worst cut, or from the weight alone where that is more (N)."""
    carried = case.held.beam(case.plan.steady_at).carried(g_n)
    weight, whole = carried[-1], sum(carried)
    cut = case.desk.figures.get(UNDER_CUT)
    if cut is not None and isinstance(cut.value, float) and cut.value >= weight:
        return cut.value
    return case.desk.computed(
        "give.center.weight", "Weight on the tailstock center", weight, "force", "{weight} × {share of it}",
        {"weight": (whole, "force"), "share of it": (weight / whole, "ratio")}, ELEMENTS, rounds="up",
    )


def _eased(case: Case) -> Force:
    """Largest feed force that takes the push off the tailstock center (N).

    In a chuck the jaws hold the work along the lathe. Between centers the feed towards the headstock leaves
    the tailstock center with less.
    """
    if case.held.job.holding.centers is None:
        return 0.0
    return max((max(load.heaviest.feed, 0.0) for load in case.loads if load.center), default=0.0)


# -- its push ---------------------------------------------------------------------------------------------


def _lay_least(case: Case, push: Force, across: Force, feed: Force) -> None:
    """The push that keeps the center bearing all round its hole, against the push it has."""
    put: dict[str, tuple[float, Quantity]] = {
        "across": (across, "force"), "half angle": (CENTER_HALF_ANGLE, "angle")
    }
    formula = "2 × {across} × tan({half angle})"
    if feed:
        put["feed"] = (feed, "force")
        formula += " + {feed}"
    least = case.desk.computed(
        "give.center.least_push", "Push that keeps the center bearing all round", seated_push(across) + feed,
        "force", formula, put, CONE,
        note="with half of it across the work climbs off the center"
        + ("; the feed towards the headstock takes its force off the push" if feed else ""),
        rounds="up",
    )
    if push >= least:
        return
    system, climbs = case.bench.system, push < center_hole_thrust(across) + feed
    said = case.desk.figures["give.center.push"]
    assumed = said.kind is Kind.ASSUMED
    whose = "snug by hand, taken as" if assumed else "which is"
    does = "the work can climb off it and be thrown" if climbs else "it bears on one side of its hole only"
    where = case.held.job.holding.center_push
    case.desk.find(
        "center-push-low", LEVELS[assumed, climbs],
        f"The tailstock center has to push with at least {force_words(least, system)} to bear all round "
        f"under {force_words(across, system)} across; with its push, {whose} {force_words(push, system)}, "
        f"{does}. Push harder, take lighter cuts, or carry the work near its end.",
        where.where if where is not None else case.held.job.holding.grip.where,
    )


def _lay_buckling(case: Case, push: Force) -> None:
    """The push that bends the work out by itself, and what the push does to the critical speed.

    Only for work so slender that it matters.
    """
    held, desk, system = case.held, case.desk, case.bench.system
    beam = held.beam(case.plan.steady_at)
    most = buckling_push(beam)
    if push < SLENDER * most:
        return
    desk.computed(
        "give.center.buckling", "Push that buckles the work", most, "force",
        "lowest P of det(K − P K_g) = 0 for beam elements with {stick-out}, {E}",
        {
            "stick-out": (held.layout.stick_out, "length"), "E": (beam.elastic_modulus, "pressure"),
        },
        f"{ELEMENTS}; Timoshenko and Gere, Theory of Elastic Stability",
        note="straight work, on its supports as soft as they are", rounds="down",
    )
    share = desk.computed(
        "give.center.buckling_share", "Push over the push that buckles", push / most, "ratio",
        "{push} ÷ {push that buckles}",
        {"push": (push, "force"), "push that buckles": (most, "force")}, "geometry", rounds="up",
    )
    if share > BUCKLING_SHARE:
        desk.find(
            "center-buckling", "stop" if share >= 1 else "check",
            f"The center's push of {force_words(push, system)} is {share:.0%} of the "
            f"{force_words(most, system)} under which this work bows out by itself; stay under "
            f"{BUCKLING_SHARE:.0%}. Push less, set a steady rest, and ease the center as the work warms.",
            held.job.holding.grip.where,
        )
    if WORTH_SAYING < share < 1:
        lowered = frequencies(replace(beam, push=push), 1)[0]
        desk.computed(
            "give.center.critical_speed", "Critical speed under the center's push", lowered, "spindle_speed",
            "60 × lowest f of det(K − {push} × K_g − (2 π f)² M) = 0 for beam elements",
            {"push": (push, "force")}, f"{ELEMENTS}; Timoshenko and Gere, Theory of Elastic Stability",
            rounds="down",
        )
