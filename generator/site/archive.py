"""The archive: every job folder becomes a sheet or a page of its problems, and a row in the table of jobs.

    find_jobs -> make_entry, or what is kept of it -> Archive

One bad job never hides the others, a fault on another lathe never hides the job, and nothing in the jobs
folder is written.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from urllib.parse import quote, urljoin

from generator.errors import Fault, JobProblems, Location, Problem
from generator.job.beside import JobPicture
from generator.job.lessons import FINISHED, Found, Lesson, Lessons, lessons_of
from generator.job.log_names import log_names
from generator.job.reading import ReadJob, ReadLog, read_job, read_log, read_shop
from generator.job.shop import Shop
from generator.pictures import BadPicture, shown_picture
from generator.render.page import render_page, render_problem_page
from generator.sheet.compute import compute_sheet
from generator.sheet.lessons import lesson_lines
from generator.sheet.model import History, Sheet
from generator.sheet.other_lathes import Comparison, NotCompared, comparison
from generator.sheet.row import ArchiveRow
from generator.site.figure_names import FigureName, figure_names

log = logging.getLogger(__name__)

NO_LESSONS = Lessons(())
LOG = "log.yml"  # beside the job file
JOB_DEPTH = 3  # <year>/<job folder>/job.yml


@dataclass(frozen=True)
class Entry:
    """One job in the archive.

    `superseded` and `learns` say that its page depends on other jobs: on those that supersede it, on lessons.
    `page` is its page relative to the site, `row` what the table of jobs shows and searches. With
    `problems` the page says what is wrong, and there is no sheet; with `faults` there is a sheet, without
    the comparison with other lathes.
    """

    path: Path
    page: str
    row: ArchiveRow
    problems: tuple[Problem, ...] = ()
    faults: tuple[Problem, ...] = ()
    superseded: bool = False
    learns: bool = False

    @property
    def sure(self) -> bool:
        """False where another build may go better, with the same files."""
        return not any(isinstance(problem, Fault) for problem in (*self.problems, *self.faults))

    @property
    def link(self) -> str:
        """The page's address relative to the site, ready for an attribute."""
        return quote(self.page)

    @property
    def heading(self) -> str:
        """What the browser's tab shows."""
        return f"{self.row.number} {self.row.title}".strip()


@dataclass(frozen=True)
class Archive:
    """All jobs, newest year first, then by folder name; `oddities` are sentences about the jobs folder.

    `figures` are the figures of all sheets, and their other sources, as the site lists them; `reused` counts
    the jobs that were kept from an earlier build.
    """

    entries: tuple[Entry, ...]
    oddities: tuple[str, ...] = ()
    shop: str = ""
    figures: tuple[FigureName, ...] = ()
    reused: int = 0

    @property
    def problems(self) -> tuple[Problem, ...]:
        """The problems and faults of all jobs, each once: a broken shop file spoils many jobs."""
        every = (problem for entry in self.entries for problem in (*entry.problems, *entry.faults))
        return tuple(dict.fromkeys(every))

    @property
    def not_ready(self) -> int:
        """How many sheets say that they are not ready to run."""
        return sum(not entry.problems and not entry.row.ready for entry in self.entries)

    @property
    def bad(self) -> int:
        """How many jobs could not be made into a sheet."""
        return sum(bool(entry.problems) for entry in self.entries)

    def figure_names(self) -> tuple[FigureName, ...]:
        """Every figure name that some sheet carries, in the order of the alphabet."""
        found = {figure.name: figure for figure in reversed(self.figures) if figure.name}
        return tuple(found[name] for name in sorted(found))

    def sources(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Every source that some sheet names, with the labels of the figures that rest on it."""
        labels: dict[str, dict[str, None]] = {}
        for figure in self.figures:
            labels.setdefault(figure.source, {})[figure.label] = None
        return tuple((source, tuple(labels[source])) for source in sorted(labels, key=str.casefold) if source)


@dataclass(frozen=True)
class Made:
    """A job's row, its page without the frame, what it brings to the site's lists, and its pictures."""

    entry: Entry
    body: str
    figures: tuple[FigureName, ...] = ()
    pictures: tuple[JobPicture, ...] = ()


def make_entry(
    path: Path,
    shop: Shop | JobProblems,
    address: str = "",
    lessons: Lessons = NO_LESSONS,
    *,
    alone: bool = False,
) -> Made:
    """One job's row and the body of its page; never raises for what a file holds.

    A page that stands `alone` has its pictures in itself.
    """
    try:
        whole = _whole_shop(path, shop)
        with faults_as_problems(path):
            read = read_job(path, whole)
            sheet = _sheet_with_log(read, whole, lessons)
        compared, faults = _on_other_lathes(read, whole, sheet)
        with faults_as_problems(path):
            entry = _sheet_entry(
                path, sheet, (*log_problems(sheet), *faults),
                superseded=read.job.superseded_by is not None, learns=read.job.status not in FINISHED,
            )
            pictures = {one.name: _picture_itself(one.path) for one in sheet.pictures} if alone else None
            own = urljoin(address, entry.link) if address else ""
            body = render_page(sheet, compared, own, pictures)
            return Made(entry, body, figure_names(sheet), sheet.pictures)
    except JobProblems as error:
        body = render_problem_page(path.parent.name, error.problems)
        return Made(_problem_entry(path, error.problems), body)


def _picture_itself(path: Path) -> str:
    """A picture as an address that holds it; an empty one where it was taken away since it was read."""
    with suppress(BadPicture):
        return shown_picture(path).address
    return "data:,"


def _on_other_lathes(
    read: ReadJob, shop: Shop, sheet: Sheet
) -> tuple[Comparison | NotCompared, tuple[Problem, ...]]:
    """The job on every other lathe; a fault of ours there leaves its own sheet as it is."""
    try:
        with faults_as_problems(read.path, "no comparison with the other lathes"):
            return comparison(read, shop, _as_planned(sheet)), ()
    except JobProblems as error:
        return NotCompared(tuple(problem.message for problem in error.problems)), error.problems


def _as_planned(sheet: Sheet) -> Sheet:
    """The sheet without what its log says, which no other lathe has."""
    planned = tuple(finding for finding in sheet.findings if not finding.id.startswith("log-"))
    return replace(sheet, findings=planned, history=None, take_up=None)


def make_sheet(path: Path, shop: Shop | JobProblems, lessons: Lessons = NO_LESSONS) -> Sheet:
    """Read and compute one job, with what was learned on the jobs like it.

    Raises
    ------
    JobProblems
        What is wrong with the job file or with the shop's files, and nothing else; what is wrong with the
        log is in the sheet.
    """
    whole = _whole_shop(path, shop)
    with faults_as_problems(path):
        read = read_job(path, whole)
        return _sheet_with_log(read, whole, lessons)


def _sheet_with_log(read: ReadJob, shop: Shop, lessons: Lessons) -> Sheet:
    """The sheet with its log; a fault of ours in the log leaves the sheet as it is without one."""
    log, others = log_beside(read, shop), lessons.for_job(read.job, read.path.parent)
    if log is None:
        return _taught(compute_sheet(read, shop), (), others)
    try:
        with faults_as_problems(log.path, "the log is left out"):
            return _taught(compute_sheet(read, shop, log), lessons_of(read, log), others)
    except JobProblems as error:
        sheet = compute_sheet(read, shop)  # what is wrong with the job says so here again
        return _taught(replace(sheet, history=History((), problems=error.problems)), (), others)


def _taught(sheet: Sheet, own: Iterable[Lesson], others: Found) -> Sheet:
    return replace(sheet, learned=lesson_lines(own, others, sheet.index))


def log_beside(read: ReadJob, shop: Shop) -> ReadLog | None:
    """The log beside a job file, as far as it can be read; None where there is none."""
    path, lathe = read.path.with_name(LOG), shop.lathes.get(read.job.lathe)
    if lathe is None or not (path.exists() or path.is_symlink()):
        return None
    return read_log(path, read.job.units, lathe.units, names=log_names(read.job, shop))


def log_problems(sheet: Sheet) -> tuple[Problem, ...]:
    """What is wrong with the log of a job that has a sheet."""
    return sheet.history.problems if sheet.history else ()


def compare_job(path: Path, shop: Shop | JobProblems) -> Comparison:
    """Read and compute one job, on its own lathe and on every other one of the shop.

    Raises
    ------
    JobProblems
        As `make_sheet`.
    """
    whole = _whole_shop(path, shop)
    with faults_as_problems(path):
        return comparison(read_job(path, whole), whole)


def _whole_shop(path: Path, shop: Shop | JobProblems) -> Shop:
    """The shop, or all that is wrong with it and with the job."""
    if not isinstance(shop, JobProblems):
        return shop
    try:
        read_job(path)
    except JobProblems as error:
        raise JobProblems([*error.problems, *shop.problems]) from error
    raise shop


def try_shop(folder: Path) -> Shop | JobProblems:
    """The shop's files, or what is wrong with them."""
    try:
        with faults_as_problems(folder):
            return read_shop(folder)
    except JobProblems as error:
        return error


@contextmanager
def faults_as_problems(path: Path, costs: str = "no sheet") -> Iterator[None]:
    """A fault of ours in one job must not hide the other jobs: it becomes a problem of that job's file."""
    try:
        yield
    except JobProblems:
        raise
    except OSError as error:
        said = f"cannot be read: {error.strerror or error}"
        raise JobProblems([Fault(Location(path), "", said)]) from error
    except Exception as error:
        log.debug("%s", path, exc_info=True)
        said = f"{type(error).__name__}: {error}"
        said = f"{costs}, by a fault of this program ({said}); please report it with the file"
        raise JobProblems([Fault(Location(path), "", said)]) from error


def page_of(path: Path) -> str:
    """Where a job's page stands in the site: sheets/<year>/<job folder>.html."""
    return f"sheets/{path.parent.parent.name}/{path.parent.name}.html"


def _sheet_entry(
    path: Path, sheet: Sheet, faults: tuple[Problem, ...], *, superseded: bool, learns: bool
) -> Entry:
    learned = tuple(line.words for line in sheet.learned.lines if not line.number)
    row = replace(sheet.index, learned=learned, year=path.parent.parent.name)
    return Entry(path, page_of(path), row, (), faults, superseded, learns)


def _problem_entry(path: Path, problems: tuple[Problem, ...]) -> Entry:
    count = f"{len(problems)} error{'' if len(problems) == 1 else 's'}"
    row = ArchiveRow(
        number=path.parent.name,
        title=f"No sheet: {count} in the files",
        year=path.parent.parent.name,
        status="errors",
        text=" ".join(str(problem) for problem in problems),
    )
    return Entry(path, page_of(path), row, tuple(problems))


def oddities(jobs_dir: Path, entries: Iterable[Entry]) -> Iterator[str]:
    """What an archive holds that would otherwise be passed over in silence."""
    first: dict[str, Entry] = {}
    for entry in entries:
        other = first.setdefault(entry.row.number, entry)
        if other is not entry:
            number, twin = entry.row.number, other.path.as_posix()
            yield f"{entry.path.as_posix()}: job number {number} stands in {twin} too"
    read = {entry.path for entry in entries}
    for path in sorted(jobs_dir.rglob("*.y*ml")):
        inside = path.relative_to(jobs_dir).parts
        if any(part.startswith(("_", ".")) for part in inside) or path in read:
            continue
        if path.name in {"job.yml", "job.yaml"} or len(inside) < JOB_DEPTH:
            yield f"{path.as_posix()}: is not read; a job is <year>/<job folder>/job.yml in the jobs folder"
