"""A build that cannot be finished says why, leaves the earlier site whole, and the next one is right."""

from __future__ import annotations

import errno
import logging
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures.process import BrokenProcessPool
from contextlib import closing
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from generator.framework.plugin import SetupSheetsPlugin
from generator.job.learned import Lessons
from generator.site import hands, job_files, kept, making, pages, swap
from generator.site.kept import Cache
from generator.site.orders import Making
from generator.site.pages import Build
from tests.site.built import site_of

pytestmark = pytest.mark.usefixtures("few_families")

BuildSite = Callable[..., None]
PIN = "SW-101-ramp-hinge-pin"
HOOK = "SW-116-coupling-hook"
NOW = job_files.time.time_ns


def change(archive: Path, word: str) -> None:
    job = archive / "jobs" / "2026" / PIN / "job.yml"
    job.write_text(job.read_text(encoding="utf-8").replace("title: Ramp", f"title: {word}", 1), "utf-8")


def full(*_: object, **__: object) -> object:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), "site.cache/files/x")


def full_database(*_: object, **__: object) -> object:
    raise sqlite3.OperationalError("database or disk is full")


FULL: dict[str, Callable[[pytest.MonkeyPatch], None]] = {
    "a page": lambda patch: patch.setattr(Cache, "store", full),
    "what is kept": lambda patch: patch.setattr(kept, "seal", full_database),
    "a file of the site": lambda patch: patch.setattr(Cache, "link", full),
    "a folder of the site": lambda patch: patch.setattr(pages.os, "makedirs", full),
    "the list of files": lambda patch: patch.setattr(swap.SiteFolder, "commit", full),
}


@pytest.mark.parametrize("what", FULL)
def test_a_full_disk_leaves_the_earlier_site_whole(
    what: str, archive: Path, build_site: BuildSite, caplog: pytest.LogCaptureFixture,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    build_site()
    before = site_of(archive)
    change(archive, "Drawbridge")
    with monkeypatch.context() as patch:
        FULL[what](patch)
        with pytest.raises((Abort, OSError)) as caught:
            build_site()
    said = f"{caplog.text} {caught.value}"
    assert "No space left on device" in said or "disk is full" in said
    assert site_of(archive) == before
    assert not list(archive.glob("site.building-*"))
    build_site()
    after = site_of(archive)
    monkeypatch.setattr(SetupSheetsPlugin, "without_cache", True)
    build_site()
    assert site_of(archive) == after
    assert b"Drawbridge" in after[f"sheets/2026/{PIN}.html"]


@pytest.mark.skipif(os.name == "nt", reason="there is no such limit there")
def test_files_that_may_not_grow_are_said_in_a_sentence(archive: Path, build_site: BuildSite) -> None:
    """As on a disk that is nearly full: a real write fails."""
    build_site()
    before = site_of(archive)
    change(archive, "Drawbridge")
    limited = (
        "import resource; resource.setrlimit(resource.RLIMIT_FSIZE, (90_000, 90_000))\n"
        "import sys; from generator.__main__ import main; sys.exit(main(['build']))"
    )
    run = subprocess.run([sys.executable, "-c", limited], capture_output=True, text=True, check=False)
    assert run.returncode == 1
    assert "Traceback" not in run.stderr
    assert "File too large" in run.stderr or "disk I/O error" in run.stderr or "is full" in run.stderr
    assert site_of(archive) == before


def test_a_folder_that_cannot_be_written_is_said(
    archive: Path, build_site: BuildSite, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    build_site()
    before = site_of(archive)

    def refused(**_: object) -> str:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    with monkeypatch.context() as patch:
        patch.setattr(swap.tempfile, "mkdtemp", refused)
        with pytest.raises(Abort):
            build_site()
    assert "cannot write beside it: Permission denied" in caplog.text
    assert site_of(archive) == before


def test_a_job_file_that_cannot_be_read_has_a_page_that_says_so(
    archive: Path, build_site: BuildSite, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(job_files.time, "time_ns", lambda: NOW() + 10_000_000_000)
    job = archive / "jobs" / "2026" / PIN / "job.yml"
    text = job.read_text(encoding="utf-8")
    job.unlink()
    job.mkdir()
    for _ in range(2):
        build_site()
        page = (archive / "site" / "sheets" / "2026" / f"{PIN}.html").read_text(encoding="utf-8")
        assert "cannot be read" in page
        assert (archive / "site" / "sheets" / "2026" / f"{HOOK}.html").is_file()
    job.rmdir()
    job.write_text(text, encoding="utf-8")
    build_site()
    page = (archive / "site" / "sheets" / "2026" / f"{PIN}.html").read_text(encoding="utf-8")
    assert "cannot be read" not in page


def test_a_folder_that_cannot_be_listed_is_named_and_its_sheet_is_made(
    archive: Path, build_site: BuildSite, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.listdir

    def listdir(path: str) -> list[str]:
        if str(path).endswith(PIN):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), path)
        return real(path)

    monkeypatch.setattr(job_files.os, "listdir", listdir)
    build_site()
    assert f"jobs/2026/{PIN}: cannot be read: Permission denied" in caplog.text
    assert (archive / "site" / "sheets" / "2026" / f"{PIN}.html").is_file()


def test_a_job_taken_away_while_the_site_is_built_hides_no_other(
    archive: Path, build_site: BuildSite, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Build.finish

    def finish(self: Build, *args: object) -> object:
        shutil.rmtree(archive / "jobs" / "2026" / PIN, ignore_errors=True)
        return real(self, *args)  # type: ignore[arg-type]

    with monkeypatch.context() as patch:
        patch.setattr(Build, "finish", finish)
        build_site()
    assert b"cannot be read" in site_of(archive)[f"sheets/2026/{PIN}.html"]
    assert (archive / "site" / "sheets" / "2026" / f"{HOOK}.html").is_file()
    build_site()
    assert not (archive / "site" / "sheets" / "2026" / f"{PIN}.html").exists()


def test_a_jobs_folder_that_is_gone_leaves_the_site(
    archive: Path, build_site: BuildSite, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    build_site()
    before = site_of(archive)
    real = Build.begin

    def begin(self: Build) -> None:
        (archive / "jobs").rename(archive / "elsewhere")
        real(self)

    monkeypatch.setattr(Build, "begin", begin)
    with pytest.raises(Abort):
        build_site()
    assert "jobs: No such file or directory" in caplog.text
    assert site_of(archive) == before


def test_a_shop_changed_meanwhile_is_said(
    archive: Path, build_site: BuildSite, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Half of the sheets after the old rules and half after the new ones would be worse than none."""
    build_site()
    before = site_of(archive)
    change(archive, "Drawbridge")
    real = Build.finish

    def finish(self: Build, *args: object) -> object:
        house = archive / "jobs" / "_shop" / "house.yml"
        house.write_text(house.read_text(encoding="utf-8") + "# another rule\n", encoding="utf-8")
        making._shop.cache_clear()  # as in a process that has not read it yet
        return real(self, *args)  # type: ignore[arg-type]

    monkeypatch.setattr(Build, "finish", finish)
    with caplog.at_level(logging.ERROR), pytest.raises(Abort):
        build_site()
    assert "was changed while the site was built; build it again" in caplog.text
    assert site_of(archive) == before


def test_a_process_ended_before_it_was_asked_for_anything_gets_a_sentence(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(hands, "MAKING", "not loaded")
    with closing(hands.Hands()) as ours:
        ours.warm()
        pool = ours._one
        assert pool is not None
        os.kill(pool.submit(os.getpid).result(), signal.SIGKILL)
        with pytest.raises(BrokenProcessPool):
            pool.submit(os.getpid).result()
        order = Making(tmp_path, "", "", "sheets", Lessons(()), "en"), "job.yml"
        with pytest.raises(hands.WorkersGone, match=r"ended from outside.*build again"):
            list(ours.made([order]))
