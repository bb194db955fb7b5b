"""Thread designations as machinists write them: what is read, what is refused, and with which words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from generator.errors import BadDesignation
from generator.threads.registry import limits, mate_of, parse_designation, write_designation


def read(text):
    d = parse_designation(text)
    return d.series, d.nominal, d.pitch, d.lead, d.starts, d.class_, d.hand


@pytest.mark.parametrize(
    ("text", "series", "nominal", "tpi", "class_", "hand"),
    [
        ("2-8 UN-2A", "UN", 2, 8, "2A", "right"),
        ("1/2-13 UNC-2A-LH", "UNC", 0.5, 13, "2A", "left"),
        ("1/2-13 UNC-2A left hand", "UNC", 0.5, 13, "2A", "left"),
        ("1/2 - 13 unc - 2a", "UNC", 0.5, 13, "2A", "right"),
        ("1/2-13UNC2A", "UNC", 0.5, 13, "2A", "right"),
        ("1/2-13 UNC-2A(21)", "UNC", 0.5, 13, "2A", "right"),
        ("2 1/4-8 UN-2A", "UN", 2.25, 8, "2A", "right"),
        ("2-1/4-8 UN-2A", "UN", 2.25, 8, "2A", "right"),
        ("2¼–8 UN–2A", "UN", 2.25, 8, "2A", "right"),
        ('2 1/4"-8 UN-2A', "UN", 2.25, 8, "2A", "right"),
        ("2 1/4 in-8 UN-2A", "UN", 2.25, 8, "2A", "right"),
        ("2.4375-10 UNS-2A", "UNS", 2.4375, 10, "2A", "right"),
        (".5-13 UNC-2A", "UNC", 0.5, 13, "2A", "right"),
        ("#10-32 UNF-2A", "UNF", 0.19, 32, "2A", "right"),
        ("No. 10-32 UNF-3A", "UNF", 0.19, 32, "3A", "right"),
        ("10-32 UNF-2A", "UNF", 0.19, 32, "2A", "right"),
        ("2-4.5 UNC-1A", "UNC", 2, Fraction(9, 2), "1A", "right"),
        ("2-4 1/2 UNC-1A", "UNC", 2, Fraction(9, 2), "1A", "right"),
        ("1/2-13 UNRC-2A", "UNRC", 0.5, 13, "2A", "right"),
        ("2-8 un-2b", "UN", 2, 8, "2B", "right"),
        ("1/2-13 UNC-3B-LH", "UNC", 0.5, 13, "3B", "left"),
        ("#10-32 UNF-1B", "UNF", 0.19, 32, "1B", "right"),
    ],
)
def test_unified_designations(text, series, nominal, tpi, class_, hand):
    """ASME B1.1 designations, and the ways they are written at the bench."""
    d = parse_designation(text)
    assert (d.family, d.unit, d.series) == ("UN", "in", series)
    assert (d.nominal, d.tpi, d.class_, d.hand, d.starts) == (nominal, tpi, class_, hand, 1)
    assert d.text == " ".join(text.split())
    assert d.rounded_root == (series == "UNRC")
    assert not d.class_assumed


@pytest.mark.parametrize(
    ("text", "nominal", "pitch", "class_", "hand"),
    [
        ("M20x2.5-6g", 20, "2.5", "6g", "right"),
        ("M20 × 1.5 - 5g6g - LH", 20, "1.5", "5g6g", "left"),
        ("m20x1.5–5g6g", 20, "1.5", "5g6g", "right"),
        ("M24x2 LH-6g", 24, "2", "6g", "left"),
        ("M8X1-6g", 8, "1", "6g", "right"),
        ("M10*1.25-6h", 10, "1.25", "6h", "right"),
        ("M6-4h", 6, "1", "4h", "right"),
        ("M6-6g6g", 6, "1", "6g", "right"),
        ("M90x1.5-6H", 90, "1.5", "6H", "right"),
        ("M10 - 5H6H - LH", 10, "1.5", "5H6H", "left"),
        ("M10X1.5-6G", 10, "1.5", "6G", "right"),
    ],
)
def test_metric_designations(text, nominal, pitch, class_, hand):
    """ISO 965-1 designations: pitch-diameter class first, then the crest's."""
    d = parse_designation(text)
    assert (d.family, d.unit, d.series, d.nominal) == ("M", "mm", "M", nominal)
    assert (d.pitch, d.class_, d.hand) == (Fraction(pitch), class_, hand)
    assert d.tpi is None
    assert not d.class_assumed


@pytest.mark.parametrize(
    ("text", "side"),
    [
        ("2-8 UN-2A", "external"), ("2-8 UN-2B", "internal"), ("M10", "external"), ("M10-6h", "external"),
        ("M10-6H", "internal"), ("M10-5H6H", "internal"), ("M10-6G", "internal"),
    ],
)
def test_the_class_says_which_side(text, side):
    """ASME B1.1: A outside, B inside; ISO 965-1: small letters outside, capitals inside."""
    d = parse_designation(text)
    assert d.side == side
    assert d.internal == (side == "internal")


def test_left_out_pitch_is_the_coarse_one_and_said_to_be_assumed():
    """ISO 261: M10 has the coarse pitch 1.5 mm."""
    d = parse_designation("M10 - 6g")
    assert d.pitch == Fraction(3, 2)
    assert d.pitch_assumed
    assert not parse_designation("M10x1.5-6g").pitch_assumed


@pytest.mark.parametrize(
    ("text", "class_"), [("M10", "6g"), ("M1.6x0.35", "6g"), ("M1.4", "6h"), ("M1x0.25", "6h")]
)
def test_left_out_metric_class_is_assumed(text, class_):
    """ISO 965-1: 6g from M1.6 upwards and 6h up to M1.4 when no class is written."""
    d = parse_designation(text)
    assert d.class_ == class_
    assert d.class_assumed


@pytest.mark.parametrize(
    ("text", "group"), [("M10x1.5-6g", "N"), ("M10x1.5-6g-L", "L"), ("M10-6g-S-LH", "S")]
)
def test_group_of_engagement(text, group):
    """ISO 965-1: S, N or L after the class."""
    assert parse_designation(text).engagement_group == group


@pytest.mark.parametrize(
    ("text", "standard"),
    [
        ("1 1/4-7unc-2a-lh", "1 1/4-7 UNC-2A-LH"), ("1.25-7 UNC 2A LH", "1.250-7 UNC-2A-LH"),
        ("3/8-16UNC2A", "3/8-16 UNC-2A"), ("10-32 unf 3b", "#10-32 UNF-3B"),
        (".5 - 13 unc 2b", "0.500-13 UNC-2B"), ("2-8un-2a(21)LH", "2-8 UN-2A-LH"),
        ("1/2-13 UNC-2A SE 1 1/2", "1/2-13 UNC-2A SE 1.5"),
        ("1/2-13 unc-2a-lh-se1.5in", "1/2-13 UNC-2A-LH SE 1.5"),
        ("1-8 UN-2A two starts", "1-.125P-.25L(2 STARTS)UN-2A"),
        ("m16 x l3 - p1.5 - 6H", "M16xPh3P1.5-6H"), ("M16x3(P1.5)-6g lh", "M16xPh3P1.5-6g-LH"),
        ("M16x1.5-6g double start", "M16xPh3P1.5-6g"), ("m 16 mm x 1.5 mm 6h left hand", "M16x1.5-6h-LH"),
        ("M8x 1 - 6g6g", "M8x1-6g"), ("m10-5g6h-l", "M10x1.5-5g6h-L"), ("M10x1.5-6G6H", "M10x1.5-6G6H"),
        ("M10LH", "M10x1.5-6g-LH"),
    ],
)
def test_written_back_in_the_standards_form(text, standard):
    """ASME B1.1, section 6, and ISO 965-1, section 12; that ``SE`` is written so is from memory."""
    assert write_designation(parse_designation(text)) == standard
    assert write_designation(parse_designation(standard)) == standard


def test_a_special_length_of_engagement_is_read_and_counts():
    """ASME B1.1: outside the range of the standard's tolerance the length itself goes into the formula."""
    long, usual = parse_designation("1/2-13 UNC-2A SE 1.5"), parse_designation("1/2-13 UNC-2A")
    assert long.engagement == 1.5
    assert usual.engagement is None
    assert limits(long) == replace(limits(usual, 1.5), designation=long)
    assert limits(long, 0.5).pitch_diameter == limits(usual).pitch_diameter


@pytest.mark.parametrize(
    ("text", "class_"), [("M1.4x0.3", "5H"), ("M1x0.2", "4H"), ("M1.6", "6H"), ("M2x0.25", "5H")]
)
def test_small_nuts_have_the_coarsest_class_that_their_pitch_has(text, class_):
    """ISO 965-1: 5H up to M1.4; no grade 6 inside below a pitch of 0.3 mm, none of 5 below 0.25 mm."""
    assert parse_designation(text, "internal").class_ == class_
    assert mate_of(parse_designation(text)).class_ == class_


def test_multiple_starts():
    """Lead = starts x pitch (ASME B1.7, ISO 965-1)."""
    inch_thread = parse_designation("0.750-.0625P-.1875L(3 STARTS)UNF-2A")
    assert (inch_thread.pitch, inch_thread.lead, inch_thread.starts) == (Fraction(1, 16), Fraction(3, 16), 3)
    rounded = parse_designation("0.750-.0833P-.1667L UN-2A")
    assert (rounded.pitch, rounded.lead, rounded.starts) == (Fraction(1, 12), Fraction(1, 6), 2)
    metric = parse_designation("M16×Ph3 P1.5-6g (two starts)")
    assert (metric.pitch, metric.lead, metric.starts) == (Fraction(3, 2), 3, 2)


REFUSED = {
    "": "no thread was written",
    "2-8 UN": "write 2-8 UN-1A, 2-8 UN-2A or 2-8 UN-3A",
    "2-8 UN-2": "write 2-8 UN-2A",
    "2-8 UN-4A": "classes 1A, 2A and 3A",
    "2-8 UN-5B": "classes 1B, 2B and 3B",
    "1/2-13 UNRC-2B": "write 1/2-13 UNC-2B",
    "M10-6E": "or M10-6e for the external thread",
    "M10-6J": "positions G and H",
    "M10-9H": "grade 9 does not exist for the pitch diameter of an internal thread",
    "M10-6H3H": "grade 3 does not exist for the minor diameter",
    "M10-6H6g": "mixes a capital letter",
    "M10-6H/6g": "a fit of two parts",
    "1/2-20 UNC-3A": "write 1/2-13 UNC-3A, or 1/2-20 UNF-3A",
    "5/8-12 UNC-2A": "write 5/8-11 UNC-2A, or 5/8-12 UN-2A",
    "1/2-12 UNRC-2A": "write 1/2-13 UNRC-2A, or 1/2-12 UNRS-2A",
    "1-14 UNF-2A": "write 1-12 UNF-2A, or 1-14 UNS-2A",
    "2.3-8 UNC-2A": "write 2.3-8 UNS-2A",
    "2 1/4-8 UNF-2A": "write 2 1/4-8 UN-2A",
    "1/2-13 UNS-2A": "write UNC in place of UNS",
    "1/2-13": "write 1/2-13 UNC-2A",
    "1/2-13 UNC-2A-HL": "-LH at the end for a left-hand thread",
    "1/2-13 UNC-2A-L": "-LH at the end for a left-hand thread",
    "M10x1.5-6g-LHH": "-LH at the end for a left-hand thread",
    "10/32 UNF-2A": "would be 5/16; write that if it is meant, or #10-32",
    "MJ6x1-4h6h": "controlled-radius threads",
    "1/2-13 UNJC-3A": "controlled-radius threads",
    "M0x1-6g": "zero;",
    "M10x0-6g": "zero;",
    "0-8 UN-2A": "not a size as the trade writes it",
    "2-0 UN-2A": "zero;",
    "-2-8 UN-2A": "not a thread designation",
    "nan": "not a thread designation",
    "1e3-8 UN-2A": "not a Unified thread designation",
    "5/0-8 UN-2A": "not a size as the trade writes it",
    "9/4-8 UN-2A": "not a size as the trade writes it",
    "1/3-13 UNS-2A": "write the size as a decimal",
    "#13-32 UNF-2A": "number sizes run from #0 to #12",
    "10-32 UN-2A": "is 10 a number size or 10 inches?",
    "M11.3-6g": "ISO 261 has no coarse pitch for M11.3",
    "M10-5g": "like M10-5g6g",
    "M10-2g": "grade 2 does not exist",
    "M10-6k": "positions e, f, g and h",
    "M10-6a": "positions a to d are not computed here",
    "M16xPh3P1.5-6g (three starts)": "says 3 starts in words, and 2 by its lead",
    "M10x1.5-6g 5g6g": "says two things at once",
    "1/2-13 UNC-2A-3A": "says two things at once",
    "1/2-13 UNC-2A-LH-RH": "says two things at once",
    "0.750-.0625P-.2L(3 STARTS)UNF-2A": "3 starts would have a lead of 0.1875",
    "0.750-.0625P-.1875L(2 STARTS)UNF-2A": "is 3 starts, but the designation says 2",
    "M16xPh4 P1.5-6g": "a whole number of pitches",
    "1/2-13 UNC-2A SE": "like 1/2-13 UNC-2A SE 1.5",
    "1/2-13 UNC-2A SE 0": "0 is not a length of engagement",
    "1" * 200: "too long",
}


@pytest.mark.parametrize(("text", "says"), REFUSED.items())
def test_refused_with_what_was_written_and_what_would_be_accepted(text, says):
    with pytest.raises(BadDesignation) as error:
        parse_designation(text)
    assert says in str(error.value)
    assert text[:40] in str(error.value)


@pytest.mark.parametrize("text", [text for text in REFUSED if "write " in REFUSED[text] and "UN" in text])
def test_the_suggestion_can_be_read(text):
    """What the message says to write is itself a designation."""
    with pytest.raises(BadDesignation) as error:
        parse_designation(text)
    suggestion = str(error.value).rpartition("write ")[2]
    suggestion = suggestion.partition(",")[0].partition(" or ")[0]
    if "that if" not in suggestion and "in place of" not in suggestion and "as a decimal" not in suggestion:
        parse_designation(suggestion)


def test_every_named_size_of_the_series_reads_and_has_limits():
    """Each row of the series table reads as its own series, by fraction, number or decimal."""
    from generator.tables.rows import table

    rows = table("unified_series", "generator.threads.families.unified")
    for row in rows:
        for size in (row["size"], row["diameter"]):
            d = parse_designation(f"{size}-{row['tpi']} {row['series']}-2A")
            assert (d.series, d.nominal) == (row["series"], float(row["diameter"]))
            assert limits(d).tabulated
    assert len(rows) == 33 + 24 + 25
