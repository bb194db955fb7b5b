"""Standard series of threads of Whitworth form: sizes and threads per inch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from generator.language.say import later
from generator.tables.rows import table
from generator.threads.text import mixed_number

STANDARD = ("BSW", "BSF")  # BS 84
FORMS = ("BSB", "ME")      # lists of the trade: Whitworth form, one number of threads for many diameters
SPECIAL = later("Whit")           # any other diameter and pitch


@dataclass(frozen=True)
class Size:
    """One thread of a series: its size as written, diameter (in) and threads per inch."""

    series: str
    text: str
    diameter: Fraction
    tpi: Fraction
    memory: bool


@cache
def sizes() -> tuple[Size, ...]:
    """All threads of all series, in the order of the table."""
    return tuple(_rows())


def _rows() -> Iterator[Size]:
    for row in table("whitworth_series", __package__):
        diameter = mixed_number(row["size"])
        assert diameter is not None, row
        yield Size(row["series"], row["size"], diameter, Fraction(row["tpi"]), row["memory"] == "yes")


def of_series(series: str, diameter: Fraction) -> tuple[Size, ...]:
    """The threads of a series at one diameter: one for BSW, BSF and BSB, more for ME, none for others.

    >>> of_series("BSF", Fraction(3, 8))[0].tpi
    Fraction(20, 1)
    """
    return tuple(size for size in sizes() if size.series == series and size.diameter == diameter)


def named(diameter: float, pitch: Fraction) -> Size | None:
    """The BSW or BSF thread of this diameter (in) and pitch (in), None for a special one."""
    return next(
        (
            size for size in sizes()
            if size.series in STANDARD and float(size.diameter) == diameter and size.tpi == 1 / pitch
        ),
        None,
    )
