"""A mass off the axis: against the motion worked out step by step in time."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from generator.calc.unbalance import rotating_force, speed_of_force, whirl_amplification
from generator.errors import OutsideRange

MASS, STIFF = 20.0, 5e6  # of the work, kg, and what holds it, N/m
OFF, RADIUS = 0.4, 0.08  # mass off the axis, kg, and how far, m
CRITICAL = math.sqrt(STIFF / MASS) / (2 * math.pi)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.7, 0.85])
def test_the_work_moves_as_far_as_its_equation_of_motion_says(share):
    """Rotor on a spring with slight damping, from rest until it has settled: largest radius of its orbit."""
    omega = 2 * math.pi * share * CRITICAL
    damping = 2 * 0.02 * math.sqrt(STIFF * MASS)

    def motion(t, state):
        x, y, vx, vy = state
        # the pull of the mass, from its own acceleration in a circle: −m d²/dt² of (r cos ωt, r sin ωt)
        ax, ay = OFF * RADIUS * omega**2 * math.cos(omega * t), OFF * RADIUS * omega**2 * math.sin(omega * t)
        return [vx, vy, (ax - STIFF * x - damping * vx) / MASS, (ay - STIFF * y - damping * vy) / MASS]

    end = 2.0
    found = solve_ivp(motion, (0, end), [0, 0, 0, 0], rtol=1e-8, atol=1e-12, max_step=1e-3)
    settled = found.t > end - 0.2
    orbit = float(np.hypot(found.y[0], found.y[1])[settled].max())
    force = rotating_force(OFF, RADIUS, share * CRITICAL)
    assert force / STIFF * whirl_amplification(share * CRITICAL, CRITICAL) == pytest.approx(orbit, rel=0.012)


def test_closed_form_of_print():
    """Thomson, rotating unbalance without damping: M X ÷ (m e) = (ω ÷ ωn)² ÷ (1 − (ω ÷ ωn)²)."""
    ratio = 0.6
    moved = rotating_force(OFF, RADIUS, ratio * CRITICAL) / STIFF
    moved *= whirl_amplification(ratio * CRITICAL, CRITICAL)
    assert MASS * moved / (OFF * RADIUS) == pytest.approx(ratio**2 / (1 - ratio**2), rel=1e-12)


def test_speed_and_force_are_each_others_inverse():
    assert rotating_force(2.0, 0.05, speed_of_force(123.0, 2.0, 0.05)) == pytest.approx(123.0)


@pytest.mark.parametrize("speed", [-1.0, 10.0, 12.0, math.nan])
def test_no_amplification_at_or_above_the_critical_speed(speed):
    with pytest.raises(OutsideRange):
        whirl_amplification(speed, 10.0)
