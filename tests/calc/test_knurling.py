"""Blanks for a knurl: whole teeth around."""

from __future__ import annotations

import math

import pytest

from generator.calc.knurling import FORCE_UNKNOWN, blanks, raised, teeth_around
from generator.errors import OutsideRange
from generator.si import mm


@pytest.mark.parametrize(("diameter", "pitch"), [(25.4, 1.0), (12.7, 25.4 / 21), (40.0, 1.6), (0.2, 1.0)])
def test_a_blank_has_whole_teeth_and_is_the_next_one(diameter, pitch):
    below, above = blanks(diameter * mm, pitch * mm)
    assert below <= diameter * mm <= above
    assert above - below == pytest.approx(pitch * mm / math.pi)
    for blank in (below, above):
        teeth = math.pi * blank / (pitch * mm)
        assert teeth == pytest.approx(round(teeth))


def test_a_blank_that_fits_is_kept():
    fits = 80 * 1 * mm / math.pi
    assert blanks(fits, 1 * mm) == pytest.approx((fits, fits))


def test_why_there_is_no_force():
    assert "no published force" in FORCE_UNKNOWN


@pytest.mark.parametrize(("diameter", "pitch"), [(0.0, 1.0), (1.0, 0.0), (math.nan, 1.0), (1.0, math.inf)])
def test_what_cannot_be_is_refused(diameter, pitch):
    with pytest.raises(OutsideRange):
        teeth_around(diameter, pitch)
    with pytest.raises(OutsideRange):
        blanks(diameter, pitch)
    with pytest.raises(OutsideRange):
        raised(diameter, pitch)


def test_a_knurl_stands_half_a_pitch_to_a_pitch_above_its_blank():
    """A knurling-tool maker: half the pitch on the diameter; a textbook of drawing: about the pitch."""
    assert raised(20 * mm, 1.6 * mm) == pytest.approx((20.8 * mm, 21.6 * mm))


@pytest.mark.parametrize(
    ("blank", "roller", "teeth", "printed"), [(0.5, 0.75, 47, 31.3), (0.375, 0.646, 31, 18.0)]
)
def test_teeth_around_go_as_the_diameters(blank, roller, teeth, printed):
    """A roller maker's workings: 0.500 ÷ 0.750 × 47 = 31.3; 0.375 ÷ 18 × 31 = 0.646."""
    assert teeth_around(blank, math.pi * roller / teeth) == pytest.approx(printed, abs=0.05)
