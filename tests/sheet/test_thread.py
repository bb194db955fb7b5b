"""The thread section: limits from print reach the sheet, and the depth follows the tool's own nose."""

from __future__ import annotations

import dataclasses
import math

import pytest

from generator.sheet.figure import Kind
from generator.si import inch, mm


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def test_limits_of_a_published_row_reach_the_sheet(sheet_of):
    """15/16-12 UN-2A: major 0.9358 max, pitch 0.8817 max (ASME B1.1 table; the secondary size's own row)."""
    sheet = sheet_of(
        {
            "2 1/4-8 UN-2A": "15/16-12 UN-2A",
            "2 1/4-8 UN-2B": "15/16-12 UN-2B",
            "od: 2 1/4": "od: 15/16",
            "diameter: 2.060": "diameter: 0.82",
            "turn: {diameter: 2 1/4": "turn: {diameter: 15/16",
        }
    )
    figures = sheet.figures
    assert round(figures["thread.major.max"].value / inch, 4) == 0.9358
    assert round(figures["thread.pitch_diameter.max"].value / inch, 4) == 0.8817
    assert figures["thread.pitch_diameter.max"].kind is Kind.STANDARD


def test_depth_for_a_flat_of_an_eighth_of_the_pitch_is_three_quarters_of_h(sheet_of):
    """Old American National depth 0.64952 P from a full major (NBS Handbook H28), from the aimed blank."""
    sheet = sheet_of({", tool: V1": ""})
    figures = sheet.figures
    pitch = inch / 8
    expected = (
        0.64952 * pitch / 2
        + (figures["thread.blank"].value - 0.64952 * pitch - figures["thread.target"].value) / 2
    )
    expected += (pitch / 2 - pitch / 8) / (2 * math.tan(math.radians(30)))
    assert figures["thread.depth"].value == pytest.approx(expected, abs=1e-7)
    assert figures["thread.tool.nose_flat"].kind is Kind.ASSUMED
    assert ids(sheet)["tool-assumed"].level == "check"


def test_wire_comes_from_the_shop_set_and_says_so(sheet_of):
    wire = sheet_of().figures["thread.wire.size"]
    assert wire.value == pytest.approx(0.0722 * inch)
    assert wire.kind is Kind.SHOP


def test_size_over_wires_of_the_pin(sheet_of):
    """M = E + 3 W − 0.866025 P (NBS Handbook H28) at E 2.1664 and 2.1584, W 0.0722."""
    figures = sheet_of().figures
    assert round(figures["thread.over_wires.max"].value / inch, 4) == 2.2747
    assert round(figures["thread.over_wires.min"].value / inch, 4) == 2.2667


def test_a_wire_that_does_not_seat_stops_the_sheet(sheet_of):
    sheet = sheet_of({"tool: V1": "tool: V1, wire: 0.029"})
    assert ids(sheet)["wire-unusable"].level == "stop"
    assert not sheet.ready
    assert sheet.passes == ()


def test_a_nose_wider_than_a_quarter_pitch_stops_the_sheet(sheet_of):
    """V2 has a flat of 0.025 in; 16 threads per inch allow 0.0156 in."""
    sheet = sheet_of(
        {"2 1/4-8 UN-2A": "2 1/4-16 UN-2A", "2 1/4-8 UN-2B": "2 1/4-16 UN-2B", "tool: V1": "tool: V2"}
    )
    assert ids(sheet)["nose-wide"].level == "stop"


def test_metric_class_that_was_not_written_is_assumed_and_asked_about(sheet_of):
    sheet = sheet_of(
        {
            "units: inch": "units: mm",
            "length: 11 5/8, od: 2.75": "length: 295, od: 70",
            "length: 2 7/8, od: 2 1/4": "length: 75, od: 60",
            "grip: 3": "grip: 75",
            "2 1/4-8 UN-2B": "M60x4-6H",
            "diameter: 2 1/4, length: 2 7/8": "diameter: 60, length: 75",
            "width: 3/8, diameter: 2.060, radius: 1/16": "width: 10, radius: 2",
            "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1": "designation: M60x4, length: 60",
            "lathe: long-bed": "lathe: metric",
        }
    )
    assert sheet.figures["thread.class"].kind is Kind.ASSUMED
    assert "class-assumed" in ids(sheet)
    assert sheet.figures["thread.pitch"].value == pytest.approx(4 * mm)


def test_blank_as_measured_is_used_and_named(sheet_of):
    sheet = sheet_of(
        {"tool: V1": "tool: V1, blank: {value: 2.2440, by: machinist 2, with: micrometer 2-3 in}"}
    )
    blank = sheet.figures["thread.blank"]
    assert blank.kind is Kind.MEASURED
    assert "machinist 2" in blank.source
    assert "micrometer 2-3 in" in blank.source
    assert blank.value == pytest.approx(2.2440 * inch)


def test_a_tool_ground_to_another_angle_stops_the_sheet(sheet_of, shop):
    """60 degrees between the flanks: ASME B1.1, ISO 68-1."""
    tool = shop.tools.threading[0]
    angle = dataclasses.replace(tool.angle, si=math.radians(55), text="55")
    whitworth = tool.model_copy(update={"angle": angle})
    sheet = sheet_of(tools=shop.tools.model_copy(update={"threading": [whitworth]}))
    assert ids(sheet)["tool-angle"].level == "stop"
    assert "55 degrees" in ids(sheet)["tool-angle"].text
