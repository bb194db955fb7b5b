"""A small archive to break: one lathe, two jobs, and a way to build it as mkdocs does."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator.site.entry import Archive
from generator.site.frame import Frame
from generator.site.hands import Hands
from generator.site.job_files import JobsFolder
from generator.site.kept import Cache
from generator.site.pages import Build
from generator.site.word_index import WordIndex

ROOT = Path(__file__).resolve().parents[2]
BuildSite = Callable[..., None]


@pytest.fixture
def archive(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with `jobs` (two jobs of the demo, and the shop) and a mkdocs.yml; the current folder."""
    shutil.copytree(ROOT / "jobs" / "_shop", tmp_path / "jobs" / "_shop")
    for name in ("SW-101-ramp-hinge-pin", "SW-116-coupling-hook"):
        shutil.copytree(ROOT / "jobs" / "2026" / name, tmp_path / "jobs" / "2026" / name)
    templates = ROOT / "site_templates"
    (tmp_path / "mkdocs.yml").write_text(
        f"INHERIT: {(templates / 'mkdocs.yml').as_posix()}\n"
        f"docs_dir: {(templates / 'pages').as_posix()}\n"
        f"theme: {{custom_dir: {(templates / 'theme').as_posix()}}}\n",
        encoding="utf-8",
    )
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("NO_MKDOCS_2_WARNING", "1")
    return tmp_path


@pytest.fixture
def few_families(monkeypatch: pytest.MonkeyPatch) -> None:
    """The pages about threads are tested elsewhere; in other tests they would cost most of a build."""
    monkeypatch.setattr("generator.job.thread_families.listed_families", lambda: ())
    monkeypatch.setattr("generator.job.thread_print.from_memory", lambda: ())


@pytest.fixture
def make_pages(tmp_path: Path) -> Callable[[Path], Archive]:
    """Makes the pages of a jobs folder, without the theme, in the folder `site` beside it."""

    def made(jobs: Path) -> Archive:
        with Cache(jobs.parent / "site.cache") as cache:
            hands = Hands()
            folder = JobsFolder(jobs, jobs / "_shop", "sheets")
            build = Build([folder], cache, WordIndex(cache, hands), hands)
            build.begin()
            return build.finish(Frame("", ""), jobs.parent / "site")

    return made


@pytest.fixture
def build_site(archive: Path) -> BuildSite:
    """Builds the archive as `mkdocs build` does, with settings of mkdocs.yml changed."""

    def built(**settings: object) -> None:
        build(load_config("mkdocs.yml", **settings))

    return built
