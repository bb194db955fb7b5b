"""The figures of one cut: how far the work gives under it, and what that leaves on the diameter.

    beam_words        how the beam was worked out, as a source
    lay_deflection, lay_error, lay_spread
"""

from __future__ import annotations

import math
from typing import Final

from generator.language.lists import and_words
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.holding.cut_line import CutWalk
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.shape import NOTHING, shape_words
from generator.si import Length

LEAST_GIVE: Final = 1e-12  # m/N, at a rigid support: a micrometre under a meganewton is nothing
NO_TERM: Final = 1e-9  # of the whole
BENDS_AWAY: Final = later("it bends away by more than its diameter")  # no small movement of a beam

Put = dict[str, tuple[float, Quantity]]


def beam_words(held: HeldWork) -> str:
    """How the beam was worked out: what gives in it and what does not."""
    gives = [] if held.job.holding.centers else [say("chuck")]
    if held.job.holding.steady is not None:
        gives.append(say("steady"))
    rigid = held.job.holding.center is not None and math.isinf(held.center_stiffness)
    if held.job.holding.center is not None and not rigid:
        gives.append(say("center"))
    said = [say("beam elements (Cook et al.)")]
    if gives:
        said.append(say("{names} elastic", names=and_words(gives)))
    if rigid:
        said.append(say("center rigid"))
    return ", ".join(said)


def lay_deflection(
    cut: CutWalk, held: HeldWork, desk: Desk, *, name: str | None = None, note: str = ""
) -> None:
    """Lay down the largest deflection under the heaviest cut of one operation.

    Unknown where the work bends quite away.
    """
    at, figure = cut.worst, name or f"give.{cut.load.number}.deflection"
    label = say("Deflection under the heaviest cut")
    if not name:
        label = _label(cut, say("deflection under the heaviest cut"))
    if cut.deflection > cut.diameter:
        desk.unknown(figure, label, "fine_length", BENDS_AWAY)
        return
    gives = cut.walk.with_rest() if cut.away.rest[at] else (cut.walk.push, cut.walk.tilt)
    push, tilt = (float(one[at]) for one in gives)
    force, feed, radius = cut.load.heaviest.radial, cut.load.heaviest.feed, cut.load.diameter / 2
    by_push = force * max(push, LEAST_GIVE)
    by_feed = cut.moment * tilt
    formula, put = "{F} ÷ {stiffness under the tool}", _put(
        ("F", force, "force"), ("stiffness under the tool", force / by_push, "stiffness")
    )
    if abs(by_feed) > NO_TERM * by_push:
        term = "{F feed} × {radius} ÷ {stiffness against its moment}"
        formula = f"{term} − {formula}" if by_push + by_feed < 0 else f"{formula} {'+−'[by_feed < 0]} {term}"
        put |= _put(
            ("F feed", abs(feed), "force"), ("radius", radius, "length"),
            ("stiffness against its moment", 1 / abs(tilt), "force"),
        )
    place = held.place_words(float(cut.places[at]))
    where = say("largest at {place}", place=place) if cut.shaped else say("at {place}", place=place)
    desk.computed(
        figure,
        label,
        abs(by_push + by_feed),
        "fine_length",
        formula,
        put,
        beam_words(held),
        note="; ".join(one for one in (where, _other_way(by_push + by_feed), note) if one),
        rounds="up",
    )


def lay_error(cut: CutWalk, held: HeldWork, desk: Desk, *, name: str | None = None) -> Length:
    """Lay down the largest diameter error of the last cut of one operation, whichever way it goes (m).

    Not one that nobody can measure, but for the leading cut's; unknown where the work bends quite away.
    """
    at = int(abs(cut.error).argmax())
    away, lift = float(cut.away.at_tool[at]), cut.scale * float(cut.lift.at_tool[at])
    error, radius = float(cut.error[at]), cut.diameter / 2
    figure = name or f"give.{cut.load.number}.error"
    label = (
        say("Diameter error from the last cut")
        if name
        else _label(cut, say("diameter error from the last cut"))
    )
    if abs(error) > cut.diameter:
        desk.unknown(figure, label, "fine_length", BENDS_AWAY)
        return abs(error)
    if name is None and abs(error) < NOTHING:
        return abs(error)
    by_lift = lift**2 / radius
    formula, put = "2 × {deflection} × {F last} ÷ {F heaviest}", _put(
        ("deflection", abs(away), "fine_length"), ("F last", cut.load.last.main, "force"),
        ("F heaviest", cut.load.heaviest.main, "force"),
    )
    if by_lift > NO_TERM * abs(error):
        bigger = (away > 0) != cut.load.inside
        term = "{lift}² ÷ {radius}"
        if bigger:
            formula = f"{formula} + {term}"
        else:
            formula = f"{formula} − {term}" if error < 0 else f"{term} − {formula}"
        put |= _put(("lift", lift, "fine_length"), ("radius", radius, "length"))
    place = held.place_words(float(cut.places[at]))
    size = (
        say("it comes out bigger, most at {place}", place=place) if error >= 0
        else say("it comes out smaller, most at {place}", place=place)
    )
    return desk.computed(
        figure,
        label,
        abs(error),
        "fine_length",
        formula,
        put,
        say("geometry: the surface moves away from the tool"),
        note=say("{size}; spring passes take part of it out", size=size) if name else size,
        rounds="up",
    )


def lay_spread(cut: CutWalk, held: HeldWork, desk: Desk) -> None:
    """Lay down how uneven the diameter is along one cut, with its shape; nothing that nobody can measure."""
    shape = cut.shape
    if not NOTHING <= shape.spread <= cut.diameter:
        return
    desk.computed(
        f"give.{cut.load.number}.spread",
        _label(cut, say("largest less smallest diameter along the cut")),
        shape.spread,
        "fine_length",
        "{largest error} − {smallest error}",
        {"largest error": (shape.largest, "fine_length"), "smallest error": (shape.smallest, "fine_length")},
        say("geometry: the surface moves away from the tool"),
        note=say("it {shape}", shape=shape_words(cut, held)),
        rounds="up",
    )


def _label(cut: CutWalk, words: str) -> str:
    return f"{cut.load.number} {cut.load.title}: {words}"


def _other_way(moved: Length) -> str:
    return say("towards the tool, which bites deeper") if moved < 0 else ""


def _put(*rows: tuple[str, float, Quantity]) -> Put:
    return {name: (value, quantity) for name, value, quantity in rows}
