"""How a groove is cut up into passes: constant chip area, a cap on the first cut, a floor on the last.

    schedule            cumulative depths of the cuts
    infeed_travel       travel of a slide that is set over
    side_shift          how far the tool moves along the work meanwhile
"""

from __future__ import annotations

import math

from generator.errors import OutsideRange
from generator.si import Angle, Length

SAME = 1e-9  # two depths closer than this share of the total are one depth
MOST_PASSES = 500  # a schedule longer than this comes from a slip of the decimal point


def schedule(total: Length, first_cut: Length, least_cut: Length) -> list[Length]:
    """Cumulative radial depths, for chips of about one size from the first pass to the last.

    Depth after pass k is ``first_cut × √k``, so that a sharp tool takes the same chip area in each pass
    (the area of a V groove grows with the square of its depth); but no pass is smaller than
    ``least_cut``, and what would be left over for a smaller last pass is taken with the pass before.

    Parameters
    ----------
    total : radial depth to cut, m
    first_cut : cut of the first pass, radial, m
    least_cut : the smallest cut that still cuts instead of rubbing, radial, m

    Returns
    -------
    Depths after each pass, m, rising; the last is `total` itself.

    Raises
    ------
    OutsideRange
        When `total` or `first_cut` is not above zero, or `least_cut` is negative or above `first_cut`,
        or when it would take over 500 passes.

    Notes
    -----
    Works in any one unit of length. A single pass is smaller than `least_cut` only when `total` is. The
    last pass reaches up to just under twice `least_cut`; the first is over `first_cut` only when less
    than `least_cut` would be left. No range is given in the sources.

    Examples
    --------
    >>> [round(depth, 4) for depth in schedule(1.0, 0.5, 0.01)][:4]     # h √(n/4): constant area in 4
    [0.5, 0.7071, 0.866, 1.0]

    Source
    ------
    Constant chip area: geometry of the groove. First and least cut: common practice, no source.
    """
    _positive("depth of the thread", total)
    _positive("first cut", first_cut)
    if not 0 <= least_cut <= first_cut * (1 + SAME):
        raise OutsideRange("least cut", least_cut, 0.0, first_cut, "it is not above the first cut", "m")
    if total > first_cut * math.sqrt(MOST_PASSES) and total > least_cut * MOST_PASSES:
        raise OutsideRange(
            "first cut", first_cut, total / math.sqrt(MOST_PASSES), None, f"over {MOST_PASSES} passes", "m"
        )
    depths: list[Length] = []
    depth, left = 0.0, total
    while left > total * SAME:
        step = min(first_cut * math.sqrt(len(depths) + 1), total) - depth
        if step < least_cut:
            step = min(least_cut, left)
        if left - step < least_cut * (1 - SAME):
            step = left
        depth += step
        left = total - depth
        depths.append(depth)
    depths[-1] = total
    return depths


def _positive(quantity: str, value: float) -> None:
    if not (value > 0 and math.isfinite(value)):
        raise OutsideRange(quantity, value, 0.0, None, "it has to be above zero", "m")


def infeed_travel(depth: Length, angle: Angle) -> Length:
    """Travel of the slide for a radial depth: ``s = h ÷ cos β``.

    Parameters
    ----------
    depth : radial depth h, m
    angle : β, how far the slide is set over from the cross-slide direction, rad; 0 is straight in

    Returns
    -------
    Travel along the slide, m.

    Raises
    ------
    OutsideRange
        When the angle is negative or not under 90 degrees.

    Notes
    -----
    Any β under the half angle of the thread keeps both flanks smooth; no other range is given.

    Examples
    --------
    A published table of feeds at 29 degrees gives 0.0928 in for 8 threads per inch (3/4 H deep):

    >>> round(infeed_travel(0.649519 / 8, math.radians(29)), 4)
    0.0928

    Source
    ------
    Geometry; Jones, Turning and Boring (1914), on setting the compound rest for threading.
    """
    if not 0 <= angle < math.pi / 2:
        raise OutsideRange("infeed angle", angle, 0.0, math.pi / 2, "geometry", "rad")
    return depth / math.cos(angle)


def side_shift(depth: Length, angle: Angle) -> Length:
    """How far the tool moves along the work while it goes `depth` deep: ``h × tan β``.

    Parameters
    ----------
    depth : radial depth h, m
    angle : β from the cross-slide direction, rad

    Returns
    -------
    Axial movement, m.

    Notes
    -----
    No range is given beyond that of `infeed_travel`.

    Examples
    --------
    >>> round(side_shift(1.0, math.radians(45)), 6)
    1.0

    Source
    ------
    Geometry.
    """
    if not 0 <= angle < math.pi / 2:
        raise OutsideRange("infeed angle", angle, 0.0, math.pi / 2, "geometry", "rad")
    return depth * math.tan(angle)
