"""Stick-out over diameter, the rules of thumb that go with it, and how short is too short for beam formulas.

    slenderness           stick-out over diameter
    ALONE, BETWEEN        limits without a support and with a center
    shear_coefficient     of a hollow round
    cowper                the same from the square of bore over diameter, for many at once
    shear_share           shear deflection over bending deflection
"""

from __future__ import annotations

from typing import Final, TypeVar

import numpy as np
from numpy.typing import NDArray

from generator.calc.guards import above_zero
from generator.calc.sections import check_wall
from generator.language.say import say
from generator.si import Length

ALONE: Final = 3.0  # diameters in the chuck alone; lathe operators' manuals
BETWEEN: Final = 10.0  # diameters between chuck and center; common practice, no source
GRIP_SHARE: Final = 1 / 3  # least grip over stick-out, chuck alone; common practice, no source
POISSON: Final = 0.3  # steel

Numbers = TypeVar("Numbers", float, NDArray[np.float64])


def slenderness(stick_out: Length, diameter: Length) -> float:
    """Stick-out in diameters: ``L ÷ D``.

    Parameters
    ----------
    stick_out : L, m
    diameter : D at the jaws, m

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        When the diameter is not above zero.

    Notes
    -----
    A rule of thumb: for hollow and stepped work the deflection decides.

    Examples
    --------
    >>> slenderness(0.150, 0.050)
    3.0

    Source
    ------
    Common practice, no source.
    """
    above_zero(say("diameter"), diameter, "m")
    return stick_out / diameter


def shear_coefficient(od: Length, bore: Length = 0.0, poisson: float = POISSON) -> float:
    """Shear coefficient of a hollow round.

    ``κ = 6 (1 + ν) (1 + m²)² ÷ [(7 + 6 ν) (1 + m²)² + (20 + 12 ν) m²]``, ``m = d ÷ D``.

    Parameters
    ----------
    od, bore : D, d, diameters, m
    poisson : ν

    Returns
    -------
    A number below 1.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    >>> round(shear_coefficient(1.0), 3), round(shear_coefficient(1.0, 0.999), 2)
    (0.886, 0.53)

    Source
    ------
    Cowper, The Shear Coefficient in Timoshenko's Beam Theory, 1966; from memory.
    """
    check_wall(od, bore)
    return cowper((bore / od) ** 2, poisson)


def cowper(squared: Numbers, poisson: float) -> Numbers:
    """Shear coefficient from m², bore over diameter squared: `shear_coefficient` for one number or an array.

    >>> round(cowper(0.0, 0.3), 3)
    0.886
    """
    whole = (1 + squared) ** 2
    return 6 * (1 + poisson) * whole / ((7 + 6 * poisson) * whole + (20 + 12 * poisson) * squared)


def shear_share(
    length: Length, od: Length, bore: Length = 0.0, *, both_ends: bool = False, poisson: float = POISSON
) -> float:
    """Shear over bending deflection at an end load: ``3 E I ÷ (κ G A L²)``; four times that at mid-span.

    Parameters
    ----------
    length : L, overhang, or span where both ends are held, m
    od, bore : D, d, diameters, m
    both_ends : True for a load at the middle between two supports
    poisson : ν, with E ÷ G = 2 (1 + ν)

    Returns
    -------
    A number; beam formulas without shear come out low by this share.

    Raises
    ------
    OutsideRange
        When the length is not above zero.

    Notes
    -----
    One section along the whole length.

    Examples
    --------
    Solid round, about 0.55 (D ÷ L)²:

    >>> round(shear_share(2.0, 1.0), 2), round(shear_share(5.0, 1.0), 2)
    (0.14, 0.02)

    Source
    ------
    Timoshenko beam theory; coefficient of Cowper, 1966, from memory.
    """
    above_zero(say("length"), length, "m")
    radius_squared = (od**2 + bore**2) / 16  # I / A
    share = 6 * (1 + poisson) * radius_squared / (shear_coefficient(od, bore, poisson) * length**2)
    return 4 * share if both_ends else share
