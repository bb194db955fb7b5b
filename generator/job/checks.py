"""Relations between the entries of a job: names the shop does not have, and what contradicts itself.

In reading order: Contradiction, check_job, then one function for each relation in the order of the job
file: names, work, holding, holes, threads, room on the work, blank, mate. A contradiction is asked about and
never resolved: its sentence names both values and both lines.

Positions along the work count from its chuck end; a tolerance of a micrometer (1e-6 m) absorbs the
rounding of sums.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from generator.calc.designation import Designation, parse_designation
from generator.calc.thread_limits import limits
from generator.errors import BadDesignation, Location, OutsideRange, Problem
from generator.job.fields import Given
from generator.job.model import Mate, Section, Thread
from generator.job.reading import ReadJob
from generator.job.shop import Shop
from generator.si import inch, mm
from generator.units import nearest, quoted

SAME = 1e-6          # m: lengths closer than this are one length
SAME_PITCH = 1e-3    # relative: 0.1429 in for 1/7 in is the same pitch


@dataclass(frozen=True)
class Contradiction:
    """Two entries that cannot both be meant, or one that cannot be as it is written.

    `level` is "stop" or "check"; `asks` is the question for the customer or the office.
    """

    id: str
    level: Literal["stop", "check", "note"]
    text: str
    where: Location
    asks: str = ""


def check_job(read: ReadJob, shop: Shop) -> tuple[list[Problem], list[Contradiction]]:
    """Check a job against the shop's files and against itself.

    Returns
    -------
    Problems that leave nothing to work with (a lathe, material or tool that the shop does not have, a
    designation that cannot be read), and the contradictions, both in file order.
    """
    problems = list(_unknown_names(read, shop))
    found: list[Contradiction] = []
    found += _sections(read)
    found += _grip(read)
    found += _cross_holes(read)
    threads = [
        (number, operation.thread) for number, operation in enumerate(read.job.operations) if operation.thread
    ]
    found += _one_of_each(read)
    for number, thread in threads:
        at = f"operations.{number}.thread"
        try:
            designation = parse_designation(thread.designation)
        except BadDesignation as error:
            problems.append(_problem(read, f"{at}.designation", str(error)))
            continue
        found += _said_beside(read, at, thread, designation)
        found += _room(read, at, thread)
        found += _blank(read, at, number, thread, designation)
        found += _mate(read, at, thread, designation)
    return sorted(problems, key=lambda one: one.location), sorted(found, key=lambda one: one.where)


def _problem(read: ReadJob, field: str, message: str) -> Problem:
    where = read.where(field)
    lines = read.text.splitlines()
    return Problem(where, field, message, lines[where.line - 1] if where.line <= len(lines) else "")


def _unknown_names(read: ReadJob, shop: Shop) -> Iterator[Problem]:
    job = read.job
    if job.lathe not in shop.lathes:
        yield _problem(read, "lathe", _not_listed(job.lathe, "a lathe", list(shop.lathes), "a file in lathes"))
    if job.material != "unknown" and job.material not in shop.materials:
        yield _problem(
            read, "material",
            _not_listed(job.material, "a material", list(shop.materials), "an entry in materials.yml")
            + ", or write unknown",
        )
    tools = [tool.name for tool in shop.tools.threading]
    for number, operation in enumerate(job.operations):
        if operation.thread and operation.thread.tool and operation.thread.tool not in tools:
            yield _problem(
                read, f"operations.{number}.thread.tool",
                _not_listed(operation.thread.tool, "a threading tool", tools, "an entry in tools.yml"),
            )


def _not_listed(name: str, what: str, known: list[str], place: str) -> str:
    near = nearest(name, known)
    hint = f"did you mean {near}? " if near else f"known are {', '.join(known)}. " if known else ""
    return f"{quoted(name)} is not {what} of this shop: {hint}Otherwise give it {place}"


# -- the work and how it is held --------------------------------------------------------------------------


def _sections(read: ReadJob) -> Iterator[Contradiction]:
    job = read.job
    for number, section in enumerate(job.work):
        smallest = min((section.od, section.od_end or section.od), key=lambda one: one.si)
        if section.bore is not None and section.bore.si >= smallest.si - SAME:
            yield Contradiction(
                "bore-too-large", "stop",
                f"Section {number + 1} of the work has a bore of {section.bore.with_unit} (line "
                f"{section.bore.where.line}) in an outside diameter of {smallest.with_unit} (line "
                f"{smallest.where.line}): there is no wall left.",
                section.bore.where, "What are the bore and the outside diameter there?",
            )
    total = sum(section.length.si for section in job.work)
    if job.total_length is not None and abs(total - job.total_length.si) > SAME:
        lines = _lines([section.length for section in job.work])
        yield Contradiction(
            "sections-sum", "stop",
            f"The sections add up to {_as(total, job.total_length)} ({lines}), and total_length (line "
            f"{job.total_length.where.line}) says {job.total_length.with_unit}.",
            job.total_length.where, "How long is the work over all, and how long is each section?",
        )


def _grip(read: ReadJob) -> Iterator[Contradiction]:
    work, grip = read.job.work, read.job.holding.chuck.grip
    total = sum(section.length.si for section in work)
    if grip.si >= total - SAME:
        yield Contradiction(
            "grip-too-long", "stop",
            f"The grip of {grip.with_unit} (line {grip.where.line}) is not shorter than the work, which is "
            f"{_as(total, grip)} long ({_lines([section.length for section in work])}).",
            grip.where, "How much of the work is to be inside the jaws?",
        )
        return
    for start, before, after in _shoulders(work):
        if start < grip.si - SAME:
            smaller = after.od.si < (before.od_end or before.od).si
            means = (
                "the jaws bear only up to it" if smaller else "the jaws cannot close on both diameters"
            )
            yield Contradiction(
                "grip-past-shoulder", "check",
                f"The grip of {grip.with_unit} (line {grip.where.line}) goes past the shoulder at "
                f"{_as(start, grip)} from {(before.od_end or before.od).with_unit} to {after.od.with_unit} (line "
                f"{after.od.where.line}): {means}. Grip less, or turn the work end for end.",
                grip.where,
            )
            return


def _shoulders(work: list[Section]) -> Iterator[tuple[float, Section, Section]]:
    start = 0.0
    for before, after in pairwise(work):
        start += before.length.si
        if abs(after.od.si - (before.od_end or before.od).si) > SAME:
            yield start, before, after


def _cross_holes(read: ReadJob) -> Iterator[Contradiction]:
    work = read.job.work
    total = sum(section.length.si for section in work)
    for hole in read.job.cross_holes:
        if hole.from_end.si > total + SAME:
            yield Contradiction(
                "cross-hole-outside", "stop",
                f"The cross hole is {hole.from_end.with_unit} from the tailstock end (line {hole.from_end.where.line}), "
                f"and the work is {_as(total, hole.from_end)} long "
                f"({_lines([section.length for section in work])}).",
                hole.from_end.where, "Where is the cross hole?",
            )
            continue
        place = total - hole.from_end.si
        section, start = _section_at(work, place)
        od = _od_at(section, place - start)
        if hole.diameter.si >= od - SAME:
            yield Contradiction(
                "cross-hole-too-large", "stop",
                f"The cross hole of {hole.diameter.with_unit} (line {hole.diameter.where.line}) is not smaller than "
                f"the work there, {_as(od, hole.diameter)} (line {section.od.where.line}).",
                hole.diameter.where, "What are the diameter of the hole and of the work there?",
            )
        elif hole.from_end.si < hole.diameter.si / 2 - SAME:
            yield Contradiction(
                "cross-hole-breaks-out", "check",
                f"The cross hole of {hole.diameter.with_unit} with its axis {hole.from_end.with_unit} from the end "
                f"(line {hole.from_end.where.line}) breaks out of the end face.",
                hole.from_end.where, "Is the hole open at the end face?",
            )


# -- the thread ---------------------------------------------------------------------------------------------


def _one_of_each(read: ReadJob) -> Iterator[Contradiction]:
    for name in ("thread", "relief"):
        numbers = [
            number for number, operation in enumerate(read.job.operations) if getattr(operation, name) is not None
        ]
        if len(numbers) > 1:
            places = [read.where(f"operations.{number}.{name}") for number in numbers]
            yield Contradiction(
                f"{name}-twice", "stop",
                f"There are {len(numbers)} {name} operations (lines {_and([str(place.line) for place in places])}). "
                f"A sheet is one setup with one thread: write the next one as a job of its own.",
                places[1],
            )


def _said_beside(read: ReadJob, at: str, thread: Thread, designation: Designation) -> Iterator[Contradiction]:
    line = read.where(f"{at}.designation").line

    def differs(key: str, is_: str, says: str, asks: str, hint: str = "") -> Contradiction:
        where = read.where(f"{at}.{key}")
        return Contradiction(
            f"{key.replace('_', '-')}-differs", "stop",
            f"The designation {thread.designation} (line {line}) {is_}, and {key} beside it (line {where.line}) says "
            f"{says}.{hint}",
            where, asks,
        )

    if thread.hand and thread.hand != designation.hand:
        hint = " A left-hand thread has LH at the end of its designation." if thread.hand == "left" else ""
        yield differs(
            "hand", f"is a {designation.hand}-hand thread", thread.hand,
            "Is the thread right-hand or left-hand?", hint,
        )
    pitch = float(designation.pitch) * designation.unit_si
    if thread.pitch and abs(thread.pitch.si - pitch) > SAME_PITCH * pitch:
        yield differs("pitch", f"has a pitch of {_as(pitch, thread.pitch)}", thread.pitch.with_unit,
                      "What is the pitch?")
    if thread.tpi:
        if designation.tpi is None:
            yield differs("tpi", f"has a pitch of {_number(float(designation.pitch))} mm", f"{thread.tpi.text} in one inch",
                          "Is it a metric thread or an inch thread?")
        elif thread.tpi.exact != designation.tpi:
            yield differs("tpi", f"has {_number(float(designation.tpi))} threads in one inch", thread.tpi.text,
                          "How many threads are there in one inch?")
    if thread.class_ and _class(thread.class_, designation) != designation.class_:
        if designation.class_assumed:
            yield differs("class", "names no class", thread.class_, "Which class of fit is wanted?",
                          " Write the class in the designation.")
        else:
            yield differs("class", f"is of class {designation.class_}", thread.class_, "Which class of fit is wanted?")
    if thread.starts is not None and thread.starts != designation.starts:
        has = "1 start" if designation.starts == 1 else f"{designation.starts} starts"
        yield differs("starts", f"has {has}", str(thread.starts), "How many starts has the thread?")
    own = "inch" if designation.unit == "in" else "mm"
    if thread.units and thread.units != own:
        yield differs("units", f"is {'an inch' if own == 'inch' else 'a metric'} thread", thread.units,
                      "Is it a metric thread or an inch thread?")


def _class(text: str, designation: Designation) -> str:
    """A Unified class in capitals; a metric class as written, for its letter's case means shaft or hole."""
    return text.replace(" ", "").upper() if designation.family == "UN" else text.replace(" ", "")


def _room(read: ReadJob, at: str, thread: Thread) -> Iterator[Contradiction]:
    work = read.job.work
    total = sum(section.length.si for section in work)
    start = total - (thread.from_end.si if thread.from_end else 0.0)
    if thread.from_end and start <= SAME:
        yield Contradiction(
            "thread-outside", "stop",
            f"The thread starts {thread.from_end.with_unit} from the tailstock end (line {thread.from_end.where.line}), "
            f"and the work is {_as(total, thread.from_end)} long ({_lines([section.length for section in work])}).",
            thread.from_end.where, "Where does the thread start?",
        )
        return
    section, begins = _section_at(work, start - SAME)
    room = start - begins
    length = thread.length
    if section.od_end is not None and abs(section.od_end.si - section.od.si) > SAME:
        yield Contradiction(
            "thread-on-taper", "stop",
            f"The thread (line {length.where.line}) lies on a section that tapers from {section.od.with_unit} to "
            f"{section.od_end.with_unit} (line {section.od_end.where.line}).",
            length.where, "Is the section straight, or is a taper thread wanted?",
        )
    if length.si > room + SAME:
        yield Contradiction(
            "thread-too-long", "stop",
            f"The thread is {length.with_unit} long (line {length.where.line}), and its section has room for "
            f"{_as(room, length)} (line {section.length.where.line}).",
            length.where, "How long is the thread, and how long is the section?",
        )
        return
    for operation in read.job.operations:
        relief = operation.relief
        if relief is None:
            continue
        straight = start - _straight_from(work, section)
        if length.si + relief.width.si > straight + SAME:
            yield Contradiction(
                "relief-too-wide", "stop",
                f"The thread of {length.with_unit} (line {length.where.line}) and its relief of "
                f"{relief.width.with_unit} (line {relief.width.where.line}) need "
                f"{_as(length.si + relief.width.si, length)}, and there is room for {_as(straight, length)} up to the "
                f"shoulder (line {section.length.where.line}).",
                relief.width.where, "How much shorter may the thread or the relief be?",
            )
        if relief.diameter is None:
            continue
        if relief.diameter.si >= section.od.si - SAME:
            yield Contradiction(
                "relief-not-below", "stop",
                f"The relief diameter {relief.diameter.with_unit} (line {relief.diameter.where.line}) is not below the "
                f"outside diameter {section.od.with_unit} (line {section.od.where.line}).",
                relief.diameter.where, "What is the diameter of the relief?",
            )
        if section.bore is not None and relief.diameter.si <= section.bore.si + SAME:
            yield Contradiction(
                "relief-into-bore", "stop",
                f"The relief diameter {relief.diameter.with_unit} (line {relief.diameter.where.line}) reaches the bore of "
                f"{section.bore.with_unit} (line {section.bore.where.line}).",
                relief.diameter.where, "What are the diameters of the relief and of the bore?",
            )


def _blank(
    read: ReadJob, at: str, number: int, thread: Thread, designation: Designation
) -> Iterator[Contradiction]:
    try:
        major = limits(designation).major
    except OutsideRange:
        return  # the sheet says so where it works the limits
    if major.min is None or major.max is None:
        return
    least, largest = major.min * designation.unit_si, major.max * designation.unit_si
    digits, unit = (4, "in") if designation.unit == "in" else (3, "mm")
    allowed = f"{major.min:.{digits}f} to {major.max:.{digits}f} {unit}"
    line = read.where(f"{at}.designation").line
    if thread.blank is not None:
        blank, over = thread.blank, thread.blank.si > largest + 1e-9
        if over or thread.blank.si < least - 1e-9:
            by = f", {blank.origin}" if blank.kind == "measured" else ""
            yield Contradiction(
                "blank-over" if over else "blank-under", "stop",
                f"The blank is {blank.with_unit} (line {blank.where.line}{by}), and {thread.designation} (line {line}) "
                f"wants {allowed}. "
                + ("Turn it down first and measure again." if over else "The crests would be too low for the class."),
                blank.where,
                "" if over else "May the thread be cut on the smaller blank, in another size or class, or is new stock wanted?",
            )
        return
    start = sum(section.length.si for section in read.job.work) - (thread.from_end.si if thread.from_end else 0.0)
    section, _ = _section_at(read.job.work, start - SAME)
    od = section.od
    if od.si < least - SAME:
        yield Contradiction(
            "section-under-blank", "stop",
            f"The section to be threaded is {od.with_unit} (line {od.where.line}), and {thread.designation} (line {line}) "
            f"needs a blank of {allowed}.",
            od.where, "Is the diameter right, or is another thread wanted?",
        )
    nominal = designation.nominal * designation.unit_si
    turned = any(
        cut is not None and cut.diameter is not None and cut.diameter.si <= nominal + SAME
        for operation in read.job.operations[:number]
        for cut in (operation.turn,)
    )
    if od.si > nominal + SAME and not turned:
        yield Contradiction(
            "turn-first", "check",
            f"The section to be threaded is {od.with_unit} (line {od.where.line}), larger than {thread.designation} (line "
            f"{line}), and no turn operation before the thread takes it down. Turn it to {allowed} first.",
            od.where,
        )


def _mate(read: ReadJob, at: str, thread: Thread, designation: Designation) -> Iterator[Contradiction]:
    mate = read.job.mate
    if not isinstance(mate, Mate) or mate.thread is None:
        return
    where = read.where("mate.thread")
    line = read.where(f"{at}.designation").line
    try:
        other = parse_designation(_as_external(mate.thread))
    except BadDesignation:
        yield Contradiction(
            "mate-unread", "note",
            f"The mate's thread {quoted(mate.thread)} (line {where.line}) cannot be read, so it was not compared with "
            f"{thread.designation} (line {line}).",
            where,
        )
        return
    differs = [
        what
        for what, one, two in (
            ("diameter", designation.nominal * designation.unit_si, other.nominal * other.unit_si),
            ("pitch", float(designation.pitch) * designation.unit_si, float(other.pitch) * other.unit_si),
            ("starts", float(designation.starts), float(other.starts)),
        )
        if abs(one - two) > 1e-6 * one
    ]
    if designation.hand != other.hand:
        differs.append("hand")
    if differs:
        yield Contradiction(
            "mate-differs", "stop",
            f"The mate has {mate.thread} (line {where.line}), and the thread to cut is {thread.designation} (line {line}): "
            f"{_and(differs)} {'differs' if len(differs) == 1 and differs != ['starts'] else 'differ'}.",
            where, "Which thread has the mate, and which one is to be cut?",
        )


def _as_external(text: str) -> str:
    """The mate's designation with its hole class turned into a shaft class: only size, pitch and hand count."""
    text = re.sub(r"\b([123])[Bb]\b", r"\1A", text)
    return re.sub(r"(?<![0-9])[3-9][GH]([3-9][GH])?(?![0-9A-Za-z])", "6g", text)


# -- places and words -----------------------------------------------------------------------------------------


def _section_at(work: list[Section], place: float) -> tuple[Section, float]:
    """The section at a place counted from the chuck end, and where it begins."""
    start = 0.0
    for section in work:
        if place < start + section.length.si:
            return section, start
        start += section.length.si
    return work[-1], start - work[-1].length.si


def _straight_from(work: list[Section], section: Section) -> float:
    """Where the diameter of a section begins, counting the sections before it that have the same one."""
    start = began = 0.0
    for one in work:
        if abs(one.od.si - section.od.si) > SAME or one.od_end is not None:
            began = start + one.length.si
        if one is section:
            return min(began, start)
        start += one.length.si
    return began


def _od_at(section: Section, place: float) -> float:
    end = (section.od_end or section.od).si
    return section.od.si + (end - section.od.si) * place / section.length.si


def _as(length: float, like: Given) -> str:
    """A computed length in the unit of a written one."""
    if like.unit in ("mm", "cm", "m"):
        return f"{_number(length / mm, 3)} mm"
    return f"{_number(length / inch, 4)} in"


def _number(value: float, digits: int = 6) -> str:
    return f"{value:.{digits}f}".rstrip("0").rstrip(".")


def _lines(given: list[Given]) -> str:
    numbers = sorted({one.where.line for one in given})
    return f"line {numbers[0]}" if len(numbers) == 1 else f"lines {_and([str(number) for number in numbers])}"


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
