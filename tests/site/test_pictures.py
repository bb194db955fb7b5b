"""Pictures beside a job file are shown on its sheet and copied into the site; no other file is."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.errors import JobProblems
from generator.job.reading import read_job
from generator.site.archive import make_archive

JOBS = Path(__file__).parents[2] / "jobs"


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    """The shop and one job with two pictures named and one there."""
    shutil.copytree(JOBS / "_shop", tmp_path / "jobs" / "_shop")
    folder = tmp_path / "jobs" / "2026" / "SW-101-ramp-hinge-pin"
    shutil.copytree(JOBS / "2026" / folder.name, folder)
    with (folder / "job.yml").open("a", encoding="utf-8") as file:
        file.write("photos: [intake 1.jpg, lost.png]\n")
    (folder / "intake 1.jpg").write_bytes(b"picture")
    return tmp_path / "jobs"


def test_a_picture_stands_on_the_sheet_and_in_the_site(jobs: Path, tmp_path: Path) -> None:
    (entry,) = make_archive(jobs, tmp_path / "site").entries
    page = tmp_path / "site" / entry.page
    assert 'src="SW-101-ramp-hinge-pin/intake%201.jpg"' in page.read_text(encoding="utf-8")
    assert (page.parent / "SW-101-ramp-hinge-pin" / "intake 1.jpg").read_bytes() == b"picture"


def test_a_picture_that_is_not_there_is_named(jobs: Path, tmp_path: Path) -> None:
    (entry,) = make_archive(jobs, tmp_path / "site").entries
    text = (tmp_path / "site" / entry.page).read_text(encoding="utf-8")
    assert "The picture lost.png is not in the job&#39;s folder" in text
    assert "lost.png\"" not in text


@pytest.mark.parametrize("name", ["../../secret.jpg", "/etc/passwd", "notes.txt", "a\\b.png", ".hidden.png"])
def test_a_name_that_is_no_picture_beside_the_job_is_refused(jobs: Path, name: str) -> None:
    path = jobs / "2026" / "SW-101-ramp-hinge-pin" / "job.yml"
    path.write_text(path.read_text(encoding="utf-8").replace("intake 1.jpg", f"'{name}'"), encoding="utf-8")
    with pytest.raises(JobProblems, match="is not a picture beside the job file"):
        read_job(path)
