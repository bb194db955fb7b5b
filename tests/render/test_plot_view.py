"""Plots, tested on their geometry: points where the scale says, ticks round, lettering clear, table true."""

from __future__ import annotations

import importlib.util
import random
import re
from dataclasses import replace
from itertools import combinations, pairwise
from math import floor, isclose, isfinite, log10
from pathlib import Path
from xml.etree import ElementTree

import pytest

from generator.render.drawing import Box, Drawing
from generator.render.environment import environment
from generator.render.formats import UNITS
from generator.render.plot_scale import round_step, shown_unit
from generator.render.plot_table import NOT_KNOWN, plot_table
from generator.render.plot_view import DOT, KINDS, WIDTH, plot_view
from generator.render.spread import spread, wrapped
from generator.render.svg import svg
from generator.sheet.drawn import Barred, Mark
from generator.si import inch, mm, thou, um

_spec = importlib.util.spec_from_file_location("drawn_plots", Path(__file__).with_name("plots.py"))
assert _spec is not None
assert _spec.loader is not None
plots = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(plots)

TOUCH = 0.15  # mm: lettering boxes include the tails of letters
NAMES = (
    "mark-name",
    "curve-name",
    "barred-letter",
    "y-label",
    "x-label",
    "key",
    "number-up",
    "number-across",
)


@pytest.fixture(scope="module", params=plots.PLOTS, ids=str)
def drawn(request):
    scene = plots.PLOTS[request.param]
    return scene, plot_view(scene)


def clashes(drawing: Drawing) -> list[str]:
    """Lettering over lettering, on a mark, an axis or an end of a stretch, and anything off the paper."""
    found = [f"{a.text} over {b.text}" for a, b in combinations(drawing.texts, 2) if a.box.overlaps(b.box)]
    paper = Box(0, 0, drawing.width, drawing.height)
    for text in drawing.texts:
        if not paper.holds(text.box):
            found.append(f"{text.text} off the paper")
        inner = text.box.grown(-TOUCH)
        for line in drawing.lines:
            if line.part.startswith(("mark", "axes", "tick", "leader", "hatching")) and any(
                inner.crossed_by(a, b) for a, b in pairwise(line.points)
            ):
                found.append(f"{text.text} on {line.part}")
    found += [line.part for line in drawing.lines if not paper.holds(Box.around(line.points))]
    found += [circle.part for circle in drawing.circles if not paper.grown(DOT).holds(circle.box)]
    return found


def ticks_of(drawing: Drawing, way: str) -> list[tuple[float, float]]:
    """The numbers at an axis' ticks and where they stand, read off the drawing's own lettering."""
    level = way == "across"
    found = []
    places = [line.points[0][0 if level else 1] for line in drawing.part(f"tick-{way}")]
    for text in drawing.texts:
        if text.part != f"number-{way}":
            continue
        middle = (text.box.left + text.box.right) / 2 if level else text.at[1] - text.height / 2
        number = float(text.text.replace("−", "-").replace("\u202f", ""))
        found.append((number, min(places, key=lambda place: abs(place - middle))))
    return found


def test_nothing_runs_into_anything(drawn):
    assert clashes(drawn[1]) == []


def test_the_check_of_this_file_sees_a_number_on_an_axis():
    drawing = plot_view(plots.PLOTS["one point"])
    number = next(text for text in drawing.texts if text.part == "number-up")
    y = (number.box.top + number.box.bottom) / 2
    line = replace(drawing.lines[0], points=((number.box.left - 1, y), (number.box.right, y)), part="axes")
    assert clashes(replace(drawing, lines=(*drawing.lines, line))) == [f"{number.text} on axes"]


def test_ticks_are_round_rising_and_evenly_spaced(drawn):
    """Steps of 1, 2 or 5 times a power of ten, the number true to its place."""
    for way in ("across", "up"):
        ticks = ticks_of(drawn[1], way)
        assert len(ticks) >= 2
        steps = {round(b[0] - a[0], 12) for a, b in pairwise(sorted(ticks))}
        least = min(steps)
        mantissa = least / 10 ** floor(log10(least) + 1e-9)
        assert any(isclose(mantissa, one, rel_tol=1e-6) for one in (1, 2, 4, 5, 6, 8))
        assert all(abs(number / least - round(number / least)) < 1e-6 for number, _ in ticks)
        paper = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(ticks)]
        assert max(paper) - min(paper) <= 0.02 / least + 1e-9
        assert (paper[0] > 0) == (way == "across")


def test_points_lie_where_the_numbers_at_the_ticks_say(drawn):
    """Recomputed from the two outermost numbers of each axis as they are lettered."""
    scene, drawing = drawn
    units = [shown_unit(scene, quantity).si for quantity in (scene.x_quantity, scene.y_quantity)]
    ends = []
    for way in ("across", "up"):
        ticks = sorted(ticks_of(drawing, way))
        ends.append((ticks[0], ticks[-1]))

    def paper(value: float, way: int) -> float:
        (low, start), (high, end) = ends[way]
        return start + (value / units[way] - low) / (high - low) * (end - start)

    for number, curve in enumerate(scene.curves):
        points = [point for line in drawing.part(f"curve-{number}") for point in line.points]
        points += [c.center for c in drawing.circles if c.part == f"curve-{number}"]
        finite = [point for point in curve.points if all(map(isfinite, point))]
        top = ends[1][1][0] * units[1] * (1 + 1e-9)
        cut = len(finite)
        finite = [point for point in finite if point[1] <= top]
        if len(finite) < cut:  # the rest of the curve runs off the plot, and ends on its edge
            edge = min(y for line in drawing.part("axes") for _, y in line.points)
            assert all(y >= edge for _, y in points)
            points = [point for point in points if point[1] > edge + 0.005]
        assert len(points) == len(finite)
        for (x, y), (true_x, true_y) in zip(points, finite, strict=True):
            assert x == pytest.approx(paper(true_x, 0), abs=0.05)
            assert y == pytest.approx(paper(true_y, 1), abs=0.05)
    for mark in scene.marks:
        assert min(abs(line.points[-1][0] - paper(mark.x, 0)) for line in drawing.part("mark")) < 0.35
    for stretch in scene.barred:
        for x in (stretch.start, stretch.end):
            assert min(abs(line.points[0][0] - paper(x, 0)) for line in drawing.part("barred")) < 0.05


def test_the_axis_up_begins_at_zero_unless_a_value_is_below_it(drawn):
    scene, drawing = drawn
    values = [y for curve in scene.curves for x, y in curve.points if isfinite(x) and isfinite(y)]
    numbers = [number for number, _ in ticks_of(drawing, "up")]
    assert 0 in numbers
    assert (min(numbers) == 0) == (min(values, default=0.0) >= 0)


def test_curves_marks_and_limits_are_told_apart_by_their_lines(drawn):
    """ISO 128-2 kinds; nothing is said by colour: the drawing has none (see test_svg)."""
    scene, drawing = drawn
    for number, curve in enumerate(scene.curves):
        assert {line.kind for line in drawing.part(f"curve-{number}")} <= {KINDS[curve.kind]}
    assert {line.kind for line in drawing.part("mark")} <= {"center"}
    assert {line.kind for line in drawing.part("hatching")} <= {"thin"}
    assert len(set(KINDS.values())) == len(KINDS)
    assert KINDS["limit"] == "hidden"


def test_every_curve_mark_and_reason_is_named(drawn):
    scene, drawing = drawn
    words = " ".join(text.text for text in drawing.texts)
    squeezed = words.replace(" ", "")
    curves = [curve for curve in scene.curves if any(all(map(isfinite, point)) for point in curve.points)]
    named = [curve.label for curve in curves] if len(curves) > 1 else []
    for name in (*named, *(mark.label for mark in scene.marks), *(bar.why for bar in scene.barred)):
        assert name.replace(" ", "") in squeezed, name
    for label, quantity in ((scene.x_label, scene.x_quantity), (scene.y_label, scene.y_quantity)):
        assert f"{label}, {shown_unit(scene, quantity).name}".replace(" ", "") in squeezed
    if scene.barred:
        assert len(drawing.part("hatching")) > 0
        letters = [text.text for text in drawing.texts if text.part == "barred-letter"]
        assert len(letters) == len(scene.barred)
        assert set(letters) <= set(words.split())


def test_it_leaves_room_for_its_table_and_stays_low(drawn):
    scene, drawing = drawn
    assert drawing.width == WIDTH <= 112
    few = len(scene.marks) <= 3 and len(scene.barred) <= 3 and len(scene.y_label) < 80
    assert drawing.height <= (72 if few else 105)


def test_it_is_described_for_those_who_cannot_see_it(drawn):
    scene, drawing = drawn
    root = ElementTree.fromstring(str(svg(drawing, environment())))
    named = {element.get("id"): element.text for element in root if element.get("id")}
    assert [named[name] for name in root.get("aria-labelledby").split()] == [drawing.title, drawing.desc]
    assert scene.says in drawing.desc
    assert f"plot-{scene.id}" in drawing.id
    assert f".{drawing.part('axes')[0].kind}" != ".visible"


def test_the_same_scene_gives_the_same_drawing(drawn):
    assert plot_view(drawn[0]) == drawn[1]


def test_the_table_has_the_values_of_the_curve(drawn):
    scene, _ = drawn
    table = plot_table(scene)
    assert table.heads[0] == (scene.heads[0], True)
    assert [word for word, _ in table.rows] == [word for word, _ in scene.rows]
    for column, quantity in enumerate(scene.columns):
        unit = shown_unit(scene, quantity)
        head, words = table.heads[column + 1]
        assert head == ", ".join(filter(None, (scene.heads[column + 1], unit.name)))
        assert words == (quantity == "text")
        for (_, values), (_, texts) in zip(scene.rows, table.rows, strict=True):
            value, (text, _) = values[column], texts[column]
            if isinstance(value, str):
                assert text == value
            elif value is None or not isfinite(value):
                assert text == NOT_KNOWN
            else:
                number = float(text.replace("−", "-").replace("\u202f", ""))
                shown = 10.0 ** -len(text.partition(".")[2])
                if unit.figures is not None and value:
                    shown = 10.0 ** (floor(log10(abs(value / unit.si))) - unit.figures + 1)
                assert number == pytest.approx(value / unit.si, abs=shown * 1.001)


def test_a_column_has_one_number_of_decimals():
    table = plot_table(plots.PLOTS["thread on a center, inch"])
    for column in range(2):
        assert len({len(values[column][0].partition(".")[2]) for _, values in table.rows}) == 1


def test_small_lengths_are_in_thousandths_or_micrometres_and_larger_ones_in_the_jobs_unit():
    names = {
        "thread on a center, inch": ("thou", thou),
        "place for the steady, mm": ("µm", um),
        "large fine lengths": ("in", inch),
    }
    for name, (word, si) in names.items():
        unit = shown_unit(plots.PLOTS[name], "fine_length")
        assert (unit.name, unit.si) == (word, si)
    assert shown_unit(plots.PLOTS["place for the steady, mm"], "length").si == mm
    assert shown_unit(plots.PLOTS["speeds"], "spindle_speed") == UNITS["spindle_speed"].inch


def test_what_is_too_small_to_measure_is_not_blown_up():
    """A hundred-thousandth of a thou lies on the axis, not at the top of the paper."""
    drawing = plot_view(plots.PLOTS["tiny values"])
    numbers = [number for number, _ in ticks_of(drawing, "up")]
    assert max(numbers) >= 0.1
    axis = max(y for line in drawing.part("axes") for _, y in line.points)
    assert all(axis - y < 0.2 for line in drawing.part("curve-0") for _, y in line.points)


def test_a_curve_far_over_its_limit_runs_off_the_plot_and_the_axis_says_so():
    """Else the place that was chosen could not be told from the limit."""
    drawing = plot_view(plots.PLOTS["a curve that runs off the plot"])
    assert max(number for number, _ in ticks_of(drawing, "up")) <= 6 * 2.2 + 2
    assert any("runs off the plot" in text.text for text in drawing.texts if text.part == "y-label")
    edge = min(y for line in drawing.part("axes") for _, y in line.points)
    assert drawing.part("curve-0")[0].points[0][1] == pytest.approx(edge, abs=0.011)
    back = plot_view(plots.PLOTS["a curve that comes back"])
    assert len(back.part("curve-0")) == 2
    for name in ("thread on a center, inch", "huge range", "speeds"):
        texts = plot_view(plots.PLOTS[name]).texts
        assert any("runs off" in text.text for text in texts) == (name == "huge range")


def test_words_of_a_job_are_escaped():
    scene = replace(plots.PLOTS["one point"], y_label="<b>&", says="</svg><script>", job='"><script>')
    text = str(svg(plot_view(scene), environment()))
    assert "<script>" not in text
    assert "<b>" not in text
    ElementTree.fromstring(text)


@pytest.mark.parametrize("seed", range(60))
def test_any_plot_can_be_drawn_without_overlap(seed):
    """Any ranges, up to nine marks anywhere, up to four barred stretches, names short and long."""
    dice = random.Random(seed)
    system = dice.choice(("inch", "mm"))
    unit = inch if system == "inch" else mm
    first = dice.choice((0.0, 0.0, -3.0, 9.0)) * unit
    last = first + dice.choice((0.1, 2.5, 60, 1500)) * unit
    low, high = dice.choice((0.0, -1.0, 0.7)), dice.choice((1.0, 1.3, 40.0))
    size = dice.choice((1e-9, 1e-6, 3e-4, 2.0))

    def curve(kind, words):
        ys = [size * dice.uniform(low, high) for _ in range(25)]
        return plots.curve(words, list(zip(plots.along(first, last, 25), ys, strict=True)), kind)

    words = ("last cut", "a", "quarter of the tolerance on the pitch diameter", "heaviest cut of the route")
    kinds = ("main", "second", "third", "limit", "limit")
    curves = [curve(kind, dice.choice(words)) for kind in kinds[: dice.randint(1, 5)]]
    crowded = dice.random() < 0.4
    marks = []
    for number in range(dice.randint(0, 9)):
        share = dice.uniform(0.8, 0.9) if crowded else dice.random()
        marks.append(Mark(f"{dice.choice(words)} {number}", first + share * (last - first)))
    bars = []
    for _ in range(dice.randint(0, 4)):
        a = dice.random()
        b = min(1.0, a + dice.choice((0.0, 0.01, 0.3)))
        why = dice.choice(("carriage meets the chuck", "cross hole", "rough"))
        bars.append(Barred(first + a * (last - first), first + b * (last - first), why))
    scene = plots.plot(curves, system, marks=tuple(marks), barred=tuple(bars))
    drawing = plot_view(scene)
    assert clashes(drawing) == []
    letters = [text.box for text in drawing.texts if text.part in NAMES]
    assert len(letters) == len(drawing.texts)
    for box, line in ((b, line) for b in letters for line in drawing.part("barred")):
        assert not box.grown(-TOUCH).crossed_by(*line.points) or len(bars) > 1


# the pieces it is made of


@pytest.mark.parametrize("span", [1e-9, 0.003, 0.07, 0.7, 1, 3.3, 7, 7.01, 49, 1e9])
def test_a_step_is_the_least_round_one_with_seven_or_fewer(span):
    step = round_step(span)
    assert re.fullmatch(r"[125]e[+-]\d+", f"{step:.0e}")
    assert span <= 7 * step * (1 + 1e-6)
    smaller = {1: 0.5, 2: 1, 5: 2}[int(f"{step:.0e}"[0])] * 10 ** int(f"{step:.0e}"[2:])
    assert span > 7 * smaller * (1 - 1e-6)


def test_things_in_a_row_keep_their_order_and_do_not_overlap():
    dice = random.Random(5)
    for _ in range(200):
        count = dice.randint(1, 9)
        wanted = [dice.uniform(-5, 45) for _ in range(count)]
        sizes = [dice.uniform(0.5, 4) for _ in range(count)]
        places = spread(wanted, sizes, 0, 40)
        order = sorted(range(count), key=lambda one: wanted[one])
        edges = [(places[one] - sizes[one] / 2, places[one] + sizes[one] / 2) for one in order]
        assert all(a[1] <= b[0] + 1e-9 for a, b in pairwise(edges))
        assert edges[0][0] >= -1e-9
        assert edges[-1][1] <= 40 + 1e-9


def test_things_with_room_lie_where_they_are_wanted():
    assert spread([3, 20, 10], [2, 2, 2], 0, 40) == [3, 20, 10]


def test_a_word_longer_than_a_line_is_broken_and_nothing_is_lost():
    lines = wrapped("a threadcuttingattachmentwithoutanend b", 20)
    assert "".join(lines).replace(" ", "") == "athreadcuttingattachmentwithoutanendb"
    assert len(lines) > 2
