"""The inspection record as finished strings, each line with the names of its two fields.

InspectionRow             what the template gets
inspection_rows           the record of a sheet -> InspectionRow
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.render.entries import entry_name
from generator.render.formats import Written, limits_written, written
from generator.sheet.model import Figure, Sheet


@dataclass(frozen=True)
class InspectionRow:
    """One line of the inspection record; `reading` and `by` name its fields."""

    feature: str
    limits: str
    second: str
    instrument: str
    reading: str
    by: str


def inspection_rows(sheet: Sheet) -> tuple[InspectionRow, ...]:
    """The record, line by line."""
    rows = []
    for line in sheet.inspection:
        limits = _limits(sheet, line.low, line.high)
        what = (line.feature, limits.first, line.instrument)
        rows.append(
            InspectionRow(
                line.feature, limits.first, limits.second, line.instrument,
                entry_name("record", *what), entry_name("by", *what),
            )
        )
    return tuple(rows)


def _limits(sheet: Sheet, low: str, high: str) -> Written:
    """Both limits, or one of them in words; nothing where the line has none."""
    if not low and not high:
        return Written("")
    figures: Sequence[Figure | None] = [sheet.figures.get(name) for name in (low, high)]
    if figures[0] is not None and figures[1] is not None:
        return limits_written(figures[0], figures[1], sheet.system)
    for word, figure in zip(("at least", "at most"), figures, strict=True):
        if figure is not None and figure.value is not None:
            shown = written(figure, sheet.system)
            return Written(f"{word} {shown.first}", shown.second)
    return Written("unknown")


