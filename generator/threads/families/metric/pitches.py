"""Pitches, deviations and tolerances of ISO metric threads (ISO 261, ISO 965-1), as rows."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.tables.rows import table


@dataclass(frozen=True)
class CrestRow:
    """Crest tolerances of grade 6 and deviations (micrometers below basic) at one pitch.

    `tolerance` is of the external major diameter, `minor_tolerance` of the internal minor one; position G
    lies as far above the basic size as g below. `memory` names the columns from memory of the standard.
    """

    tolerance: int
    minor_tolerance: int
    deviation: dict[str, int]
    memory: tuple[str, ...]


@dataclass(frozen=True)
class PitchRow:
    """Pitch-diameter tolerance of grade 6 (micrometers) and engagement group N (mm), one pitch and range.

    `memory` names what of it could only be had from memory of the standard.
    """

    above: Decimal
    up_to: Decimal
    tolerance: int
    engagement: tuple[float, float] | None
    memory: tuple[str, ...]


@cache
def coarse_pitches() -> dict[Fraction, Fraction]:
    """Coarse pitch (mm) by nominal diameter (mm)."""
    return {Fraction(row["nominal"]): Fraction(row["pitch"]) for row in table("metric_coarse", __package__)}


@cache
def fine_pitches() -> tuple[tuple[Fraction, Fraction, bool], ...]:
    """Nominal diameter (mm), fine pitch (mm), and whether ISO 262 selects it, the smallest first."""
    return tuple(
        (Fraction(row["nominal"]), Fraction(pitch), pitch in row["selected"].split())
        for row in table("metric_fine", __package__)
        for pitch in row["pitches"].split()
    )


@cache
def crest_rows() -> dict[Fraction, CrestRow]:
    """Rows of the table of crest tolerances and deviations by pitch (mm)."""
    return {
        Fraction(row["pitch"]): CrestRow(
            int(row["tolerance"]),
            int(row["minor_tolerance"]),
            {letter: int(row[letter]) for letter in "gfe" if row[letter]} | {"h": 0},
            tuple(row["memory"].split()),
        )
        for row in table("metric_crest", __package__)
    }


@cache
def diameter_ranges() -> tuple[tuple[Decimal, Decimal], ...]:
    """Diameter ranges (mm), over .. up to and including, smallest first."""
    rows = table("metric_pitch_diameter", __package__)
    return tuple(dict.fromkeys((Decimal(row["above"]), Decimal(row["up_to"])) for row in rows))


@cache
def pitch_rows() -> dict[tuple[Decimal, Fraction], PitchRow]:
    """Rows of the pitch-diameter table by lower end of the diameter range (mm) and pitch (mm)."""
    return {
        (Decimal(row["above"]), Fraction(row["pitch"])): PitchRow(
            Decimal(row["above"]),
            Decimal(row["up_to"]),
            int(row["tolerance"]),
            (float(row["engagement_over"]), float(row["engagement_to"])) if row["engagement_to"] else None,
            tuple(row["memory"].split()),
        )
        for row in table("metric_pitch_diameter", __package__)
    }
