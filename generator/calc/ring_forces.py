"""What the wall of a thin ring bears under loads all round: moment, hoop force, stress, an even squeeze.

    moment_at_load, moment_midway        bending moment in the wall
    hoop_at_load, hoop_midway            hoop force in the wall
    hoop_stress, bending_stress          stress of an even squeeze, and of bending
    diameter_change                      how an even squeeze changes the diameter

As in `ring` all loads push inwards; from inside the bore everything has the other sign.
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.calc.ring import half_spacing
from generator.language.say import say
from generator.si import Force, Length, Pressure, Torque


def moment_at_load(force: Force, radius: Length, n: int) -> Torque:
    """Bending moment in the wall at a load, where it flattens: ``W R ÷ 2 (1 ÷ α − cot α)``.

    Parameters
    ----------
    force : W, one load, N
    radius : R, mean radius, m
    n : loads, equal and equally spaced

    Returns
    -------
    N m; the bore is pulled, the outside pressed.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1.

    Examples
    --------
    >>> round(moment_at_load(2000.0, 0.040, 3), 4)
    15.1032

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7.
    """
    a = half_spacing(n)
    return force * radius / 2 * (1 / a - 1 / math.tan(a))


def moment_midway(force: Force, radius: Length, n: int) -> Torque:
    """Bending moment in the wall midway, where it bulges: ``W R ÷ 2 (1 ÷ sin α − 1 ÷ α)``.

    Parameters
    ----------
    force : W, one load, N
    radius : R, mean radius, m
    n : loads, equal and equally spaced

    Returns
    -------
    N m; the outside is pulled, the bore pressed.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1. For two loads W R (½ − 1 ÷ π).

    Examples
    --------
    >>> round(moment_midway(1.0, 1.0, 2), 4)
    0.1817

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7.
    """
    a = half_spacing(n)
    return force * radius / 2 * (1 / math.sin(a) - 1 / a)


def hoop_at_load(force: Force, n: int) -> Force:
    """Hoop force in the wall at a load: ``W ÷ (2 tan α)``.

    Parameters
    ----------
    force : W, one load, N
    n : loads, equal and equally spaced

    Returns
    -------
    N, pressing.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    From equilibrium, so for a ring of any wall.

    Examples
    --------
    >>> round(hoop_at_load(2000.0, 3), 2)
    577.35

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7.
    """
    return force / (2 * math.tan(half_spacing(n)))


def hoop_midway(force: Force, n: int) -> Force:
    """Hoop force in the wall midway between two loads: ``W ÷ (2 sin α)``.

    Parameters
    ----------
    force : W, one load, N
    n : loads, equal and equally spaced

    Returns
    -------
    N, pressing.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    From equilibrium, so for a ring of any wall.

    Examples
    --------
    >>> round(hoop_midway(2000.0, 3), 2)
    1154.7

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7.
    """
    return force / (2 * math.sin(half_spacing(n)))


def hoop_stress(total: Force, wall: Length, length: Length) -> Pressure:
    """Hoop stress of a squeeze that is even all round: ``F ÷ (2 π b t)``.

    Parameters
    ----------
    total : F, all loads together, N
    wall : t, m
    length : b, along the axis, m

    Returns
    -------
    Pa.

    Raises
    ------
    OutsideRange
        When wall or length is not above zero.

    Notes
    -----
    The mean over the wall; in a thick one the bore has more.

    Examples
    --------
    >>> round(hoop_stress(3 * 2000.0, 0.005, 0.025) / 1e6, 5)
    7.63944

    Source
    ------
    Equilibrium of half the ring; Timoshenko, Strength of Materials II, thin ring under pressure.
    """
    above_zero(say("wall"), wall, "m")
    above_zero(say("length"), length, "m")
    return total / (2 * math.pi * length * wall)


def bending_stress(moment: Torque, wall: Length, length: Length) -> Pressure:
    """Stress of bending at both faces of a thin wall: ``6 M ÷ (b t²)``.

    Parameters
    ----------
    moment : M, N m
    wall : t, m
    length : b, along the axis, m

    Returns
    -------
    Pa.

    Raises
    ------
    OutsideRange
        When wall or length is not above zero.

    Notes
    -----
    Wall over mean radius up to about 0.1; `curved_beam.bore_stress` for thicker ones.

    Examples
    --------
    >>> round(bending_stress(moment_at_load(2000.0, 0.040, 3), 0.005, 0.025) / 1e6, 2)
    144.99

    Source
    ------
    Gere, Mechanics of Materials, 5th ed., section modulus of a rectangle.
    """
    above_zero(say("wall"), wall, "m")
    above_zero(say("length"), length, "m")
    return 6 * moment / (length * wall**2)


def diameter_change(
    total: Force, radius: Length, wall: Length, length: Length, modulus: Pressure
) -> Length:
    """How much smaller an even squeeze makes the mean diameter: ``F R ÷ (π b t E)``.

    Parameters
    ----------
    total : F, all loads together, N
    radius : R, mean radius, m
    wall : t, m
    length : b, along the axis, m
    modulus : E, Pa

    Returns
    -------
    m; a bore turned to size in the jaws is larger by it when let go.

    Raises
    ------
    OutsideRange
        When wall, length or modulus is not above zero.

    Notes
    -----
    Hoop stress over E, times the mean diameter. In a thick wall the bore gives more than the mean diameter.

    Examples
    --------
    >>> round(diameter_change(6000.0, 0.040, 0.005, 0.025, 205e9) * 1e6, 3)   # µm
    2.981

    Source
    ------
    Hooke's law with `hoop_stress`.
    """
    above_zero(say("elastic modulus"), modulus, "Pa")
    return 2 * radius * hoop_stress(total, wall, length) / modulus
