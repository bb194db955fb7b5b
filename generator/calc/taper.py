"""Tapers: ratio, angle and sizes along the taper.

A taper is a ratio ``c = (D − d) ÷ l``: 1 in 16 is 0.0625, 0.6 in a foot is 0.05.

    taper_ratio          from two diameters and the length between them
    ratio_per_foot       from a taper in inches a foot
    ratio_of_half_angle  from the half angle
    half_angle           the other way
    axial_shift          how far a gauge moves for a change of diameter
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length, ft


def taper_ratio(large: Length, small: Length, length: Length) -> float:
    """Taper ratio: ``c = (D − d) ÷ l``.

    Parameters
    ----------
    large, small : D, d, m
    length : l, along the axis between them, m

    Returns
    -------
    Ratio of diameter to length.

    Raises
    ------
    OutsideRange
        When the length is not above zero, or the diameters are not ``0 <= d <= D``.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    30 to 24 mm over 60 mm is 1 in 10:

    >>> round(taper_ratio(30e-3, 24e-3, 60e-3), 9)
    0.1

    Source
    ------
    Jones, Turning and Boring (1914), Rules for Figuring Tapers.
    """
    above_zero(say("length of the taper"), length, "m")
    above_zero(say("large diameter of the taper"), large, "m")
    if not 0 <= small <= large:
        raise OutsideRange(
            say("small diameter of the taper"), small, 0.0, large, say("the large end is larger"), "m"
        )
    return (large - small) / length


def ratio_per_foot(per_foot: Length) -> float:
    """Taper ratio of a taper given in inches a foot: ``c = T ÷ 12``.

    Parameters
    ----------
    per_foot : T, change of diameter in a foot of length, m

    Returns
    -------
    Ratio.

    Raises
    ------
    OutsideRange
        When it is below zero.

    Notes
    -----
    Arithmetic; no range.

    Examples
    --------
    3/4 in a foot is 1 in 16:

    >>> ratio_per_foot(0.75 * 0.0254)
    0.0625

    Source
    ------
    Jones, Turning and Boring (1914), Rules for Figuring Tapers.
    """
    return checked_ratio(per_foot / ft)


def ratio_of_half_angle(angle: Angle) -> float:
    """Taper ratio of a half angle: ``c = 2 tan α``.

    Parameters
    ----------
    angle : α, between the axis and the side, rad

    Returns
    -------
    Ratio.

    Raises
    ------
    OutsideRange
        When the angle is not within 0 and a right angle.

    Examples
    --------
    >>> round(ratio_of_half_angle(math.radians(2.862405)), 6)
    0.1

    Source
    ------
    Geometry.
    """
    if not 0 <= angle < math.pi / 2:
        raise OutsideRange(
            say("half angle"), angle, 0.0, math.pi / 2, say("the angle between axis and side"), "rad"
        )
    return 2 * math.tan(angle)


def half_angle(ratio: float) -> Angle:
    """Angle between the axis and the side, which the compound is swiveled by: ``tan α = c ÷ 2``.

    Parameters
    ----------
    ratio : c

    Returns
    -------
    α, rad.

    Raises
    ------
    OutsideRange
        When the ratio is below zero.

    Notes
    -----
    Exact; half of the included angle.

    Examples
    --------
    30 to 24 mm over 60 mm, in degrees:

    >>> round(math.degrees(half_angle(0.1)), 6)
    2.862405

    Source
    ------
    Machinery's Handbook, Tapers: tan = T ÷ 24 (from memory).
    """
    return math.atan(checked_ratio(ratio) / 2)


def axial_shift(diameter_change: Length, ratio: float) -> Length:
    """How far a taper gauge goes on further when the taper is turned down: ``Δd ÷ c``.

    Parameters
    ----------
    diameter_change : Δd, m
    ratio : c

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the ratio is not above zero.

    Examples
    --------
    0.001 in off a taper of 0.6 in a foot lets the gauge on by 0.020 in:

    >>> round(axial_shift(0.001, 0.05), 6)
    0.02

    Source
    ------
    Geometry.
    """
    if not ratio > 0:
        raise OutsideRange(say("taper"), ratio, 0.0, None, say("a taper of nothing never meets its gauge"))
    return diameter_change / ratio


def checked_ratio(ratio: float) -> float:
    """The ratio itself, when it can be one."""
    if not (ratio >= 0 and math.isfinite(ratio)):
        raise OutsideRange(say("taper"), ratio, 0.0, None, say("change of diameter over length"))
    return ratio
