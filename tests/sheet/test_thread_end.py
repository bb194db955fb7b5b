"""Where a thread begins, and how it ends without a relief."""

from __future__ import annotations

import pytest

from generator.calc.thread_end import lead_in, usual_run_out
from generator.sheet.desk import Desk
from generator.sheet.extents import thread_extents
from generator.sheet.figure import Kind
from generator.sheet.layout import lay_out
from generator.sheet.thread import thread_section
from generator.si import inch, mm

RELIEF = "  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}\n"
THREAD = "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1"
TO_SHOULDER = {RELIEF: "", THREAD: "designation: 2 1/4-8 UN-2A, length: 2 7/8, tool: V1"}
METRIC = {
    "2 1/4-8 UN-2B": "unknown", RELIEF: "",
    THREAD: "designation: M56x4-6g, length: 73.025 mm",  # 2 7/8 in
}


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def end(sheet):
    return [name for name in sheet.figures if name.startswith("relief.")]


def with_run_out(length, run_out):
    return {RELIEF: "", THREAD: f"designation: 2 1/4-8 UN-2A, length: {length}, tool: V1, run_out: {run_out}"}


def test_the_lead_in_goes_just_past_the_root(sheet_of):
    """Common practice: 0.010 in past the root; by hand the root is 2.074932 in."""
    figure = sheet_of().figures["relief.chamfer"]
    assert figure.value / inch == pytest.approx(2.064932, abs=2e-6)
    assert figure.kind is Kind.ASSUMED
    assert lead_in(3.0 * mm, "mm", 3.0 * mm) == pytest.approx(3.15 * mm), "GB/T 3-1997: 1.05 D at most"


def test_with_a_relief_nothing_is_proposed(sheet_of):
    assert not [name for name in end(sheet_of()) if "proposed" in name or "run_out" in name]


def test_a_thread_up_to_a_shoulder_gets_a_relief_proposed(sheet_of):
    """Practice: 3 pitches wide, 0.012 in under the root, a quarter of the depth as radius."""
    sheet = sheet_of(TO_SHOULDER)
    value = {name: sheet.figures[f"relief.proposed.{name}"].value for name in ("width", "diameter", "radius")}
    assert value["width"] == pytest.approx(0.375 * inch)
    assert value["diameter"] == pytest.approx(sheet.figures["thread.root"].value - 0.012 * inch)
    assert value["radius"] == pytest.approx(sheet.figures["thread.depth"].value / 4)
    assert sheet.figures["relief.run_out.usual"].value == pytest.approx(2.5 * inch / 8)
    assert ids(sheet)["no-relief"].level == "check"


def test_a_metric_one_by_the_table(sheet_of):
    """DIN 76-1 form A for P 4: d - 5.7, r 2, 14 mm (from memory); ISO 3508: 10, short 5, shoulder 12 mm."""
    figures = sheet_of(METRIC).figures
    assert figures["relief.proposed.width"].value / mm == pytest.approx(14)
    assert "from memory" in figures["relief.proposed.width"].source
    assert figures["relief.proposed.diameter"].value / mm == pytest.approx(50.3)
    assert figures["relief.proposed.radius"].value / mm == pytest.approx(2)
    usual = figures["relief.run_out.usual"]
    assert usual.value / mm == pytest.approx(10)
    assert usual.kind is Kind.STANDARD
    assert "5.00 mm" in usual.note
    assert "12.00 mm" in usual.note


def test_an_acme_relief_is_two_pitches_and_the_tool(sheet_of):
    acme = {"2 1/4-8 UN-2B": "unknown", "2 1/4-8 UN-2A": "2 1/4-4 ACME-2G", ", tool: V1": ""}
    sheet = sheet_of({**TO_SHOULDER, **acme})
    width = sheet.figures["relief.proposed.width"]
    assert width.value / inch == pytest.approx(0.5)
    assert "reaches ahead" in width.note


def test_a_bar_that_goes_on_needs_no_relief(sheet_of):
    """Eight inches of plain bar behind the thread: nothing to run into for the hand."""
    sheet = sheet_of({**TO_SHOULDER, "length: 2 7/8, tool": "length: 1, tool"})
    assert end(sheet) == ["relief.chamfer"]


def test_a_run_out_is_kept_as_written_and_asks_the_hand(sheet_of):
    """0.3 in at 8 to the inch: 2.4 turns; the time is run-out ÷ carriage speed."""
    sheet = sheet_of(with_run_out("2 1/2", 0.3))
    found = ids(sheet)
    assert "no-relief" not in found
    assert sheet.figures["relief.run_out"].kind is Kind.GIVEN
    time = sheet.figures["relief.run_out.time"].value
    assert time == pytest.approx(0.3 * inch / sheet.figures["carriage.speed"].value)
    assert "2.4 turns" in found["run-out"].text
    assert "run-out-shoulder" not in found


def test_a_relief_and_a_run_out_are_asked_about(sheet_of):
    sheet = sheet_of({"tool: V1": "tool: V1, run_out: 0.3"})
    assert ids(sheet)["run-out-relief"].asks
    assert "relief.run_out" not in sheet.figures


def test_a_run_out_into_the_shoulder_stops(sheet_of):
    """2 7/8 in of turned length less 2 5/8 in of thread leave a quarter of an inch for 0.3 in."""
    found = ids(sheet_of(with_run_out("2 5/8", 0.3)))
    assert found["run-out-shoulder"].level == "stop"
    assert "0.250 in" in found["run-out-shoulder"].text


def test_a_run_out_too_short_or_too_quick_is_found(sheet_of):
    """Short is 1.25 pitches, 0.156 in, as ISO 3508 has it for metric threads."""
    assert usual_run_out(inch / 8)[1] == pytest.approx(0.15625 * inch)
    assert "run-out-short" in ids(sheet_of(with_run_out("2 1/2", 0.12)))
    assert "run-out-short" not in ids(sheet_of(with_run_out("2 1/2", 0.16)))
    fast = sheet_of({**with_run_out("2 1/2", 0.3), "run_out: 0.3": "run_out: 0.3, spindle: 330 rpm"})
    assert ids(fast)["run-out-time"].level == "stop"


def test_a_left_hand_thread_cannot_begin_in_a_run_out(sheet_of):
    left = {"2 1/4-8 UN-2B": "2 1/4-8 UN-2B-LH"}
    sheet = sheet_of({**with_run_out("2 1/2", 0.3), "2 1/4-8 UN-2A": "2 1/4-8 UN-2A-LH", **left})
    assert "start this left-hand thread" in ids(sheet)["no-relief"].text
    assert "relief.run_out.time" not in sheet.figures


BLIND = """\
job: T-4
title: Cap
units: mm
lathe: metric
material: 1045 steel
material_known_by: stamp
work:
  - {length: 60, od: 60}
  - {length: 40, od: 60, bore: 26.2}
holding:
  chuck: {jaws: 3, grip: 40}
mate: unknown
duty: {said: a cap, by: customer}
operations:
  - bore: {diameter: 26.2, length: 40}
  - thread: {designation: M30x3.5-6H, length: 30, fit: gauge}
"""


def test_a_blind_bore_must_go_on_past_the_thread(sheet_of):
    """DIN 76-1: 15.2 mm for P 3.5; the bore has 10. Form C: D + 0.5, 17.7 mm at most."""
    sheet = sheet_of(text=BLIND)
    assert sheet.figures["relief.hole_beyond"].value / mm == pytest.approx(15.2)
    assert "10.00 mm" in ids(sheet)["hole-shallow"].text
    assert sheet.figures["relief.proposed.diameter"].value / mm == pytest.approx(30.5)
    assert sheet.figures["relief.proposed.width"].value / mm == pytest.approx(17.7)
    deep = sheet_of({"length: 60, od: 60}": "length: 50, od: 60}", "length: 40, od: 60": "length: 50, od: 60",
                     "length: 40}": "length: 50}", "length: 30,": "length: 33,"}, text=BLIND)
    assert "hole-shallow" not in ids(deep)


def test_of_several_shoulders_the_nearest_counts(sheet_of):
    """3 in, then 2 3/4, then the thread: a quarter of an inch to the nearer one."""
    stepped = {"  - {length: 11 5/8, od: 2.75}": "  - {length: 10, od: 3}\n  - {length: 1 5/8, od: 2.75}"}
    sheet = sheet_of({**stepped, **with_run_out("2 5/8", 0.3)})
    assert "0.250 in" in ids(sheet)["run-out-shoulder"].text


def test_where_turning_stops_short_there_is_a_shoulder_too(sheet_of):
    """A bar of 2 3/4 in turned to 2 1/4 for 2 7/8 in, in one section."""
    bar = {"  - {length: 11 5/8, od: 2.75}\n  - {length: 2 7/8, od: 2 1/4}": "  - {length: 14 1/2, od: 2.75}"}
    sheet = sheet_of({**bar, **with_run_out("2 5/8", 0.3)})
    assert "0.250 in" in ids(sheet)["run-out-shoulder"].text


@pytest.mark.parametrize("hand", ["", "-LH"])
def test_the_tool_goes_as_far_as_the_run_out(read_of, shop, hand):
    read = read_of({
        **with_run_out("2 1/2", 0.3), "2 1/4-8 UN-2A": f"2 1/4-8 UN-2A{hand}",
        "2 1/4-8 UN-2B": f"2 1/4-8 UN-2B{hand}",
    })
    layout = lay_out(read.job)
    plan = thread_section(read.job, shop.tools, layout, Desk())
    (way,) = thread_extents(plan)
    assert way.low == pytest.approx(layout.stick_out - (2.5 + 0.3) * inch)
