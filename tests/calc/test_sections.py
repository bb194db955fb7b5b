"""Sections, weight and slenderness of round work against print."""

from __future__ import annotations

import math

import pytest

from generator.calc.sections import second_moment, section_area
from generator.calc.slenderness import ALONE, BETWEEN, shear_coefficient, shear_share, slenderness
from generator.calc.weight import volume, weight
from generator.errors import OutsideRange
from generator.si import inch, lb, mm


def test_hollow_round_as_a_handbook_has_it():
    """Gere, Appendix D: I = π (D⁴ − d⁴) ÷ 64, A = π (D² − d²) ÷ 4; 4 in outside, 2 1/2 in inside."""
    assert second_moment(4 * inch, 2.5 * inch) / inch**4 == pytest.approx(10.649, abs=5e-4)
    assert section_area(4 * inch, 2.5 * inch) / inch**2 == pytest.approx(7.6576, abs=5e-5)


@pytest.mark.parametrize(
    ("od", "bore"), [(0.05, 0.05), (0.05, 0.06), (0.05, -0.001), (math.nan, 0.0), (0.0, 0.0)]
)
def test_a_round_without_a_wall_is_refused(od, bore):
    for what in (second_moment, section_area, shear_coefficient):
        with pytest.raises(OutsideRange, match="bore"):
            what(od, bore)


@pytest.mark.parametrize(("diameter", "pounds"), [(1.0, 2.67), (2.0, 10.68), (4.0, 42.73)])
def test_table_weight_of_a_foot_of_steel_round(diameter, pounds):
    """Steel round bar, lb/ft, as bar tables print it (0.2833 lb/in³; from memory)."""
    found = weight(volume(12 * inch, diameter * inch, diameter * inch), 7850.0) / lb
    assert found == pytest.approx(pounds, rel=2e-3)


def test_a_taper_weighs_what_many_thin_slices_weigh():
    steps = 2000
    slices = sum(
        section_area(60 * mm + (40 - 60) * mm * (step + 0.5) / steps, 20 * mm) * 0.3 / steps
        for step in range(steps)
    )
    assert volume(0.3, 60 * mm, 40 * mm, 20 * mm) == pytest.approx(slices, rel=1e-6)


def test_a_bore_through_the_thin_end_of_a_taper_is_refused():
    with pytest.raises(OutsideRange, match="bore"):
        volume(0.3, 60 * mm, 20 * mm, 25 * mm)


def test_table_shear_coefficients():
    """Cowper 1966, ν = 0.3: 0.886 for a solid round, 0.53 for a thin tube; from memory."""
    assert shear_coefficient(1.0) == pytest.approx(0.886, abs=5e-4)
    assert shear_coefficient(1.0, 0.9999) == pytest.approx(0.53, abs=5e-3)


def test_beam_formulas_are_within_5_percent_beyond_3_5_and_7_diameters():
    """Timoshenko beam: shear over bending for a solid round."""
    assert shear_share(3.5, 1.0) < 0.05 < shear_share(3.0, 1.0)
    assert shear_share(7.0, 1.0, both_ends=True) < 0.05 < shear_share(6.0, 1.0, both_ends=True)


def test_shear_by_the_formula_of_print():
    """y_shear = F L ÷ (κ G A) beside y = F L³ ÷ (3 E I), with E = 205 and G = E ÷ 2.6 GPa."""
    e, od, length = 205e9, 0.05, 0.1
    bending = length**3 / (3 * e * second_moment(od))
    shear = length / (shear_coefficient(od) * e / 2.6 * section_area(od))
    assert shear_share(length, od) == pytest.approx(shear / bending)


def test_limits_of_practice():
    """Operators' manuals: support beyond three diameters; ten with a center is common practice."""
    assert (ALONE, BETWEEN) == (3.0, 10.0)
    assert slenderness(0.3, 0.1) == pytest.approx(ALONE)


@pytest.mark.parametrize("diameter", [0.0, -1.0, math.nan])
def test_no_diameter_is_refused(diameter):
    with pytest.raises(OutsideRange, match="diameter"):
        slenderness(1.0, diameter)
