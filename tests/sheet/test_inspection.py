"""The inspection record: lines of what measures this thread; thin work stands twice, gripped and let go."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.job.reading import read_job
from generator.render.page import render_page
from generator.sheet.compute import compute_sheet

JOBS = Path(__file__).parents[2] / "jobs"


@pytest.fixture
def sleeve(shop):
    """The thin sleeve of the demo archive."""
    return compute_sheet(read_job(JOBS / "2026" / "SW-103-focuser-sleeve" / "job.yml"), shop)


def test_a_thin_bore_is_measured_gripped_and_let_go(sleeve):
    gripped, free = sleeve.inspection[-2:]
    assert gripped.feature.startswith("Bore, gripped")
    assert "let go" in free.feature
    assert gripped.high == free.high == "thin.allowed"
    assert not gripped.low


def test_the_thread_stands_before_it(sleeve):
    """Its mate decides: no plug gauge is asked for, balls measure the pitch diameter."""
    assert [line.feature for line in sleeve.inspection][:3] == [
        "Minor diameter (bore)", "Size between balls", "The mate goes by hand over the whole length"
    ]


def test_without_a_thread_the_two_lines_stand_alone(sheet_of):
    text = """\
job: T-4
title: Spacer
units: mm
lathe: metric
material: 1045 steel
material_known_by: stamp
work:
  - {length: 40, od: 85, bore: 77, surface: turned}
holding:
  chuck: {jaws: 3, grip: 15, force: 3 kN}
duty: {said: a spacer, by: customer}
operations:
  - turn: {diameter: 85, from_diameter: 86, length: 20}
"""
    assert [line.feature for line in sheet_of(None, text).inspection] == [
        "Outside, gripped: radius at a jaw and midway, difference", "The same, let go"
    ]


def test_solid_work_has_no_such_lines(sheet_of):
    assert not any("gripped" in line.feature for line in sheet_of().inspection)


def test_the_sleeve_can_be_run_and_says_what_crosses(sleeve):
    assert sleeve.ready
    ids = {finding.id for finding in sleeve.findings}
    assert {"thin-grip", "thin-gauge"} <= ids
    figures = sleeve.figures
    assert figures["thin.kept.bore"].value < figures["thin.allowed"].value
    assert figures["thin.with.pie_jaws"].value < figures["thin.with.six_jaws"].value


def features(sheet):
    return [line.feature for line in sheet.inspection]


def test_over_wires_no_ring_is_asked_for(sheet_of):
    assert features(sheet_of())[:3] == ["Major diameter", "Size over wires", "Pitch diameter"]


def test_a_gauge_that_decides_puts_both_rings_into_the_record(sheet_of):
    sheet = sheet_of({"length: 2 1/2, tool: V1": "length: 2 1/2, tool: V1, fit: gauge"})
    assert features(sheet)[:3] == [
        "Major diameter", "Go thread ring goes on all the way", "No-go thread ring goes on, turns"
    ]
    assert sheet.figures["measure.gauge.no_go.turns"].value == 3


def test_a_mate_that_decides_stands_on_the_record_with_no_limit(sheet_of):
    sheet = sheet_of({"length: 2 1/2, tool: V1": "length: 2 1/2, tool: V1, fit: mate"})
    line = next(line for line in sheet.inspection if line.instrument == "the mate")
    assert not line.low
    assert not line.high
    assert re.search(
        rf'<th scope="row">{line.feature}<small>.*?</small></th><td><b></b></td>', render_page(sheet)
    )


def test_a_plated_thread_is_inspected_to_its_limits_before_plating(sheet_of):
    sheet = sheet_of({"length: 2 1/2, tool: V1": "length: 2 1/2, tool: V1, plating: 10 um, fit: gauge"})
    lines = {line.feature: line for line in sheet.inspection}
    assert lines["Major diameter"].high == "thread.before_plating.major.max"
    assert lines["Pitch diameter"].low == "thread.before_plating.pitch_diameter.min"
    go, before = (
        sheet.figures[name] for name in ("measure.gauge.go", "thread.before_plating.pitch_diameter.max")
    )
    assert go.value == pytest.approx(before.value)
    assert "plated, the go gauge is of the basic size" in go.note
