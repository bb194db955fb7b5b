"""A bench for sheets: write a job as text, get its Sheet, with the shop of the demo archive."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.job.model import Job
from generator.job.reading import ReadJob, read_job, read_shop
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
