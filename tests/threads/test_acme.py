"""Acme threads, general purpose and stub: reading, writing, limits, form, refusals.

Printed limits stand in tests/published/data/family_acme.csv and family_stub_acme.csv. Of the screw maker's
chart those pitch and minor diameters are left out whose allowance and tolerance are of another diameter than
the row's own (5/8-6, 5/8-10, 3/4-5, 3/4-8, 7/8-5, 7/8-8, 1-4, 1-6, 1-8, 1 1/8-4, 1 1/8-6), the minor min of
3/4-10 and 1-10, the pitch min of 1-10 (0.9264, where the tolerance of the standard gives 0.9265), and of the
stub row 5/8-4 all but the minor max.
"""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from generator.errors import BadDesignation, OutsideRange
from generator.threads.families.acme.limits import CLASSES, allowance_of
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)

ACME = next(family for family in families() if family.key == "ACME")
STUB = next(family for family in families() if family.key == "STUB ACME")
SIZES = [*ACME.sizes(), *STUB.sizes()]

READ = {
    "1.750-4-ACME-2G": (1.75, "1/4", 1, "2G", "right", "1.750-4-ACME-2G"),
    "1.750-4 ACME-2G": (1.75, "1/4", 1, "2G", "right", "1.750-4-ACME-2G"),
    "1 1/2-4 acme": (1.5, "1/4", 1, "2G", "right", "1 1/2-4-ACME-2G"),
    "1.500-0.25P-0.5L-ACME-2G": (1.5, "1/4", 2, "2G", "right", "1.500-0.25P-0.5L-ACME-2G"),
    "2.875-0.4P-0.8L-ACME-3G (two start)": (2.875, "2/5", 2, "3G", "right", "2.875-0.4P-0.8L-ACME-3G"),
    "2.500-0.3333P-0.6667L-ACME-4G": (2.5, "1/3", 2, "4G", "right", "2.500-0.33333333P-0.66666667L-ACME-4G"),
    "1-5 ACME (2 starts)": (1, "1/5", 2, "2G", "right", "1-0.2P-0.4L-ACME-2G"),
    "1.750-6-ACME-4G-LH": (1.75, "1/6", 1, "4G", "left", "1.750-6-ACME-4G-LH"),
    "Acme 1\" - 5 left hand": (1, "1/5", 1, "2G", "left", "1-5-ACME-2G-LH"),
    "1-5-2G-ACME": (1, "1/5", 1, "2G", "right", "1-5-ACME-2G"),
    "1-5-ACME-2G nut": (1, "1/5", 1, "2G", "right", "1-5-ACME-2G internal"),
    "1/2-20 STUB ACME": (0.5, "1/20", 1, "2G", "right", "1/2-20 STUB ACME"),
    "1.000-5-STUB ACME": (1, "1/5", 1, "2G", "right", "1.000-5 STUB ACME"),
    "0.500-20 Stub Acme M1-LH": (0.5, "1/20", 1, "2G", "left", "0.500-20 STUB ACME M1-LH"),
    "1-5 acme stub 3g": (1, "1/5", 1, "3G", "right", "1-5 STUB ACME-3G"),
    "1-0.2P-0.6L stub acme m2 nut": (1, "1/5", 3, "2G", "right", "1-0.2P-0.6L STUB ACME M2 internal"),
}


@pytest.mark.parametrize(("text", "says"), READ.items())
def test_read_as_written_at_the_bench_and_written_back(text, says):
    """Case, spaces, dashes, place of class and name; writing and reading again gives the same thread."""
    nominal, pitch, starts, class_, hand, written = says
    d = parse_designation(text)
    assert (d.nominal, d.pitch, d.starts) == (nominal, Fraction(pitch), starts)
    assert (d.class_, d.hand) == (class_, hand)
    assert write_designation(d) == written
    again = parse_designation(written)
    assert replace(again, text="", class_assumed=False, side_assumed=False) == replace(
        d, text="", class_assumed=False, side_assumed=False
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1-5-ACME-3C", "centralizing"),
        ("1-5-ACME-5G", "dropped"),
        ("1-5-ACME-2A", "2G, 3G and 4G"),
        ("1-5-ACME-2G-3G", "two things at once"),
        ("1-5 ACME blue", "is not understood"),
        ("1-5 STUB ACME M1 M2", "one form"),
        ("acme", "write it like"),
        ("1-0 ACME", "threads per inch are zero"),
        ("1-0.2P-0.5L ACME", "whole number of pitches"),
        ("1-5 ACME LH RH", "one hand"),
    ],
)
def test_refusals_say_what_would_do(text, says):
    with pytest.raises(BadDesignation, match=says) as caught:
        parse_designation(text)
    assert text.split()[0] in str(caught.value)


@pytest.mark.parametrize("text", ["1/4-1 ACME", "1/2-200 ACME", "1/2-200 ACME nut", "1/8-2 STUB ACME"])
def test_threads_without_core_or_flank_are_out_of_range(text):
    with pytest.raises(OutsideRange):
        limits(parse_designation(text))


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.designation)
@pytest.mark.parametrize("class_", CLASSES)
def test_a_screw_goes_into_its_nut_on_every_diameter(size, class_):
    """Ordered limits, clearance at crest, flank and root, at the tightest pair."""
    screw = replace(parse_designation(size.designation), class_=class_)
    outside, inside = limits(screw), limits(mate_of(screw))
    for of in (outside, inside):
        for range_ in (of.major, of.pitch_diameter, of.minor):
            assert range_.max > range_.min
    assert inside.major.min > outside.major.max
    assert inside.pitch_diameter.min > outside.pitch_diameter.max
    assert inside.minor.min > outside.minor.max
    assert outside.tabulated
    assert mate_of(mate_of(screw)).side == "external"


def test_finer_classes_are_tighter_and_larger_threads_looser():
    for size in SIZES:
        d = parse_designation(size.designation)
        by_class = [limits(replace(d, class_=class_)) for class_ in CLASSES]
        assert [of.pitch_tolerance for of in by_class] == sorted(
            (of.pitch_tolerance for of in by_class), reverse=True
        )
        assert [of.allowance for of in by_class] == sorted((of.allowance for of in by_class), reverse=True)
    over = [float(allowance_of(Decimal(sixteenths) / 16, "2G")) for sixteenths in range(1, 130)]
    assert over == sorted(over)


def test_the_stub_forms_differ_in_height_alone():
    """Heights 0.3, 0.375, 0.25 P, flats 0.4224, 0.4030, 0.4353 P: ASME/ANSI B1.8, modified from memory."""
    for form, height, flat in (("", 0.3, 0.4224), ("M1", 0.375, 0.4030), ("M2", 0.25, 0.4353)):
        d = parse_designation(f"1-5 STUB ACME {form}")
        assert round(profile(d).crest_flat, 4) == pytest.approx(flat, abs=0.00011)
        assert limits(mate_of(d)).minor.min == pytest.approx(1 - 2 * height / 5, abs=1e-9)


@pytest.mark.parametrize(
    "text", ["1-5-ACME-2G", "1-5-ACME-2G nut", "1/4-16-ACME-4G", "1-5 STUB ACME", "3-2-ACME-3G"]
)
def test_the_tool_flat_gives_the_root_of_the_standard(text):
    """A groove half a pitch wide at the pitch line, cut with that flat, ends at the limit of the root."""
    d = parse_designation(text)
    of, form, pitch = limits(d), profile(d), float(d.pitch)
    deep = (0.5 - form.tool_flat) * pitch / (2 * math.tan(math.radians(14.5)))
    if d.internal:
        assert of.pitch_diameter.min + 2 * deep == pytest.approx(of.major.min, abs=2e-4)
    else:
        assert of.pitch_diameter.max - 2 * deep == pytest.approx(of.minor.max, abs=2e-4)
    assert 0 < form.tool_flat <= form.widest_flat < 0.5
    assert math.degrees(form.infeed) == pytest.approx(14)


def test_remarks_on_length_starts_and_diameters_between():
    long = limits(parse_designation("1-5-ACME-2G"), 3.0)
    assert not long.engagement_standard
    assert "two diameters" in long.remarks[0]
    assert limits(parse_designation("1-5-ACME-2G"), 2.0).remarks == ()
    assert "several starts" in limits(parse_designation("1-0.2P-0.4L-ACME-2G")).remarks[0]
    between = limits(parse_designation("0.9375-6-ACME-2G"))
    assert "next larger" in between.remarks[0]
    assert "between" in between.memory
    assert not between.tabulated
    assert between.pitch_tolerance == limits(parse_designation("1-6-ACME-2G")).pitch_tolerance


def test_every_line_names_a_size_of_the_limits():
    for text in ("1-5-ACME-2G", "1-5-ACME-2G nut", "1-5 STUB ACME", "1-5 STUB ACME nut"):
        of = limits(parse_designation(text))
        said = {line.name: line.value for line in of.lines}
        for part in ("major", "pitch_diameter", "minor"):
            for end in ("max", "min"):
                assert said[f"{part}.{end}"] == getattr(getattr(of, part), end)
