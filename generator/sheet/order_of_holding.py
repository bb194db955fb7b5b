"""How the work is set up for each way of holding it, step by step, and what supports it (common practice)."""

from __future__ import annotations

from generator.job.model import Centers, Chuck, Collet, Faceplate, Job
from generator.language.say import later, say, say_count
from generator.sheet.lines import Step
from generator.sheet.plans import Route

RUNOUT = later("Write both runouts here: ______ / ______")
JAWS_CUT = {  # by whether they are pie jaws, and whether they hold from inside
    (False, False): later("Bore the soft jaws to the work"),
    (False, True): later("Turn the soft jaws to the work"),
    (True, False): later("Bore the pie jaws to the work"),
    (True, True): later("Turn the pie jaws to the work"),
}
BY_HAND = later("Turn the spindle one full turn by hand, out of gear")


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
            Step(
                say(
                    "Bring up the live center"
                ) if holding.center == "live" else say("Bring up the dead center"),
                say("Snug, not forced; ease it as the work warms."),
            )
        )
    if holding.steady:
        steps.append(
            Step(
                say("Set the steady rest"),
                say("On a turned, round band. Fingers touch, do not push. Oil them. Top shut and locked."),
                hold=True,
            )
        )
    if holding.hold_back and holding.center is None:
        watch = say("It keeps the work from walking out; mark the work to see it move.")
        steps.append(Step(say("Put on the hold-back"), watch, hold=True))
    if holding.follow_rest:
        steps.append(
            Step(
                say("Set the follow rest"),
                say(
                    "Turn a short length first. Then its jaws touch that diameter, one above and one "
                    "behind, and do not push. Oil them, and set them again after every cut."
                ),
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
    steps = [Step(say("Clean ways, spindle nose and jaws"))]
    if held.soft_jaws or held.pie_jaws:
        steps.append(
            Step(
                JAWS_CUT[held.pie_jaws, held.inside],
                say(
                    "Around a ring, opened as hard as they will hold the work; to the work's own bore, and "
                    "{grip} deep, corner relieved. Number them; each goes back in its place.",
                    grip=held.grip.with_unit,
                ) if held.inside
                else say(
                    "On a ring, closed as hard as they will hold the work; to the work's own diameter, and "
                    "{grip} deep, corner relieved. Number them; each goes back in its place.",
                    grip=held.grip.with_unit,
                ),
                hold=True,
            )
        )
    words = (
        say(
            "{chuck}, {grip} of the bore over the jaws, which open outwards",
            chuck=held.words, grip=held.grip.with_unit,
        )
        if held.inside
        else say("{chuck}, {grip} of it in the jaws", chuck=held.words, grip=held.grip.with_unit)
    )
    if held.plug:
        words += say("; first the plug in the bore, a push fit under the whole length of the jaws")
    if _finished(job):
        words += say("; protect the finished surface")
    if held.key_torque is not None:
        words += say("; {key_torque} on the key", key_torque=held.key_torque.with_unit)
    steps.append(Step(say("Chuck the work"), say("{words}. Mark the work at jaw 1.", words=words)))
    return [*steps, Step(say("True at the jaws and at the far end"), RUNOUT, hold=True)]


def _collet(held: Collet) -> list[Step]:
    return [
        Step(
            say("Clean ways, spindle taper, collet and work"),
            say("No chip, no burr, no scale anywhere on them."),
        ),
        Step(
            say("Put the work in the collet"),
            say(
                "The collet of its own size, {grip} of the work in it. Draw it up while turning the work by "
                "hand, then try to turn and to pull the work: it must not move.",
                grip=held.grip.with_unit,
            ),
        ),
        Step(say("True at the collet and at the far end"), RUNOUT, hold=True),
    ]


def _faceplate(job: Job, held: Faceplate) -> list[Step]:
    balanced = say(
        "A counterweight opposite the heavy side, spindle out of gear, until the plate stays wherever it is "
        "turned to. Bolt the counterweight as firmly as the work."
    )
    steps = [
        Step(
            say("Clean ways, spindle nose, faceplate and foot of the work"),
            say("Indicator across the faceplate."),
        ),
        Step(
            say("Clamp the work on the faceplate"),
            say_count(
                "{count} clamp on a circle of {circle}, bolts close to the work, heels level; a stop that "
                "takes the push of the cut. Parallels behind the work where a tool runs through.",
                "{count} clamps on a circle of {circle}, bolts close to the work, heels level; a stop that "
                "takes the push of the cut. Parallels behind the work where a tool runs through.",
                held.clamps, circle=held.clamp_circle.with_unit,
            ),
        ),
        Step(
            say("True the work"),
            say("At the foot and the far end; tighten every clamp again. {runout}", runout=RUNOUT),
            hold=True,
        ),
        Step(say("Balance it"), balanced, hold=True),
        Step(
            BY_HAND, say("Work, clamps, bolts and counterweight clear bed, carriage and compound."), hold=True
        ),
    ]
    if _finished(job):
        steps[1] = Step(steps[1].text, say("{detail} Protect the finished surface.", detail=steps[1].detail))
    return steps


def _centers(job: Job, held: Centers) -> list[Step]:
    pad = say(" on a soft pad") if _finished(job) else ""
    dead = job.holding.center == "dead"
    grease = say("Grease the tailstock's. ") if dead else ""
    return [
        Step(say("Clean ways, spindle taper, centers and center holes")),
        Step(
            say("Check the centers"),
            say(
                "The headstock's runs true by the indicator, the tailstock's is in line with it. Write here "
                "what each shows: ______ / ______"
            ),
            hold=True,
        ),
        Step(
            say("Put on the dog"),
            say(
                "Over {dog} of the work, its screw tight{pad}. Its tail lies in the slot of the driving "
                "plate, free of the slot's bottom, and is tied there.",
                dog=held.dog.with_unit, pad=pad,
            ),
        ),
        Step(
            say("Set the work between the centers"),
            say("{grease}No shake, and it still turns by hand; lock quill and tailstock.", grease=grease),
            hold=True,
        ),
        Step(
            BY_HAND,
            say("Dog and driving plate clear carriage and compound at the cut's left end."),
            hold=True,
        ),
    ]
