"""Limits of size of external Unified threads, classes 1A, 2A and 3A, UN and UNR (ASME B1.1). Inches.

Every tolerance and diameter is brought to four places before the next is computed with it, half to even:
that order repeats the printed tables.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import generator.threads.families.unified.series as unified
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.rounding import EIGHT, FOUR, SIX, decimal, rounded
from generator.threads.sizes import Range, ThreadLimits, remembered, too_coarse

SOURCE = later("ASME B1.1, formulas of the limits of size")
PITCH_FACTOR = Decimal("0.64951905")  # 3/4 of H, over P
MINOR_FACTOR = Decimal("1.08253175")  # UN reference minor diameter
ROUNDED_MINOR_FACTOR = Decimal("1.19078493")  # UNR reference minor diameter, 11H/8
CLASS_FACTOR = {"1A": Decimal("1.5"), "2A": Decimal(1), "3A": Decimal("0.75")}
MAJOR_FACTOR = {"1A": Decimal("0.090"), "2A": Decimal("0.060"), "3A": Decimal("0.060")}
ALLOWANCE_FACTOR = Decimal("0.300")
SMALLEST, LARGEST = Decimal("0.060"), Decimal("6")  # ASME B1.1 tables: #0 to 6 in
COARSEST, FINEST = Fraction(4), Fraction(80)  # threads per inch in the tables
PITCHES_OF_ENGAGEMENT, FEWEST_PITCHES, MOST_PITCHES = 9, 5, 15
MOST_DIAMETERS = Decimal("1.5")
ONE_UNIT_SIZES = ("0.9375", "2.375", "2.4375", "5.75")  # Machinery's Handbook, 27th ed., pp. 1755, 1762
THIRD = Decimal(1) / Decimal(3)


def tolerance_2a(diameter: Decimal, engagement: Decimal, pitch: Decimal) -> Decimal:
    """Pitch-diameter tolerance of class 2A, the base of all classes.

    Td2(2A) = 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3), six places

    Parameters
    ----------
    diameter, engagement, pitch : D, LE, P (in)

    Returns
    -------
    Td2(2A) (in)

    Notes
    -----
    No range given in the source.

    Examples
    --------
    1/2-28 UNEF-2A: 0.4757 - 0.4720 = 0.0037 in at four places (Machinery's Handbook, 31st ed., Unified
    threads, table 3, worked example).

    >>> float(tolerance_2a(Decimal("0.5"), Decimal(9) / 28, Decimal(1) / 28))
    0.0037

    Source: ASME B1.1, pitch-diameter tolerance.
    """
    base = Decimal("0.0015") * diameter**THIRD + Decimal("0.0015") * engagement.sqrt()
    return rounded(base + Decimal("0.015") * pitch ** (2 * THIRD), SIX)


def sizes(d: Designation) -> tuple[Decimal, Decimal, Decimal]:
    """Diameter as written, the same at four places, and pitch at eight, of a thread outside or inside (in).

    Raises
    ------
    OutsideRange
        For a diameter under 0.060 in (size #0).
    """
    diameter = Decimal(str(d.nominal))
    if diameter < SMALLEST:
        raise OutsideRange(
            say("nominal diameter"), d.nominal, float(SMALLEST), None, say("ASME B1.1, size #0"), "in"
        )
    return diameter, rounded(diameter, FOUR), rounded(decimal(d.pitch), EIGHT)


def standard_engagement(diameter: Decimal, tpi: Fraction) -> Decimal:
    """Length of engagement (in) that the standard's tolerance is for: one diameter, or nine pitches."""
    if unified.engagement_is_diameter(diameter, tpi):
        return diameter
    return PITCHES_OF_ENGAGEMENT / decimal(tpi)


def unified_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a Unified external thread.

    es = 0.300 Td2(2A) (1A, 2A), 0 (3A);  Td = 0.060 P^(2/3) (1A: 0.090);  Td2 = 1.5, 1, 0.75 x Td2(2A);
    d max = D - es;  d2 max = d max - 0.64951905 P;  d1 max = d max - 1.08253175 P (UNR 1.19078493 P)

    Parameters
    ----------
    d : a Unified thread
    engagement : LE (in), or None for the standard's

    Returns
    -------
    ThreadLimits (in), four places.

    Raises
    ------
    OutsideRange
        For a diameter under 0.060 in (size #0), or a pitch so coarse that no core is left.

    Notes
    -----
    Range: diameters from #0 upwards; above 6 in and outside 4 to 80 threads per inch the formulas stand
    without a table, and a remark says so. The tolerance for one diameter of engagement serves up to 1.5
    diameters, that for nine pitches from 5 to 15 pitches; outside, the engagement itself goes into the
    formula (from memory of the standard).

    Source: ASME B1.1; rounding ASME B1.30.
    """
    tpi = 1 / d.pitch
    diameter, size, pitch = sizes(d)
    used, is_standard = engagement_used(engagement, diameter, tpi)
    base = tolerance_2a(size, used, pitch)
    pitch_tolerance = rounded(CLASS_FACTOR[d.class_] * base, FOUR)
    major_tolerance = rounded(MAJOR_FACTOR[d.class_] * pitch ** (2 * THIRD), FOUR)
    allowance = _allowance(d.class_, base, unified.printed_allowance(diameter, tpi) if is_standard else None)
    major = size - allowance
    pitch_max = rounded(major - PITCH_FACTOR * pitch, FOUR)
    minor = rounded(major - (ROUNDED_MINOR_FACTOR if d.rounded_root else MINOR_FACTOR) * pitch, FOUR)
    if min(minor, pitch_max - pitch_tolerance) <= 0:
        raise too_coarse(d, minor)
    return ThreadLimits(
        designation=d,
        major=Range(float(major), float(major - major_tolerance)),
        pitch_diameter=Range(float(pitch_max), float(pitch_max - pitch_tolerance)),
        minor=Range(float(minor), None),
        allowance=float(allowance),
        major_tolerance=float(major_tolerance),
        pitch_tolerance=float(pitch_tolerance),
        engagement=float(used),
        engagement_standard=is_standard,
        tabulated=unified.series_of(diameter, tpi) is not None,
        remarks=tuple(remarks(d, diameter, tpi, is_standard)),
        source=SOURCE,
        from_memory=memory(diameter, tpi, is_standard),
    )


def _allowance(class_: str, base: Decimal, printed: Decimal | None) -> Decimal:
    if class_ == "3A":
        return Decimal(0)
    return rounded(ALLOWANCE_FACTOR * base, FOUR) if printed is None else printed


def engagement_used(engagement: float | None, diameter: Decimal, tpi: Fraction) -> tuple[Decimal, bool]:
    """The length of engagement (in) that goes into the tolerance, and whether it is the standard's.

    >>> engagement_used(15 / 12, Decimal("2.5"), Fraction(12))
    (Decimal('0.75'), True)
    """
    if engagement is not None:
        wanted = rounded(Decimal(str(engagement)), SIX)
        if not _serves(wanted, diameter, tpi):
            return wanted, False
    return standard_engagement(diameter, tpi), True


def _serves(wanted: Decimal, diameter: Decimal, tpi: Fraction) -> bool:
    """Whether the standard's tolerance holds for this length of engagement too."""
    if unified.engagement_is_diameter(diameter, tpi):
        return wanted <= MOST_DIAMETERS * diameter
    pitches = rounded(wanted * decimal(tpi), FOUR)
    return FEWEST_PITCHES <= pitches <= MOST_PITCHES


def remarks(d: Designation, diameter: Decimal, tpi: Fraction, standard_length: bool) -> list[str]:
    """What is special or not verified about the limits of this thread, outside or inside."""
    said: list[str] = []
    if str(diameter.normalize()) in ONE_UNIT_SIZES:
        said.append(
            say(
                "Some printed tables give this size limits that differ by 0.0001 in; those here are the "
                "formula's."
            )
        )
    series = unified.series_of(diameter, tpi)
    plain = d.series.replace("R", "", 1)
    if plain == "UN" and series is None:
        said.append(
            say(
                "{thread} is in no constant-pitch series: it is a special thread (UNS), and its tolerance "
                "is for nine pitches of engagement.",
                thread=f"{d.nominal_text}-{float(tpi):g}",
            )
        )
    elif plain == "UN" and series in unified.NAMED_SERIES:
        said.append(
            say(
                "{thread} is of the {series} series; its limits are those of {series}.",
                thread=f"{d.nominal_text}-{float(tpi):g}", series=series,
            )
        )
    if diameter > LARGEST or not COARSEST <= tpi <= FINEST:
        said.append(
            say(
                "Beyond the tables of ASME B1.1 (to 6 in, 4 to 80 threads per inch) the limits come from "
                "its formulas alone; check them against the standard."
            )
        )
    if d.starts > 1:
        said.append(
            say(
                "The limits are those of a single-start thread; check a multiple-start thread against ASME "
                "B1.1."
            )
        )
    if not standard_length:
        said.append(
            say(
                "The length of engagement lies outside the range of the standard's tolerance, so it went "
                "into the formula itself."
            )
            if d.internal
            else say(
                "The length of engagement lies outside the range of the standard's tolerance, so it went "
                "into the formula itself, for the allowance too."
            )
        )
    return said


def memory(diameter: Decimal, tpi: Fraction, standard_length: bool, minor: bool = False) -> tuple[str, ...]:
    """What of the limits could only be had from memory of the standard, in words; `minor`: inside."""
    series = unified.series_of(diameter, tpi)
    return remembered(
        say("that the tolerances of the 4-UN series are for one diameter of engagement")
        if series == "UN" and tpi == COARSEST
        else "",
        say("that the {series} series has this size", series=series)
        if (diameter, tpi) in unified.remembered_sizes()
        else "",
        say("that a length of engagement outside the usual range goes into the formula")
        if not standard_length
        else "",
        say("the minor diameter tolerance under 4 threads per inch") if minor and tpi < COARSEST else "",
    )
