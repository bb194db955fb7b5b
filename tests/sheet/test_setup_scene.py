"""What the setup drawing is told of how the work is held, for every way of holding a job file may name."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.render.bed_view import bed_view
from generator.render.setup_view import setup_view
from generator.sheet.drawn import SetupScene
from generator.sheet.model import Sheet
from generator.si import inch

SheetOf = Callable[..., Sheet]
CHUCK = "chuck: {jaws: 4, grip: 3}"
WAYS = {
    "chuck": CHUCK,
    "soft jaws": "chuck: {jaws: 3, grip: 3, soft_jaws: yes}",
    "pie jaws": "chuck: {jaws: 3, grip: 3, pie_jaws: yes}",
    "turned round": "chuck: {jaws: 4, grip: 1, reversed: yes}",
    "collet": "collet: {grip: 2}",
    "faceplate": "faceplate: {clamps: 4, clamp_circle: 6}",
    "centers": "centers: {dog: 1}",
}


@pytest.fixture(params=WAYS, ids=str)
def held(request: pytest.FixtureRequest, sheet_of: SheetOf) -> tuple[str, SetupScene]:
    scene = sheet_of({CHUCK: WAYS[request.param]}).setup_scene
    assert scene is not None
    return request.param, scene


def test_the_scene_says_what_holds_the_work(held: tuple[str, SetupScene]) -> None:
    way, scene = held
    kind = way if way in ("collet", "faceplate", "centers") else "chuck"
    assert scene.held == kind
    assert scene.jaws == {"chuck": 3 if "3" in WAYS[way].partition("grip")[0] else 4}.get(kind, 0)
    assert scene.jaw_words == {
        "soft jaws": "soft jaws",
        "pie jaws": "pie jaws",
        "turned round": "jaws turned around",
    }.get(way, "jaws" if kind == "chuck" else "")
    assert scene.dog == pytest.approx(inch if kind == "centers" else 0)
    assert scene.clamps == (4 if kind == "faceplate" else 0)
    assert scene.clamp_circle == pytest.approx(6 * inch if kind == "faceplate" else 0)
    assert scene.pieces[0].start == pytest.approx(-scene.grip)
    assert (scene.grip == 0) == (kind in ("faceplate", "centers"))


def test_the_plate_of_the_lathes_record_is_drawn(sheet_of: SheetOf) -> None:
    """The long lathe's faceplate is 20 in, not in proportion to the work."""
    scene = sheet_of({CHUCK: WAYS["faceplate"]}).setup_scene
    assert scene is not None
    assert scene.chuck_diameter == pytest.approx(20 * inch)


def test_it_can_be_drawn_from_above_and_along_the_bed(held: tuple[str, SetupScene]) -> None:
    _, scene = held
    drawing = setup_view(scene)
    assert sorted(int(t.text) for t in drawing.texts if t.part == "item") == [n for n, _ in drawing.items]
    if scene.reach is not None:
        names = {text.text for text in bed_view(scene, scene.reach).texts if text.part == "bed-name"}
        assert ("chuck" in names) == (scene.held == "chuck")


def test_jaws_in_the_bore_are_drawn_in_it(sheet_of: SheetOf) -> None:
    scene = sheet_of(
        {
            CHUCK: "chuck: {jaws: 3, grip: 1, inside: yes}",
            "od: 2.75}": "od: 6, bore: 4}",
            "od: 2 1/4}": "od: 2 1/4, bore: 1}",
            "  center: live\n": "",
        }
    ).setup_scene
    assert scene is not None
    assert scene.inside
    assert any("inside the bore" in words for _, words in setup_view(scene).items)


def test_the_follow_rest_stands_at_the_tool_and_on_the_work(sheet_of: SheetOf) -> None:
    """Its jaws are 1 in wide in the record of the long lathe; the cut begins at the end of the work."""
    scene = sheet_of({CHUCK: WAYS["centers"] + "\n  follow_rest: yes"}).setup_scene
    assert scene is not None
    assert scene.follow_rest_width == pytest.approx(inch)
    assert scene.cut_from == pytest.approx(14.5 * inch)
    assert scene.follow_rest_at == pytest.approx(14.0 * inch)
    assert "follow rest" in scene.caption
    without = sheet_of({CHUCK: WAYS["centers"]}).setup_scene
    assert without is not None
    assert without.follow_rest_at is None


def test_a_thread_that_ends_at_a_shoulder_leaves_no_sliver(sheet_of: SheetOf) -> None:
    """Lengths that add up to the shoulder but for the last bit of a float: no dimension of nothing."""
    scene = sheet_of(
        {
            "11 5/8, od": "0.7, od",
            "2 7/8, od": "0.5, od",
            "grip: 3": "grip: 0.3",
            "length: 2 7/8}": "length: 0.5}",
            "width: 3/8": "width: 0.2",
            "length: 2 1/2": "length: 0.3",
        }
    ).setup_scene
    assert scene is not None
    assert min(piece.end - piece.start for piece in scene.pieces) > 1e-6
    assert not any(text.text.startswith((".000 ", "0 ")) for text in setup_view(scene).texts)
