"""Is a center enough: the last cut's error with every way of supporting the work, and the least that will do.

    Way                 one way of supporting the work
    leading_finish      the cut whose last pass asks most of the support
    support_section     the errors, the least that holds the tolerance, the rule of thumb beside it
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from generator.calc.compliance import Compliance, compliance
from generator.calc.slenderness import ALONE, BETWEEN
from generator.sheet.holding.case import Case
from generator.sheet.holding.cut_line import ERROR_SHARE, SHAPED, CutWalk, walked
from generator.sheet.holding.held_work import DUST, PLACES_ALONG_CUT, HeldWork
from generator.sheet.holding.lengths import MANUALS
from generator.sheet.holding.steady_places import Stretch, barred, drawbacks, places_to_try, rank_of
from generator.sheet.holding.stiffness import FOLLOW_STIFFNESS, STEADY_STIFFNESS
from generator.sheet.model import Figure, Kind, Quantity
from generator.sheet.plans import CutLoad
from generator.sheet.wording import fine_words, length_words
from generator.si import Length

PRACTICE = "common practice, no source"
ELEMENTS = "beam elements (Cook et al.)"
LEAST_GIVE = 1e-12  # m/N: a micrometre under a meganewton is nothing


@dataclass(frozen=True)
class Way:
    """One way of supporting the work: `words` end a sentence, `than` rises with the trouble it is."""

    key: str
    words: str
    center: bool = False
    steady: bool = False
    follow: bool = False


WAYS = (
    Way("alone", "in the {head} alone"),
    Way("center", "with a center", center=True),
    Way("steady", "with a steady rest", steady=True),
    Way("center_and_steady", "with center and steady rest", center=True, steady=True),
    Way("follow_rest", "with center and follow rest", center=True, follow=True),
)


def leading_finish(case: Case) -> CutLoad | None:
    """The cut along the work whose last pass asks most of its support; one with a tolerance before others.

    A cut asks more the larger its force, the further out its end and the closer its tolerance.
    """
    out = case.held.layout.stick_out
    along = [
        load for load in case.loads
        if load.name in SHAPED and min(load.high, out) - max(load.low, 0.0) > DUST and load.last.radial > 0
    ]
    limited = [load for load in along if load.tolerance] or along
    return max(
        limited, key=lambda load: load.last.radial * min(load.high, out) ** 3 / (load.tolerance or 1.0),
        default=None,
    )


def support_section(case: Case, load: CutLoad) -> None:
    """Lay down the error of this cut for every way of supporting the work, where the support matters."""
    ways = list(_possible(case, load))
    if len(ways) < 2:
        return
    hypothetical = replace(case, held=_with_all(case))
    limit = ERROR_SHARE * load.tolerance if load.tolerance else None
    first = _walk(hypothetical, load, ways[0], None)
    if not _matters(case, _error(first), limit):
        return
    stands = dict.fromkeys((False, True), case.plan.steady_at)
    if case.plan.steady_at is None and any(way.steady for way in ways):
        stands = _steady_places(hypothetical, load, ways[0].center)
    errors: dict[str, Length] = {}
    for way in ways:
        at = stands[way.center] if way.steady else None
        walk = first if way is ways[0] else _walk(hypothetical, load, way, at)
        if walk is not None:
            errors[way.key] = _lay_error(case, way, walk, at)
    least = next((way for way in ways if limit is not None and errors.get(way.key, math.inf) <= limit), None)
    if limit is not None:
        _lay_least(case, load, least, limit)
        _find_wanted(case, load, least, errors, limit)
    _lay_rule(case)


# -- which ways there are ---------------------------------------------------------------------------------


def _possible(case: Case, load: CutLoad) -> Iterator[Way]:
    """The ways that this lathe and this cut allow."""
    holding, lathe = case.held.job.holding, case.bench.lathe
    rest = lathe.follow_rest
    follows = (
        rest is not None and load.name in ("turn", "thread") and not load.inside
        and rest.from_.si <= load.diameter <= rest.to.si
    )
    for way in WAYS:
        if holding.centers is not None and not way.center:
            continue
        lacking = (way.center and load.inside) or (way.steady and lathe.steady is None)
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


def _matters(case: Case, error: Length, limit: Length | None) -> bool:
    """True for work that the rule of thumb would support, or that gives too much without support."""
    diameters = _diameters(case)
    slender = diameters is not None and diameters > _alone(case)
    return slender or (limit is not None and error > limit)


def _diameters(case: Case) -> float | None:
    """Stick-out in diameters, as the sheet has it."""
    figure = case.desk.figures.get("holding.slenderness")
    return figure.value if figure is not None and isinstance(figure.value, float) else None


def _alone(case: Case) -> float:
    """Diameters that the shop lets stand out alone."""
    own = case.bench.house.stick_out_check
    return own.si if own else ALONE


# -- the errors -------------------------------------------------------------------------------------------


def _walk(case: Case, load: CutLoad, way: Way, at: Length | None) -> CutWalk | None:
    """The cut with this support, the steady rest standing at a place; none with no place for that."""
    if way.steady and at is None:
        return None
    cut = replace(load, center=way.center, steady=way.steady, follow=way.follow)
    plan = next(one for one in case.route.plans if one.number == load.number)
    there = replace(case, plan=replace(case.plan, steady_at=at))
    return walked(there, cut, plan, _tool_places(load, case.held.layout.stick_out))


def _steady_places(case: Case, load: CutLoad, center: bool) -> dict[bool, Length | None]:
    """The best place of a steady rest that this job does not have, without a center and with one.

    `center` says that there is no way without.
    """
    held, out = case.held, case.held.layout.stick_out
    bars, drawn = barred(held), drawbacks(held)
    free = places_to_try(held, bars)
    if not free:
        return {False: None, True: None}
    tools = _tool_places(load, out)
    every = sorted({*tools, *free, out})
    row = {x: number for number, x in enumerate(every)}
    solved = compliance(held.beam_under(replace(load, center=center), None), every)
    supported = solved if center else solved.supported(row[out], held.center_stiffness)
    return {
        with_center: _least(one, [row[x] for x in tools], {x: row[x] for x in free}, held, drawn)
        for with_center, one in ((False, solved), (True, supported))
    }


def _least(
    solved: Compliance, tools: list[int], rests: dict[Length, int], held: HeldWork, drawn: tuple[Stretch, ...]
) -> Length:
    """The place of the rest that leaves the least under the tool, of those with the least against them."""
    gives = np.abs(solved.rested(list(rests.values()), held.steady_stiffness)[tools]).max(axis=0)
    give = dict(zip(rests, gives, strict=True))
    return min(rests, key=lambda x: (rank_of(x, drawn), give[x]))


def _tool_places(load: CutLoad, out: Length) -> list[Length]:
    return [float(x) for x in np.linspace(max(load.low, 0.0), min(load.high, out), PLACES_ALONG_CUT)]


def _error(walk: CutWalk | None) -> Length:
    return 0.0 if walk is None else float(np.abs(walk.error).max())


def _lay_error(case: Case, way: Way, walk: CutWalk, at: Length | None) -> Length:
    """Lay the largest diameter error; return it."""
    force = walk.load.last.radial
    error = max(_error(walk), LEAST_GIVE * force)
    stands = f"the steady rest at {length_words(at, case.held.system)} from the chuck face" if at else ""
    put: dict[str, tuple[float, Quantity]] = {
        "F last": (force, "force"), "stiffness under the tool": (2 * force / error, "stiffness")
    }
    return case.desk.computed(
        f"give.support.{way.key}", f"Diameter error of the last cut {_words(case, way)}", error,
        "fine_length", "2 × {F last} ÷ {stiffness under the tool}", put, ELEMENTS, note=stands, rounds="up",
    )


def _words(case: Case, way: Way) -> str:
    holding = case.held.job.holding
    if holding.centers is not None:
        return {
            "center": "between centers", "center_and_steady": "between centers, with a steady rest",
            "follow_rest": "between centers, with a follow rest",
        }[way.key]
    return way.words.format(head=holding.held.kind)


# -- what follows -----------------------------------------------------------------------------------------


def _lay_least(case: Case, load: CutLoad, least: Way | None, limit: Length) -> None:
    keeps = (
        f"the last cut of operation {load.number} ({load.title[:1].lower()}{load.title[1:]}) within a "
        f"quarter of its tolerance, {fine_words(limit, case.held.system)}"
    )
    if least is None:
        text = f"None of these keeps {keeps}: take lighter last cuts and measure."
    elif least is WAYS[0]:
        text = f"The {case.held.job.holding.held.kind} alone keeps {keeps}."
    else:
        text = f"{_words(case, least).capitalize()}: the least that keeps {keeps}."
    case.desk.lay(Figure(
        "give.support.least", "Least support that will do", text, "text", Kind.COMPUTED,
        f"the errors above against a quarter of the tolerance; {PRACTICE}",
    ))


def _find_wanted(
    case: Case, load: CutLoad, least: Way | None, errors: dict[str, Length], limit: Length
) -> None:
    """Name a support that would do where the one that the job has does not."""
    bears = (load.center, load.steady, load.follow)
    now = next((way for way in WAYS if (way.center, way.steady, way.follow) == bears), None)
    if now is None or least is None or now is least or errors.get(now.key, 0.0) <= limit:
        return
    system = case.held.system
    case.desk.find(
        "support-wanted", "note",
        f"{_words(case, least).capitalize()} the last cut of operation {load.number} would leave "
        f"{fine_words(errors[least.key], system)} on diameter instead of "
        f"{fine_words(errors[now.key], system)}; a quarter of its tolerance is {fine_words(limit, system)}.",
        case.held.job.holding.grip.where,
    )


def _lay_rule(case: Case) -> None:
    """What the rule of thumb says of the same work."""
    diameters, kind = _diameters(case), case.held.job.holding.held.kind
    if diameters is None:
        return
    if diameters > BETWEEN:
        wants = "steady rest or follow rest, with a center"
    elif kind == "centers":
        wants = "centers alone"
    else:
        wants = f"{kind} alone" if diameters <= _alone(case) else f"{kind} and center"
    case.desk.lay(Figure(
        "give.support.rule", f"By the rule of thumb, at {diameters:.1f} diameters", wants, "text",
        Kind.COMPUTED, MANUALS, note="a tube is judged by its deflection, not by this",
    ))
