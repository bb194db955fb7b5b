"""The page of threads and print: what differs, what is from memory, and that it is on the site."""

from __future__ import annotations

import operator
import re
from pathlib import Path

import pytest

from generator.job.thread_print import differences, from_memory
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


def test_what_is_from_memory_is_named_by_family() -> None:
    """Positions e and f of metric threads were found in no print; the usual classes were."""
    said = {one.family: one for one in from_memory()}
    metric = said["ISO metric threads"]
    assert metric.figures == ("the deviation of position e", "the deviation of position f")
    assert "ISO 965-1" in metric.standard
    twice = re.compile(r"(of class \d) for \d+ threads.*\1 for \d+ threads")
    assert not any(twice.search("; ".join(one.figures)) for one in said.values())


def test_the_page_is_on_the_site_and_holds_both_lists(demo_site: Path) -> None:
    page = (demo_site / "threads.html").read_text(encoding="utf-8")
    for one in differences():
        assert f"<td>{one.printed}</td><td>{one.computed}</td>" in page
    assert "the deviation of position e" in page
    index = (demo_site / "index.html").read_text(encoding="utf-8")
    assert 'href="threads.html"' in index
