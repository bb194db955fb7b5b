"""Relations between the entries of a job: names the shop does not have, and what contradicts itself.

A contradiction is asked about and never resolved: its sentence names both values and both lines. Those of
the work are in `work_checks`, those of the thread in `thread_checks`.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.calc.designation import parse_designation
from generator.errors import BadDesignation, Problem
from generator.job.contradiction import Contradiction
from generator.job.reading import ReadJob
from generator.job.shop import Shop
from generator.job.thread_checks import one_of_each, thread_contradictions
from generator.job.work_checks import work_contradictions
from generator.units import nearest, quoted

__all__ = ["Contradiction", "check_job"]


def check_job(read: ReadJob, shop: Shop) -> tuple[list[Problem], list[Contradiction]]:
    """Check a job against the shop's files and against itself.

    Returns
    -------
    Problems that leave nothing to work with (a lathe, material or tool that the shop does not have, a
    designation that cannot be read), and the contradictions, both in file order.
    """
    problems = list(_unknown_names(read, shop))
    found = [*work_contradictions(read.job), *one_of_each(read)]
    for place, operation in enumerate(read.job.operations):
        if operation.thread is None:
            continue
        try:
            designation = parse_designation(operation.thread.designation)
        except BadDesignation as error:
            problems.append(read.problem(f"operations.{place}.thread.designation", str(error)))
        else:
            found += thread_contradictions(read, place, operation.thread, designation)
    return sorted(problems, key=lambda one: one.location), sorted(found, key=lambda one: one.where)


def _unknown_names(read: ReadJob, shop: Shop) -> Iterator[Problem]:
    job = read.job
    if job.lathe not in shop.lathes:
        message = _not_listed(job.lathe, "a lathe", list(shop.lathes), "a file in lathes")
        yield read.problem("lathe", message)
    if job.material != "unknown" and job.material not in shop.materials:
        message = _not_listed(job.material, "a material", list(shop.materials), "an entry in materials.yml")
        yield read.problem("material", f"{message}, or write unknown")
    tools = [tool.name for tool in shop.tools.threading]
    for place, operation in enumerate(job.operations):
        if operation.thread and operation.thread.tool and operation.thread.tool not in tools:
            message = _not_listed(operation.thread.tool, "a threading tool", tools, "an entry in tools.yml")
            yield read.problem(f"operations.{place}.thread.tool", message)


def _not_listed(name: str, what: str, known: list[str], place: str) -> str:
    near = nearest(name, known)
    others = f"known are {', '.join(known)}; otherwise" if known else "so far there is none;"
    hint = f"did you mean {near}? Otherwise" if near else others
    return f"{quoted(name)} is not {what} of this shop: {hint} give it {place}"
