"""Limits of size: engagement, ranges, remarks, rounding; printed values stand in tests/published."""

from __future__ import annotations

import itertools
from decimal import Decimal

import pytest

from generator.calc.designation import parse_designation
from generator.calc.limits_metric import normal_engagement
from generator.calc.rounding import FOUR, R40, preferred_number, rounded
from generator.calc.thread_limits import Range, limits
from generator.errors import OutsideRange


def of(text, engagement=None):
    return limits(parse_designation(text), engagement)


def test_limits_of_four_threads_of_the_demo_shop():
    """By the formulas of ASME B1.1 and the tables of ISO 965-1, worked by hand."""
    assert of("2 1/4-8 UN-2A").pitch_diameter == Range(2.1664, 2.1584)
    assert of("2 1/4-8 UN-2A").blank_range == Range(2.2476, 2.2326)
    assert of("4 1/2-4 UN-2A").pitch_diameter == Range(4.3341, 4.3225)
    assert of("4 1/2-4 UN-2A").blank_range == Range(4.4965, 4.4727)
    assert of("M10x1.5-6g").major == Range(9.968, 9.732)
    assert of("M10x1.5-6g").pitch_diameter == Range(8.994, 8.862)
    assert of("M10x1.5-6g").minor == Range(8.344, 7.938)


def test_round_half_to_even():
    """ASME B1.30: a half goes to the even digit."""
    assert [rounded(Decimal(text), FOUR) for text in ("0.00005", "0.00015", "0.00025")] == [
        Decimal("0.0000"), Decimal("0.0002"), Decimal("0.0002"),
    ]


def test_preferred_numbers_of_iso_3():
    """R 40 has 40 steps a decade, and steps of grade move along it."""
    assert len(R40) == 40
    assert preferred_number(Decimal(98)) == 100
    assert preferred_number(Decimal(100), 40) == 1000
    assert preferred_number(Decimal(132), -4) == 106
    assert preferred_number(Decimal(132), 4) == 170


@pytest.mark.parametrize(
    ("grade", "micrometers"),
    [("3", 67), ("4", 85), ("5", 106), ("6", 132), ("7", 170), ("8", 212), ("9", 265)],
)
def test_grades_of_pitch_diameter_of_m10(grade, micrometers):
    """ISO 965-1, Td2 of 5.6 to 11.2 mm, P 1.5, grades 3 to 9 (from memory of the standard's table)."""
    assert of(f"M10x1.5-{grade}g6g").pitch_tolerance == micrometers / 1000


@pytest.mark.parametrize(("grade", "micrometers"), [("4", 150), ("6", 236), ("8", 375)])
def test_grades_of_major_diameter_of_pitch_1_5(grade, micrometers):
    """ISO 965-1, Td of P 1.5, grades 4, 6, 8 (from memory of the standard's table)."""
    assert of(f"M10x1.5-6g{grade}g").major_tolerance == micrometers / 1000


def test_positions_shift_all_limits_alike():
    """ISO 965-1: the deviation es moves major, pitch and minor diameter together."""
    h, g, f, e = (of(f"M10x1.5-6{position}") for position in "hgfe")
    assert [x.allowance for x in (h, g, f, e)] == [0, 0.032, 0.045, 0.067]
    for x in (g, f, e):
        assert x.major.max == pytest.approx(h.major.max - x.allowance)
        assert x.pitch_diameter.min == pytest.approx(h.pitch_diameter.min - x.allowance)


def test_class_3a_has_no_allowance_and_three_quarters_of_the_tolerance():
    """ASME B1.1 class factors 1.5, 1, 0.75; es 0.300 Td2(2A) for 1A and 2A."""
    one, two, three = (of(f"1 1/2-6 UNC-{name}") for name in ("1A", "2A", "3A"))
    assert three.major.max == 1.5
    assert one.allowance == two.allowance == pytest.approx(0.3 * two.pitch_tolerance, abs=6e-5)
    assert one.pitch_tolerance == pytest.approx(1.5 * two.pitch_tolerance, abs=1.1e-4)
    assert three.pitch_tolerance == pytest.approx(0.75 * two.pitch_tolerance, abs=1.1e-4)


def test_engagement_within_the_standards_range_changes_nothing():
    """Nine pitches serve from 5 to 15 pitches (Machinery's Handbook, selected combinations)."""
    usual = of("2 1/2-12 UN-2A")
    assert usual.engagement == 0.75
    assert of("2 1/2-12 UN-2A", 5 / 12).pitch_diameter == usual.pitch_diameter
    assert of("2 1/2-12 UN-2A", 15 / 12).engagement_standard
    assert of("2 1/2-12 UN-2A", 15 / 12 * 0.0254 / 0.0254).engagement_standard
    assert of("1-8 UNC-2A", 1.5).engagement_standard
    assert not of("1-8 UNC-2A", 1.501).engagement_standard


def test_engagement_outside_goes_into_the_formula_and_is_said():
    long = of("2 1/2-12 UN-2A", 2.0)
    assert not long.engagement_standard
    assert long.engagement == 2.0
    assert long.pitch_tolerance > of("2 1/2-12 UN-2A").pitch_tolerance
    assert any("length of engagement" in remark for remark in long.remarks)
    short = of("2 1/2-12 UN-2A", 0.3)
    assert short.pitch_tolerance < of("2 1/2-12 UN-2A").pitch_tolerance


def test_metric_engagement_outside_its_group_names_the_better_class():
    """Machinery's Handbook, 27th ed., p. 1792: M10 x 1.5 normal is over 5 up to 15 mm."""
    assert normal_engagement(parse_designation("M10x1.5-6g")) == (5.0, 15.0)
    assert of("M10-6g", 12).engagement_standard
    assert any("recommends 7g6g" in remark for remark in of("M10-6g", 20).remarks)
    assert any("recommends 5g6g" in remark for remark in of("M10-6g", 5).remarks)
    assert of("M10-6g", 20).pitch_diameter == of("M10-6g").pitch_diameter


@pytest.mark.parametrize("engagement", [0.0, -1.0, float("nan"), float("inf")])
def test_engagement_that_is_no_length(engagement):
    with pytest.raises(OutsideRange, match="length of engagement"):
        of("2-8 UN-2A", engagement)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0.05-80 UNS-2A", "nominal diameter 0.05 in is out of range: at least 0.06 in"),
        ("1/4-2 UNS-2A", "too coarse"),
        ("M0.9x0.2-6g", "nominal diameter"),
        ("M400x6-6g", "nominal diameter"),
        ("M10x9-6g", "pitch 9 mm is out of range: at least 0.2 mm and at most 8 mm"),
        ("M10x8-6g", "too coarse"),
        ("M2x0.4-6e", "position e"),
        ("M5x0.5-8g", "grade 8"),
    ],
)
def test_outside_the_standards_range(text, says):
    with pytest.raises(OutsideRange) as error:
        of(text)
    assert says in str(error.value)


def test_special_threads_say_so():
    """Any diameter and pitch has limits; what is in no table is not called tabulated."""
    assert not of("2.4375-10 UNS-2A").tabulated
    assert any("special thread" in remark for remark in of("2-10 UN-2A").remarks)
    assert any("UNC" in remark for remark in of("3/8-16 UN-2A").remarks)
    assert of("3/8-16 UN-2A").pitch_diameter == of("3/8-16 UNC-2A").pitch_diameter
    assert any("Beyond the tables" in remark for remark in of("8-8 UNS-2A").remarks)
    assert not of("M13x1.4-6g").tabulated
    assert any("not a tabulated combination" in remark for remark in of("M13x1.4-6g").remarks)
    assert of("M10x1.5-6g").remarks == ()
    assert of("1-8 UNC-2A").remarks == ()


def test_limits_of_the_formulas_agree_with_the_tables_of_iso_965():
    """The tabulated grade-6 tolerances lie within two R 40 steps of the standard's own formulas."""
    from generator.calc import limits_metric
    from generator.tables import metric

    for (low, pitch), row in metric.pitch_rows().items():
        p = Decimal(pitch.numerator) / Decimal(pitch.denominator)
        formula = limits_metric._pitch_base(p, low, row.up_to)
        assert abs(formula / row.tolerance - 1) < Decimal("0.07"), (low, pitch)
    for pitch, crest in metric.crest_rows().items():
        p = Decimal(pitch.numerator) / Decimal(pitch.denominator)
        assert abs(limits_metric._crest_base(p) / crest.tolerance - 1) < Decimal("0.07"), pitch


def test_tolerances_grow_with_the_diameter():
    """A larger diameter never has a smaller pitch tolerance at the same pitch."""
    tolerances = [of(f"{eighths / 8}-13 UNS-2A").pitch_tolerance for eighths in range(5, 49)]
    assert all(a <= b for a, b in itertools.pairwise(tolerances))
