"""Thread families against print: every row of data/family_*.csv names its source; rows from memory say so.

A quantity is the path to it in the limits (``pitch_diameter.max``, ``pitch_tolerance``), or the name of one
of their lines (``gauge.e1``). Where print and formula differ by one unit of the last printed place, the row
stands in generator/threads/differences.csv with the reason.
"""

from __future__ import annotations

import csv
import operator
from collections import Counter, defaultdict
from pathlib import Path

import pytest

from generator.tables.rows import table
from generator.threads.registry import families, family_of, limits, parse_designation

DATA = Path(__file__).parent / "data"
# Families whose sizes no standard and no handbook tabulates with limits, or that are made to measure.
UNTABULATED = ("SPECIAL", "SQ", "V", "NPTF", "OLD-METRIC")
TABULATED = [family.key for family in families() if family.key not in UNTABULATED]


def rows():
    for path in sorted(DATA.glob("family_*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            yield from csv.DictReader(file)


ROWS = list(rows())
KNOWN = {
    (row["designation"], row["quantity"], row["printed"]) for row in table("differences", "generator.threads")
}


def size_of(of, quantity):
    """A limit by its path, or the value of a line by its name."""
    lines = {line.name: line.value for line in of.lines}
    return lines[quantity] if quantity.startswith("gauge.") else operator.attrgetter(quantity)(of)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['designation']} {row['quantity']}")
def test_printed_size(row):
    """To the last printed place, or listed as a difference of one unit."""
    got = size_of(limits(parse_designation(row["designation"])), row["quantity"])
    assert got is not None, "the family gives no such limit"
    unit = 10.0 ** -len(row["value"].partition(".")[2])
    listed = (row["designation"], row["quantity"], row["value"]) in KNOWN
    assert abs(got - float(row["value"])) <= (1.01 if listed else 0.501) * unit, (got, row["source"])


def test_every_difference_is_of_a_printed_row():
    """The list names the row and its source as they stand here."""
    keys = ("designation", "quantity", "source")
    printed = {(*map(row.get, keys), row["value"]) for row in ROWS}
    listed = {(*map(row.get, keys), row["printed"]) for row in table("differences", "generator.threads")}
    assert listed - printed == set()


def test_values_are_read_in_print_many_of_them_in_two_sources():
    """Per family how many values are read, in how many sources, and how many of them in two or more.

    Families with one source or none: no second one was found for Pg and buttress threads, and none at all for
    saw-tooth threads, whose rows are from memory.
    """
    read = defaultdict(lambda: defaultdict(set))
    for row in ROWS:
        if "memory" not in row["source"]:
            family = family_of(parse_designation(row["designation"])).key
            read[family][row["designation"], row["quantity"]].add(row["source"])
    sources = {family: len(set().union(*values.values())) for family, values in read.items()}
    assert {family for family, count in sources.items() if count < 2} <= {"PG", "BUTT"}
    assert set(TABULATED) - set(read) == {"S"}
    assert sum(len(values) for family, values in read.items() if sources[family] > 1) > 2800
    assert sum(len(found) > 1 for values in read.values() for found in values.values()) >= 330


def test_every_row_is_distinct_and_has_a_source():
    counted = Counter((row["designation"], row["quantity"], row["source"]) for row in ROWS)
    assert [key for key, times in counted.items() if times > 1] == []
    assert all(row["source"] for row in ROWS)
