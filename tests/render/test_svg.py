"""Drawings as inline SVG: well formed, described, escaped, with no style of their own."""

from __future__ import annotations

import importlib.util
from dataclasses import replace
from itertools import pairwise
from math import hypot
from pathlib import Path
from xml.etree import ElementTree

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jinja2 import UndefinedError

from generator.render.environment import environment, templates_folder
from generator.render.setup_view import setup_view
from generator.render.svg import UNSEEN, path_data, svg, thinned
from generator.render.thread_view import thread_view

_spec = importlib.util.spec_from_file_location("drawn_scenes", Path(__file__).with_name("scenes.py"))
assert _spec is not None
assert _spec.loader is not None
scenes = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(scenes)

SVG = "{http://www.w3.org/2000/svg}"
DRAWINGS = [
    *(setup_view(scene) for scene in scenes.SETUPS.values()),
    *(thread_view(scene) for scene in scenes.GROOVES.values()),
]


@pytest.fixture(params=DRAWINGS, ids=lambda drawing: f"{drawing.id} {drawing.scale}")
def pair(request):
    return request.param, ElementTree.fromstring(str(svg(request.param, environment())))


def test_one_user_unit_is_one_millimetre(pair):
    drawing, root = pair
    assert root.get("width") == f"{drawing.width:g}mm"
    assert root.get("viewBox") == f"0 0 {drawing.width:g} {drawing.height:g}"


def test_it_is_an_image_with_title_and_description(pair):
    drawing, root = pair
    assert root.get("role") == "img"
    named = {element.get("id"): element.text for element in root if element.get("id")}
    assert [named[name] for name in root.get("aria-labelledby").split()] == [drawing.title, drawing.desc]


def read_back(data: str) -> list[list[tuple[float, float]]]:
    """Path data as runs of points, by the parser of another library."""
    pen = RecordingPen()
    parse_path(data, pen)
    runs: list[list[tuple[float, float]]] = []
    for step, points in pen.value:
        if step == "moveTo":
            runs.append([])
        if points:
            runs[-1].append(points[0])
    return runs


def off(point: tuple[float, float], run: list[tuple[float, float]]) -> float:
    """How far a point lies from a run of straight lines, mm."""
    nearest = hypot(point[0] - run[0][0], point[1] - run[0][1])
    for (ax, ay), (bx, by) in pairwise(run):
        dx, dy = bx - ax, by - ay
        length = dx * dx + dy * dy
        along = min(1.0, max(0.0, ((point[0] - ax) * dx + (point[1] - ay) * dy) / length)) if length else 0.0
        nearest = min(nearest, hypot(point[0] - ax - along * dx, point[1] - ay - along * dy))
    return nearest


def test_every_primitive_is_there(pair):
    """All lines of a kind are one path, and no point of them lies further off than an eye can see."""
    drawing, root = pair
    paths = {element.get("class"): read_back(element.get("d")) for element in root.iter(SVG + "path")}
    arrows = paths.pop("arrowhead", [])
    for arrow, fill in zip(arrows, drawing.fills, strict=True):
        assert sum(arrow[:3], ()) == pytest.approx(sum(fill.points, ()))
    assert set(paths) == {line.kind for line in drawing.lines}
    for kind, runs in paths.items():
        lines = [line for line in drawing.lines if line.kind == kind]
        for line, run in zip(lines, runs, strict=True):
            assert run[0] == pytest.approx(line.points[0])
            assert run[-1] == pytest.approx(line.points[-1])
            assert max(off(point, run) for point in line.points) <= UNSEEN + 1e-9
    counts = {tag: len(list(root.iter(SVG + tag))) for tag in ("circle", "text")}
    assert counts == {"circle": len(drawing.circles), "text": len(drawing.texts)}


QUIET = settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
RUN = st.lists(
    st.tuples(*[st.integers(-20_000, 20_000).map(lambda units: units / 100)] * 2), min_size=2, max_size=12
)


@QUIET
@given(st.lists(RUN, min_size=1, max_size=4))
def test_path_data_say_the_points_they_were_made_from(runs):
    moved = [[run[0], *(b for a, b in pairwise(run) if a != b)] for run in runs]
    for run, back in zip(moved, read_back(path_data(runs)), strict=True):
        assert sum(back, ()) == pytest.approx(sum(run, ()), abs=1e-6) or len(run) == 1


@QUIET
@given(RUN)
def test_a_thinned_run_keeps_its_ends_and_passes_every_point(run):
    left = list(thinned(run))
    assert (left[0], left[-1]) == (run[0], run[-1])
    assert set(left) <= set(run)
    assert max(off(point, left) for point in run) <= UNSEEN + 1e-9


def test_lettering_is_set_to_the_width_it_was_given_room_for(pair):
    drawing, root = pair
    for text, element in zip(drawing.texts, root.iter(SVG + "text"), strict=True):
        assert element.text == text.text
        assert float(element.get("textLength")) == text.width


def test_every_class_of_line_has_its_rule_in_the_style_sheet(pair):
    """Narrow lines are the default; ISO 128-2 asks for wide to narrow as 2 to 1."""
    css = (templates_folder() / "css" / "drawing.css").read_text(encoding="utf-8")
    for line in pair[0].lines:
        assert line.kind == "thin" or f".{line.kind}" in css
    assert "stroke-width: 0.25" in css
    assert "stroke-width: 0.5" in css


def test_colors_and_widths_are_left_to_the_style_sheet(pair):
    for element in pair[1].iter():
        assert not {"style", "stroke", "fill", "stroke-width"} & set(element.keys())


def test_text_of_a_job_is_escaped():
    scene = replace(scenes.SETUPS["tiny M6 stud"], designation='<b>&"M6', job='SW"><script>')
    text = str(svg(setup_view(scene), environment()))
    assert "<b>" not in text
    assert "<script>" not in text
    assert "&lt;b&gt;&amp;" in text
    ElementTree.fromstring(text)


def test_a_missing_name_in_a_template_is_an_error():
    with pytest.raises(UndefinedError):
        environment().from_string("{{ nobody_gave_this }}").render()


def test_the_environment_escapes_whatever_a_template_is_called():
    assert environment().from_string("{{ text }}").render(text="<b>") == "&lt;b&gt;"
