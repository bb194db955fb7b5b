"""The inspection record: what to measure and to write down, with its limits and the instrument.

Which lines of the thread: those of what measures this thread, gauge, wires, balls, groove or mate.
"""

from __future__ import annotations

from collections.abc import Iterable

from generator.job.model import Job
from generator.job.operations import Thread
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.measure_gauges import gauges_asked_for
from generator.sheet.measure_micrometer import micrometer_reads
from generator.sheet.model import InspectionLine
from generator.sheet.plans import ThreadPlan
from generator.sheet.threading import thread_operation
from generator.threads.gauging import TaperGauges
from generator.threads.registry import family_of

_GROOVE = ("measure.groove_width", "thread.groove.width")
_BEFORE_PLATING = "thread.before_plating"
_MATE = InspectionLine(
    "mate", later("The mate goes by hand over the whole length"), "", "", later("the mate"), "goes"
)
_LENGTHS = (
    InspectionLine("relief_diameter", later("Relief diameter"), "", "relief.diameter", later("caliper")),
    InspectionLine("relief_width", later("Relief width"), "relief.width", "", later("caliper")),
    InspectionLine(
        "wall", later("Wall at the relief"), "relief.wall", "", later("caliper or ball micrometer")
    ),
    InspectionLine("length", later("Full thread length"), "thread.length", "", later("rule")),
)
_ALLOWED = "thin.allowed"
_ON_LOBES = later("indicator, or a bore gauge that sees these lobes")


def inspection(job: Job, desk: Desk, thread: ThreadPlan | None) -> tuple[InspectionLine, ...]:
    """What to measure and to write down; only lines whose limits are known."""
    operation = thread_operation(job)
    lines: list[InspectionLine] = []
    if thread is not None and operation is not None:
        lines = [*_sizes(desk, thread, operation), *_LENGTHS]
    return tuple(
        line for line in (*lines, *_thin(desk))
        if all(name in desk.figures for name in (line.low, line.high) if name)
    )


def _sizes(desk: Desk, thread: ThreadPlan, operation: Thread) -> Iterable[InspectionLine]:
    """Of the thread itself: its crests, then what measures its flanks, then the mate, where it decides."""
    yield (
        _between("minor", say("Minor diameter (bore)"), "minor", say("bore gauge, or plain plug gauge"), desk)
        if thread.internal else _between("major", say("Major diameter"), "major", say("micrometer"), desk)
    )
    gauging = family_of(thread.designation).gauging(thread.designation)
    if isinstance(gauging, TaperGauges):
        yield from _by_taper_gauges(gauging, thread.internal)
        yield _over_or_between(thread)
    elif gauging is None:
        yield (
            _between("root", say("Major diameter (root)"), "major", say("inside caliper with points"), desk)
            if thread.internal
            else _between("root", say("Minor diameter (root)"), "minor", say("caliper with blades"), desk)
        )
        groove = next((name for name in _GROOVE if f"{name}.max" in desk.figures), _GROOVE[0])
        yield InspectionLine(
            "groove", say("Groove width"), f"{groove}.min", f"{groove}.max", say("gauge block")
        )
    else:
        if gauges_asked_for(operation, thread.internal, desk):
            yield from _by_limit_gauges(thread.internal)
        yield _over_or_between(thread)
        if not thread.internal:
            yield from _pitch_diameter(micrometer_reads(thread), desk)
    if operation.fit == "mate" or gauging is None:
        yield _MATE


def _by_limit_gauges(inside: bool) -> Iterable[InspectionLine]:
    yield InspectionLine(
        "go",
        say("Go thread plug goes in all the way") if inside else say("Go thread ring goes on all the way"),
        "measure.gauge.go" if inside else "",
        "" if inside else "measure.gauge.go",
        say("go thread plug gauge") if inside else say("go thread ring gauge"),
        "goes",
    )
    yield InspectionLine(
        "no_go",
        say("No-go thread plug goes in, turns") if inside else say("No-go thread ring goes on, turns"),
        "",
        "measure.gauge.no_go.turns",
        say("no-go thread plug gauge") if inside else say("no-go thread ring gauge"),
        "turns",
    )


def _by_taper_gauges(gauging: TaperGauges, inside: bool) -> Iterable[InspectionLine]:
    yield InspectionLine(
        "taper_gauge", say("Taper gauge off flush, turns, by hand"), "", "thread.gauge.turns_each_way",
        gauging.gauges, "turns",
    )
    if gauging.apart is not None:
        yield InspectionLine(
            "second_gauge", say("Second gauge off the first, turns"), "", "measure.gauge.apart",
            say("both plug gauges") if inside else say("both ring gauges"), "turns",
        )
    if gauging.plain:
        yield InspectionLine(
            "crests", say("Crests: at the step that goes with it"), "", "", gauging.plain, "goes"
        )


def _over_or_between(thread: ThreadPlan) -> InspectionLine:
    """Over wires or between balls; at most or at least the one size, where the thread has one limit."""
    if thread.profile.taper:
        stem = "measure.taper_wires"
        return InspectionLine(
            "over_wires", say("Over three wires, laid where the sheet says"), f"{stem}.min", f"{stem}.max",
            say("micrometer and wires, without a gauge"),
        )
    stem, feature, instrument = (
        (
            "thread.between_balls",
            say("Size between balls"),
            say("two balls and bore gauge, without a plug gauge"),
        )
        if thread.internal
        else ("thread.over_wires", say("Size over wires"), say("micrometer and wires"))
    )
    low, high = f"{stem}.min", f"{stem}.max"
    last_place = 10**-thread.limits.places * thread.designation.unit_si
    if thread.pitch_diameter_max - thread.pitch_diameter_min < last_place:
        low, high = (low, "") if thread.internal else ("", high)
    return InspectionLine(stem.rpartition(".")[2], feature, low, high, instrument)


def _between(key: str, feature: str, diameter: str, instrument: str, desk: Desk) -> InspectionLine:
    """A diameter between its limits, or by the one it has: before plating, where it is plated afterwards."""
    before = f"{_BEFORE_PLATING}.{diameter}"
    plated = any(f"{before}.{end}" in desk.figures for end in ("min", "max"))
    low, high = (f"{before if plated else f'thread.{diameter}'}.{end}" for end in ("min", "max"))
    if low in desk.figures or high in desk.figures:
        low, high = (name if name in desk.figures else "" for name in (low, high))
    return InspectionLine(key, feature, low, high, instrument)


def _pitch_diameter(micrometer: bool, desk: Desk) -> Iterable[InspectionLine]:
    wires = "thread.over_wires.max" in desk.figures
    by = [
        word
        for word, there in ((say("from the wires"), wires), (say("thread micrometer"), micrometer))
        if there
    ]
    if by:
        yield _between("pitch_diameter", say("Pitch diameter"), "pitch_diameter", say(", or ").join(by), desk)


def _thin(desk: Desk) -> tuple[InspectionLine, ...]:
    """Thin work is measured twice, gripped and let go: the difference is what the jaws did."""
    if "thin.kept.bore" in desk.figures:
        what = say("Bore, gripped: radius at a jaw and midway, difference")
        return _twice(what, _ON_LOBES)
    if "thin.kept.outside" not in desk.figures:
        return ()
    return _twice(say("Outside, gripped: radius at a jaw and midway, difference"), say("indicator"))


def _twice(what: str, instrument: str) -> tuple[InspectionLine, ...]:
    """Out-of-round as radii: at a jaw and midway between two, before and after the jaws are slackened."""
    return (
        InspectionLine("gripped", what, "", _ALLOWED, instrument),
        InspectionLine("let_go", say("The same, let go"), "", _ALLOWED, instrument),
    )
