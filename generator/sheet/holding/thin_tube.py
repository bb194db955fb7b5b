"""The part of the finished work that jaws or fingers squeeze, taken as a tube of one wall.

    Squeezed        the tube, and from where to where it is squeezed
    gripped_tube    what stands in chuck or collet
    tube_around     what stands under steady fingers
    RoundCut        a cut of the route that leaves something round on that tube
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from generator.calc.curved_beam import THICKEST
from generator.calc.lobes import Grip, Ring, Tube, out_of_round
from generator.job.model import Chuck, Collet
from generator.sheet.holding.case import Case
from generator.sheet.layout import Layout
from generator.sheet.work_so_far import Stretch, WorkSoFar, work_before
from generator.si import Angle, Length, Pressure

ROUND = ("turn", "taper", "bore", "thread")
PLACES = 9
DUST = 1e-9  # m


@dataclass(frozen=True)
class Squeezed:
    """A tube squeezed from `start` to `end` (x from the chuck face, m), where its least wall is as given.

    `rings` are the finished work from end to end of the tube, none thicker than that wall.
    """

    rings: tuple[Ring, ...]
    start: Length
    end: Length
    od: Length
    bore: Length

    @property
    def low(self) -> Length:
        """Its end nearer the chuck (m)."""
        return self.rings[0].start

    @property
    def high(self) -> Length:
        """Its end nearer the tailstock (m)."""
        return self.rings[-1].end

    @property
    def wall(self) -> Length:
        """Its wall where it is squeezed (m)."""
        return (self.od - self.bore) / 2

    @property
    def radius(self) -> Length:
        """Its mean radius there (m)."""
        return (self.od + self.bore) / 4

    @property
    def wall_share(self) -> float:
        """Wall over outside diameter."""
        return self.wall / self.od

    def lobes(
        self, n: int, half_arc: Angle, modulus: Pressure, where: Sequence[tuple[Length, Length]]
    ) -> Length:
        """Largest out-of-round on stretches of it, from low to high each, of n loads of 1 N each (m)."""
        rings = tuple(
            Ring(one.start - self.low, one.end - self.low, one.radius, one.wall) for one in self.rings
        )
        grip = Grip(n, self.start - self.low, self.end - self.low, half_arc)
        places = np.concatenate([np.linspace(*one, PLACES) for one in where]) - self.low
        return float(np.max(np.abs(out_of_round(Tube(rings, modulus), grip, 1.0, list(places)))))


@dataclass(frozen=True)
class RoundCut:
    """A cut that leaves something round on the tube from `low` to `high` (m), in its bore when `inside`."""

    low: Length
    high: Length
    inside: bool


def gripped_tube(case: Case) -> Squeezed | None:
    """The tube in chuck or collet; None where no jaw squeezes a ring: solid work, faceplate, centers."""
    held, grip = case.bench.job.holding.held, case.bench.layout.grip
    if not isinstance(held, Chuck | Collet) or grip <= DUST:
        return None
    start, end = touched(case.bench.layout, inside=isinstance(held, Chuck) and held.inside)
    return tube_around(case, start, end)


def touched(layout: Layout, *, inside: bool) -> tuple[Length, Length]:
    """From where to where jaws touch stepped work: on its largest outside, or in its smallest bore (m)."""
    held = [span for span in layout.spans if span.start < -DUST]
    sizes = [-span.bore if inside else max(span.od_start, span.od_end) for span in held]
    on = [span for span, size in zip(held, sizes, strict=True) if max(sizes) - size < DUST]
    return on[0].start, min(on[-1].end, 0.0)


def tube_around(case: Case, start: Length, end: Length) -> Squeezed | None:
    """The tube that is squeezed from `start` to `end`; None where it is solid there, or too thick."""
    stretches = [one for one in _finished(case).stretches if one.high - one.low > DUST]
    core = [place for place, one in enumerate(stretches) if one.high > start + DUST and one.low < end - DUST]
    if not core or any(_ring(stretches[place]) is None for place in core):
        return None
    thinnest = min((stretches[place] for place in core), key=_wall)
    wall, outside = _wall(thinnest), min(thinnest.od_low, thinnest.od_high)
    first, last = core[0], core[-1]
    while first > 0 and _ring(stretches[first - 1]) is not None:
        first -= 1
    while last < len(stretches) - 1 and _ring(stretches[last + 1]) is not None:
        last += 1
    middle = (outside + thinnest.bore) / 4
    rings = [ring for one in stretches[first : last + 1] if (ring := _ring(one)) is not None]
    thinned = tuple(
        ring if ring.wall < wall else Ring(ring.start, ring.end, middle, wall) for ring in rings
    )
    return Squeezed(
        thinned, max(start, rings[0].start), min(end, rings[-1].end), outside, thinnest.bore
    )


def round_cuts(case: Case, tube: Squeezed) -> tuple[RoundCut, ...]:
    """The cuts of the route that leave something round on the tube."""
    found = []
    for plan in case.route.plans:
        low, high = sorted((plan.start, plan.end))
        low, high = max(low, tube.low), min(high, tube.high)
        if plan.name in ROUND and high - low > DUST:
            found.append(RoundCut(low, high, plan.inside))
    return tuple(found)


def _finished(case: Case) -> WorkSoFar:
    """The work after the last operation, a thread down to its root."""
    works, thread = case.route.works, case.bench.thread
    work = works[-1] if works else work_before(case.bench.layout)
    if thread is None:
        return work
    low, high = sorted((thread.start, thread.end))
    if thread.internal:
        return work.bored(low, high, thread.root_diameter)
    return work.turned(low, high, thread.root_diameter, thread.root_diameter)


def _wall(one: Stretch) -> Length:
    """Least wall of a stretch (m)."""
    return (min(one.od_low, one.od_high) - one.bore) / 2


def _ring(one: Stretch) -> Ring | None:
    """A stretch as a ring of its least wall; None where it is solid, cut through or thicker than a tube."""
    wall, radius = _wall(one), (min(one.od_low, one.od_high) + one.bore) / 4
    if one.bore <= 0 or not 0 < wall <= THICKEST * radius:
        return None
    return Ring(one.low, one.high, radius, wall)
