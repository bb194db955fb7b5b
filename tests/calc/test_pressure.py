"""Stress in walls and sections, against print, a finite-difference solution, and statics."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.pressure import (
    axial_stress,
    end_stress,
    hoop_stress,
    pressure_force,
    radial_stress,
    thin_wall_hoop,
    von_mises_at_bore,
)
from generator.errors import OutsideRange
from generator.si import MPa, inch, mm, psi


def by_finite_differences(pressure, inner, outer, steps=4000):
    """Radii, radial and hoop stress of a thick ring from u'' + u'/r − u/r² = 0, plane strain, ν = 0.3.

    Timoshenko's equation of equilibrium in the displacement u, central differences; at the ends the radial
    stress is set, by one-sided differences of second order.
    """
    modulus, nu = 205e9, 0.3
    r = np.linspace(inner, outer, steps + 1)
    h = r[1] - r[0]
    a = modulus / ((1 + nu) * (1 - 2 * nu))
    matrix, right = np.zeros((3, steps + 1)), np.zeros(steps + 1)
    matrix[0, 2:] = 1 / h**2 + 1 / (2 * r[1:-1] * h)
    matrix[1, 1:-1] = -2 / h**2 - 1 / r[1:-1] ** 2
    matrix[2, :-2] = 1 / h**2 - 1 / (2 * r[1:-1] * h)
    full = np.diag(matrix[1]) + np.diag(matrix[0, 1:], 1) + np.diag(matrix[2, :-1], -1)
    inside, outside = (0, 1, 2), (steps, steps - 1, steps - 2)
    for row, ends, sign, load in ((0, inside, 1, -pressure), (steps, outside, -1, 0.0)):
        full[row] = 0.0
        for place, weight in zip(ends, (-1.5, 2.0, -0.5), strict=True):
            full[row, place] += a * (1 - nu) * sign * weight / h
        full[row, row] += a * nu / r[row]
        right[row] = load
    u = np.linalg.solve(full, right)
    slope = np.gradient(u, h, edge_order=2)
    return r, a * ((1 - nu) * slope + nu * u / r), a * ((1 - nu) * u / r + nu * slope)


@pytest.mark.parametrize(("inner", "outer"), [(25 * mm, 40 * mm), (30 * mm, 33 * mm), (5 * mm, 60 * mm)])
def test_a_thick_wall_is_what_finite_differences_find(inner, outer):
    r, radial, hoop = by_finite_differences(50 * MPa, inner, outer, 1200)
    for place in (0, 300, 700, 1200):
        at = 2 * min(max(r[place], inner), outer)
        assert hoop_stress(50 * MPa, 2 * inner, 2 * outer, at) == pytest.approx(hoop[place], rel=1e-3)
        assert radial_stress(50 * MPa, 2 * inner, 2 * outer, at) == pytest.approx(
            radial[place], rel=1e-3, abs=0.05 * MPa
        )


def test_table_values_of_a_thick_wall():
    """Lamé, 50 MPa in radii 25 and 40 mm (Roark, table 13.5, from memory)."""
    sizes = (50 * MPa, 50 * mm, 80 * mm)
    assert hoop_stress(*sizes, 50 * mm) / MPa == pytest.approx(114.103, abs=5e-4)
    assert hoop_stress(*sizes, 80 * mm) / MPa == pytest.approx(64.103, abs=5e-4)
    assert end_stress(*sizes) / MPa == pytest.approx(32.051, abs=5e-4)
    assert von_mises_at_bore(*sizes) / MPa == pytest.approx(142.117, abs=5e-4)


def test_the_three_stresses_make_the_one():
    """von Mises' own formula of the three principal stresses at the bore."""
    sizes = (7_000 * psi, 1.125 * inch, 1.84 * inch)
    one, two, three = hoop_stress(*sizes, sizes[1]), radial_stress(*sizes, sizes[1]), end_stress(*sizes)
    expected = math.sqrt(((one - two) ** 2 + (two - three) ** 2 + (three - one) ** 2) / 2)
    assert von_mises_at_bore(*sizes) == pytest.approx(expected)


def test_hoop_stress_holds_what_the_pressure_pushes_apart():
    """Statics of half the ring: the hoop stress over the wall carries p × bore."""
    diameters = np.linspace(50 * mm, 80 * mm, 2001)
    stress = [hoop_stress(50 * MPa, 50 * mm, 80 * mm, x) for x in diameters]
    assert np.trapezoid(stress, diameters) == pytest.approx(50 * MPa * 50 * mm, rel=1e-6)


def test_pipe_formula_as_it_is_printed():
    """S 552 MPa, 9.525 mm of wall, 88.9 mm, 0.875 counted: 103.5 MPa (P = 0.875 × 2 S t ÷ D, API TR 5C3)."""
    assert thin_wall_hoop(103.5, 88.9, 9.525, 0.875) == pytest.approx(552, abs=0.5)
    assert pytest.approx(103.5, abs=0.05) == 0.875 * 2 * 552 * 9.525 / 88.9


def test_pipe_formula_lies_over_the_hoop_stress_and_under_the_three_together_in_thick_walls():
    """p D ÷ 2 t against √3 p D² ÷ (D² − d²): they cross where d ÷ D = √3 − 1 = 0.732."""
    for bore in (5, 25, 40, 50, 70, 79):
        pipe = thin_wall_hoop(10, 80, (80 - bore) / 2)
        assert pipe > hoop_stress(10, bore, 80, bore)
        assert (pipe < von_mises_at_bore(10, bore, 80)) == (bore / 80 < math.sqrt(3) - 1)


def test_pull_through_a_relief():
    """50 MPa sealed on 60 mm, relief 55 mm, bore 38 mm: 113.852 MPa."""
    assert axial_stress(pressure_force(50 * MPa, 60 * mm), 55 * mm, 38 * mm) / MPa == pytest.approx(
        113.852, abs=5e-4
    )
    assert axial_stress(0.0, 55 * mm) == 0


@pytest.mark.parametrize(
    "refused",
    [
        lambda: hoop_stress(10, 50, 80, 81), lambda: hoop_stress(10, 50, 80, 49),
        lambda: radial_stress(10, 50, 50, 50), lambda: end_stress(0.0, 50, 80), lambda: end_stress(1, 80, 80),
        lambda: von_mises_at_bore(-1, 50, 80), lambda: von_mises_at_bore(1, 81, 80),
        lambda: thin_wall_hoop(1, 80, 41), lambda: thin_wall_hoop(1, 80, 0),
        lambda: thin_wall_hoop(1, 80, 5, 0),
        lambda: pressure_force(1, 0), lambda: axial_stress(-1, 10), lambda: axial_stress(1, 10, 10),
        lambda: hoop_stress(math.nan, 50, 80, 60),
    ],
)
def test_what_no_wall_can_be_is_refused(refused):
    with pytest.raises(OutsideRange):
        refused()
