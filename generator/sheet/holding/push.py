"""The tailstock center: what it carries, the push that seats it, and the push that bends the work out."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from generator.calc.beam import Beam
from generator.calc.center_push import CENTER_HALF_ANGLE, center_hole_thrust, seated_push
from generator.calc.modes import buckling_push, frequencies
from generator.calc.sections import second_moment
from generator.language.say import later, say
from generator.sheet.figure import Kind, Quantity
from generator.sheet.holding.case import Case
from generator.sheet.lines import Level
from generator.sheet.plans import CutLoad
from generator.sheet.wording import force_words
from generator.si import Force, Length, g_n

CENTER_PUSH = 1000.0  # N: the quill run up snug by hand; common practice, no source
BUCKLING_SHARE = 0.25  # of the push that buckles straight work; common practice, no source
SLENDER = 0.01         # of the push that buckles: below it no machinist need know
LEAST = 1e-12          # N/(N m) on the center, which a moment is all the same to
WORTH_SAYING = 0.05    # of the push that buckles: from there it lowers the critical speed by a fortieth
CONE = later("statics of a smooth 60° center; friction, which helps, is left out")
ELEMENTS = later("beam elements (Cook et al.)")
LEVELS: Mapping[tuple[bool, bool], Level] = {  # of work that can climb off, of a push that somebody gave
    (True, True): "stop", (True, False): "check", (False, True): "check", (False, False): "note",
}


@dataclass(frozen=True)
class Across:
    """What the center takes of one cut: `share` of its force, the feed force at its radius over `lever` (m).

    `weight` is what it carries of the work's own (N).
    """

    load: CutLoad
    share: float
    lever: Length
    weight: Force

    @property
    def couple(self) -> Force:
        """N from the feed force, which pulls beside the axis."""
        return abs(self.load.heaviest.feed) * self.load.diameter / 2 / self.lever

    @property
    def force(self) -> Force:
        """N: radial and feed force level, main force up against the weight."""
        cut = self.load.heaviest
        return math.hypot(self.share * abs(cut.radial) + self.couple, self.share * cut.main - self.weight)


def push_section(case: Case) -> None:
    """Lay down what the tailstock center carries and has to push with, with what is wrong."""
    held = case.held
    if held.job.holding.center is None:
        return
    push = _lay_push(case)
    if held.material is None:
        case.desk.unknown(
            "give.center.force",
            say("Force across the tailstock center"),
            "force",
            say("the material is unknown"),
        )
        return
    across, feed = _lay_across(case)
    _judge_load(case, across)
    _lay_least(case, push, across, feed)
    _lay_buckling(case, push)


def _lay_push(case: Case) -> Force:
    said = case.held.job.holding.center_push
    label = say("Push of the tailstock center")
    if said is not None:
        return case.desk.given("give.center.push", label, said, "force")
    return case.desk.chosen(
        "give.center.push", label, case.bench.house.center_push, CENTER_PUSH, "force",
        say("the quill run up snug by hand; common practice, no source"),
    )


# -- what it carries --------------------------------------------------------------------------------------


def _across(case: Case, load: CutLoad, weight: Force) -> Across:
    """The force across the center where the cut is nearest to it."""
    place = [min(max(load.high, 0.0), case.held.layout.stick_out)]
    beam = case.held.beam_under(load, case.plan.steady_at)
    found = beam.reactions_along(1.0, place), beam.reactions_of_moment(place)
    share, of_moment = (abs(float(one[-1, 0])) for one in found)
    return Across(load, share, 1 / max(of_moment, LEAST), weight)


def _lay_across(case: Case) -> tuple[Force, Force]:
    """Force across the center under the worst cut, and how much the feed of any cut takes off its push."""
    held, desk = case.held, case.desk
    weight = held.beam(case.plan.steady_at).carried(g_n)[-1]
    found = [_across(case, load, weight) for load in case.loads if load.center and not load.inside]
    worst = max(found, key=lambda one: one.force, default=None)
    name = "give.center.force"
    if worst is None or worst.force < weight:
        desk.computed(
            name, say("Force across the tailstock center, from the weight"), weight, "force",
            "{weight} × {share of it}",
            {"weight": (_whole(case), "force"), "share of it": (weight / _whole(case), "ratio")}, ELEMENTS,
            rounds="up",
        )
        return weight, _eased(case)
    cut = worst.load.heaviest
    put: dict[str, tuple[float, Quantity]] = {
        "share": (worst.share, "ratio"), "radial": (abs(cut.radial), "force"), "main": (cut.main, "force"),
        "weight on it": (weight, "force"),
    }
    level = "{share} × {radial}"
    if worst.couple:
        put["feed"] = (abs(cut.feed), "force")
        put["its radius"] = (worst.load.diameter / 2, "length")
        put["lever"] = (worst.lever, "length")
        level += " + {feed} × {its radius} ÷ {lever}"
    force = desk.computed(
        name, say("Force across the tailstock center, worst cut"), worst.force, "force",
        f"√(({level})² + ({{share}} × {{main}} − {{weight on it}})²)", put, ELEMENTS,
        note=say("{what}, at its end nearest to the center", what=worst.load.what),
        rounds="up",
    )
    return force, _eased(case)


def _whole(case: Case) -> Force:
    """Weight of what stands out of the jaws (N)."""
    return sum(case.held.beam(case.plan.steady_at).carried(g_n))


def _eased(case: Case) -> Force:
    """Largest feed force that takes the push off the tailstock center (N).

    In a chuck the jaws hold the work along the lathe. Between centers the feed towards the headstock leaves
    the tailstock center with less.
    """
    if case.held.job.holding.centers is None:
        return 0.0
    return max((max(load.heaviest.feed, 0.0) for load in case.loads if load.center), default=0.0)


def _judge_load(case: Case, across: Force) -> None:
    tailstock = case.bench.lathe.tailstock
    most = tailstock.center_load if tailstock else None
    if case.held.job.holding.center != "live" or most is None or across <= most.si:
        return
    system = case.bench.system
    case.desk.find(
        "center-load", "check",
        say("The live center is to carry {across} across; its maker gives {most}. Take lighter cuts, set a "
            "steady rest, or put in a heavier center.",
            across=force_words(across, system), most=most.with_unit),
        case.held.job.holding.grip.where,
    )


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
        "give.center.least_push",
        say("Push that keeps the center bearing all around"),
        seated_push(across) + feed,
        "force",
        formula,
        put,
        CONE,
        note=say("with half of it across the work climbs off the center")
        + (say("; the feed towards the headstock takes its force off the push") if feed else ""),
        rounds="up",
    )
    if push >= least:
        return
    system, climbs = case.bench.system, push < center_hole_thrust(across) + feed
    said = case.desk.figures["give.center.push"]
    assumed, between = said.kind is Kind.ASSUMED, case.held.job.holding.centers is not None
    whose = say("snug by hand, taken as") if assumed else say("which is")
    does = say("it bears on one side of its hole only")
    if climbs:
        does = (
            say("the work can climb off it and be thrown") if between
            else say("the work can climb off it, and whips")
        )
    where = case.held.job.holding.center_push
    case.desk.find(
        "center-push-low", LEVELS[climbs, not assumed],
        say("The tailstock center has to push with at least {least} to bear all around under {across} "
            "across; with its push, {whose} {push}, {does}. Push harder, take lighter cuts, or set a steady "
            "rest near its end.",
            least=force_words(least, system), across=force_words(across, system), whose=whose,
            push=force_words(push, system), does=does),
        where.where if where is not None else case.held.job.holding.grip.where,
    )


def _euler(beam: Beam) -> Force:
    """What the thinnest of the work, all along, would bear between two hinges: no more than it bears (N)."""
    thinnest = min(
        second_moment(od, one.bore) for one in beam.segments for od in (one.od, one.od_end or one.od)
    )
    return math.pi**2 * beam.elastic_modulus * thinnest / (beam.end - beam.start) ** 2


def _lay_buckling(case: Case, push: Force) -> None:
    """The push that bends the work out by itself, and what the push does to the critical speed.

    Only for work so slender that it matters.
    """
    held, desk, system = case.held, case.desk, case.bench.system
    beam = held.beam(case.plan.steady_at)
    if push < SLENDER * _euler(beam):
        return
    most = buckling_push(beam)
    if push < SLENDER * most:
        return
    desk.computed(
        "give.center.buckling", say("Push that buckles the work"), most, "force",
        say("lowest P of det(K − P K_g) = 0 for beam elements with {stick-out}, {E}"),
        {
            "stick-out": (held.layout.stick_out, "length"), "E": (beam.elastic_modulus, "pressure"),
        },
        say("{elements}; Timoshenko and Gere, Theory of Elastic Stability", elements=ELEMENTS),
        note=say("straight work, on its supports as soft as they are"), rounds="down",
    )
    share = desk.computed(
        "give.center.buckling_share", say("Push over the push that buckles"), push / most, "ratio",
        "{push} ÷ {push that buckles}",
        {"push": (push, "force"), "push that buckles": (most, "force")}, say("geometry"), rounds="up",
    )
    if share > BUCKLING_SHARE:
        desk.find(
            "center-buckling", "stop" if share >= 1 else "check",
            say("The center's push of {push} is {share:.0%} of the {most} under which this work bows out by "
                "itself; stay under {limit:.0%}. Push less, set a steady rest, and ease the center as the "
                "work warms.",
                push=force_words(push, system), share=share, most=force_words(most, system),
                limit=BUCKLING_SHARE),
            held.job.holding.grip.where,
        )
    if WORTH_SAYING < share < 1:
        lowered = frequencies(replace(beam, push=push), 1)[0]
        desk.computed(
            "give.center.critical_speed",
            say("Critical speed under the center's push"),
            lowered,
            "spindle_speed",
            say("60 × lowest f of det(K − {push} × K_g − (2 π f)² M) = 0 for beam elements"),
            {"push": (push, "force")},
            say("{elements}; Timoshenko and Gere, Theory of Elastic Stability", elements=ELEMENTS),
            rounds="down",
        )
