"""Sharp V threads: 60 degrees, crest and root sharp but for a small flat. No standard gives limits."""

from __future__ import annotations

import re
from collections.abc import Iterable

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.basic_sizes import basic_limits
from generator.threads.designation import Designation
from generator.threads.family import Family, StandardSize
from generator.threads.heads import inch_front, inch_head
from generator.threads.profile import SIXTY, Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written, number_text, take_hand

ACCEPTED = later("write size-threads per inch and V, like 1/2-12 V or 1-8 V-LH")
DEPTH = 0.8660254  # over the pitch
NOSE = 0.04        # over the pitch: about one twenty-fifth, Machinery's Handbook, 27th ed., p. 1725
_WORDS = r"(?<![A-Z])(?:SHARP[\s-]*)?(?:V|VEE)(?![A-Z])[\s-]*(?:THREAD|FORM)?"


class SharpV(Family):
    """Sharp V threads."""

    key = "V"
    name = later("Sharp V threads")
    standard = later("no standard (common practice)")
    examples = ("1/2-12 V", "1-8 V-LH")
    order = 60

    def claims(self, text: Written) -> bool:
        """A size, and V or SHARP."""
        sized = re.match(r"[#.\d]|NO\b", text.upper, re.ASCII) is not None
        return sized and re.search(rf"{_WORDS}|\bSHARP\b", text.upper) is not None

    def read(self, text: Written) -> Designation:
        """Size, threads per inch, hand."""
        upper, hand = take_hand(text, text.upper)
        if re.search(_WORDS, upper) is None:
            raise BadDesignation(
                say(
                    '"{written}" is not a sharp V thread designation; {accepted}',
                    written=text.written,
                    accepted=ACCEPTED,
                )
            )
        head = inch_head(text, re.sub(_WORDS, " ", upper, count=1).strip(" -"), ACCEPTED)
        if head.rest.strip(" -"):
            raise BadDesignation(
                say(
                    '"{written}": "{rest}" is not understood; {accepted}',
                    written=text.written,
                    rest=head.rest.strip(" -"),
                    accepted=ACCEPTED,
                )
            )
        return Designation(
            text=text.written, family=self.key, series="V", nominal=head.nominal,
            nominal_text=head.nominal_text, pitch=head.pitch, lead=head.lead, starts=head.starts, class_="",
            class_assumed=False, pitch_assumed=False, hand=hand, unit="in", side=text.side or "external",
            tpi=1 / head.pitch, side_assumed=text.side is None,
        )

    def write(self, d: Designation) -> str:
        """``1/2-12 V-LH``."""
        tail = ("-LH" if d.hand == "left" else "") + (" internal" if d.internal else "")
        return f"{inch_front(d.nominal_text, d.pitch, d.lead)} V{tail}"

    def profile(self, d: Designation) -> Profile:
        """60 degrees, sharp; the tool carries a flat of about a twenty-fifth of the pitch."""
        return Profile(
            flanks=SIXTY, depth=DEPTH, crest_flat=0.0, tool_flat=NOSE, widest_flat=0.125,
            source=say("sharp V form; common practice"),
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Basic sizes, crest and root off the sharp ones by the flat of the tool."""
        return basic_limits(
            d, addendum=DEPTH / 2, root=DEPTH * (1 - NOSE), crest=DEPTH * NOSE,
            source=say("common practice, no source"),
            remarks=(
                say(
                    "No standard gives limits for sharp V threads: the sizes are basic, with a flat of a "
                    "twenty-fifth of the pitch at crest and root, so that no crest burrs and cuts hands. An "
                    "old mate may be sharper in its root or fuller in its crests: keep to it where you have "
                    "it."
                ),
            ),
        )

    def sizes(self) -> Iterable[StandardSize]:
        """The series of the old handbooks."""
        for row in table("sharp_v", __package__):
            yield StandardSize(
                f"{row['size']}-{number_text(float(row['tpi']))} V", float(row["diameter"]),
                1 / float(row["tpi"]), "in", common=False,
            )


FAMILY = SharpV()
