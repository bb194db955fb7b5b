"""The comparison with the other lathes of the shop as finished strings for the page.

    CompareTable, compare_table   the lathes in order, the rows that differ side by side, and what stays
    line_words, label_words       one lathe's part of a row, and what the row is about
    summary_words                 the best lathe in a sentence
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.language.say import later, say
from generator.render.formats import written
from generator.sheet.best_lathe import Ranked
from generator.sheet.compare import Compared, Line, Row, Verdict
from generator.sheet.compare_lines import FOLLOWS
from generator.sheet.figure import System
from generator.sheet.model import Sheet
from generator.sheet.other_lathes import Comparison

State = Literal["differs", "same", "left out"]
MOST_BESIDE = 3  # other lathes in one table of a page
NOTHING = "–"
NO_LATHE = later("No lathe of the shop runs it as it is planned.")
JUDGES_NOTHING = later("As far as the records of the lathes say; common practice, no source.")
_MARKS: dict[Verdict, str] = {"cannot be done": later("CANNOT BE DONE"), "not known": later("NOT KNOWN")}


@dataclass(frozen=True)
class LatheCell:
    """What one lathe says in one row; `mark` is a word that must not be missed."""

    text: str
    mark: str = ""
    reason: str = ""


@dataclass(frozen=True)
class CompareRow:
    """One row: its label, then a cell for each lathe, the job's own first."""

    label: str
    cells: tuple[LatheCell, ...]


@dataclass(frozen=True)
class ComparePart:
    """A table that fits a page's width: the lathes, the job's own first, and rows by group."""

    lathes: tuple[str, ...]
    groups: tuple[tuple[CompareRow, ...], ...]


@dataclass(frozen=True)
class RankLine:
    """One lathe in its place."""

    place: str
    name: str
    reason: str
    planned: bool


@dataclass(frozen=True)
class CompareTable:
    """The whole section of the page."""

    planned: str
    summary: str
    ranking: tuple[RankLine, ...]
    parts: tuple[ComparePart, ...]
    stays: tuple[str, ...]
    note: str


def compare_table(compared: Comparison) -> CompareTable | None:
    """The section "Another lathe"; None in a shop with one lathe."""
    if not compared.others:
        return None
    sheet = compared.here.sheet
    beside = [
        compared.others[start : start + MOST_BESIDE] for start in range(0, len(compared.others), MOST_BESIDE)
    ]
    rows = (_row(compared.others[0].rows, id) for id in _ids(compared.others, sheet.system, "same"))
    stays = [row for row in rows if row is not None and row.here is not None]
    return CompareTable(
        planned=compared.here.lathe.name,
        summary=summary_words(compared),
        ranking=tuple(_rank_line(one, compared) for one in compared.ranking),
        parts=tuple(_part(compared, others, sheet) for others in beside),
        stays=tuple(says_words(row, sheet.system) for row in stays),
        note=JUDGES_NOTHING,
    )


def _rank_line(ranked: Ranked, compared: Comparison) -> RankLine:
    planned = ranked.on is compared.here
    return RankLine(str(ranked.place), ranked.on.lathe.name, ranked.reason, planned)


def summary_words(compared: Comparison) -> str:
    """The best lathe in a sentence."""
    best = compared.ranking[0]
    if best.stops:
        return say("{no_lathe} It comes nearest on {name}.", no_lathe=NO_LATHE, name=best.on.lathe.name)
    if best.on is compared.here:
        return say(
            "Best lathe of the shop for this job: {name}, the one it is planned for.", name=best.on.lathe.name
        )
    return say("Best lathe of the shop for this job: {name}.", name=best.on.lathe.name)


# -- rows -----------------------------------------------------------------------------------------------


def state(row: Row, one: Compared, system: System) -> State:
    """Whether a row is worth a line: left out is what no lathe knows, or what a stop leaves unknown there.

    A change that does not show in the figures as they are rounded is none.
    """
    if row.verdict == "not known":
        nowhere = row.here is not None and not row.here.is_known
        follows = row.id in FOLLOWS and bool(one.there.stops)
        return "left out" if nowhere or follows else "differs"
    same = row.here is not None and line_words(row.here, system) == line_words(row.there, system)
    return "same" if row.verdict == "stays" or (same and not row.reason) else "differs"


def _ids(others: Sequence[Compared], system: System, wanted: State) -> list[str]:
    """The rows that differ on some lathe, or those that are the same on all."""
    states: dict[str, set[State]] = {}
    for one in others:
        for row in one.rows:
            states.setdefault(row.id, set()).add(state(row, one, system))
    if wanted == "differs":
        return [id for id, found in states.items() if wanted in found]
    return [id for id, found in states.items() if found == {wanted}]


def _row(rows: Sequence[Row], id: str) -> Row | None:
    return next((row for row in rows if row.id == id), None)


def _part(compared: Comparison, others: Sequence[Compared], sheet: Sheet) -> ComparePart:
    groups: dict[str, list[CompareRow]] = {}
    for id in _in_group_order(others, sheet.system):
        rows = [_row(one.rows, id) for one in others]
        named = next(row for row in rows if row is not None)
        here = next((row.here for row in rows if row is not None and row.here is not None), None)
        beside = (_cell(row, one, sheet.system) for row, one in zip(rows, others, strict=True))
        cells = (LatheCell(line_words(here, sheet.system)), *beside)
        groups.setdefault(named.group, []).append(CompareRow(label_words(named, sheet.system), cells))
    return ComparePart(
        (compared.here.lathe.name, *(one.there.lathe.name for one in others)),
        tuple(tuple(rows) for rows in groups.values()),
    )


def _in_group_order(others: Sequence[Compared], system: System) -> list[str]:
    """The rows that differ; those that only a later lathe has stand with their group."""
    groups = list(dict.fromkeys(row.group for one in others for row in one.rows))
    group_of = {row.id: groups.index(row.group) for one in others for row in one.rows}
    return sorted(_ids(others, system, "differs"), key=lambda id: group_of[id])


def _cell(row: Row | None, one: Compared, system: System) -> LatheCell:
    found = "left out" if row is None else state(row, one, system)
    if row is None or found == "left out":
        return LatheCell(NOTHING)
    words = line_words(row.there, system)
    if found == "same":
        return LatheCell(say("the same") if words == line_words(row.here, system) else words)
    has_value = row.there is not None and any(figure.value is not None for figure in row.there.figures)
    return LatheCell(words if has_value else "", _MARKS.get(row.verdict, ""), row.reason)


def line_words(line: Line | None, system: System) -> str:
    """What a lathe says in a row: what it allows, where the figure is the work's own and in the label."""
    if line is None:
        return NOTHING
    values = "; ".join(written(figure, system).text for figure in line.figures)
    if line.fits and line.limit:
        return str(line.limit)
    return f"{values}; {line.limit}" if line.limit else values


def label_words(row: Row, system: System) -> str:
    """The label, with the work's own size where the row is about it."""
    line = row.here or row.there
    if line is None or not line.fits or not line.limit:
        return str(row.label)
    return f"{row.label}, {'; '.join(written(figure, system).text for figure in line.figures)}"


def says_words(row: Row, system: System) -> str:
    """A row that stays, in words; of a size that fits, the limits of one lathe are not those of another."""
    if row.here is not None and row.here.fits and row.here.limit:
        return say("{size}: it fits", size=label_words(row, system))
    return f"{label_words(row, system)}: {line_words(row.here, system)}"
