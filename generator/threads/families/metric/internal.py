"""Limits of size of internal ISO metric threads (ISO 965-1, ISO 724, ISO 68-1). Millimeters.

The tables are those of the external threads (`external`): the pitch-diameter tolerance of an internal
thread stands five steps of the R 40 series above that of an external one of the same grade.
"""

from __future__ import annotations

from decimal import Decimal

from generator.language.say import say
from generator.threads.designation import Designation
from generator.threads.engagement import of_group
from generator.threads.families.metric.external import (
    MICROMETER,
    MINOR_FACTOR,
    PITCH_FACTOR,
    SOURCE,
    STEPS_A_GRADE,
    basis,
    deviation_of,
    finite,
    graded,
    memory,
    normal_engagement,
    remarks,
)
from generator.threads.families.metric.grades import LEAST_PITCH_INSIDE
from generator.threads.rounding import THREE, preferred_number, rounded
from generator.threads.sizes import Range, ThreadLimits, too_coarse

INTERNAL_STEPS = 5  # of the R 40 series, from Td2 to TD2: a factor of 1.32 (ISO 965-1)
FINE = Decimal("0.8")  # mm: the formula of the minor tolerance changes above


def internal_metric_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of an ISO metric internal thread.

    D min = d + EI;  D2 min = D2 + EI;  D2 max = D2 min + TD2;  D1 min = D1 + EI;  D1 max = D1 min + TD1

    Parameters
    ----------
    d : a metric thread of positions G or H
    engagement : mm; it changes no limit, but a remark says which class its group asks for

    Returns
    -------
    ThreadLimits (mm), three places. The major diameter has no max.

    Raises
    ------
    OutsideRange
        For a diameter outside 1 to 355 mm, a pitch outside 0.2 to 8 mm, a grade that the standard does not
        have at that pitch, or a pitch so coarse that no bore is left.

    Notes
    -----
    Range: 0.99 < d <= 355 mm, 0.2 <= P <= 8 mm.

    Source: ISO 965-1, ISO 68-1, ISO 724.
    """
    engagement = None if engagement is None else round(engagement, 6)
    of = basis(d, LEAST_PITCH_INSIDE)
    nominal, pitch, row, crest = of.nominal, of.pitch, of.row, of.crest
    shift, crest_shift = (
        MICROMETER * deviation_of(position.lower(), pitch, crest)
        for position in (of.position, of.crest_position)
    )
    steps = STEPS_A_GRADE * (of.pitch_grade - 6) + INTERNAL_STEPS
    pitch_tolerance = MICROMETER * preferred_number(of.pitch_tolerance, steps)
    of_table = Decimal(crest.minor_tolerance) if crest else minor_base(pitch)
    crest_tolerance = MICROMETER * graded(of_table, of.crest_grade)
    pitch_min = rounded(nominal - PITCH_FACTOR * pitch, THREE) + shift
    minor_min = rounded(nominal - MINOR_FACTOR * pitch, THREE) + crest_shift
    if minor_min <= 0:
        raise too_coarse(d, minor_min, say("bore"))
    over, up_to = of_group(d.engagement_group, normal_engagement(d))
    return ThreadLimits(
        designation=d,
        major=Range(None, float(nominal + shift)),
        pitch_diameter=Range(float(pitch_min + pitch_tolerance), float(pitch_min)),
        minor=Range(float(minor_min + crest_tolerance), float(minor_min)),
        allowance=float(shift),
        major_tolerance=None,
        pitch_tolerance=float(pitch_tolerance),
        engagement=engagement if engagement is not None else finite(up_to),
        engagement_standard=engagement is None or over < engagement <= up_to,
        tabulated=row is not None and crest is not None,
        remarks=tuple(remarks(d, pitch, row, engagement, (over, up_to))),
        source=SOURCE,
        from_memory=memory(of, "minor_tolerance"),
        minor_tolerance=float(crest_tolerance),
    )


def minor_base(pitch: Decimal) -> Decimal:
    """Minor-diameter tolerance of grade 6, micrometers, by the standard's formula, rounded to R 40.

    TD1(6) = 433 P - 190 P^1.22  (P up to 0.8);  230 P^0.7  (P from 1)

    Parameters
    ----------
    pitch : P (mm)

    Returns
    -------
    TD1(6) (micrometers)

    Notes
    -----
    The tables of the standard go before; this stands in for pitches that they lack.

    Examples
    --------
    >>> int(minor_base(Decimal("1.5")))    # M10 x 1.5 - 6H: 8.376 to 8.676 mm
    300

    Source: ISO 965-1.
    """
    if pitch <= FINE:
        return preferred_number(433 * pitch - 190 * pitch ** Decimal("1.22"))
    return preferred_number(230 * pitch ** Decimal("0.7"))
