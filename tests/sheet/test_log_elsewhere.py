"""The log of work that goes on elsewhere or otherwise: another lathe, another tool, starts, further sizes."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.calc.balls import between_balls
from generator.calc.flanks import Flanks
from generator.job.log_names import log_names
from generator.job.reading import ReadJob, read_job, read_log
from generator.job.shop import Shop
from generator.sheet.compute import compute_sheet
from generator.sheet.happened import History
from generator.sheet.model import Sheet
from generator.si import degree, inch, mm

Logged = Callable[..., Sheet]
COS = math.cos(29.5 * degree)
LEFT = (
    "- {at: 2026-03-04 14:20, operation: thread, pass: 11, dial: 0.074, turns: 0, stop: yes}\n"
)


@pytest.fixture
def logged(read_of: Callable[..., ReadJob], shop: Shop) -> Logged:
    """`logged(text of the log, changes of the job)`: the sheet of the pin with that log, names checked."""

    def make(text: str, changes: dict[str, str] | None = None) -> Sheet:
        read = read_of(changes)
        return compute_sheet(read, shop, log_of(read, shop, text))

    return make


def log_of(read: ReadJob, shop: Shop, text: str):
    dials = shop.lathes[read.job.lathe].units
    names = log_names(read.job, shop)
    return read_log(read.path.with_name("log.yml"), read.job.units, dials, text.encode(), names)


def history(sheet: Sheet) -> History:
    assert sheet.history is not None
    return sheet.history


def said(sheet: Sheet, id: str) -> str:
    return next((one.text for one in sheet.findings if one.id == id), "")


# -- another lathe --------------------------------------------------------------------------------------


def test_readings_after_a_change_of_lathe_are_read_on_its_dials(logged: Logged, shop: Shop) -> None:
    """Left at 0.074 in; on the metric lathe 1.00 mm in the groove, then 1.10 mm: 0.1 mm further."""
    metric = shop.lathes["metric"]
    assert metric.compound_dial.reads == "radius"
    text = LEFT + (
        "- {at: 2026-03-05, operation: thread, taken_up: {lathe: metric, dial: 1.00, turns: 0}}\n"
        "- {at: 2026-03-05, operation: thread, pass: 12, dial: 1.10, turns: 0}\n"
    )
    sheet = logged(text)
    assert not history(sheet).problems
    last = history(sheet).passes[-1]
    assert last.depth == pytest.approx((0.074 * inch + 0.1 * mm) * COS, abs=1e-9)
    assert last.dial == "1.10 mm"
    assert "on L3 Metric lathe: the dial readings of the pass table are those of L1 Long lathe" in said(
        sheet, "log-zero"
    )
    assert "cannot be compared" in said(sheet, "log-zero")
    assert sheet.corrections.dials == sheet.to_size.dials == "mm"
    assert sheet.to_size.feed_dial == pytest.approx(metric.compound_dial.division.si)
    left = history(sheet).left_on_dial
    assert (left.lathe, left.dials) == ("L3 Metric lathe", "mm")
    assert [row[0] for row in left.rows] == [line.number for line in sheet.passes if line.number > 12]
    plan = {line.number: line for line in sheet.passes}
    for number, depth, turns, shown in left.rows:
        assert depth == plan[number].depth
        travel = turns * metric.compound_dial.turn.si + shown  # this dial reads the travel
        planned = plan[number].travel + (1.00 * mm - 0.074 * inch)
        assert 0 <= planned - travel < metric.compound_dial.division.si / 2 + 1e-9


def test_a_dial_that_reads_diameter_is_halved(logged: Logged, shop: Shop) -> None:
    """Straight in on the cross slide: 0.40 mm more on a dial that reads diameter is 0.20 mm deeper."""
    assert shop.lathes["metric"].cross_dial.reads == "diameter"
    text = LEFT + (
        "- {at: 2026-03-05, operation: thread, taken_up: {lathe: metric, dial: 1.00, turns: 0}}\n"
        "- {at: 2026-03-05, operation: thread, pass: 12, dial: 1.40, turns: 0}\n"
    )
    sheet = logged(text, {"tool: V1}": "tool: V1, infeed: {method: plunge}}"})
    first, last = history(sheet).passes
    assert last.depth - first.depth == pytest.approx(0.20 * mm, abs=1e-9)


def test_without_its_dial_in_the_groove_no_depth_is_made_up(logged: Logged) -> None:
    text = LEFT + (
        "- {at: 2026-03-05, operation: thread, taken_up: {lathe: metric}}\n"
        "- {at: 2026-03-05, operation: thread, pass: 12, dial: 1.10}\n"
    )
    sheet = logged(text)
    assert history(sheet).passes[-1].depth is None
    assert history(sheet).left_on_dial is None
    assert "is not known: bring the tool into the groove" in said(sheet, "log-zero")


@pytest.mark.parametrize(
    ("entry", "problem"),
    [
        ("taken_up: {lathe: long-bet}",
         '1:38: taken_up.lathe: "long-bet" is not a lathe of this shop: did you mean long-bed? The shop has '
         "long-bed, metric, thirteen-inch"),
        ("taken_up: {tool: Q9}", '1:37: taken_up.tool: "Q9" is not a tool of this shop: '),
        ("pass: 3, start: 2",
         '1:36: start: "2" is not a start of this thread, which has one start: leave start out'),
        ("pass: 3, start: 0", '1:36: start: "0" is zero: write a whole number from 1 up'),
    ],
)
def test_what_there_is_not_is_an_error_at_its_place(
    read_of: Callable[..., ReadJob], shop: Shop, entry: str, problem: str
) -> None:
    log = log_of(read_of(), shop, f"- {{at: 2026-03-04, {entry}}}\n")
    (one,) = log.problems
    assert re.sub(r"^.*log\.yml:", "", str(one)).startswith(problem)


def test_on_a_lathe_that_is_not_known_nothing_is_read(logged: Logged) -> None:
    text = LEFT + (
        "- {at: 2026-03-05, operation: thread, taken_up: {lathe: nowhere, dial: 0.1}}\n"
        "- {at: 2026-03-05, operation: thread, pass: 12, dial: 0.102}\n"
    )
    sheet = logged(text)
    assert history(sheet).problems
    assert history(sheet).passes[-1].depth is None
    assert "does not have" in said(sheet, "log-zero")


# -- another tool ---------------------------------------------------------------------------------------


def tool(more: str) -> str:
    return LEFT + f"- {{at: 2026-03-05, operation: thread, taken_up: {{dial: 0.074, {more}}}}}\n"


def test_a_wider_flat_rests_higher_by_the_triangle_it_fills(logged: Logged) -> None:
    """ASME B1.1-2003: the triangle of a 60 degree thread is 0.866025 of its base high."""
    sheet = logged(tool("flat: 0.016"))
    assert sheet.figures["log.rests_higher"].value == pytest.approx(0.866025 * 0.004 * inch, rel=1e-6)
    assert "0.0040 in (0.102 mm) wider" in said(sheet, "log-tool")
    assert "rests 0.0035 in (0.088 mm) higher" in said(sheet, "log-tool")


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ("tool: V6", "Its flat is 0.0080 in (0.203 mm) narrower: it meets the bottom of the groove"),
        ("tool: V3", "is not known, so how high it rests"),
        ("tool: V5", "It is ground to 55 degrees, the thread has 60"),
        ("flat: 0.012", "Its flat is that of the tool before"),
    ],
)
def test_what_another_tool_means_is_said(logged: Logged, more: str, words: str) -> None:
    assert words in said(logged(tool(more)), "log-tool")


# -- starts ---------------------------------------------------------------------------------------------


def test_the_starts_stand_apart_and_one_left_behind_is_said(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    path = next(
        one for one in sorted((Path(__file__).parents[2] / "jobs").glob("*/*/job.yml"))
        if (names := log_names(read_job(one).job, shop)).starts and names.starts > 1
    )
    read = read_job(path)
    plan = compute_sheet(read, shop).passes
    assert plan
    starts = log_names(read.job, shop).starts

    def one(number: int, start: int) -> str:
        line = plan[number - 1]
        dial = line.dial_reading / (inch if shop.lathes[read.job.lathe].units == "inch" else mm)
        return (
            f"- {{at: 2026-03-04, operation: thread, pass: {number}, start: {start}, "
            f"turns: {line.dial_turns}, dial: {dial:.4f}}}\n"
        )

    even = "".join(one(1, start) for start in range(1, starts + 1))
    sheet = compute_sheet(read, shop, log_of(read, shop, even))
    assert not said(sheet, "log-starts")
    assert [(taken.number, taken.start) for taken in history(sheet).passes] == [
        (1, start) for start in range(1, starts + 1)
    ]
    sheet = compute_sheet(read, shop, log_of(read, shop, even + one(2, 1)))
    assert "the furthest is at pass 2, start 2 is at pass 1" in said(sheet, "log-starts")
    log = log_of(read, shop, f"- {{at: 2026-03-04, pass: 1, start: {starts + 1}}}\n")
    assert f"which has {starts} starts: write 1 to {starts}" in str(log.problems[0])


# -- further sizes --------------------------------------------------------------------------------------


def test_the_root_is_twice_the_depth_below_the_blank_and_only_more_than_can_be_read_is_said(
    logged: Logged,
) -> None:
    """Arithmetic: root diameter after a pass = blank - 2 x depth."""
    plain = logged("[]")
    root = (plain.figures["thread.blank"].value - 2 * plain.passes[10].depth) / inch
    for off, differs in ((0.001, False), (-0.004, True)):
        sheet = logged(f"- {{at: 2026-03-04, pass: 11, measured: {{minor: {root + off:.5f}}}}}\n")
        (size,) = history(sheet).passes[0].others
        assert size.expected == pytest.approx(root * inch, abs=2e-7)
        assert size.differs is differs
        assert any("root diameter" in one for one in history(sheet).says) is differs


def test_a_size_between_balls_stands_beside_that_of_its_pass_and_gives_the_pitch_diameter(shop: Shop) -> None:
    path = next((Path(__file__).parents[2] / "jobs").glob("*/SW-107-*/job.yml"))
    read = read_job(path)
    plain = compute_sheet(read, shop)
    line, ball = plain.passes[-1], plain.figures["thread.balls.size"].value
    pitch, flanks = plain.figures["thread.pitch"].value, 30 * degree
    size = between_balls(line.pitch_diameter, ball, pitch, 1, Flanks.alike(flanks)) + 0.0004 * inch
    text = f"- {{at: 2026-03-04, pass: {line.number}, measured: {{between_balls: {size / mm:.4f} mm}}}}\n"
    sheet = compute_sheet(read, shop, log_of(read, shop, text))
    (one,) = history(sheet).passes
    assert one.others[0].size - one.others[0].expected == pytest.approx(0.0004 * inch, abs=1e-7)
    assert not one.others[0].differs
    assert one.size - one.expected == pytest.approx(0.0004 * inch, rel=0.02)
