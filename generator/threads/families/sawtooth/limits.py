"""Limits of size of metric saw-tooth threads, outside and inside (DIN 513). Millimeters."""

from __future__ import annotations

import math
from decimal import Decimal
from functools import cache
from itertools import pairwise

from generator.errors import OutsideRange
from generator.language.say import say
from generator.tables.rows import table
from generator.threads.designation import Designation
from generator.threads.families.sawtooth.working import size_lines
from generator.threads.rounding import THREE, preferred_number, rounded
from generator.threads.sizes import Range, ThreadLimits, too_coarse

SOURCE = "DIN 513"
PITCH_FACTOR = Decimal("0.75")         # nominal less pitch diameter, over P
BORE_FACTOR = Decimal("1.5")           # nominal less internal minor diameter, over P
CORE_FACTOR = Decimal("1.735534")      # nominal less external minor diameter, over P
PLAY = Decimal("0.1")                  # axial play over the root of P, mm
PLAY_TO_DIAMETER = Decimal("3.1758")   # pitch diameter for a unit of axial play: 2 / (tan 3 + tan 30)
CORE_SHARE = Decimal("1.25")           # of the pitch diameter tolerance: that of the external minor diameter
MICROMETER = Decimal("0.001")
_RANGES = (5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0, 710.0)
_INTERNAL_STEP = 5                     # R 40 steps from an external tolerance to the internal one
_EXCEPTIONS = {(11.2, "8"): Decimal(280), (45.0, "18"): Decimal(450)}
_MORE_STARTS = {1: "1", 2: "1.12", 3: "1.25", 4: "1.4"}


@cache
def _rows() -> dict[str, dict[str, str]]:
    return {row["pitch"]: row for row in table("sawtooth_tolerances", __package__)}


def pitch_tolerance(d: Designation) -> Decimal:
    """Tolerance of the pitch diameter by grade, diameter range and pitch, to the R 40 numbers.

    grade 6: R 40 number next to 90 P^0.4 D^0.1 (micrometers; D the geometric mean of the diameter range);
    four steps a grade, five more for the nut

    Parameters
    ----------
    d : a saw-tooth thread

    Returns
    -------
    Td2 or TD2 (mm)

    Raises
    ------
    OutsideRange
        Below 5.6 mm and over 710 mm of diameter.

    Notes
    -----
    Range: the diameters named; from memory of the standard.

    Source: DIN 513-3, with the series of ISO 2903.
    """
    low = next((a for a, b in pairwise(_RANGES) if a < d.nominal <= b), None)
    if low is None:
        raise OutsideRange(say("nominal diameter"), d.nominal, _RANGES[0], _RANGES[-1], SOURCE, "mm")
    high = next(end for end in _RANGES if end > low)
    base = 90 * float(d.pitch) ** 0.4 * math.sqrt(low * high) ** 0.1
    grade_six = _EXCEPTIONS.get((low, f"{float(d.pitch):g}"), preferred_number(Decimal(str(base))))
    steps = 4 * (int(d.class_[0]) - 6) + (_INTERNAL_STEP if d.internal else 0)
    more = Decimal(_MORE_STARTS.get(d.starts, "1.6"))
    return rounded(preferred_number(grade_six, steps) * more, Decimal(1)) * MICROMETER


def sawtooth_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a metric saw-tooth thread.

    outside: d, d2 = d - 0.75 P - es, d3 = d - 1.735534 P
    inside: D1 = d - 1.5 P, D2 = d - 0.75 P + EI, D = d
    EI(AZ) = 3.1758 x 0.1 P^(1/2): the nut has the play;  EI(H) = 0, es(h) = 0

    Parameters
    ----------
    d : a saw-tooth thread
    engagement : not used; the standard's tolerances are for normal lengths of engagement

    Returns
    -------
    ThreadLimits (mm), three places.

    Raises
    ------
    OutsideRange
        For a pitch or diameter that the tolerances do not go to, or a pitch so coarse that no core is left.

    Notes
    -----
    Range: pitches 1.5 to 44 mm of the series; diameters over 5.6 to 710 mm.

    Source: DIN 513-1 (profile), DIN 513-3 (tolerances, from memory).
    """
    row = _rows().get(f"{float(d.pitch):g}")
    size, pitch = Decimal(str(d.nominal)), Decimal(str(float(d.pitch)))
    if size - CORE_FACTOR * pitch <= 0:
        raise too_coarse(d, size - CORE_FACTOR * pitch)
    tolerance = pitch_tolerance(d)
    shift = _shift(d, pitch, row)
    effective = rounded(size - PITCH_FACTOR * pitch, THREE)
    crest = None if row is None else Decimal(row["td1" if d.internal else "td"]) * MICROMETER
    if d.internal:
        least = effective + shift
        bore = rounded(size - BORE_FACTOR * pitch, THREE)
        major = Range(None, float(size))
        pitch_diameter = Range(float(least + tolerance), float(least))
        minor = Range(None if crest is None else float(bore + crest), float(bore))
    else:
        largest = effective - shift
        core = rounded(size - CORE_FACTOR * pitch, THREE)
        core_tolerance = rounded(CORE_SHARE * tolerance + shift, THREE)
        major = Range(float(size), None if crest is None else float(size - crest))
        pitch_diameter = Range(float(largest), float(largest - tolerance))
        minor = Range(float(core), float(core - core_tolerance))
    sizes = ThreadLimits(
        designation=d,
        major=major,
        pitch_diameter=pitch_diameter,
        minor=minor,
        allowance=float(shift),
        major_tolerance=None if d.internal or crest is None else float(crest),
        pitch_tolerance=float(tolerance),
        minor_tolerance=float(crest) if d.internal and crest is not None else None,
        engagement=None,
        engagement_standard=True,
        tabulated=_tabulated(d),
        remarks=tuple(_remarks(d, row is None)),
        source=SOURCE,
        from_memory=(say("tolerances and deviations"),),
        places=3,
    )
    return size_lines(sizes)


def _shift(d: Designation, pitch: Decimal, row: dict[str, str] | None) -> Decimal:
    """Distance of the pitch diameter from the basic one, towards looseness (mm)."""
    position = d.class_[1:]
    if position == "AZ":
        return rounded(PLAY_TO_DIAMETER * PLAY * pitch.sqrt(), THREE)
    if position in ("h", "H"):
        return Decimal(0)
    if row is None:
        raise OutsideRange(
            say("pitch"),
            float(pitch),
            1.5,
            44.0,
            say(
                "{source}: position {position} stands for the series' pitches",
                source=SOURCE, position=position,
            ),
            "mm",
        )
    return Decimal(row[f"es_{position}"]) * MICROMETER


def _tabulated(d: Designation) -> bool:
    return any(
        float(row["diameter"]) == d.nominal and f"{float(d.pitch):g}" in row["pitches"].split()
        for row in table("sawtooth_series", __package__)
    )


def _remarks(d: Designation, odd_pitch: bool) -> list[str]:
    said = [
        say(
            "The 3 degree flank carries the load, the 30 degree flank clears. Hold the tool against a "
            "sketch of the part before the first cut: the wrong way around it makes scrap."
        )
    ]
    if odd_pitch:
        said.append(
            say(
                "No crest tolerance stands for this pitch: turn the blank to the nominal diameter, bore to "
                "the minor diameter, and fit to the mate."
            )
        )
    if d.starts > 1:
        said.append(
            say(
                "For several starts the pitch diameter tolerance is widened as for trapezoidal threads; "
                "check it."
            )
        )
    return said
