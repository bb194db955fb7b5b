"""General purpose Acme threads, classes 2G, 3G and 4G (ASME B1.5)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.families.acme.form import acme_profile
from generator.threads.families.acme.limits import GENERAL, acme_limits, series
from generator.threads.families.acme.reading import ACCEPTED, read_acme, write_acme
from generator.threads.families.acme.working import size_lines
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, LimitGauges
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written


class Acme(Family):
    """General purpose Acme threads; centralizing ones are named and refused."""

    key = "ACME"
    name = later("Acme threads")
    standard = "ASME B1.5"
    examples = ("1 1/2-4-ACME-2G", "1.750-4-ACME-3G", "1.5-0.25P-0.5L-ACME-2G", "1-5-ACME-2G-LH")
    order = 41

    def claims(self, text: Written) -> bool:
        """The word ACME, and not STUB."""
        return "ACME" in text.upper and "STUB" not in text.upper

    def read(self, text: Written) -> Designation:
        """Size, threads per inch or pitch and lead, ACME, class, hand."""
        return read_acme(text, self.key, "ACME", "ACME", ACCEPTED)

    def write(self, d: Designation) -> str:
        """As the standard: ``1.750-4-ACME-2G-LH``."""
        return write_acme(d, "ACME", d.class_)

    def profile(self, d: Designation) -> Profile:
        """29 degrees, half a pitch high, crest flat 0.3707 P."""
        return acme_profile(d, GENERAL, self.standard)

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Classes 2G, 3G and 4G, outside and inside."""
        sizes = acme_limits(d, GENERAL, engagement)
        return replace(sizes, lines=size_lines(sizes, GENERAL))

    def gauging(self, d: Designation) -> Gauging:
        """By the standard of the thread itself."""
        return LimitGauges("ASME B1.5", 3, remembered=("turns",))

    def sizes(self) -> Iterable[StandardSize]:
        """The standard series."""
        for size, diameter, tpi in series():
            yield StandardSize(f"{size}-{tpi}-ACME-2G", float(diameter), float(1 / tpi), "in")


FAMILY = Acme()
