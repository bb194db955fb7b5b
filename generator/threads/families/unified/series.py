"""Standard series of Unified threads: which pitch belongs to which diameter (ASME B1.1)."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.tables.rows import table

NAMED_SERIES = ("UNC", "UNF", "UNEF")
SIXTEENTH, EIGHTH = Fraction(1, 16), Fraction(1, 8)
SIXTEENTHS_UP_TO = 2  # inch


@cache
def named_series() -> dict[tuple[Decimal, Fraction], str]:
    """Series (UNC, UNF, UNEF) by diameter (in) and threads per inch."""
    return {
        (Decimal(row["diameter"]), Fraction(row["tpi"])): row["series"]
        for row in table("unified_series", __package__)
    }


def named_sizes() -> tuple[tuple[str, float, Fraction, str], ...]:
    """Size as the trade writes it, diameter (in), threads per inch and series of every named size."""
    return tuple(
        (row["size"], float(row["diameter"]), Fraction(row["tpi"]), row["series"])
        for row in table("unified_series", __package__)
    )


@cache
def all_sizes() -> tuple[tuple[str, float, Fraction, str], ...]:
    """Size, diameter (in), threads per inch and series of every standard combination, the smallest first."""
    found = list(named_sizes())
    for row in table("unified_constant_pitch", __package__):
        tpi, size, largest = (Fraction(row[name]) for name in ("tpi", "smallest", "largest"))
        while size <= largest:
            if series_of(Decimal(float(size)), tpi) == "UN":
                found.append((mixed_text(size), float(size), tpi, "UN"))
            size += SIXTEENTH
    return tuple(sorted(found, key=lambda one: one[1]))


def mixed_text(size: Fraction) -> str:
    """A size in inches as a whole number and a fraction.

    >>> mixed_text(Fraction(41, 16)), mixed_text(Fraction(3)), mixed_text(Fraction(3, 8))
    ('2 9/16', '3', '3/8')
    """
    whole, rest = divmod(size, 1)
    return " ".join([str(whole)] * (whole > 0) + [str(rest)] * (rest > 0))


@cache
def remembered_sizes() -> frozenset[tuple[Decimal, Fraction]]:
    """Diameter (in) and threads per inch that a named series has only by memory of the standard."""
    return frozenset(
        (Decimal(row["diameter"]), Fraction(row["tpi"]))
        for row in table("unified_series", __package__) if row["memory"]
    )


def tpi_in_series(diameter: Decimal, series: str) -> Fraction | None:
    """Threads per inch that a named series gives a diameter (in), or None."""
    return next(
        (n for (size, n), name in named_series().items() if size == diameter and name == series), None
    )


def series_of(diameter: Decimal, tpi: Fraction) -> str | None:
    """UNC, UNF, UNEF or UN (constant pitch) for a standard combination; None for a special one."""
    named = named_series().get((diameter, tpi))
    if named:
        return named
    size = Fraction(diameter)
    step = SIXTEENTH if size <= SIXTEENTHS_UP_TO else EIGHTH
    for row in table("unified_constant_pitch", __package__):
        if Fraction(row["tpi"]) == tpi and Fraction(row["smallest"]) <= size <= Fraction(row["largest"]):
            return "UN" if size % step == 0 else None
    return None


def printed_allowance(diameter: Decimal, tpi: Fraction) -> Decimal | None:
    """Allowance (in) of classes 1A and 2A where the table prints another one than the formula gives."""
    for row in table("unified_printed", __package__):
        if Decimal(row["diameter"]) == diameter and Fraction(row["tpi"]) == tpi:
            return Decimal(row["allowance"])
    return None


def engagement_is_diameter(diameter: Decimal, tpi: Fraction) -> bool:
    """Whether the pitch tolerance is for one diameter of engagement (else for nine pitches)."""
    series = series_of(diameter, tpi)
    if series == "UN":
        return any(
            Fraction(row["tpi"]) == tpi and row["engagement"] == "D"
            for row in table("unified_constant_pitch", __package__)
        )
    return series in ("UNC", "UNF")
