"""American National threads NC, NF, NEF, N, NS, and the US Standard and SAE series of the same form."""

from __future__ import annotations

import re
from collections.abc import Iterable

from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.national.limits import national_limits
from generator.threads.families.national.reading import SERIES, parse_national
from generator.threads.families.national.series import sizes
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import UNIFIED_CRESTS, Gauging, LimitGauges
from generator.threads.heads import inch_front
from generator.threads.profile import SIXTY, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text


class National(Family):
    """American National threads."""

    key = "N"
    name = later("American National threads")
    standard = later("NBS Handbook H28 (1942)")
    examples = (
        "1/2-13 NC-2",
        "3/4-16 NF-3",
        "2-8 N-2",
        "1 1/8-10 NS-2-LH",
        "1 5/8-5.5 USS",
        "1/2-20 SAE",
    )
    order = 70

    def claims(self, text: Written) -> bool:
        """A series of these, and not a Unified one."""
        sized = re.match(r"[#.\d]|NO\b", text.upper, re.ASCII) is not None
        return sized and SERIES.search(text.upper) is not None

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, series, class, hand."""
        return parse_national(text)

    def write(self, d: Designation) -> str:
        """As H28: ``1/2-13 NC-2-LH``."""
        class_ = f"-{d.class_}" if d.class_ else ""
        tail = ("-LH" if d.hand == "left" else "") + (" internal" if d.internal else "")
        return f"{inch_front(d.nominal_text, d.pitch, d.lead)} {d.series}{class_}{tail}"

    def profile(self, d: Designation) -> Profile:
        """60 degrees, flat P/8 at crest and root."""
        return Profile(
            flanks=SIXTY, depth=0.64951905, crest_flat=0.125, tool_flat=0.125, source=say("NBS Handbook H28"),
            widest_flat=0.25,
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Classes 1 to 3; basic sizes for class 4."""
        return national_limits(d, engagement)

    def gauging(self, d: Designation) -> Gauging:
        """As Unified threads, which have the same flanks."""
        return LimitGauges(
            say("ASME B1.2, as for Unified threads; common practice"), 3, UNIFIED_CRESTS,
            remembered=("crests",),
        )

    def sizes(self) -> Iterable[StandardSize]:
        """NC, NF, NEF, and the US Standard and SAE series."""
        for size, diameter, tpi, series in sizes():
            class_ = "-2" if series.startswith("N") else ""
            yield StandardSize(
                f"{size}-{number_text(tpi)} {series}{class_}", diameter, 1 / float(tpi), "in",
                common=series in ("NC", "NF"),
            )


FAMILY = National()
