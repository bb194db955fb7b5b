"""Thread gauges on the sheet: their sizes, what each proves, how far the no-go may go, and what proves less.

`lay_gauges` lays the figures ``measure.gauge…``; the inspection record takes its limits from them.
"""

from __future__ import annotations

from generator.job.operations import Thread
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.plans import ThreadPlan
from generator.threads.gauging import PRACTICE, Gauging, LimitGauges, TaperGauges, limit_gauge_lines
from generator.threads.registry import family_of
from generator.threads.sizes import PutQuantity, SizeLine

LENGTHS: tuple[PutQuantity, ...] = ("length", "fine_length")
WEAR = later("the gauge's own error and wear come off the thread's tolerance")
FROM_MEMORY = later("from memory, check your copy")
MEASURED_BY = {
    "thread.over_wires": later("wires"), "measure.taper_wires": later("wires"),
    "thread.between_balls": later("balls"),
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
    remembered = say(" (from memory)") if "turns" in gauging.remembered else ""
    notes = {
        "gauge.go": (
            say(
                "in by hand over the whole length: pitch diameter, lead and flanks together let the mate "
                "in. Not the bore"
            ) if inside
            else say(
                "on by hand over the whole length: pitch diameter, lead and flanks together let the mate "
                "on. Not the major diameter"
            )
        ),
        "gauge.no_go": (
            say(
                "in {turns} turns at most{remembered}; bears on the flanks alone: the pitch diameter where "
                "it starts. Not lead, depth or taper",
                turns=gauging.turns, remembered=remembered,
            ) if inside
            else say(
                "on {turns} turns at most{remembered}; bears on the flanks alone: the pitch diameter where "
                "it starts. Not lead, depth or taper",
                turns=gauging.turns, remembered=remembered,
            )
        ),
    }
    asked = gauges_asked_for(operation, inside, desk)
    if operation.plating is not None:
        notes["gauge.go"] += say("; this is before plating: plated, the go gauge is of the basic size")
        notes["gauge.no_go"] += say("; this is before plating")
    lines = limit_gauge_lines(thread.limits, gauging)
    for line in lines:
        if line.name in notes:
            _lay(line, gauging, notes[line.name], thread, desk)
        elif asked:
            _lay(line, gauging, FROM_MEMORY if _remembered(line, gauging) else "", thread, desk)
    if asked and any(line.name == "gauge.no_go" for line in lines):
        desk.lay(
            Figure(
                "measure.gauge.no_go.turns",
                say("No-go gauge goes in, turns at most") if inside
                else say("No-go gauge goes on, turns at most"),
                gauging.turns,
                "count",
                _kind(gauging),
                gauging.standard,
                note=f"{FROM_MEMORY}; {WEAR}" if "turns" in gauging.remembered else WEAR,
            )
        )


def _remembered(crest: SizeLine, gauging: LimitGauges) -> bool:
    """Whether the rule for this crest is from memory: all of them, or that of the no-go gauge alone."""
    return "crests" in gauging.remembered or (
        "crest of the no-go ring" in gauging.remembered and "no_go" in crest.name
    )


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
        "measure.gauge.set", say("Gauges"), gauging.gauges, "text", kind, source, note=gauging.proves
    ))
    if gauging.apart is not None:
        desk.lay(
            Figure(
                "measure.gauge.apart",
                say("Second gauge off the first, turns at most"),
                gauging.apart,
                "ratio",
                kind,
                source,
                note=say("as gauge makers print it"),
            )
        )
    if gauging.plain:
        desk.lay(Figure(
            "measure.gauge.plain", say("For the crests"), gauging.plain, "text", kind, source,
            note=say("it must stand at the step that goes with where the thread gauge stood"),
        ))


def _lay_without(gauging: Gauging | None, thread: ThreadPlan, desk: Desk) -> None:
    """What stands in for a gauge, and what it does not prove."""
    mate, by = say("the mate: that this one fits, no size"), _measured_by(desk)
    label, value = say("Without a thread gauge"), say("{by}, or the mate", by=by) if by else say("the mate")
    if gauging is None:
        label, value = say("Instead of a thread gauge"), say("groove width, both diameters, and the mate")
        note = say("the groove and the diameters show no lead; {mate}", mate=mate)
    else:
        only = say("{by}: the pitch diameter at one place, not lead and flanks; ", by=by) if by else ""
        note = (
            say("{only}a plain plug gauge: the bore alone; {mate}", only=only, mate=mate) if thread.internal
            else say("{only}a plain ring gauge: the major diameter alone; {mate}", only=only, mate=mate)
        )
    if isinstance(gauging, LimitGauges) and gauging.remark:
        note += f". {gauging.remark}"
    desk.lay(Figure(
        "measure.gauge.without", label, value, "text", Kind.COMPUTED, PRACTICE, note=note
    ))
