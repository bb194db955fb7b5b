"""Tapers and their settings: worked figures, round trips, refusals."""

from __future__ import annotations

import math
import random

import pytest

from generator.calc import taper, taper_settings
from generator.errors import OutsideRange
from generator.si import mm


def test_half_angle_of_30_to_24_over_60():
    """arctan(0.1 ÷ 2) = 2.862405°."""
    ratio = taper.taper_ratio(30 * mm, 24 * mm, 60 * mm)
    assert math.degrees(taper.half_angle(ratio)) == pytest.approx(2.862405, abs=5e-7)


def test_offset_for_40_to_38_over_100_of_a_work_250_long():
    """S = 250 × 2 ÷ (2 × 100) = 2.5 mm: the whole length counts, not the taper's."""
    ratio = taper.taper_ratio(40 * mm, 38 * mm, 100 * mm)
    assert taper_settings.tailstock_offset(ratio, 250 * mm) == pytest.approx(2.5 * mm)


def test_set_over_by_turning_the_work_in_the_plane():
    """The work laid between two points: its axis leans by asin(S ÷ L), and that is the half angle."""
    chance = random.Random(5)
    for _ in range(50):
        ratio, length = chance.uniform(0.001, 0.25), chance.uniform(0.1, 2.0)
        exact = length * math.sin(math.atan2(ratio / 2, 1))
        printed = taper_settings.tailstock_offset(ratio, length)
        assert printed / exact - 1 == pytest.approx(taper_settings.set_over_error(ratio), abs=1e-12)


def test_angles_and_ratios_go_there_and_back():
    for ratio in (0.0, 1e-6, 0.05, 1.0, 40.0):
        assert taper.ratio_of_half_angle(taper.half_angle(ratio)) == pytest.approx(ratio)


def test_the_compound_runs_along_the_side_of_the_cone():
    """Travel squared is length squared plus the change of radius squared."""
    large, small, length = 80 * mm, 20 * mm, 40 * mm
    angle = taper.half_angle(taper.taper_ratio(large, small, length))
    travel = math.hypot(length, (large - small) / 2)
    assert taper_settings.compound_travel(length, angle) == pytest.approx(travel)


def test_a_gauge_goes_on_further_by_what_the_taper_loses():
    """A taper of 0.05 from 30 mm: 29.5 mm after 10 mm, 29.3 mm after 14 mm (arithmetic)."""
    assert taper.axial_shift(29.5 * mm - 29.3 * mm, 0.05) == pytest.approx(4 * mm)


@pytest.mark.parametrize(
    "call",
    [
        lambda: taper.taper_ratio(24 * mm, 30 * mm, 60 * mm),
        lambda: taper.taper_ratio(30 * mm, 24 * mm, 0.0),
        lambda: taper.taper_ratio(0.0, 0.0, 60 * mm),
        lambda: taper.taper_ratio(math.nan, 24 * mm, 60 * mm),
        lambda: taper.taper_ratio(30 * mm, math.nan, 60 * mm),
        lambda: taper.taper_ratio(30 * mm, -1 * mm, 60 * mm),
        lambda: taper.ratio_per_foot(-0.01),
        lambda: taper.ratio_of_half_angle(math.pi / 2),
        lambda: taper.ratio_of_half_angle(-0.1),
        lambda: taper.half_angle(math.nan),
        lambda: taper.axial_shift(1 * mm, 0.0),
        lambda: taper_settings.compound_reading(math.radians(91), "across"),
        lambda: taper_settings.compound_travel(0.0, 0.1),
        lambda: taper_settings.tailstock_offset(0.05, 0.0),
        lambda: taper_settings.tailstock_offset(7 / 24, 0.3),
        lambda: taper_settings.attachment_setting(-0.1, "per foot"),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
