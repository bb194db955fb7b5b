"""Heat on the sheet: growth between chuck and center, swelling in the steady rest, sizes of warm work."""

from __future__ import annotations

import math

import pytest

from generator.sheet.figure import Kind
from generator.si import inch, lbf, mm, um

STEEL, BRONZE, ALUMINIUM = 11.7e-6, 19e-6, 24e-6  # 1/K, Gere, Appendix H, as the materials' table has them
CUTTING = {"operations:": "heat: {cutting: 15 C}\noperations:"}
MEASURING = {"operations:": "heat: {measuring: 20 F}\noperations:"}
NO_CENTER = {"  center: live\n": ""}
STEADY = {
    "{length: 11 5/8, od: 2.75}": "{length: 40, od: 2.75, surface: turned}",
    "  center: live": "  steady: {at: 30}\n  hold_back: yes",
}
RING = """\
job: T-2
title: Ring
units: inch
lathe: long-bed
material: phosphor bronze
work:
  - {length: 3/4, od: 9 1/4, bore: 8 1/4}
  - {length: 1, od: 9 1/4, bore: 7.919}
holding:
  chuck: {jaws: 4, grip: 1/2, reversed: yes}
mate: {part: barrel, thread: 8-12 UN-2A, engagement: 7/8, on_bench: yes}
operations:
  - thread: {designation: 8-12 UN-2B, length: 1, fit: mate, tool: V4}
"""


def heats(sheet):
    return {name: figure for name, figure in sheet.figures.items() if name.startswith("heat.")}


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


# -- while it is cut ------------------------------------------------------------------------------------


def test_without_a_center_nothing_keeps_the_work_from_growing(sheet_of):
    assert not heats(sheet_of(NO_CENTER))


def test_growth_to_the_center_for_each_ten_degrees_where_nobody_said(sheet_of):
    """α L ΔT over 11.5 in of stick-out (Gere, sec. 2.5)."""
    laid = heats(sheet_of())
    assert laid["heat.cutting"].kind is Kind.ASSUMED
    assert laid["heat.growth"].value == pytest.approx(STEEL * 11.5 * inch * 10)
    assert "ease-center" not in found(sheet_of())


def test_a_warmth_that_is_given_asks_to_ease_the_center(sheet_of):
    sheet = sheet_of(CUTTING)
    assert heats(sheet)["heat.cutting"].kind is Kind.GIVEN
    assert heats(sheet)["heat.growth"].value == pytest.approx(STEEL * 11.5 * inch * 15)
    assert found(sheet)["ease-center"].level == "check"
    assert "27 °F (15 °C)" in found(sheet)["ease-center"].text


def test_push_if_nothing_gave_is_that_of_the_sections_in_a_row(sheet_of):
    """F = α ΔT L ÷ Σ (L ÷ E A): 2.75 in bar, 2.060 in relief, root of the thread, blank in front of it."""
    assert "heat.thrust" not in heats(sheet_of()), "of a warmth that nobody said it would only alarm"
    sheet = sheet_of(CUTTING)
    root = sheet.figures["thread.root"].value
    pieces = [(8.625 * inch, 2.75 * inch), (0.375 * inch, 2.060 * inch), (2.5 * inch, root)]
    gives = sum(length / (205e9 * math.pi / 4 * od**2) for length, od in pieces)
    expected = STEEL * 11.5 * inch * 15 / gives
    assert heats(sheet)["heat.thrust"].value == pytest.approx(expected, rel=1e-6)
    uniform = 205e9 * math.pi / 4 * (2.75 * inch) ** 2 * STEEL * 15
    assert heats(sheet)["heat.thrust"].value < uniform


def test_working_of_growth_multiplies_out_in_the_jobs_own_degrees(sheet_of):
    for sheet, degree in ((sheet_of(), 5 / 9), (sheet_of({"units: inch": "units: mm"}, text=METRIC), 1.0)):
        figure = heats(sheet)["heat.growth"]
        put = {name: value for name, (value, _) in figure.working.put.items()}
        worked = put["size"] * put["expansion in millionths a degree"] * put["warmer by"] / degree / 1e6
        assert figure.value == pytest.approx(worked)


METRIC = """\
job: T-3
title: Pin
units: inch
lathe: metric
material: 1045 steel
work:
  - {length: 300 mm, od: 60 mm}
holding:
  chuck: {jaws: 3, grip: 50 mm}
  center: live
operations:
  - turn: {diameter: 60 mm, length: 200 mm}
"""


def test_the_journal_swells_under_the_steady_rest(sheet_of):
    """α R ΔT; a thin journal that nobody says is warm is not worth a line."""
    laid = heats(sheet_of({**STEADY, **CUTTING}))
    assert laid["heat.steady_swell"].value == pytest.approx(STEEL * 2.75 / 2 * inch * 15)
    assert "heat.growth" not in laid
    assert "heat.steady_swell" not in heats(sheet_of(STEADY))
    thick = {key: value.replace("2.75", "4") for key, value in STEADY.items() if "5/8" in key}
    thick["  center: live"] = STEADY["  center: live"]
    swell = heats(sheet_of(thick))["heat.steady_swell"].value
    assert swell == pytest.approx(STEEL * 2 * inch * 10)
    assert swell > 5 * um


# -- while it is measured -------------------------------------------------------------------------------


def test_steel_whose_growth_is_lost_in_the_tolerance_is_not_spoken_of(sheet_of):
    laid = heats(sheet_of())
    assert "heat.measuring" not in laid
    assert "heat-measure" not in found(sheet_of())


def test_a_bronze_ring_reads_large_while_it_is_warm(sheet_of):
    """8 in bronze: about 0.0016 in for 20 °F at 10 × 10⁻⁶ per °F (common practice, from memory)."""
    sheet = sheet_of(text=RING)
    laid, target = heats(sheet), sheet.figures["thread.target"].value
    assert laid["heat.measuring"].kind is Kind.ASSUMED
    assert laid["heat.pitch_growth"].value == pytest.approx(BRONZE * target * 10)
    assert found(sheet)["heat-measure"].level == "note"
    warm = heats(sheet_of({"operations:": "heat: {measuring: 20 F}\noperations:"}, text=RING))
    assert warm["heat.pitch_growth"].value / inch == pytest.approx(0.0016, abs=1.5e-4)


def test_limits_on_warm_work_lie_by_the_growth_above_the_cold_ones(sheet_of):
    sheet = sheet_of({"operations:": "heat: {measuring: 20 F}\noperations:"}, text=RING)
    grown = sheet.figures["heat.pitch_growth"].value
    assert found(sheet)["heat-measure"].level == "check"
    for name in ("pitch_diameter", "between_balls"):
        for end, rounds in (("max", "down"), ("min", "up")):
            warm, cold = sheet.figures[f"heat.{name}.{end}"], sheet.figures[f"thread.{name}.{end}"]
            assert warm.value == pytest.approx(cold.value + grown)
            assert warm.rounds == rounds


def test_a_warmth_that_is_given_corrects_steel_over_wires_too(sheet_of):
    assert "heat-measure" not in found(sheet_of(MEASURING)), "a thirtieth of the tolerance"
    figures = sheet_of(MEASURING).figures
    grown = STEEL * figures["thread.target"].value * 20 * 5 / 9
    for end in ("max", "min"):
        cold = figures[f"thread.over_wires.{end}"].value
        assert figures[f"heat.over_wires.{end}"].value == pytest.approx(cold + grown)


def test_a_turned_diameter_with_a_close_tolerance_in_aluminium(sheet_of):
    """60 mm of aluminium grows 0.0144 mm in 10 °C; of 0.05 mm that is worth saying, of 0.5 mm not."""
    limits = "limits: {diameter: 0.05 mm}\noperations:"
    text = METRIC.replace("1045 steel", "6082-T6").replace("operations:", limits)
    figure = heats(sheet_of(text=text))["heat.diameter_growth"]
    assert figure.value / mm == pytest.approx(60 * ALUMINIUM * 10)
    assert "heat.diameter_growth" not in heats(sheet_of(text=text.replace("0.05 mm", "0.5 mm")))


def test_a_mate_of_another_material_changes_the_play(sheet_of):
    """A bronze ring on a steel barrel: both 10 K warm, the ring has (19 − 11.7) × 10⁻⁶ × D × 10 more play."""
    sheet = sheet_of({"8-12 UN-2A,": "8-12 UN-2A, material: 1045 steel,"}, text=RING)
    target = sheet.figures["thread.target"].value
    assert sheet.figures["heat.mate_growth"].value == pytest.approx(STEEL * target * 10)
    assert sheet.figures["heat.play_change"].value == pytest.approx((BRONZE - STEEL) * target * 10)
    outside = sheet_of({**MEASURING, "8 UN-2B,": "8 UN-2B, material: phosphor bronze,"})
    target = outside.figures["thread.target"].value
    assert outside.figures["heat.play_change"].value == pytest.approx((BRONZE - STEEL) * target * 20 * 5 / 9)
    same = sheet_of({"8-12 UN-2A,": "8-12 UN-2A, material: phosphor bronze,"}, text=RING)
    assert "heat.play_change" not in same.figures


def test_of_an_unknown_material_nothing_is_guessed(sheet_of):
    unknown = {"material: 1045 steel": "material: unknown", "material_known_by: stamp\n": ""}
    assert not heats(sheet_of(unknown))
    assert heats(sheet_of({**unknown, **CUTTING}))["heat.growth"].kind is Kind.UNKNOWN


def test_the_push_of_the_center_stands_beside_the_push_of_heat(sheet_of):
    push = {"  center: live": "  center: live\n  center_push: 300 lbf"}
    sheet = sheet_of({**CUTTING, **push})
    assert sheet.figures["heat.thrust"].value > 300 * lbf
    assert "300 lbf" in found(sheet)["ease-center"].text
