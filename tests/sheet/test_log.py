"""The log beside the plan: what differs, in numbers to be checked by hand, and what contradicts the job."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.job.reading import read_job, read_log
from generator.job.shop import Shop
from generator.sheet.compute import compute_sheet
from generator.sheet.happened import History
from generator.sheet.model import Sheet
from generator.si import degree, inch, minute, mm

Logged = Callable[..., Sheet]
STOP = """\
    jaw_mark: jaw 1
    stick_out: 11 1/2
    runout_at_jaws: 0.001
    runout_at_end: 0.002
    band: body
    rust: oil
    dial: 0.074
    cross: 0.2
    depth_left: 0.02
    tool: V1
    flat: 0.012
    over_wires: 2.3109
    levers: 8
    dial_line: any
    compound_angle: 29.5 deg
    compound_towards: chuck
"""


def history(sheet: Sheet) -> History:
    assert sheet.history is not None
    return sheet.history


def found(sheet: Sheet) -> dict[str, str]:
    return {
        one.id: f"{one.level} {one.where.line}: {one.text} {one.asks}".strip()
        for one in sheet.findings if one.id.startswith("log-")
    }


def entry(more: str, at: str = "2026-03-04") -> str:
    return f"- {{at: {at}, {more}}}\n"


def of_pass(number: int, more: str) -> str:
    return entry(f"operation: thread, pass: {number}, {more}")


# -- passes ---------------------------------------------------------------------------------------------


def test_without_a_log_nothing_is_said(sheet_of: Callable[..., Sheet]) -> None:
    sheet = sheet_of()
    assert sheet.history is None
    assert not found(sheet)
    assert not [name for name in sheet.figures if name.startswith("log.")]


def test_depth_is_the_travel_of_the_compound_times_the_cosine_of_its_angle(logged: Logged) -> None:
    """Geometry: 0.080 in along the compound at 29 1/2 degrees is 0.080 cos 29.5 = 0.06963 in deep."""
    sheet = logged(of_pass(13, "dial: 0.080") + of_pass(14, "dial: 0.0845"))
    first, second = history(sheet).passes
    assert first.depth == pytest.approx(0.080 * math.cos(29.5 * degree) * inch)
    assert second.depth == pytest.approx(0.0845 * math.cos(29.5 * degree) * inch)
    planned = {line.number: line for line in sheet.passes}
    assert (first.plan, second.plan) == (planned[13], planned[14])
    off = (0.0845 - planned[14].dial_reading / inch) * math.cos(29.5 * degree)
    assert f"Pass 14 was cut {off:.4f} in" in history(sheet).says[0]
    assert "deeper than planned: the dial stood at 0.0845 in." in history(sheet).says[0]
    assert sheet.figures["log.depth"].value == pytest.approx(second.depth)


def test_a_size_over_the_plan_is_said_with_its_numbers(logged: Logged) -> None:
    plan = {line.number: line.over_wires for line in logged("[]").passes}
    read = round(plan[12] / inch + 0.0021, 4)
    sheet = logged(of_pass(12, f"measured: {{over_wires: {read}, with: micrometer}}"))
    (one,) = history(sheet).passes
    assert one.size - one.expected == pytest.approx((read - plan[12] / inch) * inch)
    said = history(sheet).says[0]
    assert re.match(r"Pass 12 read 0\.002[01] in \(0\.05\d mm\) over the plan: ", said)
    assert f"{read:.4f} in" in said
    assert f"instead of {plan[12] / inch:.4f} in" in said
    assert sheet.figures["log.over_plan"].value == pytest.approx(one.size - one.expected)
    assert sheet.figures["log.size"].source == "measured by somebody with micrometer"


def test_cut_on_like_that_it_comes_to_the_plan_and_the_difference(logged: Logged) -> None:
    plan = logged("[]").passes
    for off, words in ((0.001, "within its limits"), (0.006, "over its largest size"),
                       (-0.006, "under its smallest size")):
        size = plan[11].over_wires / inch + off
        sheet = logged(of_pass(12, f"measured: {{over_wires: {size:.4f}}}"))
        comes = plan[-1].over_wires / inch + round(size, 4) - plan[11].over_wires / inch
        said = next(one for one in history(sheet).says if one.startswith("Cut on"))
        assert f"comes to {comes:.4f} in" in said
        assert said.endswith(f"{words}.")


def test_small_differences_are_no_differences(logged: Logged) -> None:
    plan = {line.number: line.over_wires for line in logged("[]").passes}
    sizes = {number: plan[number] / inch + 0.0004 for number in (12, 13)}
    text = "".join(of_pass(number, f"measured: {{over_wires: {size:.4f}}}") for number, size in sizes.items())
    said = history(logged(text)).says[0]
    assert said.startswith("All 2 passes that were measured came within 0.000")


def test_a_measured_pitch_diameter_or_another_wire_is_compared_too(logged: Logged) -> None:
    """M = E + 3 W - 0.866025 P for 60 degrees (ASME B1.2, lead angle left out): between wires 3 (W1 - W2)."""
    plain = logged("[]")
    plan = {line.number: line for line in plain.passes}
    wire = plain.figures["thread.wire.size"].value
    diameter = plan[14].pitch_diameter / inch
    (one,) = history(logged(of_pass(14, f"measured: {{pitch_diameter: {diameter:.6f}}}"))).passes
    assert one.size == pytest.approx(plan[14].over_wires, abs=1e-6 * inch)
    other = 0.0825
    over = plan[14].over_wires / inch + 3 * (other - wire / inch)
    (one,) = history(logged(of_pass(14, f"measured: {{over_wires: {over:.6f}, wire: {other}}}"))).passes
    assert one.size == pytest.approx(plan[14].over_wires, abs=2e-5 * inch)


def test_whole_turns_that_are_not_written_are_those_nearest_to_the_plan(logged: Logged) -> None:
    """The windshaft goes more than a turn of the dial in: 0.130 in stands there as 1 turn and 0.005."""
    deep = {"2 1/4-8 UN-2A": "2 1/4-4 1/2 UNC-2A", "2 1/4-8 UN-2B": "2 1/4-4 1/2 UNC-2B",
            "diameter: 2.060": "diameter: 1.900", "tool: V1": "tool: V2"}
    plan = next(line for line in logged("[]", deep).passes if line.dial_turns == 1)
    dial = plan.dial_reading / inch
    with_turns = of_pass(plan.number, f"turns: 1, dial: {dial:.4f}")
    for text in (with_turns, of_pass(plan.number, f"dial: {dial:.4f}")):
        (one,) = history(logged(text, deep)).passes
        assert one.depth == pytest.approx(plan.depth, abs=1e-7)
    assert f"1 turn and {dial:.4f} in" in history(logged(with_turns, deep)).passes[0].dial


def test_a_reading_in_the_unit_of_the_dial_on_a_lathe_of_the_other_unit(logged: Logged) -> None:
    """An inch job on a metric lathe: its dial reads mm, whatever the job's unit."""
    metric = {"lathe: long-bed": "lathe: metric"}
    plan = logged("[]", metric).passes
    assert plan
    line = plan[4]
    (one,) = history(logged(
        of_pass(line.number, f"turns: {line.dial_turns}, dial: {line.dial_reading / mm:.3f}"), metric
    )).passes
    assert one.depth == pytest.approx(line.depth, abs=1e-8)


def test_of_several_entries_for_one_pass_the_last_word_counts(logged: Logged) -> None:
    said = ("dial: 0.070", "measured: {over_wires: 2.31}", "dial: 0.077")
    (one,) = history(logged("".join(of_pass(12, one) for one in said))).passes
    assert one.depth == pytest.approx(0.077 * math.cos(29.5 * degree) * inch)
    assert one.size == pytest.approx(2.31 * inch)


def test_an_internal_thread_is_read_on_a_dial_turned_back(shop: Shop) -> None:
    """The lens ring: numbers run down from zero, and a bore over the plan is cut too deep."""
    path = next((Path(__file__).parents[2] / "jobs").glob("*/SW-107-*/job.yml"))
    read = read_job(path)
    plain = compute_sheet(read, shop)
    line = plain.passes[5]
    size = line.pitch_diameter / inch + 0.003
    dial = f"turns: {line.dial_turns}, dial: {line.dial_reading / inch:.4f}"
    text = of_pass(line.number, f"{dial}, measured: {{pitch_diameter: {size:.4f}}}")
    log = read_log(path.with_name("log.yml"), "inch", "inch", text.encode())
    sheet = compute_sheet(read, shop, log)
    (one,) = history(sheet).passes
    assert one.depth == pytest.approx(line.depth, abs=1e-7)
    assert history(sheet).size_by == "pitch diameter"
    assert "over the plan" in history(sheet).says[0]


# -- stopped and taken up -------------------------------------------------------------------------------


def stopped(more: str = STOP, number: int = 11) -> str:
    return f"- at: 2026-03-04 14:20\n  operation: thread\n  pass: {number}\n  stop:\n{more}"


def test_a_stop_that_says_all_asks_nothing_and_one_that_does_not_asks_for_the_rest(logged: Logged) -> None:
    said = found(logged(stopped(), {"title: Pin": "title: Pin\nstatus: stopped"}))
    assert list(said) == ["log-stopped"]
    assert said["log-stopped"].startswith("note 4: The work was stopped on 2026-03-04 14:20 after pass 11.")
    for line in STOP.splitlines():
        key = line.split(":")[0].strip()
        said = found(logged(stopped(STOP.replace(f"{line}\n", ""))))["log-stop"]
        assert said.startswith("check 4: The work was stopped on 2026-03-04 14:20")
        assert said.endswith(f"What are they: {key}?")


def test_what_the_lathe_does_not_have_is_not_asked_for(logged: Logged) -> None:
    said = found(logged(stopped("    why: dinner\n")))["log-stop"]
    assert "gears" not in said.split("What are they")[1]  # this lathe has no change gears
    assert "steady_at" not in said  # and the job no steady rest
    assert "levers" in said


def test_what_stands_in_the_entry_itself_need_not_stand_in_its_stop(logged: Logged) -> None:
    bare = "".join(
        line for line in STOP.splitlines(keepends=True)
        if not line.strip().startswith(("dial:", "cross", "over_wires"))
    )
    own = "  dial: 0.074\n  cross: 0.2\n  measured: {over_wires: 2.31}\n  stop:"
    text = stopped(bare).replace("  stop:", own)
    assert "log-stop" not in found(logged(text))


def test_a_dial_that_counts_otherwise_after_taking_up_is_reckoned_with_and_said(logged: Logged) -> None:
    """Left at 0.074, in the groove again at 0.078: 0.081 is then what 0.077 was."""
    text = stopped() + (
        entry("operation: thread, taken_up: {dial: 0.078, turns: 0}", "2026-03-05")
        + entry("operation: thread, pass: 12, dial: 0.081", "2026-03-06")
    )
    sheet = logged(text)
    last = history(sheet).passes[-1]
    assert last.depth == pytest.approx(0.077 * math.cos(29.5 * degree) * inch)
    assert "reads 0.0040 in (0.102 mm) more than the pass table" in history(sheet).says[0]
    assert "log-zero" in found(sheet)
    assert history(sheet).moved == history(sheet).says[0]
    assert "log-stop" not in found(sheet)
    left = {name: (was, then) for name, was, then in history(sheet).left_as.rows}
    assert left["dial"] == ("0 turns, 0.074 in", "0 turns, 0.078 in")
    assert left["jaw mark"] == ("jaw 1", "")


def test_a_dial_that_counts_as_before_is_said_too(logged: Logged) -> None:
    sheet = logged(stopped() + entry("operation: thread, taken_up: {dial: 0.074}", "2026-03-05"))
    assert history(sheet).says[0].endswith("with the compound dial as it was: the pass table goes on.")
    assert "log-zero" not in found(sheet)


def test_a_taking_up_without_its_dial_is_said(logged: Logged) -> None:
    sheet = logged(stopped() + entry("operation: thread, taken_up: yes", "2026-03-05"))
    assert "is not in the log" in found(sheet)["log-zero"]


# -- contradictions -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("id", "text", "said"),
    [
        ("log-operation", entry("operation: knurl, note: x"),
         'check 1: The job has no operation "knurl": it has 1 turn, 2 relief, 3 thread. Which '
         "operation was it?"),
        ("log-operation", entry("operation: 9, note: x"),
         'check 1: The job has no operation "9": it has 1 turn, 2 relief, 3 thread. Which '
         "operation was it?"),
        ("log-pass", of_pass(40, "note: x"),
         "check 1: The log has a pass 40; the pass table ends with pass 21."),
        ("log-pass", entry("operation: turn, pass: 2"),
         "check 1: Pass 2 is one of the pass table, but operation 1 (Turn to 2 1/4 in) cuts no thread."),
        ("log-order", entry("note: x", "2026-03-05") + entry("note: y", "2026-03-04"),
         "check 2: The entry of 2026-03-04 (line 2) stands after that of 2026-03-05 (line 1)."),
        ("log-received", entry("note: x", "2026-02-28"),
         "check 1: The entry of 2026-02-28 is older than the job: the work came in on 2026-03-02."),
        ("log-dial", of_pass(12, "dial: 0.189"),
         "check 1: The compound dial goes from 0 to 0.125 in and begins again; 0.189 in does not "
         "stand on it."),
        ("log-dial", of_pass(12, "cross: 0.400"),
         "check 1: The cross slide dial goes from 0 to 0.4 in and begins again; 0.400 in does not "
         "stand on it."),
        ("log-taken-up", entry("operation: thread, taken_up: yes"),
         "check 1: The work is taken up on 2026-03-04, and the log has no stop before it."),
        ("log-size", of_pass(21, "measured: {over_wires: 2.2652}"),
         "check 1: The thread last measured 2.2652 in (57.536 mm) over wires, 0.0015 in (0.038 mm) under its "
         "smallest size."),
        ("log-measured", of_pass(12, "measured: {over_wires: 3.2852}"),
         "check 1: 3.2852 in over wires cannot be measured on this thread, neither before nor after"),
        ("log-measured", of_pass(12, "measured: {pitch_diameter: 60 mm}"),
         "check 1: 60 mm on pitch diameter cannot be measured on this thread"),
        ("log-status", entry("note: x"),
         "note 1: The job file says status: planned; the log says that work began"),
        ("log-unread", entry("paas: 3"), "check 1: One entry or line of the log cannot be read"),
    ],
)
def test_what_contradicts_the_job_is_asked_about(logged: Logged, id: str, text: str, said: str) -> None:
    sheet = logged(text, {"title: Pin": "title: Pin\nreceived: 2026-03-02"})
    assert found(sheet)[id].startswith(said)
    assert sheet.ready
    assert all(one.where.path.name == "log.yml" for one in sheet.findings if one.id.startswith("log-"))


@pytest.mark.parametrize("name", ["thread", "Thread", "3", "cut 2 1/4-8 UN-2A", " thread "])
def test_an_operation_goes_by_name_number_or_title(logged: Logged, name: str) -> None:
    sheet = logged(entry(f"operation: '{name}', pass: 3"))
    assert "log-operation" not in found(sheet)
    assert history(sheet).lines[0].operation == "3 Cut 2 1/4-8 UN-2A"
    assert history(sheet).passes[0].number == 3


def test_a_name_that_several_operations_have_is_asked_about(logged: Logged) -> None:
    twice = {"  - relief": "  - turn: {diameter: 2.7, length: 5, from_end: 3}\n  - relief"}
    said = found(logged(entry("operation: turn, note: x"), twice))["log-operation"]
    assert '"turn" is the name of several operations: 1 (Turn to 2 1/4 in) and 2 (Turn to 2.7 in).' in said
    assert "log-operation" not in found(logged(entry("operation: 2, note: x"), twice))


def test_the_status_of_the_job_file_and_the_log_agree(logged: Logged) -> None:
    for status, text, wrong in (
        ("in work", entry("note: x"), False), ("stopped", entry("note: x"), True),
        ("stopped", stopped(), False), ("in work", stopped(), True),
        ("in work", entry("finished: yes"), True), ("done", entry("finished: yes"), False),
    ):
        sheet = logged(text, {"title: Pin": f"title: Pin\nstatus: {status}"})
        assert ("log-status" in found(sheet)) is wrong, (status, text)


def test_a_bad_log_leaves_the_sheet_and_the_good_entries(logged: Logged) -> None:
    sheet = logged(entry("paas: 3") + of_pass(12, "dial: 0.077"))
    assert sheet.ready
    assert [line.pass_number for line in history(sheet).lines] == [12]
    assert len(history(sheet).problems) == 1
    assert history(logged('- note: "x')).problems
    assert logged("").history == History(())


def test_a_job_that_may_not_be_run_keeps_its_log(logged: Logged) -> None:
    sheet = logged(of_pass(12, "dial: 0.077"), {"grip: 3": "grip: 14"})
    assert not sheet.ready
    assert history(sheet).lines


# -- times ----------------------------------------------------------------------------------------------


def test_times_of_an_operation_are_added_up_and_set_beside_the_estimate(logged: Logged) -> None:
    text = (
        entry("operation: turn, time: 0.5 h") + entry("operation: turn, time: 15 min")
        + entry("time: 10 min, note: x") + entry("operation: relief, time: 20 s") + entry("finished: yes")
    )
    sheet = logged(text)
    times = {one.number: one for one in history(sheet).times}
    planned = sheet.figures["operation.1.total_time"].value
    assert times[1].taken == pytest.approx(45 * minute)
    assert times[1].planned == pytest.approx(planned)
    assert times[2].taken == pytest.approx(20)
    assert sheet.figures["log.time"].value == pytest.approx(55 * minute + 20)
    assert any(one.startswith("Operation 1 (Turn to 2 1/4 in) took 45 min, ") for one in history(sheet).says)
    assert any(one.startswith("The times in the log come to 56 min; ") for one in history(sheet).says)


# -- words ----------------------------------------------------------------------------------------------


def test_what_was_written_is_found_in_the_archive(logged: Logged) -> None:
    sheet = logged(entry(
        "watch_out: The burr at the hole., do_differently: Push the center first., note: blued"
    ))
    assert "blued" in sheet.index.text


def test_what_an_entry_says_stands_in_its_own_words(logged: Logged) -> None:
    sheet = logged(entry(
        "by: KL, operation: thread, pass: 18, dial: 0.095, cross_turns: 1, cross: 12 thou, "
        "measured: {over_wires: 2.2748, with: micrometer, where: both ends}, "
        "fit: {with: nut, turns: 1 1/2, feels: binds, where: mouth}, "
        "agreed: {asked: Looser., agreed: No., on: 2026-03-03, with: customer}, time: 25 min, finished: yes"
    ))
    (line,) = history(sheet).lines
    assert (line.at, line.by, line.marks) == ("2026-03-04", "KL", ("agreed", "finished"))
    assert dict(line.said) == {
        "Dial": "0.095 in; cross slide 1 turn and 12 thou",
        "Measured": "over wires 2.2748 in, with micrometer, both ends",
        "Fit": "nut, 1 1/2 turns, binds, mouth",
        "Agreed": "asked: Looser. Agreed on 2026-03-03 with customer: No.",
        "Took": "25 min",
    }


def test_a_log_of_a_job_without_a_thread(logged: Logged) -> None:
    only = {
        "  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}\n": "",
        "  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}\n": "",
    }
    text = entry("operation: turn, finished: yes, time: 30 min") + entry("pass: 3")
    sheet = logged(text + entry("operation: turn, stop: {why: dinner}"), only)
    assert history(sheet).passes == ()
    assert found(sheet)["log-pass"].startswith("check 2: Pass 3 is one of the pass table, but this")
    assert "dial_line" not in found(sheet)["log-stop"]
