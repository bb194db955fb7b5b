"""How the work is set up for each way of holding it, step by step, and what supports it (common practice)."""

from __future__ import annotations

from generator.job.model import Centers, Chuck, Collet, Faceplate, Job
from generator.sheet.lines import Step
from generator.sheet.plans import Route

RUNOUT = "Write both runouts here: ______ / ______"
BY_HAND = "Turn the spindle one full turn by hand, out of gear"


def holding_steps(job: Job) -> list[Step]:
    """From a clean lathe to work that is held and runs true."""
    held = job.holding.held
    if isinstance(held, Chuck):
        return _chuck(job, held)
    if isinstance(held, Collet):
        return _collet(held)
    return _faceplate(job, held) if isinstance(held, Faceplate) else _centers(job, held)


def support_steps(job: Job) -> list[Step]:
    """Tailstock center, steady rest, hold-back and follow rest; between centers the center is set already."""
    holding, steps = job.holding, []
    if holding.center and holding.centers is None:
        steps.append(
            Step(f"Bring up the {holding.center} center", "Snug, not forced; ease it as the work warms.")
        )
    if holding.steady:
        steps.append(
            Step(
                "Set the steady rest",
                "On a turned, round band. Fingers touch, do not push. Oil them. Top shut and locked.",
                hold=True,
            )
        )
    if holding.hold_back and holding.center is None:
        watch = "It keeps the work from walking out; mark the work to see it move."
        steps.append(Step("Put on the hold-back", watch, hold=True))
    if holding.follow_rest:
        steps.append(
            Step(
                "Set the follow rest",
                "Turn a short length first. Then its jaws touch that diameter, one above and one behind, and "
                "do not push. Oil them, and set them again after every cut.",
                hold=True,
            )
        )
    return steps


def first_supported(job: Job, route: Route) -> int:
    """Place in the route before which center and steady rest are set: after the last cut that makes them."""
    holding, needed = job.holding, 0
    for place, plan in enumerate(route.plans):
        makes_center = holding.center is not None and plan.name == "center_drill"
        if makes_center or (holding.steady is not None and plan.band):
            needed = place + 1
    return needed


def _finished(job: Job) -> bool:
    return any(section.surface in ("turned", "ground") for section in job.work)


def _chuck(job: Job, held: Chuck) -> list[Step]:
    steps = [Step("Clean ways, spindle nose and jaws")]
    if held.soft_jaws or held.pie_jaws:
        size, ring = ("bore", "around a ring, opened") if held.inside else ("diameter", "on a ring, closed")
        cut = "Turn" if held.inside else "Bore"
        kind = "pie" if held.pie_jaws else "soft"
        steps.append(
            Step(
                f"{cut} the {kind} jaws to the work",
                f"{ring.capitalize()} as hard as they will hold the work; to the work's own {size}, and "
                f"{held.grip.with_unit} deep, corner relieved. Number them; each goes back in its place.",
                hold=True,
            )
        )
    words = f"{held.words}, {held.grip.with_unit} of "
    words += "the bore over the jaws, which open outwards" if held.inside else "it in the jaws"
    if held.plug:
        words += "; first the plug in the bore, a push fit under the whole length of the jaws"
    if _finished(job):
        words += "; protect the finished surface"
    if held.key_torque is not None:
        words += f"; {held.key_torque.with_unit} on the key"
    steps.append(Step("Chuck the work", f"{words}. Mark the work at jaw 1."))
    return [*steps, Step("True at the jaws and at the far end", RUNOUT, hold=True)]


def _collet(held: Collet) -> list[Step]:
    return [
        Step("Clean ways, spindle taper, collet and work", "No chip, no burr, no scale anywhere on them."),
        Step(
            "Put the work in the collet",
            f"The collet of its own size, {held.grip.with_unit} of the work in it. Draw it up while turning "
            "the work by hand, then try to turn and to pull the work: it must not move.",
        ),
        Step("True at the collet and at the far end", RUNOUT, hold=True),
    ]


def _faceplate(job: Job, held: Faceplate) -> list[Step]:
    clamps = "clamp" if held.clamps == 1 else "clamps"
    balanced = (
        "A counterweight opposite the heavy side, spindle out of gear, until the plate stays wherever it is "
        "turned to. Bolt the counterweight as firmly as the work."
    )
    steps = [
        Step("Clean ways, spindle nose, faceplate and foot of the work", "Indicator across the faceplate."),
        Step(
            "Clamp the work on the faceplate",
            f"{held.clamps} {clamps} on a circle of {held.clamp_circle.with_unit}, bolts close to the work, "
            "heels level; a stop that takes the push of the cut. Parallels behind the work where a tool runs "
            "through.",
        ),
        Step("True the work", f"At the foot and the far end; tighten every clamp again. {RUNOUT}", hold=True),
        Step("Balance it", balanced, hold=True),
        Step(BY_HAND, "Work, clamps, bolts and counterweight clear bed, carriage and compound.", hold=True),
    ]
    if _finished(job):
        steps[1] = Step(steps[1].text, f"{steps[1].detail} Protect the finished surface.")
    return steps


def _centers(job: Job, held: Centers) -> list[Step]:
    pad = " on a soft pad" if _finished(job) else ""
    dead = job.holding.center == "dead"
    grease = "Grease the tailstock's. " if dead else ""
    return [
        Step("Clean ways, spindle taper, centers and center holes"),
        Step(
            "Check the centers",
            "The headstock's runs true by the indicator, the tailstock's is in line with it. Write here what "
            "each shows: ______ / ______",
            hold=True,
        ),
        Step(
            "Put on the dog",
            f"Over {held.dog.with_unit} of the work, its screw tight{pad}. Its tail lies in the slot of the "
            "driving plate, free of the slot's bottom, and is tied there.",
        ),
        Step(
            "Set the work between the centers",
            f"{grease}No shake, and it still turns by hand; lock quill and tailstock.",
            hold=True,
        ),
        Step(BY_HAND, "Dog and driving plate clear carriage and compound at the cut's left end.", hold=True),
    ]
