"""What the commands do. Each returns an exit status: 0 clean, 1 errors, 2 wrong usage.

In reading order: UsageError, check, figures, thread, schema, and how other commands choose jobs. Heavy
imports stand inside the functions, so that a command pays only for what it uses.
"""

from __future__ import annotations

import json
import sys
from argparse import Namespace
from collections.abc import Sequence
from difflib import get_close_matches
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

from generator.errors import BadDesignation, JobProblems, Problem, SheetError
from generator.language.say import figure, say
from generator.terminal import LEVELS, say_finding, say_problem

if TYPE_CHECKING:
    from generator.job.learned import Lessons
    from generator.sheet.lines import Finding
    from generator.sheet.model import Sheet

CLEAN, ERRORS, USAGE = 0, 1, 2


class UsageError(SheetError):
    """The command line asks for something that cannot be; exit status 2."""


def check(asked: Namespace) -> int:
    """Read and compute jobs without writing anything; errors first, then findings."""
    from generator.site.archive import log_problems, make_sheet

    jobs = Path(asked.jobs or "jobs")
    results: list[tuple[Path, Sheet | None, tuple[Problem, ...]]] = []
    shops = Shops(jobs)
    for path in _job_files(asked.job, jobs):
        try:
            made = make_sheet(path, shops.of(path), shops.lessons(path))
            results.append((path, made, log_problems(made)))
        except JobProblems as error:
            results.append((path, None, error.problems))
    bad = sum(bool(problems) for _, _, problems in results)
    if asked.json:
        print(json.dumps({"jobs": [_checked(*result) for result in results]}, indent=2))
    else:
        for problem in dict.fromkeys(problem for _, _, problems in results for problem in problems):
            say_problem(problem, sys.stdout)
        for path, sheet, _ in results:
            for finding in sheet.findings if sheet else ():
                say_finding(_place(path, finding), finding.level, finding.text, finding.id, sys.stdout)
        not_ready = sum(sheet is not None and not sheet.ready for _, sheet, _ in results)
        print(
            say(
                "{results} checked, {bad} with errors, {not_ready} not ready to run",
                results=len(results),
                bad=bad,
                not_ready=not_ready,
            ),
            file=sys.stderr,
        )
    return ERRORS if bad else CLEAN


def figures(asked: Namespace) -> int:
    """Print every figure and finding of one job."""
    from generator.render.figures_json import figures_record
    from generator.site.archive import make_sheet

    jobs = Path(asked.jobs or "jobs")
    (path,) = _job_files([asked.job], jobs)
    try:
        shops = Shops(jobs)
        record = figures_record(make_sheet(path, shops.of(path), shops.lessons(path)), path)
    except JobProblems as error:
        for problem in error.problems:
            say_problem(problem, sys.stderr)
        return ERRORS
    if asked.json:
        print(json.dumps(record, indent=2, allow_nan=False))
    else:
        for name, one in record["figures"].items():
            print(f"{name}: {one['text']}{say(' (assumed)') if one['assumed'] else ''}")
        for finding in record["findings"]:
            print(f"{finding['where']}: {LEVELS[finding['level']]}: {finding['text']}")
    return CLEAN


def thread(asked: Namespace) -> int:
    """Print the limits of threads, one a line, in the order given."""
    from generator.sheet.thread_json import thread_record

    status = CLEAN
    for text in asked.designation:
        try:
            record = thread_record(text)
        except SheetError as error:
            print(error if isinstance(error, BadDesignation) else f"{text}: {error}", file=sys.stderr)
            status = ERRORS
            continue
        print(json.dumps(record, allow_nan=False) if asked.json else thread_line(record), flush=True)
    return status


def schema(asked: Namespace) -> int:
    """Print the JSON Schema of a job file, or write all schemas into a folder."""
    from generator.job.editor_line import FileKind, editor_line

    schemas = all_schemas()
    if asked.out is None:
        print(json.dumps(schemas["job"], indent=2))
        return CLEAN
    folder = Path(asked.out)
    folder.mkdir(parents=True, exist_ok=True)
    for name, one in schemas.items():
        path = folder / f"{name}.schema.json"
        path.write_text(json.dumps(one, indent=1) + "\n", encoding="utf-8")
        print(path)
    said = [
        say(
            "An editor that reads YAML schemas finds them in jobs/_shop/schemas by the first line of a file:"
        ),
        *(f"    {kind:<10} {editor_line(kind).rstrip()}" for kind in get_args(FileKind)),
        say("No file of yours was changed: put the line in yourself; new files get it where that folder is."),
    ]
    print("\n".join(said), file=sys.stderr)
    return CLEAN


def all_schemas() -> dict[str, dict[str, Any]]:
    """The schemas of all files that people write, and of the manifest of a shared job, by kind of file."""
    from generator.job.schema import job_schema, log_schema, sender_schema, shop_schemas
    from generator.pack.contents import manifest_schema

    schemas = {"job": job_schema(), "log": log_schema(), "sender": sender_schema(), **shop_schemas()}
    return {**schemas, "manifest": manifest_schema()}


class Shops:
    """The shop's files beside each job's archive, each read once."""

    def __init__(self, jobs: Path) -> None:
        self._jobs = jobs
        self._read: dict[Path, Any] = {}
        self._lessons: dict[Path, Lessons] = {}

    def of(self, job: Path) -> Any:
        """The shop that a job file belongs to: in its own archive, else in the jobs folder."""
        from generator.site.archive import try_shop

        folder = self.folder_of(job)
        if folder not in self._read:
            self._read[folder] = try_shop(folder)
        return self._read[folder]

    def folder_of(self, job: Path) -> Path:
        """The folder of that shop."""
        own = job.parent.parent.parent / "_shop"
        return own if own.is_dir() else self._jobs / "_shop"

    def lessons(self, job: Path) -> Lessons:
        """What was learned on the jobs of the archive that a job file belongs to; none for a file alone."""
        from generator.job.learned import Lessons
        from generator.job.lessons import read_lessons

        archive = job.resolve().parent.parent.parent
        if archive not in self._lessons:
            known = (archive / "_shop").is_dir()
            self._lessons[archive] = read_lessons(archive, self.of(job)) if known else Lessons(())
        return self._lessons[archive]


def _job_files(asked: Sequence[str], jobs: Path) -> list[Path]:
    """The job files that were asked for: by file, folder or number; all of them when none is named."""
    return [job_file(one, jobs) for one in asked] if asked else all_jobs(jobs)


def all_jobs(jobs: Path) -> list[Path]:
    """Every job file of the jobs folder.

    Raises
    ------
    UsageError
        When there is no such folder.
    """
    from generator.job.reading import find_jobs

    if not jobs.is_dir():
        raise UsageError(
            say("{jobs}: there is no such jobs folder; name a job file, or give --jobs", jobs=jobs)
        )
    return find_jobs(jobs)


def job_file(asked: str, jobs: Path) -> Path:
    """The job file that was asked for: by file, folder, name of the folder or number.

    Raises
    ------
    UsageError
        When there is none, or several have the number.
    """
    from generator.job.reading import find_jobs

    path = Path(asked)
    if path.is_dir() and (path / "job.yml").is_file():
        return path / "job.yml"
    if path.exists() and not path.is_dir():
        return path
    found = [
        file
        for file in find_jobs(jobs)
        if file.parent.name == asked or file.parent.name.startswith(f"{asked}-")
    ]
    if len(found) == 1:
        return found[0]
    if found:
        raise UsageError(
            say(
                "{asked}: several jobs have this number: {jobs}; name one of them",
                asked=asked,
                jobs=", ".join(map(str, found)),
            )
        )
    near = near_jobs(asked, [file.parent.name for file in find_jobs(jobs)])
    raise UsageError(
        say(
            "{asked}: there is no such job; {near}give a job file, its folder, or a job number of {jobs}",
            asked=asked,
            near=say("near it are {near}; ", near=near) if near else "",
            jobs=jobs,
        )
    )


def chosen_jobs(asked: Sequence[str], jobs: Path) -> list[Path]:
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
        raise UsageError("\n".join([*wrong, say("Nothing was written.")]))
    return list(found.values())


def near_jobs(asked: str, folders: Sequence[str]) -> str:
    """The folders, three at most, whose number or name is most like what was asked.

    Examples
    --------
    >>> near_jobs("SW-131", ["SW-113-bollard-spindle", "SW-123-carriage-nut", "X-9-pin"])
    'SW-123-carriage-nut, SW-113-bollard-spindle'
    >>> near_jobs("Bollard spindel", ["SW-113-bollard-spindle", "X-9-pin"])
    'SW-113-bollard-spindle'
    """
    called: dict[str, str] = {}  # what a folder may be called by: its number, its name, both
    for folder in folders:
        words = folder.casefold().split("-")
        for first, last in combinations(range(len(words) + 1), 2):
            called.setdefault("-".join(words[first:last]), folder)
    wanted = "-".join(asked[:80].casefold().split())
    found = get_close_matches(wanted, list(called), n=30, cutoff=0.75)
    return ", ".join(list(dict.fromkeys(called[name] for name in found))[:3])


def _checked(path: Path, sheet: Sheet | None, problems: Sequence[Problem]) -> dict[str, Any]:
    return {
        "job": sheet.job if sheet else None,
        "path": path.as_posix(),
        "ready": sheet.ready if sheet else False,
        "errors": [
            {
                "path": problem.location.path.as_posix(),
                "line": problem.location.line,
                "column": problem.location.column,
                "field": problem.field,
                "message": problem.message,
            }
            for problem in problems
        ],
        "findings": [
            {
                "id": finding.id,
                "level": finding.level,
                "text": finding.text,
                "where": _place(path, finding),
                "asks": finding.asks,
            }
            for finding in (sheet.findings if sheet else ())
        ],
    }


def _place(path: Path, finding: Finding) -> str:
    return str(finding.where) if finding.where else f"{path.as_posix()}:1:1"


def thread_line(record: dict[str, Any]) -> str:
    """A thread's limits in one line for people, each to the places that the standard prints."""
    unit, wires = record["unit"], record["wires"]
    sizes = {name: record[name] for name in ("major", "pitch_diameter", "minor")}
    sizes["over_wires"] = wires["over_wires"]
    places = max(
        (len(repr(size).partition(".")[2]) for pair in sizes.values() for size in pair.values() if size),
        default=0,
    )

    def limits(name: str, label: str) -> str:
        high, low = (
            "" if sizes[name][end] is None else figure(sizes[name][end], f".{places}f")
            for end in ("max", "min")
        )
        if high and low:
            return say("{label} {high} to {low} {unit}", label=label, high=high, low=low, unit=unit)
        if low:
            return say("{label} at least {low} {unit}", label=label, low=low, unit=unit)
        return say("{label} at most {high} {unit}", label=label, high=high, unit=unit) if high else ""

    parts = [
        say("left hand") if record["hand"] == "left" else say("right hand"),
        limits("major", say("major")),
        limits("pitch_diameter", say("pitch diameter")),
        limits("minor", say("minor")),
        limits(
            "over_wires",
            say("over wires of {wires:g} {unit}", wires=wires["size"], unit=unit)
            if wires["size"]
            else say("over wires"),
        ),
        say("lead angle {angle:.2f}°", angle=record["lead_angle_deg"]),
        say("at {plane}", plane=record["plane"]) if record["plane"] else "",
        say("from memory, check your copy: {memory}", memory=record["memory"]) if record["memory"] else "",
    ]
    return f"{record['designation']}: " + ", ".join(part for part in parts if part)
