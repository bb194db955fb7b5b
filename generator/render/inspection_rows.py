"""The inspection record as finished strings, each line with the names of its fields.

InspectionRow             what the template gets
inspection_rows           the record of a sheet -> InspectionRow
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from generator.language.say import later, say
from generator.render.entries import entry_name
from generator.render.formats import UNKNOWN, Written, limits_written, written
from generator.sheet.figure import Figure
from generator.sheet.model import Inspected, Sheet, Verdict

VERDICTS: Final[dict[Verdict, str]] = {
    "inside": later("within"), "outside": later("OUTSIDE"), "by concession": later("outside, by concession"),
    "no limit": later("no limit on this sheet"), "not measured": "",
}
AT_LEAST, AT_MOST = later("at least {size}"), later("at most {size}")
NOT_MEASURED: Final = later("not measured yet")
ACCEPTED: Final = {
    "mate": later("by its mate"),
    "gauge": later("by gauge"),
    "wires": later("by wires"),
    "balls": later("by balls"),
    "size": later("by size"),
}


@dataclass(frozen=True)
class InspectionRow:
    """One line of the record; `found_field` and those like it name its fields.

    `verdict` is empty, and `open` set, while nothing was read on a sheet that has a log.
    """

    key: str
    feature: str
    limits: str
    second: str
    instrument: str
    found: str
    left: str
    accepted: str
    by: str
    verdict: str
    outside: bool
    open: str
    found_field: str
    left_field: str
    accepted_field: str
    by_field: str
    takes_size: bool


def inspection_rows(sheet: Sheet) -> tuple[InspectionRow, ...]:
    """The record, line by line."""
    begun = any(one.verdict != "not measured" for one in sheet.inspected)
    return tuple(_row(sheet, one, begun) for one in sheet.inspected)


def _row(sheet: Sheet, one: Inspected, begun: bool) -> InspectionRow:
    line, limits = one.line, _limits(sheet, one.line.low, one.line.high)
    what = (line.feature, limits.first, line.instrument)
    where = f", {one.where}" if one.where else ""
    return InspectionRow(
        line.key, line.feature, limits.first, limits.second,
        f"{one.instrument or line.instrument}{where}", one.found, one.left,
        ACCEPTED.get(one.accepted, ""), " ".join(part for part in (one.by, one.at) if part),
        VERDICTS[one.verdict], one.verdict in ("outside", "by concession"),
        NOT_MEASURED if begun and one.verdict == "not measured" else "",
        entry_name("found", *what), entry_name("record", *what),
        entry_name("accepted", *what), entry_name("by", *what),
        line.takes == "size",
    )


def _limits(sheet: Sheet, low: str, high: str) -> Written:
    """Both limits, or one of them in words; nothing where the line has none."""
    if not low and not high:
        return Written("")
    figures: Sequence[Figure | None] = [sheet.figures.get(name) for name in (low, high)]
    if figures[0] is not None and figures[1] is not None:
        return limits_written(figures[0], figures[1], sheet.system)
    for text, figure in zip((AT_LEAST, AT_MOST), figures, strict=True):
        if figure is not None and figure.value is not None:
            shown = written(figure, sheet.system)
            return Written(say(text, size=shown.first), shown.second)
    return Written(str(UNKNOWN))
