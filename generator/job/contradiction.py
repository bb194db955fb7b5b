"""A contradiction, and the words its sentence is made of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from generator.errors import Location
from generator.job.written import Given
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
    return f"{given.with_unit} (line {given.where.line})"


def length_like(length: float, like: Given) -> str:
    """A computed length (m) in the unit of a written one."""
    if like.unit in ("mm", "cm", "m", "um"):
        return f"{number(length / mm, 3)} mm"
    return f"{number(length / inch, 4)} in"


def number(value: float, digits: int = 6) -> str:
    """A number without the zeros at its end.

    >>> number(4.5), number(1 / 3, 4)
    ('4.5', '0.3333')
    """
    return f"{value:.{digits}f}".rstrip("0").rstrip(".")


def lines(given: Iterable[Given]) -> str:
    """The lines some values stand on: "line 11", "lines 11 and 12"."""
    numbers = [str(line) for line in sorted({one.where.line for one in given})]
    return f"line{'s' if len(numbers) > 1 else ''} {listed(numbers)}"


def listed(words: Sequence[str]) -> str:
    """Words in a sentence.

    >>> listed(["pitch", "hand", "starts"])
    'pitch, hand and starts'
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
