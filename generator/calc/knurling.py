"""Knurling: whole teeth around the work, and blank diameters that take them.

    FORCE_UNKNOWN    why no force is given
    teeth_around     teeth that a pitch puts around a diameter
    blanks           blank diameters next below and above that take whole teeth
    raised           diameter over the knurl, from and to
"""

from __future__ import annotations

import math
from typing import Final

from generator.calc.guards import above_zero
from generator.language.say import later, say
from generator.si import Length

FORCE_UNKNOWN: Final = later(
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

    Notes
    -----
    Arithmetic; no range.

    Examples
    --------
    1/2 in with a roller of 3/4 in and 47 teeth, printed as 31.3:

    >>> round(teeth_around(0.5, math.pi * 0.75 / 47), 1)
    31.3

    Source
    ------
    A roller maker's working of straight knurls: teeth go as the diameters.
    """
    above_zero(say("diameter of the blank"), diameter, "m")
    above_zero(say("pitch of the knurl"), pitch, "m")
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


def raised(blank: Length, pitch: Length) -> tuple[Length, Length]:
    """Diameter over the knurl: the blank and half a pitch to a whole one: ``d + p ÷ 2`` to ``d + p``.

    Parameters
    ----------
    blank : diameter before knurling, m
    pitch : p, m

    Returns
    -------
    (low, high), m.

    Raises
    ------
    OutsideRange
        When either is not above zero.

    Notes
    -----
    The sources differ by that much, and it depends on how deep the rollers go: knurl a short trial length and
    measure. Profile of 90 degrees (DIN 82).

    Examples
    --------
    A pitch of 2 mm goes in 1 mm on the diameter, by the tool maker's rule:

    >>> [round(found * 1e3, 6) for found in raised(20e-3, 2e-3)]
    [21.0, 22.0]

    Source
    ------
    A knurling-tool maker's instructions, half the pitch; an Austrian textbook of technical drawing, about the
    pitch.
    """
    above_zero(say("diameter of the blank"), blank, "m")
    above_zero(say("pitch of the knurl"), pitch, "m")
    return blank + pitch / 2, blank + pitch
