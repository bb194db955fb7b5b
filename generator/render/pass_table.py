"""The pass table as finished strings: one unit a column, named in its head.

PassRow, PassPart, PassTable   what the template gets
pass_table                the passes of a sheet -> PassTable
dial_system, size_system  the units of its columns
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from generator.language.say import say
from generator.render.entries import entry_name, plan_words
from generator.render.formats import UNITS, decimals, digits, in_unit, places_needed
from generator.render.log_view import as_cut
from generator.sheet.figure import System
from generator.sheet.lines import PassLine
from generator.sheet.model import Sheet

LONGEST_UNSPLIT = 26  # passes of 8 mm that fit one Letter page with heading and notes


@dataclass(frozen=True)
class PassRow:
    """One row of the pass table."""

    number: str
    cut: str
    depth: str
    turns: str
    dial: str
    over_wires: str
    pitch_diameter: str
    chip_area: str
    force: str
    marks: tuple[str, ...]
    spring: bool
    measure: bool
    try_mate: bool
    entry: str  # the name of its field "as cut"
    as_cut: tuple[str, ...] = ()

    @property
    def stop_here(self) -> bool:
        """True where something is measured or tried before the next pass."""
        return self.measure or self.try_mate


@dataclass(frozen=True)
class PassPart:
    """Rows that stay together on one page; `title` names them where there are several parts."""

    title: str
    rows: tuple[PassRow, ...]
    first: bool


@dataclass(frozen=True)
class PassTable:
    """The pass table; columns in one unit each, named in the head."""

    parts: tuple[PassPart, ...]
    dial: str
    dial_unit: str
    size_unit: str
    area_unit: str
    force_unit: str
    has_force: bool
    has_over_wires: bool
    remarks: tuple[str, ...]
    long: bool


def pass_table(sheet: Sheet) -> PassTable:
    """The table; dial, cut and depth as the slide's dial reads, sizes as the thread is measured."""
    dial, size = dial_system(sheet), size_system(sheet)
    in_dial, in_size = UNITS["length"].unit(dial), UNITS["length"].unit(size)
    area, force = UNITS["area"].unit(sheet.system), UNITS["force"].unit(sheet.system)
    depth_places, size_places = decimals(1.0, in_dial), decimals(1.0, in_size)
    readings = [line.dial_reading / in_dial.si for line in sheet.passes]
    dial_places = places_needed(readings, depth_places - 1, depth_places)

    plan = plan_words(sheet)
    taken: dict[int, tuple[str, ...]] = {}
    for one in sheet.history.passes if sheet.history else ():
        taken[one.number] = (*taken.get(one.number, ()), *as_cut(one, size))

    moved = (sheet.history.moved,) if sheet.history and sheet.history.moved else ()

    def measured(value: float) -> str:
        return digits(value / in_size.si, size_places)

    def row(line: PassLine) -> PassRow:
        marks = [
            word
            for flag, word in (
                (line.spring, say("spring")),
                (line.measure, say("MEASURE")),
                (line.try_mate, say("TRY THE MATE")),
            )
            if flag
        ]
        shown = PassRow(
            number=str(line.number),
            cut="0" if line.spring else digits(line.cut / in_dial.si, depth_places),
            depth=digits(line.depth / in_dial.si, depth_places),
            turns=str(line.dial_turns),
            dial=digits(line.dial_reading / in_dial.si, dial_places),
            over_wires="–" if line.over_wires is None else measured(line.over_wires),
            pitch_diameter=measured(line.pitch_diameter),
            chip_area=_without_unit(in_unit(line.chip_area, "area", sheet.system)),
            force="–" if line.force is None else _without_unit(in_unit(line.force, "force", sheet.system)),
            marks=tuple(marks),
            spring=line.spring,
            measure=line.measure,
            try_mate=line.try_mate,
            entry="",
            as_cut=taken.get(line.number, ()),
        )
        said = (shown.number, shown.cut, shown.depth, shown.turns, shown.dial, shown.over_wires,
                shown.pitch_diameter, in_dial.name, in_size.name, *marks)
        return replace(shown, entry=entry_name("pass", *plan, *said))

    return PassTable(
        parts=_parts(tuple(row(line) for line in sheet.passes)),
        dial=str(sheet.pass_dial),
        dial_unit=in_dial.name,
        size_unit=in_size.name,
        area_unit=area.name,
        force_unit=force.name,
        has_force=any(line.force is not None for line in sheet.passes),
        has_over_wires=any(line.over_wires is not None for line in sheet.passes),
        remarks=(*moved, *sheet.pass_remarks),
        long=len(sheet.passes) > LONGEST_UNSPLIT,
    )


def _parts(rows: tuple[PassRow, ...]) -> tuple[PassPart, ...]:
    """The rows in as few parts as fit a page each, all about as long."""
    count = max(1, ceil(len(rows) / LONGEST_UNSPLIT))
    size = ceil(len(rows) / count) or 1
    pieces = [rows[start : start + size] for start in range(0, len(rows), size)] or [()]
    if count == 1:
        return (PassPart("", pieces[0], True),)
    return tuple(
        PassPart(
            say(
                "Passes {first} to {last}, part {number} of {count}",
                first=piece[0].number, last=piece[-1].number, number=number, count=count,
            ),
            piece,
            number == 1,
        )
        for number, piece in enumerate(pieces, 1)
    )


def _without_unit(text: str) -> str:
    return text.rpartition(" ")[0]


def dial_system(sheet: Sheet) -> System:
    """The unit in which the infeed slide's dial reads."""
    travel = sheet.figures.get("passes.travel")
    return (travel.system if travel else None) or sheet.system


def size_system(sheet: Sheet) -> System:
    """The unit in which the thread's sizes are limited and measured."""
    size = sheet.figures.get("thread.over_wires.max") or sheet.figures.get("thread.pitch_diameter.max")
    return (size.system if size else None) or sheet.system
