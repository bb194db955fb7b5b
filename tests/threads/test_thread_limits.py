"""Limits of size: engagement, ranges, remarks, rounding; printed values stand in tests/published."""

from __future__ import annotations

import itertools
from decimal import Decimal

import pytest

from generator.errors import OutsideRange
from generator.threads.families.metric.external import normal_engagement
from generator.threads.registry import Range, limits, parse_designation
from generator.threads.rounding import FOUR, R40, preferred_number, rounded


def of(text, engagement=None):
    return limits(parse_designation(text), engagement)


def test_limits_of_four_threads_of_the_demo_shop():
    """By the formulas of ASME B1.1 and the tables of ISO 965-1, worked by hand."""
    assert of("2 1/4-8 UN-2A").pitch_diameter == Range(2.1664, 2.1584)
    assert of("2 1/4-8 UN-2A").major == Range(2.2476, 2.2326)
    assert of("4 1/2-4 UN-2A").pitch_diameter == Range(4.3341, 4.3225)
    assert of("4 1/2-4 UN-2A").major == Range(4.4965, 4.4727)
    assert of("M10x1.5-6g").major == Range(9.968, 9.732)
    assert of("M10x1.5-6g").pitch_diameter == Range(8.994, 8.862)
    assert of("M10x1.5-6g").minor == Range(8.344, 7.938)


def test_limits_of_internal_threads_of_the_demo_shop():
    """By the formulas of ASME B1.1 and the tables of ISO 965-1, worked by hand; printed at their places."""
    ring = of("8-12 UN-2B")
    assert ring.major == Range(None, 8.0)
    assert ring.minor == Range(7.928, 7.910)
    sleeve = of("M90x1.5-6H")
    assert sleeve.minor == Range(88.676, 88.376)
    assert sleeve.major == Range(None, 90.0)
    assert of("M64x2-6H").minor == Range(62.210, 61.835)
    assert of("4-4 UNC-2B").pitch_diameter == Range(3.8523, 3.8376)


PAIRS = [
    *((f"{size} {series}-{number}A", f"{size} {series}-{number}B")
      for size, series in (("#0-80", "UNF"), ("#6-32", "UNC"), ("1/4-20", "UNC"), ("1/2-13", "UNC"),
                           ("1-8", "UNC"), ("2-8", "UN"), ("2 1/4-12", "UN"), ("6-4", "UN"), ("3.1-7", "UNS"),
                           ("8-12", "UNS"), ("1.05-27", "UNS"))
      for number in (1, 2, 3)),
    *((f"M{size}-{outside}", f"M{size}-{inside}")
      for size in ("2x0.4", "6", "10x1.5", "24", "64x6", "90x1.5", "200x8", "13x1.4")
      for outside in ("6g", "6h", "4h") for inside in ("6H", "5H", "6G", "4H5H")),
]


@pytest.mark.parametrize(("outside", "inside"), PAIRS)
def test_external_never_interferes_with_internal_of_the_same_basic_size(outside, inside):
    """ASME B1.1, ISO 965-1: every external thread goes into every internal one of the same designation."""
    screw, nut = of(outside), of(inside)
    assert screw.major.max <= nut.major.min
    assert screw.pitch_diameter.max <= nut.pitch_diameter.min
    assert screw.minor.max <= nut.minor.min + 5.1e-4  # the minor of 1B and 2B is printed at three places
    assert nut.minor.min < nut.minor.max < nut.pitch_diameter.max
    assert nut.pitch_diameter.min < nut.pitch_diameter.max < nut.major.min + nut.pitch_tolerance


@pytest.mark.parametrize(("number", "factor"), [("1", 1.95), ("2", 1.3), ("3", 0.975)])
def test_internal_pitch_tolerance_is_a_multiple_of_class_2a(number, factor):
    """ASME B1.1: 1.95, 1.3 and 0.975 times the tolerance of class 2A."""
    outside, inside = of("1 1/2-6 UNC-2A"), of(f"1 1/2-6 UNC-{number}B")
    assert inside.pitch_tolerance == pytest.approx(factor * outside.pitch_tolerance, abs=1.3e-4)
    assert inside.allowance == 0
    assert inside.major_tolerance is None


def test_minor_diameter_is_printed_at_three_places_from_number_six_upwards():
    """ASME B1.1: three places for 1B and 2B; class 3B four for its max; smaller sizes four."""
    assert of("#6-32 UNC-2B").minor == Range(0.114, 0.104)
    assert of("#5-40 UNC-2B").minor == Range(0.1062, 0.0979)
    assert of("1/4-20 UNC-3B").minor == Range(0.2067, 0.196)


@pytest.mark.parametrize(
    ("grade", "pitch", "minor"),
    [("4", 112, 190), ("5", 140, 236), ("6", 180, 300), ("7", 224, 375), ("8", 280, 475)],
)
def test_grades_of_internal_m10(grade, pitch, minor):
    """ISO 965-1, TD2 of 5.6 to 11.2 mm and TD1, P 1.5, grades 4 to 8 (from memory of the tables)."""
    inside = of(f"M10x1.5-{grade}H")
    assert inside.pitch_tolerance == pitch / 1000
    assert inside.minor_tolerance == minor / 1000


def test_position_g_moves_all_internal_limits_up_by_what_g_moves_external_ones_down():
    """ISO 965-1: EI of G is 15 + 11 P micrometers above basic, es of g as far below."""
    h, g, outside = of("M10x1.5-6H"), of("M10x1.5-6G"), of("M10x1.5-6g")
    assert g.allowance == outside.allowance == 0.032
    for name in ("minor", "pitch_diameter"):
        assert getattr(g, name).max == pytest.approx(getattr(h, name).max + 0.032)
        assert getattr(g, name).min == pytest.approx(getattr(h, name).min + 0.032)
    assert g.major.min == 10.032


def test_internal_engagement_outside_its_range_is_said():
    """The engagement goes into the formula as for external threads; metric remarks name the better class."""
    assert of("2 1/2-12 UN-2B", 2.0).pitch_tolerance > of("2 1/2-12 UN-2B").pitch_tolerance
    assert "allowance" not in " ".join(of("2 1/2-12 UN-2B", 2.0).remarks)
    assert any("recommends 7H6H" in remark for remark in of("M10-6H", 20).remarks)


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
        ("M5x0.5-8H", "grade 8"),
        ("1/4-2 UNS-2B", "too coarse"),
        ("0.05-80 UNS-3B", "nominal diameter"),
        ("M10x9-6H", "pitch 9 mm"),
        ("M400x6-6H", "nominal diameter"),
    ],
)
def test_outside_the_standards_range(text, says):
    with pytest.raises(OutsideRange) as error:
        of(text)
    assert says in str(error.value)


def test_pitch_diameter_and_crest_may_stand_at_different_positions():
    """ISO 965-1: each diameter has the deviation of its own letter; the root goes with the pitch diameter."""
    mixed, g, h = of("M10x1.5-6g6h"), of("M10x1.5-6g"), of("M10x1.5-6h")
    assert (mixed.major, mixed.pitch_diameter, mixed.minor) == (h.major, g.pitch_diameter, g.minor)
    assert mixed.allowance == 0.032
    inside, open_, tight = of("M10x1.5-6G6H"), of("M10x1.5-6G"), of("M10x1.5-6H")
    assert (inside.major, inside.pitch_diameter) == (open_.major, open_.pitch_diameter)
    assert inside.minor == tight.minor
    assert [line.value for line in mixed.lines if line.name == "major.allowance"] == [0]
    assert [line.value for line in inside.lines if line.name == "minor.allowance"] == [0]


def test_group_of_engagement_says_how_long():
    """Machinery's Handbook, 27th ed., p. 1792: M10 x 1.5 group S up to 5, N up to 15, L over 15 mm."""
    assert [of(f"M10x1.5-6g{group}").engagement for group in ("-S", "", "-N", "-L")] == [5, 15, 15, None]


def test_no_better_class_is_named_where_the_grades_end():
    """ISO 965-1: grades 3 to 9 outside, 4 to 8 inside, and coarse ones not for fine pitches."""
    assert any("no grade coarser than that of 9g6g" in remark for remark in of("M10-9g6g", 20).remarks)
    assert any("no grade finer than that of 4H" in remark for remark in of("M10-4H", 3).remarks)
    assert any("no grade coarser than that of 6H" in remark for remark in of("M1.6x0.35-6H", 5).remarks)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("M10x1.5-6e", "position e"), ("M10x1.5-6g6f", "position f"),
        ("M100x8-6g", "tolerance of the crests"), ("M200x4-6g", "lengths of engagement"), ("M10x1.5-6g", ""),
        ("2 1/2-4 UNC-2A", ""), ("4 1/2-4 UN-2A", "4-UN series"), ("4-3 UNS-2B", "under 4 threads per inch"),
        ("1/2-13 UNC-2A SE 2", "outside the usual range"),
    ],
)
def test_what_is_from_memory_says_so(text, says):
    assert (says in of(text).memory) if says else not of(text).memory


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
    from generator.threads.families.metric import external as limits_metric
    from generator.threads.families.metric import internal as limits_metric_internal
    from generator.threads.families.metric import pitches as metric

    for (low, pitch), row in metric.pitch_rows().items():
        p = Decimal(pitch.numerator) / Decimal(pitch.denominator)
        formula = limits_metric.pitch_base(p, low, row.up_to)
        assert abs(formula / row.tolerance - 1) < Decimal("0.07"), (low, pitch)
    for pitch, crest in metric.crest_rows().items():
        p = Decimal(pitch.numerator) / Decimal(pitch.denominator)
        assert abs(limits_metric._crest_base(p) / crest.tolerance - 1) < Decimal("0.07"), pitch
        assert abs(limits_metric_internal.minor_base(p) / crest.minor_tolerance - 1) < Decimal("0.07"), pitch


def test_tolerances_grow_with_the_diameter():
    """A larger diameter never has a smaller pitch tolerance at the same pitch."""
    tolerances = [of(f"{eighths / 8}-13 UNS-2A").pitch_tolerance for eighths in range(5, 49)]
    assert all(a <= b for a, b in itertools.pairwise(tolerances))
