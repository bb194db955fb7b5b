"""Metric saw-tooth threads S, 3 and 30 degrees, 0.75 pitch of engagement (DIN 513)."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import replace

from generator.calc.flanks import Flanks
from generator.language.say import later
from generator.tables.rows import table
from generator.threads.designation import Designation
from generator.threads.families.sawtooth.limits import sawtooth_limits
from generator.threads.families.sawtooth.reading import parse_sawtooth
from generator.threads.family import Family, StandardSize
from generator.threads.heads import metric_front
from generator.threads.profile import Profile
from generator.threads.sizes import ThreadLimits
from generator.threads.text import Written

LOAD, CLEARANCE = math.radians(3), math.radians(30)
CREST_FLAT, ROOT_RADIUS = 0.26384, 0.12427  # over the pitch: DIN 513-1
MATES = {"h": "AZ", "e": "H", "c": "H", "AZ": "h", "H": "e"}


class SawTooth(Family):
    """Metric saw-tooth threads."""

    key = "S"
    name = later("Metric saw-tooth (buttress) threads")
    standard = "DIN 513"
    examples = ("S48x8-7h", "S40x14(P7)-7h", "S48x8-7AZ", "S60x9LH-7e")
    order = 25

    def claims(self, text: Written) -> bool:
        """S and a number, or the number of the standard."""
        return re.match(r"S\s*[\d.]", text.upper, re.ASCII) is not None or re.search(
            r"\bDIN\s*513\b|SAW[- ]?TOOTH", text.upper
        ) is not None

    def read(self, text: Written) -> Designation:
        """S, diameter, pitch, hand, class."""
        return parse_sawtooth(text)

    def write(self, d: Designation) -> str:
        """As the standard: ``S48x8LH-7h``."""
        hand = "LH" if d.hand == "left" else ""
        return f"S{metric_front(d.nominal_text, d.pitch, d.lead)}{hand}-{d.class_}"

    def profile(self, d: Designation) -> Profile:
        """3 degrees carry the load, 30 degrees clear; round root on the screw, flat root in the nut.

        The nut's groove is wider than the screw's ridge by the axial play 0.1 √P mm where the play lies in
        the nut (AZ).
        """
        play = 0.1 / math.sqrt(d.pitch) if d.class_.endswith("AZ") else 0.0
        return Profile(
            flanks=Flanks(LOAD, CLEARANCE), depth=0.75 if d.internal else 0.86777, crest_height=0.375,
            crest_flat=CREST_FLAT, tool_flat=CREST_FLAT + play, widest_flat=CREST_FLAT,
            tool_radius=0.0 if d.internal else ROOT_RADIUS, least_radius=0.0 if d.internal else ROOT_RADIUS,
            source="DIN 513-1",
        )

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Grades 7 to 9; h, e, c outside, AZ and H inside."""
        return sawtooth_limits(d, engagement)

    def mate(self, d: Designation) -> Designation:
        """The same grade; the play is in the nut (h with AZ) or on the screw (e, c with H)."""
        return replace(
            d, text="", class_=d.class_[0] + MATES[d.class_[1:]], class_assumed=True,
            side=d.other_side, side_assumed=False,
        )

    def sizes(self) -> Iterable[StandardSize]:
        """The preferred diameters and pitches."""
        for row in table("sawtooth_series", __package__):
            for pitch in row["pitches"].split():
                yield StandardSize(
                    f"S{row['diameter']}x{pitch}-7h", float(row["diameter"]), float(pitch), "mm",
                    common=pitch == row["usual"],
                )


FAMILY = SawTooth()
