"""A plated thread: cut so that the standard's limits hold when the plating is on."""

from __future__ import annotations

import math

import pytest

from generator.errors import JobProblems
from generator.sheet.plating import before_plating
from generator.si import inch, mm
from generator.threads.registry import families, limits, mate_of, parse_designation, profile

THREAD = "{designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}"


def plated(text, thickness):
    d = parse_designation(text)
    return limits(d), before_plating(limits(d), thickness, profile(d))


def test_metric_by_hand():
    """M10x1.5-6g, 5 um: d2 grows 20 um, less than the allowance of 32 um; the smallest is 20 um lower."""
    of, cut = plated("M10x1.5-6g", 5e-6)
    assert cut.pitch_diameter.max == of.pitch_diameter.max == 8.994
    assert cut.pitch_diameter.min == pytest.approx(8.862 - 0.020)
    assert cut.major.max == 9.968
    assert cut.major.min == pytest.approx(9.732 - 0.010)


def test_thick_plating_takes_more_than_the_allowance():
    """M10x1.5-6g, 15 um: 60 um less the allowance of 32 um come off the largest; 6h has none to give."""
    assert plated("M10x1.5-6g", 15e-6)[1].pitch_diameter.max == pytest.approx(8.994 - 0.028)
    assert plated("M10x1.5-6h", 15e-6)[1].pitch_diameter.max == pytest.approx(9.026 - 0.060)


def test_a_nut_is_cut_wider():
    """M10x1.5-6H, 5 um: 9.026 to 9.206, both up by 20 um; the bore by 10 um."""
    cut = plated("M10x1.5-6H", 5e-6)[1]
    assert (cut.pitch_diameter.min, cut.pitch_diameter.max) == pytest.approx((9.046, 9.226))
    assert (cut.minor.min, cut.minor.max) == pytest.approx((8.386, 8.686))


def flank_factor(form):
    """What a skin on both flanks adds on a radius, over its thickness; nothing on square flanks."""
    slants = 1 / math.cos(form.flanks.load) + 1 / math.cos(form.flanks.clearance)
    return 0.0 if form.square else slants / form.flanks.tangents


@pytest.mark.parametrize("text", [one for family in families() for one in family.examples])
@pytest.mark.parametrize("thickness", [2e-6, 25e-6])
def test_with_the_plating_on_every_thread_is_in_its_limits(text, thickness):
    """The largest, plated, is at most its own limit and the allowance; the smallest is the standard's."""
    for d in (parse_designation(text), mate_of(parse_designation(text))):
        of, form = limits(d), profile(d)
        cut = before_plating(of, thickness, form)
        for name in ("major", "pitch_diameter", "minor"):
            growth = 2 * thickness * (flank_factor(form) if name == "pitch_diameter" else 1) / d.unit_si
            growth *= -1 if d.internal else 1
            loose, tight = ("max", "min") if d.internal else ("min", "max")
            was, now = getattr(of, name), getattr(cut, name)
            if getattr(was, loose) is not None:
                assert getattr(now, loose) + growth == pytest.approx(getattr(was, loose), abs=1e-9)
            if getattr(was, tight) is not None:
                past = (getattr(now, tight) + growth - getattr(was, tight)) * (-1 if d.internal else 1)
                assert past <= of.allowance + 1e-9


def test_the_sheet_cuts_to_the_limits_before_plating(sheet_of):
    """8 um on 60 degrees: 32 um, 0.00126 in, under the allowance of 0.0024 in."""
    sheet = sheet_of({THREAD: THREAD.replace("tool", "plating: 8 um, tool")})
    plain = sheet_of()
    figure = sheet.figures
    assert figure["thread.plating.growth"].value / mm == pytest.approx(0.032)
    assert figure["thread.pitch_diameter.min"].value == plain.figures["thread.pitch_diameter.min"].value
    assert figure["thread.before_plating.pitch_diameter.max"].value / inch == pytest.approx(2.1664)
    low = 2.1584 - 0.032 / 25.4
    assert figure["thread.before_plating.pitch_diameter.min"].value / inch == pytest.approx(low)
    assert figure["thread.target"].value / inch == pytest.approx((2.1664 + low) / 2)
    assert figure["thread.blank"].value < plain.figures["thread.blank"].value
    assert figure["mate.play.least"].value == plain.figures["mate.play.least"].value
    assert "sin 30°" in figure["thread.plating.growth"].working.formula


def test_a_plating_that_is_no_length_is_a_problem_of_the_file(sheet_of):
    with pytest.raises(JobProblems, match="plating"):
        sheet_of({THREAD: THREAD.replace("tool", "plating: 8 furlongs, tool")})
