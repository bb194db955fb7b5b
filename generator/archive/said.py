"""What the archive says of a job's state and days: the words for the values that its rows are counted by."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from generator.language.say import later
from generator.sheet.row import Event

STATUS_WORDS: Final[Mapping[str, str]] = {
    "quoted": later("quoted"), "planned": later("planned"), "in work": later("in work"),
    "stopped": later("stopped"), "done": later("done"), "scrapped": later("scrapped"),
    "superseded": later("superseded"), "not ready to run": later("not ready to run"),
    "errors": later("errors"),
}  # fmt: skip
EVENT_WORDS: Final[Mapping[Event, str]] = {
    "received": later("received"), "stopped": later("stopped"), "taken up": later("taken up"),
    "done": later("done"),
}  # fmt: skip
EVENT_HEADS: Final[Mapping[Event, str]] = {
    "received": later("Received"), "stopped": later("Stopped"), "taken up": later("Taken up"),
    "done": later("Done"),
}  # fmt: skip


def status_words(status: str) -> str:
    """A status as it is shown."""
    return str(STATUS_WORDS.get(status, status))
