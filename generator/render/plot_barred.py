"""Barred stretches of a plot: hatched, and lettered with the reason that the key below the plot gives."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import floor
from typing import Final

from generator.render.drawing import LETTER, Box, Canvas, Text, text_width
from generator.render.lines import Point
from generator.render.placing import Board

HATCH: Final = 3.0  # mm between the lines of a hatching, along the axis: common practice, no source


def draw_barred(canvas: Canvas, board: Board, barred: Sequence[tuple[Box, str]]) -> list[str]:
    """Hatch each stretch (its box on paper, and why it is barred) and letter it; return the key."""
    reasons = list(dict.fromkeys(why for _, why in barred))
    stretches = [(box, reasons.index(why)) for box, why in barred]
    uprights = [((x, box.top), (x, box.bottom)) for box, _ in stretches for x in (box.left, box.right)]
    board.lines += uprights
    letters = [_letter_in(box, _letter(reason), board) for box, reason in stretches]
    canvas.texts += letters
    holes = [text.box.grown(0.5) for text in letters]
    for upright in uprights:
        canvas.line("thin", "barred", *upright)
    for box, reason in stretches:
        for run in _hatching(box, 1 if reason % 2 == 0 else -1):
            for piece in _around(run, holes):
                canvas.line("thin", "hatching", *piece)
    return [f"{_letter(number)} {why}" for number, why in enumerate(reasons)]


def _letter(number: int) -> str:
    """A, B, … Z, then AA, AB …"""
    before, last = divmod(number, 26)
    return (_letter(before - 1) if before else "") + chr(ord("A") + last)


def _letter_in(box: Box, letter: str, board: Board) -> Text:
    """The letter in its stretch, or beside a narrow one, where it is clear of curves, marks and letters."""
    wide, middle = text_width(letter), (box.left + box.right) / 2
    xs = [middle - wide / 2 + move for move in (0.0, 2.0, -2.0, 4.0, -4.0, 7.0, -7.0, 10.0, -10.0)]
    rows = 12
    tops = [box.top + 1.2 + (box.bottom - box.top - LETTER - 2.4) * row / (rows - 1) for row in range(rows)]
    bare = Board(board.boundary, board.letters)
    for shade in (board, bare):
        for x in xs:
            for y in tops:
                text = Text(letter, (x, y + LETTER), LETTER, "barred-letter")
                if shade.lettering_fits(text.box):
                    board.letters.append(text.box)
                    return text
    x = min(max(xs[0], board.boundary.left), board.boundary.right - wide)
    text = Text(letter, (x, tops[0] + LETTER), LETTER, "barred-letter")
    board.letters.append(text.box)
    return text


def _hatching(box: Box, way: int) -> list[tuple[Point, Point]]:
    """Lines at 45° over a box, rising to the right (`way` 1) or falling, on one grid for all boxes."""
    tall = box.bottom - box.top
    runs = []
    x = HATCH * floor((box.left - tall) / HATCH)
    while x < box.right:
        low, high = (x, box.bottom), (x + tall, box.top)
        if way < 0:
            low, high = (x, box.top), (x + tall, box.bottom)
        run = _clipped(low, high, box.left, box.right)
        if run is not None:
            runs.append(run)
        x += HATCH
    return runs


def _clipped(a: Point, b: Point, left: float, right: float) -> tuple[Point, Point] | None:
    """The part of a line from left to right between two uprights."""
    (ax, ay), (bx, by) = a, b
    low, high = max(ax, left), min(bx, right)
    if high - low < 0.05:
        return None

    def at(x: float) -> Point:
        return (x, ay + (by - ay) * (x - ax) / (bx - ax))

    return (at(low), at(high))


def _around(run: tuple[Point, Point], holes: Sequence[Box]) -> list[tuple[Point, Point]]:
    """The parts of a line outside of some boxes."""
    (ax, ay), (bx, by) = run
    cuts: list[tuple[float, float]] = []
    for hole in holes:
        spans = []
        for start, step, low, high in (
            (ax, bx - ax, hole.left, hole.right), (ay, by - ay, hole.top, hole.bottom)
        ):
            spans.append(sorted(((low - start) / step, (high - start) / step)))
        enter, leave = max(0.0, spans[0][0], spans[1][0]), min(1.0, spans[0][1], spans[1][1])
        if enter < leave:
            cuts.append((enter, leave))
    shares = [0.0]
    for enter, leave in sorted(cuts):
        shares += [max(enter, shares[-1]), max(leave, shares[-1])]
    shares.append(1.0)
    pieces = []
    for low, high in list(pairwise(shares))[::2]:
        if high - low > 1e-6:
            pieces.append(
                ((ax + low * (bx - ax), ay + low * (by - ay)), (ax + high * (bx - ax), ay + high * (by - ay)))
            )
    return pieces
