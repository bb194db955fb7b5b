"""The inspection record as the log fills it in: readings against limits, how each was accepted, concessions.

    inspected_lines    every line with its last reading and what follows from it, and the findings
    concessions        what the customer lets pass

A reading is inside its limits when it is so to the last place that the sheet prints them. That says nothing
of strength or fitness for use: who may judge those is for the customer and for local codes.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from generator.job.inspected import Inspected as Reading
from generator.job.model import Mate
from generator.job.source import LogEntry
from generator.language.say import later, say
from generator.sheet.figure import System
from generator.sheet.logged import Logged
from generator.sheet.model import Conceded, Inspected, InspectionLine, Verdict
from generator.sheet.wording import one_unit_words
from generator.si import Length, inch, mm

OF_THREAD: Final = ("over_wires", "between_balls", "pitch_diameter", "major", "minor")  # of `measured`, too
ROOT: Final = "root"  # key of the line of the root diameter
LAST_PLACE: Final = {"inch": 0.0001 * inch, "mm": 0.001 * mm}  # of a limit on the sheet
READS_TO: Final = {  # common practice, no source: what a hand makes sure of with it
    later("rule"): 0.25 * mm, later("caliper"): 0.03 * mm, later("micrometer"): 0.005 * mm,
}
TENTH: Final = 10  # an instrument is to read to a tenth of the tolerance: common practice, no source
FAR: Final = 0.6   # likeness from which another name may be a slip of the pen


@dataclass(frozen=True)
class _Said:
    """One reading of the log, with its entry and its place there."""

    reading: Reading
    one: LogEntry
    field: str


def inspected_lines(lines: Sequence[InspectionLine], logged: Logged | None) -> tuple[Inspected, ...]:
    """The record filled in, with a line for whatever else was measured; empty lines without a log."""
    if logged is None:
        return tuple(Inspected(line) for line in lines)
    known = {line.key: line for line in lines}
    said = list(_all_said(logged, _root_of(lines)))
    filled = [
        _filled(line, [one for one in said if one.reading.feature == line.key], logged) for line in lines
    ]
    others: dict[str, list[_Said]] = {}
    for one in said:
        if one.reading.feature not in known:
            others.setdefault(one.reading.feature, []).append(one)
    for feature, ones in others.items():
        _check_feature(feature, ones[0], list(known), logged)
        filled.append(_filled(InspectionLine(feature, feature, "", "", ""), ones, logged))
    _check(filled, said, logged)
    return tuple(filled)


def concessions(filled: Sequence[Inspected], logged: Logged | None) -> tuple[Conceded, ...]:
    """What the customer lets pass, in the order of the log."""
    names = {one.line.key: one.line.feature for one in filled}
    return tuple(
        Conceded(
            names.get(said.feature, said.feature), said.what.rstrip("."), said.by,
            str(said.on) if said.on else "", said.reference or "",
        )
        for one in (logged.log.entries if logged else ()) if (said := one.entry.concession) is not None
    )


def _root_of(lines: Sequence[InspectionLine]) -> str:
    """The size of `measured` that is the root of this thread, where the record has a line for it."""
    (limit,) = [line.high or line.low for line in lines if line.key == ROOT] or [""]
    return next((size for size in OF_THREAD if f".{size}." in limit), "")


def _all_said(logged: Logged, root: str) -> Iterator[_Said]:
    """The readings of the log, oldest first; a size of the finished thread counts as one, too."""
    done = any(one.entry.finished for one in logged.threads)
    for one in logged.log.entries:
        for place, reading in enumerate(one.entry.inspected):
            yield _Said(reading, one, f"inspected.{place}")
        measured = one.entry.measured
        if measured is None or not done or one not in logged.threads:
            continue
        for key, given in measured.sizes():
            if key in OF_THREAD:
                left = Reading.model_construct(
                    feature=ROOT if key == root else key, found=None, left=given, turns=None, goes=None,
                    with_=measured.with_, where=measured.where, accepted=None,
                )
                yield _Said(left, one, f"measured.{key}")


def _filled(line: InspectionLine, said: Sequence[_Said], logged: Logged) -> Inspected:
    """A line with the last word on each of its cells."""
    filled = Inspected(line)
    for one in said:
        reading, entry = one.reading, one.one.entry
        filled = replace(
            filled,
            found=reading.found.with_unit if reading.found else filled.found,
            left=_left_words(reading) or filled.left,
            instrument=reading.with_ or filled.instrument,
            where=reading.where or filled.where,
            accepted=reading.accepted or filled.accepted,
        )
        if _says_left(reading):
            verdict = _verdict(line, reading, logged)
            if verdict == "no limit" and not _left_words(reading):  # how it was accepted, and no more
                verdict = filled.verdict
            filled = replace(filled, by=entry.by or filled.by, at=str(entry.at.day), verdict=verdict)
    if filled.verdict == "outside" and _conceded(line.key, logged):
        filled = replace(filled, verdict="by concession")
    return filled


def _says_left(reading: Reading) -> bool:
    return any(one is not None for one in (reading.left, reading.turns, reading.goes, reading.accepted))


def _left_words(reading: Reading) -> str:
    """What stands in the cell of the part as it leaves."""
    said = []
    if reading.left is not None:
        said.append(reading.left.with_unit)
    if reading.turns is not None:
        said.append(
            say("{turns} turn", turns=reading.turns.text) if reading.turns.si == 1
            else say("{turns} turns", turns=reading.turns.text)
        )
    if reading.goes is not None:
        said.append(say("goes") if reading.goes else say("does not go"))
    return ", ".join(said)


def _verdict(line: InspectionLine, reading: Reading, logged: Logged) -> Verdict:
    """Inside or outside, as far as the line has a limit for what was read."""
    if reading.goes is not None and line.takes == "goes":
        return "inside" if reading.goes else "outside"
    value = reading.turns if line.takes == "turns" else reading.left
    if value is None:
        return "inside" if line.takes == "goes" and reading.accepted == "mate" else "no limit"
    low, high = (_limit(name, logged) for name in (line.low, line.high))
    if low is None and high is None:
        return "no limit"
    slack = 1e-9 if line.takes == "turns" else LAST_PLACE[_system(line, logged)] / 2
    under, over = low is not None and value.si < low - slack, high is not None and value.si > high + slack
    return "outside" if under or over else "inside"


def _limit(name: str, logged: Logged) -> float | None:
    figure = logged.desk.figures.get(name) if name else None
    return float(figure.value) if figure is not None and isinstance(figure.value, int | float) else None


def _system(line: InspectionLine, logged: Logged) -> System:
    figure = logged.desk.figures.get(line.low or line.high)
    return (figure.system if figure is not None else None) or logged.system


def _conceded(key: str, logged: Logged) -> bool:
    said = (one.entry.concession for one in logged.log.entries)
    return any(one is not None and one.feature == key for one in said)


# -- findings ---------------------------------------------------------------------------------------------


def _check_feature(feature: str, one: _Said, known: list[str], logged: Logged) -> None:
    """A name that is nearly one of the record is asked about; any other is a line of its own."""
    plain = feature.lower().replace(" ", "_")
    near = difflib.get_close_matches(plain, known, 1, FAR)
    if near:
        logged.desk.find(
            "log-feature", "check",
            say(
                'The inspection record has no line "{feature}"; it has {near}. The reading stands on a line '
                "of its own, without limits.",
                feature=feature, near=near[0],
            ),
            one.one.where(f"{one.field}.feature"), say("Is it {near}?", near=near[0]),
        )


def _check(filled: Sequence[Inspected], said: Sequence[_Said], logged: Logged) -> None:
    last = {one.reading.feature: one for one in said if _says_left(one.reading)}
    for line in filled:
        one = last.get(line.line.key)
        if one is None:
            continue
        if line.verdict == "outside" and one.field.startswith("inspected"):
            logged.desk.find(
                "log-outside", "check",
                say(
                    "{feature}: {left} is outside its limits, and the log has no concession for it. Put it "
                    "right, or let the customer decide before it leaves.",
                    feature=line.line.feature, left=line.left,
                ),
                one.one.where(one.field), say("Does the customer let it pass, and who said so?"),
            )
        _check_instrument(line, one, logged)
    _check_concessions(filled, logged)
    _check_whole(filled, logged)
    _check_wires(last, logged)


def _check_instrument(line: Inspected, one: _Said, logged: Logged) -> None:
    """An instrument that cannot tell a tenth of the tolerance (common practice, no source)."""
    low, high = (_limit(name, logged) for name in (line.line.low, line.line.high))
    first = line.instrument.lower().split(" and ")[0].split(say(" and "))[0]
    reads: Length | None = next(
        (to for word, to in READS_TO.items() if word.english in first or str(word).lower() in first), None
    )
    if reads is None or low is None or high is None or line.line.takes != "size":
        return
    if reads * TENTH > high - low and one.field.startswith("inspected"):
        system = _system(line.line, logged)
        logged.desk.find(
            "log-coarse", "note",
            say(
                "{feature}: with a {instrument} {reads} can be made sure of, more than a tenth of the "
                "tolerance of {tolerance}. A finer instrument tells more.",
                feature=line.line.feature, instrument=line.instrument, reads=one_unit_words(reads, system),
                tolerance=one_unit_words(high - low, system),
            ),
            one.one.where(one.field),
        )


def _check_concessions(filled: Sequence[Inspected], logged: Logged) -> None:
    verdicts = {line.line.key: line for line in filled}
    for one in logged.log.entries:
        said = one.entry.concession
        if said is None:
            continue
        line = verdicts.get(said.feature)
        if line is None or line.verdict != "by concession":
            feature = line.line.feature if line else said.feature
            logged.desk.find(
                "log-concession", "note",
                say(
                    "The log has a concession for {feature}, but it is not outside its limits.",
                    feature=feature,
                )
                if line is not None and line.left
                else say(
                    "The log has a concession for {feature}, but nothing was measured of it.", feature=feature
                ),
                one.where("concession.feature"), say("Which feature is it for, and what did it measure?"),
            )


def _check_whole(filled: Sequence[Inspected], logged: Logged) -> None:
    """A finished job whose record is not filled in."""
    ends = (one for one in logged.log.entries if one.entry.finished and one.entry.operation is None)
    done = next(ends, None)
    open_lines = [line.line.feature for line in filled if line.verdict == "not measured"]
    if done is not None and open_lines and len(open_lines) < len(filled):
        logged.desk.find(
            "log-unmeasured", "note",
            say(
                "The job is finished, and the inspection record has no reading of: {open_lines}.",
                open_lines="; ".join(map(str, open_lines)),
            ),
            done.where("finished"), say("What did they measure?"),
        )


def _check_wires(last: dict[str, _Said], logged: Logged) -> None:
    """Accepted by wires, while the mate is on the bench."""
    mate = logged.job.mate
    on_bench = isinstance(mate, Mate) and mate.on_bench
    by_wires = next((one for one in last.values() if one.reading.accepted in ("wires", "balls")), None)
    tried = "mate" in last or any(one.entry.fit is not None for one in logged.log.entries)
    if on_bench and by_wires is not None and not tried:
        logged.desk.find(
            "log-by-wires", "check",
            say(
                "The thread was accepted by wires, and its mate is on the bench: try it on, and write down "
                "how it goes. Lead and form show only there."
            )
            if by_wires.reading.accepted == "wires"
            else say(
                "The thread was accepted by balls, and its mate is on the bench: try it on, and write down "
                "how it goes. Lead and form show only there."
            ),
            by_wires.one.where(by_wires.field), say("How does the mate go on?"),
        )
