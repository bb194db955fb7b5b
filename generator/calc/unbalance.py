"""What a mass off the axis does as it turns.

    rotating_force          the force it pulls with
    speed_of_force          the speed at which it pulls so much
    whirl_amplification     how much further the work moves than under the same force standing still
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Force, Length, Mass, SpindleSpeed

SOURCE = later("Thomson, Theory of Vibration with Applications, rotating unbalance")


def rotating_force(mass: Mass, radius: Length, spindle_speed: SpindleSpeed) -> Force:
    """Force of a mass that turns off the axis: ``F = m r (2 π n)²``.

    Parameters
    ----------
    mass : m, kg
    radius : r of its own middle from the axis, m
    spindle_speed : n, rev/s

    Returns
    -------
    N, turning with the work.

    Raises
    ------
    OutsideRange
        When one of them is below zero.

    Notes
    -----
    Exact for a mass that stays where it is on the work.

    Examples
    --------
    1 kg at 100 mm, at 600 rpm, ω = 62.83 rad/s:

    >>> round(rotating_force(1.0, 0.100, 10.0), 1)
    394.8

    Source
    ------
    Thomson, Theory of Vibration with Applications, rotating unbalance.
    """
    at_least_zero(say("mass off the axis"), mass, "kg")
    at_least_zero(say("its radius"), radius, "m")
    at_least_zero(say("spindle speed"), spindle_speed, "rev/s")
    return mass * radius * (2 * math.pi * spindle_speed) ** 2


def speed_of_force(force: Force, mass: Mass, radius: Length) -> SpindleSpeed:
    """Speed at which a mass off the axis pulls with a force: ``n = √(F ÷ (m r)) ÷ (2 π)``.

    Parameters
    ----------
    force : F, N
    mass : m, kg
    radius : r, m

    Returns
    -------
    rev/s.

    Raises
    ------
    OutsideRange
        When one of them is not above zero.

    Notes
    -----
    As `rotating_force`.

    Examples
    --------
    >>> round(60 * speed_of_force(394.784, 1.0, 0.100))
    600

    Source
    ------
    Thomson, Theory of Vibration with Applications, rotating unbalance.
    """
    above_zero(say("force"), force, "N")
    above_zero(say("mass off the axis"), mass, "kg")
    above_zero(say("its radius"), radius, "m")
    return math.sqrt(force / (mass * radius)) / (2 * math.pi)


def whirl_amplification(spindle_speed: SpindleSpeed, critical: SpindleSpeed) -> float:
    """Deflection under a turning force over that under the same force at rest: ``1 ÷ (1 − (n ÷ n_c)²)``.

    Parameters
    ----------
    spindle_speed : n, rev/s
    critical : n_c, the critical speed, rev/s

    Returns
    -------
    A number, 1 or more.

    Raises
    ------
    OutsideRange
        When the speed is below zero, or not below the critical one.

    Notes
    -----
    Below the critical speed, without damping: with it the work moves less. At the critical speed it has no
    limit.

    Examples
    --------
    >>> round(whirl_amplification(0.7, 1.0), 2)
    1.96

    Source
    ------
    Thomson, Theory of Vibration with Applications, whirling of rotating shafts.
    """
    above_zero(say("critical speed"), critical, "rev/s")
    at_least_zero(say("spindle speed"), spindle_speed, "rev/s")
    if spindle_speed >= critical:
        reason = say("it has to be below the critical speed")
        raise OutsideRange(say("spindle speed"), spindle_speed, 0.0, critical, reason, "rev/s")
    return 1 / (1 - (spindle_speed / critical) ** 2)
