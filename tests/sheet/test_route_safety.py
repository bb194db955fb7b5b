"""What throws work: a whipping tail, an end without its center, tips that burn, a blade far out."""

from __future__ import annotations

import math

import pytest

from generator.si import ft_per_min, inch, rev_per_min

LONG = """\
job: T-1
title: Shaft
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {length: 62, od: 2 in, surface: turned}
holding: HOLDING
mate: unknown
duty: {said: holds a gate, by: customer}
operations:
"""


def text(holding, *operations):
    return LONG.replace("HOLDING", holding) + "".join(f"  - {one}\n" for one in operations)


def found(sheet, id):
    return [finding for finding in sheet.findings if finding.id == id]


def step(sheet, number=1):
    return sheet.figures[f"operation.{number}.step"].value


def whip(length, diameter):
    """First bending frequency of a steel cantilever, rev/s: 3.516 ÷ (2π L²) √(E I ÷ ρ A)

    (Thomson, Theory of Vibration with Applications; E and ρ of steel as in any handbook).
    """
    return 3.516 / (2 * math.pi * length**2) * math.sqrt(205e9 * diameter**2 / (16 * 7850))


CENTERED = "{chuck: {jaws: 3, grip: 2}, center: live}"


@pytest.mark.parametrize("cut", ["center_drill: {end: right, diameter: 3/16, depth: 3/8}",
                                 "drill: {diameter: 3/8, depth: 1}"])
def test_a_long_shaft_turns_no_faster_without_its_center_than_it_bears(sheet_of, cut):
    sheet = sheet_of(text=text(CENTERED, cut))
    free = whip(60 * inch, 2 * inch)
    open_end = sheet.figures["holding.open_end.critical_speed"].value
    assert 0.5 * free < open_end <= 1.02 * free  # a chuck that gives lowers it
    assert step(sheet) <= 0.7 * open_end
    assert "without the center" in sheet.figures["operation.1.step"].working.formula
    assert "30.0 diameters" in found(sheet, "open-end")[0].text


def test_a_short_end_needs_no_center_to_be_faced(sheet_of):
    short = text("{chuck: {jaws: 3, grip: 2}, center: live}", "face: {stock: 1/32}").replace("62", "6")
    assert not found(sheet_of(text=short), "open-end")


def test_a_steady_rest_stands_in_for_the_center(sheet_of):
    sheet = sheet_of(text=text("{chuck: {jaws: 3, grip: 2}, steady: {at: 55}, center: live}",
                               "face: {stock: 1/32}"))
    assert not found(sheet, "open-end")
    assert "holding.open_end.critical_speed" not in sheet.figures


def test_a_step_asked_for_is_held_against_the_end_without_its_center(sheet_of):
    sheet = sheet_of(text=text(CENTERED, "center_drill: {diameter: 3/16, depth: 3/8, spindle: 1200 rpm}"))
    assert [one.level for one in found(sheet, "operation-whip")] == ["stop"]


def test_every_cut_stays_below_the_whip_of_the_bar_behind_the_headstock(sheet_of):
    sheet = sheet_of(text=text(
        "{chuck: {jaws: 3, grip: 58}, behind_spindle: 40}",
        "turn: {diameter: 1 in, from_diameter: 1 1/16, length: 1}",
    ).replace("2 in", "1 in"))
    tail = sheet.figures["holding.tail.critical_speed"].value
    assert tail == pytest.approx(whip(40 * inch, 1 * inch), rel=0.02)
    assert sheet.figures["operation.1.spindle_wanted"].value / rev_per_min > 330
    assert step(sheet) <= 0.7 * tail


def test_a_step_asked_for_above_the_whip_of_the_tail_is_stopped(sheet_of):
    sheet = sheet_of(text=text(
        "{chuck: {jaws: 3, grip: 58}, behind_spindle: 50}",
        "turn: {diameter: 1 in, from_diameter: 1 1/16, length: 1, spindle: 1200 rpm}",
    ).replace("2 in", "1 in"))
    of_tail = [one for one in found(sheet, "operation-whip") if "behind the headstock" in one.text]
    assert [one.level for one in of_tail] == ["stop"]


def test_a_step_asked_for_is_held_against_the_tips_of_the_steady_rest(sheet_of):
    """Bronze tips to 100 ft/min: common practice, no source."""
    holding = "{chuck: {jaws: 3, grip: 2}, steady: {at: 55}, hold_back: yes}"
    cut = "face: {stock: 1/32, spindle: SET rpm}"
    most = 100 * ft_per_min / (math.pi * 2 * inch) / rev_per_min
    assert 170 < most < 210
    assert found(sheet_of(text=text(holding, cut.replace("SET", "210"))), "operation-tips")
    assert not found(sheet_of(text=text(holding, cut.replace("SET", "170"))), "operation-tips")


def test_parting_far_from_the_jaws_is_warned_of(sheet_of):
    far, near = ("part_off: {from_end: PLACE}".replace("PLACE", place) for place in ("4", "7"))
    short = text("{chuck: {jaws: 3, grip: 2}}", far).replace("62", "10")
    assert "2.0 diameters" in found(sheet_of(text=short), "part-off-far")[0].text
    assert not found(sheet_of(text=short.replace(far, near)), "part-off-far")


def test_a_groove_deeper_than_the_work_is_stopped(sheet_of):
    sheet = sheet_of(text=text("{chuck: {jaws: 3, grip: 2}}", "groove: {width: 1/8, depth: 1, from_end: 1}"))
    assert "cuts it through" in found(sheet, "groove-deep")[0].text
    assert all("−" not in one.text for one in found(sheet, "no-wall"))


def test_a_bar_is_as_long_as_its_bore_lies_deep(sheet_of):
    """A bore of 1 in that begins 6 in from the open end wants a bar of 7 in."""
    bored = text("{chuck: {jaws: 3, grip: 2}}",
                 "bore: {diameter: 1 1/4, from_diameter: 1 1/8, length: 1, from_end: 6, tool: B1}")
    sheet = sheet_of(text=bored.replace("62, od: 2 in", "12, od: 2 in, bore: 1 1/8"))
    assert "7.000 in" in found(sheet, "tool-short")[0].text
    assert "9.3 of its diameters" in found(sheet, "bar-slender")[0].text


def test_parting_where_the_cuts_left_no_wall_gives_no_figure_below_zero(sheet_of):
    thin = text("{chuck: {jaws: 3, grip: 2}}", "part_off: {from_end: 7}")
    sheet = sheet_of(text=thin.replace("62, od: 2 in", "10, od: 2 in, bore: 3"))
    assert found(sheet, "nothing-to-cut")
    assert "operation.1.blade_out" not in sheet.figures


def test_work_that_hardly_stands_out_is_asked_about_and_gives_no_absurd_figure(sheet_of):
    """A quarter of a micrometre out of the jaws."""
    short = text("{chuck: {jaws: 3, grip: 1}}", "face: {stock: 1/64}")
    sheet = sheet_of(text=short.replace("{length: 62, od: 2 in", "{length: 1.00001, od: 3/16"))
    assert found(sheet, "grip-too-long")[0].level == "stop"
    values = {name: one.value for name, one in sheet.figures.items() if isinstance(one.value, float)}
    assert all(math.isfinite(value) for value in values.values())
    assert all(value >= 0 for name, value in values.items() if name.startswith(("holding.", "give.")))
