"""Shapes that cuts leave, on the closed forms of work held in the ways that make them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.calc.cut_shape import cut_shape
from generator.errors import OutsideRange

X = np.linspace(0.0, 1.0, 200)


def between_centers(x):
    """P a² b² / (3 E I L): Roark, Formulas for Stress and Strain, table 8.1, 1e; from memory."""
    return x**2 * (1 - x) ** 2


def propped(x):
    """P a³ b² (3 L + b) / (12 E I L³): Roark, table 8.1, 1c; from memory."""
    return x**3 * (1 - x) ** 2 * (4 - x)


def test_a_cantilever_flares_towards_its_free_end():
    """P L³ / 3 E I: Roark, table 8.1, 1a."""
    shape = cut_shape(X, X**3)
    assert (shape.form, shape.largest_at, shape.smallest_at) == ("bell", 1.0, 0.0)
    assert shape.spread == pytest.approx(1.0)


def test_only_the_end_of_a_cantilever_is_a_taper():
    far = np.linspace(0.8, 1.0, 50)
    assert cut_shape(far, far**3).form == "taper"


def test_a_soft_chuck_on_stiff_work_near_the_end_leaves_a_taper():
    """P L² / k."""
    far = np.linspace(0.7, 1.0, 50)
    assert cut_shape(far, far**2).form == "taper"


def test_between_centers_it_is_a_barrel_in_the_middle():
    shape = cut_shape(X, between_centers(X))
    assert shape.form == "barrel"
    assert shape.largest_at == pytest.approx(0.5, abs=0.005)


def test_between_chuck_and_center_the_barrel_is_largest_at_the_place_of_print():
    """(2 − √2) L from the chuck: derived from Roark 1c."""
    shape = cut_shape(X, propped(X))
    assert shape.form == "barrel"
    assert shape.largest_at == pytest.approx(2 - math.sqrt(2), abs=0.005)


def test_a_steady_rest_in_the_middle_of_a_cut_leaves_a_waist():
    shape = cut_shape(X, np.abs(X - 0.5) + 0.2)
    assert shape.form == "waist"
    assert shape.smallest_at == pytest.approx(0.5, abs=0.005)


def test_what_gives_alike_all_along_has_no_shape():
    assert cut_shape(X, 1 + 0.05 * X).form == "even"
    assert cut_shape(X, 0 * X).form == "even"


def test_a_bore_that_comes_out_small_has_the_same_shapes_the_other_way_round():
    shape = cut_shape(X, -(X**3))
    assert shape.form == "bell"
    assert (shape.worst, shape.worst_at) == (-1.0, 1.0)
    assert cut_shape(X, -between_centers(X)).form == "waist"


def test_a_curve_that_flattens_towards_its_large_end_does_not_flare():
    assert cut_shape(X, np.sqrt(X)).form == "taper"


@pytest.mark.parametrize("scale", [1e-9, 1.0, 1e6])
@pytest.mark.parametrize("curve", [X**3, between_centers(X), 0.1 * X, 1 + 0.01 * X])
def test_the_shape_does_not_depend_on_the_size_of_the_error(scale, curve):
    assert cut_shape(X, scale * curve).form == cut_shape(X, curve).form


def test_a_shape_needs_three_places_and_numbers():
    with pytest.raises(OutsideRange, match="number of places"):
        cut_shape([0.0, 1.0], [0.0, 1.0])
    with pytest.raises(OutsideRange, match="finite"):
        cut_shape([0.0, 0.5, 1.0], [0.0, math.nan, 1.0])
