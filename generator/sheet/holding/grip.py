"""Whether the jaws hold the work: grip wanted by the cuts, grip there is, speed, marks, creeping out.

    grip_section     lays it all, for whatever holds the work
"""

from __future__ import annotations

from generator.calc.grip import friction_arm, grip_at_rest, jaw_loss, pressure_arm
from generator.job.lathe import LatheChuck, LatheCollet
from generator.job.model import Chuck, Collet
from generator.sheet.capacity import used_head
from generator.sheet.holding.case import Case
from generator.sheet.holding.clamped import clamped_section
from generator.sheet.holding.creeping import creep_section
from generator.sheet.holding.dog import dog_section
from generator.sheet.holding.grip_demand import Demand, Gripped, demands, not_in_it
from generator.sheet.holding.grip_force import Wanted, lay_force, lay_key
from generator.sheet.holding.grip_friction import Friction, lay_friction
from generator.sheet.holding.grip_judged import judge_grip
from generator.sheet.holding.grip_words import lay_cut, lay_push, lay_safety, lay_tipping, lay_torque
from generator.sheet.holding.jaw_marks import marks_section
from generator.sheet.holding.past_body import past_body_section
from generator.sheet.model import Quantity
from generator.si import Force, Length, SpindleSpeed

NEEDED = ("grip.needed", "Grip wanted at rest")
SAFETY_GRIP = 1.5  # VDI 3106, for the grip
VDI = "VDI 3106, as chuck makers' manuals print it"
STATICS = "Coulomb friction in the form of VDI 3106; tipping from statics, derived here"


def grip_section(case: Case) -> None:
    """Lay down what holds the work against every cut, with its findings."""
    held = case.bench.job.holding.held
    if not case.loads:
        if case.bench.material is None:
            case.desk.unknown(*NEEDED, "force", "the material is unknown")
        return
    if isinstance(held, Chuck | Collet):
        _jaws(case, held)
    elif case.bench.job.holding.faceplate is not None:
        clamped_section(case)
    else:
        dog_section(case)


def _jaws(case: Case, held: Chuck | Collet) -> None:
    found = gripped_size(case, held)
    if found is None:
        case.desk.unknown(*NEEDED, "force", "there is no bore to grip from inside")
        return
    diameter, length, section = found
    friction = lay_friction(case, held, section)
    jaws = held.jaws if isinstance(held, Chuck) and not held.pie_jaws else None
    inside = isinstance(held, Chuck) and held.inside
    gripped = Gripped(diameter, length, friction.value, jaws, inside)
    asked = sorted(demands(case, length / 2), key=lambda one: one.holds(gripped).force)
    tips = max(asked, key=lambda one: one.tipping)
    wanted = _lay_needed(case, held, gripped, asked[-1], tips, friction)
    supported = [one.holds(gripped).force for one in asked if not one.overhung]
    key, force = lay_key(case, wanted), lay_force(case)
    judge_grip(case, wanted, force, key, max(supported, default=None))
    pressing = force if force is not None else wanted.at_rest
    marks_section(case, gripped, pressing)
    past_body_section(case, gripped)
    creep_section(case, gripped, pressing)


def gripped_size(case: Case, held: Chuck | Collet) -> tuple[Length, Length, int] | None:
    """Diameter and length that the jaws touch (m), and which section of the work that is; None with no bore.

    Of stepped work in the jaws they touch the largest outside, or the smallest bore.
    """
    spans = [span for span in case.bench.layout.spans if span.start < 0]
    inside = isinstance(held, Chuck) and held.inside
    sizes = [span.bore if inside else max(span.od_start, span.od_end) for span in spans]
    if not spans or min(sizes) <= 0:
        return None
    size = min(sizes) if inside else max(sizes)
    touching = [span for span, one in zip(spans, sizes, strict=True) if one == size]
    length = sum(min(span.end, 0.0) - span.start for span in touching)
    head = used_head(case.bench.job, case.bench.lathe)
    own = head.jaw_length if isinstance(head, LatheChuck) else None
    own = head.grip_length if isinstance(head, LatheCollet) else own
    return size, min(length, own.si) if own is not None else length, touching[-1].section_index


def _lay_needed(
    case: Case, held: Chuck | Collet, gripped: Gripped, worst: Demand, tips: Demand,
    friction: Friction,
) -> Wanted:
    desk, safety = case.desk, lay_safety(case)
    lay_cut(desk, worst)
    torque = lay_torque(desk, worst)
    push = lay_push(desk, worst)
    holding = worst.holds(gripped)
    arm = pressure_arm(gripped.length, gripped.jaws)
    if worst.tipping > 0:
        lay_tipping(desk, worst, "the middle of the grip")
    if holding.tilt > 0:
        desk.computed(
            "grip.tipping.friction", "Left of tipping for friction along the jaws", holding.tilt, "force",
            "({M} − {F} × {lever of the pressure}) ÷ {lever of the friction}",
            {
                "M": (worst.tipping, "torque"), "F": (holding.force, "force"),
                "lever of the pressure": (arm, "length"),
                "lever of the friction": (friction_arm(gripped.diameter, gripped.jaws), "length"),
            },
            "statics, derived here",
            note="F is the grip that just holds, which follows from it",
        )
    around: dict[str, tuple[float, Quantity]] = {
        "T": (torque, "torque"), "d": (gripped.diameter, "length"), "μ": (gripped.friction, "ratio"),
    }
    along: dict[str, tuple[float, Quantity]] = {
        name: (value, "force")
        for name, value in (("push", abs(push)), ("left of tipping", holding.tilt)) if value
    }
    both = " + ".join(f"{{{name}}}" for name in along)
    holds = desk.computed(
        "grip.holds", "Grip that just holds it, turning", holding.force, "force",
        f"√((2 × {{T}} ÷ {{d}})² + ({both})²) ÷ {{μ}}" if along else "2 × {T} ÷ {d} ÷ {μ}",
        {**around, **along}, STATICS, rounds="up", note=_seat_words(worst, push),
    )
    loss, speed = _lay_loss(case, held, gripped)
    at_rest = desk.computed(
        *NEEDED, grip_at_rest(safety / SAFETY_GRIP * holds, loss or 0.0, SAFETY_GRIP, inside=gripped.inside),
        "force",
        "{safety} × {just holds} " + ("−" if gripped.inside else "+") + " {safety of the grip} × {loss}"
        if loss else "{safety} × {just holds}",
        {
            "safety": (safety, "ratio"), "just holds": (holds, "force"),
            "safety of the grip": (SAFETY_GRIP, "ratio"), "loss": (loss or 0.0, "force"),
        } if loss else {"safety": (safety, "ratio"), "just holds": (holds, "force")},
        VDI, rounds="up",
        note="; ".join(one for one in (
            f"all {held.jaws} jaws together" if isinstance(held, Chuck) else "all round the work",
            "what speed takes away is not in it" if loss is None else "",
            not_in_it(case),
        ) if one),
    )
    at_best = worst.holds(gripped, friction.most).force
    return Wanted(worst, tips, holds, at_best, at_rest, loss or 0.0, speed, gripped, friction)


def _seat_words(worst: Demand, push: Force) -> str:
    if push > 0:
        return "seated against the chuck or a step of the jaws, the work hands the push on, and less will do"
    return "only friction holds it against coming out" if push < 0 else ""


def _lay_loss(case: Case, held: Chuck | Collet, gripped: Gripped) -> tuple[Force | None, SpindleSpeed]:
    """Lay what speed takes from the grip (N; None not known), and the step at which it does.

    From outside that is the highest step of the route; from inside the lowest adds least.
    """
    speeds = [plan.spindle_speed for plan in case.route.plans if plan.spindle_speed is not None]
    speed = (min if gripped.inside else max)(speeds, default=0.0)
    if not isinstance(held, Chuck) or not speed:
        return 0.0, speed
    name = "grip.gain" if held.inside else "grip.loss"
    label = "What the lowest step adds to the grip" if held.inside else "What the highest step takes of it"
    head = used_head(case.bench.job, case.bench.lathe)
    mass, middle = (head.jaw_mass, head.jaw_middle) if isinstance(head, LatheChuck) else (None, None)
    if mass is None or middle is None:
        case.desk.unknown(
            name, label, "force",
            f"the record of {case.bench.lathe.name} does not say what a jaw weighs and where its balance "
            "point is (chucks: jaw_mass, jaw_middle)",
        )
        return None, speed
    radius = max(gripped.diameter / 2 + (-middle.si if held.inside else middle.si), 0.0)
    loss = jaw_loss(held.jaws, mass.si, radius, speed)
    soft = held.soft_jaws or held.pie_jaws
    case.desk.computed(
        name, label, loss, "force", "{jaws} × {mass of one} × {radius} × (2 × π × {step})²",
        {
            "jaws": (float(held.jaws), "count"), "mass of one": (mass.si, "mass"),
            "radius": (radius, "length"), "step": (speed, "spindle_speed"),
        },
        VDI, rounds="up",
        note="soft jaws are often heavier than the record's: weigh one" if soft else "",
    )
    return loss, speed
