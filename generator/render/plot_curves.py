"""Which points of a plot's curves are drawn: those that are known, and lie on the plot.

    finite      the points that are known
    runs_of     the curve in one piece, or broken where it has no value
    highest     the largest value that stays on the plot
    below       runs without what lies above its upper edge
"""

from __future__ import annotations

from collections.abc import Iterable
from math import inf, isfinite
from typing import Final

from generator.render.lines import Point
from generator.sheet.drawn import Curve, PlotScene

FAR_OVER: Final = 10.0  # times its limit: a curve that goes further runs off the plot
SHOWN_OVER: Final = 6.0  # times the limit that stay on it then: common practice, no source


def finite(curve: Curve) -> Iterable[tuple[float, float]]:
    """The points of a curve that are known (SI)."""
    return ((x, y) for x, y in curve.points if isfinite(x) and isfinite(y))


def runs_of(curve: Curve) -> list[list[tuple[float, float]]]:
    """The curve in one piece, or broken where it has no finite value."""
    runs: list[list[tuple[float, float]]] = [[]]
    for point in curve.points:
        if all(map(isfinite, point)):
            runs[-1].append(point)
        elif runs[-1]:
            runs.append([])
    return [run for run in runs if run]


def below(top: float, runs: Iterable[list[Point]]) -> Iterable[list[Point]]:
    """Runs of points on paper without what lies above the upper edge of the plot."""
    for run in runs:
        part: list[Point] = []
        for (ax, ay), (bx, by) in zip(run, [*run[1:], run[-1]], strict=True):
            if ay >= top - 1e-9:
                part.append((ax, ay))
            if min(ay, by) < top - 1e-9 <= max(ay, by):
                part.append((ax + (bx - ax) * (top - ay) / (by - ay), top))
                if by < top - 1e-9:
                    yield part
                    part = []
        if part:
            yield part


def highest(scene: PlotScene) -> float:
    """The largest value that stays on the plot (SI): all of them, unless they leave the limits far below."""
    limits = [y for curve in scene.curves if curve.kind == "limit" for _, y in finite(curve)]
    others = [y for curve in scene.curves if curve.kind != "limit" for _, y in finite(curve)]
    most = max(limits, default=0.0)
    if most > 0 and max(others, default=0.0) > FAR_OVER * most and min(others) < SHOWN_OVER * most:
        return SHOWN_OVER * most
    return inf
