"""Bending frequencies of held work, and the push along it under which it buckles.

    PointMass         a mass that sits on the work
    frequencies       lowest bending frequencies
    buckling_push     lowest push that bends the work out by itself
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Protocol

import numpy as np
from scipy.linalg import cholesky, eigh

from generator.calc.beam_elements import Array
from generator.calc.beam_supports import Pushed
from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Force, Frequency, Length, Mass

ELEMENTS: Final = 24  # along the whole beam; 10 a span give f1 to better than 0.01 %
AT_ONCE: Final = 3  # frequencies that are worked out together: more cost next to nothing
KEPT: Final = 512  # results: the steady rest's places that are tried, on a shop's lathes


class Held(Protocol):
    """What can be cut into elements on its supports, and is told from others by its numbers."""

    @property
    def density(self) -> float:
        """kg/m³."""

    def pushed(self, elements: int) -> Pushed:
        """In at least so many short elements."""

    def check_place(self, x: Length, what: str) -> None:
        """Refuse a place off the work."""

    def cannot_stand(self) -> OutsideRange:
        """What to say where it buckles, or is too uneven to be worked out."""

    def __hash__(self) -> int: ...


@dataclass(frozen=True)
class PointMass:
    """A mass (kg) that sits on the work at `at` (m) and moves across with it; it does not resist tilting."""

    at: Length
    mass: Mass


def frequencies(
    beam: Held, count: int = AT_ONCE, masses: Sequence[PointMass] = (), *, elements: int = ELEMENTS
) -> tuple[Frequency, ...]:
    """Lowest bending frequencies of the work on its supports: ``det(K − P K_g − (2 π f)² M) = 0``.

    For a round on supports alike all round they are its critical speeds in rev/s.

    Parameters
    ----------
    beam : the work on its supports, with the push P along it
    count : how many, at least 1
    masses : what sits on the work, kg
    elements : along the whole beam, at least

    Returns
    -------
    Hz, rising.

    Raises
    ------
    OutsideRange
        When the density is not above zero, a mass is negative or off the work, more frequencies are asked for
        than there are elements, the work buckles, or it is too uneven to be worked out.

    Notes
    -----
    Too high by about (k h)⁴ ÷ 1440, h the element's length and k⁴ = (2 π f)² ρ A ÷ E I: under 0.01 % for the
    first and under 0.1 % for the third with 24 elements and up to two spans. Upper bounds for the real
    work: chucks and steady rests are softer. Where the beam has a Poisson's ratio, shear and the tilting of
    the sections count, and what is too high goes with h²: under 0.1 % for two waves on four diameters.

    Examples
    --------
    A cantilever of 50 mm steel, 300 mm long, K² = 3.516 and 22.034:

    >>> from generator.calc.beam import Beam, Segment, Support
    >>> bar = Beam((Segment(0.0, 0.300, 0.050),), (Support(0.0, math.inf, math.inf),), 205e9, 7850.0)
    >>> [round(f, 2) for f in frequencies(bar, 2)]
    [397.17, 2489.06]

    Source
    ------
    Thomson, Theory of Vibration with Applications; consistent mass: Cook et al., Concepts and Applications of
    Finite Element Analysis.
    """
    if not 1 <= count <= elements:
        raise OutsideRange(
            say("number of frequencies"), count, 1, elements, say("as many as there are elements")
        )
    above_zero(say("density"), beam.density, "kg/m³")
    for one in masses:
        at_least_zero(say("mass on the work"), one.mass, "kg")
        beam.check_place(one.at, say("place of a mass on the work"))
    found = _lowest(beam, min(max(count, AT_ONCE), elements), tuple(masses), elements)[:count]
    if math.isinf(found[-1]):  # so many ways to move are not left
        raise beam.cannot_stand()
    return found


def buckling_push(beam: Held, *, elements: int = ELEMENTS) -> Force:
    """Lowest push along the work that bends it out by itself: ``det(K − P K_g) = 0``.

    Parameters
    ----------
    beam : the work on its supports; a push already on it is left out
    elements : along the whole beam, at least

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        When the work is too uneven to be worked out.

    Notes
    -----
    The push goes through the whole length. Straight elastic work; a bar already bent or off center gives
    earlier, and short thick work yields first.

    Examples
    --------
    Euler's column, π² E I ÷ L², of 20 mm steel, 1 m between two centers (kN):

    >>> from generator.calc.beam import Beam, Segment, Support
    >>> bar = Beam((Segment(0.0, 1.0, 0.020),), (Support(0.0), Support(1.0)), 205e9)
    >>> round(buckling_push(bar) / 1e3, 3)
    15.891

    Source
    ------
    Timoshenko and Gere, Theory of Elastic Stability, 2nd ed., chapter 2; geometric stiffness: Cook et al.,
    Concepts and Applications of Finite Element Analysis.
    """
    return _buckling_push(beam, elements)


@lru_cache(maxsize=KEPT)
def _lowest(
    beam: Held, count: int, masses: tuple[PointMass, ...], elements: int
) -> tuple[Frequency, ...]:
    pushed = beam.pushed(elements)
    mass = pushed.fine.mass()
    if masses:
        across, _ = pushed.fine.rows(pushed.fine.reach(np.array([one.at for one in masses])))
        mass += across.T @ (np.array([[one.mass] for one in masses]) * across)
    try:
        largest = _largest(pushed.shaken(cholesky(mass, lower=True)), count)
    except np.linalg.LinAlgError:
        raise beam.cannot_stand() from None
    return tuple(1 / (2 * math.pi * math.sqrt(one)) if one > 0 else math.inf for one in largest)


@lru_cache(maxsize=KEPT)
def _buckling_push(beam: Held, elements: int) -> Force:
    try:
        return 1 / _largest(beam.pushed(elements).give, 1)[0]
    except np.linalg.LinAlgError:
        raise beam.cannot_stand() from None


def _largest(matrix: Array, count: int) -> list[float]:
    """Largest roots, falling: the slowest and softest come first and keep their digits."""
    last = len(matrix) - 1
    found = eigh(matrix, eigvals_only=True, subset_by_index=[last - count + 1, last])
    return [float(value) for value in found[::-1]]
