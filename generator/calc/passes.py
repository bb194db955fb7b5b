"""How a groove is cut up into passes: constant chip area, a cap on the first cut, a floor on the last.

    schedule            cumulative depths of the cuts
    infeed_travel       travel of a slide that is set over
    usual_passes        how many passes a pitch usually takes
    equivalent_flat     the nose flat that stands for a nose radius in a chip area
    wire_seats          whether a wire can be read after a pass
"""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.calc.guards import above_zero
from generator.calc.thread_form import pitch_diameter_at_depth
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length, mm

SAME = 1e-9  # two depths closer than this share of the total are one depth
USUAL_PASSES = {  # pitch in mm: fewest, most; guide of a maker of carbide threading tools (2020)
    0.5: (4, 6), 0.75: (4, 7), 1.0: (4, 8), 1.25: (5, 9), 1.5: (6, 10), 1.75: (7, 12), 2.0: (7, 12),
    2.5: (8, 14), 3.0: (10, 16), 3.5: (11, 18), 4.0: (11, 18), 4.5: (11, 19), 5.0: (12, 24),
}
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
    Works in any one unit of length. A single pass is smaller than `least_cut` only when `total` is. What
    would be left over makes the last pass larger, by less than one `least_cut`. No range is given in the
    sources.

    Examples
    --------
    >>> [round(depth, 4) for depth in schedule(1.0, 0.5, 0.01)][:4]     # h √(n/4): constant area in 4
    [0.5, 0.7071, 0.866, 1.0]

    Source
    ------
    Constant chip area: geometry of the groove. First and least cut: common practice, no source.
    """
    above_zero(say("depth of the thread"), total, "m")
    above_zero(say("first cut"), first_cut, "m")
    if not 0 <= least_cut <= first_cut * (1 + SAME):
        raise OutsideRange(
            say("least cut"), least_cut, 0.0, first_cut, say("it is not above the first cut"), "m"
        )
    if total > first_cut * math.sqrt(MOST_PASSES) and total > least_cut * MOST_PASSES:
        raise OutsideRange(
            say("first cut"),
            first_cut,
            total / math.sqrt(MOST_PASSES),
            None,
            say("over {most_passes} passes", most_passes=MOST_PASSES),
            "m",
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
        raise OutsideRange(say("infeed angle"), angle, 0.0, math.pi / 2, say("geometry"), "rad")
    return depth / math.cos(angle)


def usual_passes(pitch: Length) -> tuple[int, int]:
    """How many passes a pitch takes with carbide; high-speed steel on a manual lathe takes half as many more.

    Parameters
    ----------
    pitch : P, m

    Returns
    -------
    (fewest, most) of the printed pitch that is nearest.

    Notes
    -----
    Printed for 0.5 to 5 mm; coarser pitches take the last row. The factor for high-speed steel is common
    practice, no source.

    Examples
    --------
    >>> usual_passes(3e-3)
    (10, 16)

    Source
    ------
    User guide of a maker of carbide threading tools (2020), number of passes by pitch.
    """
    nearest = min(USUAL_PASSES, key=lambda printed: abs(printed * mm - pitch))
    return USUAL_PASSES[nearest]


def equivalent_flat(nose_radius: Length, flanks: Flanks) -> Length:
    """The flat that leaves the same pitch diameter at the same depth as a nose radius.

    ``F = r (tan α + tan β) (cos((α − β)/2) ÷ sin((α + β)/2) − 1)``;
    both flanks at α: ``2 r tan α (1 ÷ sin α − 1)``

    Parameters
    ----------
    nose_radius : r, tangent to both flanks, m
    flanks : α, β, rad

    Returns
    -------
    F, m. The chip area reckoned with it is a little large: it holds the two corners beside the radius.

    Notes
    -----
    No range; both flanks straight.

    Examples
    --------
    ISO 68-1: a root radius of H/6 goes 17/24 H deep. The flat that does the same is 0.16667 P wide:

    >>> round(equivalent_flat(0.866025404 / 6, Flanks.alike(math.radians(30))), 5)
    0.16667

    Source
    ------
    Geometry; ISO 68-1 for the check value.
    """
    return nose_radius * flanks.tangents * (flanks.seat - 1) if nose_radius else 0.0


def wire_seats(
    turned_diameter: Length, depth: Length, wire: Length, pitch: Length, flanks: Flanks, nose_flat: Length,
    nose_radius: Length,
) -> bool:
    """Whether a measuring wire rests on both flanks of a groove that is only this deep.

    It touches the flanks below the turned surface, does not touch the bottom, and stands out of the groove.

    Parameters
    ----------
    turned_diameter : of the blank, m
    depth : radial, m
    wire : W, m
    pitch : P, m
    flanks : α, β, rad
    nose_flat : flat of the tool, m; 0 with a nose radius
    nose_radius : radius of the tool, m; 0 with a nose flat

    Returns
    -------
    True when a reading over this wire says something.

    Notes
    -----
    Lead angle left out: it moves the contact by less than a hundredth of the wire on common threads.

    Examples
    --------
    The best wire seats on the finished basic groove, and not after a first scratch:

    >>> done, scratch = 0.613435, 0.1
    >>> sixty = Flanks.alike(math.radians(30))
    >>> [wire_seats(10, depth, 0.57735, 1, sixty, 0.16667, 0) for depth in (done, scratch)]
    [True, False]

    Source
    ------
    Geometry.
    """
    if flanks.square:
        return False
    diameter = pitch_diameter_at_depth(turned_diameter, depth, pitch, flanks, nose_flat, nose_radius)
    center = diameter / 2 + wire / 2 * flanks.seat - pitch / 2 / flanks.tangents
    surface, bottom = turned_diameter / 2, turned_diameter / 2 - depth
    touches = center - wire / 2 * math.sin(min(flanks.load, flanks.clearance))
    return touches <= surface and center - wire / 2 >= bottom and center + wire / 2 > surface
