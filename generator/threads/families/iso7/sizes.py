"""Sizes of the pipe threads R, Rc and Rp, as ISO 7-1 tabulates them. Millimeters, exact."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.tables.rows import table

INCH = Fraction(254, 10)
TAPER = Decimal(1) / 16  # on the diameter


@dataclass(frozen=True)
class PipeSize:
    """One size: its name and what the table gives for it (mm, turns); see the head of the table."""

    name: str
    tpi: Fraction
    height: Decimal
    major: Decimal
    gauge: Decimal
    gauge_tolerance: Decimal
    gauge_turns: Decimal
    internal_tolerance: Decimal
    internal_turns: Decimal
    fitting: Decimal
    fitting_turns: Decimal
    parallel: Decimal
    wrench_turns: Decimal

    @property
    def pitch(self) -> Fraction:
        """Pitch (mm): 25.4 over the threads in one inch."""
        return INCH / self.tpi


@cache
def pipe_sizes() -> dict[Fraction, PipeSize]:
    """The standard's sizes by the number that is their name."""
    sizes = {}
    for row in table("iso7_sizes", __package__):
        figures = {key: Decimal(value) for key, value in row.items() if key not in ("size", "tpi")}
        number = sum((Fraction(part) for part in row["size"].split()), Fraction(0))
        sizes[number] = PipeSize(name=row["size"], tpi=Fraction(row["tpi"]), **figures)
    return sizes


def named(name: str) -> PipeSize:
    """The size of this name."""
    return next(size for size in pipe_sizes().values() if size.name == name)
