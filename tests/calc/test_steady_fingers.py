"""Fingers of a steady rest: statics of print, and an independent optimiser over random loads."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import linprog

from generator.calc.steady_fingers import SPREAD, finger_forces
from generator.errors import OutsideRange


@pytest.mark.parametrize(("degrees", "each"), [(60, 1.0), (45, 0.707), (30, 0.577)])
def test_a_weight_on_two_fingers_is_statics(degrees, each):
    """N = W ÷ (2 cos φ) on each of the two below, nothing on the one above."""
    front, rear, top = finger_forces(0.0, -1.0, spread=math.radians(degrees))
    assert front == pytest.approx(each, abs=5e-4)
    assert rear == pytest.approx(front)
    assert top == 0.0


@pytest.mark.parametrize("lower", [1, 2])
@pytest.mark.parametrize("spread", [SPREAD, 0.6, 1.2])
def test_an_optimiser_that_knows_nothing_of_fingers_agrees(lower, spread):
    """scipy's linear programme: least sum of forces that only push and balance the load."""
    random = np.random.default_rng(7)
    down = -1 if lower == 2 else 1
    where = [math.pi / 2 * down - spread, math.pi / 2 * down + spread, -math.pi / 2 * down]  # rear is 0
    directions = np.array([[math.cos(a) for a in where], [math.sin(a) for a in where]])
    if directions[0, 0] > 0:  # front first
        directions = directions[:, [1, 0, 2]]
    for load in random.normal(size=(40, 2)) * 1000:
        best = linprog(np.ones(3), A_eq=directions, b_eq=load, bounds=(0, None))
        assert finger_forces(*load, lower=lower, spread=spread) == pytest.approx(best.x, abs=1e-6)


def test_fingers_only_push_and_one_is_free():
    load = np.random.default_rng(3).normal(size=(2, 500))
    forces = finger_forces(*load)
    assert (forces >= 0).all()
    assert ((forces == 0).sum(axis=0) >= 1).all()


def test_a_cut_from_the_front_goes_to_the_finger_above_and_the_one_behind():
    """Tool at the front: the work is lifted and pushed to the rear (a lathe operator's manual)."""
    front, rear, top = finger_forces(300.0, 500.0)
    assert front == 0.0
    assert rear == pytest.approx(300 / math.sin(math.pi / 3))
    assert top == pytest.approx(500 + rear * 0.5)


@pytest.mark.parametrize("spread", [0.0, math.pi / 2, -1.0])
def test_fingers_that_do_not_hold_the_work_are_refused(spread):
    with pytest.raises(OutsideRange, match="spread of the fingers"):
        finger_forces(0.0, -1.0, spread=spread)
