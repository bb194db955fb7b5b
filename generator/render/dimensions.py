"""Dimensions, leaders and item numbers as in ISO 129-1 and ISO 6433: arrowheads 3:1, text above the line.

dimension_text    a length as it is written on a drawing, second unit in brackets
Dimension         a dimension along the axis; `lay_along` sets a stack of them, shortest nearest the work
place_leader      a note on a leader
place_item        an item number in a circle on a leader
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin
from typing import Final

from generator.render.drawing import LARGE_LETTER, LETTER, Box, Canvas, Circle, Fill, Text, text_width
from generator.render.formats import digits, tidied
from generator.render.lines import Point
from generator.render.placing import AIR, Board, Run
from generator.sheet.figure import System
from generator.si import Length, inch, mm

ARROW: Final = 2.5  # mm long; a third of it wide (ASME Y14.2: filled, 3:1)
ARROW_HALF: Final = ARROW / 6
FIRST_LINE: Final = 10.0  # mm from the outline to the first dimension line (ASME Y14.5)
NEXT_LINE: Final = 6.0  # mm between dimension lines (ASME Y14.5)
OVERRUN: Final = 1.5  # mm of extension line past the dimension line: common practice, no source
ABOVE: Final = 0.9  # mm between a line and the lettering on it
TAIL: Final = 6.0  # mm of dimension line outside, where the arrows come from outside
ITEM_RADIUS: Final = 2.9  # mm


def dimension_text(length: Length, system: System, fine: bool = False) -> str:
    """A length on a drawing: inch without leading zero, mm with one, the second unit in brackets.

    >>> dimension_text(2.75 * inch, "inch"), dimension_text(0.1875 * inch, "inch")
    ('2.750 [69.85]', '.1875 [4.76]')
    >>> dimension_text(40 * mm, "mm"), dimension_text(0.5 * mm, "mm")
    ('40 [1.575]', '0.5 [.020]')
    """
    first, second = (_inches, _millimetres) if system == "inch" else (_millimetres, _inches)
    return f"{first(length, fine, True)} [{second(length, fine, False)}]"


def _inches(length: Length, fine: bool, own: bool) -> str:
    value = length / inch
    text = digits(value, 4 if fine or (own and abs(value - round(value, 3)) > 5e-5) else 3)
    return text.removeprefix("0") if text.startswith("0.") else text  # German keeps the 0 before its comma


def _millimetres(length: Length, fine: bool, own: bool) -> str:
    return tidied(digits(length / mm, 3 if fine else 2))


def arrowhead(canvas: Canvas, part: str, tip: Point, tail: Point) -> None:
    """An arrowhead at `tip` on a line that comes from `tail`."""
    dx, dy = tip[0] - tail[0], tip[1] - tail[1]
    length = hypot(dx, dy)
    ux, uy = dx / length, dy / length
    x, y = tip[0] - ARROW * ux, tip[1] - ARROW * uy
    corners = (tip, (x - ARROW_HALF * uy, y + ARROW_HALF * ux), (x + ARROW_HALF * uy, y - ARROW_HALF * ux))
    canvas.fills.append(Fill(corners, part))


@dataclass(frozen=True)
class Dimension:
    """A dimension from x1 to x2 (mm of paper, x1 < x2); the extension lines begin at y1 and y2."""

    x1: float
    x2: float
    y1: float
    y2: float
    text: str
    name: str


@dataclass(frozen=True)
class _Set:
    level: int
    line: tuple[float, float]
    letters: Box
    inside: bool


def lay_along(
    canvas: Canvas,
    board: Board,
    dimensions: Sequence[Dimension],
    base: float,
    part: str = "dimension",
    side: int = -1,
) -> bool:
    """Set dimensions in lines from `base` outwards (up, or down with `side` 1); False when there is no room.

    Shortest nearest the work. No lettering sits on the extension line of a dimension further out; two
    dimensions share a line when neither touches the other.
    """
    waiting = sorted(dimensions, key=lambda one: (one.x2 - one.x1, one.x1))
    done: list[tuple[Dimension, _Set]] = []
    while waiting:
        one = waiting.pop(0)
        outer = [x for other in waiting for x in (other.x1, other.x2)]
        found = _first_set(one, outer, done, board, base, side, part)
        if found is None:
            return False
        done.append((one, found))
        board.letters.append(found.letters)
    for one, place in done:
        _draw_along(canvas, board, one, place, base + side * NEXT_LINE * place.level, side, part)
    return True


def _first_set(
    one: Dimension,
    outer: Iterable[float],
    done: Sequence[tuple[Dimension, _Set]],
    board: Board,
    base: float,
    side: int,
    part: str,
) -> _Set | None:
    """The lowest level at which a dimension finds room for its line and its lettering."""
    width = text_width(one.text)
    span = one.x2 - one.x1
    fits = span >= width + 2 * ARROW + 1.0
    starts: list[float] = []
    if fits:
        room = span - width - 2 * ARROW - 1.0
        starts += [
            one.x1 + ARROW + 0.5 + room * share for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.15, 0.85, 0.0, 1.0)
        ]
    starts += [one.x2 + ARROW + 1.5, one.x1 - ARROW - 1.5 - width]
    outer = list(outer)
    starts += sorted(x + 1.0 for x in outer if x > one.x2)
    further = sorted((x - 1.0 - width for x in outer if x < one.x1), reverse=True)
    levels = range(len(done) + 1)
    for level, tried in (*((level, starts) for level in levels), *((level, further) for level in levels)):
        y = base + side * NEXT_LINE * level
        for start in tried:
            inside = fits and one.x1 <= start <= one.x2
            letters = Text(one.text, (start, y - ABOVE), LETTER, part).box
            line = (
                (one.x1, one.x2)
                if inside
                else (
                    min(one.x1 - (0 if span > 3 * ARROW else TAIL), start - 0.5),
                    max(one.x2 + (0 if span > 3 * ARROW else TAIL), start + width + 0.5),
                )
            )
            if (
                board.lettering_fits(letters)
                and not any(letters.left - AIR < x < letters.right + AIR for x in outer)
                and not any(_clash(level, line, letters, one, other, place) for other, place in done)
            ):
                return _Set(level, line, letters, inside)
    return None


def _clash(
    level: int, line: tuple[float, float], letters: Box, one: Dimension, other: Dimension, place: _Set
) -> bool:
    """True when a dimension at a level would touch one that is set already."""
    if level == place.level and line[0] < place.line[1] - 0.01 and place.line[0] + 0.01 < line[1]:
        return True
    if place.level >= level and any(
        letters.left - AIR < x < letters.right + AIR for x in (other.x1, other.x2)
    ):
        return True
    return level >= place.level and any(
        place.letters.left - AIR < x < place.letters.right + AIR for x in (one.x1, one.x2)
    )


def _draw_along(
    canvas: Canvas, board: Board, one: Dimension, place: _Set, y: float, side: int, part: str
) -> None:
    before = len(canvas.lines)
    for x, start in ((one.x1, one.y1), (one.x2, one.y2)):
        canvas.line("thin", part, (x, start), (x, y + side * OVERRUN))
    canvas.line("thin", part, (place.line[0], y), (place.line[1], y))
    board.lines.extend(line.points for line in canvas.lines[before:])
    board.barriers.extend(line.points for line in canvas.lines[before:])
    within = one.x2 - one.x1 > 3 * ARROW
    arrowhead(canvas, part, (one.x1, y), (one.x2 if within else one.x1 - TAIL, y))
    arrowhead(canvas, part, (one.x2, y), (one.x1 if within else one.x2 + TAIL, y))
    canvas.text(part, one.text, place.letters.left, y - ABOVE)


_Way = tuple[float, float, int, object]  # from where, to which side, how: barred, a longer one is, too


def place_leader(
    canvas: Canvas,
    board: Board,
    text: str,
    anchors: Sequence[tuple[Point, int]],
    part: str = "leader",
    reaches: Sequence[float] = (4.5, 7, 9.5, 12, 14.5, 17, 20, 24, 28),
) -> bool:
    """Set a note on a leader with an arrowhead at one of the anchors; False when no place is free.

    An anchor is a point on an outline and the side it is reached from: −1 from above, +1 from below. A leader
    crosses a dimension or an arrow only where nothing else is free.
    """
    words = Text(str(text), (0.0, 0.0), LETTER, part)
    wide = words.width
    taken = board.taken()
    free: list[tuple[Run, Point]] = []
    barred: set[_Way] = set()
    for way, run, (x, y) in _leader_places(text, anchors, reaches):
        if taken.has_room(x, y - LETTER, x + wide, run[-1][1] + 0.4):
            if way not in barred:
                start, elbow, end = _off_outline(run)
                if not taken.leads((start, elbow)):
                    barred.add(way)
                elif taken.leads((elbow, end)):
                    return _set_leader(canvas, board, run, replace(words, at=(x, y)))
            free.append((run, (x, y)))
    crossing = board.without_barriers().taken()
    for run, start in free:
        if crossing.leads(_off_outline(run)):
            return _set_leader(canvas, board, run, replace(words, at=start))
    return False


def _leader_places(
    text: str, anchors: Sequence[tuple[Point, int]], reaches: Sequence[float]
) -> Iterator[tuple[_Way, Run, Point]]:
    """Leaders with their way and the start of their lettering, in order of preference."""
    width = text_width(text)
    for reach in reaches:
        for (x, y), side in anchors:
            for lean in (0.45, 0.9, 0.15, 1.5):
                for way in (1, -1):
                    elbow = (x + way * lean * reach, y + side * reach)
                    end = (elbow[0] + way * (width + 0.6), elbow[1])
                    start = elbow[0] + 0.6 if way > 0 else end[0]
                    yield (x, y, side, way * lean), ((x, y), elbow, end), (start, elbow[1] - ABOVE)


def _set_leader(canvas: Canvas, board: Board, run: Run, words: Text) -> bool:
    canvas.line("thin", words.part, *run)
    arrowhead(canvas, words.part, run[0], run[1])
    canvas.texts.append(words)
    board.letters.append(words.box)
    board.leaders.append(run)
    return True


def _off_outline(run: Run) -> Run:
    """The leader from a point just off its start, so that it does not meet the very line it points at."""
    return (_off(run[0], run[1]), *run[1:])


def _off(start: Point, towards: Point) -> Point:
    """A point just off the start of a leader, so that it does not meet the very line it points at."""
    share = min(1.0, _TOUCH / hypot(towards[0] - start[0], towards[1] - start[1]))
    return (start[0] + share * (towards[0] - start[0]), start[1] + share * (towards[1] - start[1]))


_TOUCH: Final = 0.3  # mm


def _ways(*degrees: float) -> tuple[Point, ...]:
    return tuple((cos(radians(turn)), sin(radians(turn))) for turn in degrees)


_AROUND: Final = _ways(60, 75, 45, 90, 30, 105, 120, 135, 150, 15, 165, 0, 180)
_INWARDS: Final = _ways(-30, 210, -60, 240, -90)  # where nothing is free outside


def place_item(
    canvas: Canvas,
    board: Board,
    number: int,
    anchors: Sequence[tuple[Point, int]],
    own: Sequence[Box] = (),
    reaches: Sequence[float] = (8, 10, 12, 14, 17, 20, 24, 28, 32),
) -> bool:
    """Set an item number in a circle, its leader ending in a dot at an anchor; False without room."""
    others = [box for box in board.parts if box not in own]
    taken = board.taken()
    strict = Board(board.boundary, board.letters, others, [], board.leaders, board.barriers)
    leading, crossing = strict.taken(), strict.without_barriers().taken()
    for turns in (_AROUND, _INWARDS):
        free: list[tuple[Run, Point]] = []
        barred: set[_Way] = set()
        for way, run, (x, y) in _item_places(anchors, reaches, turns):
            if taken.has_room(x - ITEM_RADIUS, y - ITEM_RADIUS, x + ITEM_RADIUS, y + ITEM_RADIUS):
                if way not in barred:
                    if leading.leads(run):
                        return _set_item(canvas, board, number, run, (x, y))
                    barred.add(way)
                free.append((run, (x, y)))
        for run, middle in free:
            if crossing.leads(run):
                return _set_item(canvas, board, number, run, middle)
    return False


def _item_places(
    anchors: Sequence[tuple[Point, int]], reaches: Sequence[float], turns: Sequence[Point]
) -> Iterator[tuple[_Way, Run, Point]]:
    """Leaders with their way and the middle of the item's circle, in order of preference."""
    for reach in reaches:
        for (x, y), side in anchors:
            for turn in turns:
                ux, uy = turn[0], side * turn[1]
                middle = (x + reach * ux, y + reach * uy)
                touch = (middle[0] - ITEM_RADIUS * ux, middle[1] - ITEM_RADIUS * uy)
                yield (x, y, side, turn), ((x, y), touch), middle


def _set_item(canvas: Canvas, board: Board, number: int, run: Run, middle: Point) -> bool:
    ring = Circle("thin", middle, ITEM_RADIUS, "item")
    canvas.line("thin", "item", *run)
    canvas.circles += [ring, Circle("thin", run[0], 0.45, "item", filled=True)]
    label = str(number)
    start = (middle[0] - text_width(label, LARGE_LETTER) / 2, middle[1] + LARGE_LETTER / 2)
    canvas.texts.append(Text(label, start, LARGE_LETTER, "item"))
    board.letters.append(ring.box)
    board.leaders.append(run)
    return True
