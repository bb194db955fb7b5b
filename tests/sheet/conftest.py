"""A bench for sheets: write a job as text, get its Sheet, with the shop of the demo archive."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.job.reading import read_job, read_shop
from generator.job.shop import Shop
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
  - relief: {width: 3/8, diameter: 2.085, radius: 1/16}
  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}
"""


@pytest.fixture(scope="session")
def shop() -> Shop:
    """The invented shop of the demo archive."""
    return read_shop(JOBS / "_shop")


@pytest.fixture
def sheet_of(tmp_path: Path, shop: Shop) -> Callable[..., Sheet]:
    """`sheet_of({"old text": "new text"})`: the sheet of PIN (or of `text`) with pieces replaced."""

    def make(changes: dict[str, str] | None = None, text: str = PIN) -> Sheet:
        for old, new in (changes or {}).items():
            assert old in text, f"the job has no {old!r}"
            text = text.replace(old, new)
        folder = tmp_path / "2026" / "T-1-pin"
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / "job.yml"
        path.write_text(text, encoding="utf-8")
        return compute_sheet(read_job(path), shop)

    return make
