"""The steps of the lathe beside the speed at which the held work begins to whip.

    speed_limit     the share of a critical speed to stay under
    lay_steps       the highest safe step, and the steps to keep away from
    barred_steps    those in words
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.calc.spindle import highest_step
from generator.job.shop import House
from generator.language.say import figure, later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.wording import rpm_words
from generator.si import SpindleSpeed, rev_per_min

PRACTICE = later("common practice, no source")
CRITICAL_SHARE = 0.7  # of the critical speed; common practice, no source
NEAR = 0.3            # either side of a critical speed; common practice, no source


def speed_limit(house: House) -> float:
    """The share of a critical speed to stay under."""
    return house.speed_share_of_critical.si if house.speed_share_of_critical else CRITICAL_SHARE


def lay_steps(held: HeldWork, critical: SpindleSpeed, house: House, desk: Desk) -> None:
    """The highest step that stays clear of the lowest critical speed, and the steps that do not."""
    steps, limit, name = [one.si for one in held.lathe.spindle.speeds], speed_limit(house), held.lathe.name
    label = say("Highest step clear of whipping")
    safe = highest_step(steps, limit * critical)
    if safe is None:
        desk.unknown(
            "holding.safe_step",
            label,
            "spindle_speed",
            say("no step of {lathe} is as slow as {speed}", lathe=name, speed=rpm_words(limit * critical)),
        )
    else:
        desk.computed(
            "holding.safe_step",
            label,
            safe,
            "spindle_speed",
            say("the highest step of the lathe not above {share} × {n critical}"),
            {"share": (limit, "ratio"), "n critical": (critical, "spindle_speed")},
            say(
                "{practice}; steps from jobs/_shop/lathes/{lathe}.yml",
                practice=PRACTICE,
                lathe=held.lathe.lathe,
            ),
            note="" if safe < max(steps) else say("all steps of {lathe}", lathe=name),
        )
    barred = barred_steps(steps, critical, limit)
    if barred:
        desk.lay(Figure(
            "holding.barred_steps", say("Steps to keep away from"), barred, "text", Kind.COMPUTED, PRACTICE,
            note=say("the chuck, the cutting speed and the steady rest's tips may ask for less"),
        ))


def barred_steps(steps: Sequence[SpindleSpeed], critical: SpindleSpeed, limit: float) -> str:
    """The steps (rev/s) that are too near to a critical speed or above it, in words; empty with none.

    >>> for said in barred_steps([1, 5, 8, 12, 20], 10.0, 0.7).split("; "):
    ...     print(said)
    480, 720 rpm: within 30 % of the critical speed
    1200 rpm: above the critical speed, reached only through it
    >>> barred_steps([1, 5], 10.0, 0.7)
    ''
    """
    near = [step for step in steps if abs(step / critical - 1) <= NEAR]
    under = [step for step in steps if limit * critical < step < (1 - NEAR) * critical]
    above = [step for step in steps if step > (1 + NEAR) * critical]
    said = (
        (under, say("above {limit:.0f} % of the critical speed", limit=limit * 100)),
        (near, say("within {near:.0f} % of the critical speed", near=NEAR * 100)),
        (above, say("above the critical speed, reached only through it")),
    )
    numbers = ((", ".join(figure(step / rev_per_min, ".4g") for step in found), why) for found, why in said)
    return "; ".join(say("{steps} rpm: {why}", steps=steps, why=why) for steps, why in numbers if steps)
