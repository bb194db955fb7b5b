"""Wires: the forms agree where they must, and the exact one with a wire lowered onto both helicoids."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import minimize

from generator.calc import wire_choice, wires, wires_few
from generator.calc.flanks import Flanks
from generator.calc.wires import Form
from generator.errors import OutsideRange
from generator.si import inch, mm

A60, A30, A29 = (Flanks.alike(math.radians(half)) for half in (30, 15, 14.5))
BUTTRESS, SAWTOOTH = (Flanks(math.radians(load), math.radians(clear)) for load, clear in ((7, 45), (3, 30)))
ONE_SIDED = Flanks(0.0, math.radians(45))


def height(pitch_diameter, wire, pitch, lead, flanks, along, turn):
    """How low a straight wire comes: its axis crosses (c, 0, along) at an angle `turn` to the plane of y.

    Over every point of a flank less than its radius from the axis, seen in the measuring direction, it must
    stay; the flank is sampled ever finer about the highest of them. No condition of contact is used.
    """
    highest = -math.inf
    for side, angle in ((1, flanks.load), (-1, flanks.clearance)):
        r = (pitch_diameter - pitch / flanks.tangents + wire * flanks.seat - wire * math.sin(angle)) / 2
        t, wide, round_ = 0.0, wire / 3, wire / pitch_diameter
        for _ in range(9):
            radius = np.linspace(r - wide, r + wide, 41)[:, None]
            turned = np.linspace(t - round_, t + round_, 41)[None, :]
            x, y = radius * np.cos(turned), radius * np.sin(turned)
            deep = pitch / 4 + (radius - pitch_diameter / 2) * math.tan(angle)
            z = lead * turned / (2 * math.pi) + side * deep
            room = wire**2 / 4 - ((z - along) * math.cos(turn) - y * math.sin(turn)) ** 2
            over = np.where(room > 0, x + np.sqrt(np.maximum(room, 0)), -math.inf)
            i, j = np.unravel_index(over.argmax(), over.shape)
            r, t, wide, round_ = float(radius[i, 0]), float(turned[0, j]), wide / 4, round_ / 4
        highest = max(highest, float(over.max()))
    return highest


def resting_size(pitch_diameter, wire, pitch, lead, flanks):
    """Size over wires by plain search: shift the wire along and turn it until it comes down furthest."""
    turn = math.atan(lead / math.pi / pitch_diameter)
    sharp = pitch / 2 / flanks.tangents
    lies = pitch / 4 + (wire / 2 * flanks.seat - sharp) * math.tan(flanks.load)
    start = np.array([lies - wire / 2 / math.cos(flanks.load), turn])
    lowest = minimize(
        lambda at: height(pitch_diameter, wire, pitch, lead, flanks, *at), start, method="Nelder-Mead",
        options={
            "xatol": 1e-9, "fatol": 1e-11, "maxiter": 800,
            "initial_simplex": start + np.array([[0.0, 0.0], [pitch / 50, 0.0], [0.0, 0.03]]),
        },
    )
    return 2 * lowest.fun + wire


@pytest.mark.parametrize(
    ("pitch_diameter", "pitch", "starts", "flanks"),
    [
        (9.415, 3.0, 1, A30), (14.0, 1.5, 3, A60), (14.1275, 3.175, 2, A29), (14.0, 3.0, 4, A29),
        (14.0, 3.0, 1, BUTTRESS), (14.0, 3.0, 3, BUTTRESS), (20.0, 4.0, 2, SAWTOOTH),
    ],
)
@pytest.mark.parametrize("share", [1.0, 1.15])
def test_exact_form_is_where_a_straight_wire_comes_to_rest(pitch_diameter, pitch, starts, flanks, share):
    """Independent of the solver: the wire is lowered onto both flanks (numpy, scipy)."""
    wire, lead = share * wire_choice.best_wire(pitch, flanks), starts * pitch
    exact = wires.over_wires_exact(pitch_diameter, wire, pitch, lead, flanks)
    searched = resting_size(pitch_diameter, wire, pitch, lead, flanks)
    assert exact == pytest.approx(searched, abs=1e-8 * pitch_diameter)
    assert exact > wires.over_wires_simple(pitch_diameter, wire, pitch, flanks)


@pytest.mark.parametrize(("starts", "higher"), [(1, 0.0006), (2, 0.00115), (4, 0.0021)])
def test_over_a_flank_that_does_not_lean_a_wire_lies_a_little_higher(starts, higher):
    """It cannot follow the helix there, at lead angles of 2.7, 5.5 and 10.8 degrees; a degree is enough."""
    for flanks, more in ((ONE_SIDED, higher), (Flanks(math.radians(1), math.radians(45)), 0.0)):
        args = 40.0, wire_choice.best_wire(6.0, flanks), 6.0, 6.0 * starts, flanks
        assert wires.follows(args[0], args[1], args[3], flanks) is (more == 0)
        assert resting_size(*args) - wires.over_wires_exact(*args) == pytest.approx(more * 6.0, abs=4e-4)


@pytest.mark.parametrize("flanks", [A60, A30, A29, BUTTRESS, SAWTOOTH, ONE_SIDED])
def test_exact_form_meets_the_others_as_the_lead_angle_vanishes(flanks):
    pitch, wire = 0.125, wire_choice.best_wire(0.125, flanks)
    for diameter, near in ((2.1664, 3e-5), (20.0, 1e-6)):
        exact = wires.over_wires_exact(diameter, wire, pitch, pitch, flanks)
        assert exact == pytest.approx(
            wires.over_wires_with_lead(diameter, wire, pitch, pitch, flanks), abs=near
        )
    assert exact == pytest.approx(wires.over_wires_simple(20.0, wire, pitch, flanks), abs=3e-6)


@pytest.mark.parametrize("flanks", [A60, A30])
def test_lead_correction_is_the_printed_term_to_first_order(flanks):
    """(W/2) tan² B cos A cot A (Machinery's Handbook, 31st ed., p. 2127; the German rake correction)."""
    tangent = 0.25 / (math.pi * 0.8)
    printed = 0.0722 / 2 * tangent**2 * math.cos(flanks.load) / math.tan(flanks.load)
    assert wires.lead_correction(0.8, 0.0722, 0.25, flanks) == pytest.approx(printed, rel=0.01)


def test_lead_angle_form_is_the_printed_one():
    """M = E + W [1 + (cosec² A + cot² A tan² B)^½] − (P/2) cot A (NBS H28; Machinery's Handbook, p. 2127)."""
    a, tangent = A29.load, 0.5 / (math.pi * 1.3)
    reach = math.sqrt(1 / math.sin(a) ** 2 + (tangent / math.tan(a)) ** 2)
    printed = 1.3 + 0.13 * (1 + reach) - 0.125 / math.tan(a)
    assert wires.over_wires_with_lead(1.3, 0.13, 0.25, 0.5, A29) == pytest.approx(printed, abs=1e-12)


def test_lead_form_lies_above_the_exact_one_by_what_grows_with_the_angle():
    """The lead-angle form is known to be high above 5 degrees, the more the larger the angle."""
    errors = []
    for starts in (1, 2, 3):
        args = 14.0, wire_choice.best_wire(3.0, A30), 3.0, 3.0 * starts, A30
        errors.append(wires.over_wires_with_lead(*args) - wires.over_wires_exact(*args))
    assert 0 < errors[0] < errors[1] < errors[2] < 0.03 * 3


@pytest.mark.parametrize(
    ("diameter", "pitch", "lead", "form"),
    [
        (2.1664 * inch, inch / 8, inch / 8, Form.SIMPLE),
        (8.994 * mm, 1.5 * mm, 1.5 * mm, Form.SIMPLE),
        (12.0 * mm, 1.5 * mm, 3.0 * mm, Form.LEAD),
        (14.0 * mm, 1.5 * mm, 4.5 * mm, Form.EXACT),
    ],
)
@pytest.mark.parametrize("flanks", [A60, BUTTRESS])
def test_form_chosen_and_its_inverse(diameter, pitch, lead, form, flanks):
    """Simple up to a term of 0.00015 in, with lead up to 5 degrees, exact above; each inverted exactly."""
    wire = wire_choice.best_wire(pitch, flanks)
    used = wires.form_of(diameter, wire, lead, flanks)
    forms = {
        Form.SIMPLE: wires.over_wires_simple(diameter, wire, pitch, flanks),
        Form.LEAD: wires.over_wires_with_lead(diameter, wire, pitch, lead, flanks),
        Form.EXACT: wires.over_wires_exact(diameter, wire, pitch, lead, flanks),
    }
    over = wires.over_wires(diameter, wire, pitch, lead, flanks)
    assert over == forms[used]
    if flanks is A60:
        assert used is form
    back = wires.pitch_diameter_from_wires(over, wire, pitch, lead, flanks)
    assert back == pytest.approx(diameter, abs=1e-10)


def touching(flanks, wire, pitch=1.0):
    """Heights over the pitch line where a circle touches the flanks, and of its center, by coordinates."""
    lines = []  # the groove's flanks as lines z = a + b y about its middle, y outwards
    for side, angle in ((1, flanks.load), (-1, flanks.clearance)):
        lines.append((side * pitch / 4, side * math.tan(angle), side, angle))
    (a1, b1, _, one), (a2, b2, _, two) = lines
    # wire / 2 off both: a1 + b1 y − z = r / cos one;  z − a2 − b2 y = r / cos two
    y = (wire / 2 * (1 / math.cos(one) + 1 / math.cos(two)) - (a1 - a2)) / (b1 - b2)
    return [y - wire / 2 * math.sin(angle) for angle in (one, two)], y


@pytest.mark.parametrize("flanks", [A60, A30, A29, BUTTRESS, SAWTOOTH, ONE_SIDED])
def test_usable_wires_by_geometry(flanks):
    """The smallest is level with the crest, or on the root; the largest touches at the crest's edge."""
    crest = 0.3
    smallest, largest = wire_choice.usable_wires(1.0, flanks, crest)
    assert touching(flanks, smallest)[1] + smallest / 2 == pytest.approx(crest)
    assert max(touching(flanks, largest)[0]) == pytest.approx(crest)
    shallow, _ = wire_choice.usable_wires(1.0, flanks, crest, root=0.0)
    assert shallow > smallest
    assert touching(flanks, shallow)[1] - shallow / 2 == pytest.approx(0.0, abs=1e-12)
    _, rounded = wire_choice.usable_wires(1.0, flanks, crest, crest_radius=0.1)
    least = min(flanks.load, flanks.clearance)
    assert max(touching(flanks, rounded)[0]) == pytest.approx(crest - 0.1 * (1 - math.sin(least)))


def test_best_wire_touches_near_the_pitch_line_on_both_flanks():
    """Exactly there where they lean alike; between the two wires that touch one of them there, if not."""
    assert touching(A60, wire_choice.best_wire(1.0, A60))[0] == pytest.approx([0, 0], abs=1e-12)
    for flanks in (BUTTRESS, SAWTOOTH, ONE_SIDED):
        load, clearance = touching(flanks, wire_choice.best_wire(1.0, flanks))[0]
        assert clearance < 0 < load
        turned = Flanks(flanks.clearance, flanks.load)
        assert wire_choice.best_wire(1.0, turned) == wire_choice.best_wire(1.0, flanks)


@pytest.mark.parametrize("flanks", [BUTTRESS, SAWTOOTH])
def test_which_flank_carries_the_load_is_nothing_to_a_wire(flanks):
    turned = Flanks(flanks.clearance, flanks.load)
    for lead in (3.0, 9.0):
        args = 14.0, 1.6, 3.0, lead
        assert wires.over_wires_exact(*args, turned) == pytest.approx(wires.over_wires_exact(*args, flanks))
        assert wires.over_wires(*args, turned) == pytest.approx(wires.over_wires(*args, flanks))


def test_choice_is_the_nearest_usable_wire_of_the_set():
    """The set printed with a textbook example of the three-wire method; 7/16-14 takes 0.040 (best 0.0412)."""
    own = [0.018, 0.024, 0.029, 0.032, 0.040, 0.045, 0.055, 0.063, 0.072, 0.081, 0.092, 0.108, 0.120]
    best, usable = wire_choice.best_wire(1 / 14, A60), wire_choice.usable_wires(1 / 14, A60)
    assert wire_choice.choose_wire(best, own, usable) == 0.040
    assert wire_choice.choose_wire(best, [0.018, 0.120], usable) is None
    assert wire_choice.choose_wire(best, [], usable) is None


def test_two_wires_and_one():
    """By coordinates: wire centers half a pitch apart along the axis; the crest opposite a single wire."""
    over, wire, pitch = 2.2747, 0.0722, 0.125
    apart = math.dist((0.0, (over - wire) / 2), (pitch / 2, -(over - wire) / 2))
    assert wires_few.over_two_wires(over, wire, pitch, 1) == pytest.approx(apart + wire)
    assert wires_few.over_two_wires(over, wire, pitch, 3) == pytest.approx(apart + wire)
    assert wires_few.over_two_wires(over, wire, pitch, 2) == over
    assert wires_few.over_one_wire(over, 2.2440) == pytest.approx(over / 2 + 2.2440 / 2)
    with pytest.raises(OutsideRange):
        wires_few.over_two_wires(0.05, 0.0722, 0.125, 1)


@pytest.mark.parametrize("flanks", [A60, Flanks.alike(math.radians(27.5)), BUTTRESS])
def test_three_wires_on_a_taper_by_coordinates(flanks):
    """Distance from the single wire's center to the line through the two others, which follows the taper."""
    taper, pitch, diameter = 1 / 16, 1 / 14, 0.77843
    wire = wire_choice.best_wire(pitch, flanks)

    def center(along, side):
        local = diameter + taper * along
        return np.array([along, side * (local - pitch / flanks.tangents + wire * flanks.seat) / 2])

    single, one, two = center(0.0, 1), center(-pitch / 2, -1), center(pitch / 2, -1)
    chord = (two - one) / np.linalg.norm(two - one)
    across = abs(chord[0] * (single - one)[1] - chord[1] * (single - one)[0]) + wire
    over = wires_few.over_wires_taper(diameter, wire, pitch, flanks, taper)
    assert over == pytest.approx(across, abs=1e-12)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
@pytest.mark.parametrize("place", range(4))
def test_what_cannot_be_measured_is_refused(bad, place):
    sizes = [2.1664 * inch, 0.0722 * inch, inch / 8, inch / 8]
    sizes[place] = bad
    with pytest.raises(OutsideRange):
        wires.over_wires_exact(*sizes, A60)
    with pytest.raises(OutsideRange):
        wires.over_wires_exact(*[size if size == bad else 1.0 for size in sizes], Flanks(0.0, 0.0))


def test_a_wire_that_cannot_seat_and_a_size_that_cannot_be():
    with pytest.raises(OutsideRange):
        wires.pitch_diameter_from_wires(0.01 * inch, 0.0722 * inch, inch / 8, inch / 8, A60)
    with pytest.raises(OutsideRange):
        wires.over_wires(0.0, 0.0722 * inch, inch / 8, inch / 8, A60)
    with pytest.raises(OutsideRange, match="diameter of wire"):
        wires.over_wires_exact(0.1, 1e-3, 1.0, 3.0, A60)


@pytest.mark.parametrize("flanks", [A60, A29, BUTTRESS, SAWTOOTH])
def test_exact_form_solves_over_the_whole_field_of_use(flanks):
    """One to six starts, coarse to fine, small to large usable wire: always a size near the lead form."""
    for starts in range(1, 7):
        for ratio in (0.05, 0.1, 0.2):
            low, high = wire_choice.usable_wires(ratio, flanks, 0.3)
            for wire in (1.05 * low, (low + high) / 2, 0.95 * high):
                args = 1.0, wire, ratio, starts * ratio, flanks
                difference = wires.over_wires_exact(*args) - wires.over_wires_with_lead(*args)
                assert abs(difference) < 0.1 * ratio * starts
