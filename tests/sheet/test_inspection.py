"""The inspection record: thin work stands on two lines, gripped and let go."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.job.reading import read_job
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
    assert [line.feature for line in sleeve.inspection][:2] == [
        "Minor diameter (bore)", "Go thread plug goes in all the way"
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
