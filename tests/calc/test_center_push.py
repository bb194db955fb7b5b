"""Push of a conical center: against the pressure summed up round its edge."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from generator.calc.center_push import center_hole_thrust, seated_push
from generator.errors import OutsideRange

ALPHA = math.radians(30)
ROUND = np.linspace(0, 2 * math.pi, 20001)[:-1]


def forces(pushed_in, aside):
    """Axial and radial force of a cone on a stiff edge, pressing only where it touches (numerical)."""
    gap = pushed_in * math.sin(ALPHA) + aside * math.cos(ALPHA) * np.cos(ROUND)
    pressure = np.maximum(gap, 0.0)
    step = 2 * math.pi / len(ROUND)
    return (
        float(np.sum(pressure * math.sin(ALPHA)) * step),
        float(np.sum(pressure * math.cos(ALPHA) * np.cos(ROUND)) * step),
    )


def test_at_the_seated_push_the_cone_just_bears_all_round():
    aside = math.tan(ALPHA)  # pushed in by 1: pressure just reaches zero on one side
    push, across = forces(1.0, aside)
    assert push == pytest.approx(seated_push(across), rel=1e-6)
    push, across = forces(1.0, 1.01 * aside)
    assert push < seated_push(across)


def test_the_work_climbs_off_at_half_of_it():
    """The more the cone is pushed aside, the nearer push over force across comes to tan α, never below."""
    ratios = []
    for aside in (2, 20, 200):
        out = brentq(lambda z, aside=aside: forces(z, aside)[0] - 1.0, -aside / math.tan(ALPHA) + 1e-9, 10)
        push, across = forces(out, aside)
        ratios.append(push / across)
    assert ratios == sorted(ratios, reverse=True)
    assert ratios[-1] == pytest.approx(center_hole_thrust(1.0), rel=0.02)
    assert ratios[-1] >= center_hole_thrust(1.0)


@pytest.mark.parametrize(
    ("across", "angle"), [(-1.0, ALPHA), (1.0, 0.0), (1.0, math.pi / 2), (math.nan, ALPHA)]
)
def test_what_is_no_center_is_refused(across, angle):
    with pytest.raises(OutsideRange):
        center_hole_thrust(across, angle)
