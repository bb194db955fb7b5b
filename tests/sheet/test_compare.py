"""One job on the three lathes of the demo shop, compared both ways, and the best of them.

The facts are of the trade: what stands in a lathe's record against what the job asks. Where the half nuts may
close follows the principle in Jones, Turning and Boring (1914), on catching the thread; the words for the
lines are the project's own.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, permutations
from pathlib import Path

import pytest

from generator.calc.thread_dial import dial_rule
from generator.job.reading import ReadJob, find_jobs, read_job
from generator.job.shop import Shop
from generator.job.written import Given
from generator.sheet.best_lathe import ease, ranking
from generator.sheet.compare import Compared, OnLathe, Row
from generator.sheet.compare_lines import lathe_lines
from generator.sheet.compute import compute_sheet
from generator.sheet.model import Sheet
from generator.sheet.other_lathes import Comparison, comparison, on_lathe

JOBS = Path(__file__).parents[2] / "jobs"
DEMO = find_jobs(JOBS)
LONG, THIRTEEN, METRIC = "long-bed", "thirteen-inch", "metric"
LATHES = (LONG, METRIC, THIRTEEN)


def named(path: Path) -> str:
    return path.parent.name


def moved(read: ReadJob, lathe: str) -> ReadJob:
    """The job as if its file named another lathe."""
    return replace(read, job=read.job.model_copy(update={"lathe": lathe}))


def without_choices(read: ReadJob) -> ReadJob:
    """The job with no spindle step and no place of the steady rest in its file."""
    operations = [
        one.model_copy(update={one.name: one.given.model_copy(update={"spindle": None})})
        for one in read.job.operations
    ]
    holding = read.job.holding
    if holding.steady is not None:
        holding = holding.model_copy(update={"steady": holding.steady.model_copy(update={"at": "auto"})})
    return replace(read, job=read.job.model_copy(update={"operations": operations, "holding": holding}))


def beside(compared: Comparison, lathe: str) -> Compared:
    (found,) = (one for one in compared.others if one.there.lathe.lathe == lathe)
    return found


def row(compared: Compared, id: str) -> Row:
    (found,) = (row for row in compared.rows if row.id == id)
    return found


def said(sheet: Sheet) -> tuple[object, ...]:
    """All that a sheet says, apart from its title block and its place in the archive."""
    figures = {name: (one.value, one.kind, one.note, one.source) for name, one in sheet.figures.items()}
    return figures, sheet.findings, sheet.passes, sheet.pass_dial, sheet.ready


# both ways, over the whole demo archive


@pytest.mark.parametrize("path", DEMO, ids=named)
def test_there_is_what_the_sheet_says_when_the_job_file_names_that_lathe(
    path: Path, shop: Shop, tmp_path: Path
) -> None:
    text = path.read_text(encoding="utf-8")
    read = read_job(path)
    here = OnLathe(shop.lathes[read.job.lathe], compute_sheet(read, shop))
    (tmp_path / "_shop").mkdir()  # an archive, in which the job that takes its place is looked for
    for follows in JOBS.glob(f"*/{read.job.superseded_by}-*"):
        shutil.copytree(follows, tmp_path / "2026" / follows.name)
    for name in LATHES:
        other = on_lathe(read, shop, name, here)
        file = tmp_path / "2026" / path.parent.name / "job.yml"
        shutil.copytree(path.parent, file.parent, dirs_exist_ok=True)  # its pictures, too
        changed = text.replace(f"lathe: {read.job.lathe}", f"lathe: {name}")
        for gone in other.let_go:
            step, place = f"      spindle: {gone.written}", f"at: {gone.written.removesuffix(' in')}}}"
            assert (step in text) is gone.field.endswith(".spindle")
            assert (place in text) is (gone.field == "holding.steady.at")
            changed = changed.replace(step, "      # no step").replace(place, "at: auto}")
        file.write_text(changed, encoding="utf-8")
        figures, findings, *rest = said(compute_sheet(read_job(file), shop))
        assert (figures, *rest) == (said(other.sheet)[0], *said(other.sheet)[2:])
        assert [(one.id, one.level, one.text) for one in findings] == [
            (one.id, one.level, one.text) for one in other.sheet.findings
        ]


@pytest.mark.parametrize("path", DEMO, ids=named)
def test_what_changes_one_way_changes_the_other_way(path: Path, shop: Shop) -> None:
    read = without_choices(read_job(path))
    on = {name: comparison(moved(read, name), shop) for name in LATHES}
    for here, there in combinations(LATHES, 2):
        out, back = beside(on[here], there), beside(on[there], here)
        assert {one.id for one in out.rows} == {one.id for one in back.rows}
        for one in out.rows:
            other = row(back, one.id)
            assert (one.here, one.there) == (other.there, other.here)
            assert (one.verdict == "stays") == (other.verdict == "stays"), one.id


@pytest.fixture(scope="module", params=DEMO, ids=named)
def compared(request: pytest.FixtureRequest, shop: Shop) -> Comparison:
    """A job of the demo archive on all lathes."""
    return comparison(read_job(request.param), shop)


def test_every_new_stop_is_said_in_a_row_that_cannot_be_done(compared: Comparison) -> None:
    known = {(one.id, one.where) for one in compared.here.stops}
    for one in compared.others:
        reasons = " ".join(row.reason for row in one.having("cannot be done"))
        for stop in one.there.stops:
            if (stop.id, stop.where) not in known:
                assert stop.text in reasons
        assert one.can_be_done is one.there.sheet.ready


def test_every_row_that_does_not_stay_says_what_or_why(compared: Comparison) -> None:
    for one in compared.others:
        assert one.rows
        for found in one.rows:
            assert found.label
            assert not re.search(r"\bsafe\b", found.reason.lower())
            if found.verdict in ("cannot be done", "not known"):
                assert found.reason, found.id
            if found.verdict == "stays":
                assert found.reason == ""
            elif found.verdict == "changes":
                assert found.reason or found.here != found.there, found.id


def test_the_rows_come_in_the_order_of_the_trade(shop: Shop) -> None:
    compared = comparison(read_job(next(path for path in DEMO if "SW-113" in str(path))), shop)
    for one in compared.others:
        ids = [found.id for found in one.rows]
        asked = ["capacity.swing_over_bed", "capacity.chuck", "lathe.gearbox", "lathe.thread_dial",
                 "spindle.step", "passes.dial", "power.most", "not_checked"]
        assert [id for id in ids if id in asked] == asked


# facts of the trade


def test_eight_threads_any_place_on_both_inch_lathes(read_of: Callable[..., ReadJob], shop: Shop) -> None:
    """A leadscrew of 4 or of 8 threads an inch has its own groove wherever it closes on 8."""
    dial = row(beside(comparison(read_of(), shop), THIRTEEN), "lathe.thread_dial")
    assert dial.verdict == "stays"
    assert {dial.here.figures[0].value, dial.there.figures[0].value} == {"any place"}  # type: ignore[union-attr]


def test_seven_threads_numbered_lines_on_four_and_one_opposite_pair_on_eight(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    """Dials of 16 teeth and 8 lines: a number every inch on 4 threads, every half inch on 8.

    Seven grooves come round in one inch and in no less.
    """
    read = read_of({"2 1/4-8 UN-2A": "1 1/4-7 UNC-2A", "2 1/4-8 UN-2B": "1 1/4-7 UNC-2B", "2 1/4": "1 1/4",
                    "2.060": "1.040"})
    dial = row(beside(comparison(read, shop), THIRTEEN), "lathe.thread_dial")
    assert dial.verdict == "changes"
    assert str(dial.here.figures[0].value).startswith("numbered lines")  # type: ignore[union-attr]
    assert str(dial.there.figures[0].value).startswith("one opposite pair")  # type: ignore[union-attr]
    assert "leads of 1/7 in" in dial.reason


def test_without_a_dial_an_inch_thread_on_a_metric_leadscrew_keeps_the_half_nuts_closed(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    dial = row(beside(comparison(read_of(), shop), METRIC), "lathe.thread_dial")
    assert dial.verdict == "not known"
    assert "no thread dial" in dial.reason
    assert "Keep them closed to the end" in dial.reason


def test_nine_inches_do_not_pass_over_the_cross_slide_of_a_thirteen_inch_lathe(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    """The record: 13 in over the bed, 8 in over the cross slide; the long lathe has 12 1/2 in there."""
    read = read_of({"{length: 11 5/8, od: 2.75}": "{length: 4, od: 2.75}\n  - {length: 7 5/8, od: 9}"})
    there = beside(comparison(read, shop), THIRTEEN)
    assert row(there, "capacity.swing_over_cross_slide").verdict == "cannot be done"
    assert "L2 Thirteen-inch lathe swings 8 in there" in row(there, "capacity.swing_over_cross_slide").reason
    assert row(there, "capacity.swing_over_bed").verdict == "stays"
    assert not there.can_be_done


def test_a_bar_of_two_inches_passes_two_of_the_three_spindles(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    """Spindle bores on record: 3 1/8 in, 1 3/8 in and 52 mm, which is 2.047 in."""
    read = read_of({
        "{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2}", "2 1/4-8": "1 1/2-8", "2 1/4": "1 1/2",
        "2.060": "1.310", "  center: live": "  center: live\n  behind_spindle: 20",
    })
    compared = comparison(read, shop)
    assert row(beside(compared, METRIC), "capacity.spindle_bore").verdict == "stays"
    bore = row(beside(compared, THIRTEEN), "capacity.spindle_bore")
    assert bore.verdict == "cannot be done"
    assert "1 3/8 in" in bore.reason


def test_a_dial_that_reads_diameter_counts_twice_what_one_that_reads_radius_counts(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    """Straight in with the cross slides of the inch lathes: divisions of 0.001 in on both, radius on one."""
    read = read_of({"tool: V1": "tool: V1, infeed: {method: plunge}"})
    there = beside(comparison(read, shop), THIRTEEN)

    def divisions(on: OnLathe) -> float:
        end, dial = on.sheet.passes[-1], on.lathe.cross_dial
        return (end.dial_turns * dial.turn.si + end.dial_reading) / dial.division.si

    assert divisions(there.here) == pytest.approx(2 * divisions(there.there), abs=1.01)
    cut = row(there, "cross_dial")
    assert cut.verdict == "changes"
    assert cut.here.figures[0].value == "10 divisions of 0.001 in"  # type: ignore[union-attr]
    assert cut.there.figures[0].value == "5 divisions of 0.001 in"  # type: ignore[union-attr]


def test_two_millimeters_cannot_be_had_from_a_plate_of_inch_threads(shop: Shop) -> None:
    read = read_job(next(path for path in DEMO if "SW-115" in str(path)))
    there = beside(comparison(read, shop), LONG)
    assert row(there, "lathe.gearbox").verdict == "cannot be done"
    assert not there.can_be_done


# choices of the job file that belong to one lathe


def test_a_step_chosen_for_one_lathe_is_chosen_anew_on_another(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    read = read_of({"tool: V1": "tool: V1, spindle: 50 rpm"})
    compared = comparison(read, shop)
    there = beside(compared, THIRTEEN)
    step = row(there, "spindle.step")
    assert step.verdict == "changes"
    assert "50 rpm in the job file (line 18) was chosen for L1 Long lathe" in step.reason
    assert step.there.figures[0].value == pytest.approx(45 / 60)  # type: ignore[union-attr]
    (gone,) = there.there.let_go
    assert (gone.field, gone.written) == ("operations.2.thread.spindle", "50 rpm")


def test_a_step_that_both_lathes_have_is_kept(read_of: Callable[..., ReadJob], shop: Shop) -> None:
    read = read_of({"tool: V1": "tool: V1, spindle: 125 rpm"})
    compared = comparison(read, shop)
    assert beside(compared, METRIC).there.let_go == ()
    assert beside(compared, METRIC).there.sheet.figures["spindle.step"].value == pytest.approx(125 / 60)


def test_a_step_of_neither_lathe_is_said_to_be_none_of_theirs(shop: Shop) -> None:
    read = read_job(next(path for path in DEMO if "SW-109" in str(path)))
    there = beside(comparison(read, shop), LONG)
    assert "85 rpm in the job file (line 27) is none of L2 Thirteen-inch lathe" in there.there.let_go[0].text


def test_a_place_of_the_steady_rest_that_does_not_do_is_placed_anew(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    """The thread's relief ends 8 5/8 in from the jaws, the steady rest stands at 6.

    A carriage that takes 1/4 in of bed towards the chuck gets there; one that takes 2 1/2 in does not, with
    half the width of the steady rest besides.
    """
    read = read_of({"  center: live": "  steady: {at: 6}\n  hold_back: yes"})
    short = shop.lathes[LONG].model_copy(update={"carriage_left": length(shop, 0.25)})
    long = shop.lathes[THIRTEEN].model_copy(update={"carriage_left": length(shop, 2.5)})
    changed = shop.model_copy(update={"lathes": {LONG: short, THIRTEEN: long}})
    compared = comparison(read, changed)
    there = beside(compared, THIRTEEN)
    place = row(there, "holding.steady.position")
    assert "6 in from the chuck face (line 12), was chosen for L1 Long lathe" in place.reason
    assert place.verdict == "changes"
    assert place.there.figures[0].value < 6 * 0.0254  # type: ignore[union-attr, operator]
    assert not there.there.stops


def length(shop: Shop, inches: float) -> Given:
    """A length of a record, so many inches."""
    known = shop.lathes[LONG].carriage_left
    assert known is not None
    return replace(known, si=inches * 0.0254, text=f"{inches:g}", exact=Fraction(inches), bare=True)


# the best lathe


def test_a_lathe_that_nothing_stops_goes_before_one_that_something_stops(compared: Comparison) -> None:
    ranked = compared.ranking
    assert [one.place for one in ranked] == [1, 2, 3]
    assert [one.stops for one in ranked] == sorted(one.stops for one in ranked)
    for one in ranked:
        assert one.reason.endswith(".")
        assert "safe" not in one.reason.lower()


def test_the_order_does_not_hang_on_the_order_of_the_files(compared: Comparison) -> None:
    lathes = [compared.here, *(one.there for one in compared.others)]
    orders = {
        tuple(one.on.lathe.lathe for one in ranking(order, compared.here)) for order in permutations(lathes)
    }
    assert len(orders) == 1


def test_of_two_lathes_that_are_alike_the_one_it_is_planned_for_goes_first(
    read_of: Callable[..., ReadJob], shop: Shop
) -> None:
    twin = shop.lathes[LONG].model_copy(update={"lathe": "a-twin", "name": "L9 Twin"})
    two = shop.model_copy(update={"lathes": {"a-twin": twin, LONG: shop.lathes[LONG]}})
    first, second = comparison(read_of(), two).ranking
    assert first.on.lathe.lathe == LONG
    assert first.reason == "As good as L9 Twin, and the job is planned for it."
    assert second.reason == "As good as L1 Long lathe, for which the job is planned."
    assert all(found.verdict == "stays" for found in beside(comparison(read_of(), two), "a-twin").rows)


@pytest.mark.parametrize("missing", ["thread_dial", "leadscrew", "gearbox", "power", "carriage_left"])
def test_a_short_record_makes_no_better_lathe(
    read_of: Callable[..., ReadJob], shop: Shop, missing: str
) -> None:
    read = read_of({"2 1/4-8": "2 1/4-6"})  # any line: the dial matters
    poor = shop.lathes[LONG].model_copy(update={"lathe": "poor", "name": "L9 Poor record", missing: None})
    two = shop.model_copy(update={"lathes": {LONG: shop.lathes[LONG], "poor": poor}})
    for own in (LONG, "poor"):
        first, second = comparison(moved(read, own), two).ranking
        if missing == "gearbox" and first.open == second.open:
            continue  # change gears on record may stand in for the plate
        assert first.on.lathe.lathe == LONG
        assert second.open > first.open


def test_the_half_nuts_rank_as_the_dials_do() -> None:
    """Every rule of a dial of 16 teeth and 8 lines: fewer places to close is never ranked easier."""
    def places(tpi: Fraction) -> float:
        rule = dial_rule(Fraction(1, 4), 16, 8, 1 / tpi, 2)
        return float("inf") if rule.anywhere else (8 / rule.step if rule.step else 0)

    threads = [Fraction(count, 4) for count in range(4, 4 * 28)]
    ranked = sorted(
        (ease(dial_rule(Fraction(1, 4), 16, 8, 1 / tpi, 2)), -places(tpi)) for tpi in threads
    )
    assert [count for _, count in ranked] == sorted(count for _, count in ranked)


def test_a_shop_with_one_lathe_has_nothing_to_compare(read_of: Callable[..., ReadJob], shop: Shop) -> None:
    one = shop.model_copy(update={"lathes": {LONG: shop.lathes[LONG]}})
    compared = comparison(read_of(), one)
    assert compared.others == ()
    assert compared.ranking[0].reason == "The only lathe of the shop."


def test_a_job_without_a_thread_is_compared_too(read_of: Callable[..., ReadJob], shop: Shop) -> None:
    read = read_of({"  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}\n": "",
                    "  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}\n": ""})
    compared = comparison(read, shop)
    assert "lathe.thread_dial" not in lathe_lines(compared.here)
    assert row(beside(compared, THIRTEEN), "capacity.chuck").verdict in ("stays", "changes")
