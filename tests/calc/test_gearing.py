"""The gearbox plate: a lead is there exactly, or not at all."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calc.gearing import INCH, Plate, decimal, mixed, nearest_leads, plate_entry

PLATE = Plate(
    tpi=[Fraction(text) for text in ("4", "9/2", "8", "23/2", "12", "27/2")],
    pitches=[Fraction(text) for text in ("0.5", "1.25", "3", "6")],
    pitches_with_gears="127-tooth gear",
)


@pytest.mark.parametrize(
    ("lead", "entry"),
    [
        (INCH / 8, "8 threads per inch"),
        (INCH / 8 * 2, "4 threads per inch"),  # two starts of 8: the lead counts
        (2 * INCH / 23, "11 1/2 threads per inch"),
        (2 * INCH / 27, "13 1/2 threads per inch"),
        (Fraction(5, 4), "1.25 mm, with 127-tooth gear"),
        (Fraction(3), "3 mm, with 127-tooth gear"),
        (INCH / 7, None),
        (Fraction(7, 4), None),
        (Fraction("3.175"), "8 threads per inch"),  # exactly 1/8 in
        (Fraction("3.18"), None),
    ],
)
def test_entry(lead, entry):
    assert plate_entry(lead, PLATE) == entry


def test_an_entry_without_change_wheels_comes_first():
    plate = Plate([Fraction(127, 10)], [Fraction(2)], tpi_with_gears="spare wheels")
    assert plate_entry(Fraction(2), plate) == "2 mm"


def test_127_is_what_makes_25_4_exact():
    """40 driving 127 on 8 threads per inch is 1.000 mm (Jones, Turning and Boring, 1914, metric pitches)."""
    assert INCH / 8 * Fraction(40, 127) == 1
    assert INCH / 8 * Fraction(80, 127) == 2
    assert float(INCH / 8 * Fraction(50 * 40, 63 * 80)) == pytest.approx(1.259921, abs=5e-7)


def test_neighbours_of_a_missing_lead():
    assert nearest_leads(INCH / 10, PLATE) == ("11 1/2 threads per inch", "3 mm, with 127-tooth gear")
    assert nearest_leads(Fraction(10), PLATE) == ("4 threads per inch",)
    assert nearest_leads(Fraction(1, 10), PLATE) == ("0.5 mm, with 127-tooth gear",)
    assert nearest_leads(Fraction(1), Plate()) == ()


def test_numbers_as_they_stand_on_a_plate():
    assert [mixed(Fraction(text)) for text in ("8", "23/2", "3/4", "9/4")] == ["8", "11 1/2", "3/4", "2 1/4"]
    assert [decimal(Fraction(text)) for text in ("0.5", "1.25", "10", "1/3")] == ["0.5", "1.25", "10", "1/3"]
