"""The dial's face, tested on its geometry: lines where they belong, a mark at each place, none touching."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import atan2, hypot, pi
from xml.etree import ElementTree

import pytest

from generator.render.dial_block import dial_block
from generator.render.dial_view import dial_view, mark_view
from generator.render.drawing import Box, Circle
from generator.render.environment import environment, templates_folder
from generator.render.lines import SHORT_EDGE
from generator.render.svg import svg
from generator.sheet.drawn import DialPlace, DialRow, DialScene

PAPER = 0.02  # mm: coordinates are rounded to 0.01 mm
SAYS = {"same start": "groove", "other start": "start", "wrong": "do not close", "changes": "unsure",
        "does not close": "half nuts do not close"}


def scene(lines, every, pattern, *, starts=1, job="SW-113", rule="any line", designation="2-4 UN-2A"):
    """A dial round which `pattern` goes: what a line and each place after it does, or two lines in turn."""
    share = len(pattern)
    places = []
    for step in range(lines * share):
        meets = pattern[step % share]
        if not isinstance(meets, str):
            meets = meets[step // share % 2]
        start = {"same start": 1, "other start": 2}.get(meets)
        line, rest = divmod(step, share)
        number = str(line // every + 1) if not rest and line % every == 0 else ""
        places.append(DialPlace(step / share, not rest, number, meets, start))
    kinds = dict.fromkeys((place.meets, place.start) for place in places)
    rows = tuple(DialRow(meets, start, f"places {meets}", SAYS[meets]) for meets, start in kinds)
    return DialScene(lines, tuple(places), rows, rule, "dial gear of 16 teeth", "leadscrew of 1/4 in lead",
                     starts, designation, job)


SAME, OTHER, WRONG, NOT, UNSURE = "same start", "other start", "wrong", "does not close", "changes"
SCENES = {
    "any line": scene(8, 2, (SAME, WRONG)),
    "any place": scene(8, 2, (SAME, SAME)),
    "numbered lines": scene(8, 2, ((SAME, WRONG), (WRONG, WRONG))),
    "two starts, half spaces": scene(8, 2, (SAME, OTHER), starts=2),
    "two starts, plain lines": scene(8, 2, ((SAME, OTHER), (WRONG, WRONG)), starts=2),
    "half spaces do not close": scene(8, 1, (SAME, NOT)),
    "every second line closes": scene(8, 1, ((SAME, NOT), (NOT, NOT), (WRONG, WRONG))),
    "keep closed": scene(8, 2, (UNSURE, UNSURE)),
    "one line": scene(1, 1, (SAME, WRONG)),
    "two lines": scene(2, 1, (SAME, OTHER), starts=2),
    "three": scene(3, 1, (SAME, WRONG, OTHER, WRONG), starts=2),
    "fourteen numbered": scene(14, 1, (SAME, WRONG)),
    "twenty-four numbered": scene(24, 1, (SAME, WRONG)),
    "sixty numbered": scene(60, 1, (SAME, WRONG)),
    "sixty and much between": scene(60, 1, (SAME, WRONG, OTHER, WRONG, OTHER), starts=2),
    "sixty, numbered every fifth": scene(60, 5, (SAME, OTHER), starts=2),
}


@pytest.fixture(params=SCENES, ids=str)
def drawn(request):
    return SCENES[request.param], dial_view(SCENES[request.param])


def rim(drawing) -> Circle:
    (found,) = [circle for circle in drawing.circles if circle.part == "rim"]
    return found


def turn_of(drawing, point) -> float:
    """Where a point lies around the dial, in turns clockwise from the top."""
    x, y = rim(drawing).center
    return atan2(point[0] - x, y - point[1]) / (2 * pi) % 1.0


def from_rim(drawing, point) -> float:
    x, y = rim(drawing).center
    return hypot(point[0] - x, point[1] - y) - rim(drawing).radius


def marks(drawing) -> dict[float, str]:
    """Turn around the dial -> the mark there."""
    found = {}
    for circle in drawing.circles:
        if circle.part in ("same-start", "other-start"):
            assert circle.filled == (circle.part == "same-start")
            found[turn_of(drawing, circle.center)] = circle.part
    crosses = drawing.part("wrong")
    for a, b in zip(crosses[::2], crosses[1::2], strict=True):
        middles = {tuple(round(sum(v) / 2, 1) for v in zip(*line.points, strict=True)) for line in (a, b)}
        assert len(middles) == 1
        found[turn_of(drawing, middles.pop())] = "wrong"
    return found


def near(found: dict[float, str], turn: float, radius: float) -> str | None:
    """The mark at a turn, within what rounding to the paper makes of it."""
    slack = 0.1 / radius
    return next((mark for at, mark in found.items() if abs((at - turn + 0.5) % 1 - 0.5) < slack), None)


MARK = {SAME: "same-start", OTHER: "other-start", WRONG: "wrong", UNSURE: "wrong", NOT: None}


def test_every_line_of_the_dial_stands_at_its_angle(drawn):
    made, drawing = drawn
    lines = drawing.part("numbered-line") + drawing.part("plain-line")
    assert len(lines) == made.lines
    turns = sorted(turn_of(drawing, line.points[0]) for line in lines)
    for place, turn in enumerate(turns):
        assert (turn - place / made.lines + 0.5) % 1 - 0.5 == pytest.approx(0, abs=PAPER / 20)
    for line in lines:
        assert from_rim(drawing, line.points[0]) == pytest.approx(0, abs=PAPER)


def test_numbered_lines_are_longer_and_wide(drawn):
    _, drawing = drawn
    for part, kind, length in (("numbered-line", "visible", 7.0), ("plain-line", "thin", 3.5)):
        for line in drawing.part(part):
            assert line.kind == kind
            assert -from_rim(drawing, line.points[1]) == pytest.approx(length, abs=PAPER)
            assert length < SHORT_EDGE


def test_every_allowed_line_is_marked(drawn):
    """Each line has the mark of what it does, however full the dial."""
    made, drawing = drawn
    found = marks(drawing)
    for place in made.places:
        if place.line:
            assert near(found, place.at / made.lines, rim(drawing).radius) == MARK[place.meets], place


def test_places_between_have_their_mark_or_all_of_a_kind_have_none(drawn):
    made, drawing = drawn
    found = marks(drawing)
    shown: dict[str, set[bool]] = {}
    for place in made.places:
        if not place.line and place.meets != NOT:
            mark = near(found, place.at / made.lines, rim(drawing).radius)
            assert mark in (MARK[place.meets], None)
            shown.setdefault(place.meets, set()).add(mark is not None)
    assert all(len(kind) == 1 for kind in shown.values())
    if shown.get(WRONG) == {True} and OTHER in shown:
        assert shown[OTHER] == {True}
    count = sum(place.meets != NOT for place in made.places)
    assert len(found) == count or made.lines > 40


@pytest.mark.parametrize("name", ["two starts, half spaces", "two starts, plain lines", "two lines"])
def test_the_next_start_has_its_number_in_a_ring(name):
    drawing = dial_view(SCENES[name])
    rings = [circle for circle in drawing.circles if circle.part == "other-start"]
    numbers = [text for text in drawing.texts if text.part == "start-number"]
    assert len(rings) == len(numbers) > 0
    for ring, number in zip(rings, numbers, strict=True):
        assert number.text == "2"
        box = number.box
        middle = ((box.left + box.right) / 2, (box.top + number.at[1]) / 2)
        assert hypot(middle[0] - ring.center[0], middle[1] - ring.center[1]) < 0.1
        assert hypot(number.width / 2, number.height / 2) < ring.radius


def test_marks_keep_clear_of_each_other_and_of_the_rim(drawn):
    _, drawing = drawn
    boxes = [circle for circle in drawing.circles if circle.part in ("same-start", "other-start")]
    for a, b in combinations(boxes, 2):
        apart = hypot(a.center[0] - b.center[0], a.center[1] - b.center[1])
        assert apart > a.radius + b.radius
    for circle in boxes:
        assert from_rim(drawing, circle.center) > circle.radius
    crosses = [Box.around(line.points) for line in drawing.part("wrong")[::2]]
    for a, b in combinations(crosses, 2):
        assert not a.grown(-0.4).overlaps(b.grown(-0.4))
    for line in drawing.part("wrong"):
        assert all(from_rim(drawing, point) > 0.3 for point in line.points)
        for circle in boxes:
            assert not Box.around(line.points).overlaps(circle.box.grown(-0.3 * circle.radius))


def test_lettering_is_clear_of_lettering_and_lines(drawn):
    _, drawing = drawn
    paper = Box(0, 0, drawing.width, drawing.height)
    for a, b in combinations(drawing.texts, 2):
        assert not a.box.overlaps(b.box), (a.text, b.text)
    for text in drawing.texts:
        assert paper.holds(text.box), text.text
        inner = text.box.grown(-0.15)
        for line in drawing.lines:
            assert not inner.crossed_by(*line.points), (text.text, line.part)
    for circle in drawing.circles:
        assert paper.holds(circle.box)


def test_numbers_stand_inside_at_their_lines(drawn):
    made, drawing = drawn
    wanted = {place.number: place.at / made.lines for place in made.places if place.number}
    numbers = [text for text in drawing.texts if text.part == "number"]
    assert numbers[0].text == "1"
    assert len(numbers) == len(wanted) or made.lines == 60
    for text in numbers:
        middle = ((text.at[0] + text.at[0] + text.width) / 2, text.at[1] - text.height / 2)
        assert from_rim(drawing, middle) < -7
        off = turn_of(drawing, middle) - wanted[text.text]
        assert (off + 0.5) % 1 - 0.5 == pytest.approx(0, abs=0.005)


def test_the_fixed_mark_points_at_line_1_from_above(drawn):
    _, drawing = drawn
    (pointer,) = drawing.fills
    tip = max(pointer.points, key=lambda point: point[1])
    assert tip[0] == pytest.approx(rim(drawing).center[0], abs=PAPER)
    assert from_rim(drawing, tip) > 6  # past the mark of line 1
    (label,) = [text for text in drawing.texts if text.part == "label"]
    assert label.text == "fixed mark"
    assert label.box.bottom < min(point[1] for point in pointer.points)


def test_the_usual_dial_is_small_and_its_numbers_can_be_read_at_arm_s_length():
    """Letters of 5 mm (ISO 3098-1) on a dial of 40 mm."""
    drawing = dial_view(SCENES["any line"])
    assert {text.height for text in drawing.texts if text.part == "number"} == {5.0}
    assert drawing.width < 60
    assert drawing.height < 70


def test_no_dial_is_wider_than_half_a_page_or_has_letters_too_small(drawn):
    _, drawing = drawn
    assert drawing.width < 100
    assert min(text.height for text in drawing.texts) >= 2.5


@pytest.mark.parametrize("name", SCENES)
def test_it_is_black_and_white_and_says_in_words_what_it_shows(name):
    made = SCENES[name]
    root = ElementTree.fromstring(str(svg(dial_view(made), environment())))
    for element in root.iter():
        assert not {"style", "stroke", "fill", "stroke-width"} & set(element.keys())
    named = {element.get("id"): element.text for element in root if element.get("id")}
    title, desc = (named[one] for one in root.get("aria-labelledby").split())
    assert title == "Thread dial, job SW-113"
    for words in (made.rule, made.gear, made.leadscrew, f"{made.lines} lines"):
        assert words in desc
    assert all(row.says in desc for row in made.rows)
    css = (templates_folder() / "css" / "drawing.css").read_text(encoding="utf-8")
    assert "currentColor" in css
    assert "#" not in css


def test_the_table_has_the_mark_of_every_row_and_ids_of_its_own():
    made = SCENES["two starts, plain lines"]
    block = dial_block(made, environment())
    assert block is not None
    assert block.rule == "Any line"
    assert [(line.places, line.says) for line in block.lines] == [(row.places, row.says) for row in made.rows]
    ids = []
    for text in (block.svg, *(line.mark for line in block.lines)):
        ids += [element.get("id") for element in ElementTree.fromstring(str(text)) if element.get("id")]
    assert len(ids) == len(set(ids)) == 2 * (1 + len(made.rows))


def test_marks_of_the_table_are_those_of_the_face():
    """A dot, a ring with its start, a cross; nothing where the half nuts do not close."""
    made = SCENES["two starts, plain lines"]
    dot = mark_view(made, DialRow(SAME, 1, "1", "groove"), 1)
    ring = mark_view(made, DialRow(OTHER, 3, "2", "start 3"), 2)
    cross = mark_view(made, DialRow(WRONG, None, "3", "no"), 3)
    none = mark_view(made, DialRow(NOT, None, "4", "no"), 4)
    assert [(circle.part, circle.filled) for circle in dot.circles] == [("same-start", True)]
    assert [circle.part for circle in ring.circles] == ["other-start"]
    assert [text.text for text in ring.texts] == ["3"]
    assert [line.part for line in cross.lines] == ["wrong", "wrong"]
    assert (none.lines, none.circles, none.texts) == ((), (), ())
    assert [mark.title for mark in (dot, ring, cross, none)] == ["dot", "ring with 3", "cross", "no mark"]
    for mark in (dot, ring, cross):
        assert Box(0, 0, mark.width, mark.height).holds(Box.around(
            [(box.left, box.top) for box in [c.box for c in mark.circles]]
            + [point for line in mark.lines for point in line.points] or [(0.0, 0.0)]
        ))


def test_no_dial_no_block():
    assert dial_block(None, environment()) is None


def test_text_of_a_job_is_escaped():
    hostile = replace(SCENES["any line"], rule="<b>", designation="<i>", job='"><script>')
    block = dial_block(hostile, environment())
    assert block is not None
    page = environment().get_template("sheet/dial.html").render(dial=block)
    assert "<script" not in page
    assert "<b>" not in page
    assert "<i>" not in page
    assert "&lt;i&gt;" in page
