"""A ball, or a straight wire, that rests on both flanks of a thread's groove: exact, at any lead angle.

In an axial section each flank is a straight line, so the flank is a helicoid. A ball of radius ρ touches it
with its center ρ off along the normal; the centers of all balls that do so lie on a helicoid too, each at a
distance R from the axis and a place S along the screw that follow from the radius r at which it is touched.
A ball between two flanks has both the same:

    R1(r1) = R2(r2),  S1(r1) + S2(r2) = 0

    rest    distance of the center of the ball or wire from the axis
"""

from __future__ import annotations

import math
from functools import lru_cache

from generator.calc.flanks import Flanks
from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Length

STEPS, CLOSE = 40, 1e-14  # of Newton's method, which doubles the digits a step; closeness over the diameter
GEOMETRY = later("geometry of a ball on both flanks of a groove")


@lru_cache(maxsize=4096)
def rest(
    pitch_diameter: Length, size: Length, pitch: Length, lead: Length, flanks: Flanks, inside: bool = False
) -> Length:
    """Distance from the thread's axis to the center of a ball, or of a straight wire, on both flanks.

    flank: z(r, t) = h t ± [P/4 + (r − D2/2) T],  h = L/2π,  T = tan A, inside −tan A
    touched at r, with N² = 1 + T² + (h/r)² and ρ = W/2:  a = r + ρ T/N,  b = ρ h/(r N),
    R² = a² + b²,  S = P/4 + (r − D2/2) T − ρ/N − h arctan(b/a)

    Parameters
    ----------
    pitch_diameter : D2 (m)
    size : W, diameter of the ball or wire (m)
    pitch : P (m)
    lead : L (m)
    flanks : A of either flank
    inside : the thread is internal, and the ball stands outwards in its groove

    Returns
    -------
    R (m)

    Raises
    ------
    OutsideRange
        Where nothing of this size rests on both flanks of this thread.

    Notes
    -----
    Range: any lead angle; flanks of which one leans at least. Whether crest and root leave room is another
    question. A straight wire stands as its ball does: the ball's center goes along a helix, neither further
    out nor in, so both normals and the radius are square to that helix, and so is the wire's cross-section
    that touches. It needs flanks that curve away from it, sin A > (W/D2) tan² B; see `wires.follows`.

    Examples
    --------
    With next to no lead, as in the axial section (NBS Handbook H28), (10 + 2 W − 0.866025) / 2:

    >>> round(rest(10.0, 0.57735, 1.0, 1e-9, Flanks.alike(math.radians(30))), 6)
    5.144337

    Source: geometry of the helicoid.
    """
    above_zero(say("pitch diameter"), pitch_diameter, "m")
    above_zero(say("diameter of wire or ball"), size, "m")
    above_zero(say("pitch"), pitch, "m")
    above_zero(say("lead"), lead, "m")
    if flanks.square:
        raise OutsideRange(
            say("flank angle"), 0.0, 0.0, None, say("nothing rests on upright flanks"), "degrees"
        )
    sign = -1.0 if inside else 1.0
    angles = flanks.load, flanks.clearance
    center = pitch_diameter / 2 - sign * (pitch / 2 / flanks.tangents - size / 2 * flanks.seat)
    radii = [center - sign * size / 2 * math.sin(angle) for angle in angles]
    for _ in range(STEPS):
        if not min(radii) > 0:
            break
        one, other = (
            _Touch(r, pitch_diameter, size, pitch, lead, sign * math.tan(angle))
            for r, angle in zip(radii, angles, strict=True)
        )
        apart, over = one.radius - other.radius, one.along + other.along
        whole = one.radius_slope * other.along_slope + other.radius_slope * one.along_slope
        steps = (
            (apart * other.along_slope + over * other.radius_slope) / whole,
            (over * one.radius_slope - apart * one.along_slope) / whole,
        )
        radii = [r - step for r, step in zip(radii, steps, strict=True)]
        if max(map(abs, steps)) < CLOSE * pitch_diameter:
            return one.radius
    raise OutsideRange(say("diameter of wire or ball"), size, 0.0, None, GEOMETRY, "m")


class _Touch:
    """A ball that touches one flank at radius r: R and S of its center, and their slopes over r."""

    __slots__ = ("along", "along_slope", "radius", "radius_slope")

    def __init__(self, r: float, d: float, size: float, pitch: float, lead: float, slope: float) -> None:
        half, h = size / 2, lead / (2 * math.pi)
        norm = math.sqrt(1 + slope**2 + (h / r) ** 2)
        norm_slope = -(h**2) / (r**3 * norm)
        out, aside = r + half * slope / norm, half * h / (r * norm)
        out_slope = 1 - half * slope * norm_slope / norm**2
        aside_slope = -half * h * (norm + r * norm_slope) / (r * norm) ** 2
        self.radius = math.hypot(out, aside)
        self.radius_slope = (out * out_slope + aside * aside_slope) / self.radius
        turned_slope = (out * aside_slope - aside * out_slope) / self.radius**2
        self.along = pitch / 4 + (r - d / 2) * slope - half / norm - h * math.atan2(aside, out)
        self.along_slope = slope + half * norm_slope / norm**2 - h * turned_slope
