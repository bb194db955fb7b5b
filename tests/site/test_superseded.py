"""A job that another supersedes says so on its page, links there, and is not worked from."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.__main__ import main
from generator.job.beside import Successor
from generator.job.reading import read_job
from generator.job.successor import successor
from generator.site.entry import Archive

MakePages = Callable[[Path], Archive]
JOBS = Path(__file__).parents[2] / "jobs"
OLD, NEW = "SW-109-brake-pull-rod", "SW-118-pump-lug"


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    for name in ("_shop", f"2026/{OLD}", f"2026/{NEW}"):
        shutil.copytree(JOBS / name, tmp_path / "jobs" / name)
    (tmp_path / "jobs" / "2026" / NEW).rename(tmp_path / "jobs" / "2026" / "SW-120 & more")
    return tmp_path / "jobs"


def superseded_by(jobs: Path, number: str) -> Path:
    path = jobs / "2026" / OLD / "job.yml"
    with path.open("a", encoding="utf-8") as file:
        file.write(f"superseded_by: {number}\n")
    return path


@pytest.mark.parametrize(
    ("number", "found"),
    [
        ("SW-120 & more", Successor("SW-120 & more", "2026", "SW-120 & more")),
        ("SW-12", Successor("SW-12")),  # the beginning of a number is not the number
        ("../../x", Successor("../../x")),
    ],
)
def test_it_is_looked_for_among_the_folders(jobs: Path, number: str, found: Successor) -> None:
    newer, (said,) = successor(read_job(superseded_by(jobs, f"'{number}'")))
    assert newer == found
    assert said.text.startswith(f"This sheet is superseded by {number}: do not work from it.")
    assert ("No job of that number is in the archive" in said.text) is (not found.folder)
    assert (said.level, said.where.column) == ("check", 16)


def test_page_paper_and_archive_say_so(jobs: Path, make_pages: MakePages) -> None:
    superseded_by(jobs, "'SW-120 & more'")
    archive = make_pages(jobs)
    (entry,) = (entry for entry in archive.entries if entry.page.endswith(f"{OLD}.html"))
    text = (jobs.parent / "site" / entry.page).read_text(encoding="utf-8")
    link = '<a href="../2026/SW-120%20%26%20more.html">SW-120 &amp; more</a>'
    assert f"<strong>SUPERSEDED BY {link}</strong> Do not work from this sheet." in text
    assert '@top-center { content: "SUPERSEDED BY SW' in text  # on every page of the paper
    assert "<dd>superseded by SW-120 &amp; more</dd>" in text
    assert "This sheet is superseded by SW-120 &amp; more: do not work from it." in text
    assert entry.row.status == "superseded"


def test_a_job_does_not_supersede_itself(jobs: Path) -> None:
    newer, (said,) = successor(read_job(superseded_by(jobs, "SW-109")))
    assert newer is None
    assert said.id == "superseded-itself"


def follow(jobs: Path, *numbers: str) -> list[Path]:
    """Copies of a job, SW-1 and on, that name in `superseded_by` what is given for each; empty names none."""
    made = []
    for place, number in enumerate(numbers, 1):
        folder = jobs / "2026" / f"SW-{place}-pin"
        shutil.copytree(JOBS / "2026" / NEW, folder)
        text = (folder / "job.yml").read_text(encoding="utf-8").replace("job: SW-118", f"job: SW-{place}")
        said = f"superseded_by: {number}\n" if number else ""
        (folder / "job.yml").write_text(text + said, encoding="utf-8")
        made.append(folder / "job.yml")
    return made


def test_of_several_in_turn_the_last_is_named(jobs: Path) -> None:
    first, second, _ = follow(jobs, "SW-2", "SW-3", "")
    newer, (said,) = successor(read_job(first))
    assert newer == Successor("SW-2", "2026", "SW-2-pin")
    assert said.text.endswith("do not work from it. Nor from SW-2: take SW-3 (SW-2 by SW-3).")
    assert successor(read_job(second))[1][0].text.endswith("do not work from it.")


@pytest.mark.parametrize(
    ("numbers", "steps"),
    [
        (("SW-2", "SW-1"), "SW-1 by SW-2, SW-2 by SW-1"),
        (("SW-2", "SW-3", "SW-1"), "SW-1 by SW-2, SW-2 by SW-3, SW-3 by SW-1"),
        (("SW-2", "SW-3", "SW-2"), "SW-1 by SW-2, SW-2 by SW-3, SW-3 by SW-2"),  # the first is outside
        (("SW-2", "SW-2"), "SW-1 by SW-2, SW-2 by SW-2"),
    ],
)
def test_a_ring_ends_says_so_and_stops_the_sheet(
    jobs: Path, capsys: pytest.CaptureFixture[str], make_pages: MakePages, numbers: tuple[str, ...],
    steps: str,
) -> None:
    first, *_ = follow(jobs, *numbers)
    newer, (said,) = successor(read_job(first))
    assert newer is not None
    assert (said.id, said.level, said.where.column) == ("superseded-ring", "stop", 16)
    assert f"in a ring ({steps})" in said.text
    assert main(["check", str(first)]) == 0  # a finding, not a file that cannot be read
    line = len(first.read_text(encoding="utf-8").splitlines())
    assert f"SW-1-pin/job.yml:{line}:16: " in capsys.readouterr().out
    assert len(make_pages(jobs).entries) >= len(numbers)


def test_one_that_cannot_be_read_ends_the_search(jobs: Path) -> None:
    first, second = follow(jobs, "SW-2", "SW-1")
    second.write_text("job: [\n", encoding="utf-8")
    assert successor(read_job(first))[1][0].id == "superseded"


def test_a_job_outside_an_archive_is_read_all_the_same(jobs: Path, tmp_path: Path) -> None:
    alone = tmp_path / "job.yml"
    shutil.copy(superseded_by(jobs, "SW-120"), alone)
    newer, _ = successor(read_job(alone))
    assert newer == Successor("SW-120")
