"""Standard series of American National threads and of those before them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import generator.threads.families.unified.series as unified
from generator.tables.rows import table
from generator.threads.designation import Designation


def sizes() -> Iterator[tuple[str, float, Fraction, str]]:
    """Size as it is written, diameter (in), threads per inch and series of every standard thread.

    NC, NF and NEF have the sizes of UNC, UNF and UNEF that followed them.
    """
    for size, diameter, tpi, series in unified.named_sizes():
        yield size, diameter, tpi, series.removeprefix("U")
    for row in table("old_inch_series", __package__):
        yield row["size"], float(row["diameter"]), Fraction(row["tpi"]), row["series"]


def named(d: Designation) -> str | None:
    """The series a thread is of; None for a special one."""
    of = (s for _, diameter, tpi, s in sizes() if diameter == d.nominal and tpi == 1 / d.pitch)
    return next((series for series in of if series == d.series), None)
