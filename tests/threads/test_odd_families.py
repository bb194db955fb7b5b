"""Buttress, saw-tooth, square, American National, sharp V, old metric and special threads."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from generator.errors import BadDesignation, OutsideRange
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)

KEYS = ("BUTT", "S", "SQ", "N", "V", "OLD-METRIC", "SPECIAL")
FAMILIES = [family for family in families() if family.key in KEYS]
SIZES = [size for family in FAMILIES for size in family.sizes()]

READ = {
    "2.5-8 BUTT-2A": ("BUTT", 2.5, "1/8", 1, "2A", "right"),
    "2 1/2-8 BUTT-2A-LH": ("BUTT", 2.5, "1/8", 1, "2A", "left"),
    "10-8(2P) butt 3": ("BUTT", 10, "1/8", 2, "3A", "right"),
    "2.5-8 pull-butt-2b": ("BUTT", 2.5, "1/8", 1, "2B", "right"),
    "S 48x8": ("S", 48, "8", 1, "7h", "right"),
    "S 40x14 P7": ("S", 40, "7", 2, "7h", "right"),
    "S48x8-7e": ("S", 48, "8", 1, "7e", "right"),
    "s60 × 9 LH – 8az": ("S", 60, "9", 1, "8AZ", "left"),
    "1 1/4-4 SQUARE": ("SQ", 1.25, "1/4", 1, "", "right"),
    "SQ 30x6": ("SQ", 30, "6", 1, "", "right"),
    "1.25-4 SQ LH": ("SQ", 1.25, "1/4", 1, "", "left"),
    "1/2-13 NC-2": ("N", 0.5, "1/13", 1, "2", "right"),
    "3/4-16NF3": ("N", 0.75, "1/16", 1, "3", "right"),
    "10-24 NC": ("N", 0.19, "1/24", 1, "2", "right"),
    "1 5/8 - 5 1/2 U.S.S.": ("N", 1.625, "2/11", 1, "", "right"),
    "1/2-20 S.A.E. left hand": ("N", 0.5, "1/20", 1, "", "left"),
    "1/2-12 V": ("V", 0.5, "1/12", 1, "", "right"),
    "1 in -8 sharp V": ("V", 1, "1/8", 1, "", "right"),
    "SI 10x1.5": ("OLD-METRIC", 10, "3/2", 1, "", "right"),
    "S.F. 12": ("OLD-METRIC", 12, "3/2", 1, "", "right"),
    "Löwenherz 5": ("OLD-METRIC", 5, "4/5", 1, "", "right"),
    "special 23.4x1.8 60deg": ("SPECIAL", 23.4, "9/5", 1, "", "right"),
    "special 0.921-14.5 55° taper 1:16 LH": ("SPECIAL", 0.921, "2/29", 1, "", "left"),
}


@pytest.mark.parametrize(("text", "says"), READ.items())
def test_read_as_written_at_the_bench(text, says):
    """Any case, spaces, dashes and signs; what the text leaves out is assumed and said to be."""
    family, nominal, pitch, starts, class_, hand = says
    d = parse_designation(text)
    assert (d.family, d.nominal, d.pitch, d.starts) == (family, nominal, Fraction(pitch), starts)
    assert (d.class_, d.hand, d.lead) == (class_, hand, starts * Fraction(pitch))


def same(d):
    return replace(d, text="", class_assumed=False, pitch_assumed=False, side_assumed=False)


WRITTEN = [
    *READ, *(f"{text} nut" for text in READ if READ[text][4][-1:] not in ("A", "B", "Z", "h", "e")),
    *(example for family in FAMILIES for example in family.examples),
]


@pytest.mark.parametrize("text", WRITTEN)
def test_written_and_read_again_is_the_same_thread_and_so_is_its_mate(text):
    d = parse_designation(text)
    for one in (d, mate_of(d)):
        again = parse_designation(write_designation(one))
        assert same(again) == same(one)
        assert write_designation(again) == write_designation(one)
    assert mate_of(d).side != d.side


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.designation)
def test_standard_sizes_read_and_never_interfere_with_their_mate(size):
    """The screw at its largest goes into the nut at its least; limits stand in order."""
    d = parse_designation(size.designation)
    assert (d.nominal, float(d.pitch), d.unit) == pytest.approx((size.major, size.pitch, size.unit))
    screw, nut = limits(d), limits(mate_of(d))
    for name in ("major", "pitch_diameter", "minor"):
        inner, outer = getattr(screw, name), getattr(nut, name)
        assert inner.max <= outer.min
        for ends in (inner, outer):
            assert None in (ends.max, ends.min) or ends.max > ends.min
    assert screw.major.max > screw.pitch_diameter.max > screw.minor.max > 0
    for one in (screw, nut):
        assert len({line.name for line in one.lines}) == len(one.lines)
        for name in ("major", "pitch_diameter", "minor"):
            for end in ("max", "min"):
                laid = {line.name: line.value for line in one.lines}.get(f"{name}.{end}")
                assert laid == getattr(getattr(one, name), end)


@pytest.mark.parametrize("text", WRITTEN)
def test_the_form_closes(text):
    """Crest flat, half a pitch at the pitch line and the flanks agree; the tool fits the root."""
    d = parse_designation(text)
    form = profile(d)
    if d.family in ("V", "SPECIAL"):
        assert form.depth * form.flanks.tangents <= 1
        return
    assert form.crest_flat == pytest.approx(0.5 - form.addendum * form.flanks.tangents, abs=2e-4)
    if form.tool_radius:
        bottom = 0.5 / form.flanks.tangents - (form.flanks.seat - 1) * form.tool_radius
        assert form.addendum + bottom == pytest.approx(form.depth, abs=2e-4)


REFUSED = {
    "2.5-8 BUTT-4A": "classes 2 and 3",
    "2.5-8 BUTT-2A-3A": "write one class",
    "BUTT 48x8": "write S 48x8",
    "2.5-8 BUTT-2A nonsense": "NONSENSE",
    "S48": "like S48x8-7h",
    "S48x8-6h": "grades 7, 8 and 9",
    "S40x15(P7)": "not a whole number of pitches",
    "1-x square": "like 1 1/4-4 SQUARE",
    "SQ 30x0": "the pitch is zero",
    "1/2-13 NC-5": "classes 1 to 4",
    "1/2-13 NC-2A": "write NC-2",
    "1/2-13 USS-2": "have no class",
    "1/2-0 V": "threads per inch are zero",
    "SI 13": "no standard pitch for 13",
    "special 23.4x1.8": "no angle between the flanks",
    "special 2x8 60deg": "as deep as the thread is thick",
    "special 23.4x1.8 60deg depth 1.7": "two grooves meet",
    "special 23.4x1.8 150deg": "leaning over 60 degrees",
    "special 23.4x1.8 60deg blue": "blue",
}


@pytest.mark.parametrize(("text", "says"), REFUSED.items())
def test_refused_with_what_would_do(text, says):
    with pytest.raises(BadDesignation) as error:
        parse_designation(text)
    assert says in str(error.value)
    assert text[:20] in str(error.value)


@pytest.mark.parametrize(
    "text", ["0.5-1 BUTT-2A", "S10x9", "1/4-4 SQUARE", "1/4-4 NC-2", "1/4-4 V", "SI 3x3"]
)
def test_a_pitch_too_coarse_for_its_diameter_is_out_of_range(text):
    with pytest.raises(OutsideRange):
        limits(parse_designation(text))


def test_which_flank_carries_the_load_is_said_for_push_and_pull():
    """ASME B1.9: pull unless PUSH is written; the clearance flank of a screw that pulls leads."""
    pull, push = (limits(parse_designation(f"2.5-8 {kind}-2A")).remarks[0] for kind in ("BUTT", "PUSH-BUTT"))
    assert "its 45 degree flank leads and its 7 degree flank follows" in pull
    assert "its 7 degree flank leads and its 45 degree flank follows" in push
    form = profile(parse_designation("2.5-8 BUTT-2A"))
    assert math.degrees(form.flanks.load) == pytest.approx(7)
    assert math.degrees(form.flanks.clearance) == pytest.approx(45)


def test_special_engagement_goes_into_the_buttress_tolerance():
    """ASME B1.9: 0.002 ∛D + 0.00278 √LE + 0.00854 √P; ten pitches is the table."""
    d = parse_designation("2-4 BUTT-2A")
    short, table, long_ = (limits(d, length).pitch_tolerance for length in (1.0, 2.5, 5.0))
    assert short < table < long_
    assert table == limits(d).pitch_tolerance
    assert long_ == pytest.approx(0.002 * 2 ** (1 / 3) + 0.00278 * 5**0.5 + 0.00854 * 0.25**0.5, abs=6e-5)


def test_the_play_of_a_saw_tooth_pair_is_a_tenth_of_the_root_of_its_pitch():
    """DIN 513: axial play 0.1 √P mm between 7h and 7AZ at most material."""
    screw = parse_designation("S48x8-7h")
    wider = limits(mate_of(screw)).pitch_diameter.min - limits(screw).pitch_diameter.max
    assert wider * profile(screw).flanks.tangents / 2 == pytest.approx(0.1 * math.sqrt(8), abs=1e-3)


def test_depth_and_root_of_the_old_forms():
    """1 in of 8: US Standard root 0.8376, sharp V 0.7835 (Rose, Modern Machine-Shop Practice)."""
    assert limits(parse_designation("1-8 USS")).minor.max == 0.8376
    assert round(1 - 2 * profile(parse_designation("1-8 V")).depth / 8, 4) == 0.7835


def test_loewenherz_over_wires():
    """M = E - P + 3.2359 W (web chart of Loewenherz threads): 1 + 1/sin A = 3.2359, cot A / 2 = 1."""
    form = profile(parse_designation("LOEW 5x0.8"))
    assert 1 + 1 / math.sin(form.half_angle) == pytest.approx(3.2359, abs=2e-4)
    assert 0.5 / math.tan(form.half_angle) == pytest.approx(1, abs=1e-4)


def test_special_threads_keep_what_was_measured_and_give_no_limits():
    d = parse_designation("special 0.921-14.5 55deg taper 1:16 depth 0.04")
    form, sizes = profile(d), limits(d)
    assert form.taper == 1 / 16
    assert form.depth == pytest.approx(0.04 * 14.5)
    assert sizes.pitch_diameter.min is None
    assert sizes.minor.max == pytest.approx(0.841)
    assert "made to the mate as measured" in sizes.remarks[0]


def test_class_4_and_odd_pitches_have_basic_sizes_only():
    for text in ("1/2-13 NC-4", "1 1/8-11.5 NS-2"):
        sizes = limits(parse_designation(text))
        assert sizes.pitch_diameter.min is None
        assert sizes.pitch_diameter.max is not None
        assert "the sizes are basic" in " ".join(sizes.remarks)
