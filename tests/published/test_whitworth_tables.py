"""The form of Whitworth and other British threads against print; their sizes stand in data/family_*.csv.

Left out of data/family_whitworth.csv: the rows over 1 1/2 in of the fastener maker's page, because its major
diameters there are over the nominal ones (2.0001 for 2 in), and up to three units with them.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from generator.threads.registry import parse_designation, profile

DATA = Path(__file__).parent / "data"
UNIT = 1.01e-6  # in: the table is one unit above the formula at 72 and at 19 threads per inch


def rows():
    with (DATA / "whitworth_form.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["tpi"])
def test_table_depth_and_radius_of_whitworth_form(row):
    """Machinery's Handbook, 31st ed., p. 2087, table 2: depth of thread and radius, six places."""
    form = profile(parse_designation(f"6-{row['tpi']} Whit"))
    pitch = 1 / float(row["tpi"])
    assert abs(form.depth * pitch - float(row["depth"])) <= UNIT
    if row["radius"]:
        assert abs(form.crest_radius * pitch - float(row["radius"])) <= UNIT


@pytest.mark.parametrize(
    ("text", "depth", "radius", "included"),
    [
        # Handbook formulas on a fastener page: 0.640327 P, 0.137329 P
        ("1 BSW", 0.640327, 0.137329, 55),
        ("G 1", 0.640327, 0.137329, 55),
        # Machinery's Handbook, 31st ed., p. 2115, row 0 BA (P = 1 mm): depth 0.600, radius 0.1808
        ("0 BA", 0.600, 0.1808, 47.5),
        # a model engineers' forum quoting BS 811: radius P/6; angle 60 degrees in several lists
        ("3/8-26 BSC", 0.5327, 0.1667, 60),
        # encyclopedia of DIN 40430: Pg 16, (22.5 - 21.16)/2 = 0.67 mm at 18 threads per inch, 80 degrees
        ("Pg 16", 0.67 / (25.4 / 18), 0.1072, 80),
    ],
)
def test_form(text, depth, radius, included):
    form = profile(parse_designation(text))
    assert form.depth == pytest.approx(depth, abs=0.002 if text.startswith("Pg") else 1e-4)
    assert form.crest_radius == pytest.approx(radius, abs=1e-4)
    assert math.degrees(form.flanks.included) == pytest.approx(included)


@pytest.mark.parametrize("text", ["1 BSW", "0 BA", "3/8-26 BSC", "Pg 16"])
def test_round_root_touches_both_flanks(text):
    """Geometry: an arc of this radius, tangent to the flanks, just reaches the root of the basic form."""
    form = profile(parse_designation(text))
    half = form.half_angle
    apex = 0.25 / math.tan(half) - form.depth / 2  # above the root, where the flanks meet
    assert form.crest_radius * (1 / math.sin(half) - 1) == pytest.approx(apex, abs=2e-6)
