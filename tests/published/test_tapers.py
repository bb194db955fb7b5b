"""Tapers against print: angles, settings, standard sizes.

Rose, Modern Machine-Shop Practice (tailstock set over); US Navy course NAVEDTRA 14345 (tailstock set over,
compound rest); Jones, Turning and Boring (1914), compound rest; Colvin, Turning and Boring Tapers (1902),
tables of degrees and taper; a military table of tapers per foot and corresponding angles, as in Machinery's
Handbook; public tables of standard tapers (angle from center, taper an inch, millimetres).
"""

from __future__ import annotations

import math

import pytest

from generator.calc.taper import half_angle, ratio_of_half_angle, ratio_per_foot, taper_ratio
from generator.calc.taper_settings import attachment_setting, compound_reading, tailstock_offset
from generator.si import ft, inch, mm
from generator.tables.tapers import standard_taper


def dms(degrees: int, minutes: int, seconds: float) -> float:
    return math.radians(degrees + minutes / 60 + seconds / 3600)


@pytest.mark.parametrize(
    ("large", "small", "length", "offset"),
    [
        (3, 2, 12, 0.5),  # Navy course: one inch a foot over 12 in
        (2.5, 2, 6, 0.25),  # Navy course: the same taper over 6 in
        (3, 0, 36, 1.5),  # Rose: an inch a foot, work three feet long
    ],
)
def test_example_tailstock_set_over(large, small, length, offset):
    ratio = taper_ratio(large * inch, small * inch, length * inch)
    assert tailstock_offset(ratio, length * inch) / inch == pytest.approx(offset, abs=1e-9)


def test_example_half_an_inch_in_eight_is_three_quarters_a_foot():
    """Colvin: 1/2 in 8 in is 3/4 in a foot, the taper of a pipe tap."""
    ratio = taper_ratio(1.5 * inch, 1 * inch, 8 * inch)
    assert attachment_setting(ratio, "per foot") / inch == pytest.approx(0.75)
    assert ratio == pytest.approx(standard_taper("NPT").ratio)


@pytest.mark.parametrize(
    ("included", "taper_an_inch"),
    [
        (1, 0.01746), (2, 0.03490), (3, 0.05236), (5, 0.08732), (10, 0.17498), (20, 0.35266),
        (25, 0.44338), (30, 0.53590), (35, 0.63060), (40, 0.72794), (45, 0.82842), (50, 0.93262),
    ],
)  # fmt: skip
def test_table_equivalent_tapers_of_degrees(included, taper_an_inch):
    """Colvin, 1902; the last printed digit is off by one or two in some rows."""
    assert ratio_of_half_angle(math.radians(included / 2)) == pytest.approx(taper_an_inch, abs=2.5e-5)


@pytest.mark.parametrize(
    ("per_foot", "included", "with_center_line"),
    [
        (1 / 4, (1, 11, 36), (0, 35, 48)),
        (3 / 8, (1, 47, 24), (0, 53, 42)),
        (1 / 2, (2, 23, 10), (1, 11, 35)),
        (5 / 8, (2, 59, 2), (1, 29, 31)),
        (3 / 4, (3, 34, 44), (1, 47, 22)),
        (3, (14, 15, 0), (7, 7, 30)),
        (4, (18, 55, 28), (9, 27, 44)),
        (5, (23, 32, 12), (11, 46, 6)),
    ],
)
def test_table_tapers_per_foot_and_corresponding_angles(per_foot, included, with_center_line):
    """The printed seconds are good to about two in the half angle (1/2 in: 11′ 35″ for 11′ 36.6″)."""
    ratio = ratio_per_foot(per_foot * inch)
    second = math.radians(1 / 3600)
    assert half_angle(ratio) == pytest.approx(dms(*with_center_line), abs=2 * second)
    assert attachment_setting(ratio, "half angle") == half_angle(ratio)
    assert attachment_setting(ratio, "included angle") == pytest.approx(dms(*included), abs=4 * second)


def test_example_the_steep_taper():
    """A public working of the 7:24 taper: 8.2971°, not 8.1301°, half of the angle whose tangent is 7/24."""
    assert math.degrees(half_angle(standard_taper("steep 7:24").ratio)) == pytest.approx(8.2971, abs=5e-5)


@pytest.mark.parametrize(("with_axis", "setting"), [(30, 60), (45, 45)])
def test_example_compound_rest_with_its_zero_across(with_axis, setting):
    """Jones: a valve at 30° with the axis is set to 60°; one of 90° included is set to 45°."""
    assert math.degrees(compound_reading(math.radians(with_axis), "across")) == pytest.approx(setting)
    assert math.degrees(compound_reading(math.radians(with_axis), "along")) == pytest.approx(with_axis)


STANDARD = [  # taper a foot and an inch, angle from center in degrees: a public table of standard tapers
    ("Morse 0", 0.6246, 0.0521, 1.4908),
    ("Morse 1", 0.5986, 0.0499, 1.4287),
    ("Morse 2", 0.5994, 0.0500, 1.4307),
    ("Morse 3", 0.6024, 0.0502, 1.4377),
    ("Morse 4", 0.6233, 0.0519, 1.4876),
    ("Morse 4 1/2", 0.6240, 0.0520, 1.4894),
    ("Morse 5", 0.6315, 0.0526, 1.5073),
    ("Morse 6", 0.6257, 0.0521, 1.4933),
    ("Morse 7", 0.6240, 0.0520, 1.4894),
    ("Brown and Sharpe 1", 0.5020, 0.0418, 1.1983),
    ("Brown and Sharpe 4", 0.5024, 0.0419, 1.1992),
    ("Brown and Sharpe 6", 0.5033, 0.0419, 1.2013),
    ("Brown and Sharpe 9", 0.5009, 0.0417, 1.1955),
    ("Brown and Sharpe 10", 0.5161, 0.0430, 1.2320),
    ("Brown and Sharpe 12", 0.4997, 0.0416, 1.1928),
    ("Jacobs 1", 0.9251, 0.0771, 2.2074),
    ("Jacobs 3", 0.6390, 0.0532, 1.5251),
    ("Jacobs 33", 0.7619, 0.0635, 1.8184),
]


@pytest.mark.parametrize(("name", "per_foot", "per_inch", "angle"), STANDARD)
def test_table_standard_tapers(name, per_foot, per_inch, angle):
    taper = standard_taper(name)
    assert taper.per_foot / inch == pytest.approx(per_foot, abs=0.6e-4)
    assert taper.ratio == pytest.approx(per_inch, abs=0.6e-4)
    assert math.degrees(half_angle(taper.ratio)) == pytest.approx(angle, abs=1.1e-4)


@pytest.mark.parametrize(
    ("number", "large", "small"),
    [
        (1, 12.065, 9.373), (2, 17.780, 14.529), (3, 23.825, 19.761),
        (4, 31.267, 25.908), (5, 44.399, 37.465), (6, 63.348, 53.746),
    ],
)  # fmt: skip
def test_table_morse_diameters_in_millimetres(number, large, small):
    """A public table of Morse shanks in inches and millimetres."""
    taper = standard_taper(f"Morse {number}")
    assert taper.large / mm == pytest.approx(large, abs=0.6e-3)
    assert taper.small / mm == pytest.approx(small, abs=0.6e-3)


def test_table_jarno_seven():
    """US Army course OD1645: the number 7 is 7/8 in at the large end, 0.7 in at the small, 3 1/2 in long."""
    taper = standard_taper("Jarno 7")
    sizes = (taper.large / inch, taper.small / inch, taper.length / inch)
    assert sizes == pytest.approx((0.875, 0.7, 3.5))
    assert taper_ratio(taper.large, taper.small, taper.length) * ft / inch == pytest.approx(0.6)
