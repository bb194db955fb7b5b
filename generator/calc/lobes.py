"""The lobes of a tube: pressure over arcs instead of points, and how far along the tube it is felt.

    arc_share       what arcs leave of the out-of-round that points would make
    moment_share    what they leave of the bending moment under a jaw
    Ring, Tube      a tube, ring behind ring, with both ends free
    Grip            jaws or fingers on it: how many, how wide, from where to where
    out_of_round    largest less smallest radius at places along the tube
    reach           how far from the jaws the lobes have fallen to a third

The pressure is taken apart into waves round the tube. For each of them the tube is a beam along the axis: the
wall resists lobes as a ring does (an elastic foundation), neighboring rings resist by twisting against each
other, and lobes that change along the axis pull and push the wall lengthwise. So a jaw at one end of a short
sleeve makes lobes at its other end, too.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray

from generator.calc.curved_beam import POISSON, lobe_compliance
from generator.calc.guards import above_zero
from generator.calc.ring import half_spacing
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Force, Length, Pressure

Floats = NDArray[np.float64]
WAVES: Final = 8  # odd multiples of the number of jaws
TERMS: Final = 24  # Legendre polynomials along the tube
FAR: Final = 8.0  # reaches past the jaws after which nothing is felt
PLACES_KEPT: Final = 64  # lists of places: the cuts on a job's tube, for every kind of jaw

_ROOTS, _SHARES = legendre.leggauss(TERMS + 1)
_INTEGRATED: Final = legendre.legint(np.eye(TERMS))  # terms of each polynomial's integral


def _differentiated() -> Floats:
    """Legendre terms of the second and first derivative of each polynomial, and of itself."""
    one, found = np.eye(TERMS), np.zeros((3, TERMS, TERMS))
    for place, order in enumerate((2, 1, 0)):
        found[place, : TERMS - order] = legendre.legder(one, order)
    return found


_DIFFERENTIATED: Final = _differentiated()


@dataclass(frozen=True)
class Ring:
    """A length of tube of one wall, from `start` to `end` along it; mean radius and wall (m)."""

    start: Length
    end: Length
    radius: Length
    wall: Length


@dataclass(frozen=True)
class Tube:
    """A tube with free ends, ring behind ring from 0 on; E (Pa) and ν."""

    rings: tuple[Ring, ...]
    modulus: Pressure
    poisson: float = POISSON

    @property
    def length(self) -> Length:
        """Its length (m)."""
        return self.rings[-1].end


def plain_tube(
    radius: Length, wall: Length, length: Length, modulus: Pressure, poisson: float = POISSON
) -> Tube:
    """A tube of one wall.

    >>> plain_tube(0.045, 0.003, 0.1, 70e9).length
    0.1
    """
    return Tube((Ring(0.0, length, radius, wall),), modulus, poisson)


@dataclass(frozen=True)
class Grip:
    """Equal loads all round, pressing inwards from `start` to `end` along the tube (m).

    `half_arc` is half the angle that one jaw bears on (rad): 0 is a line, π ÷ n is all round.
    """

    n: int
    start: Length
    end: Length
    half_arc: Angle = 0.0


def arc_share(n: int, half_arc: Angle) -> float:
    """What even pressure over arcs leaves of the out-of-round of a thin ring under points.

    ``Σ s k ÷ (k² n² − 1)² ÷ Σ 1 ÷ (k² n² − 1)²``, ``s k = sin(k n γ) ÷ (k n γ)``, k = 1, 3, 5, …

    Parameters
    ----------
    n : jaws, equal and equally spaced
    half_arc : γ, half the angle that one jaw bears on, rad; at most π ÷ n

    Returns
    -------
    1 for points, 0 all round.

    Raises
    ------
    OutsideRange
        With fewer than two jaws, or arcs that overlap.

    Notes
    -----
    The pressure is taken as even over the arc: jaws bored to the very diameter of the work. A jaw bored
    larger bears in its middle, one bored smaller on its edges.

    Examples
    --------
    Three jaws of 60 degrees each, then all round:

    >>> round(arc_share(3, math.pi / 6), 3), round(arc_share(3, math.pi / 3), 6)
    (0.627, 0.0)

    Source
    ------
    Fourier series of the pressure on the thin ring of Timoshenko, Strength of Materials II; derived here.
    """
    _check_arc(n, half_arc)
    waves = [k * n for k in range(1, 2 * WAVES, 2)]
    weights = [1 / (m**2 - 1) ** 2 for m in waves]
    return sum(_sinc(m * half_arc) * weight for m, weight in zip(waves, weights, strict=True)) / sum(weights)


def moment_share(n: int, half_arc: Angle) -> float:
    """What even pressure over arcs leaves of the largest bending moment that points make in a thin ring.

    Under a jaw ``[1 ÷ α − (sin α − sin(α − γ)) ÷ (γ sin α)] ÷ (1 ÷ α − cot α)``, ``α = π ÷ n``; midway the
    same of the gap, ``α − γ`` instead of γ, times ``(α − γ) ÷ γ``. The larger of the two.

    Parameters
    ----------
    n : jaws, equal and equally spaced
    half_arc : γ, half the angle that one jaw bears on, rad; at most π ÷ n

    Returns
    -------
    1 for points, 0 all round.

    Raises
    ------
    OutsideRange
        With fewer than two jaws, or arcs that overlap.

    Notes
    -----
    Even pressure less that of the gap is the pressure of the jaws, so the gap counts as a jaw from outside.

    Examples
    --------
    Three jaws of 60 degrees each:

    >>> round(moment_share(3, math.pi / 6), 3)
    0.391

    Source
    ------
    The moment of `ring_forces.moment_at_load` summed over the arc; derived here.
    """
    _check_arc(n, half_arc)
    gap = max(half_spacing(n) - half_arc, 0.0)
    if not half_arc:
        return 1.0
    return max(_mean_moment(n, half_arc), gap / half_arc * _mean_moment(n, gap))


def _mean_moment(n: int, half_arc: Angle) -> float:
    """Moment under the middle of an arc over that under a point."""
    a = half_spacing(n)
    if not half_arc:
        return 0.0  # of a gap that is none
    over_arc = (math.sin(a) - math.sin(a - half_arc)) / (half_arc * math.sin(a))
    return (1 / a - over_arc) / (1 / a - 1 / math.tan(a))


def out_of_round(tube: Tube, grip: Grip, force: Force, places: Sequence[Length]) -> Floats:
    """Largest less smallest radius of a tube under jaws or fingers, at places along it.

    Of each wave m = n, 3 n, 5 n, … the radial movement w(x) makes
    ``½ ∫ π R [C w″² + T w′² + K w²] dx − ∫ n W ÷ b × sin(m γ) ÷ (m γ) w dx`` least, with
    ``K = 1 ÷ c`` of `curved_beam.lobe_compliance`, ``T = (G t³ ÷ 3) ((m² − 1) ÷ (m R))²``,
    ``C = E t R² ÷ m⁴``, and b the gripped length.

    Parameters
    ----------
    tube, grip : the tube, and what presses on it
    force : W, of one jaw, N
    places : x along the tube, m

    Returns
    -------
    At each place the radius midway between two jaws less that under a jaw, m.

    Raises
    ------
    OutsideRange
        When a size is not above zero, a wall thicker than its mean radius, the grip off the tube, or the arcs
        overlap.

    Notes
    -----
    Pressure is even over arc and length. The mean of the radius, which an even squeeze makes smaller, is in
    `ring_forces.diameter_change`. For tubes that are wide against their wall the stiffness of a plate,
    E t³ ÷ (12 (1 − ν²)), would be right: the result is up to a tenth too large. Compared with shell
    elements it is within 6 % at the jaws and up to a fifth too large further along. The series ends at 15 n
    waves, up to 1 % low in a thick wall under points. The wall may get thinner away from the jaws, not
    thicker: beside twice the wall the result is a fifth too small, beside a flange still more. Put a thicker
    length in with the wall under the jaws, which is on the safe side.

    Examples
    --------
    A ring gripped over all its length comes back to 0.030195 W R³ ÷ (E I), but for its hoop force and shear:

    >>> tube = plain_tube(0.040, 0.001, 0.025, 205e9)
    >>> plain = 0.030195 * 0.040**3 * 12 / (205e9 * 0.025 * 0.001**3)
    >>> float(out_of_round(tube, Grip(3, 0.0, 0.025), 1.0, [0.010])[0]) / plain
    1.002

    Source
    ------
    Inextensional bending of shells, Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells; Love, A
    Treatise on the Mathematical Theory of Elasticity; beam on elastic foundation, Hetényi, 1946.
    """
    _check_arc(grip.n, grip.half_arc)
    length, moved = _solved(tube, grip.n, grip.start, grip.end)
    arcs = np.array([_sinc(m * grip.half_arc) for m in _waves(grip.n)])
    lobes: Floats = 2 * force * (arcs @ moved) @ _along(length, tuple(places)).T
    return lobes


def reach(tube: Tube, place: Length, n: int) -> Length:
    """Length along a long tube over which n lobes fall to about a third: ``(4 C ÷ K)^¼``.

    Parameters
    ----------
    tube : the tube
    place : where along it (m); the ring there counts
    n : lobes

    Returns
    -------
    m; ``R √(R ÷ t)`` times 2.6 ÷ (n √(n² − 1)) in a thin wall.

    Raises
    ------
    OutsideRange
        With fewer than two lobes, or a wall above the mean radius.

    Notes
    -----
    C and K as in `out_of_round`. Much longer than the √(R t) over which an even squeeze dies away.

    Examples
    --------
    Three lobes on a tube of mean radius 45, wall 1.5:

    >>> round(1e3 * reach(plain_tube(0.045, 0.0015, 1.0, 70e9), 0.0, 3))
    77

    Source
    ------
    Beam on elastic foundation, Hetényi, 1946.
    """
    here = next((ring for ring in tube.rings if place <= ring.end), tube.rings[-1])
    lengthwise, _, foundation = _stiffnesses(tube, here, n)
    return float((4 * lengthwise / foundation) ** 0.25)


def _waves(n: int) -> list[int]:
    return [k * n for k in range(1, 2 * WAVES, 2)]


@lru_cache(maxsize=PLACES_KEPT)
def _along(length: Length, places: tuple[Length, ...]) -> Floats:
    """Legendre polynomials at places along the tube: the same are asked about for every kind of jaw."""
    inside = np.minimum(np.array(places, dtype=float), length)
    return legendre.legvander(2 * inside / length - 1, TERMS - 1)


@lru_cache(maxsize=64)
def _solved(tube: Tube, n: int, start: Length, end: Length) -> tuple[Length, Floats]:
    """Length that is looked at, and there the Legendre terms of each wave for 1 N of each of n points."""
    _check_grip(tube, n, start, end)
    length = min(tube.length, end + FAR * reach(tube, end, n))
    rings = [ring for ring in tube.rings if ring.start < length]
    points, weights, stiffnesses = [], [], []
    for ring in rings:
        half = (min(ring.end, length) - ring.start) / 2
        points.append(ring.start + half * (1 + _ROOTS))
        weights.append(half * math.pi * ring.radius * _SHARES)
        each = np.array([_stiffnesses(tube, ring, m) for m in _waves(n)])
        stiffnesses.append(np.repeat(each[:, :, None], _ROOTS.size, axis=2))
    values = _derivatives(2 * np.concatenate(points) / length - 1, length)
    weighted = np.concatenate(stiffnesses, axis=2) * np.concatenate(weights)
    matrix = sum(
        (values[order] * weighted[:, order, None, :]) @ values[order].T for order in range(3)
    )
    load = n / (end - start) * _pressed(length, start, end)
    loads = np.broadcast_to(load[:, None], (WAVES, TERMS, 1))
    return length, np.linalg.solve(matrix, loads)[..., 0]


def _stiffnesses(tube: Tube, ring: Ring, waves: int) -> tuple[float, float, float]:
    """C, T, K of `out_of_round`."""
    square = waves**2
    shear_modulus = tube.modulus / (2 * (1 + tube.poisson))
    twist = shear_modulus * ring.wall**3 / 3 * ((square - 1) / (waves * ring.radius)) ** 2
    foundation = 1 / lobe_compliance(waves, ring.radius, ring.wall, tube.modulus, tube.poisson)
    return tube.modulus * ring.wall * ring.radius**2 / square**2, twist, foundation


def _derivatives(x: Floats, length: Length) -> Floats:
    """Second and first derivative and value of the Legendre polynomials along a tube, at x from −1 to 1."""
    terms = legendre.legvander(x, TERMS - 1)
    scales = np.array([(2 / length) ** order for order in (2, 1, 0)])
    found: Floats = (terms @ _DIFFERENTIATED * scales[:, None, None]).swapaxes(1, 2)
    return found


def _pressed(length: Length, start: Length, end: Length) -> Floats:
    """∫ P from start to end along the tube."""
    first, last = legendre.legvander(np.array([2 * start / length - 1, 2 * end / length - 1]), TERMS)
    pressed: Floats = (last - first) @ _INTEGRATED * length / 2
    return pressed


def _check_grip(tube: Tube, n: int, start: Length, end: Length) -> None:
    half_spacing(n)
    above_zero(say("length"), tube.length, "m")
    above_zero(say("gripped length"), end - start, "m")
    if start < 0 or end > tube.length * (1 + 1e-9):
        raise OutsideRange(
            say("end of the grip"), end, 0.0, tube.length, say("it has to lie on the tube"), "m"
        )


def _check_arc(n: int, half_arc: Angle) -> None:
    widest = half_spacing(n)
    if not 0 <= half_arc <= widest * (1 + 1e-9):
        raise OutsideRange(
            say("half the arc of a jaw"), half_arc, 0.0, widest, say("jaws cannot overlap"), "rad"
        )


def _sinc(angle: Angle) -> float:
    return math.sin(angle) / angle if angle else 1.0
