"""What holds the work on the spindle in the setup view: chuck, collet, faceplate, or a center and a dog.

    draw_head      its outlines, and the boxes they take
    head_words     what its parts are called
    head_room      the paper it takes left of the work
"""

from __future__ import annotations

from dataclasses import dataclass
from math import tan
from typing import Final

from generator.language.say import say
from generator.render.along import Along
from generator.render.drawing import Box, Canvas
from generator.render.lines import Point, zigzag
from generator.render.scale import Scale
from generator.render.setup_parts import CENTER_ANGLE, radius
from generator.sheet.drawn import SetupScene

JAW_HEIGHT: Final = 6.0  # mm of jaw drawn outside the work; outlines of adjacent parts are not to be measured
BODY_ABOVE: Final = 8.5  # mm of chuck body drawn outside the work, broken off there
BODY_LENGTH: Final = 15.0  # mm of chuck body drawn along the axis, broken off there
LEAST_JAW: Final = 5.0  # mm
INSIDE_JAW: Final = 4.0  # mm of a jaw drawn inside a bore, at most
COLLET: Final = (2.2, 4.5)  # mm of collet outside the work, at its mouth and at the nose
PLATE: Final = 5.0  # mm of plate drawn along the axis
STRAP: Final = 3.5  # mm, thickness of a clamp's strap
STUD: Final = 2.0  # mm, thickness of its stud
TALLEST_STUD: Final = 20.0  # mm of stud drawn, at most
SHANK: Final = 7.0  # mm of the headstock center's shank drawn between its cone and the driving plate
DOG_TAIL: Final = 2.0  # mm, thickness of the tail that the plate drives


@dataclass(frozen=True)
class DrawnHead:
    """Boxes of what takes hold of the work, of the body that it sits in, and of the headstock center."""

    holders: list[Box]
    body: list[Box]
    center: list[Box]

    @property
    def boxes(self) -> list[Box]:
        """All of them."""
        return [*self.holders, *self.body, *self.center]


def draw_head(canvas: Canvas, scene: SetupScene, along: Along) -> DrawnHead:
    """Whatever holds the work, broken off where it is larger than the drawing."""
    drawn = {"chuck": _chuck, "collet": _collet, "faceplate": _faceplate, "centers": _centers}
    return drawn[scene.held](canvas, scene, along)


def head_words(scene: SetupScene) -> tuple[str, str]:
    """What the body and what takes hold of the work are called, in trade words."""
    if scene.held == "chuck":
        held = say("{jaws} ({count} in the chuck)", jaws=scene.jaw_words, count=scene.jaws)
        return say("chuck"), say("{held}, inside the bore", held=held) if scene.inside else held
    if scene.held == "collet":
        return say("spindle nose"), say("collet")
    if scene.held == "faceplate":
        clamps = say("clamps ({count} on the plate)", count=scene.clamps)
        return say("faceplate"), clamps if scene.clamps > 1 else say("clamp")
    return say("driving plate"), say("dog")


def head_room(scene: SetupScene, scale: Scale) -> float:
    """Paper, mm, that it takes left of the chuck end of the work."""
    body = min(scale.mm(scene.chuck_length), BODY_LENGTH)
    if scene.held == "centers":
        return SHANK + _cone(_mouth(scene, scale), scene, scale) + PLATE + 2.0
    if scene.held == "faceplate":
        return max(body, PLATE)
    return body + max(0.0, LEAST_JAW - scale.mm(scene.grip))


def holder_top(scene: SetupScene, along: Along) -> float:
    """How far what takes hold of the work reaches outside it at x = 0 (mm of paper)."""
    if scene.held == "chuck":
        return 0.0 if scene.inside else JAW_HEIGHT
    return COLLET[0] if scene.held == "collet" else JAW_HEIGHT


def holder_length(scene: SetupScene, along: Along) -> float:
    """Length of jaw or collet drawn, mm: the grip, or as much as can be seen."""
    return max(along.scale.mm(scene.grip), LEAST_JAW)


def _gripped(scene: SetupScene, along: Along) -> float:
    return radius(scene, along, -scene.grip, 0.0)


# -- chuck and collet -----------------------------------------------------------------------------------


def _chuck(canvas: Canvas, scene: SetupScene, along: Along) -> DrawnHead:
    work, face = _gripped(scene, along), along.at(0.0)
    mouth = face - holder_length(scene, along)
    jaws = []
    for side in (-1, 1):
        if scene.inside:
            jaws.append(_inside_jaw(canvas, scene, along, side, mouth, face))
            continue
        near, top = side * work, side * (work + JAW_HEIGHT)
        corners = [(mouth, near), (face, near), (face, top), (mouth, top)]
        canvas.outline("jaw", corners[1:], closed=False)
        jaws.append(Box.around(corners))
    reach = 0.0 if scene.inside else JAW_HEIGHT
    return DrawnHead(jaws, [_body(canvas, scene, along, "chuck", mouth, work, reach)], [])


def _inside_jaw(
    canvas: Canvas, scene: SetupScene, along: Along, side: int, mouth: float, face: float
) -> Box:
    """A jaw that presses outwards in the bore; hidden, but for what stands out of the work's end."""
    bore = max((along.scale.mm(piece.bore) / 2 for piece in scene.pieces if piece.start < 0), default=0.0)
    bore = bore or 0.5 * _gripped(scene, along)
    deep = max(bore - INSIDE_JAW, 0.3 * bore)
    near, far = side * bore, side * deep
    end = max(mouth, along.left)
    canvas.line("hidden", "jaw", (end, near), (face, near))
    canvas.line("hidden", "jaw", (face, near), (face, far))
    canvas.line("hidden", "jaw", (face, far), (end, far))
    if end > mouth:
        for y in (near, far):
            canvas.line("thin", "jaw", (mouth, y), (end, y))
    return Box.around([(mouth, near), (face, far)])


def _collet(canvas: Canvas, scene: SetupScene, along: Along) -> DrawnHead:
    work, face = _gripped(scene, along), along.at(0.0)
    mouth = face - holder_length(scene, along)
    boxes = []
    for side in (-1, 1):
        corners = [
            (mouth, side * work), (face, side * work), (face, side * (work + COLLET[0])),
            (mouth, side * (work + COLLET[1])),
        ]
        canvas.outline("collet", corners[1:], closed=False)
        boxes.append(Box.around(corners))
    return DrawnHead(boxes, [_body(canvas, scene, along, "spindle-nose", mouth, work, COLLET[1])], [])


def _body(
    canvas: Canvas, scene: SetupScene, along: Along, part: str, mouth: float, work: float, reach: float
) -> Box:
    """Body of chuck or nose behind what grips: upright at `mouth`, broken off where it is too large."""
    true = along.scale.mm(scene.chuck_diameter) / 2
    half = max(min(true, work + BODY_ABOVE), work + reach + 1.0)
    length = along.scale.mm(scene.chuck_length)
    back = mouth - min(length, BODY_LENGTH)
    for side in (-1, 1):
        canvas.outline(part, [(mouth, side * half), (mouth, side * work)], closed=False)
        _edge(canvas, part, (back, side * half), (mouth, side * half), broken=true > work + BODY_ABOVE)
    _edge(canvas, part, (back, -half), (back, half), broken=length > BODY_LENGTH)
    return Box(back, -half, mouth, half)


def _edge(canvas: Canvas, part: str, start: Point, end: Point, *, broken: bool) -> None:
    if broken:
        canvas.line("thin", part, *zigzag(start, end))
    else:
        canvas.outline(part, [start, end], closed=False)


# -- faceplate ------------------------------------------------------------------------------------------


def _faceplate(canvas: Canvas, scene: SetupScene, along: Along) -> DrawnHead:
    """The plate and two of its clamps; x = 0 is its face."""
    face, work = along.at(0.0), radius(scene, along, 0.0, 0.0)
    true = along.scale.mm(scene.chuck_diameter) / 2
    most = work + JAW_HEIGHT + STUD + 2.0
    half = min(true, most) if true > work else most
    thick = min(PLATE, max(along.scale.mm(scene.chuck_length), 2.0))
    back = face - thick
    canvas.outline("plate", [(face, -half), (face, half)], closed=False)
    canvas.outline("plate", [(back, half), (back, -half)], closed=False)
    for side in (-1, 1):
        _edge(canvas, "plate", (back, side * half), (face, side * half), broken=_cut_off(true, half))
    hub = max(0.4 * half, 2.0)
    end = face - max(min(along.scale.mm(scene.chuck_length), BODY_LENGTH), PLATE)
    if back - end > 0.5:
        for side in (-1, 1):
            canvas.outline("plate", [(end, side * hub), (back, side * hub)], closed=False)
        canvas.line("thin", "plate", *zigzag((end, -hub), (end, hub)))
    clamps = [box for side in (-1, 1) for box in _clamp(canvas, scene, along, side)]
    return DrawnHead(clamps, [Box(min(end, back), -half, face, half)], [])


def _cut_off(true: float, half: float) -> bool:
    """True where a plate of radius `true` is drawn only out to `half`."""
    return true > half + 1e-9


def _clamp(canvas: Canvas, scene: SetupScene, along: Along, side: int) -> list[Box]:
    """A strap on a shoulder of the work, or beside it, and the stud that pulls it to the plate."""
    face, press = along.at(0.0), along.scale.mm(scene.clamp_circle) / 2
    seat, work = _seat(scene, along)
    foot = max(min(press, work) - 2.0, 0.4 * work)
    if seat - face > TALLEST_STUD:  # too far out to be clamped from the plate: a strap beside the work
        seat, foot = face, work
    stud, foot = max(work, press) + STUD, side * foot
    strap = Box.around([(seat, foot), (seat + STRAP, side * (stud + 2 * STUD))])
    post = Box.around([(face, side * stud), (seat, side * (stud + STUD))])
    for box in (strap, *([post] if seat > face else [])):
        corners: list[Point] = [
            (box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)
        ]
        canvas.outline("clamp", corners)
    return [strap, post] if seat > face else [strap]


def _seat(scene: SetupScene, along: Along) -> tuple[float, float]:
    """Paper position of the face on which the clamps press, and the work's radius before it (mm)."""
    press, before = scene.clamp_circle / 2, 0.0
    for piece, after in zip(scene.pieces, (*scene.pieces[1:], None), strict=True):
        before = max(before, piece.od_start / 2, piece.od_end / 2)
        if piece.od_end / 2 > press and (after is None or after.od_start / 2 < press):
            return along.at(piece.end), along.scale.mm(before)
    first = scene.pieces[0]  # the circle is outside the work: the straps reach in over its first length
    return along.at(first.end), along.scale.mm(max(first.od_start, first.od_end)) / 2


# -- between centers ------------------------------------------------------------------------------------


def _mouth(scene: SetupScene, scale: Scale) -> float:
    """Radius of the center hole as drawn, or of the bore that the center sits in (mm)."""
    first = scene.pieces[0]
    bore = scale.mm(first.bore) / 2
    return bore if bore > 0 else min(0.2 * scale.mm(first.od_start), 3.0)


def _shank(mouth: float, scene: SetupScene, scale: Scale) -> float:
    work = scale.mm(scene.pieces[0].od_start) / 2
    return min(max(mouth + 1.0, min(0.8 * work, 5.0)), mouth + 5.0)


def _cone(mouth: float, scene: SetupScene, scale: Scale) -> float:
    """Length of the center's cone outside the work (mm)."""
    return (_shank(mouth, scene, scale) - mouth) / tan(CENTER_ANGLE)


def _centers(canvas: Canvas, scene: SetupScene, along: Along) -> DrawnHead:
    """The headstock center in the work, the plate behind it, and the dog that the plate drives."""
    end = along.at(0.0)
    mouth = _mouth(scene, along.scale)
    shank, cone = _shank(mouth, scene, along.scale), end - _cone(mouth, scene, along.scale)
    tip, face = end + mouth / tan(CENTER_ANGLE), cone - SHANK
    for side in (-1, 1):
        canvas.line("hidden", "headstock-center", (tip, 0), (end, side * mouth))
        flank = [(end, side * mouth), (cone, side * shank), (face, side * shank)]
        canvas.outline("headstock-center", flank, closed=False)
    work = radius(scene, along, 0.0, scene.dog)
    half = work + JAW_HEIGHT + 3.0
    plate = Box(face - PLATE, -half, face, half)
    for x in (plate.left, plate.right):
        canvas.outline("plate", [(x, -half), (x, half)], closed=False)
    for side in (-1, 1):
        _edge(
            canvas, "plate", (plate.left, side * half), (plate.right, side * half),
            broken=_cut_off(along.scale.mm(scene.chuck_diameter) / 2, half),
        )
    return DrawnHead(_dog(canvas, scene, along, work, face), [plate], [Box(face, -shank, end, shank)])


def _dog(canvas: Canvas, scene: SetupScene, along: Along, work: float, face: float) -> list[Box]:
    """The dog on the work, its tail bent to the driving plate on the side away from the tool."""
    start, driven = along.at(0.0), face - PLATE / 2
    end = max(along.at(scene.dog), start + 3.0)
    top, tail = -(work + JAW_HEIGHT), -(work + JAW_HEIGHT - DOG_TAIL)
    upper: list[Point] = [
        (end, -work), (end, top), (driven, top), (driven, tail), (start, tail), (start, -work)
    ]
    lower: list[Point] = [(start, work), (start, work + 3.0), (end, work + 3.0), (end, work)]
    canvas.outline("dog", upper, closed=False)
    canvas.outline("dog", lower, closed=False)
    return [
        Box(start, top, end, -work), Box(driven, top, start, tail), Box(start, work, end, work + 3.0)
    ]
