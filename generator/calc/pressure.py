"""Stress in the wall of a hollow round under inside pressure, and along it under a pull.

    hoop_stress, radial_stress, end_stress   a thick wall, at any diameter in it
    von_mises_at_bore                        the three together, where they are worst
    thin_wall_hoop                           the pipe formula beside them
    pressure_force                           what the pressure pushes along the part
    axial_stress                             a pull over the section it goes through

Figures to decide whether to stop and ask, no design check: bending, shock, notches, heat and wear are not in
them. Pressures and stresses in any one unit, diameters in any one unit.
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero, at_least_zero
from generator.calc.sections import check_wall, section_area
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Force, Length, Pressure

LAME = later("Lamé; Timoshenko, Strength of Materials II, from memory; Roark, table 13.5, from memory")


def hoop_stress(pressure: Pressure, bore: Length, outside: Length, at: Length) -> Pressure:
    """Stress round a thick wall under inside pressure: ``σ = p d² ÷ (D² − d²) × (1 + D² ÷ x²)``.

    Parameters
    ----------
    pressure : p over the pressure outside, Pa
    bore, outside : d, D, diameters, m
    at : x, diameter in the wall where it is wanted, m

    Returns
    -------
    Pa, pulling; largest at the bore.

    Raises
    ------
    OutsideRange
        When no wall is left, the place is not in the wall, or there is no pressure.

    Notes
    -----
    Elastic, round, concentric, one material, far from the ends and from steps. A groove shorter than the wall
    is deep is held by the wall beside it; this takes it as long.

    Examples
    --------
    50 MPa in a tube of 50 mm bore and 80 mm outside, at the bore and at the outside, MPa:

    >>> round(hoop_stress(50, 50, 80, 50), 3), round(hoop_stress(50, 50, 80, 80), 3)
    (114.103, 64.103)

    Source
    ------
    Lamé; Timoshenko, Strength of Materials II, from memory; Roark, table 13.5, from memory.
    """
    return end_stress(pressure, bore, outside) * (1 + (outside / _in_wall(bore, outside, at)) ** 2)


def radial_stress(pressure: Pressure, bore: Length, outside: Length, at: Length) -> Pressure:
    """Stress through a thick wall under inside pressure: ``σ = p d² ÷ (D² − d²) × (1 − D² ÷ x²)``.

    Parameters
    ----------
    pressure : p over the pressure outside, Pa
    bore, outside : d, D, diameters, m
    at : x, diameter in the wall where it is wanted, m

    Returns
    -------
    Pa, negative where it presses: −p at the bore, 0 at the outside.

    Raises
    ------
    OutsideRange
        As `hoop_stress`.

    Notes
    -----
    As `hoop_stress`.

    Examples
    --------
    >>> round(radial_stress(50, 50, 80, 50), 3), round(radial_stress(50, 50, 80, 80), 3)
    (-50.0, 0.0)

    Source
    ------
    Lamé; Timoshenko, Strength of Materials II, from memory; Roark, table 13.5, from memory.
    """
    return end_stress(pressure, bore, outside) * (1 - (outside / _in_wall(bore, outside, at)) ** 2)


def end_stress(pressure: Pressure, bore: Length, outside: Length) -> Pressure:
    """Stress along a thick tube with closed ends: ``σ = p d² ÷ (D² − d²)``.

    Parameters
    ----------
    pressure : p over the pressure outside, Pa
    bore, outside : d, D, diameters, m

    Returns
    -------
    Pa, pulling; the same all through the wall.

    Raises
    ------
    OutsideRange
        When no wall is left, or there is no pressure.

    Notes
    -----
    As `hoop_stress`; the pressure pushes on both ends over the bore.

    Examples
    --------
    >>> round(end_stress(50, 50, 80), 3)
    32.051

    Source
    ------
    Lamé; Timoshenko, Strength of Materials II, from memory; Roark, table 13.5, from memory.
    """
    above_zero(say("pressure"), pressure, "Pa")
    check_wall(outside, bore)
    return pressure * bore**2 / (outside**2 - bore**2)


def von_mises_at_bore(pressure: Pressure, bore: Length, outside: Length) -> Pressure:
    """The three stresses at the bore as one, closed ends: ``σ = √3 p D² ÷ (D² − d²)``.

    Parameters
    ----------
    pressure : p over the pressure outside, Pa
    bore, outside : d, D, diameters, m

    Returns
    -------
    Pa; a soft steel begins to give at the bore when it reaches the yield strength.

    Raises
    ------
    OutsideRange
        When no wall is left, or there is no pressure.

    Notes
    -----
    As `hoop_stress`. Higher than the pipe formula with the outside diameter when the bore is less than 0.732
    of the outside.

    Examples
    --------
    >>> round(von_mises_at_bore(50, 50, 80), 3)
    142.117

    Source
    ------
    von Mises (1913) with the stresses of Lamé; Timoshenko, Strength of Materials II, from memory.
    """
    above_zero(say("pressure"), pressure, "Pa")
    check_wall(outside, bore)
    return math.sqrt(3) * pressure * outside**2 / (outside**2 - bore**2)


def thin_wall_hoop(
    pressure: Pressure, outside: Length, wall: Length, wall_share: float = 1.0
) -> Pressure:
    """Stress round a pipe as Barlow has it, over its outside: ``σ = p D ÷ (2 t)``.

    Parameters
    ----------
    pressure : p over the pressure outside, Pa
    outside : D, m
    wall : t, m
    wall_share : of the wall that is counted; 0.875 for pipe whose wall may be 12.5 % thin

    Returns
    -------
    Pa. Turned round it gives the pressure: ``p = share × 2 σ t ÷ D``.

    Raises
    ------
    OutsideRange
        When there is no pressure or no wall, the wall is thicker than half the outside, or the share is not
        above 0 and at most 1.

    Notes
    -----
    With the outside diameter always a little above the hoop stress of `hoop_stress` at the bore.

    Examples
    --------
    Pipe of 88.9 mm with 9.525 mm wall, 0.875 of it counted, under 103.5 MPa:

    >>> round(thin_wall_hoop(103.5, 88.9, 9.525, 0.875))
    552

    Source
    ------
    Barlow; API TR 5C3 (0.875 for the wall's tolerance), from memory.
    """
    above_zero(say("pressure"), pressure, "Pa")
    if not 0 < wall <= outside / 2:
        raise OutsideRange(say("wall"), wall, 0.0, outside / 2, say("a wall of a round"), "m")
    if not 0 < wall_share <= 1:
        raise OutsideRange(say("share of the wall"), wall_share, 0.0, 1.0, say("a share of it"))
    return pressure * outside / (2 * wall * wall_share)


def pressure_force(pressure: Pressure, seal_diameter: Length) -> Force:
    """What a pressure pushes along the part: ``F = p π ÷ 4 d²``.

    Parameters
    ----------
    pressure : p, Pa
    seal_diameter : d, on which it is sealed, m

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        When one of them is not above zero.

    Notes
    -----
    Exact for a round seal; no range given in the source.

    Examples
    --------
    50 MPa on 60 mm:

    >>> round(pressure_force(50e6, 0.060))
    141372

    Source
    ------
    Statics.
    """
    above_zero(say("pressure"), pressure, "Pa")
    above_zero(say("seal diameter"), seal_diameter, "m")
    return pressure * math.pi / 4 * seal_diameter**2


def axial_stress(force: Force, outside: Length, bore: Length = 0.0) -> Pressure:
    """A pull along the part over a section of it: ``σ = F ÷ (π ÷ 4 (D² − d²))``.

    Parameters
    ----------
    force : F, N
    outside, bore : D, d, diameters of the section, m

    Returns
    -------
    Pa, the mean over the section.

    Raises
    ------
    OutsideRange
        When the force is below zero, or no wall is left.

    Notes
    -----
    Without stress concentration: the corner of a relief raises it, often 1.5 to 3 times (Peterson, from
    memory), which counts when the load comes and goes. Without bending.

    Examples
    --------
    50 MPa sealed on 60 mm, through a relief of 55 mm with a bore of 38 mm, MPa:

    >>> round(axial_stress(pressure_force(50, 60), 55, 38), 3)
    113.852

    Source
    ------
    Statics.
    """
    at_least_zero(say("load"), force, "N")
    return force / section_area(outside, bore)


def _in_wall(bore: Length, outside: Length, at: Length) -> Length:
    if not (at > 0 and bore <= at <= outside):
        raise OutsideRange(say("place in the wall"), at, bore, outside, say("between bore and outside"), "m")
    return at
