"""Beams against closed forms in print.

Roark's Formulas for Stress and Strain, 7th ed., table 8.1 (cases 1a, 1c, 1e, 2a, 2c, 2e, from memory) and
table 16.1 (frequencies, from memory); Gere, Mechanics of Materials, 5th ed., appendix G; Thomson, Theory of
Vibration with Applications, appendix D. Each row is evaluated here from the printed formula, not from our
elements.
"""

from __future__ import annotations

import math

import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.sections import second_moment, section_area

E, RHO, G = 205e9, 7850.0, 9.80665
CLAMP = Support(0.0, math.inf, math.inf)
HINGE = Support(0.0)


def bar(length: float, od: float, *supports: Support, bore: float = 0.0) -> Beam:
    return Beam((Segment(0.0, length, od, bore),), supports, E, RHO)


def test_table_cantilever_with_a_load_at_its_end():
    """Roark 1a: y = P L³ / 3 E I."""
    expected = 500 * 0.150**3 / (3 * E * second_moment(0.050))
    assert bar(0.150, 0.050, CLAMP).deflections(500, 0.150, [0.150])[0] == pytest.approx(expected, rel=1e-9)
    assert expected * 1e3 == pytest.approx(0.0089437, abs=5e-8)


def test_table_hollow_cantilever():
    """Roark 1a with I = π (D⁴ − d⁴) / 64."""
    expected = 1000 * 0.250**3 / (3 * E * math.pi * (0.0889**4 - 0.054**4) / 64)
    assert bar(0.250, 0.0889, CLAMP, bore=0.054).deflections(1000, 0.250, [0.250])[0] == pytest.approx(
        expected, rel=1e-9
    )


@pytest.mark.parametrize("share", [0.25, 0.5, 0.5858, 0.9])
def test_table_clamped_and_center(share):
    """Roark 1c, deflection under the load: P a³ b² (3 L + b) / (12 E I L³)."""
    length, load = 0.800, 300.0
    a = share * length
    b = length - a
    expected = load * a**3 * b**2 * (3 * length + b) / (12 * E * second_moment(0.040) * length**3)
    beam = bar(length, 0.040, CLAMP, Support(length))
    assert beam.deflections(load, a, [a])[0] == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.7])
def test_table_two_supports(share):
    """Roark 1e: P a² b² / (3 E I L)."""
    length, load = 0.800, 300.0
    a = share * length
    expected = load * a**2 * (length - a) ** 2 / (3 * E * second_moment(0.040) * length)
    assert bar(length, 0.040, HINGE, Support(length)).deflections(load, a, [a])[0] == pytest.approx(
        expected, rel=1e-9
    )


def test_table_overhang_past_a_steady_rest_with_a_hinged_chuck():
    """Gere, overhanging beam: y = P c² (a + c) / 3 E I, steady reaction P (a + c) / a."""
    a, c, load = 0.600, 0.100, 500.0
    beam = bar(a + c, 0.050, HINGE, Support(a))
    expected = load * c**2 * (a + c) / (3 * E * second_moment(0.050))
    assert beam.deflections(load, a + c, [a + c])[0] == pytest.approx(expected, rel=1e-9)
    assert beam.reactions(load, a + c)[1] == pytest.approx(load * (a + c) / a)


def test_overhang_past_a_steady_rest_with_a_clamped_chuck():
    """By superposition of Roark 1a: P c² (3 a + 4 c) / 12 E I, steady reaction P (1 + 3 c / 2 a)."""
    a, c, load = 0.600, 0.100, 500.0
    beam = bar(a + c, 0.050, CLAMP, Support(a))
    expected = load * c**2 * (3 * a + 4 * c) / (12 * E * second_moment(0.050))
    assert beam.deflections(load, a + c, [a + c])[0] == pytest.approx(expected, rel=1e-9)
    assert beam.reactions(load, a + c)[1] == pytest.approx(load * (1 + 1.5 * c / a))


def test_stepped_cantilever():
    """By superposition of Roark 1a: P/3E [(L³ − L2³)/I1 + L2³/I2]."""
    one, two = second_moment(0.060), second_moment(0.040)
    expected = 500 / (3 * E) * ((0.180**3 - 0.080**3) / one + 0.080**3 / two)
    beam = Beam((Segment(0, 0.100, 0.060), Segment(0.100, 0.180, 0.040)), (CLAMP,), E)
    assert beam.deflections(500, 0.180, [0.180])[0] == pytest.approx(expected, rel=1e-9)


def test_chuck_spring_adds_p_l_squared_over_k():
    """Rigid-body rotation on an angular spring, beside Roark 1a."""
    load, length, spring = 400.0, 0.200, 1e5
    expected = load * length**3 / (3 * E * second_moment(0.050)) + load * length**2 / spring
    beam = bar(length, 0.050, Support(0.0, math.inf, spring))
    assert beam.deflections(load, length, [length])[0] == pytest.approx(expected, rel=1e-9)


def test_steady_spring_adds_p_times_lever_squared_over_k():
    """Rigid-body rotation about a hinged chuck: P (1 + c/a)² / k_s beside the overhang."""
    a, c, load, spring = 0.600, 0.100, 500.0, 20e6
    stiff = bar(a + c, 0.050, HINGE, Support(a)).deflections(load, a + c, [a + c])[0]
    soft = bar(a + c, 0.050, HINGE, Support(a, spring)).deflections(load, a + c, [a + c])[0]
    assert soft - stiff == pytest.approx(load * (1 + c / a) ** 2 / spring, rel=1e-6)


def test_table_own_weight():
    """Roark 2a: w L⁴ / 8 E I; 2e at mid-span: 5 w L⁴ / 384 E I; 2c: largest w L⁴ / 184.6 E I at 0.5785 L."""
    od = 0.040
    weight = RHO * G * section_area(od)
    stiffness = E * second_moment(od)
    assert bar(0.6, od, CLAMP).sag([0.6], G)[0] == pytest.approx(weight * 0.6**4 / (8 * stiffness), rel=1e-9)
    two = bar(1.2, od, HINGE, Support(1.2)).sag([0.6], G)[0]
    assert two == pytest.approx(5 * weight * 1.2**4 / (384 * stiffness), rel=1e-9)
    propped = bar(1.2, od, CLAMP, Support(1.2)).sag([0.5785 * 1.2], G)[0]
    assert propped == pytest.approx(weight * 1.2**4 / (184.6 * stiffness), rel=1e-3)


@pytest.mark.parametrize(
    ("k_squared", "od", "length", "supports"),
    [
        (3.5160, 0.050, 0.300, (CLAMP,)),  # Thomson, app. D
        (9.8696, 0.040, 0.800, (HINGE, Support(0.800))),  # Thomson, app. D
        (15.418, 0.040, 0.800, (CLAMP, Support(0.800))),  # Roark, table 16.1
        (22.3733, 0.040, 0.800, (CLAMP, Support(0.800, math.inf, math.inf))),  # Thomson, app. D
    ],
)
def test_table_first_frequency(k_squared, od, length, supports):
    """f1 = K² / 2π √(E I / μ L⁴)."""
    expected = (
        k_squared / (2 * math.pi) * math.sqrt(E * second_moment(od) / (RHO * section_area(od) * length**4))
    )
    assert bar(length, od, *supports).first_frequency() == pytest.approx(expected, rel=1e-4)
