"""What supports carry, by statics, against the beam's own solution."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.carried import carried, own_weight
from generator.errors import OutsideRange

E = 205e9
SHAFT = (Segment(0.0, 0.3, 0.10, 0.06), Segment(0.3, 0.5, 0.09, 0.06, 0.07), Segment(0.5, 0.8, 0.07))


@pytest.mark.parametrize("center", [False, True])
@pytest.mark.parametrize("at", [0.2, 0.55, 0.8])
def test_the_beam_puts_as_much_on_headstock_and_center(center, at):
    held = (Support(0.0, math.inf, 1e5), Support(0.45, 20e6)) + ((Support(0.8),) if center else ())
    beam = Beam(SHAFT, held, E)
    reactions = beam.reactions(700.0, at)
    found = carried(
        700.0, at, others=[(0.45, reactions[1])], center_at=0.8 if center else None,
        head_moment=1e5 * beam.slopes(700.0, at, [0.0])[0],
    )
    assert found.head == pytest.approx(reactions[0], rel=1e-6, abs=1e-6)
    assert found.center == pytest.approx(reactions[2] if center else 0.0, rel=1e-6)
    assert found.moment == pytest.approx(1e5 * beam.slopes(700.0, at, [0.0])[0], rel=1e-6, abs=1e-6)


def test_a_moment_alone_is_carried_as_a_pair_of_forces():
    found = carried(np.zeros(3), np.array([0.1, 0.2, 0.3]), 60.0, center_at=0.6)
    assert found.center == pytest.approx([100.0] * 3)
    assert found.head == pytest.approx([-100.0] * 3)


def test_weight_and_its_moment_are_those_of_a_fine_sum():
    x = (np.arange(80000) + 0.5) * 1e-5
    od = np.interp(x, [0, 0.3, 0.3, 0.5, 0.5, 0.8], [0.10, 0.10, 0.09, 0.07, 0.07, 0.07])
    bore = np.where(x < 0.5, 0.06, 0.0)
    each = 7850 * 9.81 * math.pi / 4 * (od**2 - bore**2) * 1e-5
    assert own_weight(SHAFT, 7850, 9.81) == pytest.approx((each.sum(), (each * x).sum()), rel=1e-4)


def test_a_center_at_the_headstock_is_refused():
    with pytest.raises(OutsideRange, match="place of the center"):
        carried(1.0, 0.5, center_at=0.0)
