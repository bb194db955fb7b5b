"""Chamfers, and the lead-in that a seal ring has to pass."""

from __future__ import annotations

import math

from generator.job.operations import Chamfer
from generator.language.say import later, say
from generator.sheet.figure import Kind
from generator.sheet.operation_cuts import CROSS_SLIDE, lay_dial
from generator.sheet.operation_feed import lay_by_hand
from generator.sheet.operation_load import lay_load, lay_plunge
from generator.sheet.operation_places import Place
from generator.sheet.operation_plunge import lay_depth_time
from generator.sheet.operation_speed import lay_speed
from generator.sheet.operation_task import PRACTICE, Done, Task, done
from generator.sheet.operation_tool import USUAL_CHAMFER
from generator.sheet.operation_turn import off_work
from generator.si import Length, degree

SAME = 1e-6
SEAL = later("seal makers' guidance for rubber rings: 15 to 20 degrees, up to 30")
LEAD_IN, LEAD_IN_WIDEST = (15 * degree, 20 * degree), 30 * degree


def chamfer(task: Task) -> Done:
    """Chamfer an end, or cut the lead-in that a seal ring has to pass."""
    given, lies, thread = task.entry.given, task.place, task.bench.thread
    assert isinstance(given, Chamfer)
    inside = lies.inside
    low, high = (lies.start, lies.start + 2 * SAME) if given.end == "left" else (lies.start, lies.start)
    has = task.work.bore(low, high) if inside else task.work.largest(low, high)
    if has is None:
        return off_work(task)
    angle = _lay_angle(task, given)
    depth = _chamfer_depth(task, given, angle, has)
    if given.lead_in:
        _check_lead_in(task, given, angle)
    if depth is not None:
        lay_dial(task, depth, task.bench.lathe.cross_dial, CROSS_SLIDE)
    diameter = has + 2 * (depth or 0.0) if inside else has
    step = lay_speed(task, "chamfer", diameter if diameter > 0 else None, say("the bore is not known"))
    feed = lay_by_hand(task, "chamfer")
    edge = depth / math.sin(angle) if depth and 0 < angle < math.pi else None
    force = lay_plunge(task, edge, feed.fast, say("the depth is unknown"))
    power = lay_load(task, force, diameter if diameter > 0 else None, step)
    time = lay_depth_time(task, depth, feed, step, 1)
    if thread is not None and not given.lead_in and _at_thread(task):
        task.remarks.append(say("to the root of the thread, or just below"))
    after = None if depth is None else has + 2 * depth if inside else has - 2 * depth
    wide = depth / math.tan(angle) if depth and angle < math.pi / 2 else lies.length
    end = lies.start - wide if given.end != "left" else lies.start + wide
    return done(
        task, has, max(after, 0.0) if after is not None else None, task.work,
        place=Place(lies.start, end, inside), step=step, depths=(depth,) if depth else (), force=force,
        power=power, time=time,
    )


def _lay_angle(task: Task, given: Chamfer) -> float:
    words = say("angle to the axis")
    if given.angle is not None:
        return task.given("angle", words, given.angle, "angle")
    usual = LEAD_IN[0] if given.lead_in else USUAL_CHAMFER
    task.chosen(
        "angle",
        words,
        usual,
        "angle",
        Kind.ASSUMED,
        SEAL if given.lead_in else PRACTICE,
        note=say("nobody said"),
    )
    return usual


def _chamfer_depth(task: Task, given: Chamfer, angle: float, has: Length) -> Length | None:
    """Radial depth: its own, from its width, from its diameter, or down to the root of the thread there."""
    words, wide = say("depth, radial"), given.width or given.length
    if given.depth is not None:
        return task.given("depth", words, given.depth, "length")
    if wide is not None and angle < math.pi / 2:
        return task.computed(
            "depth", words, wide.si * math.tan(angle), "length", "{width} × tan {angle}",
            {"width": (wide.si, "length"), "angle": (angle, "angle")}, say("geometry"),
        )
    if given.diameter is not None and abs(given.diameter.si - has) > SAME:
        return task.computed(
            "depth", words, abs(given.diameter.si - has) / 2, "length", say("difference of {D} and {d} ÷ 2"),
            {"D": (has, "length"), "d": (given.diameter.si, "length")}, say("geometry"),
        )
    thread = task.bench.thread
    if thread is not None and not given.lead_in and _at_thread(task):
        return task.computed(
            "depth", words, thread.depth, "length", "{depth of thread}",
            {"depth of thread": (thread.depth, "length")}, PRACTICE, kind=Kind.ASSUMED,
            note=say("down to the root; nobody said"),
        )
    task.unknown("depth", words, "length", say("nobody said how wide or how deep"))
    return None


def _at_thread(task: Task) -> bool:
    """True at the end where the thread starts."""
    thread = task.bench.thread
    return (
        thread is not None
        and thread.internal == task.place.inside
        and abs(task.place.start - thread.start) <= SAME
    )


def _check_lead_in(task: Task, given: Chamfer, angle: float) -> None:
    low, high = LEAD_IN
    where = given.angle.where if given.angle else None
    if angle > LEAD_IN_WIDEST + SAME:
        task.find(
            "lead-in-steep", "check",
            say(
                "The seal lead-in at {angle:.3g} degrees is steep; {low:g} to {high:g} degrees to the axis "
                "are wanted ({seal}). A steep one cuts the ring.",
                angle=angle / degree, low=low / degree, high=high / degree, seal=SEAL,
            ),
            where, say("May the lead-in be slower?"),
        )
    elif not low - SAME <= angle <= high + SAME:
        task.find(
            "lead-in-angle", "note",
            say(
                "The seal lead-in has {angle:.3g} degrees; usual are {low:g} to {high:g} degrees to the "
                "axis ({seal}).",
                angle=angle / degree, low=low / degree, high=high / degree, seal=SEAL,
            ),
            where,
        )
    task.find(
        "lead-in-ring", "note",
        say(
            "Before {what} measure the seal ring free: the lead-in has to begin beyond its free size, and "
            "its edges are rounded and polished, or the ring is cut on the way in.",
            what=task.what,
        ),
        asks=say("What is the free diameter of the seal ring?"),
    )
    task.remarks.append(say("edges rounded, no burr"))
