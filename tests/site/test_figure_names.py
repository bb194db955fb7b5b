"""The list of figure names: each kind of figure of an operation once, however many operations there are."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from generator.job.reading import read_job, read_shop
from generator.sheet.compute import compute_sheet
from generator.sheet.figure import Figure, Kind
from generator.sheet.lines import OperationLine
from generator.sheet.model import Sheet
from generator.site.figure_names import figure_names

JOBS = Path(__file__).parents[2] / "jobs"
TITLES = {1: "Face", 2: "Turn to 2 in", 12: "Cut 2-8 UN-2A"}
PRACTICE, BOOK = "common practice, no source", "a handbook"


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    """A demo sheet with three operations of which each has a step, and a figure that belongs to all."""
    shop = read_shop(JOBS / "_shop")
    (path,) = JOBS.glob("*/SW-113-*/job.yml")
    made = compute_sheet(read_job(path, shop), shop)
    own = [figure for name, figure in made.figures.items() if not name.startswith("operation.")]
    figures = [
        *own,
        Figure("operation.efficiency", "Share that arrives", 0.75, "ratio", Kind.ASSUMED, PRACTICE),
        *(
            Figure(
                f"operation.{number}.step",
                f"{number} {title}: spindle step",
                1.0,
                "spindle_speed",
                kind,
                source,
            )
            for (number, title), kind, source in zip(
                TITLES.items(),
                (Kind.COMPUTED, Kind.COMPUTED, Kind.GIVEN),
                (PRACTICE, BOOK, "the file"),
                strict=True,
            )
        ),
    ]
    lines = tuple(OperationLine(number, "turn", title, {}) for number, title in TITLES.items())
    return replace(made, figures={figure.name: figure for figure in figures}, operations=lines)


def test_a_figure_of_an_operation_is_listed_for_any_number(sheet: Sheet) -> None:
    listed = [one for one in figure_names(sheet) if one.name.startswith("operation.")]
    assert {one.name for one in listed} == {"operation.efficiency", "operation.<n>.step"}
    assert {one.label for one in listed} == {"Share that arrives", "Operation n: spindle step"}
    assert {one.quantity for one in listed} == {"ratio", "spindle speed"}


def test_no_source_of_any_operation_is_lost(sheet: Sheet) -> None:
    sources = [one.source for one in figure_names(sheet) if one.name == "operation.<n>.step"]
    assert sources == [PRACTICE, BOOK, ""]


def test_other_figures_keep_their_names_and_labels(sheet: Sheet) -> None:
    names = {one.name: one.label for one in figure_names(sheet) if one.name}
    for name, figure in sheet.figures.items():
        if not re.match(r"(operation|give|grip)\.\d+\.", name):
            assert names[name] == figure.label
