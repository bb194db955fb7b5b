"""Jaws as an elastic bed, against the bed itself cut into springs."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.jaw_bed import gripped_stiffness
from generator.errors import OutsideRange


def tilt_of_bed(grip, on_each_metre, springs=2000):
    """Moment over turn of a rigid bar in so many springs under a pure moment, shift and turn both free."""
    x = (np.arange(springs) + 0.5) * grip / springs
    each = np.full(springs, on_each_metre * grip / springs)
    matrix = np.array([[each.sum(), (each * x).sum()], [(each * x).sum(), (each * x**2).sum()]])
    return 1 / np.linalg.solve(matrix, [0.0, 1.0])[1]


@pytest.mark.parametrize("share", [0.25, 0.5, 0.9])
def test_a_row_of_springs_loses_its_stiffness_with_the_third_power(share):
    whole = tilt_of_bed(0.1, 1e9)
    assert tilt_of_bed(0.1 * share, 1e9) == pytest.approx(gripped_stiffness(whole, share, 1.0), rel=1e-3)
    assert whole == pytest.approx(1e9 * 0.1**3 / 12, rel=1e-3)


@pytest.mark.parametrize("args", [(0.0, 1.0, 1.0), (1e5, 0.0, 1.0), (1e5, 2.0, 1.0), (math.inf, 0.5, 1.0)])
def test_no_grip_no_stiffness_and_more_grip_than_jaws_are_refused(args):
    with pytest.raises(OutsideRange):
        gripped_stiffness(*args)


def test_full_jaws_lose_nothing():
    assert np.isclose(gripped_stiffness(1e5, 0.08, 0.08), 1e5)
