"""What the weight of the jaws takes from the grip as the spindle turns, or adds to it from inside.

    JawWeight     the jaws of one chuck as they stand on the work
    jaw_weight    from the record; None where nothing is known of them, or there are none
    lay_loss      at the step of the hardest cut, and at the highest step of the route
    judge_unknown_loss    jaws that nobody weighed, at a speed where they may take too much
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.chuck_force import jaw_loss
from generator.job.lathe_parts import LatheChuck
from generator.job.model import Chuck, Collet
from generator.language.say import later, say
from generator.sheet.capacity import used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.grip_demand import Demand, Gripped
from generator.sheet.wording import force_words, length_words, mass_words, rpm_words
from generator.si import Force, Length, Mass, SpindleSpeed

JAW_OF_BODY = 80.0  # kg/m³: one jaw with its slide over the cube of the body; common practice, no source
SMALL_LOSS = 1 / 3  # of the grip: half of the two thirds that EN 1550 lets go with speed
VDI = later("VDI 3106, as chuck makers' manuals print it")


@dataclass(frozen=True)
class JawWeight:
    """How many jaws, what one weighs (kg), and its balance point from the spindle's axis (m)."""

    jaws: int
    mass: Mass
    radius: Length

    def loss(self, speed: SpindleSpeed) -> Force:
        """What all of them pull outwards with at a step (N)."""
        return jaw_loss(self.jaws, self.mass, self.radius, speed)


def jaw_weight(case: Case, held: Chuck | Collet, gripped: Gripped) -> JawWeight | None:
    """The jaws as the record of the chuck has them; None where it does not, and of a collet."""
    head = used_head(case.bench.job, case.bench.lathe)
    if not isinstance(held, Chuck) or not isinstance(head, LatheChuck):
        return None
    if head.jaw_mass is None or head.jaw_middle is None:
        return None
    outwards = -head.jaw_middle.si if held.inside else head.jaw_middle.si
    return JawWeight(held.jaws, head.jaw_mass.si, max(gripped.diameter / 2 + outwards, 0.0))


def highest_step(case: Case) -> SpindleSpeed:
    """The highest step of the route; 0 where none is known (rev/s)."""
    speeds = [plan.spindle_speed for plan in case.route.plans if plan.spindle_speed is not None]
    return max(speeds, default=0.0)


def step_of(case: Case, one: Demand, gripped: Gripped) -> SpindleSpeed:
    """The step of a cut; where it is not known, the one at which least grip is left (rev/s)."""
    speed = one.load.spindle_speed
    return speed if speed is not None else 0.0 if gripped.inside else highest_step(case)


def lay_loss(
    case: Case, held: Chuck | Collet, gripped: Gripped, weight: JawWeight | None, worst: Demand
) -> tuple[Force | None, Force]:
    """Lay what speed takes or adds in the worst cut, and at the highest step (N; None not known)."""
    if not isinstance(held, Chuck):
        return 0.0, 0.0
    name = "grip.gain" if held.inside else "grip.loss"
    label = (
        say("Grip gained with speed in that cut") if held.inside else say("Grip lost to speed in that cut")
    )
    if weight is None:
        case.desk.unknown(
            name, label, "force",
            say("the record of {lathe} does not say what a jaw weighs and where its balance point is "
                "(chucks: jaw_mass, jaw_middle)", lathe=case.bench.lathe.name),
        )
        return None, 0.0
    step, highest = step_of(case, worst, gripped), highest_step(case)
    soft = held.soft_jaws or held.pie_jaws
    note = say("soft jaws are often heavier than the record's: weigh one") if soft else ""
    loss = _lay(case, name, label, weight, step, note)
    if highest <= step or held.inside:
        return loss, loss
    label = say("Grip lost to speed at the highest step")
    return loss, _lay(case, f"{name}.highest", label, weight, highest, note)


def judge_unknown_loss(case: Case, held: Chuck | Collet, there: Force, holds: Force) -> None:
    """Say that jaws as heavy as such jaws are would leave too little grip at the highest step.

    `there` is the grip at rest, N, `holds` what the hardest cut needs while the spindle turns.
    """
    head, speed = used_head(case.bench.job, case.bench.lathe), highest_step(case)
    if not isinstance(held, Chuck) or held.inside or head is None or head.diameter is None:
        return
    body, system = head.diameter.si, case.bench.system
    likely = JawWeight(held.jaws, JAW_OF_BODY * body**3, body / 4)
    taken = likely.loss(speed)
    if taken <= max(there - holds, SMALL_LOSS * there):
        return
    case.desk.find(
        "grip-loss-unknown", "check",
        say("Nobody said what a jaw of this chuck weighs. Of a body of {body} it is likely about {mass}: at "
            "{speed} the jaws' own weight would take about {taken} of a grip of {grip}, and the hardest cut "
            "needs {holds}. Weigh one and write it down (chucks: jaw_mass, jaw_middle), or run slower.",
            body=length_words(body, system), mass=mass_words(likely.mass, system), speed=rpm_words(speed),
            taken=force_words(taken, system), grip=force_words(there, system),
            holds=force_words(holds, system)),
        held.grip.where,
    )


def _lay(case: Case, name: str, label: str, weight: JawWeight, step: SpindleSpeed, note: str) -> Force:
    return case.desk.computed(
        name, label, weight.loss(step), "force", "{jaws} × {mass of one} × {radius} × (2 × π × {step})²",
        {
            "jaws": (float(weight.jaws), "count"), "mass of one": (weight.mass, "mass"),
            "radius": (weight.radius, "length"), "step": (step, "spindle_speed"),
        },
        VDI, rounds="up", note=note,
    )
