"""A job that has not changed is not computed again, and what is kept is never taken for more than it is."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PIL import Image

from generator.errors import JobProblems
from generator.framework.plugin import SetupSheetsPlugin
from generator.job.learned import Lessons
from generator.job.shop import Shop
from generator.site import making, program_key
from generator.site.archive import make_entry
from generator.site.entry import Made
from generator.site.kept import Cache
from tests.site.built import site_of

pytestmark = pytest.mark.usefixtures("few_families")

Build = Callable[..., None]
PIN = "SW-101-ramp-hinge-pin"
HOOK = "SW-116-coupling-hook"
NOW = time.time_ns


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The folders of the jobs that were computed, in their order; empty it before a build."""
    names: list[str] = []

    def noted(path: Path, shop: Shop | JobProblems, address: str, lessons: Lessons, *, top: str) -> Made:
        names.append(path.parent.name)
        return make_entry(path, shop, address, lessons, top=top)

    monkeypatch.setattr(making, "make_entry", noted)
    return names


@pytest.fixture
def later(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The clock as it is ten seconds on: files just written are not too fresh to be believed."""
    monkeypatch.setattr("generator.site.job_files.time.time_ns", lambda: NOW() + 10_000_000_000)
    return


def without_cache(build_site: Build, archive: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, bytes]:
    """The site as `--no-cache` makes it."""
    with monkeypatch.context() as patched:
        patched.setattr(SetupSheetsPlugin, "without_cache", True)
        build_site()
    return site_of(archive)


def add(path: Path, text: str) -> None:
    path.write_text(path.read_text(encoding="utf-8") + text, encoding="utf-8")


def test_an_unchanged_archive_is_not_computed_again(
    archive: Path, build_site: Build, made: list[str], later: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    build_site()
    assert made == [PIN, HOOK]
    first = site_of(archive)
    made.clear()
    build_site()
    assert made == []
    assert site_of(archive) == first
    assert without_cache(build_site, archive, monkeypatch) == first
    assert made == [PIN, HOOK]
    assert {path.name for path in archive.iterdir()} == {"jobs", "mkdocs.yml", "site", "site.cache"}


CHANGES: dict[str, Callable[[Path], object]] = {
    "the job file": lambda jobs: add(jobs / "2026" / PIN / "job.yml", "# a remark\n"),
    "its log": lambda jobs: add(
        jobs / "2026" / PIN / "log.yml", "\n- {at: 2026-03-05 10:00, note: oil changed}\n"
    ),
    "a picture": lambda jobs: Image.new("RGB", (30, 20)).save(jobs / "2026" / PIN / "new.png"),
    "a lathe": lambda jobs: add(next((jobs / "_shop" / "lathes").iterdir()), "# a remark\n"),
    "the materials": lambda jobs: add(jobs / "_shop" / "materials.yml", "# a remark\n"),
    "the house rules": lambda jobs: add(jobs / "_shop" / "house.yml", "# a remark\n"),
    "a lathe that goes": lambda jobs: next(
        path for path in (jobs / "_shop" / "lathes").iterdir()
        if all(f"lathe: {path.stem}\n" not in job.read_text() for job in jobs.glob("2026/*/job.yml"))
    ).unlink(),
}


@pytest.mark.parametrize("what", CHANGES)
def test_what_a_page_depends_on_makes_it_anew(
    what: str,
    archive: Path,
    build_site: Build,
    made: list[str],
    later: None,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    build_site()
    made.clear()
    CHANGES[what](archive / "jobs")
    build_site()
    assert made == ([PIN] if what in ("the job file", "its log", "a picture") else [PIN, HOOK])
    assert site_of(archive) == without_cache(build_site, archive, monkeypatch)


def test_templates_program_libraries_and_options_make_every_page_anew(
    archive: Path,
    build_site: Build,
    made: list[str],
    later: None,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    copy = tmp_path / "copy"
    for name in ("PACKAGE", "SHEETS"):
        real = getattr(program_key, name)
        shutil.copytree(real, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
        monkeypatch.setattr(program_key, name, copy / name)
    build_site()
    for change in (
        lambda: add(copy / "SHEETS" / "page.html", " "),
        lambda: add(copy / "PACKAGE" / "si.py", "\n"),
        lambda: add(next((copy / "PACKAGE" / "tables").glob("*.csv")), "\n"),
        lambda: monkeypatch.setattr(program_key.platform, "python_version", lambda: "9.9.9"),
        lambda: monkeypatch.setattr(program_key, "version", lambda name: "99"),
    ):
        made.clear()
        change()
        build_site()
        assert made == [PIN, HOOK]
    made.clear()
    build_site(site_url="https://sheets.example/")
    assert made == [PIN, HOOK]


def test_another_frame_goes_around_the_pages_that_are_kept(
    archive: Path, build_site: Build, made: list[str], later: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    build_site()
    made.clear()
    build_site(site_name="Another name of the shop")
    assert made == []
    assert b"Another name of the shop" in (archive / "site" / "sheets" / "2026" / f"{PIN}.html").read_bytes()
    build_site(site_name="A third")
    assert made == []
    page = (archive / "site" / "sheets" / "2026" / f"{PIN}.html").read_text(encoding="utf-8")
    assert "Another name" not in page
    assert page.count("<article") == page.count("</article>")
    assert page.rstrip().endswith("</html>")


def test_a_job_that_another_supersedes_changes_when_the_other_comes_or_goes(
    archive: Path, build_site: Build, made: list[str], later: None
) -> None:
    add(archive / "jobs" / "2026" / PIN / "job.yml", "superseded_by: SW-200\n")
    build_site()
    added = archive / "jobs" / "2026" / "SW-200-ramp-hinge-pin"
    shutil.copytree(archive / "jobs" / "2026" / HOOK, added)
    nothing = lambda: None  # noqa: E731
    for change, expected in (
        (nothing, [added.name, PIN]), (nothing, []), (lambda: shutil.rmtree(added), [PIN]), (nothing, []),
    ):
        made.clear()
        change()
        build_site()
        assert made == expected
    page = (archive / "site" / "sheets" / "2026" / f"{PIN}.html").read_text(encoding="utf-8")
    assert "No job of that number is in the archive" in page


def test_a_lesson_of_one_job_makes_the_unfinished_ones_anew(
    archive: Path, build_site: Build, made: list[str], later: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    build_site()
    made.clear()
    log = archive / "jobs" / "2026" / HOOK / "log.yml"
    log.write_text("- {at: 2026-03-05, watch_out: x, lesson_for: [lathe]}\n", encoding="utf-8")
    build_site()
    assert made == [HOOK]  # the other is done
    shutil.copytree(archive / "jobs" / "2026" / HOOK, archive / "jobs" / "2026" / "SW-300-hook")
    made.clear()
    log.write_text("- {at: 2026-03-05, watch_out: Another., lesson_for: [lathe]}\n", encoding="utf-8")
    build_site()
    assert made == [HOOK, "SW-300-hook"]
    assert b"Another." in (archive / "site" / "sheets" / "2026" / "SW-300-hook.html").read_bytes()
    assert site_of(archive) == without_cache(build_site, archive, monkeypatch)


def test_a_file_written_just_before_it_was_read_is_read_again(
    archive: Path, build_site: Build, made: list[str]
) -> None:
    build_site()
    job = archive / "jobs" / "2026" / PIN / "job.yml"
    before = job.stat()
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("hinge", "HINGE", 1), encoding="utf-8")
    os.utime(job, ns=(before.st_atime_ns, before.st_mtime_ns))  # within one step of a coarse clock
    made.clear()
    build_site()
    assert made == [PIN]


def test_a_clock_set_back_makes_nothing_stale(
    archive: Path, build_site: Build, made: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.site.job_files.time.time_ns", lambda: NOW() - 10**18)
    build_site()
    made.clear()
    job = archive / "jobs" / "2026" / PIN / "job.yml"
    job.write_text(job.read_text(encoding="utf-8").replace("hinge", "HINGE", 1), encoding="utf-8")
    os.utime(job, ns=(0, 10**9))
    build_site()
    assert made == [PIN]


def test_a_job_changed_while_it_was_made_is_made_again(
    archive: Path, build_site: Build, monkeypatch: pytest.MonkeyPatch, later: None
) -> None:
    job = archive / "jobs" / "2026" / PIN / "job.yml"
    first = job.read_text(encoding="utf-8")

    def changing(path: Path, shop: Shop | JobProblems, address: str, lessons: Lessons, *, top: str) -> Made:
        job.write_text(first.replace("hinge", "HINGE", 1), encoding="utf-8")
        return make_entry(path, shop, address, lessons, top=top)

    monkeypatch.setattr(making, "make_entry", changing)
    build_site()
    job.write_text(first, encoding="utf-8")
    monkeypatch.setattr(making, "make_entry", make_entry)
    build_site()
    assert b"HINGE" not in (archive / "site" / "sheets" / "2026" / f"{PIN}.html").read_bytes()


def test_a_fault_of_the_program_is_not_kept(
    archive: Path, build_site: Build, made: list[str], monkeypatch: pytest.MonkeyPatch, later: None
) -> None:
    def faulty(*_: object) -> object:
        raise MemoryError

    with monkeypatch.context() as patched:
        patched.setattr("generator.site.archive.compute_sheet", faulty)
        build_site()
    made.clear()
    build_site()
    assert made == [PIN, HOOK]
    assert b"fault of this program" not in (archive / "site" / "sheets" / "2026" / f"{PIN}.html").read_bytes()


def damaged(cache: Path, how: str, luck: random.Random) -> None:
    """Spoil a cache as disks, people and other programs do."""
    database = cache / "pages.db"
    files = [path for path in (cache / "files").rglob("*") if path.is_file()]
    if how == "bytes of the database":
        data = bytearray(database.read_bytes())
        for _ in range(40):
            data[luck.randrange(len(data))] = luck.randrange(256)
        database.write_bytes(data)
    elif how == "half a database":
        database.write_bytes(database.read_bytes()[: luck.randrange(database.stat().st_size)])
    elif how == "words":
        database.write_text("these are not the pages you look for")
    elif how == "another program's database":
        database.unlink()
        with sqlite3.connect(database) as other:
            other.execute("CREATE TABLE job (path TEXT, kept TEXT, seal TEXT, more TEXT)")
            other.execute("INSERT INTO job VALUES ('a', '{}', '', '')")
        other.close()
    elif how == "rows of another job":
        with sqlite3.connect(database) as other:
            other.execute("UPDATE job SET entry = (SELECT max(entry) FROM job)")
        other.close()
    elif how == "lines mixed up":
        with sqlite3.connect(database) as other:
            other.execute("UPDATE line SET said = said || ' '")
        other.close()
    elif how == "a page written over":
        for file in files:
            file.write_bytes(b"<p>" * 20)
    elif how == "a page cut short":
        for file in files:
            os.truncate(file, file.stat().st_size // 2)
    elif how == "no pages":
        shutil.rmtree(cache / "files")
    else:
        shutil.rmtree(cache)


@pytest.mark.parametrize(
    "how",
    [
        "bytes of the database", "half a database", "words", "another program's database",
        "rows of another job", "lines mixed up", "a page written over", "a page cut short", "no pages",
        "no cache",
    ],
)
def test_a_damaged_cache_is_made_anew_and_the_site_is_right(
    how: str, archive: Path, build_site: Build, later: None
) -> None:
    build_site()
    first = site_of(archive)
    luck = random.Random(how)
    for _ in range(2 if how == "bytes of the database" else 1):
        damaged(archive / "site.cache", how, luck)
        build_site()
        assert site_of(archive) == first


def test_what_somebody_wrote_is_not_lost_from_the_search_with_a_damaged_cache(
    archive: Path, build_site: Build, later: None, caplog: pytest.LogCaptureFixture
) -> None:
    build_site()
    first = site_of(archive)
    (archive / "site.cache" / "words.db").unlink()
    with sqlite3.connect(archive / "site.cache" / "pages.db") as database:
        database.execute("UPDATE written SET text = ''")
    with pytest.raises(SystemExit):
        build_site()
    assert "site.cache: is damaged; build again" in caplog.text
    assert site_of(archive) == first
    build_site()
    assert site_of(archive) == first
    with sqlite3.connect(archive / "site.cache" / "pages.db") as database:
        assert all(text for (text,) in database.execute("SELECT text FROM written"))


BUILD = (
    "import sys; from mkdocs.commands.build import build; from mkdocs.config import load_config;"
    "from generator.site import hands; from generator.job import thread_families, thread_print;"
    "thread_families.listed_families = thread_print.from_memory = lambda: ();"
    "hands.FEW = int(sys.argv[1]); print('begun', flush=True);"
    "build(load_config('mkdocs.yml'))"
)


def begun(few: int = 48) -> subprocess.Popen[bytes]:
    """A build in a process of its own, which has just begun; others help where there are `few` jobs."""
    command = [sys.executable, "-c", BUILD, str(few)]
    running = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert running.stdout is not None
    assert running.stdout.readline().strip() == b"begun"
    return running


def test_two_builds_at_once_both_end_with_the_whole_site(
    archive: Path, build_site: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    expected = without_cache(build_site, archive, monkeypatch)
    both = [begun(), begun()]
    for running in both:
        running.communicate(timeout=120)
    assert [running.returncode for running in both] == [0, 0]
    assert site_of(archive) == expected


def test_a_second_build_says_that_it_waits(archive: Path) -> None:
    with Cache(archive / "site.cache"):
        running = begun()
        assert running.stderr is not None
        assert any(b"Another build of this site is running" in line for line in running.stderr)
    running.communicate(timeout=120)
    assert running.returncode == 0


def test_several_processes_make_the_same_bytes_as_one(
    archive: Path, build_site: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    for number in range(4):
        copied = archive / "jobs" / "2026" / f"SW-30{number}-pin"
        shutil.copytree(archive / "jobs" / "2026" / PIN, copied)
    (copied / "job.yml").write_text("job: [\n", encoding="utf-8")
    expected = without_cache(build_site, archive, monkeypatch)
    running = begun(few=2)
    running.communicate(timeout=120)
    assert running.returncode == 0
    assert site_of(archive) == expected


@pytest.mark.skipif(not Path("/proc").is_dir(), reason="looks for processes where Linux shows them")
def test_the_processes_of_a_killed_build_end_with_it(archive: Path) -> None:
    for number in range(30):
        shutil.copytree(archive / "jobs" / "2026" / PIN, archive / "jobs" / "2026" / f"SW-4{number:02}-pin")
    running = begun(few=2)

    def helpers() -> list[int]:
        return [
            int(folder.name) for folder in Path("/proc").iterdir()
            if folder.name.isdigit() and _works_in(folder, archive)
            and int(folder.name) not in (running.pid, os.getpid())
        ]

    _wait_until(lambda: len(list((archive / "site.cache").rglob("*.html"))) > 2)
    assert helpers()
    running.kill()
    running.communicate()
    _wait_until(lambda: not helpers())


def _works_in(process: Path, folder: Path) -> bool:
    try:
        return (process / "cwd").readlink() == folder
    except OSError:  # it has ended, or is somebody else's
        return False


def _wait_until(so: Callable[[], bool]) -> None:
    for _ in range(600):
        if so():
            return
        time.sleep(0.05)
    raise AssertionError("waited half a minute in vain")


@pytest.mark.skipif(os.name == "nt", reason="there is no such signal there")
def test_a_build_killed_at_any_moment_leaves_a_whole_site_and_the_next_is_right(
    archive: Path, build_site: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One moment; `KILLS=100 pytest tests/site/test_kept.py -k killed` for as many as one likes."""
    luck = random.Random(6)
    job = archive / "jobs" / "2026" / PIN / "job.yml"
    text = job.read_text(encoding="utf-8")
    started = time.monotonic()
    build_site()
    took = time.monotonic() - started
    for turn in range(int(os.environ.get("KILLS", "1"))):
        before = site_of(archive)
        job.write_text(text.replace("hinge", f"hinge {turn}", 1), encoding="utf-8")
        running = begun()
        time.sleep(luck.uniform(0, 1.2 * took))
        running.kill()
        running.communicate()
        if site_of(archive) != before:
            assert site_of(archive) == without_cache(build_site, archive, monkeypatch)
        build_site()
        assert site_of(archive) == without_cache(build_site, archive, monkeypatch)
    assert not list(archive.glob("site.before*"))
