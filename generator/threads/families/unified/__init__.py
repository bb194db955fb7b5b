"""Unified inch screw threads, UN and UNR, classes 1A to 3B (ASME B1.1)."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

import generator.threads.families.unified.series as series
from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.families.unified.external import unified_limits
from generator.threads.families.unified.internal import internal_unified_limits
from generator.threads.families.unified.reading import parse_unified
from generator.threads.families.unified.working import size_lines
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import UNIFIED_CRESTS, Gauging, LimitGauges
from generator.threads.profile import SIXTY, THREE_EIGHTHS, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text

_OF_NONE = re.compile(  # words that may stand beside a size and threads per inch without a series
    r"\b(?:IN(?:CH)?|TPI|THREADS?|[LR]\.?H|LEFT|RIGHT|HAND(?:ED)?|[A-Z]+ STARTS?|STARTS?)\b|\d\s*[ABPLX]\b|X",
    re.ASCII,
)
LEAST_ROOT_RADIUS = 0.10825318  # of the pitch, UNR: ASME B1.1


class Unified(Family):
    """Unified inch threads."""

    key = "UN"
    name = later("Unified inch threads")
    standard = "ASME B1.1"
    examples = (
        "1/2-13 UNC-2A",
        "2 1/4-8 UN-2A",
        "#10-32 UNF-2A",
        "2.4375-10 UNS-2A",
        "1/2-13 UNC-2B",
    )
    order = 90

    def claims(self, text: Written) -> bool:
        """A size first, and after it UN, or nothing that another family has."""
        upper = text.upper
        if re.match(r"(?:UNR?(?:C|F|EF|S)?[\s-]*)?[#\d.]", upper, re.ASCII) is None:
            return False
        return "UN" in upper or re.search(r"[A-Z]", _OF_NONE.sub(" ", upper)) is None

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, series, class, hand, special length of engagement."""
        return parse_unified(text)

    def write(self, d: Designation) -> str:
        """As section 6 of the standard: ``1 1/4-7 UNC-2A-LH``, ``0.750-.0625P-.1875L(3 STARTS)UNF-2A``."""
        end = f"{d.series}-{d.class_}" + ("-LH" if d.hand == "left" else "")
        if d.engagement is not None:
            end += f" SE {number_text(d.engagement)}"
        if d.starts > 1:
            turns = f"{_inches(d.pitch)}P-{_inches(d.lead)}L({d.starts} STARTS)"
            return f"{_size(d.nominal_text)}-{turns}{end}"
        return f"{_size(d.nominal_text)}-{number_text(1 / d.pitch)} {end}"

    def profile(self, d: Designation) -> Profile:
        """60 degrees, crest flat P/8; root flat P/4 outside, a radius of H/8 at least for UNR."""
        return Profile(
            flanks=SIXTY, depth=0.54126588, crest_height=THREE_EIGHTHS,
            crest_flat=0.25 if d.internal else 0.125,
            tool_flat=0.125, source="ASME B1.1",
            least_radius=LEAST_ROOT_RADIUS if d.rounded_root else 0.0,
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Classes 1A to 3A outside, 1B to 3B inside; an engagement in the designation counts."""
        engagement = d.engagement if engagement is None else engagement
        of_side = internal_unified_limits if d.internal else unified_limits
        sizes = of_side(d, engagement)
        return replace(sizes, lines=size_lines(sizes))

    def mate(self, d: Designation) -> Designation:
        """The same class on the other side; only screws have a rounded root."""
        class_ = d.class_[0] + ("A" if d.internal else "B")
        return replace(
            d, text="", class_=class_, side=d.other_side, rounded_root=False,
            series=d.series.replace("UNR", "UN"),
        )

    def gauging(self, d: Designation) -> Gauging:
        """Not-go three turns at most (ASME B1.2, 5.2.1)."""
        return LimitGauges("ASME B1.2", 3, UNIFIED_CRESTS, remembered=("crests",))

    def sizes(self) -> Iterable[StandardSize]:
        """UNC, UNF, UNEF and the constant-pitch series."""
        for size, diameter, tpi, name in series.all_sizes():
            text = f"{size}-{number_text(tpi)} {name}-2A"
            yield StandardSize(text, diameter, 1 / float(tpi), "in", name in ("UNC", "UNF"))


def _inches(length: Fraction) -> str:
    return f"{float(length):.8f}".rstrip("0").removeprefix("0")


def _size(text: str) -> str:
    """A size as the standard writes it: a decimal with three places at least."""
    whole, point, decimals = text.partition(".")
    return f"{whole or '0'}.{decimals:<03}" if point else text


FAMILY = Unified()
