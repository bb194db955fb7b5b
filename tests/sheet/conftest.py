"""A bench for sheets: write a job as text, get its Sheet, with the shop of the demo archive."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.job.model import Job
from generator.job.reading import ReadJob, read_job, read_log, read_shop
from generator.job.shop import Shop, Tools
from generator.sheet.compute import compute_sheet
from generator.sheet.model import Sheet

JOBS = Path(__file__).parents[2] / "jobs"

PIN = """\
job: T-1
title: Pin
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {length: 11 5/8, od: 2.75}
  - {length: 2 7/8, od: 2 1/4}
holding:
  chuck: {jaws: 4, grip: 3}
  center: live
mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}
duty: {said: holds a gate, by: customer}
operations:
  - turn: {diameter: 2 1/4, length: 2 7/8}
  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}
  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}
"""

SHAFT = """\
job: T-2
title: Shaft
units: inch
lathe: thirteen-inch
material: 1045 steel
material_known_by: stamp
work:
  - {length: 6, od: 7/8}
  - {length: 2, od: 3/4}
holding:
  collet: {grip: 1 1/2}
mate: {part: nut, thread: 3/4-10 UNC-2B, on_bench: yes}
duty: {said: turns a wheel, by: customer}
operations:
  - turn: {diameter: 3/4, length: 2, from_diameter: 7/8}
  - relief: {width: 3/8, diameter: 0.600, radius: 1/32}
  - thread: {designation: 3/4-10 UNC-2A, length: 1 5/8, tool: V1}
"""

RING = """\
job: T-3
title: Ring
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {length: 3, od: 8, bore: 6}
holding:
  chuck: {jaws: 3, grip: 1, inside: yes}
mate: unknown
duty: {said: a ring, by: customer}
operations:
  - turn: {diameter: 8, length: 3, from_diameter: 8 1/8}
"""


@pytest.fixture(scope="session")
def shop() -> Shop:
    """The invented shop of the demo archive."""
    return read_shop(JOBS / "_shop")


@pytest.fixture
def read_of(tmp_path: Path) -> Callable[..., ReadJob]:
    """`read_of({"old text": "new text"})`: PIN (or `text`) with pieces replaced, as read."""

    def make(changes: dict[str, str] | None = None, text: str = PIN) -> ReadJob:
        for old, new in (changes or {}).items():
            assert old in text, f"the job has no {old!r}"
            text = text.replace(old, new)
        folder = tmp_path / "2026" / "T-1-pin"
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / "job.yml"
        path.write_text(text, encoding="utf-8")
        return read_job(path)

    return make


@pytest.fixture
def job_of(read_of: Callable[..., ReadJob]) -> Callable[..., Job]:
    """As `read_of`, but the job alone."""
    return lambda *args, **named: read_of(*args, **named).job


@pytest.fixture
def sheet_of(read_of: Callable[..., ReadJob], shop: Shop) -> Callable[..., Sheet]:
    """As `read_of`, but the finished sheet; `lathe` and `house` change entries, `tools` all."""

    def make(
        changes: dict[str, str] | None = None,
        text: str = PIN,
        *,
        lathe: dict[str, object] | None = None,
        house: dict[str, object] | None = None,
        tools: Tools | None = None,
    ) -> Sheet:
        read = read_of(changes, text)
        lathes = dict(shop.lathes)
        if lathe and read.job.lathe in lathes:
            lathes[read.job.lathe] = lathes[read.job.lathe].model_copy(update=lathe)
        changed = shop.model_copy(
            update={
                "lathes": lathes,
                "house": shop.house.model_copy(update=house or {}),
                "tools": tools or shop.tools,
            }
        )
        return compute_sheet(read, changed)

    return make


@pytest.fixture
def shaft_of(sheet_of: Callable[..., Sheet]) -> Callable[..., Sheet]:
    """As `sheet_of`, of a shaft in a collet, for any other way of holding it."""
    return lambda changes=None, **named: sheet_of(changes, SHAFT, **named)


@pytest.fixture
def shaft_job(job_of: Callable[..., Job]) -> Callable[..., Job]:
    """As `shaft_of`, but the job alone."""
    return lambda changes=None: job_of(changes, SHAFT)


@pytest.fixture
def ring_of(sheet_of: Callable[..., Sheet]) -> Callable[..., Sheet]:
    """As `sheet_of`, of a ring that the jaws grip from inside."""
    return lambda changes=None, **named: sheet_of(changes, RING, **named)


@pytest.fixture
def logged(read_of: Callable[..., ReadJob], shop: Shop) -> Callable[..., Sheet]:
    """`logged(text of the log, changes of the job)`: the sheet of the pin with that log."""

    def make(text: str, changes: dict[str, str] | None = None, job: str | None = None) -> Sheet:
        read = read_of(changes, job) if job else read_of(changes)
        dials = shop.lathes[read.job.lathe].units
        log = read_log(read.path.with_name("log.yml"), read.job.units, dials, text.encode())
        return compute_sheet(read, shop, log)

    return make
