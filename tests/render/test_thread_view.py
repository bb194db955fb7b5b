"""The thread drawing, tested on its geometry: flats and flanks make up the pitch, passes nest."""

from __future__ import annotations

import importlib.util
from dataclasses import replace
from itertools import combinations, pairwise
from math import atan2, cos, hypot, pi, radians, sin, sqrt, tan
from pathlib import Path

import numpy as np
import pytest

from generator.errors import OutsideRange
from generator.render.drawing import Box
from generator.render.groove import Groove, Nose, groove
from generator.render.scale import SCALES
from generator.render.thread_view import thread_view

_spec = importlib.util.spec_from_file_location("drawn_scenes", Path(__file__).with_name("scenes.py"))
assert _spec is not None
assert _spec.loader is not None
scenes = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(scenes)

PAPER = 0.011  # mm: coordinates are rounded to 0.01 mm


@pytest.fixture(params=scenes.GROOVES, ids=str)
def scene(request):
    return scenes.GROOVES[request.param]


@pytest.fixture
def drawing(scene):
    return thread_view(scene)

SIXTY = (radians(30), radians(30))


def scale_of(drawing):
    paper, real = drawing.scale.split(":")
    return 1000 * int(paper) / int(real)


def width_at(outline, depth):
    """Left and right of a groove outline at a depth below the crest, by straight interpolation."""
    deepest = max(range(len(outline)), key=lambda i: outline[i][1])
    left, right = outline[: deepest + 1], outline[deepest:]
    while right[0][1] == right[-1][1] and len(right) > 1:
        right = right[1:]
    last_deep = max(i for i, point in enumerate(outline) if point[1] >= outline[deepest][1] - 1e-15)
    right = outline[last_deep:]
    return (
        np.interp(depth, [y for _, y in left], [x for x, _ in left]),
        np.interp(depth, [y for _, y in reversed(right)], [x for x, _ in reversed(right)]),
    )


def test_flat_nose_crest_root_and_flanks_add_up_to_the_pitch(scene):
    if scene.nose_radius > 0:
        pytest.skip("a rounded nose")
    cut = groove(scene)
    widens = scene.depth * sum(tan(angle) for angle in scene.flanks)
    assert cut.crest_flat + scene.nose_flat + widens == pytest.approx(scene.pitch)


def test_crest_flat_of_p_8_and_root_of_p_4_make_five_eighths_of_the_triangle():
    """ISO 68-1: crest P/8 and root P/4 at 60 degrees go with a depth of 5H/8 = 0.541266 P."""
    cut = Groove(1.0, 0.541266, Nose(0.25, 0.0, *SIXTY), 0.0, 1)
    assert cut.crest_flat == pytest.approx(0.125, abs=1e-6)


def test_seventeen_24ths_of_the_triangle_go_with_a_root_radius_of_a_sixth():
    """ISO 68-1 design profile, external: h3 = 17H/24 = 0.613435 P, R = H/6 = 0.144338 P, crest P/8."""
    cut = Groove(1.0, 0.613435, Nose(0.0, 0.144338, *SIXTY), 0.0, 1)
    assert cut.crest_flat == pytest.approx(0.125, abs=2e-6)


def test_whitworth_root_radius_meets_the_flank_at_the_tangent_point():
    """Whitworth, 55 degrees: H = 0.960491 P, R = 0.137329 P; a radius cuts H/6 off the sharp point."""
    half, radius = radians(27.5), 0.137329
    nose = Nose(0.0, radius, half, half)
    sharp = nose.reach(1.0, half) / tan(half) - 1.0  # how far the sharp point lies ahead of the round nose
    assert sharp == pytest.approx(0.960491 / 6, abs=2e-6)


def test_round_nose_is_tangent_to_both_flanks():
    nose = Nose(0.0, 0.2, *SIXTY)
    thirty, corner = radians(30), nose.corner(radians(30))
    assert corner == pytest.approx(0.2 * (1 - sin(radians(30))))
    assert nose.reach(corner, thirty) == pytest.approx(0.2 * cos(radians(30)))
    step = 1e-6
    below = (nose.reach(corner, thirty) - nose.reach(corner - step, thirty)) / step
    above = (nose.reach(corner + step, thirty) - nose.reach(corner, thirty)) / step
    assert below == pytest.approx(tan(radians(30)), rel=1e-4)
    assert above == pytest.approx(tan(radians(30)), rel=1e-4)


def test_points_of_a_round_nose_lie_on_its_circle():
    nose = Nose(0.0, 0.2, *SIXTY)
    for x, y in nose.outline(0.05):  # shallower than the corner: nothing but arc
        assert hypot(x, (0.05 - y) - 0.2) == pytest.approx(0.2)
        assert 0 <= y <= 0.05 + 1e-12


def test_the_last_groove_reaches_the_depth(scene):
    outline = groove(scene).outline(scene.pass_depths[-1])
    assert max(y for _, y in outline) == pytest.approx(scene.depth)
    assert scene.pass_depths[-1] == pytest.approx(scene.depth)


def test_each_pass_reaches_its_own_depth_and_the_blank(scene):
    cut = groove(scene)
    for depth in scene.pass_depths:
        outline = cut.outline(depth)
        assert max(y for _, y in outline) == pytest.approx(depth)
        assert outline[0][1] == pytest.approx(0, abs=1e-15)
        assert outline[-1][1] == pytest.approx(0, abs=1e-15)
        assert all(a[0] < b[0] + 1e-15 for a, b in pairwise(outline))


def test_passes_lie_inside_each_other(scene):
    cut = groove(scene)
    for shallow, deep in pairwise(scene.pass_depths):
        inner, outer = cut.outline(shallow), cut.outline(deep)
        for share in np.linspace(0.0, 0.999, 25):
            depth = shallow * share
            (a, b), (c, d) = width_at(inner, depth), width_at(outer, depth)
            slack = 0.004 * scene.pitch if scene.nose_radius else 1e-12  # the arc is drawn as chords
            assert c <= a + slack
            assert b <= d + slack


def test_the_last_pass_leaves_no_step_on_either_flank(scene):
    """With the compound set at no more than the half angle, the last pass alone forms both flanks."""
    cut = groove(scene)
    final = cut.outline(scene.depth)
    left, right = (cut.nose.reach(scene.depth, angle) for angle in scene.flanks)
    assert final[0][0] == pytest.approx(-left)
    assert final[-1][0] == pytest.approx(right)


def test_compound_infeed_moves_the_nose_along_its_angle(scene):
    cut = groove(scene)
    first, last = scene.pass_depths[0], scene.pass_depths[-1]
    shift = cut.center(first) - cut.center(last)
    assert abs(shift) == pytest.approx((last - first) * tan(scene.infeed_angle), abs=1e-15)
    if shift:
        assert (shift > 0) == (scene.feed_towards == "headstock")


def test_drawn_flanks_stand_at_the_half_angle(scene, drawing):
    """Measured on the paper, on the long straight lines of the profile."""
    (profile,) = drawing.part("profile")
    flanks = [
        (a, b)
        for a, b in pairwise(profile.points)
        if a[1] != b[1] and hypot(b[0] - a[0], b[1] - a[1]) > 0.5 * scene.depth * scale_of(drawing)
    ]
    assert len(flanks) == 5
    for (x1, y1), (x2, y2) in flanks:  # those that fall to the right are the groove's left
        wanted = scene.flanks[0 if y2 < y1 else 1]
        assert atan2(abs(x2 - x1), abs(y2 - y1)) == pytest.approx(wanted, abs=radians(0.15))


def test_drawn_profile_repeats_at_the_pitch_and_has_its_crest_flats(scene, drawing):
    scale = scale_of(drawing)
    (profile,) = drawing.part("profile")
    low = max(y for _, y in profile.points)
    crests = [(a[0], b[0]) for a, b in pairwise(profile.points) if a[1] == b[1] == low]
    assert len(crests) == 3  # the last is cut in half by the break
    for left, right in crests[:2]:
        assert right - left == pytest.approx(groove(scene).crest_flat * scale, abs=2 * PAPER)
    assert crests[1][0] - crests[0][0] == pytest.approx(scene.pitch * scale, abs=2 * PAPER)


def test_a_crest_that_is_cut_away_is_drawn_sharp_below_the_blank():
    """60 degrees, sharp nose, 0.02 P deeper than the sharp V of 0.8660 P: the grooves meet as much lower."""
    deep = scenes.groove(3.0, 0.8660254 * 3.0 + 0.06, thread="2-8 V")
    cut, drawing = groove(deep), thread_view(deep)
    assert (cut.crest_flat, cut.crest_below) == (0.0, pytest.approx(0.06e-3))
    (profile,) = drawing.part("profile")
    (blank,) = drawing.part("blank")
    low, roots = max(y for _, y in profile.points), min(y for _, y in profile.points)
    assert blank.points[0][1] - low == pytest.approx(0.06e-3 * scale_of(drawing), abs=2 * PAPER)
    assert blank.points[0][1] - roots == pytest.approx(deep.depth * scale_of(drawing), abs=2 * PAPER)
    crests = sorted({round(x, 3) for x, y in profile.points if y == low})
    assert crests[1] - crests[0] == pytest.approx(deep.pitch * scale_of(drawing), abs=4 * PAPER)
    assert not drawing.part("crest")


def test_drawn_depth_is_true_to_scale(scene, drawing):
    (profile,) = drawing.part("profile")
    ys = [y for _, y in profile.points]
    assert max(ys) - min(ys) == pytest.approx(scene.depth * scale_of(drawing), abs=2 * PAPER)


def test_passes_are_drawn_narrow_and_the_profile_wide(scene, drawing):
    """Every pass, and of those that would run into one black patch as many as stand apart."""
    drawn = drawing.part("pass")
    if "not all of them drawn" in drawing.caption:
        assert 3 <= len(drawn) < len(scene.pass_depths) - 1
        for one, other in pairwise(line.points for line in drawn):
            gaps = [abs(one[end][0] - other[end][0]) for end in (0, -1)]
            assert max(gaps) > 0.35 or max(gaps) < 0.01  # mm of paper; upright sides lie on each other
    else:
        assert len(drawn) == len(scene.pass_depths) - 1  # the last is the profile itself
    assert {line.kind for line in drawing.part("pass")} <= {"thin"}
    assert {line.kind for line in drawing.part("profile")} == {"visible"}
    assert {line.kind for line in drawing.part("blank")} == {"phantom"}


def test_first_and_last_pass_are_numbered_and_no_more_than_four(scene, drawing):
    numbers = sorted(int(text.text) for text in drawing.texts if text.part == "pass-number")
    assert len(numbers) <= 4
    assert numbers[-1] == len(scene.pass_depths)
    assert numbers[0] == 1 or (scene.flanks == (0, 0) and len(numbers) == 1)  # square: all end in one place


def test_the_infeed_arrow_points_along_the_infeed_angle(scene, drawing):
    (arrow,) = drawing.part("infeed")
    (x1, y1), (x2, y2) = arrow.points
    assert y2 < y1  # into the work, which lies above
    lean = atan2(x1 - x2, y1 - y2) * (1 if scene.feed_towards == "headstock" else -1)
    assert lean == pytest.approx(scene.infeed_angle, abs=radians(0.1))


def test_crest_root_depth_and_pitch_are_dimensioned_and_nothing_else(drawing):
    words = [t.text.split()[0] for t in drawing.texts if t.part in ("dimension", "leader")]
    assert sorted(words) == ["crest", "depth", "pitch", "root"]


def test_letter_and_scale_stand_over_the_detail(drawing):
    (heading,) = [text for text in drawing.texts if text.part == "heading"]
    assert heading.text == f"A  {drawing.scale}"
    assert (
        heading.at[1]
        == min(text.box.bottom for text in drawing.texts if not text.upright) - 0.25 * heading.height
    )
    assert drawing.scale in {str(scale) for scale in SCALES}


def test_lettering_is_clear_of_lettering_and_lines(drawing):
    paper = Box(0, 0, drawing.width, drawing.height)
    for a, b in combinations(drawing.texts, 2):
        assert not a.box.overlaps(b.box), (a.text, b.text)
    for text in drawing.texts:
        assert paper.holds(text.box), text.text
        inner = text.box.grown(-0.15)
        for line in drawing.lines:
            assert not any(inner.crossed_by(p, q) for p, q in pairwise(line.points)), (text.text, line.part)
    assert drawing.width <= 186
    assert drawing.height <= 95


def test_hatching_stays_in_the_work(scene, drawing):
    (profile,) = drawing.part("profile")
    points = [(x + 1e-6 * place, y) for place, (x, y) in enumerate(profile.points)]  # upright flanks, too
    xs, ys = zip(*points, strict=True)
    assert drawing.part("hatching")
    for line in drawing.part("hatching"):
        for x, y in line.points:
            if min(xs) < x < max(xs):
                assert y <= max(np.interp((x - 0.02, x, x + 0.02), xs, ys)) + 0.05


def test_pass_depths_follow_equal_chip_area_in_the_demo():
    """Depth grows with the square root of the pass number: common practice, no source."""
    depths = scenes.GROOVES["2-8 UN, flat P/8"].pass_depths
    assert depths[0] / depths[-1] == pytest.approx(sqrt(1 / len(depths)))


def test_an_infeed_wider_than_the_flank_is_refused():
    scene = replace(scenes.GROOVES["M6"], infeed_angle=radians(35))
    with pytest.raises(OutsideRange, match=r"infeed angle 35 °.*at most 30 °"):
        thread_view(scene)


def test_a_full_turn_of_arc_is_not_needed_for_a_sharp_tool():
    """A sharp point is a flat of nothing: two flanks that meet."""
    assert len(set(Nose(0.0, 0.0, pi / 6, pi / 6).outline(1.0))) == 3
