"""Each way of holding in reach, order of work, cautions and archive: what is free for the tool, what is said.

The sizes are those of the invented thirteen-inch lathe: collet 1 in, faceplate 2 in and headstock center 3 in
from the spindle nose, 2 1/2 in of carriage and 7/8 in of tool holder to the left of the tool.
"""

from __future__ import annotations

import pytest

from generator.si import inch

COLLET = "  collet: {grip: 1 1/2}"
CENTERS = "  centers: {dog: 1}\n  center: dead"
PLATE = "  faceplate: {clamps: 3, clamp_circle: 6}"
CHUCK = "  chuck: {jaws: 3, grip: 1 1/2}"
TURN = "  - turn: {diameter: 3/4, length: 2, from_diameter: 7/8}"
ALL_OF_IT = {TURN: f"  - turn: {{diameter: 7/8, length: 8, from_diameter: 1}}\n{TURN}"}


def by_id(sheet):
    return {finding.id: finding for finding in sheet.findings}


def cautions(sheet):
    return {caution.id: caution for caution in sheet.cautions}


def steps(sheet):
    return {step.text: step for step in sheet.steps}


@pytest.mark.parametrize(
    ("held", "room", "beside", "to_end"),
    [
        (COLLET, 4.5 - 2.5 + 1, "carriage beside the headstock", 4.5),
        (CHUCK, 4.5 - 0.875, "tool holder beside the jaws", 4.5),  # the 6 in chuck turns clear of the slide
        (PLATE, 6 - 2.5, "carriage beside the faceplate", 6),      # 12 in over do not turn clear of 8 in
        (CENTERS, 6 - 0.875 - 1, "tool holder beside the dog", 5),
    ],
)
def test_room_to_what_holds_the_work_by_hand(shaft_of, held, room, beside, to_end) -> None:
    sheet = shaft_of({COLLET: held})
    figure = sheet.figures["reach.relief.left"]
    assert figure.value / inch == pytest.approx(room)
    assert figure.note == beside
    assert sheet.figures["capacity.carriage_to_chuck"].value / inch == pytest.approx(to_end)


def test_without_its_size_the_driving_plate_may_not_turn_clear(shaft_of, shop) -> None:
    """The carriage then stays on the tailstock side of the dog: 6 − 2.5 − 1."""
    plate = shop.lathes["thirteen-inch"].headstock_center.model_copy(update={"diameter": None})
    changes = {"headstock_center": plate}
    sheet = shaft_of({COLLET: CENTERS}, lathe=changes)
    assert sheet.figures["reach.relief.left"].value / inch == pytest.approx(2.5)
    text = by_id(sheet)["not-checked"].text
    assert "whether dog and driving plate turn clear of the carriage (headstock_center: diameter)" in text


@pytest.mark.parametrize(
    ("held", "what", "otherwise"),
    [
        (CENTERS, "dog", ""),
        (COLLET, "collet", ""),
        (PLATE, "faceplate", ", or set the work out on parallels"),
    ],
)
def test_a_cut_over_the_whole_length_meets_what_holds_it(shaft_of, held, what, otherwise) -> None:
    found = by_id(shaft_of({COLLET: held, **ALL_OF_IT}))["operation-in-jaws"]
    assert found.level == "check"
    assert found.text == (
        f"Turning (operation 1) reaches the {what} as the work is held now. Turn the work end for end for it "
        f"and check the carriage's way again{otherwise}."
    )


def test_a_thread_under_the_dog_stops_the_job(shaft_of) -> None:
    moved = {"length: 1 5/8, tool": "length: 1 5/8, from_end: 6, tool", COLLET: CENTERS}
    found = by_id(shaft_of(moved))["cut-in-jaws"]
    assert found.level == "stop"
    assert found.text == (
        "The cut ends 0.625 in (15.88 mm) under the dog, which takes 1.000 in (25.40 mm) of the work. Turn "
        "the work end for end."
    )


@pytest.mark.parametrize(
    ("held", "text", "detail"),
    [
        (COLLET, "Put the work in the collet", "1 1/2 in of the work in it"),
        (PLATE, "Clamp the work on the faceplate", "3 clamps on a circle of 6 in"),
        (PLATE, "Balance it", "counterweight"),
        (CENTERS, "Put on the dog", "free of the slot's bottom, and is tied there"),
        (CENTERS, "Set the work between the centers", "Grease the tailstock's. No shake, and it still turns"),
        (CENTERS, "Check the centers", "is in line with it"),
        ("  chuck: {jaws: 3, grip: 1, soft_jaws: yes}", "Bore the soft jaws to the work", "1 in deep"),
        ("  chuck: {jaws: 3, grip: 1 1/2, pie_jaws: yes}", "Bore the pie jaws to the work", "on a ring"),
        ("  chuck: {jaws: 3, grip: 1 1/2, key_torque: 40 lbf ft}", "Chuck the work", "40 lbf ft on the key"),
        (f"{CHUCK}\n  follow_rest: yes", "Set the follow rest", "one above and one behind"),
        (f"{CHUCK}\n  steady: {{at: 3}}\n  hold_back: yes", "Put on the hold-back", "see it move"),
    ],
)
def test_the_order_of_work_says_how_it_is_set_up(shaft_of, held, text, detail) -> None:
    plain = steps(shaft_of({COLLET: "  chuck: {jaws: 3, grip: 1 3/4}"}))
    step = steps(shaft_of({COLLET: held}))[text]
    assert detail.lower() in step.detail.lower()
    assert text not in plain or detail not in plain[text].detail


def test_the_center_is_brought_up_once(shaft_of) -> None:
    """Between centers it stands already when the first cut is made."""
    assert "Bring up the dead center" not in steps(shaft_of({COLLET: CENTERS}))
    assert "Bring up the dead center" in steps(shaft_of({COLLET: f"{COLLET}\n  center: dead"}))


def test_jaws_in_a_bore_are_turned_and_opened(ring_of) -> None:
    sheet = ring_of({"inside: yes": "inside: yes, soft_jaws: yes"})
    assert "opened" in steps(sheet)["Turn the soft jaws to the work"].detail
    assert "of the bore over the jaws, which open outwards" in steps(sheet)["Chuck the work"].detail


@pytest.mark.parametrize(
    ("id", "held"),
    [
        ("collet", COLLET), ("faceplate", PLATE), ("dog", CENTERS), ("between-centers", CENTERS),
        ("dead-center", CENTERS), ("unbalance", f"{CHUCK}\n  unbalance: {{mass: 2 lb, radius: 3}}"),
        ("projecting-jaws", "  chuck: {jaws: 3, grip: 1 1/2, past_body: 1}"),
    ],
)
def test_a_caution_follows_from_the_way_it_is_held(shaft_of, id, held) -> None:
    assert id not in cautions(shaft_of({COLLET: CHUCK}))
    assert id in cautions(shaft_of({COLLET: held}))


def test_jaws_in_a_bore_have_their_caution(ring_of) -> None:
    assert "inside-grip" in cautions(ring_of())
    assert "inside-grip" not in cautions(ring_of({", inside: yes": ""}))


@pytest.mark.parametrize(
    ("held", "id"), [(CHUCK, "chuck-key"), (COLLET, "what-turns"), (CENTERS, "what-turns")]
)
def test_keys_sleeves_and_hair_always(shaft_of, held, id) -> None:
    given = cautions(shaft_of({COLLET: held}))
    assert {"chuck-key", "what-turns"} & set(given) == {id}
    assert given[id].signal == "WARNING"
    assert "long hair" in given[id].text


def test_what_stands_out_and_turns_is_guarded_by_the_letter(shaft_of) -> None:
    """OSHA letter of interpretation, 26 January 1979: devices that stand out or are uneven are guarded."""
    for held, id in ((PLATE, "faceplate"), (CENTERS, "dog")):
        assert "26 January 1979" in cautions(shaft_of({COLLET: held}))[id].source


def test_a_cut_over_a_cross_hole_hammers(shaft_of) -> None:
    """Not where the hole is drilled after the cut; the thread's own sentence goes before."""
    at_five = {"mate:": "cross_holes:\n  - {diameter: 1/4, from_end: 5}\nmate:"}
    assert "cross-hole" not in cautions(shaft_of(at_five))
    over = {**at_five, TURN: f"  - turn: {{diameter: 7/8, length: 6, from_diameter: 1}}\n{TURN}"}
    caution = cautions(shaft_of(over))["cross-hole"]
    assert caution.because.startswith("A 1/4 in cross hole lies under operation 1 (turn to 7/8 in)")
    assert "Drill the hole after this cut" in caution.text
    later = {"tool: V1}": "tool: V1}\n  - drill: {diameter: 1/4, from_end: 5, across: yes}"}
    assert "cross-hole" not in cautions(shaft_of({**over, **later}))
    at_one = {"mate:": "cross_holes:\n  - {diameter: 1/4, from_end: 1}\nmate:"}
    assert "lies in the threaded length" in cautions(shaft_of({**at_one}))["cross-hole"].because


@pytest.mark.parametrize(
    ("held", "words"),
    [
        (COLLET, "collet"), (PLATE, "faceplate"), (CENTERS, "between centers, driven by a dog, dead center"),
        ("  chuck: {jaws: 6, grip: 1, soft_jaws: yes, reversed: yes}\n  follow_rest: yes",
         "6-jaw chuck, soft jaws, reversed jaws, follow rest"),
        (f"{CHUCK}\n  steady: {{at: 3}}\n  behind_spindle: 9",
         "3-jaw chuck, steady rest, through the spindle"),
    ],
)
def test_the_archive_finds_it_by_how_it_is_held(shaft_of, held, words) -> None:
    assert shaft_of({COLLET: held}).index.held == words


KNURL = {"tool: V1}": "tool: V1}\n  - knurl: {pitch: 1 mm, length: 1, from_end: 2}"}


@pytest.mark.parametrize(
    ("held", "springs"),
    [
        (COLLET, "4.500 in (114.30 mm) from the collet, 5.1 diameters; over 3 "),
        (f"{COLLET}\n  center: live", ""),
        (f"{COLLET}\n  steady: {{at: 3}}\n  hold_back: yes", ""),
        (f"{COLLET}\n  steady: {{at: 1}}\n  hold_back: yes",
         "3.500 in (88.90 mm) from the steady rest, 4.0 "),
        ("  collet: {grip: 3 1/2}", ""),  # 2 1/2 in out, under three diameters
    ],
)
def test_a_knurl_far_from_any_support_springs(shaft_of, held, springs) -> None:
    """Its far end 4 1/2 in out of the collet on 7/8 in; the shop's rule is three diameters."""
    found = by_id(shaft_of({COLLET: held, **KNURL})).get("knurl-springs")
    assert (springs in found.text) if springs else found is None


@pytest.mark.parametrize(("at", "fault"), [("1", True), ("1 1/4", True), ("1 3/8", False), ("3", False)])
def test_a_steady_rest_stands_clear_of_the_dog(shaft_of, at, fault) -> None:
    """The dog takes 1 in, and half the width of the fingers is 3/8 in."""
    held = f"{CENTERS}\n  steady: {{at: {at}}}"
    told = [one.text for one in shaft_of({COLLET: held}).findings if one.id == "steady-place"]
    assert [("on the dog" in text) for text in told] == ([True] if fault else [])
