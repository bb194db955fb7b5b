"""American National Standard taper pipe threads NPT (ASME B1.20.1)."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import replace

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.npt.limits import pipe_limits
from generator.threads.families.npt.planes import TAPER, Truncation, pipe_sizes, truncation
from generator.threads.families.npt.reading import ACCEPTED, read_pipe_thread, write_pipe_thread
from generator.threads.family import Family, StandardSize
from generator.threads.gauging import Gauging, TaperGauges
from generator.threads.profile import SIXTY, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text

_WORD = re.compile(r"(?<![A-Z])(?P<side>[MF])?\s?N\.?\s?P\.?\s?T\.?(?![A-Z])")
_PLUMBERS = r"(?<![A-Z])([MF])(?:PT|IP)(?![A-Z])"  # male and female pipe thread, or iron pipe
USUAL = 7  # in, outside diameter of the pipe: larger ones are welded or flanged
FLAT = 2 * math.tan(math.radians(30))  # width of a flat over its truncation, of 60 degrees


def sixty_taper_profile(truncated: Truncation, source: str) -> Profile:
    """60 degrees on a taper of 1 in 16: flats at crest and root by their truncation (shares of the pitch).

    The tool's flat, where it is not known, is that of the middle of the root's truncations; where these begin
    at the crest's, that of the least.
    """
    least, most = float(truncated.root_min), float(truncated.root_max)
    crest = float(truncated.crest_min)
    sharp = math.sqrt(3) / 2
    root = least if truncated.root_min == truncated.crest_min else (least + most) / 2
    return Profile(
        flanks=SIXTY, depth=sharp - crest - least, crest_height=sharp / 2 - crest, crest_flat=FLAT * crest,
        tool_flat=FLAT * root, widest_flat=FLAT * most,
        taper=float(TAPER), source=source,
    )


class Npt(Family):
    """NPT threads, outside and inside; the size is a name."""

    key = "NPT"
    name = later("American taper pipe threads")
    standard = "ASME B1.20.1"
    examples = (
        "1/2-14 NPT",
        "2-11.5 NPT",
        "3/8-18 NPT-LH",
        "1 1/4-11.5 NPT internal",
    )
    order = 31

    def claims(self, text: Written) -> bool:
        """The letters NPT, or MPT, FPT, MIP, FIP of the plumbers; not the dryseal ones."""
        named = rf"N\.?\s?P\.?\s?T|{_PLUMBERS}"
        return re.search(named, text.upper) is not None and "NPTF" not in text.upper

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, NPT, hand."""
        if re.search(r"NPTR", text.upper):
            raise BadDesignation(
                say('"{written}": railing joint threads (NPTR; ASME B1.20.1) are not computed here; '
                "{accepted}", written=text.written, accepted=ACCEPTED)
            )
        plain = re.sub(_PLUMBERS, r"\1NPT", text.upper)
        return read_pipe_thread(replace(text, plain=plain), self.key, _WORD, ACCEPTED)

    def write(self, d: Designation) -> str:
        """As the standard: ``3/8-18 NPT-LH``."""
        return write_pipe_thread(d, "NPT")

    def profile(self, d: Designation) -> Profile:
        """60 degrees, 0.8 P high at most, square to the axis."""
        return sixty_taper_profile(_truncation(d), self.standard)

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """At the end face: one turn of the gauge either way."""
        return pipe_limits(d, _truncation(d), self.standard)

    def gauging(self, d: Designation) -> Gauging:
        """L1 ring and plug."""
        return TaperGauges(
            "ASME B1.20.1",
            say("L1 plug gauge, its notch at the face") if d.internal else say("L1 ring gauge"),
            say(
                "pitch diameter, taper and lead together over the engagement by hand; not the crests, and "
                "not what lies beyond it"
            ),
        )

    def sizes(self) -> Iterable[StandardSize]:
        """1/16 to 24."""
        for size in pipe_sizes().values():
            yield StandardSize(
                f"{size.name}-{number_text(size.tpi)} NPT",
                size.major,
                float(size.pitch),
                "in",
                common=size.diameter < USUAL,
            )


def _truncation(d: Designation) -> Truncation:
    return truncation(1 / d.pitch, "npt_truncation", __package__)


FAMILY = Npt()
