"""Draws the plainer sketches of the demo jobs, shafts and rings: `python tests/demo_part_sketches.py`.

Not to scale, as on the back of an envelope; the dimensions are those of the job files. All parts are
invented.
"""

from __future__ import annotations

import importlib.util
import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

_spec = importlib.util.spec_from_file_location(
    "demo_sketches", Path(__file__).resolve().with_name("demo_sketches.py")
)
assert _spec
assert _spec.loader
demo_sketches = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(demo_sketches)
Sketch, JOBS = demo_sketches.Sketch, demo_sketches.JOBS

WIDE, HIGH, AXIS, LEFT = 1200, 600, 300, 80


@dataclass(frozen=True)
class Part:
    """One length of a shaft: how long and thick it is drawn, what is written to it."""

    long: float
    thick: float
    length: str = ""
    diameter: str = ""
    thread: str = ""
    thick_end: float = 0.0
    broken: bool = False


def shaft(seed: int, title: str, foot: str, parts: Sequence[Part], bore: float = 0.0) -> Sketch:
    """A shaft on its center line, lengths below it, threads named above."""
    sketch = Sketch(WIDE, HIGH, seed=seed)
    end = LEFT + sum(part.long for part in parts)
    sketch.dashes((LEFT - 40, AXIS), (end + 40, AXIS))
    at = float(LEFT)
    for place, part in enumerate(parts):
        _part(sketch, part, at, place)
        at += part.long
    if bore:
        for side in (-1, 1):
            sketch.dashes((LEFT, AXIS + side * bore / 2), (end, AXIS + side * bore / 2), 12, 8)
    sketch.words((60, 40), title, 34, "lm")
    sketch.words((60, 570), foot, 24, "lm")
    return sketch


def _part(sketch: Sketch, part: Part, at: float, place: int) -> None:
    near, far, end = part.thick / 2, (part.thick_end or part.thick) / 2, at + part.long
    outline = [(at, AXIS - near), (end, AXIS - far), (end, AXIS + far), (at, AXIS + near)]
    sketch.line([*outline, outline[0]])
    if part.thread:
        _turns(sketch, part, at)
        low = max(at + part.long / 2 - 30, 330)
        sketch.leader((at + part.long / 2, AXIS - (near + far) / 2), (low, 110), part.thread, "rm")
    if part.broken:
        middle = at + part.long / 2
        for shift in (-9, 9):
            sketch.line(
                [
                    (middle + shift, AXIS - near - 14), (middle + shift, AXIS - 16),
                    (middle + shift - 10, AXIS - 6), (middle + shift + 10, AXIS + 6),
                    (middle + shift, AXIS + 16), (middle + shift, AXIS + near + 14),
                ],
                1.5,
            )
    if part.diameter:
        sketch.dimension((at + 34, AXIS - near), (at + 34, AXIS + near), part.diameter)
    if part.length:
        low = 470 + 36 * (place % 2)
        for x in (at, end):
            sketch.line([(x, AXIS + max(near, far) + 6), (x, low + 14)], 1.5)
        sketch.dimension((at, low), (end, low), part.length)


def _turns(sketch: Sketch, part: Part, at: float) -> None:
    """Crests and roots, leaning as the hand of the thread wants."""
    turns = int(part.long / 22)
    lean = 8 if "LEFT" in part.thread else -8
    for turn in range(turns):
        x = at + (turn + 0.5) * part.long / turns
        share = (x - at) / part.long
        half = (part.thick + ((part.thick_end or part.thick) - part.thick) * share) / 2
        sketch.line([(x + lean, AXIS - half), (x, AXIS + half)], 2.0)
        sketch.line([(x + 9 + lean, AXIS - half + 9), (x + 9, AXIS + half - 9)], 1.0)


def ring(seed: int, title: str, foot: str, words: Sequence[tuple[str, float]], lobes: float = 0.0) -> Sketch:
    """A ring from its end: circles with what is written to each, the outer one with three lobes."""
    sketch = Sketch(1000, HIGH, seed=seed)
    middle = (330, AXIS + 10)
    for place, (text, across) in enumerate(words):
        corner = [
            (
                middle[0] + (across / 2 + lobes * math.cos(3 * turn)) * math.cos(turn),
                middle[1] + (across / 2 + lobes * math.cos(3 * turn)) * math.sin(turn),
            )
            for turn in (math.radians(degree) for degree in range(0, 361, 9))
        ]
        sketch.line(corner, 3.0 if place == 0 else 2.0)
        angle = math.radians(-38 + 34 * place)
        start = (middle[0] + across / 2 * math.cos(angle), middle[1] + across / 2 * math.sin(angle))
        sketch.leader(start, (610, 140 + 110 * place), text)
    sketch.dashes((50, middle[1]), (610, middle[1]))
    sketch.dashes((middle[0], 70), (middle[0], 550))
    sketch.words((40, 40), title, 34, "lm")
    sketch.words((40, 575), foot, 24, "lm")
    return sketch


SKETCHES = {
    "2026/SW-102-sluice-screw/screw.png": shaft(
        102,
        "WT-03   sluice screw, left hand",
        "inches.  1045, bright bar 1 1/2.  Thread as the bronze nut.",
        [
            Part(230, 150, "20 1/2", "1 1/2", broken=True), Part(60, 118, "1/2"),
            Part(650, 150, "40", thread="1 1/2 - 4 Acme 2G, LEFT HAND", broken=True), Part(80, 118, "1"),
        ],
    ),
    "2026/SW-104-bellows-screw/old-screw.png": shaft(
        104,
        "RO-02   bellows screw, the old one",
        "inches.  Bronze.  55 degree leaf seats, ten pitches .910",
        [
            Part(560, 130, "7 1/4", "5/8", broken=True),
            Part(420, 130, "1 3/4 and run-out", thread="5/8 - 11, runs out"),
        ],
    ),
    "2026/SW-106-cider-press-screw/screw.png": shaft(
        106,
        "OM-04   cider press screw",
        "mm.  42CrMo4.  Two starts: lead 18, pitch 9.",
        [
            Part(250, 190, "300", "60", broken=True), Part(70, 156, "20"),
            Part(700, 190, "780", thread="Tr 60x18(P9), two starts", broken=True),
        ],
    ),
    "2026/SW-108-flushing-nipple/nipple.png": shaft(
        108,
        "HD-01   flushing nipple",
        "inches.  Pipe 2, schedule 80.  Left end is left for the welder.",
        [
            Part(640, 230, "about 7", "2.375", broken=True),
            Part(320, 230, ".7565 and run-out", thread="2 - 11 1/2 NPT", thick_end=206),
        ],
        bore=186,
    ),
    "2026/SW-111-hose-union-ring/ring.png": ring(
        111,
        "FF-01   hose union ring",
        "mm.  Brass CW614N, 38 long.  Seals on the inner face: flat within 0.05.",
        [("outside 92", 440), ("G 2 1/2 inside, 22 deep", 360), ("hole 60 through the flange", 290)],
    ),
    "2025/SW-066-sight-glass-ring/ring-let-go.png": ring(
        66,
        "SW-066   sight-glass ring, let go",
        "Three lobes, .006 high to low, drawn far too large. Scrapped.",
        [("thread 4 1/2 - 12 outside", 420), ("bore 3 7/8", 360)], lobes=11,
    ),
    "2026/SW-124-brake-pull-rod-left-end/rod.png": shaft(
        124,
        "ML-03   brake pull rod, both ends",
        "inches.  EN8, bar 1 1/4: 1.2500 by micrometer.  34 over all.",
        [
            Part(270, 130, "4", thread="1 1/4 - 7, right"), Part(50, 104),
            Part(380, 130, "25 1/8", "1 1/4", broken=True), Part(50, 104),
            Part(280, 130, "4", thread="1 1/4 - 7, LEFT"),
        ],
    ),
    "2026/SW-127-sluice-worm/worm.png": shaft(
        127,
        "WM-01   worm, module 2, one start",
        "mm.  EN8.  Depth 4.4, 20 degrees a side, pitch 6.28",
        [
            Part(420, 150, "150", "30", broken=True), Part(380, 240, "80", thread="worm 44 over the crests"),
            Part(200, 140, "40", "28"),
        ],
    ),
    "2026/SW-128-drilling-arbor/arbor.png": shaft(
        128,
        "SW   arbor for the boring head",
        "inches.  4140.  Taper to fit the sleeve of the drilling machine.",
        [
            Part(480, 240, "4 3/4", "1 1/2"),
            Part(520, 160, "3 1/2", thick_end=124),
        ],
    ),
}


if __name__ == "__main__":
    for name, drawn in SKETCHES.items():
        drawn.save(JOBS / name)
