"""A contradiction, and the words its sentence is made of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

from generator.errors import Location
from generator.job.written import Given
from generator.language.lists import and_words
from generator.language.say import figure, say, say_count
from generator.si import inch, mm

SAME: Final = 1e-6  # m: lengths closer than this are one length; absorbs the rounding of sums


@dataclass(frozen=True)
class Contradiction:
    """Two entries that cannot both be meant, or one that cannot be as it is written.

    `level` is "stop" or "check"; `asks` is the question for the customer or the office.
    """

    id: str
    level: Literal["stop", "check", "note"]
    text: str
    where: Location
    asks: str = ""


def said(given: Given) -> str:
    """What was written, and where: "2 1/4 in (line 12)"."""
    return say("{with_unit} (line {line})", with_unit=given.with_unit, line=given.where.line)


def length_like(length: float, like: Given) -> str:
    """A computed length (m) in the unit of a written one."""
    if like.unit in ("mm", "cm", "m", "um"):
        return say("{number} mm", number=number(length / mm, 3))
    return say("{number} in", number=number(length / inch, 4))


def number(value: float, digits: int = 6) -> str:
    """A number without the zeros at its end.

    >>> number(4.5), number(1 / 3, 4)
    ('4.5', '0.3333')
    """
    return figure(value, f".{digits}f").rstrip("0").rstrip(".,")


def lines(given: Iterable[Given]) -> str:
    """The lines some values stand on: "line 11", "lines 11 and 12"."""
    numbers = [str(line) for line in sorted({one.where.line for one in given})]
    return say_count("line {lines}", "lines {lines}", len(numbers), lines=and_words(numbers))
