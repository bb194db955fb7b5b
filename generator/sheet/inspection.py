"""The inspection record: what to measure and to write down, with its limits and the instrument."""

from __future__ import annotations

from generator.sheet.desk import Desk
from generator.sheet.model import InspectionLine
from generator.sheet.plans import ThreadPlan

_PITCH = "thread.pitch_diameter.min", "thread.pitch_diameter.max"
_OUTSIDE = (
    InspectionLine("Major diameter", "thread.major.min", "thread.major.max", "micrometer"),
    InspectionLine(
        "Size over wires", "thread.over_wires.min", "thread.over_wires.max", "micrometer and wires"
    ),
    InspectionLine("Pitch diameter", *_PITCH, "from the wires, or thread micrometer"),
)
_INSIDE = (
    InspectionLine(
        "Minor diameter (bore)", "thread.minor.min", "thread.minor.max", "bore gauge, or plain plug gauge"
    ),
    InspectionLine(
        "Go thread plug goes in all the way", "thread.pitch_diameter.min", "", "go thread plug gauge"
    ),
    InspectionLine(
        "No-go thread plug goes in two turns at most", "", "thread.pitch_diameter.max",
        "no-go thread plug gauge",  # ISO 1502: two turns; ASME B1.2 allows three (both from memory)
    ),
    InspectionLine(
        "Size between best balls", "thread.between_balls.min", "thread.between_balls.max",
        "two balls and bore gauge, where there is no plug gauge",
    ),
)
_BY_TAPER_GAUGE = InspectionLine(
    "Taper gauge off flush, turns, by hand", "", "thread.gauge.turns_each_way", "taper ring or plug gauge"
)
_LENGTHS = (
    InspectionLine("Relief diameter", "", "relief.diameter", "caliper"),
    InspectionLine("Relief width", "relief.width", "", "caliper"),
    InspectionLine("Wall at the relief", "relief.wall", "", "caliper or ball micrometer"),
    InspectionLine("Full thread length", "thread.length", "", "rule"),
)
_ALLOWED = "thin.allowed"
_ON_LOBES = "indicator, or a bore gauge that sees these lobes"


def inspection(desk: Desk, thread: ThreadPlan | None) -> tuple[InspectionLine, ...]:
    """What to measure and to write down; only lines whose limits are known."""
    of_thread = () if thread is None else (*_sizes(thread), *_LENGTHS)
    return tuple(
        line for line in (*of_thread, *_thin(desk))
        if all(name in desk.figures for name in (line.low, line.high) if name)
    )


def _sizes(thread: ThreadPlan) -> tuple[InspectionLine, ...]:
    """Of the thread itself: of a taper thread the crests at its end, and what the gauge decides."""
    lines = _INSIDE if thread.internal else _OUTSIDE
    return (lines[0], _BY_TAPER_GAUGE) if thread.profile.taper else lines


def _thin(desk: Desk) -> tuple[InspectionLine, ...]:
    """Thin work is measured twice, gripped and let go: the difference is what the jaws did."""
    if "thin.kept.bore" in desk.figures:
        return _twice("Bore", _ON_LOBES)
    return _twice("Outside", "indicator") if "thin.kept.outside" in desk.figures else ()


def _twice(what: str, instrument: str) -> tuple[InspectionLine, ...]:
    """Out-of-round as radii: at a jaw and midway between two, before and after the jaws are slackened."""
    return (
        InspectionLine(
            f"{what}, gripped: radius at a jaw and midway, difference", "", _ALLOWED, instrument
        ),
        InspectionLine("The same, let go", "", _ALLOWED, instrument),
    )
