"""Published reliefs, run-outs and blind holes of ISO metric threads: DIN 76-1, ISO 4755, ISO 3508.

ReliefRow       one relief, in SI
relief_rows     the reliefs for a pitch, one a standard
PITCHES         the pitches that all of them have
RunOut          how a thread without a relief fades out, and how far from a shoulder
run_out         that of a pitch
blind_beyond    how far a blind hole goes on past the thread
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.language.say import later
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


PITCHES = tuple(Fraction(row["pitch"]) for row in table("relief") if row["standard"] == "ISO 4755")


@dataclass(frozen=True)
class RunOut:
    """Lengths of a thread that fades out (m), all at most: run-out normal and short, distance from a shoulder
    normal, long and short; `shoulder_short` is None where the table has none. `doubt` says what is uncertain.
    """

    standard: str
    pitch: Length
    normal: Length
    short: Length
    shoulder: Length
    shoulder_long: Length
    shoulder_short: Length | None
    doubt: str


def run_out(pitch: Fraction, internal: bool = False) -> RunOut | None:
    """The published run-out for a pitch in mm, exactly; None when the table does not have the pitch.

    >>> found = run_out(Fraction(2))
    >>> [round(length * 1000, 3) for length in (found.normal, found.short, found.shoulder)]
    [5.0, 2.5, 6.0]
    """
    side = "internal" if internal else "external"
    row = next(
        (row for row in table("run_out") if row["side"] == side and Fraction(row["pitch"]) == pitch), None
    )
    if row is None:
        return None
    short = row["shoulder_short"]
    return RunOut(
        "GB/T 3-1997" if internal else "ISO 3508", _size(row, "pitch"), _size(row, "run_out"),
        _size(row, "run_out_short"), _size(row, "shoulder"), _size(row, "shoulder_long"),
        _size(row, "shoulder_short") if short else None, later(row["doubt"]),
    )


def blind_beyond(pitch: Fraction) -> Length | None:
    """How far a blind hole goes on past the last full thread, for a pitch in mm; None without a row (m).

    >>> round(blind_beyond(Fraction(3, 2)) * 1000, 3), blind_beyond(Fraction(7, 3))
    (7.3, None)
    """
    return next(
        (_size(row, "beyond") for row in table("blind_hole") if Fraction(row["pitch"]) == pitch), None
    )


def _row(row: dict[str, str]) -> ReliefRow:
    return ReliefRow(
        row["standard"],
        _size(row, "pitch"),
        _size(row, "diameter_less") if "diameter_less" in row else -_size(row, "diameter_more"),
        _size(row, "radius"),
        _size(row, "width_least"),
        _size(row, "width_most"),
        row["memory"] == "yes",
        later(row["doubt"]),
    )


def _size(row: dict[str, str], column: str) -> Length:
    return float(row[column]) * mm
