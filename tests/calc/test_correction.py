"""What is still to be cut for a reading that is too full: by plane trigonometry, and by cutting it."""

from __future__ import annotations

import math

import pytest

from generator.calc import thread_form
from generator.calc.correction import still_to_cut
from generator.calc.flanks import Flanks
from generator.errors import OutsideRange


@pytest.mark.parametrize(
    ("excess", "degrees", "travel"),
    [  # cosines from a four-figure table: cos 29.5 = 0.8704, cos 14 = 0.9703, cos 30 = 0.8660
        (0.0100, 0.0, 0.0050), (0.0100, 29.5, 0.0050 / 0.8704), (0.0100, 14.0, 0.0050 / 0.9703),
        (0.20, 30.0, 0.10 / 0.8660), (0.0, 29.5, 0.0),
    ],
)
def test_half_of_it_over_the_cosine(excess, degrees, travel):
    assert still_to_cut(excess, math.radians(degrees)) == pytest.approx(travel, rel=1e-4)


@pytest.mark.parametrize("flanks", [Flanks.alike(0.5236), Flanks(0.1222, 0.7854)])
def test_cut_as_told_the_pitch_diameter_is_as_wanted(flanks):
    angle = math.radians(14)
    deeper = 0.08 + still_to_cut(0.006, angle) * math.cos(angle)
    full, cut = (
        thread_form.pitch_diameter_at_depth(1.0, depth, 0.125, flanks, 0.02) for depth in (0.08, deeper)
    )
    assert full - cut == pytest.approx(0.006)


@pytest.mark.parametrize(
    ("excess", "angle"), [(-0.001, 0.0), (math.nan, 0.0), (math.inf, 0.0), (0.1, 1.6), (0.1, -0.1)]
)
def test_metal_that_is_gone_and_angles_that_are_none_are_refused(excess, angle):
    with pytest.raises(OutsideRange):
        still_to_cut(excess, angle)
