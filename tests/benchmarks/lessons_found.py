"""How the finding of lessons grows with the archive, beside what reading a job costs.

    python tests/benchmarks/lessons_found.py [N]

One run makes an archive of N jobs and one of 10 N in memory: a few lathes and materials, a hundred customers,
the usual threads, every job unfinished and with a lesson of its own, which is more than any archive has. It
prints the time for a job, index and finding, as a share of reading one job file. Not a test: nothing here
passes or fails.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from generator.job.learned import Lesson, Lessons
from generator.job.lessons import for_job, likeness
from generator.job.model import Job
from generator.job.reading import read_job

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "jobs" / "2026" / "SW-117-pump-shaft" / "job.yml"
LATHES, MATERIALS, CUSTOMERS = 3, 8, 100
THREADS = (
    "2-8 UN-2A", "M64x2-6g", "1-8 UNC-2A", "M20x2.5-6g", "1 1/2-12 UNF-2A", "Tr40x7-7e", "M30x3.5-6g",
    "3/4-16 UNF-2A",
)
READS = 20  # readings of the sample that are averaged


def archive(count: int) -> tuple[list[Job], list[Lesson]]:
    """Jobs as a shop has them, each with one lesson at the thread."""
    one = read_job(SAMPLE).job
    place = next(n for n, operation in enumerate(one.operations) if operation.thread is not None)
    jobs, lessons = [], []
    for number in range(count):
        operations = list(one.operations)
        cut = operations[place].given.model_copy(update={"designation": THREADS[number % len(THREADS)]})
        operations[place] = operations[place].model_copy(update={operations[place].name: cut})
        named = {
            "lathe": f"L{number % LATHES}", "material": f"M{number % MATERIALS}",
            "customer": f"C{number % CUSTOMERS}", "title": f"Part {number // CUSTOMERS}",
        }
        job = one.model_copy(update={**named, "operations": operations, "mate": "unknown", "drawing": None})
        day = f"2026-{number % 12 + 1:02}-{number % 28 + 1:02}"
        lesson = Lesson(str(number), "2026", f"{number}-part", day, True, "x", "thread", (), likeness(job))
        jobs.append(job)
        lessons.append(lesson)
    return jobs, lessons


def seconds(count: int) -> float:
    """Processor time for a job: its share of the index, and finding its lessons."""
    jobs, learned = archive(count)
    start = time.process_time()
    lessons = Lessons(learned)
    for number, job in enumerate(jobs):
        for_job(lessons, job, Path(f"2026/{number}-part"))
    return (time.process_time() - start) / count


def reading() -> float:
    """Processor time for reading one job file."""
    start = time.process_time()
    for _ in range(READS):
        read_job(SAMPLE)
    return (time.process_time() - start) / READS


def main(count: int) -> None:
    """Print both, and how much more a job costs in the larger archive."""
    read_job(SAMPLE)  # tables and models are loaded
    read, few, many = reading(), seconds(count), seconds(10 * count)
    print(f"{count} jobs: {few / read:.0%} of reading a job; {10 * count} jobs: {many / read:.0%}")
    print(f"in ten times the archive a job costs {many / few:.2f} times as much")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
