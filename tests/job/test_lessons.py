"""Lessons of one job are found on the jobs like it, however their threads are spelt, and on no others."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.job.lessons import Lesson, Lessons, Match, likeness, read_lessons
from generator.job.reading import read_job, read_shop
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
    lessons = read_lessons(job.parents[2], shop)
    return lessons.for_job(read_job(job).job, job.parent)


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


def test_many_lessons_are_found_by_what_is_shared_and_not_one_by_one(write: Write, shop: Shop) -> None:
    """What matching looks at does not grow with lessons that share nothing."""
    own = likeness(read_job(write("A-1", **OTHER)).job)
    strangers = [
        Lesson(str(n), "2026", f"{n}-part", "2026-01-01", True, "x", "", (), own) for n in range(500)
    ]
    looked: list[int] = []

    class Counted(dict):  # type: ignore[type-arg]
        def get(self, key: object, default: object = None) -> object:
            hits = super().get(key, default)
            looked.append(len(hits))  # type: ignore[arg-type]
            return hits

    lessons = Lessons(strangers)
    lessons._by_key = Counted(lessons._by_key)
    assert lessons.for_job(read_job(write("A-2")).job, Path("2026/A-2-part")) == ()
    assert sum(looked) == 0
