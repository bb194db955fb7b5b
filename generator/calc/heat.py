"""What warming does to a length, to a diameter, and to work that cannot grow.

    growth                of a length, a radius or a diameter
    axial_stiffness       of stepped work along its axis
    held_force            what work pushes with that is kept from growing
    warm_size, cool_size  a size as it measures warm, and back to the 20 °C at which sizes hold (ISO 1)

Temperatures are differences, in kelvin.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Area, Force, Length, Pressure

ONE_DEGREE_F = 5 / 9  # K


def growth(size: Length, rise: float, expansion: float) -> Length:
    """How much a size grows: ``ΔL = α L ΔT``.

    Parameters
    ----------
    size : L, a length, a radius or a diameter, m
    rise : ΔT, K; below zero when it cools
    expansion : α, 1/K

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the size is not above zero.

    Notes
    -----
    The whole piece at one temperature; α of the published tables holds near room temperature.

    Examples
    --------
    1000 mm of steel by 15 K, and the radius of 80 mm by 20 K, mm:

    >>> round(growth(1000, 15, 11.7e-6), 4), round(growth(40, 20, 11.7e-6), 4)
    (0.1755, 0.0094)

    Source
    ------
    Gere, Mechanics of Materials, 5th ed., sec. 2.5.
    """
    above_zero(say("size"), size, "m")
    return expansion * size * rise


def axial_stiffness(pieces: Sequence[tuple[Length, Area]], elastic_modulus: Pressure) -> float:
    """Stiffness of stepped work along its axis: ``k = E ÷ Σ (L ÷ A)``.

    Parameters
    ----------
    pieces : L (m) and A (m²) of each, in series
    elastic_modulus : E, Pa

    Returns
    -------
    N/m.

    Raises
    ------
    OutsideRange
        When there is no piece, or a number is not above zero.

    Notes
    -----
    Without what chuck, jaws and center give: the stiffest it can be.

    Examples
    --------
    1 m of 40 mm steel, N/µm:

    >>> import math
    >>> round(axial_stiffness([(1.0, math.pi / 4 * 0.040**2)], 205e9) / 1e6, 1)
    257.6

    Source
    ------
    Gere, Mechanics of Materials, 5th ed., sec. 2.3.
    """
    if not pieces:
        raise OutsideRange(say("number of pieces"), 0, 1, None, say("a bar needs one"))
    above_zero(say("elastic modulus"), elastic_modulus, "Pa")
    for length, area in pieces:
        above_zero(say("length"), length, "m")
        above_zero(say("section"), area, "m²")
    return elastic_modulus / sum(length / area for length, area in pieces)


def held_force(growth: Length, *stiffnesses: float) -> Force:
    """Force of work that is kept from growing: ``F = ΔL ÷ Σ (1 ÷ k)``; of a plain bar ``E A α ΔT``.

    Parameters
    ----------
    growth : ΔL that it would grow, m
    stiffnesses : k of all that gives, in series, N/m; inf for what does not

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        When nothing gives, or a stiffness is not above zero.

    Notes
    -----
    With the work's own stiffness alone both ends are rigid, and the force is the most it can be. Below
    buckling.

    Examples
    --------
    40 mm steel held rigidly, 5 K:

    >>> import math
    >>> bar = axial_stiffness([(1.0, math.pi / 4 * 0.040**2)], 205e9)
    >>> round(held_force(growth(1.0, 5, 11.7e-6), bar), -1)
    15070.0

    Source
    ------
    Gere, Mechanics of Materials, 5th ed., sec. 2.5.
    """
    for stiffness in stiffnesses:
        if not stiffness > 0:
            raise OutsideRange(say("stiffness"), stiffness, 0.0, None, say("it has to be above zero"), "N/m")
    gives = sum(1 / stiffness for stiffness in stiffnesses)
    if not 0 < gives < math.inf:
        raise OutsideRange(
            say("give of all that holds"), gives, 0.0, None, say("something has to give"), "m/N"
        )
    return growth / gives


def warm_size(size: Length, rise: float, expansion: float) -> Length:
    """What a size measures while the piece is warm: ``D (1 + α ΔT)``.

    Parameters
    ----------
    size : D at 20 °C, m
    rise : ΔT over the gauge, which is at 20 °C, K
    expansion : α, 1/K

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the size is not above zero.

    Notes
    -----
    As `growth`. A gauge as warm as the work, and of the same material, needs no correction.

    Examples
    --------
    A bronze ring of 8 in, 20 °F warm, with 10 × 10⁻⁶ per °F:

    >>> round(warm_size(8.0, 20 * ONE_DEGREE_F, 10e-6 / ONE_DEGREE_F) - 8.0, 4)
    0.0016

    Source
    ------
    ISO 1 (sizes hold at 20 °C); Gere, Mechanics of Materials, 5th ed., sec. 2.5.
    """
    return size + growth(size, rise, expansion)


def cool_size(measured: Length, rise: float, expansion: float) -> Length:
    """The size at 20 °C of a piece that was measured warm: ``D ÷ (1 + α ΔT)``.

    Parameters
    ----------
    measured : D on the warm piece, m
    rise : ΔT over the gauge, which is at 20 °C, K
    expansion : α, 1/K

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the size is not above zero.

    Notes
    -----
    The inverse of `warm_size`.

    Examples
    --------
    >>> round(cool_size(8.0016, 20 * ONE_DEGREE_F, 10e-6 / ONE_DEGREE_F), 5)
    8.0

    Source
    ------
    ISO 1; Gere, Mechanics of Materials, 5th ed., sec. 2.5.
    """
    above_zero(say("size"), measured, "m")
    return measured / (1 + expansion * rise)
