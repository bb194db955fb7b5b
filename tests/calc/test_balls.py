"""Between balls: against a ball pushed into both helicoids by plain search, and the wires it mirrors."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from generator.calc import balls, wire_choice, wires
from generator.calc.balls import across_balls, ball_circle, ball_circle_exact, between_balls
from generator.calc.flanks import Flanks
from generator.calc.wires import Form
from generator.errors import OutsideRange
from generator.si import mm

A60, A30 = (Flanks.alike(math.radians(half)) for half in (30, 15))
BUTTRESS, SAWTOOTH = (Flanks(math.radians(load), math.radians(clear)) for load, clear in ((7, 45), (3, 30)))


def pushed_out(pitch_diameter, ball, pitch, lead, flanks):
    """Twice how far out a ball goes in the groove of an internal thread: at each place along the axis it may
    stand out as far as every point of both flanks leaves it, and it is shifted to where it goes furthest."""

    def furthest(along):
        nearest = math.inf
        for side, angle in ((1, flanks.load), (-1, flanks.clearance)):
            r = (pitch_diameter + pitch / flanks.tangents - ball * flanks.seat + ball * math.sin(angle)) / 2
            t, wide, round_ = 0.0, ball / 3, ball / pitch_diameter
            for _ in range(9):
                radius = np.linspace(r - wide, r + wide, 41)[:, None]
                turned = np.linspace(t - round_, t + round_, 41)[None, :]
                x, y = radius * np.cos(turned), radius * np.sin(turned)
                deep = pitch / 4 - (radius - pitch_diameter / 2) * math.tan(angle)
                z = lead * turned / (2 * math.pi) + side * deep
                room = ball**2 / 4 - y**2 - (z - along) ** 2
                under = np.where(room > 0, x - np.sqrt(np.maximum(room, 0)), math.inf)
                i, j = np.unravel_index(under.argmin(), under.shape)
                r, t, wide, round_ = float(radius[i, 0]), float(turned[0, j]), wide / 4, round_ / 4
            nearest = min(nearest, float(under.min()))
        return nearest

    sharp = pitch / 2 / flanks.tangents
    lies = pitch / 4 + (ball / 2 * flanks.seat - sharp) * math.tan(flanks.load)
    lies -= ball / 2 / math.cos(flanks.load)
    found = minimize_scalar(
        lambda along: -furthest(along), bounds=(lies - pitch / 20, lies + pitch / 20), method="bounded",
        options={"xatol": 1e-9 * pitch},
    )
    return -2 * found.fun


@pytest.mark.parametrize(
    ("pitch_diameter", "pitch", "starts", "flanks"),
    [
        (18.376, 2.5, 1, A60), (9.026, 1.5, 1, A60), (14.0, 1.5, 4, A60), (36.5, 7.0, 2, A30),
        (14.0, 3.0, 3, A30), (14.0, 3.0, 1, BUTTRESS), (14.0, 3.0, 3, BUTTRESS), (42.0, 8.0, 2, SAWTOOTH),
    ],
)
def test_exact_circle_is_where_a_ball_comes_to_rest(pitch_diameter, pitch, starts, flanks):
    """Independent of the solver: a ball pushed out between both flanks (numpy, scipy)."""
    ball, lead = wire_choice.best_wire(pitch, flanks), starts * pitch
    exact = ball_circle_exact(pitch_diameter, ball, pitch, lead, flanks)
    searched = pushed_out(pitch_diameter, ball, pitch, lead, flanks)
    assert exact == pytest.approx(searched, abs=1e-8 * pitch_diameter)
    assert exact < ball_circle(pitch_diameter, ball, pitch, flanks)


def test_mirror_of_the_wires_outside():
    """Wire circle outside and ball circle inside lie evenly about the pitch cylinder (NBS Handbook H28)."""
    wire, pitch = 1.443, 2.5
    outside = wires.over_wires_simple(18.376, wire, pitch, A60) - wire
    assert outside - 18.376 == pytest.approx(18.376 - ball_circle(18.376, wire, pitch, A60))


@pytest.mark.parametrize("flanks", [A60, A30, BUTTRESS, SAWTOOTH])
def test_exact_circle_meets_the_simple_one_as_the_lead_angle_vanishes(flanks):
    ball = wire_choice.best_wire(0.125, flanks)
    exact = ball_circle_exact(40.0, ball, 0.125, 0.125, flanks)
    assert exact == pytest.approx(ball_circle(40.0, ball, 0.125, flanks), abs=1e-6)


def test_lead_angle_is_taken_in_where_it_matters():
    """Up to 0.00015 in the simple form, as over wires; the exact form reads less between the balls."""
    for starts, form in ((1, Form.SIMPLE), (4, Form.EXACT)):
        args = 18.376 * mm, 1.443 * mm, 2.5 * mm
        assert balls.form_of(*args, starts * 2.5 * mm, A60) is form
        simple = across_balls(ball_circle(*args, A60), args[1], args[2], starts)
        between = between_balls(*args, starts, A60)
        assert (between == simple) if form is Form.SIMPLE else (between < simple - 0.005 * mm)


def test_opposite_grooves_lie_half_a_pitch_off_unless_the_starts_are_even():
    one, two = (across_balls(19.5, 0.866, 1.5, starts) for starts in (1, 2))
    assert one == pytest.approx(math.hypot(19.5, 0.75) - 0.866)
    assert two == pytest.approx(19.5 - 0.866)


@pytest.mark.parametrize("ball", [0.0, -1.0, 9.0, math.nan, math.inf, 1e9])
def test_a_ball_that_does_not_go_in(ball):
    for measure in (
        lambda: between_balls(9.0, ball, 1.5, 1, A60),
        lambda: ball_circle_exact(9.0, ball, 1.5, 1.5, A60),
    ):
        with pytest.raises(OutsideRange):
            measure()
