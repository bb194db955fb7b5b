"""ISO trapezoidal threads: reading, writing, limits, form, refusals; print is in tests/published/data."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from generator.errors import BadDesignation, OutsideRange
from generator.threads.families.trapezoidal.tables import diameter_ranges, tolerance_rows
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)
from generator.threads.rounding import preferred_number

SIZES = list(next(family for family in families() if family.key == "TR").sizes())
OUTSIDE, INSIDE = ("7e", "8e", "8c", "9c"), ("7H", "8H", "8H", "9H")

READ = {
    "Tr40x7": (40, 7, 1, "7e", "right", "Tr 40x7-7e"),
    "tr 40 × 7 – 7h": (40, 7, 1, "7H", "right", "Tr 40x7-7H"),
    "Tr 40x14(P7)-7e": (40, 7, 2, "7e", "right", "Tr 40x14(P7)-7e"),
    "Tr 40 x 14 P7 - 8c": (40, 7, 2, "8c", "right", "Tr 40x14(P7)-8c"),
    "Tr 60x18(P9)LH-7e": (60, 9, 2, "7e", "left", "Tr 60x18(P9)LH-7e"),
    "Tr40x7 LH": (40, 7, 1, "7e", "left", "Tr 40x7LH-7e"),
    "Tr 40x7-7e-LH": (40, 7, 1, "7e", "left", "Tr 40x7LH-7e"),
    "DIN 103 Tr 40x7": (40, 7, 1, "7e", "right", "Tr 40x7-7e"),
    "Tr 40x7 (3 starts) nut": (40, 7, 3, "7H", "right", "Tr 40x21(P7)-7H"),
    "Tr 40x7-8e-L": (40, 7, 1, "8e", "right", "Tr 40x7-8e-L"),
    "Tr 40x7-8e-140": (40, 7, 1, "8e", "right", "Tr 40x7-8e-140"),
    "trapezoidal 8x1.5": (8, "3/2", 1, "7e", "right", "Tr 8x1.5-7e"),
}


@pytest.mark.parametrize(("text", "says"), READ.items())
def test_read_as_written_at_the_bench_and_written_back(text, says):
    nominal, pitch, starts, class_, hand, written = says
    d = parse_designation(text)
    assert (d.nominal, d.pitch, d.starts) == (nominal, Fraction(pitch), starts)
    assert (d.class_, d.hand) == (class_, hand)
    assert d.lead == starts * d.pitch
    assert write_designation(d) == written
    again = parse_designation(written)
    assert replace(again, text="", class_assumed=False, side_assumed=False) == replace(
        d, text="", class_assumed=False, side_assumed=False
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("Tr 40", "pitches 7, 3, 10"),
        ("Tr 41-7e", "has no pitch"),
        ("Tr 40x7.5", "nearest are 7 and 8"),
        ("Tr 40x13(P7)", "whole number of pitches"),
        ("Tr 40x7-7H/7e", "fit of two parts"),
        ("Tr 40x7-6e", "grades 7, 8 and 9"),
        ("Tr 40x7-7g", "positions e and c"),
        ("Tr 40x7-7e-8e", "two classes"),
        ("Tr 40x7-7e-S", "groups N and L"),
        ("Tr 40x7 blue", "is not understood"),
        ("Tr 40x7-7e nut", "external thread by its class"),
    ],
)
def test_refusals_say_what_would_do(text, says):
    with pytest.raises(BadDesignation, match=says):
        parse_designation(text)


@pytest.mark.parametrize("text", ["Tr 400x12", "Tr 5x1.5", "Tr 8x8", "Tr 8x8 nut"])
def test_threads_outside_the_tables(text):
    with pytest.raises(OutsideRange):
        limits(parse_designation(text))


def test_the_series_is_written_as_read_and_has_limits_on_both_sides():
    assert len(SIZES) > 180
    for size in SIZES:
        d = parse_designation(size.designation)
        assert write_designation(d) == size.designation
        assert limits(d).tabulated
        assert limits(mate_of(d)).tabulated


@pytest.mark.parametrize(("outside", "inside"), list(zip(OUTSIDE, INSIDE, strict=True)))
def test_a_screw_goes_into_its_nut_on_every_diameter(outside, inside):
    for size in SIZES:
        d = replace(parse_designation(size.designation), class_=outside)
        nut = mate_of(d)
        assert nut.class_ == inside
        screw, hole = limits(d), limits(nut)
        for range_ in (screw.major, screw.pitch_diameter, screw.minor, hole.pitch_diameter, hole.minor):
            assert range_.max > range_.min
        assert hole.major.min > screw.major.max
        assert hole.pitch_diameter.min > screw.pitch_diameter.max
        assert hole.minor.min > screw.minor.max


def test_tolerances_grow_with_grade_diameter_and_pitch():
    for size in SIZES:
        d = parse_designation(size.designation)
        grades = [limits(replace(d, class_=class_)).pitch_tolerance for class_ in ("7e", "8e", "9c")]
        assert grades == sorted(set(grades))
    by_pitch: dict[Fraction, list[float]] = {}
    for size in SIZES:
        d = parse_designation(size.designation)
        by_pitch.setdefault(d.pitch, []).append(limits(d).pitch_tolerance)
    assert all(of_pitch == sorted(of_pitch) for of_pitch in by_pitch.values())


def test_the_tolerance_table_follows_the_formula_of_the_metric_system():
    """90 P^0.4 d^0.1 of grade 6, four steps of R 40 up (ISO 965-1), but for pitch 18 over 45 mm."""
    high = dict(diameter_ranges())
    apart = []
    for (low, pitch), row in tolerance_rows().items():
        mean = math.sqrt(float(low * high[low]))
        formula = 90 * float(pitch) ** 0.4 * mean**0.1
        if preferred_number(type(low)(str(formula)), 4) != row.tolerance:
            apart.append((float(low), pitch))
    assert apart == [(45.0, 18)]


def test_several_starts_widen_the_pitch_diameter():
    """1.12, 1.25, 1.4 and 1.6 times, from memory of ISO 2903."""
    single = limits(parse_designation("Tr 100x12")).pitch_tolerance
    for starts, factor in ((2, 1.12), (3, 1.25), (4, 1.4), (5, 1.6), (6, 1.6)):
        of = limits(parse_designation(f"Tr 100x{12 * starts}(P12)"))
        assert of.pitch_tolerance == pytest.approx(single * factor, abs=0.00051)
        assert "several starts" in of.memory


def test_what_is_from_memory_says_so():
    assert limits(parse_designation("Tr 16x2-7e")).memory == ""
    assert limits(parse_designation("Tr 12x3-7e")).memory == "the lengths of engagement"
    assert "nut" in limits(parse_designation("Tr 12x3-7H")).memory
    assert "pitch diameter" in limits(parse_designation("Tr 12x3-8e")).memory
    assert "deviation" in limits(parse_designation("Tr 40x7-7e")).memory


def test_remarks_on_engagement_class_and_a_lead_written_as_pitch():
    assert "8e" in limits(parse_designation("Tr 40x7-7e-140")).remarks[0]
    assert limits(parse_designation("Tr 40x7-8e-140")).remarks == ()
    assert "short" in limits(parse_designation("Tr 40x7-7e"), 20).remarks[0]
    assert "2 starts" in limits(parse_designation("Tr 40x14-7e")).remarks[0]
    assert "recommends" in limits(parse_designation("Tr 40x7-9e")).remarks[0]


@pytest.mark.parametrize("text", ["Tr 40x7-7e", "Tr 40x7-7H", "Tr 8x1.5-7e", "Tr 100x20-8c", "Tr 300x44-9c"])
def test_the_tool_flat_gives_the_root_of_the_standard(text):
    d = parse_designation(text)
    of, form, pitch = limits(d), profile(d), float(d.pitch)
    deep = (0.5 - form.tool_flat) * pitch / (2 * math.tan(math.radians(15)))
    if d.internal:
        assert of.pitch_diameter.min + 2 * deep == pytest.approx(of.major.min, abs=1e-6)
    else:
        assert of.pitch_diameter.max - 2 * deep == pytest.approx(of.minor.max, abs=1e-6)
    assert form.crest_flat == pytest.approx(0.366, abs=0.0001)  # ISO 2901
    assert 0 < form.tool_flat <= form.widest_flat < 0.5
    assert math.degrees(form.infeed) == pytest.approx(14.5)


def test_every_line_names_a_size_of_the_limits():
    for text in ("Tr 40x7-7e", "Tr 40x7-7H"):
        of = limits(parse_designation(text))
        said = {line.name: line.value for line in of.lines}
        for part in ("major", "pitch_diameter", "minor"):
            for end in ("max", "min"):
                assert said.get(f"{part}.{end}") == getattr(getattr(of, part), end)
