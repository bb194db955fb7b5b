"""Limits of size of threads of Whitworth form (BS 84). Inches.

The tolerance formulas are from memory of the standard; that the classes stand as 2/3, 1 and 3/2, and that
the allowance of medium and free bolts ends at 3/4 in, was read in a tap maker's catalog.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.whitworth.series import STANDARD, named, of_series
from generator.threads.from_basic import Laid, Tolerances, limits_from_basic
from generator.threads.rounding import EIGHT, FOUR, decimal, rounded
from generator.threads.sizes import ThreadLimits, in_inches, remembered

SOURCE = later("BS 84, formulas of the tolerances")
DEPTH = Decimal("0.640327")  # over P: Machinery's Handbook, 31st ed., p. 2087
ALLOWANCE = Decimal("0.3")   # of the medium tolerance: medium and free bolts
LARGEST_ALLOWED = Decimal("0.75")   # inch: larger bolts have no allowance
SMALLEST_ALLOWED = Decimal("0.25")  # inch: smaller ones have that of this size
SMALLEST = Decimal("0.03")
MOST_DIAMETERS = Decimal("1.5")
THIRD = Decimal(1) / Decimal(3)


@dataclass(frozen=True)
class _Class:
    """Share of T at the three diameters, and what is added for the crest and the root of a bolt, over √P."""

    share: Decimal
    share_text: str
    root: Decimal = Decimal(0)


CREST = Decimal("0.01")
BOLTS = {
    "close": _Class(Decimal(2) / 3, "2/3 × {T}", Decimal("0.013")),
    "medium": _Class(Decimal(1), "{T}", Decimal("0.02")),
    "free": _Class(Decimal("1.5"), "3/2 × {T}", Decimal("0.02")),
}
NUTS = {
    "close": _Class(Decimal(2) / 3, "2/3 × {T}"),
    "medium": _Class(Decimal(1), "{T}"),
    "normal": _Class(Decimal("1.5"), "3/2 × {T}"),
}


def medium_tolerance(diameter: Decimal, engagement: Decimal, pitch: Decimal) -> Decimal:
    """Effective diameter tolerance of the medium class, the base of all classes.

    T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 P^(1/2), unrounded

    Parameters
    ----------
    diameter, engagement, pitch : D, L, P (in)

    Returns
    -------
    T (in)

    Notes
    -----
    No range given in the source.

    Examples
    --------
    1/4 BSW, one diameter of engagement: 0.0039 in at four places (BS 84, from memory).

    >>> f"{medium_tolerance(Decimal('0.25'), Decimal('0.25'), Decimal('0.05')):.4f}"
    '0.0039'

    Source: BS 84:1956, from memory of the standard.
    """
    return (
        Decimal("0.002") * diameter**THIRD + Decimal("0.003") * engagement.sqrt()
        + Decimal("0.005") * pitch.sqrt()
    )


def whitworth_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a thread of Whitworth form.

    effective D - 0.640327 P, minor D - 1.280654 P;  bolts: effective 2/3 T, T, 3/2 T (close, medium, free),
    major + 0.01 √P, minor + 0.013 √P (close) or 0.02 √P;  nuts: effective T, 3/2 T (medium, normal), minor
    0.2 P + 0.004 in (26 threads and finer), 0.005 (24, 22), 0.007 (20 and coarser)

    Parameters
    ----------
    d : a thread of Whitworth form
    engagement : L (in), or None for one diameter

    Returns
    -------
    ThreadLimits (in), four places.

    Raises
    ------
    OutsideRange
        For a diameter under 0.03 in, or a pitch so coarse that no core is left.

    Notes
    -----
    Range: BS 84 tabulates BSW from 1/8 to 6 in and BSF from 3/16 to 4 1/4 in; elsewhere the formulas stand
    alone, and a remark says so. The tolerance for one diameter of engagement serves up to 1.5 diameters
    (common practice, no source).

    Source: BS 84:1956; rounding to four places half to even.
    """
    exact = Decimal(str(d.nominal))
    if exact < SMALLEST:
        raise OutsideRange(
            say("nominal diameter"), d.nominal, float(SMALLEST), None, say("threads of Whitworth form"), "in"
        )
    size = rounded(exact, FOUR)
    pitch = rounded(decimal(d.pitch), EIGHT)
    used, standard = _engagement(engagement, exact)
    base = medium_tolerance(exact, used, pitch)
    p = float(pitch)
    return limits_from_basic(
        d, major=size,
        pitch_diameter=Laid(rounded(exact - DEPTH * pitch, FOUR), "{D} − 0.640327 × {P}", (d.nominal, p)),
        minor=Laid(rounded(exact - 2 * DEPTH * pitch, FOUR), "{D} − 1.280654 × {P}", (d.nominal, p)),
        allowance=_allowance(d, exact, base),
        tolerances=_nut(d, base, pitch, exact, used) if d.internal else _bolt(d, base, pitch, exact, used),
        source=SOURCE, places=4, remarks=tuple(_remarks(d, standard)), engagement=used,
        engagement_standard=standard, tabulated=named(d.nominal, d.pitch) is not None,
        memory=_memory(d, exact),
    )


def _engagement(engagement: float | None, diameter: Decimal) -> tuple[Decimal, bool]:
    if engagement is not None and Decimal(str(engagement)) > MOST_DIAMETERS * diameter:
        return Decimal(str(round(engagement, 6))), False
    return diameter, True


def _allowance(d: Designation, diameter: Decimal, base: Decimal) -> Laid:
    if d.internal:
        return Laid(Decimal(0), say("none for nuts"))
    if d.class_ == "close":
        return Laid(Decimal(0), say("none for close bolts"))
    if diameter > LARGEST_ALLOWED:
        return Laid(Decimal(0), say("none for bolts over 3/4 in"))
    if diameter < SMALLEST_ALLOWED:
        series = d.series if d.series in STANDARD else "BSW"
        quarter = of_series(series, Fraction(1, 4))[0]
        base = medium_tolerance(SMALLEST_ALLOWED, SMALLEST_ALLOWED, 1 / Decimal(int(quarter.tpi)))
        return Laid(rounded(ALLOWANCE * base, FOUR), say(
            "0.3 × {{T}}, T of 1/4 in {series}",
            series=series,
        ), (float(base),))
    return Laid(rounded(ALLOWANCE * base, FOUR), "0.3 × {T}", (float(base),))


_FORMULA = later("(0.002 ∛{D} + 0.003 √{L} + 0.005 √{P}), all in inches")


def _bolt(d: Designation, base: Decimal, pitch: Decimal, diameter: Decimal, used: Decimal) -> Tolerances:
    of = BOLTS[d.class_]
    t, p = float(base), float(pitch)
    effective = rounded(of.share * base, FOUR)
    return Tolerances(
        major=Laid(
            rounded(of.share * base + CREST * pitch.sqrt(), FOUR),
            in_inches(f"{of.share_text} + {CREST} √{{P}}"), (t, p),
        ),
        pitch=Laid(
            effective, of.share_text.replace("{T}", str(_FORMULA)), (float(diameter), float(used), p)
        ),
        minor=Laid(
            rounded(of.share * base + of.root * pitch.sqrt(), FOUR),
            in_inches(f"{of.share_text} + {of.root} √{{P}}"), (t, p),
        ),
    )


def _nut(d: Designation, base: Decimal, pitch: Decimal, diameter: Decimal, used: Decimal) -> Tolerances:
    of = NUTS[d.class_]
    added = bore_addition(1 / pitch)
    return Tolerances(
        pitch=Laid(
            rounded(of.share * base, FOUR), of.share_text.replace("{T}", str(_FORMULA)),
            (float(diameter), float(used), float(pitch)),
        ),
        minor=Laid(
            rounded(Decimal("0.2") * pitch + added, FOUR), in_inches(f"0.2 × {{P}} + {added}"),
            (float(pitch),),
        ),
    )


def bore_addition(tpi: Decimal) -> Decimal:
    """What is added to 0.2 P for the tolerance of a nut's minor diameter (in).

    >>> bore_addition(Decimal(26)), bore_addition(Decimal(22)), bore_addition(Decimal(20))
    (Decimal('0.004'), Decimal('0.005'), Decimal('0.007'))
    """
    if tpi > Decimal("25.5"):
        return Decimal("0.004")
    return Decimal("0.005") if tpi > Decimal("21.5") else Decimal("0.007")


def _memory(d: Designation, diameter: Decimal) -> tuple[str, ...]:
    loose = not d.internal and d.class_ != "close"
    own = [size for size in of_series(d.series, Fraction(str(d.nominal))) if size.tpi == 1 / d.pitch]
    return remembered(
        say("the formulas of the tolerances"),
        say("the formula of the allowance") if loose and diameter <= LARGEST_ALLOWED else "",
        say("that the {series} series has this size", series=d.series)
        if any(size.memory for size in own)
        else "",
    )


def _remarks(d: Designation, standard: bool) -> list[str]:
    said = [say("The limits come from the formulas of BS 84, not compared with its printed tables.")]
    if d.series not in STANDARD and named(d.nominal, d.pitch) is None:
        said.append(
            say(
                "This is a special thread of Whitworth form: the tolerance is for one diameter of "
                "engagement. Fit it to its mate."
            )
        )
    if d.internal and d.class_ == "close":
        said.append(say("Close nuts are for special uses; medium and normal nuts are the usual ones."))
    if d.starts > 1:
        said.append(say("The limits are those of a single-start thread."))
    if not standard:
        said.append(
            say(
                "The length of engagement is over one and a half diameters, so it went into the formula "
                "itself."
            )
        )
    return said
