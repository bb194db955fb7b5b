"""How the finding of lessons grows with the archive: ten times the jobs, about ten times the time.

    python tests/benchmarks/lessons_found.py [N]

One run makes an archive of N jobs and one of 10 N in memory, each with a lesson of its own, finds the lessons
of every job, and prints the ratio. Not a test: nothing here passes or fails.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from generator.job.lessons import Lesson, Lessons, likeness
from generator.job.model import Job
from generator.job.reading import read_job

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "jobs" / "2026" / "SW-117-pump-shaft" / "job.yml"
SHARE = 8  # jobs with the same customer, lathe and material


def archive(count: int) -> tuple[list[Job], list[Lesson]]:
    """Jobs that share lathe and material with a few others, each with one lesson."""
    one = read_job(SAMPLE).job
    jobs, lessons = [], []
    for number in range(count):
        named = {"lathe": f"L{number // SHARE}", "material": f"M{number // SHARE}", "customer": f"C{number}"}
        job = one.model_copy(update={**named, "operations": one.operations[:1], "mate": "unknown"})
        jobs.append(job)
        lessons.append(
            Lesson(str(number), "2026", f"{number}-part", "2026-01-01", True, "x", "face", (), likeness(job))
        )
    return jobs, lessons


def seconds(count: int) -> float:
    """Processor time of finding the lessons of every job, once."""
    jobs, learned = archive(count)
    start = time.process_time()
    lessons = Lessons(learned)
    for number, job in enumerate(jobs):
        lessons.for_job(job, Path(f"2026/{number}-part"))
    return time.process_time() - start


def main(count: int) -> None:
    """Print what both took, and the ratio."""
    few, many = seconds(count), seconds(10 * count)
    print(f"{count} jobs: {few:.3f} s; {10 * count} jobs: {many:.3f} s")
    print(f"a job costs {many / few / 10:.2f} times as much")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
