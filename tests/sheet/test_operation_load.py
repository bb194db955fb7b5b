"""Force, torque, power, roughness, time and taper settings of the route against handbook examples.

Forces are worked by hand with the Kienzle formula (Kienzle, 1952; Koenig and Klocke, Fertigungsverfahren 1).
"""

from __future__ import annotations

import math

import pytest
from pydantic import TypeAdapter

from generator.job import fields
from generator.job.lathe_parts import SpindleStep, TaperAttachment
from generator.job.shop import CuttingTool, Tools
from generator.sheet.compute import compute_sheet
from generator.si import MPa, inch, kW, minute, mm, um

HEAD = """\
job: T-1
title: Shaft
units: mm
lathe: metric
material: 1045 steel
material_known_by: stamp
work:
  - {length: 120, od: 100, surface: turned}
  - {length: 300, od: 90}
holding:
  chuck: {jaws: 3, grip: 70}
  CENTER
mate: unknown
duty: {said: holds a gate, by: customer}
operations:
"""


def given(text, kind="Length"):
    return TypeAdapter(getattr(fields, kind)).validate_python(text)


def text(*operations, center=""):
    head = HEAD.replace("  CENTER\n", f"  center: {center}\n" if center else "")
    return head + "".join(f"  - {one}\n" for one in operations)


def value(sheet, key, number=1):
    return sheet.figures[f"operation.{number}.{key}"].value


def found(sheet, id):
    return next((finding for finding in sheet.findings if finding.id == id), None)


@pytest.fixture
def made(read_of, shop):
    """A sheet of the metric lathe; steel of 1675 N/mm², exponent 0.24; a square tool, nose radius 0.4 mm."""

    def make(body, *, lathe=None, house=None, material=None, tool=None):
        steel = shop.materials["1045 steel"].model_copy(update={
            "specific_force": given("1675 MPa", "Pressure"), "force_exponent": given("0.24", "Number"),
            **(material or {}),
        })
        cutting = CuttingTool.model_validate({
            "name": "S1", "for": ["turn", "face", "bore", "groove", "part off", "taper"],
            "nose_radius": given("0.4 mm"), "entering_angle": given("90 deg", "Angle"), **(tool or {}),
        })
        changed = shop.model_copy(update={
            "materials": {**shop.materials, "1045 steel": steel},
            "lathes": {**shop.lathes, "metric": shop.lathes["metric"].model_copy(update=lathe or {})},
            "house": shop.house.model_copy(update=house or {}),
            "tools": Tools(threading=shop.tools.threading, cutting=[cutting], wires=shop.tools.wires),
        })
        return compute_sheet(read_of(text=body), changed)

    return make


TURN = "turn: {diameter: 86, from_diameter: 90, length: 200, feed: 0.2 mm/rev, cut: 2, finish: 0}"


def test_cutting_force_of_a_handbook_cut(made):
    """2 mm deep at 0.2 mm, 1675 N/mm², 0.24, square tool: k_c 2464.7 N/mm², F_c 985.9 N (by hand)."""
    assert value(made(text(TURN)), "force") == pytest.approx(985.888, abs=1e-3)


def test_a_tool_of_45_degrees_takes_more_force(made):
    """The same cut at 45 degrees: h = 0.1414 mm, F_c 1071.4 N (by hand)."""
    sheet = made(text(TURN), tool={"entering_angle": given("45 deg", "Angle")})
    assert value(sheet, "force") == pytest.approx(1071.399, abs=1e-3)


def test_power_of_the_motor_and_torque(made):
    """F_c v ÷ η and F_c d ÷ 2 (DIN 6584): 985.9 N on 90 mm are 44.36 N m."""
    sheet = made(text(TURN), house={"efficiency": given("0.7", "Number")})
    n = value(sheet, "step")
    assert value(sheet, "torque") == pytest.approx(985.888 * 0.090 / 2, rel=1e-6)
    assert value(sheet, "power") == pytest.approx(985.888 * math.pi * 0.090 * n / 0.7, rel=1e-6)
    assert sheet.figures["operation.efficiency"].text == "0.7"


def test_efficiency_is_assumed_where_the_shop_does_not_say(made):
    sheet = made(text(TURN), house={"efficiency": None})
    assert sheet.figures["operation.efficiency"].assumed
    assert sheet.figures["operation.efficiency"].value == 0.75


def test_force_of_a_grooving_tool(made):
    """3 mm wide at 0.1 mm into the same steel: 873.2 N (by hand)."""
    sheet = made(
        text("groove: {width: 3, depth: 4, from_end: 20, feed: 0.1 mm/rev}"), tool={"width": given("3 mm")}
    )
    assert value(sheet, "force") == pytest.approx(873.2, abs=0.1)


def test_torque_and_thrust_of_a_drill(made):
    """20 mm at 0.3 mm into the same steel: k_c 2740 N/mm², 41.1 N m, 7047 N (by hand).

    The shares of lips and web in the thrust are common practice, no source.
    """
    sheet = made(text("drill: {diameter: 20, depth: 50, feed: 0.3 mm/rev}"))
    assert value(sheet, "torque") == pytest.approx(41.1, abs=0.05)
    assert value(sheet, "force") == pytest.approx(7047, abs=2)
    n = value(sheet, "step")
    assert value(sheet, "power") == pytest.approx(2 * math.pi * value(sheet, "torque") * n / 0.75)


def test_drilling_out_a_hole_takes_less(made):
    sheet = made(text(*(
        f"drill: {{diameter: {size}, depth: 50, feed: 0.3 mm/rev}}" for size in (20, 30)
    )))
    assert value(sheet, "torque", 2) < value(sheet, "torque", 1) * 30**2 / 20**2
    assert value(sheet, "force", 2) < value(sheet, "force", 1)


def test_roughness_of_a_feed_and_a_nose(made):
    """0.1 mm with 0.4 mm: Ra 0.80 µm, f² ÷ (32 r) gives 0.78 (Shaw, from memory; geometry)."""
    sheet = made(text("turn: {diameter: 86, from_diameter: 90, length: 200, feed: 0.1 mm/rev}"))
    assert value(sheet, "roughness") / um == pytest.approx(0.80, abs=0.005)
    assert "1.5 to 3 times" in sheet.figures["operation.1.roughness"].note


def test_a_feed_above_the_nose_radius_leaves_no_roughness_figure(made):
    sheet = made(text("turn: {diameter: 86, from_diameter: 90, length: 200, feed: 0.56 mm/rev}"))
    assert value(sheet, "roughness") is None
    assert "above the nose radius" in sheet.figures["operation.1.roughness"].note


def test_time_of_a_cut(made, shop):
    """200 mm at 0.2 mm and 240 rev/min: 4.167 min (Krar, Technology of Machine Tools, from memory)."""
    one = [SpindleStep(speed=given("240 rpm", "SpindleSpeed"))]
    spindle = shop.lathes["metric"].spindle.model_copy(update={"speeds": one})
    body = text(TURN.replace("cut: 2", "cut: 2, spindle: 240 rpm"))
    sheet = made(body, lathe={"spindle": spindle})
    assert value(sheet, "time") / minute == pytest.approx(4.16667, abs=1e-5)


# -- over the motor, over the step ----------------------------------------------------------------------


@pytest.mark.parametrize(("power", "level"), [("0.9 kW", None), ("0.55 kW", "check"), ("0.45 kW", "stop")])
def test_more_than_the_motor_gives_is_found(made, power, level):
    """985.9 N on 90 mm at 100 rev/min and 0.75 are 0.62 kW (DIN 6584); a quarter over the motor stops."""
    sheet = made(text(TURN), lathe={"power": given(power, "Power")})
    assert value(sheet, "power") / kW == pytest.approx(985.888 * math.pi * 0.09 * 100 / 60 / 0.75e3)
    finding = found(sheet, "operation-power")
    assert (finding.level if finding else None) == level
    if finding:
        assert power in finding.text
        assert "cut" in finding.text


def stepped(shop, **values):
    """The metric lathe's spindle with the same values at every step."""
    own = shop.lathes["metric"].spindle
    return own.model_copy(update={"speeds": [one.model_copy(update=values) for one in own.speeds]})


@pytest.mark.parametrize(("torque", "level"), [("50 N m", None), ("40 N m", "check"), ("30 N m", "stop")])
def test_more_torque_than_the_step_has_is_found(made, shop, torque, level):
    """985.9 N on 90 mm are 44.4 N m (by hand)."""
    sheet = made(text(TURN), lathe={"spindle": stepped(shop, torque=given(torque, "Torque"))})
    finding = found(sheet, "operation-torque")
    assert (finding.level if finding else None) == level


def test_power_of_the_step_counts_at_the_tool(made, shop):
    at_tool = 0.75 * value(made(text(TURN)), "power")
    for power, level in ((1.01 * at_tool, None), (0.9 * at_tool, "check"), (0.5 * at_tool, "stop")):
        spindle = stepped(shop, power=given(f"{power:.3f} W", "Power"))
        finding = found(made(text(TURN), lathe={"spindle": spindle}), "operation-power")
        assert (finding.level if finding else None) == level


def test_a_drill_that_stalls_the_spindle_is_found(made, shop):
    spindle = stepped(shop, torque=given("20 N m", "Torque"), power=None)
    sheet = made(text("drill: {diameter: 20, depth: 50, feed: 0.3 mm/rev}"), lathe={"spindle": spindle})
    assert found(sheet, "operation-torque").level == "stop"


@pytest.mark.parametrize(("torque", "level"), [(42, "check"), (81, "check"), (83, None)])
def test_a_drill_may_want_twice_what_its_lips_do(made, shop, torque, level):
    """41.1 N m by the lips; printed formulas for whole drills give 1 to 2 times as much."""
    spindle = stepped(shop, torque=given(f"{torque} N m", "Torque"), power=None)
    sheet = made(text("drill: {diameter: 20, depth: 50, feed: 0.3 mm/rev}"), lathe={"spindle": spindle})
    finding = found(sheet, "operation-torque")
    assert (finding.level if finding else None) == level
    assert finding is None or "likely up to 2 times as much" in finding.text


def test_without_power_on_record_nothing_is_judged(made, shop):
    spindle = stepped(shop, torque=None, power=None)
    sheet = made(text(TURN), lathe={"power": None, "spindle": spindle})
    assert found(sheet, "operation-power") is None
    assert value(sheet, "power") > 0


# -- tapers ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "per_foot", "half"),
    [("Morse 2", 0.59941, (1, 25, 50)), ("Morse 3", 0.60235, (1, 26, 16)), ("Morse 4", 0.62326, (1, 29, 15))],
)
def test_standard_tapers(made, name, per_foot, half):
    """Taper in a foot and angle from the axis: Machinery's Handbook, Morse tapers (angles from memory)."""
    sheet = made(text(f"taper: {{named: {name}, length: 60}}"))
    assert value(sheet, "per_foot") / inch == pytest.approx(per_foot, abs=6e-6)
    degrees, minutes, seconds = half
    angle = degrees + minutes / 60 + seconds / 3600
    assert math.degrees(value(sheet, "half_angle")) == pytest.approx(angle, abs=1.0 / 3600)


def test_two_diameters_and_a_length(made):
    """30 to 24 mm over 60 mm is 1 in 10: 2.8624 degrees (geometry)."""
    sheet = made(text("taper: {diameter: 30, diameter_end: 24, length: 60, from_diameter: 32}"))
    assert math.degrees(value(sheet, "half_angle")) == pytest.approx(2.862405, abs=1e-6)
    assert sheet.figures["operation.1.depth"].working.put["stock"][0] / mm == pytest.approx(4)


@pytest.mark.parametrize(("zero", "shows"), [("across", 60), ("along", 30)])
def test_the_compound_s_scale_as_this_lathe_has_it(made, zero, shows):
    """A valve at 30 degrees with the axis: the rest is set to 60 (Jones, Turning and Boring, 1914)."""
    sheet = made(text("taper: {angle: 30 deg, diameter: 60, length: 20}"), lathe={"compound_zero": zero})
    assert value(sheet, "by") == "with the compound swiveled"
    assert math.degrees(value(sheet, "compound_scale")) == pytest.approx(shows)
    assert f"{shows:.2f}°" in sheet.operations[0].detail
    assert value(sheet, "compound_travel") / mm == pytest.approx(20 / math.cos(math.radians(30)))


def test_without_the_scale_s_zero_both_readings_are_named(made):
    sheet = made(text("taper: {angle: 30 deg, diameter: 60, length: 20}"), lathe={"compound_zero": None})
    assert value(sheet, "compound_scale") is None
    assert "30.00° or 60.00°" in sheet.operations[0].detail


def attachment(**values):
    return TaperAttachment.model_validate({
        "length": given("400 mm"), "steepest": given("8 deg", "Angle"), "scale": "per foot", **values
    })


def test_a_long_taper_goes_to_the_attachment(made):
    """1 in 16 is 3/4 in a foot (ASME B1.20.1; Jones, 1914)."""
    body = text("taper: {per_foot: 3/4 in, diameter: 90, length: 200}")
    sheet = made(body, lathe={"taper_attachment": attachment()})
    assert value(sheet, "by") == "with the taper attachment"
    assert value(sheet, "attachment_scale") / inch == pytest.approx(0.75)
    half = made(body, lathe={"taper_attachment": attachment(scale="half angle")})
    assert math.degrees(value(half, "attachment_scale")) == pytest.approx(1 + 47 / 60 + 24 / 3600, abs=1e-3)
    full = made(body, lathe={"taper_attachment": attachment(scale="included angle")})
    assert value(full, "attachment_scale") == pytest.approx(2 * value(half, "attachment_scale"))


def test_a_taper_that_this_lathe_has_no_way_to_turn_is_asked_about(made):
    body = text("taper: {per_foot: 3/4 in, diameter: 90, length: 200}")
    sheet = made(body, lathe={"taper_attachment": None})
    assert found(sheet, "taper-no-way").level == "check"
    assert value(sheet, "by") is None


@pytest.mark.parametrize(
    ("by", "lathe", "id", "level"),
    [
        ("compound", {}, "taper-compound", "stop"),
        ("attachment", {"taper_attachment": None}, "taper-attachment", "check"),
        ("attachment", {"taper_attachment": attachment(length=given("100 mm"))}, "taper-attachment", "stop"),
        ("attachment", {"taper_attachment": attachment(steepest=given("1 deg", "Angle"))}, "taper-attachment",
         "stop"),
        ("tailstock", {}, "taper-between-centers", "check"),
    ],
)
def test_the_way_that_the_job_asks_for_is_checked(made, by, lathe, id, level):
    body = text(f"taper: {{per_foot: 3/4 in, diameter: 90, length: 200, by: {by}}}")
    assert found(made(body, lathe=lathe), id).level == level


def test_work_that_is_between_centers_is_not_told_to_go_there(made):
    body = text("taper: {per_foot: 1/4 in, diameter: 90, length: 200, by: tailstock}", center="live")
    sheet = made(body.replace("  chuck: {jaws: 3, grip: 70}", "  centers: {dog: 70}"))
    note = found(sheet, "taper-between-centers")
    assert note.level == "note"
    assert "Line the tailstock up again" in note.text
    assert "jaws" not in note.text


def test_the_tailstock_is_set_over_for_the_whole_length(read_of, shop):
    """3 to 2 in over a piece of 12 in: 1/2 in (US Navy course NAVEDTRA 14345)."""
    body = text("taper: {per_foot: 1 in, diameter: 3 in, length: 11 in, by: tailstock}", center="live")
    for old, new in (
        ("{length: 120, od: 100, surface: turned}", "{length: 2 in, od: 3 in}"),
        ("{length: 300, od: 90}", "{length: 10 in, od: 3 in}"), ("grip: 70", "grip: 1 in"),
    ):
        body = body.replace(old, new)
    sheet = compute_sheet(read_of(text=body), shop)
    assert value(sheet, "tailstock_offset") / inch == pytest.approx(0.5)
    assert found(sheet, "taper-set-over").level == "stop", "this tailstock goes 12 mm"


@pytest.mark.parametrize(
    ("words", "id"),
    [
        ("diameter: 60", "taper-unknown"),
        ("named: Morse 33", "taper-name"),
        ("diameter: 30, diameter_end: 24, length: 60, per_foot: 1 in", "taper-differs"),
        ("diameter: 10, per_foot: 3 in, length: 100", "taper-shape"),
    ],
)
def test_a_taper_that_is_not_one_is_asked_about(made, words, id):
    assert found(made(text(f"taper: {{{words}}}")), id).asks


def test_the_shop_s_own_force_counts(made):
    light = made(text(TURN), material={"specific_force": given("837.5 MPa", "Pressure")})
    assert value(light, "force") == pytest.approx(985.888 / 2, abs=1e-3)
    assert light.figures["operation.1.force"].working.put["kc1.1"][0] == pytest.approx(837.5 * MPa)
    assert "jobs/_shop/materials.yml" in light.figures["operation.1.force"].source
