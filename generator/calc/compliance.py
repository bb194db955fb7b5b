"""How far every place of held work moves under a force or a moment at every other, and what supports change.

    Compliance                the work on its supports, at chosen places
    Compliance.supported      with one more support, without solving again
    Compliance.at_tool        deflection of the loaded place itself
    Compliance.followed       the same with a rest that travels with the tool
    compliance                of a beam

One solution of the beam serves every place of the tool, every place of a steady rest that is tried, and a
follow rest at every place of the tool (the change of a compliance by one spring: Sherman and Morrison, 1950).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.calc.beam import Beam
from generator.si import Length

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Compliance:
    """Deflections and slopes of `n` places under unit loads at each of them.

    Parameters
    ----------
    places : (n,) rising, m
    push : (n, n) m/N, deflection at place i under 1 N at place j; symmetric
    tilt : (n, n) 1/N, deflection at place i under 1 N m at place j; its transpose is the slope at j under
        1 N at i (Maxwell)
    turn : (n, n) rad/(N m), slope at place i under 1 N m at place j; symmetric
    """

    places: Array
    push: Array
    tilt: Array
    turn: Array

    def index(self, x: Length) -> int:
        """Which place is nearest to x (m)."""
        return int(np.argmin(np.abs(self.places - x)))

    def supported(self, place: int, stiffness: float) -> Compliance:
        """The same work with a further support of `stiffness` (N/m, inf for a rigid one) at a place."""
        gives = 0.0 if math.isinf(stiffness) else 1 / stiffness
        column, slopes = self.push[:, place], self.tilt[place, :]
        share = 1 / (gives + self.push[place, place])
        return Compliance(
            self.places,
            self.push - share * np.outer(column, column),
            self.tilt - share * np.outer(column, slopes),
            self.turn - share * np.outer(slopes, slopes),
        )

    def at_tool(self, arm: Length = 0.0) -> Array:
        """Deflection (m/N) of each place under 1 N there, and `arm` N m with it: feed force over radial."""
        return np.asarray(np.diag(self.push) + arm * np.diag(self.tilt))

    def followed(self, rests: Sequence[int], stiffness: float) -> Array:
        """Deflection (m/N) of each place under 1 N there, while a rest of `stiffness` bears at `rests[i]`."""
        gives = 0.0 if math.isinf(stiffness) else 1 / stiffness
        tool, rest = np.arange(len(self.places)), np.asarray(rests)
        between, at_rest = self.push[tool, rest], self.push[rest, rest]
        return np.asarray(np.diag(self.push) - between**2 / (gives + at_rest))


def compliance(beam: Beam, places: Sequence[Length]) -> Compliance:
    """Compliance of a beam at places on it.

    Parameters
    ----------
    beam : the work on its supports
    places : n places, rising, m

    Raises
    ------
    OutsideRange
        When a place is off the beam, or the supports do not hold the work.

    Notes
    -----
    As the beam: Euler-Bernoulli.

    Examples
    --------
    A cantilever of 50 mm steel, 150 mm long, with 500 N at its end (mm):

    >>> from generator.calc.beam import Segment, Support
    >>> bar = Beam((Segment(0.0, 0.150, 0.050),), (Support(0.0, math.inf, math.inf),), 205e9)
    >>> round(500 * compliance(bar, [0.05, 0.150]).at_tool()[1] * 1e3, 7)
    0.0089437

    Source
    ------
    Beam elements: Cook et al., Concepts and Applications of Finite Element Analysis.
    """
    stations = beam._places(*places)
    rows = np.array([2 * min(range(len(stations)), key=lambda k: abs(stations[k] - x)) for x in places])
    loads = np.zeros((2 * len(stations), 2 * len(rows)))
    loads[rows, np.arange(len(rows))] = 1.0
    loads[rows + 1, len(rows) + np.arange(len(rows))] = 1.0
    moved = beam._solve(stations, loads)
    count = len(rows)
    return Compliance(
        np.asarray(places, dtype=float), moved[rows][:, :count], moved[rows][:, count:],
        moved[rows + 1][:, count:],
    )
