"""Jobs like this one: which scripts a sheet asks, what stands in them, and how large they get."""

from __future__ import annotations

import json
import re
from collections import Counter
from dataclasses import replace
from typing import Any

from hypothesis import given
from hypothesis.strategies import text

from generator.archive.alike import LONGEST, NEWEST, ROOM, alike_contents, shortened
from generator.archive.listed import Listed
from generator.render.alike_block import alike_block
from generator.sheet.row import ArchiveRow
from generator.sheet.row_names import alike_address, alike_names, safe_name

MARK = "<img src=x onerror=alert(1)>"


def read(said: str) -> Any:
    found = re.fullmatch(r'setupSheetData\("alike/[^"]+",(.*)\);\n', said, re.DOTALL)
    assert found
    return json.loads(found[1])


def test_every_script_that_a_sheet_asks_is_there(many_jobs: list[Listed]) -> None:
    made = [content.name for content in alike_contents(many_jobs)]
    asked = {alike_address(name) for job in many_jobs for name in alike_names(job.row)}
    assert len(made) == len(set(made))
    assert asked == set(made)
    for job in many_jobs[::500]:
        assert {address.removeprefix("../../") for address in alike_block(job.row).data.split(" ")} <= asked


def test_the_newest_jobs_stand_in_it_and_the_rest_is_counted(many_jobs: list[Listed]) -> None:
    members = Counter(name for job in many_jobs for name in alike_names(job.row))
    for content in list(alike_contents(many_jobs))[::20]:
        data = read(content.make())
        name = content.name.removeprefix("alike/").removesuffix(".js")
        assert data["many"] == members[name]
        numbers = [row[1] for row in data["rows"]]
        assert len(numbers) <= NEWEST
        expected = [job.row.number for job in many_jobs if name in alike_names(job.row)]
        assert numbers == expected[: len(numbers)]


def test_no_script_is_large_however_many_jobs_and_however_long_their_words() -> None:
    row = ArchiveRow("J-1", "x" * 5000, "2026", "done", material="m" * 5000, learned=("ø" * 9000,) * 9)
    jobs = [Listed(f"sheets/2026/J-{n}.html", replace(row, number=f"J-{n}"), f"{n}") for n in range(500)]
    (content,) = alike_contents(jobs)
    said = content.make()
    assert len(said.encode()) <= ROOM + 500
    assert read(said)["many"] == 500


def test_what_a_job_says_cannot_end_a_script() -> None:
    row = ArchiveRow("J-1", "</script>" + MARK, "2026", "done", material=MARK)
    (content,) = alike_contents([Listed("sheets/2026/J-1.html", row, "1")])
    assert "<" not in content.make()
    assert read(content.make())["rows"][0][2] == "</script>" + MARK


def test_another_key_only_where_a_member_is_another(many_jobs: list[Listed]) -> None:
    before = {content.name: content.key for content in alike_contents(many_jobs)}
    changed = [replace(many_jobs[0], word="another"), *many_jobs[1:]]
    after = {content.name: content.key for content in alike_contents(changed)}
    others = {name for name in before if before[name] != after[name]}
    assert others == {alike_address(name) for name in alike_names(many_jobs[0].row)}


@given(text())
def test_a_shortened_text_is_its_beginning(words: str) -> None:
    short = shortened(words)
    assert len(short) <= LONGEST
    plain = " ".join(words.split())
    assert short == plain or plain.startswith(short.removesuffix("…")) or short.endswith("…")


@given(text(), text())
def test_two_names_are_the_same_only_for_the_same_text(one: str, other: str) -> None:
    assert (safe_name(one) == safe_name(other)) is (one == other)
    assert re.fullmatch(r"[a-z0-9-]*_[a-z2-7]{12}", safe_name(one))
