"""Work run out of the chuck: every stick-out against a beam of its own."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.modes import frequencies
from generator.calc.run_out import run_out
from generator.errors import OutsideRange

E, RHO = 205e9, 7850.0
FROM_END = [
    Segment(0.0, 0.050, 0.030),
    Segment(0.050, 0.120, 0.040, 0.010, 0.055),
    Segment(0.120, 0.300, 0.060, 0.020),
]


def beam_of(out, stiffness):
    """The same work as a beam from the jaws, for one stick-out."""
    pieces = []
    for one in [*FROM_END[:2], Segment(0.120, 9.0, 0.060, 0.020)]:
        if one.start >= out:
            break
        end = min(one.end, out)
        od_end = one.od if one.od_end is None else one.od_end
        cut = one.od + (od_end - one.od) * (end - one.start) / (one.end - one.start)
        pieces.append(Segment(out - end, out - one.start, cut, one.bore, one.od))
    return Beam(tuple(reversed(pieces)), (Support(0.0, math.inf, stiffness),), E, RHO)


@pytest.mark.parametrize("stiffness", [math.inf, 1e5, 5e3])
@pytest.mark.parametrize("tool", [0.0, 0.035, 0.090])
def test_deflection_is_that_of_the_beam_at_every_stick_out(stiffness, tool):
    found = run_out(FROM_END, E, RHO, stiffness, tool, 0.500)
    for out in (0.110, 0.150, 0.300, 0.420, 0.500):
        push, tilt, _ = beam_of(out, stiffness).moved([out - tool], [out - tool])
        assert float(np.interp(out, found.out, found.push)) == pytest.approx(float(push[0, 0]), rel=2e-4)
        assert float(np.interp(out, found.out, found.tilt)) == pytest.approx(float(tilt[0, 0]), rel=2e-4)


@pytest.mark.parametrize("stiffness", [math.inf, 1e5])
def test_the_frequency_is_a_close_lower_bound(stiffness):
    found = run_out(FROM_END, E, RHO, stiffness, 0.0, 0.500)
    for out in (0.080, 0.200, 0.350, 0.500):
        true = frequencies(beam_of(out, stiffness), 1)[0]
        bound = float(np.interp(out, found.out, found.whirl))
        assert 0.93 * true < bound < true * 1.0005


def test_a_plain_round_in_a_clamp_is_dunkerleys_of_print():
    """ω² = 12 E I ÷ μ L⁴, where Thomson's exact one is 3.516² = 12.36."""
    length, od = 0.3, 0.05
    found = run_out([Segment(0.0, length, od)], E, RHO, math.inf, 0.0, length)
    stiff = E * math.pi / 64 * od**4 / (RHO * math.pi / 4 * od**2)
    assert found.whirl[-1] == pytest.approx(math.sqrt(12 * stiff) / length**2 / (2 * math.pi), rel=1e-5)


@pytest.mark.parametrize(
    ("stiffness", "tool", "longest"),
    [(0.0, 0.0, 0.5), (1e5, 0.5, 0.5), (1e5, -0.1, 0.5), (math.nan, 0.0, 0.5)],
)
def test_what_cannot_be_is_refused(stiffness, tool, longest):
    with pytest.raises(OutsideRange):
        run_out(FROM_END, E, RHO, stiffness, tool, longest)
