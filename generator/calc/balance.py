"""Where stepped, tapered, hollow round work balances.

    Round             one length of it
    centroid          of a cone frustum without its bore
    balance_point     of all of it
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.calc.guards import above_zero
from generator.calc.weight import volume
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length


@dataclass(frozen=True)
class Round:
    """A length of round work from `start` to `end` with its outside diameters there and its bore (m)."""

    start: Length
    end: Length
    od_start: Length
    od_end: Length
    bore: Length = 0.0

    @property
    def volume(self) -> float:
        """Volume, m³.

        >>> round(Round(0.0, 1.0, 0.05, 0.05).volume * 1e6, 1)
        1963.5
        """
        return volume(self.end - self.start, self.od_start, self.od_end, self.bore)

    @property
    def moment(self) -> float:
        """First moment of the volume about x = 0, m⁴: the solid's less the bore's.

        >>> round(Round(0.0, 2.0, 1.0, 1.0).moment, 6)      # π ÷ 4 × 2 at 1
        1.570796
        """
        length, middle = self.end - self.start, (self.start + self.end) / 2
        solid = volume(length, self.od_start, self.od_end)
        hole = math.pi / 4 * self.bore**2 * length
        return solid * (self.start + centroid(length, self.od_start, self.od_end)) - hole * middle


def centroid(length: Length, od_start: Length, od_end: Length) -> Length:
    """Balance point of a solid cone frustum from its start.

    x = L ÷ 4 × (D² + 2 D d + 3 d²) ÷ (D² + D d + d²)

    Parameters
    ----------
    length : L, m
    od_start, od_end : D, d, m; equal for a cylinder

    Returns
    -------
    x, m.

    Raises
    ------
    OutsideRange
        When a length or diameter is not above zero.

    Notes
    -----
    Exact; no range given in the source.

    Examples
    --------
    A cylinder balances in the middle; a frustum from radius 2 to 1 at 11 ÷ 28 of its length:

    >>> centroid(1.0, 0.5, 0.5), round(centroid(28.0, 4.0, 2.0), 6)
    (0.5, 11.0)

    Source
    ------
    Geometry; Machinery's Handbook, center of gravity of a frustum of a cone, from memory.
    """
    above_zero(say("length"), length, "m")
    above_zero(say("diameter"), od_start, "m")
    above_zero(say("diameter"), od_end, "m")
    far = od_start**2 + 2 * od_start * od_end + 3 * od_end**2
    return length / 4 * far / (od_start**2 + od_start * od_end + od_end**2)


def balance_point(rounds: Sequence[Round]) -> Length:
    """Where the work balances: ``x = Σ V x ÷ Σ V``.

    Parameters
    ----------
    rounds : its lengths, of one material

    Returns
    -------
    x, m, from where the lengths count.

    Raises
    ------
    OutsideRange
        When there is none, or a bore leaves no wall.

    Notes
    -----
    Exact for round work of one density; keyways, flats and cross holes are not in it.

    Examples
    --------
    1 m of 100 mm and 1 m of 50 mm: 4 to 1 by weight.

    >>> round(balance_point([Round(0, 1, 0.1, 0.1), Round(1, 2, 0.05, 0.05)]), 6)
    0.7

    Source
    ------
    Statics.
    """
    if not rounds:
        raise OutsideRange(say("number of lengths"), 0, 1, None, say("the work needs one"))
    return sum(one.moment for one in rounds) / sum(one.volume for one in rounds)
