"""Growth, the push of work that cannot grow, and warm sizes, against print and a solver for bars in a row."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.heat import ONE_DEGREE_F, axial_stiffness, cool_size, growth, held_force, warm_size
from generator.calc.sections import section_area
from generator.errors import OutsideRange
from generator.si import inch, mm

STEEL = 11.7e-6


def test_table_growth_of_steel():
    """1000 mm by 15 K: 0.1755 mm; the same 27 °F at 6.5 × 10⁻⁶ per °F (Gere, Appendix H)."""
    assert growth(1.0, 15, STEEL) / mm == pytest.approx(0.1755, abs=5e-8)
    assert growth(1.0, 27 * ONE_DEGREE_F, 6.5e-6 / ONE_DEGREE_F) / mm == pytest.approx(0.1755, abs=5e-8)
    assert growth(40 * mm, 20, STEEL) / mm == pytest.approx(0.0094, abs=5e-5)


def test_steel_held_rigidly():
    """40 mm, 5 K: E A α ΔT = 15 070 N, of any length (Gere, sec. 2.5)."""
    for length in (0.2, 1.0, 3.0):
        bar = axial_stiffness([(length, section_area(40 * mm))], 205e9)
        assert held_force(growth(length, 5, STEEL), bar) == pytest.approx(15_070, abs=5)
        assert held_force(growth(length, 5, STEEL), bar) == pytest.approx(
            205e9 * section_area(40 * mm) * STEEL * 5
        )


def test_stepped_work_between_a_stiff_and_a_soft_end_is_what_a_row_of_bars_gives():
    """Bars and a spring as a stiffness matrix with thermal loads, solved by numpy."""
    pieces = [(0.3, section_area(0.10, 0.05)), (0.5, section_area(0.06)), (0.2, section_area(0.045, 0.02))]
    modulus, rise, spring = 205e9, 12.0, 40e6
    size = len(pieces) + 1
    matrix, load = np.zeros((size, size)), np.zeros(size)
    for node, (length, area) in enumerate(pieces):
        stiff = modulus * area / length
        matrix[node : node + 2, node : node + 2] += stiff * np.array([[1, -1], [-1, 1]])
        push = modulus * area * STEEL * rise
        load[node] -= push
        load[node + 1] += push
    matrix[-1, -1] += spring
    moved = np.linalg.solve(matrix[1:, 1:], load[1:])
    total = growth(sum(length for length, _ in pieces), rise, STEEL)
    assert held_force(total, axial_stiffness(pieces, modulus), spring) == pytest.approx(spring * moved[-1])
    assert held_force(total, axial_stiffness(pieces, modulus), math.inf) > spring * moved[-1]


def test_a_bronze_ring_of_eight_inches_20_degrees_warm():
    """0.0016 in (10 × 10⁻⁶ per °F, common practice, from memory)."""
    warm = warm_size(8 * inch, 20 * ONE_DEGREE_F, 10e-6 / ONE_DEGREE_F)
    assert (warm - 8 * inch) / inch == pytest.approx(0.0016, abs=5e-7)
    assert cool_size(warm, 20 * ONE_DEGREE_F, 10e-6 / ONE_DEGREE_F) == pytest.approx(8 * inch, rel=1e-12)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: growth(0, 1, 1e-5), lambda: axial_stiffness([], 1.0), lambda: axial_stiffness([(1, 0)], 1.0),
        lambda: axial_stiffness([(0, 1)], 1.0), lambda: axial_stiffness([(1, 1)], 0.0),
        lambda: held_force(1.0), lambda: held_force(1.0, math.inf), lambda: held_force(1.0, 0.0),
        lambda: warm_size(-1, 1, 1e-5), lambda: cool_size(0, 1, 1e-5),
    ],
)
def test_what_cannot_be_is_refused(refused):
    with pytest.raises(OutsideRange):
        refused()
