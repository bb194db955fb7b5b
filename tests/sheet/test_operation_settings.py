"""Settings of each kind of operation on the demo shop's three lathes; steps, feeds, cuts, dials, findings."""

from __future__ import annotations

import math

import pytest
from pydantic import TypeAdapter

from generator.calc.spindle import highest_step
from generator.job import fields
from generator.job.shop import CuttingTool, Tools
from generator.sheet.compute import compute_sheet
from generator.sheet.figure import Kind
from generator.si import ft_per_min, inch, rev_per_min
from generator.tables.cutting_feeds import feed_range
from generator.tables.cutting_speeds import speed_range

INCH = """\
job: T-1
title: Spindle
units: UNITS
lathe: LATHE
material: 1045 steel
material_known_by: stamp
work:
  - {length: 8 in, od: 2 1/2 in, surface: turned}
  - {length: 4 in, od: 2 in}
holding:
  chuck: {jaws: 3, grip: 2 in}
mate: unknown
duty: {said: holds a gate, by: customer}
operations:
"""
LATHES = ("long-bed", "thirteen-inch", "metric")


def text(*operations, lathe="long-bed"):
    head = INCH.replace("LATHE", lathe).replace("UNITS", "mm" if lathe == "metric" else "inch")
    return head + "".join(f"  - {one}\n" for one in operations)


def figure(sheet, key, number=1):
    return sheet.figures[f"operation.{number}.{key}"]


def value(sheet, key, number=1):
    return figure(sheet, key, number).value


def found(sheet, id):
    return next((finding for finding in sheet.findings if finding.id == id), None)


def given(text, kind="Length"):
    return TypeAdapter(getattr(fields, kind)).validate_python(text)


def one_tool(shop, **tool):
    cutting = [CuttingTool.model_validate(tool)]
    return Tools(threading=shop.tools.threading, cutting=cutting, wires=shop.tools.wires)


TURN = "turn: {diameter: 1.8 in, from_diameter: 2 in, length: 3 in}"


# -- step and feed of this lathe ------------------------------------------------------------------------


@pytest.mark.parametrize("lathe", LATHES)
def test_step_is_the_highest_of_this_lathe_not_above_the_cutting_speed(sheet_of, shop, lathe):
    """n = 12 v / (π D) (US Army OD1645), then the next lower step (common practice)."""
    sheet = sheet_of(text=text(TURN, lathe=lathe))
    upper = speed_range("medium-carbon steel", "turn rough").high
    assert value(sheet, "surface_speed") == pytest.approx(upper)
    wanted = 12 * (upper / ft_per_min) / (math.pi * 2)
    assert value(sheet, "spindle_wanted") / rev_per_min == pytest.approx(wanted)
    steps = [step.si / rev_per_min for step in shop.lathes[lathe].spindle.speeds]
    assert value(sheet, "step") / rev_per_min == pytest.approx(highest_step(steps, wanted))


def test_the_handbook_s_speed_gives_the_step(sheet_of):
    """100 ft/min on 2 in is 191 rev/min (US Army course OD1645); the long lathe has 170 next below."""
    sheet = sheet_of(text=text("turn: {diameter: 1.8, from_diameter: 2, length: 3, speed: 100 ft/min}"))
    assert value(sheet, "spindle_wanted") / rev_per_min == pytest.approx(191, abs=0.05)
    assert value(sheet, "step") / rev_per_min == pytest.approx(170)
    assert figure(sheet, "surface_speed").kind is Kind.GIVEN


@pytest.mark.parametrize("lathe", LATHES)
def test_feeds_are_the_lathe_s_next_below_the_shop_s_own(sheet_of, shop, lathe):
    """House rules: 0.010 in roughing, 0.004 in finishing (invented shop)."""
    sheet = sheet_of(text=text(TURN, lathe=lathe))
    along = [step.si for step in shop.lathes[lathe].feeds.along]
    assert value(sheet, "feed") == max(step for step in along if step <= 0.010 * inch * (1 + 1e-6))
    assert value(sheet, "finish_feed") == max(step for step in along if step <= 0.004 * inch * (1 + 1e-6))


def test_without_house_rules_the_table_s_upper_end_holds(sheet_of, shop):
    sheet = sheet_of(text=text(TURN), house={"rough_feed": None, "finish_feed": None})
    along = [step.si for step in shop.lathes["long-bed"].feeds.along]
    table = feed_range("turn rough")
    assert value(sheet, "feed") == max(step for step in along if step <= table.high)
    assert table.source in figure(sheet, "feed").source


def test_facing_and_grooving_take_the_feeds_across(sheet_of, shop):
    sheet = sheet_of(text=text("face: {end: right}", "groove: {width: 1/4, depth: 1/8, from_end: 1}"))
    across = {step.si for step in shop.lathes["long-bed"].feeds.across}
    assert value(sheet, "feed", 1) in across
    assert value(sheet, "feed", 2) in across


def test_a_feed_that_the_lathe_does_not_have_names_its_neighbors(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.8, from_diameter: 2, length: 3, feed: 0.006 in/rev}"))
    check = found(sheet, "operation-feed")
    assert check.level == "check"
    assert "0.0050 in/rev" in check.text
    assert "0.0070 in/rev" in check.text
    sheet = sheet_of(text=text("turn: {diameter: 1.8, from_diameter: 2, length: 3, feed: 0.007 in/rev}"))
    assert found(sheet, "operation-feed") is None
    assert value(sheet, "feed") == pytest.approx(0.007 * inch)


def test_without_feeds_on_record_the_range_stands(sheet_of):
    sheet = sheet_of(text=text(TURN), lathe={"feeds": None}, house={"rough_feed": None, "finish_feed": None})
    assert "as the levers give" in value(sheet, "feed")
    assert "0.005 to 0.015 in/rev" in value(sheet, "feed"), "a machine-shop course, table of lathe feeds"
    assert figure(sheet, "feed").quantity == "text"
    assert value(sheet, "force") > 0, "at the fast end"
    assert figure(sheet, "roughness").kind is Kind.UNKNOWN
    assert sheet.ready


def test_a_lathe_whose_finest_feed_is_too_coarse_asks(sheet_of, shop):
    coarse = shop.lathes["long-bed"].feeds.model_copy(update={"along": [given("0.040 in/rev", "FeedPerRev")]})
    sheet = sheet_of(text=text(TURN), lathe={"feeds": coarse})
    assert found(sheet, "operation-feed-coarse").level == "check"
    assert value(sheet, "feed") is None
    assert value(sheet, "time") is None


def test_a_step_that_the_lathe_does_not_have_stops_with_its_neighbors(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.8, from_diameter: 2, length: 3, spindle: 100 rpm}"))
    stop = found(sheet, "operation-step")
    assert stop.level == "stop"
    assert "80 rpm and 105 rpm" in stop.text
    assert not sheet.ready


def test_a_step_above_the_cutting_speed_is_asked_about(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.8, from_diameter: 2, length: 3, spindle: 820 rpm}"))
    assert found(sheet, "operation-fast").level == "check"
    assert value(sheet, "step") / rev_per_min == pytest.approx(820)


def test_a_speed_above_the_material_s_range_is_asked_about(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.8, from_diameter: 2, length: 3, speed: 300 ft/min}"))
    assert found(sheet, "operation-speed").level == "check"


def test_the_step_stays_below_the_chuck_s_mark(sheet_of, shop):
    slow = [one.model_copy(update={"top_speed": given("90 rpm", "SpindleSpeed")})
            for one in shop.lathes["long-bed"].chucks]
    sheet = sheet_of(text=text(TURN), lathe={"chucks": slow})
    assert value(sheet, "step") / rev_per_min == pytest.approx(80)
    assert "the chuck's own" in figure(sheet, "step").working.put


def test_in_a_steady_rest_its_tips_hold_the_step_down(sheet_of):
    """Bronze tips: about 100 ft/min on the band (common practice, no source)."""
    center = "center_drill: {end: right, diameter: 3/16}"
    held = text(center).replace("grip: 2 in}", "grip: 2 in}\n  steady: {at: 5}\n  hold_back: yes")
    alone, steadied = (sheet_of(text=one) for one in (text(center), held))
    assert value(alone, "step") / rev_per_min == pytest.approx(1200)
    limit = 12 * 100 / (math.pi * 2.5)
    assert value(steadied, "step") / rev_per_min == pytest.approx(125)
    assert 125 < limit < 170


def test_a_lathe_that_cannot_turn_slowly_enough_asks(sheet_of, shop):
    spindle = shop.lathes["long-bed"].spindle
    fast = spindle.model_copy(update={"speeds": spindle.speeds[-2:]})
    sheet = sheet_of(text=text(TURN), lathe={"spindle": fast})
    assert found(sheet, "operation-too-fast").level == "check"
    assert value(sheet, "step") is None
    assert value(sheet, "power") is None


# -- material -------------------------------------------------------------------------------------------


def test_of_an_unknown_material_the_slowest_speed_holds_and_is_asked_about(sheet_of):
    body = text(TURN).replace("material: 1045 steel\nmaterial_known_by: stamp", "material: unknown")
    sheet = sheet_of(text=body)
    everything = speed_range(None, "turn rough")
    assert value(sheet, "surface_speed") == pytest.approx(everything.low)
    assert figure(sheet, "surface_speed").kind is Kind.ASSUMED
    check = found(sheet, "speed-unknown-material")
    assert check.level == "check"
    assert check.asks
    assert value(sheet, "force") is None
    assert "material is unknown" in figure(sheet, "force").note


@pytest.mark.parametrize(
    ("own", "operation", "expected"),
    [
        ({"turning_speed": "50 ft/min"}, TURN, 50),
        ({"turning_speed": "50 ft/min"}, TURN.replace("}", ", tool: T2}"), 150),
        ({"carbide_speed": "333 ft/min"}, TURN.replace("}", ", tool: T2}"), 333),
        ({"drilling_speed": "44 ft/min"}, "drill: {diameter: 1/2, depth: 1}", 44),
    ],
)
def test_the_shop_s_own_speeds_go_before_the_table_s(read_of, shop, own, operation, expected):
    """Carbide two to three times high-speed steel: US Navy course NAVEDTRA 14345."""
    key, speed = next(iter(own.items()))
    steel = shop.materials["1045 steel"].model_copy(update={key: given(speed, "SurfaceSpeed")})
    changed = shop.model_copy(update={"materials": {**shop.materials, "1045 steel": steel}})
    sheet = compute_sheet(read_of(text=text(operation)), changed)
    assert value(sheet, "surface_speed") / ft_per_min == pytest.approx(expected)
    assert figure(sheet, "surface_speed").kind is Kind.SHOP


# -- cuts and dials -------------------------------------------------------------------------------------


def test_stock_comes_off_in_whole_graduations(sheet_of):
    """0.200 in on the radius, 0.080 in roughing and 0.010 in finishing: 3 x, the last 0.010 (arithmetic)."""
    sheet = sheet_of(text=text("turn: {diameter: 1.6, from_diameter: 2, length: 3}"))
    assert value(sheet, "passes") == 4
    assert value(sheet, "depth") / inch <= 0.080
    assert value(sheet, "last_cut") / inch == pytest.approx(0.010)
    assert value(sheet, "dial") == "1 turn and 0.000 in, on the diameter", "0.400 in is one turn of this dial"


@pytest.mark.parametrize(
    ("lathe", "expected"),
    [
        ("long-bed", "0.200 in, on the diameter"),
        ("thirteen-inch", "1 turn and 0.000 in, on the radius"),
        ("metric", "1 turn and 1.08 mm, on the diameter"),
    ],
)
def test_the_dial_is_read_as_this_lathe_s_is_marked(sheet_of, lathe, expected):
    """0.100 in on the radius is 0.200 in or 5.08 mm on the diameter (arithmetic)."""
    assert value(sheet_of(text=text(TURN, lathe=lathe)), "dial") == expected


def test_the_job_s_own_cut_and_finish_go_first(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.6, from_diameter: 2, length: 3, cut: 0.05, finish: 0}"))
    assert value(sheet, "passes") == 4
    assert value(sheet, "depth") / inch == pytest.approx(0.05)


def test_a_single_finishing_cut_runs_at_the_finishing_feed(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.98, from_diameter: 2, length: 3}"))
    assert value(sheet, "passes") == 1
    assert value(sheet, "feed") / inch == pytest.approx(0.004)
    assert "operation.1.finish_feed" not in sheet.figures


def test_work_that_has_its_final_diameter_leaves_the_cuts_unknown(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 2, length: 3}"))
    for key in ("passes", "depth", "dial", "force", "power", "time"):
        assert value(sheet, key) is None, key
    assert "from_diameter" in figure(sheet, "passes").note
    assert value(sheet, "step") is not None
    assert value(sheet, "time_each") > 0


def test_each_operation_meets_what_the_one_before_left(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.8, length: 3}", "turn: {diameter: 1.5, length: 1}"))
    assert figure(sheet, "depth", 2).working.put["stock"][0] / inch == pytest.approx(0.15)
    sheet = sheet_of(text=text("drill: {diameter: 1, depth: 3}", "bore: {diameter: 1.2, length: 2}"))
    assert figure(sheet, "depth", 2).working.put["stock"][0] / inch == pytest.approx(0.1)


def test_a_larger_diameter_than_the_work_has_is_asked_about(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 3, length: 3}"))
    assert found(sheet, "nothing-to-cut").level == "check"


def test_a_cut_beside_the_work_stops(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1, length: 3, from_end: 20}"))
    assert found(sheet, "operation-off-work").level == "stop"


def test_facing_counts_along_the_work_on_the_carriage_dial(sheet_of, shop):
    sheet = sheet_of(text=text("face: {end: right, stock: 0.060}"))
    assert value(sheet, "dial") == "0.06 in"
    assert value(sheet, "depth") / inch == pytest.approx(0.05)
    assert figure(sheet, "passes").working.put["stock"][0] / inch == pytest.approx(0.06)
    sheet = sheet_of(text=text("face: {end: right, stock: 0.060}"), lathe={"carriage_dial": None})
    assert value(sheet, "dial") is None
    assert "carriage" in figure(sheet, "dial").note
    assert found(sheet_of(text=text("face: {end: left}")), "end-in-chuck").level == "check"


# -- kinds ----------------------------------------------------------------------------------------------


def test_a_center_drill_turns_by_its_pilot(sheet_of):
    sheet = sheet_of(text=text("center_drill: {end: right, diameter: 1/4, depth: 1/4}"))
    assert figure(sheet, "spindle_wanted").working.put["d"][0] / inch == pytest.approx(0.25)
    assert "by hand" in value(sheet, "feed")
    sheet = sheet_of(text=text("center_drill: {end: right}"), tools=Tools())
    assert value(sheet, "step") is None
    assert "pilot" in figure(sheet, "spindle_wanted").note


def test_a_deep_hole_is_pecked_and_a_shallow_one_is_not(sheet_of):
    """Three diameters, then out after each further one (common practice, no source)."""
    sheet = sheet_of(text=text("drill: {diameter: 1/2, depth: 1 1/2}", "drill: {diameter: 3/4, depth: 4}"))
    assert value(sheet, "passes", 1) == 1
    assert value(sheet, "passes", 2) == 1 + math.ceil((4 - 3 * 0.75) / 0.75)


def test_a_reamed_hole_is_drilled_smaller_and_reamed_slower(sheet_of):
    sheet = sheet_of(text=text("drill: {diameter: 1/2, depth: 1, ream: yes}"))
    assert 0 < 0.5 - value(sheet, "drill") / inch < 0.02
    assert value(sheet, "ream_step") < value(sheet, "step")


@pytest.mark.parametrize("words", ["across: yes, from_end: 1", "from_end: 1"])
def test_a_hole_across_the_work_has_no_settings_of_this_lathe(sheet_of, words):
    sheet = sheet_of(text=text(f"drill: {{diameter: 3/8, {words}}}"))
    line = sheet.operations[0]
    assert "another machine" in line.detail
    assert set(line.figures) == {"time"}
    assert value(sheet, "time") is None
    assert "operation.1.step" not in sheet.figures


def test_a_drill_longer_than_its_tool_stops(sheet_of):
    sheet = sheet_of(text=text("drill: {diameter: 1/2, depth: 5, tool: D2}"))
    assert found(sheet, "tool-short").level == "stop"


def test_a_bore_needs_a_hole_a_thin_bar_and_a_long_one(sheet_of, shop):
    assert found(sheet_of(text=text("bore: {diameter: 1, length: 2}")), "bore-no-hole").level == "check"
    hole = "drill: {diameter: 1/2, depth: 6}"
    bar = one_tool(shop, name="B9", **{"for": ["bore"]}, bar=given("3/4 in"), reach=given("4 in"))
    sheet = sheet_of(text=text(hole, "bore: {diameter: 1, length: 5}"), tools=bar)
    assert found(sheet, "bar-thick").level == "stop"
    assert found(sheet, "bar-slender").level == "check"
    assert found(sheet, "tool-short").level == "stop"


def test_a_bore_as_large_as_the_work_stops(sheet_of):
    sheet = sheet_of(text=text("drill: {diameter: 1, depth: 3}", "bore: {diameter: 2, length: 3}"))
    assert found(sheet, "operation-no-wall").level == "stop"


def test_a_groove_is_cut_beside_itself_when_the_tool_is_narrower(sheet_of, shop):
    tool = one_tool(shop, name="G9", **{"for": ["groove"]}, width=given("1/8 in"), reach=given("1/2 in"))
    sheet = sheet_of(text=text("groove: {width: 1/2, depth: 1/8, from_end: 1}"), tools=tool)
    assert value(sheet, "passes") == 4
    assert value(sheet, "depth") / inch == pytest.approx(0.125)
    wide = sheet_of(text=text("groove: {width: 1/16, depth: 1/8, from_end: 1}"), tools=tool)
    assert found(wide, "tool-wide").level == "stop"
    deep = sheet_of(text=text("groove: {width: 1/4, depth: 3/4, from_end: 1}"), tools=tool)
    assert found(deep, "tool-short").level == "stop"


def test_a_chamfer_has_the_depth_of_its_width_and_angle(sheet_of):
    sheet = sheet_of(text=text("chamfer: {end: right, width: 1/8, angle: 30}"))
    assert value(sheet, "depth") / inch == pytest.approx(math.tan(math.radians(30)) / 8)
    sheet = sheet_of(text=text("chamfer: {end: right, width: 1/8}"))
    assert figure(sheet, "angle").kind is Kind.ASSUMED
    assert math.degrees(value(sheet, "angle")) == pytest.approx(45)


def test_a_chamfer_at_the_thread_goes_to_its_root(sheet_of):
    body = text("chamfer: {end: right, angle: 45}", "thread: {designation: 2-8 UN-2A, length: 2, tool: V1}")
    sheet = sheet_of(text=body)
    assert value(sheet, "depth") == pytest.approx(sheet.figures["thread.depth"].value)


@pytest.mark.parametrize(("angle", "id"), [("45", "lead-in-steep"), ("25", "lead-in-angle"), ("15", None),
                                           ("20", None)])
def test_a_seal_lead_in_is_slow_and_larger_than_the_ring(sheet_of, angle, id):
    """15 to 20 degrees, at most 30 (seal makers' guidance)."""
    sheet = sheet_of(text=text(f"chamfer: {{end: right, lead_in: yes, angle: {angle}, width: 1/8}}"))
    ids = {finding.id for finding in sheet.findings}
    assert {one for one in ids if one in ("lead-in-steep", "lead-in-angle")} == ({id} if id else set())
    assert found(sheet, "lead-in-ring").asks
    assert "no burr" in sheet.operations[0].detail


def test_a_knurl_whose_pitch_does_not_go_round_names_the_blanks_that_fit(sheet_of):
    """1 in and 1 mm: 79.8 teeth; 25.15 and 25.46 mm take 79 and 80 (arithmetic)."""
    sheet = sheet_of(text=text("knurl: {pitch: 1 mm, length: 1, from_diameter: 1}"))
    assert value(sheet, "teeth") == pytest.approx(79.796, abs=1e-3)
    assert value(sheet, "over_knurl") == pytest.approx(26.4e-3)  # blank and pitch, a textbook's rule
    assert "1.0197 in" in figure(sheet, "over_knurl").note  # half the pitch, a tool maker's rule
    note = found(sheet, "knurl-pitch")
    assert note.level == "note"
    assert "25.146 mm" in note.text
    assert "25.465 mm" in note.text
    assert value(sheet, "force") is None
    fits = sheet_of(text=text(f"knurl: {{pitch: {math.pi:.6f} mm, length: 1, from_diameter: 50 mm}}"))
    assert found(fits, "knurl-pitch") is None


def test_parting_off_says_what_falls_and_what_climbs(sheet_of):
    sheet = sheet_of(text=text("part_off: {from_end: 3}"))
    assert "parting-off" in {caution.id for caution in sheet.cautions}
    assert found(sheet, "part-off-center") is None
    assert value(sheet, "blade_out") / inch == pytest.approx(1)
    held = text("part_off: {from_end: 3}").replace("grip: 2 in}", "grip: 2 in}\n  center: live")
    assert found(sheet_of(text=held), "part-off-center").level == "check"
    assert found(sheet_of(text=text("part_off:")), "part-off-place").asks


def test_a_slender_or_short_blade_is_found(sheet_of, shop):
    tool = one_tool(shop, name="P9", **{"for": ["part off"]}, width=given("1/16 in"), reach=given("3/4 in"))
    sheet = sheet_of(text=text("part_off: {from_end: 3}"), tools=tool)
    assert found(sheet, "blade-slender").level == "check"
    assert found(sheet, "tool-short").level == "stop"


def test_polishing_warns_of_emery_in_the_hand(sheet_of):
    sheet = sheet_of(text=text("polish: {length: 2}"))
    assert "emery-file" in {caution.id for caution in sheet.cautions}
    assert "never in the hand" in sheet.operations[0].detail


def test_the_thread_refers_to_its_own_sections(sheet_of):
    sheet = sheet_of(text=text("face:", "thread: {designation: 2-8 UN-2A, length: 2, tool: V1}"))
    columns = sheet.operations[1].figures
    assert columns["step"] == "spindle.step"
    assert columns["passes"] == "passes.count"
    assert columns["force"] == "passes.largest_force"
    assert "operation.2.step" not in sheet.figures


def test_the_tool_named_is_taken_and_else_the_one_that_fits(sheet_of):
    sheet = sheet_of(text=text("turn: {diameter: 1.8, from_diameter: 2, length: 3, tool: T2}", TURN))
    assert value(sheet, "tool", 1) == "T2, carbide"
    assert value(sheet, "tool", 2) == "T1, high-speed steel"
    assert value(sheet, "step", 1) > value(sheet, "step", 2)
    none = sheet_of(text=text(TURN), tools=Tools())
    assert figure(none, "tool").kind is Kind.ASSUMED
    assert figure(none, "roughness").kind is Kind.UNKNOWN


@pytest.mark.parametrize("lathe", LATHES)
def test_every_kind_of_operation_runs_on_every_lathe(sheet_of, lathe):
    every = (
        "face: {end: right, stock: 0.02 in}", "center_drill: {end: right, depth: 0.2 in}", TURN,
        "taper: {diameter: 1.8 in, diameter_end: 1.7 in, length: 2 in, from_diameter: 1.8 in}",
        "drill: {diameter: 3/4 in, depth: 2 in}", "bore: {diameter: 1 in, length: 2 in, seal: yes}",
        "groove: {width: 1/4 in, depth: 1/8 in, from_end: 2 in}",
        "chamfer: {end: right, inside: yes, lead_in: yes, angle: 20 deg, depth: 0.05 in}",
        "knurl: {pitch: 1/16 in, length: 1 in, from_end: 4 1/2 in}", "polish: {length: 1 in}",
        "part_off: {from_end: 3 1/2 in}",
    )
    sheet = sheet_of(text=text(*every, lathe=lathe))
    assert len(sheet.operations) == len(every)
    for line in sheet.operations:
        assert sheet.figures[line.figures["step"]].value > 0, line.title
        assert sheet.figures[f"operation.{line.number}.surface_speed"].source
    assert {one.id for one in sheet.findings if one.level == "stop"} == set()


def test_a_relief_cannot_be_sharper_than_the_tool_s_nose(sheet_of, shop):
    relief = "relief: {width: 3/8, radius: 1/32}"
    thread = "thread: {designation: 2-8 UN-2A, length: 2, tool: V1}"
    for nose, id in (("1/16 in", "tool-nose"), ("1/32 in", None)):
        tool = one_tool(shop, name="G9", **{"for": ["relief"]}, nose_radius=given(nose))
        sheet = sheet_of(text=text(relief, thread), tools=tool)
        assert (found(sheet, "tool-nose") is not None) == (id is not None)


def test_a_chamfer_s_force_goes_with_its_edge(sheet_of):
    """An edge of 1/8 in at 45 degrees is 0.177 in long (geometry)."""
    sheet = sheet_of(text=text("chamfer: {end: right, width: 1/8, angle: 45}"))
    assert figure(sheet, "force").working.put["width"][0] / inch == pytest.approx(0.125 * math.sqrt(2))
    assert value(sheet, "power") > 0


def test_facing_and_boring_end_with_the_finishing_feed(sheet_of):
    sheet = sheet_of(text=text(
        "face: {end: right, stock: 0.060}", "drill: {diameter: 1, depth: 3}",
        "bore: {diameter: 1.2, length: 2}",
    ))
    for number in (1, 3):
        assert value(sheet, "feed", number) / inch == pytest.approx(0.010)
        assert value(sheet, "finish_feed", number) <= 0.004 * inch * (1 + 1e-9)
        assert "last cut 0.010 in at 0.00" in sheet.operations[number - 1].detail


def test_reaming_time_comes_to_the_drilling(sheet_of):
    drilled, reamed = (
        value(sheet_of(text=text(f"drill: {{diameter: 1/2, depth: 1{words}}}")), "time")
        for words in ("", ", ream: yes")
    )
    assert reamed > drilled


def test_a_reading_between_two_lines_is_shown_finer(sheet_of):
    """1/64 in is 15.625 graduations of 0.001 in (arithmetic)."""
    sheet = sheet_of(text=text("groove: {width: 1/4, depth: 1/64, from_end: 1}", lathe="thirteen-inch"))
    assert value(sheet, "dial") == "0.0156 in, on the radius"


NOMINAL = "thread: {designation: 2 1/2-8 UN-2A, length: 2, tool: V1}"


def threaded(turn):
    return text(turn, NOMINAL).replace("{length: 4 in, od: 2 in}", "{length: 4 in, od: 2 1/2 in}")


def test_the_nominal_size_of_a_thread_is_turned_to_its_blank(sheet_of):
    """2 1/2-8 UN-2A: major diameter 2.4826 to 2.4976 in (Machinery's Handbook, 27th ed., p. 1755)."""
    sheet = sheet_of(text=threaded("turn: {diameter: 2 1/2, from_diameter: 2 3/4, length: 2}"))
    blank = sheet.figures["thread.blank"].value
    assert value(sheet, "size") == pytest.approx(blank)
    assert figure(sheet, "depth").working.put["stock"][0] == pytest.approx((2.75 * inch - blank) / 2)
    assert "2.4826 to 2.4976 in" in sheet.operations[0].detail


def test_a_longer_cut_keeps_its_diameter_and_names_the_blank(sheet_of):
    sheet = sheet_of(text=threaded("turn: {diameter: 2 1/2, from_diameter: 2 3/4, length: 3}"))
    assert "operation.1.size" not in sheet.figures
    assert figure(sheet, "depth").working.put["stock"][0] / inch == pytest.approx(0.125)
    assert "over the thread further down, to the blank: 2.4826 to 2.4976 in" in sheet.operations[0].detail


def test_a_diameter_within_the_blank_s_limits_is_taken_as_written(sheet_of):
    sheet = sheet_of(text=threaded("turn: {diameter: 2.495, from_diameter: 2 3/4, length: 2}"))
    assert "blank" not in sheet.operations[0].detail


def test_inside_the_cross_slide_comes_back(sheet_of):
    sheet = sheet_of(text=text("drill: {diameter: 1, depth: 3}", "bore: {diameter: 1.2, length: 2}", TURN))
    assert "run down from 0" in sheet.operations[1].detail
    assert "run down from 0" not in sheet.operations[2].detail


def test_an_operation_that_leaves_no_wall_stops_the_sheet(sheet_of):
    through = sheet_of(text=text("drill: {diameter: 1 1/2, depth: 3}", "turn: {diameter: 1 3/8, length: 2}"))
    assert found(through, "no-wall").level == "stop"
    assert "operation 2" in found(through, "no-wall").text.lower()
    assert not through.ready
    above = sheet_of(text=text("drill: {diameter: 1 1/4, depth: 3}", "turn: {diameter: 1 3/8, length: 2}"))
    assert found(above, "no-wall") is None
