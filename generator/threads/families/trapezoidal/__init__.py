"""ISO metric trapezoidal threads Tr (ISO 2901 to ISO 2904; DIN 103)."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from generator.calc.flanks import Flanks
from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.engagement import of_group
from generator.threads.families.trapezoidal.limits import MICROMETER, basis, trapezoidal_limits
from generator.threads.families.trapezoidal.reading import NAME, read_trapezoidal, write_trapezoidal
from generator.threads.families.trapezoidal.tables import series
from generator.threads.families.trapezoidal.working import size_lines
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, LimitGauges
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text

FLANKS = Flanks.alike(math.radians(15))
HEIGHT = 0.5  # of the pitch: ISO 2901
COMMON_UP_TO = 100  # mm


class Trapezoidal(Family):
    """ISO metric trapezoidal threads."""

    key = "TR"
    name = later("ISO trapezoidal threads")
    standard = "ISO 2901, ISO 2903"
    examples = (
        "Tr 40x7-7e",
        "Tr 40x7-7H",
        "Tr 40x14(P7)-7e",
        "Tr 60x18(P9)LH-7e",
        "Tr 40x7LH-7e",
    )
    order = 42

    def claims(self, text: Written) -> bool:
        """Tr and a number."""
        return NAME.match(text.upper) is not None

    def read(self, text: Written) -> Designation:
        """Tr, diameter, pitch or lead and pitch, hand, class."""
        return read_trapezoidal(text)

    def write(self, d: Designation) -> str:
        """As the standard: ``Tr 60x18(P9)LH-7e``."""
        return write_trapezoidal(d)

    def profile(self, d: Designation) -> Profile:
        """30 degrees, half a pitch high; the root flat P/2 - (P/2 + 2 ac - es) tan 15, inside without es.

        The widest nose is the one that leaves the screw's root at its max with the pitch diameter in the
        middle of its limits.
        """
        of, tangent, pitch = basis(d), math.tan(FLANKS.load), float(d.pitch)
        crest = 0.5 - HEIGHT * tangent
        slack = float(2 * of.row.clearance - MICROMETER * of.deviation)
        root = crest - tangent * slack / pitch
        middle = 0.0 if d.internal else tangent * float(MICROMETER * of.tolerance) / 2 / pitch
        return Profile(
            flanks=FLANKS, depth=HEIGHT, crest_flat=crest, tool_flat=root, widest_flat=root + middle,
            source="ISO 2901",
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Grades 7 to 9, positions e and c outside and H inside."""
        sizes = trapezoidal_limits(d, engagement)
        return replace(sizes, lines=size_lines(sizes))

    def engagements(self, d: Designation) -> tuple[float, float] | None:
        """A length that is written, or those of the group L; N goes without saying."""
        if d.engagement is None and d.engagement_group == "L":
            return of_group("L", basis(d).normal)
        return super().engagements(d)

    def mate(self, d: Designation) -> Designation:
        """The same grade on the other side, position e for the screw of a nut 7H and c for coarser ones."""
        if d.internal:
            class_ = {"7": "7e", "8": "8e", "9": "9c"}[d.class_[0]]
            return replace(d, text="", class_=class_, side="external", side_assumed=False, class_assumed=True)
        return replace(
            d, text="", class_=f"{d.class_[0]}H", side="internal", side_assumed=False, class_assumed=True
        )

    def gauging(self, d: Designation) -> Gauging:
        """By the German standard; ISO has none."""
        return LimitGauges("DIN 103-9", 2, remembered=("turns",))

    def sizes(self) -> Iterable[StandardSize]:
        """The standard series, the preferred pitch of each diameter up to 100 mm as common."""
        for (nominal, pitch), preferred in series().items():
            text = f"Tr {number_text(nominal)}x{number_text(pitch)}-7e"
            common = preferred and nominal <= COMMON_UP_TO
            yield StandardSize(text, float(nominal), float(pitch), "mm", common)


FAMILY = Trapezoidal()
