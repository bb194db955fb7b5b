"""Roughness from the nose radius: worked figures, and the real profile integrated."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.finish import roughness_mean
from generator.errors import OutsideRange
from generator.si import mm, um


def test_feed_of_a_tenth_with_a_nose_of_four_tenths():
    """f² ÷ (32 r) = 0.78 µm, the usual approximation; f² ÷ (18 √3 r) = 0.80 µm."""
    assert 0.78 * um < roughness_mean(0.1 * mm, 0.4 * mm) < 0.805 * um


@pytest.mark.parametrize(("feed", "radius"), [(0.05, 0.4), (0.2, 0.8), (0.3, 1.2), (0.4, 0.8)])
def test_the_arcs_integrated(feed, radius):
    """Mean deviation of the arcs themselves, by sampling one feed."""
    x = np.linspace(-feed / 2, feed / 2, 200_001)
    height = radius - np.sqrt(radius**2 - x**2)
    deviation = float(np.abs(height - height.mean()).mean()) * mm
    assert roughness_mean(feed * mm, radius * mm) == pytest.approx(deviation, rel=0.05)


def test_no_feed_leaves_no_ridges():
    assert roughness_mean(0.0, 1 * mm) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: roughness_mean(2.01 * mm, 1 * mm),
        lambda: roughness_mean(-0.1 * mm, 1 * mm),
        lambda: roughness_mean(0.1 * mm, 0.0),
        lambda: roughness_mean(math.nan, 1 * mm),
        lambda: roughness_mean(0.1 * mm, math.inf),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
