"""What the archive page is narrowed by is small, and says of every job what its row says."""

from __future__ import annotations

import json
import re
import zlib
from base64 import b64decode
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.archive.blocks import BLOCK, Block, blocks_of, safe, sheaves_of
from generator.archive.columns import (
    columns_contents,
    natural,
    orders_contents,
    packed,
    packed_sets,
    rows_contents,
)  # fmt: skip
from generator.archive.listed import Listed
from generator.sheet.row import ArchiveRow
from tests.archive.rows import made_jobs

MANY = 20_000


@pytest.fixture(scope="module")
def many() -> list[Block]:
    return blocks_of(made_jobs(MANY))


def data(script: str) -> Any:
    """What a script hands to the page."""
    (held,) = re.findall(r'^setupSheetData\("[^"]*",(.*)\);\n$', script, re.DOTALL)
    return json.loads(held)


def unpacked(script: str, count: int) -> tuple[dict[str, Any], dict[str, list[Any]]]:
    """The columns again, by their description alone."""
    head, _, rest = zlib.decompress(b64decode(data(script))).partition(b"\n")
    said = json.loads(head)
    columns: dict[str, list[Any]] = {}
    for name, values, width, sets in said["columns"]:
        places = [
            sum(rest[plane * count + job] << 8 * plane for plane in range(width)) for job in range(count)
        ]
        rest = rest[width * count :]
        if sets >= 0:
            bytes_each = (sets + 7) // 8
            bits = [
                int.from_bytes(rest[n * bytes_each : (n + 1) * bytes_each], "little")
                for n in range(len(values))
            ]
            rest = rest[len(values) * bytes_each :]
            values = [
                [value for value, held in zip(values, bits, strict=True) if held >> one & 1]
                for one in range(sets)
            ]
        new = iter(values)
        columns[name] = [values[place - 1] if place else next(new) for place in places]
    assert rest == b""
    return said, columns


def test_the_columns_say_of_every_job_what_its_row_says(many: list[Block]) -> None:
    said, columns = unpacked(columns_contents(many)[0].make(), MANY)
    for content in columns_contents(many)[1:]:
        columns |= unpacked(content.make(), MANY)[1]
    rows = [job.row for block in many for job in block.jobs]
    assert [count for *_, count in said["blocks"]] == [len(block.jobs) for block in many]
    assert columns["material"] == [row.material for row in rows]
    assert columns["mate"] == [row.mate for row in rows]
    assert columns["customer"] == [row.customer for row in rows]
    assert columns["state"] == [[row.status, row.ready] for row in rows]
    for name in ("holding", "duty", "findings"):
        assert [set(words) for words in columns[name]] == [set(getattr(row, name)) for row in rows]
    for words, row in zip(columns["thread"], rows, strict=True):
        assert (words[0] if words else "") == row.designation
        if row.thread:
            assert words[1:3] == [row.thread.family, row.thread.size]
            assert words[3] == pytest.approx(row.thread.nominal * 1000, abs=1e-4)
            assert words[6:] == [row.thread.hand, row.thread.side]


def test_twenty_thousand_jobs_load_in_few_bytes(many: list[Block]) -> None:
    first, *others = columns_contents(many)
    assert len(first.make()) < 120_000
    assert all(len(content.make()) < 120_000 for content in others)
    rows = [len(content.make().encode()) for content in rows_contents(many)]
    assert max(rows) < 3_000
    assert all(len(content.make()) < 120_000 for content in orders_contents(many))


def test_a_new_job_in_one_year_leaves_the_scripts_of_other_years(many: list[Block]) -> None:
    jobs = made_jobs(MANY)
    at = next(place for place, job in enumerate(jobs) if job.row.year == "2010")
    more = [
        *jobs[:at],
        Listed("sheets/2010/new.html", ArchiveRow("N", "", "2010", "done"), "new"),
        *jobs[at:],
    ]
    before = {content.name: content.key for content in rows_contents(many)}
    after = {content.name: content.key for content in rows_contents(blocks_of(more))}
    changed = {name for name in before.keys() | after.keys() if before.get(name) != after.get(name)}
    assert changed
    assert all("/rows/2010-" in name for name in changed)
    assert columns_contents(many)[0].key != columns_contents(blocks_of(more))[0].key


def test_rows_have_address_number_and_title(many: list[Block]) -> None:
    begin, end, rows = data(rows_contents(many)[0].make())
    for (address, number, title), job in zip(rows, many[0].jobs, strict=False):
        assert f"{begin}{address}{end}" == job.link
        assert (number, title) == (job.row.number, job.row.title)


def test_an_unusual_address_is_written_whole() -> None:
    jobs = [Listed("elsewhere/a.html", ArchiveRow("A", "</script>", "2026", "done"), "a")]
    (content,) = rows_contents(blocks_of(jobs))
    assert data(content.make())[2] == [["/elsewhere/a.html", "A", "</script>"]]
    assert "<" not in content.make()


def test_orders_sort_numbers_by_their_value(many: list[Block]) -> None:
    rows = [job.row for block in many for job in block.jobs]
    raw = {
        content.name: zlib.decompress(b64decode(data(content.make()))) for content in orders_contents(many)
    }
    planes = raw["find/orders/number.js"]
    order = [sum(planes[plane * MANY + at] << 8 * plane for plane in range(4)) for at in range(MANY)]
    assert sorted(order) == list(range(MANY))
    numbers = [natural(rows[place].number) for place in order]
    assert numbers == sorted(numbers)


@given(st.lists(st.sampled_from("abcdef")))
def test_a_packed_column_unpacks(values: list[str]) -> None:
    column = packed(values)
    new = iter(column.values)
    assert [column.values[place - 1] if place else next(new) for place in column.places] == values


@given(st.lists(st.lists(st.sampled_from("abcdef"), unique=True).map(tuple)))
def test_packed_sets_hold_every_word_once(values: list[tuple[str, ...]]) -> None:
    column = packed_sets(values)
    assert set(column.values) == {word for words in values for word in words}
    assert column.sets is not None
    assert set(column.sets) == set(values)


def test_a_block_holds_one_year_and_no_more_than_it_may(many: list[Block]) -> None:
    assert [job for block in many for job in block.jobs] == made_jobs(MANY)
    assert all(len({job.row.year for job in block.jobs}) == 1 for block in many)
    assert all(0 < len(block.jobs) <= BLOCK for block in many)
    assert len({block.name for block in many}) == len(many)
    assert [job for _, jobs in sheaves_of(many[0]) for job in jobs] == list(many[0].jobs)


def test_an_archive_without_a_job_has_columns() -> None:
    said, columns = unpacked(columns_contents([])[0].make(), 0)
    assert said["blocks"] == []
    assert not any(columns.values())


@given(st.text(), st.text())
def test_two_folders_never_share_a_name(one: str, other: str) -> None:
    assert (safe(one).casefold() == safe(other).casefold()) == (one == other)
