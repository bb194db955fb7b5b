"""What each support of the work carries under one cut, with the work's weight, in both planes.

    Borne         one support: forces to the rear and upwards for every place of the tool
    Supported     headstock and steady rest under one cut
    supported     under every cut, by the balance of forces
    most          where a support carries most
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.calc.carried import carried, own_weight
from generator.sheet.holding.cut_line import CutWalk
from generator.sheet.holding.held_work import HeldWork
from generator.si import Force, Torque, g_n

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Borne:
    """One support under one cut: (n,) forces of the work on it, N, to the rear and upwards."""

    cut: CutWalk
    rear: Array
    up: Array

    @property
    def whole(self) -> Array:
        """Both together, (n,) N."""
        return np.hypot(self.rear, self.up)


@dataclass(frozen=True, eq=False)
class Supported:
    """Supports under one cut; `moment` (n,) N m is what bends the work where the headstock holds it."""

    cut: CutWalk
    head: Borne
    moment: Array
    steady: Borne | None


@dataclass(frozen=True)
class Weight:
    """What the supports carry of the weight, in their order (N), and the moment left for the jaws (N m)."""

    carried: tuple[Force, ...]
    moment: Torque


def supported(held: HeldWork, cuts: Sequence[CutWalk]) -> list[Supported]:
    """What the supports carry under each cut, for the tool at each place of it.

    The weight is that of the work at the first cut on the same supports, when it is heaviest.
    """
    weights: dict[tuple[bool, bool], Weight] = {}
    found = []
    for cut in cuts:
        on = cut.load.steady, cut.load.center
        if on not in weights:
            weights[on] = _weight(cut)
        found.append(_supported(held, cut, weights[on]))
    return found


def _weight(cut: CutWalk) -> Weight:
    carried = cut.beam.carried(g_n)
    _, whole = own_weight(cut.beam.segments, cut.beam.density, g_n)
    others = zip(cut.beam.supports[1:], carried[1:], strict=True)
    left = whole - sum(support.at * force for support, force in others)
    return Weight(carried, left if cut.beam.supports[0].angular else 0.0)


def _supported(held: HeldWork, cut: CutWalk, weight: Weight) -> Supported:
    steadied = cut.load.steady and len(cut.beam.supports) > 1 + cut.load.center
    across, moment = _plane(cut, steadied, across=True)
    upwards, lifting = _plane(cut, steadied, across=False)
    steady = None
    if steadied:
        aside, up = (held.steady_stiffness * moved.watched[1] for moved in (cut.away, cut.lift))
        steady = Borne(cut, cut.to_rear * aside, up - weight.carried[1])
    head = Borne(cut, cut.to_rear * across, upwards - weight.carried[0])
    return Supported(cut, head, np.hypot(moment, lifting - weight.moment), steady)


def most(borne: Sequence[Borne]) -> tuple[Borne, int]:
    """The support under the cut that loads it most, and for which place of the tool."""
    worst = max(borne, key=lambda one: float(one.whole.max()))
    return worst, int(worst.whole.argmax())


def _plane(cut: CutWalk, steadied: bool, *, across: bool) -> tuple[Array, Array]:
    """Force and moment at the headstock from the cut alone, in one plane."""
    supports, heaviest = cut.beam.supports, cut.load.heaviest
    moved, force, moment = cut.lift, heaviest.main, 0.0
    if across:
        moved, force, moment = cut.away, heaviest.radial, cut.moment
    others = [(cut.places + (cut.rest_from_tool or 0.0), moved.rest)]
    if steadied:
        others.append((np.full_like(cut.places, supports[1].at), supports[1].stiffness * moved.watched[1]))
    spring = supports[0].angular
    found = carried(
        np.full_like(cut.places, force), cut.places, moment, others=others,
        center_at=supports[-1].at if cut.load.center else None,
        head_moment=spring * moved.slopes[0] if spring and math.isfinite(spring) else 0.0,
    )
    return found.head, found.moment
