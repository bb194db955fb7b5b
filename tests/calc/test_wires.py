"""Wires: the forms agree where they must, and the exact one with a plain search for the resting wire."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq, minimize, minimize_scalar

from generator.calc import wires
from generator.errors import OutsideRange
from generator.si import inch, mm

A60, A30, A29 = math.radians(30), math.radians(15), math.radians(14.5)


def resting_size(pitch_diameter, wire, pitch, lead, half_angle):
    """Size over wires by plain search: turn the wire, lower it until it touches, keep the lowest."""
    start = math.atan(lead / math.pi / pitch_diameter)
    seed = np.array([pitch_diameter / 2, 0.0])

    def gap(center, turn):
        def distance(point):
            r, t = point
            z = lead * t / (2 * math.pi) + pitch / 4 + (r - pitch_diameter / 2) * math.tan(half_angle)
            p = np.array([r * math.cos(t) - center, r * math.sin(t), z])
            return float(np.linalg.norm(np.cross(p, [0.0, math.cos(turn), math.sin(turn)])))

        options = {"xatol": 1e-11, "fatol": 1e-13, "maxiter": 4000}
        return minimize(distance, seed, method="Nelder-Mead", options=options).fun - wire / 2

    def height(turn):
        guess = (wires.over_wires_with_lead(pitch_diameter, wire, pitch, lead, half_angle) - wire) / 2
        room = 0.01 * pitch_diameter
        return brentq(lambda center: gap(center, turn), guess - room, guess + room, xtol=1e-10)

    turns = (start * 0.7, start * 1.3)
    lowest = minimize_scalar(height, bounds=turns, method="bounded", options={"xatol": 1e-5})
    return 2 * lowest.fun + wire


@pytest.mark.parametrize(
    ("pitch_diameter", "pitch", "starts", "half_angle"),
    [(9.415, 3.0, 1, A30), (14.0, 1.5, 3, A60), (14.1275, 3.175, 2, A29)],
)
def test_exact_form_is_where_a_straight_wire_comes_to_rest(pitch_diameter, pitch, starts, half_angle):
    """Independent of the solver: search over touch point, height and turn of the wire (scipy)."""
    wire = wires.best_wire(pitch, half_angle)
    exact = wires.over_wires_exact(pitch_diameter, wire, pitch, starts * pitch, half_angle)
    assert exact == pytest.approx(
        resting_size(pitch_diameter, wire, pitch, starts * pitch, half_angle), abs=2e-6 * pitch_diameter
    )


def test_exact_form_meets_the_others_as_the_lead_angle_vanishes():
    wire, pitch = 0.0722, 0.125
    for diameter, near in ((2.1664, 2e-5), (20.0, 1e-6)):
        exact = wires.over_wires_exact(diameter, wire, pitch, pitch, A60)
        assert exact == pytest.approx(wires.over_wires_with_lead(diameter, wire, pitch, pitch, A60), abs=near)
    assert exact == pytest.approx(wires.over_wires_simple(20.0, wire, pitch, A60), abs=2e-6)


def test_lead_angle_form_less_simple_form_is_the_correction_to_first_order():
    args = 0.8, 0.0722, 0.125, 0.25, A60
    difference = wires.over_wires_with_lead(*args) - wires.over_wires_simple(0.8, 0.0722, 0.125, A60)
    assert wires.lead_correction(*args) == pytest.approx(difference, rel=0.01)


def test_lead_form_lies_above_the_exact_one_by_what_grows_with_the_angle():
    """The lead-angle form is known to be high above 5 degrees, the more the larger the angle."""
    errors = []
    for starts in (1, 2, 3):
        args = 14.0, wires.best_wire(3.0, A30), 3.0, 3.0 * starts, A30
        errors.append(wires.over_wires_with_lead(*args) - wires.over_wires_exact(*args))
    assert 0 < errors[0] < errors[1] < errors[2] < 0.03 * 3


@pytest.mark.parametrize(
    ("diameter", "pitch", "lead", "form"),
    [
        (2.1664 * inch, inch / 8, inch / 8, "simple"),
        (8.994 * mm, 1.5 * mm, 1.5 * mm, "simple"),
        (12.0 * mm, 1.5 * mm, 3.0 * mm, "with lead"),
        (14.0 * mm, 1.5 * mm, 4.5 * mm, "exact"),
    ],
)
def test_form_chosen_and_its_inverse(diameter, pitch, lead, form):
    """Simple up to a term of 0.00015 in, with lead up to 5 degrees, exact above; each inverted exactly."""
    wire = wires.best_wire(pitch, A60)
    forms = {
        "simple": wires.over_wires_simple(diameter, wire, pitch, A60),
        "with lead": wires.over_wires_with_lead(diameter, wire, pitch, lead, A60),
        "exact": wires.over_wires_exact(diameter, wire, pitch, lead, A60),
    }
    over = wires.over_wires(diameter, wire, pitch, lead, A60)
    assert over == forms[form]
    assert wires.pitch_diameter_from_wires(over, wire, pitch, lead, A60) == pytest.approx(diameter, abs=1e-10)


def test_usable_wires_by_geometry():
    """60 degrees, basic crest flat P/8: level with the crests 0.50518 P, at the crest edge 1.01036 P."""
    smallest, largest = wires.usable_wires(1.0, A60)
    assert smallest == pytest.approx(0.5051815, abs=1e-6)
    assert largest == pytest.approx(1.0103630, abs=1e-6)
    basic = 10 - 0.649519053
    assert wires.over_wires_simple(basic, smallest, 1.0, A60) == pytest.approx(10, abs=1e-6)


def test_choice_is_the_nearest_usable_wire_of_the_set():
    """The set printed with a textbook example of the three-wire method; 7/16-14 takes 0.040 (best 0.0412)."""
    own = [0.018, 0.024, 0.029, 0.032, 0.040, 0.045, 0.055, 0.063, 0.072, 0.081, 0.092, 0.108, 0.120]
    best = wires.best_wire(1 / 14, A60)
    assert wires.choose_wire(best, own, 1 / 14, A60) == 0.040
    assert wires.choose_wire(best, [0.018, 0.120], 1 / 14, A60) is None
    assert wires.choose_wire(best, [], 1 / 14, A60) is None
    assert wires.choose_wire(1.0, [0.9, 1.1 - 0.1 + 1e-9], 1.0, A60) == pytest.approx(1.0)


def test_a_wire_that_cannot_seat_and_a_size_that_cannot_be():
    with pytest.raises(OutsideRange):
        wires.pitch_diameter_from_wires(0.01 * inch, 0.0722 * inch, inch / 8, inch / 8, A60)
    with pytest.raises(OutsideRange):
        wires.over_wires(0.0, 0.0722 * inch, inch / 8, inch / 8, A60)


def test_exact_form_solves_over_the_whole_field_of_use():
    """One to six starts, coarse to fine, small to large usable wire: always a size near the lead form."""
    for starts in range(1, 7):
        for ratio in (0.05, 0.1, 0.2):
            low, high = wires.usable_wires(ratio, A60)
            for wire in (1.05 * low, wires.best_wire(ratio, A60), 0.95 * high):
                args = 1.0, wire, ratio, starts * ratio, A60
                difference = wires.over_wires_exact(*args) - wires.over_wires_with_lead(*args)
                assert abs(difference) < 0.1 * ratio * starts
