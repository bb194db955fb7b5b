"""The command `print`: the sheets of chosen jobs as one file, to open in a browser and print."""

from __future__ import annotations

import sys
from argparse import Namespace
from pathlib import Path

from generator.commands import CLEAN, ERRORS, Shops, chosen_jobs, site_address
from generator.errors import Problem
from generator.whole_file import free_place, write_whole


def print_set(asked: Namespace) -> int:
    """Write the sheets, in the order asked for, and say where they are and which are none."""
    from generator.render.print_set import MARK, set_document
    from generator.site.archive import make_entry
    from generator.site.plugin import STYLES

    jobs = Path(asked.jobs or "jobs")
    paths = chosen_jobs(asked.job, jobs)
    out = free_place(Path(asked.out), jobs, "--out", MARK)
    shops, address = Shops(jobs), site_address() if asked.jobs is None else ""
    made = [
        make_entry(path, shops.of(path), address, shops.lessons(path), alone=True) for path in paths
    ]
    numbers = [one.entry.row.number for one in made]
    text = set_document(numbers, [one.body for one in made], STYLES, asked.pages, asked.paper or "")
    write_whole(out, text)
    problems: list[Problem] = [one for job in made for one in job.entry.problems + job.entry.faults]
    for problem in dict.fromkeys(problems):
        print(problem.with_caret(), file=sys.stderr)
    count = len(made)
    print(f"Written {count} sheet{'' if count == 1 else 's'}: {', '.join(numbers)}.")
    print(f"Open {out} and print it")
    print(f"  or {out.as_uri()}")
    bad = [one.entry.row.number for one in made if one.entry.problems]
    if bad:
        print(f"No sheet because of errors, only a page that says so: {', '.join(bad)}", file=sys.stderr)
    return ERRORS if bad else CLEAN
