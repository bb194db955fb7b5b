"""One job on two lathes of the shop: what stays, what changes, what cannot be done there, what is not known.

In reading order: OnLathe (the job computed for one lathe), LetGo (a choice of the job file that belongs to
another lathe), Line (what one lathe has to say in one row), Row, Compared, compare.

Everything is taken from finished sheets by the stable names of their figures and findings
(`compare_lines`); the order of the rows is that in which a machinist asks: is it held, does it reach, which
levers, where do the half nuts close, which step, what do the dials read, has it the power, how long.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, isclose
from typing import Final, Literal

from generator.errors import Location
from generator.job.lathe import Lathe
from generator.language.say import say
from generator.sheet.figure import Figure
from generator.sheet.lines import Finding, Level
from generator.sheet.model import Sheet

Verdict = Literal["stays", "changes", "cannot be done", "not known"]
SAME: Final = 1e-9  # share within which two figures are one


@dataclass(frozen=True)
class LetGo:
    """A choice of the job file that was made for another lathe, and is left to the sheet on this one.

    `row` is the row that it belongs to, `field` its dotted name in the job file, `written` what stands there.
    """

    row: str
    field: str
    written: str
    where: Location
    text: str


@dataclass(frozen=True)
class OnLathe:
    """One job computed for one lathe; `let_go` says what of the job file was left out for that."""

    lathe: Lathe
    sheet: Sheet
    let_go: tuple[LetGo, ...] = ()

    @property
    def stops(self) -> tuple[Finding, ...]:
        """What stops the job on this lathe."""
        return tuple(finding for finding in self.sheet.findings if finding.level == "stop")


@dataclass(frozen=True)
class Line:
    """What one lathe has to say in one row.

    `figures` are shown in this order. `limit` is what the lathe allows, in words, where the figure is the
    work's own. `why` says in a sentence how it comes to this. `known` is false where the lathe's record
    does not tell. With `fits` only a finding tells two lathes apart: it is enough that both take the work.
    Numbers that round up to the same multiple of `grain` (SI) are one number.
    """

    id: str
    group: str
    label: str
    figures: tuple[Figure, ...]
    limit: str = ""
    why: str = ""
    known: bool = True
    fits: bool = False
    grain: float = 0.0

    @property
    def is_known(self) -> bool:
        """True when every figure has a value and the record tells what it is held against."""
        return self.known and all(figure.value is not None for figure in self.figures)


@dataclass(frozen=True)
class Row:
    """One row of the comparison; `here` or `there` is None where that lathe has nothing to say in it."""

    id: str
    group: str
    label: str
    here: Line | None
    there: Line | None
    verdict: Verdict
    reason: str = ""


@dataclass(frozen=True)
class Compared:
    """The job there beside the job here, row by row."""

    here: OnLathe
    there: OnLathe
    rows: tuple[Row, ...]

    @property
    def can_be_done(self) -> bool:
        """True when no finding stops the job there."""
        return not self.there.stops

    def having(self, *verdicts: Verdict) -> tuple[Row, ...]:
        """The rows with one of these verdicts."""
        return tuple(row for row in self.rows if row.verdict in verdicts)


def compare(
    here: OnLathe,
    there: OnLathe,
    lines_here: Mapping[str, Line],
    lines_there: Mapping[str, Line],
    row_of: Callable[[Finding], str],
    found_group: str,
) -> Compared:
    """Set one lathe beside another.

    Parameters
    ----------
    here, there : the job on the lathe it is planned for, and on the other one
    lines_here, lines_there : what each has to say, by row
    row_of : the row that a finding belongs to
    found_group : heading of the findings that belong to none of the rows

    Returns
    -------
    The rows in the order of `lines_here`, those that only the other lathe has behind their neighbors.

    Notes
    -----
    What changes one way changes the other way: a row stays only when both lathes say the same and find the
    same, whichever of them is asked first.
    """
    found_here, found_there = (_by_row(one.sheet.findings, row_of) for one in (here, there))
    let_go = {row: [gone.text for gone in there.let_go if gone.row == row] for row in lines_there}
    rows = []
    for id in _in_order(lines_here, lines_there):
        mine, other = lines_here.get(id), lines_there.get(id)
        either = mine or other
        assert either is not None
        findings = found_here.pop(id, []), found_there.pop(id, [])
        verdict = _verdict(mine, other, *findings, bool(let_go.get(id)))
        reason = _reason(verdict, other, *findings, let_go.get(id, ()), there.lathe.name)
        rows.append(Row(id, either.group, either.label, mine, other, verdict, reason))
    rows += _found_rows(found_here, found_there, found_group, here, there)
    return Compared(here, there, tuple(rows))


def _key(finding: Finding) -> tuple[str, str, Location | None]:
    """What makes two findings one, whichever lathe their sentence names."""
    return finding.id, finding.level, finding.where


def _by_row(findings: Iterable[Finding], row_of: Callable[[Finding], str]) -> dict[str, list[Finding]]:
    rows: dict[str, list[Finding]] = {}
    for finding in findings:
        rows.setdefault(row_of(finding), []).append(finding)
    return rows


def _in_order(here: Iterable[str], there: Iterable[str]) -> list[str]:
    """All rows: those of `here`, each row of `there` that is missing behind the one before it."""
    order = list(here)
    place = 0
    for id in there:
        if id in order:
            place = order.index(id) + 1
        else:
            order.insert(place, id)
            place += 1
    return order


def _verdict(
    here: Line | None, there: Line | None, found_here: list[Finding], found_there: list[Finding], gone: bool
) -> Verdict:
    if _new(found_there, found_here, "stop"):
        return "cannot be done"
    if there is None or not there.is_known:
        return "not known"
    if here is None or not here.is_known or gone:
        return "changes"
    decided_here, decided_there = (
        {_key(finding) for finding in found if finding.level != "note"} for found in (found_here, found_there)
    )
    same = there.fits or _same_figures(here.figures, there.figures, there.grain)
    return "stays" if same and decided_here == decided_there else "changes"


def _same_figures(here: Sequence[Figure], there: Sequence[Figure], grain: float) -> bool:
    return len(here) == len(there) and all(
        one.name == other.name and _same(one.value, other.value, grain)
        for one, other in zip(here, there, strict=True)
    )


def _same(one: float | str | None, other: float | str | None, grain: float) -> bool:
    if isinstance(one, int | float) and isinstance(other, int | float):
        if grain:
            return ceil(one / grain) == ceil(other / grain)
        return isclose(one, other, rel_tol=SAME, abs_tol=1e-12)
    return one == other


def _reason(
    verdict: Verdict,
    there: Line | None,
    found_here: list[Finding],
    found_there: list[Finding],
    let_go: Sequence[str],
    name: str,
) -> str:
    """Why the row stands as it does, in the words of the sheet for the other lathe."""
    if verdict == "stays":
        return ""
    new = _new(found_there, found_here, "stop") or _new(found_there, found_here, "stop", "check", "note")
    if let_go or new:
        return " ".join(dict.fromkeys([*let_go, *(finding.text for finding in new)]))
    if verdict == "not known":
        notes = [figure.note for figure in there.figures if figure.value is None] if there else []
        return (
            (there.why if there else "")
            or "; ".join(map(str, filter(None, notes)))
            or say("Not worked out for {name}.", name=name)
        )
    return there.why if there else ""


def _found_rows(
    here: Mapping[str, list[Finding]],
    there: Mapping[str, list[Finding]],
    group: str,
    on_here: OnLathe,
    on_there: OnLathe,
) -> list[Row]:
    """Findings that belong to no row: a row for each id that one of the lathes has and the other has not."""
    all_here, all_there = (
        _by_row((finding for found in rows.values() for finding in found), lambda finding: finding.id)
        for rows in (here, there)
    )
    rows = []
    for id in _in_order(all_here, all_there):
        mine, other = all_here.get(id, []), all_there.get(id, [])
        for verdict, text in (
            ("cannot be done", _texts(_new(other, mine, "stop"))),
            ("changes", _texts(_new(other, mine, "check"))),
            ("changes", _gone(_texts(_new(mine, other, "stop", "check")), on_here, on_there)),
        ):
            if text:
                label = say("Finding {id}", id=id)
                rows.append(Row(f"finding.{id}", group, label, None, None, verdict, text))  # type: ignore[arg-type]
                break
    return rows


def _new(found: Sequence[Finding], before: Sequence[Finding], *levels: Level) -> list[Finding]:
    """The findings of some levels that are not among those of the other lathe."""
    known = {_key(finding) for finding in before}
    return [finding for finding in found if finding.level in levels and _key(finding) not in known]


def _texts(findings: Sequence[Finding]) -> str:
    return " ".join(finding.text for finding in findings)


def _gone(text: str, here: OnLathe, there: OnLathe) -> str:
    return (
        say(
            "Found on {here}, and not on {there}: {text}",
            here=here.lathe.name, there=there.lathe.name, text=text,
        )
        if text
        else ""
    )
