"""How long a job takes, from operations made by hand.

The thread is 50 mm long with 6 mm of run-out, lead 2 mm, 120 rev/min, 12 passes, 13 s a pass for return and
handling: 12 × (56 ÷ 4 + 13) = 324 s by the arithmetic of the leadscrew. Allowances are common practice, no
source; rates and times of the shop are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from generator.calc.operation_time import dial_wait
from generator.errors import Location
from generator.job.model import Job
from generator.job.reading import ReadJob
from generator.job.shop import House, Shop, Times
from generator.job.written import Given
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.lathe_settings import lathe_section
from generator.sheet.layout import lay_out
from generator.sheet.lines import OperationLine
from generator.sheet.model import Sheet
from generator.sheet.passes import pass_section
from generator.sheet.plans import OperationPlan
from generator.sheet.thread import thread_section
from generator.sheet.time_allowed import ALLOWED, Timing
from generator.sheet.time_taken import closing_travel, given_times, time_section
from generator.si import minute, mm

LEAD, STEP, PASSES = 2 * mm, 120 / 60, 12
CUT = PASSES * 0.056 / (LEAD * STEP)  # 168 s
INCH = Fraction(127, 5)  # mm
ANY = "any, of high-speed steel"  # no tool of the shop is named


def given(si: float, text: str, quantity: str = "time") -> Given:
    return Given(si, text, quantity, where=Location(Path("house.yml"), 3))


def times(**seconds: float) -> Times:
    return Times.model_construct(
        **dict.fromkeys(Times.model_fields)
        | {name: given(value, f"{value:g} s") for name, value in seconds.items()}
    )


@pytest.fixture
def timing(job_of: Callable[..., Job], shop: Shop) -> Callable[..., Timing]:
    """A pin threaded as at the head of this file; `closed` keeps the half nuts closed all the time."""

    def make(
        changes: dict[str, str] | None = None, *, closed: bool = False, house: House | None = None,
        passes: int = PASSES,
    ) -> Timing:  # fmt: skip
        job, desk = job_of(changes), Desk()
        lathe = shop.lathes[job.lathe]
        rules = house or shop.house.model_copy(update={"times": times(), "rate": None})
        thread = thread_section(job, shop.tools, lay_out(job), desk)
        assert thread is not None
        levers = lathe_section(job, lathe, rules, None, thread, desk)
        cuts = pass_section(job, lathe, rules, None, thread, desk)
        first = replace(cuts.passes[0], measure=False, try_mate=False, spring=False)
        marked = replace(first, measure=True)
        lines = (*[first] * (passes - 3), replace(marked, try_mate=True), marked, marked)
        return Timing(
            job,
            shop.lathes["metric"],
            rules,
            replace(thread, lead=LEAD),
            replace(levers, spindle_speed=STEP, lead=Fraction(2), keep_half_nuts_closed=closed),
            replace(cuts, passes=lines),
            Desk(),
        )

    return make


def operation(
    timing: Timing,
    number: int,
    name: str,
    cut: float | None,
    depths: int = 1,
    *,
    tool: str = "",
    hold: str = "",
) -> tuple[OperationPlan, OperationLine]:
    figures = {"time": f"operation.{number}.time"}
    if tool:
        kind = Kind.ASSUMED if tool == ANY else Kind.SHOP
        timing.desk.lay(Figure(f"operation.{number}.tool", "Tool", tool, "text", kind, "x"))
        figures["tool"] = f"operation.{number}.tool"
    plan = OperationPlan(number, name, 0.0, 0.1, 0.06, 0.05, depths=(0.001,) * depths, cut_time=cut)
    return plan, OperationLine(number, name, f"{name} it", figures, hold=hold)


def run(
    timing: Timing, *operations: tuple[OperationPlan, OperationLine], given: dict[int, Given] | None = None
) -> dict[str, float]:
    """The times laid, s."""
    plans, lines = zip(*operations, strict=True)
    time_section(plans, lines, given or {}, timing)
    return {
        name: figure.value for name, figure in timing.desk.figures.items() if isinstance(figure.value, float)
    }


# Threading


def test_a_thread_takes_its_passes_its_returns_and_the_wait_for_the_dial(
    timing: Callable[..., Timing], shop: Shop
) -> None:
    bench = timing(house=shop.house.model_copy(update={"times": times(come_back=13.0), "rate": None}))
    laid = run(bench, operation(bench, 1, "thread", CUT))
    wait = laid["time.dial_wait"]
    taken = laid["time.cut"] + laid["time.return"]
    assert taken == pytest.approx(324.0 + PASSES * wait)


def test_the_next_place_of_the_dial_is_the_first_that_fits_leadscrew_and_thread(shop: Shop) -> None:
    """A leadscrew of 4 in an inch, 16 teeth, 8 lines: half an inch a line, looked for by trying."""
    for tpi in (4, 5, 6, 7, 8, 11.5):
        lead = INCH / Fraction(tpi)
        every = INCH / 4 if (INCH / 4 / lead).denominator == 1 else INCH / 2
        fits = next(
            k * every for k in range(1, 9)
            if (k * every / lead).denominator == 1 and (k * every / (INCH / 4)).denominator == 1
        )  # fmt: skip
        assert closing_travel(shop.lathes["long-bed"], lead) == pytest.approx(float(fits) * mm)


def test_the_average_wait_is_that_of_a_hand_that_comes_at_any_moment(shop: Shop) -> None:
    """Simulated: the right line passes the mark again and again, the hand comes at moments of its own."""
    travel, lead, step = closing_travel(shop.lathes["long-bed"], INCH / 7), 25.4 * mm / 7, 0.5
    assert travel is not None
    around = travel / (lead * step)
    waits = -np.random.default_rng(7).uniform(0, 1000 * around, 200_000) % around
    assert dial_wait(travel, lead, step) == pytest.approx(np.mean(waits), rel=0.01)


def test_half_nuts_that_stay_closed_run_back_as_long_as_the_pass(
    timing: Callable[..., Timing], shop: Shop
) -> None:
    """2 mm on a leadscrew of 4 in an inch: the dial finds it nowhere."""
    assert closing_travel(shop.lathes["long-bed"], Fraction(2)) is None
    bench = timing(closed=True)
    laid = run(bench, operation(bench, 1, "thread", CUT))
    assert laid["time.run_back"] == pytest.approx(14.0)  # 56 mm at 2 mm and 2 rev/s
    assert laid["time.return"] == pytest.approx(PASSES * (14.0 + ALLOWED["come_back"][1]))
    assert "time.dial_wait" not in laid


def test_a_thread_is_measured_at_the_marked_passes_and_tried_at_the_marked_one_and_at_the_end(
    timing: Callable[..., Timing],
) -> None:
    bench = timing()
    laid = run(bench, operation(bench, 1, "thread", CUT))
    assert laid["time.measure"] == 3 * minute
    assert laid["time.fit"] == 2 * 2 * minute


def test_change_gears_take_their_time_where_the_lead_needs_them(timing: Callable[..., Timing]) -> None:
    plain, geared = timing(), timing()
    geared.desk.chosen("lathe.change_gears", "Change gears", None, "40 to 127", "text", "x")  # type: ignore[arg-type]
    without = run(plain, operation(plain, 1, "thread", CUT))["time.set_up"]
    with_gears = run(geared, operation(geared, 1, "thread", CUT))["time.set_up"]
    assert with_gears - without == ALLOWED["gears"][1]


def test_two_starts_are_two_threads_of_passes(timing: Callable[..., Timing]) -> None:
    bench = timing()
    assert bench.thread is not None
    double = replace(bench.thread, designation=replace(bench.thread.designation, starts=2))
    bench = replace(bench, thread=double)
    laid = run(bench, operation(bench, 1, "thread", 2 * CUT))
    assert laid["time.return"] == pytest.approx(24 * (ALLOWED["come_back"][1] + laid["time.dial_wait"]))


# Other operations


def test_a_tool_is_changed_only_where_another_one_is_needed(timing: Callable[..., Timing]) -> None:
    bench = timing()
    laid = run(
        bench,
        operation(bench, 1, "face", 60.0, tool="T1"),
        operation(bench, 2, "turn", 60.0, tool="T1"),
        operation(bench, 3, "chamfer", 60.0, tool="T2"),
        operation(bench, 4, "groove", 60.0, tool=ANY),
        operation(bench, 5, "part_off", 60.0, tool=ANY),
    )
    assert laid["time.set_up"] - laid["time.work"] == 4 * ALLOWED["tool"][1]  # not before the second
    assert laid["operation.2.total_time"] == 60.0 + ALLOWED["come_back"][1]


def test_the_tool_comes_back_after_every_cut_and_a_hold_point_is_measured(
    timing: Callable[..., Timing],
) -> None:
    bench = timing()
    laid = run(bench, operation(bench, 1, "turn", 300.0, 4, tool="T1", hold="measure it"))
    back, once, tool = (ALLOWED[name][1] for name in ("come_back", "measure", "tool"))
    assert laid["operation.1.return_time"] == 4 * back
    assert laid["operation.1.total_time"] == tool + 300.0 + 4 * back + once


def test_steady_rest_and_center_belong_to_setting_the_work_up(timing: Callable[..., Timing]) -> None:
    """The pin runs on a center; with a steady rest besides it takes the steady rest's time more."""
    on_center, both = timing(), timing({"  center: live": "  center: live\n  steady: {at: 6}"})
    laid = [run(bench, operation(bench, 1, "face", 60.0))["time.work"] for bench in (on_center, both)]
    assert laid[0] == ALLOWED["set_up"][1] + ALLOWED["center"][1]
    assert laid[1] - laid[0] == ALLOWED["steady"][1]


# The whole job


def route(bench: Timing) -> list[tuple[OperationPlan, OperationLine]]:
    return [
        operation(bench, 1, "face", 90.0, 2, tool="T1"),
        operation(bench, 2, "turn", 1500.0, 4, tool="T1", hold="measure it"),
        operation(bench, 3, "thread", CUT, tool="V1"),
    ]


PARTS = ("set_up", "cut", "return", "measure", "fit", "hand_over")


def test_the_route_adds_up_to_the_whole_both_ways(timing: Callable[..., Timing]) -> None:
    bench = timing()
    laid = run(bench, *route(bench))
    by_kind = sum(laid[f"time.{part}"] for part in PARTS)
    by_line = laid["time.work"] + laid["time.hand_over"]
    by_line += sum(laid[f"operation.{number}.total_time"] for number in (1, 2, 3))
    assert laid["time.total"] == pytest.approx(by_kind)
    assert laid["time.total"] == pytest.approx(by_line)
    assert bench.desk.figures["time.total"].label == "The whole job"


def test_the_time_column_of_each_line_is_its_whole_time(timing: Callable[..., Timing]) -> None:
    bench = timing()
    plans, lines = zip(*route(bench), strict=True)
    done = time_section(plans, lines, {}, bench)
    assert [line.figures["time"] for line in done] == [f"operation.{n}.total_time" for n in (1, 2, 3)]
    assert all(line.figures["tool"] for line in done)


def test_a_time_that_the_job_gives_wins(timing: Callable[..., Timing]) -> None:
    bench = timing()
    laid = run(bench, *route(bench), given={2: given(40 * minute, "40 min")})
    figure = bench.desk.figures["operation.2.total_time"]
    assert (figure.value, figure.kind, figure.text) == (40 * minute, Kind.GIVEN, "40 min")
    assert laid["time.given"] == 40 * minute
    assert laid["time.cut"] == pytest.approx(90.0 + CUT)
    assert laid["time.total"] == pytest.approx(sum(laid[f"time.{part}"] for part in PARTS) + 40 * minute)


def test_the_times_of_a_job_file_find_their_operations_in_any_order(read_of: Callable[..., ReadJob]) -> None:
    read = read_of(
        {"length: 2 7/8}\n  - relief: {": "length: 2 7/8, time: 40 min}\n  - relief: {time: 9 min, "}
    )
    lines = tuple(
        OperationLine(number, name, name, {}, where=read.where(f"operations.{place}"))
        for number, (place, name) in enumerate(((2, "thread"), (1, "relief"), (0, "turn")), 1)
    )
    added = replace(lines[0], number=4, name="face", where=None, proposed=True)
    found = given_times(read, (*lines, added))
    assert {number: time.si for number, time in found.items()} == {2: 9 * minute, 3: 40 * minute}


def test_a_given_time_stands_in_for_one_that_cannot_be_computed(timing: Callable[..., Timing]) -> None:
    bench = timing()
    run(bench, operation(bench, 1, "knurl", None), given={1: given(600.0, "10 min")})
    assert bench.desk.figures["time.total"].label == "The whole job"


@pytest.mark.parametrize("missing", ["cut", "thread", "levers", "cuts"])
def test_what_is_unknown_makes_the_whole_at_least_and_is_named(
    timing: Callable[..., Timing], missing: str
) -> None:
    bench = timing()
    if missing != "cut":
        bench = replace(bench, **{missing: None})  # type: ignore[arg-type]
    thread = operation(bench, 3, "thread", None if missing == "cut" else CUT)
    laid = run(bench, operation(bench, 1, "face", 90.0), thread)
    total = bench.desk.figures["time.total"]
    assert total.label == "The whole job, at least"
    assert "3 thread it" in total.note
    assert bench.desk.figures["operation.3.total_time"].kind is Kind.UNKNOWN
    assert laid["time.cut"] == 90.0  # nothing of the unknown operation is counted, its tool change neither
    assert laid["time.set_up"] - laid["time.work"] == ALLOWED["tool"][1]


def test_no_operations_no_times(timing: Callable[..., Timing]) -> None:
    bench = timing()
    assert time_section((), (), {}, bench) == ()
    assert not bench.desk.figures


# The shop's own times and rate


def test_the_shops_own_times_go_before_common_practice(timing: Callable[..., Timing], shop: Shop) -> None:
    own = times(set_up=1800.0, measure=30.0, hand_over=600.0)
    bench = timing(house=shop.house.model_copy(update={"times": own, "rate": None}))
    laid = run(bench, *route(bench))
    kinds = {name: bench.desk.figures[f"time.allowed.{name}"].kind for name in ("set_up", "measure", "fit")}
    assert kinds == {"set_up": Kind.SHOP, "measure": Kind.SHOP, "fit": Kind.ASSUMED}
    assert laid["time.work"] == 1800.0 + ALLOWED["center"][1]
    assert laid["time.measure"] == 4 * 30.0
    assert bench.desk.figures["time.hand_over"].kind is Kind.SHOP


def test_every_allowance_is_a_time_of_the_house_and_says_that_it_has_no_source(
    timing: Callable[..., Timing],
) -> None:
    assert set(ALLOWED) == set(Times.model_fields)
    bench = timing()
    run(bench, *route(bench))
    assumed = [
        figure for name, figure in bench.desk.figures.items() if name.startswith("time.") and figure.assumed
    ]
    assert {figure.name for figure in assumed} >= {"time.allowed.set_up", "time.hand_over"}
    assert all(figure.source == "common practice, no source" for figure in assumed)


def test_a_price_stands_only_where_the_shop_has_a_rate(timing: Callable[..., Timing], shop: Shop) -> None:
    bench = timing()
    assert "time.price" not in run(bench, *route(bench))
    rate = {"times": times(), "rate": given(54.0, "54", "ratio"), "currency": "pounds"}
    bench = timing(house=shop.house.model_copy(update=rate))
    laid = run(bench, *route(bench))
    assert laid["time.price"] == pytest.approx(laid["time.total"] / 3600 * 54.0)
    price = bench.desk.figures["time.price"]
    assert price.label == "Estimate to quote from, pounds"
    assert price.note.startswith("an estimate, not a quotation")
    assert "material" in price.note


def test_a_price_that_rests_on_an_unknown_says_at_least(timing: Callable[..., Timing], shop: Shop) -> None:
    rate = {"times": times(), "rate": given(54.0, "54", "ratio"), "currency": None}
    bench = timing(house=shop.house.model_copy(update=rate))
    run(bench, operation(bench, 1, "face", None))
    assert bench.desk.figures["time.price"].label == "Estimate to quote from, at least"


# On the sheet

TURN = {"length: 2 7/8}\n": "length: 2 7/8, from_diameter: 2 3/4}\n"}


def test_the_sheet_of_a_job_adds_its_route_up(sheet_of: Callable[..., Sheet]) -> None:
    sheet = sheet_of(TURN)
    value = {name: figure.value for name, figure in sheet.figures.items()}
    parts = [value[line.figures["time"]] for line in sheet.operations]
    assert all(isinstance(part, float) for part in parts)
    assert value["time.total"] == pytest.approx(value["time.work"] + sum(parts) + value["time.hand_over"])
    (section,) = (section for section in sheet.sections if section.id == "time")
    assert {"time.set_up", "time.cut", "time.return", "time.measure", "time.fit"} <= set(section.figures)


def test_the_thread_of_a_sheet_takes_as_long_as_its_own_passes(sheet_of: Callable[..., Sheet]) -> None:
    """Spring passes are cut, brought back and waited for like the others."""
    sheet = sheet_of(TURN)
    number = sheet.operations[-1].number
    value = {name: figure.value for name, figure in sheet.figures.items()}
    passes, each = len(sheet.passes), value["time.allowed.come_back"] + value["time.dial_wait"]
    assert value[f"operation.{number}.return_time"] == pytest.approx(passes * each)
    assert value[f"operation.{number}.time"] == pytest.approx(passes * value[f"operation.{number}.time_each"])


def test_a_time_in_the_job_file_stands_in_the_route_as_it_was_written(sheet_of: Callable[..., Sheet]) -> None:
    sheet = sheet_of({"length: 2 7/8}\n": "length: 2 7/8, time: 40 min}\n"})
    figure = sheet.figures[sheet.operations[0].figures["time"]]
    assert (figure.value, figure.text, figure.kind) == (40 * minute, "40 min", Kind.GIVEN)
    assert figure.where is not None
    assert sheet.figures["time.total"].label == "The whole job"


def test_an_unknown_material_leaves_the_thread_out_of_the_time(sheet_of: Callable[..., Sheet]) -> None:
    sheet = sheet_of({"material: 1045 steel\nmaterial_known_by: stamp": "material: unknown"})
    assert sheet.figures["time.total"].label == "The whole job, at least"
    assert "Cut 2 1/4-8 UN-2A" in sheet.figures["time.total"].note


def test_a_second_thread_is_not_timed_by_the_passes_of_the_first(sheet_of: Callable[..., Sheet]) -> None:
    thread = "  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}\n"
    one, two = sheet_of(TURN), sheet_of({**TURN, thread: f"{thread}{thread}"})
    number = two.operations[-1].number
    assert two.figures[f"operation.{number}.total_time"].kind is Kind.UNKNOWN
    assert two.figures["time.cut"].value == one.figures["time.cut"].value
    assert two.figures["time.total"].label == "The whole job, at least"
    assert "a job of its own" in two.operations[-1].detail
