"""Every job folder becomes a sheet or a page of its problems, and a row in the archive.

One bad job never hides the others, a fault on another lathe never hides the job, and nothing in the jobs
folder is written.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from urllib.parse import urljoin

from generator.errors import Fault, JobProblems, Location, Problem
from generator.job.learned import Found, Lesson, Lessons
from generator.job.lessons import FINISHED, for_job, lessons_of, likeness
from generator.job.log_names import log_names
from generator.job.reading import ReadJob, ReadLog, read_job, read_log, read_shop
from generator.job.sender import read_sender, with_sender
from generator.job.shop import Shop
from generator.language.say import all_said, later, say, say_count
from generator.pictures import BadPicture, shown_picture
from generator.render.page import render_page, render_problem_page
from generator.sheet.compute import compute_sheet
from generator.sheet.happened import History
from generator.sheet.lessons import lesson_lines
from generator.sheet.model import Sheet
from generator.sheet.other_lathes import Comparison, NotCompared, comparison
from generator.sheet.row import ArchiveRow
from generator.site.entry import SHEETS, Entry, Made, page_of
from generator.site.figure_names import figure_names
from generator.site.job_files import LOG

log = logging.getLogger(__name__)

NO_LESSONS = Lessons(())
NO_SHEET = later("no sheet")


def make_entry(
    path: Path,
    shop: Shop | JobProblems,
    address: str = "",
    lessons: Lessons = NO_LESSONS,
    *,
    top: str = SHEETS,
    alone: bool = False,
) -> Made:
    """One job's row and the body of its page; never raises for what a file holds.

    `top` is the top folder of the pages in the site. A page that stands `alone` has its pictures in itself.
    """
    try:
        whole = _whole_shop(path, shop)
        with faults_as_problems(path):
            read = read_job(path, whole)
            sheet = _sheet_with_log(read, whole, lessons)
            sheet = replace(sheet, index=_said(sheet.index))
        compared, faults = _on_other_lathes(read, whole, sheet)
        with faults_as_problems(path):
            learned = tuple(line.words for line in sheet.learned.lines if not line.number)
            entry = Entry(
                path.as_posix(), page_of(path, top), replace(sheet.index, learned=learned), (),
                (*log_problems(sheet), *faults), read.job.superseded_by or "",
                read.job.status not in FINISHED,
            )
            pictures = {one.name: _picture_itself(one.path) for one in sheet.pictures} if alone else None
            own = urljoin(address, entry.link) if address else ""
            body = render_page(sheet, compared, own, pictures)
            return Made(entry, body, figure_names(sheet), sheet.pictures, likeness(read.job))
    except JobProblems as error:
        body = render_problem_page(path.parent.name, error.problems)
        return Made(_problem_entry(path, error.problems, top), body)


def _said(row: ArchiveRow) -> ArchiveRow:
    """The row with its words said: it is kept as JSON, which would take the English of a text in a table."""
    thread = row.thread and replace(row.thread, **all_said(vars(row.thread)))
    return replace(row, thread=thread, holding=all_said(row.holding), duty=all_said(row.duty))


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
        with faults_as_problems(read.path, say("no comparison with the other lathes")):
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


def make_bare_sheet(path: Path, shop: Shop | JobProblems, data: bytes) -> Sheet:
    """The sheet of a job file's text alone: nothing of its log, nothing that was learned.

    Raises
    ------
    JobProblems
        As `make_sheet`.
    """
    whole = _whole_shop(path, shop)
    with faults_as_problems(path):
        return compute_sheet(read_job(path, whole, data), whole)


def _sheet_with_log(read: ReadJob, shop: Shop, lessons: Lessons) -> Sheet:
    """The sheet with its log; a fault of ours in the log leaves the sheet as it is without one."""
    log, others = log_beside(read, shop), for_job(lessons, read.job, read.path.parent)
    if log is None:
        return _taught(compute_sheet(read, shop), (), others)
    try:
        with faults_as_problems(log.path, say("the log is left out")):
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
    """The shop with what the job's sender brought along, or all that is wrong with it and with the job."""
    if not isinstance(shop, JobProblems):
        with faults_as_problems(path):
            sender = read_sender(path.parent)
        return with_sender(shop, sender) if sender else shop
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
def faults_as_problems(path: Path, costs: str = NO_SHEET) -> Iterator[None]:
    """A fault of ours in one job must not hide the other jobs: it becomes a problem of that job's file."""
    try:
        yield
    except JobProblems:
        raise
    except OSError as error:
        said = say("cannot be read: {why}", why=error.strerror or error)
        raise JobProblems([Fault(Location(path), "", said)]) from error
    except Exception as error:
        log.debug("%s", path, exc_info=True)
        said = f"{type(error).__name__}: {error}"
        said = say(
            "{costs}, by a fault of this program ({said}); please report it with the file",
            costs=costs, said=said,
        )
        raise JobProblems([Fault(Location(path), "", said)]) from error


def _problem_entry(path: Path, problems: tuple[Problem, ...], top: str) -> Entry:
    row = ArchiveRow(
        number=path.parent.name,
        title=say_count(
            "No sheet: {count} error in the files", "No sheet: {count} errors in the files", len(problems)
        ),
        year=path.parent.parent.name,
        status="errors",
        text=" ".join(str(problem) for problem in problems),
    )
    return Entry(path.as_posix(), page_of(path, top), row, tuple(problems))
