"""The last cut of an operation with every way of supporting the work, from one solution of the beam.

    Way             one way of supporting the work
    WAYS            all of them, in the order of the trouble they are
    Supported       what a way leaves on the diameter
    possible_ways   those that this lathe and this cut allow
    supported_by    all of them
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.calc.compliance import Compliance, compliance
from generator.calc.tool_walk import diameter_error, feed_moment
from generator.language.say import later
from generator.sheet.holding.case import Case
from generator.sheet.holding.cut_line import is_short, walked
from generator.sheet.holding.held_work import PLACES_ALONG_CUT, HeldWork
from generator.sheet.holding.steady_places import barred, drawbacks, places_to_try, rank_of
from generator.sheet.holding.stiffness import FOLLOW_STIFFNESS, STEADY_STIFFNESS
from generator.sheet.plans import CutLoad
from generator.si import Length

PIPE_CENTER = 0.15  # m: no larger bore is proposed for a pipe center; common practice, no source


@dataclass(frozen=True)
class Way:
    """One way of supporting the work: `words` end a sentence.

    `between` are those for work between centers, `hollow` those for work with a bore in its end.
    """

    key: str
    words: str
    between: str = ""
    hollow: str = ""
    center: bool = False
    steady: bool = False
    follow: bool = False


WAYS = (
    Way("alone", later("in the {head} alone")),
    Way("center", later("with a center"), later("between centers"), later("with a pipe center"), center=True),
    Way("steady", later("with a steady rest"), steady=True),
    Way(
        "center_and_steady",
        later("with center and steady rest"),
        later("between centers, with a steady rest"),
        later("with pipe center and steady rest"),
        center=True,
        steady=True,
    ),
    Way(
        "follow_rest",
        later("with center and follow rest"),
        later("between centers, with a follow rest"),
        later("with pipe center and follow rest"),
        center=True,
        follow=True,
    ),
)


@dataclass(frozen=True)
class Supported:
    """What one way leaves: largest diameter error of the last cut (m), the steady rest standing at `at`."""

    way: Way
    error: Length
    at: Length | None


def possible_ways(case: Case, load: CutLoad) -> Iterator[Way]:
    """The ways that this lathe and this cut allow."""
    holding, lathe = case.held.job.holding, case.bench.lathe
    rest, bore = lathe.follow_rest, case.held.layout.spans[-1].bore
    follows = (
        rest is not None and load.name in ("turn", "thread") and not load.inside
        and rest.from_.si <= load.diameter <= rest.to.si
    )
    for way in WAYS:
        if holding.centers is not None and not way.center:
            continue
        no_center = load.inside or (holding.center is None and bore > PIPE_CENTER)
        lacking = (way.center and no_center) or (way.steady and lathe.steady is None)
        if not lacking and (follows or not way.follow):
            yield way


def _with_all(case: Case) -> HeldWork:
    """The held work with what the lathe's record says of the supports that this job does not use."""
    held, lathe, house = case.held, case.bench.lathe, case.bench.house
    holding = held.job.holding
    steady, center, follow = held.steady_stiffness, held.center_stiffness, held.follow_stiffness
    if holding.steady is None:
        own = (lathe.steady.stiffness if lathe.steady else None) or house.steady_stiffness
        steady = own.si if own else STEADY_STIFFNESS
    if holding.center is None:
        own = (lathe.tailstock.stiffness if lathe.tailstock else None) or house.center_stiffness
        center = own.si if own else math.inf
    if not holding.follow_rest:
        own = (lathe.follow_rest.stiffness if lathe.follow_rest else None) or house.follow_rest_stiffness
        follow = own.si if own else FOLLOW_STIFFNESS
    return replace(held, steady_stiffness=steady, center_stiffness=center, follow_stiffness=follow)


def supported_by(case: Case, load: CutLoad, ways: Sequence[Way]) -> Iterator[Supported]:
    """The last cut of an operation with each of these ways; none for a steady rest that has no place.

    A steady rest that the job has stands where it is, another at its best place. The first way has the least
    support of all.
    """
    held, out = _with_all(case), case.held.layout.stick_out
    tools = [float(x) for x in np.linspace(max(load.low, 0.0), min(load.high, out), PLACES_ALONG_CUT)]
    asked, bars = case.plan.steady_at, barred(held)
    rests = places_to_try(held, bars) if asked is None else [asked]
    every = sorted({*tools, *(rests if any(way.steady for way in ways) else ()), out})
    row = {x: number for number, x in enumerate(every)}
    bare = replace(load, center=ways[0].center, steady=False, follow=False)
    sheared = is_short(load, held, asked, tools[-1])
    solved = compliance(held.beam_under(bare, None, shear=sheared), every)
    propped = solved if ways[0].center else solved.supported(row[out], held.center_stiffness)
    for way in ways:
        on, at = propped if way.center else solved, None
        if way.follow:
            yield Supported(way, _followed(replace(case, held=held), load, way, tools), None)
            continue
        if way.steady:
            if not rests:
                continue
            at = _best(on, [row[x] for x in tools], {x: row[x] for x in rests}, held)
            on = on.supported(row[at], held.steady_stiffness)
        yield Supported(way, _error(case, load, on, [row[x] for x in tools]), at)


def _error(case: Case, load: CutLoad, on: Compliance, tools: list[int]) -> Length:
    """Largest diameter error of the last cut."""
    push, tilt = np.diag(on.push)[tools], np.diag(on.tilt)[tools]
    moment = feed_moment(load.last.feed, load.diameter / 2, inside=load.inside)
    plan = next(one for one in case.route.plans if one.number == load.number)
    diameter = min(plan.from_diameter, plan.to_diameter) or load.diameter
    away, lift = load.last.radial * push + moment * tilt, load.last.main * push
    return float(np.abs(diameter_error(away, lift, diameter, inside=load.inside)).max())


def _followed(case: Case, load: CutLoad, way: Way, tools: list[Length]) -> Length:
    """The same with a rest that travels along."""
    plan = next(one for one in case.route.plans if one.number == load.number)
    cut = replace(load, center=way.center, steady=False, follow=True)
    return float(np.abs(walked(case, cut, plan, tools).error).max())


def _best(on: Compliance, tools: list[int], rests: dict[Length, int], held: HeldWork) -> Length:
    """The place of the rest that leaves the least under the tool, of those with the least against them."""
    drawn = drawbacks(held)
    gives = np.abs(on.rested(list(rests.values()), held.steady_stiffness)[tools]).max(axis=0)
    give = dict(zip(rests, gives, strict=True))
    return min(rests, key=lambda x: (rank_of(x, drawn), give[x]))
