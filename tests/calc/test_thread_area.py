"""Areas of threads against printed tables, and the engagement against a numerical solution."""

from __future__ import annotations

import math

import pytest
from scipy.optimize import brentq

from generator.calc.thread_area import (
    equal_strength_engagement,
    net_stress_area,
    nut_shear_area,
    screw_shear_area,
    strength_ratio,
    stress_area_metric,
    stress_area_unified,
)
from generator.errors import OutsideRange
from generator.threads.registry import limits, parse_designation


@pytest.mark.parametrize(
    ("nominal", "tpi", "printed", "places"),
    [
        (0.25, 20, 0.0318, 4), (0.375, 16, 0.0775, 4), (0.5, 13, 0.1419, 4), (0.75, 10, 0.334, 3),
        (1.0, 8, 0.606, 3), (0.25, 28, 0.0364, 4), (0.5, 20, 0.1599, 4), (1.0, 12, 0.663, 3),
        (1.5, 12, 1.581, 3),
    ],
)
def test_table_tensile_stress_area_of_unified_threads(nominal, tpi, printed, places):
    """UNC and UNF, in² (ASME B1.1; Machinery's Handbook, stress areas)."""
    assert stress_area_unified(nominal, 1 / tpi) == pytest.approx(printed, abs=0.6 * 10**-places)


@pytest.mark.parametrize(
    ("nominal", "pitch", "printed"),
    [(6, 1, 20.1), (8, 1.25, 36.6), (10, 1.5, 58.0), (12, 1.75, 84.3), (16, 2, 157), (20, 2.5, 245),
     (24, 3, 353), (30, 3.5, 561), (36, 4, 817), (10, 1.25, 61.2), (20, 1.5, 272)],
)
def test_table_stress_area_of_metric_threads(nominal, pitch, printed):
    """ISO 898-1, nominal stress area, mm²."""
    half = 0.5 if printed > 100 else 0.05
    assert stress_area_metric(nominal, pitch) == pytest.approx(printed, abs=half * 1.01)


def test_a_bore_takes_its_own_area_away():
    assert net_stress_area(stress_area_unified(2.0, 1 / 8), 1.125) == pytest.approx(
        stress_area_unified(2.0, 1 / 8) - math.pi / 4 * 1.125**2
    )


def test_table_shear_area_of_a_screw():
    """10 threads per inch, 0.75 in, K 0.62, E 0.6388: 0.888983 in² (form of FED-STD-H28/2)."""
    assert screw_shear_area(0.1, 0.75, 0.62, 0.6388) == pytest.approx(0.888983, abs=5e-7)


def unrolled(pitch, diameter, width_there, engagement):
    """Area of a helical strip on a cylinder: width along the axis × developed length × its slope."""
    turns = engagement / pitch
    length = turns * math.hypot(math.pi * diameter, pitch)
    lead_angle = math.atan(pitch / (math.pi * diameter))
    return width_there * math.cos(lead_angle) * length


@pytest.mark.parametrize("text", ["1/2-13 UNC-2A", "2-8 UN-2A", "1 1/4-7 UNC-2A", "M20x2.5-6g", "M10x1.5-6g"])
def test_areas_in_shear_are_the_helical_strips_that_break(text):
    """Unrolled helix of the tooth's width on the shear cylinder; the width from the 60 degree profile."""
    screw = parse_designation(text)
    nut = parse_designation(text.replace("2A", "2B").replace("6g", "6H"))
    own, other = limits(screw), limits(nut)
    pitch, engagement = float(screw.pitch), 1.3 * screw.nominal
    minor, pitch_min = other.minor.max, own.pitch_diameter.min
    half_space = (pitch_min - minor) / 2 * math.tan(math.radians(30))
    width = pitch / 2 + 2 * half_space
    assert screw_shear_area(pitch, engagement, minor, pitch_min) == pytest.approx(
        unrolled(pitch, minor, width, engagement), rel=1e-9
    )
    major, pitch_max = own.major.min, other.pitch_diameter.max
    width = pitch / 2 + 2 * (major - pitch_max) / 2 * math.tan(math.radians(30))
    assert nut_shear_area(pitch, engagement, major, pitch_max) == pytest.approx(
        unrolled(pitch, major, width, engagement), rel=1e-9
    )


def test_a_screw_and_its_nut_without_play_fill_a_cylinder_between_them():
    """On any cylinder of the profile the teeth of both together leave nothing out: π D L."""
    for at in (1.84, 1.9, 1.9188, 1.96):
        both = screw_shear_area(0.125, 0.7, at, 1.9188) + nut_shear_area(0.125, 0.7, at, 1.9188)
        assert both == pytest.approx(math.pi * at * 0.7)


@pytest.mark.parametrize("text", ["1/2-13 UNC-2A", "2-8 UN-2A", "1-8 UNC-2A"])
def test_engagement_of_equal_strength_is_where_the_numerical_balance_is(text):
    """Threads in shear at half the strength in tension against the pull on the stress area, solved for L."""
    screw, strength = parse_designation(text), 90e3
    own, other = limits(screw), limits(parse_designation(text.replace("2A", "2B")))
    pitch = float(screw.pitch)
    tension = stress_area_unified(screw.nominal, pitch)

    def short_of(length: float) -> float:
        area = screw_shear_area(pitch, length, other.minor.max, own.pitch_diameter.min)
        return strength / 2 * area - strength * tension

    length = brentq(short_of, 1e-3, 10)
    area = screw_shear_area(pitch, 0.7, other.minor.max, own.pitch_diameter.min)
    assert equal_strength_engagement(tension, area, 0.7) == pytest.approx(length, rel=1e-9)


def test_formula_one_of_the_handbook_is_the_same_engagement():
    """L_e = 2 A_t ÷ (3.1416 K (1/2 + 0.57735 n (E − K))) (Machinery's Handbook, 24th ed., formula 1)."""
    tension, n, minor, pitch_min = 0.1419, 13, 0.434, 0.4435
    printed = 2 * tension / (3.1416 * minor * (0.5 + 0.57735 * n * (pitch_min - minor)))
    area = screw_shear_area(1 / n, 2.0, minor, pitch_min)
    assert equal_strength_engagement(tension, area, 2.0) == pytest.approx(printed, rel=1e-4)


def test_a_weaker_nut_asks_for_more_and_a_stronger_one_for_no_less():
    weak = strength_ratio(1.0, 1.25, 400, 200)
    assert equal_strength_engagement(1.0, 2.0, 1.0, weak) == pytest.approx(1.6)
    strong = strength_ratio(1.0, 1.25, 400, 800)
    assert strong < 1
    assert equal_strength_engagement(1.0, 2.0, 1.0, strong) == pytest.approx(1.0)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: stress_area_unified(0.05, 0.1), lambda: stress_area_metric(1, 1),
        lambda: stress_area_metric(1, 0),
        lambda: net_stress_area(1.0, 1.2), lambda: screw_shear_area(0.1, 0, 0.62, 0.63),
        lambda: screw_shear_area(0.1, 1, 0.9, 0.6), lambda: nut_shear_area(0.1, 1, 0.6, 0.9),
        lambda: nut_shear_area(0, 1, 1, 0.9), lambda: strength_ratio(1, 0),
        lambda: equal_strength_engagement(1, 1, 1, math.nan),
    ],
)
def test_what_no_thread_can_be_is_refused(refused):
    with pytest.raises(OutsideRange):
        refused()
