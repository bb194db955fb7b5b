"""The setup drawing: how the work stands in the lathe, from above, headstock left, tool below the axis.

`setup_view` tries the scales of ISO 5455, largest first, and takes the first at which the work fits along
and across and every note, number and dimension finds a free place.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from generator.language.say import say
from generator.render import setup_parts as parts
from generator.render.along import Along, lay_out
from generator.render.dimensions import (
    FIRST_LINE,
    dimension_text,
    lay_along,
    place_item,
    place_leader,
)
from generator.render.drawing import (
    LARGE_LETTER,
    LINE_STEP,
    MARGIN,
    WIDTH,
    Box,
    Canvas,
    Circle,
    Drawing,
    Text,
    text_width,
)
from generator.render.placing import Board
from generator.render.scale import SCALES
from generator.render.setup_heads import draw_head, head_room
from generator.render.setup_labels import dimensions, labelled_parts, notes
from generator.sheet.drawn import SetupScene
from generator.si import Length

HEIGHT: Final = 95.0  # mm
WORK_ACROSS: Final = 40.0  # mm, the largest diameter on paper: leaves room for dimensions and tool
LEFT: Final = 9.0  # mm left of the chuck, for the spindle arrow
RIGHT: Final = 25.0  # mm right of the work, for center and lettering
SHORT: Final = 12.0  # mm of work out of the chuck, on paper: on shorter work notes go before item numbers
WORDS: Final = 2 * MARGIN + 3 * LINE_STEP + 1.0  # mm kept for three lines of words below the drawing
DETAIL_RADIUS: Final = 3.0  # mm, ring around the place shown in the thread detail
DETAIL: Final = "A"


def setup_view(scene: SetupScene) -> Drawing:
    """The setup as a finished drawing.

    When no scale gives every label a free place, the scale that places most of them is used and the others
    are left out of the drawing; each number also stands in a table of the sheet.
    """
    best: Drawing | None = None
    tall: Drawing | None = None
    for scale in SCALES:
        if max(scale.mm(max(piece.od_start, piece.od_end)) for piece in scene.pieces) > WORK_ACROSS:
            continue
        left = LEFT + head_room(scene, scale)
        along = lay_out(scene, scale, left, WIDTH - left - RIGHT)
        if along is None:
            continue
        drawing, complete = _draw(scene, along)
        fits = drawing.height <= HEIGHT
        if complete and fits:
            return drawing
        if not fits:
            tall = drawing  # better over its height than not at all
            continue
        if best is not None and len(drawing.texts) <= len(best.texts):
            break  # smaller still, the outlines are shorter and there is no more to point at
        best = drawing
    drawn = best or tall
    assert drawn is not None, "the smallest scale takes any work"
    return drawn


def _draw(scene: SetupScene, along: Along) -> tuple[Drawing, bool]:
    """The drawing at one scale, and whether every label found its place."""
    canvas = Canvas()
    board = Board(Box(MARGIN, -HEIGHT, WIDTH - MARGIN, HEIGHT))
    parts.draw_work(canvas, scene, along)
    head = draw_head(canvas, scene, along)
    steady = parts.draw_steady(canvas, scene, along)
    follow = parts.draw_follow_rest(canvas, scene, along)
    center = parts.draw_center(canvas, scene, along)
    tool = parts.draw_tool(canvas, scene, along, [*head.boxes, *steady, *follow, *center])
    if tool:
        parts.draw_travel(canvas, scene, along, tool[0])
    axis_end = max([along.right + 5.0, *(box.right + 3.0 for box in center)])
    canvas.line("center", "axis", (MARGIN, 0.0), (axis_end, 0.0))
    parts.draw_spindle_arrow(canvas, LEFT - 3.5)
    board.parts += [*head.boxes, *steady, *follow, *center, *tool]
    if not scene.inside:
        gripped = parts.radius(scene, along, -scene.grip, 0.0)
        board.parts.append(Box(along.left, -gripped, along.at(0.0), gripped))
    board.lines += [line.points for line in canvas.lines]
    board.barriers += [
        line.points
        for line in canvas.lines
        if line.part in ("travel", "end-of-cut", "break") or (line.kind == "visible" and line.part != "hole")
    ]

    top = max(
        parts.radius(scene, along, scene.pieces[0].start, scene.pieces[-1].end),
        -_top([*head.boxes, *steady, *follow]) - 8,
    )
    complete = lay_along(canvas, board, list(dimensions(scene, along, -_top(head.body))), -(top + FIRST_LINE))
    board.boundary = replace(board.boundary, bottom=canvas.extent().top + HEIGHT - WORDS)
    if tool:
        complete &= _mark_detail(canvas, board, scene, along)
    said = list(notes(scene, along))
    first = 0
    if any(piece.inside == "thread" for piece in scene.pieces):  # reached past the outline: it goes first
        said.sort(key=lambda note: note[0] != scene.designation)
        first = 1
    if along.right - along.at(0.0) < SHORT:
        first = len(said)
    for text, anchors in said[:first]:
        complete &= place_leader(canvas, board, text, anchors)
    items: list[tuple[int, str]] = []
    for words, anchors, own in labelled_parts(scene, along, head, steady, follow, center, tool):
        items.append((len(items) + 1, words))
        complete &= place_item(canvas, board, len(items), anchors, own)
    for text, anchors in said[first:]:
        complete &= place_leader(canvas, board, text, anchors)
    return _finished(canvas, scene, along, items), complete


def _top(boxes: list[Box]) -> float:
    return min(box.top for box in boxes)


def _mark_detail(canvas: Canvas, board: Board, scene: SetupScene, along: Along) -> bool:
    """The ring around the crests that the thread detail shows, with its letter."""
    threads = [piece for piece in scene.pieces if parts.threaded(piece)]
    if not threads or scene.cut_from is None or scene.cut_to is None:
        return True
    y = parts.crest_radius(threads[0], along)
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


def _finished(
    canvas: Canvas,
    scene: SetupScene,
    along: Along,
    items: list[tuple[int, str]],
) -> Drawing:
    """Items, caption and scale below the drawing; everything shifted to the paper's corner."""
    units = say("inches [millimeters]") if scene.system == "inch" else say("millimeters [inches]")
    caption = say(
        "{caption}; headstock left. Scale {scale}, {units}.",
        caption=scene.caption, scale=along.scale, units=units,
    )
    signs = [say("Arrow on the left: spindle, top of the work towards the operator.")]
    if scene.cut_from is not None:
        signs.append(say("At the tool: carriage in the cut."))
    if along.breaks:
        signs.append(say("Zigzags: length left out."))
    extent = canvas.extent()
    canvas = canvas.finished((WIDTH - extent.left - extent.right) / 2, 0.0)
    y = extent.bottom + LINE_STEP
    y = canvas.paragraph(
        "items", [f"{number} {words}" for number, words in items], MARGIN, y, WIDTH - 2 * MARGIN
    )
    y = canvas.paragraph(
        "caption", " ".join([caption, *signs]).split(), MARGIN, y + LINE_STEP, WIDTH - 2 * MARGIN, " "
    )
    return canvas.drawing(
        "setup", scene.job, title=say("Setup drawing"), desc=_described(scene), scale=str(along.scale),
        caption=caption, items=items,
    )


def _described(scene: SetupScene) -> str:
    """The setup in a sentence."""
    end = scene.pieces[-1].end

    def size(length: Length) -> str:
        return dimension_text(length, scene.system)

    words = [_held(scene, size(end))]
    if scene.steady_at is not None:
        words.append(say("steady rest at {size} from the chuck face", size=size(scene.steady_at)))
    if scene.follow_rest_at is not None:
        words.append(say("follow rest at the tool"))
    if scene.center is not None:
        live = scene.center == "live"
        words.append(
            say("live center in the tailstock end") if live else say("dead center in the tailstock end")
        )
    if scene.cut_from is not None and scene.cut_to is not None:
        words.append(
            say("thread {designation} cut towards the headstock", designation=scene.designation)
            if scene.cut_to < scene.cut_from
            else say("thread {designation} cut towards the tailstock", designation=scene.designation)
        )
    unit = say("inches [millimeters]") if scene.system == "inch" else say("millimeters [inches]")
    return say("{words}. Lengths in {unit}.", words=", ".join(words), unit=unit)


def _held(scene: SetupScene, out: str) -> str:
    """How the work is held, and how far it stands out of that."""
    grip, dog = (dimension_text(length, scene.system) for length in (scene.grip, scene.dog))
    if scene.held == "centers":
        return say(
            "Work between centers, driven by a dog on its first {dog}, reaching {out}", dog=dog, out=out
        )
    if scene.held == "faceplate":
        return say("Work clamped on the faceplate, standing out {out}", out=out)
    if scene.held == "collet":
        return say("Work held {grip} in a collet, standing out {out}", grip=grip, out=out)
    if scene.inside:
        return say(
            "Work held {grip} in a {jaws}-jaw chuck from its bore, standing out {out}",
            grip=grip, jaws=scene.jaws, out=out,
        )
    return say(
        "Work held {grip} in a {jaws}-jaw chuck, standing out {out}", grip=grip, jaws=scene.jaws, out=out
    )
