"""Beam elements that hold any number of steps and tapers, and places inside them.

    Pieces              the work's sections one after the other, straight or tapered
    Elements            the stretches between nodes, as stiff as their flexibility makes them
    Elements.reach      places in the elements, by the rows that turn moved nodes into moved places
    Inside              such places
    Elements.inside     how they move under a load in the same element, its nodes held

An element's flexibility is the integral of 1 / E I (and of 1 / κ G A where shear counts) along it, taken
about its elastic center, where turning and shifting do not mix. Steps and tapers only add to the integral, so
that a groove a hair wide costs no digits and nodes are needed at supports alone; statics is exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from generator.calc.slenderness import cowper

Array = NDArray[np.float64]
Numbers = NDArray[np.intp]
Rows = tuple[Array, ...]
Unit: TypeAlias = Literal["push", "tilt", "turn"]  # deflection under 1 N, under 1 N m, slope under 1 N m
UNITS: Final[tuple[Unit, ...]] = ("push", "tilt", "turn")

POINTS: Final = 4  # of Gauss on each piece: the squares of cubics exactly, a tenth off the wall to 1e-11
JOINED: Final = 1e-9  # m: two places nearer than this are one

NOWHERE: Final[Array] = np.zeros(0)

_ROOTS, _SHARES = np.polynomial.legendre.leggauss(POINTS)
_AT, _WEIGHTS = (1 + _ROOTS) / 2, _SHARES / 2


@dataclass(frozen=True, eq=False)
class Pieces:
    """`n` pieces of the work in order.

    Parameters
    ----------
    edges : (n + 1,) rising, m
    od, bore : (n,) outside diameter where the piece begins, bore, m
    rise : (n,) growth of the outside diameter over length
    modulus, density : E, Pa; kg/m³
    poisson : Poisson's ratio where shear counts, else None
    """

    edges: Array
    od: Array
    bore: Array
    rise: Array
    modulus: float
    density: float
    poisson: float | None

    def section(self, piece: Numbers, x: Array) -> tuple[Array, Array, Array]:
        """Area (m²), second moment of area (m⁴) and the square of bore over diameter, at places x (m)."""
        od, bore = self.od[piece] + self.rise[piece] * (x - self.edges[piece]), self.bore[piece]
        area = np.pi / 4 * (od - bore) * (od + bore)
        return area, area * (od**2 + bore**2) / 16, (bore / od) ** 2

    def gives(self, piece: Numbers, x: Array) -> tuple[Array, Array]:
        """1 / E I, 1/(N m²), and 1 / κ G A, 1/N, at places x (m); the second is 0 where shear is left out."""
        area, moment, hollow = self.section(piece, x)
        if self.poisson is None:
            return 1 / (self.modulus * moment), np.zeros_like(area)
        shear_modulus = self.modulus / (2 * (1 + self.poisson))
        return 1 / (self.modulus * moment), 1 / (cowper(hollow, self.poisson) * shear_modulus * area)


@dataclass(frozen=True, eq=False)
class Inside:
    """`n` places in the elements.

    Parameters
    ----------
    element : (n,) in which it stands; one past the last at the end of the work
    along : (n,) from where that element begins, m
    turn, lift, drop : (n,) ∫ f dt, ∫ f (x − t) dt and ∫ [s − f t (x − t)] dt from there to the place x, with
        f = 1 / E I and s = 1 / κ G A
    shift, off_turn : (n,) ∫ [f (x − t)(c − t) + s] dt and ∫ f (c − t) dt, c the elastic center
    across, turned : (n, 4) rows: times deflection (m) and slope of the element's two ends they give the
        deflection (m) and the slope of the place
    at_nodes : True where all of them are nodes, which move with the elements' ends and no further
    """

    element: Numbers
    along: Array
    turn: Array
    lift: Array
    drop: Array
    shift: Array
    off_turn: Array
    across: Array
    turned: Array
    at_nodes: bool = False


@dataclass(frozen=True, eq=False)
class Elements:
    """Elements between `n + 1` nodes.

    Parameters
    ----------
    pieces : what they are made of
    nodes : (n + 1,) rising, m, from end to end of the pieces
    turning : (n,) turn of one end against the other under a moment, rad/(N m)
    center : (n,) elastic center from where the element begins, m
    shifting : (n,) shift of one end against the other under a force at the elastic center, m/N
    """

    pieces: Pieces
    nodes: Array
    turning: Array
    center: Array
    shifting: Array

    @classmethod
    def between(cls, nodes: Array, pieces: Pieces) -> Elements:
        """The elements of the pieces between nodes."""
        cuts = np.union1d(pieces.edges, nodes)
        turns, moments, squares = _integrals(pieces, nodes, cuts)
        first = np.searchsorted(cuts, nodes[:-1])
        turning, moment, square = (np.add.reduceat(one, first) for one in (turns, moments, squares))
        return cls(pieces, nodes, turning, moment / turning, square - moment**2 / turning)

    @property
    def dofs(self) -> int:
        """Number of deflections and slopes of the nodes, which alternate."""
        return 2 * len(self.nodes)

    @cached_property
    def lengths(self) -> Array:
        """Length of each element, m."""
        return np.diff(self.nodes)

    @cached_property
    def _ways(self) -> tuple[Array, Array]:
        """(n, 4) each: how the ends' movements turn and shift the element."""
        one = np.ones_like(self.center)
        turn = np.stack([0 * one, -one, 0 * one, one], axis=1)
        return turn, np.stack([-one, -self.center, one, self.center - self.lengths], axis=1)

    def stiffness(self) -> Array:
        """Stiffness of the free work, (dofs, dofs), N/m, N and N m.

        Source
        ------
        Cook et al., Concepts and Applications of Finite Element Analysis; about the elastic center: Cross,
        The Column Analogy, 1930, from memory.
        """
        turn, shift = self._ways
        each = (
            turn[:, :, None] * turn[:, None, :] / self.turning[:, None, None]
            + shift[:, :, None] * shift[:, None, :] / self.shifting[:, None, None]
        )
        return self._assembled(np.arange(len(self.turning)), each)

    def mass(self) -> Array:
        """Mass matrix ∫ ρ A Nᵀ N dx, (dofs, dofs), kg, kg m, kg m²; with ∫ ρ I Θᵀ Θ dx where shear counts."""
        places, weights, piece, x = self.along()
        area, moment, _ = self.pieces.section(piece, x)
        each = _squares(places.across, weights * self.pieces.density * area)
        if self.pieces.poisson is not None:
            each += _squares(places.turned, weights * self.pieces.density * moment)
        return self._assembled(places.element, each)

    def under_push(self) -> Array:
        """What a push of 1 N along the work takes off its stiffness: ∫ N'ᵀ N' dx, (dofs, dofs), 1/m, 1, m."""
        places, weights, piece, x = self.along()
        slopes = places.turned
        if self.pieces.poisson is not None:
            _, shear = self.pieces.gives(piece, x)
            _, shift = self._ways
            slopes = slopes + (shear / self.shifting[places.element])[:, None] * shift[places.element]
        return self._assembled(places.element, _squares(slopes, weights))

    def along(self, cuts: Array = NOWHERE) -> tuple[Inside, Array, Numbers, Array]:
        """Gauss points of every piece, cut at nodes and at `cuts`: places, weights (m), pieces, x (m)."""
        edges = np.unique(np.concatenate([self.pieces.edges, self.nodes, cuts]))
        x, weights, piece = _points(self.pieces, edges)
        x, weights = x.ravel(), weights.ravel()
        return self.reach(x), weights, np.repeat(piece, POINTS), x

    def reach(self, x: Array) -> Inside:
        """Places x (m) on the work; one within a nanometre of a node is the node."""
        nodes = self.nodes
        nearest = np.searchsorted((nodes[1:] + nodes[:-1]) / 2, x)
        near = nodes[nearest]
        joined = np.abs(x - near) <= JOINED
        if joined.all():
            return self._at_nodes(nearest)
        x = np.where(joined, near, x)
        cuts = np.unique(np.concatenate([self.pieces.edges, nodes, x]))
        sums = np.zeros((3, len(cuts)))
        np.cumsum(_integrals(self.pieces, nodes, cuts), axis=1, out=sums[:, 1:])
        element = np.searchsorted(nodes, x, side="right") - 1
        here = np.minimum(element, len(nodes) - 2)
        turn, moment, square = sums[:, np.searchsorted(cuts, x)] - sums[:, np.searchsorted(cuts, nodes[here])]
        along, center = x - nodes[here], self.center[here]
        lift, drop = along * turn - moment, square - along * moment
        shift, off_turn = center * lift + drop, center * turn - moment
        ways = [way[here] for way in self._ways]
        gives = self.turning[here], self.shifting[here]
        across = lift / gives[0] * ways[0].T + shift / gives[1] * ways[1].T
        turned = turn / gives[0] * ways[0].T + off_turn / gives[1] * ways[1].T
        across[0] += 1
        across[1] += along
        turned[1] += 1
        across[:, element > here] = [[0.0], [0.0], [1.0], [0.0]]
        turned[:, element > here] = [[0.0], [0.0], [0.0], [1.0]]
        return Inside(element, along, turn, lift, drop, shift, off_turn, across.T, turned.T)

    def _at_nodes(self, node: Numbers) -> Inside:
        none, ends, last = np.zeros(len(node)), np.eye(4), node == len(self.turning)
        ways = ends[2 * last], ends[2 * last + 1]
        return Inside(node, none, none, none, none, none, none, *ways, at_nodes=True)

    def rows(self, places: Inside) -> tuple[Array, Array]:
        """`across` and `turned` of places in the columns of their elements' ends, (n, dofs)."""
        rows = np.zeros((2, len(places.element), self.dofs))
        number, columns = np.arange(len(places.element))[:, None], self._columns(places.element)
        rows[0, number, columns], rows[1, number, columns] = places.across, places.turned
        return rows[0], rows[1]

    def _assembled(self, element: Numbers, each: Array) -> Array:
        columns = self._columns(element)
        entries = columns[:, :, None] * self.dofs + columns[:, None, :]
        sums = np.bincount(entries.ravel(), each.ravel(), self.dofs**2)
        return np.asarray(sums.reshape(self.dofs, self.dofs))

    def _columns(self, element: Numbers) -> Numbers:
        return 2 * np.minimum(element, len(self.turning) - 1)[:, None] + np.arange(4)

    def inside(
        self, reading: Inside, load: Inside, units: tuple[Unit, ...] = UNITS, *, each: bool = False
    ) -> tuple[Array, ...]:
        """Deflection under 1 N, deflection under 1 N m and slope under 1 N m, with all nodes held.

        m/N, 1/N, rad/(N m), (readings, loads), or with `each` of every reading under the load of its own
        number; nothing but where both stand in the same element.
        """
        if reading.at_nodes or load.at_nodes:
            pairs = (len(reading.along),) if each else (len(reading.along), len(load.along))
            return tuple(np.zeros(pairs) for _ in units)
        here = np.minimum(load.element, len(self.turning) - 1)
        inner = np.where(load.element == here, load.element, -1)
        if each:
            same, beyond = reading.element == inner, reading.along > load.along
        else:
            same = reading.element[:, None] == inner
            beyond = reading.along[:, None] > load.along

        def joined(up_to: tuple[Rows, Rows], past: tuple[Rows, Rows]) -> Array:
            """Readings up to the load, and those past it; few large arrays at a time, for they cost most."""
            total = _in_pairs if each else _crossed
            found = total(*up_to)
            np.copyto(found, total(*past), where=beyond)
            found *= same
            return found

        one, out = np.ones(len(here)), reading.along
        ones = np.ones(len(out))
        lift_back, turn_back = load.lift / self.turning[here], load.turn / self.turning[here]
        shift_back, off_back = -load.shift / self.shifting[here], -load.off_turn / self.shifting[here]
        shift, off_turn, lift, turn = reading.shift, reading.off_turn, reading.lift, reading.turn
        start = load.lift - load.along * load.turn
        ways: dict[Unit, tuple[tuple[Rows, Rows], tuple[Rows, Rows]]] = {
            "push": (
                ((lift, reading.drop, shift), (load.along - lift_back, one, shift_back)),
                ((out, ones, -lift, shift), (load.lift, load.drop, lift_back, shift_back)),
            ),
            "tilt": (
                ((lift, shift), (1 - turn_back, off_back)),
                ((out, ones, -lift, shift), (load.turn, start, turn_back, off_back)),
            ),
            "turn": (
                ((turn, off_turn), (1 - turn_back, off_back)),
                ((ones, -turn, off_turn), (load.turn, turn_back, off_back)),
            ),
        }
        return tuple(joined(*ways[unit]) for unit in units)


def _crossed(readings: Rows, loads: Rows) -> Array:
    """Products of readings and loads, summed, (readings, loads)."""
    return np.asarray(np.array(readings).T @ np.array(loads))


def _in_pairs(readings: Rows, loads: Rows) -> Array:
    """The same of each reading with the load of its own number, (readings,)."""
    return np.asarray(sum(one * other for one, other in zip(readings, loads, strict=True)))


def _squares(rows: Array, weights: Array) -> Array:
    """Each row times itself, (n, 4, 4)."""
    return np.asarray(weights[:, None, None] * rows[:, :, None] * rows[:, None, :])


def _points(pieces: Pieces, cuts: Array) -> tuple[Array, Array, Numbers]:
    """Gauss points between cuts, (n, POINTS) places and weights (m), and the piece between each two cuts."""
    start, width = cuts[:-1, None], np.diff(cuts)[:, None]
    piece = np.searchsorted(pieces.edges, (start + width / 2).ravel(), side="right") - 1
    piece = np.minimum(piece, len(pieces.od) - 1)  # a cut at the work's end may lie a rounding past it
    return start + width * _AT, width * _WEIGHTS, piece


def _integrals(pieces: Pieces, nodes: Array, cuts: Array) -> tuple[Array, Array, Array]:
    """∫ f dt, ∫ f t dt and ∫ (f t² + s) dt between cuts, t from where the element begins."""
    x, weights, piece = _points(pieces, cuts)
    bending, shear = pieces.gives(piece[:, None], x)
    element = np.searchsorted(nodes, x[:, 0], side="right") - 1
    t = x - nodes[element][:, None]
    give = weights * bending
    return give.sum(1), (give * t).sum(1), (give * t * t + weights * shear).sum(1)
