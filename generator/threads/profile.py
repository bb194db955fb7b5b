"""The shape of a thread's groove: flanks, crest, root, taper, and the tool that the form asks for."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.si import Angle


@dataclass(frozen=True)
class Profile:
    """The form of one thread; lengths as shares of its pitch, angles in rad from the plane across the axis.

    The groove is half a pitch wide at the pitch line. `load_flank` carries the load, `clearance_flank` is
    the other one; they differ in buttress threads only. `depth` is the radial depth of the groove from the
    basic crest to the basic root. `crest_flat` is the axial width of the basic crest (0 where it is round,
    then `crest_radius`). `tool_flat` or `tool_radius` is the nose taken when the tool's is not known.
    Outside, a nose wider than `widest_flat` leaves the root too shallow; a nose rounder than
    `least_radius` is asked for where that is above 0. `infeed` is the usual angle of the compound from the
    cross-slide direction. `taper` is taper on diameter over length, 0 for a parallel thread.
    `source` names the standard of the form.
    """

    load_flank: Angle
    clearance_flank: Angle
    depth: float
    crest_flat: float
    tool_flat: float
    source: str
    infeed: Angle
    crest_radius: float = 0.0
    tool_radius: float = 0.0
    widest_flat: float = 0.25
    least_radius: float = 0.0
    taper: float = 0.0

    @property
    def symmetrical(self) -> bool:
        """True when both flanks lean alike."""
        return math.isclose(self.load_flank, self.clearance_flank, abs_tol=1e-12)

    @property
    def square(self) -> bool:
        """True when neither flank leans: depth then does not move the pitch diameter."""
        return self.load_flank == self.clearance_flank == 0.0

    @property
    def included_angle(self) -> Angle:
        """Angle between the flanks, that a tool is ground to (rad)."""
        return self.load_flank + self.clearance_flank

    @property
    def half_angle(self) -> Angle:
        """The half angle of the symmetrical groove that widens as fast with depth (rad).

        tan A = (tan load flank + tan clearance flank) / 2; the half angle itself where both lean alike
        """
        if self.symmetrical:
            return self.load_flank
        return math.atan((math.tan(self.load_flank) + math.tan(self.clearance_flank)) / 2)


SIXTY = math.radians(30)  # half of 60 degrees: ASME B1.1, ISO 68-1


def usual_infeed(half_angle: Angle) -> Angle:
    """Half a degree under the half angle, so that the trailing flank is shaved too.

    >>> round(math.degrees(usual_infeed(SIXTY)), 1)
    29.5

    Source: common practice, no source.
    """
    return max(half_angle - math.radians(0.5), 0.0)
