"""Thread gauges on the sheet: their sizes, what each proves, how far the no-go may go, and what proves less.

`lay_gauges` lays the figures ``measure.gauge…``; the inspection record takes its limits from them.
"""

from __future__ import annotations

from generator.job.operations import Thread
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.plans import ThreadPlan
from generator.threads.gauging import PRACTICE, Gauging, LimitGauges, TaperGauges, limit_gauge_lines
from generator.threads.registry import family_of
from generator.threads.sizes import PutQuantity, SizeLine

LENGTHS: tuple[PutQuantity, ...] = ("length", "fine_length")
WEAR = "the gauge's own error and wear come off the thread's tolerance"
FROM_MEMORY = "from memory, check your copy"
MEASURED_BY = {
    "thread.over_wires": "wires", "measure.taper_wires": "wires", "thread.between_balls": "balls"
}


def lay_gauges(operation: Thread, thread: ThreadPlan, desk: Desk) -> None:
    """Lay the gauges of this thread, and what a shop has that has none.

    Sizes are those of the thread as it is cut: before plating, where it is plated. The gauges' own crests and
    the turns are laid where the record asks for the gauges. A square thread has no gauge.
    """
    gauging = family_of(thread.designation).gauging(thread.designation)
    if isinstance(gauging, TaperGauges):
        _lay_taper(gauging, desk)
    elif gauging is not None:
        _lay_go_and_no_go(gauging, operation, thread, desk)
    _lay_without(gauging, thread, desk)


def gauges_asked_for(operation: Thread, internal: bool, desk: Desk) -> bool:
    """Whether the record asks for go and no-go gauges: one decides, or nothing else measures the flanks.

    Wires do not go inside: there a gauge decides, unless the mate does.
    """
    decides = operation.fit == "gauge" or (internal and operation.fit == "wires")
    return decides or not _measured_by(desk)


def _measured_by(desk: Desk) -> str:
    """What the pitch diameter of this thread is measured with on its sheet; empty: nothing."""
    return next((
        word for name, word in MEASURED_BY.items() if f"{name}.max" in desk.figures
    ), "")


def _lay_go_and_no_go(gauging: LimitGauges, operation: Thread, thread: ThreadPlan, desk: Desk) -> None:
    inside = thread.internal
    way, crests = ("in", "bore") if inside else ("on", "major diameter")
    remembered = " (from memory)" if "turns" in gauging.memory else ""
    notes = {
        "gauge.go": f"{way} by hand over the whole length: pitch diameter, lead and flanks together let the "
        f"mate {way}. Not the {crests}",
        "gauge.no_go": f"{way} {gauging.turns} turns at most{remembered}; bears on the flanks alone: the "
        "pitch diameter where it starts. Not lead, depth or taper",
    }
    asked = gauges_asked_for(operation, inside, desk)
    if operation.plating is not None:
        notes["gauge.go"] += "; this is before plating: plated, the go gauge is of the basic size"
        notes["gauge.no_go"] += "; this is before plating"
    lines = limit_gauge_lines(thread.limits, gauging)
    for line in lines:
        if line.name in notes:
            _lay(line, gauging, notes[line.name], thread, desk)
        elif asked:
            _lay(line, gauging, FROM_MEMORY if _remembered(line, gauging) else "", thread, desk)
    if asked and any(line.name == "gauge.no_go" for line in lines):
        desk.lay(Figure(
            "measure.gauge.no_go.turns", f"No-go gauge goes {way}, turns at most", gauging.turns, "count",
            _kind(gauging), gauging.standard,
            note=f"{FROM_MEMORY}; {WEAR}" if "turns" in gauging.memory else WEAR,
        ))


def _remembered(crest: SizeLine, gauging: LimitGauges) -> bool:
    """Whether the rule for this crest is from memory: all of them, or that of the no-go gauge alone."""
    return "crests" in gauging.memory or ("crest" in gauging.memory and "no_go" in crest.name)


def _kind(gauging: Gauging) -> Kind:
    return Kind.COMPUTED if gauging.standard == PRACTICE else Kind.STANDARD


def _lay(line: SizeLine, gauging: LimitGauges, note: str, thread: ThreadPlan, desk: Desk) -> None:
    """One size of a gauge, from the thread's own unit."""
    unit = thread.designation.unit_si
    put: dict[str, tuple[float, Quantity]] = {
        name: (value * unit if quantity in LENGTHS else value, quantity)
        for name, (value, quantity) in line.put.items()
    }
    desk.computed(
        f"measure.{line.name}", line.label, line.value * unit, "length", line.formula, put, gauging.standard,
        kind=_kind(gauging), note=note, system=thread.system, rounds=line.rounds,
    )


def _lay_taper(gauging: TaperGauges, desk: Desk) -> None:
    """Which gauges, and how far the second one may stand off the first."""
    kind, source = _kind(gauging), gauging.standard
    desk.lay(Figure(
        "measure.gauge.set", "Gauges", gauging.gauges, "text", kind, source, note=gauging.proves
    ))
    if gauging.apart is not None:
        desk.lay(Figure(
            "measure.gauge.apart", "Second gauge off the first, turns at most", gauging.apart, "ratio", kind,
            source, note="as gauge makers print it",
        ))
    if gauging.plain:
        desk.lay(Figure(
            "measure.gauge.plain", "For the crests", gauging.plain, "text", kind, source,
            note="it must stand at the step that goes with where the thread gauge stood",
        ))


def _lay_without(gauging: Gauging | None, thread: ThreadPlan, desk: Desk) -> None:
    """What stands in for a gauge, and what it does not prove."""
    mate, by = "the mate: that this one fits, no size", _measured_by(desk)
    label, value = "Without a thread gauge", f"{by}, or the mate" if by else "the mate"
    if gauging is None:
        label, value = "Instead of a thread gauge", "groove width, both diameters, and the mate"
        note = f"the groove and the diameters show no lead; {mate}"
    else:
        plain, crests = ("plug", "bore") if thread.internal else ("ring", "major diameter")
        only = f"{by}: the pitch diameter at one place, not lead and flanks; " if by else ""
        note = f"{only}a plain {plain} gauge: the {crests} alone; {mate}"
    if isinstance(gauging, LimitGauges) and gauging.remark:
        note += f". {gauging.remark}"
    desk.lay(Figure(
        "measure.gauge.without", label, value, "text", Kind.COMPUTED, PRACTICE, note=note
    ))
