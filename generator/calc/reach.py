"""Does the tool get from start to end of a cut before anything that travels with it meets anything?

Everything is an interval along the bed, x in m towards the tailstock, at one of two heights: at the bed
(carriage against headstock, steady base, tailstock) and at center height (tool, compound, follow rest
against jaws, steady fingers, quill, tailstock). In reading order: Part, Obstacle, Meeting, tool_path,
meetings, in_path, swung.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf, sin
from typing import Literal

from generator.si import Angle, Length

Level = Literal["bed", "center height"]
Side = Literal["left", "right"]


@dataclass(frozen=True)
class Part:
    """What travels with the tool: how far it reaches from the tool's point towards chuck and tailstock (m).

    None is not known. A negative reach lies wholly on the other side of the point, as the carriage does
    behind a long boring bar.
    """

    name: str
    level: Level
    left: Length | None = None
    right: Length | None = None

    def reach(self, side: Side) -> Length | None:
        """The reach on one side (m)."""
        return self.left if side == "left" else self.right


@dataclass(frozen=True)
class Obstacle:
    """What stands still, from `start` to `end` (m); either end may be infinite."""

    name: str
    level: Level
    start: Length = -inf
    end: Length = inf


@dataclass(frozen=True)
class Meeting:
    """How far a part stays from an obstacle at the worst point of a cut (m); negative where they meet.

    `edge` is the tool's place there (m), `reach` the part's on that side, `face` the obstacle's near face.
    """

    part: str
    obstacle: str
    side: Side
    edge: Length
    reach: Length
    face: Length

    @property
    def clearance(self) -> Length:
        """Room left between part and obstacle (m), negative when they meet.

        Left: ``edge - reach - face``; right: ``face - (edge + reach)``.
        """
        return (self.edge - self.face if self.side == "left" else self.face - self.edge) - self.reach


def tool_path(start: Length, end: Length) -> tuple[Length, Length]:
    """Leftmost and rightmost place of the tool's point in a cut (m), whichever way it runs.

    Examples
    --------
    >>> tool_path(11.5, 9.0)
    (9.0, 11.5)
    """
    return (min(start, end), max(start, end))


def meetings(
    start: Length, end: Length, parts: Iterable[Part], obstacles: Iterable[Obstacle]
) -> list[Meeting]:
    """Every part against every obstacle at its height, over one cut, the tightest first.

    The part covers ``[x - left, x + right]`` while the tool's point x goes from `start` to `end`; what it
    sweeps is ``[min(x) - left, max(x) + right]``. An obstacle that the tool's point does not pass lies wholly
    left or right of its path; only the sweep on that side can meet it.

    Parameters
    ----------
    start, end : m
        Where the tool's point begins and ends, either way round.
    parts, obstacles
        What travels and what stands; reaches that are not known are left out.

    Returns
    -------
    list of Meeting
        Sorted by clearance. An obstacle in the tool's own path is left out: see `in_path`.

    Notes
    -----
    Plane intervals; parts are taken to be as wide across the bed as the obstacle, so that what passes beside
    it in truth is still named. No range given.

    Source
    ------
    Geometry.

    Examples
    --------
    The tool ends 4 from the jaws, the carriage reaches 3 left of it; the steady base ends at 0.5:

    >>> near = meetings(8, 4, [Part("carriage", "bed", 3, 6)], [Obstacle("steady", "bed", -0.5, 0.5)])
    >>> [(one.side, one.clearance) for one in near]
    [('left', 0.5)]
    """
    low, high = tool_path(start, end)
    standing = list(obstacles)
    found = []
    for part in parts:
        for obstacle in standing:
            if obstacle.level != part.level:
                continue
            if obstacle.end <= low and part.left is not None:
                found.append(Meeting(part.name, obstacle.name, "left", low, part.left, obstacle.end))
            elif obstacle.start >= high and part.right is not None:
                found.append(Meeting(part.name, obstacle.name, "right", high, part.right, obstacle.start))
    return sorted(found, key=lambda one: one.clearance)


def in_path(start: Length, end: Length, obstacles: Iterable[Obstacle]) -> list[Obstacle]:
    """Obstacles that the tool's own point would run into.

    Examples
    --------
    >>> [one.name for one in in_path(8, 2, [Obstacle("steady", "bed", 3, 4), Obstacle("jaws", "bed", end=0)])]
    ['steady']
    """
    low, high = tool_path(start, end)
    return [one for one in obstacles if one.start < high and low < one.end]


def swung(length: Length, angle: Angle) -> Length:
    """How far the compound reaches along the bed when set over: at least its middle line.

    ``reach = length x sin(angle)``

    Parameters
    ----------
    length : m
        From the tool's point to the end of the compound, along the compound.
    angle : rad
        From the cross-slide direction: 0 is across the bed, a quarter turn along it.

    Returns
    -------
    float
        Reach along the bed (m), for a compound without width; with its width it reaches further.

    Notes
    -----
    0 to a quarter turn.

    Source
    ------
    Geometry of the right triangle.

    Examples
    --------
    >>> from math import radians
    >>> round(swung(10.0, radians(30)), 6)
    5.0
    """
    return length * sin(abs(angle))
