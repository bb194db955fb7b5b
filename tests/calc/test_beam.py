"""Beam elements: statics hold, refinement changes nothing, and an independent frame program agrees."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.sections import second_moment, section_area
from generator.errors import OutsideRange

E, RHO = 205e9, 7850.0
SHAFT = (
    Segment(0.0, 0.300, 0.1016, 0.0635),
    Segment(0.300, 0.500, 0.0900, 0.0635),
    Segment(0.500, 0.800, 0.08255, 0.0500),
)
SUPPORTS = {
    "clamped": (Support(0.0, math.inf, math.inf),),
    "soft chuck": (Support(0.0, math.inf, 1e5),),
    "soft chuck and steady": (Support(0.0, math.inf, 1e5), Support(0.600, 20e6)),
    "rigid steady": (Support(0.0, math.inf, math.inf), Support(0.600)),
    "chuck, steady, center": (Support(0.0, math.inf, 1e5), Support(0.450, 20e6), Support(0.800)),
}


def by_frame_program(supports, load, at, where):
    """The same work in PyNite, a general-purpose structural library: deflections (m) at `where`."""
    from Pynite import FEModel3D  # here, since it is slow to import and only this check needs it

    model = FEModel3D()
    model.add_material("steel", E, E / 2.6, 0.3, RHO)
    places = sorted({0.0, 0.300, 0.500, 0.800, at, *where, *(support.at for support in supports)})
    for number, x in enumerate(places):
        model.add_node(f"N{number}", x, 0, 0)
    for number, (start, end) in enumerate(pairwise(places)):
        segment = next(one for one in SHAFT if (start + end) / 2 <= one.end)
        moment, area = second_moment(segment.od, segment.bore), section_area(segment.od, segment.bore)
        model.add_section(f"S{number}", area, moment, moment, 2 * moment)
        model.add_member(f"M{number}", f"N{number}", f"N{number + 1}", "steel", f"S{number}")
    for number in range(len(places)):
        model.def_support(f"N{number}", False, False, True, True, True, False)
    for support in supports:
        node = f"N{places.index(support.at)}"
        rigid, clamped = math.isinf(support.stiffness), math.isinf(support.angular)
        model.def_support(node, support.at == 0.0, rigid, True, True, True, clamped)
        if not rigid:
            model.def_support_spring(node, "DY", support.stiffness)
        if support.angular and not clamped:
            model.def_support_spring(node, "RZ", support.angular)
    model.add_node_load(f"N{places.index(at)}", "FY", load)
    model.analyze_linear(log=False)
    return [next(iter(model.nodes[f"N{places.index(x)}"].DY.values())) for x in where]


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", SUPPORTS)
@pytest.mark.parametrize("at", [0.250, 0.700, 0.800])
def test_an_independent_frame_program_agrees(name, at):
    supports = SUPPORTS[name]
    where = [0.200, 0.550, 0.700]
    ours = Beam(SHAFT, supports, E, RHO).deflections(1500.0, at, where)
    theirs = by_frame_program(supports, 1500.0, at, where)
    assert ours == pytest.approx(theirs, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize("name", SUPPORTS)
def test_reactions_add_up_to_the_load_where_all_push_across(name):
    supports = SUPPORTS[name]
    assert sum(Beam(SHAFT, supports, E).reactions(1500.0, 0.700)) == pytest.approx(1500.0, rel=1e-9)


@pytest.mark.parametrize("name", SUPPORTS)
def test_supports_carry_the_whole_weight(name):
    volume = sum(section_area(one.od, one.bore) * (one.end - one.start) for one in SHAFT)
    assert sum(Beam(SHAFT, SUPPORTS[name], E, RHO).carried(9.80665)) == pytest.approx(volume * RHO * 9.80665)


@pytest.mark.parametrize("name", SUPPORTS)
def test_stiffness_is_symmetric_and_gives_nothing_for_a_push_of_the_whole(name):
    beam = Beam(SHAFT, SUPPORTS[name], E, RHO)
    elements = beam.on_supports(8).elements
    matrix = elements.stiffness()
    assert np.allclose(matrix, matrix.T, rtol=1e-12)
    across, tilted = np.zeros(elements.dofs), np.ones(elements.dofs)
    across[::2], tilted[::2] = 1.0, elements.nodes
    for whole in (across, tilted):
        assert np.allclose(matrix @ whole / matrix.max(), 0.0, atol=1e-12)


@pytest.mark.parametrize("name", SUPPORTS)
def test_more_stations_change_nothing(name):
    beam = Beam(SHAFT, SUPPORTS[name], E, RHO)
    once = beam.deflections(1000.0, 0.700, [0.700])[0]
    more = beam.deflections(1000.0, 0.700, [0.700, *np.linspace(0.01, 0.79, 25)])[0]
    assert more == pytest.approx(once, rel=1e-6)
    assert beam.first_frequency(80) == pytest.approx(beam.first_frequency(40), rel=1e-3)


def test_reading_and_load_may_change_places():
    """Maxwell: the deflection at A from a load at B is that at B from a load at A."""
    beam = Beam(SHAFT, SUPPORTS["chuck, steady, center"], E)
    assert beam.deflections(1.0, 0.25, [0.7])[0] == pytest.approx(
        beam.deflections(1.0, 0.7, [0.25])[0], rel=1e-9
    )


def test_the_tool_walking_along_the_work_is_each_load_by_itself():
    beam = Beam(SHAFT, SUPPORTS["chuck, steady, center"], E)
    places = [0.1, 0.45, 0.62, 0.78]
    alone = [beam.deflections(200.0, x, [x])[0] for x in places]
    assert beam.under_tool(200.0, places) == pytest.approx(alone, rel=1e-9, abs=1e-15)


def test_frequency_of_work_past_a_steady_rest_agrees_with_the_continuous_beam():
    """Clamped, rigid steady at s: root of the continuous equation's boundary determinant, by scipy alone."""
    from scipy.optimize import brentq

    length, steady, od = 1.0, 0.7, 0.060

    def determinant(k: float) -> float:
        def row(x: float, derivative: int) -> list[float]:
            a = k * x
            cosine, sine, cosh, sinh = math.cos(a), math.sin(a), math.cosh(a), math.sinh(a)
            table = [
                [cosine, sine, cosh, sinh],
                [-sine, cosine, sinh, cosh],
                [-cosine, -sine, cosh, sinh],
                [sine, -cosine, sinh, cosh],
            ]
            return table[derivative]

        none = [0.0] * 4
        s, over = steady, length - steady
        matrix = [
            row(0, 0) + none,
            row(0, 1) + none,
            row(s, 0) + none,
            none + row(0, 0),
            [*row(s, 1), *(-value for value in row(0, 1))],
            [*row(s, 2), *(-value for value in row(0, 2))],
            none + row(over, 2),
            none + row(over, 3),
        ]
        return float(np.linalg.det(np.array(matrix)))

    grid = np.linspace(1.0, 6.0, 400)
    low, high = next(
        (a, b) for a, b in pairwise(grid) if determinant(a) * determinant(b) < 0
    )
    k = brentq(determinant, low, high)
    expected = (
        (k * length) ** 2
        / (2 * math.pi)
        * math.sqrt(E * second_moment(od) / (RHO * section_area(od) * length**4))
    )
    beam = Beam((Segment(0, length, od),), (Support(0, math.inf, math.inf), Support(steady)), E, RHO)
    assert beam.first_frequency() == pytest.approx(expected, rel=1e-4)


def test_work_that_nothing_holds_is_refused():
    with pytest.raises(OutsideRange, match="held"):
        Beam(SHAFT, (Support(0.3),), E)


def test_a_support_off_the_work_is_refused():
    with pytest.raises(OutsideRange, match="place of a support"):
        Beam(SHAFT, (Support(0.9),), E)


def test_segments_with_a_gap_are_refused():
    with pytest.raises(OutsideRange, match="start of a segment"):
        Beam((Segment(0, 0.1, 0.05), Segment(0.2, 0.3, 0.05)), (Support(0),), E)


@pytest.mark.parametrize("supports", ["clamped", "soft chuck", "chuck, steady, center"])
def test_frequency_agrees_with_the_deflected_shape_from_above(supports):
    """Rayleigh (Thomson, Theory of Vibration): √(g Σ m y ÷ Σ m y²) of the sag lies just above."""
    beam = Beam(SHAFT, SUPPORTS[supports], E, RHO)
    x = np.linspace(0.0005, 0.7995, 400)
    sag = beam.sag(list(x), 9.80665)
    here = [next(one for one in SHAFT if place <= one.end) for place in x]
    mass = np.array([section_area(one.od, one.bore) for one in here])
    rayleigh = math.sqrt(9.80665 * (mass * abs(sag)).sum() / (mass * sag**2).sum()) / (2 * math.pi)
    assert beam.first_frequency() <= rayleigh * (1 + 5e-4)  # 400 slices
    assert beam.first_frequency() == pytest.approx(rayleigh, rel=0.05)
