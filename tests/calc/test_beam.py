"""Beam elements: statics hold, refinement changes nothing, tapers and extremes come out right.

Random setups stand beside an independent frame program in `test_beam_random`, closed forms of print in
`tests/published/test_beams`.
"""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad

from generator.calc.beam import Beam, Segment, Support
from generator.calc.modes import frequencies
from generator.calc.sections import second_moment, section_area
from generator.calc.slenderness import shear_coefficient
from generator.errors import OutsideRange

E, RHO = 205e9, 7850.0
SHAFT = (
    Segment(0.0, 0.300, 0.1016, 0.0635),
    Segment(0.300, 0.500, 0.0900, 0.0635),
    Segment(0.500, 0.800, 0.08255, 0.0500),
)
CHUCK = Support(0.0, math.inf, 1e5)
SUPPORTS = {
    "clamped": (Support(0.0, math.inf, math.inf),),
    "soft chuck": (Support(0.0, math.inf, 1e5),),
    "soft chuck and steady": (Support(0.0, math.inf, 1e5), Support(0.600, 20e6)),
    "rigid steady": (Support(0.0, math.inf, math.inf), Support(0.600)),
    "chuck, steady, center": (Support(0.0, math.inf, 1e5), Support(0.450, 20e6), Support(0.800)),
}


@pytest.mark.parametrize("name", SUPPORTS)
def test_reactions_add_up_to_the_load_where_all_push_across(name):
    supports = SUPPORTS[name]
    assert sum(Beam(SHAFT, supports, E).reactions(1500.0, 0.700)) == pytest.approx(1500.0, rel=1e-9)


def test_supports_in_one_place_share_what_one_would_carry():
    """Springs by their stiffness, rigid ones alike; a spring beside a rigid one carries nothing."""
    def carried(*at_steady):
        return Beam(SHAFT, (CHUCK, *(Support(0.6, k) for k in at_steady)), E, RHO).reactions(900.0, 0.7)[1:]

    assert carried(1e7, 2e7) == pytest.approx((carried(3e7)[0] / 3, carried(3e7)[0] * 2 / 3), rel=1e-9)
    alone = carried(math.inf)[0]
    assert carried(math.inf, math.inf) == pytest.approx((alone / 2, alone / 2), rel=1e-9)
    assert carried(math.inf, 1e7) == pytest.approx((alone, 0.0), rel=1e-9, abs=1e-9)


def test_a_moment_is_carried_as_two_forces_a_hair_apart_are():
    beam, near = Beam(SHAFT, SUPPORTS["chuck, steady, center"], E), 1e-4
    pair = beam.reactions_along(1.0, [0.7 + near]) - beam.reactions_along(1.0, [0.7 - near])
    assert beam.reactions_of_moment([0.7]) == pytest.approx(pair / (2 * near), rel=1e-5)
    assert beam.reactions_of_moment([0.7]).sum() == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("name", SUPPORTS)
def test_supports_carry_the_whole_weight(name):
    volume = sum(section_area(one.od, one.bore) * (one.end - one.start) for one in SHAFT)
    assert sum(Beam(SHAFT, SUPPORTS[name], E, RHO).carried(9.80665)) == pytest.approx(volume * RHO * 9.80665)


@pytest.mark.parametrize("name", SUPPORTS)
def test_stiffness_is_symmetric_and_gives_nothing_for_a_push_of_the_whole(name):
    beam = Beam(SHAFT, SUPPORTS[name], E, RHO)
    elements = beam.pushed(8).fine
    matrix = elements.stiffness()
    assert np.allclose(matrix, matrix.T, rtol=1e-12)
    across, tilted = np.zeros(elements.dofs), np.ones(elements.dofs)
    across[::2], tilted[::2] = 1.0, elements.nodes
    for whole in (across, tilted):
        assert np.allclose(matrix @ whole / matrix.max(), 0.0, atol=1e-12)


@pytest.mark.parametrize("name", SUPPORTS)
def test_more_places_change_nothing(name):
    beam = Beam(SHAFT, SUPPORTS[name], E, RHO)
    once = beam.deflections(1000.0, 0.700, [0.700])[0]
    more = beam.deflections(1000.0, 0.700, [0.700, *np.linspace(0.01, 0.79, 25)])[0]
    assert more == pytest.approx(once, rel=1e-10)


@pytest.mark.parametrize("name", SUPPORTS)
def test_segments_cut_in_many_change_nothing(name):
    """Statics is exact with any number of elements and pieces."""
    cut = [np.linspace(one.start, one.end, 12) for one in SHAFT]
    many = tuple(
        Segment(start, end, one.od, one.bore)
        for one, edges in zip(SHAFT, cut, strict=True) for start, end in pairwise(edges)
    )
    where = [0.2, 0.55, 0.8]
    whole, pieces = (Beam(segments, SUPPORTS[name], E, RHO) for segments in (SHAFT, many))
    assert pieces.deflections(1000.0, 0.700, where) == pytest.approx(
        whole.deflections(1000.0, 0.700, where), rel=1e-9
    )
    assert pieces.sag(where, 9.80665) == pytest.approx(whole.sag(where, 9.80665), rel=1e-9)


def test_reading_and_load_may_change_places():
    """Maxwell: the deflection at A from a load at B is that at B from a load at A."""
    beam = Beam(SHAFT, SUPPORTS["chuck, steady, center"], E)
    assert beam.deflections(1.0, 0.25, [0.7])[0] == pytest.approx(
        beam.deflections(1.0, 0.7, [0.25])[0], rel=1e-9
    )


def test_a_deflection_from_many_elements_is_that_from_one_a_span():
    """A push of next to nothing has the beam cut finely: the solution stays the same."""
    for supports in SUPPORTS.values():
        coarse, fine = (Beam(SHAFT, supports, E, RHO, push=push) for push in (0.0, 1e-6))
        for one, other in zip(
            coarse.moved([0.3, 0.61], [0.45, 0.61]), fine.moved([0.3, 0.61], [0.45, 0.61]), strict=True
        ):
            assert other == pytest.approx(one, rel=1e-7)
        assert fine.reactions(1500.0, 0.700) == pytest.approx(coarse.reactions(1500.0, 0.700), rel=1e-6)


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


# -- tapers --------------------------------------------------------------------------------------------------

TAPERS = {
    "slight": Segment(0.0, 0.300, 0.060, 0.020, 0.055),
    "steep": Segment(0.0, 0.300, 0.060, 0.020, 0.030),
    "growing": Segment(0.0, 0.300, 0.030, 0.0, 0.060),
    "to a point": Segment(0.0, 0.300, 0.060, 0.0, 0.003),
    "to a knife edge": Segment(0.0, 0.300, 0.060, 0.040, 0.0404),
}
CLAMPED = (Support(0.0, math.inf, math.inf),)


def section(taper, x):
    """Outside diameter and second moment of area at x."""
    od = taper.od + (taper.od_end - taper.od) * (x - taper.start) / (taper.end - taper.start)
    return od, second_moment(od, taper.bore)


def integral(what, low, high):
    """Along a taper, finely enough for a point."""
    edges = high - (high - low) * np.array([1.0, 0.5, 0.2, 0.05, 0.01, 0.0])
    return sum(quad(what, *ends, epsabs=0, epsrel=1e-12)[0] for ends in pairwise(edges))


@pytest.mark.parametrize("name", TAPERS)
def test_a_taper_bends_as_castigliano_has_it(name):
    """∂U/∂P = ∫ M ∂M/∂P dx ÷ E I: deflection at the end and half-way, slope at the end."""
    taper = TAPERS[name]
    length, beam = taper.end, Beam((taper,), CLAMPED, E, RHO)

    def moved(place):
        bending = [lambda x: (length - x) * (place - x), lambda x: length - x]
        return [integral(lambda x, m=m: m(x) / (E * section(taper, x)[1]), 0.0, place) for m in bending]

    expected = [moved(place) for place in (length / 2, length)]
    deflections, slopes = zip(*expected, strict=True)
    assert beam.deflections(1.0, length, [length / 2, length]) == pytest.approx(deflections, rel=1e-9)
    assert beam.slopes(1.0, length, [length / 2, length]) == pytest.approx(slopes, rel=1e-9)


@pytest.mark.parametrize("name", TAPERS)
def test_shear_of_a_taper_adds_its_integral(name):
    """∫ V ∂V/∂P dx ÷ κ G A."""
    taper = TAPERS[name]
    with_shear, without = (Beam((taper,), CLAMPED, E, RHO, poisson) for poisson in (0.3, None))

    def give(x):
        od, _ = section(taper, x)
        return 2.6 / (shear_coefficient(od, taper.bore) * E * section_area(od, taper.bore))

    ours = with_shear.under_tool(1.0, [taper.end]) - without.under_tool(1.0, [taper.end])
    assert ours[0] == pytest.approx(integral(give, 0.0, taper.end), rel=1e-7)


@pytest.mark.parametrize("name", TAPERS)
def test_the_sag_of_a_taper_is_that_of_its_weight(name):
    """Cantilever: ∫ M m dx ÷ E I, M = ∫ w (t − x) dt of the weight outwards, by Simpson over 4000 slices."""
    taper, slices = TAPERS[name], 4000
    x = taper.end * (1 - np.linspace(1.0, 0.0, slices + 1) ** 3)  # closer together towards the thin end
    x = x if taper.od_end < taper.od else np.linspace(0.0, taper.end, slices + 1)
    od = taper.od + (taper.od_end - taper.od) * x / taper.end
    weight = RHO * 9.80665 * math.pi / 4 * (od**2 - taper.bore**2)

    def outwards(y):
        steps = np.diff(x) * (y[1:] + y[:-1]) / 2
        return np.concatenate([steps[::-1].cumsum()[::-1], [0.0]])

    moment = outwards(outwards(weight))
    bending = moment * (taper.end - x) * 64 / (E * math.pi * (od**4 - taper.bore**4))
    expected = float((np.diff(x) * (bending[1:] + bending[:-1]) / 2).sum())
    assert Beam((taper,), CLAMPED, E, RHO).sag([taper.end], 9.80665)[0] == pytest.approx(expected, rel=2e-5)


def stairs(taper, steps):
    """Short cylinders with the taper's diameter at their middle."""
    edges = np.linspace(taper.start, taper.end, steps + 1)
    return tuple(
        Segment(float(a), float(b), section(taper, (a + b) / 2)[0], taper.bore) for a, b in pairwise(edges)
    )


@pytest.mark.parametrize("name", ["slight", "steep", "growing"])
def test_short_cylinders_come_nearer_by_four_each_time_they_are_halved(name):
    supports, taper, at = SUPPORTS["soft chuck"], TAPERS[name], 0.3
    true = Beam((taper,), supports, E, RHO)
    off, off_frequency = [], []
    for steps in (8, 16, 32):
        beam = Beam(stairs(taper, steps), supports, E, RHO)
        off.append(beam.under_tool(1.0, [at])[0] / true.under_tool(1.0, [at])[0] - 1)
        off_frequency.append(frequencies(beam, 1, elements=96)[0] / frequencies(true, 1, elements=96)[0] - 1)
    for errors in (off, off_frequency):
        assert abs(errors[-1]) < 2e-3
        assert [one / two for one, two in pairwise(errors)] == pytest.approx([4.0, 4.0], rel=0.1)


# -- extremes ------------------------------------------------------------------------------------------------


def in_fractions(beam, at, where):
    """Deflections under 1 N and the supports' forces in whole fractions: no digit is lost.

    Force method: the bar from its start, bent by the load and by the unknown forces and moments of the
    supports; deflection and slope of its start are two more unknowns.
    """
    e, pieces = Fraction(beam.elastic_modulus), []
    for one in beam.segments:
        moment = Fraction(one.od) ** 4 - Fraction(one.bore) ** 4
        pieces.append((Fraction(one.start), Fraction(one.end), 64 / (e * moment * Fraction(math.pi))))

    def bend(x, s, lever_x, lever_s):
        """∫ (x − t or 1) (s − t or 1) dt ÷ E I up to the nearer of both."""
        total, nearer = Fraction(0), min(x, s)
        for start, end, give in pieces:
            b = min(end, nearer)
            if b <= start:
                break
            first, second, third = (b**n / n - start**n / n for n in (1, 2, 3))
            if lever_x and lever_s:
                total += give * (x * s * first - (x + s) * second + third)
            elif lever_x or lever_s:
                total += give * ((x if lever_x else s) * first - second)
            else:
                total += give * first
        return total

    holds = [(Fraction(one.at), True, one.stiffness) for one in beam.supports if one.stiffness]
    holds += [(Fraction(one.at), False, one.angular) for one in beam.supports if one.angular]
    load, size = Fraction(at), len(holds) + 2
    rows = []
    for x, across, stiffness in holds:
        row = [bend(x, s, across, other) for s, other, _ in holds]
        row[len(rows)] += 0 if math.isinf(stiffness) else 1 / Fraction(stiffness)
        rows.append([*row, Fraction(-across), -x if across else Fraction(-1), bend(x, load, across, True)])
    rows.append([*(Fraction(across) for _, across, _ in holds), Fraction(0), Fraction(0), Fraction(1)])
    rows.append([*(s if across else Fraction(1) for s, across, _ in holds), Fraction(0), Fraction(0), load])
    for column in range(size):
        pivot = next(number for number in range(column, size) if rows[number][column])
        rows[column], rows[pivot] = rows[pivot], rows[column]
        rows[column] = [value / rows[column][column] for value in rows[column]]
        for number in range(size):
            if number != column and rows[number][column]:
                factor = rows[number][column]
                rows[number] = [
                    one - factor * other for one, other in zip(rows[number], rows[column], strict=True)
                ]
    unknown = [row[-1] for row in rows]
    moved = []
    for place in map(Fraction, where):
        by_holds = sum(
            force * bend(place, s, True, across)
            for (s, across, _), force in zip(holds, unknown, strict=False)
        )
        moved.append(bend(place, load, True, True) - by_holds + unknown[-2] + unknown[-1] * place)
    forces = [force for (_, across, _), force in zip(holds, unknown, strict=False) if across]
    return [float(one) for one in moved], [float(one) for one in forces]


def extreme(number):
    """From 1 mm to 3 m, stubby to slender, a groove as wide as a hair; springs over 15 decades."""
    random = np.random.default_rng([7, number])
    length = 10 ** random.uniform(-3, 0.477)
    thick = length / 10 ** random.uniform(0, 2)
    cuts = np.sort(random.uniform(0.05, 0.95, 2)) * length
    edges = [0.0, cuts[0], cuts[0] + length * 10 ** random.uniform(-5, -3), cuts[1] + 0.01 * length, length]
    ods = thick * np.array([1.0, 10 ** random.uniform(-0.5, 0), *random.uniform(0.3, 1.0, 2)])
    bores = 0.25 * thick * random.integers(0, 2, 4)
    segments = tuple(
        Segment(*ends, od, bore) for ends, od, bore in zip(pairwise(edges), ods, bores, strict=True)
    )
    scale = 3 * E * second_moment(thick) / length**3
    springs = scale * 10 ** random.uniform(-5, 10, 3)
    supports = [
        Support(0.0, math.inf, random.choice([math.inf, springs[0] * length**2])),
        Support(random.uniform(0.1, 0.9) * length, random.choice([math.inf, springs[1]])),
        Support(length, random.choice([math.inf, springs[2]])),
    ]
    if number % 2:
        del supports[random.integers(1, 3)]
    if number % 5 == 0:
        supports[0] = Support(0.0, springs[0], springs[1] * length**2)
    return Beam(segments, tuple(supports), E, RHO), length * random.uniform(0.05, 0.98)


@pytest.mark.parametrize("number", range(60))
def test_extremes_keep_their_digits(number):
    beam, at = extreme(number)
    where = [at, beam.end * 0.31, beam.end * 0.77]
    moved, forces = in_fractions(beam, at, where)
    floor = 1e-9 * max(map(abs, moved))
    assert beam.deflections(1.0, at, where) == pytest.approx(moved, rel=1e-6, abs=floor)
    assert beam.reactions(1.0, at) == pytest.approx(forces, rel=1e-6, abs=1e-8)


@pytest.mark.parametrize("number", range(60))
def test_extremes_have_frequencies(number):
    """Whole frequencies from a mesh half as long differ by what theory says, not by lost digits."""
    beam, _ = extreme(number)
    some, twice = (np.array(frequencies(beam, 2, elements=n)) for n in (24, 48))
    assert twice == pytest.approx(some, rel=1e-3)


def on_a_wire(thick):
    """Two lengths of 100 mm bar that a wire holds together."""
    return Beam((Segment(0.0, 0.5, 0.1), Segment(0.5, 0.6, thick), Segment(0.6, 1.0, 0.1)), CLAMPED, E, RHO)


def test_work_that_hangs_on_a_wire_bends_in_the_wire():
    """Two-step cantilever, Roark 1a by superposition: ∫ (L − x)² dx ÷ E I of the wire alone."""
    expected = (0.5**3 - 0.4**3) / (3 * E * second_moment(1e-4))
    assert on_a_wire(1e-4).under_tool(1.0, [1.0])[0] == pytest.approx(expected, rel=1e-6)


def test_a_body_on_a_wire_swings_with_the_stiffness_of_the_wire():
    """Two degrees of freedom: Rayleigh's quotient of the rigid end, by its own 2 × 2 matrices."""
    wire, mass = 0.1, RHO * section_area(0.1) * 0.4
    inertia = mass * 0.4**2 / 12
    bending = E * second_moment(1e-3)
    stiffness = bending / wire**3 * np.array([[12, -6 * wire], [-6 * wire, 4 * wire**2]])
    masses = np.array([[mass, mass * 0.2], [mass * 0.2, inertia + mass * 0.2**2]])
    slowest = min(np.linalg.eigvals(np.linalg.solve(masses, stiffness)).real)
    assert on_a_wire(1e-3).first_frequency() == pytest.approx(math.sqrt(slowest) / (2 * math.pi), rel=1e-4)
    assert on_a_wire(1e-4).first_frequency() == pytest.approx(math.sqrt(slowest) / (200 * math.pi), rel=1e-4)


def test_work_too_thin_beside_the_rest_is_refused():
    with pytest.raises(OutsideRange, match="thinnest diameter 1e-07 m"):
        on_a_wire(1e-7).first_frequency()


# -- refusals ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("what", "supports"),
    [
        ("one place twice", (Support(0.3), Support(0.3))),
        ("only tilting", (Support(0.0, 0.0, math.inf), Support(0.5, 0.0, 1e5))),
        ("nothing", ()),
    ],
)
def test_supports_that_leave_the_work_loose_are_refused(what, supports):
    with pytest.raises(OutsideRange, match="held"):
        Beam(SHAFT, supports, E)


@pytest.mark.parametrize(
    ("segment", "of"),
    [
        (Segment(0.0, 0.1, 0.05, 0.05), "bore"),
        (Segment(0.0, 0.1, 0.05, 0.03, 0.03), "bore"),
        (Segment(0.0, 0.1, 0.05, 0.0, 0.0), "bore"),
        (Segment(0.1, 0.1, 0.05), "end of a segment"),
        (Segment(0.1, 0.0, 0.05), "end of a segment"),
    ],
)
def test_segments_that_are_none_are_refused(segment, of):
    with pytest.raises(OutsideRange, match=of):
        Beam((segment,), (Support(segment.start, math.inf, math.inf),), E)


@pytest.mark.parametrize(
    ("given", "of"),
    [
        ({"poisson": 0.6}, "Poisson"), ({"poisson": -0.1}, "Poisson"),
        ({"push": -1.0}, "push"), ({"push": math.nan}, "push"), ({"elastic_modulus": 0.0}, "elastic modulus"),
        ({"supports": (*CLAMPED, Support(0.5, -1.0))}, "stiffness of a support"),
        ({"supports": (*CLAMPED, Support(0.5, math.nan))}, "stiffness of a support"),
        ({"supports": (*CLAMPED, Support(0.5, 1e7, math.nan))}, "stiffness of a support"),
    ],
)
def test_numbers_that_no_work_has_are_refused(given, of):
    with pytest.raises(OutsideRange, match=of):
        Beam(**{"segments": SHAFT, "supports": CLAMPED, "elastic_modulus": E, **given})


def test_no_places_give_no_results():
    beam = Beam(SHAFT, CLAMPED, E, RHO)
    assert len(beam.under_tool(1.0, [])) == len(beam.deflections(1.0, 0.5, [])) == len(beam.sag([], 9.8)) == 0


@pytest.mark.parametrize("ask", ["deflections", "slopes", "under_tool", "reactions_along", "sag", "moved"])
def test_a_place_off_the_work_is_refused(ask):
    beam = Beam(SHAFT, CLAMPED, E, RHO)
    arguments = {
        "deflections": (1.0, 0.9, [0.5]), "slopes": (1.0, 0.5, [0.9]), "under_tool": (1.0, [0.5, 0.9]),
        "reactions_along": (1.0, [-0.1]), "sag": ([0.9], 9.8), "moved": ([0.5], [0.9]),
    }[ask]
    with pytest.raises(OutsideRange, match="place of a load or reading"):
        getattr(beam, ask)(*arguments)
