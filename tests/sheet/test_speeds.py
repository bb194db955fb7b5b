"""Speeds that the held work bears, and a mass off its axis."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from generator.calc.sections import second_moment, section_area
from generator.sheet.figure import Kind
from generator.si import inch, lb, rev_per_min
from generator.tables.materials import material_group, material_groups

E, RHO, G = 205e9, 7850.0, 9.80665
BAR = """\
job: T-3
title: Bar
units: inch
lathe: long-bed
material: 1045 steel
work:
  - {length: 63, od: 1, surface: turned}
holding:
  chuck: {jaws: 3, grip: 3}
  center: live
operations:
  - turn: {diameter: 0.9, from_diameter: 1, length: 10}
"""
CLAMP = SimpleNamespace(si=1e9, with_unit="-", where=None)
RIGID = SimpleNamespace(si=1e12, with_unit="-", where=None)


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def frequency(k_squared, length, od=inch):
    """Thomson, appendix D: f = K² ÷ 2π × √(E I ÷ μ L⁴)."""
    stiff = E * second_moment(od) / (RHO * section_area(od))
    return k_squared / (2 * math.pi) * math.sqrt(stiff) / length**2


@pytest.fixture
def bar_of(sheet_of):
    """The bar with pieces replaced, on rigid supports unless said otherwise."""
    def make(changes=None, house=None, **named):
        rigid = {"chuck_stiffness": CLAMP, "center_stiffness": RIGID, "steady_stiffness": RIGID}
        return sheet_of(changes, BAR, house=rigid if house is None else house, **named)

    return make


def test_first_two_frequencies_are_those_of_print(bar_of):
    """Clamped at the chuck and on a center: K² 15.418 and 49.965 (Thomson, appendix D; Roark, table 16.1)."""
    figures = bar_of().figures
    assert figures["holding.first_frequency"].value == pytest.approx(frequency(15.418, 60 * inch), rel=2e-3)
    assert figures["holding.second_frequency"].value == pytest.approx(frequency(49.965, 60 * inch), rel=2e-3)


def test_jaws_that_let_the_work_tilt_are_the_hinged_row_of_print(bar_of):
    """Two hinges: K² = π²."""
    figure = bar_of().figures["holding.critical_speed.hinged"]
    assert figure.value == pytest.approx(frequency(math.pi**2, 60 * inch), rel=2e-3)


def test_between_centers_there_is_no_chuck_in_the_working_and_no_hinged_bound(bar_of):
    sheet = bar_of({"chuck: {jaws: 3, grip: 3}": "centers: {dog: 1}"})
    figures = sheet.figures
    assert figures["holding.first_frequency"].value == pytest.approx(
        frequency(math.pi**2, 63 * inch), rel=2e-3
    )
    assert "k chuck" not in figures["holding.first_frequency"].working.put
    assert "holding.critical_speed.hinged" not in figures


def test_safe_step_is_the_highest_under_the_houses_share(bar_of):
    sheet = bar_of()
    critical = sheet.figures["holding.critical_speed"].value
    steps = [20, 32, 50, 80, 105, 125, 170, 210, 330, 520, 820, 1200]
    best = max(step for step in steps if step * rev_per_min <= 0.7 * critical)
    assert sheet.figures["holding.safe_step"].value == pytest.approx(best * rev_per_min)
    share = SimpleNamespace(si=0.3, where=None)
    slow = bar_of(house={"chuck_stiffness": CLAMP, "speed_share_of_critical": share})
    best = max(step for step in steps if step * rev_per_min <= 0.3 * slow.figures[
        "holding.critical_speed"
    ].value)
    assert slow.figures["holding.safe_step"].value == pytest.approx(best * rev_per_min)


def test_steps_near_and_above_the_critical_speed_are_named(bar_of):
    sheet = bar_of({"length: 63": "length: 99", "grip: 3}": "grip: 3}"})
    critical = sheet.figures["holding.critical_speed"].value / rev_per_min
    said = sheet.figures["holding.barred_steps"].value
    near = [step for step in (330, 520, 820, 1200) if 0.7 * critical <= step <= 1.3 * critical]
    above = [step for step in (330, 520, 820, 1200) if step > 1.3 * critical]
    assert above
    assert near
    first, _, second = said.partition(";")
    assert all(str(step) in first for step in near)
    assert all(str(step) in second for step in above)
    assert "reached only through it" in second


def test_a_short_stiff_bar_may_take_all_steps(bar_of):
    sheet = bar_of({"length: 63": "length: 13"})
    assert sheet.figures["holding.safe_step"].value == pytest.approx(1200 * rev_per_min)
    assert "all steps" in sheet.figures["holding.safe_step"].note
    assert "holding.barred_steps" not in sheet.figures
    assert "holding.critical_speed.hinged" not in sheet.figures


def test_work_too_short_for_it_has_no_second_frequency(bar_of):
    short = bar_of({"length: 63": "length: 5.9", "length: 10": "length: 2"})
    assert "holding.second_frequency" not in short.figures


def test_unknown_material_has_the_lowest_speed_of_all_that_are_known(bar_of):
    steel = bar_of().figures["holding.critical_speed"].value
    unknown = bar_of({"material: 1045 steel": "material: unknown"})
    assert unknown.figures["holding.critical_speed"].kind is Kind.UNKNOWN
    least = unknown.figures["holding.critical_speed.least"]
    waves = {
        name: math.sqrt(material_group(name).elastic_modulus / material_group(name).density)
        for name in material_groups()
    }
    softest = min(waves, key=waves.get)
    assert softest in least.note
    # a bar on rigid supports whips in proportion to √(E ÷ ρ)
    expected = steel * waves[softest] / math.sqrt(E / RHO)
    assert least.value == pytest.approx(expected, rel=2e-3)
    assert unknown.figures["holding.safe_step"].value < 0.7 * least.value


def test_a_long_bar_behind_the_headstock_wants_a_stand_and_a_bush(bar_of):
    through = {"center: live": "behind_spindle: 20", "length: 63": "length: 13"}
    sheet = bar_of(through)
    assert "20.0 diameters" in found(sheet)["tail-support"].text
    assert "2.125 in" in found(sheet)["tail-support"].text  # 3 1/8 in bore, 1 in bar
    assert found(sheet)["tail-support"].asks
    assert "tail-support" not in found(bar_of({**through, "behind_spindle: 20": "behind_spindle: 2"}))


def test_the_tail_bars_steps_too(bar_of):
    through = {"center: live": "behind_spindle: 60", "length: 63": "length: 13"}
    sheet = bar_of(through)
    tail = sheet.figures["holding.tail.critical_speed"].value
    assert tail < sheet.figures["holding.critical_speed"].value
    assert sheet.figures["holding.safe_step"].value <= 0.7 * tail


def test_a_speed_that_soft_jaws_would_not_bear_is_said(sheet_of):
    """Thread of the pin, its step between 70 % of the hinged and of the held critical speed."""
    tiny = {"speed_share_of_critical": SimpleNamespace(si=1e-3, where=None)}
    figures = sheet_of({"jaws: 4, grip: 3": "jaws: 4, grip: 3, soft_jaws: yes"}, house=tiny).figures
    step = figures["spindle.step"].value
    hinged, held = figures["holding.critical_speed.hinged"].value, figures["holding.critical_speed"].value
    share = SimpleNamespace(si=step / ((hinged + held) / 2), where=None)
    for jaws, level in ((", soft_jaws: yes", "check"), ("", "note")):
        sheet = sheet_of(
            {"jaws: 4, grip: 3": f"jaws: 4, grip: 3{jaws}"}, house={"speed_share_of_critical": share}
        )
        assert found(sheet)["critical-speed-hinged"].level == level
        assert "critical-speed" not in found(sheet)


# -- a mass off the axis ----------------------------------------------------------------------------------

OFF = {"center: live": "center: live\n  unbalance: {mass: 2 lb, radius: 4}"}


def test_the_pull_of_a_mass_off_the_axis(bar_of):
    """F = m r ω² (Thomson), worked here from revolutions a minute."""
    sheet = bar_of(OFF)
    fastest = max(
        figure.value for name, figure in sheet.figures.items()
        if name.startswith("operation.") and name.endswith(".step")
    )
    expected = 2 * lb * 4 * inch * (2 * math.pi * fastest) ** 2
    assert sheet.figures["holding.unbalance.force"].value == pytest.approx(expected)
    weight = sheet.figures["holding.weight"].value * G
    limit = sheet.figures["holding.unbalance.speed"].value
    assert 2 * lb * 4 * inch * (2 * math.pi * limit) ** 2 == pytest.approx(weight / 5)
    assert found(sheet)["unbalance"].level == ("stop" if expected >= weight else "check")
    assert "unbalance" not in found(bar_of({"center: live": OFF["center: live"].replace("2 lb", "0.001 lb")}))


def test_the_mass_holds_the_work_off_its_axis(bar_of):
    """Between two centers, mass in the middle, tool there: F L³ ÷ 48 E I (Roark), and what whirling adds."""
    sheet = bar_of({
        "chuck: {jaws: 3, grip: 3}": "centers: {dog: 1}",
        "center: live": "center: live\n  unbalance: {mass: 0.1 lb, radius: 1, at: 31 1/2}",
        "length: 10": "from_end: 21 1/2, length: 20",
    })
    figures = sheet.figures
    force, critical = figures["holding.unbalance.force"].value, figures["holding.critical_speed"].value
    speed = math.sqrt(force / (0.1 * lb * inch)) / (2 * math.pi)
    still = force * (63 * inch) ** 3 / (48 * E * second_moment(inch))
    expected = still / (1 - (speed / critical) ** 2)
    assert figures["holding.unbalance.deflection"].value == pytest.approx(expected, rel=5e-3)


def test_no_mass_off_the_axis_no_figures(bar_of):
    assert not [name for name in bar_of().figures if name.startswith("holding.unbalance")]
