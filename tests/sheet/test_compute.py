"""The whole sheet: what stops it, what stays unknown, what the archive shows."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.errors import JobProblems
from generator.job.reading import find_jobs, read_job
from generator.sheet.compute import compute_sheet
from generator.sheet.figure import Kind
from generator.si import inch, mm

JOBS = Path(__file__).parents[2] / "jobs"


def levels(sheet):
    return {finding.id: finding.level for finding in sheet.findings}


def test_a_clean_job_is_ready_and_has_passes(sheet_of):
    sheet = sheet_of()
    assert sheet.ready, sheet.findings
    assert sheet.passes
    assert not [finding for finding in sheet.findings if finding.level == "stop"]


@pytest.mark.parametrize(
    "changes",
    [
        {"length: 2 1/2, tool": "length: 2 1/2, hand: left, tool"},
        {"length: 2 1/2, tool": "length: 2 1/2, tpi: 7, tool"},
        {"length: 2 1/2, tool": "length: 2 1/2, pitch: 0.1 in, tool"},
        {"length: 2 1/2, tool": "length: 2 1/2, class: 3A, tool"},
        {"length: 2 1/2, tool": "length: 2 1/2, units: mm, tool"},
        {"length: 2 1/2, tool": "length: 3 1/2, tool"},
        {"length: 2 1/2, tool": "length: 2 1/2, spindle: 33 rpm, tool"},
        {"length: 2 1/2, tool": "length: 2 1/2, blank: 2.2480, tool"},
        {"length: 2 1/2, tool": "length: 2 1/2, blank: 2.2300, tool"},
        {"work:": "total_length: 15\nwork:"},
        {"  center: live": "  steady: {at: 10}\n  hold_back: yes"},
        {"  center: live": "  steady: {at: 30}\n  hold_back: yes"},
    ],
)
def test_a_contradiction_stops_the_sheet_and_keeps_what_is_known(sheet_of, changes):
    sheet = sheet_of(changes)
    assert not sheet.ready
    assert sheet.passes == ()
    assert sheet.status == "NOT READY TO RUN"
    assert any(finding.level == "stop" for finding in sheet.findings)
    assert "thread.pitch_diameter.max" in sheet.figures
    status = next(field.text for field in sheet.title_block if field.label == "Status")
    assert status == "NOT READY TO RUN"


def test_stop_findings_point_at_a_line_of_the_job_file(sheet_of):
    sheet = sheet_of({"length: 2 1/2, tool": "length: 2 1/2, hand: left, tool"})
    stop = next(finding for finding in sheet.findings if finding.level == "stop")
    assert stop.where is not None
    assert stop.where.path.name == "job.yml"
    assert stop.asks


def test_unknown_material_gives_no_speed_no_force_no_weight(sheet_of):
    sheet = sheet_of({"material: 1045 steel\nmaterial_known_by: stamp": "material: unknown"})
    assert levels(sheet)["material-unknown"] == "check"
    for name in ("job.material", "spindle.step", "holding.weight", "holding.deflection.max"):
        assert sheet.figures[name].value is None, name
        assert sheet.figures[name].kind is Kind.UNKNOWN


def test_unknown_duty_and_mate_stay_unknown(sheet_of):
    sheet = sheet_of(
        {
            "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}\n": "",
            "duty: {said: holds a gate, by: customer}\n": "",
        }
    )
    assert sheet.figures["job.duty"].value is None
    assert sheet.figures["mate.part"].value is None
    assert {"duty-unknown", "mate-unknown"} <= levels(sheet).keys()


def test_an_unknown_lathe_is_a_problem_with_the_nearest_name(sheet_of):
    with pytest.raises(JobProblems, match="long-bed"):
        sheet_of({"lathe: long-bed": "lathe: long-bad"})


def test_a_job_without_a_thread_has_a_sheet_without_passes(sheet_of):
    sheet = sheet_of(
        {
            "  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}\n": "",
            "  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}\n": "",
        }
    )
    assert sheet.passes == ()
    assert sheet.thread_scene is None
    assert "holding.stick_out" in sheet.figures


def test_every_demo_job_has_a_sheet_and_only_one_is_not_ready(shop):
    sheets = [compute_sheet(read_job(path), shop) for path in find_jobs(JOBS)]
    assert len(sheets) >= 5
    assert [sheet.job for sheet in sheets if not sheet.ready] == ["SW-109"]


def test_demo_pin_has_the_figures_worked_out_by_hand(shop):
    """32 rpm at or below 20 ft/min on 2.25 in; 0.0667 in/s; 5.6 s in 3/8 in: arithmetic, common practice."""
    path = next(path for path in find_jobs(JOBS) if "SW-101" in str(path))
    figures = compute_sheet(read_job(path), shop).figures
    assert figures["spindle.step"].value * 60 == pytest.approx(32)
    assert figures["carriage.speed"].value / inch == pytest.approx(32 / 60 / 8)
    assert figures["relief.time"].value == pytest.approx(5.625)
    assert figures["holding.slenderness"].value == pytest.approx(11.5 / 2.75)
    assert figures["capacity.between_centers"].value / inch == pytest.approx(14.5 + 7 + 5)


def test_demo_windshaft_weighs_what_a_handbook_says(shop):
    """Steel rounds weigh 2.673 D² lb/ft (density 0.2836 lb/in³): 54.5 in of 5.5 in and 7.5 in of 4.5 in."""
    path = next(path for path in find_jobs(JOBS) if "SW-110" in str(path))
    figures = compute_sheet(read_job(path), shop).figures
    pounds = 2.673 * (5.5**2 * 54.5 + 4.5**2 * 7.5) / 12
    assert figures["holding.weight"].value / 0.45359237 == pytest.approx(pounds, rel=0.01)
    assert figures["capacity.between_centers"].value / inch == pytest.approx(62 + 7)


def test_every_figure_says_where_it_comes_from(shop):
    for path in find_jobs(JOBS):
        for figure in compute_sheet(read_job(path), shop).figures.values():
            assert figure.source, figure.name
            if figure.kind is Kind.COMPUTED and figure.quantity != "text":
                assert figure.working is not None or figure.note, figure.name


def test_passes_add_up_and_the_last_lands_inside_the_limits(shop):
    for path in find_jobs(JOBS):
        sheet = compute_sheet(read_job(path), shop)
        if not sheet.passes:
            continue
        cut = sum(line.cut for line in sheet.passes)
        assert cut == pytest.approx(sheet.passes[-1].depth, abs=1e-12)
        assert cut == pytest.approx(sheet.figures["passes.depth"].value, abs=1e-12)
        limits = (sheet.figures.get(f"thread.pitch_diameter.{end}") for end in ("min", "max"))
        low, high = (limit.value if limit else None for limit in limits)
        assert (low or 0) <= sheet.passes[-1].pitch_diameter <= high  # a square thread has one limit only
        tries = [line.number for line in sheet.passes if line.try_mate]
        assert tries
        assert tries[0] < len([line for line in sheet.passes if not line.spring])


def test_one_millimetre_is_one_millimetre():
    """The multipliers' own check: 25.4 mm to the inch, exactly."""
    assert inch / mm == pytest.approx(25.4, rel=1e-15)
