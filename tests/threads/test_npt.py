"""American taper pipe threads: reading, limits at the end, form. Planes against print: family_npt.csv.

Heights and truncations are those of Machinery's Handbook, table 1 of American pipe threads (ANSI/ASME
B1.20.1-1983), in the edition with p. 1847.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from generator.errors import BadDesignation
from generator.threads.registry import limits, mate_of, parse_designation, profile, write_designation

HEIGHTS = [  # threads per inch, H, h max, h min, truncation min and max, flat min and max (in)
    ("1/8 NPT", 0.03208, 0.02963, 0.02496, 0.0012, 0.0036, 0.0014, 0.0041),
    ("1/4 NPT", 0.04811, 0.04444, 0.03833, 0.0018, 0.0049, 0.0021, 0.0057),
    ("1/2 NPT", 0.06186, 0.05714, 0.05071, 0.0024, 0.0056, 0.0027, 0.0064),
    ("2 NPT", 0.07531, 0.06957, 0.06261, 0.0029, 0.0063, 0.0033, 0.0073),
    ("4 NPT", 0.10825, 0.10000, 0.09275, 0.0041, 0.0078, 0.0048, 0.0090),
]


@pytest.mark.parametrize(
    ("text", "sharp", "most", "least", "cut_least", "cut_most", "flat", "widest"), HEIGHTS
)
@pytest.mark.parametrize("side", ["external", "internal"])
def test_crest_and_root_by_the_printed_truncations(
    text, sharp, most, least, cut_least, cut_most, flat, widest, side
):
    """Between the limits of one pitch diameter lie the printed heights, crest and root truncated alike."""
    of = limits(parse_designation(text, side))
    pitch = of.pitch_diameter
    deep = (of.major.max - pitch.max) + (pitch.min - of.minor.min)
    shallow = (of.major.min - pitch.min) + (pitch.max - of.minor.max)
    assert deep / 2 == pytest.approx(most, abs=1.6e-5)
    assert shallow / 2 == pytest.approx(least, abs=1.6e-5)
    assert (sharp - (of.major.max - pitch.max)) / 2 == pytest.approx(cut_least, abs=6e-5)
    assert (sharp - (of.major.min - pitch.min)) / 2 == pytest.approx(cut_most, abs=6e-5)
    form, p = profile(of.designation), float(of.designation.pitch)
    assert form.crest_flat * p == pytest.approx(flat, abs=6e-5)
    assert form.widest_flat * p == pytest.approx(widest, abs=6e-5)


def test_the_limits_are_one_turn_of_the_gauge_either_way():
    """2 NPT: E0 = 2.26902 outside, E1 = 2.29627 inside, 0.00543 a turn (ASME B1.20.1, table 2)."""
    screw, nut = limits(parse_designation("2 NPT")), limits(parse_designation("2 NPT internal"))
    for of, middle in ((screw, 2.26902), (nut, 2.29627)):
        assert of.pitch_diameter.max == pytest.approx(middle + 0.00543, abs=1.1e-5)
        assert of.pitch_diameter.min == pytest.approx(middle - 0.00543, abs=1.1e-5)
    assert screw.plane.startswith("the small end")
    assert nut.plane.startswith("the face")


@pytest.mark.parametrize("text", [
    "2 NPT", "2-11.5 NPT", "2-11 1/2 npt", "NPT 2", "2 in NPT", '2" NPT', "2 N.P.T.", "2-11.5 TPI NPT",
    "2 MNPT", "2 MIP", "2 NPT ASME B1.20.1",
])
def test_ways_of_writing_one_thread(text):
    d = parse_designation(text)
    assert write_designation(d) == "2-11.5 NPT"
    assert d.pitch == Fraction(2, 23)
    assert d.tpi == Fraction(23, 2)


@pytest.mark.parametrize(("text", "written"), [
    ("1-1/4 NPT", "1 1/4-11.5 NPT"), ("1 1/4 - 11-1/2 NPT LH", "1 1/4-11.5 NPT-LH"),
    ("1/2 FNPT", "1/2-14 NPT internal"), ("3/4 female NPT", "3/4-14 NPT internal"), ("14 OD NPT", "14-8 NPT"),
    ("1/8 NPTF", "1/8-27 NPTF-1"), ("1/8-27 nptf-2 lh", "1/8-27 NPTF-2-LH"),
    ("1/4-18 NPTF CLASS 2 nut", "1/4-18 NPTF-2 internal"), ("1/2 FIP", "1/2-14 NPT internal"),
])
def test_read_and_written_in_the_standards_form(text, written):
    assert write_designation(parse_designation(text)) == written


@pytest.mark.parametrize(("text", "says"), [
    ("7/16 NPT", "the sizes are 1/16, 1/8"), ("1/2-18 NPT", "1/2 has 14 threads per inch, not 18"),
    ("NPT", "has no size"), ("2 NPT-3", '"3" after the name'), ("1/8 NPTF-3", "classes are 1 and 2"),
    ("4 NPTF", "end at size 3"), ("1/8 PTF-SAE SHORT", "one thread shorter"), ("1/2 NPTR", "railing"),
    ("1/2 NPSM", "not computed here"), ("1/2 MNPT internal", "internal and external at once"),
    ("2 NPT NPT", "does not name one thread"), ("1/0 NPT", "no pipe size"),
])
def test_what_is_refused_says_what_would_do(text, says):
    with pytest.raises(BadDesignation, match=says):
        parse_designation(text)


@pytest.mark.parametrize("text", ["1/16 NPTF", "1/4 NPTF", "1/2 NPTF", "1 NPTF", "3 NPTF"])
def test_dryseal_crests_meet_the_roots(text):
    """At one pitch diameter every crest reaches a root of the mate: what NPTF is for (ASME B1.20.3)."""
    d = parse_designation(text)
    screw, nut = limits(d), limits(mate_of(d))

    def heights(of, name):
        ends = (of.major, of.pitch_diameter) if name == "major" else (of.pitch_diameter, of.minor)
        one, two = ends
        straight = (one.max - two.max, one.min - two.min)
        return sorted(straight if name == "major" else (one.min - two.min, one.max - two.max))

    assert heights(screw, "major")[0] >= heights(nut, "major")[1] - 2e-5
    assert heights(nut, "minor")[0] >= heights(screw, "minor")[1] - 2e-5
    assert screw.memory
    assert "truncations" in screw.memory


def test_npt_crests_may_miss_the_roots_and_want_a_compound():
    """The bluntest crest of NPT leaves room at the sharpest root: it seals with a compound."""
    screw, nut = limits(parse_designation("1/2 NPT")), limits(parse_designation("1/2 NPT internal"))
    blunt = screw.major.min - screw.pitch_diameter.min
    sharp = nut.major.max - nut.pitch_diameter.max
    assert sharp - blunt == pytest.approx(2 * (0.0056 - 0.0024), abs=1.5e-4)


def test_the_form_stands_square_to_the_axis():
    form = profile(parse_designation("1/2 NPT"))
    assert form.taper == 1 / 16
    assert math.degrees(form.flanks.included) == pytest.approx(60)
    assert form.depth == pytest.approx(0.8, abs=1e-4)
