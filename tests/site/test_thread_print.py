"""The page of threads and print: what differs, what is from memory, and that it is on the site."""

from __future__ import annotations

import operator
import re
from importlib.resources import files
from pathlib import Path

import pytest

from generator.job.thread_print import COLUMNS, differences, from_memory, thread_tables
from generator.tables.rows import table
from generator.threads.registry import families, limits, parse_designation

ROWS = table("differences", "generator.threads")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['designation']} {row['quantity']}")
def test_a_listed_difference_is_one_unit_apart_and_still_there(row: dict[str, str]) -> None:
    """What stands as computed is what the program computes now; a row that no longer holds is to go."""
    of, quantity = limits(parse_designation(row["designation"])), row["quantity"]
    lines = {line.name: line.value for line in of.lines}
    computed = lines[quantity] if quantity in lines else operator.attrgetter(quantity)(of)
    places = len(row["printed"].partition(".")[2])
    assert f"{computed:.{places}f}" == row["computed"]
    assert round(abs(float(row["printed"]) - float(row["computed"])) * 10**places) == 1
    assert len(row["reason"]) > 20
    assert row["source"]


def test_every_difference_is_shown_with_its_family_and_in_words() -> None:
    shown = differences()
    assert len(shown) == len(ROWS)
    assert {one.family for one in shown} <= {family.name for family in families()}
    assert {"Pitch diameter, min", "Allowance"} <= {one.quantity for one in shown}
    assert [one.family for one in shown] == sorted(one.family for one in shown)


def test_every_line_of_the_list_is_a_row() -> None:
    """A size #2 wants quotes, or its row would be taken for a remark; and no cell is missing or too many."""
    lines = files("generator.threads").joinpath("differences.csv").read_text(encoding="utf-8").splitlines()
    assert len(lines) == len(ROWS) + 2
    assert lines[0].startswith("#")
    assert tuple(ROWS[0]) == COLUMNS
    assert all(set(row) == set(COLUMNS) and all(row.values()) for row in ROWS)


@pytest.mark.parametrize("row", [
    {"designation": "1/2-13 UNC-2Q", "quantity": "major.max", "printed": "0.5", "computed": "0.4999"},
    {"designation": "no thread", "quantity": None},
    {"designation": "500-2 STUB ACME", "quantity": "major.max", None: ["too", "many"]},
    {},
])
def test_an_odd_row_stops_no_page(row: dict[str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    """It is shown as it stands."""
    monkeypatch.setattr("generator.job.thread_print.table", lambda *_: (row, *ROWS))
    shown = differences.__wrapped__()
    assert len(shown) == len(ROWS) + 1
    assert shown[0].family == ""
    assert shown[0].designation == row.get("designation", "")


def test_what_is_from_memory_is_named_by_family() -> None:
    """Positions e and f of metric threads were found in no print; the usual classes were."""
    said = {one.family: one for one in from_memory()}
    metric = said["ISO metric threads"]
    assert {"the deviation of position e", "the deviation of position f"} <= set(metric.figures)
    assert not any("position g" in figure for figure in metric.figures)
    assert "ISO 965-1" in metric.standard
    assert "the crest of the no-go ring gauge" in metric.figures
    gauges = {"the standard of the gauges", "the turns of the no-go gauge"}
    assert gauges <= set(said["Inch buttress threads"].figures)
    twice = re.compile(r"(of class \d) for \d+ threads.*\1 for \d+ threads")
    for one in said.values():
        assert not twice.search("; ".join(one.figures))
        assert not any(figure.startswith("and ") for figure in one.figures)


def test_the_page_is_on_the_site_and_holds_both_lists(demo_site: Path) -> None:
    page = (demo_site / "threads.html").read_text(encoding="utf-8")
    for one in differences():
        assert f"<td>{one.printed}</td><td>{one.computed}</td>" in page
    assert "the deviation of position e" in page
    for table_ in thread_tables():
        assert f"<td>{table_.file}</td>" in page
        assert len(table_.head) > 30
    index = (demo_site / "index.html").read_text(encoding="utf-8")
    assert 'href="threads.html"' in index
