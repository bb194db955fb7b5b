"""The cross-section of round work: area and second moment of area of a solid or hollow round.

    section_area      area
    second_moment     resistance to bending
    check_wall        refuses a bore that leaves no wall
"""

from __future__ import annotations

import math

from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Area, Length


def section_area(od: Length, bore: Length = 0.0) -> Area:
    """Area of a hollow round: ``A = π ÷ 4 (D² − d²)``.

    Parameters
    ----------
    od, bore : D, d, diameters, m

    Returns
    -------
    m².

    Raises
    ------
    OutsideRange
        When the bore is not smaller than the outside.

    Notes
    -----
    Exact; no range given in the source.

    Examples
    --------
    >>> round(section_area(50e-3) * 7850, 4)     # kg per metre of 50 mm steel bar
    15.4134

    Source
    ------
    Gere, Mechanics of Materials, 5th ed., Appendix D.
    """
    check_wall(od, bore)
    return math.pi / 4 * (od**2 - bore**2)


def second_moment(od: Length, bore: Length = 0.0) -> float:
    """Second moment of area of a hollow round: ``I = π ÷ 64 (D⁴ − d⁴)``.

    Parameters
    ----------
    od, bore : D, d, diameters, m

    Returns
    -------
    m⁴.

    Raises
    ------
    OutsideRange
        When the bore is not smaller than the outside.

    Notes
    -----
    Exact; no range given in the source.

    Examples
    --------
    >>> round(second_moment(50e-3) * 1e12)       # 50 mm bar, mm⁴
    306796

    Source
    ------
    Gere, Mechanics of Materials, 5th ed., Appendix D.
    """
    check_wall(od, bore)
    return math.pi / 64 * (od**4 - bore**4)


def check_wall(od: Length, bore: Length) -> None:
    """Refuse a round without a wall.

    Raises
    ------
    OutsideRange
        When the bore is negative, or not smaller than the outside.
    """
    if not 0 <= bore < od < math.inf:
        raise OutsideRange(later("bore"), bore, 0.0, od, say("a wall must be left"), "m")
