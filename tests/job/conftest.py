"""A small job that is whole, and ways to change it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.job.reading import ReadJob, read_job

JOB = """\
job: 2026-031
title: Bollard spindle
units: inch
lathe: long-bed
material: 1045 steel
work:
  - {length: 14, od: 2 1/4}
  - {length: 5, od: 2, bore: 1 1/8}
holding:
  chuck: {jaws: 3, grip: 2}
mate: {part: clamp ring, thread: 2-8 UN-2B}
operations:
  - relief: {width: 3/16}
  - thread: {designation: 2-8 UN-2A, length: 1 3/4}
"""


@pytest.fixture
def small_job() -> str:
    """Its text."""
    return JOB


@pytest.fixture
def read(tmp_path: Path) -> Callable[..., ReadJob]:
    """Read the small job with some of its text replaced: read({"length: 5": "length: 6"})."""

    def read(changes: dict[str, str] | None = None) -> ReadJob:
        text = JOB
        for old, new in (changes or {}).items():
            assert text.count(old) == 1, f"{old!r} is not once in the job"
            text = text.replace(old, new)
        path = tmp_path / "job.yml"
        path.write_text(text, "utf-8")
        return read_job(path)

    return read
