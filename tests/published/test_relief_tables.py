"""Reliefs of metric threads: DIN 76-1:2016 forms A and B, ISO 4755:1983, as read in public transcriptions."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calc.relief import usual_width
from generator.si import mm
from generator.tables.relief import relief_rows
from generator.tables.rows import source

PITCHES = [
    "0.5",
    "0.7",
    "0.75",
    "0.8",
    "1",
    "1.25",
    "1.5",
    "1.75",
    "2",
    "2.5",
    "3",
    "3.5",
    "4",
    "4.5",
    "5",
    "5.5",
    "6",
]


@pytest.mark.parametrize(
    ("nominal", "pitch", "standard", "diameter", "least", "most", "radius"),
    [
        (20, "2.5", "DIN 76-1 form A", 16.4, 5.6, 8.7, 1.2),
        (24, "3", "ISO 4755", 19.6, 5.2, 9.0, 1.6),
        (16, "2", "DIN 76-1 form A", 13.0, 4.5, 7.0, 1.0),
        (12, "1.75", "DIN 76-1 form B", 9.4, 2.1, 4.3, 1.0),
        (10, "1.5", "ISO 4755", 7.7, 2.5, 4.5, 0.8),
    ],
)
def test_printed_rows(nominal, pitch, standard, diameter, least, most, radius):
    """M20 x 2.5, M24 x 3, M16 x 2, M12 x 1.75, M10 x 1.5 as transcribed from the tables."""
    row = next(row for row in relief_rows(Fraction(pitch)) if row.standard == standard)
    assert nominal - row.diameter_less / mm == pytest.approx(diameter)
    assert (row.width_least / mm, row.width_most / mm, row.radius / mm) == pytest.approx(
        (least, most, radius)
    )


def test_every_pitch_has_all_three_and_they_grow_with_it():
    for standard in range(3):
        rows = [relief_rows(Fraction(pitch))[standard] for pitch in PITCHES]
        for column in ("pitch", "diameter_less", "radius", "width_least", "width_most"):
            values = [getattr(row, column) for row in rows]
            assert values == sorted(values), column


def test_form_a_and_b_are_about_three_and_a_half_and_two_and_a_half_pitches_at_most():
    """DIN 76-1, as the trade pages put it: f2 about 3.5 P for the normal form, 2.5 P for the short one."""
    for pitch in PITCHES:
        normal, short, _ = relief_rows(Fraction(pitch))
        assert normal.width_most / normal.pitch == pytest.approx(3.5, abs=0.15)
        assert short.width_most / short.pitch == pytest.approx(2.5, abs=0.2)


def test_iso_4755_is_three_pitches_at_most_but_for_the_doubtful_row():
    for pitch in PITCHES:
        row = relief_rows(Fraction(pitch))[2]
        if row.doubt and "17.5" in row.doubt:
            assert pitch == "5.5"
            continue
        assert row.width_most / row.pitch == pytest.approx(3.0, abs=0.01)


def test_usual_width_lies_between_the_published_ones():
    """2 to 3 pitches (common practice) against g1 of form B and g2 of form A."""
    for pitch in PITCHES:
        normal, short, _ = relief_rows(Fraction(pitch))
        low, high = usual_width(normal.pitch)
        assert short.width_least < low < high < normal.width_most


def test_rows_from_memory_are_marked():
    marked = {
        (row.standard, pitch) for pitch in PITCHES for row in relief_rows(Fraction(pitch)) if row.memory
    }
    assert marked == {
        (f"DIN 76-1 form {form}", pitch) for form in "AB" for pitch in ("0.75", "4", "4.5", "5", "5.5", "6")
    }


def test_a_pitch_that_is_not_printed_has_no_row():
    assert relief_rows(Fraction("2.3")) == ()


def test_the_table_says_where_it_comes_from():
    assert "DIN 76-1" in source("relief")
    assert "not opened" in source("relief")


@pytest.mark.parametrize(
    ("pitch", "form", "more", "least", "most"),
    [
        ("0.5", "C", 0.3, 2.0, 2.7), ("1", "C", 0.5, 4.0, 5.2), ("1.5", "C", 0.5, 6.0, 7.8),
        ("2", "D", 0.5, 5.0, 7.3), ("3", "D", 0.5, 7.5, 10.7), ("2.5", "C", 0.5, 10.0, 13.0),
    ],
)
def test_printed_rows_of_internal_reliefs(pitch, form, more, least, most):
    """DIN 76-1:2016 forms C and D as transcribed: the recess is larger than the nominal diameter."""
    row = next(
        row for row in relief_rows(Fraction(pitch), internal=True) if row.standard == f"DIN 76-1 form {form}"
    )
    assert -row.diameter_less / mm == pytest.approx(more)
    assert (row.width_least / mm, row.width_most / mm) == pytest.approx((least, most))


def test_internal_reliefs_grow_with_the_pitch_and_are_four_pitches_wide_at_least():
    """DIN 76-1 form C: the least width is 4 pitches at every pitch, form D 2.5 (the pattern of its rows)."""
    for pitch in PITCHES:
        normal, short = relief_rows(Fraction(pitch), internal=True)
        assert normal.width_least / normal.pitch == pytest.approx(4.0, abs=0.01)
        assert short.width_least / short.pitch == pytest.approx(2.5, abs=0.1)
        assert normal.width_least < normal.width_most
        assert normal.radius == relief_rows(Fraction(pitch))[0].radius
