"""Room along the bed: a front view with lengths true to scale, heights not.

Work on the spindle axis, chuck and headstock left, tailstock right, steady rest between; holder and compound
at center height and the carriage on the bed, with the tool where the cut that is drawn has least room. That
room is dimensioned below.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from generator.language.say import say
from generator.render.dimensions import Dimension, dimension_text, lay_along, place_leader
from generator.render.drawing import (
    LETTER,
    LINE_STEP,
    MARGIN,
    WIDTH,
    Box,
    Canvas,
    Drawing,
    Text,
    text_width,
)
from generator.render.lines import Point, zigzag
from generator.render.placing import Board
from generator.render.scale import SCALES, Scale
from generator.sheet.drawn import ReachScene, SetupScene
from generator.si import Length

ABOVE: Final = 10.0  # mm above the axis, for words
WORK: Final = 2.5  # mm, half height of the work as drawn
CHUCK: Final = 5.5  # mm, half height of chuck and steady rest
COLLET: Final = 4.0  # mm, half height of a collet
PLATE: Final = 7.0  # mm, half height of a faceplate
QUILL: Final = 1.5  # mm, half height of the quill
HOLDER: Final = (3.2, 7.4)  # mm below the axis: tool holder and compound
CARRIAGE: Final = (8.4, 12.8)  # mm below the axis: carriage and bases, down to the bed
HEADSTOCK: Final = 16.0  # mm of headstock drawn
TAILSTOCK: Final = 16.0  # mm of tailstock drawn
ROOM_LINE: Final = 6.5  # mm from the bed to the dimension line
BELOW: Final = 8.5  # mm below the bed, for the dimension

ABOVE_PART: Final = 0.9  # mm between a part and its name

Word = tuple[str, Box, str]  # what a part is called, its room, and where its name goes: above or beside


@dataclass(frozen=True)
class _Bed:
    """Places on paper: x of the lathe along, the spindle axis at `axis`."""

    scale: Scale
    first: Length
    left: float
    axis: float

    def at(self, x: Length) -> float:
        """Paper position of a place (mm)."""
        return self.left + self.scale.mm(x - self.first)

    def box(self, room: tuple[Length, Length], top: float, bottom: float) -> Box:
        """A room along the bed at heights counted from the axis."""
        return Box(self.at(room[0]), self.axis + top, self.at(room[1]), self.axis + bottom)


def bed_view(scene: SetupScene, reach: ReachScene) -> Drawing:
    """The lathe along its bed with the tool at `reach.tool_at`, as a finished drawing."""
    canvas = Canvas()
    left, right = MARGIN, WIDTH - MARGIN
    bed = _laid_out(scene, reach, left, right)
    words = list(_draw(canvas, bed, scene, reach))
    end = bed.at(scene.pieces[-1].end if reach.tailstock is None else reach.tailstock)
    start = bed.at(scene.pieces[0].start if reach.nose is None else reach.nose)
    canvas.line("center", "bed-axis", (start - 2.0, bed.axis), (end + 2.0, bed.axis))
    floor = bed.axis + CARRIAGE[1]
    canvas.line("thin", "bed", (left, floor), (right, floor))
    board = Board(Box(left, 0.0, right, floor + BELOW))
    board.lines += [line.points for line in canvas.lines]
    _lay_room(canvas, board, bed, scene, reach, floor)
    for text, box, place in words:
        _name(canvas, board, text, box, place)
    return _finished(canvas, scene, reach, bed.scale)


def _finished(canvas: Canvas, scene: SetupScene, reach: ReachScene, scale: Scale) -> Drawing:
    """Words below the drawing, everything shifted to the paper's corner."""
    caption = say(
        "Along the bed, from the operator's side; headstock left. Scale {scale}, heights not to scale.",
        scale=scale,
    )
    least = _least_room(reach, scene)
    width = WIDTH - 2 * MARGIN
    bottom = canvas.extent().bottom + LINE_STEP
    canvas.paragraph("caption", f"{caption} {least}".split(), MARGIN, bottom, width, " ")
    return canvas.drawing(
        "bed",
        scene.job,
        title=say("Room along the bed"),
        scale=str(scale),
        caption=caption,
        desc=say(
            "The lathe along its bed with the tool at one cut, where that has least room. {least}",
            least=least,
        ),
    )


def _least_room(reach: ReachScene, scene: SetupScene) -> str:
    """Where the cut that is drawn has the least room, and how much."""
    if reach.clearance == 0:
        meets = say("they just touch")
    else:
        size = dimension_text(abs(reach.clearance), scene.system)
        meets = say("short by {size}", size=size) if reach.clearance < 0 else size
    return say(
        "{cut}, least room: {part} to {obstacle}, {meets}. Other cuts: see Work holding.",
        cut=reach.cut, part=reach.part, obstacle=reach.obstacle, meets=meets,
    )


def _name(canvas: Canvas, board: Board, text: str, box: Box, place: str) -> None:
    """Write what a part is above it, or in it, or beside it: the first free place."""
    width = text_width(text)
    middle = (box.left + box.right - width) / 2
    if place == "above":
        base = box.top - ABOVE_PART
        starts = [middle, box.left, box.right - width, box.right + 1.0, box.left - width - 1.0]
    else:
        base = (box.top + box.bottom + LETTER) / 2
        starts = [middle, box.left - width - 1.0, box.right + 1.0]
    for start in starts:
        words = Text(text, (start, base), LETTER, "bed-name")
        if board.lettering_fits(Box(words.box.left, words.box.top, words.box.right, base)):
            canvas.texts.append(words)
            board.letters.append(words.box)
            return
    anchors = [
        ((box.left + share * (box.right - box.left), y), side)
        for side, y in ((-1, box.top), (1, box.bottom))
        for share in (0.5, 0.2, 0.8)
    ]
    place_leader(canvas, board, text, anchors, "bed-name", (2.5, 4, 5.5, 7, 9, 12))


def _laid_out(scene: SetupScene, reach: ReachScene, left: float, right: float) -> _Bed:
    """The largest scale at which everything along the bed fits."""
    rooms = [reach.carriage, reach.holder, reach.compound, reach.follow_rest, reach.base, reach.fingers]
    places = [x for room in rooms if room for x in room]
    places += [x for x in (reach.nose, reach.quill, reach.tailstock, reach.edge, reach.face) if x is not None]
    places += [scene.pieces[0].start, scene.pieces[-1].end, -scene.chuck_length]
    first, last = min(places), max(places)
    paper = right - left - HEADSTOCK - TAILSTOCK
    scale = next((one for one in SCALES if one.mm(last - first) <= paper), SCALES[-1])
    start = left + HEADSTOCK + (paper - scale.mm(last - first)) / 2
    return _Bed(scale, first, start, ABOVE)


def _draw(canvas: Canvas, bed: _Bed, scene: SetupScene, reach: ReachScene) -> Iterator[Word]:
    """Every part; what it is called, and its room."""
    work = bed.box((scene.pieces[0].start, scene.pieces[-1].end), -WORK, WORK)
    _outline(canvas, "bed-work", work, "visible")
    yield from _head(canvas, bed, scene, reach)
    if reach.nose is not None:
        nose = bed.at(reach.nose)
        headstock = Box(nose - HEADSTOCK, bed.axis - CHUCK, nose, bed.axis + CARRIAGE[1])
        canvas.outline(
            "bed-headstock",
            [
                (headstock.left, headstock.top),
                (headstock.right, headstock.top),
                (headstock.right, headstock.bottom),
            ],
            closed=False,
        )
        left, bottom = headstock.left, headstock.bottom
        canvas.line("thin", "bed-headstock", *zigzag((left, headstock.top), (left, bottom)))
        yield say("headstock"), headstock, "above"
    if reach.fingers:
        fingers = bed.box(reach.fingers, -CHUCK, CARRIAGE[0])
        _outline(canvas, "bed-fingers", fingers)
        yield say("steady rest"), fingers, "above"
    if reach.base:
        base = bed.box(reach.base, CARRIAGE[0], CARRIAGE[1])
        _outline(canvas, "bed-base", base)
    if reach.tailstock is not None and reach.quill is not None:
        yield from _tailstock(canvas, bed, scene, reach.quill, reach.tailstock)
    yield from _travelling(canvas, bed, reach)


def _head(canvas: Canvas, bed: _Bed, scene: SetupScene, reach: ReachScene) -> Iterator[Word]:
    """What holds the work on the spindle, from the nose to its face; between centers, center and dog."""
    back = reach.nose if reach.nose is not None else -scene.chuck_length
    room = (back, 0.0)
    if scene.held == "chuck":
        box = bed.box(room, -CHUCK, CHUCK)
        _outline(canvas, "bed-chuck", box)
        yield say("chuck"), box, "above"
    elif scene.held == "collet":
        box = bed.box(room, -COLLET, COLLET)
        _outline(canvas, "bed-collet", box)
        yield say("collet"), box, "above"
    elif scene.held == "faceplate":
        box = bed.box(room, -PLATE, PLATE)
        _outline(canvas, "bed-faceplate", box)
        yield say("faceplate"), box, "above"
    else:
        tip, nose = (bed.at(0.0), bed.axis), bed.at(back)
        for side in (-1, 1):
            canvas.line("thin", "bed-headstock-center", tip, (nose, bed.axis + side * QUILL))
        canvas.line("thin", "bed-headstock-center", (nose, bed.axis - QUILL), (nose, bed.axis + QUILL))
        dog = bed.box((0.0, scene.dog), -CHUCK, CHUCK)
        _outline(canvas, "bed-dog", dog)
        yield say("dog"), dog, "above"


def _tailstock(
    canvas: Canvas, bed: _Bed, scene: SetupScene, quill: Length, front: Length
) -> Iterator[Word]:
    end, nose, body = bed.at(scene.pieces[-1].end), bed.at(quill), bed.at(front)
    axis = bed.axis
    for side in (-1, 1):
        canvas.line("thin", "bed-center", (end, axis), (nose, axis + side * QUILL))
    stem = Box(nose, axis - QUILL, body, axis + QUILL)
    if body - nose > 0.05:
        _outline(canvas, "bed-quill", stem)
    else:
        canvas.line("thin", "bed-quill", (nose, stem.top), (nose, stem.bottom))
    casting = Box(body, axis - CHUCK, body + TAILSTOCK, axis + CARRIAGE[1])
    canvas.outline(
        "bed-tailstock",
        [(casting.right, casting.top), (casting.left, casting.top), (casting.left, casting.bottom)],
        closed=False,
    )
    right = casting.right
    canvas.line("thin", "bed-tailstock", *zigzag((right, casting.top), (right, casting.bottom)))
    yield say("tailstock"), casting, "above"


def _travelling(canvas: Canvas, bed: _Bed, reach: ReachScene) -> Iterator[Word]:
    """Carriage, tool with its holder, compound and follow rest, with the tool's point at its place."""
    if reach.carriage is not None:
        box = bed.box(reach.carriage, *CARRIAGE)
        _outline(canvas, "bed-carriage", box)
        yield say("carriage"), box, "beside"
    x = bed.at(reach.tool_at)
    canvas.line("thin", "bed-tool", (x, bed.axis + WORK), (x, bed.axis + HOLDER[1]))
    for name, words, room in (
        ("holder", say("tool holder"), reach.holder),
        ("compound", say("compound"), reach.compound),
        ("follow-rest", say("follow rest"), reach.follow_rest),
    ):
        if room is None:
            continue
        if name == "follow-rest":
            box, place = bed.box(room, -CHUCK, HOLDER[0]), "above"
        else:
            box, place = bed.box(room, *HOLDER), "beside"
        _outline(canvas, f"bed-{name}", box)
        yield words, box, place


def _outline(canvas: Canvas, part: str, box: Box, kind: str = "") -> None:
    corners: list[Point] = [
        (box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)
    ]
    if kind == "visible":
        canvas.line("visible", part, *corners, corners[0])
    else:
        canvas.outline(part, corners)


def _lay_room(
    canvas: Canvas, board: Board, bed: _Bed, scene: SetupScene, reach: ReachScene, floor: float
) -> None:
    """The least room, or by how much they meet, as a dimension under the bed."""
    x1, x2 = sorted((bed.at(reach.edge), bed.at(reach.face)))
    text = dimension_text(abs(reach.clearance), scene.system)
    if reach.clearance < 0:
        text = say("short by {text}", text=text)
    if x2 - x1 < 0.05:
        return  # they just touch: said in the caption
    start = bed.axis + (CARRIAGE[1] if reach.part == "carriage" else HOLDER[1])
    room = Dimension(x1, x2, start, start, text, say("least room"))
    lay_along(canvas, board, [room], floor + ROOM_LINE, "bed-room", 1)
