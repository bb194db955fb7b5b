"""Speed and levers: what the sheet says for this lathe, and where it asks or stops."""

from __future__ import annotations

import pytest
from pydantic import TypeAdapter

from generator.calc.cutting import spindle_speed
from generator.job import fields
from generator.job.lathe_parts import Leadscrew, SpindleStep, ThreadDial
from generator.sheet.figure import Kind
from generator.si import ft_per_min, inch, rev_per_min

NO_RELIEF = {"  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}\n": ""}
SEVEN = {"2 1/4-8 UN-2A": "2 1/4-7 UNS-2A", "2 1/4-8 UN-2B": "2 1/4-7 UNS-2B", "2.060": "2.020"}
LEFT = {"2 1/4-8 UN-2A": "2 1/4-8 UN-2A-LH", "2 1/4-8 UN-2B": "2 1/4-8 UN-2B-LH"}
UNKNOWN = {"material: 1045 steel\nmaterial_known_by: stamp": "material: unknown"}


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def rpm(*speeds):
    return [TypeAdapter(fields.SpindleSpeed).validate_python(f"{speed} rpm") for speed in speeds]


def seconds(text):
    return TypeAdapter(fields.Time).validate_python(f"{text} s")


def number(text):
    return TypeAdapter(fields.Number).validate_python(text)


def thread(words):
    return {"length: 2 1/2, tool": f"length: 2 1/2, {words}, tool"}


def test_step_is_the_highest_that_the_material_bears(sheet_of):
    """Medium-carbon steel: 30 ft/min at most (US Army TC 9-524 table 7-2, from memory)."""
    figures = sheet_of().figures
    assert figures["spindle.surface_speed"].value / ft_per_min == pytest.approx(30)
    assert "TC 9-524" in figures["spindle.surface_speed"].source
    wanted = spindle_speed(30 * ft_per_min, figures["thread.blank"].value)
    assert figures["spindle.wanted"].value == pytest.approx(wanted)
    assert figures["spindle.step"].value / rev_per_min == pytest.approx(50)
    assert figures["carriage.speed"].value / inch == pytest.approx(50 / 60 / 8)


def test_the_job_s_own_cutting_speed_goes_before_the_material_s(sheet_of):
    figures = sheet_of(thread("speed: 20 ft/min")).figures
    assert figures["spindle.surface_speed"].kind is Kind.GIVEN
    assert figures["spindle.step"].value / rev_per_min == pytest.approx(32)


def test_the_job_s_own_step_is_taken_when_the_lathe_has_it(sheet_of):
    sheet = sheet_of(thread("spindle: 32 rpm"))
    assert sheet.figures["spindle.step"].kind is Kind.GIVEN
    assert sheet.figures["carriage.speed"].value / inch == pytest.approx(32 / 60 / 8)
    assert sheet.ready


def test_a_step_above_the_cutting_speed_is_asked_about(sheet_of):
    sheet = sheet_of(thread("spindle: 80 rpm"))
    assert ids(sheet)["spindle-fast"].level == "check"
    assert sheet.figures["spindle.step"].value / rev_per_min == pytest.approx(80)


def test_a_step_that_the_lathe_does_not_have_stops_and_names_its_neighbors(sheet_of):
    sheet = sheet_of(thread("spindle: 85 rpm"))
    stop = ids(sheet)["spindle-step"]
    assert stop.level == "stop"
    assert "80 rpm and 105 rpm" in stop.text
    assert stop.asks
    for name in ("spindle.step", "carriage.speed", "relief.time", "passes.power"):
        assert sheet.figures[name].kind is Kind.UNKNOWN, name


def test_a_lathe_that_cannot_turn_slowly_enough_stops(sheet_of):
    sheet = sheet_of(thread("speed: 5 ft/min"))
    assert ids(sheet)["spindle-too-fast"].level == "stop"
    assert sheet.figures["spindle.step"].value is None


def test_unknown_material_has_no_speed_unless_the_job_gives_one(sheet_of):
    figures = sheet_of(UNKNOWN).figures
    for name in ("spindle.surface_speed", "spindle.wanted", "spindle.step", "carriage.speed", "relief.time"):
        assert figures[name].kind is Kind.UNKNOWN, name
    figures = sheet_of({**UNKNOWN, **thread("spindle: 32 rpm")}).figures
    assert figures["spindle.wanted"].value is None
    assert figures["relief.time"].value == pytest.approx(0.375 / (32 / 60 / 8))
    figures = sheet_of({**UNKNOWN, **thread("speed: 20 ft/min")}).figures
    assert figures["spindle.step"].value / rev_per_min == pytest.approx(32)


def test_a_chuck_is_not_run_above_its_mark(sheet_of, shop):
    chucks = [chuck.model_copy(update={"top_speed": rpm(40)[0]}) for chuck in shop.lathes["long-bed"].chucks]
    assert ids(sheet_of(lathe={"chucks": chucks}))["chuck-speed"].level == "stop"
    chucks = [chuck.model_copy(update={"top_speed": rpm(50)[0]}) for chuck in shop.lathes["long-bed"].chucks]
    assert "chuck-speed" not in ids(sheet_of(lathe={"chucks": chucks}))
    chucks = [chuck.model_copy(update={"top_speed": None}) for chuck in shop.lathes["long-bed"].chucks]
    assert ids(sheet_of(lathe={"chucks": chucks}))["chuck-speed-unknown"].level == "note"


def test_gearbox_entry_and_a_lead_that_is_not_on_the_plate(sheet_of, shop):
    sheet = sheet_of()
    assert sheet.figures["lathe.gearbox"].value == "8 threads per inch"
    gearbox = shop.lathes["long-bed"].gearbox
    without = gearbox.model_copy(update={"tpi": [entry for entry in gearbox.tpi if entry.exact != 8]})
    sheet = sheet_of(lathe={"gearbox": without})
    assert sheet.figures["lathe.gearbox"].value == "cannot be cut here"
    stop = ids(sheet)["gearbox"]
    assert stop.level == "stop"
    assert "1/8 in" in stop.text
    assert "9 threads per inch and 7 threads per inch" in stop.text


def test_a_metric_lead_needs_its_exact_entry(sheet_of):
    """The long lathe has no metric entries; 2 mm is not 13 threads per inch, however near."""
    sheet = sheet_of(
        {
            "2 1/4-8 UN-2A": "M56x2-6g",
            "2 1/4-8 UN-2B": "M56x2-6H",
            "2 1/2, tool": "2 1/2 in, tool",
        }
    )
    assert ids(sheet)["gearbox"].level == "stop"
    assert sheet.figures["lathe.thread_dial"].value == "keep the half nuts closed"
    assert ids(sheet)["half-nuts-closed"].level == "note"


@pytest.mark.parametrize(
    ("changes", "screw", "said"),
    [
        ({}, 4, "any place"),
        (SEVEN, 4, "numbered lines: 1, 2, 3, 4"),
        (SEVEN, 8, "one opposite pair: 1 and 3, or 2 and 4"),
        ({}, 8, "any place"),
    ],
)
def test_thread_dial_is_reckoned_for_this_leadscrew(sheet_of, changes, screw, said):
    """Odd threads: numbered lines on 4 threads per inch, one opposite pair on 8 (lathe makers' charts)."""
    figures = sheet_of(changes, lathe={"leadscrew": Leadscrew(tpi=number(str(screw)))}).figures
    assert figures["lathe.thread_dial"].value == said
    assert figures["lathe.thread_dial.rule"].value


def test_the_reckoning_of_the_dial_is_shown_with_this_lathe_s_numbers(sheet_of):
    """16 × 1/4 in ÷ 8 lines = 1/2 in a line; two lines are 1 in: 7 leads, 4 turns (arithmetic)."""
    rule = sheet_of(SEVEN).figures["lathe.thread_dial.rule"].value
    for words in (
        "16 × 1/4 in ÷ 8 = 1/2 in",
        "2 lines",
        "at 1 in",
        "4 turns of the leadscrew",
        "7 leads of 1/7 in",
    ):
        assert words in rule


@pytest.mark.parametrize(("missing", "named"), [("leadscrew", "leadscrew"), ("thread_dial", "thread dial")])
def test_a_lathe_record_without_it_says_what_was_not_computed(sheet_of, missing, named):
    sheet = sheet_of(SEVEN, lathe={missing: None})
    for name in ("lathe.thread_dial", "lathe.thread_dial.rule"):
        figure = sheet.figures[name]
        assert figure.kind is Kind.UNKNOWN
        assert figure.note == f"not computed: the lathe record has no {named}"
    assert ids(sheet)["thread-dial-unknown"].level == "note"
    assert sheet.ready


def test_without_a_dial_any_place_is_still_known_where_every_closing_is_right(sheet_of):
    assert sheet_of(lathe={"thread_dial": None}).figures["lathe.thread_dial"].value == "any place"


def test_a_lathe_record_without_a_gearbox_says_so(sheet_of):
    sheet = sheet_of(lathe={"gearbox": None})
    assert sheet.figures["lathe.gearbox"].kind is Kind.UNKNOWN
    assert ids(sheet)["gearbox-unknown"].level == "note"


def test_an_impossible_dial_record_stops_the_sheet(sheet_of):
    impossible = ThreadDial.model_construct(teeth=16, lines=8, numbered_every=3)
    sheet = sheet_of(SEVEN, lathe={"thread_dial": impossible})
    assert ids(sheet)["outside-range"].level == "stop"


def test_a_screwed_nose_is_asked_about_only_when_the_spindle_is_reversed(sheet_of, shop):
    spindle = shop.lathes["long-bed"].spindle.model_copy(update={"nose": "screwed"})
    screw = Leadscrew(pitch=TypeAdapter(fields.Length).validate_python("6 mm"))
    assert "screwed-nose" not in ids(sheet_of(lathe={"spindle": spindle}))
    assert ids(sheet_of(lathe={"spindle": spindle, "leadscrew": screw}))["screwed-nose"].level == "check"
    assert "screwed-nose" not in ids(sheet_of(lathe={"leadscrew": screw}))


@pytest.mark.parametrize(
    ("step", "level"),
    [(50, None), (170, None), (180, None), (210, "check"), (330, "check"), (360, "check"), (520, "stop")],
)
def test_seconds_in_the_relief(sheet_of, shop, step, level):
    """3/8 in at 8 threads per inch: 1 s at 180 rpm, 0.5 s at 360 rpm (arithmetic; limits common practice)."""
    steps = [SpindleStep(speed=one) for one in rpm(20, 32, 50, 170, 180, 210, 330, 360, 520)]
    spindle = shop.lathes["long-bed"].spindle.model_copy(update={"speeds": steps})
    sheet = sheet_of(thread(f"spindle: {step} rpm"), lathe={"spindle": spindle})
    assert sheet.figures["relief.time"].value == pytest.approx(0.375 * 8 * 60 / step)
    found = ids(sheet).get("relief-time")
    assert (found.level if found else None) == level


def test_a_short_time_names_the_step_that_gives_enough(sheet_of):
    """At 170 rpm 0.375 in of 8 threads per inch last 1.05 s."""
    text = ids(sheet_of(thread("spindle: 520 rpm")))["relief-time"].text
    assert "170 rpm gives 1 s" in text


def test_house_limits_of_time_go_before_common_practice(sheet_of):
    house = {"relief_time_check": seconds(4), "relief_time_stop": seconds(2)}
    assert ids(sheet_of(house=house))["relief-time"].level == "check"
    assert ids(sheet_of(thread("spindle: 105 rpm"), house=house))["relief-time"].level == "stop"
    none = {"relief_time_check": None, "relief_time_stop": None}
    assert "relief-time" not in ids(sheet_of(house=none))


def test_a_lathe_that_has_no_slower_step_says_what_else_can_be_done(sheet_of, shop):
    spindle = shop.lathes["long-bed"].spindle.model_copy(
        update={"speeds": [SpindleStep(speed=one) for one in rpm(520, 820)]}
    )
    text = ids(sheet_of(thread("spindle: 520 rpm"), lathe={"spindle": spindle}))["relief-time"].text
    assert "No step of this lathe is slow enough" in text


def test_no_relief_is_asked_about_unless_the_tool_runs_into_air(sheet_of):
    assert ids(sheet_of(NO_RELIEF))["no-relief"].level == "check"
    assert "relief.time" not in sheet_of(NO_RELIEF).figures
    air = {
        **NO_RELIEF,
        "{length: 2 7/8, od: 2 1/4}": "{length: 3/8, od: 1 3/4}\n  - {length: 2 1/2, od: 2 1/4}",
        "turn: {diameter: 2 1/4, length: 2 7/8}": "turn: {diameter: 2 1/4, length: 2 1/2}",
    }
    assert "no-relief" not in ids(sheet_of(air))


def test_a_left_hand_thread_starts_in_the_relief(sheet_of):
    sheet = sheet_of(LEFT)
    assert "relief.time" not in sheet.figures
    assert ids(sheet)["left-hand-start"].level == "note"
    assert "start this left-hand thread" in ids(sheet_of({**LEFT, **NO_RELIEF}))["no-relief"].text


@pytest.mark.parametrize(("speed", "asked"), [("30 ft/min", False), ("31 ft/min", True), ("12 m/min", True)])
def test_a_chosen_speed_above_the_material_s_is_asked_about(sheet_of, speed, asked):
    """Medium-carbon steel, threading: 30 ft/min at most (US Army TC 9-524 table 7-2, from memory)."""
    assert ("speed-fast" in ids(sheet_of(thread(f"speed: {speed}")))) == asked


def test_without_a_thread_dial_the_time_in_the_relief_is_for_withdrawing_and_stopping(sheet_of, shop):
    """Common practice, no source: half nuts that stay closed drive the carriage until the spindle stands."""
    with_dial, without = sheet_of(SEVEN), sheet_of(SEVEN, lathe={"thread_dial": "none"})
    assert "open the half nuts" in with_dial.figures["relief.time"].note
    assert "withdraw and stop the spindle" in without.figures["relief.time"].note
    assert without.figures["relief.time"].value == with_dial.figures["relief.time"].value
    assert "time.run_back" in without.figures
    assert "time.run_back" not in with_dial.figures
    screwed = shop.lathes["long-bed"].spindle.model_copy(update={"nose": "screwed"})
    asked = sheet_of(SEVEN, lathe={"thread_dial": "none", "spindle": screwed})
    assert ids(asked)["screwed-nose"].level == "check"
    assert any(caution.id == "screwed-nose" for caution in asked.cautions)
