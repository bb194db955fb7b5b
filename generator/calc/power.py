"""Power and torque at the motor and the spindle.

    motor_power      power the motor gives for a power at the tool
    spindle_torque   torque that a cutting force asks for
"""

from __future__ import annotations

from generator.calc.guards import at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Force, Length, Power, Torque


def motor_power(power: Power, efficiency: float) -> Power:
    """Power the motor gives for a power at the tool: ``P_m = P_c ÷ η``.

    Parameters
    ----------
    power : P_c, W
    efficiency : η, 0.7 to 0.8 for a geared engine lathe (common practice, no source)

    Returns
    -------
    W.

    Raises
    ------
    OutsideRange
        When the power is below zero or the efficiency is not within 0 and 1.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    0.5 kW at the tool and 0.7:

    >>> round(motor_power(500.0, 0.7), 3)
    714.286

    Source
    ------
    Krar, Technology of Machine Tools (from memory).
    """
    at_least_zero(say("power at the tool"), power, "W")
    if not 0 < efficiency <= 1:
        raise OutsideRange(say("efficiency"), efficiency, 0.0, 1.0, say("a share of the motor's power"))
    return power / efficiency


def spindle_torque(force: Force, diameter: Length) -> Torque:
    """Torque that a cutting force asks of the spindle: ``M = F_c d ÷ 2``.

    Parameters
    ----------
    force : F_c, N
    diameter : d, at the cut, m

    Returns
    -------
    N m.

    Raises
    ------
    OutsideRange
        When either is below zero.

    Notes
    -----
    Arithmetic; no range.

    Examples
    --------
    1000 N on 90 mm:

    >>> spindle_torque(1000.0, 0.090)
    45.0

    Source
    ------
    Statics.
    """
    at_least_zero(say("cutting force"), force, "N")
    at_least_zero(say("diameter"), diameter, "m")
    return force * diameter / 2
