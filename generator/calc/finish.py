"""Surface roughness that a feed leaves, from the geometry of the tool's nose.

    roughness_total    Rt, peak to valley
    roughness_mean     Ra, from the parabola
    feed_for_mean      the feed that leaves a wanted Ra
"""

from __future__ import annotations

import math
from typing import Final

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.si import FeedPerRev, Length

MEAN_OF_PARABOLA: Final = 18 * math.sqrt(3)  # mean deviation of the parabola f²/8r about its own mean line
GEOMETRY = "the nose arcs meet only when the feed is not above twice the nose radius"


def roughness_total(feed: FeedPerRev, nose_radius: Length) -> Length:
    """Height from valley to peak: ``R_t = r − √(r² − f² ÷ 4)``.

    Parameters
    ----------
    feed : f, m/rev
    nose_radius : r, m

    Returns
    -------
    R_t, m.

    Raises
    ------
    OutsideRange
        When the radius is not above zero, or the feed is not within 0 and twice the radius.

    Notes
    -----
    Exact for round noses that follow each other; close to ``f² ÷ (8 r)`` for f below r. Turned work comes out
    1.5 to 3 times as rough where an edge builds up: high-speed steel, low speed, soft steel (common practice,
    no source).

    Examples
    --------
    0.1 mm with a nose of 0.4 mm, by ``f² ÷ (8 r)`` 3.125 µm:

    >>> round(roughness_total(0.1e-3, 0.4e-3) * 1e6, 3)
    3.137

    Source
    ------
    Shaw, Metal Cutting Principles (from memory); geometry.
    """
    _check(feed, nose_radius)
    return nose_radius - math.sqrt(nose_radius**2 - feed**2 / 4)


def roughness_mean(feed: FeedPerRev, nose_radius: Length) -> Length:
    """Arithmetical mean deviation: ``R_a = f² ÷ (18 √3 r)``.

    Parameters
    ----------
    feed : f, m/rev
    nose_radius : r, m

    Returns
    -------
    R_a, m.

    Raises
    ------
    OutsideRange
        As for `roughness_total`.

    Notes
    -----
    Mean of a parabola about its own mean line, good for f below r; handbooks round it to ``f² ÷ (32 r)``.
    Turned work comes out 1.5 to 3 times as rough where an edge builds up (common practice, no source).

    Examples
    --------
    0.1 mm with a nose of 0.4 mm; ``f² ÷ (32 r)`` gives 0.78 µm:

    >>> round(roughness_mean(0.1e-3, 0.4e-3) * 1e6, 2)
    0.80

    Source
    ------
    Geometry; Shaw, Metal Cutting Principles (from memory).
    """
    _check(feed, nose_radius)
    return feed**2 / (MEAN_OF_PARABOLA * nose_radius)


def feed_for_mean(roughness: Length, nose_radius: Length) -> FeedPerRev:
    """Feed that leaves a wanted mean roughness: ``f = √(18 √3 r R_a)``.

    Parameters
    ----------
    roughness : R_a, m
    nose_radius : r, m

    Returns
    -------
    f, m/rev.

    Raises
    ------
    OutsideRange
        When the roughness is not above zero, or the feed would be above twice the radius.

    Notes
    -----
    Range as for `roughness_mean`.

    Examples
    --------
    Ra 3.2 µm with a nose of 0.8 mm, in mm a revolution:

    >>> round(feed_for_mean(3.2e-6, 0.8e-3) * 1e3, 3)
    0.283

    Source
    ------
    As for `roughness_mean`.
    """
    above_zero("mean roughness", roughness, "m")
    feed = math.sqrt(MEAN_OF_PARABOLA * max(nose_radius, 0.0) * roughness)
    _check(feed, nose_radius)
    return feed


def _check(feed: FeedPerRev, nose_radius: Length) -> None:
    above_zero("nose radius", nose_radius, "m")
    if not 0 <= feed <= 2 * nose_radius:
        raise OutsideRange("feed", feed, 0.0, 2 * nose_radius, GEOMETRY, "m/rev")
