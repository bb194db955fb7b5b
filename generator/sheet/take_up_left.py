"""How a stop was left: what the log says of it, what it does not say, and what it leads to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from generator.job.log import Entry, Stop
from generator.job.source import LogEntry
from generator.language.say import later
from generator.sheet.lines import OperationLine
from generator.sheet.log_checks import left_out
from generator.sheet.log_words import settings
from generator.sheet.logged import Logged

ENTRIES: Final[Mapping[str, str]] = {  # of a stop or the card, as the page calls them
    name: name
    for name in (
        later("dial"),
        later("cross slide"),
        later("jaw mark"),
        later("stick out"),
        later("steady at"),
        later("steady diameter"),
        later("rust"),
        later("band"),
        later("runout at jaws"),
        later("runout at end"),
        later("levers"),
        later("gears"),
        later("tool"),
        later("flat"),
        later("compound angle"),
        later("compound towards"),
        later("dial line"),
        later("over wires"),
        later("start"),
        later("measured"),
        later("set to"),
    )
}


@dataclass(frozen=True)
class Left:
    """A stop as it was left: its words by name; what of it the log does not say; the numbers it leads to."""

    logged: Logged
    entry: Entry
    stop: Stop
    line: OperationLine | None
    said: Mapping[str, str]
    wanted: frozenset[str]

    @property
    def of_thread(self) -> bool:
        """True where a thread was stopped."""
        return self.line is not None and self.line.name == "thread" and self.logged.thread is not None

    def values(self, *names: str, anew: tuple[str, ...] = ()) -> tuple[tuple[str, str, bool], ...]:
        """These entries of the stop that are said, or that ought to be; those to be written `anew` always."""
        known = [name for name in names if name in self.said or name in self.wanted or name in anew]
        return tuple((ENTRIES[name], self.said.get(name, ""), name in anew) for name in known)


def left_of(one: LogEntry, logged: Logged) -> Left:
    """A stop of the log as it was left."""
    stop = one.entry.stop
    assert stop is not None
    wanted = frozenset(_name(key) for key, _ in left_out(one.entry, logged))
    said = {**settings(one.entry), **settings(stop)}
    return Left(logged, one.entry, stop, logged.about(one.entry).line, said, wanted)


def _name(key: str) -> str:
    """An entry of a stop as the page calls it."""
    return "cross slide" if key == "cross" else key.replace("_", " ")
