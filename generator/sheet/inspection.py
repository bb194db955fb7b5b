"""The inspection record: what to measure and to write down, with its limits and the instrument."""

from __future__ import annotations

from generator.sheet.desk import Desk
from generator.sheet.model import InspectionLine
from generator.sheet.plans import ThreadPlan


def inspection(desk: Desk, thread: ThreadPlan | None) -> tuple[InspectionLine, ...]:
    """What to measure and to write down; only lines whose limits are known."""
    if thread is None:
        return ()
    lines = (
        InspectionLine("Major diameter", "thread.major.min", "thread.major.max", "micrometer"),
        InspectionLine(
            "Size over wires", "thread.over_wires.min", "thread.over_wires.max", "micrometer and wires"
        ),
        InspectionLine(
            "Pitch diameter",
            "thread.pitch_diameter.min",
            "thread.pitch_diameter.max",
            "from the wires, or thread micrometer",
        ),
        InspectionLine("Relief diameter", "", "relief.diameter", "caliper"),
        InspectionLine("Relief width", "relief.width", "", "caliper"),
        InspectionLine("Wall at the relief", "relief.wall", "", "caliper or ball micrometer"),
        InspectionLine("Full thread length", "thread.length", "", "rule"),
    )
    return tuple(
        line for line in lines if all(name in desk.figures for name in (line.low, line.high) if name)
    )
