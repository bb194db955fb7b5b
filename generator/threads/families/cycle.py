"""British Standard Cycle threads, formerly CEI (BS 811): 60 degrees, crest and root round. Inches.

    3/8-26 BSC, 5/16 CEI, 1/4 cycle     without threads per inch, the 26 thread series where there is one
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from fractions import Fraction

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.basic_sizes import basic_limits
from generator.threads.designation import Designation
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, whitworth_gauges
from generator.threads.heads import inch_front, inch_size_alone, whole_inch_head
from generator.threads.profile import SIXTY, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text, take_hand, take_starts

ACCEPTED = later("write size, threads per inch and BSC, like 3/8-26 BSC or 5/16-26 BSC-LH")
RADIUS = 1 / 6                        # over P, crest and root: BS 811
DEPTH = math.sqrt(3) / 2 - 2 * RADIUS  # 0.5327 P: the rounding cuts one radius off the sharp V at both ends
WIDTH_AT_ROOT = 2 * RADIUS * math.tan(math.radians(30))  # over P: where a flat nose touches the basic root
_WORDS = re.compile(
    r"(?<![A-Z])(?:B\.?\s?S\.?\s?C(?:Y)?\b\.?|C\.?\s?E\.?\s?I\b\.?|CYCLE(?:\s+THREAD)?\b)", re.ASCII
)


class Cycle(Family):
    """British Standard Cycle threads."""

    key = "BSC"
    name = later("British Standard Cycle threads (CEI)")
    standard = "BS 811"
    examples = ("3/8-26 BSC", "5/16-26 BSC-LH", "1/2-20 BSC", "1/4-26 CEI")
    order = 42

    def claims(self, text: Written) -> bool:
        """BSC, CEI or cycle."""
        return _WORDS.search(text.upper) is not None

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, hand."""
        upper, hand = take_hand(text, text.upper)
        upper, starts = take_starts(text, upper)
        front = _WORDS.sub(" ", upper).strip(" -")
        alone = inch_size_alone(front)
        if alone:
            front = f"{alone[0]}-{_of_series(text, alone[1])}"
        head = whole_inch_head(text, front, starts, ACCEPTED)
        return Designation(
            text=text.written, family=self.key, series="BSC", nominal=head.nominal,
            nominal_text=head.nominal_text, pitch=head.pitch, lead=head.lead, starts=head.starts, class_="",
            class_assumed=False, pitch_assumed=bool(alone), hand=hand, unit="in",
            side=text.side or "external", tpi=1 / head.pitch, side_assumed=text.side is None,
        )

    def write(self, d: Designation) -> str:
        """``3/8-26 BSC-LH``."""
        tail = ("-LH" if d.hand == "left" else "") + (" internal" if d.internal else "")
        return f"{inch_front(d.nominal_text, d.pitch, d.lead)} BSC{tail}"

    def profile(self, d: Designation) -> Profile:
        """60 degrees, crest and root round with a sixth of the pitch."""
        return Profile(
            flanks=SIXTY, depth=DEPTH, crest_flat=0.0, crest_radius=RADIUS, tool_flat=WIDTH_AT_ROOT,
            tool_radius=RADIUS, widest_flat=WIDTH_AT_ROOT,
            source="BS 811",
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Basic sizes; the tolerances of BS 811 were not found."""
        return basic_limits(
            d,
            addendum=DEPTH / 2,
            root=DEPTH,
            source=say("BS 811, basic sizes"),
            remarks=(
                say(
                    "The tolerances of BS 811 (close, medium, free) were not found: the sizes are basic. "
                    "Fit it to its mate."
                ),
                *(
                    (
                        say(
                            "1/4 in with 26 threads is BSF too, with 55 degrees: the two are not the same. "
                            "See the angle with a thread gauge."
                        ),
                    )
                    if d.nominal == 0.25 and d.tpi == 26
                    else ()
                ),
                *((say("The sizes are those of a single-start thread."),) if d.starts > 1 else ()),
            ),
        )

    def gauging(self, d: Designation) -> Gauging:
        """By the British standard of gauges, which names cycle threads."""
        return whitworth_gauges(d.internal)

    def sizes(self) -> Iterable[StandardSize]:
        """26 threads per inch, and what else the lists have; seldom met away from cycles."""
        for row in table("cycle", __package__):
            yield StandardSize(
                f"{row['size']}-{row['tpi']} BSC",
                float(row["diameter"]),
                1 / float(row["tpi"]),
                "in",
                common=False,
            )


def _of_series(text: Written, size: Fraction) -> str:
    found = [row["tpi"] for row in table("cycle", __package__) if Fraction(row["diameter"]) == size]
    if not found:
        raise BadDesignation(
            say('"{written}": {number_text} in is not a size of the cycle series; write the '
            'threads per '
            "inch too, like 3/8-26 BSC", written=text.written, number_text=number_text(size))
        )
    return found[0]


FAMILY = Cycle()
