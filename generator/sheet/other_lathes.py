"""A job of the archive on every other lathe of the shop.

    on_lathe           the job computed as if its file named another lathe
    comparison         the job on its own lathe beside the others, and the best of them

The job file is taken as it stands but for two kinds of entry that belong to the lathe they were chosen for:
a spindle step or a feed that the other lathe does not have, and a place of the steady rest that it cannot
use. Those are left to the sheet there, and the comparison says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from generator.calc import spindle
from generator.job.lathe import Lathe
from generator.job.reading import ReadJob
from generator.job.shop import Shop
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.best_lathe import Ranked, ranking
from generator.sheet.compare import Compared, LetGo, OnLathe, compare
from generator.sheet.compare_lines import FOUND, lathe_lines, operation_row, row_of
from generator.sheet.compute import compute_sheet
from generator.sheet.model import Sheet

KEYS = ("spindle", "feed")  # of an operation: what belongs to the lathe it was chosen for
ANEW = {  # by its key, and whether the lathe of the job file has it
    ("spindle", True): later(
        "The step of {given} in the job file (line {line}) was chosen for {own}; {lathe} has none such, so "
        "it is chosen anew here."
    ),
    ("spindle", False): later(
        "The step of {given} in the job file (line {line}) is none of {own}; {lathe} has none such, so it "
        "is chosen anew here."
    ),
    ("feed", True): later(
        "The feed of {given} in the job file (line {line}) was chosen for {own}; {lathe} has none such, so "
        "it is chosen anew here."
    ),
    ("feed", False): later(
        "The feed of {given} in the job file (line {line}) is none of {own}; {lathe} has none such, so it "
        "is chosen anew here."
    ),
}
SAME_FEED = 1e-6  # share within which two feeds are one


@dataclass(frozen=True)
class Comparison:
    """The job on its own lathe, beside the others, and all of them in order of preference."""

    here: OnLathe
    others: tuple[Compared, ...]
    ranking: tuple[Ranked, ...]


@dataclass(frozen=True)
class NotCompared:
    """Why there is no comparison, though the job has a sheet."""

    reasons: tuple[str, ...]


def comparison(read: ReadJob, shop: Shop, sheet: Sheet | None = None) -> Comparison:
    """Compute the job on its own lathe and on every other one of the shop, and compare.

    Parameters
    ----------
    sheet : the job on its own lathe, where it is computed already

    Raises
    ------
    JobProblems
        As `compute_sheet`.
    """
    sheet = sheet or compute_sheet(read, shop)  # first: it says so when the shop does not have the lathe
    here = OnLathe(shop.lathes[read.job.lathe], sheet)
    others = [on_lathe(read, shop, name, here) for name in shop.lathes if name != read.job.lathe]
    lines = lathe_lines(here)
    compared = tuple(
        compare(here, other, lines, lathe_lines(other), lambda finding: row_of(finding, sheet), FOUND)
        for other in others
    )
    return Comparison(here, compared, ranking([here, *others], here))


def on_lathe(read: ReadJob, shop: Shop, name: str, here: OnLathe) -> OnLathe:
    """The job as if its file said `lathe: name`, without the choices that only its own lathe can carry out.

    Raises
    ------
    JobProblems
        As `compute_sheet`.
    """
    lathe = shop.lathes[name]
    let_go = tuple(_steps_and_feeds(read, lathe, here))
    sheet = compute_sheet(_moved(read, name, let_go), shop)
    place = _steady_place(read, lathe, here, sheet)
    if place is not None:
        let_go = (*let_go, place)
        sheet = compute_sheet(_moved(read, name, let_go), shop)
    return OnLathe(lathe, sheet, let_go)


def _moved(read: ReadJob, name: str, let_go: Sequence[LetGo]) -> ReadJob:
    """The job with another lathe and without some of its entries."""
    gone = {one.field for one in let_go}
    job = read.job
    operations = []
    for place, operation in enumerate(job.operations):
        dropped = {key: None for key in KEYS if _field(place, operation.name, key) in gone}
        given = operation.given.model_copy(update=dropped)
        operations.append(operation.model_copy(update={operation.name: given}) if dropped else operation)
    changes: dict[str, Any] = {"lathe": name, "operations": operations}
    if "holding.steady.at" in gone and job.holding.steady is not None:
        steady = job.holding.steady.model_copy(update={"at": "auto"})
        changes["holding"] = job.holding.model_copy(update={"steady": steady})
    return replace(read, job=job.model_copy(update=changes))


def _field(place: int, operation: str, key: str) -> str:
    return f"operations.{place}.{operation}.{key}"


def _steps_and_feeds(read: ReadJob, lathe: Lathe, here: OnLathe) -> Iterator[LetGo]:
    """Steps and feeds in the job file that the other lathe does not have."""
    own = here.lathe
    numbers = {line.where: line.number for line in here.sheet.operations}
    for place, operation in enumerate(read.job.operations):
        number = numbers.get(read.where(f"operations.{place}"), place + 1)
        row = "spindle.step" if operation.name == "thread" else operation_row(number)
        for key, has in (("spindle", _has_step), ("feed", _has_feed)):
            given: Given | None = getattr(operation.given, key, None)
            if given is None or has(lathe, given):
                continue
            text = say(
                ANEW[key, has(own, given)], given=given.with_unit, line=given.where.line, own=own.name,
                lathe=lathe.name,
            )
            field = _field(place, operation.name, key)
            yield LetGo(row, field, given.with_unit, given.where, text)


def _has_step(lathe: Lathe, step: Given) -> bool:
    return any(spindle.same(one.si, step.si) for one in lathe.spindle.speeds)


def _has_feed(lathe: Lathe, feed: Given) -> bool:
    """True when the lathe has the feed, or its record does not say which it has."""
    known = [*lathe.feeds.along, *lathe.feeds.across] if lathe.feeds else []
    return not known or any(abs(one.si - feed.si) <= SAME_FEED * feed.si for one in known)


def _steady_stops(sheet: Sheet) -> bool:
    """True when something stops the job that another place of the steady rest may cure."""
    return any(
        one.level == "stop" and (one.id == "steady-place" or one.id.endswith("-meets-steady"))
        for one in sheet.findings
    )


def _steady_place(read: ReadJob, lathe: Lathe, here: OnLathe, there: Sheet) -> LetGo | None:
    """The given place of the steady rest, where it stops the job on this lathe and not on its own."""
    steady = read.job.holding.steady
    if steady is None or not isinstance(steady.at, Given):
        return None
    if not _steady_stops(there) or _steady_stops(here.sheet):
        return None
    text = say(
        "The steady rest's place, {at} from the chuck face (line {line}), was chosen for {own} and does not "
        "do on {lathe}: it is placed anew here.",
        at=steady.at.with_unit, line=steady.at.where.line, own=here.lathe.name, lathe=lathe.name,
    )
    return LetGo("holding.steady.position", "holding.steady.at", steady.at.with_unit, steady.at.where, text)
