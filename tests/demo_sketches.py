"""Draws the sketches of the demo jobs, as an office draws them: `python tests/demo_sketches.py`.

All parts are invented. Lines waver a little, as drawn by hand; the dimensions are those of the job files.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

JOBS = Path(__file__).resolve().parent.parent / "jobs"
FINER = 2  # drawn twice as large, then made smaller: smooth lines
INK, PAPER = 40, 255
Point = tuple[float, float]


class Sketch:
    """A sheet of paper, `width` by `height` pixels, and a pencil."""

    def __init__(self, width: int, height: int, seed: int) -> None:
        self._image = Image.new("L", (width * FINER, height * FINER), PAPER)
        self._draw = ImageDraw.Draw(self._image)
        self._hand = random.Random(seed)

    def line(self, points: Sequence[Point], width: float = 3.0) -> None:
        """A line through all points, with a hand that wavers by about a pixel."""
        for (x1, y1), (x2, y2) in pairwise(points):
            steps = max(2, int(math.hypot(x2 - x1, y2 - y1) / 40))
            way = [
                (
                    (x1 + (x2 - x1) * step / steps + self._hand.uniform(-0.7, 0.7)) * FINER,
                    (y1 + (y2 - y1) * step / steps + self._hand.uniform(-0.7, 0.7)) * FINER,
                )
                for step in range(steps + 1)
            ]
            self._draw.line(way, fill=INK, width=round(width * FINER), joint="curve")

    def dashes(self, start: Point, end: Point, on: float = 26, off: float = 8) -> None:
        """A center line."""
        length = math.dist(start, end)
        at = 0.0
        while at < length:
            first, last = at / length, min(at + on, length) / length
            self.line([_between(start, end, first), _between(start, end, last)], 1.5)
            at += on + off

    def ellipse(self, center: Point, across: float, high: float, begin: int = 0, end: int = 360) -> None:
        """An arc of an ellipse, degrees clockwise from the right."""
        turn = [math.radians(degree) for degree in range(begin, end + 1, 4)]
        self.line(
            [(center[0] + across / 2 * math.cos(a), center[1] + high / 2 * math.sin(a)) for a in turn]
        )

    def words(self, place: Point, text: str, size: int = 30, anchor: str = "mm") -> None:
        """A few words on white, so that no line runs through them."""
        font = ImageFont.load_default(size * FINER)
        at = (place[0] * FINER, place[1] * FINER)
        left, top, right, bottom = self._draw.textbbox(at, text, font, anchor=anchor)
        self._draw.rectangle((left - 8, top - 6, right + 8, bottom + 6), fill=PAPER)
        self._draw.text(at, text, INK, font, anchor=anchor)

    def dimension(self, start: Point, end: Point, text: str) -> None:
        """A dimension line with an arrow at each end and its words in the middle."""
        self.line([start, end], 1.5)
        angle = math.atan2(end[1] - start[1], end[0] - start[0])
        for tip, back in ((start, angle), (end, angle + math.pi)):
            for side in (-0.3, 0.3):
                self.line(
                    [tip, (tip[0] + 18 * math.cos(back + side), tip[1] + 18 * math.sin(back + side))], 1.5
                )
        self.words(_between(start, end, 0.5), text)

    def leader(self, start: Point, end: Point, text: str, anchor: str = "lm") -> None:
        """Words with a line to what they speak of."""
        self.line([start, end], 1.5)
        self.words((end[0] + (8 if anchor[0] == "l" else -8), end[1]), text, anchor=anchor)

    def save(self, path: Path) -> None:
        """Onto disk, as a JPEG or PNG by its name."""
        size = (self._image.width // FINER, self._image.height // FINER)
        small = self._image.resize(size, Image.Resampling.LANCZOS)
        if path.suffix == ".png":
            small.quantize(16).save(path, optimize=True)
        else:
            small.save(path, quality=80)


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _thread(sketch: Sketch, left: float, right: float, top: float, bottom: float, depth: float = 10) -> None:
    """Crests and roots of a right-hand thread as the trade sketches it: slanting lines, long and short."""
    turns = int((right - left) / 14)
    for turn in range(turns):
        x = left + turn * (right - left) / turns
        sketch.line([(x, top), (x + 6, bottom)], 2.0)
        sketch.line([(x + 7, top + depth), (x + 12, bottom - depth)], 1.2)


def hinge_pin() -> Sketch:
    """The new ramp hinge pin, with its dimensions."""
    sketch = Sketch(1200, 640, seed=101)
    axis = 340
    sketch.dashes((50, axis), (1150, axis))
    sketch.line([(90, 235), (835, 235), (835, 445), (90, 445), (90, 235)])
    sketch.line([(835, 254), (1055, 254), (1070, 270), (1070, 410), (1055, 426), (835, 426)])
    _thread(sketch, 880, 1055, 254, 426)
    sketch.ellipse((1013, axis), 36, 36)
    sketch.line([(90, 450), (90, 575)], 1.5)
    sketch.line([(1070, 415), (1070, 575)], 1.5)
    sketch.line([(835, 450), (835, 520)], 1.5)
    sketch.line([(1013, axis - 20), (1013, 150)], 1.5)
    sketch.line([(1070, 265), (1070, 150)], 1.5)
    sketch.dimension((90, 560), (1070, 560), "14 1/2")
    sketch.dimension((835, 500), (1070, 500), "2 7/8")
    sketch.dimension((180, 235), (180, 445), "2 3/4 dia.")
    sketch.line([(960, 165), (1013, 165), (1070, 165), (1120, 165)], 1.5)
    sketch.words((1150, 165), "3/4")
    sketch.leader((1003, 325), (860, 190), "hole 3/8, drilled after threading", "rm")
    sketch.leader((930, 254), (850, 105), "2 1/4 - 8, as the ramp nut", "rm")
    sketch.words((60, 50), "MF-07  sketch 2   ramp hinge pin, new", 34, "lm")
    sketch.words((60, 620), "inches.  4140, 30 HRC.  Body ground: do not mark it.", 24, "lm")
    return sketch


def lens_ring() -> Sketch:
    """The old lens ring with the crack in it."""
    sketch = Sketch(1000, 720, seed=107)
    middle = (360, 380)
    for across in (560, 500, 478):
        sketch.ellipse(middle, across, across)
    sketch.dashes((40, middle[1]), (690, middle[1]))
    sketch.dashes((middle[0], 60), (middle[0], 700))
    crack = [(547, 178), (537, 196), (541, 204), (524, 213), (527, 221)]
    sketch.line(crack, 4)
    sketch.leader((541, 190), (640, 120), "cracked through here,")
    sketch.words((648, 156), "opens 1/32 when let go", 30, "lm")
    sketch.dimension((80, 380), (640, 380), "9 1/4 dia.")
    sketch.leader((520, 560), (640, 640), "thread inside 8 - 12, worn")
    sketch.line([(760, 240), (960, 240), (960, 275), (850, 275), (850, 310), (760, 310), (760, 240)])
    for step in range(12):
        sketch.line([(765 + step * 16, 275 - 30), (765 + step * 16 - 5, 275)], 1.0)
    sketch.dimension((760, 345), (960, 345), "1 3/4")
    sketch.words((860, 210), "section of the rim", 24)
    sketch.words((40, 40), "LT-01   old lens ring, as it came in", 34, "lm")
    return sketch


def bollard_spindle() -> Sketch:
    """The worn clamp thread of the bollard spindle."""
    sketch = Sketch(1200, 560, seed=113)
    axis = 290
    sketch.dashes((30, axis), (1160, axis))
    sketch.line([(60, 165), (520, 165), (520, 415), (60, 415)])
    sketch.line([(60, 165), (75, 225), (50, 290), (72, 355), (60, 415)], 1.5)
    sketch.line([(520, 180), (1110, 180), (1110, 400), (520, 400)])
    _thread(sketch, 700, 880, 180, 400, 12)
    _thread(sketch, 985, 1105, 180, 400, 12)
    torn = [(885, 182), (900, 196), (912, 186), (925, 203), (940, 190), (955, 201), (972, 184), (983, 182)]
    sketch.line(torn, 4)
    sketch.line([(x, 580 - y) for x, y in torn], 4)
    sketch.line([(60, 232), (1110, 232)], 1.0)
    sketch.line([(60, 348), (1110, 348)], 1.0)
    sketch.leader((930, 190), (800, 95), "crests torn off, about 6 turns", "rm")
    sketch.leader((1040, 180), (1060, 110), "still good", "mm")
    sketch.dimension((520, 470), (1110, 470), "5")
    sketch.line([(520, 420), (520, 485)], 1.5)
    sketch.line([(1110, 405), (1110, 485)], 1.5)
    sketch.leader((250, 348), (300, 470), "bore 1 1/8 all through", "mm")
    sketch.words((60, 35), "SM-114   bollard spindle, clamp thread as it came in", 34, "lm")
    sketch.words((60, 530), "inches.  Clamp ring is here: new thread as the ring.", 24, "lm")
    return sketch


SKETCHES = {
    "SW-101-ramp-hinge-pin/sketch-2.png": hinge_pin,
    "SW-107-lens-ring/old-ring.jpg": lens_ring,
    "SW-113-bollard-spindle/worn-thread.png": bollard_spindle,
}


if __name__ == "__main__":
    for name, drawn in SKETCHES.items():
        drawn().save(JOBS / "2026" / name)
