"""Lessons of one job are found on the jobs like it, however their threads are spelt, and on no others."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis.strategies import DataObject, booleans, data, integers, sampled_from

from generator.job import lessons as module
from generator.job.learned import ALIKE, MOST, Found, Lesson, Lessons, Match
from generator.job.lessons import for_job, likeness, read_lessons
from generator.job.model import Job
from generator.job.reading import ReadJob, ReadLog, read_job, read_shop
from generator.job.shop import Shop

JOBS = Path(__file__).parents[2] / "jobs"
JOB = """\
job: {number}
title: {title}
customer: {customer}
status: {status}
units: inch
lathe: {lathe}
material: {material}
work:
  - {{length: 12, od: 2.75}}
holding:
  chuck: {{jaws: 4, grip: 3}}
mate: {mate}
operations:
  - turn: {{diameter: 2 1/4, length: 3}}
  - thread: {{designation: {thread}, length: 2{more}}}
"""
USUAL = {
    "title": "Pin, new thread", "customer": "AA-01", "status": "planned", "lathe": "long-bed",
    "material": "1045 steel", "mate": "unknown", "thread": "2 1/4-8 UN-2A", "more": "",
}
OTHER = {
    "title": "Ring", "customer": "BB-02", "lathe": "metric", "material": "316 stainless",
    "thread": "2 1/2-12 UN-2A",
}
Write = Callable[..., Path]


@pytest.fixture
def write(tmp_path: Path) -> Write:
    """`write("A-1", log, key=value)`: a job of an archive, with its log."""

    def make(number: str, log: str = "", year: str = "2026", **changes: str) -> Path:
        path = tmp_path / "jobs" / year / f"{number}-part" / "job.yml"
        path.parent.mkdir(parents=True)
        path.write_text(JOB.format(number=number, **{**USUAL, **changes}), encoding="utf-8")
        if log:
            path.with_name("log.yml").write_text(log, encoding="utf-8")
        return path

    return make


@pytest.fixture(scope="module")
def shop() -> Shop:
    return read_shop(JOBS / "_shop")


def note(words: str = "The burr.", more: str = "", at: str = "2026-03-04", key: str = "watch_out") -> str:
    return f"- {{at: {at}, {key}: {words}{more}}}\n"


def found(job: Path, shop: Shop) -> tuple[Match, ...]:
    return all_found(job, shop).matches


def all_found(job: Path, shop: Shop) -> Found:
    return for_job(read_lessons(job.parents[2], shop), read_job(job).job, job.parent)


@pytest.mark.parametrize(
    "spelt",
    ["2 1/4-8 UN-2A", "2.250-8 UN-3A", "2 1/4 - 8 UN-2A", "'2 1/4-8 UN-2B'"],
)
def test_the_same_thread_is_found_however_it_is_spelt(spelt: str, write: Write, shop: Shop) -> None:
    write("A-1", note(), **{**OTHER, "thread": "2 1/4-8 UN-2A"})
    (one,) = found(write("A-2", thread=spelt), shop)
    assert (one.lesson.number, one.shares) == ("A-1", ("thread",))


@pytest.mark.parametrize(
    "changes", [{"thread": "2 1/4-12 UN-2A"}, {"more": ", hand: left"}, {"thread": "2 1/4-8 UN-2A-LH"}]
)
def test_another_pitch_or_hand_is_another_thread(changes: dict[str, str], write: Write, shop: Shop) -> None:
    write("A-1", note(), **{**OTHER, "thread": "2 1/4-8 UN-2A"})
    assert found(write("A-2", **changes), shop) == ()


def test_the_thread_of_the_mate_counts_too(write: Write, shop: Shop) -> None:
    write("A-1", note(), **{**OTHER, "mate": "{part: nut, thread: 2 1/4-8 UN-2B, on_bench: no}"})
    (one,) = found(write("A-2"), shop)
    assert one.shares == ("thread",)


def test_the_same_part_is_one_of_the_same_customer(write: Write, shop: Shop) -> None:
    write("A-1", note(), **{**OTHER, "title": "Pin, made longer", "customer": "AA-01"})
    write("A-3", note(), **{**OTHER, "title": "Pin, made longer", "customer": "CC-03"})
    (one,) = found(write("A-2"), shop)
    assert (one.lesson.number, one.shares) == ("A-1", ("part",))


def test_lathe_and_material_count_with_the_same_operation_only(write: Write, shop: Shop) -> None:
    like = {**OTHER, "lathe": "long-bed", "material": "1045  Steel"}
    write("A-1", note(more=", operation: turn"), **like)
    write("A-3", note(more=", operation: knurl"), **like)
    write("A-4", note(), **like)
    (one,) = found(write("A-2"), shop)
    assert (one.lesson.number, one.shares) == ("A-1", ("lathe", "material"))


def test_the_log_may_say_what_a_lesson_is_for(write: Write, shop: Shop) -> None:
    write("A-1", note(more=", lesson_for: [lathe]"), **{**OTHER, "lathe": "long-bed"})
    write("A-3", note(more=", lesson_for: [material]"), **{**OTHER, "thread": "2 1/4-8 UN-2A"})
    (one,) = found(write("A-2"), shop)
    assert (one.lesson.number, one.shares) == ("A-1", ("lathe",))


def test_the_part_goes_first_then_the_thread_then_the_newest(write: Write, shop: Shop) -> None:
    thread = {**OTHER, "thread": "2 1/4-8 UN-2A"}
    write("A-1", note(at="2026-01-01"), **thread)
    write("A-3", note(at="2026-02-01"), **thread)
    write("A-4", note(at="2025-01-01"), **{**OTHER, "title": "Pin", "customer": "AA-01"})
    write("A-5", note(at="2026-04-01", more=", lesson_for: [lathe]"), **{**OTHER, "lathe": "long-bed"})
    assert [one.lesson.number for one in found(write("A-2"), shop)] == ["A-4", "A-3", "A-1", "A-5"]


@pytest.mark.parametrize("status", ["done", "scrapped"])
def test_a_finished_job_learns_no_more(status: str, write: Write, shop: Shop) -> None:
    write("A-1", note())
    assert found(write("A-2", status=status), shop) == ()


def test_a_job_is_not_its_own_teacher(write: Write, shop: Shop) -> None:
    assert found(write("A-1", note()), shop) == ()


def test_what_cannot_be_read_hides_no_other(write: Write, shop: Shop) -> None:
    write("A-1", "- [watch_out\n")
    write("A-3", note()).write_text("watch_out: [", encoding="utf-8")
    write("A-4", note("Kept.") + "- {at: never, watch_out: x}\n")
    assert [one.lesson.words for one in found(write("A-2"), shop)] == ["Kept."]


def test_a_key_that_says_for_what_needs_a_lesson(write: Write, shop: Shop) -> None:
    from generator.job.reading import read_log

    job = write("A-1", "- {at: 2026-03-04, note: x, lesson_for: [thread]}\n")
    (problem,) = read_log(job.with_name("log.yml"), "inch", "inch").problems
    assert "stands without a lesson: write watch_out or do_differently" in str(problem)


LEFT = {"thread": "2 1/4-8 UN-2A-LH"}


@pytest.mark.parametrize(
    ("mate", "hand"), [("2 1/4-8 UN-2B", "-LH"), ("2 1/4-8 UN-2B-LH", "-LH"), ("2 1/4-8 UN-2B", "")]
)
def test_a_mate_has_the_hand_of_the_thread_it_screws_on(
    mate: str, hand: str, write: Write, shop: Shop
) -> None:
    write("A-1", note(), **{**OTHER, "thread": "2 1/4-8 UN-2A"})
    write("A-3", note(), **{**OTHER, **LEFT})
    here = write(
        "A-2", thread=f"2 1/4-8 UN-2A{hand}", mate=f"{{part: nut, thread: {mate}, on_bench: no}}"
    )
    assert [one.lesson.number for one in found(here, shop)] == ["A-3" if hand else "A-1"]


def test_two_materials_that_nobody_knows_are_not_the_same(write: Write, shop: Shop) -> None:
    write("A-1", note(more=", lesson_for: [material]"), **{**OTHER, "material": "unknown"})
    assert found(write("A-2", material="unknown"), shop) == ()


def test_a_lesson_is_of_the_lathe_that_the_work_was_on(write: Write, shop: Shop) -> None:
    log = (
        note("Before.", more=", lesson_for: [lathe]")
        + "- {at: 2026-03-05, operation: thread, stop: yes}\n"
        + "- {at: 2026-03-06, operation: thread, taken_up: {lathe: thirteen-inch}}\n"
        + note("After.", more=", lesson_for: [lathe]", at="2026-03-07")
    )
    write("A-1", log, **OTHER)
    old, new = write("A-2", lathe="metric"), write("A-3", lathe="thirteen-inch")
    assert [one.lesson.words for one in found(old, shop)] == ["Before."]
    assert [one.lesson.words for one in found(new, shop)] == ["After."]


@pytest.mark.parametrize(
    ("about", "counts"),
    [("pass: 3", True), ("operation: 2", True), ("operation: Thread", True), ("operation: 9", False),
     ("by: night shift", False)],
)
def test_what_an_entry_is_about_is_understood_as_in_the_log(
    about: str, counts: bool, write: Write, shop: Shop
) -> None:
    write("A-1", note(more=f", {about}"), **{**OTHER, "lathe": "long-bed"})
    assert bool(found(write("A-2"), shop)) is counts


def test_a_superseded_job_still_teaches_and_says_by_what_it_is_superseded(write: Write, shop: Shop) -> None:
    job = write("A-1", note(), **{**OTHER, "thread": "2 1/4-8 UN-2A"})
    job.write_text(f"{job.read_text(encoding='utf-8')}superseded_by: A-9\n", encoding="utf-8")
    (one,) = found(write("A-2"), shop)
    assert one.lesson.superseded_by == "A-9"


def test_a_fault_in_one_job_hides_no_other(
    write: Write, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    write("A-1", note("Lost."))
    write("A-3", note("Kept."))
    real = module.lessons_of

    def faulty(read: ReadJob, log: ReadLog) -> Iterator[Lesson]:
        if read.job.job == "A-1":
            raise ZeroDivisionError
        return real(read, log)

    monkeypatch.setattr(module, "lessons_of", faulty)
    assert [one.lesson.words for one in found(write("A-2"), shop)] == ["Kept."]


def test_those_left_out_are_counted_and_said_what_they_share(write: Write, shop: Shop) -> None:
    like = {**OTHER, "lathe": "long-bed"}
    write("A-1", note("Thread.", at="2020-01-01"), **{**OTHER, "thread": "2 1/4-8 UN-2A"})
    write("A-3", "".join(note(f"No {n}.", more=", lesson_for: [lathe]") for n in range(MOST + 2)), **like)
    here = all_found(write("A-2"), shop)
    assert [one.lesson.words for one in here.matches] == ["Thread.", *(f"No {n}." for n in range(MOST - 1))]
    assert (here.more, here.more_share) == (3, ("lathe",))


@cache
def _shaft() -> Job:
    return read_job(JOBS / "2026" / "SW-117-pump-shaft" / "job.yml").job


@settings(deadline=None)
@given(data())
def test_the_order_is_that_of_sorting_them_one_by_one(some: DataObject) -> None:
    """Against the plain way: every lesson looked at, all sorted by Python itself."""
    one = _shaft()
    few = sampled_from("abc")

    def drawn() -> Job:
        changes = {"lathe": some.draw(few), "material": some.draw(few), "customer": some.draw(few)}
        operations = one.operations if some.draw(booleans()) else one.operations[:1]
        return one.model_copy(update={**changes, "operations": operations, "mate": "unknown"})

    asks = drawn()
    taught = [
        Lesson(
            str(n), "2026", f"{n:03}-part", f"2026-01-{some.draw(integers(1, 9)):02}", True, "x",
            some.draw(sampled_from(["", "thread", "knurl"])),
            some.draw(sampled_from([(), ("lathe",), ("part", "material")])), likeness(drawn()),
        )
        for n in range(some.draw(integers(0, 30)))
    ]
    own = likeness(asks)

    def shares(lesson: Lesson) -> tuple[str, ...]:
        return tuple(
            kind for kind in ALIKE
            if {key for key in own.keys if key[0] == kind} & set(lesson.likeness.keys) and (
                kind in lesson.counts_for if lesson.counts_for
                else kind in ("part", "thread") or lesson.operation in own.operations
            )
        )

    plain = [(lesson, shares(lesson)) for lesson in taught if shares(lesson)]
    plain.sort(key=lambda pair: (pair[0].at, pair[0].folder), reverse=True)
    plain.sort(key=lambda pair: ("part" not in pair[1], "thread" not in pair[1], -len(pair[1])))
    here = for_job(Lessons(taught), asks, Path("2026/its-own"))
    assert [(one.lesson, one.shares) for one in here.matches] == plain[:MOST]
    assert here.more == max(len(plain) - MOST, 0)
