"""An internal thread on the sheet: bore, depth outwards, passes, recess, wall, bar, what measures it.

Limits from print; geometry against the groove itself; the rest is common practice, no source, where named.
"""

from __future__ import annotations

import dataclasses
import math

import pytest

from generator.sheet.figure import Kind
from generator.si import inch, mm

RING = """\
job: T-2
title: Ring
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {length: 3/4, od: 4, bore: 2 1/4}
  - {length: 1 3/4, od: 4, bore: 1.880}
holding:
  chuck: {jaws: 4, grip: 1/2}
limits: {wall: 1/2}
mate: {part: screw, thread: 2-8 UN-2A, on_bench: yes}
duty: {said: holds a gate, by: customer}
operations:
  - thread: {designation: 2-8 UN-2B, length: 1 3/4, fit: mate, tool: V4}
"""
BLIND = {
    "{length: 3/4, od: 4, bore: 2 1/4}": "{length: 3/4, od: 4}",
    "  - thread: {designation: 2-8 UN-2B, length: 1 3/4,":
        "  - relief: {width: 3/8, radius: 1/32}\n  - thread: {designation: 2-8 UN-2B, length: 1 3/8,",
}
SLEEVE = """\
job: T-3
title: Sleeve
units: mm
lathe: metric
material: 6082-T6
material_known_by: stamp
work:
  - {length: 20, od: 96, bore: 80}
  - {length: 22.5, od: 96, bore: 88.5}
holding:
  chuck: {jaws: 3, grip: 15, soft_jaws: yes}
limits: {wall: 2}
mate: {part: brass cell, thread: M90x1.5-6g, on_bench: yes}
duty: {said: focuses a telescope, by: customer}
operations:
  - relief: {width: 4.5, diameter: 90.5, radius: 0.3}
  - thread: {designation: M90x1.5-6H, length: 18, fit: gauge}
"""


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def value(sheet, name, unit=inch):
    return sheet.figures[name].value / unit


@pytest.fixture
def ring_of(sheet_of):
    return lambda changes=None, **named: sheet_of(changes, RING, **named)


@pytest.fixture
def sleeve_of(sheet_of):
    return lambda changes=None, **named: sheet_of(changes, SLEEVE, **named)


def tool(shop, **changed):
    """The demo shop with its internal tool changed, lengths in inches."""

    def given(size):
        template = shop.tools.threading[0].nose_flat
        return None if size is None else dataclasses.replace(template, si=size * inch, text=str(size))

    one = next(tool for tool in shop.tools.threading if tool.name == "V4")
    sizes = {key: given(size) for key, size in changed.items()}
    return shop.tools.model_copy(update={"threading": [one.model_copy(update=sizes)]})


# -- limits, bore, depth --------------------------------------------------------------------------------


def test_printed_limits_reach_the_sheet(ring_of, sleeve_of):
    """1-8 UNC-2B is printed as 0.865 to 0.890 and 0.9188 to 0.9276 (ASME B1.1); 8 pitch alike at 2 in by
    the same formulas: 1.865 to 1.890. M90 x 1.5 - 6H: ISO 965-1, from memory 88.376 to 88.676."""
    ring, sleeve = ring_of(), sleeve_of()
    assert [value(ring, f"thread.minor.{end}") for end in ("min", "max")] == pytest.approx([1.865, 1.890])
    assert value(ring, "thread.pitch_diameter.min") == pytest.approx(1.9188)
    assert value(ring, "thread.major.min") == pytest.approx(2.0)
    assert ring.figures["thread.minor.max"].kind is Kind.STANDARD
    assert [value(sleeve, f"thread.minor.{end}", mm) for end in ("min", "max")] == pytest.approx(
        [88.376, 88.676]
    )
    for sheet in (ring, sleeve):
        assert "thread.major.max" not in sheet.figures
        assert not any("over_wires" in name or "wire." in name for name in sheet.figures)
        assert sheet.ready


def test_the_bore_as_it_is_goes_before_the_middle_of_the_limits(ring_of):
    assert value(ring_of(), "thread.blank") == pytest.approx(1.880)
    bored = ring_of({"bore: 1.880": "bore: 1 3/4", "operations:": "operations:\n  - bore: {length: 1 3/4}"})
    assert value(bored, "thread.blank") == pytest.approx((1.865 + 1.890) / 2)
    said = ring_of(
        {
            "bore: 1.880": "bore: 1 3/4",
            "operations:": "operations:\n  - bore: {diameter: 1.875, length: 1 3/4}",
        }
    )
    assert value(said, "thread.blank") == pytest.approx(1.875)
    measured = ring_of({"fit: mate,": "fit: mate, blank: {value: 1.8820, by: me, with: bore gauge},"})
    assert value(measured, "thread.blank") == pytest.approx(1.8820)
    assert measured.figures["thread.blank"].kind is Kind.MEASURED


def test_depth_brings_the_groove_to_half_a_pitch_at_the_pitch_diameter_aimed_at(ring_of):
    """Width of the tool where it passes the aimed pitch cylinder: F + 2 y tan 30 = P/2 (ISO 68-1)."""
    sheet = ring_of()
    target = value(sheet, "thread.target")
    assert target == pytest.approx((1.9188 + 1.9289) / 2)
    root = value(sheet, "thread.blank") + 2 * value(sheet, "thread.depth")
    assert value(sheet, "thread.root") == pytest.approx(root)
    assert 0.006 + (root - target) * math.tan(math.radians(30)) == pytest.approx(1 / 16)
    assert root >= 2.0


def test_the_mean_of_the_balls_is_the_mirror_of_the_wires(ring_of):
    """Ball circle D2 - 2 W + 0.866025 P, balls half a pitch off (geometry); 5/64 in is nearest to 0.0722."""
    sheet = ring_of()
    ball = 5 / 64
    assert value(sheet, "thread.balls.best") == pytest.approx(0.57735 / 8, abs=1e-6)
    assert value(sheet, "thread.balls.size") == ball
    circle = 1.9188 - 2 * ball + 0.866025 / 8
    assert value(sheet, "thread.between_balls.min") == pytest.approx(
        math.hypot(circle, 1 / 16) - ball, abs=2e-5
    )


def test_speed_and_power_go_by_the_root_not_by_the_bore(ring_of):
    """n = 12 v / (pi D), D the largest diameter in the cut (Machinery's Handbook)."""
    sheet = ring_of()
    v = sheet.figures["spindle.surface_speed"].value
    expected = v / (math.pi * sheet.figures["thread.root"].value)
    assert sheet.figures["spindle.wanted"].value == pytest.approx(expected)


# -- passes ---------------------------------------------------------------------------------------------


def test_passes_open_the_thread_outwards(ring_of):
    sheet = ring_of()
    sizes = [line.pitch_diameter for line in sheet.passes if not line.spring]
    assert sizes == sorted(sizes)
    assert 1.9188 <= sizes[-1] / inch <= 1.9289
    assert all(line.over_wires is None for line in sheet.passes)
    assert value(sheet, "passes.final_pitch_diameter") == pytest.approx(sizes[-1] / inch)


def test_the_dial_runs_down_from_zero_as_the_slide_is_turned_back(ring_of):
    """Counted by hand: a dial of 0.125 in a turn, turned back 0.022, stands at 0.103 with no whole turn."""
    for line in ring_of().passes:
        turn, shown, travel = 0.125, line.dial_reading / inch, line.travel / inch
        assert line.dial_turns == int(travel / turn + 1e-9)
        assert (line.dial_turns + 1) * turn - shown == pytest.approx(travel) or shown == pytest.approx(0)


def test_words_of_the_setting_say_towards_you(ring_of):
    sheet = ring_of()
    words = " ".join(sheet.pass_remarks)
    assert "depth is towards you" in words
    assert "to the other side than for an outside thread" in words
    assert "towards the headstock" in words
    assert "away from you" in words
    assert "under its aim" in words
    assert "run down from 0" in sheet.pass_dial
    left = ring_of({"2-8 UN-2B": "2-8 UN-2B-LH", "2-8 UN-2A": "2-8 UN-2A-LH"})
    assert "towards the tailstock" in " ".join(left.pass_remarks)
    straight = ring_of({"tool: V4": "tool: V4, infeed: {method: plunge}"})
    assert "Straight outwards" in " ".join(straight.pass_remarks)


def test_the_first_trial_comes_before_the_last_cut(ring_of):
    sheet = ring_of()
    trial = next(line for line in sheet.passes if line.try_mate)
    assert trial.number < max(line.number for line in sheet.passes if not line.spring)
    assert value(sheet, "passes.try_mate_pitch_diameter") == pytest.approx(trial.pitch_diameter / inch)
    assert "try the go plug gauge" in " ".join(ring_of({"fit: mate": "fit: gauge"}).pass_remarks).lower()


# -- fit ------------------------------------------------------------------------------------------------


def test_wires_do_not_go_inside(ring_of):
    wires = ids(ring_of({"fit: mate": "fit: wires"}))
    assert wires["fit-wires-inside"].level == "stop"
    assert ids(ring_of({"fit: mate, ": ""}))["fit-unsaid"].level == "check"
    assert "fit-unsaid" not in ids(ring_of())
    assert ids(ring_of({"fit: mate": "fit: mate, wire: 0.0722"}))["wire-inside"].level == "check"


def test_inspection_is_by_bore_and_plugs(ring_of, sheet_of):
    features = [line.feature for line in ring_of({"fit: mate": "fit: gauge"}).inspection]
    assert any("Minor diameter" in feature for feature in features)
    assert any("Go thread plug" in feature for feature in features)
    assert any("No-go" in feature for feature in features)
    assert not any("wires" in feature for feature in features)
    assert not any("plug" in line.feature for line in sheet_of().inspection)


def test_a_mate_that_decides_asks_for_no_plugs(ring_of):
    features = [line.feature for line in ring_of().inspection]
    assert not any("plug" in feature for feature in features)
    assert features[1:3] == ["Size between balls", "The mate goes by hand over the whole length"]


def test_an_unknown_mate_is_not_cut_to_wires(ring_of):
    mate = "mate: {part: screw, thread: 2-8 UN-2A, on_bench: yes}\n"
    sheet = ring_of({mate: "", "fit: mate": "fit: gauge"})
    assert "plug gauges" in ids(sheet)["mate-unknown"].text


# -- relief and wall ------------------------------------------------------------------------------------


def test_recess_is_a_little_over_the_root_and_the_wall_is_what_is_left_outside(ring_of):
    """Recess: root + 0.012 in (common practice, 0.010 to 0.020); wall (od - recess)/2."""
    sheet = ring_of(BLIND)
    recess = value(sheet, "thread.root") + 0.012
    assert value(sheet, "relief.diameter") == pytest.approx(recess)
    assert value(sheet, "relief.wall") == pytest.approx((4 - recess) / 2)
    assert value(sheet, "thread.wall") == pytest.approx((4 - value(sheet, "thread.root")) / 2)
    assert sheet.figures["relief.time"].value > 0


def test_the_recess_takes_a_tool_for_bores_and_the_thread_its_own(ring_of):
    """G4 of the demo shop is the recessing tool; G1 to G3 cut from outside."""
    sheet = ring_of(BLIND)
    tools = {line.name: str(sheet.figures[line.figures["tool"]].value) for line in sheet.operations}
    assert tools["relief"].startswith("G4")
    assert tools["thread"].startswith("V4")


def test_without_a_recessing_tool_the_sheet_names_none_that_cuts_from_outside(ring_of, shop):
    others = [tool for tool in shop.tools.cutting if tool.name != "G4"]
    sheet = ring_of(BLIND, tools=shop.tools.model_copy(update={"cutting": others}))
    relief = next(line for line in sheet.operations if line.name == "relief")
    tool = sheet.figures[relief.figures["tool"]]
    assert str(tool.value).startswith("any")
    assert tool.assumed


def test_a_recess_deeper_in_the_bore_than_the_tool_reaches_stops_the_job(ring_of):
    """G4 reaches 3 in; the recess ends 1 3/4 in deep in the ring, 3 1/4 in deep in the long one."""
    assert "tool-short" not in ids(ring_of(BLIND))
    long = ring_of({
        **BLIND, "{length: 1 3/4, od: 4, bore: 1.880}": "{length: 3 1/4, od: 4, bore: 1.880}",
        "length: 1 3/8,": "length: 2 7/8,",
    })
    assert ids(long)["tool-short"].level == "stop"


def test_a_recess_that_the_point_would_cut_stops_the_job(ring_of):
    sheet = ring_of(BLIND | {"width: 3/8, radius": "width: 3/8, diameter: 2.000, radius"})
    assert ids(sheet)["relief-root"].level == "stop"
    assert "or more" in ids(sheet)["relief-root"].text


def test_a_wall_that_is_too_thin_or_gone(ring_of):
    thin = ring_of(BLIND | {"od: 4": "od: 2 1/2"})
    assert ids(thin)["relief-wall"].level == "stop"
    gone = ring_of({"od: 4, bore: 1.880": "od: 2, bore: 1.880"})
    assert "through the outside" in ids(gone)["thread-wall"].text


def test_through_threads_ask_for_no_relief_and_blind_ones_do(ring_of):
    assert "no-relief" not in ids(ring_of())
    blind = ring_of({"od: 4, bore: 2 1/4": "od: 4", "length: 1 3/4, fit": "length: 1 1/2, fit"})
    assert "nothing larger" in ids(blind)["no-relief"].text


def test_published_recesses_of_the_pitch_are_named(sleeve_of):
    """DIN 76-1 form C and D, P 1.5: diameter D + 0.5, widths 6 to 7.8 and 3.8 to 5.6."""
    text = ids(sleeve_of())["relief-standard"].text
    assert "diameter 90.5 mm" in text
    assert "form C 6 to 7.8 mm" in text
    assert "form D 3.8 to 5.6 mm" in text


# -- bore contradictions --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "id", "says"),
    [
        ({"bore: 1.880": "bore: 1.900"}, "bore-over", "1.8650 to 1.8900 in"),
        ({"bore: 1.880": "bore: 2"}, "bore-over", "the thread's own size"),
        ({"bore: 1.880": "bore: 1 3/4"}, "bore-under", "Bore it out first"),
        ({"od: 4, bore: 1.880": "od: 4"}, "bore-missing", "no bore"),
        ({"fit: mate,": "fit: mate, blank: 1.860,"}, "bore-under", "1.860"),
        ({"fit: mate,": "fit: mate, blank: 1.895,"}, "bore-over", "1.895"),
        ({"bore: 1.880": "bore: 1 3/4", "operations:": "operations:\n  - bore: {diameter: 1.900}"},
         "bore-over", "1.900"),
        ({"length: 1 3/4, fit": "length: 2, fit"}, "thread-too-long", "deep"),
        ({"thread: 2-8 UN-2A": "thread: 2-8 UN-2B"}, "mate-same-side", "internal too"),
        ({"thread: 2-8 UN-2A": "thread: 2 1/4-8 UN-2A"}, "mate-differs", "diameter"),
        ({"grip: 1/2}": "grip: 1/2}\n  center: live"}, "center-in-bore", "center"),
    ],
)
def test_what_stops_an_internal_thread(ring_of, changes, id, says):
    sheet = ring_of(changes)
    found = ids(sheet)[id]
    assert found.level == "stop"
    assert says in found.text
    assert not sheet.ready
    assert sheet.passes == ()


def test_a_recess_not_over_the_bore_or_through_the_wall(ring_of):
    small = ring_of(BLIND | {"width: 3/8, radius": "width: 3/8, diameter: 1.870, radius"})
    assert ids(small)["relief-not-above"].level == "stop"
    large = ring_of(BLIND | {"width: 3/8, radius": "width: 3/8, diameter: 4.1, radius"})
    assert ids(large)["relief-through-wall"].level == "stop"
    wide = ring_of(BLIND | {"width: 3/8": "width: 1/2"})
    assert ids(wide)["relief-too-wide"].level == "stop"


def test_a_narrow_mouth_keeps_tool_and_mate_out(ring_of):
    sheet = ring_of(
        {
            "  - {length: 1 3/4, od: 4, bore: 1.880}\n":
                "  - {length: 1 3/4, od: 4, bore: 1.880}\n  - {length: 1/2, od: 4, bore: 1 7/8}\n",
            "fit: mate": "from_end: 1/2, fit: mate",
        }
    )
    assert ids(sheet)["mouth-narrow"].level == "stop"


# -- tool and bar ---------------------------------------------------------------------------------------


def test_the_bar_has_to_go_in_and_to_reach(ring_of, shop):
    """Room behind the bar = bore - bar - depth; reach at least thread and relief from the face."""
    sheet = ring_of()
    assert value(sheet, "thread.tool.room") == pytest.approx(1.880 - 1 - value(sheet, "thread.depth"))
    assert ids(ring_of(tools=tool(shop, bar=1.85)))["bar-thick"].level == "stop"
    assert ids(ring_of(tools=tool(shop, bar=1.75)))["bar-tight"].level == "check"
    assert ids(ring_of(tools=tool(shop, reach=1.5)))["bar-short"].level == "stop"
    assert not {"bar-thick", "bar-tight", "bar-short", "bar-slender"} & set(ids(sheet))


def test_a_steel_bar_over_four_diameters_out_is_asked_about(ring_of, shop):
    """Four diameters for a steel bar: common practice, no source."""
    assert ring_of().figures["thread.tool.bar_ratio"].value == pytest.approx(3)
    assert ids(ring_of(tools=tool(shop, bar=0.5)))["bar-slender"].level == "check"
    unknown = ring_of(tools=tool(shop, bar=0.4, reach=None))
    assert unknown.figures["thread.tool.bar_ratio"].value == pytest.approx(1.75 / 0.4)


def test_tools_for_outside_and_inside_are_told_apart(ring_of, sheet_of):
    assert ids(ring_of({"tool: V4": "tool: V1"}))["tool-outside"].level == "check"
    assert ids(sheet_of({"tool: V1": "tool: V4"}))["tool-inside"].level == "check"
    assert "tool-inside" not in ids(sheet_of())


def test_a_nose_too_wide_for_the_major_diameter_stops_the_job(ring_of, shop):
    """A flat of P/8 ends on the basic major diameter at the least pitch diameter (ISO 68-1, ASME B1.1)."""
    assert ids(ring_of(tools=tool(shop, nose_flat=0.022)))["nose-wide"].level == "stop"
    assert "nose-wide" not in ids(ring_of(tools=tool(shop, nose_flat=1 / 64)))


# -- the work on its supports, drawings -----------------------------------------------------------------


def test_the_drawing_has_the_thread_in_the_bore(ring_of):
    """Thread and recess are drawn in the bore; the outside stays as it is."""
    scene = ring_of(BLIND).setup_scene
    inside = [piece.inside for piece in scene.pieces]
    assert inside == ["plain", "relief", "thread"]
    assert all(piece.od_start == pytest.approx(4 * inch) for piece in scene.pieces)
    thread = scene.pieces[-1]
    assert thread.bore == pytest.approx(1.880 * inch)
    assert thread.root > thread.bore


def test_the_beam_has_the_root_as_its_bore(ring_of, read_of, shop):
    from generator.sheet.compute import effective_material
    from generator.sheet.desk import Desk
    from generator.sheet.holding.held_work import HeldWork
    from generator.sheet.holding.steady_places import place_fault
    from generator.sheet.layout import lay_out
    from generator.sheet.thread import thread_section

    job = read_of(BLIND, RING).job
    layout = lay_out(job)
    plan = thread_section(job, shop.tools, layout, Desk())
    material = effective_material(shop.materials[job.material])
    held = HeldWork(job, shop.lathes[job.lathe], layout, plan, material, 1e5, 1e8)
    segments = held.beam(None).segments
    by_bore = sorted({round(segment.bore / inch, 4) for segment in segments})
    assert by_bore[-1] == pytest.approx(round(plan.relief_diameter / inch, 4))
    assert round(plan.root_diameter / inch, 4) in by_bore
    assert all(segment.od == pytest.approx(4 * inch) for segment in segments)
    assert place_fault(held, layout.stick_out - 1 * inch) == ""


def test_key_figures_are_the_bores_and_the_thread_scene_is_internal(ring_of, sheet_of):
    sheet = ring_of()
    assert "thread.minor.max" in sheet.key_figures
    assert "thread.minor.max" not in sheet_of().key_figures
    assert sheet.thread_scene.internal
    assert not sheet_of().thread_scene.internal
    assert sheet.thread_scene.crest_diameter == sheet.figures["thread.blank"].value


def test_figures_that_only_an_outside_thread_has_are_left_out_not_unknown(ring_of):
    unknown = [name for name, figure in ring_of().figures.items() if figure.kind is Kind.UNKNOWN]
    assert not any(name.startswith(("thread.", "passes.")) for name in unknown)


def test_the_spring_of_the_bar_is_that_of_a_cantilever(ring_of, shop):
    """y = F L^3 / (3 E I) (Roark, beam table, case 1a); F is 0.6 of the last cut: common practice."""
    sheet = ring_of()
    force = 0.6 * [line.force for line in sheet.passes if line.force is not None][-1]
    inertia = math.pi * (1 * inch) ** 4 / 64
    expected = 2 * force * (3 * inch) ** 3 / (3 * 205e9 * inertia)
    assert sheet.figures["passes.bar_error"].value == pytest.approx(expected, rel=1e-6)
    assert "bar-springs" not in ids(sheet)
    slender = ring_of(tools=tool(shop, bar=0.375))
    assert ids(slender)["bar-springs"].level == "check"
    assert "passes.bar_error" not in ring_of(tools=tool(shop, bar=None)).figures


def test_how_many_spring_passes_the_bar_wants(ring_of, shop):
    """Force in proportion to the cut: e (e / (h + e))^n is left, to a quarter of the tolerance."""
    assert "passes.bar_springs" not in ring_of().figures
    sheet = ring_of(tools=tool(shop, bar=0.375))
    figures, last = sheet.figures, [line for line in sheet.passes if not line.spring][-1]
    spring = figures["passes.bar_error"].value / 2
    most, least = (figures[f"thread.pitch_diameter.{end}"].value for end in ("max", "min"))
    allowed = (most - least) / 8
    count = figures["passes.bar_springs"].value
    share = spring / (last.cut + spring)
    assert spring * share**count <= allowed < spring * share ** (count - 1)
    assert f"{count} spring passes would do it" in ids(sheet)["bar-springs"].text


def test_a_square_nut_is_held_to_its_major_diameter(read_of, shop):
    """Its pitch diameter has no tolerance: what the bar springs away is missing at the bottom of it."""
    from generator.sheet.boring_bar import lay_bar
    from generator.sheet.desk import Desk
    from generator.sheet.layout import lay_out
    from generator.sheet.thread import thread_section
    from generator.sheet.threading import thread_operation

    square = {"2-8 UN-2B": "2-4 SQUARE internal", "thread: 2-8 UN-2A": "thread: unknown"}
    job = read_of(square, RING).job
    desk, tools = Desk(), tool(shop, bar=0.375)
    plan = thread_section(job, tools, lay_out(job), desk)
    assert plan.pitch_diameter_max == plan.pitch_diameter_min
    lay_bar(400.0, 0.002 * inch, 2, thread_operation(job), shop.house, plan, desk)
    (found,) = [finding for finding in desk.findings if finding.id == "bar-springs"]
    assert "major diameter tolerance" in found.text
    assert desk.figures["passes.bar_springs"].value > 2


def test_still_to_cut_is_read_between_the_balls(ring_of):
    """By the axial section: ((D2 - 2 W + 0.866025 P)^2 + (P/2)^2)^(1/2) - W; the lead angle aside."""
    sheet = ring_of()
    table, ball, pitch = sheet.corrections, sheet.figures["thread.balls.size"].value, 0.125 * inch
    circle = sheet.passes[-1].pitch_diameter - 2 * ball + 0.8660254 * pitch
    assert table.reading == "between balls"
    assert table.size == pytest.approx(math.hypot(circle, pitch / 2) - ball, abs=0.0001 * inch)
