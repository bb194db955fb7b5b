"""An entry of the log in words, as it was written: what the page shows of it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from generator.job.fields import Strict
from generator.job.log import Agreed, Entry, Feels, Fit, Measured, Setting
from generator.job.source import LogEntry
from generator.job.written import Given
from generator.language.say import first_large, later, say, say_count
from generator.sheet.happened import LeftAs, LogLine
from generator.sheet.lines import LogMark
from generator.sheet.logged import Logged

OF_DIALS = {"turns", "dial", "cross_turns", "cross"}
FIRST = ("pass", "dial", "cross slide", "depth left", "over wires")  # of how a stop was left
NAMES: Final[Mapping[str, str]] = MappingProxyType({  # of how things stand: keys of the log, with blanks
    "pass": later("pass"), "dial": later("dial"), "cross slide": later("cross slide"),
    "depth left": later("depth left"), "over wires": later("over wires"),
    "between balls": later("between balls"), "pitch diameter": later("pitch diameter"),
    "jaw mark": later("jaw mark"), "stick out": later("stick out"),
    "runout at jaws": later("runout at jaws"), "runout at end": later("runout at end"),
    "runout": later("runout"), "levers": later("levers"), "gears": later("gears"),
    "dial line": later("dial line"), "compound angle": later("compound angle"),
    "compound towards": later("compound towards"), "tool": later("tool"), "flat": later("flat"),
    "steady at": later("steady at"), "steady diameter": later("steady diameter"), "band": later("band"),
    "rust": later("rust"), "lathe": later("lathe"),
})
_SIZES: Final[Mapping[str, str]] = MappingProxyType({  # that were measured, by their keys
    "major": later("major {size}"), "minor": later("minor {size}"), "diameter": later("diameter {size}"),
    "bore": later("bore {size}"), "depth": later("depth {size}"), "length": later("length {size}"),
    "width": later("width {size}"),
})
_SAID: Final[Mapping[str, str]] = MappingProxyType({  # what else stands under a key
    "why": later("why: {value}"), "how": later("how: {value}"), "feature": later("feature: {value}"),
    "found": later("found: {value}"), "left": later("left: {value}"), "turns": later("turns: {value}"),
    "goes": later("goes: {value}"), "with": later("with: {value}"), "where": later("where: {value}"),
    "accepted": later("accepted: {value}"), "what": later("what: {value}"), "by": later("by: {value}"),
    "on": later("on: {value}"), "reference": later("reference: {value}"),
})
FEELS: Final[Mapping[Feels, str]] = MappingProxyType({
    "does not start": later("does not start"), "binds": later("binds"), "tight": later("tight"),
    "free": later("free"), "rocks": later("rocks"),
})


def log_line(one: LogEntry, logged: Logged) -> LogLine:
    """The line of the page for one entry."""
    entry, line = one.entry, logged.about(one.entry).line
    operation = f"{line.number} {line.title}" if line else entry.operation or ""
    if entry.start is not None:
        operation = (
            say("{operation}, start {start}", operation=operation, start=entry.start)
            if operation
            else say("start {start}", start=entry.start)
        )
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
        yield say("Dial"), dials
    if entry.measured is not None:
        yield say("Measured"), _measured(entry.measured)
    if entry.fit is not None:
        yield say("Fit"), _fit(entry.fit)
    for reading in entry.inspected:
        yield say("Inspected"), _block(reading)
    if entry.concession is not None:
        yield say("Concession"), _block(entry.concession)
    if entry.agreed is not None:
        yield say("Agreed"), _agreed(entry.agreed)
    for label, block in ((say("Taken up"), entry.taken_up), (say("Stop"), entry.stop)):
        if block is not None:
            yield label, _block(block) or say("yes")
    for label, text in (
        (say("Note"), entry.note),
        (say("Do differently"), entry.do_differently),
        (say("Watch out"), entry.watch_out),
        (say("Took"), entry.time.with_unit if entry.time else None),
    ):
        if text:
            yield label, text


def _agreed(agreed: Agreed) -> str:
    """What was agreed, when and with whom, and what was asked."""
    words: dict[str, object] = {"asked": agreed.asked, "on": agreed.on, "who": agreed.with_}
    match bool(agreed.on), bool(agreed.with_):
        case True, True:
            said = say("agreed on {on} with {who}", **words)
        case True, False:
            said = say("agreed on {on}", **words)
        case False, True:
            said = say("agreed with {who}", **words)
        case _:
            said = say("agreed")
    if agreed.asked:
        whole = f"{first_large(said)}: {agreed.agreed}"
        return say("asked: {asked} {agreed}", asked=agreed.asked, agreed=whole)
    return f"{said}: {agreed.agreed}"


def dial_words(block: Entry | Setting) -> str:
    """What the dials of an entry show, as written."""
    said = []
    if block.dial is not None:
        said.append(_reading(block.turns, block.dial))
    if block.cross is not None:
        said.append(say("cross slide {reading}", reading=_reading(block.cross_turns, block.cross)))
    return "; ".join(said)


def _reading(turns: int | None, shown: Given) -> str:
    if not turns:
        return shown.with_unit
    return say_count(
        "{count} turn and {reading}", "{count} turns and {reading}", turns, reading=shown.with_unit
    )


def _measured(measured: Measured) -> str:
    sizes = "; ".join(_size(name, given) for name, given in measured.sizes())
    wire = say(" over wires of {wire}", wire=measured.wire.with_unit) if measured.wire else ""
    by = say(", with {instrument}", instrument=measured.with_) if measured.with_ else ""
    where = f", {measured.where}" if measured.where else ""
    return f"{sizes}{wire}{by}{where}"


def _size(name: str, given: Given) -> str:
    if name in _SIZES:
        return say(_SIZES[name], size=given.with_unit)
    return f"{name_words(name)} {given.with_unit}"


def _fit(fit: Fit) -> str:
    turns = ""
    if fit.turns:
        count = fit.turns.text
        turns = say("{turns} turn", turns=count) if fit.turns.si == 1 else say("{turns} turns", turns=count)
    feels = str(FEELS[fit.feels]) if fit.feels else ""
    return ", ".join(part for part in (fit.with_ or "", turns, feels, fit.where or "") if part)


def _block(block: Strict) -> str:
    """The keys of a block with what was written, in the order of the models; both dials first."""
    said = (
        [say("dial: {words}", words=words) for words in [dial_words(block)] if words]
        if isinstance(block, Setting)
        else []
    )
    for name in sorted(type(block).model_fields, key=lambda name: name != "why"):
        value = getattr(block, name)
        if value is not None and name not in OF_DIALS:
            said.append(_under(name, _text(value)))
    return "; ".join(said)


def _under(name: str, value: str) -> str:
    """What stands under a key of a block, with that key in words."""
    plain = name.rstrip("_")
    return say(_SAID[plain], value=value) if plain in _SAID else f"{name_words(name)}: {value}"


def name_words(name: str) -> str:
    """What stands under a key of an entry, by that key with or without its underscores.

    >>> name_words("jaw_mark"), name_words("over wires")
    ('jaw mark', 'over wires')
    """
    plain = name.replace("_", " ")
    return str(NAMES.get(plain, plain))


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
        tuple((name_words(name), left.get(name, ""), then.get(name, "")) for name in named),
    )


def settings(block: Entry | Setting) -> dict[str, str]:
    """What a block says of how things stand, by keys that `name_words` says."""
    said = {}
    for name, turns, given in (
        ("dial", block.turns, block.dial), ("cross slide", block.cross_turns, block.cross)
    ):
        if given is not None:
            said[name] = say("{turns} turns, {reading}", turns=turns or 0, reading=given.with_unit)
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
