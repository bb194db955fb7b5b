"""Whether the jaws hold the work: grip wanted by the cuts, grip there is, speed, marks, creeping out.

    grip_section     lays it all, for whatever holds the work
"""

from __future__ import annotations

from generator.calc.chuck_force import grip_at_rest
from generator.calc.grip import friction_arm, pressure_arm
from generator.job.lathe_parts import LatheChuck, LatheCollet
from generator.job.model import Chuck, Collet
from generator.language.say import later, say
from generator.sheet.capacity import used_head
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.holding.case import Case
from generator.sheet.holding.clamped import clamped_section
from generator.sheet.holding.creeping import creep_section
from generator.sheet.holding.dog import dog_section
from generator.sheet.holding.grip_demand import Demand, Gripped, demands, not_in_it, seated
from generator.sheet.holding.grip_force import Wanted, lay_force, lay_key
from generator.sheet.holding.grip_friction import lay_friction
from generator.sheet.holding.grip_judged import judge_grip
from generator.sheet.holding.grip_speed import VDI, jaw_weight, judge_unknown_loss, lay_loss, step_of
from generator.sheet.holding.grip_words import lay_cut, lay_push, lay_safety, lay_tipping, lay_torque
from generator.sheet.holding.hanging import hanging_section
from generator.sheet.holding.jaw_marks import marks_section
from generator.sheet.holding.past_body import past_body_section
from generator.si import Force, Length

NEEDED = ("grip.needed", later("Grip wanted at rest"))
WANTED_FIRST = (  # at the lathe, before all that they come from
    "grip.needed", "grip.key_torque", "grip.clamp", "grip.force", "grip.dog.tail", "grip.holds",
)
SAFETY_GRIP = 1.5  # VDI 3106, for the grip
STATICS = later("Coulomb friction in the form of VDI 3106; tipping from statics, derived here")


def grip_section(case: Case) -> None:
    """Lay down what holds the work against every cut, with its findings."""
    held = case.bench.job.holding.held
    if not case.loads and case.bench.material is None:
        case.desk.unknown(*NEEDED, "force", say("the material is unknown"))
        return
    if not case.loads and not isinstance(held, Chuck | Collet):
        return
    if isinstance(held, Chuck | Collet):
        _jaws(case, held)
    elif case.bench.job.holding.faceplate is not None:
        clamped_section(case)
    else:
        dog_section(case)
    case.desk.put_first(*WANTED_FIRST)


def _jaws(case: Case, held: Chuck | Collet) -> None:
    found = gripped_size(case, held)
    if found is None:
        case.desk.unknown(*NEEDED, "force", say("there is no bore to grip from inside"))
        return
    diameter, length, section = found
    friction = lay_friction(case, held, section)
    jaws = held.jaws if isinstance(held, Chuck) and not held.pie_jaws else None
    inside = isinstance(held, Chuck) and held.inside
    gripped = Gripped(diameter, length, friction.value, jaws, inside)
    if not case.loads:
        hanging_section(case, gripped, friction)
        return
    asked, weight, safety = demands(case, length / 2), jaw_weight(case, held, gripped), lay_safety(case)
    if isinstance(held, Chuck) and held.seated:
        asked = seated(asked)

    def at_rest(one: Demand) -> Force:
        loss = weight.loss(step_of(case, one, gripped)) if weight is not None else 0.0
        return _at_rest(one.holds(gripped).force, loss, safety, gripped)

    worst = max(asked, key=at_rest)
    lay_cut(case.desk, worst)
    holds = _lay_holds(case.desk, gripped, worst)
    loss, highest = lay_loss(case, held, gripped, weight, worst)
    wanted = Wanted(
        worst, max(asked, key=lambda one: one.tipping), holds, worst.holds(gripped, friction.most).force,
        _lay_needed(case, held, gripped, safety, holds, loss), loss or 0.0, highest, gripped, friction,
    )
    supported = [one.holds(gripped).force for one in asked if not one.overhung]
    key, force = lay_key(case, wanted), lay_force(case)
    judge_grip(case, wanted, force, key, max(supported, default=None))
    pressing = force if force is not None else wanted.at_rest
    if weight is None:
        judge_unknown_loss(case, held, pressing, holds)
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


def _lay_holds(desk: Desk, gripped: Gripped, worst: Demand) -> Force:
    """Lay what the worst cut asks, and the grip that just holds it while the spindle turns (N)."""
    torque = lay_torque(desk, worst)
    push = lay_push(desk, worst)
    holding = worst.holds(gripped)
    arm = pressure_arm(gripped.length, gripped.jaws)
    if worst.tipping > 0:
        lay_tipping(desk, worst, say("the middle of the grip"))
    if holding.tilt > 0:
        desk.computed(
            "grip.tipping.friction", say("Push along the jaws left over from tipping"), holding.tilt, "force",
            "({M} − {F} × {lever of the pressure}) ÷ {lever of the friction}",
            {
                "M": (worst.tipping, "torque"), "F": (holding.force, "force"),
                "lever of the pressure": (arm, "length"),
                "lever of the friction": (friction_arm(gripped.diameter, gripped.jaws), "length"),
            },
            say("statics, derived here"),
            note=say("F is the grip that just holds, which follows from it"),
        )
    around: dict[str, tuple[float, Quantity]] = {
        "T": (torque, "torque"), "d": (gripped.diameter, "length"), "μ": (gripped.friction, "ratio"),
    }
    along: dict[str, tuple[float, Quantity]] = {
        name: (value, "force")
        for name, value in (("push", abs(push)), ("left of tipping", holding.tilt)) if value
    }
    both = " + ".join(f"{{{name}}}" for name in along)
    return desk.computed(
        "grip.holds", say("Grip that just holds, turning"), holding.force, "force",
        f"√((2 × {{T}} ÷ {{d}})² + ({both})²) ÷ {{μ}}" if along else "2 × {T} ÷ {d} ÷ {μ}",
        {**around, **along}, STATICS, rounds="up", note=_seat_words(worst, push),
    )


def _at_rest(holds: Force, loss: Force, safety: float, gripped: Gripped) -> Force:
    return grip_at_rest(safety / SAFETY_GRIP * holds, loss, SAFETY_GRIP, inside=gripped.inside)


def _lay_needed(
    case: Case, held: Chuck | Collet, gripped: Gripped, safety: float, holds: Force, loss: Force | None
) -> Force:
    """Lay the grip wanted at rest (N)."""
    put: dict[str, tuple[float, Quantity]] = {"safety": (safety, "ratio"), "just holds": (holds, "force")}
    formula = "{safety} × {just holds}"
    if loss:
        put |= {"safety of the grip": (SAFETY_GRIP, "ratio"), "with speed": (loss, "force")}
        formula += " − " if gripped.inside else " + "
        formula += "{safety of the grip} × {with speed}"
    notes = (
        say("all {jaws} jaws together", jaws=held.jaws)
        if isinstance(held, Chuck)
        else say("all around the work"),
        say("what speed takes or adds is not in it") if loss is None else "",
        not_in_it(case),
    )
    return case.desk.computed(
        *NEEDED, _at_rest(holds, loss or 0.0, safety, gripped), "force", formula, put, VDI, rounds="up",
        note="; ".join(note for note in notes if note),
    )


def _seat_words(worst: Demand, push: Force) -> str:
    if push > 0:
        return say(
            "seated against a stop or a step (chuck: seated) the work hands the push on, and less will do"
        )
    return say("only friction holds it against coming out") if push < 0 else ""
