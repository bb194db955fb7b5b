"""The spindle step to set for anything that turns: the job's own where the lathe has it, else computed.

    Turned        what turns, and how its figure and its findings are called
    lay_step      the step, against the wanted speed
    check_head    the step, against the speed marked on what holds the work
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc import spindle
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.job.lathe_parts import Head
from generator.job.model import Job
from generator.job.written import Given
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.head import HEAD_WORDS, called
from generator.sheet.lines import Level
from generator.sheet.wording import rpm_words
from generator.si import Speed, SpindleSpeed, ft_per_min

PRACTICE = later("common practice, no source")
IRON_RIM = 6000 * ft_per_min   # of cast-iron wheels: Machinery's Handbook, from memory
TOO_FAST = {  # by whether something else than the cutting speed sets the limit
    False: later(
        "The lowest step of {lathe} is {lowest}, and {what} may turn at {limit} at most. Take a slower "
        "lathe, or give the speed that your tool and coolant bear."
    ),
    True: later(
        "The lowest step of {lathe} is {lowest}, and {what} may turn at {limit} at most for {cap}. Take a "
        "slower lathe, or give the speed that your tool and coolant bear."
    ),
}
STEEL_RIM = 12000 * ft_per_min  # fastest hand chucks of steel: common practice, no source


@dataclass(frozen=True)
class Turned:
    """What turns: `what` names it in a sentence, `figure` and `label` its step.

    `kind` is the first word of the findings' ids. `level` is that of a lathe that cannot turn slowly enough.
    `where` is the place in the job file that a finding points to.
    """

    what: str
    figure: str
    label: str
    where: Location | None
    kind: str = "spindle"
    level: Level = "stop"


def lay_step(
    turned: Turned,
    own: Given | None,
    lathe: Lathe,
    wanted: SpindleSpeed | None,
    desk: Desk,
    *,
    most: Mapping[str, SpindleSpeed] | None = None,
) -> SpindleSpeed | None:
    """The step to set: the job's own where the lathe has it, else the highest that is not too fast.

    Parameters
    ----------
    own : the step that the job asks for
    wanted : the speed not to go above, rev/s; None when nothing says
    most : what else the step is to stay below, by what sets it ("the chuck's own"), rev/s
    """
    steps = [speed.si for speed in lathe.spindle.speeds]
    if own is not None:
        return _lay_own(turned, own, lathe, steps, wanted, desk)
    if wanted is None:
        why = say("no cutting speed to go by, and the job gives no step")
        desk.unknown(turned.figure, turned.label, "spindle_speed", why)
        return None
    lowest, limit = min((most or {}).items(), key=lambda cap: cap[1], default=("", wanted))
    capped = limit < wanted
    limit = min(limit, wanted)
    step = spindle.highest_step(steps, limit)
    if step is None:
        why = say("no step of {lathe} is as slow as {limit}", lathe=lathe.name, limit=rpm_words(limit))
        desk.unknown(turned.figure, turned.label, "spindle_speed", why)
        desk.find(
            f"{turned.kind}-too-fast", turned.level,
            say(
                TOO_FAST[capped], lathe=lathe.name, lowest=rpm_words(min(steps)), what=turned.what,
                limit=rpm_words(limit), cap=say(lowest),
            ),
            turned.where, say("Which cutting speed is allowed?"),
        )
        return None
    put: dict[str, tuple[float, Quantity]] = {"n": (wanted, "spindle_speed")}
    formula = say("the highest step of the lathe not above {n}")
    if capped:
        put[lowest] = (limit, "spindle_speed")
        formula = say("the highest step of the lathe not above {n} nor above {cap}").replace(
            "{cap}", "{" + lowest + "}"
        )
    return desk.computed(
        turned.figure, turned.label, step, "spindle_speed", formula, put,
        say("{practice}; steps from jobs/_shop/lathes/{lathe}.yml", practice=PRACTICE, lathe=lathe.lathe),
    )


def _lay_own(
    turned: Turned, own: Given, lathe: Lathe, steps: list[SpindleSpeed], wanted: SpindleSpeed | None,
    desk: Desk,
) -> SpindleSpeed | None:
    """The step that the job asks for; none when the lathe does not have it."""
    near = spindle.neighbors(steps, own.si)
    if not any(spindle.same(step, own.si) for step in near):
        why = say("{lathe} has no step of {own}", lathe=lathe.name, own=own.with_unit)
        desk.unknown(turned.figure, turned.label, "spindle_speed", why)
        desk.find(
            f"{turned.kind}-step", "stop",
            say("{why}; next to it are {near}.", why=why, near=and_words(map(rpm_words, near))),
            own.where, say("Which step is it to be?"),
        )
        return None
    desk.given(turned.figure, turned.label, own, "spindle_speed")
    if wanted is not None and near[0] > wanted and not spindle.same(near[0], wanted):
        desk.find(
            f"{turned.kind}-fast", "check",
            say(
                "The step of {own} is above the {wanted} that the cutting speed allows. Decide whether the "
                "tool bears it.",
                own=own.with_unit, wanted=rpm_words(wanted),
            ),
            own.where,
        )
    return near[0]


def _judge_rim(head: Head, step: SpindleSpeed) -> tuple[Level, str]:
    """How far a body whose mark nobody wrote down is from bursting, by the speed of its rim."""
    rim = math.pi * head.diameter.si * step if head.diameter is not None else 0.0
    if rim <= IRON_RIM:
        return "note", ""
    if rim <= STEEL_RIM:
        return "check", say(
            " Its rim would run at {rim}; over about {limit} a body of cast iron may burst.",
            rim=_rim_words(rim), limit=_rim_words(IRON_RIM),
        )
    return "stop", say(
        " Its rim would run at {rim}; over about {limit} even a body of steel may burst.",
        rim=_rim_words(rim), limit=_rim_words(STEEL_RIM),
    )


def _rim_words(rim: Speed) -> str:
    return say("{rim:.0f} m/s ({feet:.0f} ft/min)", rim=rim, feet=rim / ft_per_min)


def check_head(
    head: Head | None, job: Job, lathe: Lathe, step: SpindleSpeed, where: Location | None, desk: Desk
) -> None:
    """The step against the top speed of what holds the work; one without a mark is named once on a sheet."""
    if head is None:
        return
    words, short = called(job), HEAD_WORDS[job.holding.held.kind]
    if head.top_speed is None:
        level, rim = _judge_rim(head, step)
        said = {finding.level for finding in desk.findings if finding.id == "chuck-speed-unknown"}
        if level in said or (said and level == "note"):
            return
        desk.find(
            "chuck-speed-unknown", level,
            say(
                "The record of {lathe} does not say how fast its {words} may turn.{rim} Look at the mark on "
                "the {head} before running it at {step}.",
                lathe=lathe.name, words=words, rim=rim, head=short, step=rpm_words(step),
            ),
            where,
        )
    elif step > head.top_speed.si and not spindle.same(step, head.top_speed.si):
        desk.find(
            "chuck-speed", "stop",
            say(
                "The {words} of {lathe} may turn at {top_speed} at most, and the step is {step}. Take a "
                "lower step or another {head}.",
                words=words, lathe=lathe.name, top_speed=rpm_words(head.top_speed.si), step=rpm_words(step),
                head=short,
            ),
            where,
        )
