"""Room on the drawing: what is taken, and the first place that is free.

A `Board` knows the drawing's boundary, boxes that nothing may touch (lettering, parts) and lines that
lettering may not sit on. Candidates come in order of preference; the first that is free wins.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from math import inf
from typing import Final

from generator.render.drawing import Box, clipped
from generator.render.lines import Point

AIR: Final = 0.6  # mm kept free around lettering
WIDE: Final = 12.0  # mm, cells of the drawing in which what is taken is looked for
HIGH: Final = 4.0

Run = tuple[Point, ...]


@dataclass
class Board:
    """What is taken. `boundary` is the room of the whole drawing. The lists only ever grow."""

    boundary: Box
    letters: list[Box] = field(default_factory=list)
    parts: list[Box] = field(default_factory=list)
    lines: list[Run] = field(default_factory=list)
    leaders: list[Run] = field(default_factory=list)
    barriers: list[Run] = field(default_factory=list)  # lines that a leader may not cross either
    _taken: Taken = field(default_factory=lambda: Taken(), init=False, repr=False, compare=False)

    def without_barriers(self) -> Board:
        """The same board, shared, on which leaders may cross arrows and dimensions."""
        return Board(self.boundary, self.letters, self.parts, self.lines, self.leaders)

    def lettering_fits(self, box: Box) -> bool:
        """True when lettering in `box` touches nothing."""
        return self.taken().has_room(box.left, box.top, box.right, box.bottom)

    def taken(self) -> Taken:
        """What is taken by now, to try many places against; it holds until something is set."""
        return self._taken.taken_up(self)


_Item = tuple[float, float, float, float, tuple[Point, Point] | None]  # least and largest x, y; a line's ends


class Taken:
    """What is taken, so that a place is compared with what is near it only, and first with what was last hit.

    `cells` are boxes and lines by the cells of the drawing that they reach into; `boxes` what no leader may
    run through, air included; `crossed` the lines that no leader may meet.
    """

    def __init__(self) -> None:
        self.edge = Box(0.0, 0.0, 0.0, 0.0)
        self.counts = [0] * 5
        self.cells: dict[tuple[int, int], list[_Item]] = {}
        self.boxes: list[Box] = []
        self.crossed: list[tuple[float, float, float, float, Point, Point]] = []
        self.last: _Item = (inf, inf, -inf, -inf, None)
        self.last_box = Box(inf, inf, -inf, -inf)

    def taken_up(self, board: Board) -> Taken:
        """The same, with what came on the board since."""
        self.edge, counts = board.boundary, self.counts
        for place, boxes in enumerate((board.letters, board.parts)):
            if len(boxes) != counts[place]:
                for box in boxes[counts[place]:]:
                    self.boxes.append(box.grown(AIR / 2))
                    self._take((box.left, box.top, box.right, box.bottom, None))
                counts[place] = len(boxes)
        for place, runs in enumerate((board.lines, board.leaders, board.barriers), 2):
            if len(runs) != counts[place]:
                for a, b in (pair for run in runs[counts[place]:] for pair in pairwise(run)):
                    bounds = min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])
                    if runs is not board.barriers:
                        self._take((*bounds, (a, b)))
                    if runs is not board.lines:
                        self.crossed.append((*bounds, a, b))
                counts[place] = len(runs)
        return self

    def _take(self, taken: _Item) -> None:
        rows = range(int(taken[1] // HIGH), int(taken[3] // HIGH) + 1)
        for column in range(int(taken[0] // WIDE), int(taken[2] // WIDE) + 1):
            for row in rows:
                self.cells.setdefault((column, row), []).append(taken)

    def has_room(self, left: float, top: float, right: float, bottom: float) -> bool:
        """True when lettering in the rectangle with these edges touches nothing."""
        edge = self.edge
        if left < edge.left or edge.right < right or top < edge.top or edge.bottom < bottom:
            return False
        left, top, right, bottom = left - AIR, top - AIR, right + AIR, bottom + AIR
        x1, y1, x2, y2, line = self.last
        if (
            x1 < right and left < x2 and y1 < bottom and top < y2
            and (line is None or clipped(left, top, right, bottom, *line))
        ):
            return False
        nothing: list[_Item] = []
        rows = range(int(top // HIGH), int(bottom // HIGH) + 1)
        for column in range(int(left // WIDE), int(right // WIDE) + 1):
            for row in rows:
                for taken in self.cells.get((column, row), nothing):
                    x1, y1, x2, y2, line = taken
                    if (
                        x1 < right and left < x2 and y1 < bottom and top < y2
                        and (line is None or clipped(left, top, right, bottom, *line))
                    ):
                        self.last = taken
                        return False
        return True

    def leads(self, run: Run) -> bool:
        """True when a leader runs through no lettering and no part, and meets no other leader or barrier."""
        return all(self._leads(a, b) for a, b in pairwise(run))

    def _leads(self, a: Point, b: Point) -> bool:
        (ax, ay), (bx, by) = a, b
        left, right = (ax, bx) if ax < bx else (bx, ax)
        top, bottom = (ay, by) if ay < by else (by, ay)
        box = self.last_box
        if (
            box.left < right and left < box.right and box.top < bottom and top < box.bottom
            and clipped(box.left, box.top, box.right, box.bottom, a, b)
        ):
            return False
        for box in self.boxes:
            if (
                box.left < right and left < box.right and box.top < bottom and top < box.bottom
                and clipped(box.left, box.top, box.right, box.bottom, a, b)
            ):
                self.last_box = box
                return False
        for x1, y1, x2, y2, c, d in self.crossed:
            if left <= x2 and x1 <= right and top <= y2 and y1 <= bottom and meet(a, b, c, d):
                return False
        return True


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
