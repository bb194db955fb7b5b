"""What a sheet shows of the jobs like it: small scripts that it loads when somebody asks for them.

    alike_contents   a script for each thread family and nominal size, and for each material and holding

A sheet itself says nothing of other jobs but which script to ask, so a job that changes leaves all sheets as
they are. js/alike.js reads what is written here: how many jobs there are, and of the newest the `COLUMNS`.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator, Sequence
from functools import partial
from textwrap import shorten
from typing import Final

from generator.archive.listed import Content, Listed, key_of, key_of_jobs
from generator.archive.scripts import script
from generator.sheet.row import ArchiveRow
from generator.sheet.row_names import ALIKE, alike_address, alike_names, pitched

COLUMNS: Final = (
    "link", "number", "title", "thread", "pitch", "turns", "material", "held", "lathe", "year", "status",
    "learned",
)  # fmt: skip
NEWEST: Final = 100  # jobs in a script
ROOM: Final = 40_000  # bytes of it
LONGEST: Final = 120  # signs of a text


def alike_contents(jobs: Sequence[Listed]) -> Iterator[Content]:
    """The scripts; `jobs` are in the order of the archive."""
    found: defaultdict[tuple[object, ...], list[Listed]] = defaultdict(list)
    for job in jobs:
        for likeness in _likenesses(job.row):
            found[likeness].append(job)
    found.pop(("", ""), None)  # jobs that have no sheet
    for likeness, members in found.items():
        newest, many = members[:NEWEST], len(members)
        key = key_of(str(many), key_of_jobs(newest))
        name = _name(newest[0].row, likeness)
        yield Content(alike_address(name), key, partial(_script, name, newest, many))


def _likenesses(row: ArchiveRow) -> Iterator[tuple[object, ...]]:
    """What leads to the file names, too; here without the work of making them for every job."""
    if row.thread:
        yield pitched(row.thread)[:2]
    yield row.material, row.held


def _name(row: ArchiveRow, likeness: tuple[object, ...]) -> str:
    return dict(zip(_likenesses(row), alike_names(row), strict=True))[likeness]


def _script(name: str, jobs: Sequence[Listed], many: int) -> str:
    rows: list[tuple[str, ...]] = []
    room = ROOM
    for job in jobs:
        row = _row(job)
        room -= len(json.dumps(row, ensure_ascii=False).encode("utf-8", "replace"))
        if room < 0:
            break
        rows.append(row)
    return script(f"{ALIKE}/{name}", {"many": many, "rows": rows})


def _row(job: Listed) -> tuple[str, ...]:
    row, thread = job.row, job.row.thread
    texts = (
        row.number, row.title, row.designation, thread.pitch if thread else "",
        pitched(thread).turns if thread else "", row.material, row.held, row.lathe, row.year, row.status,
        " ".join(row.learned),
    )  # fmt: skip
    return job.link, *map(shortened, texts)


def shortened(text: str) -> str:
    """As much of a text as is shown, cut after a word where there is one.

    >>> shortened("The follow rest marks the thread. " * 9)[-40:]
    ' rest marks the thread. The follow rest…'
    """
    short = shorten(text, LONGEST, placeholder="…")
    return short if short != "…" else f"{text[: LONGEST - 1]}…"
