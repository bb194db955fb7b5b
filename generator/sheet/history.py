"""What happened at the lathe, beside what was planned: the log of a job as a part of its sheet.

    history_section    the entries in order, passes and times taken, what differs in sentences, the figures

A difference is said from half a graduation of the dial on, and from what a size over wires is known to.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Final

from generator.job.source import LogEntry
from generator.language.say import later, say, say_count
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.happened import History, PassTaken, TimeTaken
from generator.sheet.history_taken_up import left_on_dial, says_taken_up, says_tool
from generator.sheet.log_checks import check_log, left_out, open_stop, size_limits
from generator.sheet.log_passes import by_words, log_plots, passes_taken, size_by_wires
from generator.sheet.log_words import left_as, log_line
from generator.sheet.logged import Logged
from generator.sheet.wording import fine_words
from generator.si import Length, Time, minute, mm

KNOWN_TO: Final = 0.02 * mm   # of a size over wires: common practice, no source
MOST_SAID: Final = 4          # passes that differ, in sentences; the table has all
MUCH: Final = 0.10            # of a time: less is no difference worth a word, nor is
LEAST: Final = 5 * minute     # one of so little
DUST: Final = 1e-6
SUM: Final = later("arithmetic")
NOBODY: Final = later("somebody")


def history_section(logged: Logged | None) -> History | None:
    """Lay findings and figures of the log, and return what the page shows of it; None without a log."""
    if logged is None:
        return None
    check_log(logged)
    entries, taken = logged.log.entries, passes_taken(logged)
    times, left = _times(logged), open_stop(logged)
    _lay_passes(taken, logged)
    _lay_times(times, logged)
    taken_up, tool = tuple(says_taken_up(logged)), tuple(says_tool(logged))
    of_passes, of_starts = tuple(_says_passes(taken, logged)), tuple(_says_starts(taken, logged))
    end = tuple(_says_end(taken, logged))
    return History(
        lines=tuple(log_line(one, logged) for one in entries),
        passes=taken,
        size_by="over wires" if size_by_wires(logged) else "pitch diameter",
        times=times,
        says=(
            *taken_up, *tool, *of_passes, *of_starts, *end, *_says_times(times, logged),
            *_says_whole(logged),
        ),
        of_passes=tuple(
            (one.number, text) for one in taken for text in of_passes
            if text.startswith(f"{_which(replace(one, start=None))} ")
        ),
        of_thread=(*taken_up, *tool, *end),
        plots=log_plots(taken, logged),
        problems=logged.log.problems,
        left_as=left_as(logged),
        moved=taken_up[0] if any(one.id == "log-zero" for one in logged.desk.findings) else "",
        left_on_dial=left_on_dial(logged),
        stop_wants=tuple(left_out(left.entry, logged)) if left else (),
    )


# -- passes ---------------------------------------------------------------------------------------------


def _says_passes(taken: tuple[PassTaken, ...], logged: Logged) -> Iterator[str]:
    """Passes that were cut or came out other than planned."""
    said = [*_by_dial(taken, logged), *_by_size(taken, logged), *_by_others(taken, logged)]
    yield from said[:MOST_SAID]
    if len(said) > MOST_SAID:
        yield say_count(
            "{count} more differs; the table has it.", "{count} more differ; the table has them.",
            len(said) - MOST_SAID,
        )
    measured = [one for one in taken if one.size is not None and one.expected is not None]
    if measured and not any(_off(one) for one in measured):
        largest = max(abs(off) for one in measured if (off := _difference(one)) is not None)
        near = fine_words(largest, logged.system)
        yield (
            say("{which} came within {near} of the plan.", which=_which(measured[0]), near=near)
            if len(measured) == 1
            else say(
                "All {count} passes that were measured came within {near} of the plan.",
                count=len(measured), near=near,
            )
        )


def _by_dial(taken: tuple[PassTaken, ...], logged: Logged) -> Iterator[str]:
    for one in taken:
        if one.depth is None or one.plan is None:
            continue
        off = one.depth - one.plan.depth
        if abs(off) >= one.reads_to * (1 - DUST):
            parts = {"which": _which(one), "off": fine_words(abs(off), logged.system), "dial": one.dial}
            yield (
                say("{which} was cut {off} deeper than planned: the dial stood at {dial}.", **parts)
                if off > 0
                else say("{which} was cut {off} less deep than planned: the dial stood at {dial}.", **parts)
            )


def _by_size(taken: tuple[PassTaken, ...], logged: Logged) -> Iterator[str]:
    for one in taken:
        if not _off(one):
            continue
        assert one.size is not None
        assert one.expected is not None
        parts = {
            "which": _which(one), "off": fine_words(abs(one.size - one.expected), logged.system),
            "size": fine_words(one.size, logged.system), "by": by_words(logged),
            "expected": fine_words(one.expected, logged.system),
        }
        yield (
            say("{which} read {off} over the plan: {size} {by} instead of {expected}.", **parts)
            if one.size > one.expected
            else say("{which} read {off} under the plan: {size} {by} instead of {expected}.", **parts)
        )


def _by_others(taken: tuple[PassTaken, ...], logged: Logged) -> Iterator[str]:
    """Further sizes that are further off than they can be read."""
    for one in taken:
        for size in one.others:
            if size.differs:
                parts = {
                    "which": _which(one), "name": size.name, "size": fine_words(size.size, logged.system),
                    "off": fine_words(abs(size.size - size.expected), logged.system),
                    "expected": fine_words(size.expected, logged.system),
                }
                yield (
                    say("{which}: {name} {size}, {off} over the plan of {expected}.", **parts)
                    if size.size > size.expected
                    else say("{which}: {name} {size}, {off} under the plan of {expected}.", **parts)
                )


def _which(one: PassTaken) -> str:
    """A pass by its number, and its start where it has one.

    >>> _which(PassTaken(3, None, "", None, None, None, start=2))
    'Pass 3 of start 2'
    """
    if one.start:
        return say("Pass {number} of start {start}", number=one.number, start=one.start)
    return say("Pass {number}", number=one.number)


def _says_starts(taken: tuple[PassTaken, ...], logged: Logged) -> Iterator[str]:
    """Starts that were left behind the others, of a thread of several."""
    starts = logged.thread.designation.starts if logged.thread is not None else 1
    if starts < 2 or not any(one.start for one in taken):
        return
    all_ = max((one.number for one in taken if not one.start), default=0)  # said of none: said of all
    last = {
        start: max((one.number for one in taken if one.start == start), default=all_)
        for start in range(1, starts + 1)
    }
    ahead = max(last.values())
    behind = {start: number for start, number in last.items() if number < ahead}
    if not behind:
        return
    names = "; ".join(
        say("start {start} is at pass {number}", start=start, number=number) if number
        else say("start {start} is at no pass", start=start)
        for start, number in behind.items()
    )
    text = say(
        "Not all starts are equally deep: the furthest is at pass {ahead}, {names}. Bring them to the same "
        "depth before the mate is tried, and before a start is cut further.",
        ahead=ahead,
        names=names,
    )
    logged.desk.find("log-starts", "check", text, logged.threads[-1].where("start"))
    yield text


def _difference(one: PassTaken) -> Length | None:
    return None if one.size is None or one.expected is None else one.size - one.expected


def _off(one: PassTaken) -> bool:
    off = _difference(one)
    return off is not None and abs(off) > KNOWN_TO


def _says_end(taken: tuple[PassTaken, ...], logged: Logged) -> Iterator[str]:
    """How the thread came out, or how it will when it goes on like this."""
    limits = size_limits(logged)
    last = next((one for one in reversed(taken) if one.size is not None), None)
    if limits is None or last is None or last.size is None or logged.cuts is None:
        return
    by = by_words(logged)
    if last.plan is None or last.plan.depth == logged.cuts.passes[-1].depth:
        size = fine_words(last.size, logged.system)
        yield say("The thread last measured {size} {by}: {of}.", size=size, by=by, of=_of(last.size, limits))
        return
    end, off = logged.cuts.passes[-1], _difference(last)
    final = end.over_wires if size_by_wires(logged) else end.pitch_diameter
    if final is not None and off is not None:
        comes = final + off
        yield say(
            "Cut on by the pass table from pass {number}, it comes to {comes} {by}: {of}.",
            number=last.number,
            comes=fine_words(comes, logged.system),
            by=by,
            of=_of(comes, limits),
        )


def _of(size: Length, limits: tuple[Length, Length]) -> str:
    low, high = limits
    if size < low:
        return say("under its smallest size")
    return say("over its largest size") if size > high else say("within its limits")


def _lay_passes(taken: tuple[PassTaken, ...], logged: Logged) -> None:
    """The last pass that the log has, and the last size that was measured."""
    if not taken:
        return
    desk, last = logged.desk, taken[-1]
    desk.lay(Figure(
        "log.pass", say("Last pass in the log"), last.number, "count", Kind.GIVEN, say("the log"),
        note=say("of {passes} in the pass table", passes=len(logged.cuts.passes)) if logged.cuts else "",
    ))
    deep = next((one for one in reversed(taken) if one.depth is not None), None)
    if deep is not None and deep.depth is not None and logged.cuts is not None:
        angle = logged.cuts.infeed_angle
        put: dict[str, tuple[float, Quantity]] = {"travel": (deep.depth / math.cos(angle), "length")}
        if angle:
            put["angle"] = (angle, "angle")
        desk.computed(
            "log.depth",
            say("Depth reached by the dial, radial"),
            deep.depth,
            "length",
            "{travel} × cos {angle}" if angle else "{travel}",
            put,
            say("geometry"),
            note=say("after pass {number}, the dial at {dial}", number=deep.number, dial=deep.dial),
            system=logged.lathe.units,
        )
    _lay_size(taken, logged)


def _lay_size(taken: tuple[PassTaken, ...], logged: Logged) -> None:
    measured = next((one for one in reversed(taken) if one.size is not None), None)
    if measured is None or measured.size is None or logged.thread is None:
        return
    by = say("Over wires") if size_by_wires(logged) else say("Pitch diameter")
    source = _source(measured.number, logged)
    system = logged.thread.system
    logged.desk.lay(
        Figure(
            "log.size",
            say("{by}, last measured", by=by),
            measured.size,
            "length",
            Kind.MEASURED,
            source,
            system=system,
            note=say("after pass {number}", number=measured.number),
        )
    )
    if measured.expected is not None:
        logged.desk.computed(
            "log.over_plan", say("{by}, over the plan", by=by), measured.size - measured.expected, "length",
            "{measured} − {planned}",
            {"measured": (measured.size, "length"), "planned": (measured.expected, "length")}, SUM,
            system=system, note=say("after pass {number}", number=measured.number),
        )


def _source(number: int, logged: Logged) -> str:
    """Who measured a pass, and with what."""
    entry = next(
        one.entry for one in reversed(logged.threads)
        if one.entry.pass_ == number and one.entry.measured is not None
    )
    assert entry.measured is not None
    return say(
        "measured by {who} with {instrument}",
        who=entry.by or NOBODY, instrument=entry.measured.with_ or say("what the log does not say"),
    )


# -- times ----------------------------------------------------------------------------------------------


def _times(logged: Logged) -> tuple[TimeTaken, ...]:
    """The times of every operation that has one in the log, added up."""
    taken: dict[int, Time] = {}
    for one in logged.log.entries:
        line = logged.about(one.entry).line
        if one.entry.time is not None and line is not None:
            taken[line.number] = taken.get(line.number, 0.0) + one.entry.time.si
    titles = {line.number: line.title for line in logged.lines}
    return tuple(
        TimeTaken(number, titles[number], _planned(f"operation.{number}.total_time", logged), taken[number])
        for number in sorted(taken)
    )


def _planned(name: str, logged: Logged) -> Time | None:
    figure = logged.desk.figures.get(name)
    return figure.value if figure is not None and isinstance(figure.value, float) else None


def _lay_times(times: tuple[TimeTaken, ...], logged: Logged) -> None:
    """What the log adds up to, beside the estimate."""
    other = sum(_apart(logged.log.entries, logged))
    parts: Mapping[str, Time] = {
        **{say("operation {number}", number=one.number): one.taken for one in times},
        **({say("the rest"): other} if other else {}),
    }
    if not parts:
        return
    logged.desk.computed(
        "log.time", say("Time taken, as logged"), sum(parts.values()), "duration",
        " + ".join(f"{{{name}}}" for name in parts),
        {name: (time, "duration") for name, time in parts.items()}, SUM,
    )


def _apart(entries: tuple[LogEntry, ...], logged: Logged) -> Iterator[Time]:
    """Times that belong to no operation."""
    for one in entries:
        if one.entry.time is not None and logged.about(one.entry).line is None:
            yield one.entry.time.si


def _says_times(times: tuple[TimeTaken, ...], logged: Logged) -> Iterator[str]:
    for one in times:
        if one.planned is None or abs(one.taken - one.planned) <= max(MUCH * one.planned, LEAST):
            continue
        parts = {
            "number": one.number, "title": one.title, "taken": minutes_words(one.taken),
            "off": minutes_words(abs(one.taken - one.planned)), "planned": minutes_words(one.planned),
        }
        yield (
            say(
                "Operation {number} ({title}) took {taken}, {off} more than the estimate of {planned}.",
                **parts,
            )
            if one.taken > one.planned
            else say(
                "Operation {number} ({title}) took {taken}, {off} less than the estimate of {planned}.",
                **parts,
            )
        )


def _says_whole(logged: Logged) -> Iterator[str]:
    """All times of a finished job, beside the estimate of the whole."""
    taken, planned = _planned("log.time", logged), _planned("time.total", logged)
    done = any(one.entry.finished and one.entry.operation is None for one in logged.log.entries)
    if done and taken is not None and planned is not None:
        yield say(
            "The times in the log come to {taken}; the estimate of the whole job was {planned}.",
            taken=minutes_words(taken), planned=minutes_words(planned),
        )


def minutes_words(time: Time) -> str:
    """A time in minutes, or in hours and minutes, rounded up as everywhere on the sheet.

    >>> minutes_words(90 * 60.0), minutes_words(330.0), minutes_words(341.0)
    ('1 h 30 min', '5.5 min', '5.7 min')
    """
    if time < 10 * minute:
        return say("{minutes:.1f} min", minutes=math.ceil(time / minute * 10 - DUST) / 10)
    hours, minutes = divmod(math.ceil(time / minute - DUST), 60)
    return (
        say("{hours} h {minutes} min", hours=hours, minutes=minutes)
        if hours
        else say("{minutes} min", minutes=minutes)
    )
