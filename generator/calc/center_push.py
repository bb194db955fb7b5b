"""What the tailstock center has to push with, and what it must not.

    center_hole_thrust    push with which a conical center is driven out by a force across it
    seated_push           push that keeps the cone bearing all round
"""

from __future__ import annotations

import math
from typing import Final

from generator.calc.guards import at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Force

CENTER_HALF_ANGLE: Final = math.radians(30)  # a 60 degree center: ISO 866, ISO 2540, from memory


def center_hole_thrust(across: Force, half_angle: Angle = CENTER_HALF_ANGLE) -> Force:
    """Force along the axis with which a force across drives the work off a cone: ``R tan α``.

    Parameters
    ----------
    across : R, force across the center, N
    half_angle : α, half the angle of the cone, rad

    Returns
    -------
    N along the axis; with less push than this the work climbs off the center.

    Raises
    ------
    OutsideRange
        When the force is below zero, or the cone is no cone.

    Notes
    -----
    All of R is carried on one line of the cone, square to its surface: N cos α across, N sin α along.
    Friction, which helps, is left out.

    Examples
    --------
    >>> round(center_hole_thrust(1000.0))
    577

    Source
    ------
    Statics of a smooth cone.
    """
    at_least_zero(say("force across the center"), across, "N")
    if not 0 < half_angle < math.pi / 2:
        raise OutsideRange(
            say("half angle of the center"), half_angle, 0.0, math.pi / 2, say("a cone"), "rad"
        )
    return across * math.tan(half_angle)


def seated_push(across: Force, half_angle: Angle = CENTER_HALF_ANGLE) -> Force:
    """Least push with which the cone bears all round its hole: ``P = 2 R tan α``.

    Parameters
    ----------
    across : R, force across the center, N
    half_angle : α, half the angle of the cone, rad

    Returns
    -------
    N along the axis. Below it one side of the hole is free of the cone, at half of it the work climbs off.

    Raises
    ------
    OutsideRange
        As `center_hole_thrust`.

    Notes
    -----
    The cone presses on each length of the hole's edge in proportion to how far it is pushed in there:
    a + b cos θ a radian, square to its surface. Round the edge that sums to P = 2 π a sin α along and
    R = π b cos α across; it presses everywhere while b is at most a. Friction is left out.

    Examples
    --------
    >>> round(seated_push(1000.0))
    1155

    Source
    ------
    Statics of a smooth cone on an elastic edge.
    """
    return 2 * center_hole_thrust(across, half_angle)
