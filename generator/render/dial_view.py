"""The thread dial: its face with line 1 at the fixed mark, and beside each place what the half nuts do there.

dial_view                 the face as a finished drawing
mark_view                 one of its marks alone, for the table beside it

Marks, in black and white: a dot where the tool is in its groove, a ring with a number where it is in that
start, a cross where it is beside the groove; nothing where the half nuts do not close.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil, cos, hypot, pi, sin
from typing import Final

from generator.language.say import first_large, later, say
from generator.render.drawing import (
    LARGE_LETTER,
    LETTER,
    MARGIN,
    Canvas,
    Drawing,
    Text,
    drawing_id,
    text_width,
)
from generator.render.lines import Point
from generator.sheet.drawn import DialPlace, DialRow, DialScene

RADII: Final = (20.0, 25.0, 32.0, 40.0)  # mm, of the dial's rim: the first on which all has room
NUMBER: Final = 5.0  # mm, height of the dial's numbers: ISO 3098-1, to be read at arm's length
NUMBERED_LINE, PLAIN_LINE = 7.0, 3.5  # mm, length of the lines
HUB: Final = 1.5  # mm
RING_GAP: Final = 4.6  # mm from the rim to the middle of the marks
DOT, RING, CROSS = 1.7, 2.3, 1.3  # mm, half width of the marks
AIR: Final = 0.5  # mm between two marks, two numbers
POINTER_GAP, POINTER, POINTER_HALF = 0.9, 4.0, 1.7  # mm, the fixed mark
FIXED: Final = later("fixed mark")

_WORDS: Final = {
    "same start": later("dot"),
    "wrong": later("cross"),
    "changes": later("cross"),
    "does not close": later("no mark"),
}


@dataclass(frozen=True)
class _Size:
    """What fits on one dial: rim, places that get a mark, height of the numbers, every how many has one."""

    rim: float
    marked: Sequence[DialPlace]
    letter: float = LETTER
    every: int = 1

    @property
    def ring(self) -> float:
        """Radius of the marks."""
        return self.rim + RING_GAP


def dial_view(scene: DialScene) -> Drawing:
    """The face of the dial as a finished drawing, to no scale.

    On a dial so full that two marks would meet, the crosses between the lines are left out, then all marks
    between the lines; the table beside the drawing has them all. Every line keeps its mark.
    """
    canvas, size = Canvas(), _size(scene)
    canvas.circle("visible", "rim", (0.0, 0.0), size.rim)
    canvas.circle("thin", "hub", (0.0, 0.0), HUB)
    _lines(canvas, scene, size)
    for place in size.marked:
        _mark(canvas, place.meets, place.start, _at(scene, place, size.ring))
    _pointer(canvas, size)
    return _finished(canvas, scene)


def mark_view(scene: DialScene, row: DialRow, number: int) -> Drawing:
    """The mark of one row of the table, as a drawing of its own; without marks where the row has none."""
    canvas = Canvas()
    half = RING + MARGIN / 2
    _mark(canvas, row.meets, row.start, (half, half))
    done = canvas.finished(0.0, 0.0)
    word = _mark_word(row)
    return Drawing(
        drawing_id(scene.job, f"dial-mark-{number}"), "dial", round(2 * half, 2), round(2 * half, 2),
        tuple(done.lines), tuple(done.circles), tuple(done.fills), tuple(done.texts), title=word,
        desc=say("The mark that stands for: {says}.", says=row.says), scale="", caption="",
    )


def _size(scene: DialScene) -> _Size:
    """The smallest dial on which numbers and marks keep clear of each other."""
    closing = [place for place in scene.places if place.meets != "does not close"]
    right = [place for place in closing if place.line or place.start is not None]
    lines = [place for place in closing if place.line]
    tries = [_Size(rim, marked) for marked in (closing, right, lines) for rim in RADII]
    clear = [size for size in tries if _marks_fit(scene, size)] or tries[-1:]
    count = sum(bool(place.number) for place in scene.places)
    for size in clear:
        for letter in (NUMBER, LARGE_LETTER):
            if _numbers_room(size.rim, letter, count) >= 1:
                return replace(size, letter=letter)
    largest = max(clear, key=lambda size: (len(size.marked), size.rim))
    return replace(largest, every=max(1, ceil(1 / _numbers_room(largest.rim, LETTER, count))))


def _marks_fit(scene: DialScene, size: _Size) -> bool:
    """True when no two neighbors touch."""
    around = [*size.marked, *size.marked[:1]]
    return all(
        2 * size.ring * sin(min(pi / 2, pi * ((b.at - a.at) % scene.lines) / scene.lines))
        >= _half(a) + _half(b) + AIR
        for a, b in pairwise(around)
        if a is not b
    )


def _half(place: DialPlace) -> float:
    """Half the room of a mark."""
    return {"same start": DOT, "other start": RING}.get(place.meets, CROSS)


def _numbers_room(rim: float, letter: float, count: int) -> float:
    """Room from number to number over the room that one takes; 1 and more is enough."""
    if count < 2:
        return 1.0
    return 2 * _number_radius(rim, letter, count) * sin(pi / count) / (_diagonal(letter, count) + AIR)


def _diagonal(letter: float, count: int) -> float:
    return hypot(text_width(str(count), letter), letter)


def _number_radius(rim: float, letter: float, count: int) -> float:
    """Where the middle of the numbers lies."""
    return rim - NUMBERED_LINE - AIR - _diagonal(letter, count) / 2


def _at(scene: DialScene, place: DialPlace, radius: float) -> Point:
    """A point beside a place, clockwise from the top."""
    turn = 2 * pi * place.at / scene.lines
    return radius * sin(turn), -radius * cos(turn)


def _lines(canvas: Canvas, scene: DialScene, size: _Size) -> None:
    """Long lines with their numbers, short plain ones."""
    count = sum(bool(place.number) for place in scene.places)
    for place in scene.places:
        if not place.line:
            continue
        inner = size.rim - (NUMBERED_LINE if place.number else PLAIN_LINE)
        kind, part = ("visible", "numbered-line") if place.number else ("thin", "plain-line")
        canvas.line(kind, part, _at(scene, place, size.rim), _at(scene, place, inner))  # type: ignore[arg-type]
        if place.number and (int(place.number) - 1) % size.every == 0:
            middle = _at(scene, place, _number_radius(size.rim, size.letter, count))
            _centered(canvas, "number", place.number, middle, size.letter)


def _centered(canvas: Canvas, part: str, text: str, middle: Point, height: float) -> Text:
    return canvas.text(
        part, text, middle[0] - text_width(text, height) / 2, middle[1] + height / 2, height
    )


def _mark(canvas: Canvas, meets: str, start: int | None, middle: Point) -> None:
    """Dot, ring with the number of the start, or cross."""
    x, y = middle
    if meets == "same start":
        canvas.circle("thin", "same-start", middle, DOT, filled=True)
    elif meets == "other start":
        canvas.circle("thin", "other-start", middle, RING)
        _centered(canvas, "start-number", str(start), middle, LETTER)
    elif meets != "does not close":
        for way in (-1, 1):
            canvas.line("thin", "wrong", (x - CROSS, y - way * CROSS), (x + CROSS, y + way * CROSS))


def _mark_word(row: DialRow) -> str:
    return say("ring with {start}", start=row.start) if row.meets == "other start" else str(_WORDS[row.meets])


def _pointer(canvas: Canvas, size: _Size) -> None:
    """The fixed mark above the dial, pointing at it past the marks."""
    tip = -(size.ring + RING + POINTER_GAP)
    canvas.fill("pointer", (0.0, tip), (-POINTER_HALF, tip - POINTER), (POINTER_HALF, tip - POINTER))
    _centered(canvas, "label", FIXED, (0.0, tip - POINTER - 1.2 - LARGE_LETTER / 2), LARGE_LETTER)


def _finished(canvas: Canvas, scene: DialScene) -> Drawing:
    """Shifted on its paper; the caption stands beside it, over the table."""
    extent = canvas.extent()
    return canvas.drawing(
        "dial",
        scene.job,
        title=say("Thread dial"),
        desc=_described(scene),
        scale="",
        left=MARGIN - extent.left,
        width=extent.right - extent.left + 2 * MARGIN,
        caption=say(
            "{designation} with a {leadscrew} and a {gear}; the first pass begun at line "
            "1. Begun at another line, count on from there. The drawing is to no scale.",
            designation=scene.designation, leadscrew=scene.leadscrew, gear=scene.gear,
        ),
    )


def _described(scene: DialScene) -> str:
    """What the drawing shows, in sentences."""
    numbered = sum(bool(place.number) for place in scene.places)
    rows = "; ".join(f"{row.places}: {row.says}" for row in scene.rows)
    return say(
        "Face of a thread dial with {lines} lines, {numbered} of them numbered, line 1 at the fixed "
        "mark; {leadscrew}, {gear}. Rule: {rule}. {rows}.",
        lines=scene.lines, numbered=numbered, leadscrew=scene.leadscrew, gear=scene.gear, rule=scene.rule,
        rows=first_large(rows),
    )
