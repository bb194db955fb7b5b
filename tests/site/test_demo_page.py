"""The page "What each job shows" of the demo archive: every job is on it, and shows what it says."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pytest

from generator.job.log import Entry
from generator.job.model import Duty, Job, Mate
from generator.job.operations import Operation, Thread
from generator.job.reading import find_jobs, read_job, read_log, read_shop
from generator.job.sender import read_sender, with_sender
from generator.job.shop import Shop
from generator.sheet.compute import compute_sheet

JOBS = Path(__file__).parents[2] / "jobs"
PAGE = JOBS / "_pages" / "what-each-job-shows.md"
ROW = re.compile(r"\| \[(?P<number>[^\]]+)\]\((?P<link>[^)]+)\) \| (?P<what>[^|]+) \| (?P<shows>[^|]+) \|")


@dataclass(frozen=True)
class Shown:
    """A demo job: its files as read, and what its sheet has."""

    job: Job
    log: list[Entry]
    folder: Path
    findings: frozenset[str]
    figures: frozenset[str]

    @property
    def thread(self) -> Thread | None:
        """Its thread."""
        return next((one.thread for one in self.job.operations if one.thread is not None), None)

    @property
    def duty(self) -> Duty | None:
        """Its duty, where somebody said one."""
        return self.job.duty if isinstance(self.job.duty, Duty) else None

    @property
    def mate(self) -> Mate | None:
        """Its mate, where one is known."""
        return self.job.mate if isinstance(self.job.mate, Mate) else None

    def family(self, *names: str) -> bool:
        """Whether its thread is of one of these families."""
        return self.thread is not None and self.thread.read().family in names

    def says(self, *ids: str) -> bool:
        """Whether its sheet has a finding of one of these ids."""
        return not self.findings.isdisjoint(ids)


def operation(test: Callable[[Operation], object]) -> Callable[[Shown], bool]:
    return lambda job: any(test(one) for one in job.job.operations)


def logged(test: Callable[[Entry], object]) -> Callable[[Shown], bool]:
    return lambda job: any(test(one) for one in job.log)


def chuck(key: str, value: object = True) -> Callable[[Shown], bool]:
    return lambda job: getattr(job.job.holding.chuck, key, None) == value


def duty(key: str) -> Callable[[Shown], bool]:
    return lambda job: bool(getattr(job.duty, key, None))


def status(word: str) -> Callable[[Shown], bool]:
    return lambda job: job.job.status == word


SHOWS: Final[dict[str, Callable[[Shown], object]]] = {
    # what holds it
    "three jaws": chuck("jaws", 3), "four jaws": chuck("jaws", 4), "soft jaws": chuck("soft_jaws"),
    "pie jaws": chuck("pie_jaws"), "jaws from inside": chuck("inside"), "plug in the bore": chuck("plug"),
    "reversed jaws": chuck("reversed"), "seated against a step": chuck("seated"),
    "collet": lambda job: job.job.holding.collet, "faceplate": lambda job: job.job.holding.faceplate,
    "between centers, with a dog": lambda job: job.job.holding.centers,
    "steady rest": lambda job: job.job.holding.steady,
    "steady rest placed by the sheet": lambda job: job.job.holding.steady.at == "auto",
    "follow rest": lambda job: job.job.holding.follow_rest,
    "live center": lambda job: job.job.holding.center == "live",
    "dead center": lambda job: job.job.holding.center == "dead",
    "tail behind the spindle": lambda job: job.job.holding.behind_spindle,
    "unbalance": lambda job: job.job.holding.unbalance,
    # the thread
    "Unified": lambda job: job.family("UN"), "metric": lambda job: job.family("M"),
    "Acme": lambda job: job.family("ACME"), "trapezoidal": lambda job: job.family("TR"),
    "Whitworth": lambda job: job.family("WHIT"), "square": lambda job: job.family("SQ"),
    "buttress": lambda job: job.family("BUTT"), "BA": lambda job: job.family("BA"),
    "pipe thread G": lambda job: job.family("G"), "pipe thread R": lambda job: job.family("R"),
    "NPT": lambda job: job.family("NPT"), "worm, made to its mate": lambda job: job.family("SPECIAL"),
    "left hand": lambda job: job.thread.read().hand == "left",
    "two starts": lambda job: job.thread.read().starts == 2,
    "thread inside": lambda job: job.thread.read().side == "internal",
    "run-out without a relief": lambda job: job.thread.run_out,
    "plated afterwards": lambda job: job.thread.plating, "load flank": lambda job: job.thread.load_flank,
    "change gears": lambda job: "lathe.change_gears" in job.figures,
    # further operations
    "knurl": operation(lambda one: one.knurl), "polish": operation(lambda one: one.polish),
    "part off": operation(lambda one: one.part_off), "no thread": lambda job: job.thread is None,
    "recess inside": lambda job: operation(lambda one: one.relief)(job) and SHOWS["thread inside"](job),
    "taper attachment": operation(lambda one: one.taper and one.taper.by == "attachment"),
    "tailstock set over": operation(lambda one: one.taper and one.taper.by == "tailstock"),
    "Morse taper": operation(lambda one: one.taper and (one.taper.named or "").startswith("Morse")),
    "order proposed": lambda job: job.job.order == "propose",
    "cross hole": lambda job: job.job.cross_holes,
    # what is known
    "old thread measured": lambda job: job.job.found,
    "mate on the bench": lambda job: job.mate.on_bench,
    "mate by hearsay": lambda job: job.mate.says and job.mate.major and not job.mate.on_bench,
    "cut to the mate as measured": lambda job: job.mate.clearance,
    "mate unknown": lambda job: job.job.mate is not None and job.mate is None,
    "duty unknown": lambda job: job.job.duty is not None and job.duty is None,
    "material unknown": lambda job: str(job.job.material) == "unknown",
    "material guessed": lambda job: "guess" in (job.job.material_known_by or ""),
    # what it must do, and what limits it
    "people depend on it": duty("people"), "lifts": duty("lifting"), "brakes": duty("brakes"),
    "load": duty("load"), "pressure": duty("pressure"),
    "least wall": lambda job: job.job.limits.wall, "roundness": lambda job: job.job.limits.round,
    "warm when measured": lambda job: job.job.heat.measuring,
    "agreed with the customer": lambda job: job.job.agreed or logged(lambda one: one.agreed)(job),
    "pictures": lambda job: job.job.photos,
    # what happened
    "not ready to run": lambda job: job.says("sections-sum"), "quoted": status("quoted"),
    "in work": status("in work"), "stopped": status("stopped"), "scrapped": status("scrapped"),
    "superseded": lambda job: job.job.superseded_by,
    "from another shop": lambda job: (job.folder / "sender.yml").is_file(),
    "stop and taken up": logged(lambda one: one.taken_up),
    "finished on another lathe": logged(lambda one: one.taken_up and one.taken_up.lathe),
    "tool ground anew": logged(lambda one: one.taken_up and one.taken_up.flat),
    "urgent": lambda job: "urgent" in job.job.title,
    "test fits": logged(lambda one: one.fit), "inspection record": logged(lambda one: one.inspected),
    "concession": logged(lambda one: one.concession), "start by start": logged(lambda one: one.start),
    "lesson for other jobs": logged(lambda one: one.lesson_for),
    "times": logged(lambda one: one.time),
    # findings
    "thin wall, out of round": lambda job: job.says("thin-grip"),
    "lobes": lambda job: job.says("thin-gauge"),
    "galls": lambda job: "stainless" in str(job.job.material),
    "hoist and slings": lambda job: job.says("sling"),
    "slender": lambda job: job.says("slender"),
    "work bends under the cut": lambda job: job.says("deflection"),
    "lead never exact": lambda job: job.says("gearbox"),
    "screwed spindle nose": lambda job: job.says("screwed-nose"),
}


@pytest.fixture(scope="module")
def rows() -> dict[str, re.Match[str]]:
    """The rows of the table, by the number of the job."""
    return {found["number"]: found for found in ROW.finditer(PAGE.read_text(encoding="utf-8"))}


@pytest.fixture(scope="module")
def jobs() -> dict[str, Shown]:
    """The demo jobs, by their numbers."""
    shop = read_shop(JOBS / "_shop")
    return {path.parent.name[:6]: shown(path, shop) for path in find_jobs(JOBS)}


def shown(path: Path, shop: Shop) -> Shown:
    read, file = read_job(path), path.with_name("log.yml")
    sender = read_sender(path.parent)
    ours = with_sender(shop, sender) if sender else shop
    log = read_log(file, read.job.units, shop.lathes[read.job.lathe].units) if file.is_file() else None
    sheet = compute_sheet(read, ours, log)
    return Shown(
        read.job, [one.entry for one in log.entries] if log else [], path.parent,
        frozenset(finding.id for finding in sheet.findings), frozenset(sheet.figures),
    )


def test_every_job_has_a_row_and_every_link_leads_to_it(rows, jobs: dict[str, Shown]) -> None:
    assert set(rows) == set(jobs)
    assert {number: row["link"] for number, row in rows.items()} == {
        number: f"sheets/{one.folder.parent.name}/{one.folder.name}.html" for number, one in jobs.items()
    }


def test_every_job_shows_what_the_page_says(rows, jobs: dict[str, Shown]) -> None:
    for number, row in rows.items():
        for words in row["shows"].split("; "):
            assert SHOWS[words](jobs[number]), f"{number} does not show: {words}"


def test_everything_is_shown_by_some_job(rows) -> None:
    assert {words for row in rows.values() for words in row["shows"].split("; ")} == set(SHOWS)
