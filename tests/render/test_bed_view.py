"""The view along the bed: lengths to scale, names clear, room true."""

from __future__ import annotations

import importlib.util
import random
import re
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from generator.job.reading import find_jobs, read_job, read_shop
from generator.render.bed_view import HEADSTOCK, bed_view
from generator.render.drawing import WIDTH, Box, Drawing
from generator.render.scale import SCALES
from generator.render.setup_view import setup_view
from generator.sheet.compute import compute_sheet
from generator.sheet.drawn import ReachScene
from generator.si import inch

ROOT = Path(__file__).parents[2]
TOUCH = 0.15  # mm: lettering boxes include the tails of letters

_spec = importlib.util.spec_from_file_location("drawn_scenes", Path(__file__).with_name("scenes.py"))
assert _spec is not None
assert _spec.loader is not None
scenes = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(scenes)


def along(
    tool: float, *, left: float = 3, right: float = 6, face: float = 0.0, nose: float = 7, **more: object
) -> ReachScene:
    """The carriage beside what ends at `face`, all in inches."""

    def room(low: float, high: float) -> tuple[float, float]:
        return (low * inch, high * inch)

    scene = ReachScene(
        tool_at=tool * inch,
        nose=-nose * inch,
        carriage=room(tool - left, tool + right),
        holder=room(tool - 1.25, tool),
        compound=room(tool, tool + 3),
        follow_rest=None,
        fingers=None,
        base=None,
        quill=None,
        tailstock=None,
        part="carriage",
        obstacle="chuck",
        edge=(tool - left) * inch,
        face=face * inch,
        clearance=(tool - left - face) * inch,
        cut="Thread",
    )
    return replace(scene, **more)  # type: ignore[arg-type]


PIN = scenes.SETUPS["cross-drilled pin on a center"]
SHAFT = scenes.SETUPS["shaft with the steady at 50"]
SETUPS = {
    "alone in the chuck": replace(PIN, center=None, reach=along(8.625)),
    "tailstock with its quill out": replace(
        PIN,
        reach=along(
            11.75, quill=16.5 * inch, tailstock=18 * inch, part="carriage", obstacle="tailstock",
            edge=17.75 * inch, face=18 * inch, clearance=0.25 * inch,
        ),
    ),
    "quill all the way in": replace(PIN, reach=along(11.75, quill=16.5 * inch, tailstock=16.5 * inch)),
    "beside the steady rest": replace(
        SHAFT,
        reach=along(
            50.75, face=47.5, fingers=(46 * inch, 47.5 * inch), base=(45 * inch, 47.5 * inch),
            obstacle="steady rest",
        ),
    ),
    "meets the steady rest": replace(
        SHAFT,
        reach=along(
            50.75, face=48.5, fingers=(47 * inch, 48.5 * inch), base=(45 * inch, 48.5 * inch),
            obstacle="steady rest",
        ),
    ),
    "just touches": replace(PIN, reach=along(3.0)),
    "nothing known but the carriage to the left": replace(
        PIN,
        reach=along(8.625, right=0, holder=None, compound=None, nose=7),
    ),
    "nose not known": replace(PIN, reach=replace(along(8.625), nose=None)),
    "follow rest": replace(PIN, reach=along(11, follow_rest=(11 * inch, 12 * inch))),
    "collet": replace(
        scenes.SETUPS["bare chuck work"], held="collet", reach=along(3, nose=3, obstacle="collet")
    ),
    "faceplate": replace(
        scenes.SETUPS["flange on the faceplate"], reach=along(4.5, nose=2.75, obstacle="faceplate")
    ),
    "between centers": replace(
        scenes.SETUPS["shaft between centers with a follow rest"],
        reach=along(
            18.5, nose=6, face=1.5, obstacle="dog", quill=27 * inch, tailstock=28 * inch,
            follow_rest=(18.5 * inch, 19.5 * inch),
        ),
    ),
    "between centers, nose not known": replace(
        scenes.SETUPS["hollow arbor between centers"], system="inch", reach=replace(along(6), nose=None)
    ),
}
HELD = {"chuck": "chuck", "collet": "collet", "faceplate": "faceplate", "centers": "dog"}


@pytest.fixture(scope="module", params=SETUPS, ids=str)
def drawn(request):
    scene = SETUPS[request.param]
    return scene, bed_view(scene, scene.reach)


def scale_of(drawing: Drawing) -> float:
    """Millimetres on paper of 1 m along the bed, as the words below the drawing have it."""
    words = " ".join(text.text for text in drawing.texts if text.part == "caption")
    found = re.search(r"Scale (\d+):(\d+), heights not to scale", words)
    assert found is not None, words
    assert drawing.scale == f"{found.group(1)}:{found.group(2)}"
    return 1000 * int(found.group(1)) / int(found.group(2))


def box_of(drawing: Drawing, part: str) -> Box:
    return Box.around([point for line in drawing.part(part) for point in line.points])


def clashes(drawing: Drawing) -> list[str]:
    """Names and numbers along the bed that run into each other, into a line, or off the paper."""
    names = [text for text in drawing.texts if text.part in ("bed-name", "bed-room")]
    found = [
        f"{a.text} over {b.text}" for a, b in combinations(drawing.texts, 2)
        if (a in names or b in names) and a.box.overlaps(b.box)
    ]
    paper = Box(0, 0, drawing.width, drawing.height)
    for text in names:
        inner = text.box.grown(-TOUCH)
        found += [
            f"{text.text} on a line of {line.part}"
            for line in drawing.lines
            for a, b in pairwise(line.points)
            if inner.crossed_by(a, b)
        ]
        if not paper.holds(text.box):
            found.append(f"{text.text} off the paper")
    found += [
        f"line of {line.part} off the paper"
        for line in drawing.lines
        if not paper.holds(Box.around(line.points))
    ]
    return found


def test_nothing_runs_into_anything(drawn):
    assert clashes(drawn[1]) == []


def test_lengths_along_the_bed_are_true_to_scale(drawn):
    scene, drawing = drawn
    scale, reach = scale_of(drawing), scene.reach
    work = box_of(drawing, "bed-work")
    length = scene.pieces[-1].end - scene.pieces[0].start
    assert work.right - work.left == pytest.approx(length * scale, abs=0.03)
    zero = work.left - scene.pieces[0].start * scale  # paper position of the jaw face
    for part, room in (
        ("bed-carriage", reach.carriage),
        ("bed-holder", reach.holder),
        ("bed-compound", reach.compound),
        ("bed-base", reach.base),
        ("bed-fingers", reach.fingers),
        ("bed-follow-rest", reach.follow_rest),
    ):
        if room is None:
            assert drawing.part(part) == ()
            continue
        box = box_of(drawing, part)
        assert box.left == pytest.approx(zero + room[0] * scale, abs=0.03), part
        assert box.right == pytest.approx(zero + room[1] * scale, abs=0.03), part
    if reach.tailstock is not None:
        front = min(x for line in drawing.part("bed-tailstock") for x, _ in line.points)
        assert front == pytest.approx(zero + reach.tailstock * scale, abs=0.03)
    if reach.nose is not None:
        headstock = box_of(drawing, "bed-headstock")
        assert headstock.right == pytest.approx(zero + reach.nose * scale, abs=0.03)
        assert headstock.right - headstock.left == pytest.approx(HEADSTOCK, abs=1.0)


def test_the_least_room_is_dimensioned_between_part_and_obstacle(drawn):
    scene, drawing = drawn
    reach, scale = scene.reach, scale_of(drawing)
    work = box_of(drawing, "bed-work")
    zero = work.left - scene.pieces[0].start * scale
    texts = [text.text for text in drawing.texts if text.part == "bed-room"]
    if reach.clearance == 0:
        assert texts == []
        return
    (text,) = texts
    assert text.startswith("short by") == (reach.clearance < 0)
    uprights = {
        line.points[0][0] for line in drawing.part("bed-room") if line.points[0][0] == line.points[1][0]
    }
    wanted = {zero + x * scale for x in (reach.edge, reach.face)}
    for x in wanted:
        assert min(abs(x - upright) for upright in uprights) < 0.03


def test_what_stands_and_travels_is_named(drawn):
    scene, drawing = drawn
    reach = scene.reach
    names = {text.text for text in drawing.texts if text.part == "bed-name"}
    wanted = {HELD[scene.held]}
    wanted |= {"headstock"} if reach.nose is not None else set()
    wanted |= {"tailstock"} if reach.tailstock is not None else set()
    wanted |= {"steady rest"} if reach.fingers is not None else set()
    wanted |= {"carriage"} if reach.carriage is not None else set()
    wanted |= {"tool holder"} if reach.holder is not None else set()
    wanted |= {"compound"} if reach.compound is not None else set()
    wanted |= {"follow rest"} if reach.follow_rest is not None else set()
    assert names == wanted


def test_nothing_holds_the_work_that_is_not_there(drawn):
    scene, drawing = drawn
    parts = {line.part for line in drawing.lines}
    of = {
        "chuck": {"bed-chuck"}, "collet": {"bed-collet"}, "faceplate": {"bed-faceplate"},
        "centers": {"bed-dog", "bed-headstock-center"},
    }
    assert parts & set().union(*of.values()) == of[scene.held]
    work, scale = box_of(drawing, "bed-work"), scale_of(drawing)
    zero = work.left - scene.pieces[0].start * scale
    if scene.held == "centers":
        dog = box_of(drawing, "bed-dog")
        assert (dog.left, dog.right) == pytest.approx((zero, zero + scene.dog * scale), abs=0.03)
        assert box_of(drawing, "bed-headstock-center").right == pytest.approx(zero, abs=0.03)
    else:
        assert box_of(drawing, f"bed-{HELD[scene.held]}").right == pytest.approx(zero, abs=0.03)


def test_only_the_work_is_drawn_wide(drawn):
    """ISO 128-2: adjacent parts continuous narrow or long-dashed double-dotted narrow."""
    kinds = {line.part: line.kind for line in drawn[1].lines if line.part.startswith("bed")}
    assert {part for part, kind in kinds.items() if kind == "visible"} == {"bed-work"}


def test_it_fits_the_paper_at_a_recommended_scale_and_stays_low(drawn):
    """ISO 5455:1979, recommended scales."""
    _, drawing = drawn
    assert drawing.width == WIDTH
    assert drawing.height <= 45
    assert drawing.scale in {str(scale) for scale in SCALES}


def test_the_words_say_where_the_least_room_is(drawn):
    scene, drawing = drawn
    words = " ".join(text.text for text in drawing.texts if text.part == "caption")
    least = f"{scene.reach.cut}, least room: {scene.reach.part} to {scene.reach.obstacle}, "
    assert least in words
    assert least in drawing.desc
    assert ("they just touch" in words) == (scene.reach.clearance == 0)
    assert ("short by" in words) == (scene.reach.clearance < 0)


def test_the_setup_is_the_same_with_and_without_a_reach(drawn):
    assert setup_view(drawn[0]) == setup_view(replace(drawn[0], reach=None))


@pytest.mark.parametrize("path", find_jobs(ROOT / "jobs"), ids=lambda path: path.parent.name)
def test_the_demo_setups_are_clear(path):
    scene = compute_sheet(read_job(path), read_shop(ROOT / "jobs" / "_shop")).setup_scene
    assert scene is not None
    if scene.reach is not None:
        assert clashes(bed_view(scene, scene.reach)) == []


@pytest.mark.parametrize("seed", range(40))
def test_any_lathe_can_be_drawn_without_overlap(seed):
    """Long and short work, wide and narrow parts, with and without steady rest and tailstock."""
    dice = random.Random(seed)
    end = dice.choice((2, 6, 12, 40, 120))
    tool = end * dice.uniform(0.3, 1)
    left, right = dice.uniform(0.5, 6), dice.uniform(0.5, 9)
    middle = tool * dice.uniform(0.2, 0.8)
    steady = dice.random() < 0.5
    tailstock = dice.random() < 0.5
    reach = along(
        tool, left=left, right=right, nose=dice.uniform(3, 8),
        holder=dice.choice((None, ((tool - dice.uniform(0.2, 2)) * inch, tool * inch))),
        compound=dice.choice((None, (tool * inch, (tool + dice.uniform(0.2, 6)) * inch))),
        fingers=((middle - 0.4) * inch, (middle + 0.4) * inch) if steady else None,
        base=((middle - 1.5) * inch, (middle + 1) * inch) if steady else None,
        quill=(end + 4) * inch if tailstock else None,
        tailstock=(end + 4 + dice.uniform(0, 3)) * inch if tailstock else None,
    )
    scene = scenes.setup(
        [scenes.piece(-2, end, dice.choice((0.5, 2, 5)), inch)], inch, 2, 3, (8, 5),
        center="live" if tailstock else None,
    )
    assert clashes(bed_view(scene, reach)) == []


def test_the_check_of_this_file_sees_a_name_on_a_line():
    scene = SETUPS["alone in the chuck"]
    drawing = bed_view(scene, scene.reach)
    name = next(text for text in drawing.texts if text.part == "bed-name")
    y = (name.box.top + name.box.bottom) / 2
    line = replace(drawing.lines[0], points=((name.box.left - 3, y), (name.box.right + 3, y)), part="bed")
    assert clashes(replace(drawing, lines=(*drawing.lines, line))) == [f"{name.text} on a line of bed"]
