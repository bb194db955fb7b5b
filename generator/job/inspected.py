"""What a log entry says for the inspection record: readings, how each was accepted, concessions."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from generator.job.fields import Date, LengthOrZero, Line, NumberOrZero, Strict, Text, Word, YesNo
from generator.job.written import refused
from generator.language.say import say

Accepted = Literal["mate", "gauge", "wires", "balls", "size"]


class Inspected(Strict):
    """One feature of the part, as it came in and as it leaves."""

    feature: Line
    """The line of the inspection record, by its short name there; other words are a line of their own."""
    found: LengthOrZero | None = None
    """The size as it came in."""
    left: LengthOrZero | None = None
    """The size as it leaves."""
    turns: NumberOrZero | None = None
    """Turns that the mate or a gauge goes on, or stands off."""
    goes: YesNo | None = None
    """Whether the mate or a gauge goes on as it should."""
    with_: Line | None = Field(default=None, alias="with")
    """The instrument."""
    where: Text | None = None
    """Where along the part it was taken."""
    accepted: Annotated[Accepted, Word] | None = None
    """How it was accepted."""

    @model_validator(mode="after")
    def _something(self) -> Self:
        if not self.model_fields_set - {"feature", "with_", "where"}:
            raise refused(("", say("says nothing of it: write found, left, turns, goes or accepted")))
        return self


class Concession(Strict):
    """What the customer lets pass outside its limits."""

    feature: Line
    """The line of the inspection record, by its short name there."""
    what: Text
    """What departs, and what was let pass."""
    by: Line
    """Who of the customer's people agreed: a role or a code."""
    on: Date | None = None
    """The day it was agreed."""
    reference: Line | None = None
    """A letter, a message or an order that says so."""
