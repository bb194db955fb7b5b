"""The step that the lathe has for a spindle speed, and the carriage speed that follows.

    same               whether two speeds are one step
    highest_step       highest step not above a speed
    neighbors          the steps on both sides of a speed
    carriage_speed     how fast the carriage moves while threading
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.si import Length, Speed, SpindleSpeed

SAME_STEP = 1e-6  # share within which a written speed is the lathe's step


def same(speed: SpindleSpeed, other: SpindleSpeed) -> bool:
    """True when two speeds are one step of the lathe, but for the last digits of a float.

    >>> same(32 / 60, 32 * (1 / 60)), same(32, 33)
    (True, False)
    """
    return math.isclose(speed, other, rel_tol=SAME_STEP)


def highest_step(steps: Sequence[SpindleSpeed], wanted: SpindleSpeed) -> SpindleSpeed | None:
    """The lathe's highest step that is not above the wanted speed: the largest ``n_step ≤ n``.

    Parameters
    ----------
    steps : speeds the lathe has, rev/s, in any order
    wanted : the speed not to go above, rev/s

    Returns
    -------
    That step, rev/s; None when even the lowest is above.

    Notes
    -----
    Any steps; a step within a millionth of the wanted speed counts as that speed.

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
    own = [step for step in steps if same(step, speed)]
    if own:
        return (own[0],)
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
