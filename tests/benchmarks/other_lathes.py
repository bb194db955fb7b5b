"""What it costs to compute the jobs of the demo archive for every lathe of the shop, beside their own alone.

    python tests/benchmarks/other_lathes.py [TIMES]

One run does both and prints the ratios; seconds alone say little on a busy machine. What is kept from one
beam to the next is forgotten before each turn, so that neither gains from the other. Not a test: nothing here
passes or fails.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

from generator.calc import beam, modes
from generator.job.reading import find_jobs, read_job, read_shop
from generator.render.page import render_page
from generator.sheet.compute import compute_sheet
from generator.sheet.other_lathes import comparison

JOBS = Path(__file__).resolve().parents[2] / "jobs"


def seconds(work: Callable[[], object]) -> float:
    """Processor time of the work, with nothing kept from before."""
    for kept in (beam._on_supports, beam._reach, beam._solved, modes._lowest, modes._buckling_push):
        kept.cache_clear()
    start = time.process_time()
    work()
    return time.process_time() - start


def main(times: int) -> None:
    """Compute and write every job so many times, without the other lathes and with them."""
    shop = read_shop(JOBS / "_shop")
    jobs = [read_job(path) for path in find_jobs(JOBS)]
    alone = beside = drawn = with_section = 0.0
    for job in jobs:
        made = comparison(job, shop)  # first, so that tables and templates are read
        render_page(made.here.sheet, made)
        for _ in range(times):
            alone += seconds(lambda job=job: compute_sheet(job, shop))
            beside += seconds(lambda job=job: comparison(job, shop))
            drawn += seconds(lambda made=made: render_page(made.here.sheet))
            with_section += seconds(lambda made=made: render_page(made.here.sheet, made))
    count = len(jobs) * times
    print(f"{len(jobs)} jobs on {len(shop.lathes)} lathes, {times} times each")
    print(
        f"a sheet computed: {1000 * alone / count:.1f} ms, on every lathe and compared: "
        f"{beside / alone:.2f} of it"
    )
    print(
        f"a page computed and written: {1000 * (alone + drawn) / count:.1f} ms, with the other lathes on it: "
        f"{(beside + with_section) / (alone + drawn):.2f} of it"
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
