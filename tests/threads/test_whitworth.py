"""Threads of Whitworth form: read, written, refused; limits by the formulas of BS 84."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from generator.errors import BadDesignation, OutsideRange
from generator.threads.families.whitworth.limits import medium_tolerance
from generator.threads.families.whitworth.series import sizes
from generator.threads.registry import limits, mate_of, parse_designation, write_designation

READ = {
    "5/8 BSW": ("BSW", 0.625, 11, "medium", "external", "right"),
    "5/8-11 BSW": ("BSW", 0.625, 11, "medium", "external", "right"),
    "1/2 in - 12 BSW (medium) nut": ("BSW", 0.5, 12, "medium", "internal", "right"),
    "1/4 B.S.F.": ("BSF", 0.25, 26, "medium", "external", "right"),
    '3/8" b.s.w. free fit': ("BSW", 0.375, 16, "free", "external", "right"),
    "W 3/8": ("BSW", 0.375, 16, "medium", "external", "right"),
    '3/8" W': ("BSW", 0.375, 16, "medium", "external", "right"),
    "1.1/4 BSW normal LH": ("BSW", 1.25, 7, "normal", "internal", "left"),
    "2 1/4 Whitworth": ("BSW", 2.25, 4, "medium", "external", "right"),
    "4 1/2 - 2 7/8 BSW close": ("BSW", 4.5, Fraction(23, 8), "close", "external", "right"),
    "1 1/4 in -16 Whit": ("Whit", 1.25, 16, "medium", "external", "right"),
    "3/4-20 WHIT. FORM": ("Whit", 0.75, 20, "medium", "external", "right"),
    "0.921 - 14.5 whit left hand": ("Whit", 0.921, Fraction(29, 2), "medium", "external", "left"),
    "1/4-40 ME": ("ME", 0.25, 40, "medium", "external", "right"),
    "1/2 BSB": ("BSB", 0.5, 26, "medium", "external", "right"),
}


@pytest.mark.parametrize(("text", "says"), READ.items())
def test_read_as_written_at_the_bench(text, says):
    series, nominal, tpi, class_, side, hand = says
    d = parse_designation(text)
    assert (d.family, d.series, d.nominal, d.tpi) == ("WHIT", series, nominal, tpi)
    assert (d.class_, d.side, d.hand) == (class_, side, hand)
    again = parse_designation(write_designation(d))
    said = {"text": "", "class_assumed": False, "pitch_assumed": False, "side_assumed": False}
    assert replace(again, **said) == replace(d, **said)


def test_what_is_left_out_is_said_to_be_assumed():
    d = parse_designation("5/8 BSW")
    assert (d.class_assumed, d.pitch_assumed, d.side_assumed) == (True, True, True)
    d = parse_designation("5/8-11 BSW (free)")
    assert (d.class_assumed, d.pitch_assumed, d.side_assumed) == (False, False, False)


def test_written_as_the_standard_does():
    assert write_designation(parse_designation("1/2 bsw nut lh")) == "1/2 in - 12 BSW (medium) LH nut"
    two = parse_designation("1/2 BSW (2 starts)")
    assert two.lead == Fraction(1, 6)
    assert write_designation(two) == "1/2 in - 12 BSW (medium) (2 starts)"


REFUSED = {
    "1/2-13 BSW": "12 threads per inch",
    "3/8-20 BSW": "20 is BSF",
    "0.6 BSW": "not a size of the BSW series",
    "1/4 BSW BSF": "two series",
    "1/2 BSW close free": "two classes",
    "1/4 ME": "1/4-32 ME and 1/4-40 ME",
    "W 21.8 x 1/14": "special 21.8x1.814 55deg",
    "1/2 BSW free nut": "external thread by its class",
    "1/2 BSW 7g": "not understood|no size",
    "BSW": "no size",
    "1/2-0 Whit": "threads per inch are zero",
}


@pytest.mark.parametrize(("text", "why"), REFUSED.items())
def test_refused_with_what_would_do(text, why):
    with pytest.raises(BadDesignation, match=why):
        parse_designation(text)


def test_tolerance_of_one_inch_whitworth_by_hand():
    """1-8 BSW: 0.002 + 0.003 + 0.005 x 0.353553 = 0.006768 in (the formula of BS 84 worked by hand)."""
    assert float(medium_tolerance(Decimal(1), Decimal(1), Decimal("0.125"))) == pytest.approx(0.00676777)
    close, medium, free = (limits(parse_designation(f"1 BSW {name}")) for name in ("close", "medium", "free"))
    assert [of.pitch_tolerance for of in (close, medium, free)] == [0.0045, 0.0068, 0.0102]
    assert [of.allowance for of in (close, medium, free)] == [0, 0, 0]
    # crest: + 0.01 x 0.353553 = 0.0035; root: + 0.013 or 0.02 x 0.353553
    assert [of.major_tolerance for of in (close, medium, free)] == [0.0080, 0.0103, 0.0137]
    assert close.minor.min == pytest.approx(0.8399 - 0.0091)
    assert free.minor.min == pytest.approx(0.8399 - 0.0172)
    nut = limits(parse_designation("1 BSW nut"))
    assert nut.minor.max == pytest.approx(0.8399 + 0.032)  # 0.2 x 0.125 + 0.007
    assert nut.major.max is None


def test_allowance_ends_at_three_quarters_and_is_that_of_a_quarter_below():
    """A tap maker's catalog draws it up to 3/4 in only; under 1/4 in as at 1/4 in, from memory of BS 84."""
    at = {size: limits(parse_designation(f"{size} BSW")).allowance for size in ("1/8", "1/4", "3/4", "7/8")}
    assert at["1/8"] == at["1/4"] == 0.0012  # 0.3 x 0.003878
    assert at["3/4"] == 0.0018               # 0.3 x (0.001817 + 0.002598 + 0.001581)
    assert at["7/8"] == 0
    assert limits(parse_designation("3/4 BSW close")).allowance == 0


def test_bore_addition_goes_by_the_threads():
    """0.2 P + 0.004 in from 26 threads, 0.005 for 24 and 22, 0.007 from 20."""
    got = {
        text: limits(parse_designation(f"{text} nut")).minor_tolerance
        for text in ("1/4 BSF", "3/16 BSW", "5/16 BSF", "1/4 BSW")
    }
    assert got == {"1/4 BSF": 0.0117, "3/16 BSW": 0.0133, "5/16 BSF": 0.0141, "1/4 BSW": 0.017}


def test_mates_go_as_the_standard_pairs_them():
    for bolt, nut in (("close", "medium"), ("medium", "medium"), ("free", "normal")):
        d = mate_of(parse_designation(f"1/2 BSW {bolt}"))
        assert (d.class_, d.side) == (nut, "internal")
    assert mate_of(parse_designation("1/2 BSW normal")).class_ == "free"


@pytest.mark.parametrize("size", sizes(), ids=lambda size: f"{size.series} {size.text}-{float(size.tpi):g}")
def test_no_bolt_of_any_class_binds_in_any_nut(size):
    front = f"{size.text}-{float(size.tpi):g} {size.series}"
    for bolt in ("close", "medium", "free"):
        screw = limits(parse_designation(f"{front} {bolt}"))
        for nut in ("medium", "normal"):
            other = limits(parse_designation(f"{front} {nut}", "internal"))
            for name in ("major", "pitch_diameter", "minor"):
                assert getattr(screw, name).max <= getattr(other, name).min + 1e-9
                assert getattr(screw, name).min < getattr(screw, name).max


def test_classes_are_nested():
    """The loosest limits of a closer class lie inside those of the next."""
    for text in ("1/4 BSW", "3/4 BSW", "2 BSW", "1 1/4-16 Whit"):
        spans = [limits(parse_designation(f"{text} {c}")).pitch_diameter for c in ("close", "medium", "free")]
        assert spans[0].min > spans[1].min > spans[2].min
        assert spans[0].max >= spans[1].max == spans[2].max


def test_long_engagement_goes_into_the_formula_and_is_said():
    d = parse_designation("1/2 BSW")
    usual, same, long = limits(d), limits(d, 0.75), limits(d, 2.0)
    assert same.pitch_tolerance == usual.pitch_tolerance
    assert long.pitch_tolerance > usual.pitch_tolerance
    assert (usual.engagement_standard, long.engagement_standard) == (True, False)
    assert any("engagement" in remark for remark in long.remarks)


def test_limits_say_what_is_from_memory_and_what_is_special():
    of = limits(parse_designation("1 1/4-16 Whit"))
    assert of.memory
    assert not of.tabulated
    assert any("special thread of Whitworth form" in remark for remark in of.remarks)
    assert limits(parse_designation("1 1/4-7 BSW")).tabulated
    assert limits(parse_designation("3/8-16 Whit")).tabulated
    assert "series has this size" in limits(parse_designation("9/32 BSF")).memory
    assert "series has this size" not in limits(parse_designation("3/8 BSF")).memory


def test_a_pitch_too_coarse_for_the_diameter_is_refused():
    with pytest.raises(OutsideRange, match="too coarse"):
        limits(parse_designation("1/4-5 Whit"))
