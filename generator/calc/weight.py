"""How much the work weighs: volume of round, hollow and tapered lengths.

    volume            of one length, straight or tapered, with its bore
    weight            of that volume in a material
"""

from __future__ import annotations

import math

from generator.calc.sections import check_wall
from generator.si import Length, Mass


def volume(length: Length, od_start: Length, od_end: Length, bore: Length = 0.0) -> float:
    """Volume of a cone frustum with a straight bore: ``V = π ÷ 12 (D² + D d + d²) L − π ÷ 4 b² L``.

    Parameters
    ----------
    length : L, m
    od_start, od_end : D, d, outside diameters at the two ends, m; equal for a cylinder
    bore : b, m

    Returns
    -------
    m³.

    Raises
    ------
    OutsideRange
        When the bore leaves no wall at the smaller end.

    Notes
    -----
    Exact; no range given in the source.

    Examples
    --------
    A cylinder of 50 mm over 1 m, in cm³:

    >>> round(volume(1.0, 0.05, 0.05) * 1e6, 1)
    1963.5

    Source
    ------
    Geometry (frustum of a cone).
    """
    check_wall(min(od_start, od_end), bore)
    outside = math.pi / 12 * (od_start**2 + od_start * od_end + od_end**2)
    return (outside - math.pi / 4 * bore**2) * length


def weight(volume: float, density: float) -> Mass:
    """Mass of a volume, which the shop calls its weight: ``m = ρ V``.

    Parameters
    ----------
    volume : V, m³
    density : ρ, kg/m³

    Returns
    -------
    kg.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    >>> round(weight(1963.5e-6, 7850), 2)
    15.41

    Source
    ------
    Definition of density.
    """
    return density * volume
