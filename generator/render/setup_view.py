"""The setup drawing: how the work stands in the lathe, from above, headstock left, tool below the axis.

`setup_view` tries the scales of ISO 5455, largest first, and takes the first at which the work fits along
and across and every note, number and dimension finds a free place.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from generator.render import setup_parts as parts
from generator.render.along import Along, lay_out
from generator.render.dimensions import (
    FIRST_LINE,
    Dimension,
    dimension_text,
    lay_along,
    place_item,
    place_leader,
)
from generator.render.drawing import LARGE_LETTER, LINE_STEP, Box, Canvas, Circle, Drawing, Text, text_width
from generator.render.lines import Point
from generator.render.placing import Board
from generator.render.scale import SCALES, Scale
from generator.sheet.model import Piece, SetupScene
from generator.si import Length

WIDTH: Final = 186.0        # mm: A4 and Letter between their margins
HEIGHT: Final = 95.0        # mm
WORK_ACROSS: Final = 40.0   # mm, the largest diameter on paper: leaves room for dimensions and tool
LEFT: Final = 9.0           # mm left of the chuck, for the spindle arrow
RIGHT: Final = 25.0         # mm right of the work, for center and lettering
MARGIN: Final = 1.5         # mm
WORDS: Final = 2 * MARGIN + 3 * LINE_STEP + 1.0   # mm kept for three lines of words below the drawing
DETAIL_RADIUS: Final = 3.0  # mm, ring around the place shown in the thread detail
DETAIL: Final = "A"

Anchors = list[tuple[Point, int]]


def setup_view(scene: SetupScene) -> Drawing:
    """The setup as a finished drawing.

    When no scale gives every label a free place, the scale that places most of them is used and the others
    are left out of the drawing; each number also stands in a table of the sheet.
    """
    best: Drawing | None = None
    for scale in SCALES:
        if max(scale.mm(max(piece.od_start, piece.od_end)) for piece in scene.pieces) > WORK_ACROSS:
            continue
        left = LEFT + parts.chuck_room(scene, scale)
        along = lay_out(scene, scale, left, WIDTH - left - RIGHT)
        if along is None:
            continue
        drawing, complete = _draw(scene, along)
        if complete and drawing.height <= HEIGHT:
            return drawing
        if drawing.height <= HEIGHT and (best is None or len(drawing.texts) > len(best.texts)):
            best = drawing
    assert best is not None, "the smallest scale fits any work"
    return best


def _draw(scene: SetupScene, along: Along) -> tuple[Drawing, bool]:
    """The drawing at one scale, and whether every label found its place."""
    canvas = Canvas()
    board = Board(Box(MARGIN, -HEIGHT, WIDTH - MARGIN, HEIGHT))
    parts.draw_work(canvas, scene, along)
    jaws, body = parts.draw_chuck(canvas, scene, along)
    steady = parts.draw_steady(canvas, scene, along)
    center = parts.draw_center(canvas, scene, along)
    tool = parts.draw_tool(canvas, scene, along, [*jaws, *body, *steady, *center])
    if tool:
        parts.draw_travel(canvas, scene, along, tool[0])
    axis_end = max([along.right + 5.0, *(box.right + 3.0 for box in center)])
    canvas.line("center", "axis", (MARGIN, 0.0), (axis_end, 0.0))
    parts.draw_spindle_arrow(canvas, LEFT - 3.5)
    board.parts += [*jaws, *body, *steady, *center, *tool]
    gripped = parts.radius(scene, along, -scene.grip, 0.0)
    board.parts.append(Box(along.left, -gripped, along.at(0.0), gripped))
    board.lines += [line.points for line in canvas.lines]
    board.barriers += [
        line.points for line in canvas.lines
        if line.part in ("travel", "end-of-cut", "break") or (line.kind == "visible" and line.part != "hole")
    ]

    top = max(parts.radius(scene, along, scene.pieces[0].start, scene.pieces[-1].end), -_top([*jaws, *body, *steady]) - 8)
    complete = lay_along(canvas, board, list(_dimensions(scene, along, -_top(body))), -(top + FIRST_LINE))
    board.boundary = replace(board.boundary, bottom=canvas.extent().top + HEIGHT - WORDS)
    if tool:
        complete &= _mark_detail(canvas, board, scene, along)
    items: list[tuple[int, str]] = []
    for words, anchors, own in _items(scene, along, jaws, body, steady, center, tool):
        items.append((len(items) + 1, words))
        complete &= place_item(canvas, board, len(items), anchors, own)
    for text, anchors in _notes(scene, along):
        complete &= place_leader(canvas, board, text, anchors)
    return _finished(canvas, scene, along, items), complete


def _top(boxes: list[Box]) -> float:
    return min(box.top for box in boxes)


def _dimensions(scene: SetupScene, along: Along, body: float) -> Iterator[Dimension]:
    """Dimensions along the axis, each once, from the chuck face where that is how the work is set."""

    def one(name: str, start: Length, end: Length) -> Dimension:
        def outline(x: Length) -> float:
            if x < 0:
                return -body
            if x == 0:
                return -parts.radius(scene, along, 0.0, 0.0) - parts.JAW_HEIGHT
            if x == scene.steady_at:
                return -parts.radius(scene, along, x, x) - parts.FINGER - parts.FRAME
            hole = next((diameter for at, diameter in scene.cross_holes if at == x), None)
            if hole is not None:
                return -along.scale.mm(hole) / 2 - 1.5
            return -parts.radius(scene, along, x, x)

        text = dimension_text(end - start, scene.system)
        return Dimension(along.at(start), along.at(end), outline(start), outline(end), text, name)

    end = scene.pieces[-1].end
    yield one("grip", -scene.grip, 0.0)
    yield one("stick-out", 0.0, end)
    if scene.steady_at is not None and 0 < scene.steady_at < end:
        yield one("steady", 0.0, scene.steady_at)
    threads = [piece for piece in scene.pieces if piece.form == "thread"]
    reliefs = [piece for piece in scene.pieces if piece.form == "relief"]
    if threads:
        yield one("thread", threads[0].start, threads[-1].end)
        if threads[-1].end != end and not any(relief.start == threads[-1].end for relief in reliefs):
            yield one("thread-from-end", threads[-1].end, end)
    for relief in reliefs:
        yield one("relief", relief.start, relief.end)
    known = {0.0, end, *(x for piece in (*threads, *reliefs) for x in (piece.start, piece.end))}
    for piece, after in zip(scene.pieces, scene.pieces[1:], strict=False):
        if piece.end > 0 and piece.end not in known and piece.od_end != after.od_start:
            yield one("shoulder", 0.0, piece.end)
    for x, _ in scene.cross_holes:
        yield one("hole", x, end)


def _notes(scene: SetupScene, along: Along) -> Iterator[tuple[str, Anchors]]:
    """Notes on leaders: diameters, each once, and the thread's designation; the tightest place first."""
    seen: set[tuple[str, str]] = set()

    def fresh(text: str, form: str) -> bool:
        new = (text, form) not in seen
        seen.add((text, form))
        return new

    order = {"relief": 0, "thread": 1, "taper": 2, "plain": 3}
    for x, diameter in scene.cross_holes:
        text = f"Ø{dimension_text(diameter, scene.system)}"
        if fresh(text, "hole"):
            half, middle = along.scale.mm(diameter) / 2, along.at(x)
            yield text, [((middle, half), 1), ((middle, -half), -1)]
    for piece in sorted(scene.pieces, key=lambda piece: (order[piece.form], along.at(piece.end) - along.at(piece.start))):
        low, high = max(piece.start, 0.0), piece.end
        if low >= high:
            continue
        if piece.form == "thread":
            if fresh(scene.designation, "thread"):
                yield scene.designation, _outline_anchors(along, piece, low, high)
            continue
        text = f"Ø{dimension_text(piece.od_start, scene.system)}"
        if piece.form == "taper":
            text += f" to Ø{dimension_text(piece.od_end, scene.system)}"
        if fresh(text, "outside"):
            yield text, _outline_anchors(along, piece, low, high)
    for piece in scene.pieces:
        text = f"bore Ø{dimension_text(piece.bore, scene.system)}"
        low, high = max(piece.start, 0.0), piece.end
        if piece.bore > 0 and low < high and fresh(text, "bore"):
            half = along.scale.mm(piece.bore) / 2
            xs = [a + share * (b - a) for a, b in along.runs(low, high) for share in _SHARES]
            yield text, [((x, side * half), side) for x in xs for side in (1, -1)]


_SHARES: Final = (0.5, 0.3, 0.7, 0.15, 0.85)


def _outline_anchors(along: Along, piece: Piece, low: Length, high: Length) -> Anchors:
    """Points on the outline of a piece, lower side first, clear of breaks."""
    anchors: Anchors = []
    for side in (1, -1):
        for a, b in along.runs(low, high):
            for share in _SHARES:
                od = piece.od_start
                if piece.form == "taper":
                    od += (piece.od_end - piece.od_start) * share
                anchors.append(((a + share * (b - a), side * along.scale.mm(od) / 2), side))
    return anchors


Item = tuple[str, Anchors, list[Box]]


def _items(
    scene: SetupScene, along: Along, jaws: list[Box], body: list[Box], steady: list[Box], center: list[Box],
    tool: list[Box],
) -> Iterator[Item]:
    """What gets an item number, in trade words, with the places a leader may end."""

    def inside(boxes: list[Box]) -> Anchors:
        lower = [box for box in boxes if box.bottom > 0]
        upper = [box for box in boxes if box.top < 0]
        return [
            ((box.left + share * (box.right - box.left), y), side)
            for side, some in ((1, lower), (-1, upper)) for box in some for share in (0.5, 0.25, 0.75)
            for y in ([(box.bottom if side > 0 else box.top) - side * min(2.0, (box.bottom - box.top) / 3)])
        ]

    yield "chuck", inside(body), body
    yield f"jaws ({scene.jaws} in the chuck)", inside(jaws), jaws
    yield "work", list(_work_anchors(scene, along)), []
    if steady:
        yield "steady rest", inside(steady), steady
    if center:
        yield f"{scene.center} center in the tailstock", inside(center), center
    if tool:
        yield "threading tool at the start of the cut", inside(tool), tool


def _work_anchors(scene: SetupScene, along: Along) -> Iterator[tuple[Point, int]]:
    """Places inside the work, between bore and outline, where a leader's dot is clear of lines."""
    for form in ("plain", "taper", "thread", "relief"):
        for piece in scene.pieces:
            if piece.form != form or piece.end <= 0:
                continue
            outer = along.scale.mm(min(piece.od_start, piece.od_end)) / 2
            middle = (outer + along.scale.mm(piece.bore) / 2) / 2
            for a, b in along.runs(max(piece.start, 0.0), piece.end):
                for share in _SHARES:
                    for side in (1, -1):
                        yield (a + share * (b - a), side * middle), side


def _mark_detail(canvas: Canvas, board: Board, scene: SetupScene, along: Along) -> bool:
    """The ring around the crests that the thread detail shows, with its letter."""
    threads = [piece for piece in scene.pieces if piece.form == "thread"]
    if not threads or scene.cut_from is None or scene.cut_to is None:
        return True
    y = along.scale.mm(threads[0].od_start) / 2
    width = text_width(DETAIL, LARGE_LETTER)
    for share in (0.5, 0.4, 0.6, 0.7, 0.3):
        x = along.at(threads[0].start) * (1 - share) + along.at(threads[-1].end) * share
        for side in (-1, 1):
            ring = Circle("thin", (x, side * y), DETAIL_RADIUS, "detail")
            base = side * (y + 2.2) + (LARGE_LETTER if side > 0 else 0)
            for dx in (DETAIL_RADIUS + 0.8, -DETAIL_RADIUS - 0.8 - width):
                letter = Text(DETAIL, (x + dx, base), LARGE_LETTER, "detail")
                if board.lettering_fits(letter.box):
                    canvas.circles.append(ring)
                    canvas.texts.append(letter)
                    board.letters.append(letter.box)
                    board.parts.append(ring.box)
                    return True
    return False


def _finished(canvas: Canvas, scene: SetupScene, along: Along, items: list[tuple[int, str]]) -> Drawing:
    """Items, caption and scale below the drawing; everything shifted to the paper's corner."""
    units = "inches [millimetres]" if scene.system == "inch" else "millimetres [inches]"
    caption = f"{scene.caption}; headstock left. Scale {along.scale}, {units}."
    signs = ["Arrow at the chuck: spindle, top of the work towards the operator."]
    if scene.cut_from is not None:
        signs.append("At the tool: carriage in the cut.")
    if along.breaks:
        signs.append("Zigzags: length left out.")
    extent = canvas.extent()
    canvas = canvas.finished((WIDTH - extent.left - extent.right) / 2, 0.0)
    y = extent.bottom + LINE_STEP
    y = canvas.paragraph("items", [f"{number} {words}" for number, words in items], MARGIN, y, WIDTH - 2 * MARGIN)
    y = canvas.paragraph("caption", " ".join([caption, *signs]).split(), MARGIN, y + LINE_STEP, WIDTH - 2 * MARGIN, " ")
    extent = canvas.extent()
    shifted = canvas.finished(0.0, MARGIN - extent.top)
    return Drawing(
        id=f"{_identifier(scene.job)}-setup", view="setup", width=WIDTH,
        height=round(extent.bottom - extent.top + 2 * MARGIN, 2),
        lines=tuple(shifted.lines), circles=tuple(shifted.circles), fills=tuple(shifted.fills),
        texts=tuple(shifted.texts), title=f"Setup drawing, job {scene.job}", desc=_described(scene),
        scale=str(along.scale), caption=caption, items=tuple(items),
    )


def _identifier(job: str) -> str:
    """A job number as the start of an id."""
    return "job-" + "".join(c if c.isascii() and c.isalnum() else "-" for c in job)


def _described(scene: SetupScene) -> str:
    """The setup in a sentence."""
    end = scene.pieces[-1].end

    def size(length: Length) -> str:
        return dimension_text(length, scene.system)

    words = [f"Work held {size(scene.grip)} in a {scene.jaws}-jaw chuck, standing out {size(end)}"]
    if scene.steady_at is not None:
        words.append(f"steady rest at {size(scene.steady_at)} from the chuck face")
    if scene.center is not None:
        words.append(f"{scene.center} center in the tailstock end")
    if scene.cut_from is not None and scene.cut_to is not None:
        towards = "headstock" if scene.cut_to < scene.cut_from else "tailstock"
        words.append(f"thread {scene.designation} cut towards the {towards}")
    unit = "inches [millimetres]" if scene.system == "inch" else "millimetres [inches]"
    return f"{', '.join(words)}. Lengths in {unit}."
