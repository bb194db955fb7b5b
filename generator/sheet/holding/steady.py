"""Where the steady rest stands, why there, and the curve it was chosen from."""

from __future__ import annotations

from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.drawn import PlotScene
from generator.sheet.figure import Figure, Kind
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.holding.steady_places import CUT_LATER, place_fault, tool_places
from generator.sheet.holding.steady_plot import steady_plot
from generator.sheet.holding.steady_trial import Tried, best_place, try_places
from generator.sheet.operation_task import Bench
from generator.si import Length

SOURCE = later("beam elements (Cook et al.); common practice, no source")
WORTH_MOVING = 0.7  # a better place is named when the work gives less than this share there
OUT_TO = 0.75  # of the stick-out, without a cut: there the bending frequency is highest


def steady_section(held: HeldWork, bench: Bench) -> tuple[Length | None, PlotScene | None]:
    """Lay down where the steady rest stands and why, with the curve it was chosen from.

    None without one, or with no place for it; no plot where nothing is cut or the material is unknown.
    """
    steady, desk = held.job.holding.steady, bench.desk
    if steady is None:
        return None, None
    tried = try_places(held, bench, steady.at.si if isinstance(steady.at, Given) else None)
    at = _given(held, steady.at, tried, desk) if isinstance(steady.at, Given) else _auto(held, tried, desk)
    plot = None
    if at is not None and tried.gives and 0 < at < held.layout.stick_out:
        plot = steady_plot(held, tried, at, best_place(tried), isinstance(steady.at, Given))
    if at is not None and not place_fault(held, at):
        _lay_band(held, at, desk)
    return at, plot


def _lay_band(held: HeldWork, at: Length, desk: Desk) -> None:
    """The diameter that the fingers run on, and what its surface is."""
    span = held.layout.span_at(at)
    assert span is not None
    section = held.job.work[span.section_index]
    desk.given("holding.steady.diameter", say("Band under the steady rest, diameter"), section.od, "length")
    band = any(operation.turn is not None and operation.turn.band for operation in held.job.operations)
    if section.surface == "ground":
        desk.find(
            "steady-on-ground", "note",
            say("The steady rest runs on a ground surface, and its fingers leave a bright ring there. Put "
                "roller tips or a strip of oiled paper or soft brass under them, or say that the ring may "
                "stay."),
            section.length.where,
        )
    elif section.surface != "turned" and not band:
        desk.find(
            "steady-band",
            "check",
            say("The place where the steady rest runs is rough. Turn a true band there first, a little wider "
                "than the fingers, or use a cat-head.") if section.surface == "rough"
            else say("The place where the steady rest runs is not said to be turned. Turn a true band there "
                     "first, a little wider than the fingers, or use a cat-head."),
            section.length.where,
        )


def _label(held: HeldWork) -> str:
    return say("Steady rest, its middle from the {origin}", origin=held.origin)


def _given(held: HeldWork, written: Given, tried: Tried, desk: Desk) -> Length:
    at = desk.given("holding.steady.position", _label(held), written, "length")
    fault = place_fault(held, at)
    if fault:
        desk.find(
            "steady-place",
            "stop",
            say("The steady rest at {at} from the {origin} {fault}. It runs on a turned, round, plain band "
                "that stays.", at=written.with_unit, origin=held.origin, fault=fault),
            written.where,
            say("Where may the steady rest run?"),
        )
        return at
    if tried.gives and tried.free:
        _name_better(held, tried, at, desk)
    return at


def _name_better(held: HeldWork, tried: Tried, at: Length, desk: Desk) -> None:
    """Say so where another place, out of the way of every cut, would hold the work much stiffer."""
    clear = [x for x in tried.free if tried.rank(x) < CUT_LATER]
    better = min(clear, key=tried.give, default=at)
    if tried.give(better) >= WORTH_MOVING * tried.give(at):
        return
    against = tried.against(better)
    steady = held.job.holding.steady
    written = steady.at if steady is not None and isinstance(steady.at, Given) else held.job.holding.grip
    desk.find(
        "steady-better",
        "note",
        say("With the steady rest at {place} the work would give {less:.0%} less under the tool.{against}",
            place=held.place_words(better), less=1 - tried.give(better) / tried.give(at),
            against=say(" Against that place: {why}.", why=against.why) if against is not None else ""),
        written.where,
    )


def _auto(held: HeldWork, tried: Tried, desk: Desk) -> Length | None:
    if not tried.free:
        desk.find(
            "steady-place",
            "stop",
            say("There is no plain, round place for the steady rest that it takes and that leaves the "
                "carriage its room."),
            held.job.holding.grip.where,
            say("Where may the steady rest run?"),
        )
        desk.unknown("holding.steady.position", _label(held), "length", say("no place for it"))
        return None
    at, why = _best(held, tried)
    desk.lay(Figure("holding.steady.position", _label(held), at, "length", Kind.COMPUTED, SOURCE, note=why))
    if tried.gives:
        _name_better(held, tried, at, desk)
    return at


def _best(held: HeldWork, tried: Tried) -> tuple[Length, str]:
    """The place and the reason, as a machinist would give it."""
    least = min(tried.rank(x) for x in tried.free)
    liked = [x for x in tried.free if tried.rank(x) == least]
    tools = tool_places(held)
    if not tools:
        wanted = OUT_TO * held.layout.stick_out
        at = min(liked, key=lambda x: abs(x - wanted))
        return at, say("about three quarters out, where the bending frequency is highest")
    cut_end = held.cut_end if held.cut_end is not None else min(tools)
    before_cut = [x for x in liked if x < cut_end] or liked
    if not tried.gives:
        return before_cut[-1], say(
            "as near to the cut as the carriage lets it stand; the material is unknown"
        )
    at = min(liked, key=lambda x: (tried.give(x), x))
    words = (
        say("of {liked} places tried the thread gives least under the tool here", liked=len(liked))
        if held.thread is not None
        else say("of {liked} places tried the work gives least under the tool here", liked=len(liked))
    )
    if len(liked) < len(tried.free):
        words += say(", {free} more have something against them", free=len(tried.free) - len(liked))
    if at == before_cut[-1]:
        return at, say("as near to the cut as the carriage lets it stand: {words}", words=words)
    return at, words
