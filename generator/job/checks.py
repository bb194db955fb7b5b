"""Relations between the entries of a job: names the shop does not have, and what contradicts itself.

A contradiction is asked about and never resolved: its sentence names both values and both lines. Those of
the work are in `work_checks`, those of the way it is held in `holding_checks`, those of the thread in
`thread_checks`, and with its mate in `mate_checks`.
"""

from __future__ import annotations

from generator.errors import Problem
from generator.job.contradiction import Contradiction
from generator.job.holding_checks import holding_contradictions
from generator.job.model import Job, Mate
from generator.job.names import unknown_names
from generator.job.reading import ReadJob
from generator.job.shop import Shop
from generator.job.thread_checks import one_of_each, thread_contradictions
from generator.job.work_checks import work_contradictions

__all__ = ["Contradiction", "check_job"]


def check_job(read: ReadJob, shop: Shop) -> tuple[list[Problem], list[Contradiction]]:
    """Check a job against the shop's files and against itself.

    Returns
    -------
    Problems that leave nothing to work with (a lathe, material or tool that the shop does not have), and
    the contradictions, both in file order.
    """
    problems = [read.problem(*found) for found in unknown_names(_named(read.job), shop)]
    found = [*work_contradictions(read.job), *holding_contradictions(read), *one_of_each(read)]
    for place, operation in enumerate(read.job.operations):
        if operation.thread is not None:
            designation = operation.thread.read()
            found += thread_contradictions(read, place, operation.thread, designation)
    return sorted(problems, key=lambda one: one.location), sorted(found, key=lambda one: one.where)


def _named(job: Job) -> dict[str, str]:
    """The names in a job that point into the shop's files, by field."""
    tools = {
        f"operations.{place}.{operation.name}.tool": operation.given.tool
        for place, operation in enumerate(job.operations)
        if operation.given.tool
    }
    mate = job.mate.material if isinstance(job.mate, Mate) else None
    of_mate = {"mate.material": mate} if mate else {}
    return {"lathe": job.lathe, "material": job.material, **of_mate, **tools}
