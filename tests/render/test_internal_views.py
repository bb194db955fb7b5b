"""Drawings of an internal thread: the groove is the outside one upside down, the thread lies in the bore."""

from __future__ import annotations

import importlib.util
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from generator.render.drawing import Box
from generator.render.setup_view import setup_view
from generator.render.thread_view import thread_view
from generator.si import mm

_spec = importlib.util.spec_from_file_location("drawn_scenes", Path(__file__).with_name("scenes.py"))
assert _spec is not None
assert _spec.loader is not None
scenes = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(scenes)


def hollow(od, bore, *, inside="plain", root=None, start, end):
    whole = scenes.piece(start, end, od, mm, bore=bore)
    return replace(whole, inside=inside, root=None if root is None else root * mm)


SLEEVE = scenes.setup(
    [
        hollow(60, 30, start=-20, end=30),
        hollow(60, 40.6, inside="relief", start=30, end=36),
        hollow(60, 37, inside="thread", root=40.1, start=36, end=66),
    ],
    mm,
    20,
    3,
    (250, 140),
    cut=(66, 36),
    thread="M40x3-6H",
)
LEFT = replace(SLEEVE, cut_from=36 * mm, cut_to=66 * mm, designation="M40x3-6H-LH")


@pytest.fixture(params=scenes.GROOVES, ids=str)
def pair(request):
    scene = scenes.GROOVES[request.param]
    return thread_view(scene), thread_view(replace(scene, internal=True))


def middles(drawing, part):
    """The points of a part, measured from the middle of the drawing's profile."""
    profile = drawing.part("profile")[0].points
    box = Box.around(profile)
    x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    return [(px - x, py - y) for line in drawing.part(part) for px, py in line.points]


@pytest.mark.parametrize("part", ["profile", "pass", "tool", "infeed", "blank"])
def test_the_internal_groove_is_the_external_one_upside_down(pair, part):
    """Headstock stays left, and what was towards the axis is now away from it (both within 0.01 mm paper)."""
    outside, inside = (middles(drawing, part) for drawing in pair)
    assert len(outside) == len(inside)
    for (x1, y1), (x2, y2) in zip(outside, inside, strict=True):
        assert (x2, -y2) == pytest.approx((x1, y1), abs=0.025)


def test_lettering_stays_inside_and_apart(pair):
    drawing = pair[1]
    boxes = [text.box for text in drawing.texts]
    for box in boxes:
        assert box.left >= 0
        assert box.top >= 0
        assert box.right <= drawing.width + 0.01
        assert box.bottom <= drawing.height + 0.01
    for one, other in combinations(boxes, 2):
        assert not one.overlaps(other)


def test_lettering_stands_above_its_dimension_line(pair):
    """ISO 129-1: lettering above the line, not across it."""
    drawing = pair[1]
    levels = [line for line in drawing.part("dimension") if line.points[0][1] == line.points[1][1]]
    for text in drawing.texts:
        if text.part == "dimension" and not text.upright:
            assert any(
                0 < line.points[0][1] - text.at[1] < 1.5
                and line.points[0][0] - 0.5 <= text.at[0] <= line.points[1][0] + 0.5
                for line in levels
            ), text.text


def test_the_caption_says_which_wall(pair):
    assert "wall of the bore on the operator's side" in pair[1].caption
    assert "wall of the bore" not in pair[0].caption


def scale_of(drawing):
    paper, real = drawing.scale.split(":")
    return 1000 * int(paper) / int(real)


@pytest.mark.parametrize("scene", [SLEEVE, LEFT], ids=["right hand", "left hand"])
def test_the_thread_lies_hidden_in_the_bore(scene):
    """ISO 6410-1: crests and roots of a hidden thread are dashed; the root lies outside the crest."""
    drawing = setup_view(scene)
    scale = scale_of(drawing)
    axis = drawing.part("axis")[0].points[0][1]
    roots = drawing.part("root")
    assert roots
    assert {line.kind for line in roots} == {"hidden"}
    reach = max(abs(y - axis) for line in roots for _, y in line.points)
    assert reach == pytest.approx(max(0.0401 / 2 * scale, 0.037 / 2 * scale + 1.0), abs=0.02)
    crests = {round(abs(y - axis), 1) for line in drawing.part("bore") for _, y in line.points}
    assert round(0.037 / 2 * scale, 1) in crests
    assert all(line.kind != "visible" for line in drawing.part("thread-end"))
    assert not drawing.part("crest")
    assert any(text.text == scene.designation for text in drawing.texts)


def test_the_bar_stands_before_the_bore_with_its_point_to_the_operator():
    drawing = setup_view(SLEEVE)
    axis = drawing.part("axis")[0].points[0][1]
    work = Box.around([p for line in drawing.part("work") for p in line.points])
    bar = Box.around([p for line in drawing.part("tool") for p in line.points])
    assert bar.left >= work.right
    assert axis < bar.bottom < axis + 0.037 / 2 * scale_of(drawing)
    travel = drawing.part("travel")[0].points
    assert travel[1][0] < travel[0][0]


def test_a_left_hand_thread_starts_inside():
    drawing = setup_view(LEFT)
    work = Box.around([p for line in drawing.part("work") for p in line.points])
    bar = Box.around([p for line in drawing.part("tool") for p in line.points])
    assert bar.left < work.right < bar.right
    travel = drawing.part("travel")[0].points
    assert travel[1][0] > travel[0][0]


def test_the_bar_is_named():
    assert any("threading bar" in words for _, words in setup_view(SLEEVE).items)
