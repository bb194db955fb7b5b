"""Threads of Whitworth form: BSW, BSF, and any diameter and pitch (BS 84)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.families.whitworth.limits import whitworth_limits
from generator.threads.families.whitworth.reading import OLD, SERIES, parse_whitworth
from generator.threads.families.whitworth.series import STANDARD, sizes
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, whitworth_gauges
from generator.threads.profile import WHITWORTH, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text

MATES = {"external": {"close": "medium", "medium": "medium", "free": "normal"},
         "internal": {"close": "close", "medium": "medium", "normal": "free"}}


class Whitworth(Family):
    """Threads of Whitworth form."""

    key = "WHIT"
    name = later("Whitworth threads (BSW, BSF, Whitworth form)")
    standard = "BS 84"
    examples = (
        "1/2 in - 12 BSW (medium)",
        "3/8 in - 20 BSF (free)",
        "5/8 BSW",
        "1 1/4 in - 16 Whit",
        "1/2 in - 12 BSW (normal) nut",
    )
    order = 40

    def claims(self, text: Written) -> bool:
        """A series of these, or W before or after a size."""
        upper = text.upper
        return SERIES.search(upper) is not None or OLD.search(upper) is not None

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, series, class, hand."""
        return parse_whitworth(text)

    def write(self, d: Designation) -> str:
        """As BS 84: ``1/2 in - 12 BSW (medium) LH nut``."""
        starts = f" ({d.starts} starts)" if d.starts > 1 else ""
        tail = (" LH" if d.hand == "left" else "") + (" nut" if d.internal else "")
        return f"{d.nominal_text} in - {number_text(1 / d.pitch)} {d.series} ({d.class_}){starts}{tail}"

    def profile(self, d: Designation) -> Profile:
        """55 degrees, crest and root round."""
        return WHITWORTH

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Close, medium and free bolts; medium and normal nuts."""
        return whitworth_limits(d, engagement)

    def mate(self, d: Designation) -> Designation:
        """A medium nut for close and medium bolts, a normal one for free bolts; and back."""
        return replace(
            d, text="", class_=MATES[d.side][d.class_], class_assumed=False,
            side=d.other_side, side_assumed=False,
        )

    def gauging(self, d: Designation) -> Gauging:
        """By the British standard of gauges for Whitworth and BA threads."""
        return whitworth_gauges(d.internal)

    def sizes(self) -> Iterable[StandardSize]:
        """BSW and BSF; the brass and model engineers' threads are seldom met."""
        for size in sizes():
            yield StandardSize(
                f"{size.text} in - {number_text(size.tpi)} {size.series} (medium)",
                float(size.diameter),
                1 / float(size.tpi),
                "in",
                common=size.series in STANDARD,
            )


FAMILY = Whitworth()
