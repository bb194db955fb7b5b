"""From start to start: dial, teeth, and what errors come to."""

from __future__ import annotations

import math
import random
from fractions import Fraction

import pytest

from generator.calc.dials import Dial
from generator.calc.starts import axial_error, compound_places, slant_error, teeth_between
from generator.errors import OutsideRange


@pytest.mark.parametrize(
    ("teeth", "starts", "between"),
    [(96, 2, 48), (96, 3, 32), (96, 4, 24), (40, 2, 20), (40, 3, None), (120, 5, 24), (127, 2, None)],
)
def test_teeth_of_the_stud_gear(teeth, starts, between):
    """Jones, Turning and Boring (1914): a stud gear of 96 teeth, divisible by two for a double thread, by
    three for a triple one. A US Navy manual: 20 teeth of a spindle gear of 40 for two starts."""
    assert teeth_between(teeth, starts) == between


def test_the_ratio_of_stud_to_spindle_counts():
    """Jones: "If the stud is not geared to the spindle so that each makes the same number of revolutions, the
    ratio of the gearing must be considered": at half the turns, half the teeth."""
    assert teeth_between(96, 2, Fraction(1, 2)) == 24
    assert teeth_between(42, 2, Fraction(1, 2)) is None
    assert teeth_between(24, 3, Fraction(2)) == 16


def test_the_compound_for_two_starts_of_four_to_the_inch():
    """TM 1-420 (1940), p. 81: 8 to the inch, 1/4 in of lead: the compound moves 0.125 in, 125 divisions."""
    (place,) = compound_places(0.125, 2, Dial(0.001, 0.1, "radius"))
    assert (place.start, place.turns) == (2, 1)
    assert place.shown == pytest.approx(0.025)
    assert place.error == pytest.approx(0, abs=1e-12)


def test_what_the_dial_rounds_does_not_add_up():
    """Every start is rounded by itself: never more than half a graduation from its place."""
    tell = random.Random(11)
    for _ in range(300):
        dial = Dial(*tell.choice([(0.001, 0.125, "radius"), (0.02, 2.0, "radius"), (0.02, 4.0, "diameter")]))
        pitch, starts = tell.uniform(0.05, 12), tell.randint(2, 8)
        places = compound_places(pitch, starts, dial)
        assert [place.start for place in places] == list(range(2, starts + 1))
        for place in places:
            assert abs(place.error) <= dial.graduation / 2 * (1 + 1e-6)
            assert place.travel == pytest.approx((place.turns * dial.turn + place.shown) / dial.per_travel)
            assert place.travel - place.error == pytest.approx((place.start - 1) * pitch)


def test_an_arc_is_the_same_share_of_the_lead_as_of_the_circle():
    assert axial_error(18.0, 2 * math.pi * 50, 50) == pytest.approx(18.0)
    assert axial_error(18.0, 0.1, 200) == pytest.approx(axial_error(18.0, 0.1, 100) / 2)
    assert slant_error(9.0, math.radians(90)) == pytest.approx(9.0)


@pytest.mark.parametrize(
    "bad",
    [
        lambda: teeth_between(40, 1),
        lambda: compound_places(1, 1, Dial(1, 10, "radius")),
        lambda: compound_places(0, 2, Dial(1, 10, "radius")),
        lambda: axial_error(1, 1, 0),
    ],
)
def test_what_cannot_be_is_refused(bad):
    with pytest.raises(OutsideRange):
        bad()
