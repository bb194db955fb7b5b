"""What the pages of times and of the calendar cost with ten times as many jobs.

    python tests/benchmarks/times_and_calendar.py

The least of five runs each, for 2,000 and for 20,000 jobs with three times each, and their ratio, which is 10
where the cost of a job stays the same. Not a test: nothing here passes or fails.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent.parent))

from generator.archive.calendar_pages import calendar_front, calendar_pages
from generator.archive.listed import Listed
from generator.archive.times import times_page
from tests.archive.rows import made_jobs
from tests.archive.worked import worked


def keys(jobs: Sequence[Listed]) -> list[str]:
    """The keys of the pages of days, which every build needs; their texts only where a key is another."""
    return [content.key for content in calendar_pages(jobs)]


def texts(jobs: Sequence[Listed]) -> list[str]:
    """All pages of days, as a first build makes them."""
    return [content.make() for content in calendar_pages(jobs)]


def took(made: Callable[[Sequence[Listed]], object], jobs: Sequence[Listed]) -> float:
    """Seconds, the least of five runs."""
    least = float("inf")
    for _ in range(5):
        start = time.perf_counter()
        made(jobs)
        least = min(least, time.perf_counter() - start)
    return least


if __name__ == "__main__":
    few, many = (worked(made_jobs(count)) for count in (2_000, 20_000))
    for made in (times_page, calendar_front, keys, texts):
        small, large = took(made, few), took(made, many)
        print(f"{made.__name__}: {small:.3f} s and {large:.3f} s, {large / small:.1f} times")
