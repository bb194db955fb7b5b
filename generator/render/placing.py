"""Room on the drawing: what is taken, and the first place that is free.

A `Board` knows the drawing's boundary, boxes that nothing may touch (lettering, parts) and lines that
lettering may not sit on. Candidates come in order of preference; the first that is free wins.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from generator.render.drawing import Box
from generator.render.lines import Point

AIR: Final = 0.6  # mm kept free around lettering

Run = tuple[Point, ...]


@dataclass
class Board:
    """What is taken. `boundary` is the room of the whole drawing."""

    boundary: Box
    letters: list[Box] = field(default_factory=list)
    parts: list[Box] = field(default_factory=list)
    lines: list[Run] = field(default_factory=list)
    leaders: list[Run] = field(default_factory=list)
    barriers: list[Run] = field(default_factory=list)  # lines that a leader may not cross either

    def without_barriers(self) -> Board:
        """The same board, shared, on which leaders may cross arrows and dimensions."""
        return Board(self.boundary, self.letters, self.parts, self.lines, self.leaders)

    def lettering_fits(self, box: Box) -> bool:
        """True when lettering in `box` touches nothing."""
        if not self.boundary.holds(box):
            return False
        room = box.grown(AIR)
        for taken in (self.letters, self.parts):
            for other in taken:
                if room.overlaps(other):
                    return False
        left, top, right, bottom = room.left, room.top, room.right, room.bottom
        for runs in (self.lines, self.leaders):
            for run in runs:
                for a, b in pairwise(run):
                    (ax, ay), (bx, by) = a, b
                    if (
                        (ax > left or bx > left) and (ax < right or bx < right)
                        and (ay > top or by > top) and (ay < bottom or by < bottom)
                        and room.crossed_by(a, b)
                    ):
                        return False
        return True

    def leader_fits(self, run: Run) -> bool:
        """True when a leader runs through no lettering and no part, and meets no other leader or barrier."""
        return not any(self._runs_through(a, b) or self._meets(a, b) for a, b in pairwise(run))

    def _runs_through(self, a: Point, b: Point) -> bool:
        """True when the line a-b runs through lettering or a part."""
        (left, right), (top, bottom) = sorted((a[0], b[0])), sorted((a[1], b[1]))
        air = AIR / 2
        for taken in (self.letters, self.parts):
            for box in taken:
                if (
                    box.left - air < right and left < box.right + air
                    and box.top - air < bottom and top < box.bottom + air
                    and box.grown(air).crossed_by(a, b)
                ):
                    return True
        return False

    def _meets(self, a: Point, b: Point) -> bool:
        """True when the line a-b meets another leader or a barrier."""
        return any(
            meet(a, b, c, d)
            for runs in (self.leaders, self.barriers) for run in runs for c, d in pairwise(run)
        )


def meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """True when the lines a-b and c-d cross or touch."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return (
        min(a[0], b[0]) <= max(c[0], d[0])
        and min(c[0], d[0]) <= max(a[0], b[0])
        and min(a[1], b[1]) <= max(c[1], d[1])
        and min(c[1], d[1]) <= max(a[1], b[1])
        and side(a, b, c) * side(a, b, d) <= 0
        and side(c, d, a) * side(c, d, b) <= 0
    )
