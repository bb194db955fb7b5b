"""Compliance against the beam itself, solved anew with the further support or the load in question."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.compliance import compliance

E, RHO = 205e9, 7850.0
SHAFT = (
    Segment(0.0, 0.300, 0.1016, 0.0635), Segment(0.300, 0.302, 0.0700, 0.0635),
    Segment(0.302, 0.500, 0.0900, 0.0500, 0.0600), Segment(0.500, 0.800, 0.0500),
)
CHUCK = Support(0.0, math.inf, 1e5)
BEAMS = {
    "chuck": Beam(SHAFT, (CHUCK,), E, RHO),
    "chuck, center": Beam(SHAFT, (CHUCK, Support(0.8)), E, RHO),
    "soft all over": Beam(SHAFT, (Support(0.0, 5e7), Support(0.35, 2e7), Support(0.8, 1e8)), E, RHO),
    "short, with shear": Beam(SHAFT, (CHUCK, Support(0.8)), E, RHO, 0.3),
    "pushed": Beam(SHAFT, (CHUCK, Support(0.8)), E, RHO, None, 4e5),
}
PLACES = [0.05, 0.2, 0.300, 0.301, 0.45, 0.62, 0.75]

all_beams = pytest.mark.parametrize("beam", BEAMS.values(), ids=BEAMS)


@all_beams
def test_each_column_is_a_load_by_itself(beam):
    whole = compliance(beam, PLACES)
    for number, at in enumerate(PLACES):
        assert whole.push[:, number] == pytest.approx(beam.deflections(1.0, at, PLACES), rel=1e-9)
        assert whole.tilt[number, :] == pytest.approx(beam.slopes(1.0, at, PLACES), rel=1e-9)
    assert np.diag(whole.push) == pytest.approx(beam.under_tool(1.0, PLACES), rel=1e-9)


@all_beams
def test_push_and_turn_are_symmetric(beam):
    """Maxwell: what A does to B, B does to A."""
    whole = compliance(beam, PLACES)
    assert whole.push == pytest.approx(whole.push.T, rel=1e-8)
    assert whole.turn == pytest.approx(whole.turn.T, rel=1e-8)


@all_beams
@pytest.mark.parametrize("at", [0.2, 0.62])
def test_a_moment_is_two_forces_a_hair_apart(beam, at):
    near = 1e-4  # m
    if beam.poisson is not None:
        pytest.skip("shear between the two forces is not the section's tilt")
    pair = (
        beam.deflections(1.0, at + near, PLACES) - beam.deflections(1.0, at - near, PLACES)
    ) / (2 * near)
    whole = compliance(beam, PLACES)
    assert whole.tilt[:, PLACES.index(at)] == pytest.approx(pair, rel=2e-4, abs=1e-12)
    pair = (beam.slopes(1.0, at + near, PLACES) - beam.slopes(1.0, at - near, PLACES)) / (2 * near)
    assert whole.turn[:, PLACES.index(at)] == pytest.approx(pair, rel=2e-3, abs=1e-9)


@all_beams
def test_the_slope_is_how_the_deflection_grows(beam):
    if beam.poisson is not None:
        pytest.skip("with shear the slope is the section's tilt")
    near = 1e-5
    for x in (0.15, 0.55, 0.7):
        low, high = beam.deflections(1.0, 0.62, [x - near, x + near])
        assert beam.slopes(1.0, 0.62, [x])[0] == pytest.approx((high - low) / (2 * near), rel=1e-5)


@all_beams
@pytest.mark.parametrize("stiffness", [2e6, 5e7, math.inf])
@pytest.mark.parametrize("place", [1, 3, 5])
def test_a_further_support_is_that_of_a_beam_with_it(beam, stiffness, place):
    more = replace(beam, supports=(*beam.supports, Support(PLACES[place], stiffness)))
    ours, anew = compliance(beam, PLACES).supported(place, stiffness), compliance(more, PLACES)
    for one, other in ((ours.push, anew.push), (ours.tilt, anew.tilt), (ours.turn, anew.turn)):
        assert one == pytest.approx(other, rel=1e-3 if beam.push else 1e-6, abs=1e-9 * np.abs(other).max())


@all_beams
@pytest.mark.parametrize("stiffness", [2e7, math.inf])
def test_rests_tried_at_once_are_each_a_support(beam, stiffness):
    whole = compliance(beam, PLACES)
    tried = whole.rested(range(len(PLACES)), stiffness)
    for number in range(len(PLACES)):
        assert tried[:, number] == pytest.approx(whole.supported(number, stiffness).at_tool(), abs=1e-20)


@all_beams
def test_a_feed_force_beside_the_axis_bends_by_its_arm(beam):
    whole = compliance(beam, PLACES)
    assert whole.at_tool(0.02) == pytest.approx(np.diag(whole.push) + 0.02 * np.diag(whole.tilt))


def test_where_a_rigid_support_stands_a_further_one_changes_nothing():
    beam = BEAMS["chuck, center"]
    whole = compliance(beam, [0.3, 0.8])
    assert whole.push[1, 1] == 0.0
    for stiffness in (1e7, math.inf):
        assert whole.supported(1, stiffness).push == pytest.approx(whole.push)
        assert whole.rested([1], stiffness)[:, 0] == pytest.approx(whole.at_tool())
