"""Roughness from the nose radius: worked figures, and the real profile integrated."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.finish import feed_for_mean, roughness_mean, roughness_total
from generator.errors import OutsideRange
from generator.si import mm, um


def test_feed_of_a_tenth_with_a_nose_of_four_tenths():
    """f² ÷ (8 r) = 3.125 µm, the usual approximation; f² ÷ (32 r) = 0.78 µm, f² ÷ (18 √3 r) = 0.80 µm."""
    assert roughness_total(0.1 * mm, 0.4 * mm) == pytest.approx(3.125 * um, rel=0.005)
    assert 0.78 * um < roughness_mean(0.1 * mm, 0.4 * mm) < 0.805 * um


@pytest.mark.parametrize(("feed", "radius"), [(0.05, 0.4), (0.2, 0.8), (0.3, 1.2), (0.4, 0.8)])
def test_the_arcs_integrated(feed, radius):
    """Height and mean deviation of the arcs themselves, by sampling one feed."""
    x = np.linspace(-feed / 2, feed / 2, 200_001)
    height = radius - np.sqrt(radius**2 - x**2)
    assert roughness_total(feed * mm, radius * mm) == pytest.approx(float(height.max()) * mm)
    deviation = float(np.abs(height - height.mean()).mean()) * mm
    assert roughness_mean(feed * mm, radius * mm) == pytest.approx(deviation, rel=0.05)


def test_the_feed_for_a_roughness_leaves_it():
    for wanted in (0.4, 1.6, 3.2):
        feed = feed_for_mean(wanted * um, 0.8 * mm)
        assert roughness_mean(feed, 0.8 * mm) == pytest.approx(wanted * um)


def test_no_feed_leaves_no_ridges_and_the_arcs_part_at_twice_the_radius():
    assert roughness_total(0.0, 1 * mm) == roughness_mean(0.0, 1 * mm) == 0.0
    assert roughness_total(2 * mm, 1 * mm) == pytest.approx(1 * mm)


@pytest.mark.parametrize(
    "call",
    [
        lambda: roughness_total(2.01 * mm, 1 * mm),
        lambda: roughness_total(-0.1 * mm, 1 * mm),
        lambda: roughness_total(0.1 * mm, 0.0),
        lambda: roughness_mean(math.nan, 1 * mm),
        lambda: roughness_mean(0.1 * mm, math.inf),
        lambda: feed_for_mean(0.0, 1 * mm),
        lambda: feed_for_mean(1 * um, -1 * mm),
        lambda: feed_for_mean(1.0, 1 * mm),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
