"""The setup drawing, tested on its geometry: to scale, clear of itself, and complete."""

from __future__ import annotations

import importlib.util
import random
from dataclasses import replace
from itertools import combinations, pairwise
from math import hypot
from pathlib import Path

import pytest

import generator.render.setup_view as view_module
from generator.render.along import lay_out
from generator.render.drawing import Box, Canvas, Drawing
from generator.render.scale import SCALES, Scale
from generator.render.setup_parts import draw_travel
from generator.render.setup_view import HEIGHT, WIDTH, setup_view
from generator.si import inch, mm

_spec = importlib.util.spec_from_file_location("drawn_scenes", Path(__file__).with_name("scenes.py"))
assert _spec is not None
assert _spec.loader is not None
scenes = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(scenes)

TOUCH = 0.15  # mm: lettering boxes include the tails of letters, most of which are not there


@pytest.fixture(scope="module", params=scenes.SETUPS, ids=str)
def drawn(request):
    scene = scenes.SETUPS[request.param]
    return scene, setup_view(scene)


def scale_of(drawing: Drawing) -> float:
    """Millimetres on paper of 1 m."""
    paper, real = drawing.scale.split(":")
    return 1000 * int(paper) / int(real)


def box_of(drawing: Drawing, part: str) -> Box:
    return Box.around([point for line in drawing.part(part) for point in line.points])


def collisions(drawing: Drawing) -> list[str]:
    """Everything in a drawing that runs into something else."""
    found = []
    rings = [circle for circle in drawing.circles if circle.part == "item" and not circle.filled]
    letters = [(text.text, text.box) for text in drawing.texts if text.part != "item"]
    letters += [(f"item ring at {ring.center}", ring.box) for ring in rings]
    for (a, a_box), (b, b_box) in combinations(letters, 2):
        if a_box.overlaps(b_box):
            found.append(f"{a} over {b}")
    for name, box in letters:
        inner = box.grown(-TOUCH)
        found += [
            f"{name} on a line of {line.part}"
            for line in drawing.lines
            for a, b in pairwise(line.points)
            if inner.crossed_by(a, b) and not (line.part == "item" and touches(inner, b))
        ]
    paper = Box(0, 0, drawing.width, drawing.height)
    found += [f"{name} off the paper" for name, box in letters if not paper.holds(box)]
    found += [
        f"line of {line.part} off the paper"
        for line in drawing.lines
        if not paper.holds(Box.around(line.points))
    ]
    return found


def touches(ring: Box, end: tuple[float, float]) -> bool:
    """True when a leader ends on the rim of this ring."""
    x, y, radius = (
        (ring.left + ring.right) / 2,
        (ring.top + ring.bottom) / 2,
        (ring.right - ring.left) / 2 + TOUCH,
    )
    return abs(hypot(end[0] - x, end[1] - y) - radius) < 0.02


def test_nothing_overlaps(drawn):
    assert collisions(drawn[1]) == []


def test_the_collision_check_sees_lettering_on_a_line():
    drawing = setup_view(scenes.SETUPS["bare chuck work"])
    text = drawing.texts[0]
    middle = ((text.box.left + text.box.right) / 2, (text.box.top + text.box.bottom) / 2)
    line = type(drawing.lines[0])("thin", ((middle[0] - 5, middle[1]), (middle[0] + 5, middle[1])), "work")
    spoiled = type(drawing)(**{**drawing.__dict__, "lines": (*drawing.lines, line)})
    assert collisions(spoiled) == [f"{text.text} on a line of work"]


def test_it_fits_the_paper_at_a_recommended_scale(drawn):
    """ISO 5455:1979, recommended scales."""
    _, drawing = drawn
    assert drawing.width <= WIDTH <= 186
    assert drawing.height <= HEIGHT <= 95
    assert drawing.scale in {str(scale) for scale in SCALES}


def test_every_coordinate_is_rounded_to_a_hundredth(drawn):
    for line in drawn[1].lines:
        for point in line.points:
            assert all(round(value, 2) == value for value in point)


def test_diameters_are_true_to_scale(drawn):
    scene, drawing = drawn
    largest = max(max(piece.od_start, piece.od_end) for piece in scene.pieces)
    ys = [
        y
        for line in drawing.lines
        if line.part in ("work", "crest", "edge", "thread-end")
        for _, y in line.points
    ]
    assert max(ys) - min(ys) == pytest.approx(largest * scale_of(drawing), abs=0.03)


def test_lengths_are_true_to_scale_or_broken(drawn):
    """Never squeezed: unbroken work has its true length, broken work shows two break lines for each break."""
    scene, drawing = drawn
    xs = [x for line in drawing.lines if line.part in ("work", "crest") for x, _ in line.points]
    true = (scene.pieces[-1].end - scene.pieces[0].start) * scale_of(drawing)
    breaks = drawing.part("break")
    if breaks:
        assert len(breaks) % 2 == 0
        assert max(xs) - min(xs) < true
    else:
        assert max(xs) - min(xs) == pytest.approx(true, abs=0.03)


def test_thread_and_relief_are_never_broken(drawn):
    scene, drawing = drawn
    scale = scale_of(drawing)
    threads = [piece for piece in scene.pieces if piece.form == "thread"]
    if not threads:
        pytest.skip("no thread on this work")
    crests = [line for line in drawing.part("crest") if line.kind == "visible"]
    drawn_length = sum(abs(line.points[1][0] - line.points[0][0]) for line in crests) / 2
    assert drawn_length == pytest.approx(sum(piece.end - piece.start for piece in threads) * scale, abs=0.03)


def test_crest_wide_root_narrow_and_the_gap_between_them(drawn):
    """ISO 6410-1:1993: crest continuous wide, root narrow, at least 2 wide lines or 0.7 mm apart."""
    scene, drawing = drawn
    scale = scale_of(drawing)
    for line in drawing.part("root"):
        assert line.kind == "thin"
    crests = [y for line in drawing.part("crest") for _, y in line.points]
    roots = [y for line in drawing.part("root") for _, y in line.points]
    if roots and (max(crests) - min(crests)) > 3.4:
        assert min(roots) - min(crests) >= 1.0 - 0.011
        assert max(crests) - max(roots) >= 1.0 - 0.011
    ends = drawing.part("thread-end")
    assert all(line.kind == "visible" for line in ends)
    if any(piece.form == "thread" for piece in scene.pieces) and scale:
        assert ends or len([p for p in scene.pieces if p.form == "thread"]) == len(scene.pieces)


def test_the_work_is_the_only_wide_outline(drawn):
    for line in drawn[1].lines:
        if line.kind == "visible":
            assert line.part in {"work", "crest", "edge", "thread-end", "hole"}


def test_the_steady_stands_between_jaw_face_and_end(drawn):
    scene, drawing = drawn
    if scene.steady_at is None:
        pytest.skip("no steady rest")
    steady = box_of(drawing, "steady")
    jaw = box_of(drawing, "dog" if scene.held == "centers" else "jaw")
    end = max(x for line in drawing.part("crest") + drawing.part("work") for x, _ in line.points)
    assert jaw.right < steady.left
    assert steady.right < end


def test_the_tool_is_clear_of_everything(drawn):
    scene, drawing = drawn
    if scene.cut_from is None:
        pytest.skip("nothing is threaded")
    tool = box_of(drawing, "tool")
    held = ("jaw", "chuck", "collet", "spindle-nose", "clamp", "plate", "dog", "headstock-center")
    for part in (*held, "steady", "follow-rest", "tailstock"):
        for line in drawing.part(part):
            assert not tool.grown(0.5).overlaps(Box.around(line.points).grown(0.001)), part
    for line in drawing.lines:
        if line.part in ("work", "crest", "edge", "thread-end", "root"):
            assert not any(tool.grown(0.5).crossed_by(a, b) for a, b in pairwise(line.points)), line.part


def test_the_tool_stands_below_the_axis_at_the_start_of_the_cut(drawn):
    scene, drawing = drawn
    if scene.cut_from is None:
        pytest.skip("nothing is threaded")
    axis = drawing.part("axis")[0].points[0][1]
    tool = box_of(drawing, "tool")
    assert tool.top > axis
    ends = sorted(x for line in drawing.part("crest") for x, _ in line.points)
    start = ends[-1] if scene.cut_from > scene.cut_to else ends[0]
    assert tool.left - 2.5 <= start <= tool.right + 2.5
    travel = drawing.part("travel")[0].points
    assert (travel[1][0] < travel[0][0]) == (scene.cut_to < scene.cut_from)


def test_every_item_has_its_number_on_a_leader(drawn):
    _, drawing = drawn
    numbers = sorted(int(text.text) for text in drawing.texts if text.part == "item")
    assert numbers == [number for number, _ in drawing.items]
    listed = " ".join(text.text for text in drawing.texts if text.part == "items")
    assert all(f"{number} {words}" in listed for number, words in drawing.items)


def test_all_that_holds_the_work_is_named(drawn):
    scene, drawing = drawn
    words = [words for _, words in drawing.items]
    jaws = f"{scene.jaw_words} ({scene.jaws} in the chuck)" + (", inside the bore" if scene.inside else "")
    clamps = f"clamps ({scene.clamps} on the plate)" if scene.clamps > 1 else "clamp"
    held = {
        "chuck": ["chuck", jaws],
        "collet": ["spindle nose", "collet"],
        "faceplate": ["faceplate", clamps],
        "centers": ["driving plate", "dog", "center in the headstock"],
    }[scene.held]
    assert words[: len(held) + 1] == [*held, "work"]
    assert ("steady rest" in words) == (scene.steady_at is not None)
    assert any("follow rest" in word for word in words) == (scene.follow_rest_at is not None)
    assert any("in the tailstock" in word for word in words) == (scene.center is not None)


def test_nothing_is_drawn_that_does_not_hold_the_work(drawn):
    scene, drawing = drawn
    parts = {line.part for line in drawing.lines}
    of = {
        "chuck": {"jaw", "chuck"}, "collet": {"collet", "spindle-nose"}, "faceplate": {"plate", "clamp"},
        "centers": {"plate", "dog", "headstock-center"},
    }
    assert of[scene.held] <= parts
    assert not parts & (set().union(*of.values()) - of[scene.held])
    assert ("follow-rest" in parts) == (scene.follow_rest_at is not None)
    for word in ("chuck", "collet", "faceplate", "centers"):
        assert (word in drawing.desc.replace("center in", "").partition(",")[0]) == (word == scene.held)
        assert (word in drawing.caption) == (word == scene.held)


def test_what_grips_touches_the_work_where_it_holds_it(drawn):
    """Jaws and collet on the first diameter, or in the bore; the dog from the end on; clamps at the plate."""
    scene, drawing = drawn
    scale, axis = scale_of(drawing), drawing.part("axis")[0].points[0][1]
    first = scene.pieces[0]
    part = {"chuck": "jaw", "collet": "collet", "faceplate": "clamp", "centers": "dog"}[scene.held]
    box = box_of(drawing, part)
    lines = [abs(y - axis) for line in drawing.part(part) for _, y in line.points]
    if scene.inside:
        assert max(lines) == pytest.approx(first.bore * scale / 2, abs=0.03)
        start = min(x for line in drawing.part("work") for x, _ in line.points)
        in_work = [line for line in drawing.part(part) if max(x for x, _ in line.points) > start]
        assert {line.kind for line in in_work} == {"hidden"}
        work = [line for line in drawing.part("work") if line.points[0][0] < box.right - 0.1]
        assert {line.kind for line in work} == {"visible"}
    elif scene.held == "chuck":
        assert min(lines) == pytest.approx(parts_radius(scene) * scale, abs=0.03)
    elif scene.held == "centers":
        start = min(x for line in drawing.part("work") for x, _ in line.points)
        assert box.right - start == pytest.approx(max(scene.dog * scale, 3.0), abs=0.03)
        assert box_of(drawing, "headstock-center").right > start  # its point is in the work
    elif scene.held == "faceplate":
        face = max(x for line in drawing.part("plate") for x, _ in line.points)
        start = min(x for line in drawing.part("work") for x, _ in line.points)
        assert face == pytest.approx(start, abs=0.03)


def parts_radius(scene):
    return max(piece.od_start for piece in scene.pieces if piece.start < 0) / 2


def test_the_follow_rest_bears_on_the_work_across_from_the_tool(drawn):
    scene, drawing = drawn
    if scene.follow_rest_at is None:
        pytest.skip("no follow rest")
    axis = drawing.part("axis")[0].points[0][1]
    box = box_of(drawing, "follow-rest")
    ends = [x for line in drawing.part("work") + drawing.part("crest") for x, _ in line.points]
    assert min(ends) < box.left
    for line in drawing.part("break"):
        assert not box.crossed_by(*line.points[:2])
    assert box.right < max(ends) + 0.03
    assert box.top < axis
    if scene.cut_from is not None:
        tool = box_of(drawing, "tool")
        assert tool.top > axis
        assert box.left - 8 < (tool.left + tool.right) / 2 < box.right + 8


def test_each_dimension_stands_once(drawn):
    scene, drawing = drawn
    written = [text.text for text in drawing.texts if text.part == "dimension"]
    wanted = 1 + (scene.grip > 0) + (scene.dog > 0) + (scene.steady_at is not None) + len(scene.cross_holes)
    wanted += any(piece.form == "thread" for piece in scene.pieces)
    assert len(written) >= wanted
    notes = [text.text for text in drawing.texts if text.part == "leader"]
    assert len(notes) == len(set(notes))


def test_dimension_lines_keep_their_distances(drawn):
    """ASME Y14.5 spacing: first line at least 10 mm from the outline, then at least 6 mm."""
    _, drawing = drawn
    top = min(y for line in drawing.lines if line.part in ("work", "crest", "edge") for _, y in line.points)
    lines = {
        line.points[0][1] for line in drawing.part("dimension") if line.points[0][1] == line.points[1][1]
    }
    levels = sorted(lines, reverse=True)
    assert top - levels[0] >= 10 - 0.02
    assert all(a - b >= 6 - 0.02 for a, b in pairwise(levels))


def test_figures_of_the_pin_are_written_the_trade_way():
    drawing = setup_view(scenes.SETUPS["cross-drilled pin on a center"])
    words = {text.text for text in drawing.texts}
    assert {
        "3.000 [76.2]",
        "11.500 [292.1]",
        "2.500 [63.5]",
        ".375 [9.53]",
        ".750 [19.05]",
        "2 1/4-8 UN-2A",
        "Ø2.750 [69.85]",
        "Ø2.085 [52.96]",
        "Ø.375 [9.53]",
    } <= words
    assert drawing.scale == "1:2"


def test_millimetres_keep_the_zero_before_the_point():
    words = {text.text for text in setup_view(scenes.SETUPS["slender metric stud"]).texts}
    assert {"40 [1.575]", "160 [6.299]", "7 [.276]", "Ø7.9 [.311]"} <= words


def test_bore_and_gripped_length_are_hidden_lines():
    drawing = setup_view(scenes.SETUPS["stepped hollow work"])
    assert {line.kind for line in drawing.part("bore")} == {"hidden"}
    jaw = box_of(drawing, "jaw")
    assert all(line.kind == "hidden" for line in drawing.part("work") if line.points[1][0] <= jaw.right)


def test_smaller_scales_are_not_tried_once_they_show_no_more(monkeypatch):
    """A ring too short for its labels: not every scale down to 1:10 000 is drawn."""
    ring = scenes.setup([scenes.piece(-0.5, 1.25, 9.25, inch, bore=7.9)], inch, 0.5, 4, (12, 4), thread="")
    tried = []

    def draw(scene, along):
        tried.append(along.scale)
        return drawn_at(scene, along)

    drawn_at = view_module._draw
    monkeypatch.setattr(view_module, "_draw", lambda scene, along: (draw(scene, along)[0], False))
    drawing = setup_view(ring)
    assert drawing.items
    assert len(tried) <= 4


@pytest.mark.parametrize("real", [2, 5, 10, 20, 50, 100])
def test_the_arrow_of_the_cut_points_the_way_it_goes_at_any_scale(real):
    """Also inside, where the bar is drawn no smaller than can be seen."""
    scene = scenes.SETUPS["bare chuck work"]
    if scene.cut_from is None:
        scene = next(one for one in scenes.SETUPS.values() if one.cut_from is not None)
    for cut in ((scene.cut_from, scene.cut_to), (scene.cut_to, scene.cut_from)):
        turned = replace(scene, cut_from=cut[0], cut_to=cut[1])
        along = lay_out(turned, Scale(1, real), 60.0, 100.0)
        if along is None:
            continue
        for half in (1.0, 6.0, 20.0):  # mm, a tool to either side of its point
            for left, right in ((0.0, half), (half, 0.0), (half, half)):
                canvas, x = Canvas(), along.at(cut[0])
                draw_travel(canvas, turned, along, Box(x - left, 1.0, x + right, 20.0))
                (start, end) = canvas.lines[-1].points if len(canvas.lines) == 2 else canvas.lines[1].points
                assert (end[0] < start[0]) == (cut[1] < cut[0])


def test_the_same_scene_gives_the_same_drawing(drawn):
    assert setup_view(drawn[0]) == drawn[1]


@pytest.mark.parametrize("seed", range(120))
def test_invented_work_of_any_shape_can_be_drawn_without_overlap(seed):
    """Stepped, hollow, long, short, with or without steady, center, hole: whatever is drawn is clear."""
    dice = random.Random(seed)
    unit = dice.choice((inch, mm))
    one = 1.0 if unit == inch else 25.0
    grip = one * dice.choice((0.75, 1.5, 3))
    od = one * dice.choice((0.25, 0.75, 1.5, 3, 6))
    bore = dice.choice((0.0, 0.0, 0.4)) * od
    body = od * dice.choice((1, 3, 8, 20))
    held = dice.choice(("chuck", "chuck", "collet", "faceplate", "centers"))
    grip = 0.0 if held in ("faceplate", "centers") else grip
    relief, thread = od * dice.choice((0.1, 0.3)), od * dice.choice((0.6, 1.5))
    left = dice.random() < 0.3
    crest = od * dice.choice((1.0, 0.85))
    pieces = [
        scenes.piece(-grip, body, od, unit, bore=bore),
        scenes.piece(body, body + relief, 0.8 * crest, unit, bore=bore, form="relief"),
        scenes.piece(
            body + relief, body + relief + thread, crest, unit, bore=bore, form="thread", root=0.9 * crest
        ),
    ]
    ends = (body + relief + thread, body + relief)
    scene = scenes.setup(
        pieces,
        unit,
        grip,
        dice.choice((3, 4, 6)),
        (od + one * dice.choice((1, 6)), one * 4),
        steady=body * 0.8 if body > 3 * od else None,
        steady_width=0.3 * od,
        center=dice.choice(("live", "dead") if held == "centers" else (None, "live", "dead")),
        held=held,
        inside=held == "chuck" and bore > 0 and dice.random() < 0.5,
        clamps=4 if held == "faceplate" else 0,
        clamp_circle=dice.choice((0.9, 1.2)) * od,
        dog=0.5 * od if held == "centers" else 0.0,
        follow_rest_at=dice.choice((None, body + relief + 0.5 * thread)),
        follow_rest_width=0.4 * thread,
        cut=ends[::-1] if left else ends,
        holes=((ends[0] - thread / 3, 0.15 * od),) if dice.random() < 0.4 else (),
        thread="thread as ordered",
    )
    drawing = setup_view(scene)
    assert collisions(drawing) == []
    assert drawing.height <= HEIGHT
    assert sorted(int(t.text) for t in drawing.texts if t.part == "item") == [n for n, _ in drawing.items]
