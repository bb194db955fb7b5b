"""What plating adds, what of two threads meets, how close a fit is held: print, geometry, limits."""

from __future__ import annotations

import math
import random

import pytest

from generator.calc.flanks import Flanks
from generator.calc.thread_fit import coated_diameter_change, coated_pitch_change, engaged_length, fit_band
from generator.errors import OutsideRange


def alike(degrees):
    return Flanks.alike(math.radians(degrees))


@pytest.mark.parametrize(
    ("half_angle", "times"),
    [(30, 4.0), (27.5, 4.331), (14.5, 7.988), (15, 7.727)],
)
def test_plating_adds_two_over_the_sine_of_the_half_angle(half_angle, times):
    """60 degrees: four times (Machinery's Handbook, 27th ed., p. 1773); 55, 29, 30 by the same geometry."""
    assert coated_pitch_change(1.0, alike(half_angle)) == pytest.approx(times, abs=5e-4)


@pytest.mark.parametrize(("load", "clearance"), [(30, 30), (7, 45), (3, 30), (0, 45), (14.5, 14.5)])
def test_plating_by_lines_moved_in_the_plane(load, clearance):
    """Each flank a line moved along its normal: where the groove is as wide as before lies the pitch line."""
    t, a, b = 0.01, math.radians(load), math.radians(clearance)

    def width(y):
        """A flank leans away by its tangent for a unit of height, and comes nearer by t over its cosine."""
        return 1.0 + y * (math.tan(a) + math.tan(b)) - t / math.cos(a) - t / math.cos(b)

    low, high = 0.0, 1.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if width(middle) < 1.0 else (low, middle)
    assert coated_pitch_change(t, Flanks(a, b)) == pytest.approx(2 * low, rel=1e-9)


def test_a_coating_moves_no_pitch_diameter_of_a_square_thread():
    with pytest.raises(OutsideRange, match="flank angle"):
        coated_pitch_change(1e-5, Flanks.alike(0.0))
    for change in (lambda t: coated_pitch_change(t, alike(30)), coated_diameter_change):
        with pytest.raises(OutsideRange, match="coating thickness"):
            change(-1e-6)
    assert coated_diameter_change(8e-6) == pytest.approx(16e-6)


@pytest.mark.parametrize(
    ("mate", "thread", "gap", "own", "its", "engaged"),
    [
        (1.0, 5.0, 0.0, 0.0, 0.0, 1.0), (5.0, 1.0, 0.0, 0.0, 0.0, 1.0), (1.0, 5.0, 0.0, 0.0, 0.1, 0.8),
        (1.0, 5.0, 0.3, 0.0, 0.0, 0.7), (1.0, 5.0, 0.3, 0.0, 0.1, 0.6), (2.0, 1.0, 0.3, 0.2, 0.0, 0.8),
        (0.2, 1.0, 0.3, 0.0, 0.0, 0.0), (1.0, 0.1, 0.0, 0.3, 0.0, 0.0),
    ],
)
def test_what_meets(mate, thread, gap, own, its, engaged):
    """Worked by hand along the axis, from the shoulder outwards."""
    assert engaged_length(mate, thread, gap, own, its) == pytest.approx(engaged)


def test_what_meets_is_the_overlap_of_both_threads_counted_in_steps():
    """Random lengths, and the axis walked in steps: where both have full thread, they meet."""
    draw, step = random.Random(5), 1e-3
    for _ in range(40):
        mate, thread, gap = draw.uniform(0, 3), draw.uniform(0, 3), draw.choice((0.0, draw.uniform(0, 1)))
        own, its = draw.uniform(0, 0.3), draw.uniform(0, 0.3)
        met = sum(
            its <= x <= mate - its and gap <= x <= gap + thread - own
            for x in (step * (n + 0.5) for n in range(6000))
        )
        assert engaged_length(mate, thread, gap, own, its) == pytest.approx(met * step, abs=2.1 * step)


def test_lengths_that_are_none():
    with pytest.raises(OutsideRange, match="mate's thread"):
        engaged_length(-1.0, 1.0)
    with pytest.raises(OutsideRange, match="chamfer"):
        engaged_length(1.0, 1.0, own_chamfer=math.nan)


def test_a_fit_is_held_as_close_as_its_play_but_not_closer_than_can_be_done():
    """With the band the play stays above nothing wherever the band is the clearance itself."""
    assert fit_band(0.008, 0.004) == 0.004
    assert fit_band(0.008, 0.020) == 0.008
    assert fit_band(0.008, 0.0) == fit_band(0.008, 0.001) == 0.002
