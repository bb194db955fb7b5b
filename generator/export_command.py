"""The command `export`: figures and passes of chosen jobs as CSV or JSON, for a spreadsheet.

    export    the command
"""

from __future__ import annotations

import json
import sys
from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final

from generator.commands import CLEAN, ERRORS, Shops, UsageError, all_jobs, chosen_jobs
from generator.errors import JobProblems, Problem
from generator.language.say import say, say_count
from generator.terminal import say_problem
from generator.whole_file import free_place, write_whole

WHAT: Final = ("figures", "passes")
PASSES_BESIDE: Final = "-passes"  # behind the name of the file of figures


def export(asked: Namespace) -> int:
    """Write the files, and say where they are, and which jobs are not in them."""
    jobs = Path(asked.jobs or "jobs")
    what = _what(asked.what)
    if bool(asked.job) == asked.all:
        raise UsageError(say("name the jobs to be written, or give --all"))
    places = _places(Path(asked.out), what, jobs, replace=asked.force)
    paths = all_jobs(jobs) if asked.all else chosen_jobs(asked.job, jobs)
    records, problems, bad = _records(paths, jobs)
    for problem in dict.fromkeys(problems):
        say_problem(problem, sys.stderr)
    if bad:
        print(say("Left out because of errors: {bad}", bad=", ".join(bad)), file=sys.stderr)
    if not records:
        print(say("Nothing was written: there is no job to write."), file=sys.stderr)
        return ERRORS
    for part, place in places.items():
        text, said = _written(part, records)
        write_whole(place, text)
        print(
            say_count(
                "Written {what} of {count} job: {place}", "Written {what} of {count} jobs: {place}",
                len(records), what=said, place=place,
            )
        )
    return ERRORS if problems else CLEAN


def _what(asked: str | None) -> tuple[str, ...]:
    """The parts asked for, in the order of `WHAT`; all of them where nothing is asked."""
    words = WHAT if asked is None else tuple(word.strip() for word in asked.split(","))
    if wrong := [word for word in words if word not in WHAT]:
        raise UsageError(say("--what {wrong!r}: write figures, passes, or figures,passes", wrong=wrong[0]))
    return tuple(word for word in WHAT if word in words)


def _places(out: Path, what: Sequence[str], jobs: Path, *, replace: bool) -> dict[str, Path]:
    """Where each part goes, all looked at before anything is computed: `json` or parts of `WHAT`."""
    kind = out.suffix.lower()
    if kind == ".json":
        if tuple(what) != WHAT:
            raise UsageError(say("--what: a JSON file holds figures and passes alike; leave it out"))
        return {"json": free_place(out, jobs, "-o", replace=replace)}
    if kind != ".csv":
        raise UsageError(
            say("{out}: end the name in .csv for a spreadsheet, or in .json for other programs", out=out)
        )
    names = (out, out.with_name(f"{out.stem}{PASSES_BESIDE}{out.suffix}"))
    return {
        part: free_place(place, jobs, "-o", replace=replace)
        for part, place in zip(what, names, strict=False)
    }


def _records(paths: Sequence[Path], jobs: Path) -> tuple[list[dict[str, Any]], list[Problem], list[str]]:
    """The records of all sheets, all that is wrong, and the folders of the jobs that have no sheet."""
    from generator.render.figures_json import figures_record
    from generator.site.archive import log_problems, make_sheet

    shops = Shops(jobs)
    records: list[dict[str, Any]] = []
    problems: list[Problem] = []
    bad: list[str] = []
    for path in paths:
        try:
            sheet = make_sheet(path, shops.of(path), shops.lessons(path))
        except JobProblems as error:
            problems += error.problems
            bad.append(path.parent.name)
            continue
        problems += log_problems(sheet)
        records.append(figures_record(sheet, path))
    return records, problems, bad


def _written(part: str, records: Sequence[dict[str, Any]]) -> tuple[str, str]:
    """One file's text, and in a few words what it holds."""
    from generator.render.spreadsheet import FIGURES, PASSES, csv_text, figure_rows, pass_rows

    if part == "json":
        return json.dumps(records, indent=2, allow_nan=False, ensure_ascii=False) + "\n", say("the records")
    columns, rows_of = (FIGURES, figure_rows) if part == "figures" else (PASSES, pass_rows)
    rows = [row for record in records for row in rows_of(record)]
    if part == "figures":
        return csv_text(columns, rows), say_count("{count} figure", "{count} figures", len(rows))
    return csv_text(columns, rows), say_count("{count} pass", "{count} passes", len(rows))
