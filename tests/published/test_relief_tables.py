"""Reliefs of metric threads: DIN 76-1:2016 forms A and B, ISO 4755:1983, as read in public transcriptions."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from generator.calc.relief import usual_width
from generator.calc.thread_end import usual_run_out
from generator.si import mm
from generator.tables.relief import blind_beyond, relief_rows, run_out
from generator.tables.rows import source

DATA = Path(__file__).parent / "data"

FINE = ["0.25", "0.3", "0.35", "0.4", "0.45", "0.6"]
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


def _rows(name):
    lines = (DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", _rows("relief_outside"), ids=lambda row: row["pitch"])
def test_a_second_transcription_of_iso_4755(row):
    """GB/T 3-1997 table 2, equivalent to ISO 4755: 23 pitches in two transcriptions."""
    has = next(one for one in relief_rows(Fraction(row["pitch"])) if one.standard == "ISO 4755")
    found = (has.width_most, has.width_least, has.diameter_less, has.radius)
    wanted = [float(row[key]) for key in ("g2", "g1", "less", "r")]
    assert [value / mm for value in found] == pytest.approx(wanted)


@pytest.mark.parametrize("row", _rows("run_out_inside"), ids=lambda row: row["pitch"])
def test_run_outs_inside_and_what_the_forms_c_and_d_have_in_common_with_them(row):
    """GB/T 3-1997 tables 3 and 4: x, A; the undercut is 4 P wide, as form C of DIN 76-1 is at the bottom."""
    pitch = Fraction(row["pitch"])
    has = run_out(pitch, internal=True)
    found = (has.normal, has.short, has.shoulder, has.shoulder_long)
    wanted = [float(row[key]) for key in ("x", "x_short", "a", "a_long")]
    assert [value / mm for value in found] == pytest.approx(wanted)
    if row["g1"]:
        form_c, _ = relief_rows(pitch, internal=True)
        assert form_c.width_least / mm == pytest.approx(float(row["g1"]))
        assert -form_c.diameter_less / mm == pytest.approx(0.3 if pitch < 1 else 0.5)


@pytest.mark.parametrize(
    ("pitch", "x", "x_short", "a", "a_long", "a_short"),
    [
        ("0.25", 0.6, 0.3, 0.75, 1, 0.5), ("0.3", 0.75, 0.4, 0.9, 1.2, 0.6),
        ("0.35", 0.9, 0.45, 1.05, 1.4, 0.7), ("0.4", 1, 0.5, 1.2, 1.6, 0.8),
    ],
)
def test_run_outs_outside_in_a_second_transcription(pitch, x, x_short, a, a_long, a_short):
    """GB/T 3-1997 table 1, equivalent to ISO 3508, as another web page on fasteners prints its first rows."""
    has = run_out(Fraction(pitch))
    found = (has.normal, has.short, has.shoulder, has.shoulder_long, has.shoulder_short)
    assert [value / mm for value in found] == pytest.approx([x, x_short, a, a_long, a_short])


def test_run_outs_outside_keep_to_the_printed_reference_values():
    """The last row of GB/T 3-1997 table 1: about 2.5 P, 1.25 P, 3 P, and 4 P, 2 P."""
    for pitch in (*FINE, *PITCHES):
        has = run_out(Fraction(pitch))
        assert has.normal / has.pitch == pytest.approx(2.5, abs=0.11), pitch
        assert has.short / has.pitch == pytest.approx(1.25, abs=0.15), pitch
        assert has.shoulder / has.pitch == pytest.approx(3, abs=0.21), pitch  # 4 mm is printed for 1.25
        assert has.shoulder_long / has.pitch == pytest.approx(4), pitch
        assert has.shoulder_short / has.pitch == pytest.approx(2), pitch
    assert usual_run_out(1.0) == (2.5, 1.25, 3.0)
    assert usual_run_out(1.0, internal=True)[:2] == (4.0, 2.0)
    assert run_out(Fraction("2.3")) is None
    assert "1.3" in run_out(Fraction("1.75")).doubt


@pytest.mark.parametrize(
    ("pitch", "beyond"),
    [("0.5", 2.8), ("1", 5.1), ("1.25", 6.2), ("1.5", 7.3), ("2", 9.3), ("3", 13.1), ("6", 24)],
)
def test_blind_holes(pitch, beyond):
    """DIN 76-1, column e1, as recalled from textbooks' tables: from memory; they fall from 6.5 P to 4 P."""
    assert blind_beyond(Fraction(pitch)) / mm == pytest.approx(beyond)


def test_blind_holes_grow_with_the_pitch():
    found = [blind_beyond(Fraction(pitch)) for pitch in sorted((*FINE, *PITCHES), key=Fraction)]
    assert found == sorted(found)
    assert all(3.9 < length / float(pitch) / mm < 6.6 for length, pitch in
               zip(found, sorted((*FINE, *PITCHES), key=Fraction), strict=True))


def test_fine_pitches_have_their_reliefs_too():
    for pitch in FINE:
        assert [row.standard for row in relief_rows(Fraction(pitch))] == [
            "DIN 76-1 form A", "DIN 76-1 form B", "ISO 4755",
        ]
        assert all(row.memory for row in relief_rows(Fraction(pitch))[:2])
        assert all(row.memory for row in relief_rows(Fraction(pitch), internal=True))
    assert [row.standard for row in relief_rows(Fraction("0.2"))] == ["DIN 76-1 form A", "DIN 76-1 form B"]
