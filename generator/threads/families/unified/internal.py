"""Limits of size of internal Unified threads, classes 1B, 2B and 3B (ASME B1.1). Inches.

Built on the tolerance of class 2A (`external`). Diameters and tolerances stand at four places each
before they are added; the minor diameter is then shown at the places the standard prints.
"""

from __future__ import annotations

from decimal import Decimal

import generator.threads.families.unified.series as unified
from generator.language.say import say
from generator.threads.designation import Designation
from generator.threads.families.unified.external import (
    MINOR_FACTOR,
    PITCH_FACTOR,
    SOURCE,
    engagement_used,
    memory,
    remarks,
    sizes,
    tolerance_2a,
)
from generator.threads.rounding import FOUR, THREE, rounded
from generator.threads.sizes import Range, ThreadLimits, too_coarse

CLASS_FACTOR = {"1B": Decimal("1.95"), "2B": Decimal("1.3"), "3B": Decimal("0.975")}
SMALL = Decimal("0.25")  # inch: below, classes 1B and 2B take the minor tolerance of small sizes
FOUR_PLACES_BELOW = Decimal("0.138")  # inch (#6): smaller sizes print the minor diameter at four places
COARSE = Decimal("3.999")  # 4 threads per inch and finer: 0.25 P - 0.40 P^2
FINE = Decimal("12.999")   # 13 and finer: class 3B not below 0.23 P - 1.5 P^2, coarser 0.120 P
TWO_THIRDS = Decimal(2) / Decimal(3)


def minor_tolerance(class_: str, diameter: Decimal, pitch: Decimal) -> Decimal:
    """Minor-diameter tolerance of an internal thread, four places.

    1B, 2B, D >= 0.250 in:  0.25 P - 0.40 P^2  (n >= 4);  0.15 P  (n < 4)
    1B, 2B, D < 0.250 in:   0.05 P^(2/3) + 0.03 P/D - 0.002, at most 0.394 P, at least 0.25 P - 0.40 P^2
    3B:                     0.05 P^(2/3) + 0.03 P/D - 0.002, at most 0.394 P, at least 0.23 P - 1.5 P^2
                            (n >= 13) or 0.120 P (n <= 12)

    Parameters
    ----------
    class_ : 1B, 2B or 3B
    diameter, pitch : D, P (in)

    Returns
    -------
    TD1 (in)

    Notes
    -----
    Range: the pitches of the standard; that of n < 4 is from memory of it.

    Examples
    --------
    0.2969-36 UNS-2B: 0.273 - 0.267 in at three places, TD1 0.0066 in (Machinery's Handbook, 31st ed.,
    Unified threads, table 6, worked example).

    >>> float(minor_tolerance("2B", Decimal("0.2969"), Decimal("0.02777778")))
    0.0066

    Source: ASME B1.1, internal thread minor diameter tolerances.
    """
    general = Decimal("0.25") * pitch - Decimal("0.40") * pitch**2
    small = Decimal("0.05") * pitch**TWO_THIRDS + Decimal("0.03") * pitch / diameter - Decimal("0.002")
    most = Decimal("0.394") * pitch
    if class_ == "3B":
        fine = 1 / pitch >= FINE
        least = Decimal("0.23") * pitch - Decimal("1.5") * pitch**2 if fine else Decimal("0.120") * pitch
        return rounded(max(min(small, most), least), FOUR)
    if diameter < SMALL:
        return rounded(max(min(small, most), general), FOUR)
    return rounded(general if 1 / pitch >= COARSE else Decimal("0.15") * pitch, FOUR)


def internal_unified_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a Unified internal thread.

    D min = D;  D2 min = D - 0.64951905 P;  D2 max = D2 min + TD2, TD2 = 1.95, 1.3, 0.975 x Td2(2A);
    D1 min = D - 1.08253175 P;  D1 max = D1 min + TD1

    Parameters
    ----------
    d : a Unified thread of class 1B, 2B or 3B
    engagement : LE (in), or None for the standard's

    Returns
    -------
    ThreadLimits (in): four places; the minor diameter of 1B and 2B three, of 3B three for its min and four
    for its max, of sizes under #6 four throughout. The major diameter has no max.

    Raises
    ------
    OutsideRange
        For a diameter under 0.060 in (size #0), or a pitch so coarse that no bore is left.

    Notes
    -----
    Range: as `external.unified_limits`.

    Source: ASME B1.1; rounding ASME B1.30.
    """
    tpi = 1 / d.pitch
    diameter, size, pitch = sizes(d)
    used, is_standard = engagement_used(engagement, diameter, tpi)
    pitch_tolerance = rounded(CLASS_FACTOR[d.class_] * tolerance_2a(size, used, pitch), FOUR)
    crest_tolerance = minor_tolerance(d.class_, size, pitch)
    pitch_min = rounded(size - PITCH_FACTOR * pitch, FOUR)
    minor_min = rounded(size - MINOR_FACTOR * pitch, FOUR)
    minor_max = minor_min + crest_tolerance
    if minor_min <= 0:
        raise too_coarse(d, minor_min, say("bore"))
    if size >= FOUR_PLACES_BELOW:
        minor_min = rounded(minor_min, THREE)
        minor_max = minor_max if d.class_ == "3B" else rounded(minor_max, THREE)
    return ThreadLimits(
        designation=d,
        major=Range(None, float(size)),
        pitch_diameter=Range(float(pitch_min + pitch_tolerance), float(pitch_min)),
        minor=Range(float(minor_max), float(minor_min)),
        allowance=0.0,
        major_tolerance=None,
        pitch_tolerance=float(pitch_tolerance),
        engagement=float(used),
        engagement_standard=is_standard,
        tabulated=unified.series_of(diameter, tpi) is not None,
        remarks=tuple(remarks(d, diameter, tpi, is_standard)),
        source=SOURCE,
        from_memory=memory(diameter, tpi, is_standard, minor=True),
        minor_tolerance=float(crest_tolerance),
    )
