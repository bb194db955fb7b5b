"""Does the lathe take the work: chuck, steady rest, swing, length between centers, spindle bore, carriage.

What the lathe record does not say cannot be checked; `capacity_section` names it in one note.
"""

from __future__ import annotations

from generator.job.model import Job
from generator.job.shop import Lathe, LatheChuck, Range
from generator.sheet.desk import Desk
from generator.sheet.layout import Layout
from generator.sheet.model import Figure, Kind, Quantity
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import length_words
from generator.si import Length


def used_chuck(job: Job, lathe: Lathe) -> LatheChuck | None:
    """The lathe's chuck with the jaws that the job asks for."""
    return next((chuck for chuck in lathe.chucks if chuck.jaws == job.holding.chuck.jaws), None)


def capacity_section(
    job: Job, lathe: Lathe, layout: Layout, thread: ThreadPlan | None, steady_at: Length | None, desk: Desk
) -> None:
    """Compare the work with what the lathe takes; lay figures, findings, and what could not be checked."""
    unchecked: list[str] = []
    chuck = used_chuck(job, lathe)
    _chuck(job, lathe, chuck, layout, desk)
    _steady(job, lathe, layout, thread, steady_at, desk, unchecked)
    _swing(lathe, layout, thread, desk, unchecked)
    _length(job, lathe, chuck, layout, desk, unchecked)
    _bore(job, lathe, layout, desk, unchecked)
    if unchecked:
        desk.find(
            "not-checked",
            "note",
            f"Not checked, because the record of {lathe.name} says nothing of it: {', '.join(unchecked)}.",
        )


def _lay(desk: Desk, name: str, label: str, value: Length, limit: str) -> None:
    desk.lay(
        Figure(f"capacity.{name}", label, value, "length", Kind.COMPUTED, "the work's own sizes", note=limit)
    )


def _fits(range_: Range, diameter: Length) -> bool:
    return range_.from_.si <= diameter <= range_.to.si


def _range_words(range_: Range) -> str:
    return f"{range_.from_.with_unit} to {range_.to.with_unit}"


def _chuck(job: Job, lathe: Lathe, chuck: LatheChuck | None, layout: Layout, desk: Desk) -> None:
    asked = job.holding.chuck
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
    _lay(
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
            f"The work is {length_words(largest, lathe.units)} in the jaws; the {chuck.jaws}-jaw chuck of "
            f"{lathe.name} takes {_range_words(chuck.grips)}. Take another chuck or lathe.",
            asked.grip.where,
        )
    if len(gripped) > 1 or any(span.tapered for span in gripped):
        desk.find(
            "grip-uneven",
            "check",
            "The jaws would grip over a shoulder or a taper and hold on one edge only. Grip less, or use "
            "soft jaws bored to it.",
            asked.grip.where,
        )


def _steady(
    job: Job,
    lathe: Lathe,
    layout: Layout,
    thread: ThreadPlan | None,
    steady_at: Length | None,
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
            job.holding.chuck.grip.where,
        )
        return
    if span is not None:
        diameter = span.od_at(steady_at)
        _lay(
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
                f"The work is {length_words(diameter, lathe.units)} where the steady rest stands; the one of "
                f"{lathe.name} takes {_range_words(lathe.steady)}.",
                job.holding.chuck.grip.where,
            )
    if thread is None:
        return
    if lathe.carriage_left is None:
        unchecked.append("how far the carriage reaches from the tool towards the chuck (carriage_left)")
        return
    width = lathe.steady.width.si if lathe.steady.width else 0.0
    last = thread.relief_end if thread.relief_end is not None else thread.end
    room = last - (steady_at + width / 2)
    desk.computed(
        "capacity.carriage",
        "Room from the steady rest to the end of the cut",
        room,
        "length",
        "{end of the cut} − {steady} − {width} ÷ 2",
        {"end of the cut": (last, "length"), "steady": (steady_at, "length"), "width": (width, "length")},
        "geometry",
        note=f"the carriage needs {lathe.carriage_left.with_unit} on that side of the tool",
    )
    if 0 <= room < lathe.carriage_left.si:
        desk.find(
            "carriage-meets-steady",
            "stop",
            "The carriage meets the steady rest before the tool is at the end of the cut: there is "
            f"{length_words(room, lathe.units)}, the carriage needs {lathe.carriage_left.with_unit}. Move "
            "the steady towards the chuck, or set the tool out to the left.",
            job.holding.chuck.grip.where,
        )


def _swing(lathe: Lathe, layout: Layout, thread: ThreadPlan | None, desk: Desk, unchecked: list[str]) -> None:
    largest = max(max(span.od_start, span.od_end) for span in layout.spans)
    over_bed = lathe.swing.over_bed
    _lay(desk, "swing_over_bed", "Largest diameter", largest, f"{over_bed.with_unit} swings over the bed")
    if largest > over_bed.si:
        desk.find(
            "swing-bed",
            "stop",
            f"The work is {length_words(largest, lathe.units)} over; {lathe.name} swings "
            f"{over_bed.with_unit} over the bed. Take a larger lathe.",
        )
    over_slide = lathe.swing.over_cross_slide
    if over_slide is None:
        unchecked.append("the swing over the cross slide")
        return
    from_x = -layout.grip
    if thread is not None and lathe.carriage_left is not None:
        from_x = (thread.relief_end if thread.relief_end is not None else thread.end) - lathe.carriage_left.si
    passing = [max(span.od_start, span.od_end) for span in layout.spans if span.end > from_x]
    widest = max(passing, default=largest)
    _lay(
        desk,
        "swing_over_cross_slide",
        "Largest diameter over the cross slide",
        widest,
        f"{over_slide.with_unit} swings over the cross slide",
    )
    if widest > over_slide.si:
        desk.find(
            "swing-slide",
            "stop",
            f"{length_words(widest, lathe.units)} has to pass over the cross slide; {lathe.name} swings "
            f"{over_slide.with_unit} there.",
        )


def _length(
    job: Job, lathe: Lathe, chuck: LatheChuck | None, layout: Layout, desk: Desk, unchecked: list[str]
) -> None:
    if job.holding.behind_spindle is not None:
        return
    if chuck is None or chuck.length is None:
        unchecked.append("the length of the chuck")
        return
    formula, put = "{work} + {chuck}", {"work": layout.total, "chuck": chuck.length.si}
    if job.holding.center:
        if lathe.center_length is None:
            unchecked.append("the length of the center")
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
            f"Work, chuck and center take {length_words(need, lathe.units)}; {lathe.name} has "
            f"{lathe.between_centers.with_unit} between centers. Take a longer lathe, or pass the work "
            "through the spindle.",
            job.work[0].length.where,
        )


def _bore(job: Job, lathe: Lathe, layout: Layout, desk: Desk, unchecked: list[str]) -> None:
    if job.holding.behind_spindle is None:
        return
    if lathe.spindle.bore is None:
        unchecked.append("the spindle bore")
        return
    inside = layout.spans[0].od_start
    _lay(
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
            f"The bar is {length_words(inside, lathe.units)}; the spindle bore of {lathe.name} is "
            f"{lathe.spindle.bore.with_unit}. It does not pass.",
            job.holding.behind_spindle.where,
        )
