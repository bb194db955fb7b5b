"""A thin ring pressed at points all round: what three, four or six jaws, or three fingers, do to a tube.

    load_share            deflection at a load, over W R³ ÷ (E I)
    midway_share          deflection midway between two loads, likewise
    out_of_round_share    both together: largest less smallest radius
    deflection            any of them times W R³ ÷ (E I)
    moment_at_load, moment_midway        bending moment in the wall
    hoop_at_load, hoop_midway            hoop force in the wall
    hoop_stress, bending_stress          stress of an even squeeze, and of bending
    diameter_change       how an even squeeze changes the diameter

The ring is thin and bends without stretching; `curved_beam` has the thick one, `lobes` pressure over arcs and
tubes. All loads push inwards; from inside the bore everything has the other sign.
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.si import Force, Length, Pressure, Torque


def load_share(n: int) -> float:
    """Inward deflection at a load, over W R³ ÷ (E I): ``½ [α ÷ (2 sin² α) + cos α ÷ (2 sin α) − 1 ÷ α]``.

    Parameters
    ----------
    n : loads, equal and equally spaced; ``α = π ÷ n``

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1.

    Examples
    --------
    >>> [round(load_share(n), 6) for n in (2, 3, 4, 6)]
    [0.074389, 0.015939, 0.006079, 0.001682]

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7; Timoshenko, Strength of Materials II.
    """
    a = half_spacing(n)
    return 0.5 * (a / (2 * math.sin(a) ** 2) + 1 / (2 * math.tan(a)) - 1 / a)


def midway_share(n: int) -> float:
    """Outward deflection midway, over W R³ ÷ (E I): ``½ [1 ÷ α − 1 ÷ (2 sin α) − α cos α ÷ (2 sin² α)]``.

    Parameters
    ----------
    n : loads, equal and equally spaced; ``α = π ÷ n``

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1.

    Examples
    --------
    >>> [round(midway_share(n), 6) for n in (2, 3, 4, 6)]
    [0.068310, 0.014257, 0.005386, 0.001480]

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7; Timoshenko, Strength of Materials II.
    """
    a = half_spacing(n)
    return 0.5 * (1 / a - 1 / (2 * math.sin(a)) - a * math.cos(a) / (2 * math.sin(a) ** 2))


def out_of_round_share(n: int) -> float:
    """Largest less smallest radius, over W R³ ÷ (E I): what both deflections make together.

    Parameters
    ----------
    n : loads, equal and equally spaced

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1.

    Examples
    --------
    >>> [round(out_of_round_share(n), 6) for n in (2, 3, 4, 6)]
    [0.142699, 0.030195, 0.011466, 0.003162]

    At the same force of all jaws three distort 3.51 times as much as four, 19.1 times as much as six:

    >>> three, four, six = (out_of_round_share(n) / n for n in (3, 4, 6))
    >>> round(three / four, 2), round(three / six, 1)
    (3.51, 19.1)

    Source
    ------
    The sum of `load_share` and `midway_share`.
    """
    return load_share(n) + midway_share(n)


def deflection(
    share: float, force: Force, radius: Length, wall: Length, length: Length, modulus: Pressure
) -> Length:
    """Deflection of a ring of rectangular section: ``share × W R³ ÷ (E b t³ ÷ 12)``.

    Parameters
    ----------
    share : one of the three above
    force : W, one load, N
    radius : R, mean radius of the wall, m
    wall : t, m
    length : b, along the axis, m
    modulus : E, Pa

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When radius, wall, length or modulus is not above zero.

    Notes
    -----
    Wall over mean radius up to about 0.1; nothing else stiffens the ring.

    Examples
    --------
    2000 N from each of three jaws on steel of mean radius 40, wall 5, 25 long; mm:

    >>> ring = (2000.0, 0.040, 0.005, 0.025, 205e9)
    >>> [round(1e3 * deflection(s(3), *ring), 7) for s in (load_share, midway_share, out_of_round_share)]
    [0.0382153, 0.0341829, 0.0723982]

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2.
    """
    for name, value in (("radius", radius), ("wall", wall), ("length", length)):
        above_zero(name, value, "m")
    above_zero("elastic modulus", modulus, "Pa")
    return share * force * radius**3 / (modulus * length * wall**3 / 12)


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
    above_zero("wall", wall, "m")
    above_zero("length", length, "m")
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
    above_zero("wall", wall, "m")
    above_zero("length", length, "m")
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
    above_zero("elastic modulus", modulus, "Pa")
    return 2 * radius * hoop_stress(total, wall, length) / modulus


def half_spacing(n: int) -> float:
    """Half the angle between two of n equally spaced loads: ``α = π ÷ n`` (rad).

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Examples
    --------
    >>> round(half_spacing(3), 4)
    1.0472
    """
    if n < 2:
        raise OutsideRange("number of loads", n, 2, None, "one load is not balanced")
    return math.pi / n
