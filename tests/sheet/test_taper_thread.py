"""Sheets of taper threads: blank, method, tool, gauge, making up. Sizes: ASME B1.20.1, table 2; ISO 7-1.

The demo's lathes: `long-bed` has a taper attachment of 18 in, up to 7 degrees; `thirteen-inch` has none.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from generator.render.page import render_page
from generator.si import inch, mm

NIPPLE = """\
job: T-1
title: Nipple
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {length: 6, od: 2.375}
  - {length: 1 1/2, od: 2.375}
holding:
  chuck: {jaws: 4, grip: 3}
mate: {part: coupling, thread: 2 NPT, on_bench: yes}
duty: {said: carries water, by: customer}
operations:
  - thread: {designation: 2 NPT, length: 1.06}
"""
TAPERED = {"  - {length: 1 1/2, od: 2.375}": "  - {length: 1 1/2, od: 2.4308, od_end: 2.337}"}
BUSH = """\
job: T-1
title: Bush
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {length: 2, od: 4}
  - {length: 2, od: 4, bore: 2 1/8}
holding:
  chuck: {jaws: 4, grip: 1 1/2}
mate: unknown
duty: {said: carries water, by: customer}
operations:
  - thread: {designation: 2 NPT internal, length: 1, inside: yes}
"""
CENTERS = {
    "  chuck: {jaws: 4, grip: 3}": "  centers: {dog: 1}\n  center: live",
}


def value(sheet, name):
    return sheet.figures[name].value


def found(sheet, id):
    return next((finding for finding in sheet.findings if finding.id == id), None)


@pytest.fixture
def nipple(sheet_of):
    return lambda changes=None, **named: sheet_of(changes, NIPPLE, **named)


def test_the_blank_goes_with_the_pitch_diameter(nipple):
    """E0 + h less a quarter of what the crest's truncations allow: 2.26902 + 0.06957 (ASME B1.20.1)."""
    sheet = nipple()
    blank = value(sheet, "thread.blank") / inch
    assert value(sheet, "thread.target") / inch == pytest.approx(2.26902, abs=1.1e-5)
    assert blank == pytest.approx(2.26902 + 0.06957 - (0.0063 - 0.0029) / 2, abs=1e-4)
    assert value(sheet, "cut.taper.far_end") / inch == pytest.approx(blank + 1.06 / 16)
    assert "small end" in sheet.figures["thread.blank"].label


def test_what_does_not_hold_on_a_taper_is_left_out(nipple, sheet_of):
    """No wires or balls as of a parallel thread, no play with the mate's limits at another plane."""
    for sheet in (nipple(), sheet_of(text=BUSH)):
        parallel = [name for name in sheet.figures if not name.startswith("measure.taper_wires.")]
        assert not [name for name in parallel if "wire" in name or "balls" in name or "play" in name]
        assert [line.feature for line in sheet.inspection if "gauge" in line.feature]
        assert any("taper gauge" in remark for remark in sheet.pass_remarks)
        said = [*sheet.pass_remarks, *(finding.text for finding in sheet.findings)]
        assert not [text for text in said if "over wires" in text or "over the wires" in text]
        assert "<svg" in render_page(sheet)


@pytest.mark.parametrize("form", ["60deg", "30/10deg", "7/45deg"])
def test_a_taper_that_no_standard_limits(sheet_of, form):
    """Basic sizes only: the blank goes with them, and no root is held against a limit."""
    special = f"special 2.25-6 {form} taper 1:16"
    out = sheet_of({"designation: 2 NPT": f"designation: {special}", "thread: 2 NPT,": ""}, NIPPLE)
    within = sheet_of({"2 NPT internal": f"{special} internal"}, BUSH)
    for sheet, inside in ((out, False), (within, True)):
        assert (value(sheet, "thread.blank") < value(sheet, "thread.target")) is inside
        assert found(sheet, "taper-thread-root") is None


def test_the_attachment_is_set_in_its_own_scale(nipple):
    """3/4 in in a foot (Jones, Turning and Boring, 1914, on pipe taper)."""
    sheet = nipple()
    assert value(sheet, "cut.taper.method") == "with the taper attachment"
    assert value(sheet, "cut.taper.scale") / inch == pytest.approx(0.75)
    assert sheet.ready


def test_no_attachment_and_a_chuck_is_a_stop(nipple):
    sheet = nipple(lathe={"taper_attachment": None})
    assert value(sheet, "cut.taper.method") is None
    stop = found(sheet, "taper-thread-no-way")
    assert stop.level == "stop"
    assert "between centers" in stop.text
    assert stop.asks
    assert not sheet.ready
    assert not sheet.passes


def test_between_centers_the_tailstock_is_set_over_the_whole_length(nipple):
    """L c / 2: 7.5 in at 1 in 16 is 0.2344 in (US Navy course NAVEDTRA 14345, the formula)."""
    sheet = nipple(CENTERS, lathe={"taper_attachment": None})
    assert value(sheet, "cut.taper.tailstock_offset") / inch == pytest.approx(7.5 / 32)
    assert "unevenly" in found(sheet, "taper-thread-set-over").text
    assert found(sheet, "taper-thread-no-way") is None


def test_an_attachment_too_short_is_no_way(nipple, shop):
    short = shop.lathes["long-bed"].taper_attachment
    short = short.model_copy(update={"length": replace(short.length, si=1.1 * inch, text="1.1")})
    assert found(nipple(lathe={"taper_attachment": short}), "taper-thread-no-way").level == "stop"


def test_the_tool_stands_square_to_the_axis(nipple):
    """1 degree 47 minutes (ASME B1.20.1); the cost in turns by the formula of H28 for half-angle errors."""
    sheet = nipple()
    square = found(sheet, "taper-thread-square")
    assert "1.79 degrees" in square.text
    lean, depth = math.atan(1 / 32), 0.8 / 11.5
    cost = 1.5 * math.tan(lean) * depth / 0.649519  # H28 gives 1.5 P tan for a depth of 0.6495 P
    assert value(sheet, "cut.taper.tilt") / inch == pytest.approx(cost, rel=0.01)
    assert f"{cost * 16 * 11.5:.1f} turns" in square.text


def test_the_gauge_lines_are_what_the_compound_feeds_in(nipple):
    """One turn is 0.00543 in on the diameter (ASME B1.20.1, table 2), half of it radial, over cos 29.5."""
    sheet = nipple()
    angle = value(sheet, "passes.infeed_angle")
    one = value(sheet, "thread.gauge.cut.one")
    assert one / inch == pytest.approx(0.00543 / 2 / math.cos(angle), abs=1e-5)
    assert value(sheet, "thread.gauge.cut.two") == pytest.approx(2 * one)
    assert value(sheet, "thread.gauge.cut.half") == pytest.approx(one / 2)
    straight = nipple({"length: 1.06}": "length: 1.06, infeed: {method: plunge}}"})
    assert value(straight, "thread.gauge.cut.one") / inch == pytest.approx(0.00543 / 2, abs=1e-5)
    assert "cross slide" in straight.figures["thread.gauge.cut.one"].label


def test_a_pipe_ends_the_full_crests_and_the_sheet_says_where(nipple):
    """On a pipe of 2.375 in they end at about L5 = 0.5826 (ASME B1.20.1); smaller work is asked about."""
    assert "runs out of the work 0.6" in found(nipple(), "taper-thread-blank").text
    small = nipple({"od: 2.375": "od: 2.350"})
    crests = found(small, "taper-thread-crests")
    assert crests.level == "check"
    assert "0.583 in" in crests.text
    assert crests.asks


def test_a_section_with_the_right_taper_is_the_blank(nipple):
    sheet = nipple(TAPERED)
    assert found(sheet, "thread-on-taper") is None
    assert found(sheet, "taper-thread-blank") is None
    assert sheet.ready


@pytest.mark.parametrize(("change", "says"), [
    ({"od: 2.4308, od_end: 2.337": "od: 2.337, od_end: 2.4308"}, "grows towards the tailstock"),
    ({"od: 2.4308, od_end: 2.337": "od: 2.4308, od_end: 2.28"}, "wants 1 in 16"),
    ({"designation: 2 NPT": "designation: 2 1/4-8 UN-2A"}, "is a taper thread wanted"),
])
def test_a_section_with_another_taper_is_asked_about(nipple, change, says):
    stop = found(nipple(TAPERED | change), "thread-on-taper")
    assert stop.level == "stop"
    assert says in f"{stop.text} {stop.asks}"


def test_a_short_thread_is_asked_about(nipple):
    """L2 = 0.7565 (ASME B1.20.1, table 2)."""
    assert found(nipple(), "taper-thread-short") is None
    short = found(nipple({"length: 1.06": "length: 0.6"}), "taper-thread-short")
    assert "0.756 in" in short.text
    assert short.asks


def test_making_up_is_said_in_turns_and_pressure_is_left_to_the_code(nipple):
    """5.01 turns by hand, 3 by wrench (ASME B1.20.1, table 2)."""
    pressure = found(nipple(), "taper-thread-pressure")
    assert pressure.level == "check"
    assert "5.0 turns by hand" in pressure.text
    assert "3 turns more by wrench" in pressure.text
    assert "licensed" in pressure.text
    assert "local code" in pressure.text
    dry = found(nipple({"designation: 2 NPT": "designation: 2 NPTF-1"}), "taper-thread-pressure")
    assert "only with another NPTF" in dry.text


@pytest.mark.parametrize(("share", "leaks"), [(0.055, True), (0.065, False), (0.085, False)])
def test_a_sharp_tool_leaves_a_root_that_leaks(nipple, shop, share, leaks):
    """NPTF roots are truncated 0.060 to 0.090 P at 11.5 threads (ASME B1.20.3, from memory)."""
    wide = 2 * math.tan(math.radians(30)) * share / 11.5 * inch
    one = next(tool for tool in shop.tools.threading if tool.nose_flat is not None and not tool.inside)
    tool = one.model_copy(update={"nose_flat": replace(one.nose_flat, si=wide)})
    sheet = nipple(
        {"designation: 2 NPT, length: 1.06": f"designation: 2 NPTF-1, length: 1.06, tool: {tool.name}"},
        tools=shop.tools.model_copy(update={"threading": [tool]}),
    )
    assert (found(sheet, "taper-thread-root") is not None) == leaks
    assert found(sheet, "nose-wide") is None


def test_inside_the_face_is_the_large_end(sheet_of):
    """E1 = 2.29627 at the face; the bore falls 1/16 of the length (ASME B1.20.1)."""
    sheet = sheet_of(text=BUSH)
    bore = value(sheet, "thread.blank") / inch
    assert value(sheet, "thread.target") / inch == pytest.approx(2.29627, abs=1.1e-5)
    assert bore == pytest.approx(2.29627 - 0.06957 + (0.0063 - 0.0029) / 2, abs=1e-4)
    assert value(sheet, "cut.taper.far_end") / inch == pytest.approx(bore - 1 / 16)
    assert "face" in sheet.figures["thread.blank"].label
    assert value(sheet, "cut.taper.chamfer") > value(sheet, "thread.root")
    assert found(sheet, "taper-thread-short") is None
    assert sheet.ready, "a straight bore that is smaller is what the taper is bored from"
    assert "A straight bore" in found(sheet, "taper-thread-blank").text
    assert found(sheet_of({"bore: 2 1/8": "bore: 2.27"}, BUSH), "bore-over").level == "stop"


def test_a_metric_pipe_thread(sheet_of):
    """R 2: 59.614 at the gauge plane, 15.9 from the end (ISO 7-1)."""
    text = NIPPLE.replace("thread: 2 NPT", "thread: Rp 2").replace("2 NPT, length: 1.06", "R 2, length: 28mm")
    sheet = sheet_of(text=text)
    small = 59.614 - 15.9 / 16
    assert value(sheet, "thread.blank") / mm == pytest.approx(small, abs=1e-3)
    assert found(sheet, "mate-differs") is None, "R goes with Rp"
    other = sheet_of(text=text.replace("thread: Rp 2", "thread: 2 NPT"))
    assert "flank angle" in found(other, "mate-differs").text


def test_a_measured_blank_is_taken_as_it_is(nipple):
    sheet = nipple({"length: 1.06": "length: 1.06, blank: 2.336"})
    assert value(sheet, "thread.blank") / inch == pytest.approx(2.336)
    assert found(nipple({"length: 1.06": "length: 1.06, blank: 2.36"}), "blank-over").level == "stop"


def test_a_pipe_thread_fades_out_and_asks_for_no_relief(nipple):
    """Common practice, no source; a left-hand one still needs a place to start."""
    assert found(nipple(), "no-relief") is None
    mate = {"thread: 2 NPT,": "thread: 2 NPT-LH internal,"}
    left = nipple({**mate, "designation: 2 NPT,": "designation: 2 NPT-LH,"})
    assert found(left, "no-relief") is not None
