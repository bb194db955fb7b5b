"""The ring as a curved beam: what a wall that is not thin changes.

    neutral_shift         how far the neutral axis lies inside the middle of the wall
    lobe_compliance       how far a pressure with m waves around the ring pushes the wall
    thick_load_share, thick_midway_share     as in `ring`, with hoop force and shear
    thick_moment_at_load  bending moment at a load
    bore_stress, outside_stress     stress at both faces of the wall

Plane sections stay plane, hoop force and shear deform the wall, radial stress is left out.
"""

from __future__ import annotations

import math
from typing import Final

from generator.calc.guards import above_zero
from generator.calc.ring import half_spacing
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Force, Length, Pressure, Torque

POISSON: Final = 0.3
SHEAR: Final = 1.2  # of a rectangular section
THICKEST: Final = 1.0  # wall over mean radius: a bore of a third of the outside


def neutral_shift(radius: Length, wall: Length) -> Length:
    """From the middle of the wall inwards to the neutral axis: ``e = R − t ÷ ln(r outside ÷ r bore)``.

    Parameters
    ----------
    radius : R, mean radius, m
    wall : t, m

    Returns
    -------
    m; about t² ÷ (12 R) in a thin wall.

    Raises
    ------
    OutsideRange
        When the wall is not above zero, or thicker than the mean radius.

    Notes
    -----
    A wall of at most the mean radius: bore at least a third of the outside.

    Examples
    --------
    Mean radius 100, wall 50, mm:

    >>> round(1e3 * neutral_shift(0.100, 0.050), 4)
    2.1192

    Source
    ------
    Winkler-Bach theory; Timoshenko, Strength of Materials II, bending of curved bars.
    """
    above_zero(say("wall"), wall, "m")
    above_zero(say("radius"), radius, "m")
    if wall > THICKEST * radius:
        raise OutsideRange(say("wall over mean radius"), wall / radius, None, THICKEST, say("curved beam"))
    half = wall / (2 * radius)  # ln((1 + x) ÷ (1 − x)) = 2 artanh x, which keeps its digits in a thin wall
    return radius * (1 - half / math.atanh(half))


def lobe_compliance(
    waves: int, radius: Length, wall: Length, modulus: Pressure, poisson: float = POISSON
) -> float:
    """How far a pressure p cos(m θ) on the wall pushes it: ``w = p × c``.

    ``c = R² ÷ (m² − 1)² × [(R ÷ e − 1) ÷ (E t) + 1.2 m² ÷ (G t)]``

    Parameters
    ----------
    waves : m, waves around the ring, 2 or more
    radius : R, mean radius, m
    wall : t, m
    modulus : E, Pa
    poisson : ν, with ``G = E ÷ (2 (1 + ν))``

    Returns
    -------
    c, m/Pa; p counts on the middle of the wall.

    Raises
    ------
    OutsideRange
        With fewer than two waves, or a wall above the mean radius.

    Notes
    -----
    From the strain energy of a curved beam: equilibrium gives ``N = p R ÷ (1 − m²)``, ``M = R N``,
    ``V = dN ÷ dθ`` for each length of tube. Thin walls: ``12 R⁴ ÷ (E t³ (m² − 1)²)``. Against the bore of the
    elastic ring it is too large, on the safe side: 1 % at m t ÷ R = 0.4, 6 % at 1, a quarter at 2.

    Examples
    --------
    >>> thin = 12 * 0.050**4 / (205e9 * 0.001**3 * 64)
    >>> round(lobe_compliance(3, 0.050, 0.001, 205e9) / thin, 3)
    1.001

    Source
    ------
    Timoshenko, Strength of Materials II, strain energy of curved bars; the series is derived here.
    """
    if waves < 2:
        raise OutsideRange(
            say("waves around the ring"), waves, 2, None, say("one wave moves it, none squeezes it")
        )
    above_zero(say("elastic modulus"), modulus, "Pa")
    square, shear_modulus = waves**2, modulus / (2 * (1 + poisson))
    bending = (radius / neutral_shift(radius, wall) - 1) / (modulus * wall)
    return radius**2 / (square - 1) ** 2 * (bending + SHEAR * square / (shear_modulus * wall))


def thick_load_share(n: int, radius: Length, wall: Length, poisson: float = POISSON) -> float:
    """Inward deflection of the middle of the wall at a load, over W R³ ÷ (E I).

    ``½ I ÷ (A e R) × k [(α + sin α cos α) ÷ (2 sin² α) − k ÷ α] + shear``, ``k = 1 − e ÷ R``; the shear is
    ``½ × 2.4 (1 + ν) I ÷ (A R²) × (α − sin α cos α) ÷ (2 sin² α)``.

    Parameters
    ----------
    n : loads, equal and equally spaced; ``α = π ÷ n``
    radius : R, mean radius, m
    wall : t, m
    poisson : ν

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads, or a wall above the mean radius.

    Notes
    -----
    The dent right under a load, which is not felt at the bore, is left out. Too large in a thick wall, as
    `lobe_compliance`.

    Examples
    --------
    A thin wall comes back to 0.015939:

    >>> round(thick_load_share(3, 1.0, 0.01), 5)
    0.01595

    Source
    ------
    Castigliano's theorem on the strain energy of curved bars, Timoshenko, Strength of Materials II; Roark's
    Formulas for Stress and Strain, 7th ed., table 9.2, has the same terms.
    """
    a, sine, cosine, bending, shear, kept = _terms(n, radius, wall, poisson)
    bent = kept * ((a + sine * cosine) / (2 * sine**2) - kept / a)
    return bending * bent + shear * (a - sine * cosine) / (2 * sine**2)


def thick_midway_share(n: int, radius: Length, wall: Length, poisson: float = POISSON) -> float:
    """Outward deflection of the middle of the wall midway between two loads, over W R³ ÷ (E I).

    ``½ I ÷ (A e R) × k [k ÷ α − (sin α + α cos α) ÷ (2 sin² α)] + shear``, ``k = 1 − e ÷ R``; the shear is
    ``½ × 2.4 (1 + ν) I ÷ (A R²) × (sin α − α cos α) ÷ (2 sin² α)``.

    Parameters
    ----------
    n : loads, equal and equally spaced; ``α = π ÷ n``
    radius : R, mean radius, m
    wall : t, m
    poisson : ν

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads, or a wall above the mean radius.

    Notes
    -----
    As `thick_load_share`.

    Examples
    --------
    A thin wall comes back to 0.014257:

    >>> round(thick_midway_share(3, 1.0, 0.01), 5)
    0.01426

    Source
    ------
    Castigliano's theorem on the strain energy of curved bars, Timoshenko, Strength of Materials II.
    """
    a, sine, cosine, bending, shear, kept = _terms(n, radius, wall, poisson)
    bent = kept * (kept / a - (sine + a * cosine) / (2 * sine**2))
    return bending * bent + shear * (sine - a * cosine) / (2 * sine**2)


def thick_moment_at_load(force: Force, radius: Length, wall: Length, n: int) -> Torque:
    """Bending moment about the middle of the wall at a load: ``W R ÷ 2 (k ÷ α − cot α)``, ``k = 1 − e ÷ R``.

    Parameters
    ----------
    force : W, one load, N
    radius : R, mean radius, m
    wall : t, m
    n : loads, equal and equally spaced; ``α = π ÷ n``

    Returns
    -------
    N m; the bore is pulled, the outside pressed.

    Raises
    ------
    OutsideRange
        With fewer than two loads, or a wall above the mean radius.

    Notes
    -----
    Exact for a curved beam.

    Examples
    --------
    >>> round(thick_moment_at_load(2000.0, 0.040, 0.005, 3), 3)
    15.053

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7.
    """
    a = half_spacing(n)
    kept = 1 - neutral_shift(radius, wall) / radius
    return force * radius / 2 * (kept / a - 1 / math.tan(a))


def bore_stress(moment: Torque, hoop: Force, radius: Length, wall: Length, length: Length) -> Pressure:
    """Stress at the bore: ``N ÷ A + M (r n − r bore) ÷ (A e r bore)``, ``r n = R − e``.

    Parameters
    ----------
    moment : M about the middle of the wall, + when it flattens, N m
    hoop : N, + when it pulls, N
    radius : R, mean radius, m
    wall : t, m
    length : b, along the axis, m

    Returns
    -------
    Pa, + when pulled.

    Raises
    ------
    OutsideRange
        When a length is not above zero, or the wall thicker than the mean radius.

    Notes
    -----
    A wall of at most the mean radius; the dent of a jaw is left out.

    Examples
    --------
    Bending at R = 2 c, c half the wall, over 6 M ÷ (b t²); printed 1.52:

    >>> round(bore_stress(1.0, 0.0, 0.1, 0.1, 0.01) / (6 / (0.01 * 0.1**2)), 2)
    1.52

    Source
    ------
    Winkler-Bach theory; Wilson and Quereau, A Simple Method of Determining Stress in Curved Flexural Members,
    University of Illinois, 1928, reprinted in Machinery's Handbook; factors from memory.
    """
    e, inner = neutral_shift(radius, wall), radius - wall / 2
    above_zero(say("length"), length, "m")
    area = wall * length
    return hoop / area + moment * (radius - e - inner) / (area * e * inner)


def outside_stress(moment: Torque, hoop: Force, radius: Length, wall: Length, length: Length) -> Pressure:
    """Stress at the outside: ``N ÷ A − M (r outside − r n) ÷ (A e r outside)``, ``r n = R − e``.

    Parameters
    ----------
    moment : M about the middle of the wall, + when it flattens, N m
    hoop : N, + when it pulls, N
    radius : R, mean radius, m
    wall : t, m
    length : b, along the axis, m

    Returns
    -------
    Pa, + when pulled.

    Raises
    ------
    OutsideRange
        When a length is not above zero, or the wall thicker than the mean radius.

    Notes
    -----
    As `bore_stress`.

    Examples
    --------
    Bending at R = 2 c, c half the wall, over 6 M ÷ (b t²); printed 0.73:

    >>> round(outside_stress(1.0, 0.0, 0.1, 0.1, 0.01) / (6 / (0.01 * 0.1**2)), 2)
    -0.73

    Source
    ------
    As `bore_stress`.
    """
    e, outer = neutral_shift(radius, wall), radius + wall / 2
    above_zero(say("length"), length, "m")
    area = wall * length
    return hoop / area - moment * (outer - radius + e) / (area * e * outer)


def _terms(
    n: int, radius: Length, wall: Length, poisson: float
) -> tuple[float, float, float, float, float, float]:
    """α, its sine and cosine, what bending and shear are multiplied by, and 1 − e ÷ R."""
    a, e = half_spacing(n), neutral_shift(radius, wall)
    squared = wall**2 / 12  # I / A
    bending = 0.5 * squared / (e * radius)
    shear = 0.5 * SHEAR * 2 * (1 + poisson) * squared / radius**2
    return a, math.sin(a), math.cos(a), bending, shear, 1 - e / radius
