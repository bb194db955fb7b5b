"""The site folder is replaced as one step, and nobody's files are deleted."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from generator.site import swap
from generator.site.swap import MARKER, SiteFolder, SiteRefused


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    folder = tmp_path / "jobs"
    folder.mkdir()
    return folder


def build(site: Path, jobs: Path, text: str) -> SiteFolder:
    folder = SiteFolder(site, [jobs])
    (folder.begin() / "index.html").write_text(text)
    return folder


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_a_finished_build_takes_the_place_of_the_earlier_site_and_leaves_nothing_beside_it(
    tmp_path: Path, jobs: Path
) -> None:
    site = tmp_path / "site"
    build(site, jobs, "first").commit()
    second = build(site, jobs, "second")
    assert (site / "index.html").read_text() == "first"
    second.commit()
    assert (site / "index.html").read_text() == "second"
    assert names(tmp_path) == {"jobs", "site"}


def test_a_failed_build_leaves_the_earlier_site_whole(tmp_path: Path, jobs: Path) -> None:
    site = tmp_path / "site"
    build(site, jobs, "first").commit()
    build(site, jobs, "second").discard()
    assert (site / "index.html").read_text() == "first"
    assert names(tmp_path) == {"jobs", "site"}


def test_a_build_killed_between_the_two_renames_gives_the_earlier_site_back(
    tmp_path: Path, jobs: Path
) -> None:
    site = tmp_path / "site"
    build(site, jobs, "first").commit()
    site.rename(tmp_path / "site.before")
    folder = build(site, jobs, "second")
    assert (site / "index.html").read_text() == "first"
    folder.commit()
    assert (site / "index.html").read_text() == "second"


def test_a_rename_that_fails_puts_the_earlier_site_back(
    tmp_path: Path, jobs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    build(site, jobs, "first").commit()
    folder = build(site, jobs, "second")
    rename = os.rename

    def fails_for_the_new_site(source: Path, target: Path) -> None:
        if source == folder.staging:
            raise PermissionError(13, "in use")
        rename(source, target)

    monkeypatch.setattr(swap.os, "rename", fails_for_the_new_site)
    with pytest.raises(SiteRefused, match="in use"):
        folder.commit()
    assert (site / "index.html").read_text() == "first"


def test_the_leftovers_of_a_killed_build_go_once_they_are_old_and_only_when_they_are_ours(
    tmp_path: Path, jobs: Path
) -> None:
    site = tmp_path / "site"
    killed, running, strange = (tmp_path / f"site.building-{name}" for name in ("killed", "running", "mine"))
    for folder in (killed, running, strange):
        folder.mkdir()
    (killed / MARKER).touch()
    os.utime(killed / MARKER, (0, 0))
    (running / MARKER).touch()
    build(site, jobs, "new").commit()
    assert names(tmp_path) == {"jobs", "site", running.name, strange.name}


@pytest.mark.parametrize("place", [".", "site", "..", "../.."])
def test_a_site_that_is_or_holds_or_lies_in_the_jobs_folder_is_refused(tmp_path: Path, place: str) -> None:
    jobs = tmp_path / "deep" / "jobs"
    jobs.mkdir(parents=True)
    with pytest.raises(SiteRefused, match="jobs folder"):
        SiteFolder(jobs / place, [jobs]).begin()


def test_a_link_to_the_jobs_folder_is_seen_through(tmp_path: Path, jobs: Path) -> None:
    link = tmp_path / "elsewhere"
    link.symlink_to(jobs, target_is_directory=True)
    with pytest.raises(SiteRefused, match="jobs folder"):
        SiteFolder(link, [jobs]).begin()


def test_a_folder_with_somebodys_files_is_refused_and_untouched(tmp_path: Path, jobs: Path) -> None:
    site = tmp_path / "photos"
    site.mkdir()
    (site / "holiday.jpg").write_bytes(b"x")
    with pytest.raises(SiteRefused, match="not built by this program"):
        SiteFolder(site, [jobs]).begin()
    assert names(tmp_path) == {"jobs", "photos"}
    assert (site / "holiday.jpg").read_bytes() == b"x"


def test_a_file_that_somebody_put_into_our_site_is_named_and_kept(tmp_path: Path, jobs: Path) -> None:
    site = tmp_path / "site"
    build(site, jobs, "first").commit()
    (site / "holiday.jpg").write_bytes(b"x")
    with pytest.raises(SiteRefused, match=r"holiday\.jpg"):
        SiteFolder(site, [jobs]).begin()
    assert (site / "holiday.jpg").exists()


def test_hidden_files_of_a_site_stay(tmp_path: Path, jobs: Path) -> None:
    site = tmp_path / "site"
    build(site, jobs, "first").commit()
    (site / ".access").write_text("rules")
    (site / ".history").mkdir()
    (site / ".history" / "one").write_text("1")
    build(site, jobs, "second").commit()
    assert (site / ".access").read_text() == "rules"
    assert (site / ".history" / "one").read_text() == "1"


def test_an_empty_folder_and_a_link_to_a_folder_are_accepted(tmp_path: Path, jobs: Path) -> None:
    real = tmp_path / "real"
    real.mkdir()
    link = tmp_path / "link"
    link.symlink_to(real, target_is_directory=True)
    build(link, jobs, "first").commit()
    assert link.is_symlink()
    assert (real / "index.html").read_text() == "first"


def test_a_file_is_not_a_site(tmp_path: Path, jobs: Path) -> None:
    (tmp_path / "site").write_text("mine")
    with pytest.raises(SiteRefused, match="is a file"):
        SiteFolder(tmp_path / "site", [jobs]).begin()
    assert (tmp_path / "site").read_text() == "mine"


def test_the_site_before_last_is_begun_with_and_nothing_of_it_stays_that_is_not_asked_for(
    tmp_path: Path,
) -> None:
    site, spare, jobs = tmp_path / "site", tmp_path / "cache" / "before-site", [tmp_path / "jobs"]
    spare.parent.mkdir()
    for turn in range(4):
        folder = SiteFolder(site, jobs)
        staging = folder.begin()
        (staging / "index.html").write_text(f"{turn}", encoding="utf-8")
        tree = folder.take(spare)
        assert (tree / "index.html").read_text(encoding="utf-8") == f"{turn}"
        assert (tree / "sheets" / "same.html").exists() is (turn > 1)  # as it was, two builds ago
        (tree / "sheets" / "old").mkdir(parents=True, exist_ok=True)
        (tree / "sheets" / "same.html").write_text("same", encoding="utf-8")
        (tree / "sheets" / "old" / f"{turn}.html").write_text("gone soon", encoding="utf-8")
        names = {MARKER, "index.html", "sheets/same.html", f"sheets/old/{turn}.html"}
        folder.commit(names, again=True)
        found = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
        assert found - {".keep"} == names
        (site / ".keep").write_text(f"{turn}", encoding="utf-8")  # somebody's own
        assert {path.name for path in tmp_path.iterdir()} == {"site", "cache"}
    assert (site / ".keep").read_text(encoding="utf-8") == "3"
    assert not (spare / ".keep").exists()


def test_a_spare_that_is_not_ours_is_left_alone(tmp_path: Path) -> None:
    site, spare = tmp_path / "site", tmp_path / "spare"
    spare.mkdir()
    (spare / "holiday.jpg").write_bytes(b"x")
    folder = SiteFolder(site, [tmp_path / "jobs"])
    staging = folder.begin()
    (staging / "index.html").write_text("x", encoding="utf-8")
    assert folder.take(spare) == staging
    folder.commit({MARKER, "index.html"}, again=True)
    assert (spare / "holiday.jpg").read_bytes() == b"x"


def test_folders_that_are_empty_go_and_others_stay(tmp_path: Path) -> None:
    site, spare = tmp_path / "site", tmp_path / "spare"
    for names in ({"a/b/1.html", "a/2.html"}, {"a/2.html"}, {"a/2.html"}):
        folder = SiteFolder(site, [tmp_path / "jobs"])
        folder.begin()
        tree = folder.take(spare)
        for name in names:
            (tree / name).parent.mkdir(parents=True, exist_ok=True)
            (tree / name).write_text("x", encoding="utf-8")
        folder.commit({MARKER, *names}, again=True)
    assert {path.relative_to(site).as_posix() for path in site.rglob("*")} == {MARKER, "a", "a/2.html"}
