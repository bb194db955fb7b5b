"""How work is held, through the whole program, from the text of a job to its sheet, against print.

Sources, each worked by hand to the digits that stand here: Roark's Formulas for Stress and Strain, 7th
ed., table 8.1 (1a, 1c, 2a, 2c), table 9.2 (ring under equally spaced loads), table 13.5 (thick cylinder),
16.1 (frequencies), all from memory; Gere, Mechanics of Materials, 5th ed. (overhanging beam, heat); Thomson,
Theory of Vibration with Applications, appendix D; Cowper (1966) for shear of short work, from memory; VDI
3106 as chuck makers' manuals print it, and RN-1391, table 4, for friction; Barlow, API 5C3, from memory;
FED-STD-H28/2 and ASME B1.1, appendix, from memory; NIOSH 94-110 (rev. 2021).

A cut here is so short along the work that it has one place. Its force is what the sheet makes it; deflections
are asked for at the round force of the worked example, to which they are in proportion.
"""

from __future__ import annotations

import importlib.util
import math
from pathlib import Path

import pytest

from generator.calc import ring, ring_forces
from generator.calc.cutting import spindle_speed
from generator.calc.lifting import recommended_weight
from generator.calc.pressure import thin_wall_hoop
from generator.calc.steady_fingers import finger_forces
from generator.calc.thread_area import screw_shear_area
from generator.si import MPa, inch, mm

_spec = importlib.util.spec_from_file_location("plain_shop", Path(__file__).parents[1] / "plain_shop.py")
assert _spec is not None
assert _spec.loader is not None
plain = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(plain)

E = 205e9
CLAMP, HINGE = (0.0, math.inf, math.inf), (0.0, math.inf, 0.0)
SHOWN = 5e-5  # of the figure: what the stiffest steady rest that a record may have gives


def cut_at(place, work, holding="", **shop):
    """Figures for work (mm: length, diameter and bore of each section outside the jaws) cut at a place."""
    length, od = sum(one[0] for one in work), work[-1][1]
    rows = [(work[0][0] + 50, *work[0][1:]), *work[1:]]
    sections = ", ".join(
        f"{{length: {one[0]}, od: {one[1]}" + (f", bore: {one[2]}}}" if len(one) > 2 else "}") for one in rows
    )
    return plain.sheet(
        f"""work: [{sections}]
holding: {{chuck: {{jaws: 3, grip: 50}}{holding}}}
operations:
  - turn: {{diameter: {od}, length: 0.002, from_end: {length - place:.6f}, from_diameter: {od + 2}, tool: T1,
           cut: 1, finish: 0, feed: 0.2 mm/rev}}
""",
        **shop,
    ).figures


def deflection(figures, force):
    """Of a sheet, in mm, at a round force (N)."""
    return figures["holding.deflection.max"].value / figures["holding.force"].value * force / mm


def on_steady(figures, force):
    """Force on the steady rest of a sheet at a round force (N)."""
    return figures["holding.steady.force"].value / figures["holding.force"].value * force


# -- deflection: Roark, table 8.1 -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("work", "holding", "place", "force", "printed", "digit"),
    [
        ([(800, 40)], ", center: live", 400, 300, 0.0543456, 5e-8),      # 1c, 7 P L³ / 768 E I
        ([(800, 40)], ", center: live", 468.629, 300, 0.0585064, 5e-8),  # 1c, the worst place (2 − √2) L
        ([(100, 60), (80, 40)], "", 180, 500, 0.0101113, 5e-8),          # 1a in two steps
    ],
)
def test_table_deflection_under_the_tool(work, holding, place, force, printed, digit):
    assert deflection(cut_at(place, work, holding), force) == pytest.approx(printed, abs=digit, rel=1e-5)


def test_table_cantilever_in_a_chuck_that_tilts():
    """Roark 1a with a spring under it, P L² / k + P L³ / 3 E I: 0.176960 mm, most of it the chuck."""
    figures = cut_at(200, [(200, 50)], chuck=100_000)
    assert deflection(figures, 400) == pytest.approx(0.176960, abs=5e-7)


@pytest.mark.parametrize(
    ("work", "holding", "supports", "pieces", "place", "force", "printed", "rest"),
    [
        ([(150, 50)], "", [CLAMP], [(0, 0.15, 0.05, 0)], 150, 500, 0.0089437, None),
        ([(250, 88.9, 54)], "", [CLAMP], [(0, 0.25, 0.0889, 0.054)], 250, 1000, 0.0095923, None),
        ([(700, 50)], ", steady: {at: 600}", [CLAMP, (0.6, math.inf, 0.0)], [(0, 0.7, 0.05, 0)], 700, 500,
         0.0145750, 625.0),
        ([(700, 50)], ", steady: {at: 600}", [HINGE, (0.6, math.inf, 0.0)], [(0, 0.7, 0.05, 0)], 700, 500,
         0.0185500, 583.333),
        ([(500, 101.6, 63.5), (300, 82.55, 63.5)], ", steady: {at: 600}", [CLAMP, (0.6, math.inf, 0.0)],
         [(0, 0.5, 0.1016, 0.0635), (0.5, 0.8, 0.08255, 0.0635)], 800, 1500, 0.0331536, 2284.27),
    ],
)
def test_table_short_work_bends_as_printed_and_shears_as_cowper_has_it(
    work, holding, supports, pieces, place, force, printed, rest
):
    """Gere's overhanging beam, Roark 1a: print is for bending alone, to which the sheet adds shear.

    A plain matrix solution makes the printed digits without shear, and the sheet's with it.
    """
    bending, forces = plain.bent(pieces, E, supports, force, place / 1e3)
    assert bending / mm == pytest.approx(printed, abs=5e-8)
    if rest is not None:
        assert forces[1] == pytest.approx(rest, rel=1e-5)
    sheared, forces = plain.bent(pieces, E, supports, force, place / 1e3, poisson=0.3)
    figures = cut_at(place, work, holding, chuck=1 if supports[0] == HINGE else plain.RIGID)
    assert deflection(figures, force) == pytest.approx(sheared / mm, rel=2 * SHOWN)
    if rest is not None:
        assert on_steady(figures, force) == pytest.approx(forces[1], rel=SHOWN)


# -- sag and frequencies: Roark 2a, 2c, Thomson ----------------------------------------------------------


def test_table_cantilever_under_its_own_weight():
    """Roark 2a, w L⁴ / 8 E I."""
    assert cut_at(600, [(600, 60)])["give.sag"].value / mm == pytest.approx(0.0270377, abs=5e-8)


def test_table_clamped_and_center_under_its_own_weight():
    """Roark 2c, w L⁴ / 184.6 E I, at 0.5785 L from the chuck."""
    sag = cut_at(1200, [(1200, 40)], ", center: live")["give.sag"]
    assert sag.value / mm == pytest.approx(0.0421745, abs=5e-8)
    assert float(sag.note.split()[1]) == pytest.approx(694.2, abs=1)


@pytest.mark.parametrize(
    ("work", "holding", "printed"),
    [
        ([(300, 50)], "", 397.174),
        ([(800, 40)], ", center: live", 195.937),
        ([(1000, 60)], ", steady: {at: 700}", 233.373),
        ([(500, 101.6, 63.5), (300, 82.55, 63.5)], ", steady: {at: 600}", 837.43),
    ],
)
def test_table_first_frequency(work, holding, printed):
    """Thomson, appendix D: 3.516 and 15.418; past a steady rest from the continuous beam's equation."""
    found = cut_at(sum(one[0] for one in work), work, holding)["holding.first_frequency"].value
    assert found == pytest.approx(printed, rel=SHOWN / 5)


def test_table_frequency_between_centers():
    """Thomson: 9.870, 125.424 Hz, 7525 rpm."""
    figures = plain.sheet("""work: [{length: 800, od: 40}]
holding: {centers: {dog: 30}, center: live}
operations: [{turn: {diameter: 40, length: 200, from_diameter: 42, tool: T1}}]
""").figures
    assert figures["holding.first_frequency"].value == pytest.approx(125.424, abs=5e-4)
    assert figures["holding.critical_speed"].value * 60 == pytest.approx(7525, abs=0.5)


# -- grip: VDI 3106 ---------------------------------------------------------------------------------------


def gripped(force, gripped_at, cut_at, house, feed, more=""):
    """A cut of 2 mm at 0.2 mm a turn with a force (N), the end of the work on a center."""
    specific = force / (2 * 0.2) * 0.2**0.24
    return plain.sheet(
        f"""work: [{{length: 60, od: {gripped_at}, surface: turned}}, {{length: 200, od: {cut_at - 4}}}]
holding: {{chuck: {{jaws: 3, grip: 60, face: diamond-cut}}, center: live}}
operations:
  - turn: {{diameter: {cut_at - 4}, length: 100, from_diameter: {cut_at}, tool: T1, cut: 2, finish: 0,
           feed: 0.2 mm/rev, spindle: 600 rpm}}
""",
        specific=f"{specific:.9f}", feed=feed, house=house, more=more,
    ).figures


def test_example_grip_against_torque_and_push():
    """1500 N at 90 mm on a grip of 110 mm, 500 N along, friction 0.2 (RN-1391), safety 2."""
    figures = gripped(1500, 110, 90, "grip_safety: 2", "0.3333333333")
    assert figures["grip.friction"].value == 0.20
    assert round(figures["grip.needed"].value, 1) == 13252.2


def test_example_grip_lost_with_speed():
    """Three jaws of 0.8 kg at 70 mm, 600 rpm, 10 kN wanted turning, safety 1.5."""
    figures = gripped(2000, 100, 100, "grip_safety: 1.5", "0", ", jaw_mass: 0.8 kg, jaw_middle: 20")
    assert figures["grip.holds"].value == pytest.approx(10e3)
    assert round(figures["grip.loss"].value, 2) == 663.24
    assert round(figures["grip.needed"].value, 1) == 15994.9


# -- thin ring: Roark, table 9.2 --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("jaws", "each", "at_jaw", "midway", "digits"),
    [
        (3, 2000, 0.0382153, 0.0341829, 7),
        (6, 1000, 0.00201621, 0.00177405, 8),
        (4, 1500, 0.0109321, 0.0096857, 7),
    ],
)
def test_table_ring_under_jaws(jaws, each, at_jaw, midway, digits):
    size = (each, 40 * mm, 5 * mm, 25 * mm, E)
    assert round(ring.deflection(ring.load_share(jaws), *size) / mm, digits) == at_jaw
    assert round(ring.deflection(ring.midway_share(jaws), *size) / mm, digits) == midway


def test_table_ring_sum_moment_and_stress():
    size = (2000, 40 * mm, 5 * mm, 25 * mm, E)
    assert round(ring.deflection(ring.out_of_round_share(3), *size) / mm, 7) == 0.0723982
    moment = ring_forces.moment_at_load(2000, 40 * mm, 3)
    assert round(moment * 1e3, 1) == 15103.2
    assert round(ring_forces.bending_stress(moment, 5 * mm, 25 * mm) / MPa, 3) == 144.990
    assert round(ring_forces.hoop_stress(6000, 5 * mm, 25 * mm) / MPa, 5) == 7.63944


def test_sheet_of_a_thin_ring_is_the_printed_ring():
    """A ring of 1 mm wall held along all its length: thickness and length add next to nothing."""
    figures = plain.sheet("""work: [{length: 25.001, od: 81, bore: 79}]
holding: {chuck: {jaws: 3, grip: 25, force: 300 N}}
operations: [{bore: {diameter: 79, length: 25, from_diameter: 78.8, tool: B1}}]
""").figures
    printed = ring.deflection(ring.out_of_round_share(3), 100, 40 * mm, 1 * mm, 25 * mm, E)
    assert figures["thin.out_of_round"].value == pytest.approx(printed, rel=0.01)


# -- heat and steady rest: Gere ---------------------------------------------------------------------------


@pytest.mark.parametrize(("rise", "name", "printed", "unit", "digits"), [
    (15, "heat.growth", 0.1755, mm, 4), (5, "heat.thrust", 15070, 1.0, 0),
])
def test_example_heat_between_chuck_and_center(rise, name, printed, unit, digits):
    """A metre of 40 mm steel, 11.7e-6 a degree: Gere, sec. 2.5."""
    figures = plain.sheet(f"""work: [{{length: 1050, od: 40}}]
holding: {{chuck: {{jaws: 3, grip: 50}}, center: live}}
heat: {{cutting: {rise} K}}
operations: [{{turn: {{diameter: 40, length: 100, from_diameter: 42, tool: T1}}}}]
""").figures
    assert round(figures[name].value / unit, digits) == printed


def test_example_two_fingers_carry_the_weight():
    """Statics: fingers at 60 degrees carry the weight each; 88.9 mm at 120 rpm runs at 33.51 m/min."""
    assert [round(float(one), 6) for one in finger_forces(0.0, -600.0)] == [600.0, 600.0, 0.0]
    assert round(spindle_speed(33.51 / 60, 88.9 * mm) * 60) == 120


# -- pressure, load, threads ------------------------------------------------------------------------------


def strong(od, bore, duty):
    return plain.sheet(f"""work: [{{length: 250, od: {od}, bore: {bore}}}]
holding: {{chuck: {{jaws: 3, grip: 50}}}}
duty: {{said: holds, by: customer, {duty}}}
operations: [{{turn: {{diameter: {od}, length: 100, from_diameter: {od + 2}, tool: T1}}}}]
""").figures


def test_example_thick_wall_under_pressure():
    """Lamé (Roark, table 13.5): 50 MPa in radii of 25 and 40 mm, ends closed."""
    figures = strong(80, 50, "pressure: 50 MPa")
    for name, printed in (("hoop.bore", 114.103), ("hoop.outside", 64.103), ("ends", 32.051),
                          ("von_mises", 142.117)):
        assert round(figures[f"strength.{name}"].value / MPa, 3) == printed


def test_example_pipe_formula():
    """Barlow: 88.9 by 9.525 mm, 552 MPa, 12.5 % of the wall off, 103.5 MPa."""
    figures = strong(88.9, 88.9 - 2 * 9.525, "pressure: 103.5 MPa")
    assert figures["strength.thin_wall"].value / MPa == pytest.approx(0.875 * 552, abs=0.25)
    assert round(0.875 * 552 / thin_wall_hoop(1.0, 88.9, 9.525), 1) == 103.5


def test_example_axial_stress_through_a_relief():
    """50 MPa on a seal of 60 mm, through 55 less 38 mm."""
    axial = strong(55, 38, "pressure: 50 MPa, seal_diameter: 60")["strength.axial"].value
    assert round(axial / MPa, 3) == 113.852


def test_example_thread_shear_area():
    """FED-STD-H28/2: ten threads an inch, 0.75 in engaged, K 0.62, E 0.6388 in."""
    area = screw_shear_area(0.1 * inch, 0.75 * inch, 0.62 * inch, 0.6388 * inch)
    assert round(area / inch**2, 6) == 0.888983


# -- weight -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("section", "printed"), [
    ("length: 600, od: 101.6, bore: 50.8", 28.6391), ("length: 1000, od: 50", 15.4134),
])
def test_example_weight(section, printed):
    """Volume times 7850 kg/m³ (Gere, appendix H)."""
    figures = plain.sheet(f"""work: [{{{section}}}]
holding: {{chuck: {{jaws: 3, grip: 50}}}}
operations: [{{face: {{end: right, stock: 1, tool: T1}}}}]
""").figures
    assert round(figures["holding.weight"].value, 4) == printed


def test_example_recommended_weight():
    """NIOSH 94-110: H 30, V 80, D 40 cm."""
    assert round(recommended_weight(0.30, 0.80, 0.40), 4) == 17.6048
