"""Contradictions of the thread: beside its designation, its room on the work, its blank.

Those with its mate are in `mate_checks`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from generator.errors import OutsideRange
from generator.job.bore_checks import bore_contradictions, bore_room, relief_room
from generator.job.contradiction import SAME, Contradiction, length_like, number, said
from generator.job.mate_checks import mate_contradictions, within
from generator.job.model import Mate, Section
from generator.job.operations import Relief, Thread
from generator.job.reading import ReadJob
from generator.job.work_checks import section_at, section_lines, straight_from, total_length
from generator.job.written import Given
from generator.language.lists import and_words
from generator.language.say import later, say, say_count
from generator.threads.engagement import in_words
from generator.threads.registry import Designation, family_of, limits, profile

WRITTEN_TAPER: Final = 0.002  # of 1: from diameters written to three decimals over an inch or so
SAME_PITCH: Final = 1e-3  # relative: 0.1429 in for 1/7 in is the same pitch


def thread_contradictions(
    read: ReadJob, place: int, thread: Thread, designation: Designation
) -> Iterator[Contradiction]:
    """All of one thread operation; `place` is its place in `operations`."""
    at = f"operations.{place}.thread"
    named = say(
        "{designation} (line {line})",
        designation=thread.designation,
        line=read.where(f"{at}.designation").line,
    )
    yield from _said_beside(read, at, named, thread, designation)
    yield from _room(read, thread, designation)
    if designation.internal:
        yield from bore_contradictions(read, place, named, thread, designation)
    else:
        yield from _blank(read, place, named, thread, designation)
    yield from _engagement(read, at, named, thread, designation)
    yield from mate_contradictions(read, named, designation)


_TWICE: Final = {
    "thread": later(
        "There are {count} thread operations (lines {lines}). A sheet is one setup with one thread: write "
        "the next one as a job of its own."
    ),
    "relief": later(
        "There are {count} relief operations (lines {lines}). A sheet is one setup with one thread: write "
        "the next one as a job of its own."
    ),
}


def one_of_each(read: ReadJob) -> Iterator[Contradiction]:
    """A sheet has one thread and its one relief."""
    for name, text in _TWICE.items():
        places = [
            read.where(f"operations.{place}.{name}")
            for place, operation in enumerate(read.job.operations)
            if getattr(operation, name) is not None
        ]
        if len(places) > 1:
            yield Contradiction(
                f"{name}-twice",
                "stop",
                say(text, count=len(places), lines=and_words([str(one.line) for one in places])),
                places[1],
            )


def _said_beside(
    read: ReadJob, at: str, named: str, thread: Thread, designation: Designation
) -> Iterator[Contradiction]:
    def differs(key: str, is_: str, says: str, asks: str, hint: str = "") -> Contradiction:
        where = read.where(f"{at}.{key}")
        text = say(
            "The designation {named} {is_}, and {key} beside it (line {line}) says {says}.{hint}",
            named=named,
            is_=is_,
            key=key,
            line=where.line,
            says=says,
            hint=hint,
        )
        return Contradiction(f"{key}-differs", "stop", text, where, asks)

    if thread.hand and thread.hand != designation.hand:
        hint = (
            say(" A left-hand thread has LH at the end of its designation.") if thread.hand == "left" else ""
        )
        is_ = say("is a left-hand thread") if designation.hand == "left" else say("is a right-hand thread")
        yield differs("hand", is_, thread.hand, say("Is the thread right-hand or left-hand?"), hint)

    pitch = float(designation.pitch) * designation.unit_si
    if thread.pitch and abs(thread.pitch.si - pitch) > SAME_PITCH * pitch:
        has = say("has a pitch of {length_like}", length_like=length_like(pitch, thread.pitch))
        yield differs("pitch", has, thread.pitch.with_unit, say("What is the pitch?"))

    if thread.tpi and designation.tpi is None:
        has = say("has a pitch of {number} mm", number=number(float(designation.pitch)))
        asks = say("Is it a metric thread or an inch thread?")
        yield differs("tpi", has, say("{text} in one inch", text=thread.tpi.text), asks)
    elif thread.tpi and designation.tpi is not None and thread.tpi.exact != designation.tpi:
        has = say("has {number} threads in one inch", number=number(float(designation.tpi)))
        yield differs("tpi", has, thread.tpi.text, say("How many threads are there in one inch?"))

    if thread.class_ and _class(thread.class_, designation) != designation.class_:
        has = (
            say("names no class")
            if designation.class_assumed
            else say("is of class {class_}", class_=designation.class_)
        )
        hint = say(" Write the class in the designation.") if designation.class_assumed else ""
        yield differs("class", has, thread.class_, say("Which class of fit is wanted?"), hint)

    if thread.starts is not None and thread.starts != designation.starts:
        has = say_count("has 1 start", "has {count} starts", designation.starts)
        yield differs("starts", has, str(thread.starts), say("How many starts does the thread have?"))

    if thread.units and thread.units != ("inch" if designation.unit == "in" else "mm"):
        has = say("is an inch thread") if designation.unit == "in" else say("is a metric thread")
        yield differs("units", has, thread.units, say("Is it a metric thread or an inch thread?"))


def _engagement(
    read: ReadJob, at: str, named: str, thread: Thread, designation: Designation
) -> Iterator[Contradiction]:
    """The length of engagement as the designation, the thread and the mate say it, two by two."""
    asks = say("How much of the thread goes into its mate?")
    mate = read.job.mate if isinstance(read.job.mate, Mate) else None
    beside, of_mate = thread.engagement, mate.engagement if mate else None
    asked = family_of(designation).engagements(designation)
    for given, key in ((beside, f"{at}.engagement"), (of_mate, "mate.engagement")):
        if given is None or asked is None or within(given.si / designation.unit_si, asked):
            continue
        yield Contradiction(
            "engagement-differs",
            "stop",
            say(
                "The designation {named} asks for an engagement of {in_words}, and the engagement of the "
                "mate (line {line}) is {with_unit}.",
                named=named,
                in_words=in_words(asked, designation.unit),
                line=read.where(key).line,
                with_unit=given.with_unit,
            )
            if given is of_mate
            else say(
                "The designation {named} asks for an engagement of {in_words}, and the engagement beside it "
                "(line {line}) is {with_unit}.",
                named=named,
                in_words=in_words(asked, designation.unit),
                line=read.where(key).line,
                with_unit=given.with_unit,
            ),
            read.where(key),
            asks,
        )
    if beside and of_mate and not within(beside.si, (of_mate.si, of_mate.si)):
        yield Contradiction(
            "engagement-differs", "check",
            say(
                "The limits of {named} are to be for an engagement of {beside}, and the mate's is {of_mate}.",
                named=named,
                beside=said(beside),
                of_mate=said(of_mate),
            ),
            beside.where, asks,
        )


def _class(text: str, designation: Designation) -> str:
    """A Unified class in capitals; a metric class as written, for its letter's case means shaft or hole."""
    text = text.replace(" ", "")
    return text.upper() if designation.family == "UN" else text


def _room(read: ReadJob, thread: Thread, designation: Designation) -> Iterator[Contradiction]:
    work, length = read.job.work, thread.length
    pitch = float(designation.pitch) * designation.unit_si
    if length.si < pitch - SAME:
        yield Contradiction(
            "thread-too-short",
            "stop",
            say(
                "The thread is {length} long, less than one pitch of {length_like}.",
                length=said(length),
                length_like=length_like(pitch, length),
            ),
            length.where,
            say("How long is the thread?"),
        )
    total = total_length(work)
    start = _start(work, thread)
    if thread.from_end and start <= SAME:
        yield Contradiction(
            "thread-outside",
            "stop",
            say(
                "The thread starts {from_end} from the tailstock end, and the work is "
                "{length_like} long ({section_lines}).",
                from_end=said(thread.from_end),
                length_like=length_like(total, thread.from_end),
                section_lines=section_lines(work),
            ),
            thread.from_end.where,
            say("Where does the thread start?"),
        )
        return
    section, begins = section_at(work, start - SAME)
    if designation.internal:
        yield from bore_room(read, thread, section, start)
        return
    if section.od_end is not None and abs(section.od_end.si - section.od.si) > SAME:
        yield from _on_taper(thread, designation, section, section.od_end)
    if length.si > start - begins + SAME:
        yield Contradiction(
            "thread-too-long",
            "stop",
            say(
                "The thread is {length} long, and its section has room for {length_like} (line {line}).",
                length=said(length),
                length_like=length_like(start - begins, length),
                line=section.length.where.line,
            ),
            length.where,
            say("How long is the thread, and how long is the section?"),
        )
        return
    straight = start - straight_from(work, section)
    for operation in read.job.operations:
        if operation.relief is not None:
            yield from _relief(operation.relief, thread, section, straight)


def _on_taper(
    thread: Thread, designation: Designation, section: Section, end: Given
) -> Iterator[Contradiction]:
    """A thread on a tapered section: right only for a taper thread with its small end at the tailstock."""
    own = (section.od.si - end.si) / section.length.si
    wanted = profile(designation).taper
    if wanted and abs(own - wanted) <= WRITTEN_TAPER:
        return
    tapers = say("lies on a section that tapers from {od} to {end}", od=said(section.od), end=said(end))
    if not wanted:
        text, asks = f"{tapers}.", say("Is the section straight, or is a taper thread wanted?")
    else:
        lean = say("it grows towards the tailstock") if own < 0 else say("1 in {length:.4g}", length=1 / own)
        wants = say(
            "{text} wants 1 in {length:.4g}, small end at the tailstock",
            text=designation.text,
            length=1 / wanted,
        )
        text = f"{tapers}: {lean}. {wants}."
        asks = say("What are the diameters at both ends of the thread?")
    yield Contradiction(
        "thread-on-taper",
        "stop",
        say("The thread of {length} {text}", length=said(thread.length), text=text),
        thread.length.where,
        asks,
    )


def _relief(relief: Relief, thread: Thread, section: Section, straight: float) -> Iterator[Contradiction]:
    diameter = relief.diameter
    there = say("there is room for {length} up to the shoulder", length=length_like(straight, thread.length))
    yield from relief_room(relief, thread, section, straight, there)
    if diameter is not None and diameter.si >= section.od.si - SAME:
        yield Contradiction(
            "relief-not-below",
            "stop",
            say(
                "The relief diameter {diameter} is not below the outside diameter {od}.",
                diameter=said(diameter),
                od=said(section.od),
            ),
            diameter.where,
            say("What is the diameter of the relief?"),
        )
    if diameter is not None and section.bore is not None and diameter.si <= section.bore.si + SAME:
        yield Contradiction(
            "relief-into-bore",
            "stop",
            say(
                "The relief diameter {diameter} reaches the bore of {bore}.",
                diameter=said(diameter),
                bore=said(section.bore),
            ),
            diameter.where,
            say("What are the diameters of the relief and of the bore?"),
        )


def _start(work: list[Section], thread: Thread) -> float:
    """Where the thread starts, from the chuck end of the work (m)."""
    return total_length(work) - (thread.from_end.si if thread.from_end else 0.0)


def _blank(
    read: ReadJob, place: int, named: str, thread: Thread, designation: Designation
) -> Iterator[Contradiction]:
    try:
        major = limits(designation).major
    except OutsideRange:
        return  # the sheet says so where it works the limits
    if major.min is None or major.max is None:
        return
    unit, digits = (" in", 4) if designation.unit == "in" else (" mm", 3)
    allowed = say(
        "{min:.{digits}f} to {max:.{digits}f}{unit}", min=major.min, digits=digits, max=major.max, unit=unit
    )
    least, largest = major.min * designation.unit_si, major.max * designation.unit_si
    nominal = designation.nominal * designation.unit_si
    section = section_at(read.job.work, _start(read.job.work, thread) - SAME)[0]
    blank, od = thread.blank, section.od_end or section.od
    if blank is not None:
        how = f", {blank.origin}" if blank.kind == "measured" else ""
        if blank.si > largest + 1e-9:
            yield Contradiction(
                "blank-over", "stop",
                say(
                    "The blank is {blank}{how}, and {named} wants {allowed}. Turn it down first and measure "
                    "again.",
                    blank=said(blank),
                    how=how,
                    named=named,
                    allowed=allowed,
                ),
                blank.where, say("Was the blank measured where the thread goes?"),
            )
        elif blank.si < least - 1e-9:
            yield Contradiction(
                "blank-under", "stop",
                say(
                    "The blank is {blank}{how}, and {named} wants {allowed}. The crests would be too low for "
                    "the class.",
                    blank=said(blank),
                    how=how,
                    named=named,
                    allowed=allowed,
                ),
                blank.where,
                say(
                    "May the thread be cut on the smaller blank, in another size or class, or is new stock "
                    "wanted?"
                ),
            )
    elif od.si < least - SAME:
        yield Contradiction(
            "section-under-blank",
            "stop",
            say(
                "The section to be threaded is {od}, and {named} needs a blank of {allowed}.",
                od=said(od),
                named=named,
                allowed=allowed,
            ),
            od.where,
            say("Is the diameter right, or is another thread wanted?"),
        )
    elif profile(designation).taper:
        return  # its blank is a taper: the sheet says from where to where
    elif od.si > nominal + SAME and not _turned_to(read, place, nominal):
        yield Contradiction(
            "turn-first",
            "check",
            say(
                "The section to be threaded is {od}, larger than {named}, and no turn operation before "
                "the thread takes it down. Turn it to {allowed} first.",
                od=said(od),
                named=named,
                allowed=allowed,
            ),
            od.where,
        )


def _turned_to(read: ReadJob, place: int, diameter: float) -> bool:
    """True when an operation before the thread turns to a diameter or below it."""
    cuts = (operation.turn for operation in read.job.operations[:place])
    return any(cut and cut.diameter and cut.diameter.si <= diameter + SAME for cut in cuts)
