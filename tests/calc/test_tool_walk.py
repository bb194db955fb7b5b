"""The tool walking along the work: against single solutions, statics and an independent frame program."""

from __future__ import annotations

import importlib.util
import math
from pathlib import Path

import numpy as np
import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.sections import second_moment
from generator.calc.tool_walk import diameter_error, feed_moment, tool_walk
from generator.errors import OutsideRange

_spec = importlib.util.spec_from_file_location(
    "frame_in_space", Path(__file__).parents[1] / "frame_in_space.py"
)
assert _spec is not None
assert _spec.loader is not None
frame = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(frame)

E = 205e9
SHAFT = (
    Segment(0.0, 0.300, 0.1016, 0.0635),
    Segment(0.300, 0.500, 0.0900, 0.0635),
    Segment(0.500, 0.800, 0.08255, 0.0500),
)
HELD = {
    "chuck": (Support(0.0, math.inf, 1e5),),
    "chuck, steady": (Support(0.0, math.inf, 1e5), Support(0.450, 20e6)),
    "chuck, center": (Support(0.0, math.inf, 1e5), Support(0.800)),
    "centers": (Support(0.0), Support(0.800, 30e6)),
    "chuck, steady, center": (Support(0.0, math.inf, 1e5), Support(0.450, 20e6), Support(0.800)),
}
RADIAL, MAIN, FEED, RADIUS = 400.0, 900.0, 350.0, 0.040


def by_frame_program(supports, tool, rest=None, *, inside=False):
    """Deflection of the axis to the rear and upwards, from PyNite in space."""
    held = [(one.at, one.stiffness, one.angular) for one in supports] + ([(*rest, 0.0)] if rest else [])
    found = frame.moved(
        [(one.start, one.end, one.od, one.bore) for one in SHAFT], E, held, tool, RADIUS,
        rear=-RADIAL if inside else RADIAL, up=MAIN, towards_chuck=FEED,
    )
    return found.rear, found.up


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("inside", [False, True])
@pytest.mark.parametrize("tool", [0.350, 0.700])
@pytest.mark.parametrize("name", HELD)
def test_a_frame_program_in_space_agrees_on_a_feed_force_beside_the_axis(name, tool, inside):
    walk = tool_walk(Beam(SHAFT, HELD[name], E), [tool])
    away = walk.under(RADIAL, feed_moment(FEED, RADIUS, inside=inside)).at_tool[0]
    lift = walk.under(MAIN).at_tool[0]
    rear, up = by_frame_program(HELD[name], tool, inside=inside)
    assert away == pytest.approx(-rear if inside else rear, rel=1e-3)
    assert lift == pytest.approx(up, rel=1e-3)


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", ["chuck, center", "centers"])
def test_a_frame_program_in_space_agrees_on_a_follow_rest(name):
    walk = tool_walk(Beam(SHAFT, HELD[name], E), [0.400], rest_from_tool=0.030, rest_stiffness=15e6)
    away = walk.under(RADIAL, feed_moment(FEED, RADIUS)).at_tool[0]
    rear, up = by_frame_program(HELD[name], 0.400, (0.430, 15e6))
    assert away == pytest.approx(rear, rel=1e-3)
    assert walk.under(MAIN).at_tool[0] == pytest.approx(up, rel=1e-3)


def test_a_feed_towards_the_chuck_brings_the_end_of_a_bar_towards_the_tool():
    """F r L² ÷ 2 E I against P L³ ÷ 3 E I: Roark, table 8.1, 3a and 1a; from memory."""
    bar = Beam((Segment(0.0, 0.200, 0.040),), (Support(0.0, math.inf, math.inf),), E)
    walk, stiffness = tool_walk(bar, [0.200]), E * second_moment(0.040)
    towards = walk.under(0.0, feed_moment(300.0, 0.020)).at_tool[0]
    assert towards == pytest.approx(-300.0 * 0.020 * 0.200**2 / (2 * stiffness))
    assert walk.under(300.0).at_tool[0] == pytest.approx(300.0 * 0.200**3 / (3 * stiffness))


def test_the_rest_is_a_support_of_the_beam_at_every_place():
    places = list(np.linspace(0.2, 0.78, 30))
    walk = tool_walk(
        Beam(SHAFT, HELD["chuck, center"], E), places, [0.0, 0.6], rest_from_tool=0.05, rest_stiffness=12e6
    )
    moved = walk.under(500.0)
    push, _ = walk.with_rest()
    for number, x in enumerate(places):
        rest = () if x + 0.05 > 0.8 else (Support(x + 0.05, 12e6),)
        beam = Beam(SHAFT, (*HELD["chuck, center"], *rest), E)
        assert moved.at_tool[number] == pytest.approx(beam.deflections(500.0, x, [x])[0], rel=1e-9)
        assert moved.watched[1, number] == pytest.approx(beam.deflections(500.0, x, [0.6])[0], rel=1e-7)
        assert moved.slopes[0, number] == pytest.approx(beam.slopes(500.0, x, [0.0])[0], rel=1e-7)
        assert 500 * push[number] == pytest.approx(moved.at_tool[number], rel=1e-12)
        if rest:
            assert moved.rest[number] == pytest.approx(beam.reactions(500.0, x)[2], rel=1e-7)
    assert moved.rest[-1] == 0.0


def test_work_that_bends_away_from_the_rest_is_not_held_back():
    beam = Beam(SHAFT, HELD["chuck"], E)
    loose = tool_walk(beam, [0.5]).under(10.0, -50.0).at_tool[0]
    moved = tool_walk(beam, [0.5], rest_from_tool=0.02).under(10.0, -50.0)
    assert loose < 0
    assert moved.at_tool[0] == pytest.approx(loose)
    assert moved.rest[0] == 0.0


def test_a_rigid_rest_right_at_the_tool_leaves_nothing():
    moved = tool_walk(Beam(SHAFT, HELD["chuck"], E), [0.7], rest_from_tool=0.0).under(800.0)
    assert moved.at_tool[0] == pytest.approx(0.0, abs=1e-15)
    assert moved.rest[0] == pytest.approx(800.0)


@pytest.mark.parametrize(("inside", "sign"), [(False, 1), (True, -1)])
def test_the_error_is_that_of_the_circle_the_tool_describes(inside, sign):
    """2 √((r ± y)² + z²) − 2 r, worked out whole."""
    away, lift, radius = np.array([3e-5, 1e-4]), np.array([1e-4, 2e-4]), 0.010
    exact = 2 * np.hypot(radius + sign * away, lift) - 2 * radius
    assert diameter_error(away, lift, 2 * radius, inside=inside) == pytest.approx(exact, abs=1e-7)


def test_a_rest_without_stiffness_is_refused():
    with pytest.raises(OutsideRange, match="stiffness of the rest"):
        tool_walk(Beam(SHAFT, HELD["chuck"], E), [0.5], rest_from_tool=0.0, rest_stiffness=0.0)
