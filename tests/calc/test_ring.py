"""A thin ring under points: print, and a plane frame of straight bars solved by an independent library.

Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7; Timoshenko, Strength of Materials II.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from generator.calc import ring, ring_forces
from generator.errors import OutsideRange
from generator.si import mm

STEEL = 205e9
BARS = 360


@pytest.mark.parametrize(
    ("n", "at_load", "midway", "together"),
    [
        (2, 0.074389, 0.068310, 0.142699),
        (3, 0.015939, 0.014257, 0.030195),
        (4, 0.006079, 0.005386, 0.011466),
        (6, 0.001682, 0.001480, 0.003162),
    ],
)
def test_shares_are_those_of_print(n, at_load, midway, together):
    assert ring.load_share(n) == pytest.approx(at_load, abs=5e-7)
    assert ring.midway_share(n) == pytest.approx(midway, abs=5e-7)
    assert ring.out_of_round_share(n) == pytest.approx(together, abs=5.1e-7)


def test_two_loads_are_the_ring_of_every_textbook():
    """Timoshenko: W R³ ÷ (E I) × (π ÷ 4 − 2 ÷ π) on the diameter under the loads, (2 ÷ π − ½) across."""
    assert 2 * ring.load_share(2) == pytest.approx(math.pi / 4 - 2 / math.pi, rel=1e-12)
    assert 2 * ring.midway_share(2) == pytest.approx(2 / math.pi - 0.5, rel=1e-12)
    assert ring_forces.moment_at_load(1.0, 1.0, 2) == pytest.approx(1 / math.pi, rel=1e-12)


@pytest.mark.parametrize(
    ("n", "force", "at_load", "midway"),
    [
        (3, 2000.0, 0.0382153, 0.0341829),
        (4, 1500.0, 0.0109321, 0.0096857),
        (6, 1000.0, 0.00201621, 0.00177405),
    ],
)
def test_deflections_of_a_steel_ring(n, force, at_load, midway):
    """Mean radius 40, wall 5, 25 long; worked from the table's formulas."""
    size = (force, 40 * mm, 5 * mm, 25 * mm, STEEL)
    assert ring.deflection(ring.load_share(n), *size) / mm == pytest.approx(at_load, rel=5e-6)
    assert ring.deflection(ring.midway_share(n), *size) / mm == pytest.approx(midway, rel=5e-6)


def test_stresses_of_the_same_ring():
    moment = ring_forces.moment_at_load(2000.0, 40 * mm, 3)
    assert moment * 1e3 == pytest.approx(15103.2, rel=5e-6)
    assert ring_forces.bending_stress(moment, 5 * mm, 25 * mm) / 1e6 == pytest.approx(144.990, abs=1e-3)
    assert ring_forces.hoop_stress(6000.0, 5 * mm, 25 * mm) / 1e6 == pytest.approx(7.63944, abs=1e-5)


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("n", [2, 3, 4, 6])
def test_a_frame_of_straight_bars_says_the_same(n):
    """Half a turn of the ring, cut at a load and at the plane of symmetry opposite it."""
    force, radius, wall, length = 1000.0, 50 * mm, 3 * mm, 20 * mm
    inward, moments, hoops = frame(n, force, radius, wall, length)
    there, midway = 0, BARS // (2 * n)
    size = (force, radius, wall, length, STEEL)
    assert inward[there] == pytest.approx(ring.deflection(ring.load_share(n), *size), rel=1e-3)
    assert -inward[midway] == pytest.approx(ring.deflection(ring.midway_share(n), *size), rel=1e-3)
    assert moments[there] == pytest.approx(ring_forces.moment_at_load(force, radius, n), rel=1e-3)
    assert moments[midway] == pytest.approx(ring_forces.moment_midway(force, radius, n), rel=5e-3)
    assert hoops[midway] == pytest.approx(ring_forces.hoop_midway(force, n), rel=1e-3)
    assert hoops[there] == pytest.approx(ring_forces.hoop_at_load(force, n), abs=0.01 * force)


def frame(n, force, radius, wall, length):
    """Inward movement at each joint, size of bending moment and of hoop force in the bar behind each.

    Half a turn from a load on; the bars hardly stretch, their area being made ten thousand times too large.
    """
    from Pynite import FEModel3D  # here, since it is slow to import and only this check needs it

    model = FEModel3D()
    model.add_material("steel", STEEL, STEEL / 2.6, 0.3, 7850.0)
    inertia = length * wall**3 / 12
    model.add_section("wall", length * wall * 1e4, inertia, inertia, inertia)
    angles = [2 * math.pi * place / BARS for place in range(BARS // 2 + 1)]
    for place, angle in enumerate(angles):
        name, on_axis = str(place), place in (0, BARS // 2)
        model.add_node(name, radius * math.cos(angle), radius * math.sin(angle), 0.0)
        model.def_support(name, place == 0, on_axis, True, True, True, on_axis)
        if place * n % BARS == 0:
            share = force / 2 if on_axis else force
            model.add_node_load(name, "FX", -share * math.cos(angle))
            model.add_node_load(name, "FY", -share * math.sin(angle))
    for one, two in pairwise(range(len(angles))):
        model.add_member(str(one), str(one), str(two), "steel", "wall")
    model.analyze_linear(log=False)
    inward = [
        -sum(next(iter(moved.values())) * part for moved, part in (
            (model.nodes[str(place)].DX, math.cos(angle)), (model.nodes[str(place)].DY, math.sin(angle))
        ))
        for place, angle in enumerate(angles)
    ]
    around = 2 * math.pi / n  # it was held at one load: all loads move equally
    shift = (inward[0] - inward[BARS // n]) / (1 - math.cos(around))
    inward = [one - shift * math.cos(angle) for one, angle in zip(inward, angles, strict=True)]
    bars = [model.members[str(place)] for place in range(BARS // 2)]
    return inward, [abs(bar.moment("Mz", 0.0)) for bar in bars], [abs(bar.axial(0.0)) for bar in bars]


def test_too_few_loads_are_refused():
    for share in (ring.load_share, ring.midway_share, ring.out_of_round_share):
        with pytest.raises(OutsideRange, match="one load is not balanced"):
            share(1)


@pytest.mark.parametrize("size", [(0.0, 1.0, 1.0), (1.0, 0.0, 1.0), (1.0, 1.0, -1.0)])
def test_sizes_that_are_none_are_refused(size):
    with pytest.raises(OutsideRange):
        ring.deflection(0.03, 1.0, *size, STEEL)
