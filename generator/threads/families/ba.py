"""British Association threads, 0 BA to 25 BA (BS 93): 47.5 degrees, crest and root round. Millimeters.

    2 BA, 2BA, BA 2, No. 2 B.A.     the number says diameter and pitch
    4 BA (close), 4 BA nut          close and normal bolts, one class of nuts
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.calc.flanks import Flanks
from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.designation import Designation
from generator.threads.family import Family, StandardSize
from generator.threads.from_basic import Laid, Tolerances, limits_from_basic
from generator.threads.gauging import Gauging, whitworth_gauges
from generator.threads.profile import Profile
from generator.threads.rounding import THREE, rounded
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, take_hand, take_starts

ACCEPTED = later("write the number and BA, like 2 BA or 4 BA (close); numbers go from 0 to 25")
SOURCE = later("BS 93 (Machinery's Handbook, 31st ed., p. 2115)")
HALF_ANGLE = math.radians(23.75)
RADIUS = 0.1808346       # over P, crest and root
WIDTH_AT_ROOT = 0.236    # over P: 2 x 0.2681688 tan 23.75, where a flat nose touches the basic root
ALLOWANCE = Decimal("0.025")  # mm: normal bolts, 0 to 10 BA
LAST_WITH_ALLOWANCE, LAST_WITH_LIMITS = 10, 16
_BA = re.compile(
    r"(?:#\s*)?(?P<before>\d{1,2})\s*-?\s*B\.?\s?A\b\.?"
    r"|(?<![A-Z])B\.?\s?A\.?\s*-?\s*#?\s*(?P<after>\d{1,2})",
    re.ASCII,
)
_CLASS = re.compile(r"\(?\s*\b(?:CLASS|FIT)?\s*(CLOSE|NORMAL)\b\s*(?:CLASS|FIT)?\b\s*\)?", re.ASCII)


@cache
def _rows() -> dict[int, dict[str, str]]:
    return {int(row["number"]): row for row in table("ba", __package__)}


class BritishAssociation(Family):
    """British Association threads."""

    key = "BA"
    name = later("British Association threads (BA)")
    standard = "BS 93"
    examples = ("2 BA (normal)", "4 BA (close)", "6 BA LH", "2 BA nut")
    order = 40

    def claims(self, text: Written) -> bool:
        """BA beside a number, or alone."""
        return re.search(r"(?<![A-Z])B\.?\s?A\b\.?|(?<![A-Z])BA(?=\d)", text.upper, re.ASCII) is not None

    def read(self, text: Written) -> Designation:
        """Number, class, hand."""
        upper, hand = take_hand(text, text.upper)
        upper, starts = take_starts(text, upper)
        classes = [one.lower() for one in _CLASS.findall(upper)]
        found = _BA.fullmatch(_CLASS.sub(" ", upper).strip(" -"))
        if found is None or len(set(classes)) > 1:
            raise BadDesignation(
                say(
                    '"{written}" is not a British Association thread; {accepted}',
                    written=text.written,
                    accepted=ACCEPTED,
                )
            )
        number = int(found["before"] or found["after"])
        if number not in _rows():
            raise BadDesignation(
                say(
                    '"{written}": there is no {number} BA; {accepted}',
                    written=text.written,
                    number=number,
                    accepted=ACCEPTED,
                )
            )
        side = text.side or "external"
        if classes and (side == "internal" or number > LAST_WITH_LIMITS):
            raise BadDesignation(
                say(
                    '"{written}": nuts have no class; leave out "{class_}"',
                    written=text.written, class_=classes[0],
                )
                if side == "internal"
                else say(
                    '"{written}": threads over {last} BA have no class; leave out "{class_}"',
                    written=text.written, last=LAST_WITH_LIMITS, class_=classes[0],
                )
            )
        has_class = side == "external" and number <= LAST_WITH_LIMITS
        row = _rows()[number]
        pitch = Fraction(row["pitch"])
        return Designation(
            text=text.written, family=self.key, series="BA", nominal=float(row["major"]),
            nominal_text=str(number), pitch=pitch, lead=(starts or 1) * pitch, starts=starts or 1,
            class_=(classes[0] if classes else "normal") if has_class else "",
            class_assumed=has_class and not classes, pitch_assumed=False, hand=hand, unit="mm", side=side,
            side_assumed=text.side is None,
        )

    def write(self, d: Designation) -> str:
        """``2 BA (normal) LH``, ``2 BA nut``."""
        class_ = f" ({d.class_})" if d.class_ else ""
        starts = f" ({d.starts} starts)" if d.starts > 1 else ""
        tail = (" LH" if d.hand == "left" else "") + (" nut" if d.internal else "")
        return f"{d.nominal_text} BA{class_}{starts}{tail}"

    def profile(self, d: Designation) -> Profile:
        """47.5 degrees, 0.6 of the pitch deep, crest and root round."""
        return Profile(
            flanks=Flanks.alike(HALF_ANGLE), depth=0.6, crest_flat=0.0, crest_radius=RADIUS,
            tool_flat=WIDTH_AT_ROOT, tool_radius=RADIUS, widest_flat=WIDTH_AT_ROOT, source="BS 93",
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Close and normal bolts, nuts; basic sizes over 16 BA."""
        return ba_limits(d)

    def mate(self, d: Designation) -> Designation:
        """The nut, which has one class; for it a normal bolt."""
        to = "normal" if d.internal and int(d.nominal_text) <= LAST_WITH_LIMITS else ""
        return replace(
            d, text="", class_=to, class_assumed=bool(to), side=d.other_side,
            side_assumed=False,
        )

    def gauging(self, d: Designation) -> Gauging:
        """By the British standard of gauges for Whitworth and BA threads."""
        return whitworth_gauges(d.internal)

    def sizes(self) -> Iterable[StandardSize]:
        """16 BA first: the numbers rise as the threads get smaller."""
        for number, row in sorted(_rows().items(), reverse=True):
            class_ = " (normal)" if number <= LAST_WITH_LIMITS else ""
            yield StandardSize(
                f"{number} BA{class_}",
                float(row["major"]),
                float(row["pitch"]),
                "mm",
                common=number <= LAST_WITH_ALLOWANCE,
            )


def ba_limits(d: Designation) -> ThreadLimits:
    """Limits of size of a British Association thread.

    bolts: major 0.15 P (close), 0.20 P (normal; 0.25 P from 11 BA), effective 0.08 P + 0.02 or
    0.10 P + 0.025, minor twice that, normal bolts to 10 BA laid 0.025 mm under the basic sizes;
    nuts: effective 0.12 P + 0.03, minor 0.375 P

    Parameters
    ----------
    d : a British Association thread

    Returns
    -------
    ThreadLimits (mm), three places.

    Notes
    -----
    Range: 0 BA to 16 BA; smaller ones have basic sizes only.

    Source: BS 93:1951, formulas, as in Machinery's Handbook, 31st ed., p. 2115; BS 93:2008, annex B.
    """
    number = int(d.nominal_text)
    row, p = _rows()[number], float(d.pitch)
    major, depth = Decimal(row["major"]), Decimal(row["depth"])
    put = (d.nominal, float(depth))
    loose = d.class_ == "normal" and number <= LAST_WITH_ALLOWANCE
    return limits_from_basic(
        d, major=major, pitch_diameter=Laid(rounded(major - depth, THREE), "{D} − {h}", put),
        minor=Laid(rounded(major - 2 * depth, THREE), "{D} − 2 × {h}", put),
        allowance=Laid(ALLOWANCE, say("0.025 mm for normal bolts, 0 to 10 BA")) if loose
        else Laid(Decimal(0), say("none but for normal bolts, 0 to 10 BA")),
        tolerances=_tolerances(d, number, p), source=SOURCE, places=3, tabulated=number <= LAST_WITH_LIMITS,
        memory=(say("diameter and pitch"),) if row["memory"] else (), remarks=tuple(_remarks(d, number)),
    )


def _tolerances(d: Designation, number: int, p: float) -> Tolerances:
    if number > LAST_WITH_LIMITS:
        return Tolerances()
    if d.internal:
        return Tolerances(pitch=_laid("0.12", "0.03", p), minor=_laid("0.375", "0", p))
    if d.class_ == "close":
        return Tolerances(_laid("0.15", "0", p), _laid("0.08", "0.02", p), _laid("0.16", "0.04", p))
    crest = "0.20" if number <= LAST_WITH_ALLOWANCE else "0.25"
    return Tolerances(_laid(crest, "0", p), _laid("0.10", "0.025", p), _laid("0.20", "0.05", p))


def _laid(share: str, added: str, pitch: float) -> Laid:
    value = rounded(Decimal(share) * Decimal(str(pitch)) + Decimal(added), THREE)
    plus = say(" + {added}, in millimeters", added=added) if Decimal(added) else ""
    return Laid(value, f"{share} × {{P}}{plus}", (pitch,))


def _remarks(d: Designation, number: int) -> list[str]:
    said = [say("The limits come from the formulas of BS 93, not compared with its printed tables.")]
    if number > LAST_WITH_LIMITS:
        said = [
            say(
                "BS 93 ends at {last_with_limits} BA: the sizes are basic. Fit it to its mate.",
                last_with_limits=LAST_WITH_LIMITS,
            )
        ]
    if d.starts > 1:
        said.append(say("The limits are those of a single-start thread."))
    return said


FAMILY = BritishAssociation()
