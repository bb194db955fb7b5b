"""The record of a sheet for machines."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from generator.render.figures_json import figures_record
from generator.sheet.lines import Finding
from generator.sheet.model import Sheet

JOB = Path("jobs/2026/SW-201-sample/job.yml")


def test_the_record_is_plain_json_with_the_agreed_keys(sheet: Sheet) -> None:
    record = json.loads(json.dumps(figures_record(sheet, JOB), allow_nan=False))
    assert set(record) >= {
        "job",
        "title",
        "ready",
        "units",
        "figures",
        "findings",
        "cautions",
        "passes",
        "pass_unit",
    }
    for figure in record["figures"].values():
        assert set(figure) == {"value", "unit", "working", "source", "assumed", "kind", "label", "text"}
    assert list(record["figures"]) == list(sheet.figures)


@pytest.mark.parametrize(
    ("name", "value", "unit"),
    [
        ("thread.pitch_diameter.max", 2.1664, "in"),  # ASME B1.1
        ("thread.major.min", 2.2326, "in"),
        ("thread.length", 2.5, "in"),
        ("spindle.step", 32, "rpm"),
        ("carriage.speed", 0.0666667, "in/s"),  # 32 rpm, 8 tpi
        ("relief.time", 5.625, "s"),
        ("passes.infeed_angle", 29.5, "deg"),
        ("job.load", 9000, "lbf"),
        ("thread.tpi", 8, "tpi"),
        ("thread.hand", "right hand", ""),
        ("job.duty", None, ""),
    ],
)
def test_values_are_plain_numbers_in_the_shown_unit(
    sheet: Sheet, name: str, value: object, unit: str
) -> None:
    figure = figures_record(sheet, JOB)["figures"][name]
    assert figure["unit"] == unit
    assert figure["value"] == (pytest.approx(value, rel=1e-5) if isinstance(value, float) else value)


def test_float_dust_is_gone(sheet: Sheet) -> None:
    assert figures_record(sheet, JOB)["figures"]["thread.major.max"]["value"] == 2.2476


def test_what_is_assumed_says_so(sheet: Sheet) -> None:
    figures = figures_record(sheet, JOB)["figures"]
    assumed = [name for name, figure in figures.items() if figure["assumed"]]
    assert assumed == ["holding.steady.position", "passes.infeed_angle", "operation.3.depth"]


def test_findings_point_at_a_line_of_the_job_file(sheet: Sheet) -> None:
    record = figures_record(
        replace(sheet, findings=(*sheet.findings, Finding("x", "note", "Somewhere."))), JOB
    )
    assert [finding["where"] for finding in record["findings"]] == ["job.yml:9", "job.yml:11", "job.yml:1"]


def test_passes_are_in_the_pass_unit_and_add_up(sheet: Sheet) -> None:
    record = figures_record(sheet, JOB)
    assert record["pass_unit"] == "in"
    assert sum(line["cut"] for line in record["passes"]) == pytest.approx(0.0766, abs=1e-9)
    assert record["passes"][0]["over_wires"] is None
    last = record["passes"][-1]
    assert (last["pass"], last["dial"], last["spring"], last["measure"]) == (12, 0.088, True, True)


def test_a_stopped_sheet_has_no_passes(stopped: Sheet, sheet: Sheet) -> None:
    for one in (
        stopped,
        replace(stopped, passes=sheet.passes),
        replace(stopped, ready=True, passes=sheet.passes),
    ):
        record = figures_record(one, JOB)
        assert record["ready"] is False
        assert record["passes"] == []


def test_an_operation_names_the_figure_of_each_column(sheet: Sheet) -> None:
    record = figures_record(sheet, JOB)
    relief = record["operations"][3]
    assert (relief["number"], relief["name"], relief["hold"]) == (4, "relief", "measure the wall left")
    assert record["figures"][relief["figures"]["step"]]["value"] == 50
    assert [line["proposed"] for line in record["operations"]] == [False] * 4 + [True, False]
