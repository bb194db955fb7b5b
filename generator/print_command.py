"""The commands `print` and `sheet`: sheets as one file, to open in a browser and print.

    print_set    the sheets of chosen jobs
    one_sheet    the sheet of one job, with no need of the framework that makes the site
"""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from generator.commands import CLEAN, ERRORS, Shops, chosen_jobs, job_file
from generator.errors import Problem
from generator.language.say import say, say_count
from generator.terminal import say_problem
from generator.whole_file import free_place, write_whole

if TYPE_CHECKING:
    from generator.site.entry import Made


def print_set(asked: Namespace) -> int:
    """Write the sheets, in the order asked for, and say where they are and which are none."""
    from generator.framework.building import site_address

    jobs = Path(asked.jobs or "jobs")
    paths = chosen_jobs(asked.job, jobs)
    address = site_address() if asked.jobs is None else ""
    return _write(paths, Path(asked.out), "--out", jobs, address, asked.pages, asked.paper or "")


def one_sheet(asked: Namespace) -> int:
    """Write the sheet of one job, whole in itself."""
    jobs = Path(asked.jobs or "jobs")
    path = job_file(asked.job, jobs)
    out = Path(asked.out or f"{path.parent.name}.html")
    return _write([path], out, "-o", jobs, "", asked.pages, asked.paper or "")


def _write(
    paths: Sequence[Path], out: Path, option: str, jobs: Path, address: str, pages: str, paper: str
) -> int:
    from generator.render.print_set import MARK, set_document
    from generator.site.archive import make_entry

    out = free_place(out, jobs, option, MARK)
    shops = Shops(jobs)
    made = [make_entry(path, shops.of(path), address, shops.lessons(path), alone=True) for path in paths]
    numbers = [one.entry.row.number for one in made]
    write_whole(out, set_document(numbers, [one.body for one in made], pages, paper))
    return _say(made, out)


def _say(made: Sequence[Made], out: Path) -> int:
    """What is wrong, where the file is, and which jobs have no sheet in it; the exit status."""
    problems: list[Problem] = [one for job in made for one in job.entry.problems + job.entry.faults]
    for problem in dict.fromkeys(problems):
        say_problem(problem, sys.stderr)
    numbers = [one.entry.row.number for one in made]
    print(
        say_count(
            "Written {count} sheet: {numbers}.", "Written {count} sheets: {numbers}.", len(made),
            numbers=", ".join(numbers),
        )
    )
    print(say("Open {out} and print it", out=out))
    print(say("  or {as_uri}", as_uri=out.as_uri()))
    bad = [one.entry.row.number for one in made if one.entry.problems]
    if bad:
        print(
            say("No sheet because of errors, only a page that says so: {bad}", bad=", ".join(bad)),
            file=sys.stderr,
        )
    return ERRORS if bad else CLEAN
