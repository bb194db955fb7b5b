"""Jobs of several folders in one site, and made by the processes of other machines, with the same bytes."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from distributed import LocalCluster

from generator.__main__ import main
from generator.errors import SheetError
from generator.site import machines as module
from generator.site import program_key
from generator.site.machines import machines
from tests.site.built import site_of

pytestmark = pytest.mark.usefixtures("few_families")

PIN = "SW-101-ramp-hinge-pin"
HOOK = "SW-116-coupling-hook"


def other_folder(archive: Path, name: str) -> Path:
    """A second jobs folder, with one job and no shop of its own."""
    folder = archive / name
    shutil.copytree(archive / "jobs" / "2026" / PIN, folder / "1999" / "SW-17-old-pin")
    job = folder / "1999" / "SW-17-old-pin" / "job.yml"
    job.write_text(job.read_text(encoding="utf-8").replace("SW-101", "SW-17"), encoding="utf-8")
    return folder


def test_two_folders_make_one_archive_each_with_its_own_pages(archive: Path) -> None:
    other_folder(archive, "Old Jobs")
    assert main(["build", "--jobs", "jobs", "--jobs", "Old Jobs"]) == 0
    site = archive / "site"
    assert (site / "sheets" / "2026" / f"{PIN}.html").is_file()
    page = site / "sheets-old-jobs" / "1999" / "SW-17-old-pin.html"
    assert "SW-17" in page.read_text(encoding="utf-8")
    rows = "".join(path.read_text(encoding="utf-8") for path in (site / "find" / "rows").iterdir())
    assert "sheets-old-jobs/1999/SW-17-old-pin" in rows
    assert PIN in rows
    assert "<img" in page.read_text(encoding="utf-8")  # its picture lies beside it
    assert (page.with_suffix("") / "sketch-2.png").is_file()


def test_settings_may_name_several_folders(archive: Path, build_site: Callable[..., None]) -> None:
    other_folder(archive, "old")
    text = (archive / "mkdocs.yml").read_text(encoding="utf-8")
    (archive / "mkdocs.yml").write_text(
        f"{text}plugins: [setup_sheets: {{jobs_dir: [jobs, old]}}]\n", encoding="utf-8"
    )
    build_site()
    assert (archive / "site" / "sheets-old" / "1999" / "SW-17-old-pin.html").is_file()


def test_folders_of_one_name_do_not_share_their_pages(archive: Path) -> None:
    for place in ("a", "b"):
        (archive / place).mkdir()
        other_folder(archive, f"{place}/jobs")
    assert main(["build", "--jobs", "jobs", "--jobs", "a/jobs", "--jobs", "b/jobs"]) == 0
    assert {path.name for path in (archive / "site").glob("sheets*")} == {
        "sheets", "sheets-jobs", "sheets-jobs-2"
    }


def test_what_is_learned_in_one_folder_stays_there(archive: Path) -> None:
    """Another shop's lathes are not ours, whatever they are called."""
    other = other_folder(archive, "other")
    shutil.copytree(archive / "jobs" / "_shop", other / "_shop")
    log = archive / "jobs" / "2026" / HOOK / "log.yml"
    log.write_text("- {at: 2026-03-05, watch_out: Ours., lesson_for: [lathe]}\n", encoding="utf-8")
    copy = other / "2001" / "X-1-hook"
    shutil.copytree(archive / "jobs" / "2026" / HOOK, copy, ignore=shutil.ignore_patterns("log.yml"))
    assert main(["build", "--jobs", "jobs", "--jobs", "other"]) == 0
    page = archive / "site" / "sheets-other" / "2001" / "X-1-hook.html"
    assert "Ours." not in page.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--jobs", "jobs", "--jobs", "none"], "none: there is no such jobs folder"),
        (["--jobs", "jobs", "--jobs", "./jobs"], "given twice"),
        (["--jobs", "jobs", "--jobs", "jobs/2026", "--site", "jobs/2026/x"], "cannot be, hold or lie inside"),
    ],
)
def test_folders_that_cannot_be_are_refused(
    archive: Path, capsys: pytest.CaptureFixture[str], words: list[str], said: str
) -> None:
    assert main(["build", *words]) == 2
    assert said in capsys.readouterr().err


@pytest.fixture(scope="module")
def scheduler() -> Iterator[str]:
    """Two processes that work for a scheduler, as two machines would."""
    with LocalCluster(
        n_workers=2, threads_per_worker=1, dashboard_address=None, processes=True
    ) as cluster:
        yield cluster.scheduler_address


def test_other_machines_make_the_same_bytes(archive: Path, scheduler: str) -> None:
    other = other_folder(archive, "old")
    (other / "1999" / "SW-18-broken").mkdir()
    (other / "1999" / "SW-18-broken" / "job.yml").write_text("job: [\n", encoding="utf-8")
    folders = ["--jobs", str(archive / "jobs"), "--jobs", str(other)]
    assert main(["build", *folders, "--no-cache"]) == 1
    alone = site_of(archive)
    assert main(["build", *folders, "--no-cache", "--machines", scheduler]) == 1
    assert site_of(archive) == alone


def test_machines_with_another_program_are_refused(
    scheduler: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(program_key, "SHEETS", tmp_path)  # here, not there
    with pytest.raises(SheetError, match="not the same program"), machines(scheduler):
        pass


def test_nobody_at_the_address_is_said(
    archive: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "SECONDS", 0.3)
    assert main(["build", "--machines", "tcp://127.0.0.1:9"]) == 1
    assert "no scheduler answers" in capsys.readouterr().err
