"""Beams against closed forms in print.

Roark's Formulas for Stress and Strain, 7th ed., table 8.1 (cases 1a, 1c, 1e, 2a, 2c, 2e, from memory) and
table 16.1 (frequencies, from memory); Gere, Mechanics of Materials, 5th ed., appendix G; Thomson, Theory of
Vibration with Applications, appendix D. Each row is evaluated here from the printed formula, not from our
elements. Digits are those of the worked examples of such tables, half a unit of the last one allowed.
"""

from __future__ import annotations

import math

import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.modes import frequencies
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


@pytest.mark.parametrize("share", [0.2, 0.6, 0.95])
def test_table_tip_of_a_cantilever_under_a_load_at_a(share):
    """Roark 1a: P a² (3 L − a) / 6 E I at the end."""
    length = 0.4
    a = share * length
    expected = 100 * a**2 * (3 * length - a) / (6 * E * second_moment(0.030))
    assert bar(length, 0.030, CLAMP).deflections(100, a, [length])[0] == pytest.approx(expected, rel=1e-9)


def test_table_worst_place_of_a_load_between_chuck_and_center():
    """Roark 1c: 7 P L³ / 768 E I at mid-span; largest at (2 − √2) L, 0.009812 P L³ / E I."""
    length, beam = 0.8, bar(0.8, 0.040, CLAMP, Support(0.8))
    unit = length**3 / (E * second_moment(0.040))
    places = [length * step / 2000 for step in range(1, 2000)]
    under_tool = beam.under_tool(1.0, places)
    assert beam.under_tool(1.0, [length / 2])[0] == pytest.approx(7 * unit / 768, rel=1e-9)
    assert under_tool.max() / unit == pytest.approx(0.009812, abs=5e-7)
    assert places[under_tool.argmax()] / length == pytest.approx(2 - math.sqrt(2), abs=5e-4)


def test_between_the_supports_the_bar_bows_the_other_way():
    """Gere, overhanging beam: P c a² / (9 √3 E I) at a/√3, upwards."""
    a, c, load = 0.600, 0.100, 500.0
    expected = -load * c * a**2 / (9 * math.sqrt(3) * E * second_moment(0.050))
    beam = bar(a + c, 0.050, HINGE, Support(a))
    assert beam.deflections(load, a + c, [a / math.sqrt(3)])[0] == pytest.approx(expected, rel=1e-9)
    assert beam.slopes(load, a + c, [a / math.sqrt(3)])[0] == pytest.approx(0.0, abs=1e-12)


# -- worked, in the digits of print: mm, N, Hz; E 205 GPa, steel 7850 kg/m³ ----------------------------------

SHOULDERED = Beam((Segment(0.0, 0.100, 0.060), Segment(0.100, 0.180, 0.040)), (CLAMP,), E)
TWO_STEP = Beam(
    (Segment(0.0, 0.500, 0.1016, 0.0635), Segment(0.500, 0.800, 0.08255, 0.0635)), (CLAMP, Support(0.600)),
    E, RHO,
)


@pytest.mark.parametrize(
    ("printed", "beam", "load", "at"),
    [
        ("0.0089437", bar(0.150, 0.050, CLAMP), 500, 0.150),
        ("0.0095923", bar(0.250, 0.0889, CLAMP, bore=0.054), 1000, 0.250),
        ("0.0543456", bar(0.800, 0.040, CLAMP, Support(0.800)), 300, 0.400),
        ("0.0585064", bar(0.800, 0.040, CLAMP, Support(0.800)), 300, 0.468629),
        ("0.0145750", bar(0.700, 0.050, CLAMP, Support(0.600)), 500, 0.700),
        ("0.0185500", bar(0.700, 0.050, HINGE, Support(0.600)), 500, 0.700),
        ("0.0101113", SHOULDERED, 500, 0.180),
        ("0.0331536", TWO_STEP, 1500, 0.800),
        ("0.176960", bar(0.200, 0.050, Support(0.0, math.inf, 1e5)), 400, 0.200),
    ],
)
def test_example_deflection_under_the_load(printed, beam, load, at):
    """Roark, table 8.1, by superposition with steps or springs; the two-step shaft by two programs."""
    half = 0.5 * 10.0 ** -len(printed.partition(".")[2])
    assert beam.under_tool(load, [at])[0] * 1e3 == pytest.approx(float(printed), abs=1.001 * half)


@pytest.mark.parametrize(
    ("printed", "beam", "load", "at"),
    [
        (625.0, bar(0.700, 0.050, CLAMP, Support(0.600)), 500, 0.700),
        (583.333, bar(0.700, 0.050, HINGE, Support(0.600)), 500, 0.700),
        (2284.27, TWO_STEP, 1500, 0.800),
    ],
)
def test_example_force_on_the_steady_rest(printed, beam, load, at):
    """Gere, overhanging beam; Roark by superposition."""
    assert beam.reactions(load, at)[1] == pytest.approx(printed, abs=5e-3)


def test_example_sag():
    """Roark 2a, 2c: 60 mm, 600 mm cantilever; 40 mm, 1200 mm on a center, largest at 694.2 mm."""
    assert bar(0.600, 0.060, CLAMP).sag([0.600], G)[0] * 1e3 == pytest.approx(0.0270377, abs=5e-8)
    places = [step * 1e-4 for step in range(6800, 7100)]
    sag = bar(1.200, 0.040, CLAMP, Support(1.200)).sag(places, G)
    assert sag.max() * 1e3 == pytest.approx(0.0421745, abs=5e-8)
    assert places[sag.argmax()] * 1e3 == pytest.approx(694.2, abs=0.1)


@pytest.mark.parametrize(
    ("printed", "beam"),
    [
        (397.174, bar(0.300, 0.050, CLAMP)),
        (195.937, bar(0.800, 0.040, CLAMP, Support(0.800))),
        (125.424, bar(0.800, 0.040, HINGE, Support(0.800))),
        (233.373, bar(1.000, 0.060, CLAMP, Support(0.700))),
    ],
)
def test_example_first_frequency(printed, beam):
    """Thomson, app. D; past the steady rest the continuous beam's equation."""
    assert frequencies(beam, 1, elements=48)[0] == pytest.approx(printed, abs=1e-3)
    assert beam.first_frequency() == pytest.approx(printed, rel=1e-5)


def test_example_first_frequency_of_the_two_step_shaft():
    assert TWO_STEP.first_frequency() == pytest.approx(837.43, abs=5e-3)


@pytest.mark.parametrize(
    ("chuck", "row"),
    [
        (CLAMP, "7.541 9.870 13.565 19.129 21.927 18.892 15.418"),
        (HINGE, "7.068 9.071 12.020 15.096 14.619 12.130 9.870"),
    ],
)
def test_table_first_frequency_with_the_end_past_a_steady_rest(chuck, row):
    """K² of the continuous beam (Thomson, continuous systems), steady rest at 0.4 … 1.0 of the length."""
    unit = math.sqrt(E * second_moment(0.050) / (RHO * section_area(0.050))) / (2 * math.pi)
    for tenths, printed in enumerate(row.split(), 4):
        found = frequencies(bar(1.0, 0.050, chuck, Support(tenths / 10)), 1, elements=48)[0]
        assert found / unit == pytest.approx(float(printed), abs=6e-4)


# -- shear ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("length", "bore"), [(0.05, 0.0), (0.10, 0.0), (0.10, 0.040), (0.40, 0.020)])
def test_table_shear_adds_p_l_over_kappa_g_a(length, bore):
    """P L³ / 3 E I + P L / κ G A, κ after Cowper 1966, G = E / 2 (1 + ν); from memory."""
    squared = (bore / 0.050) ** 2
    whole = (1 + squared) ** 2
    kappa = 6 * 1.3 * whole / ((7 + 6 * 0.3) * whole + (20 + 12 * 0.3) * squared)
    bending = 1000 * length**3 / (3 * E * second_moment(0.050, bore))
    shear = 1000 * length / (kappa * E / 2.6 * section_area(0.050, bore))
    beam = Beam((Segment(0.0, length, 0.050, bore),), (CLAMP,), E, RHO, poisson=0.3)
    assert beam.under_tool(1000, [length])[0] == pytest.approx(bending + shear, rel=1e-9)
    slope = 1000 * length**2 / (2 * E * second_moment(0.050, bore))
    assert beam.slopes(1000, length, [length])[0] == pytest.approx(slope, rel=1e-9)


def test_table_shear_between_two_supports():
    """P L³ / 48 E I + P L / 4 κ G A at mid-span, κ = 0.886."""
    length, load = 0.200, 1000.0
    beam = Beam((Segment(0.0, length, 0.050),), (HINGE, Support(length)), E, RHO, poisson=0.3)
    bending = load * length**3 / (48 * E * second_moment(0.050))
    shear = load * length / (4 * 0.8863636 * E / 2.6 * section_area(0.050))
    assert beam.under_tool(load, [length / 2])[0] == pytest.approx(bending + shear, rel=1e-7)


def test_a_slender_bar_hardly_feels_shear():
    """About 0.55 (D ÷ L)² of the deflection of a cantilever: 0.2 % at sixteen diameters."""
    without, with_shear = (
        Beam((Segment(0.0, 0.8, 0.050),), (CLAMP,), E, RHO, poisson).under_tool(1, [0.8])[0]
        for poisson in (None, 0.3)
    )
    assert with_shear / without - 1 == pytest.approx(0.55 / 16**2, rel=0.01)
