"""Dryseal American National Standard taper pipe threads NPTF (ASME B1.20.3).

They seal without a compound: the crests are sharper than the roots they meet, and are crushed by the wrench.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.npt import sixty_taper_profile
from generator.threads.families.npt.limits import pipe_limits
from generator.threads.families.npt.planes import Truncation, pipe_sizes, truncation
from generator.threads.families.npt.reading import read_pipe_thread, size_of, write_pipe_thread
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, TaperGauges
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text

ACCEPTED = later("write size, threads per inch, NPTF and class, like 1/8-27 NPTF-1")
LARGEST = 4  # in, outside diameter of the pipe: the standard ends at size 3
_WORD = re.compile(r"(?<![A-Z])(?P<side>[MF])?NPTF(?![A-Z])")
CLASSES = ("1", "2")  # they differ in how crest and root are inspected, not in size
MEMORY = (later("the truncations of crest and root"), later("the lengths"))


class Nptf(Family):
    """NPTF threads, classes 1 and 2, outside and inside."""

    key = "NPTF"
    name = later("American dryseal taper pipe threads")
    standard = "ASME B1.20.3"
    examples = (
        "1/8-27 NPTF-1",
        "1/2-14 NPTF-2",
        "1-11.5 NPTF-1-LH",
        "1/4-18 NPTF-1 internal",
    )
    order = 30

    def claims(self, text: Written) -> bool:
        """The letters NPTF, or PTF of the short threads."""
        return re.search(r"NPTF|(?<![A-Z])PTF", text.upper) is not None

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, NPTF, class, hand."""
        if "NPTF" not in text.upper:
            raise BadDesignation(
                say(
                    '"{written}": short dryseal threads (PTF-SAE SHORT; ASME B1.20.3) are one thread '
                    "shorter than NPTF and are not computed here; {accepted}",
                    written=text.written,
                    accepted=ACCEPTED,
                )
            )
        d = read_pipe_thread(text, self.key, _WORD, ACCEPTED, CLASSES)
        if size_of(d).diameter >= LARGEST:
            raise BadDesignation(
                say('"{written}": NPTF threads end at size 3; write it as NPT', written=text.written)
            )
        return d

    def write(self, d: Designation) -> str:
        """As the standard: ``1/8-27 NPTF-1``."""
        return write_pipe_thread(d, f"NPTF-{d.class_}")

    def profile(self, d: Designation) -> Profile:
        """60 degrees; the roots wider than the crests."""
        return sixty_taper_profile(_truncation(d), self.standard)

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """At the end face: one turn of the gauge either way."""
        return pipe_limits(d, _truncation(d), self.standard, MEMORY)

    def gauging(self, d: Designation) -> Gauging:
        """Two thread gauges that stand alike, and a plain one for the crests that seal."""
        second = "L3" if d.internal else "L2"
        return TaperGauges(
            "ASME B1.20.5",
            say("L1 and L3 plug gauges") if d.internal else say("L1 and L2 ring gauges"),
            say(
                "L1 the engagement by hand, {second} that of the wrench; both alike: the taper. Not the "
                "crests, that seal",
                second=second,
            ),
            apart=0.5,
            plain=say("plain taper plug gauge with six steps") if d.internal
            else say("plain taper ring gauge with six steps"),
        )

    def sizes(self) -> Iterable[StandardSize]:
        """1/16 to 3."""
        for size in pipe_sizes().values():
            if size.diameter < LARGEST:
                name = f"{size.name}-{number_text(size.tpi)} NPTF-1"
                yield StandardSize(name, size.major, float(size.pitch), "in")


def _truncation(d: Designation) -> Truncation:
    return truncation(1 / d.pitch, "nptf_truncation", __package__)


FAMILY = Nptf()
