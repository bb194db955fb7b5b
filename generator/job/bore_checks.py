"""Contradictions of an internal thread: its room in the bore, its recess, the bore before threading."""

from __future__ import annotations

from collections.abc import Iterator

from generator.errors import OutsideRange
from generator.job.contradiction import SAME, Contradiction, length_like, said
from generator.job.model import Section
from generator.job.operations import Bore, Relief, Thread
from generator.job.reading import ReadJob
from generator.job.work_checks import bore_from, section_at, total_length
from generator.job.written import Given
from generator.language.say import say
from generator.threads.registry import Designation, limits, profile


def bore_room(read: ReadJob, thread: Thread, section: Section, start: float) -> Iterator[Contradiction]:
    """Does the bore of its section hold thread and recess? `start` is counted from the chuck end (m)."""
    length, room = thread.length, start - bore_from(read.job.work, section)
    if length.si > room + SAME:
        yield Contradiction(
            "thread-too-long",
            "stop",
            say(
                "The thread is {length} long, and the bore there goes {length_like} deep (line {line}).",
                length=said(length),
                length_like=length_like(room, length),
                line=section.length.where.line,
            ),
            length.where,
            say("How long is the thread, and how deep is the bore?"),
        )
        return
    for operation in read.job.operations:
        if operation.relief is not None:
            yield from _recess(operation.relief, thread, section, room)


def _recess(relief: Relief, thread: Thread, section: Section, room: float) -> Iterator[Contradiction]:
    diameter = relief.diameter
    there = say("the bore there goes {depth} deep", depth=length_like(room, thread.length))
    yield from relief_room(relief, thread, section, room, there)
    if diameter is not None and section.bore is not None and diameter.si <= section.bore.si + SAME:
        yield Contradiction(
            "relief-not-above",
            "stop",
            say(
                "The relief diameter {diameter} is not over the bore of {bore}.",
                diameter=said(diameter),
                bore=said(section.bore),
            ),
            diameter.where,
            say("What is the diameter of the relief?"),
        )
    if diameter is not None and diameter.si >= section.od.si - SAME:
        yield Contradiction(
            "relief-through-wall",
            "stop",
            say(
                "The relief diameter {diameter} reaches the outside diameter of {od}.",
                diameter=said(diameter),
                od=said(section.od),
            ),
            diameter.where,
            say("What are the diameters of the relief and of the outside?"),
        )


def relief_room(
    relief: Relief, thread: Thread, section: Section, room: float, there: str
) -> Iterator[Contradiction]:
    """Is there room (m) for thread and relief? `there` says in words how much."""
    length, width = thread.length, relief.width
    if length.si + width.si > room + SAME:
        yield Contradiction(
            "relief-too-wide",
            "stop",
            say(
                "The thread of {length} and its relief of {width} need {needed}, and {there} (line {line}).",
                length=said(length),
                width=said(width),
                needed=length_like(length.si + width.si, length),
                there=there,
                line=section.length.where.line,
            ),
            width.where,
            say("How much shorter may the thread or the relief be?"),
        )


def bore_contradictions(
    read: ReadJob, place: int, named: str, thread: Thread, designation: Designation
) -> Iterator[Contradiction]:
    """The bore before threading against the limits of the minor diameter."""
    try:
        minor = limits(designation).minor
    except OutsideRange:
        return  # the sheet says so where it works the limits
    if minor.min is None or minor.max is None:
        return
    unit, digits = (" in", 4) if designation.unit == "in" else (" mm", 3)
    allowed = say(
        "{min:.{digits}f} to {max:.{digits}f}{unit}", min=minor.min, digits=digits, max=minor.max, unit=unit
    )
    least, largest = minor.min * designation.unit_si, minor.max * designation.unit_si
    if profile(designation).taper:
        least = 0.0  # the taper is bored from a straight bore, which ends smaller than the face
    start = total_length(read.job.work) - (thread.from_end.si if thread.from_end else 0.0)
    section = section_at(read.job.work, start - SAME)[0]
    bores = [
        operation.given for operation in read.job.operations[:place] if isinstance(operation.given, Bore)
    ]
    bored = [cut.diameter for cut in bores if cut.diameter is not None]
    before = thread.blank or section.bore
    if before is not None and before.si > largest + SAME:
        yield _over(before, named, allowed, designation)
    elif thread.blank is None and bored:
        if bored[-1].si > largest + SAME:
            yield _over(bored[-1], named, allowed, designation)
        elif bored[-1].si < least - SAME:
            yield _under(bored[-1], named, allowed)
    elif before is not None and before.si < least - SAME and (thread.blank is not None or not bores):
        yield _under(before, named, allowed)
    elif before is None and not bores:
        yield Contradiction(
            "bore-missing",
            "stop",
            say(
                "{named} is an internal thread, and its section has no bore (line {line}); no "
                "bore operation before the thread makes one. It wants {allowed} before threading.",
                named=named,
                line=section.od.where.line,
                allowed=allowed,
            ),
            section.od.where,
            say("How large is the bore, or is the thread outside?"),
        )


def _over(bore: Given, named: str, allowed: str, designation: Designation) -> Contradiction:
    how = f", {bore.origin}" if bore.kind == "measured" else ""
    own = designation.nominal * designation.unit_si
    hint = (
        say(" If that is the thread's own size, write the bore as it is before threading.")
        if abs(bore.si - own) <= SAME else ""
    )
    text = say(
        "The bore is {bore}{how}, and {named} wants {allowed} before threading: the crests would be too low "
        "for the class.",
        bore=said(bore),
        how=how,
        named=named,
        allowed=allowed,
    )
    return Contradiction(
        "bore-over", "stop", text + hint, bore.where,
        say("Was the bore measured where the thread goes? May the thread be larger, or is a bushing wanted?"),
    )


def _under(bore: Given, named: str, allowed: str) -> Contradiction:
    how = f", {bore.origin}" if bore.kind == "measured" else ""
    return Contradiction(
        "bore-under",
        "stop",
        say(
            "The bore is {bore}{how}, and {named} wants {allowed} before threading. Bore it out first, as "
            "an operation before the thread, and measure again.",
            bore=said(bore),
            how=how,
            named=named,
            allowed=allowed,
        ),
        bore.where,
        say("Is the bore right, and was it measured where the thread goes?"),
    )
