"""Marks of jaws: line contact against a printed form of its own, against a numerical contact, and by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.contact import (
    SHEAR_SHARE,
    contact_modulus,
    first_yield_pressure,
    line_pressure,
    mean_pressure,
)
from generator.errors import OutsideRange


@pytest.mark.parametrize(("force", "radius", "length"), [(1e3, 0.025, 0.05), (15e3, 0.01, 0.02)])
def test_roller_on_a_flat_as_a_handbook_prints_it(force, radius, length):
    """Carvill, Mechanical Engineer's Data Handbook, 1993, p. 52, roller on flat surface, same material:

    w = √(32 F (1 − ν²) r ÷ (π L E)), σ = 4 F ÷ (π w L).
    """
    modulus, poisson = 205e9, 0.3
    width = math.sqrt(32 * force * (1 - poisson**2) * radius / (math.pi * length * modulus))
    printed = 4 * force / (math.pi * width * length)
    ours = line_pressure(force, length, 2 * radius, contact_modulus(modulus, modulus))
    assert ours == pytest.approx(printed, rel=1e-12)


def test_two_metals_as_a_handbook_prints_them():
    """The same page, different materials: 16 F ((1 − ν²) ÷ E₁ + (1 − ν²) ÷ E₂) r ÷ (π L)."""
    steel, bronze, force, radius, length = 205e9, 105e9, 8e3, 0.1, 0.03
    both = (1 - 0.09) * (1 / steel + 1 / bronze)
    width = math.sqrt(16 * force * both * radius / (math.pi * length))
    printed = 4 * force / (math.pi * width * length)
    assert line_pressure(force, length, 2 * radius, contact_modulus(steel, bronze)) == pytest.approx(printed)


def test_a_numerical_contact_comes_to_the_same_pressure():
    """Strips of pressure on an elastic half plane (Flamant), pressed against a round until none pulls."""
    modulus, radius, line_load = 112.6e9, 0.025, 2e5
    half = 1.6 * math.sqrt(4 * line_load * radius / (math.pi * modulus))
    count = 240
    edges = np.linspace(-half, half, count + 1)
    middles, width = (edges[:-1] + edges[1:]) / 2, edges[1] - edges[0]
    near, far = middles[:, None] - edges[None, :-1], middles[:, None] - edges[None, 1:]

    def whole(x):
        return x * np.log(np.abs(x) / half) - x

    sinks = -2 / (math.pi * modulus) * (whole(near) - whole(far))  # at i under 1 Pa on strip j
    touching = np.ones(count, dtype=bool)
    for _ in range(60):
        inside = np.flatnonzero(touching)
        matrix = np.zeros((len(inside) + 1, len(inside) + 1))
        matrix[:-1, :-1] = sinks[np.ix_(inside, inside)]
        matrix[:-1, -1], matrix[-1, :-1] = -1.0, width
        solved = np.linalg.solve(matrix, [*(-middles[inside] ** 2 / (2 * radius)), line_load])
        pulling = inside[solved[:-1] < 0]
        if not len(pulling):
            break
        touching[pulling] = False
    assert max(solved[:-1]) == pytest.approx(line_pressure(line_load, 1.0, 2 * radius, modulus), rel=5e-3)


def test_highest_shear_lies_below_the_surface():
    """Stresses under a line contact along its middle, superposed from line loads (Flamant).

    Johnson and Rao print 0.300 p₀ at 0.786 half widths.
    """
    s = (np.arange(4000) + 0.5) / 2000 - 1
    pressure = np.sqrt(1 - s**2)

    def shear(depth):
        squared = s**2 + depth**2
        down = 2 / math.pi * np.sum(pressure * depth**3 / squared**2) / 2000
        across = 2 / math.pi * np.sum(pressure * s**2 * depth / squared**2) / 2000
        return (down - across) / 2

    depths = np.linspace(0.5, 1.2, 1401)
    shears = [shear(depth) for depth in depths]
    assert max(shears) == pytest.approx(SHEAR_SHARE, abs=0.0005)
    assert depths[int(np.argmax(shears))] == pytest.approx(0.786, abs=0.002)


def test_first_yield_is_printed_as_1_67_times_the_yield_strength():
    """Johnson, Contact Mechanics, section 6.1, from memory."""
    assert first_yield_pressure(1.0) == pytest.approx(1.67, abs=0.005)


def test_mean_pressure_is_force_over_face():
    assert mean_pressure(12e3, 0.02, 0.06) == pytest.approx(10e6)


@pytest.mark.parametrize(
    "call",
    [
        lambda: mean_pressure(-1, 1, 1),
        lambda: mean_pressure(1, 0, 1),
        lambda: contact_modulus(0, 1),
        lambda: line_pressure(1, 1, 0, 1),
        lambda: line_pressure(1, 0, 1, 1),
        lambda: first_yield_pressure(0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
