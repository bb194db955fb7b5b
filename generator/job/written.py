"""What the reader hands over: values as they were written, each with its place.

    Scalar, Block, Listing    text, keys, entries
    Given                     a value that remembers how it was written
    refused                   how a field says no
    not_known                 that a word is none of those that may stand there
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any, Final, Literal

from pydantic_core import PydanticCustomError

from generator import units
from generator.errors import Location
from generator.language.lists import or_words
from generator.language.say import say
from generator.language.spoken import spoken

NOWHERE: Final = Location(Path("-"))
System = Literal["inch", "mm"]


class Scalar(str):
    """A value as written, with its place.

    `system` is the unit of a bare length there, `mixed` says why there is none although the file has one.
    `surprise` is what a YAML reader would make of the unquoted text, where that is not the text.
    """

    where: Location
    system: System | None
    mixed: str
    surprise: str
    quoted: bool

    def __new__(
        cls,
        text: str,
        where: Location = NOWHERE,
        system: System | None = None,
        *,
        mixed: str = "",
        surprise: str = "",
        quoted: bool = False,
    ) -> Scalar:
        """Keep the text as a string that knows its place."""
        scalar = super().__new__(cls, text)
        scalar.where, scalar.system, scalar.mixed = where, system, mixed
        scalar.surprise, scalar.quoted = surprise, quoted
        return scalar


class Block(dict[str, Any]):
    """A mapping as written; `where` is its place, `keys_where` the place of each key."""

    def __init__(self, where: Location) -> None:
        super().__init__()
        self.where = where
        self.keys_where: dict[str, Location] = {}


class Listing(list[Any]):
    """A list as written, with its place."""

    def __init__(self, where: Location) -> None:
        super().__init__()
        self.where = where


@dataclass(frozen=True)
class Given:
    """A value from a file, and how it got there.

    `si` is in SI; `exact` is the number as written, in `unit`; `text` is what was written. `kind` is
    "given", "measured" (`by` whom, `with_` what) or "assumed".
    """

    si: float
    text: str
    quantity: str
    kind: Literal["given", "measured", "assumed"] = "given"
    by: str = ""
    with_: str = ""
    where: Location = NOWHERE
    exact: Fraction = Fraction(0)
    unit: str = ""
    bare: bool = field(default=False, compare=False)

    @property
    def origin(self) -> str:
        """Where the value comes from, in words: "measured by KL with micrometer 2-3 in"."""
        if self.kind == "measured":
            return say("measured by {by} with {with_}", by=self.by, with_=self.with_)
        return say("assumed, as the file says") if self.kind == "assumed" else say("given in the file")

    @property
    def with_unit(self) -> str:
        """What was written, with the unit of the file where it was left out."""
        written = self.where is not NOWHERE  # else it is proposed
        text = self.text if written else spoken().figures(self.text)
        return f"{text} {self.unit}" if self.bare and self.unit else text


def refused(*problems: tuple[str, str]) -> PydanticCustomError:
    """A refusal of one field: pairs of the key below the field (or nothing) and the sentence."""
    return PydanticCustomError("refused", "refused", {"problems": problems})


def not_known(value: object, known: Sequence[str], near: str | None) -> str:
    """The sentence about a word that is none of the known ones; `near` is the one that may be meant."""
    if near:
        return say(
            "{written} is not known here: did you mean {near}? Write {known}",
            written=shown(value),
            near=near,
            known=or_words(known),
        )
    return say("{written} is not known here: write {known}", written=shown(value), known=or_words(known))


def shown(value: object) -> str:
    """What was written, for a sentence."""
    if isinstance(value, dict):
        return say("a block of keys")
    if isinstance(value, list):
        return say("a list")
    return units.quoted(str(value))


def scalar_of(value: object, wanted: str) -> Scalar:
    """The text of one entry; a block, a list or nothing is refused with what is wanted."""
    if isinstance(value, Scalar):
        scalar = value
    elif isinstance(value, str):
        scalar = Scalar(value)
    else:
        raise refused(("", say("{value} stands here: {wanted}", value=shown(value), wanted=wanted)))
    if not scalar.strip():
        raise refused(("", say("is empty: {wanted}", wanted=wanted)))
    return scalar
