"""How a form of groove is cut: along which flank, and how a coarse one is roughed."""

from __future__ import annotations

import math
import random

import pytest

from generator.calc.flanks import Flanks
from generator.calc.infeed_strategy import COARSE, LEFT, house_angle, roughing, straight_in

SIXTY, FIFTY_FIVE = (Flanks.alike(math.radians(half)) for half in (30, 27.5))
ACME, SQUARE = Flanks.alike(math.radians(14.5)), Flanks(0.0, 0.0)
SAW, BUTTRESS = Flanks(math.radians(3), math.radians(30)), Flanks(math.radians(7), math.radians(45))


def test_square_and_fine_threads_go_straight_in():
    """US Navy training manual 14345 on the compound: threads of fine lead straight in."""
    assert straight_in(6e-3, SQUARE)
    assert straight_in(0.5e-3, SIXTY)
    assert not straight_in(25.4e-3 / 20, SIXTY)


def test_a_shop_that_sets_29_takes_a_degree_off_every_form():
    """Printed: 29 or 29 1/2 for 60 degrees (Jones 1914: 30), 14 1/2 at most for Acme; arithmetic."""
    for flanks, wanted in ((SIXTY, 29.0), (FIFTY_FIVE, 26.5), (ACME, 13.5), (SQUARE, 0.0), (BUTTRESS, 44.0)):
        assert math.degrees(house_angle(math.radians(29), flanks)) == pytest.approx(wanted)


def test_what_is_not_roughed_with_a_slot():
    assert roughing(6e-3, SIXTY, 4e-3, 1e-3) is None
    assert roughing(6e-3, BUTTRESS, 4e-3, 1e-3) is None
    assert roughing(3e-3, ACME, 1.7e-3, 1e-3) is None
    assert roughing(4e-3, ACME, 2.3e-3, 0.5e-3) is None, "the floor is too narrow for a slot"
    assert roughing(8e-3, SAW, 7e-3, 1.05e-3) is None, "the blade would be too slender"


def test_roughing_stays_inside_the_finished_groove():
    """The slot leaves its stock on floor and flanks, plunges overlap and fill it, side steps do the rest."""
    tell = random.Random(7)
    for _ in range(300):
        flanks = tell.choice((ACME, SQUARE))
        pitch = tell.uniform(COARSE, 24e-3)
        depth, bottom = 0.5 * pitch + 0.25e-3, (0.36 if flanks.included else 0.5) * pitch
        found = roughing(pitch, flanks, depth, bottom)
        assert found is not None
        slot = found.width + (found.plunges - 1) * found.shift
        assert slot == pytest.approx(bottom - 2 * LEFT)
        assert found.depth == pytest.approx(depth - LEFT)
        assert found.plunges == 1 or 0 < found.shift <= 0.7501 * found.width
        top = bottom + depth * flanks.tangents
        assert found.side_steps * found.step >= (top - slot) / 2 > (found.side_steps - 1) * found.step
