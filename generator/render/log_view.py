"""The log as finished strings: its entries, and what was planned beside what was done.

LogRow, TakenRow, TimeRow, LogBlock   what the template gets
log_block                             the history of a sheet -> LogBlock
as_cut                                what the log says of one pass, for the pass table
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from generator.render.formats import UNITS, Unit, decimals, digits, in_unit
from generator.render.problem_line import ProblemLine, problem_line
from generator.sheet.model import LeftAs, LogLine, LogMark, PassTaken, Sheet, System

NOT_KNOWN: Final = "–"
_MARKS: Final[dict[LogMark, str]] = {
    "stop": "STOPPED", "taken up": "TAKEN UP", "agreed": "AGREED", "finished": "FINISHED",
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
        size_by=history.size_by[:1].upper() + history.size_by[1:],
        times=tuple(
            TimeRow(
                f"{one.number} {one.title}", _time(one.planned, sheet.system), _time(one.taken, sheet.system),
                NOT_KNOWN if one.planned is None else _signed_time(one.taken - one.planned, sheet.system),
            )
            for one in history.times
        ),
        says=history.says,
        problems=tuple(map(problem_line, history.problems)),
        left_as=history.left_as,
    )


def as_cut(taken: PassTaken, sizes: System) -> tuple[str, ...]:
    """What the log says of a pass: its dial as written, and its size as measured."""
    in_size = UNITS["length"].unit(sizes)
    size = () if taken.size is None else (_length(taken.size, in_size),)
    return (taken.dial, *size) if taken.dial else size or ("cut",)


def _row(line: LogLine) -> LogRow:
    about = [line.operation, "" if line.pass_number is None else f"pass {line.pass_number}"]
    return LogRow(
        line.at, line.by, ", ".join(part for part in about if part),
        tuple(_MARKS[mark] for mark in line.marks), line.said,
    )


def _taken(one: PassTaken, in_dial: Unit, in_size: Unit) -> TakenRow:
    planned = None if one.plan is None else one.plan.depth
    return TakenRow(
        number=str(one.number),
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
    return shown if shown.startswith("−") or not shown.strip("0.") else f"+{shown}"


def _time(value: float | None, system: System) -> str:
    return NOT_KNOWN if value is None else in_unit(value, "duration", system)


def _signed_time(value: float, system: System) -> str:
    sign = "−" if value < 0 else "+"
    return f"{sign}{_time(abs(value), system)}"
