"""Leads as they stand on a gearbox plate."""

from __future__ import annotations

from fractions import Fraction

from generator.calc.gearing import INCH, decimal, mixed


def test_127_is_what_makes_25_4_exact():
    """40 driving 127 on 8 threads per inch is 1.000 mm (Jones, Turning and Boring, 1914, metric pitches)."""
    assert INCH / 8 * Fraction(40, 127) == 1
    assert INCH / 8 * Fraction(80, 127) == 2


def test_numbers_as_they_stand_on_a_plate():
    assert [mixed(Fraction(text)) for text in ("8", "23/2", "3/4", "9/4")] == ["8", "11 1/2", "3/4", "2 1/4"]
    assert [decimal(Fraction(text)) for text in ("0.5", "1.25", "10", "1/3")] == ["0.5", "1.25", "10", "1/3"]
