"""What many tests share: the demo archive built once, and one Chromium (two at a time cannot run)."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Error, sync_playwright

from generator.__main__ import main
from generator.setup import BROWSERS

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


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A Chromium; without one the tests are skipped, but with CI=true they fail."""
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    with sync_playwright() as playwright:
        try:
            chromium = playwright.chromium.launch(executable_path=found, args=["--no-sandbox"])
        except Error as error:
            why = error.message.splitlines()[0]
            said = f"Chromium does not start: install it to run the browser tests ({why})"
            if os.environ.get("CI", "").lower() in {"true", "1"}:
                pytest.fail(said)
            pytest.skip(said)
        yield chromium
        chromium.close()
