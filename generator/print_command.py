"""The command `print`: the sheets of chosen jobs as one file, to open in a browser and print.

    print_set        the command; only an earlier set is replaced, in one step
"""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

from generator.commands import CLEAN, ERRORS, Shops, UsageError, job_file, site_address
from generator.errors import Problem
from generator.one_step import replace_file


def print_set(asked: Namespace) -> int:
    """Write the sheets, in the order asked for, and say where they are and which are none."""
    from generator.render.print_set import set_document
    from generator.site.archive import make_entry
    from generator.site.plugin import STYLES

    jobs = Path(asked.jobs or "jobs")
    paths = _chosen(asked.job, jobs)
    out = _own_file(Path(asked.out), jobs)
    shops, address = Shops(jobs), site_address() if asked.jobs is None else ""
    made = [
        make_entry(path, shops.of(path), address, shops.lessons(path), alone=True) for path in paths
    ]
    numbers = [one.entry.row.number for one in made]
    text = set_document(numbers, [one.body for one in made], STYLES, asked.pages, asked.paper or "")
    replace_file(out, text.encode("utf-8"))
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


def _chosen(asked: Sequence[str], jobs: Path) -> list[Path]:
    """The job files asked for, each once; all that cannot be found is said at once.

    Raises
    ------
    UsageError
        For jobs that are not there.
    """
    found: dict[Path, Path] = {}
    wrong = []
    for one in asked:
        try:
            path = job_file(one, jobs)
            found.setdefault(path.resolve(), path)
        except UsageError as error:
            wrong.append(str(error))
    if wrong:
        raise UsageError("\n".join([*wrong, "Nothing was written."]))
    return list(found.values())


def _own_file(out: Path, jobs: Path) -> Path:
    """Where the file goes; a link is followed, so that the link itself stays.

    Raises
    ------
    UsageError
        When something else than an earlier set stands there, or it lies where nothing is written.
    """
    from generator.render.print_set import MARK

    path = out.resolve()
    if path.is_dir():
        raise UsageError(f"{out}: is a folder; give a file for --out")
    if not path.parent.is_dir():
        raise UsageError(f"{out}: there is no folder {path.parent}; make it first, or give another --out")
    if path.is_relative_to(jobs.resolve()):
        raise UsageError(f"{out}: lies in the jobs folder, where only you write; give another --out")
    if path.exists():
        with path.open("rb") as file:
            if MARK.encode() not in file.read(len(MARK) + 200):
                raise UsageError(
                    f"{out}: was not written by this command, so it stays as it is; give another --out"
                )
    return path
