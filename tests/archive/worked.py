"""Days and times for the jobs of a made archive: an invented shop's, the same for the same seed."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace

from generator.archive.listed import Listed
from generator.sheet.row import DayRow, TimeRow
from generator.si import minute

KINDS = ("face", "turn", "bore", "groove", "relief", "chamfer", "thread", "drill", "part off", "knurl")
STATUS = ("quoted", "planned", "in work", "stopped", "done", "done", "done", "scrapped")


def worked(jobs: Sequence[Listed], times: int = 3, seed: int = 11) -> list[Listed]:
    """The jobs with some days and so many times each."""
    choose = random.Random(seed)
    return [_worked(choose, job, times) for job in jobs]


def _worked(choose: random.Random, job: Listed, times: int) -> Listed:
    row, status = job.row, choose.choice(STATUS)
    month, day = choose.randint(1, 12), choose.randint(1, 20)
    days = [DayRow(f"{row.year}-{month:02}-{day:02}", "received")]
    if status in ("stopped", "done"):
        days.append(DayRow(f"{row.year}-{month:02}-{day + 2:02}", "stopped"))
    if status == "done":
        days += [DayRow(f"{row.year}-{month:02}-{day + 6:02}", what) for what in ("taken up", "done")]
    taken = tuple(_time(choose, choose.choice(KINDS)) for _ in range(times))
    shown = status if row.ready else row.status
    return replace(job, row=replace(row, status=shown, days=tuple(days), times=taken))


def _time(choose: random.Random, work: str) -> TimeRow:
    planned = choose.randint(2, 90) * minute * choose.random()
    taken = max(0.5 * minute, planned * choose.lognormvariate(0.2, 0.5))
    return TimeRow(work, planned if choose.random() < 0.9 else None, taken)
