"""The groove of a thread as the tool's nose cuts it, pass by pass: plane geometry in the axial section.

In reading order: Nose, Groove, groove.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, degrees, sin, sqrt, tan
from typing import Final

from generator.errors import OutsideRange
from generator.language.say import say
from generator.sheet.drawn import ThreadScene
from generator.si import Angle


@dataclass(frozen=True)
class Nose:
    """A threading tool's nose: a flat, or a radius when `radius` is above 0; lengths in one unit throughout.

    `left` and `right` are the angles of its edges from the plane square to the axis (rad), as drawn.
    """

    flat: float
    radius: float
    left: Angle
    right: Angle

    def corner(self, angle: Angle) -> float:
        """Height above the foremost point at which a straight flank begins: R (1 − sin α), or 0."""
        return self.radius * (1 - sin(angle)) if self.radius > 0 else 0.0

    def reach(self, height: float, angle: Angle) -> float:
        """How far the tool reaches to the side of a flank, at a height above its foremost point.

        Flat: F/2 + h tan α. Radius, on the flank: R cos α + (h − R (1 − sin α)) tan α; on the arc:
        sqrt(R² − (R − h)²). Plane geometry, no source needed.

        >>> from math import radians
        >>> round(Nose(0.5, 0.0, radians(30), radians(30)).reach(1.0, radians(30)), 6)    # 0.25 + tan 30
        0.82735
        """
        if self.radius <= 0:
            return self.flat / 2 + height * tan(angle)
        corner = self.corner(angle)
        if height >= corner:
            return self.radius * cos(angle) + (height - corner) * tan(angle)
        return sqrt(max(0.0, self.radius**2 - (self.radius - height) ** 2))

    def width(self, height: float) -> float:
        """The tool's width at a height above its foremost point."""
        return self.reach(height, self.left) + self.reach(height, self.right)

    def outline(self, depth: float, top: float = 0.0) -> list[tuple[float, float]]:
        """The groove at a depth, left to right: (distance from its center, depth below the blank).

        `top` is how far below the blank the groove begins, where the blank is cut away over it.
        """
        left = [(-x, y) for x, y in self._side(depth, top, self.left)]
        right = [(x, y) for x, y in reversed(self._side(depth, top, self.right)) if x != 0]
        return left + right

    def _side(self, depth: float, top: float, angle: Angle) -> list[tuple[float, float]]:
        high = depth - top
        heights = [high, 0.0]
        if self.radius > 0:
            heights = [high, *(self.corner(angle) * share for share in _ARC)]
        return [(self.reach(height, angle), depth - height) for height in heights if height <= high]


_ARC: Final = tuple((1 - step / 10) ** 2 for step in range(11))


@dataclass(frozen=True)
class Groove:
    """The groove and its passes; lengths in one unit throughout, depths radial, +x towards the tailstock."""

    pitch: float
    depth: float
    nose: Nose
    infeed_angle: Angle
    way: int  # +1: the compound feeds towards the headstock, so early passes lie towards the tailstock

    @property
    def crest_flat(self) -> float:
        """What is left of the blank between two grooves: P − its width at full depth, or 0."""
        return max(self.pitch - self.nose.width(self.depth), 0.0)

    @property
    def crest_below(self) -> float:
        """How far below the blank two grooves meet: what is over it is cut away, and the crest is sharp."""
        too_wide = self.nose.width(self.depth) - self.pitch
        tangents = tan(self.nose.left) + tan(self.nose.right)
        return too_wide / tangents if too_wide > 0 and tangents else 0.0

    def center(self, depth: float) -> float:
        """Where the nose stands along the axis at a depth: way × (full depth − depth) × tan(infeed angle)."""
        return self.way * (self.depth - depth) * tan(self.infeed_angle)

    def outline(self, depth: float, top: float = 0.0) -> list[tuple[float, float]]:
        """The groove after the pass at this depth, left to right; `top` as for the nose."""
        center = self.center(depth)
        return [(center + x, y) for x, y in self.nose.outline(depth, top)]


def groove(scene: ThreadScene) -> Groove:
    """The groove of a scene, in m.

    Raises
    ------
    OutsideRange
        When the infeed angle is wider than the angle of the flank behind (it would come out stepped).
    """
    towards_chuck, towards_tailstock = scene.flanks
    behind = towards_tailstock if scene.feed_towards == "headstock" else towards_chuck
    if scene.infeed_angle > behind + 1e-9:
        raise OutsideRange(
            say("infeed angle"),
            degrees(scene.infeed_angle),
            0.0,
            degrees(behind),
            say("plane geometry: beyond the angle of the following flank it is left stepped"),
            "°",
        )
    nose = Nose(scene.nose_flat, scene.nose_radius, towards_chuck, towards_tailstock)
    way = 1 if scene.feed_towards == "headstock" else -1
    return Groove(scene.pitch, scene.depth, nose, scene.infeed_angle, way)
