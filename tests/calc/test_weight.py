"""Weight of hollow rounds against print."""

from __future__ import annotations

import pytest

from generator.calc.weight import volume, weight
from generator.si import lb, mm


def test_a_hollow_steel_round_of_print():
    """101.6 × 50.8 × 600 mm at 7850 kg/m³: 28.6391 kg; and 50 mm bar, 15.4134 kg a metre."""
    hollow = volume(600 * mm, 101.6 * mm, 101.6 * mm, 50.8 * mm)
    assert weight(hollow, 7850) == pytest.approx(28.6391, abs=5e-5)
    assert weight(volume(1.0, 50 * mm, 50 * mm), 7850) == pytest.approx(15.4134, abs=5e-5)


def test_a_handbook_weight_of_a_foot_of_tube():
    """4 in outside, 3 in inside, 18.7 lb a foot: 2.673 (D² − d²) (steel at 0.2836 lb/in³)."""
    foot = volume(304.8 * mm, 101.6 * mm, 101.6 * mm, 76.2 * mm)
    assert weight(foot, 7850) / lb == pytest.approx(2.673 * (16 - 9), rel=1e-3)
