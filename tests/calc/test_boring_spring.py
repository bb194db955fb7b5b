"""Spring passes of a bar that gives way."""

from __future__ import annotations

import math
import random

import pytest

from generator.calc.boring_spring import left_after, spring_passes
from generator.errors import OutsideRange


def test_pass_by_pass_against_the_balance_of_spring_and_cut():
    """Each pass by itself: what it cuts plus what it springs is what stood before it; force in proportion."""
    tell = random.Random(3)
    for _ in range(200):
        spring, cut = tell.uniform(0.001, 1), tell.uniform(0.01, 1)
        stiff = cut / spring  # cut over spring, of any pass
        before = spring
        for passes in range(1, 6):
            taken = before * stiff / (1 + stiff)
            before -= taken
            assert left_after(spring, cut, passes) == pytest.approx(before)


def test_the_count_is_the_least_that_does_it():
    tell = random.Random(4)
    for _ in range(200):
        spring, cut, allowed = tell.uniform(0.001, 1), tell.uniform(0.01, 1), tell.uniform(0.0001, 0.5)
        count = spring_passes(spring, cut, allowed)
        assert left_after(spring, cut, count) <= allowed * (1 + 1e-6)
        assert count == 0 or left_after(spring, cut, count - 1) > allowed * (1 - 1e-6)
    assert not math.isnan(spring_passes(1e-9, 1.0, 1.0))


@pytest.mark.parametrize(("cut", "allowed"), [(0.0, 0.1), (1.0, 0.0)])
def test_nothing_is_refused(cut, allowed):
    with pytest.raises(OutsideRange):
        spring_passes(1.0, cut, allowed)
