"""A finished drawing as inline SVG.

svg           the drawing as an element
path_data     runs of straight lines as path data, as short as they can be written
thinned       a run without the points that no eye can tell from a straight line
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot
from typing import Final

from jinja2 import Environment
from markupsafe import Markup

from generator.render.drawing import LETTER, Circle, Drawing, Text
from generator.render.lines import Point

UNSEEN: Final = 0.015  # mm on paper: less than a tenth of a narrow line
_UNITS: Final = 100  # in a millimetre: drawings are rounded to 0.01 mm
_PLAIN: Final = Text("", (0.0, 0.0), LETTER, "").size


@dataclass(frozen=True)
class Lettering:
    """One line of lettering: where it stands, and its size where that is not the usual one."""

    text: str
    place: str
    width: str
    size: str


def svg(drawing: Drawing, env: Environment) -> Markup:
    """The drawing as an `<svg>` element; 1 user unit is 1 mm on paper, line widths are in css/drawing.css.

    All lines of a kind are one path: every line of a drawing has the same colour, so none covers another.
    """
    kinds = dict.fromkeys(line.kind for line in drawing.lines)
    return Markup(
        env.get_template("sheet/drawing.svg").render(
            drawing=drawing,
            width=_short(_units(drawing.width)),
            height=_short(_units(drawing.height)),
            size=_plain(_PLAIN),
            lines=[
                (kind, path_data(thinned(line.points) for line in drawing.lines if line.kind == kind))
                for kind in kinds
            ],
            circles=[(_look(one), *map(_plain, (*one.center, one.radius))) for one in drawing.circles],
            fills=path_data((fill.points for fill in drawing.fills), closed=True),
            texts=[_lettering(text) for text in drawing.texts],
        )
    )


def _look(circle: Circle) -> str:
    return "dot" if circle.filled else circle.kind


def _lettering(text: Text) -> Lettering:
    x, y = map(_plain, text.at)
    place = f'transform="translate({x} {y}) rotate(-90)"' if text.upright else f'x="{x}" y="{y}"'
    size = "" if text.size == _PLAIN else _plain(text.size)
    return Lettering(text.text, Markup(place), _plain(text.width), size)


def path_data(runs: Iterable[Sequence[Point]], closed: bool = False) -> str:
    """Runs of straight lines as SVG path data (SVG 2, 9.3): steps from point to point, to 0.01 mm.

    >>> path_data([[(0, 0), (1.5, 0), (1.5, -0.25)], [(2, 2), (3.01, 2.5)]])
    'M0 0h1.5v-.25m.5 2.25l1.01.5'
    """
    said: list[str] = []
    at = (0, 0)
    for run in runs:
        points = [(_units(x), _units(y)) for x, y in run]
        start = points[0]
        said.append(f"{'m' if said else 'M'}{_pair(start[0] - at[0], start[1] - at[1])}")
        at, last = start, ""
        for x, y in points[1:]:
            dx, dy = x - at[0], y - at[1]
            if not dx and not dy and len(points) > 2:
                continue
            if not dy:
                letter, step = "h", _short(dx)
            elif not dx:
                letter, step = "v", _short(dy)
            else:
                letter, step = "l", _pair(dx, dy)
            between = letter if letter != last else "" if step[0] == "-" else " "
            said.append(between + step)
            at, last = (x, y), letter
        if closed:
            said.append("z")
            at = start
    return "".join(said)


def thinned(run: Sequence[Point], within: float = UNSEEN) -> Sequence[Point]:
    """The run with the fewest points that keeps within so many mm of every point left out.

    Source: Douglas and Peucker, Algorithms for the reduction of the number of points required to represent a
    digitized line or its caricature (1973).
    """
    if len(run) < 3:
        return run
    (ax, ay), (bx, by) = run[0], run[-1]
    length = hypot(bx - ax, by - ay)

    def off(point: Point) -> float:
        x, y = point[0] - ax, point[1] - ay
        along = (x * (bx - ax) + y * (by - ay)) / length if length else 0.0
        if not 0 < along < length:  # it goes beyond an end: a corner, however sharp
            return min(hypot(x, y), hypot(point[0] - bx, point[1] - by)) if length else hypot(x, y)
        return abs(x * (by - ay) - y * (bx - ax)) / length

    far = max(range(1, len(run) - 1), key=lambda place: off(run[place]))
    if off(run[far]) <= within:
        return (run[0], run[-1])
    return (*thinned(run[: far + 1], within), *thinned(run[far:], within)[1:])


def _units(number: float) -> int:
    return round(number * _UNITS)


def _plain(number: float) -> str:
    return _short(_units(number))


def _pair(x: int, y: int) -> str:
    first, second = _short(x), _short(y)
    glued = second[0] == "-" or (second[0] == "." and "." in first)
    return f"{first}{second}" if glued else f"{first} {second}"


def _short(units: int) -> str:
    """Hundredths as a number without zeros that say nothing.

    >>> _short(-50), _short(1250), _short(0)
    ('-.5', '12.5', '0')
    """
    whole, part = divmod(abs(units), _UNITS)
    text = f"{whole or ''}{f'.{part:02d}'.rstrip('0') if part else ''}" or "0"
    return f"-{text}" if units < 0 else text
