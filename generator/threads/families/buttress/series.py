"""Preferred diameters and pitches of inch buttress threads (ANSI B1.9-1973, table 1)."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from functools import cache
from itertools import pairwise

from generator.tables.rows import table


@cache
def _pitches() -> tuple[tuple[Decimal, Decimal, tuple[Fraction, ...]], ...]:
    return tuple(
        (Decimal(row["over"]), Decimal(row["up_to"]), tuple(map(Fraction, row["tpi"].split())))
        for row in table("buttress_series", __package__)
    )


def preferred_pitches(diameter: Decimal) -> tuple[Fraction, ...]:
    """Threads per inch that the table has at a diameter (in); none outside the table.

    >>> [int(n) for n in preferred_pitches(Decimal("0.5"))]
    [20, 16, 12]
    """
    return next((tpi for over, up_to, tpi in _pitches() if over < diameter <= up_to), ())


def range_of(diameter: Decimal) -> tuple[Decimal, Decimal] | None:
    """The diameter range (in) of the tolerance table that a diameter is in; None outside 0.5 to 24 in."""
    return next(((low, high) for low, high in RANGES if low <= diameter <= high), None)


def preferred_sizes() -> Iterator[tuple[str, Decimal, Fraction]]:
    """Size as it is written, diameter (in) and threads per inch of every preferred combination."""
    for row in table("buttress_diameters", __package__):
        for tpi in preferred_pitches(Decimal(row["diameter"])):
            yield row["size"], Decimal(row["diameter"]), tpi


_ENDS = tuple(map(Decimal, ("0.5", "0.7", "1", "1.5", "2.5", "4", "6", "10", "16", "24")))
RANGES = tuple(pairwise(_ENDS))  # Machinery's Handbook, 27th ed., p. 1854, table 4
