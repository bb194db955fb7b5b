"""The command `print`: one file of the chosen sheets, and never another one in its place."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest

from generator.render.print_choice import PARTS
from generator.render.print_set import MARK, PAPERS
from tests.small_shop import ROOT, Run, runner, small_shop

JOBS = ("SW-109-brake-pull-rod", "SW-113-bollard-spindle", "SW-118-pump-lug")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A folder with a small archive."""
    return small_shop(tmp_path, JOBS)


@pytest.fixture
def run(shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return runner(shop, monkeypatch, capsys, "print")


def jobs_in(file: Path) -> list[str]:
    return re.findall(r'<article [^>]*data-job="([^"]+)"', file.read_text(encoding="utf-8"))


def left_behind(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir() if path.name.startswith(".")]


def test_the_sheets_stand_in_the_file_in_the_order_asked_for_each_once(run: Run, shop: Path) -> None:
    status, out, err = run("SW-118", "jobs/2026/SW-113-bollard-spindle", "SW-118")
    assert (status, err) == (0, "")
    file = shop / "setup-sheets.html"
    assert jobs_in(file) == ["SW-118", "SW-113"]
    assert "Written 2 sheets: SW-118, SW-113." in out
    assert file.as_uri() in out
    assert left_behind(shop) == []


def test_the_file_links_to_nothing_outside_itself(run: Run, shop: Path) -> None:
    assert run("SW-113", "SW-118")[0] == 0
    outside: list[str] = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            outside.extend(
                value
                for name, value in attrs
                if name in {"href", "src"} and value and not value.startswith(("#", "data:image/"))
            )

    text = (shop / "setup-sheets.html").read_text(encoding="utf-8")
    Reader().feed(text)
    assert outside == []
    assert "url(" not in re.sub(r"<script>.*?</script>|url\(#", "", text, flags=re.S)
    assert text.count("data:image/png;base64,") >= 1  # the picture of SW-113


def test_the_same_jobs_give_the_same_bytes(run: Run, shop: Path) -> None:
    run("SW-118", "--out", "one.html")
    run("SW-118", "--out", "two.html")
    assert (shop / "one.html").read_bytes() == (shop / "two.html").read_bytes()


@pytest.mark.parametrize("part", PARTS)
def test_the_choice_of_pages_is_made_beforehand(run: Run, shop: Path, part: str) -> None:
    assert run("SW-118", "--pages", part)[0] == 0
    text = (shop / "setup-sheets.html").read_text(encoding="utf-8")
    assert re.findall(r'<option value="([^"]*)" selected', text.partition("<article")[0]) == [PARTS[part][0]]


@pytest.mark.parametrize("paper", [*PAPERS, None])
def test_the_paper_is_said_only_when_asked(run: Run, shop: Path, paper: str | None) -> None:
    assert run("SW-118", *(["--paper", paper] if paper else []))[0] == 0
    found = re.findall(r"@page \{ size: (\w+); \}", (shop / "setup-sheets.html").read_text(encoding="utf-8"))
    assert found == ([paper] if paper else [])


def test_every_unknown_job_is_named_with_those_near_it_and_nothing_is_written(run: Run, shop: Path) -> None:
    status, out, err = run("SW-118", "SW-131", "bolard-spindle", "zzz")
    assert (status, out) == (2, "")
    assert "SW-131: there is no such job; near it are" in err
    assert re.search(r"SW-131: .*SW-113-bollard-spindle", err)
    assert "bolard-spindle: there is no such job; near it are SW-113-bollard-spindle;" in err
    assert "zzz: there is no such job; give a job file" in err
    assert err.endswith("Nothing was written.\n")
    assert not (shop / "setup-sheets.html").exists()


def test_an_earlier_set_is_replaced_and_keeps_who_may_read_it(run: Run, shop: Path) -> None:
    run("SW-118")
    file = shop / "setup-sheets.html"
    file.chmod(0o600)
    assert run("SW-109")[0] == 0
    assert jobs_in(file) == ["SW-109"]
    assert file.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("content", ["", "my own page", f"<p>{'x' * 500}</p>{MARK}"])
def test_anothers_file_stays_as_it_is(run: Run, shop: Path, content: str) -> None:
    file = shop / "setup-sheets.html"
    file.write_text(content, encoding="utf-8")
    status, _, err = run("SW-118")
    assert status == 2
    assert "setup-sheets.html: was not written by this command" in err
    assert file.read_text(encoding="utf-8") == content


@pytest.mark.parametrize(
    ("out", "said"),
    [
        (".", "is a folder"),
        ("nowhere/set.html", "there is no folder"),
        ("jobs/2026/set.html", "lies in the jobs folder"),
        ("jobs/2026/SW-118-pump-lug/job.yml", "lies in the jobs folder"),
        ("through/set.html", "lies in the jobs folder"),
    ],
)
def test_where_nothing_is_to_be_written_nothing_is(run: Run, shop: Path, out: str, said: str) -> None:
    (shop / "through").symlink_to(shop / "jobs")
    before = sorted(shop.rglob("*"))
    status, _, err = run("SW-118", "--out", out)
    assert status == 2
    assert said in err
    assert sorted(shop.rglob("*")) == before


def test_a_link_stays_a_link(run: Run, shop: Path) -> None:
    (shop / "link.html").symlink_to("real.html")
    assert run("SW-118", "--out", "link.html")[0] == 0
    assert (shop / "link.html").is_symlink()
    assert jobs_in(shop / "real.html") == ["SW-118"]


def test_a_write_that_fails_leaves_the_earlier_set_whole(
    run: Run, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run("SW-118")
    before = (shop / "setup-sheets.html").read_bytes()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device", "setup-sheets.html")

    monkeypatch.setattr(os, "fsync", full)
    status, out, err = run("SW-109")
    assert (status, out) == (1, "")
    assert err == "setup-sheets.html: No space left on device\n"
    assert (shop / "setup-sheets.html").read_bytes() == before
    assert left_behind(shop) == []


def test_a_job_with_errors_gets_a_page_that_says_so_and_the_status_says_it_too(run: Run, shop: Path) -> None:
    file = shop / "jobs" / "2026" / "SW-109-brake-pull-rod" / "job.yml"
    file.write_text(file.read_text(encoding="utf-8") + "nonsense: 3\n", encoding="utf-8")
    status, out, err = run("SW-118", "SW-109")
    assert status == 1
    assert re.search(r"job\.yml:\d+:1: nonsense", err)
    assert "Written 2 sheets" in out
    assert "No sheet because of errors, only a page that says so: SW-109-brake-pull-rod" in err
    assert "This job cannot be read" in (shop / "setup-sheets.html").read_text(encoding="utf-8")


def test_hostile_text_of_a_job_is_only_text(run: Run, shop: Path) -> None:
    file = shop / "jobs" / "2026" / "SW-118-pump-lug" / "job.yml"
    title = "title: '</style></script><script>alert(1)</script>{{ 7*7 }}'"
    text = re.sub(r"(?m)^title: .*", title, file.read_text(encoding="utf-8"))
    file.write_text(text, encoding="utf-8")
    assert run("SW-118")[0] == 0
    written = (shop / "setup-sheets.html").read_text(encoding="utf-8")
    assert "<script>alert" not in written
    assert "{{ 7*7 }}" in written


def test_where_the_site_has_an_address_its_code_is_on_the_sheet(run: Run, shop: Path) -> None:
    (shop / "mkdocs.yml").write_text(
        f"INHERIT: {(ROOT / 'site_templates' / 'mkdocs.yml').as_posix()}\n"
        f"site_url: https://sheets.saltmarsh.example\n"
        f"docs_dir: {(ROOT / 'site_templates' / 'pages').as_posix()}\n"
        f"theme: {{custom_dir: {(ROOT / 'site_templates' / 'theme').as_posix()}}}\n",
        encoding="utf-8",
    )
    assert run("SW-118")[0] == 0
    assert "https://sheets.saltmarsh.example/sheets/2026/SW-118-pump-lug.html" in (
        shop / "setup-sheets.html"
    ).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "words", [(), ("SW-118", "--paper", "A3"), ("SW-118", "--pages", "some"), ("SW-118", "--copies", "2")]
)
def test_wrong_usage_says_what_would_do(run: Run, shop: Path, words: tuple[str, ...]) -> None:
    status, out, err = run(*words)
    assert (status, out) == (2, "")
    assert "usage: python -m generator" in err
    assert not (shop / "setup-sheets.html").exists()


def test_the_help_has_an_example(run: Run) -> None:
    status, out, _ = run("--help")
    assert status == 0
    assert "example: python -m generator print SW-113 SW-116 --pages machine --paper A4" in out


# the sheet of one job


def test_one_sheet_is_written_without_the_framework_that_makes_the_site(shop: Path) -> None:
    """The same article as `print` writes; neither mkdocs nor the theme can be imported."""
    program = (
        "import sys\n"
        "for name in ('mkdocs', 'material', 'markdown', 'pymdownx'): sys.modules[name] = None\n"
        "from generator.__main__ import main\n"
        "sys.exit(main(['sheet', 'SW-113', '-o', 'one.html', '--paper', 'A4']))\n"
    )
    here = {**os.environ, "PYTHONPATH": str(ROOT)}
    subprocess.run([sys.executable, "-c", program], cwd=shop, env=here, check=True)
    assert jobs_in(shop / "one.html") == ["SW-113"]
    assert "size: A4" in (shop / "one.html").read_text(encoding="utf-8")


def test_one_sheet_is_named_as_its_folder_and_takes_nobodys_place(
    shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    run = runner(shop, monkeypatch, capsys, "sheet")
    file = shop / "SW-118-pump-lug.html"
    assert run("SW-118")[0] == 0
    assert jobs_in(file) == ["SW-118"]
    assert run("SW-118", "--pages", "customer")[0] == 0
    file.write_text("my own page", encoding="utf-8")
    status, _, err = run("SW-118")
    assert (status, file.read_text(encoding="utf-8")) == (2, "my own page")
    assert "was not written by this command" in err


def test_one_sheet_of_a_job_with_errors_says_so(
    shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = shop / "jobs" / "2026" / "SW-118-pump-lug" / "job.yml"
    path.write_text(path.read_text(encoding="utf-8").replace("title:", "tilte:"), encoding="utf-8")
    status, _, err = runner(shop, monkeypatch, capsys, "sheet")("SW-118")
    assert status == 1
    assert "job.yml:" in err
    assert "tilte" in err
