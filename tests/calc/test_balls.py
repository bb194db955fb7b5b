"""Between balls: against a ball rolled into the helicoid by brute force, and the wires outside it mirrors."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc import wires
from generator.calc.balls import ball_circle, between_balls
from generator.errors import OutsideRange

A60 = math.radians(30)


def least_distance(circle, pitch_diameter, pitch, lead):
    """From a point on a circle, mid-groove, to the nearest flank of an internal helicoid: sampled surface."""
    radius = np.linspace(pitch_diameter / 2 - pitch / 3, pitch_diameter / 2 + pitch / 3, 1201)[:, None]
    turn = np.linspace(-0.25, 0.25, 2001)[None, :]
    flank = pitch / 4 - (radius - pitch_diameter / 2) * math.tan(A60) + lead * turn / (2 * math.pi)
    x, y = radius * np.cos(turn), radius * np.sin(turn)
    return float(np.sqrt((x - circle / 2) ** 2 + y**2 + flank**2).min())


@pytest.mark.parametrize(("pitch_diameter", "pitch"), [(18.376, 2.5), (89.1, 1.5), (9.026, 1.5)])
def test_a_ball_on_its_circle_touches_the_flanks(pitch_diameter, pitch):
    """The least distance from its center to the helicoid is its radius, to a ten-thousandth of the pitch."""
    ball = wires.best_wire(pitch, A60)
    circle = ball_circle(pitch_diameter, ball, pitch, A60)
    away = least_distance(circle, pitch_diameter, pitch, pitch)
    assert away == pytest.approx(ball / 2, abs=1e-3 * pitch)


def test_mirror_of_the_wires_outside():
    """Wire circle outside and ball circle inside lie evenly about the pitch cylinder (NBS Handbook H28)."""
    wire, pitch = 1.443, 2.5
    outside = wires.over_wires_simple(18.376, wire, pitch, A60) - wire
    assert outside - 18.376 == pytest.approx(18.376 - ball_circle(18.376, wire, pitch, A60))


def test_opposite_grooves_lie_half_a_pitch_off_unless_the_starts_are_even():
    one, two = (between_balls(20.0, 0.866, 1.5, starts, A60) for starts in (1, 2))
    assert one > two
    assert two == pytest.approx(ball_circle(20.0, 0.866, 1.5, A60) - 0.866)


@pytest.mark.parametrize("ball", [0.0, -1.0, 9.0, math.nan])
def test_a_ball_that_does_not_go_in(ball):
    with pytest.raises(OutsideRange):
        between_balls(9.0, ball, 1.5, 1, A60)
