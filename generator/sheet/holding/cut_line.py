"""The walk of the tool along every cut of the route, over the work as it is then, on what bears then.

    CutWalk       one cut: what the work does under it at every place of the tool
    walk_cuts     all cuts that push the work aside
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from generator.calc.beam import Beam
from generator.calc.cut_shape import CutShape, cut_shape
from generator.calc.slenderness import shear_share
from generator.calc.tool_walk import Moved, ToolWalk, diameter_error, feed_moment, tool_walk
from generator.sheet.holding.case import Case
from generator.sheet.holding.held_work import DUST, HeldWork
from generator.sheet.holding.loads import ALONG
from generator.sheet.plans import CutLoad, Forces, OperationPlan
from generator.si import Length, Torque, mm

PLACES: Final = 200  # of the tool along a cut
SHAPED: Final = (*ALONG, "thread")  # cuts that leave a diameter all along their way
ERROR_SHARE: Final = 0.25  # of a tolerance, taken by the error of one cut; common practice, no source
SHEAR_WORTH_SAYING: Final = 0.05  # of the deflection
BESIDE_TOOL: Final = 2 * mm  # between the tool and the jaws of a follow rest; common practice, no source
FOLLOW_WIDTH: Final = 20 * mm  # of those jaws where the record does not say; common practice, no source

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class CutWalk:
    """One cut of the route, the tool at `places` (n,) m from the chuck outwards.

    `away` is the work's movement away from the tool, `lift` upwards, both under the heaviest cut, the places
    watched being the chuck face and, where they bear, steady rest and center, in that order. `scale` is the
    last cut's force over the heaviest's, `diameter` the smaller of the two that the cut goes between.
    `sheared`: shear counts in it. `rest_from_tool` is where the follow rest bears, + outwards.
    """

    load: CutLoad
    plan: OperationPlan
    beam: Beam
    walk: ToolWalk
    away: Moved
    lift: Moved
    scale: float
    diameter: Length
    sheared: bool
    rest_from_tool: Length | None

    @property
    def places(self) -> Array:
        """Places of the tool, m."""
        return self.walk.places

    @property
    def shaped(self) -> bool:
        """True for a cut that leaves a diameter all along its way."""
        return self.load.name in SHAPED and len(self.places) > 1

    @property
    def worst(self) -> int:
        """The place of the largest deflection."""
        return int(np.argmax(np.abs(self.away.at_tool)))

    @property
    def deflection(self) -> Length:
        """The largest deflection away from the tool, or towards it, under the heaviest cut (m)."""
        return float(abs(self.away.at_tool[self.worst]))

    @cached_property
    def error(self) -> Array:
        """Diameter error of the last cut, (n,) m, bigger is +."""
        return diameter_error(
            self.scale * self.away.at_tool, self.scale * self.lift.at_tool, self.diameter,
            inside=self.load.inside,
        )

    @cached_property
    def shape(self) -> CutShape:
        """Shape that the last cut leaves."""
        return cut_shape(self.places, self.error)

    @property
    def moment(self) -> Torque:
        """Moment of the feed force of the heaviest cut, as it bends the work away from the tool (N m)."""
        return feed_moment(self.load.heaviest.feed, self.load.diameter / 2, inside=self.load.inside)

    @property
    def to_rear(self) -> float:
        """+1 where away from the tool is to the rear; −1 in a bore, whose tool cuts the side at the front."""
        return -1.0 if self.load.inside else 1.0

    @property
    def what(self) -> str:
        """How a sentence names it."""
        return self.load.what


def walk_cuts(case: Case) -> tuple[CutWalk, ...]:
    """Every cut that pushes the work aside and lies outside the jaws, in the order of the route.

    Raises
    ------
    OutsideRange
        When the work cannot be taken as a beam.
    """
    return tuple(_walks(case))


def _walks(case: Case) -> Iterator[CutWalk]:
    held, plans = case.held, {plan.number: plan for plan in case.route.plans}
    for load in case.loads:
        places = tool_places(load, held)
        if load.heaviest.radial <= 0 or not places:
            continue
        yield walked(case, load, plans[load.number], places)


def walked(
    case: Case, load: CutLoad, plan: OperationPlan, places: list[Length], *, rigid: bool = False,
    shear: bool | None = None,
) -> CutWalk:
    """One cut with the tool at these places; `rigid`: nothing that holds the work gives."""
    held, steady_at = case.held, case.plan.steady_at
    sheared = is_short(load, held, steady_at, places[-1]) if shear is None else shear
    beam = held.beam_under(load, steady_at, rigid=rigid, shear=sheared)
    follows = follow_place(case) if load.follow else None
    if follows is not None and load.start < load.end:
        follows = -follows  # on the side that the tool has left
    walk = tool_walk(
        beam, places, [support.at for support in beam.supports], rest_from_tool=follows,
        rest_stiffness=held.follow_stiffness,
    )
    heaviest: Forces = load.heaviest
    moment = feed_moment(heaviest.feed, load.diameter / 2, inside=load.inside)
    return CutWalk(
        load, plan, beam, walk, walk.under(heaviest.radial, moment), walk.under(heaviest.main),
        load.last.radial / heaviest.radial, min(plan.from_diameter, plan.to_diameter) or load.diameter,
        sheared, follows,
    )


def tool_places(load: CutLoad, held: HeldWork) -> list[Length]:
    """Places of the tool along a cut, from the chuck outwards (m); one for a tool that goes straight in.

    None for a cut that does not lie on the work outside the jaws.
    """
    out = held.layout.stick_out
    if load.high < DUST or load.low > out + DUST:
        return []
    low, high = (min(max(x, 0.0), out) for x in (load.low, load.high))
    if load.name not in SHAPED or high - low < DUST:
        return [(low + high) / 2]
    return [float(x) for x in np.linspace(low, high, PLACES)]


def last_support(load: CutLoad, steady_at: Length | None) -> Length:
    """The support nearest to a cut on its chuck side (m)."""
    return steady_at if load.steady and steady_at is not None and steady_at <= load.low else 0.0


def is_short(load: CutLoad, held: HeldWork, steady_at: Length | None, far: Length) -> bool:
    """True where shear adds so much to the bending of the work past its last support that it must be said."""
    length, span = far - last_support(load, steady_at), held.layout.span_at(far)
    if length <= DUST or span is None:
        return False
    return shear_share(length, span.od_at(far), span.bore, both_ends=load.center) > SHEAR_WORTH_SAYING


def follow_place(case: Case) -> Length:
    """How far the middle of the follow rest's jaws stands behind the tool (m); assumed where nobody said."""
    said, rest = case.bench.job.holding.follow_rest_from_tool, case.bench.lathe.follow_rest
    width = rest.width.si if rest is not None and rest.width is not None else FOLLOW_WIDTH
    return said.si if said is not None else width / 2 + BESIDE_TOOL
