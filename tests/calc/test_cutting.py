"""Cutting force, power and speed against worked figures of the printed formulas."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from generator.calc import cutting
from generator.errors import OutsideRange
from generator.si import ft_per_min, inch, m_per_min, mm

CUTTER = {"k_c11": 1675e6, "m_c": 0.24}  # VDI 3323 group 3, a cutting-tool maker's turning catalogue, 2017
HALF = math.radians(30)


def test_force_of_a_turning_cut():
    """Kienzle: k_c = 1675 × 0.2^−0.24 = 2464.72 N/mm², F_c = k_c × 2 × 0.2 = 985.888 N."""
    assert cutting.turning_force(**CUTTER, depth=2 * mm, feed=0.2 * mm) == pytest.approx(985.888, abs=5e-4)


def test_force_with_a_45_degree_entering_angle():
    """Kienzle with h = f sin κ: 1071.399 N."""
    force = cutting.turning_force(**CUTTER, depth=2 * mm, feed=0.2 * mm, entering_angle=math.radians(45))
    assert force == pytest.approx(1071.399, abs=5e-4)


@pytest.mark.parametrize(("plunge", "expected"), [(True, 620.495), (False, 525.401)])
def test_force_of_a_thread_pass(plunge, expected):
    """60 degree sharp tool from 0.8 to 1.0 mm: Kienzle over the engaged edge of one or both flanks."""
    force = cutting.thread_force(
        **CUTTER, nose_flat=0.0, depth_before=0.8 * mm, depth_after=1.0 * mm, half_angle=HALF, plunge=plunge
    )
    assert force == pytest.approx(expected, abs=5e-4)


def test_a_flank_feed_takes_two_to_the_minus_m_of_a_plunge():
    """Half the edge, twice the chip: F falls by 2^(−m_c) (Kienzle)."""
    args = {**CUTTER, "nose_flat": 0.0, "depth_before": 0.5 * mm, "depth_after": 0.6 * mm, "half_angle": HALF}
    assert cutting.thread_force(**args, plunge=False) / cutting.thread_force(
        **args, plunge=True
    ) == pytest.approx(2**-0.24)


def test_a_spring_pass_takes_no_force():
    args = {**CUTTER, "nose_flat": 0.0, "depth_before": 1 * mm, "depth_after": 1 * mm, "half_angle": HALF}
    assert cutting.thread_force(**args, plunge=True) == 0.0


def test_chip_areas_of_all_passes_make_the_groove():
    """The area of a groove with a flat nose is F h + h² tan α, whatever the passes."""
    depths = [0.0, 0.3 * mm, 0.5 * mm, 0.9 * mm]
    chips = [cutting.thread_chip_area(0.2 * mm, a, b, HALF) for a, b in pairwise(depths)]
    assert sum(chips) == pytest.approx(0.2 * mm * 0.9 * mm + (0.9 * mm) ** 2 * math.tan(HALF))


def test_power_at_the_tool():
    """1000 N at 30 m/min is 0.5 kW (P = F v ÷ 60 000)."""
    assert cutting.cutting_power(1000.0, 30 * m_per_min) == pytest.approx(500.0)


def test_spindle_speed_in_inches_and_in_millimetres():
    """12 × 100 ÷ (π × 2) = 190.986 rpm; 1000 × 25 ÷ (π × 88.9) = 89.513 rpm (US Army course OD1645)."""
    assert cutting.spindle_speed(100 * ft_per_min, 2 * inch) * 60 == pytest.approx(190.986, abs=5e-4)
    assert cutting.spindle_speed(25 * m_per_min, 88.9 * mm) * 60 == pytest.approx(89.513, abs=5e-4)


@pytest.mark.parametrize(("speed", "diameter"), [(0.0, 1.0), (1.0, 0.0), (-1.0, 1.0), (math.nan, 1.0)])
def test_a_speed_or_diameter_that_is_not_above_zero_is_refused(speed, diameter):
    with pytest.raises(OutsideRange):
        cutting.spindle_speed(speed, diameter)


def test_force_of_a_groove_is_that_of_a_square_cut_of_its_width():
    """Kienzle, h = f: 1675 × 0.1^−0.24 × 3 × 0.1 = 873.2 N."""
    force = cutting.grooving_force(**CUTTER, width=3 * mm, feed=0.1 * mm)
    assert force == pytest.approx(1675 * 0.1**-0.24 * 0.3, abs=0.05)
    assert force == cutting.turning_force(**CUTTER, depth=3 * mm, feed=0.1 * mm)


def test_a_sharp_tool_a_worn_one_and_more_rake():
    """Kienzle's corrections: 1.5 % a degree of rake; the handbooks scatter by 20 %, wear adds 50 %."""
    assert cutting.likely_force(1000.0) == pytest.approx((800.0, 1500.0))
    assert cutting.likely_force(1000.0, math.radians(-6)) == pytest.approx((872.0, 1635.0))


@pytest.mark.parametrize(
    "call",
    [
        lambda: cutting.grooving_force(**CUTTER, width=0.0, feed=0.1 * mm),
        lambda: cutting.grooving_force(**CUTTER, width=3 * mm, feed=math.nan),
        lambda: cutting.turning_force(**CUTTER, depth=2 * mm, feed=0.0),
        lambda: cutting.turning_force(**CUTTER, depth=-2 * mm, feed=0.1 * mm),
        lambda: cutting.turning_force(**CUTTER, depth=2 * mm, feed=0.1 * mm, entering_angle=0.0),
        lambda: cutting.turning_force(**CUTTER, depth=2 * mm, feed=0.1 * mm, entering_angle=math.pi),
        lambda: cutting.likely_force(-1.0),
        lambda: cutting.likely_force(1.0, math.radians(21)),
        lambda: cutting.likely_force(1.0, math.nan),
    ],
)
def test_a_force_that_cannot_be_reckoned_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
