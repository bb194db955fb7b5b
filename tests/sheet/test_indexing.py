"""Threads of several starts: what this lathe can divide with, what it leaves, how it is checked."""

from __future__ import annotations

import pytest

from generator.job.lathe_parts import ChangeGears, LatheCenter
from generator.si import degree, mm

THREAD = "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1"
TR = '"Tr 56x18(P9)"'


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def changes(designation=TR, **more):
    """The pin with a thread of several starts on it."""
    return {THREAD: f"designation: {designation}, length: 1 1/2 in", "2 1/4-8 UN-2B": "unknown", **more}


def test_a_single_start_has_nothing_to_index(sheet_of):
    sheet = sheet_of()
    assert not [name for name in sheet.figures if name.startswith("cut.start")]
    assert "starts-check" not in ids(sheet)


def test_the_compound_of_this_lathe(sheet_of):
    """9 mm is 354.33 graduations of 0.001 in: 354, two turns of 125 and 0.104; 0.00033 in is left."""
    sheet = sheet_of(changes())
    figure = sheet.figures["cut.start.compound"]
    assert figure.value == "start 2: 2 turns and 0.104"
    assert "0.0003 in (0.008 mm)" in figure.note
    slant = sheet.figures["cut.start.slant"].value
    assert slant == pytest.approx(354 * 0.0254 * mm * 0.1 * degree, rel=1e-4)


def test_three_starts_of_a_whole_pitch(sheet_of):
    """0.125 in of pitch on a dial of 0.125 in a turn."""
    sheet = sheet_of(changes("2.25-0.125P-0.375L-ACME-2G"))
    assert sheet.figures["cut.start.compound"].value == "start 2: 1 turn; start 3: 2 turns"
    assert "graduations leave" not in sheet.figures["cut.start.compound"].note


def test_gears_whose_teeth_divide(sheet_of):
    """Jones (1914): the teeth of the stud gear must divide by the starts; 127 and 25 do not by 2."""
    gears = {"change_gears": ChangeGears(gears=[25, 40, 96, 127])}
    sheet = sheet_of(changes(), lathe=gears)
    assert sheet.figures["cut.start.gears"].value == "48 of 96, 20 of 40"
    assert "one tooth wrong, of 40" in sheet.figures["cut.start.gears"].note
    assert "the stud gear" in ids(sheet)["starts-check"].text
    none = sheet_of(changes(), lathe={"change_gears": ChangeGears(gears=[25, 127])})
    assert none.figures["cut.start.gears"].value == "no gear of this lathe divides by 2"
    assert "the stud gear" not in ids(none)["starts-check"].text


def test_slots_of_the_driving_plate(sheet_of, shop):
    center = shop.lathes["long-bed"].headstock_center
    held = changes(**{"  chuck: {jaws: 4, grip: 3}": "  centers: {dog: 2}"})
    for slots, said in ((6, "the dog's tail 3 of its 6 slots on"), (5, "its 5 slots do not divide by 2"),
                        (None, "not in the lathe's record")):
        plate = LatheCenter.model_validate(center.model_copy(update={"slots": slots}))
        sheet = sheet_of(held, lathe={"headstock_center": plate})
        assert said in sheet.figures["cut.start.driver"].value
        assert ("cut.start.slot_error" in sheet.figures) == (slots == 6)


def test_an_index_plate_on_the_spindle(sheet_of, shop):
    spindle = shop.lathes["long-bed"].spindle
    for holes, said in ((60, "30 of its 60 holes on"), (45, "its 45 holes do not divide by 2")):
        sheet = sheet_of(changes(), lathe={"spindle": spindle.model_copy(update={"index_holes": holes})})
        assert sheet.figures["cut.start.plate"].value == said


def test_the_check_says_how_and_warns_of_the_chuck(sheet_of):
    text = ids(sheet_of(changes()))["starts-check"].text
    for words in ("2 grooves", "over the wires in every groove", "Do not loosen the chuck", "method: plunge"):
        assert words in text
    straight = changes(f"{TR}, infeed: {{method: plunge}}")
    assert "method: plunge" not in ids(sheet_of(straight))["starts-check"].text
