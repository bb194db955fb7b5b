"""Marks of jaws on the work: mean pressure, line contact of a flat jaw on a round, first yield.

    mean_pressure           under jaws that fit the work
    contact_modulus         of two metals that press on each other
    line_pressure           highest pressure of a flat on a round
    first_yield_pressure    line pressure at which the softer metal begins to yield
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero, at_least_zero
from generator.language.say import say
from generator.si import Force, Length, Pressure

POISSON = 0.3             # of both metals
SHEAR_SHARE = 0.300       # highest shear stress over the highest pressure, 0.786 half widths deep


def mean_pressure(force: Force, width: Length, length: Length) -> Pressure:
    """Mean pressure under a jaw that fits the work: ``p = F ÷ (w l)``.

    Parameters
    ----------
    force : F, of one jaw, N
    width, length : w, l, of its face on the work, m

    Returns
    -------
    Pa.

    Raises
    ------
    OutsideRange
        When the face is not above zero, or the force is below zero.

    Notes
    -----
    Soft jaws bored to the work. A flat jaw on a round touches on a line: see `line_pressure`.

    Examples
    --------
    >>> mean_pressure(10e3, 0.020, 0.050) / 1e6
    10.0

    Source
    ------
    Arithmetic.
    """
    at_least_zero(say("force of a jaw"), force, "N")
    above_zero(say("width of the jaw"), width, "m")
    above_zero(say("gripped length"), length, "m")
    return force / (width * length)


def contact_modulus(one: Pressure, other: Pressure, poisson: float = POISSON) -> Pressure:
    """Modulus of a contact: ``1 ÷ E* = (1 − ν²) ÷ E_1 + (1 − ν²) ÷ E_2``.

    Parameters
    ----------
    one, other : E_1, E_2, elastic moduli, Pa
    poisson : ν, of both

    Returns
    -------
    Pa.

    Raises
    ------
    OutsideRange
        When a modulus is not above zero.

    Notes
    -----
    Metals lie near ν = 0.3; the square makes the rest small.

    Examples
    --------
    >>> round(contact_modulus(205e9, 205e9) / 1e9, 1)
    112.6

    Source
    ------
    Johnson, Contact Mechanics, 1985, section 4.2, from memory.
    """
    above_zero(say("elastic modulus"), one, "Pa")
    above_zero(say("elastic modulus"), other, "Pa")
    return 1 / ((1 - poisson**2) * (1 / one + 1 / other))


def line_pressure(force: Force, length: Length, diameter: Length, modulus: Pressure) -> Pressure:
    """Highest pressure of a flat jaw on a round: ``p_0 = √(F' E* ÷ (π R))``, ``F' = F ÷ l``.

    Parameters
    ----------
    force : F, of one jaw, N
    length : l, on which it touches, m
    diameter : of the round, 2 R, m
    modulus : E* of `contact_modulus`, Pa

    Returns
    -------
    Pa.

    Raises
    ------
    OutsideRange
        When length, diameter or modulus are not above zero, or the force is below zero.

    Notes
    -----
    Smooth, elastic, one line along the middle of the jaw, alike over its length; the ends of a jaw press
    harder, teeth much harder. A jaw bored to the work touches on two edges or all over instead.

    Examples
    --------
    10 kN over 50 mm of 50 mm steel, steel jaw:

    >>> round(line_pressure(10e3, 0.050, 0.050, contact_modulus(205e9, 205e9)) / 1e6)
    536

    Source
    ------
    Johnson, Contact Mechanics, 1985, eq. 4.45, from memory; the same as Carvill, Mechanical Engineer's Data
    Handbook, 1993, p. 52.
    """
    at_least_zero(say("force of a jaw"), force, "N")
    above_zero(say("length of the contact"), length, "m")
    above_zero(say("diameter of the work"), diameter, "m")
    above_zero(say("modulus of the contact"), modulus, "Pa")
    return math.sqrt(force / length * modulus / (math.pi * diameter / 2))


def first_yield_pressure(yield_strength: Pressure) -> Pressure:
    """Line pressure at which the metal under a jaw begins to yield: ``p_0 = σ_y ÷ (2 × 0.300)``, 1.67 σ_y.

    Parameters
    ----------
    yield_strength : σ_y of the softer metal, Pa

    Returns
    -------
    Pa.

    Raises
    ------
    OutsideRange
        When the yield strength is not above zero.

    Notes
    -----
    Tresca; von Mises gives 1.79. It begins below the surface: a mark that can be seen or felt wants more.

    Examples
    --------
    >>> round(first_yield_pressure(300e6) / 1e6)
    500

    Source
    ------
    Johnson, Contact Mechanics, 1985, section 6.1, from memory; 0.300 at 0.786 half widths is worked in the
    tests.
    """
    above_zero(say("yield strength"), yield_strength, "Pa")
    return yield_strength / (2 * SHEAR_SHARE)
