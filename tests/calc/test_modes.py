"""Frequencies and buckling against closed forms, transcendental equations and a shooting method.

Timoshenko and Gere, Theory of Elastic Stability, 2nd ed., and Thomson, Theory of Vibration with
Applications, both from memory. Roots are found by scipy.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from generator.calc.beam import Beam, Segment, Support
from generator.calc.modes import PointMass, buckling_push, frequencies
from generator.calc.sections import second_moment, section_area
from generator.calc.slenderness import shear_coefficient
from generator.errors import OutsideRange

E, RHO = 205e9, 7850.0
LENGTH, OD = 0.800, 0.030
BENDING = E * second_moment(OD)
EULER = math.pi**2 * BENDING / LENGTH**2
CLAMP, HINGE = Support(0.0, math.inf, math.inf), Support(0.0)
FAR, FAR_CLAMP = Support(LENGTH), Support(LENGTH, math.inf, math.inf)
STEPPED = (
    Segment(0.0, 0.25, 0.040, 0.015), Segment(0.25, 0.31, 0.022), Segment(0.31, 0.8, 0.030, 0.0, 0.045),
)


def bar(*supports, poisson=None, push=0.0, od=OD, length=LENGTH):
    return Beam((Segment(0.0, length, od),), supports, E, RHO, poisson, push)


# -- buckling ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("supports", "times", "digits"),
    [
        ((HINGE, FAR), 1.0, 1e-5), ((CLAMP,), 0.25, 1e-5), ((CLAMP, FAR_CLAMP), 4.0, 1e-5),
        ((CLAMP, FAR), 2.0457, 3e-5),  # 20.19 ÷ π²: tan u = u
    ],
)
def test_table_columns_of_euler(supports, times, digits):
    """Timoshenko and Gere, art. 2.1 and 2.3."""
    assert buckling_push(bar(*supports)) / EULER == pytest.approx(times, rel=digits)


@pytest.mark.parametrize("relative", [0.01, 0.5, 3.0, 50.0, 1e4])
def test_a_chuck_that_gives_buckles_sooner(relative):
    """Spring k at the foot, end free: u tan u = k L ÷ E I; end on a center: tan u = u β ÷ (β + u²)."""
    chuck = Support(0.0, math.inf, relative * BENDING / LENGTH)
    free = brentq(lambda u: u * math.sin(u) - relative * math.cos(u), 1e-9, math.pi / 2)
    assert buckling_push(bar(chuck)) == pytest.approx(free**2 * BENDING / LENGTH**2, rel=1e-5)

    def center(u):
        return (relative + u * u) * math.sin(u) - relative * u * math.cos(u)

    propped = brentq(center, 3.0, 4.6)
    assert buckling_push(bar(chuck, FAR)) == pytest.approx(propped**2 * BENDING / LENGTH**2, rel=1e-5)


@pytest.mark.parametrize("outer", [0.2, 0.4, 0.63])
def test_a_stepped_column_by_its_equation(outer):
    """Foot clamped, end free: tan k₁l₁ tan k₂l₂ = k₁ ÷ k₂, 1 the outer part (art. 2.14)."""
    thick, thin = E * second_moment(0.030), E * second_moment(0.020)
    inner = LENGTH - outer

    def equation(push):
        one, two = math.sqrt(push / thin), math.sqrt(push / thick)
        return (
            two * math.sin(one * outer) * math.sin(two * inner)
            - one * math.cos(one * outer) * math.cos(two * inner)
        )

    expected = brentq(equation, 1.0, math.pi**2 * thick / (4 * LENGTH**2))
    beam = Beam((Segment(0.0, inner, 0.030), Segment(inner, LENGTH, 0.020)), (CLAMP,), E)
    assert buckling_push(beam) == pytest.approx(expected, rel=1e-5)


def test_a_tapered_column_by_shooting():
    """E I(x) y'' + P y = 0 from the free end inwards until the slope at the clamp is zero."""
    def moment(x):
        return second_moment(0.040 - 0.025 * x / LENGTH)

    def slope_at_clamp(push):
        found = solve_ivp(
            lambda s, y: [y[1], -push * y[0] / (E * moment(LENGTH - s))], (0.0, LENGTH), [0.0, 1.0],
            rtol=1e-10, atol=1e-13,
        )
        return found.y[1, -1]

    expected = brentq(slope_at_clamp, 100.0, math.pi**2 * E * moment(0.0) / (4 * LENGTH**2))
    beam = Beam((Segment(0.0, LENGTH, 0.040, 0.0, 0.015),), (CLAMP,), E)
    assert buckling_push(beam) == pytest.approx(expected, rel=1e-5)


def test_shear_lowers_the_buckling_push():
    """Timoshenko and Gere, art. 2.17: P = P_e ÷ (1 + P_e ÷ κ G A)."""
    thick = bar(CLAMP, poisson=0.3, od=0.200, length=0.800)
    euler = math.pi**2 * E * second_moment(0.200) / (4 * 0.800**2)
    shear = shear_coefficient(0.200) * E / 2.6 * section_area(0.200)
    assert buckling_push(thick) == pytest.approx(euler / (1 + euler / shear), rel=1e-5)


def test_a_push_already_there_is_left_out_of_the_buckling_push():
    assert buckling_push(bar(HINGE, FAR, push=EULER / 2)) == pytest.approx(EULER, rel=1e-5)


# -- under a push --------------------------------------------------------------------------------------------


def further(u):
    """Timoshenko and Gere, art. 1.3: χ(u) = 3 (tan u − u) ÷ u³."""
    return 3 * (math.tan(u) - u) / u**3


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_table_a_push_bends_the_work_further(share):
    """Art. 1.3: P L³ ÷ 48 E I × χ(u), u = L ÷ 2 √(N ÷ E I); a cantilever is half of such a beam."""
    between = bar(HINGE, FAR, push=share * EULER)
    expected = LENGTH**3 / (48 * BENDING) * further(math.pi / 2 * math.sqrt(share))
    assert between.under_tool(1.0, [LENGTH / 2])[0] == pytest.approx(expected, rel=2e-5)
    assert between.reactions(1.0, LENGTH / 2) == pytest.approx((0.5, 0.5), rel=1e-9)
    alone = bar(CLAMP, push=share * EULER / 4)
    expected = LENGTH**3 / (3 * BENDING) * further(math.pi / 2 * math.sqrt(share))
    assert alone.under_tool(1.0, [LENGTH])[0] == pytest.approx(expected, rel=2e-5)
    assert alone.reactions(1.0, LENGTH)[0] == pytest.approx(1.0, rel=1e-9)


@pytest.mark.parametrize("share", [0.2, 0.7])
def test_supports_carry_a_load_under_a_push_as_the_beam_column_has_it(share):
    """Clamped and on a center: E I y'''' + N y'' = 0 piecewise, its eight constants by numpy."""
    push = share * 2.0457 * EULER
    k, at = math.sqrt(push / BENDING), 0.5

    def row(x, derivative):
        cosine, sine = math.cos(k * x), math.sin(k * x)
        return (
            [1, x, cosine, sine], [0, 1, -k * sine, k * cosine], [0, 0, -k**2 * cosine, -k**2 * sine],
            [0, 0, k**3 * sine, -k**3 * cosine],
        )[derivative]

    none = [0] * 4
    jump = [[*row(at, d), *(-one for one in row(at, d))] for d in range(4)]
    matrix = [
        [*row(0.0, 0), *none], [*row(0.0, 1), *none], *jump,
        [*none, *row(LENGTH, 0)], [*none, *row(LENGTH, 2)],
    ]
    constants = np.linalg.solve(matrix, [0, 0, 0, 0, 0, -1 / BENDING, 0, 0])
    beam = bar(CLAMP, FAR, push=push)
    where = [0.2, 0.5]
    expected = [float(np.dot(row(x, 0), constants[:4])) for x in where]
    assert beam.deflections(1.0, at, where) == pytest.approx(expected, rel=3e-5)
    slopes = [float(np.dot(row(x, 1), constants[:4])) for x in where]
    assert beam.slopes(1.0, at, where) == pytest.approx(slopes, rel=3e-5)
    third, first = (float(np.dot(row(LENGTH, d), constants[4:])) for d in (3, 1))
    at_center = BENDING * third + push * first
    assert beam.reactions(1.0, at) == pytest.approx((1 - at_center, at_center), rel=3e-5)


@pytest.mark.parametrize("share", [0.1, 0.6, 0.95])
def test_a_push_slows_the_work(share):
    """Thomson; Timoshenko and Gere: f = f₁ √(1 − N ÷ N_e) between two centers."""
    still = frequencies(bar(HINGE, FAR), 1)[0]
    assert frequencies(bar(HINGE, FAR, push=share * EULER), 1)[0] == pytest.approx(
        still * math.sqrt(1 - share), rel=1e-4
    )


def test_work_that_buckles_is_refused():
    beam = bar(HINGE, FAR, push=1.001 * EULER)
    for ask in (lambda: beam.deflections(1.0, 0.3, [0.3]), lambda: frequencies(beam)):
        with pytest.raises(OutsideRange, match="push along the work"):
            ask()


# -- frequencies ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("supports", "roots"),
    [
        ((CLAMP,), (1.875104, 4.694091, 7.854757)),
        ((HINGE, FAR), (math.pi, 2 * math.pi, 3 * math.pi)),
        ((CLAMP, FAR), (3.926602, 7.068583, 10.210176)),
        ((CLAMP, FAR_CLAMP), (4.730041, 7.853205, 10.995608)),
    ],
)
def test_table_three_frequencies(supports, roots):
    """Thomson, app. D: K = (k L)² of the first three."""
    unit = math.sqrt(BENDING / (RHO * section_area(OD) * LENGTH**4)) / (2 * math.pi)
    assert frequencies(bar(*supports)) == pytest.approx([k**2 * unit for k in roots], rel=5e-5)


def test_elements_are_too_stiff_by_the_fourth_power_of_their_length():
    """Consistent mass: (k h)⁴ ÷ 1440 of the frequency (series of the uniform beam's dispersion)."""
    for elements in (6, 12, 24):
        for number, found in enumerate(frequencies(bar(HINGE, FAR), 3, elements=elements), 1):
            true = number**2 * math.pi / 2 * math.sqrt(BENDING / (RHO * section_area(OD) * LENGTH**4))
            off = (number * math.pi / elements) ** 4 / 1440
            assert found / true - 1 == pytest.approx(off, rel=0.25, abs=1e-9)


@pytest.mark.parametrize("supports", [(CLAMP,), (Support(0.0, math.inf, 1e4), Support(0.5, 2e7), FAR)])
def test_doubling_the_elements_of_stepped_work_gains_sixteen_times(supports):
    beam = Beam(STEPPED, supports, E, RHO)
    true = np.array(frequencies(beam, 2, elements=192))
    off = [np.array(frequencies(beam, 2, elements=n)) / true - 1 for n in (8, 16, 32)]
    assert (off[0] > 0).all()
    for one, two in pairwise(off):
        assert one / two == pytest.approx([16.0, 16.0], rel=0.5)
    assert frequencies(beam, 1, elements=48)[0] == pytest.approx(frequencies(beam, 1)[0], rel=1e-3)


@pytest.mark.parametrize("times", [0.1, 1.0, 10.0])
def test_a_mass_at_the_end_by_its_equation(times):
    """1 + cos a cosh a + (m ÷ μ L) a (cos a sinh a − sin a cosh a) = 0 (Thomson, continuous systems)."""
    def equation(a):
        c, s, ch, sh = math.cos(a), math.sin(a), math.cosh(a), math.sinh(a)
        return 1 + c * ch + times * a * (c * sh - s * ch)

    unit = math.sqrt(BENDING / (RHO * section_area(OD) * LENGTH**4)) / (2 * math.pi)
    mass = times * RHO * section_area(OD) * LENGTH
    found = frequencies(bar(CLAMP), 2, [PointMass(LENGTH, mass)])
    roots = brentq(equation, 0.3, 1.9), brentq(equation, 3.0, 4.7)
    assert found == pytest.approx([a**2 * unit for a in roots], rel=1e-5)


def test_a_heavy_mass_between_two_nodes_swings_on_the_stiffness_there():
    """f = √(k ÷ m) ÷ 2π; the bar's own 0.1 % of the mass makes it lower by less than that."""
    at, beam = 0.3333, bar(CLAMP, FAR)
    mass = 1000 * RHO * section_area(OD) * LENGTH
    expected = math.sqrt(1 / (beam.under_tool(1.0, [at])[0] * mass)) / (2 * math.pi)
    assert frequencies(beam, 1, [PointMass(at, mass)])[0] == pytest.approx(expected, rel=5e-4)


@pytest.mark.parametrize("slender", [4.0, 8.0])
def test_short_work_with_shear_and_tilting_sections(slender):
    """Timoshenko's beam between two hinges: E I p⁴ − ω² [ρ A + ρ I (1 + E ÷ κ G) p²] + ω⁴ ρ² I ÷ κ G = 0."""
    od, length = LENGTH / slender, LENGTH
    area, moment, shear = section_area(od), second_moment(od), shear_coefficient(od) * E / 2.6
    expected = []
    for number in (1, 2):
        p = number * math.pi / length
        inertia = RHO * area + RHO * moment * (1 + E / shear) * p**2
        roots = np.roots([RHO**2 * moment / shear, -inertia, E * moment * p**4])
        expected.append(math.sqrt(min(roots.real)) / (2 * math.pi))
    beam = bar(HINGE, FAR, poisson=0.3, od=od)
    assert frequencies(beam, 2) == pytest.approx(expected, rel=1e-3)
    assert frequencies(beam, 2, elements=96) == pytest.approx(expected, rel=1e-4)


def test_fewer_frequencies_are_the_first_of_more():
    beam = Beam(STEPPED, (CLAMP, FAR), E, RHO)
    assert frequencies(beam, 6)[:2] == pytest.approx(frequencies(beam, 2), rel=1e-12)
    assert beam.first_frequency() == frequencies(beam, 1)[0]


@pytest.mark.parametrize(
    ("arguments", "of"),
    [
        ({"count": 0}, "number of frequencies"), ({"count": 25}, "number of frequencies"),
        ({"masses": [PointMass(0.1, -1.0)]}, "mass on the work"),
        ({"masses": [PointMass(0.9, 1.0)]}, "place of a mass"),
    ],
)
def test_what_cannot_be_asked_is_refused(arguments, of):
    with pytest.raises(OutsideRange, match=of):
        frequencies(bar(CLAMP), **arguments)


@pytest.mark.parametrize("soft", [1e-6, 1.0])
def test_a_chuck_as_soft_as_nothing_lets_the_work_swing_as_a_pendulum(soft):
    """f = √(k ÷ J) ÷ 2π, J = m L² ÷ 3; the second is that of a hinged and free bar, (k L)² = 15.418."""
    inertia = RHO * section_area(OD) * LENGTH**3 / 3
    unit = math.sqrt(BENDING / (RHO * section_area(OD) * LENGTH**4)) / (2 * math.pi)
    found = frequencies(bar(Support(0.0, math.inf, soft)), 2)
    assert found == pytest.approx([math.sqrt(soft / inertia) / (2 * math.pi), 15.418 * unit], rel=1e-3)


def test_one_element_has_one_frequency_and_rigid_ends_none():
    """A single cantilever element: 3.53 for 3.516 (Cook et al.); clamped at both ends nothing of it moves."""
    unit = math.sqrt(BENDING / (RHO * section_area(OD) * LENGTH**4)) / (2 * math.pi)
    assert frequencies(bar(CLAMP), 1, elements=1)[0] / unit == pytest.approx(3.5327, abs=5e-4)
    with pytest.raises(OutsideRange):
        frequencies(bar(CLAMP, FAR_CLAMP), 1, elements=1)


def test_work_without_a_density_has_no_frequency():
    with pytest.raises(OutsideRange, match="density"):
        frequencies(Beam((Segment(0.0, 0.1, 0.02),), (CLAMP,), E))
