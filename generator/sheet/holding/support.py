"""Is a center enough: the last cut's error with every way of supporting the work, and the least that will do.

    leading_finish      the cut whose last pass asks most of the support
    support_section     the errors, the least that holds the tolerance, the rule of thumb beside it
"""

from __future__ import annotations

from generator.calc.slenderness import ALONE, BETWEEN
from generator.language.say import first_large, later, say
from generator.sheet.figure import Figure, Kind
from generator.sheet.holding.case import Case
from generator.sheet.holding.cut_line import ERROR_SHARE, SHAPED
from generator.sheet.holding.give_figures import BENDS_AWAY, LEAST_GIVE
from generator.sheet.holding.held_work import DUST
from generator.sheet.holding.lengths import HELD_BY, MANUALS
from generator.sheet.holding.support_ways import WAYS, Supported, Way, possible_ways, supported_by
from generator.sheet.plans import CutLoad
from generator.sheet.wording import fine_words
from generator.si import Length

PRACTICE = later("common practice, no source")
ELEMENTS = later("beam elements (Cook et al.)")


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
    ways = list(possible_ways(case, load))
    if len(ways) < 2:
        return
    found = list(supported_by(case, load, ways))
    limit = ERROR_SHARE * load.tolerance if load.tolerance else None
    if not _matters(case, found[0].error, limit):
        return
    for one in found:
        _lay_error(case, load, one)
    if limit is not None:
        least = next((one for one in found if one.error <= limit), None)
        _lay_least(case, load, least.way if least else None, limit)
        _find_wanted(case, load, least, found, limit)
    _lay_rule(case)


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


# -- figures ----------------------------------------------------------------------------------------------


def _lay_error(case: Case, load: CutLoad, found: Supported) -> None:
    """Lay the largest diameter error that one way leaves."""
    force, at = load.last.radial, found.at
    name, label = (
        f"give.support.{found.way.key}",
        say("Diameter error of the last cut {way}", way=_words(case, found.way)),
    )
    error = max(found.error, LEAST_GIVE * force)
    if error > load.diameter:
        case.desk.unknown(name, label, "fine_length", BENDS_AWAY)
        return
    case.desk.computed(
        name, label, error, "fine_length", "2 × {F last} ÷ {stiffness under the tool}",
        {"F last": (force, "force"), "stiffness under the tool": (2 * force / error, "stiffness")}, ELEMENTS,
        note=say("the steady rest at {place}", place=case.held.place_words(at)) if at else "",
        rounds="up",
    )


def _words(case: Case, way: Way) -> str:
    """The way of supporting in words; a hollow end takes a pipe center."""
    held = case.held
    if held.job.holding.centers is not None:
        return str(way.between)
    words = way.hollow if way.hollow and held.layout.spans[-1].bore else way.words
    return say(words, head=HELD_BY[held.job.holding.held.kind])


def _lay_least(case: Case, load: CutLoad, least: Way | None, limit: Length) -> None:
    keeps = say(
        "the last cut of {what} within a quarter of its tolerance, {limit}",
        what=load.what, limit=fine_words(limit, case.held.system),
    )
    if least is None:
        text = say("Not one of these keeps {keeps}: take lighter last cuts and measure.", keeps=keeps)
    elif least is WAYS[0]:
        kind = HELD_BY[case.held.job.holding.held.kind]
        text = say("The {kind} alone keeps {keeps}.", kind=kind, keeps=keeps)
    else:
        way = first_large(_words(case, least))
        text = say("{way}: the least that keeps {keeps}.", way=way, keeps=keeps)
    case.desk.lay(Figure(
        "give.support.least", say("Least support that will do"), text, "text", Kind.COMPUTED,
        say("the errors above against a quarter of the tolerance; {practice}", practice=PRACTICE),
    ))


def _find_wanted(
    case: Case, load: CutLoad, least: Supported | None, found: list[Supported], limit: Length
) -> None:
    """Name a support that would do where the one that the job has does not."""
    bears = (load.center, load.steady, load.follow)
    now = next((one for one in found if (one.way.center, one.way.steady, one.way.follow) == bears), None)
    if now is None or least is None or now.error <= limit:
        return
    system = case.held.system
    instead = fine_words(now.error, system)
    if now.error > load.diameter:
        instead = say("bending away by more than its diameter")
    case.desk.find(
        "support-wanted", "note",
        say("{way} the last cut of operation {number} would leave {error} on diameter instead of {instead}; "
            "a quarter of its tolerance is {limit}.",
            way=first_large(_words(case, least.way)), number=load.number,
            error=fine_words(least.error, system), instead=instead, limit=fine_words(limit, system)),
        case.held.job.holding.grip.where,
    )


def _lay_rule(case: Case) -> None:
    """What the rule of thumb says of the same work."""
    diameters, kind = _diameters(case), case.held.job.holding.held.kind
    if diameters is None:
        return
    if diameters > BETWEEN:
        wants = say("steady rest or follow rest, with a center")
    elif kind == "centers":
        wants = say("centers alone")
    else:
        wants = (
            say("{kind} alone", kind=HELD_BY[kind]) if diameters <= _alone(case)
            else say("{kind} and center", kind=HELD_BY[kind])
        )
    hollow = any(span.bore for span in case.held.layout.spans)
    case.desk.lay(
        Figure(
            "give.support.rule",
            say("By the rule of thumb, at {diameters:.1f} diameters", diameters=diameters),
            wants,
            "text",
            Kind.COMPUTED,
            MANUALS,
            note=say("a tube is judged by its deflection, not by this") if hollow else "",
        )
    )
