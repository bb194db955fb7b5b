"""Does the lathe take the work: chuck, rests, swing and gap, length between centers, spindle bore.

What the lathe's record does not say cannot be checked; it is handed on, and `unchecked_note` names it all in
one note, each with the key to fill in.
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.errors import Location
from generator.job.fields import Given
from generator.job.lathe import Head, Lathe, LatheChuck, LatheCollet, Range
from generator.job.model import Job
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout
from generator.sheet.model import Quantity, System
from generator.sheet.plans import ThreadPlan
from generator.sheet.swing import lay_size, swing_section
from generator.sheet.wording import length_words
from generator.si import Length


def used_chuck(job: Job, lathe: Lathe) -> LatheChuck | None:
    """The lathe's chuck with the jaws that the job asks for; None, too, where no chuck holds the work."""
    asked = job.holding.chuck
    if asked is None:
        return None
    return next((chuck for chuck in lathe.chucks if chuck.jaws == asked.jaws), None)


def used_head(job: Job, lathe: Lathe) -> Head | None:
    """What the lathe's record says of that which holds the work on the spindle; None where nothing."""
    holding = job.holding
    if holding.chuck is not None:
        return used_chuck(job, lathe)
    if holding.collet is not None:
        return used_collet(job, lathe)
    return lathe.faceplate if holding.faceplate is not None else lathe.headstock_center


def used_collet(job: Job, lathe: Lathe) -> LatheCollet | None:
    """The set of collets with one for the work's diameter; the first set where none has."""
    if job.holding.collet is None:
        return None
    size = job.work[0].od.si
    return next((one for one in lathe.collets if _fits(one.grips, size)), next(iter(lathe.collets), None))


def steady_where(job: Job) -> Location:
    """The line on the steady rest's place, or on the chuck where the file does not give one."""
    steady = job.holding.steady
    return steady.at.where if steady and isinstance(steady.at, Given) else job.holding.grip.where


def capacity_section(
    job: Job, lathe: Lathe, layout: Layout, thread: ThreadPlan | None, steady_at: Length | None, desk: Desk
) -> list[str]:
    """Compare the work with what the lathe takes; lay figures and findings, return what was not checked."""
    unchecked: list[str] = []
    chuck, system = used_chuck(job, lathe), job.units or lathe.units
    _chuck(job, lathe, chuck, layout, system, desk, unchecked)
    _steady(job, lathe, layout, steady_at, system, desk, unchecked)
    _follow_rest(job, lathe, thread, system, desk)
    swing_section(job, lathe, chuck, layout, thread, system, desk, unchecked)
    _length(job, lathe, chuck, layout, system, desk, unchecked)
    _bore(job, lathe, layout, system, desk, unchecked)
    return unchecked


def unchecked_note(lathe: Lathe, unchecked: Sequence[str], desk: Desk) -> None:
    """Name every check that could not be made for this job, with the key of the record that it needs."""
    if unchecked:
        desk.find(
            "not-checked",
            "note",
            f"Not checked, because the record of {lathe.name} says nothing of it: "
            f"{', '.join(dict.fromkeys(unchecked))}.",
        )


def _fits(range_: Range, diameter: Length) -> bool:
    return range_.from_.si <= diameter <= range_.to.si


def _range_words(range_: Range) -> str:
    return f"{range_.from_.with_unit} to {range_.to.with_unit}"


def _faceplate_words(lathe: Lathe, diameter: Length) -> str:
    """What the faceplate may do instead of a chuck that is too small."""
    plate = lathe.faceplate
    if plate is None or plate.diameter.si < diameter:
        return ""
    return (
        f" Its faceplate is {plate.diameter.with_unit}: clamped on it, balanced and turned slowly, the work "
        "may go."
    )


def _chuck(
    job: Job,
    lathe: Lathe,
    chuck: LatheChuck | None,
    layout: Layout,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    asked = job.holding.chuck
    if asked is None:
        return
    if chuck is None:
        known = " and ".join(f"{one.jaws}-jaw" for one in lathe.chucks)
        desk.find(
            "chuck-missing",
            "stop",
            f"{lathe.name} has no {asked.jaws}-jaw chuck; its record lists {known}. Choose one of those or "
            "another lathe.",
            asked.grip.where,
        )
        return
    gripped = [span for span in layout.spans if span.start < 0]
    largest = max(max(span.od_start, span.od_end) for span in gripped)
    lay_size(
        desk,
        "chuck",
        "Diameter in the jaws",
        largest,
        f"the {chuck.jaws}-jaw chuck takes {_range_words(chuck.grips)}",
    )
    if not _fits(chuck.grips, largest):
        desk.find(
            "chuck-range",
            "stop",
            f"The work is {length_words(largest, system)} in the jaws; the {chuck.jaws}-jaw chuck of "
            f"{lathe.name} takes {_range_words(chuck.grips)}. Take another chuck or lathe."
            f"{_faceplate_words(lathe, largest) if largest > chuck.grips.to.si else ''}",
            asked.grip.where,
        )
    if chuck.jaw_length is None:
        unchecked.append("whether the jaws are as long as the grip (chucks: jaw_length)")
    elif asked.grip.si > chuck.jaw_length.si:
        desk.find(
            "grip-past-jaws",
            "check",
            f"The grip is {asked.grip.with_unit}, but the jaws of this chuck are only "
            f"{chuck.jaw_length.with_unit} long. Measure both again: the stick-out counts from the jaw face.",
            asked.grip.where,
        )
    if any(span.tapered for span in gripped):
        desk.find(
            "grip-taper",
            "check",
            "The jaws would grip on a taper and hold on one edge only. Grip another place, or use soft jaws "
            "bored to it.",
            asked.grip.where,
        )


def _steady(
    job: Job,
    lathe: Lathe,
    layout: Layout,
    steady_at: Length | None,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    if steady_at is None:
        return
    span = layout.span_at(steady_at)
    if lathe.steady is None:
        desk.find(
            "steady-missing",
            "stop",
            f"{lathe.name} has no steady rest in its record. Take another lathe, or a center.",
            steady_where(job),
        )
        return
    if lathe.steady.width is None:
        unchecked.append("the width of the steady rest's fingers (steady: width)")
    if span is not None:
        diameter = span.od_at(steady_at)
        lay_size(
            desk,
            "steady",
            "Diameter at the steady rest",
            diameter,
            f"the steady rest takes {_range_words(lathe.steady)}",
        )
        if not _fits(lathe.steady, diameter):
            desk.find(
                "steady-range",
                "stop",
                f"The work is {length_words(diameter, system)} where the steady rest stands; the one of "
                f"{lathe.name} takes {_range_words(lathe.steady)}. Run it on another place, or take another "
                "lathe.",
                steady_where(job),
            )


def _follow_rest(
    job: Job, lathe: Lathe, thread: ThreadPlan | None, system: System, desk: Desk
) -> None:
    """The follow rest's range against the diameter it runs on."""
    if not job.holding.follow_rest:
        return
    rest = lathe.follow_rest
    if rest is None:
        desk.find(
            "follow-rest-missing",
            "stop",
            f"{lathe.name} has no follow rest in its record. Take another lathe, or a steady rest.",
            job.holding.grip.where,
        )
        return
    if thread is None or thread.internal:
        return
    lay_size(
        desk,
        "follow_rest",
        "Diameter at the follow rest",
        thread.blank,
        f"the follow rest takes {_range_words(rest)}",
    )
    if not _fits(rest, thread.blank):
        desk.find(
            "follow-rest-range",
            "stop",
            f"The follow rest runs on {length_words(thread.blank, system)}; the one of {lathe.name} takes "
            f"{_range_words(rest)}. Take a steady rest, or another lathe.",
            job.holding.grip.where,
        )


def _length(
    job: Job,
    lathe: Lathe,
    chuck: LatheChuck | None,
    layout: Layout,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    if job.holding.behind_spindle is not None:
        return
    if chuck is None or chuck.length is None:
        unchecked.append("the length of the chuck (chucks: length)")
        return
    formula, put = "{work} + {chuck}", {"work": layout.total, "chuck": chuck.length.si}
    if job.holding.center:
        if lathe.center_length is None:
            unchecked.append("the length of the center (center_length)")
        else:
            formula += " + {center}"
            put["center"] = lathe.center_length.si
    need = sum(put.values())
    quantities: dict[str, tuple[float, Quantity]] = {name: (value, "length") for name, value in put.items()}
    desk.computed(
        "capacity.between_centers",
        "Length needed between centers",
        need,
        "length",
        formula,
        quantities,
        "common practice, no source",
        note=f"{lathe.name} has {lathe.between_centers.with_unit}",
        rounds="up",
    )
    if need > lathe.between_centers.si:
        desk.find(
            "too-long",
            "stop",
            f"Work, chuck and center take {length_words(need, system)}; {lathe.name} has "
            f"{lathe.between_centers.with_unit} between centers. Take a longer lathe, or pass the work "
            "through the spindle.",
            job.work[0].length.where,
        )


def _bore(
    job: Job, lathe: Lathe, layout: Layout, system: System, desk: Desk, unchecked: list[str]
) -> None:
    if job.holding.behind_spindle is None:
        return
    if lathe.spindle.bore is None:
        unchecked.append("the spindle bore (spindle: bore)")
        return
    inside = layout.spans[0].od_start
    lay_size(
        desk,
        "spindle_bore",
        "Diameter through the spindle",
        inside,
        f"the spindle bore is {lathe.spindle.bore.with_unit}",
    )
    if inside > lathe.spindle.bore.si:
        desk.find(
            "spindle-bore",
            "stop",
            f"The bar is {length_words(inside, system)}; the spindle bore of {lathe.name} is "
            f"{lathe.spindle.bore.with_unit}. It does not pass: take a lathe with a larger bore.",
            job.holding.behind_spindle.where,
        )
