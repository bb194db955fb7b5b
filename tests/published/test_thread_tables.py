"""Threads against print: limits, lengths of engagement, lead angles, wires; the rows stand in data/*.csv.

Sources, named beside each value in the rows: Machinery's Handbook, 27th ed., pp. 1755, 1762, 1792, 1802 and
its external metric limits; 31st ed., Unified screw threads tables 3, 4a, 4c, 5c and pp. 2127-2135; the
standard series table of ASME B1.1 in web and library reprints; charts of ASME B1.13M and ISO 965 limits; an
extract of ISO 965-4.

Left out as misprints of their chart: M9 x 1 major max 8.972 (its own min plus tolerance is 8.974) and M2.5 x
0.35 minor min 1.998 (the value of 4g6g); of the internal charts M9 x 1 and M12 x 0.5 pitch max (tolerances
148 and 120, which are no R 40 numbers), M11 x 1.5 pitch max (the tolerance of grade 6 outside its diameter
range), and of the UNC-2B chart the limits that contradict its own neighbors: pitch max of #3, 9/16 and 1 1/2,
pitch min of 2 3/4, 3 1/4 and 3 3/4, minor min of #2 and 1/2. Rows from memory say so. `units_apart` 1 allows
one unit of the last place, for the row's own `reason`.
"""

from __future__ import annotations

import csv
import math
from collections import Counter
from pathlib import Path

import pytest

from generator.calc import thread_form, wires
from generator.si import inch
from generator.threads.families.metric.external import normal_engagement
from generator.threads.registry import ThreadLimits, limits, parse_designation

DATA = Path(__file__).parent / "data"
HALF_ANGLE = math.radians(30)


def rows(name):
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def half_unit(printed):
    """Half a unit of the last printed digit, with room for binary fractions."""
    return 0.5 * 10.0 ** -len(printed.partition(".")[2]) + 1e-9


QUANTITIES = {
    "allowance": lambda of: of.allowance,
    "major max": lambda of: of.major.max,
    "major min": lambda of: of.major.min,
    "major tolerance": lambda of: of.major_tolerance,
    "pitch diameter max": lambda of: of.pitch_diameter.max,
    "pitch diameter min": lambda of: of.pitch_diameter.min,
    "pitch diameter tolerance": lambda of: of.pitch_tolerance,
    "minor max": lambda of: of.minor.max,
    "minor min": lambda of: of.minor.min,
    "UNR minor max": lambda of: of.minor.max,
}


def limits_of(row) -> ThreadLimits:
    designation = row["designation"]
    if row["quantity"] == "UNR minor max":
        designation = designation.replace(" UN", " UNR", 1)
    return limits(parse_designation(f"{designation}-{row['class']}"))


def check(row, places):
    got, printed = QUANTITIES[row["quantity"]](limits_of(row)), float(row["value"])
    assert bool(int(row["units_apart"])) == bool(row["reason"]), "a difference needs its reason"
    allowed = (int(row["units_apart"]) + 0.01) * 10.0**-places
    assert abs(got - printed) <= allowed, (got, printed, row["reason"])


def name(row):
    return "{designation}-{class} {quantity}".format(**row)


@pytest.mark.parametrize("row", rows("unified_limits"), ids=name)
def test_table_unified_limits(row):
    """Limits of 1A, 2A, 3A as printed, to the last place."""
    check(row, 4)


@pytest.mark.parametrize("row", rows("metric_limits"), ids=name)
def test_table_metric_limits(row):
    """Limits of 6g, 4g6g, 6h as printed, to the last place."""
    check(row, 3)


@pytest.mark.parametrize("row", rows("unified_internal_limits"), ids=name)
def test_table_unified_internal_limits(row):
    """Limits of 1B, 2B, 3B as printed, to the last printed place."""
    check(row, len(row["value"].rstrip("0").partition(".")[2]) if row["reason"] else 4)


@pytest.mark.parametrize("row", rows("metric_internal_limits"), ids=name)
def test_table_metric_internal_limits(row):
    """Limits of 6H, 6G, 4H, 5H, 7H as printed, to the last place."""
    check(row, 3)


@pytest.mark.parametrize("table", ["unified_internal_limits", "metric_internal_limits"])
def test_enough_printed_internal_values_and_few_from_memory(table):
    """Over 60 values a family that were read in print, distinct, three quarters or more of all rows."""
    printed = rows(table)
    keys = {(r["designation"], r["class"], r["quantity"], r["source"]) for r in printed}
    read = [r for r in printed if "memory" not in r["source"]]
    assert len(keys) == len(printed)
    assert len(read) > 60
    assert sum(r["units_apart"] != "0" for r in printed) <= 4


@pytest.mark.parametrize("table", ["unified_limits", "metric_limits"])
def test_enough_printed_values_and_few_of_them_apart(table):
    """Over 300 values a family outside, distinct, and no limit of a primary size off by anything."""
    printed = rows(table)
    keys = Counter((r["designation"], r["class"], r["quantity"], r["source"]) for r in printed)
    assert len(keys) == len(printed) > 300
    apart = [r for r in printed if r["units_apart"] != "0" and "minor" not in r["quantity"]]
    assert {r["designation"].partition("-")[0] for r in apart} <= {"15/16", "2 3/8", "5 3/4"}


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


@pytest.mark.parametrize("row", rows("over_wires"), ids=lambda r: r["designation"])
def test_table_sizes_over_wires_and_back(row):
    """Size over wires at the basic pitch diameter, and the pitch diameter from it."""
    designation = parse_designation(row["designation"])
    basic, pitch = limits(designation).pitch_diameter.max * inch, float(designation.pitch) * inch
    wire = float(row["wire"]) * inch
    over = wires.over_wires(basic, wire, pitch, pitch, HALF_ANGLE)
    assert abs(over / inch - float(row["over_wires"])) <= half_unit(row["over_wires"])
    back = wires.pitch_diameter_from_wires(float(row["over_wires"]) * inch, wire, pitch, pitch, HALF_ANGLE)
    assert abs(back - basic) / inch <= half_unit(row["over_wires"])


@pytest.mark.parametrize("row", rows("best_wires"), ids=lambda r: r["included_angle"])
def test_table_best_wires(row):
    """Best wire for a pitch and an included angle."""
    best = wires.best_wire(float(row["pitch"]), math.radians(float(row["included_angle"]) / 2))
    assert abs(best - float(row["best_wire"])) <= half_unit(row["best_wire"])


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
