"""Spindle speed for a cutting speed, the step that the lathe has, and the carriage speed that follows.

    spindle_speed      revolutions for a cutting speed on a diameter
    highest_step       highest step not above a speed
    neighbors          the steps on both sides of a speed
    carriage_speed     how fast the carriage moves while threading
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.errors import OutsideRange
from generator.si import Length, Speed, SpindleSpeed

SAME_STEP = 1e-6  # share within which a written speed is the lathe's step


def spindle_speed(cutting_speed: Speed, diameter: Length) -> SpindleSpeed:
    """Spindle speed for a cutting speed: ``n = v ÷ (π d)``.

    Parameters
    ----------
    cutting_speed : v, m/s
    diameter : d, the largest diameter in the cut (for an external thread its major diameter), m

    Returns
    -------
    n, rev/s.

    Raises
    ------
    OutsideRange
        When either is not above zero.

    Notes
    -----
    No range is given in the source.

    Examples
    --------
    100 ft/min on 2 in (12 × ft/min ÷ (π × inches), in rev/min):

    >>> round(spindle_speed(100 * 0.3048 / 60, 2 * 0.0254) * 60, 2)
    190.99

    Source
    ------
    US Army course OD1645, Lathe Operations (1988).
    """
    for name, value, unit in (("cutting speed", cutting_speed, "m/s"), ("diameter", diameter, "m")):
        if not value > 0:
            raise OutsideRange(name, value, 0.0, None, "it has to be above zero", unit)
    return cutting_speed / (math.pi * diameter)


def highest_step(steps: Sequence[SpindleSpeed], wanted: SpindleSpeed) -> SpindleSpeed | None:
    """The lathe's highest step that is not above the wanted speed.

    Parameters
    ----------
    steps : speeds the lathe has, rev/s, in any order
    wanted : the speed not to go above, rev/s

    Returns
    -------
    That step, rev/s; None when even the lowest is above.

    Examples
    --------
    25 m/min on 88.9 mm is 89.5 rev/min, so the step of 70:

    >>> highest_step([45, 70, 105, 160], 89.513)
    70

    Source
    ------
    Common practice, no source: take the next lower step.
    """
    return max((step for step in steps if step <= wanted * (1 + SAME_STEP)), default=None)


def neighbors(steps: Sequence[SpindleSpeed], speed: SpindleSpeed) -> tuple[SpindleSpeed, ...]:
    """The step of this speed when the lathe has it, else the steps next below and above it.

    Parameters
    ----------
    steps : speeds the lathe has, rev/s, in any order
    speed : the speed looked for, rev/s

    Returns
    -------
    One or two steps, rev/s, rising; none when `steps` is empty.

    Examples
    --------
    >>> neighbors([45, 70, 115], 85), neighbors([45, 70, 115], 70), neighbors([45, 70], 20)
    ((70, 115), (70,), (45,))
    """
    same = [step for step in steps if math.isclose(step, speed, rel_tol=SAME_STEP)]
    if same:
        return (same[0],)
    below = max((step for step in steps if step < speed), default=None)
    above = min((step for step in steps if step > speed), default=None)
    return tuple(step for step in (below, above) if step is not None)


def carriage_speed(lead: Length, speed: SpindleSpeed) -> Speed:
    """How fast the carriage moves while threading: ``lead × n``.

    Parameters
    ----------
    lead : starts × pitch, m
    speed : spindle speed n, rev/s

    Returns
    -------
    Carriage speed, m/s.

    Notes
    -----
    The lead counts, not the pitch. No range.

    Examples
    --------
    8 threads per inch at 32 rev/min, in inches a second:

    >>> round(carriage_speed(1 / 8, 32 / 60), 3)
    0.067

    Source
    ------
    Arithmetic of the leadscrew.
    """
    return lead * speed
