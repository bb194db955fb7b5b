"""Depth, groove and lead angle: flats and flanks add to the pitch, and inverses return."""

from __future__ import annotations

import math

import pytest
from scipy import optimize

from generator.calc import thread_form as form
from generator.calc.flanks import Flanks
from generator.errors import OutsideRange

A60, A29, A55 = math.radians(30), math.radians(14.5), math.radians(27.5)
SIXTY = Flanks.alike(A60)
BUTTRESS = Flanks(math.radians(7), math.radians(45))  # ASME B1.9
MAJOR, PITCH = 57.15, 3.175
BASIC = MAJOR - 0.649519053 * PITCH


def groove_width(diameter, pitch_diameter, half_angle):
    """Axial width between the flanks, P/2 at the pitch diameter: P/2 + (d - d2) tan A (geometry)."""
    return PITCH / 2 + (diameter - pitch_diameter) * math.tan(half_angle)


@pytest.mark.parametrize("half_angle", [A60, A29, A55])
def test_crest_flat_root_flat_and_flanks_add_to_the_pitch(half_angle):
    """At any depth: crest + root + 2 depth tan A = P (geometry)."""
    flat = PITCH / 8
    pitch_diameter = MAJOR - 1.9
    depth = form.depth_for_flat(MAJOR, pitch_diameter, PITCH, Flanks.alike(half_angle), flat)
    crest = PITCH - groove_width(MAJOR, pitch_diameter, half_angle)
    assert crest + flat + 2 * depth * math.tan(half_angle) == pytest.approx(PITCH)
    root = form.root_diameter(MAJOR, depth)
    assert groove_width(root, pitch_diameter, half_angle) == pytest.approx(flat)


@pytest.mark.parametrize(
    ("nose", "factor"),
    [
        ({"nose_flat": 0.0}, 0.757772),                     # 7H/8, sharp tool
        ({"nose_flat": PITCH / 8}, 0.649519),               # 3H/4
        ({"nose_flat": PITCH / 4}, 0.541266),               # 5H/8, flat root of ASME B1.1
        ({"nose_radius": 0.866025404 * PITCH / 6}, 0.613435),  # 17H/24, ISO 724 with R = H/6
        ({"nose_radius": 0.108253 * PITCH}, 0.649519),      # UNR: 3H/4 with R = H/8 (11H/16 is its reference)
    ],
)
def test_depth_factors_of_the_standards(nose, factor):
    """Depth over pitch on the basic major diameter: ASME B1.1 and ISO 724 profiles."""
    if "nose_radius" in nose:
        depth = form.depth_for_radius(MAJOR, BASIC, PITCH, SIXTY, nose["nose_radius"])
    else:
        depth = form.depth_for_flat(MAJOR, BASIC, PITCH, SIXTY, nose["nose_flat"])
    assert depth / PITCH == pytest.approx(factor, abs=1e-6)
    assert form.pitch_diameter_at_depth(MAJOR, depth, PITCH, SIXTY, **nose) == pytest.approx(BASIC)


def test_radius_and_flat_that_end_at_the_same_depth_leave_the_same_flanks():
    """A radius r tangent to the flanks ends where a flat of 2 r (1 - sin A)/cos A ends (geometry)."""
    radius = 0.2
    flat = 2 * radius * (1 - math.sin(A60)) / math.cos(A60)
    assert form.depth_for_radius(MAJOR, BASIC, PITCH, SIXTY, radius) == pytest.approx(
        form.depth_for_flat(MAJOR, BASIC, PITCH, SIXTY, flat)
    )


def test_one_thousandth_of_nose_flat_moves_the_pitch_diameter_by_its_cotangent():
    """dE/dF = cot A = 1.732 for 60 degrees at fixed depth; a wider nose leaves less."""
    at = [form.pitch_diameter_at_depth(MAJOR, 1.9, PITCH, SIXTY, nose_flat=f) for f in (0.3, 0.4)]
    assert at[0] - at[1] == pytest.approx(0.1 * 1.7320508)


@pytest.mark.parametrize(
    "call",
    [
        lambda: form.depth_for_flat(MAJOR, BASIC, PITCH, SIXTY, PITCH / 2),
        lambda: form.depth_for_flat(MAJOR, BASIC, PITCH, SIXTY, -0.1),
        lambda: form.depth_for_flat(MAJOR, BASIC, 0.0, SIXTY, 0.1),
        lambda: form.depth_for_radius(MAJOR, BASIC, PITCH, Flanks(0.0, 0.0), 0.1),
        lambda: Flanks(-0.1, 0.5),
        lambda: Flanks(0.5, math.pi / 2),
        lambda: form.depth_for_flat(MAJOR, MAJOR + 10, PITCH, SIXTY, 0.1),
        lambda: form.depth_for_radius(MAJOR, BASIC, PITCH, SIXTY, PITCH),
        lambda: form.depth_for_radius(MAJOR, BASIC, PITCH, SIXTY, -0.1),
        lambda: form.root_diameter(2.0, 1.0),
        lambda: form.lead_angle(0.0, BASIC),
        lambda: form.lead_angle(PITCH, 0.0),
    ],
)
def test_impossible_grooves_are_refused(call):
    with pytest.raises(OutsideRange):
        call()


@pytest.mark.parametrize("half_angle", [A60, A29, A55])
@pytest.mark.parametrize("flat", [0.0, PITCH / 16, PITCH / 8])
def test_internal_groove_is_half_a_pitch_wide_at_its_pitch_cylinder(half_angle, flat):
    """The tool, F + 2 y tan A wide y above its point, is P/2 wide where it passes the pitch cylinder."""
    bore, pitch_diameter = 50.0, 52.3
    depth = form.depth_for_flat(bore, pitch_diameter, PITCH, Flanks.alike(half_angle), flat, internal=True)
    root = form.root_diameter(bore, depth, internal=True)
    above_point = (root - pitch_diameter) / 2
    assert flat + 2 * above_point * math.tan(half_angle) == pytest.approx(PITCH / 2)
    flanks = Flanks.alike(half_angle)
    back = form.pitch_diameter_at_depth(bore, depth, PITCH, flanks, nose_flat=flat, internal=True)
    assert back == pytest.approx(pitch_diameter)


@pytest.mark.parametrize(
    ("nose", "factor"),
    [
        ({"nose_flat": 0.0}, 0.649519),                 # 3H/4: a sharp tool runs H/8 past the basic major
        ({"nose_flat": PITCH / 8}, 0.541266),           # 5H/8, the basic profile inside
        ({"nose_radius": 0.108253 * PITCH}, 0.541266),  # the largest radius that still clears the major
    ],
)
def test_internal_depth_factors(nose, factor):
    """Depth over pitch from the basic minor diameter: ISO 68-1, ASME B1.1 basic profile."""
    minor = MAJOR - 1.082531755 * PITCH
    if "nose_radius" in nose:
        depth = form.depth_for_radius(minor, BASIC, PITCH, SIXTY, nose["nose_radius"], internal=True)
    else:
        depth = form.depth_for_flat(minor, BASIC, PITCH, SIXTY, nose["nose_flat"], internal=True)
    assert depth / PITCH == pytest.approx(factor, abs=1e-6)


def test_outside_and_inside_are_mirror_images_about_the_pitch_cylinder():
    """A blank as far outside the pitch cylinder as the bore is inside takes the same depth."""
    outside = form.depth_for_flat(60.0, 58.0, PITCH, SIXTY, 0.3)
    assert form.depth_for_flat(56.0, 58.0, PITCH, SIXTY, 0.3, internal=True) == pytest.approx(outside)
    with pytest.raises(OutsideRange):
        form.depth_for_flat(70.0, 58.0, PITCH, SIXTY, 0.3, internal=True)


def test_a_round_nose_touches_both_flanks_of_a_buttress_groove():
    """The circle at the bottom lies its radius off both flank lines (geometry in the axial plane)."""
    radius = 0.2
    depth = form.depth_for_radius(MAJOR, BASIC, PITCH, BUTTRESS, radius)
    back = form.pitch_diameter_at_depth(MAJOR, depth, PITCH, BUTTRESS, nose_radius=radius)
    assert back == pytest.approx(BASIC)
    height = radius - (BASIC - form.root_diameter(MAJOR, depth)) / 2  # of the center over the pitch line

    def off(along: float, angle: float) -> float:
        """Distance from the flank that crosses the pitch line a quarter pitch away, leaning outwards."""
        return (along + PITCH / 4) * math.cos(angle) + height * math.sin(angle)

    place = optimize.brentq(lambda z: off(z, BUTTRESS.load) - off(-z, BUTTRESS.clearance), -PITCH, PITCH)
    assert off(place, BUTTRESS.load) == pytest.approx(radius)
    assert off(-place, BUTTRESS.clearance) == pytest.approx(radius)


def test_a_buttress_groove_is_half_a_pitch_wide_at_the_pitch_line():
    """F + depth below the line x (tan 7 + tan 45) = P/2 (ASME B1.9 angles, geometry)."""
    depth = form.depth_for_flat(MAJOR, BASIC, PITCH, BUTTRESS, PITCH / 8)
    below = depth - (MAJOR - BASIC) / 2
    assert PITCH / 8 + below * (math.tan(math.radians(7)) + 1) == pytest.approx(PITCH / 2)


@pytest.mark.parametrize("internal", [False, True])
def test_the_pitch_diameter_of_a_square_thread_lies_halfway_between_crest_and_root(internal):
    """Depth P/2 from the crests (common practice, no source)."""
    square, aim = Flanks(0.0, 0.0), MAJOR + (PITCH / 2 if internal else -PITCH / 2)
    depth = form.depth_for_flat(MAJOR, aim, PITCH, square, PITCH / 2, internal)
    assert depth == pytest.approx(PITCH / 2)
    back = form.pitch_diameter_at_depth(MAJOR, depth, PITCH, square, PITCH / 2, 0.0, internal)
    assert back == pytest.approx(aim)
