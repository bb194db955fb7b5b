"""The order of work: what is done from a clean lathe to a part that is handed over, with hold points.

Setting up (`order_of_holding`) comes first, then the operations in the order of the route, each under its
number there.
"""

from __future__ import annotations

from generator.job.model import Job
from generator.language.say import first_small, later, say
from generator.sheet.lines import OperationLine, Step
from generator.sheet.operation_words import SCRATCH
from generator.sheet.order_of_holding import first_supported, holding_steps, support_steps
from generator.sheet.plans import Route, ThreadPlan

BLANK = ("thread.blank",)  # figures to set or to measure in a step
LEVERS = ("lathe.gearbox", "lathe.change_gears", "lathe.thread_dial", "spindle.step")
TOOL = ("passes.infeed_angle",)
LIFT_IN = Step(
    later("Lift the work in"),
    later(
        "Hoist and slings as under Weight and handling, or enough hands. The sling stays on until the work "
        "is held and supported."
    ),
)
LET_GO = Step(
    later("Before letting go, look how round it is"),
    later(
        "Indicate at a jaw and midway between two. Slacken the jaws, indicate again, and write both on the "
        "record."
    ),
    hold=True,
)


def order_of_work(
    job: Job, route: Route, thread: ThreadPlan | None, *, heavy: bool = False, thin: bool = False
) -> tuple[Step, ...]:
    """Steps in the order they are done (common practice, no source).

    `heavy` work is lifted in, `thin` work is measured gripped and let go.
    """
    chuck, setting_up = job.holding.chuck, holding_steps(job)
    if heavy:  # after the nose is clean and the soft jaws are bored
        setting_up.insert(2 if chuck and (chuck.soft_jaws or chuck.pie_jaws) else 1, LIFT_IN)
    steps = [
        Step(
            say("Read the whole sheet"),
            say("Every finding decided, questions answered, duty line understood."),
            hold=True,
        ),
        *setting_up,
    ]
    support = support_steps(job)
    before = first_supported(job, route) if support else 0
    for place, line in enumerate(route.lines):
        steps += support if place == before else []
        steps += _steps_of(line, thread)
    steps += support if before >= len(route.lines) else []
    steps += [LET_GO] if thin else []
    steps.append(Step(
        say("Deburr, clean, mark with the job number, cap the thread") if thread is not None
        else say("Deburr, clean, mark with the job number")
    ))
    return tuple(steps)


def _steps_of(line: OperationLine, thread: ThreadPlan | None) -> list[Step]:
    """One operation under its number; a thread in its own steps."""
    text = say("Operation {number}: {title}", number=line.number, title=first_small(line.title))
    if line.proposed:
        text = say("{operation} (proposed)", operation=text)
    if line.name == "thread":
        return _thread_steps(line, text, thread)
    detail = "; ".join(part for part in (line.detail, line.hold) if part)
    return [Step(text, detail, hold=bool(line.hold), operation=line.number)]


def _thread_steps(line: OperationLine, text: str, plan: ThreadPlan | None) -> list[Step]:
    inside = plan is not None and plan.internal
    what, note = (
        (say("Measure the bore"), say("Measure the bore cold and write it here: ______")) if inside
        else (say("Measure the blank"), say("Measure the blank cold and write it here: ______"))
    )
    measure = Step(what, note, hold=True, figures=BLANK)
    if plan is None:
        return [measure]
    tool = (
        say(
            "Center height, square by the fishtail gauge, bar clear of the bore all the way, compound swung "
            "to the angle on this sheet, backlash out."
        )
        if inside
        else say(
            "Center height, square by the fishtail gauge, compound swung to the angle on this sheet, "
            "backlash out."
        )
    )
    cut = say("As in the pass table; write what was cut in the blank column.")
    return [
        measure,
        Step(
            say("Set levers, gears, feed direction"),
            say("As in the lathe settings. Turn one revolution by hand."),
            figures=LEVERS,
        ),
        Step(say("Set the tool"), tool, figures=TOOL),
        Step(say("Touch the bore, zero both dials") if inside else say("Touch the work, zero both dials")),
        Step(
            say("Scratch pass"),
            say("Check the pitch with a leaf gauge or rule over its whole length."),
            hold=True,
        ),
        Step(
            text, f"{cut} {line.hold}." if line.hold and line.hold != SCRATCH else cut, operation=line.number
        ),
        Step(
            say("Measure, try the mate"),
            say("At the marked lines. Spindle stopped, thread clean."),
            hold=True,
        ),
    ]
