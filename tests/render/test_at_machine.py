"""The page at the machine: every field has a name of what it is, and the data that go with it."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from generator.render.folded import folded
from generator.render.page import render_page
from generator.render.view import view
from generator.sheet.lines import Step
from generator.sheet.model import Sheet
from generator.si import inch

ReadPage = Callable[[str], Any]


def data_of(root: Any) -> dict[str, Any]:
    (script,) = root.all("script")
    found: dict[str, Any] = json.loads("".join(script.words))
    found["entries"] = {row.pop("id"): row for row in unfolded(found["entries"])}
    found["cards"] = unfolded(found["cards"])
    return found


def unfolded(runs: list[Any]) -> list[dict[str, Any]]:
    """Rows of data as js/sheet_data.js makes them."""
    return [
        same | {name: value for name, value in zip(names, values, strict=True) if value is not None}
        for same, names, rows in runs
        for values in rows
    ]


def names(root: Any) -> set[str]:
    return {one.attributes["data-entry"] for one in root.all() if "data-entry" in one.attributes}


def test_every_field_of_the_page_has_its_data_and_a_label(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(sheet))
    entries = data_of(root)["entries"]
    assert names(root) == set(entries)
    assert all(entry["label"] for entry in entries.values())
    assert len({entry["label"] for entry in entries.values()}) == len(entries)


def test_another_dial_reading_makes_another_field_of_that_pass_alone(sheet: Sheet) -> None:
    third = replace(sheet.passes[2], dial_reading=sheet.passes[2].dial_reading + 0.001 * inch)
    other = replace(sheet, passes=(*sheet.passes[:2], third, *sheet.passes[3:]))
    before, after = (
        [row.entry for part in view(one).passes.parts for row in part.rows] for one in (sheet, other)
    )
    assert [one == two for one, two in zip(before, after, strict=True)] == [
        number != 2 for number in range(len(before))
    ]


def test_another_thread_makes_another_field_of_every_pass(sheet: Sheet) -> None:
    thread = replace(sheet.figures["thread.designation"], value="2 1/4-8 UN-3A")
    changed = {**sheet.figures, "thread.designation": thread}
    before, after = (
        [row.entry for part in view(one).passes.parts for row in part.rows]
        for one in (sheet, replace(sheet, figures=changed))
    )
    assert not set(before) & set(after)


def test_two_steps_with_the_same_words_are_two_fields(sheet: Sheet) -> None:
    twice = replace(sheet, steps=(*sheet.steps, Step("Deburr", hold=True), Step("Deburr", hold=True)))
    one, other = view(twice).steps[-2:]
    assert one.entry != other.entry
    assert one.reading != other.reading


def test_a_step_that_moves_keeps_its_field(sheet: Sheet) -> None:
    moved = replace(sheet, steps=(Step("First of all"), *sheet.steps))
    assert [row.entry for row in view(moved).steps[1:]] == [row.entry for row in view(sheet).steps]


def test_the_passes_stand_behind_the_step_that_cuts_them(sheet: Sheet) -> None:
    thread = next(line.number for line in sheet.operations if line.name == "thread")
    steps = (Step("Set the tool"), Step("Cut it", operation=thread), Step("Measure", hold=True))
    heads = [card.head for card in view(replace(sheet, steps=steps)).at_machine.cards]
    count = len(sheet.passes)
    passes = [f"Pass {number} of {count}" for number in range(1, count + 1)]
    assert heads == ["Step 1 of 3", "Step 2 of 3", *passes, "Step 3 of 3"]


def test_a_sheet_that_is_not_ready_has_no_passes_to_write_in(sheet: Sheet, read_page: ReadPage) -> None:
    root = read_page(render_page(replace(sheet, ready=False, passes=(), trial_fit=(), to_size=None)))
    data = data_of(root)
    assert not [entry for entry in data["entries"].values() if entry["takes"] == "dial"]
    assert data["size"] is None
    assert [one.attributes["id"] for one in root.all("dialog")] == ["large-view"]
    assert "NOT READY TO RUN" in root.all("dialog")[0].text


def test_what_neighbours_share_is_written_once_and_every_row_gets_it_back() -> None:
    rows: list[dict[str, Any]] = [
        {"id": "a", "takes": "by", "of": "x"}, {"id": "b", "takes": "by"},
        {"id": "c", "takes": "dial", "turns": 0},
    ]
    runs = folded(rows, lambda row: row["takes"])
    assert [same for same, _, _ in runs] == [{"takes": "by"}, {"id": "c", "takes": "dial", "turns": 0}]
    assert unfolded(json.loads(json.dumps(runs))) == rows
