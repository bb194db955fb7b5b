"""Figures and passes as rows of a spreadsheet (``export``).

    figure_rows    one row a figure, from the record of a sheet
    pass_rows      one row a pass
    csv_text       rows as CSV (RFC 4180), with the mark at its front by which a spreadsheet knows UTF-8
    harmless       a text that no spreadsheet takes for a formula

A number stands alone in its cell, its unit in a column of its own. Where a text would be taken for a formula
an apostrophe goes before it: OWASP Foundation, "CSV Injection" (owasp.org, Attacks).
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final

Cell = str | int | float | None

FIGURES: Final = (
    "job", "title", "name", "label", "value", "unit", "text", "assumed", "source", "working",
)
PASSES: Final = (
    "job", "title", "pass", "depth", "cut", "travel", "dial_turns", "dial", "pitch_diameter", "over_wires",
    "length_unit", "chip_area", "area_unit", "force", "force_unit", "spring", "measure", "try_mate",
)
BYTE_ORDER_MARK: Final = "\ufeff"

# Signs that begin a formula, as OWASP names them, then the same in full width and small.
_SIGNS: Final = "=+\\-@＝＋－＠﹦﹢﹣﹫"
# A cell, and what a program that ends cells elsewhere (at semicolons, tabs, line ends) would take for one.
_FORMULA: Final = re.compile(
    rf"(\A|[;\t\r\n\v\f\x85\u2028\u2029])(?=[\s\"'“”‘’\ufeff\u200b-\u200f\u2060]*[{_SIGNS}])"
)
_CONTROL: Final = re.compile(r"\A[\t\r\n]")


def figure_rows(record: Mapping[str, Any]) -> list[tuple[Cell, ...]]:
    """The figures of one record of `figures_json.figures_record`, in the columns `FIGURES`."""
    return [
        (
            record["job"], record["title"], name, figure["label"], figure["value"], figure["unit"],
            figure["text"], _yes(figure["assumed"]), figure["source"], figure["working"],
        )
        for name, figure in record["figures"].items()
    ]


def pass_rows(record: Mapping[str, Any]) -> list[tuple[Cell, ...]]:
    """The passes of one record, in the columns `PASSES`; a sheet that may not be run has none."""
    length, force = record["pass_unit"], record["pass_force_unit"]
    return [
        (
            record["job"], record["title"], one["pass"], one["depth"], one["cut"], one["travel"],
            one["dial_turns"], one["dial"], one["pitch_diameter"], one["over_wires"], length,
            one["chip_area"], f"{length}²", one["force"], force, _yes(one["spring"]), _yes(one["measure"]),
            _yes(one["try_mate"]),
        )
        for one in record["passes"]
    ]


def csv_text(columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    r"""The rows under their columns as one CSV file; texts in quotes, numbers plain, what is not known empty.

    Examples
    --------
    >>> csv_text(("name", "value"), [("a, b", 0.125), ("=1+1", None)])
    '\ufeff"name","value"\r\n"a, b",0.125\r\n"\'=1+1",""\r\n'
    """
    file = io.StringIO()
    writer = csv.writer(file, lineterminator="\r\n", quoting=csv.QUOTE_NONNUMERIC)
    writer.writerow(columns)
    writer.writerows([harmless(cell) if isinstance(cell, str) else cell for cell in row] for row in rows)
    return BYTE_ORDER_MARK + file.getvalue()


def harmless(text: str) -> str:
    """The text, with an apostrophe before whatever a spreadsheet would take for a formula.

    Examples
    --------
    >>> harmless("=HYPERLINK(A1)"), harmless(' "@SUM(A1)'), harmless("2-8 UN-2A")
    ("'=HYPERLINK(A1)", '\\' "@SUM(A1)', '2-8 UN-2A')
    >>> harmless("oil; -0.002 in")
    "oil;' -0.002 in"
    """
    text = _FORMULA.sub(r"\1'", text)
    return f"'{text}" if _CONTROL.match(text) else text


def _yes(said: bool) -> str:
    return "yes" if said else "no"
