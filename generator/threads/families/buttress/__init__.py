"""Inch buttress threads, 7 and 45 degrees, 0.6 pitch of engagement (ASME B1.9)."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import replace

from generator.calc.flanks import Flanks
from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.families.buttress.limits import buttress_limits
from generator.threads.families.buttress.reading import parse_buttress
from generator.threads.families.buttress.series import preferred_sizes
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, LimitGauges
from generator.threads.heads import inch_front
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text

LOAD, CLEARANCE = math.radians(7), math.radians(45)
ROOT_RADIUS, LEAST_ROOT_RADIUS = 0.07141, 0.0357  # over the pitch: ASME B1.9, table 3
ROOT_FLAT = 0.0928                                # over the pitch: flat root form, ASME B1.9, table 3


class Buttress(Family):
    """Inch buttress threads."""

    key = "BUTT"
    name = later("Inch buttress threads")
    standard = "ASME B1.9"
    examples = (
        "2.5-8 BUTT-2A",
        "2.5-8 PUSH-BUTT-2A-LH",
        "1.5-6 BUTT-3B",
        "2-0.25P-0.5L BUTT-2A",
    )
    order = 20

    def claims(self, text: Written) -> bool:
        """BUTT, anywhere."""
        return re.search(r"BUTT", text.upper) is not None

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, push or pull, class, root, hand."""
        return parse_buttress(text)

    def write(self, d: Designation) -> str:
        """As the standard: ``2.5-8 PUSH-BUTT-2A-LH``; pull is not written."""
        tail = "".join(f"-{word}" for word in (d.form, "LH" if d.hand == "left" else "") if word)
        return f"{inch_front(d.nominal_text, d.pitch, d.lead)} {d.series}-{d.class_}{tail}"

    def profile(self, d: Designation) -> Profile:
        """7 degrees carry the load, 45 degrees clear; round root, or the flat root form (FL)."""
        return Profile(
            flanks=Flanks(LOAD, CLEARANCE), depth=0.66271, crest_height=0.3, crest_flat=0.16316,
            tool_flat=ROOT_FLAT, tool_radius=0.0 if d.form == "FL" else ROOT_RADIUS, widest_flat=ROOT_FLAT,
            least_radius=0.0 if d.form == "FL" else LEAST_ROOT_RADIUS,
            source="ASME B1.9",
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Classes 2 and 3, and the older 1; the allowance is on the screw."""
        return buttress_limits(d, engagement)

    def mate(self, d: Designation) -> Designation:
        """The same class on the other side; a screw that pulls has a nut for one that pulls."""
        letter = "A" if d.internal else "B"
        return replace(
            d, text="", class_=d.class_[0] + letter, side=d.other_side,
            side_assumed=False,
        )

    def gauging(self, d: Designation) -> Gauging:
        """By the standard of the thread itself."""
        return LimitGauges("ASME B1.9", 3, remembered=("standard", "turns"))

    def sizes(self) -> Iterable[StandardSize]:
        """The preferred diameters and pitches."""
        for size, diameter, tpi in preferred_sizes():
            yield StandardSize(
                f"{size}-{number_text(tpi)} BUTT-2A",
                float(diameter),
                1 / float(tpi),
                "in",
                common=False,
            )


FAMILY = Buttress()
