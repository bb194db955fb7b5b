"""Reach and capacity on the sheet: each finding, each entry of the lathe's record that may be missing.

The pin stands out 11.5 in; its thread runs from there to 9 in, its relief to 8.625 in. Rooms are worked out
by hand beside each test.
"""

from __future__ import annotations

import math

import pytest

from generator.errors import Location
from generator.job.written import Given
from generator.sheet.desk import Desk
from generator.sheet.extents import Extent, route_extents, set_over, thread_extents
from generator.sheet.figure import Kind
from generator.sheet.plans import OperationPlan
from generator.sheet.reach import reach_section
from generator.si import inch

ANGLE = math.radians(29.5)
STEADY = {"  center: live": "  steady: {at: 4}\n  hold_back: yes"}
BARE = ("tool_left", "compound_right", "tailstock", "compound_travel", "cross_travel", "follow_rest")


def length(inches: float) -> Given:
    return Given(inches * inch, f"{inches:g} in", "length")


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def inches(sheet, name):
    return sheet.figures[name].value / inch


@pytest.fixture
def part_of(shop):
    """`part_of("tailstock", quill_travel=2)`: that block of the long lathe's record with entries changed."""

    def change(block, **entries):
        lathe = shop.lathes["long-bed"]
        made = {key: None if size is None else length(size) for key, size in entries.items()}
        return {block: getattr(lathe, block).model_copy(update=made)}

    return change


def test_room_of_each_cut_by_hand(sheet_of):
    """Left: carriage at the bed to the jaws of a 16 in chuck, which does not pass over the slide.

    Right: the carriage to the tailstock, quill 1.5 in out; the run-off is two pitches.
    """
    sheet = sheet_of()
    assert inches(sheet, "reach.thread.left") == pytest.approx(9 - 3)
    assert inches(sheet, "reach.relief.left") == pytest.approx(8.625 - 3)
    assert inches(sheet, "reach.quill_out") == pytest.approx(0.25 - (11.5 + 5 - 11.75 - 6))
    assert inches(sheet, "reach.thread.right") == pytest.approx(11.5 + 5 + 1.5 - 11.75 - 6)
    assert sheet.figures["reach.thread.right"].rounds == "down"
    assert sheet.figures["reach.clearance"].kind is Kind.ASSUMED
    assert "not-checked" not in found(sheet)


def test_with_the_carriage_alone_on_record_what_was_said_stays(sheet_of, part_of):
    bare = dict.fromkeys(BARE) | part_of("steady", base_left=None, base_right=None)
    near = sheet_of({"length: 2 1/2, tool": "length: 2 1/2, from_end: 7, tool"}, lathe=bare)
    assert inches(near, "capacity.carriage_to_chuck") == pytest.approx(1.625)
    assert found(near)["carriage-meets-chuck"].level == "check"
    assert "there is 1.625 in" in found(near)["carriage-meets-chuck"].text
    tight = sheet_of({"  center: live": "  steady: {at: 5}\n  hold_back: yes"}, lathe=bare)
    assert inches(tight, "capacity.carriage") == pytest.approx(8.625 - 5 - 0.75)
    assert found(tight)["carriage-meets-steady"].level == "stop"
    just = sheet_of({"  center: live": "  steady: {at: 4.8}\n  hold_back: yes"}, lathe=bare)
    assert "carriage-meets-steady" not in found(just)
    assert "reach.quill_out" not in sheet_of(lathe=bare).figures


def test_a_chuck_that_passes_over_the_slide_leaves_the_way_to_the_headstock(sheet_of):
    """The three-jaw chuck is 10 in, 12 1/2 in swing over the slide: only the tool may meet its jaws."""
    changes = {"jaws: 4": "jaws: 3", "length: 2 1/2, tool": "length: 2 1/2, from_end: 7, tool"}
    sheet = sheet_of(changes)
    assert "carriage-meets-chuck" not in found(sheet)
    assert inches(sheet, "reach.relief.left") == pytest.approx(1.625 - 1.25)


@pytest.mark.parametrize(
    ("id", "level", "changes", "lathe"),
    [
        ("tool-meets-jaws", "stop", {"2 1/2, tool": "2 1/2, from_end: 8, tool"}, {}),
        ("tool-meets-jaws", "check", {"2 1/2, tool": "2 1/2, from_end: 7.3, tool"}, {}),
        ("carriage-meets-headstock", "stop", {}, {"carriage_left": 16}),
        ("carriage-meets-headstock", "check", {}, {"carriage_left": 15.5}),
        ("carriage-meets-steady", "stop", STEADY, {"carriage_left": 4}),
        ("carriage-meets-steady", "check", STEADY, {"carriage_left": 3.7}),
        ("tool-meets-steady", "stop", STEADY, {"tool_left": 4}),
        ("tool-meets-steady", "check", STEADY, {"tool_left": 3.7}),
        ("carriage-meets-tailstock", "stop", {}, {"carriage_right": 12}),
        ("compound-meets-tailstock", "stop", {}, {"compound_right": 23}),
        ("compound-meets-tailstock", "check", {}, {"compound_right": 9}),
        ("compound-meets-quill", "check", {}, {"compound_right": 10.5}),
        ("compound-travel", "stop", {}, {"compound_travel": 0.1}),
        ("cross-travel", "stop", {}, {"cross_travel": 0.2}),
    ],
)
def test_what_meets_and_what_comes_close(sheet_of, id, level, changes, lathe):
    """Room wanted is 1/4 in: common practice, no source."""
    assert id not in found(sheet_of({name: new for name, new in changes.items() if "from_end" not in new}))
    sheet = sheet_of(changes, lathe={name: length(size) for name, size in lathe.items()})
    assert found(sheet)[id].level == level
    assert found(sheet)[id].where is not None


def test_a_finding_is_said_once_with_the_tightest_cut_first(sheet_of):
    sheet = sheet_of(lathe={"carriage_left": length(17)})
    said = [finding for finding in sheet.findings if finding.id == "carriage-meets-headstock"]
    assert len(said) == 1
    assert said[0].text.startswith("Relief: the carriage meets the headstock")
    assert "there is 15.625 in" in said[0].text
    assert "The same in: Thread, Turning (operation 1)." in said[0].text


@pytest.mark.parametrize(("travel", "level"), [(3, "note"), (2.9, "check")])
def test_the_quill_comes_out_as_far_as_the_carriage_wants_it(sheet_of, part_of, travel, level):
    """1.5 in are wanted; more than half its travel is asked about: common practice, no source."""
    sheet = sheet_of(lathe=part_of("tailstock", quill_travel=travel))
    assert found(sheet)["quill-out"].level == level
    assert "1.500 in" in found(sheet)["quill-out"].text
    assert "carriage-meets-tailstock" not in found(sheet)


def test_a_quill_that_does_not_come_out_far_enough_stops_the_sheet(sheet_of, part_of):
    sheet = sheet_of(lathe=part_of("tailstock", quill_travel=0.5))
    assert inches(sheet, "reach.quill_out") == pytest.approx(0.5)
    assert inches(sheet, "reach.thread.right") == pytest.approx(-0.75)
    assert found(sheet)["carriage-meets-tailstock"].level == "stop"


def test_a_quill_smaller_than_the_root_is_in_nobodys_way(sheet_of, part_of):
    far = {"compound_right": length(10.5)}
    assert "compound-meets-quill" in found(sheet_of(lathe=far))
    thin = part_of("tailstock", quill_diameter=2)
    assert "compound-meets-quill" not in found(sheet_of(lathe={**far, **thin}))


LEFT_HAND = {"2 1/4-8 UN-2A": "2 1/4-8 UN-2A-LH", "thread: 2 1/4-8 UN-2B": "thread: 2 1/4-8 UN-2B-LH"}


def test_a_left_hand_thread_has_the_compound_towards_the_headstock(sheet_of):
    """Thread ends at 9 in: 20 in of compound at 29 1/2 degrees reach 9.85 in."""
    sheet = sheet_of(LEFT_HAND, lathe={"compound_right": length(20)})
    assert found(sheet)["compound-meets-jaws"].level == "stop"
    assert "compound-meets-tailstock" not in found(sheet)
    assert set_over(ANGLE, "headstock", inside=True) == -ANGLE


FOLLOWED = {"  center: live": "  center: live\n  follow_rest: yes"}


def test_follow_rest_missing_too_small_or_in_the_way(sheet_of, part_of):
    assert "follow-rest-range" not in found(sheet_of(FOLLOWED))
    assert found(sheet_of(FOLLOWED, lathe={"follow_rest": None}))["follow-rest-missing"].level == "stop"
    small = part_of("follow_rest", to=2)
    assert found(sheet_of(FOLLOWED, lathe=small))["follow-rest-range"].level == "stop"
    wide = part_of("follow_rest", width=12)
    assert found(sheet_of(FOLLOWED, lathe=wide))["follow-rest-meets-tailstock"].level == "stop"
    quiet = sheet_of({**FOLLOWED, "{length: 11 5/8, od: 2.75}": "{length: 40, od: 2.75}"})
    assert "slender" not in found(quiet)


# -- what the record does not say -------------------------------------------------------------------------

HELD = {
    "  center: live": "  center: live\n  follow_rest: yes\n  steady: {at: 3}",
    "{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, surface: turned}",
}


@pytest.mark.parametrize(
    ("key", "change"),
    [
        ("carriage_left", {"carriage_left": None}),
        ("carriage_right", {"carriage_right": None}),
        ("tool_left", {"tool_left": None}),
        ("compound_right", {"compound_right": None}),
        ("compound_travel", {"compound_travel": None}),
        ("cross_travel", {"cross_travel": None}),
        ("center_length", {"center_length": None}),
        ("tailstock: quill_travel", {"tailstock": None}),
        ("tailstock: quill_travel", ("tailstock", "quill_travel")),
        ("tailstock: quill_diameter", ("tailstock", "quill_diameter")),
        ("swing: over_cross_slide", ("swing", "over_cross_slide")),
        ("steady: width", ("steady", "width")),
        ("steady: base_right", ("steady", "base_right")),
        ("follow_rest: width", ("follow_rest", "width")),
        ("chucks: length", ("chucks", "length")),
        ("chucks: diameter", ("chucks", "diameter")),
        ("chucks: jaw_length", ("chucks", "jaw_length")),
        ("spindle: bore", ("spindle", "bore")),
    ],
)
def test_each_missing_entry_is_named_with_its_key_and_costs_its_check_only(
    sheet_of, part_of, shop, key, change
):
    changes = {**HELD, "od: 2.75,": "od: 2.5,"}
    if key == "spindle: bore":
        changes = {"  center: live": "  behind_spindle: 3"}
    elif key == "chucks: diameter":
        changes = {}  # no steady rest between the cut and the chuck
    assert "not-checked" not in found(sheet_of(changes))
    if isinstance(change, dict):
        lathe = change
    elif change[0] == "chucks":
        chucks = shop.lathes["long-bed"].chucks
        lathe = {"chucks": [chuck.model_copy(update={change[1]: None}) for chuck in chucks]}
    else:
        lathe = part_of(change[0], **{change[1]: None})
    sheet = sheet_of(changes, lathe=lathe)
    note = found(sheet)["not-checked"]
    assert note.level == "note"
    assert note.text.count(key) == 1
    assert "capacity.swing_over_bed" in sheet.figures


def test_nothing_is_named_that_this_job_does_not_need(sheet_of):
    """A pin in the chuck alone: no tailstock, no steady, no follow rest."""
    empty = {"tailstock": None, "steady": None, "follow_rest": None, "center_length": None}
    assert "not-checked" not in found(sheet_of({"  center: live\n": ""}, lathe=empty))


# -- the route's cuts ----------------------------------------------------------------------------------------


def reached(job_of, lathe, extents, changes=None, steady_at=None):
    desk, unchecked = Desk(), []
    plan = reach_section(job_of(changes), lathe, extents, steady_at, ANGLE, desk, unchecked)
    return plan, desk, {finding.id: finding for finding in desk.findings}, unchecked


def cut(start, end, name="turn_2", **more):
    return Extent(name, f"Turning ({name})", start * inch, end * inch, Location("job.yml", 9), **more)


def test_other_cuts_of_the_route_are_compared_too(job_of, shop):
    _, desk, said, _ = reached(job_of, shop.lathes["long-bed"], [cut(11.5, 1.0)])
    assert desk.figures["reach.turn_2.left"].value / inch == pytest.approx(1 - 3)
    assert said["carriage-meets-chuck"].level == "check"
    assert "capacity.carriage_to_chuck" not in desk.figures


def test_what_can_be_set_otherwise_for_another_cut_is_asked_about(job_of, shop):
    """Compound, tool and steady rest stand as the thread wants them; the headstock always stands."""
    lathe, at = shop.lathes["long-bed"], 4 * inch
    three = {"jaws: 4": "jaws: 3"}
    said = reached(job_of, lathe, [cut(11.5, 1.0)], three)[2]
    assert said["tool-meets-jaws"].level == "check"
    said = reached(job_of, lathe, [cut(11.5, 5)], STEADY, at)[2]
    assert said["carriage-meets-steady"].level == "check"
    assert "before the steady rest is set" in said["carriage-meets-steady"].text
    assert "tool-meets-steady" not in said
    far = lathe.model_copy(update={"carriage_left": length(18)})
    said = reached(job_of, far, [cut(11.5, 9)])[2]
    assert said["carriage-meets-headstock"].level == "stop"


def test_an_end_is_faced_without_the_center(job_of, shop):
    _, desk, _, _ = reached(job_of, shop.lathes["long-bed"], [cut(11.5, 11.5, "face_1", no_center=True)])
    assert "reach.face_1.left" in desk.figures
    assert "reach.face_1.right" not in desk.figures
    assert "reach.quill_out" not in desk.figures


def test_a_cut_that_reaches_the_jaws_wants_the_work_turned_round(job_of, shop):
    _, desk, said, _ = reached(job_of, shop.lathes["long-bed"], [cut(11.5, -1.0), cut(11.5, 9, "turn_3")])
    assert said["operation-in-jaws"].level == "check"
    assert "reach.turn_2.left" not in desk.figures
    assert "reach.turn_3.left" in desk.figures


def test_a_cut_through_the_steady_is_done_before_it_is_set(job_of, shop):
    lathe, at = shop.lathes["long-bed"], 4 * inch
    assert reached(job_of, lathe, [cut(11.5, 2)], STEADY, at)[2]["cut-passes-steady"].level == "check"
    before = cut(11.5, 2, before_steady=True)
    _, desk, said, _ = reached(job_of, lathe, [before], STEADY, at)
    assert "cut-passes-steady" not in said
    assert "reach.turn_2.right" not in desk.figures


def test_drilling_deeper_than_the_quill_comes_out_is_asked_about(job_of, shop):
    lathe = shop.lathes["long-bed"]
    deep = cut(11.5, 5, "drill_3", by_quill=True)
    plan, desk, said, _ = reached(job_of, lathe, [deep])
    assert desk.figures["reach.drill_3.quill"].value / inch == pytest.approx(6.5)
    assert said["quill-travel"].level == "check"
    assert plan.tightest is None
    assert "quill-travel" not in reached(job_of, lathe, [cut(11.5, 6, "drill_3", by_quill=True)])[2]
    _, _, said, unchecked = reached(job_of, lathe.model_copy(update={"tailstock": None}), [deep])
    assert "quill-travel" not in said
    assert "tailstock: quill_travel" in unchecked[0]


def test_a_boring_bar_keeps_the_carriage_its_own_length_away(job_of, shop):
    """Point 8 in from the jaws, bar 4 in: the carriage's left end is at 8 + 4 - 3 in."""
    lathe = shop.lathes["long-bed"]
    bar = cut(11.5, 8, "bore_4", inside=True, stands_out=4 * inch)
    _, desk, _, _ = reached(job_of, lathe, [bar], {"  center: live\n": ""})
    assert desk.figures["reach.bore_4.left"].value / inch == pytest.approx(8 + 4 - 3)
    unknown = cut(11.5, 8, "bore_4", inside=True)
    _, desk, _, unchecked = reached(job_of, lathe, [unknown], {"  center: live\n": ""})
    assert "reach.bore_4.left" not in desk.figures
    assert unchecked == ["how far the boring bar stands out (tools file: reach)"]


def test_extents_of_a_route(job_of):
    plans = [
        OperationPlan(1, "face", 0.3, 0.3, 0.05, 0.0, tool_reach=0.03),
        OperationPlan(2, "drill", 0.3, 0.2, 0.0, 0.01),
        OperationPlan(3, "bore", 0.3, 0.25, 0.01, 0.02, inside=True, tool_reach=0.1),
        OperationPlan(6, "polish", 0.3, 0.25, 0.05, 0.05),
        OperationPlan(4, "relief", 0.2, 0.19, 0.05, 0.04),
        OperationPlan(5, "thread", 0.3, 0.2, 0.05, 0.04),
    ]
    made = route_extents(plans)
    assert [one.name for one in made] == ["face_1", "drill_2", "bore_3"]
    assert [one.by_quill for one in made] == [False, True, False]
    assert made[2].inside
    assert [one.stands_out for one in made] == [None, None, 0.1]
    assert made[0].no_center
    assert thread_extents(None) == []


# -- gap and faceplate ---------------------------------------------------------------------------------------

DISC = {
    "  - {length: 11 5/8, od: 2.75}\n": "  - {length: 4, od: 13}\n  - {length: 7 5/8, od: 2.75}\n",
    "jaws: 4, grip: 3": "jaws: 4, grip: 2",
}


def test_work_too_large_for_the_bed_may_lie_in_the_gap(sheet_of, shop):
    """A 13 in disc held 2 in deep in a 7 in chuck reaches 7 + 2 in; 9 in of gap take it, 8.9 do not."""
    gap = {"over_bed": length(12), "over_cross_slide": length(12), "in_gap": length(18)}

    def sheet(**more):
        swing = shop.lathes["long-bed"].swing.model_copy(update={**gap, **more})
        return sheet_of(DISC, lathe={"swing": swing})

    open_gap = sheet(gap_width=length(9.0))
    assert found(open_gap)["swing-gap"].level == "check"
    assert "bridge out" in found(open_gap)["swing-gap"].text
    assert inches(open_gap, "capacity.gap") == pytest.approx(9)
    assert "swing-bed" not in found(open_gap)
    short = sheet(gap_width=length(8.9))
    assert found(short)["swing-bed"].level == "stop"
    assert "9.000 in" in found(short)["swing-bed"].text
    shallow = sheet(in_gap=length(12.5), gap_width=length(20))
    assert found(shallow)["swing-bed"].level == "stop"
    assert "12.5 in in the gap" in found(shallow)["swing-bed"].text
    unsaid = sheet(gap_width=None)
    assert found(unsaid)["swing-gap"].level == "check"
    assert "swing: gap_width" in found(unsaid)["not-checked"].text
    none = sheet(in_gap=None, gap_width=None)
    assert found(none)["swing-bed"].level == "stop"


def test_a_faceplate_is_named_where_the_work_is_too_large_for_the_chuck(sheet_of):
    large = {"od: 2.75": "od: 16"}
    assert "Its faceplate is 20 in" in found(sheet_of(large))["chuck-range"].text
    assert "faceplate" not in found(sheet_of(large, lathe={"faceplate": None}))["chuck-range"].text
