"""Limits of size of trapezoidal threads, external and internal (ISO 2901, ISO 2903; DIN 103). Millimeters.

Grades are steps along the R 40 series from the table of grade 7, as for metric threads; the letter of the
class moves the screw's pitch diameter only. Its major diameter and its minor diameter stand at position h.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from generator.errors import OutsideRange
from generator.language.say import figure, later, say
from generator.threads.designation import Designation
from generator.threads.engagement import of_group
from generator.threads.families.trapezoidal.tables import (
    PitchRow,
    diameter_ranges,
    pitch_rows,
    pitches_of,
    series,
    tolerance_rows,
)
from generator.threads.rounding import decimal, preferred_number, rounded
from generator.threads.sizes import Range, ThreadLimits, remembered, too_coarse
from generator.threads.text import number_text

SOURCE = later("ISO 2901, ISO 2902 and ISO 2903 (DIN 103)")
TABLE_GRADE, STEPS_A_GRADE, INTERNAL_STEPS = 7, 4, 5  # of the R 40 series
FROM_GRADE_6 = 4  # steps from the formula's grade to the table's
MINOR_SHARE = Decimal("1.25")  # Td3 = 1.25 Td2 + es: ISO 2903
MULTIPLE_START = {1: Decimal(1), 2: Decimal("1.12"), 3: Decimal("1.25"), 4: Decimal("1.4")}  # of Td2, TD2
MANY_STARTS = Decimal("1.6")  # five and more
RECOMMENDED = ("7e", "8e", "8c", "9c", "7H", "8H", "9H")
MICROMETER, WHOLE = Decimal("0.001"), Decimal(1)
NORMAL_FROM, NORMAL_TO = 2.24, 6.7  # group N from 2.24 P d^0.2 to 6.7 P d^0.2: ISO 2903, ISO 965-1


@dataclass(frozen=True)
class Basis:
    """What the limits of a trapezoidal thread start from: mm, tolerances and deviation in micrometers."""

    nominal: Decimal
    pitch: Decimal
    row: PitchRow
    deviation: Decimal
    tolerance: Decimal
    minor_tolerance: Decimal
    normal: tuple[float, float]
    in_table: bool
    memory: tuple[str, ...]


def trapezoidal_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a trapezoidal thread, external or internal.

    d max = d;  d min = d - Td;  d2 max = d - P/2 - es;  d2 min = d2 max - Td2;  d3 max = d - P - 2 ac;
    d3 min = d3 max - Td3, Td3 = 1.25 Td2 + es;  D4 min = d + 2 ac;  D2 min = d - P/2;  D2 max = D2 min + TD2;
    D1 min = d - P;  D1 max = D1 min + TD1

    Parameters
    ----------
    d : a trapezoidal thread
    engagement : mm; it changes no limit, but a remark says which class its group asks for

    Returns
    -------
    ThreadLimits (mm), three places. The nut's major diameter has no max.

    Raises
    ------
    OutsideRange
        For a diameter outside 5.6 to 355 mm, a pitch that the standard does not have, or one so coarse that
        no core is left.

    Notes
    -----
    Range: 5.6 < d <= 355 mm, pitches 1.5 to 44 mm of ISO 2902.

    Source: ISO 2901, ISO 2903.
    """
    of = basis(d)
    nominal, pitch, row = of.nominal, of.pitch, of.row
    engagement = d.engagement if engagement is None else engagement
    tolerance, deviation = MICROMETER * of.tolerance, MICROMETER * of.deviation
    middle = nominal - pitch / 2
    if d.internal:
        crest = MICROMETER * row.minor_tolerance
        major = Range(None, float(nominal + 2 * row.clearance))
        pitch_diameter = Range(float(middle + tolerance), float(middle))
        least = nominal - pitch
        minor = Range(float(least + crest), float(least))
    else:
        crest = MICROMETER * row.major_tolerance
        major = Range(float(nominal), float(nominal - crest))
        pitch_diameter = Range(float(middle - deviation), float(middle - deviation - tolerance))
        root = nominal - pitch - 2 * row.clearance
        least = root - MICROMETER * of.minor_tolerance
        minor = Range(float(root), float(least))
    if least <= 0:
        raise too_coarse(d, least, say("minor diameter"))
    over, up_to = of_group(d.engagement_group, of.normal)
    return ThreadLimits(
        designation=d,
        major=major,
        pitch_diameter=pitch_diameter,
        minor=minor,
        allowance=float(deviation),
        major_tolerance=None if d.internal else float(crest),
        minor_tolerance=float(crest) if d.internal else None,
        pitch_tolerance=float(tolerance),
        engagement=engagement if engagement is not None else up_to if up_to < math.inf else None,
        engagement_standard=engagement is None or over < engagement <= up_to,
        tabulated=of.in_table,
        remarks=_remarks(d, of, engagement),
        source=SOURCE,
        from_memory=_memory(d, of),
        places=3,
    )


def basis(d: Designation) -> Basis:
    """Sizes, deviation and tolerances of a trapezoidal thread.

    Raises
    ------
    OutsideRange
        For a diameter or pitch outside the standard's tables.
    """
    nominal, pitch = Decimal(str(d.nominal)), decimal(d.pitch)
    low, high = _range_of(nominal)
    row = pitch_rows().get(d.pitch)
    if row is None:
        known = list(pitch_rows())
        raise OutsideRange(
            say("pitch"), float(pitch), float(known[0]), float(known[-1]),
            say(
                "ISO 2902 has the pitches {pitches}",
                pitches=" ".join(figure(float(one), "g") for one in known),
            ), "mm",
        )
    found = tolerance_rows().get((low, d.pitch))
    of_grade_7 = Decimal(found.tolerance) if found else preferred_number(
        90 * pitch ** Decimal("0.4") * (low * high).sqrt() ** Decimal("0.1"), FROM_GRADE_6
    )
    steps = STEPS_A_GRADE * (int(d.class_[0]) - TABLE_GRADE) + (INTERNAL_STEPS if d.internal else 0)
    widened = MULTIPLE_START.get(d.starts, MANY_STARTS)
    tolerance = rounded(preferred_number(of_grade_7, steps) * widened, WHOLE)
    deviation = Decimal(0 if d.internal else row.deviation[d.class_[1]])
    reach = float(pitch) * float(low) ** 0.2
    return Basis(
        nominal=nominal,
        pitch=pitch,
        row=row,
        deviation=deviation,
        tolerance=tolerance,
        minor_tolerance=rounded(MINOR_SHARE * tolerance, WHOLE) + deviation,
        normal=found.engagement if found else (round(NORMAL_FROM * reach, 1), round(NORMAL_TO * reach, 1)),
        in_table=(Fraction(nominal), d.pitch) in series(),
        memory=found.memory if found else ("tolerance", "engagement"),
    )


def _range_of(nominal: Decimal) -> tuple[Decimal, Decimal]:
    ranges = diameter_ranges()
    for low, high in ranges:
        if low < nominal <= high:
            return low, high
    raise OutsideRange(
        say("nominal diameter"),
        float(nominal),
        float(ranges[0][0]),
        float(ranges[-1][1]),
        "ISO 2903",
        "mm",
    )


def _remarks(d: Designation, of: Basis, engagement: float | None) -> tuple[str, ...]:
    """What is special about the limits of this thread."""
    said: list[str] = []
    if d.class_ not in RECOMMENDED:
        said.append(
            say(
                "Class {class_} is not one of those that ISO 2903 recommends: 7e, 8e, 8c and 9c outside.",
                class_=d.class_,
            )
        )
    preferred = pitches_of(Fraction(of.nominal))[:1]
    if d.starts == 1 and not of.in_table and preferred and d.pitch % preferred[0] == 0:
        pitch, of_series = number_text(d.pitch), number_text(preferred[0])
        said.append(
            say(
                "A single start of {pitch} mm pitch is not in the standard for {nominal_text} mm. If the "
                "thread has {starts} starts of {of_series} mm, write Tr "
                "{nominal_text}x{pitch}(P{of_series}); count the starts at the end of the thread.",
                pitch=pitch, nominal_text=d.nominal_text, starts=d.pitch / preferred[0], of_series=of_series,
            )
        )
    if d.starts > 1:
        factor = MULTIPLE_START.get(d.starts, MANY_STARTS)
        said.append(
            say(
                "{starts} starts: the tolerance of the pitch diameter is {factor} times that of one start.",
                starts=d.starts, factor=figure(float(factor), "g"),
            )
        )
    shortest, longest = of.normal
    if engagement is not None and engagement <= shortest:
        said.append(
            say(
                "An engagement of {engagement:g} mm is short (normal is over {shortest:g} up to {longest:g} "
                "mm); ISO 2903 has no class for it.",
                engagement=engagement, shortest=shortest, longest=longest,
            )
        )
    elif engagement is not None and d.engagement_group == "L" and engagement <= longest:
        said.append(
            say(
                "An engagement of {engagement:g} mm is not long: group L is over {longest:g} mm. The limits "
                "here are those of {class_}.",
                engagement=engagement, longest=longest, class_=d.class_,
            )
        )
    elif (
        engagement is not None and engagement > longest and d.class_[0] == "7" and d.engagement_group != "L"
    ):
        said.append(
            say(
                "An engagement of {engagement:g} mm is long (normal is over {shortest:g} up to {longest:g} "
                "mm): ISO 2903 then recommends {better} in place of {class_}. The limits here are those of "
                "{class_}.",
                engagement=engagement, shortest=shortest, longest=longest, better=f"8{d.class_[1]}",
                class_=d.class_,
            )
        )
    return tuple(said)


def _memory(d: Designation, of: Basis) -> tuple[str, ...]:
    """Which figures could only be had from memory, in words."""
    grade = d.class_[0] != str(TABLE_GRADE)
    screw = (
        say("the tolerance of the major diameter") if "major_tolerance" in of.row.memory else "",
        say("the deviation of class {class_}", class_=d.class_) if d.class_[1] in of.row.memory else "",
        say("the tolerance of the pitch diameter") if grade or "tolerance" in of.memory else "",
    )
    return remembered(
        *((say("the tolerances of the nut"),) if d.internal else screw),
        say("the lengths of engagement") if "engagement" in of.memory else "",
        say("the factor for several starts") if d.starts > 1 else "",
    )
