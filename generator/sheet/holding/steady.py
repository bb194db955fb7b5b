"""Where the steady rest stands, and why there."""

from __future__ import annotations

from generator.job.fields import Given
from generator.sheet.desk import Desk
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.model import Figure, Kind, PlotScene
from generator.sheet.wording import length_words
from generator.si import Length

LABEL = "Steady rest, its middle from the chuck face"
SOURCE = "beam elements (Cook et al.); common practice, no source"
WORTH_MOVING = 0.7  # a better place is named when the work gives less than this share there
OUT_TO = 0.75  # of the stick-out, without a cut: there the bending frequency is highest


def steady_section(held: HeldWork, desk: Desk) -> tuple[Length | None, PlotScene | None]:
    """Lay down where the steady rest stands and why, with the curve it was chosen from.

    None without one, or with no place for it.
    """
    steady = held.job.holding.steady
    if steady is None:
        return None, None
    at = _given(held, steady.at, desk) if isinstance(steady.at, Given) else _auto(held, desk)
    if at is None or held.place_fault(at):
        return at, None
    span = held.layout.span_at(at)
    assert span is not None
    section = held.job.work[span.section_index]
    desk.given("holding.steady.diameter", "Band under the steady rest, diameter", section.od, "length")
    band = any(operation.turn is not None and operation.turn.band for operation in held.job.operations)
    if section.surface not in ("turned", "ground") and not band:
        known = "is rough" if section.surface == "rough" else "is not said to be turned"
        desk.find(
            "steady-band",
            "check",
            f"The place where the steady rest runs {known}. Turn a true band there first, a little wider "
            "than the fingers, or use a cat-head.",
            section.length.where,
        )
    return at, None


def _given(held: HeldWork, written: Given, desk: Desk) -> Length:
    at = desk.given("holding.steady.position", LABEL, written, "length")
    fault = held.place_fault(at)
    if fault:
        desk.find(
            "steady-place",
            "stop",
            f"The steady rest at {written.with_unit} from the chuck face {fault}. It runs on a turned, "
            "round, plain band that stays.",
            written.where,
            "Where may the steady rest run?",
        )
        return at
    if held.material is None or not held.cut_places():
        return at
    give, _ = held.worst(at)
    better = min(((held.worst(x)[0], x) for x in held.allowed_places()), default=None)
    if better is not None and better[0] < WORTH_MOVING * give:
        desk.find(
            "steady-better",
            "note",
            f"With the steady rest at {length_words(better[1], held.system)} from the chuck face the work "
            f"would give {1 - better[0] / give:.0%} less under the tool.",
            written.where,
        )
    return at


def _auto(held: HeldWork, desk: Desk) -> Length | None:
    places = held.allowed_places()
    if not places:
        desk.find(
            "steady-place",
            "stop",
            "There is no plain, round place for the steady rest that it takes and that leaves the carriage "
            "its room.",
            held.job.holding.grip.where,
            "Where may the steady rest run?",
        )
        desk.unknown("holding.steady.position", LABEL, "length", "no place for it")
        return None
    at, why = _best(held, places)
    desk.lay(Figure("holding.steady.position", LABEL, at, "length", Kind.COMPUTED, SOURCE, note=why))
    return at


def _best(held: HeldWork, places: list[Length]) -> tuple[Length, str]:
    """The place and the reason, as a machinist would give it."""
    if held.cut_end is None or not held.cut_places():
        wanted = OUT_TO * held.layout.stick_out
        at = min(places, key=lambda x: abs(x - wanted))
        return at, "about three quarters out, where the bending frequency is highest"
    before_cut = [x for x in places if x < held.cut_end] or places
    if held.material is None:
        return before_cut[-1], "as near to the cut as the carriage lets it stand; the material is unknown"
    at = min((held.worst(x)[0], x) for x in places)[1]
    tried = f"of {len(places)} places tried the thread gives least under the tool here"
    if at == before_cut[-1]:
        return at, f"as near to the cut as the carriage lets it stand: {tried}"
    return at, tried
