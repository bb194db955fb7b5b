"""Cells that no spreadsheet takes for a formula, in a CSV file as RFC 4180 has it.

Source of the signs: OWASP Foundation, "CSV Injection" (owasp.org, Attacks): equals, plus, minus, at, tab,
carriage return, line feed, and their full-width forms.
"""

from __future__ import annotations

import csv
import io
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.render.spreadsheet import (
    BYTE_ORDER_MARK,
    FIGURES,
    PASSES,
    csv_text,
    figure_rows,
    harmless,
    pass_rows,
)

OWASP = ["=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"]
HOSTILE = [
    "=1+1", "+1+1", "-1+1", "@SUM(1+1)", "\t=1+1", "\r=1+1", "\n=1+1", "＝1+1", "＋1", "－1", "＠SUM(A1)",
    "  =1+1", '"=1+1', "'=1+1", '" \t"=1+1', "\u00a0=1+1", "\ufeff=1+1", "\u200b=1+1", "“=1+1”", "﹦1+1",
    "=cmd|' /C calc'!A0", '=HYPERLINK("a.example","b")', "x;=1+1", 'x; "=1+1', "x\n=1+1", "x\t@A1", "x\r\n+1",
    "=1+1\";=1+1", "\t", "\rx",
]


def cells_of(text: str) -> list[str]:
    """Every cell that a program may see which reads no quotes, and ends cells where it likes to."""
    return re.split(r"[;\t\r\n]", text)


def is_formula(cell: str) -> bool:
    return cell.strip(" \"\u00a0\ufeff\u200b“”\f\v")[:1] in [*OWASP[:4], *OWASP[7:], "﹦"]


@pytest.mark.parametrize("text", HOSTILE)
def test_a_hostile_cell_begins_no_formula(text: str) -> None:
    made = harmless(text)
    assert made[0] not in OWASP
    assert not any(map(is_formula, cells_of(made)))
    assert made.replace("'", "") == text.replace("'", "")  # nothing of it is lost


@settings(max_examples=300, deadline=None)
@given(st.text("=+-@\t\r\n;\"' ＝＠a1", max_size=8))
def test_no_text_of_these_signs_begins_a_formula(text: str) -> None:
    made = harmless(text)
    assert made[:1] not in OWASP
    assert not any(map(is_formula, cells_of(made)))
    assert made.replace("'", "") == text.replace("'", "")


@pytest.mark.parametrize(
    "text",
    ["2-8 UN-2A", "Ø63", "−2.75 in (−69.85 mm)", "a = b + c", "KL@shop", "", "{d} − 2 × {h}", "1/2-13 UNC"],
)
def test_a_text_of_the_trade_stays_as_it_is(text: str) -> None:
    assert harmless(text) == text


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.text(max_size=12), st.floats(allow_nan=False, allow_infinity=False), st.integers()),
        max_size=4,
    )
)
def test_it_reads_back_with_numbers_as_numbers(rows: list[tuple[str, float, int]]) -> None:
    text = csv_text(("text", "number", "count"), rows).removeprefix(BYTE_ORDER_MARK)
    head, *found = csv.reader(io.StringIO(text, newline=""), strict=True)
    assert head == ["text", "number", "count"]
    assert [(one, float(two), int(three)) for one, two, three in found] == [
        (harmless(one), two, three) for one, two, three in rows
    ]


def record() -> dict[str, Any]:
    figure = {
        "value": 0.125, "unit": "in", "working": "=1÷8", "source": "arithmetic", "assumed": True,
        "kind": "computed", "label": "Pitch", "text": "1/8 in",
    }
    one = {
        "pass": 1, "depth": 0.019, "cut": 0.019, "travel": 0.022, "dial_turns": 0, "dial": 0.022,
        "chip_area": 4e-4, "pitch_diameter": 2.04, "over_wires": None, "force": None, "spring": False,
        "measure": True, "try_mate": False,
    }
    return {
        "job": "-7", "title": "Pin", "figures": {"thread.pitch": figure}, "passes": [one], "pass_unit": "in",
        "pass_force_unit": "lbf",
    }


def test_a_figure_is_a_row_with_its_unit_beside_the_number() -> None:
    text = csv_text(FIGURES, figure_rows(record()))
    (row,) = csv.DictReader(io.StringIO(text.removeprefix(BYTE_ORDER_MARK), newline=""))
    assert row == {
        "job": "'-7", "title": "Pin", "name": "thread.pitch", "label": "Pitch", "value": "0.125",
        "unit": "in", "text": "1/8 in", "assumed": "yes", "source": "arithmetic", "working": "'=1÷8",
    }


def test_a_pass_is_a_row_and_what_is_not_known_is_empty() -> None:
    text = csv_text(PASSES, pass_rows(record()))
    (row,) = csv.DictReader(io.StringIO(text.removeprefix(BYTE_ORDER_MARK), newline=""))
    assert (row["dial"], row["length_unit"], row["area_unit"]) == ("0.022", "in", "in²")
    assert (row["over_wires"], row["force"], row["measure"], row["spring"]) == ("", "", "yes", "no")
    assert set(row) == set(PASSES)
