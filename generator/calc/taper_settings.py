"""What to set for a taper: compound, tailstock set over, taper attachment.

    compound_reading     what the compound's scale shows
    compound_travel      how far the compound runs
    tailstock_offset     how far the tailstock is set over
    set_over_error       how much that formula leaves out
    attachment_setting   what the attachment's scale shows
"""

from __future__ import annotations

import math
from typing import Final, Literal

from generator.calc.guards import above_zero
from generator.calc.taper import checked_ratio, half_angle, ratio_of_half_angle
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length, ft

Zero = Literal["across", "along"]
AttachmentScale = Literal["half angle", "included angle", "per foot"]

SET_OVER_LIMIT: Final = math.radians(8)  # half angle; common practice, no source


def compound_reading(angle: Angle, zero: Zero) -> Angle:
    """What the compound's scale shows when the slide lies along the side of the taper: ``α`` or ``90° − α``.

    Parameters
    ----------
    angle : half angle α, rad
    zero : where the slide points at the scale's 0: "across" the bed or "along" it

    Returns
    -------
    α with the zero along, ``90° − α`` with the zero across, rad.

    Raises
    ------
    OutsideRange
        When the angle is not within 0 and a right angle.

    Notes
    -----
    Angles between 0 and a right angle.

    Examples
    --------
    A valve turned to 30 degrees with the axis, zero across the bed: the rest is set to 60 degrees (Jones):

    >>> round(math.degrees(compound_reading(math.radians(30), "across")), 6)
    60.0

    Source
    ------
    Jones, Turning and Boring (1914), accurate measurement of angles and tapers.
    """
    ratio_of_half_angle(angle)
    return math.pi / 2 - angle if zero == "across" else angle


def compound_travel(length: Length, angle: Angle) -> Length:
    """How far the compound runs for a taper: ``l ÷ cos α``.

    Parameters
    ----------
    length : l, along the axis, m
    angle : half angle α, rad

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the length is not above zero, or the angle not within 0 and a right angle.

    Notes
    -----
    Angles from 0 up to, but not at, a right angle.

    Examples
    --------
    >>> round(compound_travel(60e-3, math.radians(60)) * 1e3, 6)
    120.0

    Source
    ------
    Geometry.
    """
    above_zero(say("length of the taper"), length, "m")
    ratio_of_half_angle(angle)
    return length / math.cos(angle)


def tailstock_offset(ratio: float, length_between_centers: Length) -> Length:
    """How far the tailstock is set over: ``S = L c ÷ 2``.

    Parameters
    ----------
    ratio : c
    length_between_centers : L, the whole length of the work between its centers, m

    Returns
    -------
    S, m.

    Raises
    ------
    OutsideRange
        When the length is not above zero, or the half angle is above `SET_OVER_LIMIT`.

    Notes
    -----
    The whole length counts, wherever the taper lies. Near enough for small angles (`set_over_error`); the
    centers have to seat, so ball centers above 2 or 3 degrees; up to 8 degrees half angle (common practice,
    no source).

    Examples
    --------
    3 to 2 in over a piece of 12 in (US Navy course NAVEDTRA 14345), in inches:

    >>> tailstock_offset((3 - 2) / 12, 12)
    0.5

    Source
    ------
    US Navy course NAVEDTRA 14345; Machinery's Handbook, Tapers (from memory).
    """
    above_zero(say("length between centers"), length_between_centers, "m")
    if half_angle(ratio) > SET_OVER_LIMIT:
        raise OutsideRange(
            say("half angle turned with the tailstock set over"), half_angle(ratio), 0.0, SET_OVER_LIMIT,
            say("common practice, no source"), "rad",
        )
    return length_between_centers * ratio / 2


def set_over_error(ratio: float) -> float:
    """Share by which `tailstock_offset` is too large: ``1 ÷ cos α − 1``.

    The work's axis leans by α with ``sin α = S ÷ L``, so the exact offset is ``L sin α``.

    Parameters
    ----------
    ratio : c

    Returns
    -------
    Share: 0.001 is one part in a thousand.

    Raises
    ------
    OutsideRange
        When the ratio is below zero.

    Examples
    --------
    One inch a foot:

    >>> round(set_over_error(1 / 12), 5)
    0.00087

    Source
    ------
    Geometry.
    """
    return 1 / math.cos(half_angle(ratio)) - 1


def attachment_setting(ratio: float, scale: AttachmentScale) -> float:
    """What the taper attachment's scale shows: ``12 in × c`` in a foot, or the half angle ``arctan(c ÷ 2)``.

    Parameters
    ----------
    ratio : c
    scale : what the attachment is engraved in

    Returns
    -------
    rad on an angle scale; change of diameter in a foot, m, on a "per foot" scale.

    Raises
    ------
    OutsideRange
        When the ratio is below zero.

    Notes
    -----
    Geometry; how far the attachment goes is in the lathe's record.

    Examples
    --------
    1 in 16 is 3/4 in a foot:

    >>> round(attachment_setting(1 / 16, "per foot") / 0.0254, 9)
    0.75

    Source
    ------
    Jones, Turning and Boring (1914), the taper attachment; geometry.
    """
    if scale == "per foot":
        return checked_ratio(ratio) * ft
    return half_angle(ratio) * (2 if scale == "included angle" else 1)
