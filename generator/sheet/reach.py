"""Does the carriage get to the end of the cut before it meets the steady rest or the chuck?"""

from __future__ import annotations

from generator.errors import Location
from generator.job.fields import Given
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.sheet.desk import Desk
from generator.sheet.model import System
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import length_words
from generator.si import Length


def reach_section(
    job: Job, lathe: Lathe, thread: ThreadPlan, steady_at: Length | None, desk: Desk, unchecked: list[str]
) -> None:
    """Lay down the carriage's room; add to `unchecked` what the lathe's record does not say."""
    system = job.units or lathe.units
    if steady_at is not None:
        _to_steady(job, lathe, thread, steady_at, system, desk, unchecked)
    _to_chuck(job, lathe, thread, steady_at, system, desk, unchecked)


def steady_where(job: Job) -> Location:
    """The line on the steady rest's place, or on the chuck where the file does not give one."""
    steady = job.holding.steady
    return steady.at.where if steady and isinstance(steady.at, Given) else job.holding.chuck.grip.where


def _cut_end(thread: ThreadPlan) -> Length:
    """Where the tool is nearest to the chuck (m)."""
    return thread.relief_end if thread.relief_end is not None else thread.end


def _to_steady(
    job: Job,
    lathe: Lathe,
    thread: ThreadPlan,
    steady_at: Length,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    """Does the carriage get to the end of the cut that faces the steady rest?"""
    cut_end = _cut_end(thread)
    towards_chuck = steady_at < cut_end
    side = "chuck" if towards_chuck else "tailstock"
    needs = lathe.carriage_left if towards_chuck else lathe.carriage_right
    if needs is None:
        key = "carriage_left" if towards_chuck else "carriage_right"
        unchecked.append(f"how far the carriage reaches from the tool towards the {side} ({key})")
        return
    last = cut_end if towards_chuck else thread.start
    half = lathe.steady.width.si / 2 if lathe.steady and lathe.steady.width else 0.0
    room = (last - steady_at if towards_chuck else steady_at - last) - half
    distance = "{end of the cut} − {steady}" if towards_chuck else "{steady} − {end of the cut}"
    desk.computed(
        "capacity.carriage",
        "Room from the steady rest to the end of the cut",
        room,
        "length",
        f"{distance} − {{width}} ÷ 2",
        {"end of the cut": (last, "length"), "steady": (steady_at, "length"), "width": (2 * half, "length")},
        "geometry",
        note=f"the carriage needs {needs.with_unit} on that side of the tool",
        rounds="down",
    )
    if 0 <= room < needs.si:
        desk.find(
            "carriage-meets-steady",
            "stop",
            "The carriage meets the steady rest before the tool is at the end of the cut: there is "
            f"{length_words(room, system)}, the carriage needs {needs.with_unit}. Move the steady towards "
            f"the {side}, or set the tool over to that side.",
            steady_where(job),
        )


def _to_chuck(
    job: Job,
    lathe: Lathe,
    thread: ThreadPlan,
    steady_at: Length | None,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    """Is the end of the cut clear of the jaws, and does the carriage get there?"""
    cut_end = _cut_end(thread)
    grip = job.holding.chuck.grip
    if cut_end <= 0:
        desk.find(
            "cut-in-jaws",
            "stop",
            f"The cut ends {length_words(-cut_end, system)} inside the jaws, which hold {grip.with_unit} of "
            "the work. Grip less, or turn the work end for end.",
            grip.where,
        )
        return
    if steady_at is not None and steady_at < cut_end:
        return  # the steady rest stands nearer than the chuck
    if lathe.carriage_left is None:
        unchecked.append("how far the carriage reaches from the tool towards the chuck (carriage_left)")
        return
    room = desk.computed(
        "capacity.carriage_to_chuck",
        "Room from the jaws to the end of the cut",
        cut_end,
        "length",
        "{end of the cut} from the chuck face",
        {"end of the cut": (cut_end, "length")},
        "geometry",
        note=f"the carriage needs {lathe.carriage_left.with_unit} on that side of the tool",
        rounds="down",
    )
    if room < lathe.carriage_left.si:
        desk.find(
            "carriage-meets-chuck",
            "check",
            f"From the jaws to the end of the cut there is {length_words(room, system)}; carriage and tool "
            f"holder reach {lathe.carriage_left.with_unit} to the left of the tool. Before starting, run the "
            "carriage there by hand with the chuck turned by hand; if they touch, grip less or set the tool "
            "out to the left.",
            grip.where,
        )
