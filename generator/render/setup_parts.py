"""The parts of the setup view, seen from above, spindle axis at y = 0, tool side at +y, mm of paper.

Work first, as the only wide outline; then what supports and cuts, as plain outlines of adjacent parts: steady
rest, follow rest, tailstock center, threading tool (what holds it on the spindle is in `setup_heads`). Each
returns the boxes it takes, upper before lower.
"""

from __future__ import annotations

from math import pi, radians, tan
from typing import Final

from generator.render.along import Along
from generator.render.dimensions import ARROW, arrowhead
from generator.render.drawing import Box, Canvas
from generator.render.lines import WIDE, LineKind, arc, zigzag
from generator.sheet.drawn import Piece, SetupScene
from generator.si import Length

CREST_TO_ROOT: Final = max(2 * WIDE, 0.7)  # mm at least, even off scale (ISO 6410-1)
FINGER: Final = 4.0  # mm of steady finger between work and frame
FRAME: Final = 4.0  # mm of steady frame
TOOL_CLEAR: Final = 1.5  # mm between the tool and anything else, before the cut
TOOL_HALF: Final = 3.2  # mm, half width of the tool's shank
TOOL_LENGTH: Final = 11.0  # mm
TOOL_TIP: Final = 0.3  # mm, half width of the tip as drawn
BAR_POINT: Final = 1.2  # mm, how far the point stands out of a boring bar as drawn, and its half width
LEAD_IN: Final = 2.0  # mm the tool stands before the start of the cut
CENTER_ANGLE: Final = radians(30)  # half angle of a lathe center


def radius(scene: SetupScene, along: Along, start: Length, end: Length) -> float:
    """Largest radius of the work on paper between two places, 0 where there is no work."""
    return max(
        (
            along.scale.mm(max(_od(piece, start), _od(piece, end))) / 2
            for piece in scene.pieces
            if piece.start <= end and start <= piece.end
        ),
        default=0.0,
    )


def _od(piece: Piece, x: Length) -> Length:
    """Outside diameter of a piece at x, held at its ends."""
    share = min(1.0, max(0.0, (x - piece.start) / (piece.end - piece.start)))
    return piece.od_start + share * (piece.od_end - piece.od_start)


def threaded(piece: Piece) -> bool:
    """True for a piece with the thread on it or in it."""
    return "thread" in (piece.form, piece.inside)


def relieved(piece: Piece) -> bool:
    """True for a piece with the thread's relief on it or in it."""
    return "relief" in (piece.form, piece.inside)


def crest_radius(piece: Piece, along: Along) -> float:
    """Radius of the crests of a threaded piece on paper: outside, or of the bore."""
    return along.scale.mm(piece.bore if piece.inside == "thread" else piece.od_start) / 2


def root_radius(piece: Piece, along: Along) -> float:
    """Radius of a thread's root line: true, or further, so that it keeps apart from the crest."""
    crest = crest_radius(piece, along)
    if piece.inside == "thread":
        true = along.scale.mm(piece.root if piece.root is not None else piece.bore) / 2
        return min(max(true, crest + CREST_TO_ROOT), along.scale.mm(piece.od_start) / 2)
    true = along.scale.mm(piece.root if piece.root is not None else piece.od_start) / 2
    return max(min(true, crest - CREST_TO_ROOT), crest * 0.4)


def draw_work(canvas: Canvas, scene: SetupScene, along: Along) -> None:
    """The work: outline and shoulders wide, root narrow, bore and gripped length hidden, breaks."""
    pieces, hidden_to = scene.pieces, scene.pieces[0].start if scene.inside else 0.0
    for piece in pieces:
        for low, high in ((piece.start, min(piece.end, hidden_to)), (max(piece.start, hidden_to), piece.end)):
            if low < high:
                _draw_sides(canvas, piece, along, low, high, hidden=high <= hidden_to)
    last = len(pieces) - 1
    for i, piece in enumerate(pieces):
        _edge(canvas, along, piece.start, piece, pieces[i - 1] if i else None, hidden_to)
        if i == last:
            _edge(canvas, along, piece.end, piece, None, hidden_to)
    for stretch in along.breaks:
        half = (
            radius(scene, along, (stretch.start + stretch.end) / 2, (stretch.start + stretch.end) / 2) + 1.2
        )
        for x in stretch.gap:
            canvas.line("thin", "break", *zigzag((x, -half), (x, half)))
    for x, diameter in scene.cross_holes:
        half = along.scale.mm(diameter) / 2
        middle = along.at(x)
        canvas.line("visible", "hole", *arc((middle, 0), half, half, 0, 2 * pi))
        canvas.line("thin", "hole-axis", (middle, -half - 1.5), (middle, half + 1.5))


def _draw_sides(
    canvas: Canvas, piece: Piece, along: Along, low: Length, high: Length, *, hidden: bool
) -> None:
    """Both sides of a piece between two places, with root and bore."""
    mm = along.scale.mm
    kind: LineKind = "hidden" if hidden else "visible"
    for side in (-1, 1):
        for a, b in along.runs(low, high):
            if piece.form == "taper":
                a_radius, b_radius = mm(_od(piece, low)) / 2, mm(_od(piece, high)) / 2
            else:
                a_radius = b_radius = mm(piece.od_start) / 2
            canvas.line(
                kind,
                "crest" if piece.form == "thread" else "work",
                (a, side * a_radius),
                (b, side * b_radius),
            )
            if piece.form == "thread":
                root = side * root_radius(piece, along)
                canvas.line("hidden" if hidden else "thin", "root", (a, root), (b, root))
            if piece.bore > 0:
                bore = side * mm(piece.bore) / 2
                canvas.line("hidden", "bore", (a, bore), (b, bore))
            if piece.inside == "thread":
                root = side * root_radius(piece, along)
                canvas.line("hidden", "root", (a, root), (b, root))


def _edge(
    canvas: Canvas, along: Along, x: Length, piece: Piece, other: Piece | None, hidden_to: Length
) -> None:
    """The edge across the work where two pieces meet (or at an end), and the step of the bore."""
    here = along.at(x)
    mm = along.scale.mm
    kind: LineKind = "hidden" if x < hidden_to else "visible"
    large = mm(max(_od(piece, x), _od(other, x) if other else 0.0)) / 2
    same = other is not None and _od(piece, x) == _od(other, x) and piece.form == other.form
    if not same:
        thread_end = other is not None and "thread" in (piece.form, other.form)
        canvas.line(kind, "thread-end" if thread_end else "edge", (here, -large), (here, large))
    bores = (piece.bore, other.bore if other else piece.bore)
    if bores[0] != bores[1]:
        for side in (-1, 1):
            canvas.line(
                "hidden", "bore", (here, side * mm(min(bores)) / 2), (here, side * mm(max(bores)) / 2)
            )
    if other is not None and piece.inside != other.inside and "thread" in (piece.inside, other.inside):
        one = piece if piece.inside == "thread" else other
        for side in (-1, 1):
            ends = (here, side * mm(one.bore) / 2), (here, side * root_radius(one, along))
            canvas.line("hidden", "thread-end", *ends)


def draw_steady(canvas: Canvas, scene: SetupScene, along: Along) -> list[Box]:
    """Steady rest: a finger on either side of the work, and its frame cut by the plane of the axis."""
    if scene.steady_at is None:
        return []
    return [
        _rest(canvas, scene, along, "steady", side, scene.steady_at, scene.steady_width) for side in (-1, 1)
    ]


def draw_follow_rest(canvas: Canvas, scene: SetupScene, along: Along) -> list[Box]:
    """Follow rest: a jaw behind the work, across from the tool, and the one above it, as seen from above."""
    at, width = scene.follow_rest_at, scene.follow_rest_width
    if at is None:
        return []
    behind = _rest(canvas, scene, along, "follow-rest", -1, at, width)
    half = max(behind.right - behind.left, 2.0) / 4
    work = radius(scene, along, at - width / 2, at + width / 2)
    middle, deep = along.at(at), min(0.6 * work, 2.0)
    above = Box(middle - half, -deep, middle + half, deep)
    canvas.outline(
        "follow-rest",
        [
            (above.left, above.top), (above.right, above.top), (above.right, above.bottom),
            (above.left, above.bottom),
        ],
    )
    return [behind, above]


def _rest(
    canvas: Canvas, scene: SetupScene, along: Along, part: str, side: int, at: Length, width: Length
) -> Box:
    """A finger of a rest on one side of the work, and its frame cut by the plane of the axis."""
    half = along.scale.mm(width) / 2
    middle = along.at(at)
    work = radius(scene, along, at - width / 2, at + width / 2)
    near, far = side * (work + FINGER), side * (work + FINGER + FRAME)
    canvas.outline(
        part,
        [
            (middle - half / 2, near),
            (middle - half / 2, side * work),
            (middle + half / 2, side * work),
            (middle + half / 2, near),
        ],
        closed=False,
    )
    canvas.outline(
        part, [(middle - half, near), (middle + half, near), (middle + half, far), (middle - half, far)]
    )
    return Box.around([(middle - half, side * work), (middle + half, far)])


def draw_center(canvas: Canvas, scene: SetupScene, along: Along) -> list[Box]:
    """Tailstock center in the end of the work; the part inside the work is hidden."""
    if scene.center is None:
        return []
    end, last = along.right, scene.pieces[-1]
    work = along.scale.mm(last.od_end) / 2
    mouth = along.scale.mm(last.bore) / 2 if last.bore > 0 else min(0.4 * work, 3.0)
    shank = min(max(mouth + 1.0, min(0.8 * work, 5.0)), mouth + 5.0)
    tip, cone = end - mouth / tan(CENTER_ANGLE), end + (shank - mouth) / tan(CENTER_ANGLE)
    tail = cone + 9.0
    for side in (-1, 1):
        canvas.line("hidden", "tailstock", (tip, 0), (end, side * mouth))
        canvas.outline(
            "tailstock", [(end, side * mouth), (cone, side * shank), (tail, side * shank)], closed=False
        )
    if scene.center == "live":
        canvas.outline("tailstock", [(cone, -shank), (cone, shank)], closed=False)
    canvas.line("thin", "tailstock", *zigzag((tail, -shank), (tail, shank)))
    return [Box(end, -shank, tail, shank)]


def draw_tool(canvas: Canvas, scene: SetupScene, along: Along, adjacent: list[Box]) -> list[Box]:
    """Threading tool below the axis at the start of the cut, withdrawn, clear of work and parts."""
    if scene.cut_from is None or scene.cut_to is None:
        return []
    if any(piece.inside == "thread" for piece in scene.pieces):
        return _draw_bar(canvas, scene, along, scene.cut_from)
    way = 1.0 if scene.cut_from >= scene.cut_to else -1.0  # the start lies on this side of the thread
    x = along.at(scene.cut_from) + way * lead_in(scene, along)
    below = [box for box in adjacent if box.bottom > 0]
    room_left = x - max((box.right for box in below if box.right <= x), default=-1e3) - TOOL_CLEAR
    room_right = min((box.left for box in below if box.left >= x), default=1e3) - x - TOOL_CLEAR
    left, right = (max(TOOL_TIP, min(TOOL_HALF, room)) for room in (room_left, room_right))
    in_way = [
        box.bottom for box in below if box.left < x + right + TOOL_CLEAR and x - left - TOOL_CLEAR < box.right
    ]
    per_mm = 1 / along.scale.mm(1.0)
    start = scene.cut_from + (x - along.at(scene.cut_from)) * per_mm
    work = radius(scene, along, start - left * per_mm, start + right * per_mm)
    crest = max(
        (along.scale.mm(piece.od_start) / 2 for piece in scene.pieces if piece.form == "thread"), default=0.0
    )
    tip = max(work, crest, *in_way) + TOOL_CLEAR
    shoulder_left, shoulder_right = (tip + (half - TOOL_TIP) / tan(CENTER_ANGLE) for half in (left, right))
    corners = [
        (x - TOOL_TIP, tip),
        (x + TOOL_TIP, tip),
        (x + right, shoulder_right),
        (x + right, tip + TOOL_LENGTH),
        (x - left, tip + TOOL_LENGTH),
        (x - left, shoulder_left),
    ]
    canvas.outline("tool", corners)
    return [Box.around(corners)]


def _draw_bar(canvas: Canvas, scene: SetupScene, along: Along, start: Length) -> list[Box]:
    """Boring bar with the threading point towards the operator, at the start of the cut, withdrawn."""
    crest = min(crest_radius(piece, along) for piece in scene.pieces if piece.inside == "thread")
    way = 1.0 if scene.cut_to is not None and start >= scene.cut_to else -1.0
    x, tip = along.at(start) + way * lead_in(scene, along), max(crest - TOOL_CLEAR, BAR_POINT)
    near = tip - BAR_POINT
    far = max(near - 2 * TOOL_HALF, -crest + TOOL_CLEAR)
    end = max(x, along.right) + TOOL_LENGTH
    corners = [
        (x - TOOL_TIP, tip), (x + TOOL_TIP, tip), (x + BAR_POINT, near), (end, near), (end, far),
        (x - BAR_POINT, far), (x - BAR_POINT, near),
    ]
    canvas.outline("tool", corners)
    return [Box.around(corners)]


def lead_in(scene: SetupScene, along: Along) -> float:
    """How far before the start of the cut the tool stands on paper: into a relief, half its width at most."""
    for piece in scene.pieces:
        if relieved(piece) and scene.cut_from in (piece.start, piece.end):
            return min(LEAD_IN, along.scale.mm(piece.end - piece.start) / 2)
    return LEAD_IN if scene.cut_from == scene.pieces[-1].end else 0.0


def draw_spindle_arrow(canvas: Canvas, x: float) -> None:
    """Spindle direction: the upper side of the work, towards the eye, comes to the operator's side."""
    rim = arc((x, 0), 2.2, 6.0, 1.5 * pi - 0.35, -(pi - 0.7))
    canvas.line("thin", "spindle", *rim)
    arrowhead(canvas, "spindle", rim[-1], rim[-3])


def draw_travel(canvas: Canvas, scene: SetupScene, along: Along, tool: Box) -> None:
    """Carriage travel in the cut: an arrow from the tool to the end of the cut, whose place is phantom."""
    assert scene.cut_from is not None
    assert scene.cut_to is not None
    end, tip = along.at(scene.cut_to), (tool.left + tool.right) / 2
    way = -1 if scene.cut_to < scene.cut_from else 1
    if way * (end - tip) <= 0:  # the middle of a bar may lie beyond the end of a short cut
        tip = along.at(scene.cut_from)
    y, start = tool.bottom - 3.0, tool.left if way < 0 else tool.right
    if way * (end - tip) <= TOOL_HALF + 2 * ARROW or way * (end - start) <= 0:
        y, start = tool.bottom + 2.5, tip
    canvas.line("phantom", "end-of-cut", (end, max(tool.top - TOOL_CLEAR, 0.0)), (end, y + 1.5))
    canvas.line("thin", "travel", (start, y), (end, y))
    arrowhead(canvas, "travel", (end, y), (start, y))
