"""Steel conduit threads Pg 7 to Pg 48 (DIN 40430, withdrawn): 80 degrees, round. Millimeters.

    Pg 13.5, PG16, Pg 9 nut     the number is a name, not a diameter
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
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
from generator.threads.gauging import Gauging, LimitGauges
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, take_hand, take_starts

SOURCE = "DIN 40430"
HALF_ANGLE = math.radians(40)
TRIANGLE = 0.5 / math.tan(HALF_ANGLE)       # H over P
DEPTH = 0.8 * TRIANGLE                      # a tenth of H cut off at crest and root: 0.4767 P
RADIUS = 0.1 * TRIANGLE / (1 / math.sin(HALF_ANGLE) - 1)  # 0.107 P, touching both flanks
WIDTH_AT_ROOT = 0.1                         # over P: where a flat nose touches the basic root
_PG = re.compile(r"P\.?\s?G\.?\s*-?\s*(?P<name>\d{1,2}(?:\.\d)?)", re.ASCII)


@cache
def _rows() -> dict[str, dict[str, str]]:
    return {row["name"]: row for row in table("pg", __package__)}


class Conduit(Family):
    """Steel conduit threads Pg."""

    key = "PG"
    name = later("Steel conduit threads Pg")
    standard = "DIN 40430"
    examples = ("Pg 13.5", "Pg 21 LH", "Pg 16 internal")
    order = 40

    def claims(self, text: Written) -> bool:
        """PG in front."""
        return re.match(r"(?:DIN\s*40430\s*-?\s*)?P\.?\s?G(?![A-Z])", text.upper, re.ASCII) is not None

    def read(self, text: Written) -> Designation:
        """Name, hand."""
        upper, hand = take_hand(text, text.upper)
        upper, starts = take_starts(text, upper)
        found = _PG.fullmatch(re.sub(r"\bDIN\s*40430\b", " ", upper).strip(" -"))
        row = _rows().get(found["name"]) if found else None
        if row is None:
            raise BadDesignation(
                say('"{written}" is not a steel conduit thread; write Pg and one of {rows}, '
                "like Pg 13.5", written=text.written, rows=", ".join(_rows()))
            )
        pitch = Fraction(254, 10) / Fraction(row["tpi"])
        return Designation(
            text=text.written, family=self.key, series="Pg", nominal=float(row["major"]),
            nominal_text=row["name"], pitch=pitch, lead=(starts or 1) * pitch, starts=starts or 1, class_="",
            class_assumed=False, pitch_assumed=False, hand=hand, unit="mm", side=text.side or "external",
            tpi=Fraction(row["tpi"]), side_assumed=text.side is None,
        )

    def write(self, d: Designation) -> str:
        """``Pg 13.5 LH internal``."""
        starts = f" ({d.starts} starts)" if d.starts > 1 else ""
        tail = (" LH" if d.hand == "left" else "") + (" internal" if d.internal else "")
        return f"Pg {d.nominal_text}{starts}{tail}"

    def profile(self, d: Designation) -> Profile:
        """80 degrees, a tenth of the sharp V cut off at crest and root, round."""
        return Profile(
            flanks=Flanks.alike(HALF_ANGLE), depth=DEPTH, crest_flat=0.0, crest_radius=RADIUS,
            tool_flat=WIDTH_AT_ROOT, tool_radius=RADIUS, widest_flat=WIDTH_AT_ROOT, source="DIN 40430",
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """The crests have limits here, the pitch diameter its basic size."""
        return conduit_limits(d)

    def gauging(self, d: Designation) -> Gauging:
        """Go thread gauges; the no-go gauges are plain ones for the crests."""
        return LimitGauges(
            "DIN 40431", remembered=("standard", "turns"),
            remark=say("The no-go gauge of a conduit thread is a plain one, for the crests."),
        )

    def sizes(self) -> Iterable[StandardSize]:
        """Pg 7 to Pg 48."""
        for row in _rows().values():
            yield StandardSize(
                f"Pg {row['name']}", float(row["major"]), 25.4 / float(row["tpi"]), "mm"
            )


def conduit_limits(d: Designation) -> ThreadLimits:
    """Limits of size of a steel conduit thread.

    major and minor of the table;  pitch diameter halfway between them

    Parameters
    ----------
    d : a steel conduit thread

    Returns
    -------
    ThreadLimits (mm), two places, the pitch diameter without a tolerance.

    Notes
    -----
    Range: Pg 7 to Pg 48.

    Source: DIN 40430, basic sizes; tolerances of the crests from memory.
    """
    row = _rows()[d.nominal_text]
    major, minor = Decimal(row["major"]), Decimal(row["minor"])
    by_size = say("the table's value for this size")
    return limits_from_basic(
        d,
        major=major,
        pitch_diameter=Laid((major + minor) / 2, "({D} + {core}) ÷ 2", (d.nominal, float(minor))),
        minor=Laid(minor, say("the table's value for this size")),
        allowance=Laid(Decimal(0), say("none")),
        tolerances=Tolerances(minor=Laid(Decimal(row["bore"]), by_size))
        if d.internal
        else Tolerances(major=Laid(Decimal(row["crest"]), by_size)),
        source=SOURCE,
        places=2,
        memory=(
            say("the tolerance of the minor diameter") if d.internal
            else say("the tolerance of the major diameter"),
        ),
        remarks=(
            say(
                "DIN 40430 is withdrawn; conduit has metric threads with 1.5 mm pitch since. Keep the "
                "mate's sizes where you have it."
            ),
            say("No tolerance of the pitch diameter was found: the size given is basic. Fit it to its mate."),
            *((say("The limits are those of a single-start thread."),) if d.starts > 1 else ()),
        ),
    )


FAMILY = Conduit()
