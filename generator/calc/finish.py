"""Surface roughness that a feed leaves, from the geometry of the tool's nose.

    roughness_mean     Ra, from the parabola
"""

from __future__ import annotations

import math
from typing import Final

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import FeedPerRev, Length

MEAN_OF_PARABOLA: Final = 18 * math.sqrt(3)  # mean deviation of the parabola f²/8r about its own mean line
GEOMETRY = later("the nose arcs meet only when the feed is not above twice the nose radius")


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
        When the radius is not above zero, or the feed is not within 0 and twice the radius.

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


def _check(feed: FeedPerRev, nose_radius: Length) -> None:
    above_zero(say("nose radius"), nose_radius, "m")
    if not 0 <= feed <= 2 * nose_radius:
        raise OutsideRange(say("feed"), feed, 0.0, 2 * nose_radius, GEOMETRY, "m/rev")
