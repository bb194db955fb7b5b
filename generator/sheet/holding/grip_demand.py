"""What every cut of the route asks of the grip: torque, push along the lathe, what tips the work.

    Gripped     what the jaws or the collet hold
    Demand      what one cut asks
    demands     of every cut
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from generator.calc.balance import Round
from generator.calc.chuck_force import jaw_loss
from generator.calc.drilling import likely_drilling
from generator.calc.grip import Holding, just_holding
from generator.language.lists import and_words
from generator.language.say import say_count
from generator.sheet.holding.case import Case
from generator.sheet.holding.loads import ALONG, IN_THE_END, PLUNGED
from generator.sheet.plans import CutLoad
from generator.si import Force, Length, Torque, g_n

PRESSES = "knurl"
CUTS = (*ALONG, *PLUNGED, *IN_THE_END, "thread", PRESSES)


@dataclass(frozen=True)
class Gripped:
    """Diameter and length in the jaws (m), friction there; `jaws` None: all round. `inside` its bore."""

    diameter: Length
    length: Length
    friction: float
    jaws: int | None
    inside: bool = False


@dataclass(frozen=True)
class Demand:
    """What one cut asks of whatever holds the work at the headstock.

    `torque` N m. `push` along the lathe that nothing but friction holds, + towards the chuck, N: the feed's
    alone, for work that gives way to the push of a center is held again as soon as it has. `down` is the
    weight of what stands out, N. Across, the main force lifts and the weight pulls down, so the larger of the
    two counts: `upright` is its moment, `level` that of the radial and feed force, N m. `thrown` is what a
    mass off the axis pulls with, N, and `swing` its moment, N m. All of these are nothing where something
    bears at the other end.
    """

    load: CutLoad
    torque: Torque
    push: Force
    down: Force
    upright: Torque
    level: Torque
    thrown: Force
    swing: Torque

    @property
    def overhung(self) -> bool:
        """True when nothing but the headstock end bears during this cut."""
        return overhung(self.load)

    @property
    def tipping(self) -> Torque:
        """Moment that tips the work, N m."""
        return math.hypot(self.upright, self.level) + self.swing

    @property
    def across(self) -> Force:
        """Force across the lathe, N."""
        forces = self.load.heaviest
        return math.hypot(max(forces.main, self.down), forces.radial) + self.thrown

    @property
    def words(self) -> str:
        """How a sentence names the cut."""
        return self.load.what

    def holds(self, gripped: Gripped, friction: float | None = None) -> Holding:
        """Grip that just holds it, without any safety, with this friction or the one laid down."""
        return just_holding(
            self.torque, self.push, self.tipping, gripped.diameter, gripped.length,
            friction or gripped.friction, gripped.jaws,
        )


def overhung(load: CutLoad) -> bool:
    """True when nothing but the headstock end bears during this cut."""
    return not (load.steady or load.center or load.follow)


def demands(case: Case, middle: Length) -> list[Demand]:
    """What every cut asks, tipping taken about a place `middle` behind the face of jaws or plate (m)."""
    return [_demand(case, load, middle) for load in case.loads]


def seated(found: list[Demand]) -> list[Demand]:
    """The same of work that bears on a seat, which takes every push towards the chuck."""
    return [replace(one, push=min(one.push, 0.0)) for one in found]


def not_in_it(case: Case) -> str:
    """Operations whose force is not known, as the rest of a sentence; empty when all are."""
    known = {load.number for load in case.loads}
    left = [
        plan.number
        for plan in case.route.plans
        if plan.name in CUTS and plan.name != "center_drill"
        and plan.spindle_speed is not None and plan.number not in known
    ]
    if not left:
        return ""
    return say_count(
        "operation {left} not in it: force not known", "operations {left} not in it: force not known",
        len(left), left=and_words(left),
    )


def _demand(case: Case, load: CutLoad, middle: Length) -> Demand:
    forces, torque = load.heaviest, _torque(case, load)
    if not overhung(load):
        return Demand(load, torque, forces.feed, 0.0, 0.0, 0.0, 0.0, 0.0)
    down, down_moment = _weight(case, load, middle)
    arm = max(load.high + middle, -load.low - middle, 0.0)
    radius = load.diameter / 2 if forces.main else 0.0  # a drill pushes along the axis
    sideways, turning = forces.radial * arm, forces.feed * radius
    level = max(abs(sideways), abs(sideways + (turning if load.inside else -turning)))
    upright = max(forces.main * arm, down_moment)
    return Demand(load, torque, forces.feed, down, upright, level, *_thrown(case, load, middle))


def _thrown(case: Case, load: CutLoad, middle: Length) -> tuple[Force, Torque]:
    """What a mass off the axis pulls with at the cut's step, and its moment about the place (N, N m)."""
    heavy = case.bench.job.holding.unbalance
    if heavy is None or load.spindle_speed is None:
        return 0.0, 0.0
    pull = jaw_loss(1, heavy.mass.si, heavy.radius.si, load.spindle_speed)
    at = heavy.at.si if heavy.at is not None else case.held.layout.stick_out
    return pull, pull * abs(at + middle)


def _torque(case: Case, load: CutLoad) -> Torque:
    """Torque of a cut; of a drill twice that of its lips, for web, margins and wear (N m)."""
    if load.name in IN_THE_END and load.heaviest.main == 0:
        drilling = case.desk.figures.get(f"operation.{load.number}.torque")
        lips = drilling.value if drilling is not None and isinstance(drilling.value, float) else 0.0
        return likely_drilling(lips)[1]
    return load.heaviest.main * load.diameter / 2


def _weight(case: Case, load: CutLoad, middle: Length) -> tuple[Force, Torque]:
    """Weight of what stands out, as the cut leaves it, and its moment about the place (N, N m)."""
    if case.held.material is None:
        return 0.0, 0.0
    heavy = case.held.material.density * g_n
    rounds = [
        Round(max(one.low, 0.0), one.high, one.od_at(max(one.low, 0.0)), one.od_high, one.bore)
        for one in load.work.stretches
        if one.high > 0
    ]
    moments = [one.moment + one.volume * middle for one in rounds]
    return heavy * sum(one.volume for one in rounds), heavy * sum(moments)
