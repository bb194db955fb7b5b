"""Drawings as inline SVG: well formed, described, escaped, with no style of their own."""

from __future__ import annotations

import importlib.util
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest
from jinja2 import UndefinedError

from generator.render.environment import environment, templates_folder
from generator.render.setup_view import setup_view
from generator.render.svg import svg
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
    assert root.get("width") == f"{drawing.width}mm"
    assert root.get("viewBox") == f"0 0 {drawing.width} {drawing.height}"


def test_it_is_an_image_with_title_and_description(pair):
    drawing, root = pair
    assert root.get("role") == "img"
    named = {element.get("id"): element.text for element in root if element.get("id")}
    assert [named[name] for name in root.get("aria-labelledby").split()] == [drawing.title, drawing.desc]


def test_every_primitive_is_there(pair):
    drawing, root = pair
    counts = {tag: len(root.findall(SVG + tag)) for tag in ("path", "circle", "polygon", "text")}
    assert counts == {
        "path": len(drawing.lines),
        "circle": len(drawing.circles),
        "polygon": len(drawing.fills),
        "text": len(drawing.texts),
    }


def test_lettering_is_set_to_the_width_it_was_given_room_for(pair):
    drawing, root = pair
    for text, element in zip(drawing.texts, root.findall(SVG + "text"), strict=True):
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
