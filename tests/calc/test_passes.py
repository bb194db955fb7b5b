"""The pass schedule: what always holds, and the geometry behind it."""

from __future__ import annotations

import itertools
import math
import random

import pytest

from generator.calc.flanks import Flanks
from generator.calc.passes import (
    equivalent_flat,
    infeed_travel,
    schedule,
    usual_passes,
    wire_seats,
)
from generator.calc.thread_form import pitch_diameter_at_depth
from generator.errors import OutsideRange

HALF = math.radians(30)
SIXTY = Flanks.alike(HALF)


def test_cap_floor_and_rest():
    """Cap 0.3, floor 0.06: 0.3 √k while the cut is above the floor, then the floor, the rest with the last.

    Worked by hand: 0.3 √7 = 0.793725 would be a cut of 0.058878, so 0.06; the tenth takes the rest too.
    """
    by_hand = [0.3, 0.424264, 0.519615, 0.6, 0.670820, 0.734847, 0.794847, 0.854847, 0.914847, 1.0]
    assert schedule(1.0, 0.3, 0.06) == pytest.approx(by_hand, abs=5e-7)


def test_without_a_floor_a_sharp_tool_takes_the_same_area_in_each_pass():
    """The area of a V groove is y² tan α (geometry), so equal areas are depths as square roots."""
    depths = schedule(1.0, 0.25, 0.0)
    assert len(depths) == 16
    areas = [(after**2 - before**2) * math.tan(HALF) for before, after in itertools.pairwise([0.0, *depths])]
    assert areas == pytest.approx([areas[0]] * 16)


def test_number_of_passes_under_a_cap():
    """N = ⌈(h ÷ a1)²⌉: 1.0 by 0.3 takes 12 (arithmetic)."""
    assert len(schedule(1.0, 0.3, 0.0)) == 12


def cases():
    chance = random.Random(1914)
    for _ in range(2000):
        total = chance.choice([1.0, 1e-3, 25.4]) * chance.uniform(0.01, 3)
        first = total * chance.uniform(0.05, 2)
        yield total, first, first * chance.choice([0.0, 1.0, chance.random()])


def test_every_schedule_adds_up_goes_forward_and_keeps_cap_and_floor():
    for total, first, least in cases():
        depths = schedule(total, first, least)
        cuts = [after - before for before, after in itertools.pairwise([0.0, *depths])]
        dust = total * 1e-9
        assert depths[-1] == total
        assert sum(cuts) == pytest.approx(total, rel=1e-12)
        assert all(cut > 0 for cut in cuts)
        assert min(cuts) >= min(least, total) - dust
        assert max(cuts) <= first + least + dust
        assert cuts[0] <= first + dust or len(cuts) == 1
        assert all(later <= cut + dust for cut, later in itertools.pairwise(cuts[:-1]))
        assert (
            len(cuts) == 1 or cuts[-1] < max(cuts[-2], least) + least + dust
        )  # the rest is under one least cut


def test_a_way_shorter_than_the_least_cut_is_one_pass():
    assert schedule(0.01, 0.25, 0.04) == [0.01]


@pytest.mark.parametrize(
    "wrong",
    [
        (0, 1, 0),
        (-1, 1, 0),
        (math.nan, 1, 0),
        (math.inf, 1, 0),
        (1, 0, 0),
        (1, -1, 0),
        (1, 0.1, -0.1),
        (1, 0.1, 0.2),
        (1, 1e-6, 0),
    ],
)
def test_cuts_that_make_no_table_are_refused(wrong):
    with pytest.raises(OutsideRange):
        schedule(*wrong)


@pytest.mark.parametrize(("tpi", "printed"), [(8, 0.0928), (20, 0.0371)])
def test_feed_at_29_degrees_as_printed(tpi, printed):
    """Workshop table of compound feeds at 29 degrees, American National threads, 3/4 H = 0.649519 P."""
    assert infeed_travel(0.649519 / tpi, math.radians(29)) == pytest.approx(printed, abs=0.00005)


@pytest.mark.parametrize(
    ("pitch", "fewest", "most"),
    [(1.5, 6, 10), (2.0, 7, 12), (3.0, 10, 16), (25.4 / 8, 10, 16), (6.0, 12, 24)],
)
def test_usual_number_of_passes_as_printed(pitch, fewest, most):
    """Guide of a maker of carbide threading tools (2020): passes by pitch."""
    assert usual_passes(pitch * 1e-3) == (fewest, most)


def test_travel_makes_the_right_triangle():
    for angle in (0.0, 29.0, 29.5, 30.0):
        depth, beta = 1.2268, math.radians(angle)
        assert math.hypot(depth, depth * math.tan(beta)) == pytest.approx(infeed_travel(depth, beta))


@pytest.mark.parametrize("angle", [-0.1, math.pi / 2])
def test_a_slide_along_the_work_feeds_nothing_in(angle):
    with pytest.raises(OutsideRange):
        infeed_travel(1.0, angle)


def test_equivalent_flat_leaves_the_pitch_diameter_of_the_radius():
    """ISO 68-1: root radius H/6 and flat P/6 both belong to the depth 17/24 H."""
    radius = math.sqrt(3) / 2 / 6
    round_nose = pitch_diameter_at_depth(10, 0.6, 1, SIXTY, nose_radius=radius)
    flat_nose = pitch_diameter_at_depth(10, 0.6, 1, SIXTY, nose_flat=equivalent_flat(radius, SIXTY))
    assert flat_nose == pytest.approx(round_nose)
    assert equivalent_flat(radius, SIXTY) == pytest.approx(1 / 6)


def test_a_wire_seats_only_once_its_contact_lies_below_the_surface():
    """The best wire touches at the pitch cylinder (NBS Handbook H28): it seats once that is in the work."""
    wire = 1 / (2 * math.cos(HALF))
    tried = [depth / 1000 for depth in range(1, 700)]
    seats = [depth for depth in tried if wire_seats(10, depth, wire, 1, SIXTY, 0.125, 0)]
    first = (0.5 - 0.125) / (2 * math.tan(HALF))  # depth at which the pitch cylinder is the surface
    assert seats[0] == pytest.approx(first, abs=0.001)
    assert seats[-1] == pytest.approx(0.699)


def test_a_wire_that_is_too_thin_lies_on_the_bottom():
    assert not wire_seats(10, 0.62, 0.2, 1, SIXTY, 0.25, 0)
