"""The threading tool's own geometry, against forms and rules in print."""

from __future__ import annotations

import math
import random

import pytest

from generator.calc.flanks import Flanks
from generator.calc.form_tool import (
    flank_of_side,
    height_error,
    leading_side,
    normal_angle,
    nose_flat,
    nose_radius,
    side_clearances,
    square_to_edge,
    unlike_angle,
)
from generator.calc.thread_form import depth_for_flat, depth_for_radius, lead_angle
from generator.errors import OutsideRange

ACME = Flanks.alike(math.radians(14.5))
SIXTY = Flanks.alike(math.radians(30))
BUTTRESS = Flanks(math.radians(7), math.radians(45))
SQUARE = Flanks(0.0, 0.0)


@pytest.mark.parametrize("tpi", [1, 2, 3, 4, 5, 6, 8, 10])
def test_acme_tool_points(tpi):
    """Machinery's Data Sheets, 1910, Acme screw: flat at the bottom 0.3707 / n - 0.0052 in.

    The root there is the nominal size less 1/n less 0.020 in; the pitch line lies 1/(2n) under the crest.
    """
    pitch = 1 / tpi
    found = nose_flat(pitch, ACME, 3 - pitch / 2, 3 - pitch - 0.020)
    assert found == pytest.approx(0.3707 * pitch - 0.0052, abs=0.00005)


@pytest.mark.parametrize(
    ("pitch", "clearance"), [(1.5, 0.15), (3, 0.25), (5, 0.25), (7, 0.5), (12, 0.5), (18, 1)]
)
def test_trapezoidal_tool_points(pitch, clearance):
    """ISO 2901, 2904: d2 = d - 0.5 P, d3 = d - P - 2 ac; the flat there is 0.366 P - 0.536 ac."""
    flanks = Flanks.alike(math.radians(15))
    found = nose_flat(pitch, flanks, 60 - pitch / 2, 60 - pitch - 2 * clearance)
    assert found == pytest.approx(0.366 * pitch - 0.536 * clearance, abs=0.0005 * pitch)


@pytest.mark.parametrize(
    ("half", "depth", "radius", "source"),
    [
        (27.5, 0.640327, 0.137329, "BS 84: Machinery's Handbook, 31st ed., p. 2087"),
        (23.75, 0.6, 0.1808346, "BS 93, thread data sheet of a web library of documents"),
        (30, 0.5327, 0.1667, "BS 811 cycle threads, rounded"),
    ],
)
def test_round_roots(half, depth, radius, source):
    """Forms with round crests and roots, alike at both ends: the pitch line halves the depth."""
    found = nose_radius(1.0, Flanks.alike(math.radians(half)), 10.0, 10.0 - depth)
    assert found == pytest.approx(radius, abs=0.0006), source


def test_the_buttress_root():
    """ASME B1.9: root radius 0.07141 P at a depth of 0.66271 P, the crest 0.3 P over the pitch line."""
    found = nose_radius(1.0, BUTTRESS, 10.0, 10.0 - 2 * (0.66271 - 0.3))
    assert found == pytest.approx(0.07141, abs=0.0001)


def test_unified_flats():
    """ASME B1.1, ISO 68-1: P/4 at 5H/8 of depth, P/8 at 3H/4, a point at 7H/8."""
    height = math.sqrt(3) / 2
    for share, flat in ((5 / 8, 1 / 4), (3 / 4, 1 / 8), (7 / 8, 0.0)):
        found = nose_flat(1.0, SIXTY, 10 - 3 / 4 * height, 10 - 2 * share * height)
        assert found == pytest.approx(flat, abs=1e-12)


@pytest.mark.parametrize("flanks", [SIXTY, ACME, BUTTRESS, Flanks(math.radians(3), math.radians(30))])
@pytest.mark.parametrize("inside", [False, True])
def test_the_nose_is_the_inverse_of_the_depth(flanks, inside):
    """From touch to the pitch diameter with that nose, the tool ends at that root."""
    way = 1 if inside else -1
    for flat in (0.0, 0.05, 0.2):
        depth = depth_for_flat(20.0, 20.0 + way * 0.9, 1.5, flanks, flat, inside)
        assert nose_flat(1.5, flanks, 20.0 + way * 0.9, 20.0 + way * 2 * depth) == pytest.approx(flat)
    depth = depth_for_radius(20.0, 20.0 + way * 0.9, 1.5, flanks, 0.1, inside)
    assert nose_radius(1.5, flanks, 20.0 + way * 0.9, 20.0 + way * 2 * depth) == pytest.approx(0.1)


def test_a_square_groove_has_no_nose_of_its_own():
    for of in (nose_flat, nose_radius):
        with pytest.raises(OutsideRange, match="as wide as its tool"):
            of(1.0, SQUARE, 9.5, 9.0)


def test_the_tool_clears_the_groove_everywhere():
    """Geometry: between crest and root both sides stay free by the working clearance, at one just by it."""
    tell = random.Random(5)
    for _ in range(200):
        small = tell.uniform(3, 80)
        large, lead, tilt = small * tell.uniform(1.01, 1.5), tell.uniform(0.2, 40), tell.choice((0.0, 0.06))
        working = math.radians(tell.uniform(1, 5))
        sides = side_clearances(lead, small, large, working, tilt)
        free = [
            (sides.leading - (lean - tilt), sides.trailing + (lean - tilt))
            for lean in (lead_angle(lead, small + (large - small) * part / 20) for part in range(21))
        ]
        assert min(front for front, _ in free) == pytest.approx(working)
        assert min(back for _, back in free) == pytest.approx(working)


def test_a_textbook_angle_of_the_side():
    """Shop Practice, vol. 1 (web library), taps for square threads: drawn with the circumference at the root
    and the pitch, here 1/2 in on a root of 1 1/2 in: tan = 0.5 / 4.712, 6.06 degrees.
    """
    sides = side_clearances(0.5, 1.5, 2.0, 0.0)
    assert math.degrees(sides.leading) == pytest.approx(6.06, abs=0.005)
    assert math.tan(sides.leading) == pytest.approx(0.5 / 4.712, abs=1e-4)


def test_square_to_the_edge_it_is_less():
    assert square_to_edge(0.1, 0.0) == pytest.approx(0.1)
    assert square_to_edge(0.1, math.radians(45)) < 0.1 * 0.71


@pytest.mark.parametrize("half", [5.0, 14.5, 30.0])
def test_normal_and_axial_angle_undo_each_other(half):
    flank, lead = math.radians(half), math.radians(12)
    assert unlike_angle(normal_angle(flank, lead), lead) == pytest.approx(flank)
    assert normal_angle(flank, lead) < flank < unlike_angle(flank, lead)


def test_height_against_the_true_section():
    """The flank of a level tool off center, taken from its two end points."""
    for crest, root, half in ((6.0, 4.8, 30.0), (20.0, 16.0, 14.5), (2.0, 1.5, 27.5)):
        allowed = math.radians(0.1)
        off = height_error(crest, root, math.radians(half), allowed)
        across = math.sqrt(crest**2 / 4 - off**2) - math.sqrt(root**2 / 4 - off**2)
        axial = (crest - root) / 2 * math.tan(math.radians(half))
        made = math.atan(axial / ((crest - root) / 2) * across / ((crest - root) / 2))
        assert made - math.radians(half) == pytest.approx(allowed, rel=0.03)


def test_which_flank_leads():
    """Load flanks that look at the tailstock are cut by the leading side of a right-hand thread's tool."""
    for hand, load_faces, wanted in (
        ("right", "tailstock", BUTTRESS.load), ("right", "headstock", BUTTRESS.clearance),
        ("left", "tailstock", BUTTRESS.clearance), ("left", "headstock", BUTTRESS.load),
    ):
        assert flank_of_side(BUTTRESS, leading_side(hand), load_faces) == wanted
