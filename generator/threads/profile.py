"""The shape of a thread's groove: flanks, crest, root, taper, and the tool that the form asks for."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.calc.flanks import Flanks
from generator.calc.wire_choice import usable_wires
from generator.language.say import later
from generator.si import Angle, Length


@dataclass(frozen=True)
class Profile:
    """The form of one thread; lengths as shares of its pitch, angles in rad from the plane across the axis.

    The groove is half a pitch wide at the pitch line. `flanks` differ in buttress threads only. `depth` is
    the radial depth of the groove from the basic crest to the basic root; `crest_height` is the part of it
    above the pitch line, None where that is half of it. `crest_flat` is the axial width of the basic crest
    (0 where it is round, then `crest_radius`). `tool_flat` or `tool_radius` is the nose taken when the
    tool's is not known. Outside, a nose wider than `widest_flat` leaves the root too shallow; a nose rounder
    than `least_radius` is asked for where that is above 0. `taper` is taper on diameter over length, 0 for a
    parallel thread. `source` names the standard of the form.
    """

    flanks: Flanks
    depth: float
    crest_flat: float
    tool_flat: float
    source: str
    crest_radius: float = 0.0
    tool_radius: float = 0.0
    widest_flat: float = 0.25
    least_radius: float = 0.0
    taper: float = 0.0
    crest_height: float | None = None

    @property
    def addendum(self) -> float:
        """Radial distance from the pitch line to the basic external crest, over the pitch."""
        return self.depth / 2 if self.crest_height is None else self.crest_height

    @property
    def square(self) -> bool:
        """True when neither flank leans: depth then does not move the pitch diameter."""
        return self.flanks.square

    @property
    def wires_measure(self) -> bool:
        """True where wires or balls rest on the flanks of its groove, all along the thread alike."""
        return not self.flanks.square and not self.taper

    def usable_wires(self, pitch: Length, below: Length | None = None) -> tuple[Length, Length]:
        """Smallest and largest wire to measure an external thread over (m).

        `below` is how deep its root lies under the pitch line (m); None takes the basic root.
        """
        basic = self.depth - self.addendum
        root = basic if below is None else below / pitch
        return usable_wires(pitch, self.flanks, self.addendum, root, self.crest_radius)

    def usable_balls(self, pitch: Length, inside: Length, beyond: Length) -> tuple[Length, Length]:
        """Smallest and largest ball to measure an internal thread between (m).

        `inside` is how far within the pitch line its crests lie, `beyond` how far outside it its root (m).
        """
        return usable_wires(pitch, self.flanks, inside / pitch, beyond / pitch, self.crest_radius)

    @property
    def infeed(self) -> Angle:
        """Usual angle of the compound from the cross-slide direction (rad); 0 for a square thread.

        Half a degree under the half angle, so that the trailing flank is shaved too. A buttress tool is fed
        along the clearance flank: its steep side then cuts the flank that carries the load clean.

        >>> round(math.degrees(WHITWORTH.infeed), 1)
        27.0

        Source: common practice, no source.
        """
        return max(self.flanks.clearance - math.radians(0.5), 0.0)

    @property
    def half_angle(self) -> Angle:
        """Half angle of the groove (rad); of a buttress thread, that of the groove that widens as fast."""
        return self.flanks.half_angle


SIXTY = Flanks.alike(math.radians(30))  # ASME B1.1, ISO 68-1
THREE_EIGHTHS = 0.32475953  # 3H/8 over the pitch, of 60 degrees: ASME B1.1, ISO 68-1


WHITWORTH = Profile(  # Machinery's Handbook, 31st ed., p. 2087, table 2: threads of Whitworth form
    flanks=Flanks.alike(math.radians(27.5)), depth=0.640327, crest_flat=0.0, crest_radius=0.137329,
    tool_flat=1 / 6, tool_radius=0.137329, widest_flat=1 / 6,
    source=later("Whitworth form, BS 84"),
)
