"""The route as finished strings: an operation a row with its settings, its time, and room for what it took.

Setting, RouteRow, SumRow, RouteTable   what the template gets
route_table                             the operations of a sheet -> RouteTable
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from generator.language.say import later, say
from generator.render.entries import entry_name
from generator.render.figure_line import FigureLine
from generator.render.formats import UNITS, in_unit
from generator.sheet.figure import Kind, System
from generator.sheet.lines import OperationLine
from generator.sheet.model import Sheet

COLUMNS: Final = (  # name and head of a column, and the figures of an operation that stand in it
    ("tool", later("Tool"), ("tool",)),
    ("spindle", later("Spindle"), ("step",)),
    ("feed", later("Feed"), ("feed",)),
    ("cuts", later("Cuts"), ("passes", "depth")),
    ("dial", later("Dial"), ("dial",)),
    ("load", later("Force, power"), ("force", "power")),
    ("finish", "Ra", ("roughness",)),
)
TIME: Final = ("time", later("Time"), ("time",))
BEFORE: Final = ("time.work",)
AFTER: Final = ("time.hand_over", "time.total")
HOLD: Final = later("HOLD: stop here, measure, and write the reading down before going on.")
PROPOSED: Final = later("Proposed: the job file does not have this operation; decide whether it is done.")
ESTIMATE: Final = later("Time is an estimate. Write what it took beside it.")
SYSTEMS: Final[tuple[System, ...]] = ("inch", "mm")
PLAIN: Final = (Kind.COMPUTED, Kind.STANDARD, Kind.SHOP)  # kinds that a narrow column need not say


@dataclass(frozen=True)
class Part:
    """One figure in a cell: number large, unit and words small; `kind` only where it is worth a word."""

    value: str
    unit: str
    look: str  # "", "words" or "unknown"
    kind: str
    numbers: tuple[str, ...]


@dataclass(frozen=True)
class Setting:
    """One cell; without parts the column does not apply to the operation. `between` stands between parts."""

    name: str
    parts: tuple[Part, ...]
    between: str = ""


@dataclass(frozen=True)
class RouteRow:
    """One operation: what is done, its settings, and what to measure before going on.

    `lines` are the numbers of the workings of all its figures, `lines_high` how many rows of the table it
    takes, `took` the time in the log.
    """

    number: str
    title: str
    detail: str
    hold: str
    proposed: bool
    settings: tuple[Setting, ...]
    time: Setting
    lines: tuple[str, ...]
    lines_high: str
    done: str  # the name of its tick
    took_entry: str  # the name of its field for the time it took
    took: str = ""


@dataclass(frozen=True)
class SumRow:
    """A time that belongs to no operation, or to all."""

    label: str
    time: Setting


@dataclass(frozen=True)
class RouteTable:
    """The route; `heads` are the names and heads of the columns of settings, `columns` their number."""

    heads: tuple[tuple[str, str], ...]
    columns: str
    before: tuple[SumRow, ...]
    rows: tuple[RouteRow, ...]
    after: tuple[SumRow, ...]
    remarks: tuple[str, ...]


def route_table(sheet: Sheet, lines: Mapping[str, FigureLine]) -> RouteTable | None:
    """The table; None where the job has no operations."""
    if not sheet.operations:
        return None
    return RouteTable(
        heads=tuple((name, head) for name, head, _ in COLUMNS),
        columns=str(len(COLUMNS)),
        before=_sums(sheet, lines, BEFORE),
        rows=tuple(_row(sheet, operation, lines) for operation in sheet.operations),
        after=_sums(sheet, lines, AFTER),
        remarks=tuple(
            remark
            for said, remark in (
                (any(operation.hold for operation in sheet.operations), HOLD),
                (any(operation.proposed for operation in sheet.operations), PROPOSED),
                ("time.total" in sheet.figures, ESTIMATE),
            )
            if said
        ),
    )


def _row(sheet: Sheet, operation: OperationLine, lines: Mapping[str, FigureLine]) -> RouteRow:
    own = f"operation.{operation.number}."
    shown = set(operation.figures.values())

    def setting(name: str, _: str, columns: tuple[str, ...]) -> Setting:
        named = [operation.figures.get(column, "") for column in columns]
        return _setting(name, [_part(sheet, lines[figure]) for figure in named if figure in lines])

    settings, time = tuple(setting(*column) for column in COLUMNS), setting(*TIME)
    said = [part.value for one in (*settings, time) for part in one.parts]
    what = (str(operation.number), operation.title, operation.detail, operation.hold, *said)
    return RouteRow(
        number=str(operation.number),
        title=operation.title,
        detail=operation.detail,
        hold=operation.hold,
        proposed=operation.proposed,
        settings=settings,
        time=time,
        lines=tuple(
            line.number for name, line in lines.items() if name.startswith(own) or name in shown
        ),
        lines_high="3" if operation.hold else "2",
        done=entry_name("done", *what),
        took_entry=entry_name("took", *what),
        took=_took(sheet, operation.number),
    )


def _took(sheet: Sheet, number: int) -> str:
    """The time that the log has for an operation; empty, to be written in, where it has none."""
    times = sheet.history.times if sheet.history else ()
    return next((in_unit(one.taken, "duration", sheet.system) for one in times if one.number == number), "")


def _setting(name: str, parts: list[Part]) -> Setting:
    """Parts that say the same, as two that are unknown, stand once."""
    if len(parts) > 1 and parts[0].look and len({part.value for part in parts}) == 1:
        same = replace(parts[0], numbers=tuple(number for part in parts for number in part.numbers))
        return Setting(name, (same,))
    one_cut = bool(parts) and parts[0].value == "1"
    return Setting(name, tuple(parts), (" ×" if one_cut else say(", up to")) if name == "cuts" else "")


def _sums(sheet: Sheet, lines: Mapping[str, FigureLine], wanted: tuple[str, ...]) -> tuple[SumRow, ...]:
    return tuple(
        SumRow(lines[name].label, _setting("time", [_part(sheet, lines[name])]))
        for name in wanted
        if name in lines
    )


def _part(sheet: Sheet, line: FigureLine) -> Part:
    """The number and its unit apart, so that the number can be read from further away."""
    figure = sheet.figures[line.name]
    look = "unknown" if line.unknown else "words" if isinstance(figure.value, str) else ""
    names = {str(UNITS[figure.quantity].unit(system).name) for system in SYSTEMS}
    number, _, unit = line.first.rpartition(" ")
    if look or unit not in names or " " in number:
        number, unit = line.first, ""
    kind = "" if figure.kind in PLAIN or line.unknown else line.kind
    return Part(number, unit, look, kind, (line.number,))
