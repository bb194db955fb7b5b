"""Knurling: whole teeth around the work, and blank diameters that take them.

    FORCE_UNKNOWN    why no force is given
    teeth_around     teeth that a pitch puts around a diameter
    blanks           blank diameters next below and above that take whole teeth
"""

from __future__ import annotations

import math
from typing import Final

from generator.calc.guards import above_zero
from generator.si import Length

FORCE_UNKNOWN: Final = (
    "no published force for pressing a knurl: it depends on pitch, width and how sharp the rollers are; "
    "work with the tailstock center in place and the widest grip"
)


def teeth_around(diameter: Length, pitch: Length) -> float:
    """Teeth that a pitch puts around a diameter: ``z = π d ÷ p``.

    Parameters
    ----------
    diameter : d, of the blank, m
    pitch : p, of the roller along its rim, m

    Returns
    -------
    Teeth, rarely whole.

    Raises
    ------
    OutsideRange
        When either is not above zero.

    Examples
    --------
    1 in and 1 mm:

    >>> round(teeth_around(25.4e-3, 1e-3), 1)
    79.8

    Source
    ------
    Geometry.
    """
    above_zero("diameter of the blank", diameter, "m")
    above_zero("pitch of the knurl", pitch, "m")
    return math.pi * diameter / pitch


def blanks(diameter: Length, pitch: Length) -> tuple[Length, Length]:
    """Blank diameters, at or below and at or above one, that take whole teeth: ``d = z p ÷ π``.

    Parameters
    ----------
    diameter : d, wanted, m
    pitch : p, m

    Returns
    -------
    (not above d, not below d), m; the first is 0 when not one tooth fits.

    Raises
    ------
    OutsideRange
        When either is not above zero.

    Notes
    -----
    Rollers also track near misses when pressed in deep at the first turn (common practice, no source).

    Examples
    --------
    >>> [round(found * 1e3, 2) for found in blanks(25.4e-3, 1e-3)]
    [25.15, 25.46]

    Source
    ------
    Geometry.
    """
    teeth = teeth_around(diameter, pitch)
    return math.floor(teeth) * pitch / math.pi, math.ceil(teeth) * pitch / math.pi
