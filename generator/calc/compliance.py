"""How far every place of held work moves under a force or a moment at every other, and what supports change.

    Compliance                the work on its supports, at chosen places
    Compliance.supported      with one more support, without solving again
    Compliance.at_tool        deflection of the loaded place itself
    Compliance.rested         the same with a further support at many places in turn
    compliance                of a beam

One solution of the beam serves every place of the tool and every place of a steady rest that is tried (the
change of a compliance by one spring: Sherman and Morrison, 1950). A rest that travels is in `tool_walk`.
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

    def supported(self, place: int, stiffness: float) -> Compliance:
        """The same work with a further support of `stiffness` (N/m, inf for a rigid one) at a place."""
        column, slopes = self.push[:, place], self.tilt[place, :]
        share = _shares(self.push[place, place], stiffness)
        return Compliance(
            self.places,
            self.push - share * np.outer(column, column),
            self.tilt - share * np.outer(column, slopes),
            self.turn - share * np.outer(slopes, slopes),
        )

    def at_tool(self, arm: Length = 0.0) -> Array:
        """Deflection (m/N) of each place under 1 N there, and `arm` N m with it: feed force over radial."""
        return np.asarray(np.diag(self.push) + arm * np.diag(self.tilt))

    def rested(self, rests: Sequence[int], stiffness: float) -> Array:
        """Deflection (m/N) of each place under 1 N there, with a support at `rests[i]`, (places, rests).

        What `supported` makes of `at_tool` for each of them in turn, all at once: for choosing a place.
        """
        rest = np.asarray(rests)
        share = _shares(self.push[rest, rest], stiffness)
        return np.asarray(np.diag(self.push)[:, None] - share * self.push[:, rest] ** 2)


def _shares(give: Array, stiffness: float) -> Array:
    """What of a free deflection a support takes back (N/m), the work giving so much there (m/N)."""
    whole = give + (0.0 if math.isinf(stiffness) else 1 / stiffness)
    held = whole <= 0  # rigidly held already, by what stands there: nothing is left to take
    return np.asarray(np.where(held, 0.0, 1 / np.where(held, 1.0, whole)))


def compliance(beam: Beam, places: Sequence[Length]) -> Compliance:
    """Compliance of a beam at places on it: how far it moves at each for a force, ``y = K⁻¹ F``.

    Parameters
    ----------
    beam : the work on its supports
    places : n places, rising, m

    Returns
    -------
    Movement of every place under a unit force at every other, m/N.

    Raises
    ------
    OutsideRange
        When a place is off the beam, or the supports do not hold the work.

    Notes
    -----
    Small movements of an elastic beam, shear included; the range is that of the beam.

    Examples
    --------
    A cantilever of 50 mm steel, 150 mm long, with 500 N at its end (mm):

    >>> from generator.calc.beam import Segment, Support
    >>> bar = Beam((Segment(0.0, 0.150, 0.050),), (Support(0.0, math.inf, math.inf),), 205e9)
    >>> round(float(compliance(bar, [0.05, 0.150]).at_tool()[1]) * 500 * 1e3, 7)
    0.0089437

    Source
    ------
    Beam elements: Cook et al., Concepts and Applications of Finite Element Analysis.
    """
    return Compliance(np.asarray(places, dtype=float), *beam.moved(places, places))
