"""The demo archive built once, for every test that looks at a finished site."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.__main__ import main

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the demo archive in `jobs` and its site in `site`, as the command line builds it."""
    folder = tmp_path_factory.mktemp("demo")
    shutil.copytree(ROOT / "jobs", folder / "jobs")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert main(["build"]) == 0
    return folder


@pytest.fixture(scope="session")
def demo_site(demo: Path) -> Path:
    """The built site of the demo archive."""
    return demo / "site"
