"""A beam's elements on their supports: how places move under loads, and a push along the work.

    OnSupports            elements with what holds them
    OnSupports.moved      deflections and slopes under unit loads
    OnSupports.reactions  what the supports carry
    Pushed                the same under a push along the work

All comes from the few nodes at ends and supports and is exact. What a push does is taken from short elements:
it bends as much further as forces ∫ P N' N'ᵀ dx at their nodes would, and those are exact again.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from scipy.linalg import eigh

from generator.calc.beam_elements import UNITS, Array, Elements, Inside, Numbers, Unit

LOST: Final = 1e-3  # of an inverse, checked against what it inverts: beyond, nothing is said
NOTHING: Final = 1e-12  # of the largest: a movement of the whole, which no push eases

Moved = tuple[Array, ...]  # deflection under 1 N, under 1 N m, and slope under 1 N m: those asked for


@dataclass(frozen=True, eq=False)
class OnSupports:
    """Elements with `m` supports.

    Parameters
    ----------
    elements : the work, with a node at every support
    node : (m,) node of each support
    across, tilting : (m,) stiffness across, N/m, and against tilting, N m/rad; inf is rigid
    """

    elements: Elements
    node: Numbers
    across: Array
    tilting: Array

    @cached_property
    def own(self) -> Array:
        """Stiffness of the work without its supports."""
        return self.elements.stiffness()

    @cached_property
    def inverse(self) -> Array:
        """How every node moves and turns under a unit load at every other, (dofs, dofs).

        Raises
        ------
        numpy.linalg.LinAlgError
            When the work is not held, or is so uneven that the digits are lost.
        """
        springs = np.zeros(self.elements.dofs)
        np.add.at(springs, 2 * self.node, self.across)
        np.add.at(springs, 2 * self.node + 1, self.tilting)
        free = np.flatnonzero(np.isfinite(springs))
        held = self.own[np.ix_(free, free)] + np.diag(springs[free])
        scale = 1 / np.sqrt(np.diag(held))
        even = held * scale * scale[:, None]
        found = _inverse(even)
        if not np.abs(even @ found - np.eye(len(even))).max(initial=0.0) < LOST:
            raise np.linalg.LinAlgError("digits are lost")
        whole = np.zeros_like(self.own)
        whole[np.ix_(free, free)] = found * scale * scale[:, None]
        return whole

    def moved(self, reading: Inside, load: Inside, units: tuple[Unit, ...] = UNITS) -> Moved:
        """Of every reading under every load, (readings, loads); m/N, 1/N, rad/(N m)."""
        rows, others = self.elements.rows(reading), self.elements.rows(load)
        found = self.elements.inside(reading, load, units)
        for one, unit in zip(found, units, strict=True):
            one += rows[unit == "turn"] @ self.inverse @ others[unit != "push"].T
        return found

    def moved_each(self, reading: Inside, load: Inside, units: tuple[Unit, ...] = UNITS) -> Moved:
        """Of each reading under the load of its own number alone, (readings,)."""
        rows, others = self.elements.rows(reading), self.elements.rows(load)
        found = self.elements.inside(reading, load, units, each=True)
        for one, unit in zip(found, units, strict=True):
            one += _each(rows[unit == "turn"] @ self.inverse, others[unit != "push"])
        return found

    def reactions(self, load: Inside) -> tuple[Array, Array]:
        """Force (N) of each support against 1 N at each load, and against 1 N m there, (supports, loads).

        A spring's from how far it gives; rigid supports take what is left over.
        """
        rows, rigid = 2 * self.node, np.isinf(self.across)
        sharing = np.bincount(rows[rigid], minlength=self.elements.dofs)[rows, None]
        stiffness = np.where(rigid, 0.0, self.across)[:, None]

        def against(loads: Array) -> Array:
            moved = self.inverse @ loads
            left_over = (loads - self.own @ moved)[rows]
            return np.where(rigid[:, None], left_over / np.maximum(sharing, 1), stiffness * moved[rows])

        across, turned = self.elements.rows(load)
        return against(across.T), against(turned.T)


@dataclass(frozen=True, eq=False)
class Pushed:
    """Work on its supports under a push along the whole of it.

    Parameters
    ----------
    held : the work on its supports
    fine : the same work in short elements
    push : N

    Source
    ------
    Geometric stiffness: Cook et al., Concepts and Applications of Finite Element Analysis. The change of an
    inverse: Sherman and Morrison, Adjustment of an Inverse Matrix, 1950, for many changes at once.
    """

    held: OnSupports
    fine: Elements
    push: float

    @cached_property
    def nodes(self) -> Inside:
        """The nodes of the short elements."""
        return self.held.elements.reach(self.fine.nodes)

    @cached_property
    def ways(self) -> Array:
        """Ways of bending that a push eases, (dofs of `fine`, k): times themselves they are ∫ N' N'ᵀ dx."""
        eased = self.fine.under_push()
        scale = np.sqrt(np.diag(eased))
        values, vectors = eigh(eased / scale / scale[:, None])
        kept = values > NOTHING * values[-1]
        return np.asarray(scale[:, None] * vectors[:, kept] * np.sqrt(values[kept]))

    @cached_property
    def give(self) -> Array:
        """How far the ways bend each other for a push of 1 N, (k, k), 1/N; the largest root buckles first."""
        return _work(self.ways, *self._bent(self.nodes, self.ways))

    @cached_property
    def further(self) -> Array:
        """How much further the push bends the ways, (k, k), N.

        Raises
        ------
        numpy.linalg.LinAlgError
            When the work buckles under it.
        """
        left = np.eye(len(self.give)) - self.push * self.give
        return self.push * _inverse(left)

    def moved(self, reading: Inside, load: Inside, units: tuple[Unit, ...] = UNITS) -> Moved:
        """As of `OnSupports`."""
        rows, others = self._bent(reading, self.ways), self._bent(load, self.ways)
        found = self.held.moved(reading, load, units)
        for one, unit in zip(found, units, strict=True):
            one += rows[unit == "turn"] @ self.further @ others[unit != "push"].T
        return found

    def moved_each(self, reading: Inside, load: Inside, units: tuple[Unit, ...] = UNITS) -> Moved:
        """As of `OnSupports`."""
        rows, others = self._bent(reading, self.ways), self._bent(load, self.ways)
        found = self.held.moved_each(reading, load, units)
        for one, unit in zip(found, units, strict=True):
            one += _each(rows[unit == "turn"] @ self.further, others[unit != "push"])
        return found

    def reactions(self, load: Inside) -> tuple[Array, Array]:
        """As of `OnSupports`: across where the work lies when it is straight."""
        by_ways = np.add(*(one @ self.ways[n::2] for n, one in enumerate(self.held.reactions(self.nodes))))
        under = zip(self.held.reactions(load), self._bent(load, self.ways), strict=True)
        across, turned = (first + by_ways @ self.further @ bent.T for first, bent in under)
        return across, turned

    def shaken(self, root: Array) -> Array:
        """Rᵀ C R, (dofs of `fine`, k), s²: its roots are 1 / ω².

        C says how the nodes move under unit loads; R, such that R Rᵀ is their mass, is `root`.
        """
        still = _work(root, *self._bent(self.nodes, root))
        if not self.push:
            return still
        between = _work(root, *self._bent(self.nodes, self.ways))
        return np.asarray(still + between @ self.further @ between.T)

    def _bent(self, at: Inside, loads: Array) -> tuple[Array, Array]:
        """Deflection and slope of places under columns of loads at the nodes, without the push."""
        push, tilt, turn = self.held.moved(at, self.nodes)
        lean = tilt.T if at is self.nodes else self.held.moved(self.nodes, at, ("tilt",))[0].T
        return push @ loads[::2] + tilt @ loads[1::2], lean @ loads[::2] + turn @ loads[1::2]


def _inverse(matrix: Array) -> Array:
    """Inverse of a symmetric matrix; `numpy.linalg.LinAlgError` where a movement of it costs no work."""
    root = np.linalg.inv(np.linalg.cholesky(matrix))
    return np.asarray(root.T @ root)


def _work(loads: Array, across: Array, turned: Array) -> Array:
    """Loads at the nodes times how these move."""
    return np.asarray(loads[::2].T @ across + loads[1::2].T @ turned)


def _each(rows: Array, others: Array) -> Array:
    """Each row times the other of its number."""
    return np.asarray(np.einsum("ij,ij->i", rows, others))
