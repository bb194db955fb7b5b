"""Processor time of the whole holding on a sheet: what is laid before the route and under every cut of it."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median
from typing import Any

from stepped_jobs import stepped_job

from generator.job.reading import ReadJob, read_job, read_shop
from generator.job.shop import Shop
from generator.sheet import compute

JOBS = Path(__file__).resolve().parents[2] / "jobs"
SECTIONS = ("holding_section", "under_load_section")
GENERATED = 20
TIMES = 7  # each; the median counts
LIMIT = 15e-3  # s


def demo_jobs() -> Iterator[ReadJob]:
    """Those of the demo archive."""
    for path in sorted(JOBS.glob("20*/*/job.yml")):
        yield read_job(path)


def generated_jobs() -> Iterator[ReadJob]:
    """Stepped, tapered and hollow work in every way of holding."""
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(GENERATED):
            path = Path(folder) / f"{seed}.yml"
            path.write_text(stepped_job(seed), encoding="utf-8")
            yield read_job(path)


def held_seconds(job: ReadJob, shop: Shop, forget: Callable[[], None]) -> float:
    """Median processor time of both sections, nothing kept from before (s)."""
    return median(_once(job, shop, forget) for _ in range(TIMES))


def _once(job: ReadJob, shop: Shop, forget: Callable[[], None]) -> float:
    spent, whole = [], {name: getattr(compute, name) for name in SECTIONS}

    def timed(section: Callable[..., Any]) -> Callable[..., Any]:
        def run(*given: Any) -> Any:
            start = time.process_time()
            done = section(*given)
            spent.append(time.process_time() - start)
            return done

        return run

    forget()
    try:
        for name, section in whole.items():
            setattr(compute, name, timed(section))
        compute.compute_sheet(job, shop)
    finally:
        for name, section in whole.items():
            setattr(compute, name, section)
    return sum(spent)


def report(forget: Callable[[], None], frame_program: float) -> dict[str, dict[str, float | bool]]:
    """For both kinds of jobs: median and worst, in ms and against the frame program's time (s)."""
    shop, found = read_shop(JOBS / "_shop"), {}
    for kind, jobs in (("demo jobs", demo_jobs()), ("generated jobs", generated_jobs())):
        each = [held_seconds(job, shop, forget) for job in jobs]
        found[kind] = {
            "jobs": len(each),
            "median ms": round(1e3 * median(each), 1),
            "worst ms": round(1e3 * max(each), 1),
            "median under 15 ms": median(each) < LIMIT,
            "worst under 15 ms": max(each) < LIMIT,
            "frame program, deflections of one cut, over the median": round(frame_program / median(each), 1),
            "over the worst": round(frame_program / max(each), 1),
        }
    return found
