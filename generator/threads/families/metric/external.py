"""Limits of size of external ISO metric threads (ISO 965-1, ISO 724, ISO 68-1). Millimeters.

The standard's tables win over its formulas; grades are steps along the R 40 series from
the tables of grade 6.
A pitch or range that the tables lack is computed by the formulas and said to be so.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

import generator.threads.families.metric.pitches as metric
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.engagement import in_words, of_group
from generator.threads.families.metric.grades import LEAST_PITCH_INSIDE, LEAST_PITCH_OUTSIDE
from generator.threads.rounding import THREE, decimal, preferred_number, rounded
from generator.threads.sizes import Range, ThreadLimits, remembered, too_coarse

SOURCE = later("ISO 965-1 (tolerances and deviations), ISO 68-1 and ISO 724 (basic sizes)")
PITCH_FACTOR = Decimal("0.6495190528")
MINOR_FACTOR = Decimal("1.0825317547")
ROOT_BELOW_PITCH = Decimal("0.6160254")  # H/2 + H/4 less the rise of a root of radius 0.125 P: d3 min
STEPS_A_GRADE = 4  # of the R 40 series
MICROMETER = Decimal("0.001")
FINEST, COARSEST = Decimal("0.2"), Decimal(8)
OUTSIDE_GRADES, INSIDE_GRADES = range(3, 10), range(4, 9)  # of the pitch diameter: ISO 965-1
NORMAL_FROM, NORMAL_TO = 2.24, 6.7  # ISO 965-1: group N from 2.24 P d^0.2 to 6.7 P d^0.2
DEVIATION_CONSTANT = {"e": 50, "f": 30, "g": 15}
DEVIATION_SLOPE = 11


def metric_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of an ISO metric external thread.

    d max = d - es;  d min = d max - Td;  d2 max = d2 - es;  d2 min = d2 max - Td2;
    d1 max = d1 - es (flat form);  d3 min = d2 min - 0.616025 P (root radius 0.125 P)

    Parameters
    ----------
    d : a metric thread
    engagement : mm; it changes no limit, but a remark says which class its group asks for

    Returns
    -------
    ThreadLimits (mm), three places.

    Raises
    ------
    OutsideRange
        For a diameter outside 1 to 355 mm, a pitch outside 0.2 to 8 mm, a position or grade that the
        standard does not have at that pitch, or a pitch so coarse that no core is left.

    Notes
    -----
    Range: 0.99 < d <= 355 mm, 0.2 <= P <= 8 mm.

    Source: ISO 965-1, ISO 68-1, ISO 724.
    """
    engagement = None if engagement is None else round(engagement, 6)
    of = basis(d, LEAST_PITCH_OUTSIDE)
    nominal, pitch, row, crest = of.nominal, of.pitch, of.row, of.crest
    deviation = MICROMETER * deviation_of(of.position, pitch, crest)
    pitch_tolerance = MICROMETER * graded(of.pitch_tolerance, of.pitch_grade)
    major_tolerance = MICROMETER * graded(
        Decimal(crest.tolerance) if crest else _crest_base(pitch), of.crest_grade
    )
    major = nominal - MICROMETER * deviation_of(of.crest_position, pitch, crest)
    pitch_max = rounded(nominal - PITCH_FACTOR * pitch, THREE) - deviation
    pitch_min = pitch_max - pitch_tolerance
    flat_minor = rounded(nominal - MINOR_FACTOR * pitch, THREE) - deviation
    round_minor = rounded(pitch_min - ROOT_BELOW_PITCH * pitch, THREE)
    if round_minor <= 0:
        raise too_coarse(d, round_minor)
    over, up_to = of_group(d.engagement_group, normal_engagement(d))
    return ThreadLimits(
        designation=d,
        major=Range(float(major), float(major - major_tolerance)),
        pitch_diameter=Range(float(pitch_max), float(pitch_min)),
        minor=Range(float(flat_minor), float(round_minor)),
        allowance=float(deviation),
        major_tolerance=float(major_tolerance),
        pitch_tolerance=float(pitch_tolerance),
        engagement=engagement if engagement is not None else finite(up_to),
        engagement_standard=engagement is None or over < engagement <= up_to,
        tabulated=row is not None and crest is not None,
        remarks=tuple(remarks(d, pitch, row, engagement, (over, up_to))),
        source=SOURCE,
        from_memory=memory(of, "tolerance"),
    )


@dataclass(frozen=True)
class Basis:
    """What the limits of a metric thread start from, outside or inside; mm, tolerances in micrometers.

    `row` and `crest` are None where the tables lack the pitch; `pitch_tolerance` is Td2 of grade 6.
    """

    nominal: Decimal
    pitch: Decimal
    row: metric.PitchRow | None
    crest: metric.CrestRow | None
    pitch_grade: int
    position: str
    crest_grade: int
    crest_position: str
    pitch_tolerance: Decimal


def basis(d: Designation, least_pitch: Mapping[int, Decimal]) -> Basis:
    """Sizes, rows and grades of a metric thread; `least_pitch` (mm) is the finest that each grade has.

    Raises
    ------
    OutsideRange
        For a diameter, pitch or grade that the standard does not have.
    """
    nominal = Decimal(str(d.nominal))
    pitch = decimal(d.pitch)
    low, high = diameter_range(d)
    if not FINEST <= pitch <= COARSEST:
        raise OutsideRange("pitch", float(pitch), float(FINEST), float(COARSEST), "ISO 965-1", "mm")
    pitch_grade, crest_grade = int(d.class_[0]), int(d.class_[-2])
    grade = max(pitch_grade, crest_grade)
    least = least_pitch.get(grade, FINEST)
    if pitch < least:
        raise OutsideRange(
            say("pitch for grade {grade} ({class_})", grade=grade, class_=d.class_),
            float(pitch),
            float(least),
            None,
            "ISO 965-1",
            "mm",
        )
    row = metric.pitch_rows().get((low, d.pitch))
    tolerance = Decimal(row.tolerance) if row else pitch_base(pitch, low, high)
    crest = metric.crest_rows().get(d.pitch)
    return Basis(
        nominal, pitch, row, crest, pitch_grade, d.class_[1], crest_grade, d.class_[-1], tolerance
    )


def deviation_of(position: str, pitch: Decimal, row: metric.CrestRow | None) -> Decimal:
    """Fundamental deviation es, micrometers below the basic size; from the table, else 15, 30, 50 + 11 P."""
    if position == "h":
        return Decimal(0)
    if row is None:
        return preferred_number(DEVIATION_CONSTANT[position] + DEVIATION_SLOPE * pitch)
    if position not in row.deviation:
        least = min(p for p, r in metric.crest_rows().items() if position in r.deviation)
        raise OutsideRange(
            say("pitch for position {position}", position=position),
            float(pitch),
            float(least),
            None,
            "ISO 965-1",
            "mm",
        )
    return Decimal(row.deviation[position])


def crest_allowance(d: Designation) -> float:
    """Distance (mm) of a thread's crests from the basic size, towards looseness; G lies as far as g."""
    pitch = decimal(d.pitch)
    position = d.class_[-1].lower()
    return float(MICROMETER * deviation_of(position, pitch, metric.crest_rows().get(d.pitch)))


def graded(grade_6: Decimal, grade: int) -> Decimal:
    """The tolerance of another grade, from that of grade 6 along the R 40 series (micrometers)."""
    return preferred_number(grade_6, STEPS_A_GRADE * (grade - 6))


def pitch_base(pitch: Decimal, low: Decimal, high: Decimal) -> Decimal:
    """Td2(6) = 90 P^0.4 d^0.1 micrometers, d the geometric mean of the diameter range (ISO 965-1)."""
    return preferred_number(90 * pitch ** Decimal("0.4") * (low * high).sqrt() ** Decimal("0.1"))


def _crest_base(pitch: Decimal) -> Decimal:
    """Td(6) = 180 P^(2/3) - 3.15 / P^(1/2) micrometers (ISO 965-1)."""
    return preferred_number(180 * pitch ** (Decimal(2) / 3) - Decimal("3.15") / pitch.sqrt())


def normal_engagement(d: Designation) -> tuple[float, float]:
    """Group N of lengths of engagement (mm): over, up to and including.

    From the table; where it has no row, 2.24 P d^0.2 to 6.7 P d^0.2, d the lower end of the diameter range.

    Examples
    --------
    M10 x 1.5: over 5 up to 15 mm (Machinery's Handbook, 27th ed., p. 1792).

    >>> from generator.threads.registry import parse_designation
    >>> normal_engagement(parse_designation("M10"))
    (5.0, 15.0)

    Source: ISO 965-1.
    """
    low, _ = diameter_range(d)
    row = metric.pitch_rows().get((low, d.pitch))
    if row is not None and row.engagement is not None:
        return row.engagement
    reach = float(d.pitch) * float(low) ** 0.2
    return round(NORMAL_FROM * reach, 1), round(NORMAL_TO * reach, 1)


def diameter_range(d: Designation) -> tuple[Decimal, Decimal]:
    """The standard's range of diameters, over .. up to and including, that holds this one."""
    nominal, ranges = Decimal(str(d.nominal)), metric.diameter_ranges()
    for low, high in ranges:
        if low < nominal <= high:
            return low, high
    raise OutsideRange(say("nominal diameter"), d.nominal, 1.0, float(ranges[-1][1]), "ISO 965-1", "mm")


def finite(longest: float) -> float | None:
    """The longest engagement (mm) of a group; None for L, which has no end."""
    return longest if longest < math.inf else None


def remarks(
    d: Designation,
    pitch: Decimal,
    row: metric.PitchRow | None,
    engagement: float | None,
    group: tuple[float, float],
) -> list[str]:
    """What is special about the limits of this thread, outside or inside."""
    said: list[str] = []
    if row is None:
        said.append(
            say(
                "{thread} is not a tabulated combination of ISO 965-1: its tolerance comes from the "
                "standard's formula, rounded to the R 40 series.",
                thread=f"M{d.nominal_text}x{float(pitch):g}",
            )
        )
    if d.starts > 1:
        said.append(
            say(
                "The limits are those of a single-start thread; check a multiple-start thread against ISO "
                "965-1."
            )
        )
    over, up_to = group
    if engagement is not None and not over < engagement <= up_to:
        short = engagement <= over
        named = (
            say(
                "group {group}",
                group=d.engagement_group,
            ) if d.engagement_group in ("S", "L") else say("normal")
        )
        parts = {"engagement": engagement, "named": named, "group": in_words(group, "mm")}
        first = (
            say("An engagement of {engagement:g} mm is short ({named} is {group})", **parts) if short
            else say("An engagement of {engagement:g} mm is long ({named} is {group})", **parts)
        )
        better = "." if d.engagement_group in ("S", "L") else f": {_better(d, pitch, -1 if short else 1)}"
        last = say("The limits here are those of {class_}.", class_=d.class_)
        said.append(f"{first}{better} {last}")
    return said


def _better(d: Designation, pitch: Decimal, finer: int) -> str:
    """The class that a short or long engagement asks for, where there is one."""
    grade = int(d.class_[0]) + finer
    least = (LEAST_PITCH_INSIDE if d.internal else LEAST_PITCH_OUTSIDE).get(grade, FINEST)
    if grade not in (INSIDE_GRADES if d.internal else OUTSIDE_GRADES) or pitch < least:
        return (
            say("ISO 965-1 has no grade coarser than that of {class_} here.", class_=d.class_) if finer > 0
            else say("ISO 965-1 has no grade finer than that of {class_} here.", class_=d.class_)
        )
    return say(
        "ISO 965-1 then recommends {better} in place of {class_}.",
        better=f"{grade}{d.class_[1]}{d.class_[-2:]}", class_=d.class_,
    )


def memory(of: Basis, crest_column: str) -> tuple[str, ...]:
    """What of the limits could only be had from memory of ISO 965-1, in words."""
    crest = of.crest.memory if of.crest else ()
    row = of.row.memory if of.row else ()
    return remembered(
        *(
            say("the deviation of position {position}", position=position)
            for position in dict.fromkeys((of.position, of.crest_position))
            if position.lower() in crest
        ),
        say("the tolerance of the crests") if crest_column in crest else "",
        say("the tolerance of the pitch diameter") if "tolerance" in row else "",
        say("the lengths of engagement") if "engagement" in row else "",
    )
