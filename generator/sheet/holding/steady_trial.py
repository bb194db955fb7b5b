"""What every place of the steady rest would give: the curve that its place is chosen from.

    Tried         the places looked at, and the largest deflection under the tool with the steady rest there
    try_places    from one solution of the beam
    best_place    the least diameter error where the least speaks against it
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from generator.calc.compliance import compliance
from generator.language.say import say
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.loads import THRUST_SHARE
from generator.sheet.holding.steady_places import (
    Stretch,
    against,
    barred,
    drawbacks,
    places_to_try,
    rank_of,
    rule_places,
    tool_places,
)
from generator.sheet.operation_task import Bench
from generator.si import Force, Length

REFERENCE = 100.0  # N across the work, where no force is known yet
SAME_PLACE = 1e-4  # m: two places of the steady rest nearer than this are one


@dataclass(frozen=True)
class Tried:
    """Every place of the steady rest that was looked at.

    `places` (m, rising) are those of the curve, `gives` (m/N) the largest deflection under the tool with the
    steady rest there. `free` are the places it may take, `bars` and `drawn` why it may not or had better not.
    `force` (N) is that of the curve, `of` says which, `of_thread` is True where it is the thread's last cut.
    """

    free: Sequence[Length]
    bars: Sequence[Stretch]
    drawn: Sequence[Stretch]
    places: Sequence[Length] = ()
    gives: Sequence[float] = ()
    force: Force = REFERENCE
    of: str = ""
    of_thread: bool = False
    _at: dict[int, float] = field(default_factory=dict)

    def give(self, x: Length) -> float:
        """Largest deflection under the tool with the steady rest at one of `places` (m/N)."""
        return self._at[_bucket(x)]

    def error(self, x: Length) -> Length:
        """Largest diameter error with the steady rest at one of `places` (m)."""
        return 2 * self.force * self.give(x)

    def against(self, x: Length) -> Stretch | None:
        """The worst drawback of a place; None where it has none."""
        return against(x, self.drawn)

    def rank(self, x: Length) -> int:
        """How little a place is liked; 0 where nothing speaks against it."""
        return rank_of(x, self.drawn)


def best_place(tried: Tried) -> Length | None:
    """The place with the least diameter error among those with the least against them; None with no place."""
    if not tried.free:
        return None
    return min(tried.free, key=lambda x: (tried.rank(x), tried.give(x), x))


def try_places(held: HeldWork, bench: Bench, asked: Length | None) -> Tried:
    """Look at every place, the one that the job asks for too; no curve without a cut or a material."""
    bars, drawn = barred(held), drawbacks(held)
    free, tools, out = places_to_try(held, bars), tool_places(held), held.layout.stick_out
    if held.material is None or not tools:
        return Tried(free, bars, drawn)
    ends = sorted({x for one in bars for x in (one.start, one.end)})
    places = _apart([*([] if asked is None else [asked]), *free, *rule_places(held), *ends], out)
    if not places:
        return Tried(free, bars, drawn)
    every = sorted({*places, *tools})
    row = {x: number for number, x in enumerate(every)}
    under_tool = compliance(held.beam(None), every).rested([row[x] for x in places], held.steady_stiffness)
    gives = [float(give) for give in np.abs(under_tool[[row[x] for x in tools]]).max(axis=0)]
    force, of, of_thread = _force(bench)
    by_bucket = dict(zip(map(_bucket, places), gives, strict=True))
    return Tried(free, bars, drawn, places, gives, force, of, of_thread, by_bucket)


def _apart(wanted: Iterable[Length], out: Length) -> list[Length]:
    """Places on the work, rising; of two that are nearly one, the first that was named (m)."""
    kept: dict[int, Length] = {}
    for x in wanted:
        if 0 < x < out:
            kept.setdefault(_bucket(x), x)
    return sorted(kept.values())


def _bucket(x: Length) -> int:
    """One number for places that are one."""
    return round(x / SAME_PLACE)


def _force(bench: Bench) -> tuple[Force, str, bool]:
    """The radial force that the curve is for, what it is, and whether it is the thread's."""
    cuts, own = bench.cuts, bench.house.thrust_share
    if bench.thread is not None and cuts is not None and cuts.last_force is not None:
        share = own.si if own is not None else THRUST_SHARE
        return share * cuts.last_force, say("the last cut of the thread"), True
    return REFERENCE, say("100 N (22.5 lbf) across the work"), False
