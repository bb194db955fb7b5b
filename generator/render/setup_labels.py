"""What is written into the setup drawing, with the places it may point at; where it goes is found later.

dimensions       along the axis, each once, from the chuck face where that is how the work is set
notes            diameters and the thread's designation, each once, for leaders
labelled_parts   what gets an item number, in trade words
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from generator.language.say import say
from generator.render import setup_parts as parts
from generator.render.along import Along
from generator.render.dimensions import Dimension, dimension_text
from generator.render.drawing import Box
from generator.render.lines import Point
from generator.render.setup_heads import DrawnHead, head_words, holder_top
from generator.sheet.drawn import Piece, SetupScene
from generator.si import Length

Anchors = list[tuple[Point, int]]


def dimensions(scene: SetupScene, along: Along, body: float) -> Iterator[Dimension]:
    """Dimensions along the axis, each once, from the chuck face where that is how the work is set."""

    def one(name: str, start: Length, end: Length) -> Dimension:
        def outline(x: Length) -> float:
            if x < 0:
                return -body
            if x == 0 or x == scene.dog:
                return -parts.radius(scene, along, x, x) - holder_top(scene, along)
            if x == scene.steady_at:
                return -parts.radius(scene, along, x, x) - parts.FINGER - parts.FRAME
            hole = next((diameter for at, diameter in scene.cross_holes if at == x), None)
            if hole is not None:
                return -along.scale.mm(hole) / 2 - 1.5
            return -parts.radius(scene, along, x, x)

        text = dimension_text(end - start, scene.system)
        return Dimension(along.at(start), along.at(end), outline(start), outline(end), text, name)

    end = scene.pieces[-1].end
    if scene.grip > 0:
        yield one("grip", -scene.grip, 0.0)
    if scene.dog > 0:
        yield one("dog", 0.0, scene.dog)
    yield one("stick-out", 0.0, end)
    if scene.steady_at is not None and 0 < scene.steady_at < end:
        yield one("steady", 0.0, scene.steady_at)
    threads = [piece for piece in scene.pieces if parts.threaded(piece)]
    reliefs = [piece for piece in scene.pieces if parts.relieved(piece)]
    if threads:
        yield one("thread", threads[0].start, threads[-1].end)
        if threads[-1].end != end and not any(relief.start == threads[-1].end for relief in reliefs):
            yield one("thread-from-end", threads[-1].end, end)
    for relief in reliefs:
        yield one("relief", relief.start, relief.end)
    known = {0.0, end, *(x for piece in (*threads, *reliefs) for x in (piece.start, piece.end))}
    for piece, after in pairwise(scene.pieces):
        if piece.end > 0 and piece.end not in known and piece.od_end != after.od_start:
            yield one("shoulder", 0.0, piece.end)
    for x, _ in scene.cross_holes:
        yield one("hole", x, end)


def notes(scene: SetupScene, along: Along) -> Iterator[tuple[str, Anchors]]:
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
    for piece in sorted(
        scene.pieces, key=lambda piece: (order[piece.form], along.at(piece.end) - along.at(piece.start))
    ):
        low, high = max(piece.start, 0.0), piece.end
        if low >= high:
            continue
        if piece.form == "thread":
            if fresh(scene.designation, "thread"):
                yield scene.designation, _outline_anchors(along, piece, low, high)
            continue
        text = f"Ø{dimension_text(piece.od_start, scene.system)}"
        if piece.form == "taper":
            end = dimension_text(piece.od_end, scene.system)
            text = say("Ø{start} to Ø{end}", start=dimension_text(piece.od_start, scene.system), end=end)
        if fresh(text, "outside"):
            yield text, _outline_anchors(along, piece, low, high)
    for piece in scene.pieces:
        if piece.inside == "thread" and fresh(scene.designation, "thread"):
            half = parts.root_radius(piece, along)
            xs = [a + share * (b - a) for a, b in along.runs(piece.start, piece.end) for share in _SHARES]
            yield scene.designation, [((x, side * half), side) for x in xs for side in (1, -1)]
    for piece in scene.pieces:
        if piece.inside == "thread":
            continue
        text = say("bore Ø{size}", size=dimension_text(piece.bore, scene.system))
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


def labelled_parts(
    scene: SetupScene,
    along: Along,
    head: DrawnHead,
    steady: list[Box],
    follow: list[Box],
    center: list[Box],
    tool: list[Box],
) -> Iterator[Item]:
    """What gets an item number, in trade words, with the places a leader may end."""

    def inside(boxes: list[Box]) -> Anchors:
        lower = [box for box in boxes if box.bottom > 0]
        upper = [box for box in boxes if box.top < 0]
        return [
            ((box.left + share * (box.right - box.left), y), side)
            for side, some in ((1, lower), (-1, upper))
            for box in some
            for share in (0.5, 0.25, 0.75)
            for y in ([(box.bottom if side > 0 else box.top) - side * min(2.0, (box.bottom - box.top) / 3)])
        ]

    body, holders = head_words(scene)
    yield body, inside(head.body), head.body
    yield holders, inside(head.holders), head.holders
    if head.center:
        yield say("center in the headstock"), inside(head.center), head.center
    yield say("work"), list(_work_anchors(scene, along)), []
    if steady:
        yield say("steady rest"), inside(steady), steady
    if follow:
        at_tool = say("follow rest, at the tool") if tool else say("follow rest, travels with the tool")
        yield at_tool, inside(follow), follow
    if center:
        live = scene.center == "live"
        words = say("live center in the tailstock") if live else say("dead center in the tailstock")
        yield words, inside(center), center
    if tool:
        bar = any(piece.inside == "thread" for piece in scene.pieces)
        words = (
            say("threading bar at the start of the cut")
            if bar
            else say("threading tool at the start of the cut")
        )
        yield words, inside(tool), tool


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
