"""`mkdocs build` and `mkdocs serve` with the plugin: whole sites only, every job in them, jobs untouched."""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from generator.job.reading import ReadJob, read_job
from generator.job.shop import Shop
from generator.render.environment import templates_folder
from generator.sheet import other_lathes
from generator.sheet.model import Sheet
from generator.site import archive as archive_module

Build = Callable[..., None]
SHEETS = {"SW-101-ramp-hinge-pin.html", "SW-116-coupling-hook.html"}


def tree(folder: Path) -> dict[str, str]:
    """Every file below a folder with the digest of what it holds."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def rows(site: Path) -> list[list[str]]:
    """Address, number and title of each job in the archive's table."""
    read: list[list[str]] = []
    for path in sorted((site / "find" / "rows").glob("*.js")):
        found = re.fullmatch(r'setupSheetData\("rows/[^"]*",(.*)\);\n', path.read_text("utf-8"), re.DOTALL)
        assert found
        begin, end, jobs = json.loads(found[1])
        read += ([f"{begin}{address}{end}", number, title] for address, number, title in jobs)
    return read


def break_job(archive: Path, old: str, new: str) -> Path:
    job = archive / "jobs" / "2026" / "SW-101-ramp-hinge-pin" / "job.yml"
    text = job.read_text(encoding="utf-8")
    assert old in text
    job.write_text(text.replace(old, new), encoding="utf-8")
    return job


def test_every_job_gets_a_sheet_in_its_years_folder(archive: Path, build_site: Build) -> None:
    build_site()
    assert {path.name for path in (archive / "site" / "sheets" / "2026").glob("*.html")} == SHEETS
    assert not (archive / "site" / "sheets" / "_frame").exists()
    assert [row[1] for row in rows(archive / "site")] == ["SW-101", "SW-116"]
    page = (archive / "site" / "sheets" / "2026" / "SW-101-ramp-hinge-pin.html").read_text(encoding="utf-8")
    assert "<title>SW-101 Ramp hinge pin, new clamp thread - Setup sheets</title>" in page
    assert page.count('<article class="sheet') == 1
    assert 'href="../../index.html"' in page


def test_the_print_styles_come_last_and_no_style_or_script_is_left_out(
    archive: Path, build_site: Build
) -> None:
    """With the same weight the later rule wins, so that the screen's rules may not follow the paper's."""
    build_site()
    page = (archive / "site" / "index.html").read_text(encoding="utf-8")
    styles = re.findall(r'href="css/([\w.]+)"', page)
    assert styles[-1] == "print.css"
    assert sorted(styles) == sorted(path.name for path in (templates_folder() / "css").iterdir())
    assert {path.name for path in (archive / "site" / "js").iterdir()} == {
        path.name for path in (templates_folder() / "js").iterdir()
    }


def test_nothing_in_the_jobs_folder_is_written(archive: Path, build_site: Build) -> None:
    before = tree(archive / "jobs")
    places = sorted((archive / "jobs").rglob("*"), reverse=True)
    for path in places:
        path.chmod(0o555 if path.is_dir() else 0o444)
    try:
        build_site()
    finally:
        for path in reversed(places):
            path.chmod(0o755 if path.is_dir() else 0o644)
    assert tree(archive / "jobs") == before


def test_the_same_jobs_make_the_same_bytes(archive: Path, build_site: Build) -> None:
    build_site()
    first = tree(archive / "site")
    build_site()
    assert tree(archive / "site") == first


def test_the_site_names_no_place_of_this_machine_and_no_other_host(archive: Path, build_site: Build) -> None:
    build_site()
    for path in (archive / "site").rglob("*"):
        if path.suffix in {".html", ".js"} and "assets" not in path.parts:
            text = path.read_text(encoding="utf-8")
            assert str(archive) not in text
            assert not re.search(r"""(?:src|href)=["']?(?:https?:)?//""", text)


def test_a_bad_job_gets_a_page_that_says_what_is_wrong_and_hides_no_other(
    archive: Path, build_site: Build, caplog: pytest.LogCaptureFixture
) -> None:
    break_job(archive, "title:", "tilte:")
    build_site()
    site = archive / "site"
    assert {path.name for path in (site / "sheets" / "2026").iterdir()} == SHEETS
    page = (site / "sheets" / "2026" / "SW-101-ramp-hinge-pin.html").read_text(encoding="utf-8")
    assert re.search(r"jobs/2026/SW-101-ramp-hinge-pin/job\.yml:\d+:\d+", page)
    assert "tilte" in page
    assert re.search(r"job\.yml:\d+:\d+: tilte", caplog.text)
    assert {row[1]: row[2] for row in rows(site)}["SW-101-ramp-hinge-pin"].startswith("No sheet: ")


def test_a_strict_build_with_a_bad_job_fails_and_leaves_the_earlier_site(
    archive: Path, build_site: Build
) -> None:
    build_site()
    before = tree(archive / "site")
    break_job(archive, "title:", "tilte:")
    with pytest.raises(Abort, match="strict mode"):
        build_site(strict=True)
    assert tree(archive / "site") == before
    assert {path.name for path in archive.iterdir()} == {"jobs", "mkdocs.yml", "site", "site.cache"}


def test_a_strict_build_of_good_jobs_has_no_warning_and_no_broken_link(
    archive: Path, build_site: Build
) -> None:
    build_site(strict=True)
    assert (archive / "site" / "index.html").is_file()


def test_broken_shop_files_leave_a_page_for_every_job(archive: Path, build_site: Build) -> None:
    (archive / "jobs" / "_shop" / "house.yml").write_text("shop: [", encoding="utf-8")
    build_site()
    for name in SHEETS:
        page = (archive / "site" / "sheets" / "2026" / name).read_text(encoding="utf-8")
        assert "_shop/house.yml" in page


def test_a_fault_of_the_program_in_one_job_hides_no_other(
    archive: Path, monkeypatch: pytest.MonkeyPatch, build_site: Build
) -> None:
    real = archive_module.compute_sheet

    def faulty(read: ReadJob, shop: Shop) -> Sheet:
        if "SW-101" in str(read.path):
            raise ZeroDivisionError("float division by zero")
        return real(read, shop)

    monkeypatch.setattr(archive_module, "compute_sheet", faulty)
    build_site()
    page = (archive / "site" / "sheets" / "2026" / "SW-101-ramp-hinge-pin.html").read_text(encoding="utf-8")
    assert "no sheet, by a fault of this program" in page
    assert "division by zero" in page
    other = (archive / "site" / "sheets" / "2026" / "SW-116-coupling-hook.html").read_text(encoding="utf-8")
    assert "This job cannot be read" not in other


def test_a_fault_of_the_program_on_another_lathe_costs_only_the_comparison(
    archive: Path,
    monkeypatch: pytest.MonkeyPatch,
    build_site: Build,
    caplog: pytest.LogCaptureFixture,
) -> None:
    real = other_lathes.compute_sheet
    own = read_job(archive / "jobs" / "2026" / "SW-101-ramp-hinge-pin" / "job.yml").job.lathe

    def faulty(read: ReadJob, shop: Shop) -> Sheet:
        if "SW-101" in str(read.path) and read.job.lathe != own:
            raise ZeroDivisionError("float division by zero")
        return real(read, shop)

    monkeypatch.setattr(other_lathes, "compute_sheet", faulty)
    build_site()
    pages = archive / "site" / "sheets" / "2026"
    page = (pages / "SW-101-ramp-hinge-pin.html").read_text(encoding="utf-8")
    assert '<article class="sheet' in page
    assert "This job cannot be read" not in page
    assert "No comparison with the other lathes, by a fault of this program (ZeroDivisionError" in page
    assert "no comparison with the other lathes, by a fault of this program" in caplog.text
    assert "What differs" in (pages / "SW-116-coupling-hook.html").read_text(encoding="utf-8")


def test_an_interrupted_build_leaves_the_earlier_site_whole(
    archive: Path, build_site: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    build_site()
    before = tree(archive / "site")

    def interrupted(*_: object) -> object:
        raise RuntimeError("power cut")

    monkeypatch.setattr("generator.site.archive_pages.rows_contents", interrupted)
    with pytest.raises(RuntimeError):
        build_site()
    assert tree(archive / "site") == before
    assert {path.name for path in archive.iterdir()} == {"jobs", "mkdocs.yml", "site", "site.cache"}


@pytest.mark.skipif(os.name == "nt", reason="there is no Ctrl-C signal to send there")
def test_ctrl_c_leaves_the_earlier_site_and_nothing_beside_it(archive: Path, build_site: Build) -> None:
    build_site()
    before = tree(archive / "site")
    slow = (
        "import time, generator.framework.plugin as p\n"
        "def slow(*args):\n    print('started', flush=True); time.sleep(60)\n"
        "p.Build.begin = slow\n"
        "from mkdocs.__main__ import cli; cli(['build', '--quiet'])\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", slow], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as running:
        assert running.stdout is not None
        assert running.stdout.readline().strip() == b"started"
        running.send_signal(signal.SIGINT)
        running.communicate(timeout=30)
    assert running.returncode != 0
    assert tree(archive / "site") == before
    assert {path.name for path in archive.iterdir()} == {"jobs", "mkdocs.yml", "site", "site.cache"}


def test_a_site_that_is_not_ours_is_refused_by_mkdocs_too(archive: Path, build_site: Build) -> None:
    (archive / "site").mkdir()
    (archive / "site" / "holiday.jpg").write_bytes(b"x")
    with pytest.raises(Abort):
        build_site()
    assert tree(archive / "site") == {"holiday.jpg": hashlib.sha256(b"x").hexdigest()}


def test_an_archive_without_jobs_builds(archive: Path, build_site: Build) -> None:
    for folder in (archive / "jobs" / "2026").iterdir():
        (folder / "job.yml").unlink()
    build_site(strict=True)
    assert rows(archive / "site") == []


def test_files_that_would_be_passed_over_are_named(
    archive: Path, build_site: Build, caplog: pytest.LogCaptureFixture
) -> None:
    jobs = archive / "jobs"
    (jobs / "SW-200-lost").mkdir()
    (jobs / "SW-200-lost" / "job.yml").write_text("job: SW-200\n", encoding="utf-8")
    (jobs / "2026" / "SW-201-lost").mkdir()
    (jobs / "2026" / "SW-201-lost" / "job.yaml").write_text("job: SW-201\n", encoding="utf-8")
    twin = jobs / "2026" / "SW-101-again"
    twin.mkdir()
    (twin / "job.yml").write_bytes((jobs / "2026" / "SW-101-ramp-hinge-pin" / "job.yml").read_bytes())
    build_site()
    assert "jobs/SW-200-lost/job.yml: is not read" in caplog.text
    assert "jobs/2026/SW-201-lost/job.yaml: is not read" in caplog.text
    assert "job number SW-101 stands in" in caplog.text


def test_a_job_folder_with_odd_letters_gets_a_link_that_opens(archive: Path, build_site: Build) -> None:
    old = archive / "jobs" / "2026" / "SW-101-ramp-hinge-pin"
    old.rename(old.with_name("SW 101 Bügel #2 50% & <b>"))
    build_site(strict=True)  # strict: the link check goes over the archive page
    (row, _) = sorted(rows(archive / "site"), key=lambda row: row[1])
    assert row[0] == "sheets/2026/SW%20101%20B%C3%BCgel%20%232%2050%25%20%26%20%3Cb%3E.html"


def test_no_data_of_the_archive_can_end_a_script(archive: Path, build_site: Build) -> None:
    break_job(archive, "title:", "title: </script><script>alert(1)</script> #")
    build_site()
    scripts = sorted((archive / "site" / "find").rglob("*.js"))
    assert scripts
    assert not any("<" in path.read_text(encoding="utf-8") for path in scripts)
    assert "</script><script>alert(1)</script>" in [title for _, _, title in rows(archive / "site")]


def test_hostile_text_of_a_job_stays_text_on_every_page(archive: Path, build_site: Build) -> None:
    break_job(archive, "title:", "title: <img src=x onerror=alert(1)> {{ 7*7 }} #")
    build_site()
    for page in (archive / "site").rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        assert "<img src=x" not in text, page
    sheet = (archive / "site" / "sheets" / "2026" / "SW-101-ramp-hinge-pin.html").read_text(encoding="utf-8")
    assert "{{ 7*7 }}" in sheet


def test_serve_shows_the_site_and_builds_again_when_a_job_changes(archive: Path, build_site: Build) -> None:
    build_site()
    shutil.rmtree(archive / "site")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    url = f"http://127.0.0.1:{port}/find/rows/2026-1.0.js"

    def wait_for(text: str) -> None:
        until = time.monotonic() + 40
        while time.monotonic() < until:
            try:
                with urllib.request.urlopen(url, timeout=5) as answer:
                    if text in answer.read().decode():
                        return
            except OSError:
                pass
            time.sleep(0.2)
        pytest.fail(f"{text!r} was not served")

    command = [sys.executable, "-m", "generator", "serve", "--addr", f"127.0.0.1:{port}"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT) as serving:
        try:
            wait_for("Ramp hinge pin")
            break_job(archive, "Ramp hinge pin", "Drawbridge pin")
            wait_for("Drawbridge pin")
        finally:
            serving.send_signal(signal.SIGINT if os.name != "nt" else signal.SIGTERM)
            said = serving.communicate(timeout=30)[0].decode()
    assert "2 jobs, 0 made, 2 as before" in said  # served sheets are those of the build
    assert "2 jobs, 1 made, 1 as before" in said
    assert {path.name for path in archive.iterdir()} == {"jobs", "mkdocs.yml", "site.cache"}
    assert {path.name for path in (archive / "site.cache").iterdir()} <= {
        "files", "lock", "pages.db", "words.db", "before-site", "served", "before-served"
    }
