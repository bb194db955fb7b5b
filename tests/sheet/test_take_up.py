"""The card to take a stopped thread up: its steps for this job, its numbers, and when it must not be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator.job.reading import ReadJob, read_job, read_log
from generator.job.shop import Shop
from generator.render.figures_json import figures_record
from generator.sheet.compute import compute_sheet
from generator.sheet.happened import TakeUpCard
from generator.sheet.model import Sheet
from generator.sheet.other_lathes import comparison
from generator.sheet.take_up_elsewhere import elsewhere
from generator.si import inch, mm

Logged = Callable[..., Sheet]
JOBS = Path(__file__).parents[2] / "jobs"
STOP = """\
- at: 2026-03-04 14:40
  operation: thread
  pass: 6
  dial: 0.054
  stop:
    jaw_mark: jaw 1
    stick_out: 11 1/2
    runout_at_jaws: 0.001
    runout_at_end: 0.002
    band: body
    rust: oil
    cross: 0.2
    depth_left: 0.02
    tool: V1
    flat: 0.012
    over_wires: 2.3109
    levers: 8
    gears: as on the plate
    dial_line: any
    compound_angle: 29.5 deg
    compound_towards: chuck
"""
OF_THREAD = [
    "Levers and gears", "Tool to the gauge", "Half nuts closed", "Find the groove", "New zero", "Dry run",
    "The least cut",
]


def card(sheet: Sheet) -> TakeUpCard:
    assert sheet.take_up is not None
    return sheet.take_up


def titles(sheet: Sheet) -> list[str]:
    return [step.title for step in card(sheet).steps]


def values(sheet: Sheet) -> dict[str, str]:
    return {name: left for step in card(sheet).steps for name, left, _ in step.values}


def si(sheet: Sheet, name: str) -> float:
    value = sheet.figures[name].value
    assert isinstance(value, float)
    return value


def test_there_is_a_card_while_the_work_is_stopped_and_none_before_or_after(logged: Logged) -> None:
    before = "- {at: 2026-03-04 13:00, operation: thread, pass: 2, dial: 0.02}\n"
    assert logged(before).take_up is None
    assert card(logged(before + STOP)).stopped == "2026-03-04 14:40"
    assert logged(STOP + "- {at: 2026-03-09, operation: thread, taken_up: {dial: 0.05}}\n").take_up is None
    again = STOP + "- {at: 2026-03-09, operation: thread, taken_up: yes}\n" + STOP.replace("-04 14", "-10 14")
    assert card(logged(again)).stopped == "2026-03-10 14:40"


def test_the_steps_come_in_the_order_of_the_trade(logged: Logged) -> None:
    """Common practice, no source."""
    assert titles(logged(STOP)) == ["Clean it", "Hold it as it was", "True", *OF_THREAD]


def test_with_a_steady_rest_it_has_its_step_with_place_and_diameter(logged: Logged) -> None:
    text = STOP + "    steady_at: 9\n    steady_diameter: 2.75\n"
    sheet = logged(text, {"  center: live\n": "  steady: {at: 9}\n  hold_back: yes\n"})
    assert titles(sheet)[:4] == ["Clean it", "Hold it as it was", "Steady rest", "True"]
    assert (values(sheet)["steady at"], values(sheet)["steady diameter"]) == ("9 in", "2.75 in")


def test_between_centers_it_is_the_dog_and_not_the_stick_out(logged: Logged) -> None:
    sheet = logged(STOP.replace("    stick_out: 11 1/2\n", ""), {
        "  chuck: {jaws: 4, grip: 3}\n": "  centers: {dog: 1}\n",
    })
    assert titles(sheet)[1] == "Between the same centers"
    assert "stick out" not in values(sheet)


def test_between_centers_nothing_is_said_of_jaws(logged: Logged) -> None:
    step = card(logged(STOP, {"  chuck: {jaws: 4, grip: 3}\n": "  centers: {dog: 1}\n"})).steps[1]
    assert "dog" in step.text
    assert "jaw" not in step.text


def test_in_a_chuck_with_the_tailstock_center_both_are_named(logged: Logged) -> None:
    text = card(logged(STOP)).steps[1].text
    assert text.startswith("The same jaw")
    assert "tailstock center" in text


def test_of_several_starts_the_one_that_was_cut_last_is_found_and_written_down(logged: Logged) -> None:
    one = {step.title: step for step in card(logged(STOP)).steps}["Find the groove"]
    assert "starts" not in one.text
    sheet = logged(STOP, {"designation: 2 1/4-8 UN-2A": "designation: 2 1/4-8 UN-2A 2 starts"})
    two = {step.title: step for step in card(sheet).steps}["Find the groove"]
    assert "Of 2 starts, the one that was cut last" in two.text
    assert ("start", "", True) in two.values


def test_the_taper_is_set_before_the_tool(logged: Logged) -> None:
    sheet = logged(STOP, {
        "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}": "mate: unknown",
        "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1": "designation: 2-11.5 NPT, length: 1",
    })
    assert titles(sheet)[-7:-5] == ["Taper", "Tool to the gauge"]
    assert "Taper" not in titles(logged(STOP))


def test_scrapped_work_is_not_taken_up(logged: Logged) -> None:
    assert logged(STOP, {"units: inch\n": "units: inch\nstatus: scrapped\n"}).take_up is None


def test_every_number_of_the_stop_stands_on_the_card(logged: Logged) -> None:
    sheet = logged(STOP)
    assert values(sheet) == {
        "rust": "oil", "jaw mark": "jaw 1", "stick out": "11 1/2 in", "band": "body",
        "runout at jaws": "0.001 in", "runout at end": "0.002 in", "levers": "8", "gears": "as on the plate",
        "tool": "V1", "flat": "0.012 in", "compound angle": "29.5 deg", "compound towards": "chuck",
        "dial line": "any", "dial": "0 turns, 0.054 in", "cross slide": "0 turns, 0.2 in", "over wires": "",
    }
    numbers = dict(card(sheet).numbers)
    assert numbers["over wires, as left"] == "2.3109 in"
    assert numbers["depth left, radial"].startswith("0.0200 in")


def test_what_the_log_does_not_say_is_room_to_write_it(logged: Logged) -> None:
    sheet = logged("- {at: 2026-03-04, operation: thread, pass: 6, stop: yes}\n")
    for name in ("jaw mark", "tool", "levers", "dial line", "dial", "cross slide", "band"):
        assert values(sheet)[name] == "", name


def test_readings_of_this_day_are_asked_for_beside_those_of_the_stop(logged: Logged) -> None:
    anew = {name for step in card(logged(STOP)).steps for name, _, now in step.values if now}
    assert anew == {
        "stick out", "runout at jaws", "runout at end", "flat", "dial", "cross slide", "over wires"
    }


def test_the_numbers_are_those_of_a_hand_calculation(logged: Logged) -> None:
    sheet = logged(STOP)
    assert si(sheet, "take_up.depth_left") == pytest.approx(0.02 * inch)
    assert si(sheet, "take_up.runout") == pytest.approx(0.04 * inch)  # twice what is left
    # 0.005 in over 2 tan 30 degrees, tan 30 degrees = 0.57735 (any table of tangents)
    assert si(sheet, "take_up.rests_higher") == pytest.approx(0.005 * inch / (2 * 0.57735), rel=1e-5)
    assert "Over 0.0400 in the cuts left do not clean up" in card(sheet).steps[2].text
    assert "0.0050 in that the flat is wider the point rests 0.0043 in higher" in card(sheet).reground[0]


def test_a_stop_that_does_not_say_the_depth_left_has_it_by_the_dial(logged: Logged) -> None:
    """29.5 degrees: 0.054 in of travel are 0.054 cos 29.5 = 0.04700 in of depth (cosine 0.87036)."""
    sheet = logged(STOP.replace("    depth_left: 0.02\n", ""))
    planned = max(line.depth for line in sheet.passes)
    assert si(sheet, "take_up.depth_left") == pytest.approx(planned - 0.054 * 0.87036 * inch, rel=1e-5)


def test_inside_the_bar_is_looked_at_and_the_dials_are_those_of_the_stop(shop: Shop) -> None:
    read = read_job(JOBS / "2026" / "SW-112-tide-gauge-housing" / "job.yml", shop)
    sheet = compute_sheet(read, shop, read_log(read.path.with_name("log.yml"), read.job.units, "mm"))
    said = {step.title: step.text for step in card(sheet).steps}
    assert "bar clear of the bore" in said["Tool to the gauge"]
    assert "towards you, the other way than outside" in said["Tool to the gauge"]
    assert said["New zero"].endswith("The compound feeds, towards you.")
    assert "than the bar has room" in said["Dry run"]
    assert values(sheet)["dial"] == "0 turns, 0.92 mm"
    assert dict(card(sheet).numbers)["pitch diameter, as left"] == "62.41 mm"
    assert si(sheet, "take_up.rests_higher") == pytest.approx(0.1 * mm / (2 * 0.57735), rel=1e-5)


def test_the_last_cut_is_never_ordered_by_number_alone(logged: Logged) -> None:
    last = card(logged(STOP)).steps[-1]
    assert last.title == "The least cut"
    assert last.text.endswith("The last cut is by the fit, never by number alone.")
    assert "then try the mate or measure before the next" in last.text
    alone = logged(STOP, {"mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}\n": ""})
    assert "then measure before the next" in card(alone).steps[-1].text


@pytest.mark.parametrize("over_wires", ["2.20", "2.28"])
def test_a_thread_at_its_smallest_size_is_not_cut_any_more(logged: Logged, over_wires: str) -> None:
    sheet = logged(STOP)
    smallest = sheet.figures["thread.over_wires.min"].value
    assert isinstance(smallest, float)
    under = f"{(smallest - 0.001 * inch) / inch:.4f}"
    assert "Nothing may be cut" in card(logged(STOP.replace("2.3109", under))).finished
    over = f"{(smallest + 0.001 * inch) / inch:.4f}"
    assert card(logged(STOP.replace("2.3109", over))).finished == ""


def test_nothing_left_by_the_stop_is_no_cut_by_number(logged: Logged) -> None:
    sheet = logged(STOP.replace("depth_left: 0.02", "depth_left: 0"))
    assert card(sheet).finished == (
        "Nothing is left to cut by the stop: try the mate, and cut no more by number."
    )
    assert "take_up.runout" not in sheet.figures
    assert titles(sheet) == ["Clean it", "Hold it as it was", "True", "Measure"]  # and no cut at all
    assert card(sheet).never == ()
    assert card(sheet).reground == ()


def test_a_square_thread_is_never_forced_and_rests_on_no_flank(logged: Logged) -> None:
    sheet = logged(STOP.replace("    flat: 0.012\n", ""), {
        "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}": "mate: unknown",
        "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1": "designation: 2 1/4-4 SQUARE, length: 2 1/2",
    })
    assert "take_up.rests_higher" not in sheet.figures
    assert "do not force it" in card(sheet).reground[0]


def test_another_cut_has_a_short_card_without_a_lead(logged: Logged) -> None:
    sheet = logged(
        "- {at: 2026-03-04, operation: turn, dial: 0.05, stop: {jaw_mark: jaw 1, band: body, rust: oil}}\n"
    )
    assert titles(sheet) == ["Clean it", "Hold it as it was", "True", "Touch off again", "A light cut"]
    assert not card(sheet).thread
    assert "half nuts" not in card(sheet).caution.text
    assert not card(sheet).reground


def test_on_another_lathe_it_says_what_to_set_or_that_it_must_not_be(
    read_of: Callable[..., ReadJob], logged: Logged, shop: Shop
) -> None:
    sheet = logged(STOP)
    said = {one.lathe: one for one in elsewhere(sheet, comparison(read_of(), shop, sheet))}
    assert set(said) == {shop.lathes["thirteen-inch"].name, shop.lathes["metric"].name}
    for one in said.values():
        assert one.text
        assert one.may == ("half nuts: " in one.text)
    assert said[shop.lathes["metric"].name].text.endswith("half nuts: closed to the end")


def test_a_lathe_that_cuts_the_lead_only_nearly_must_not_take_it_up(
    read_of: Callable[..., ReadJob], logged: Logged, shop: Shop
) -> None:
    sheet = logged(STOP)
    compared = comparison(read_of(), shop, sheet)
    near = replace(sheet.findings[0], id="gearbox", level="check")
    here = replace(compared.here, sheet=replace(sheet, findings=(near,)))
    others = tuple(
        replace(one, here=here, there=replace(one.there, sheet=replace(one.there.sheet, findings=())))
        for one in compared.others
    )
    said = elsewhere(sheet, replace(compared, here=here, others=others))
    assert said
    assert all(not one.may and "only nearly" in one.text for one in said)


def test_a_finished_thread_is_taken_nowhere(
    read_of: Callable[..., ReadJob], logged: Logged, shop: Shop
) -> None:
    sheet = logged(STOP.replace("depth_left: 0.02", "depth_left: 0"))
    assert elsewhere(sheet, comparison(read_of(), shop, sheet)) == ()


def test_the_card_is_in_the_figures_for_other_programs(logged: Logged) -> None:
    said = figures_record(logged(STOP), Path("jobs/2026/T-1-pin/job.yml"))["take_up"]
    assert said["after"] == "after pass 6 of " + str(len(logged(STOP).passes))
    assert [step["title"] for step in said["steps"]] == titles(logged(STOP))
    assert said["steps"][0]["left"] == {"rust": "oil"}
    assert figures_record(logged(""), Path("jobs/2026/T-1-pin/job.yml"))["take_up"] is None
