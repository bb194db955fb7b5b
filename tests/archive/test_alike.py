"""The data of the jobs like one: small, by size, what a sheet asks for, and safe in a script."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from generator.archive.alike import COLUMNS, LONGEST, NEWEST, alike_contents, shortened
from generator.archive.listed import Listed
from generator.render.alike_block import alike_block
from generator.sheet.row import ArchiveRow
from tests.archive.rows import made_jobs

LARGEST = 41_000  # bytes


def data(text: str) -> Any:
    (held,) = re.findall(r'^setupSheetData\("[^"]*",(.*)\);\n$', text, re.DOTALL)
    return json.loads(held)


def test_scripts_are_small_and_hold_the_newest_of_each_size() -> None:
    jobs = made_jobs(20_000)
    contents = list(alike_contents(jobs))
    assert len({content.name.lower() for content in contents}) == len(contents)
    found = 0
    for content in contents:
        text = content.make()
        assert len(text.encode()) < LARGEST
        held = data(text)
        assert len(held["rows"]) == min(held["many"], NEWEST)
        years = [row[COLUMNS.index("year")] for row in held["rows"]]
        assert years == sorted(years, reverse=True)
        found += held["many"]
    assert found == len(jobs)


def test_a_sheet_asks_for_the_script_that_its_job_is_in() -> None:
    jobs = made_jobs(300)
    held = {content.name: data(content.make()) for content in alike_contents(jobs)}
    for job in jobs:
        block = alike_block(job.row)
        rows = held[block.data.removeprefix("../../")]["rows"]
        (own,) = (row for row in rows if row[0] == job.link)
        assert own[COLUMNS.index("turns")] == block.turns
        assert own[COLUMNS.index("material")] == block.material
        assert own[COLUMNS.index("held")] == block.held


def test_a_job_that_changed_changes_one_script() -> None:
    jobs = made_jobs(2_000)
    before = {content.name: content.key for content in alike_contents(jobs)}
    jobs[3] = replace(jobs[3], word="another")
    after = {content.name: content.key for content in alike_contents(jobs)}
    assert before.keys() == after.keys()
    assert sum(before[name] != after[name] for name in before) == 1


def test_a_job_without_a_sheet_is_left_out() -> None:
    job = Listed("sheets/2026/a.html", ArchiveRow("a", "No sheet", "2026", "errors"), "")
    assert not list(alike_contents([job]))


def test_a_material_that_nobody_knows_is_not_the_same_as_another() -> None:
    assert alike_block(ArchiveRow("a", "", "2026", "done", material="unknown")).material == ""


def test_long_texts_leave_the_script_small() -> None:
    row = ArchiveRow("a", "ü" * 900, "2026", "done", material="Ø" * 900, learned=("Mind the dog. " * 90,))
    jobs = [Listed(f"sheets/2026/{'%C3%98' * 120}{number}.html", row, str(number)) for number in range(200)]
    (content,) = alike_contents(jobs)
    text = content.make()
    assert len(text.encode()) < LARGEST
    held = data(text)
    assert held["many"] == 200
    assert 0 < len(held["rows"]) < NEWEST


@given(st.text(), st.text(), st.text())
def test_what_a_job_says_ends_no_script(title: str, material: str, learned: str) -> None:
    row = ArchiveRow("a", f"</script>{title}", "2026", "done", material=f"x{material}", learned=(learned,))
    (content,) = alike_contents([Listed("sheets/2026/a.html", row, "")])
    text = content.make()
    assert "<" not in text
    assert not re.search("[\u2028\u2029]", text)
    (found,) = data(text)["rows"]
    assert found[COLUMNS.index("title")] == shortened(row.title)


@given(st.text())
def test_a_shortened_text_has_no_more_than_the_room(text: str) -> None:
    assert len(shortened(text)) <= LONGEST
