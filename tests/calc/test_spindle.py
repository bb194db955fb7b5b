"""Spindle steps and the carriage speed."""

from __future__ import annotations

import pytest

from generator.calc.spindle import carriage_speed, highest_step, neighbors

STEPS = [45, 70, 105, 160, 240, 360, 540, 800]


@pytest.mark.parametrize(("wanted", "step"), [(89.513, 70), (70, 70), (69.999, 45), (44, None), (5000, 800)])
def test_the_step_is_never_above(wanted, step):
    assert highest_step(STEPS, wanted) == step


def test_a_step_as_written_is_that_step_in_spite_of_float_dust():
    assert highest_step([32 / 60], 32 * (1 / 60) * (1 - 1e-12)) == 32 / 60


def test_neighbors_of_a_step_the_lathe_does_not_have():
    assert neighbors(STEPS, 85) == (70, 105)
    assert neighbors(STEPS, 105) == (105,)
    assert neighbors(STEPS, 10) == (45,)
    assert neighbors(STEPS, 1000) == (800,)
    assert neighbors([], 10) == ()


def test_carriage_moves_by_the_lead():
    """Lead 18 mm at 25 rev/min is 7.5 mm/s (arithmetic)."""
    assert carriage_speed(18, 25 / 60) == pytest.approx(7.5)
