"""An entry of the log in words, as it was written: what the page shows of it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from generator.job.fields import Strict
from generator.job.log import Entry, Fit, Measured, Setting
from generator.job.source import LogEntry
from generator.job.written import Given
from generator.sheet.happened import LeftAs, LogLine
from generator.sheet.lines import LogMark
from generator.sheet.logged import Logged

OF_DIALS = {"turns", "dial", "cross_turns", "cross"}
FIRST = ("pass", "dial", "cross slide", "depth left", "over wires")  # of how a stop was left


def log_line(one: LogEntry, logged: Logged) -> LogLine:
    """The line of the page for one entry."""
    entry, line = one.entry, logged.about(one.entry).line
    operation = f"{line.number} {line.title}" if line else entry.operation or ""
    if entry.start is not None:
        operation = f"{operation}, start {entry.start}" if operation else f"start {entry.start}"
    return LogLine(
        str(entry.at), entry.by or "", operation, entry.pass_, tuple(_said(entry)), tuple(_marks(entry)),
        one.where(),
    )


def _marks(entry: Entry) -> Iterator[LogMark]:
    if entry.taken_up is not None:
        yield "taken up"
    if entry.agreed is not None:
        yield "agreed"
    if entry.stop is not None:
        yield "stop"
    if entry.finished:
        yield "finished"


def _said(entry: Entry) -> Iterator[tuple[str, str]]:
    if dials := dial_words(entry):
        yield "Dial", dials
    if entry.measured is not None:
        yield "Measured", _measured(entry.measured)
    if entry.fit is not None:
        yield "Fit", _fit(entry.fit)
    for reading in entry.inspected:
        yield "Inspected", _block(reading)
    if entry.concession is not None:
        yield "Concession", _block(entry.concession)
    if entry.agreed is not None:
        asked = f"asked: {entry.agreed.asked} " if entry.agreed.asked else ""
        when = f" on {entry.agreed.on}" if entry.agreed.on else ""
        who = f" with {entry.agreed.with_}" if entry.agreed.with_ else ""
        said = f"{'Agreed' if asked else 'agreed'}{when}{who}: {entry.agreed.agreed}"
        yield "Agreed", f"{asked}{said}"
    for label, block in (("Taken up", entry.taken_up), ("Stop", entry.stop)):
        if block is not None:
            yield label, _block(block) or "yes"
    for label, text in (
        ("Note", entry.note), ("Do differently", entry.do_differently), ("Watch out", entry.watch_out),
        ("Took", entry.time.with_unit if entry.time else None),
    ):
        if text:
            yield label, text


def dial_words(block: Entry | Setting) -> str:
    """What the dials of an entry show, as written."""
    said = []
    for name, turns, given in (
        ("", block.turns, block.dial), ("cross slide ", block.cross_turns, block.cross)
    ):
        if given is not None:
            whole = f"{turns} turn{'' if turns == 1 else 's'} and " if turns else ""
            said.append(f"{name}{whole}{given.with_unit}")
    return "; ".join(said)


def _measured(measured: Measured) -> str:
    sizes = "; ".join(f"{name.replace('_', ' ')} {given.with_unit}" for name, given in measured.sizes())
    wire = f" over wires of {measured.wire.with_unit}" if measured.wire else ""
    by = f", with {measured.with_}" if measured.with_ else ""
    where = f", {measured.where}" if measured.where else ""
    return f"{sizes}{wire}{by}{where}"


def _fit(fit: Fit) -> str:
    turns = f"{fit.turns.text} turn{'' if fit.turns.si == 1 else 's'}" if fit.turns else ""
    return ", ".join(part for part in (fit.with_ or "", turns, fit.feels or "", fit.where or "") if part)


def _block(block: Strict) -> str:
    """The keys of a block with what was written, in the order of the models; both dials first."""
    said = [f"dial: {words}" for words in [dial_words(block)] if words] if isinstance(block, Setting) else []
    for name in sorted(type(block).model_fields, key=lambda name: name != "why"):
        value = getattr(block, name)
        if value is not None and name not in OF_DIALS:
            said.append(f"{name.rstrip('_').replace('_', ' ')}: {_text(value)}")
    return "; ".join(said)


def left_as(logged: Logged) -> LeftAs | None:
    """The last stop of the log, with how the thread was taken up after it; None without one."""
    entries = [one.entry for one in logged.log.entries]
    place = max((place for place, entry in enumerate(entries) if entry.stop is not None), default=None)
    if place is None:
        return None
    entry = entries[place]
    back = next((later for later in entries[place + 1 :] if later.taken_up is not None), None)
    assert entry.stop is not None
    left = {**settings(entry), **settings(entry.stop)}
    then = settings(back.taken_up) if back is not None and back.taken_up is not None else {}
    named = sorted(dict.fromkeys([*left, *then]), key=lambda name: FIRST.index(name) if name in FIRST else 9)
    return LeftAs(
        str(entry.at), str(back.at) if back is not None else "",
        tuple((name, left.get(name, ""), then.get(name, "")) for name in named),
    )


def settings(block: Entry | Setting) -> dict[str, str]:
    """What a block says of how things stand, by its name on the page."""
    said = {}
    for name, turns, given in (
        ("dial", block.turns, block.dial), ("cross slide", block.cross_turns, block.cross)
    ):
        if given is not None:
            said[name] = f"{turns or 0} turns, {given.with_unit}"
    if isinstance(block, Entry):
        if block.pass_ is not None:
            said = {"pass": str(block.pass_), **said}
        over = block.measured.over_wires if block.measured else None
        return {**said, "over wires": over.with_unit} if over else said
    names = [name for name in type(block).model_fields if name not in {*OF_DIALS, "why", "how"}]
    values = {name: getattr(block, name) for name in names}
    said |= {name.replace("_", " "): _text(value) for name, value in values.items() if value is not None}
    return said


def _text(value: object) -> str:
    if isinstance(value, Given):
        return value.with_unit
    return value.isoformat() if isinstance(value, datetime.date) else str(value).rstrip(".")
