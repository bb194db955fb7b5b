"""Stub Acme threads, standard form and modified forms 1 and 2 (ASME/ANSI B1.8)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.families.acme.form import acme_profile
from generator.threads.families.acme.limits import Form, acme_limits, series
from generator.threads.families.acme.reading import read_acme, write_acme
from generator.threads.families.acme.working import size_lines
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, LimitGauges
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written

HEIGHTS = {"": "0.3", "M1": "0.375", "M2": "0.25"}  # of the pitch; modified forms 1 and 2 from memory of B1.8
SOURCE = later("ASME/ANSI B1.8-1988, with the allowances and tolerances of ASME B1.5")
MEMORY = later("the tolerances of the nut's major and of the screw's minor diameter")
ACCEPTED = later("write it like 1/2-20 STUB ACME, 1-5 STUB ACME M1 for modified form 1, or -LH after it")
WORD, MODIFIED = r"STUB[\s-]*ACME|ACME[\s-]*STUB|STUB", ("M1", "M2")
HEIGHT = {
    "M1": later("the height of the modified form M1"), "M2": later("the height of the modified form M2"),
}
FORMS = {
    form: Form(
        later("stub Acme"), Decimal(height), Decimal(1), "pitch diameter", SOURCE,
        (MEMORY, *([HEIGHT[form]] if form else [])),
    )
    for form, height in HEIGHTS.items()
}


class StubAcme(Family):
    """Stub Acme threads; the standard has one fit, that of class 2G, and allows those of 3G and 4G."""

    key = "STUB ACME"
    name = later("stub Acme threads")
    standard = "ASME/ANSI B1.8"
    examples = (
        "1/2-20 STUB ACME",
        "1-5 STUB ACME",
        "1-5 STUB ACME M1",
        "1-5 STUB ACME-LH",
    )
    order = 40

    def claims(self, text: Written) -> bool:
        """The word STUB."""
        return "STUB" in text.upper

    def read(self, text: Written) -> Designation:
        """Size, threads per inch or pitch and lead, STUB ACME, modified form, class, hand."""
        d = read_acme(text, self.key, WORD, "STUB ACME", ACCEPTED, MODIFIED)
        return replace(d, class_assumed=False)

    def write(self, d: Designation) -> str:
        """As the standard: ``1/2-20 STUB ACME M1-LH``; a class only where it is not 2G."""
        class_ = "" if d.class_ == "2G" else d.class_
        front, _, back = write_acme(d, "STUB ACME", class_).partition("-STUB ACME")
        return f"{front} STUB ACME{' ' + d.form if d.form else ''}{back}"

    def profile(self, d: Designation) -> Profile:
        """29 degrees, 0.3 P high, crest flat 0.4224 P; the modified forms 0.375 P and 0.25 P."""
        return acme_profile(d, FORMS[d.form], self.standard)

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """The fit of class 2G, or those of 3G and 4G where written; outside and inside."""
        sizes = acme_limits(d, FORMS[d.form], engagement)
        return replace(sizes, lines=size_lines(sizes, FORMS[d.form]))

    def gauging(self, d: Designation) -> Gauging:
        """By the standard of the thread itself."""
        return LimitGauges("ASME B1.8", 3, remembered=("standard", "turns"))

    def sizes(self) -> Iterable[StandardSize]:
        """The standard series, in the standard form."""
        for size, diameter, tpi in series():
            yield StandardSize(
                f"{size}-{tpi} STUB ACME",
                float(diameter),
                float(1 / tpi),
                "in",
                common=False,
            )


FAMILY = StubAcme()
