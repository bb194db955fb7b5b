"""The log as finished strings: its entries, and what was planned beside what was done.

LogRow, TakenRow, OtherSize, LeftOn, TimeRow, LogBlock   what the template gets
log_block                             the history of a sheet -> LogBlock
as_cut                                what the log says of one pass, for the pass table
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from generator.language.say import later, say
from generator.render.formats import UNITS, Unit, decimals, digits, in_unit
from generator.render.problem_line import ProblemLine, problem_line
from generator.sheet.figure import System
from generator.sheet.happened import LeftAs, LeftOnDial, LogLine, PassTaken, TimeTaken
from generator.sheet.lines import LogMark
from generator.sheet.model import Sheet

NOT_KNOWN: Final = "–"
_SIZE_BY: Final = {"over wires": later("Over wires"), "pitch diameter": later("Pitch diameter")}
_MARKS: Final[dict[LogMark, str]] = {
    "stop": later("STOPPED"),
    "taken up": later("TAKEN UP"),
    "agreed": later("AGREED"),
    "finished": later("FINISHED"),
}


@dataclass(frozen=True)
class LogRow:
    """One entry: `said` are pairs of what it is about and its words."""

    at: str
    by: str
    about: str
    marks: tuple[str, ...]
    said: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class TakenRow:
    """One pass, planned and taken; the size is over wires or the pitch diameter."""

    number: str
    dial: str
    depth_planned: str
    depth: str
    depth_off: str
    size_planned: str
    size: str
    size_off: str


@dataclass(frozen=True)
class OtherSize:
    """A further size at a pass, planned and measured."""

    number: str
    name: str
    planned: str
    measured: str
    off: str


@dataclass(frozen=True)
class LeftOn:
    """The passes that are left, on the dial of another lathe: number, depth, whole turns, reading."""

    lathe: str
    slide: str
    unit: str
    rows: tuple[tuple[str, str, str, str], ...]


@dataclass(frozen=True)
class TimeRow:
    """The time of one operation, estimated and taken."""

    title: str
    planned: str
    taken: str
    off: str


@dataclass(frozen=True)
class LogBlock:
    """The log on the page; columns in one unit each, named in the head."""

    rows: tuple[LogRow, ...]
    taken: tuple[TakenRow, ...]
    depth_unit: str
    size_unit: str
    size_by: str
    times: tuple[TimeRow, ...]
    says: tuple[str, ...]
    problems: tuple[ProblemLine, ...]
    left_as: LeftAs | None
    other_sizes: tuple[OtherSize, ...]
    left_on: LeftOn | None


def log_block(sheet: Sheet, dials: System, sizes: System) -> LogBlock | None:
    """The log of a sheet, if it has one; depths in the unit of the dial, sizes as the thread is measured."""
    history = sheet.history
    if history is None:
        return None
    in_dial, in_size = UNITS["length"].unit(dials), UNITS["length"].unit(sizes)
    return LogBlock(
        rows=tuple(map(_row, history.lines)),
        taken=tuple(_taken(one, in_dial, in_size) for one in history.passes),
        depth_unit=in_dial.name,
        size_unit=in_size.name,
        size_by=str(_SIZE_BY[history.size_by]),
        times=_times(history.times, sheet.system),
        says=history.says,
        problems=tuple(map(problem_line, history.problems)),
        left_as=history.left_as,
        other_sizes=tuple(
            OtherSize(
                _number(one), size.name, _length(size.expected, in_size), _length(size.size, in_size),
                _off(size.size, size.expected, in_size),
            )
            for one in history.passes for size in one.others
        ),
        left_on=_left_on(history.left_on_dial),
    )


def as_cut(taken: PassTaken, sizes: System) -> tuple[str, ...]:
    """What the log says of a pass: its dial as written, and its size as measured."""
    in_size = UNITS["length"].unit(sizes)
    size = () if taken.size is None else (_length(taken.size, in_size),)
    said = (taken.dial, *size) if taken.dial else size or (say("cut"),)
    if not taken.start:
        return said
    return (say("start {start}: {said}", start=taken.start, said=said[0]), *said[1:])


def _row(line: LogLine) -> LogRow:
    about = [
        str(line.operation),
        "" if line.pass_number is None else say("pass {number}", number=line.pass_number),
    ]
    return LogRow(
        line.at, line.by, ", ".join(part for part in about if part),
        tuple(_MARKS[mark] for mark in line.marks), line.said,
    )


def _number(one: PassTaken) -> str:
    if not one.start:
        return str(one.number)
    return say("{number}, start {start}", number=one.number, start=one.start)


def _left_on(left: LeftOnDial | None) -> LeftOn | None:
    if left is None:
        return None
    unit = UNITS["length"].unit(left.dials)
    return LeftOn(left.lathe, left.slide, unit.name, tuple(
        (str(number), _length(depth, unit), str(turns), _length(reading, unit))
        for number, depth, turns, reading in left.rows
    ))


def _taken(one: PassTaken, in_dial: Unit, in_size: Unit) -> TakenRow:
    planned = None if one.plan is None else one.plan.depth
    return TakenRow(
        number=_number(one),
        dial=one.dial or NOT_KNOWN,
        depth_planned=_length(planned, in_dial),
        depth=_length(one.depth, in_dial),
        depth_off=_off(one.depth, planned, in_dial),
        size_planned=_length(one.expected, in_size),
        size=_length(one.size, in_size),
        size_off=_off(one.size, one.expected, in_size),
    )


def _length(value: float | None, unit: Unit) -> str:
    return NOT_KNOWN if value is None else digits(value / unit.si, decimals(1.0, unit))


def _off(value: float | None, planned: float | None, unit: Unit) -> str:
    if value is None or planned is None:
        return NOT_KNOWN
    return _plus(digits((value - planned) / unit.si, decimals(1.0, unit)))


def _plus(shown: str) -> str:
    """A difference with its sign, none before zero."""
    return shown if shown.startswith("−") or not shown.strip("0.,") else f"+{shown}"


def _times(times: tuple[TimeTaken, ...], system: System) -> tuple[TimeRow, ...]:
    """The times of the operations, and of all that have both, where those are several."""
    rows = [(f"{one.number} {one.title}", one.planned, one.taken) for one in times]
    both = [(one.planned, one.taken) for one in times if one.planned is not None]
    if len(both) > 1:
        name = say("Together") if len(both) == len(times) else say("Together, those that were estimated")
        rows.append((name, sum(planned for planned, _ in both), sum(taken for _, taken in both)))
    return tuple(
        TimeRow(
            name, _time(planned, system), _time(taken, system),
            NOT_KNOWN if planned is None else _signed_time(taken - planned, system),
        )
        for name, planned, taken in rows
    )


def _time(value: float | None, system: System) -> str:
    return NOT_KNOWN if value is None else in_unit(value, "duration", system)


def _signed_time(value: float, system: System) -> str:
    sign = "−" if value < 0 else "+"
    return f"{sign}{_time(abs(value), system)}"
