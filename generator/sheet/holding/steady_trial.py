"""What every place of the steady rest would give: the curve that its place is chosen from.

    Tried         the places looked at, and the largest deflection under the tool with the steady rest there
    try_places    from one solution of the beam
    best_place    the least diameter error where the least speaks against it
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from generator.calc.compliance import compliance
from generator.calc.rest_places import gives_with_rest
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.loads import THRUST_SHARE
from generator.sheet.holding.steady_places import (
    Stretch,
    barred,
    drawback_at,
    drawbacks,
    places_to_try,
    rule_places,
    tool_places,
)
from generator.sheet.operation_task import Bench
from generator.si import Force, Length

REFERENCE = 100.0  # N across the work, where no force is known yet


@dataclass(frozen=True)
class Tried:
    """Every place of the steady rest that was looked at.

    `places` (m, rising) are those of the curve, `gives` (m/N) the largest deflection under the tool with the
    steady rest there. `free` are the places it may take, `bars` and `drawn` why it may not or had better not.
    `force` (N) is that of the curve, `of` says which.
    """

    free: Sequence[Length]
    bars: Sequence[Stretch]
    drawn: Sequence[Stretch]
    places: Sequence[Length] = ()
    gives: Sequence[float] = ()
    force: Force = REFERENCE
    of: str = ""
    _at: dict[Length, float] = field(default_factory=dict)

    def give(self, x: Length) -> float:
        """Largest deflection under the tool with the steady rest at one of `places` (m/N)."""
        return self._at[x]

    def error(self, x: Length) -> Length:
        """Largest diameter error with the steady rest at one of `places` (m)."""
        return 2 * self.force * self._at[x]

    def rank(self, held: HeldWork, x: Length) -> int:
        """How little a place is liked; 0 where nothing speaks against it."""
        found = drawback_at(held, x, self.drawn)
        return found.rank if found else 0


def best_place(held: HeldWork, tried: Tried) -> Length | None:
    """The place with the least diameter error among those with the least against them; None with no place."""
    if not tried.free:
        return None
    return min(tried.free, key=lambda x: (tried.rank(held, x), tried.give(x), x))


def try_places(held: HeldWork, bench: Bench, asked: Length | None) -> Tried:
    """Look at every place, the one that the job asks for too; no curve without a cut or a material."""
    bars, drawn = barred(held), drawbacks(held)
    free, tools, out = places_to_try(held, bars), tool_places(held), held.layout.stick_out
    if held.material is None or not tools:
        return Tried(free, bars, drawn)
    ends = {x for one in bars for x in (one.start, one.end)}
    wanted = {*rule_places(held), *free, *ends, *(() if asked is None else (asked,))}
    places = sorted(x for x in wanted if 0 < x < out)
    if not places:
        return Tried(free, bars, drawn)
    standing = places[len(places) // 2]
    every = sorted({*places, *tools})
    row = {x: number for number, x in enumerate(every)}
    solved = compliance(held.beam(standing), every)
    under_tool = gives_with_rest(
        solved, [row[x] for x in tools], [row[x] for x in places], held.steady_stiffness, row[standing]
    )
    gives = [float(give) for give in np.abs(under_tool).max(axis=1)]
    force, of = _force(bench)
    return Tried(free, bars, drawn, places, gives, force, of, dict(zip(places, gives, strict=True)))


def _force(bench: Bench) -> tuple[Force, str]:
    """The radial force that the curve is for, and what it is."""
    cuts, own = bench.cuts, bench.house.thrust_share
    if bench.thread is not None and cuts is not None and cuts.last_force is not None:
        return (own.si if own is not None else THRUST_SHARE) * cuts.last_force, "the last cut of the thread"
    return REFERENCE, "100 N (22.5 lbf) across the work"
