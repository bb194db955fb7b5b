"""Sizes of a thread beside those over wires, measured at a pass: between balls, root diameter, groove width.

    further_sizes      those that were measured, each with its plan at that pass
    between_balls_at   the size between balls that a pass leaves
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from generator.calc import balls
from generator.errors import OutsideRange
from generator.job.log import Measured
from generator.language.say import say
from generator.sheet.happened import SizeTaken
from generator.sheet.lines import PassLine
from generator.sheet.logged import Logged
from generator.sheet.plans import ThreadPlan
from generator.si import Length, mm

BY_BALLS: Final = 0.02 * mm   # what a size between balls is known to: common practice, no source
BY_POINTS: Final = 0.05 * mm  # with a caliper or its points in a groove: common practice, no source


def further_sizes(measured: Measured | None, line: PassLine | None, logged: Logged) -> Iterator[SizeTaken]:
    """What was measured at a pass of the pass table, where its plan can be reckoned."""
    thread = logged.thread
    if measured is None or line is None or thread is None:
        return
    if measured.between_balls is not None and (between := between_balls_at(line, thread)) is not None:
        yield SizeTaken(say("between balls"), measured.between_balls.si, between, BY_BALLS)
    root = measured.major if thread.internal else measured.minor
    if root is not None and not thread.profile.taper:
        yield SizeTaken(say("root diameter"), root.si, _root(line, thread), BY_POINTS)
    if measured.width is not None and (groove := _groove(logged)) is not None:
        low, high = groove
        yield SizeTaken(
            say("groove along the axis"), measured.width.si, (low + high) / 2, (high - low) / 2 + BY_POINTS
        )


def between_balls_at(line: PassLine, thread: ThreadPlan) -> Length | None:
    """Size between the sheet's balls that a pass leaves (m); None outside, and while they would not seat."""
    ball, diameter = thread.ball, line.pitch_diameter
    if ball is None:
        return None
    try:
        low, high = thread.profile.usable_balls(
            thread.pitch, (diameter - thread.blank) / 2, (_root(line, thread) - diameter) / 2
        )
        if not low <= ball <= high:
            return None
        return balls.between_balls(diameter, ball, thread.pitch, thread.designation.starts, thread.flanks)
    except OutsideRange:
        return None


def _root(line: PassLine, thread: ThreadPlan) -> Length:
    """Diameter at the bottom of the groove after a pass: twice its depth from the diameter it is cut into."""
    return thread.blank + (2 if thread.internal else -2) * line.depth


def _groove(logged: Logged) -> tuple[Length, Length] | None:
    """Smallest and largest groove of a square thread, which every pass leaves alike; None of any other."""
    figures = logged.desk.figures
    found = [
        figures[name].value for name in (f"measure.groove_width{end}" for end in (".min", ".max", ""))
        if name in figures
    ]
    sizes = [value for value in found if isinstance(value, float)]
    return (min(sizes), max(sizes)) if sizes else None
