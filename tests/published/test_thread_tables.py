"""Unified and metric threads against print: lengths of engagement, lead angles, whole rows.

The limits of all classes stand in data/family_unified.csv and data/family_metric.csv, and are compared where
those of the other families are.

Sources, named beside each value in the rows: Machinery's Handbook, 27th ed., pp. 1755, 1762, 1792, 1794,
1802, 1822 and its external metric limits; 31st ed., Unified screw threads tables 3, 4a, 4c, 5c and p. 2025;
the standard series table of ASME B1.1 in web and library reprints; charts of ASME B1.13M and ISO
965 limits and of gauges; catalogues of taps; an extract of ISO 965-4.

Left out as misprints of their chart: M9 x 1 major max 8.972 (its own min plus tolerance is 8.974) and M2.5 x
0.35 minor min 1.998 (the value of 4g6g); of the internal charts M9 x 1 and M12 x 0.5 pitch max (tolerances
148 and 120, which are no R 40 numbers), M11 x 1.5 pitch max (the tolerance of grade 6 outside its diameter
range), and of the UNC-2B chart the limits that contradict its own neighbors: pitch max of #3, 9/16 and 1 1/2,
pitch min of 2 3/4, 3 1/4 and 3 3/4, minor min of #2 and 1/2; of BS 3643 as the handbook prints it
M33 x 2 - 8g pitch max 30.663 and M30 x 2 - 6H pitch max 27.925, a millimeter off. Rows from memory say so.
"""

from __future__ import annotations

import csv
import math
import operator
from pathlib import Path

import pytest

from generator.calc import thread_form
from generator.si import inch, mm
from generator.tables.rows import table
from generator.threads.families.metric.external import normal_engagement
from generator.threads.registry import limits, parse_designation

DATA = Path(__file__).parent / "data"


def rows(name):
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def half_unit(printed):
    """Half a unit of the last printed digit, with room for binary fractions."""
    return 0.5 * 10.0 ** -len(printed.partition(".")[2]) + 1e-9


@pytest.mark.parametrize(("family", "least"), [("unified", 700), ("metric", 1000)])
def test_enough_printed_values_and_few_from_memory(family, least):
    """Many values a family, seven eighths of them read in print, and few differ from the formula's."""
    printed = rows(f"family_{family}")
    read = [row for row in printed if "memory" not in row["source"]]
    assert len(printed) > least
    assert len(read) > len(printed) * 7 / 8
    assert len({row["source"] for row in read}) >= 5


def test_no_limit_of_a_primary_size_is_off_by_anything():
    """The listed differences are of secondary sizes, of minor diameters, and of 9/16-24 UNEF."""
    apart = [row for row in table("differences", "generator.threads") if "UN" in row["designation"]]
    sizes = {row["designation"].partition("-")[0] for row in apart if row["quantity"] != "minor.max"}
    assert sizes <= {"15/16", "2 3/8", "5 3/4", "9/16"}


@pytest.mark.parametrize(
    "row", rows("unified_in_millimeters"), ids=lambda r: f"{r['designation']} {r['quantity']}"
)
def test_table_unified_limits_in_millimeters(row):
    """Inch limits as a metric tool maker prints them: converted and rounded to 0.001 mm."""
    got = operator.attrgetter(row["quantity"])(limits(parse_designation(row["designation"])))
    assert abs(got * inch / mm - float(row["value"])) <= half_unit(row["value"])


@pytest.mark.parametrize("row", rows("metric_engagement"), ids=lambda r: r["designation"])
def test_table_lengths_of_engagement(row):
    """Group N of ISO 965-1."""
    over, up_to = normal_engagement(parse_designation(row["designation"] + "-6g"))
    assert (over, up_to) == (float(row["normal_over"]), float(row["normal_up_to"]))


@pytest.mark.parametrize("row", rows("lead_angles"), ids=lambda r: r["designation"])
def test_table_lead_angles(row):
    """Lead angle at the basic pitch diameter (class 3A max is the basic size), to the minute."""
    designation = parse_designation(row["designation"])
    angle = thread_form.lead_angle(float(designation.lead), limits(designation).pitch_diameter.max)
    printed = int(row["degrees"]) * 60 + int(row["minutes"])
    assert abs(math.degrees(angle) * 60 - printed) <= 0.51


@pytest.mark.parametrize(
    ("thread", "major", "pitch_diameter"),
    [
        ("2 1/2-4 UNC-2A", (2.4969, 2.4731), (2.3345, 2.3241)),
        ("6-12 UN-2A", (5.9979, 5.9865), (5.9438, 5.9369)),
    ],
)
def test_table_whole_rows(thread, major, pitch_diameter):
    """Machinery's Handbook, 27th ed., pp. 1755 and 1762: both limits of one row."""
    of = limits(parse_designation(thread))
    assert (of.major.max, of.major.min) == major
    assert (of.pitch_diameter.max, of.pitch_diameter.min) == pitch_diameter
    assert of.tabulated
    assert of.minor.min is None
