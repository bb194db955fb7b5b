"""Pipe threads R, Rc, Rp: reading, limits at the end. Sizes against print: published/data/family_iso7.csv."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from generator.errors import BadDesignation
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)

PRINTED = Path(__file__).parents[1] / "published" / "data" / "family_iso7.csv"
FAMILY = next(family for family in families() if family.key == "R")


def printed(quantity, letters="R "):
    """What the first source prints of a quantity, by size."""
    found = {}
    with PRINTED.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["quantity"] == quantity and row["designation"].startswith(letters):
                found.setdefault(row["designation"].removeprefix(letters), float(row["value"]))
    return found


@pytest.mark.parametrize("end", ["max", "min"])
def test_outside_the_small_end_follows_from_the_printed_gauge_length(end):
    """A longer gauge length is a smaller end: by a sixteenth on the diameter (ISO 7-1)."""
    other = "min" if end == "max" else "max"
    at_plane, lengths = printed("gauge.pitch_diameter"), printed(f"gauge.length.{other}")
    assert len(lengths) == 12
    for size, length in lengths.items():
        if size in at_plane:
            of = limits(parse_designation(f"R {size}")).pitch_diameter
            assert getattr(of, end) == pytest.approx(at_plane[size] - length / 16, abs=6e-4)


def test_the_parallel_thread_has_the_printed_tolerance_on_all_three_diameters():
    tolerances, minor = printed("gauge.plus_minus", "Rp "), printed("gauge.minor", "Rc ")
    assert len(tolerances) == 15
    for size, each_way in tolerances.items():
        of = limits(parse_designation(f"Rp {size}"))
        assert of.minor.max == pytest.approx(minor[size] + each_way, abs=1e-9)
        assert of.minor.min == pytest.approx(minor[size] - each_way, abs=1e-9)
        spans = {round(one.max - one.min, 6) for one in (of.major, of.pitch_diameter, of.minor)}
        assert spans == {round(2 * each_way, 6)}
        assert not of.plane


def test_the_parallel_tolerance_is_that_of_the_taper_one_in_turns():
    """T2 over 16 with the exact pitch: how JIS B 0203 gives it (2.27 mm: 0.142)."""
    for size in FAMILY.sizes():
        text = size.designation.replace("R ", "Rp ")
        turns = next(
            line.value for line in limits(parse_designation(text.replace("Rp", "Rc"))).lines
            if line.name == "gauge.turns_each_way"
        )
        each_way = next(
            line.value for line in limits(parse_designation(text)).lines if line.name == "gauge.plus_minus"
        )
        assert each_way == pytest.approx(turns * size.pitch / 16, abs=7e-4)


def test_the_fitting_allowance_is_what_the_loosest_bore_and_the_wrench_want():
    """Fitting allowance = internal tolerance + wrenching allowance, in turns (BS 21, definitions)."""
    for size in FAMILY.sizes():
        lines = {line.name: line.value for line in limits(parse_designation(size.designation)).lines}
        bore = {
            line.name: line.value
            for line in limits(mate_of(parse_designation(size.designation))).lines
        }
        turns = bore["gauge.turns_each_way"] + lines["gauge.wrench_turns"]
        assert lines["gauge.fitting"] == pytest.approx(turns * size.pitch, abs=0.07)
        assert lines["gauge.wrench"] == pytest.approx(lines["gauge.wrench_turns"] * size.pitch, abs=0.05)


@pytest.mark.parametrize(("text", "written"), [
    ("R 1/2", "R 1/2"), ("r1 1/2", "R 1 1/2"), ("Rc1/2 - LH", "Rc 1/2 LH"), ("RP 1-1/4", "Rp 1 1/4"),
    ("1/2 BSPT", "R 1/2"), ("BSPT 1/2 female", "Rc 1/2"), ("1/2-14 BSPT", "R 1/2"), ("PT 3/8", "R 3/8"),
    ("PS 1/4", "Rp 1/4"), ("ISO 7-1 Rp 2", "Rp 2"), ("EN 10226-1 R 3/4", "R 3/4"), ("BSP taper 1", "R 1"),
    ("R 1/2-14", "R 1/2"), ("ISO 7/1 - Rc 3/4 - LH", "Rc 3/4 LH"), ("Rc 3/8 internal", "Rc 3/8"),
])
def test_read_and_written_in_the_standards_form(text, written):
    assert write_designation(parse_designation(text)) == written


@pytest.mark.parametrize(("text", "says"), [
    ("R 7/16", "no size of ISO 7-1"), ("R 1/2-19", "has 14 threads per inch, not 19"),
    ("R 1/2 internal", "R is the external thread"), ("Rp 1/2 male", "Rp is the internal thread"),
    ("R 5/8", "the sizes are 1/16"), ("1/2 BSPT foo", "not understood"), ("BSPT", "no size"),
])
def test_what_is_refused_says_what_would_do(text, says):
    with pytest.raises(BadDesignation, match=says):
        parse_designation(text)


def test_the_form():
    """55 degrees, rounded, 0.640327 of the pitch high; R and Rc on 1 in 16, Rp parallel."""
    for letters, taper in (("R", 1 / 16), ("Rc", 1 / 16), ("Rp", 0.0)):
        form = profile(parse_designation(f"{letters} 1/2"))
        assert form.taper == taper
        assert math.degrees(form.flanks.included) == pytest.approx(55)
        assert form.depth * 25.4 / 14 == pytest.approx(1.162, abs=5e-4)


def test_what_is_from_memory_says_so():
    assert "wrenching" in limits(parse_designation("R 1")).memory
    assert not limits(parse_designation("Rp 1")).memory
    assert "half a pitch" in limits(parse_designation("Rc 1")).remarks[0]
