"""The order of operations: each fault with its reason and lines, the sensible order, the proposed route.

Which order is sensible is common practice, no source.
"""

from __future__ import annotations

import pytest

HEAD = """\
job: T-1
title: Spindle
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
work:
  - {length: 10, od: 3, bore: 1, surface: turned}
  - {length: 4, od: 2 1/4, bore: 1}
holding:
  chuck: {jaws: 3, grip: 3}
  HOLD
mate: unknown
duty: {said: holds a gate, by: customer}
operations:
"""
FACE = "face: {end: right}"
THREAD = "thread: {designation: 2 1/4-8 UN-2A, length: 2, tool: V1}"
RELIEF = "relief: {width: 3/8, diameter: 2.060, radius: 1/16}"
TURN = "turn: {diameter: 2 1/4, from_diameter: 2 1/2, length: 3}"


def text(*operations, hold="", order=""):
    head = HEAD.replace("  HOLD\n", f"  {hold}\n" if hold else "")
    lines = "".join(f"  - {one}\n" for one in operations)
    return head.replace("operations:\n", f"{order}operations:\n") + lines


def names(sheet):
    return [line.name for line in sheet.operations]


def found(sheet, id):
    return next((finding for finding in sheet.findings if finding.id == id), None)


def order_ids(sheet):
    return {one.id for one in sheet.findings if one.id.startswith("order-") and one.id != "order-proposed"}


BAD = [
    ("order-relief", THREAD, RELIEF, "", "nowhere to run out"),
    ("order-chamfer", THREAD, "chamfer: {end: right, angle: 45}", "", "burr"),
    ("order-seal-bore", THREAD, "bore: {diameter: 1 1/2, length: 5, seal: yes}", "", "bore first"),
    ("order-band", RELIEF, "turn: {band: yes}", "steady: {at: 6}", "steady rest runs on that band"),
    ("order-center", TURN, "center_drill: {end: right}", "center: live", "has no hole yet"),
    ("order-blank", THREAD, TURN, "", "take the finished thread off"),
    ("order-part-off", "part_off: {from_end: 3}", TURN, "", "nothing left in the chuck"),
    ("order-knurl", "knurl: {pitch: 1/16, length: 1}", TURN, "", "takes the knurl off"),
    ("order-polish", "polish: {length: 2}", TURN, "", "polished surface off"),
    ("order-drill", "drill: {diameter: 1 1/4, depth: 2}", "center_drill: {end: right}", "", "wanders"),
    ("order-bore", "bore: {diameter: 1 1/2, length: 2}", "drill: {diameter: 1 1/4, depth: 2}", "", "spoil"),
    ("order-groove", "groove: {width: 1/4, depth: 1/8, from_end: 2}", TURN, "", "measured from the turned"),
    ("order-edge", "chamfer: {end: right, width: 1/8}", TURN, "", "takes the chamfer off"),
    ("order-face", "center_drill: {end: right}", "face: {end: right}", "", "count from the faced end"),
]


@pytest.mark.parametrize(("id", "first", "second", "hold", "reason"), BAD, ids=[one[0] for one in BAD])
def test_a_bad_order_is_found_with_reason_lines_and_remedy(sheet_of, id, first, second, hold, reason):
    body = text(FACE, first, second, hold=hold)
    sheet = sheet_of(text=body)
    fault = found(sheet, id)
    assert fault is not None
    assert fault.level == ("stop" if id == "order-part-off" else "check")
    lines = body.splitlines()
    one, two = len(lines) - 1, len(lines)
    assert f"(line {two})" in fault.text
    assert f"(line {one})" in fault.text
    assert f"Move line {two} above line {one}" in fault.text
    assert reason in fault.text
    assert fault.where.line == two
    assert names(sheet)[1:] == [op.split(":")[0] for op in (first, second)], "the order as written stands"


@pytest.mark.parametrize(("id", "first", "second", "hold", "reason"), BAD, ids=[one[0] for one in BAD])
def test_the_right_way_round_nothing_is_found(sheet_of, id, first, second, hold, reason):
    assert found(sheet_of(text=text(FACE, second, first, hold=hold)), id) is None


@pytest.mark.parametrize(("id", "first", "second", "hold", "reason"), BAD, ids=[one[0] for one in BAD])
def test_with_order_propose_the_sheet_puts_them_right(sheet_of, id, first, second, hold, reason):
    sheet = sheet_of(text=text(FACE, first, second, hold=hold, order="order: propose\n"))
    assert names(sheet)[1:] == [op.split(":")[0] for op in (second, first)]
    assert order_ids(sheet) == set()
    assert found(sheet, "order-proposed").level == "note"


def test_cuts_that_do_not_meet_may_stand_either_way(sheet_of):
    knurl = "knurl: {pitch: 1/16, length: 1, from_end: 4 1/2}"
    assert order_ids(sheet_of(text=text(knurl, TURN))) == set()
    groove = "groove: {width: 1/4, depth: 1/8, from_end: 3 1/2}"
    assert order_ids(sheet_of(text=text(groove, TURN))) == set()


def test_a_hole_for_another_machine_may_come_after_parting_off(sheet_of):
    across = "drill: {diameter: 3/8, from_end: 3/4, across: yes}"
    assert order_ids(sheet_of(text=text("part_off: {from_end: 3}", across))) == set()


def test_a_second_part_may_be_parted_off_behind_the_first(sheet_of):
    assert order_ids(sheet_of(text=text("part_off: {from_end: 2}", "part_off: {from_end: 3}"))) == set()


def test_the_whole_job_in_its_sensible_order(sheet_of):
    shuffled = (
        THREAD, "part_off: {from_end: 3 1/2}", "chamfer: {end: right, angle: 45}", RELIEF,
        "drill: {diameter: 3/8, from_end: 3, across: yes}", "bore: {diameter: 1 1/2, length: 2}",
        "drill: {diameter: 1 1/4, depth: 2}", TURN, "turn: {band: yes}", "center_drill: {end: right}",
        "face: {end: right}",
    )
    sheet = sheet_of(text=text(*shuffled, hold="steady: {at: 6}", order="order: propose\n"))
    assert names(sheet) == [
        "face", "center_drill", "turn", "turn", "drill", "bore", "relief", "chamfer", "thread", "drill",
        "part_off",
    ]
    assert [line.number for line in sheet.operations] == list(range(1, 12))
    assert sheet.operations[2].title == "Turn the band for the steady rest"


# -- the proposed route ---------------------------------------------------------------------------------


def test_around_a_thread_alone_the_whole_route_is_proposed(sheet_of):
    changes = {"od: 3, bore: 1, surface: turned": "od: 3", "od: 2 1/4, bore: 1": "od: 2 3/8"}
    body = text(RELIEF, THREAD, hold="center: live\n  steady: {at: 6}")
    sheet = sheet_of(changes, text=body)
    assert names(sheet) == ["face", "center_drill", "turn", "turn", "relief", "chamfer", "thread"]
    assert [line.proposed for line in sheet.operations] == [True, True, True, True, False, True, False]
    band, blank = sheet.operations[2:4]
    assert band.title == "Turn the band for the steady rest"
    assert "length 1.75 in" in band.detail, "1 1/2 in fingers and 1/4 in"
    assert sheet.figures["operation.4.passes"].value >= 1
    assert "length 2.375 in" in blank.detail, "thread and relief"
    note = found(sheet, "route-proposed")
    assert note.level == "note"
    assert "face, center drill, turn, turn, chamfer" in note.text


def test_a_thread_before_its_relief_is_said_also_where_the_rest_is_proposed(sheet_of):
    sheet = sheet_of(text=text(THREAD, RELIEF))
    assert found(sheet, "order-relief").level == "check"
    assert names(sheet).index("relief") < names(sheet).index("thread")


def test_no_blank_is_proposed_for_work_that_was_measured_at_that_size(sheet_of):
    thread = "thread: {designation: 2 1/4-8 UN-2A, length: 2, tool: V1, blank: 2.2405}"
    sheet = sheet_of({"od: 2 1/4, bore: 1": "od: 2.2405, bore: 1"}, text=text(thread))
    assert names(sheet) == ["face", "chamfer", "thread"]


def test_a_ground_or_turned_place_needs_no_band(sheet_of):
    assert "turn the band" not in str([line.title.lower() for line in sheet_of(
        text=text(THREAD, hold="steady: {at: 6}")
    ).operations])


def test_an_inside_thread_gets_its_bore(sheet_of):
    thread = "thread: {designation: 1 3/4-8 UN-2B, length: 1, tool: V4}"
    sheet = sheet_of(text=text(thread))
    assert names(sheet) == ["face", "bore", "chamfer", "thread"]
    assert sheet.operations[2].title == "Chamfer inside"
    assert sheet.figures["operation.2.passes"].value >= 2, "from 1 in to 1.61 in"


def test_with_any_other_operation_nothing_is_proposed(sheet_of):
    sheet = sheet_of(text=text(TURN, THREAD))
    assert names(sheet) == ["turn", "thread"]
    assert found(sheet, "route-proposed") is None


def test_a_job_without_operations_has_no_route(sheet_of):
    sheet = sheet_of(text=text().replace("operations:\n", ""))
    assert sheet.operations == ()


# -- the order of work follows the route ----------------------------------------------------------------


def test_the_order_of_work_names_the_operations_by_their_numbers(sheet_of):
    sheet = sheet_of(text=text(TURN, RELIEF, THREAD))
    steps = [step.text for step in sheet.steps]
    assert "Operation 1: turn to 2 1/4 in" in steps
    assert "Operation 2: cut the relief" in steps
    assert "Operation 3: cut 2 1/4-8 UN-2A" in steps
    assert steps.index("Measure the blank") < steps.index("Operation 3: cut 2 1/4-8 UN-2A")


def test_center_and_steady_are_set_once_their_places_are_made(sheet_of):
    body = text(
        "face: {end: right}", "center_drill: {end: right}", "turn: {band: yes}", TURN,
        hold="center: live\n  steady: {at: 6}",
    )
    steps = [step.text for step in sheet_of(text=body).steps]
    order = [steps.index(one) for one in (
        "Operation 3: turn the band for the steady rest", "Bring up the live center", "Set the steady rest",
        "Operation 4: turn to 2 1/4 in",
    )]
    assert order == sorted(order)


def test_a_hold_point_of_the_job_goes_before_the_usual_one(sheet_of):
    held = "turn: {diameter: 2 1/4, length: 3, hold: ask the foreman}"
    sheet = sheet_of(text=text(held, RELIEF, THREAD))
    assert sheet.operations[0].hold == "ask the foreman"
    step = next(step for step in sheet.steps if step.text.startswith("Operation 1"))
    assert step.hold
    assert "ask the foreman" in step.detail
    assert sheet.operations[1].hold, "the relief has a usual hold point"


def test_an_inside_thread_speaks_of_the_bore(sheet_of):
    steps = [step.text for step in sheet_of(
        text=text("thread: {designation: 1 3/4-8 UN-2B, length: 1, tool: V4}")
    ).steps]
    assert "Measure the bore" in steps
    assert "Touch the bore, zero both dials" in steps
