"""Published reliefs of ISO metric threads: DIN 76-1 forms A and B, ISO 4755; inside DIN 76-1 forms C and D.

ReliefRow       one row, in SI
relief_rows     the rows for a pitch, one a standard
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.si import Length, mm
from generator.tables.rows import table


@dataclass(frozen=True)
class ReliefRow:
    """One published relief for one pitch.

    `diameter_less` is what the relief is smaller than the nominal diameter (negative for the recess of an
    internal thread, which is larger), `width_least` runs from the
    shoulder to the wall at the bottom, `width_most` to the wall at the outside. `memory` marks widths that
    were not checked against print; `doubt` says what else is uncertain.
    """

    standard: str
    pitch: Length
    diameter_less: Length
    radius: Length
    width_least: Length
    width_most: Length
    memory: bool
    doubt: str


def relief_rows(pitch: Fraction, internal: bool = False) -> tuple[ReliefRow, ...]:
    """The published reliefs for a pitch in mm, exactly; none when the tables do not have the pitch.

    >>> [(row.standard, round(row.width_least * 1000, 3)) for row in relief_rows(Fraction(5, 2))]
    [('DIN 76-1 form A', 5.6), ('DIN 76-1 form B', 3.2), ('ISO 4755', 4.4)]
    >>> [row.standard for row in relief_rows(Fraction(5, 2), internal=True)]
    ['DIN 76-1 form C', 'DIN 76-1 form D']
    """
    name = "relief_internal" if internal else "relief"
    return tuple(_row(row) for row in table(name) if Fraction(row["pitch"]) == pitch)


def _row(row: dict[str, str]) -> ReliefRow:
    def size(column: str) -> float:
        return float(row[column]) * mm

    return ReliefRow(
        row["standard"],
        size("pitch"),
        size("diameter_less") if "diameter_less" in row else -size("diameter_more"),
        size("radius"),
        size("width_least"),
        size("width_most"),
        row["memory"] == "yes",
        row["doubt"],
    )
