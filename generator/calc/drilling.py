"""Drilling with a two-lipped drill: torque, thrust, power and the length of the point.

    point_length       how far the point stands ahead of the full diameter
    drilling_torque    torque of both lips
    drilling_thrust    thrust along the spindle
    likely_drilling    range around either: web, friction, wear
"""

from __future__ import annotations

import math
from typing import Final

from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, FeedPerRev, Force, Length, Pressure, Torque, mm

LIPS: Final = 2
USUAL_POINT: Final = math.radians(118)
THRUST_SHARE: Final = 0.5     # thrust of the lips over their cutting force, at 90 degrees entering angle
WEB_SHARE: Final = 2.0        # solid drilling: the web's thrust about doubles it
MOST_OF_LIPS: Final = 2.0     # printed formulas for whole drills, worn ones too, over the lips' own figure


def point_length(diameter: Length, point_angle: Angle = USUAL_POINT, bore: Length = 0.0) -> Length:
    """Length of the drill's point: ``(d − d_0) ÷ 2 ÷ tan(σ ÷ 2)``.

    Parameters
    ----------
    diameter : d, m
    point_angle : σ, rad
    bore : d_0, hole that is already there, m

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the diameter, the bore or the angle cannot be.

    Notes
    -----
    Without the flat of the web; no range needed.

    Examples
    --------
    A 118 degree point is 0.3 of the diameter long:

    >>> round(point_length(1.0), 3)
    0.3

    Source
    ------
    Geometry.
    """
    _check(diameter, point_angle, bore)
    return (diameter - bore) / 2 / math.tan(point_angle / 2)


def drilling_torque(
    k_c11: Pressure,
    m_c: float,
    diameter: Length,
    feed: FeedPerRev,
    point_angle: Angle = USUAL_POINT,
    bore: Length = 0.0,
) -> Torque:
    """Torque of a two-lipped drill: ``M = k_c f (d² − d_0²) ÷ 8``, ``k_c = k_c1.1 h^(−m_c)``.

    Each lip cuts a chip ``h = f ÷ 2 × sin(σ ÷ 2)`` thick; its force acts at ``(d + d_0) ÷ 4`` from the axis.

    Parameters
    ----------
    k_c11 : specific cutting force at 1 mm chip thickness, Pa
    m_c : exponent
    diameter : d, m
    feed : f, of both lips together, m/rev
    point_angle : σ, rad
    bore : d_0, hole that is already there, m

    Returns
    -------
    N m.

    Raises
    ------
    OutsideRange
        When the diameter, the bore, the feed or the angle cannot be.

    Notes
    -----
    The formula holds for chips of 0.05 to 2.5 mm and reckons the lips alone: see `likely_drilling`.

    Examples
    --------
    20 mm into steel of 1675 N/mm², 0.24, at 0.3 mm:

    >>> round(drilling_torque(1675e6, 0.24, 20e-3, 0.3e-3), 1)
    41.1

    Source
    ------
    Kienzle (1952); Koenig and Klocke, Fertigungsverfahren 1, drilling (from memory).
    """
    return _specific_force(k_c11, m_c, diameter, feed, point_angle, bore) * feed * (diameter**2 - bore**2) / 8


def drilling_thrust(
    k_c11: Pressure,
    m_c: float,
    diameter: Length,
    feed: FeedPerRev,
    point_angle: Angle = USUAL_POINT,
    bore: Length = 0.0,
) -> Force:
    """Thrust of a two-lipped drill: ``F_f = 0.5 k_c f (d − d_0) ÷ 2 × sin(σ ÷ 2)``, doubled in solid metal.

    Parameters
    ----------
    k_c11 : specific cutting force at 1 mm chip thickness, Pa
    m_c : exponent
    diameter : d, m
    feed : f, of both lips together, m/rev
    point_angle : σ, rad
    bore : d_0, hole that is already there, m

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        As for `drilling_torque`.

    Notes
    -----
    An estimate: the lips push with about half of their cutting force, and in solid metal the web about
    doubles the thrust (common practice, no source). A thinned point takes less. See `likely_drilling`.

    Examples
    --------
    20 mm into steel of 1675 N/mm², 0.24, at 0.3 mm, in kN:

    >>> round(drilling_thrust(1675e6, 0.24, 20e-3, 0.3e-3) / 1e3, 1)
    7.1

    Source
    ------
    Kienzle (1952) for k_c; the shares are common practice, no source.
    """
    k_c = _specific_force(k_c11, m_c, diameter, feed, point_angle, bore)
    lips = THRUST_SHARE * k_c * feed * (diameter - bore) / 2 * math.sin(point_angle / 2)
    return lips if bore > 0 else WEB_SHARE * lips


def likely_drilling(figure: float) -> tuple[float, float]:
    """Range in which a torque or thrust of this module is likely to lie: from itself to twice itself.

    Parameters
    ----------
    figure : `drilling_torque` or `drilling_thrust`, N m or N

    Returns
    -------
    (low, high), in the same unit.

    Raises
    ------
    OutsideRange
        When the figure is below zero.

    Notes
    -----
    The two-lip formula leaves out what the web, the margins and wear add. Printed formulas for whole drills
    come out between 1 and 2 times as high; compare the motor and the tailstock with the upper end.

    Examples
    --------
    >>> likely_drilling(41.0)
    (41.0, 82.0)

    Source
    ------
    Machinery's Handbook, 31st ed., Machining Power, tables 7 to 9; Carvill, Mechanical Engineer's Data
    Handbook, 5.7; the factor between them and the two-lip formula is worked in the tests.
    """
    at_least_zero(say("torque or thrust"), figure)
    return figure, MOST_OF_LIPS * figure


def _specific_force(
    k_c11: Pressure, m_c: float, diameter: Length, feed: FeedPerRev, point_angle: Angle, bore: Length
) -> Pressure:
    _check(diameter, point_angle, bore)
    above_zero(say("feed"), feed, "m/rev")
    return k_c11 * math.pow(feed / LIPS * math.sin(point_angle / 2) / mm, -m_c)


def _check(diameter: Length, point_angle: Angle, bore: Length) -> None:
    above_zero(say("diameter of the drill"), diameter, "m")
    if not 0 <= bore < diameter:
        raise OutsideRange(
            say("hole that is already there"), bore, 0.0, diameter, say("smaller than the drill"), "m"
        )
    if not 0 < point_angle <= math.pi:
        raise OutsideRange(say("point angle"), point_angle, 0.0, math.pi, say("a drill's point"), "rad")
