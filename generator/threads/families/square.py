"""Square threads, inch and metric: half a pitch deep and wide. No standard gives limits: shop practice."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Literal

from generator.calc.flanks import Flanks
from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.designation import Designation
from generator.threads.family import Family, StandardSize
from generator.threads.heads import Head, inch_front, inch_head, metric_front, metric_head
from generator.threads.profile import Profile
from generator.threads.rounding import FOUR, THREE, decimal, rounded
from generator.threads.sizes import Range, SizeLine, ThreadLimits, size_line, too_coarse
from generator.threads.text import Written, number_text, take_hand

ACCEPTED = later(
    "write size-threads per inch and SQUARE, or SQ and diameter x pitch, like 1 1/4-4 SQUARE or SQ 30x6"
)
PRACTICE = later("common practice, no source")
_WORDS = r"\bSQUARE\b|\bSQ\b\.?|(?<=\d)SQ(?:UARE)?\b|\bSQ(?=\d)|\bTHREAD\b"
FORM_SOURCE = later("square form, half a pitch deep and wide; common practice")

# What practice allows, in inches and millimeters: width of the groove over half a pitch, least and largest,
# of the screw and of the nut; crest tolerance; clearance of the nut over the screw at major and minor, least
# and largest, over the pitch.
_WIDER: dict[str, dict[str, tuple[str, str]]] = {
    "in": {"external": ("0.001", "0.003"), "internal": ("0.002", "0.004")},
    "mm": {"external": ("0.02", "0.08"), "internal": ("0.05", "0.1")},
}
_CREST = {"in": "0.005", "mm": "0.13"}
_CLEAR = (Decimal("0.01"), Decimal("0.02"))


class Square(Family):
    """Square threads."""

    key = "SQ"
    name = later("Square threads")
    standard = later("no standard (common practice)")
    examples = ("1 1/4-4 SQUARE", "SQ 30x6", "1.25-0.25P-0.5L SQUARE-LH")
    order = 15

    def claims(self, text: Written) -> bool:
        """SQ or SQUARE."""
        return re.search(_WORDS.rpartition("|")[0], text.upper, re.ASCII) is not None

    def read(self, text: Written) -> Designation:
        """Size, pitch, hand."""
        upper, hand = take_hand(text, text.upper)
        front = re.sub(_WORDS, " ", upper, flags=re.ASCII).strip(" -")
        metric = re.match(r"[\d.]+\s*(?:MM)?\s*[X*]", front, re.ASCII) is not None
        unit: Literal["in", "mm"] = "mm" if metric else "in"
        head: Head = (metric_head if metric else inch_head)(text, front, ACCEPTED)
        if head.rest.strip(" -"):
            raise BadDesignation(
                say(
                    '"{written}": "{rest}" is not understood; {accepted}',
                    written=text.written,
                    rest=head.rest.strip(" -"),
                    accepted=ACCEPTED,
                )
            )
        return Designation(
            text=text.written, family=self.key, series="SQUARE", nominal=head.nominal,
            nominal_text=head.nominal_text, pitch=head.pitch, lead=head.lead, starts=head.starts, class_="",
            class_assumed=False, pitch_assumed=False, hand=hand, unit=unit, side=text.side or "external",
            tpi=None if metric else 1 / head.pitch, side_assumed=text.side is None,
        )

    def write(self, d: Designation) -> str:
        """``1 1/4-4 SQUARE-LH``, ``SQ 30x6``."""
        tail = ("-LH" if d.hand == "left" else "") + (" internal" if d.internal else "")
        if d.unit == "mm":
            return f"SQ {metric_front(d.nominal_text, d.pitch, d.lead)}{tail}"
        return f"{inch_front(d.nominal_text, d.pitch, d.lead)} SQUARE{tail}"

    def profile(self, d: Designation) -> Profile:
        """Neither flank leans; the groove is as wide as its tool: half a pitch and the play."""
        width = sum(Decimal(end) for end in _WIDER[d.unit][d.side]) / 2
        return Profile(
            flanks=Flanks(0.0, 0.0), depth=0.5, crest_flat=0.5,
            tool_flat=0.5 + float(width) / float(d.pitch),
            widest_flat=0.5 + float(_WIDER[d.unit][d.side][1]) / float(d.pitch),
            source=FORM_SOURCE,
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Practice sizes; the fit of the flanks is the width of the groove."""
        return square_limits(d)

    def sizes(self) -> Iterable[StandardSize]:
        """An old series of square threads that shops used."""
        for row in table("square", __package__):
            yield StandardSize(
                f"{row['size']}-{number_text(float(row['tpi']))} SQUARE",
                float(row["diameter"]),
                1 / float(row["tpi"]),
                "in",
                common=False,
            )


def square_limits(d: Designation) -> ThreadLimits:
    """Practice sizes of a square thread.

    screw: major D, pitch D - P/2, minor D - P;  nut: major D + 0.01 to 0.02 P, minor D - P + 0.01 to 0.02 P
    groove: P/2 + 0.001 to 0.003 in (0.02 to 0.08 mm), in the nut 0.002 to 0.004 in (0.05 to 0.1 mm)

    Parameters
    ----------
    d : a square thread

    Returns
    -------
    ThreadLimits (own unit)

    Raises
    ------
    OutsideRange
        For a pitch so coarse that no core is left.

    Notes
    -----
    No range given in the source.

    Source: common practice, no source.
    """
    places = FOUR if d.unit == "in" else THREE
    size = Decimal(str(d.nominal))
    pitch = decimal(d.pitch)
    if size - pitch <= 0:
        raise too_coarse(d, size - pitch)
    crest = Decimal(_CREST[d.unit])
    effective = float(rounded(size - pitch / 2, places))
    low, high = (rounded(share * pitch, places) for share in _CLEAR)
    root = rounded(size - pitch, places)
    if d.internal:
        major = Range(float(size + high + crest), float(size + low))
        minor = Range(float(root + high + crest), float(root + low))
        pitch_diameter = Range(None, effective)
    else:
        major = Range(float(size), float(size - crest))
        minor = Range(float(root), float(root - crest))
        pitch_diameter = Range(effective, None)
    return ThreadLimits(
        designation=d,
        major=major,
        pitch_diameter=pitch_diameter,
        minor=minor,
        allowance=0.0,
        major_tolerance=None if d.internal else float(crest),
        pitch_tolerance=None,
        minor_tolerance=float(crest) if d.internal else None,
        engagement=None,
        engagement_standard=True,
        tabulated=True,
        source=PRACTICE,
        places=4 if d.unit == "in" else 3,
        remarks=(
            say(
                "No standard gives limits for square threads: these sizes are shop practice. Keep the "
                "mate's where you have it."
            ),
            say(
                "Wires do not seat in a square groove: measure the diameters, and the width of the groove "
                "with a gauge block."
            ),
        ),
        lines=_lines(d, major, pitch_diameter, minor, float(low), float(high), float(crest)),
    )


def _lines(
    d: Designation, major: Range, effective: Range, minor: Range, low: float, high: float, crest: float
) -> tuple[SizeLine, ...]:
    pitch = float(d.pitch)
    least, most = (float(end) for end in _WIDER[d.unit][d.side])
    groove = tuple(
        size_line(
            f"groove.width.{end}", pitch / 2 + play, "{P} ÷ 2 + {play}", pitch, play,
            label=say("Groove width, {end}", end=end),
        )
        for end, play in (("min", least), ("max", most))
    )
    if d.internal:
        return (
            size_line("minor.min", minor.min, "{D} − {P} + {clearance}", d.nominal, pitch, low),
            size_line(
                "minor.max", minor.max, "{D} − {P} + {clearance} + {t}", d.nominal, pitch, high, crest
            ),
            size_line(
                "pitch_diameter.min", effective.min, "{D} − {P} ÷ 2", d.nominal, pitch,
                label=say("Pitch diameter, basic"),
            ),
            size_line("major.min", major.min, "{D} + {clearance}", d.nominal, low),
            size_line("major.max", major.max, "{D} + {clearance} + {t}", d.nominal, high, crest),
            *groove,
        )
    return (
        size_line("major.max", major.max, "{D}", d.nominal),
        size_line("major.min", major.min, "{D} − {t}", d.nominal, crest),
        size_line(
            "pitch_diameter.max", effective.max, "{D} − {P} ÷ 2", d.nominal, pitch,
            label=say("Pitch diameter, basic"),
        ),
        size_line("minor.max", minor.max, "{D} − {P}", d.nominal, pitch),
        size_line("minor.min", minor.min, "{D} − {P} − {t}", d.nominal, pitch, crest),
        *groove,
    )


FAMILY = Square()
