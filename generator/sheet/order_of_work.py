"""The order of work: what is done from a clean lathe to a part that is handed over, with hold points.

The job's own operations keep the order in which they were written.
"""

from __future__ import annotations

from generator.job.model import Job
from generator.job.operations import Cut, Operation, Relief, Thread
from generator.sheet.model import Step
from generator.sheet.plans import ThreadPlan

WORDS = {
    "face": "Face",
    "center_drill": "Center drill",
    "turn": "Turn",
    "taper": "Turn the taper",
    "bore": "Bore",
    "drill": "Drill",
    "groove": "Groove",
    "chamfer": "Chamfer",
    "knurl": "Knurl",
    "part_off": "Part off",
    "polish": "Polish",
}


def order_of_work(job: Job, thread: ThreadPlan | None) -> tuple[Step, ...]:
    """Steps in the order they are done (common practice, no source)."""
    steps = [
        Step(
            "Read the whole sheet",
            "Every finding decided, questions answered, duty line understood.",
            hold=True,
        ),
        Step("Clean ways, spindle nose and jaws"),
        Step("Chuck the work", _chucking(job)),
        Step("True at the jaws and at the far end", "Write both runouts here: ______ / ______", hold=True),
    ]
    holding = job.holding
    if holding.center:
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
    for operation in job.operations:
        steps += _operation_steps(operation, thread)
    steps.append(Step("Deburr, clean, mark with the job number, cap the thread"))
    return tuple(steps)


def _chucking(job: Job) -> str:
    chuck = job.holding.chuck
    words = f"{chuck.jaws}-jaw chuck, {chuck.grip.with_unit} in the jaws"
    if any(section.surface in ("turned", "ground") for section in job.work):
        words += "; protect the finished surface"
    return words + ". Mark the work at jaw 1."


def _operation_steps(operation: Operation, thread: ThreadPlan | None) -> list[Step]:
    given = operation.given
    if isinstance(given, Thread):
        return _thread_steps(given, thread)
    if isinstance(given, Relief):
        return [Step("Cut the relief", _relief_words(given), hold=True)]
    return [Step(WORDS[operation.name], _cut_words(given))]


def _relief_words(relief: Relief) -> str:
    words = f"{relief.width.with_unit} wide"
    diameter = relief.diameter
    words += f", {diameter.with_unit} diameter" if diameter else ", diameter as in the relief figures"
    return words + (f", corner radius {relief.radius.with_unit}" if relief.radius else "")


def _cut_words(cut: Cut) -> str:
    parts = [f"{cut.end} end" if cut.end else ""]
    parts += [
        f"{label} {given.with_unit}"
        for label, given in (
            ("diameter", cut.diameter),
            ("length", cut.length),
            ("width", cut.width),
            ("depth", cut.depth),
            ("angle", cut.angle),
            ("from the tailstock end", cut.from_end),
        )
        if given is not None
    ]
    return ", ".join(part for part in [*parts, cut.note or ""] if part)


def _thread_steps(thread: Thread, plan: ThreadPlan | None) -> list[Step]:
    blank = "Measure the blank cold and write it here: ______"
    steps = [
        Step("Measure the blank", blank, hold=True),
        Step("Set levers, gears, feed direction", "As in the lathe settings. Turn one revolution by hand."),
        Step(
            "Set the tool",
            "Center height, square by the fishtail gauge, compound swung to the angle on this sheet, "
            "backlash out.",
        ),
        Step("Touch the work, zero both dials"),
        Step("Scratch pass", "Check the pitch with a leaf gauge or rule over its whole length.", hold=True),
        Step(f"Cut {thread.designation}", "As in the pass table; write what was cut in the blank column."),
        Step("Measure, try the mate", "At the marked lines. Spindle stopped, thread clean.", hold=True),
    ]
    if plan is None:
        return steps[:1]
    return steps
