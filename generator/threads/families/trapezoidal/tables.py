"""Tables of trapezoidal threads: pitches, pitch diameter tolerances, standard series (ISO 2901-2903)."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.tables.rows import table


@dataclass(frozen=True)
class PitchRow:
    """What goes by pitch: clearance ac (mm), deviations and crest tolerances (micrometers).

    `memory` names the columns that could only be had from memory.
    """

    clearance: Decimal
    deviation: dict[str, int]
    major_tolerance: int
    minor_tolerance: int
    memory: tuple[str, ...]


@dataclass(frozen=True)
class ToleranceRow:
    """Pitch diameter tolerance of grade 7 outside (micrometers), group N of lengths of engagement (mm).

    `memory` names what of it could only be had from memory.
    """

    tolerance: int
    engagement: tuple[float, float]
    memory: tuple[str, ...]


@cache
def pitch_rows() -> dict[Fraction, PitchRow]:
    """Rows by pitch (mm), finest first."""
    return {
        Fraction(row["pitch"]): PitchRow(
            Decimal(row["ac"]),
            {letter: int(row[letter]) for letter in "ec"},
            int(row["major_tolerance"]),
            int(row["minor_tolerance"]),
            tuple(row["memory"].split()),
        )
        for row in table("tr_pitches", __package__)
    }


@cache
def tolerance_rows() -> dict[tuple[Decimal, Fraction], ToleranceRow]:
    """Rows by lower end of the diameter range (mm) and pitch (mm)."""
    return {
        (Decimal(row["above"]), Fraction(row["pitch"])): ToleranceRow(
            int(row["tolerance"]),
            (float(row["engagement_over"]), float(row["engagement_to"])),
            tuple(row["memory"].split()),
        )
        for row in table("tr_pitch_diameter", __package__)
    }


@cache
def diameter_ranges() -> tuple[tuple[Decimal, Decimal], ...]:
    """Diameter ranges (mm), over .. up to and including, smallest first."""
    rows = table("tr_pitch_diameter", __package__)
    return tuple(dict.fromkeys((Decimal(row["above"]), Decimal(row["up_to"])) for row in rows))


@cache
def series() -> dict[tuple[Fraction, Fraction], bool]:
    """Whether the pitch is the preferred one, by diameter and pitch (mm) of the standard series."""
    return {
        (Fraction(row["nominal"]), Fraction(row["pitch"])): bool(row["preferred"])
        for row in table("tr_series", __package__)
    }


def pitches_of(nominal: Fraction) -> tuple[Fraction, ...]:
    """Pitches (mm) that the standard gives a diameter, the preferred one first.

    >>> [float(pitch) for pitch in pitches_of(Fraction(40))]
    [7.0, 3.0, 10.0]
    """
    found = [(not preferred, pitch) for (size, pitch), preferred in series().items() if size == nominal]
    return tuple(pitch for _, pitch in sorted(found))
