"""The thread drawing: an axial half-section of a groove with its passes, as the operator sees it from above.

The work lies above the line of the crests and the tool comes from below, headstock left, as in the setup
drawing. An internal thread is cut into the wall of the bore on the operator's side: the same drawing turned
upside down. The geometry of the groove is `render.groove`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, degrees, pi, sin, sqrt, tan
from typing import Final

from generator.language.say import say
from generator.render.dimensions import (
    ABOVE,
    ARROW,
    OVERRUN,
    Dimension,
    arrowhead,
    dimension_text,
    lay_along,
    place_leader,
)
from generator.render.drawing import (
    LARGE_LETTER,
    LETTER,
    LINE_STEP,
    MARGIN,
    Box,
    Canvas,
    Drawing,
    Text,
    text_width,
)
from generator.render.groove import Groove, groove
from generator.render.lines import Point, zigzag
from generator.render.placing import Board
from generator.render.scale import SCALES, Scale
from generator.sheet.drawn import ThreadScene
from generator.si import Length

PITCHES: Final = 2.5  # pitches drawn
ROOM_ALONG: Final = 105.0  # mm of paper for them
ROOM_DEEP: Final = 34.0  # mm of paper for the depth
LEAST_WIDTH: Final = 90.0  # mm, so that the caption has room
BAND: Final = 7.0  # mm of work drawn behind the roots
HATCH: Final = 2.5  # mm between hatching lines (ISO 128-3: at 45 degrees)
APART: Final = 0.4  # mm between the flanks of passes; closer ones run into one black patch (common practice)
UPRIGHT: Final = 1e-6  # mm
MOST_NUMBERS: Final = 4  # pass numbers in the groove; more would run into each other
TOOL_BELOW: Final = 13.0  # mm of tool drawn outside the work
SIDE: Final = 9.0  # mm from the section to the depth dimension
PAST_OVERRUN: Final = 2.8  # mm from the depth dimension to its lettering, clear of the extension lines
DETAIL: Final = "A"


def thread_view(scene: ThreadScene) -> Drawing:
    """The groove with its passes as a finished drawing, at the largest scale of ISO 5455 that fits.

    Raises
    ------
    OutsideRange
        As `groove` does.
    """
    cut = groove(scene)
    scale = next(
        scale
        for scale in SCALES
        if scale.mm(PITCHES * scene.pitch) <= ROOM_ALONG and scale.mm(scene.depth) <= ROOM_DEEP
    )
    return _View(scene, cut, scale).drawing()


class _View:
    """The drawing in the making: crest line at y = 0, axis above, groove with the passes at x = 0."""

    def __init__(self, scene: ThreadScene, cut: Groove, scale: Scale) -> None:
        self.scene, self.cut, self.scale = scene, cut, scale
        self.canvas = Canvas()
        self.pitch, self.depth = scale.mm(scene.pitch), scale.mm(scene.depth)
        self.mouth = tuple(scale.mm(cut.nose.reach(scene.depth, angle)) for angle in scene.flanks)
        self.top = scale.mm(cut.crest_below)  # paper between the blank and crests that come out sharp
        edge = scale.mm(cut.nose.reach(scene.depth - cut.crest_below, cut.nose.right))
        self.left, self.right = -self.pitch, self.pitch + edge + scale.mm(cut.crest_flat) / 2
        self.behind = -self.depth - BAND
        self.board = Board(Box(-150, -150, 200, 150))

    def drawing(self) -> Drawing:
        """Section, passes, tool, dimensions, caption."""
        self._section()
        self._passes()
        tool = self._tool()
        self.board.lines += [line.points for line in self.canvas.lines]
        self.board.parts += [tool, Box(self.left, self.behind, self.right, 0.0)]
        self.board.letters += [text.box for text in self.canvas.texts]
        self._dimensions()
        if self.scene.internal:
            self.canvas = self.canvas.upside_down(ABOVE)
        return self._finished()

    def _groove(self, at: float, depth: Length, top: Length = 0.0) -> list[Point]:
        return [(at + self.scale.mm(x), -self.scale.mm(y)) for x, y in self.cut.outline(depth, top)]

    def _section(self) -> None:
        """Finished profile wide, blank outline phantom across the grooves, hatched material, breaks."""
        whole = self.scene.depth, self.cut.crest_below
        half_groove = [point for point in self._groove(-self.pitch, *whole) if point[0] > self.left]
        profile: list[Point] = [
            (self.left, -self.depth),
            *half_groove,
            *self._groove(0.0, *whole),
            *self._groove(self.pitch, *whole),
            (self.right, -self.top),
        ]
        self.canvas.line("visible", "profile", *profile)
        mouths = (
            (self.left, self.left + self.mouth[1]),
            (-self.mouth[0], self.mouth[1]),
            (self.pitch - self.mouth[0], self.pitch + self.mouth[1]),
        )
        for a, b in ((self.left, self.right),) if self.top else mouths:
            self.canvas.line("phantom", "blank", (a, 0.0), (b, 0.0))
        side = zigzag((self.right, -self.top), (self.right, self.behind))
        back = zigzag((self.right, self.behind), (self.left, self.behind))
        for a_point, b_point in _hatching([*profile, *side[1:], *back[1:]], HATCH):
            self.canvas.line("thin", "hatching", a_point, b_point)
        self.canvas.line("thin", "break", *side, *back[1:], (self.left, -self.depth))

    def _passes(self) -> None:
        """The passes narrow in the middle groove; first, last and some between numbered at the fed flank."""
        edge = 0 if self.cut.way > 0 else -1
        ends: list[tuple[int, float]] = []
        runs = self._drawn_passes()
        for number, run in runs.items():
            if number < len(self.scene.pass_depths):
                self.canvas.line("thin", "pass", *run)
            ends.append((number, run[edge][0]))
        for number, x in _numbered(ends):
            text = str(number)
            foot = x + self.cut.way * 3.2
            self.canvas.line("thin", "pass-number", (x, 0.0), (foot - self.cut.way * 0.8, 2.9))
            self.canvas.text("pass-number", text, foot - text_width(text) / 2, 3.5 + LETTER)

    def _drawn_passes(self) -> dict[int, list[Point]]:
        """The groove after every pass, by its number; of those that lie too close only some, and the last."""
        runs: dict[int, list[Point]] = {}
        last = len(self.scene.pass_depths)
        drawn: list[Point] = []
        for number, depth in enumerate(self.scene.pass_depths, 1):
            run = self._groove(0.0, depth)
            if not drawn or number == last or _apart(run, drawn) >= APART:
                runs[number] = drawn = run
        return runs

    def _tool(self) -> Box:
        """The tool at full depth in the groove towards the tailstock, and the direction of infeed in it."""
        x, neck = self.pitch, TOOL_BELOW * 0.55
        wide = [
            mouth + neck * tan(angle) for mouth, angle in zip(self.mouth, self.scene.flanks, strict=True)
        ]
        self.canvas.line("phantom", "tool", *self._groove(x, self.scene.depth))
        for side, mouth, shank in zip((-1, 1), self.mouth, wide, strict=True):
            self.canvas.outline(
                "tool",
                [(x + side * mouth, 0.0), (x + side * shank, neck), (x + side * shank, TOOL_BELOW)],
                closed=False,
            )
        self.canvas.line("thin", "tool", *zigzag((x - wide[0], TOOL_BELOW), (x + wide[1], TOOL_BELOW)))
        angle = self.cut.way * self.scene.infeed_angle
        tip: Point = (x, -self.depth * 0.3)
        length = TOOL_BELOW * 0.75 + self.depth * 0.3
        tail: Point = (x + length * sin(angle), tip[1] + length * cos(angle))
        self.canvas.line("thin", "infeed", tail, tip)
        arrowhead(self.canvas, "infeed", tip, tail)
        if self.scene.infeed_angle:
            self.canvas.line("center", "groove-axis", (x, -self.depth), (x, TOOL_BELOW * 0.75))
        words = (
            say("infeed {angle:.4g}°", angle=degrees(self.scene.infeed_angle))
            if self.scene.infeed_angle
            else say("infeed straight")
        )
        width = text_width(words)
        self.canvas.text("infeed", words, x - width / 2, TOOL_BELOW + LINE_STEP)
        return Box(x - wide[0], 0.0, x + wide[1], TOOL_BELOW + 0.9)

    def _dimensions(self) -> None:
        """Crest, unless it is sharp, root, depth, pitch; nothing else."""
        scene, mm = self.scene, self.scale.mm

        def size(length: Length) -> str:
            return dimension_text(length, scene.system, fine=True)

        self._depth_dimension(say("depth {size}", size=size(scene.depth)))
        self.board.letters.append(self.canvas.texts[-1].box)
        if not self.top:
            flat = say("crest {size}", size=size(self.cut.crest_flat))
            crest = Dimension(self.left + self.mouth[1], -self.mouth[0], 0.0, 0.0, flat, "crest")
            lay_along(self.canvas, self.board, [crest], 11.0, side=1)
        pitch = say("pitch {size}", size=size(scene.pitch))
        above = [Dimension(0.0, self.pitch, -self.depth, -self.depth, pitch, "pitch")]
        if scene.nose_radius <= 0 and scene.nose_flat > 0:
            half = mm(scene.nose_flat) / 2
            root = say("root {size}", size=size(scene.nose_flat))
            above.append(Dimension(-half, half, -self.depth, -self.depth, root, "root"))
        lay_along(self.canvas, self.board, above, self.behind - 5.0)
        if scene.nose_radius > 0:
            self.board.parts.pop()
            radius = say("root R{size}", size=size(scene.nose_radius))
            x = mm(scene.nose_radius) * sin(pi / 6)
            y = -self.depth + mm(scene.nose_radius) * (1 - cos(pi / 6))
            place_leader(
                self.canvas,
                self.board,
                radius,
                [((-x, y), -1)],
                reaches=[BAND + self.depth + y + more for more in (5.0, 8.0, 11.0, 14.0, 17.0)],
            )

    def _depth_dimension(self, text: str) -> None:
        """Depth at the left, reading from the right, as upright dimensions do."""
        canvas, x = self.canvas, self.left - SIDE
        for y in (-self.depth, 0.0):
            canvas.line("thin", "dimension", (self.left, y), (x - OVERRUN, y))
        tail = 0.0 if self.depth > 3 * ARROW else 6.0
        low, high = tail, -self.depth - tail
        canvas.line("thin", "dimension", (x, low), (x, high))
        arrowhead(canvas, "dimension", (x, 0.0), (x, low if tail else high))
        arrowhead(canvas, "dimension", (x, -self.depth), (x, high if tail else low))
        start = min(-self.depth / 2 + text_width(text) / 2, 2.0)
        canvas.texts.append(Text(text, (x - PAST_OVERRUN, start), LETTER, "dimension", upright=True))

    def _finished(self) -> Drawing:
        scene, canvas = self.scene, self.canvas
        extent = canvas.extent()
        middle = (self.left + self.right) / 2
        heading = f"{DETAIL}  {self.scale}"
        canvas.text(
            "heading",
            heading,
            middle - text_width(heading, LARGE_LETTER) / 2,
            extent.top - 3.0,
            LARGE_LETTER,
        )
        units = say("inches [millimeters]") if scene.system == "inch" else say("millimeters [inches]")
        where = say(", the wall of the bore on the operator's side") if scene.internal else ""
        some = say(", not all of them drawn") if len(self._drawn_passes()) < len(scene.pass_depths) else ""
        caption = say(
            "Axial half-section of {designation} from above{where}, headstock left; numbers are "
            "passes{some}. Scale {scale}, {units}.",
            designation=scene.designation, where=where, some=some, scale=self.scale, units=units,
        )
        width = max(extent.right - extent.left, LEAST_WIDTH)
        left = (extent.left + extent.right) / 2 - width / 2
        canvas.paragraph("caption", caption.split(), left, extent.bottom + LINE_STEP + 0.8, width, " ")
        size = dimension_text(scene.depth, scene.system, fine=True)
        return canvas.drawing(
            "thread",
            scene.job,
            title=say("Thread drawing"),
            scale=str(self.scale),
            caption=caption,
            desc=say(
                "Groove of {designation}, {size} deep, cut in {passes} passes. Lengths in {units}.",
                designation=scene.designation, size=size, passes=len(scene.pass_depths), units=units,
            ),
            left=MARGIN - left,
            width=width + 2 * MARGIN,
        )


def _apart(one: Sequence[Point], other: Sequence[Point]) -> float:
    """How far two passes stand apart at the mouth, on the side where more; in depth, of upright sides."""
    sides = max(abs(one[end][0] - other[end][0]) for end in (0, -1))
    return sides if sides > UPRIGHT else abs(min(y for _, y in one) - min(y for _, y in other))


def _numbered(ends: Sequence[tuple[int, float]]) -> list[tuple[int, float]]:
    """First, last and up to two passes between, far enough apart for their numbers."""
    if len(ends) < 2:
        return list(ends)
    first, last = ends[0], ends[-1]

    def apart(a: tuple[int, float], b: tuple[int, float]) -> bool:
        return abs(a[1] - b[1]) >= (text_width(str(a[0])) + text_width(str(b[0]))) / 2 + 1.2

    if not apart(first, last):
        return [last]
    chosen = [first, last]
    for share in (1 / 3, 2 / 3):
        aim = first[1] + share * (last[1] - first[1])
        nearest = min(ends[1:-1], key=lambda end: abs(end[1] - aim), default=None)
        if (
            nearest is not None
            and len(chosen) < MOST_NUMBERS
            and all(apart(nearest, other) for other in chosen)
        ):
            chosen.append(nearest)
    return sorted(chosen)


def _hatching(corners: Sequence[Point], step: float) -> list[tuple[Point, Point]]:
    """Lines at 45 degrees inside a polygon, `step` mm apart."""
    ring = list(pairwise([*corners, corners[0]]))
    offsets = [x + y for x, y in corners]
    lines: list[tuple[Point, Point]] = []
    spacing = step * sqrt(2)
    at = min(offsets) + spacing / 2
    while at < max(offsets):
        cuts: list[Point] = []
        for (x1, y1), (x2, y2) in ring:
            d1, d2 = x1 + y1 - at, x2 + y2 - at
            if (d1 < 0) != (d2 < 0):
                share = d1 / (d1 - d2)
                cuts.append((x1 + share * (x2 - x1), y1 + share * (y2 - y1)))
        cuts.sort()
        lines += [(a, b) for a, b in zip(cuts[::2], cuts[1::2], strict=True)]
        at += spacing
    return lines
