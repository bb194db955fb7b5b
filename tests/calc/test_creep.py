"""Creeping out of the jaws: the bend against closed forms and a frame program, the slip turn by turn."""

from __future__ import annotations

import math

import numpy as np
import pytest
from Pynite import FEModel3D

from generator.calc.beam import Beam, Segment, Support
from generator.calc.creep import friction_moment, off_axis_limit, pressure_swing, steady_push
from generator.calc.grip import friction_arm, lift_moment
from generator.calc.sections import second_moment
from generator.errors import OutsideRange

E = 205e9


def test_a_clamped_bar_pushed_off_the_axis_bends_as_in_print():
    """Cantilever, load at its end (Roark, table 8.1, 1a): M = R a = 3 E I e ÷ a²."""
    a, e, inertia = 0.28, 0.2e-3, second_moment(0.05715, 0.02858)
    moment = steady_push(e, a**3 / (3 * E * inertia)) * a
    assert moment == pytest.approx(3 * E * inertia * e / a**2)


@pytest.mark.parametrize("chuck", [math.inf, 1e5, 2e4])
@pytest.mark.parametrize("center", [False, True])
def test_the_bend_in_a_chuck_that_gives_as_a_frame_program_has_it(chuck, center):
    """PyNite: the same stepped bar with the steady rest's node forced off the axis."""
    e, rest = 0.25e-3, 2e7
    steps = [(0.0, 0.2, 0.06), (0.2, 0.28, 0.05), (0.28, 0.5, 0.05)]
    supports = [Support(0.0, math.inf, chuck)] + ([Support(0.5)] if center else [])
    beam = Beam(tuple(Segment(*step) for step in steps), tuple(supports), E)
    push = steady_push(e, float(beam.under_tool(1.0, [0.28])[0]), rest)
    reactions = beam.reactions(push, 0.28)
    moment = push * 0.28 - (reactions[1] * 0.5 if center else 0.0)

    frame = FEModel3D()
    frame.add_material("steel", E, E / 2.6, 0.3, 7850)
    places = [0.0, 0.2, 0.28, 0.5]
    for number, x in enumerate(places):
        frame.add_node(f"N{number}", x, 0, 0)
    for number, (_, _, od) in enumerate(steps):
        inertia = second_moment(od)
        frame.add_section(f"S{number}", math.pi / 4 * od**2, inertia, inertia, 2 * inertia)
        frame.add_member(f"M{number}", f"N{number}", f"N{number + 1}", "steel", f"S{number}")
    frame.def_support("N0", True, True, True, True, True, math.isinf(chuck))
    if not math.isinf(chuck):
        frame.def_support_spring("N0", "RZ", chuck)
    if center:
        frame.def_support("N3", False, True, False, False, False, False)
    frame.add_node("rest", 0.28, -1.0, 0)
    frame.add_section("spring", rest / E, 1e-12, 1e-12, 1e-12)  # a strut 1 m long of the rest's stiffness
    frame.add_member("spring", "rest", "N2", "steel", "spring")
    frame.def_releases("spring", Ryj=True, Rzj=True)
    frame.def_support("rest", True, True, True, True, True, True)
    frame.def_node_disp("rest", "DY", e)
    frame.analyze(check_statics=False)
    found = frame.members["M0"].moment("Mz", 0.0, "Combo 1")
    assert abs(found) == pytest.approx(moment, rel=1e-3)


def test_beyond_the_limit_the_work_slips_every_turn_and_before_it_does_not():
    """Four jaws as dry sliders round the work, the bend turned past them: friction alone carries it.

    An axial slider of each jaw takes at most its share of the friction. The bend is put on as an axial
    movement r θ cos(angle) of the surface under each jaw, as the work rotates in its jaws.
    """
    grip, friction, jaws, diameter = 20e3, 0.1, 4, 0.06
    held = friction_moment(grip, friction, friction_arm(diameter, jaws))
    each = friction * grip / jaws
    angles = 2 * np.pi * np.arange(jaws) / jaws
    turns = np.linspace(0, 2 * np.pi, 721)
    carried = [
        sum(each * abs(math.cos(angle + turn)) * diameter / 2 for angle in angles) for turn in turns
    ]
    assert min(carried) == pytest.approx(held)
    moment_per_metre = 2e5
    limit = off_axis_limit(moment_per_metre * 1e-4, 1e-4, held)
    assert all(moment_per_metre * 0.999 * limit < one for one in carried)
    assert any(moment_per_metre * 1.001 * limit > one for one in carried)


def test_the_swing_is_whole_where_the_jaw_begins_to_lift():
    assert pressure_swing(lift_moment(15e3, 0.04), 15e3, 0.04) == pytest.approx(1.0)


@pytest.mark.parametrize(
    "call",
    [
        lambda: steady_push(-1e-3, 1e-6),
        lambda: steady_push(1e-3, 0.0),
        lambda: steady_push(1e-3, 1e-6, 0.0),
        lambda: friction_moment(1.0, -0.1, 1.0),
        lambda: off_axis_limit(0.0, 1e-3, 1.0),
        lambda: pressure_swing(1.0, 0.0, 1.0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
