"""The thread made to fit its mate as measured: worked by hand, in figures and findings."""

from __future__ import annotations

import pytest

from generator.si import inch, mm

NUT = "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}"


def fitted(size, clearance, more=""):
    """The bench's pin with its nut measured and a clearance wanted."""
    return NUT.replace("on_bench", f"pitch_diameter: {size}, clearance: {clearance}{more}, on_bench")


def value(sheet, name):
    return sheet.figures[name].value / inch


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def test_without_a_clearance_the_middle_of_the_limits_is_aimed_at(sheet_of):
    """2 1/4-8 UN-2A: 2.1584 to 2.1664 (formulas of ASME B1.1)."""
    sheet = sheet_of({NUT: NUT.replace("on_bench", "pitch_diameter: 2.1720, on_bench")})
    assert value(sheet, "thread.target") == pytest.approx(2.1624)
    assert "thread.fit.max" not in sheet.figures


def test_the_thread_is_cut_to_the_mate_less_its_clearance(sheet_of):
    """2.1700 less 0.006 is 2.1640, within 2A; the band is the clearance, 0.006 wide."""
    sheet = sheet_of({NUT: fitted("2.1700", "0.006")})
    assert value(sheet, "thread.target") == pytest.approx(2.1640)
    assert value(sheet, "thread.fit.max") == pytest.approx(2.1670)
    assert value(sheet, "thread.fit.min") == pytest.approx(2.1610)
    assert value(sheet, "mate.play.measured") == pytest.approx(0.006)
    assert "fit-outside-limits" not in ids(sheet)
    last = sheet.figures["passes.final_pitch_diameter"].value / inch
    assert last == pytest.approx(2.1640, abs=0.0031)
    assert "mate" in sheet.figures["thread.target"].working.formula


def test_a_worn_mate_asks_for_a_thread_over_the_standards_and_says_so(sheet_of):
    """2B ends at 2.1792; a nut of 2.1850 less 0.003 is 2.1820, 0.0156 over the largest 2A."""
    sheet = sheet_of({NUT: fitted("2.1850", "0.003")})
    assert value(sheet, "thread.target") == pytest.approx(2.1820)
    found = ids(sheet)
    said = found["fit-outside-limits"]
    assert said.level == "check"
    assert said.asks.endswith("this mate only?")
    assert "0.0156 in" in said.text
    assert "over the largest of 2 1/4-8 UN-2A, 2.1664 in" in said.text
    assert found["mate-worn"].level == "check"
    assert "mate-tight" not in found


def test_a_small_mate_asks_for_a_thread_under_the_standards(sheet_of):
    """A nut of 2.1610, under 2B (from 2.1688), less 0.004 is 2.1570: 0.0014 under the smallest 2A."""
    found = ids(sheet_of({NUT: fitted("2.1610", "0.004")}))
    assert "under the smallest" in found["fit-outside-limits"].text
    assert "0.0014 in" in found["fit-outside-limits"].text
    assert found["mate-undersize"].asks


def test_a_clearance_without_a_measured_mate_asks_for_it(sheet_of):
    sheet = sheet_of({NUT: NUT.replace("on_bench", "clearance: 0.004, on_bench")})
    assert value(sheet, "thread.target") == pytest.approx(2.1624)
    assert ids(sheet)["fit-unmeasured"].asks == "What does the mate measure on pitch diameter?"


def test_a_size_that_leaves_no_crest_stops_the_job(sheet_of):
    """A fifth of the pitch is 0.025 in: 2.2000 is 0.0376 over the middle."""
    sheet = sheet_of({NUT: fitted("2.2010", "0.001")})
    assert ids(sheet)["fit-impossible"].level == "stop"
    assert value(sheet, "thread.target") == pytest.approx(2.1624)


def test_a_thread_in_a_bore_is_cut_wider_than_its_screw(sheet_of):
    """M64x2-6H: the screw as measured and the clearance added."""
    sheet = sheet_of(text=SLEEVE.format(mate="pitch_diameter: 62.60, clearance: 0.15"))
    assert sheet.figures["thread.target"].value / mm == pytest.approx(62.75)
    assert sheet.figures["mate.play.measured"].value / mm == pytest.approx(0.15)


SLEEVE = """\
job: T-5
title: Sleeve
units: mm
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {{length: 120, od: 100, bore: 62}}
holding:
  chuck: {{jaws: 4, grip: 40}}
mate: {{part: screw, thread: M64x2-6g, on_bench: yes, {mate}}}
duty: {{said: turns, by: customer}}
operations:
  - bore: {{diameter: 62, length: 40}}
  - thread: {{designation: M64x2-6H, length: 30}}
"""


def test_plating_is_left_room_for(sheet_of):
    """8 um on 60 degrees is 32 um on pitch diameter, 0.00126 in: the aim comes down by it, not the play."""
    thread = "- thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}"
    sheet = sheet_of({NUT: fitted("2.1700", "0.006"), thread: thread.replace("tool", "plating: 8 um, tool")})
    assert value(sheet, "thread.target") == pytest.approx(2.1640 - 0.032 / 25.4)
    assert value(sheet, "mate.play.measured") == pytest.approx(0.006)
