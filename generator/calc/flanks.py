"""How the two flanks of a thread groove lean: alike in most threads, not in buttress threads."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle


@dataclass(frozen=True)
class Flanks:
    """Angles of both flanks from the plane square to the axis (rad).

    `load` carries the load, `clearance` is the other one. Both are 0 in a square thread.

    Raises
    ------
    OutsideRange
        For an angle below 0, or of 90 degrees and more.

    Examples
    --------
    ASME B1.9 buttress, 7 and 45 degrees:

    >>> round(Flanks(math.radians(7), math.radians(45)).tangents, 6)
    1.122785
    """

    load: Angle
    clearance: Angle

    def __post_init__(self) -> None:
        for angle in (self.load, self.clearance):
            if not 0 <= angle < math.pi / 2:
                raise OutsideRange(
                    say("flank angle"),
                    math.degrees(angle),
                    0.0,
                    90.0,
                    say("geometry of a thread groove"),
                    "degrees",
                )

    @classmethod
    def alike(cls, half_angle: Angle) -> Flanks:
        """Both flanks at the half angle.

        >>> Flanks.alike(0.5)
        Flanks(load=0.5, clearance=0.5)
        """
        return cls(half_angle, half_angle)

    @property
    def symmetrical(self) -> bool:
        """True when both lean alike."""
        return math.isclose(self.load, self.clearance, abs_tol=1e-12)

    @property
    def square(self) -> bool:
        """True when neither leans: depth then does not change the width of the groove."""
        return self.load == self.clearance == 0.0

    @property
    def included(self) -> Angle:
        """Angle between the flanks, that a tool is ground to (rad)."""
        return self.load + self.clearance

    @property
    def tangents(self) -> float:
        """What the groove widens for a unit of depth: tan load + tan clearance."""
        return math.tan(self.load) + math.tan(self.clearance)

    def across(self, lead_angle: Angle) -> Flanks:
        """The flanks as they lean in the section square to the groove: tan A' = tan A cos B.

        Tr threads of 15 degrees at a lead angle of 20 degrees; the tool is ground to it:

        >>> round(math.degrees(Flanks.alike(math.radians(15)).across(math.radians(20)).load), 2)
        14.13

        Source: geometry of the helix.
        """
        narrower = math.cos(lead_angle)
        return Flanks(
            math.atan(math.tan(self.load) * narrower), math.atan(math.tan(self.clearance) * narrower)
        )

    @property
    def half_angle(self) -> Angle:
        """Half angle of the symmetrical groove that widens as fast with depth (rad)."""
        return self.load if self.symmetrical else math.atan(self.tangents / 2)

    @property
    def seat(self) -> float:
        """Height of the center of a circle on both flanks above the sharp bottom, over its radius.

        cos((load - clearance)/2) / sin((load + clearance)/2);  1 / sin A where both are A

        >>> round(Flanks.alike(math.radians(30)).seat, 9)
        2.0

        Source: geometry of a circle that touches both flanks.
        """
        return math.cos((self.load - self.clearance) / 2) / math.sin(self.included / 2)
