"""The comparison with the other lathes for machines (``compare --json``)."""

from __future__ import annotations

from typing import Any

from generator.render.compare_table import line_words
from generator.render.figures_json import figure_value
from generator.sheet.compare import Compared, Line
from generator.sheet.figure import System
from generator.sheet.other_lathes import Comparison


def compare_record(compared: Comparison) -> dict[str, Any]:
    """The JSON record: every row of every lathe, and the lathes in order of preference.

    Values are plain numbers in the unit named beside them; `text` is what the sheet shows.
    """
    sheet, here = compared.here.sheet, compared.here.lathe
    return {
        "job": sheet.job,
        "title": sheet.title,
        "lathe": {"lathe": here.lathe, "name": here.name},
        "best": compared.ranking[0].on.lathe.lathe,
        "ranking": [
            {
                "lathe": one.on.lathe.lathe,
                "name": one.on.lathe.name,
                "place": one.place,
                "reason": one.reason,
                "stops": one.stops,
                "open": one.open,
            }
            for one in compared.ranking
        ],
        "other_lathes": [_other(one, sheet.system) for one in compared.others],
    }


def _other(one: Compared, system: System) -> dict[str, Any]:
    return {
        "lathe": one.there.lathe.lathe,
        "name": one.there.lathe.name,
        "can_be_done": one.can_be_done,
        "rows": [
            {
                "id": row.id,
                "group": row.group,
                "label": row.label,
                "verdict": row.verdict,
                "here": _side(row.here, system),
                "there": _side(row.there, system),
                "reason": row.reason,
            }
            for row in one.rows
        ],
        "let_go": [
            {"field": gone.field, "written": gone.written, "line": gone.where.line, "text": gone.text}
            for gone in one.there.let_go
        ],
    }


def _side(line: Line | None, system: System) -> dict[str, Any] | None:
    if line is None:
        return None
    return {
        "text": line_words(line, system),
        "known": line.is_known,
        "figures": {figure.name: figure_value(figure, system) for figure in line.figures},
    }
