"""The line language of the drawings: kinds of line, and outlines of parts that stand beside the work.

Two widths, wide and narrow in the ratio 2:1, set once in css/drawing.css by the class of the line:

    visible   continuous wide                   the work: edges, crests, end of full thread (ISO 128-2: 01.2)
    thin      continuous narrow                 roots, dimensions, leaders, hatching, passes, breaks (01.1)
    hidden    dashed narrow                     bore, grip inside the jaws (02.1)
    center    long-dashed dotted narrow         spindle axis, axes of holes (04.1)
    chain     long-dashed dotted wide           a length that needs care (04.2)
    phantom   long-dashed double-dotted narrow  what holds or cuts, end positions, stock before cutting (05.1)

Source: ISO 128-2:2022 line types by number, ASME Y14.2-2014 names (both as textbooks quote them).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, cos, hypot, sin
from typing import Final, Literal

Point = tuple[float, float]
LineKind = Literal["visible", "thin", "center", "phantom", "chain", "hidden"]

WIDE: Final = 0.5  # mm; ISO 128-2 line group 0.5
SHORT_EDGE: Final = (
    10.0  # mm; below it a long-dashed double-dotted line looks broken: common practice, no source
)
BREAK_GAP: Final = 2.0  # mm between the two lines of a long break: common practice, no source
_ZIG: Final = 1.6  # mm, half height of the zigzag
_ZAG: Final = 0.9  # mm, half width of the zigzag
_CHORD: Final = 0.35  # rad, longest step of an arc drawn as chords


def edges(corners: Sequence[Point], closed: bool = True) -> list[tuple[LineKind, tuple[Point, Point]]]:
    """Edges of an adjacent part, each a line of its own: phantom when long, continuous narrow when short.

    >>> [kind for kind, _ in edges([(0, 0), (20, 0), (20, 5)], closed=False)]
    ['phantom', 'thin']
    """
    ends = list(pairwise(corners))
    if closed:
        ends.append((corners[-1], corners[0]))
    return [("phantom" if hypot(b[0] - a[0], b[1] - a[1]) >= SHORT_EDGE else "thin", (a, b)) for a, b in ends]


def zigzag(start: Point, end: Point) -> list[Point]:
    """A long-break line from `start` to `end`, upright or level, with its zigzag in the middle."""
    (x1, y1), (x2, y2) = start, end
    length = hypot(x2 - x1, y2 - y1)
    along = ((x2 - x1) / length, (y2 - y1) / length)
    across = (-along[1], along[0])
    rise = min(_ZIG, length / 4)

    def at(s: float, t: float) -> Point:
        return (x1 + s * along[0] + t * across[0], y1 + s * along[1] + t * across[1])

    middle = length / 2
    return [
        start,
        at(middle - rise, 0),
        at(middle - rise / 3, _ZAG),
        at(middle + rise / 3, -_ZAG),
        at(middle + rise, 0),
        end,
    ]


def arc(center: Point, radius_x: float, radius_y: float, start: float, sweep: float) -> list[Point]:
    """Points along an arc of an ellipse; angles in rad, counted from +x towards +y (down on paper)."""
    steps = max(2, ceil(abs(sweep) / _CHORD * max(1.0, max(radius_x, radius_y) / 4)))
    return [
        (
            center[0] + radius_x * cos(start + sweep * i / steps),
            center[1] + radius_y * sin(start + sweep * i / steps),
        )
        for i in range(steps + 1)
    ]
