"""The page of a job so long that parts of it are packed: on the screen, on paper and in a set it is whole."""

from __future__ import annotations

import importlib.util
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from generator.__main__ import main
from generator.render.packed import PARTS
from tests.browser.conftest import PATIENCE
from tests.printed import printed_words
from tests.waiting import wait_until

TESTS = Path(__file__).parents[1]
JOBS = TESTS.parent / "jobs"
OPERATIONS, ENTRIES = 40, 400  # so many that the route is packed, too, with its fields

_spec = importlib.util.spec_from_file_location("large_jobs", TESTS / "render" / "large_jobs.py")
assert _spec is not None
assert _spec.loader is not None
large_jobs = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(large_jobs)


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page of a long job in a site of its own."""
    home = tmp_path_factory.mktemp("long")
    shutil.copytree(JOBS / "_shop", home / "jobs" / "_shop")
    large_jobs.large_job(home / "jobs" / "2026", OPERATIONS, ENTRIES)
    assert main(["build", "--jobs", str(home / "jobs"), "--site", str(home / "site")]) == 0
    (page,) = home.glob("site/sheets/2026/*.html")
    return page


def opened(browser: Browser, page: Path, scripts: bool = True) -> Page:
    made = browser.new_page(java_script_enabled=scripts)
    made.set_default_timeout(120_000)
    made.goto(page.as_uri(), wait_until="load")
    return made


def test_every_part_is_there_and_works_as_on_any_sheet(browser: Browser, large: Path) -> None:
    with opened(browser, large) as page:
        page.locator(".packed").first.wait_for(state="detached")
        wait_until(page, "!document.querySelector('.packed')", PATIENCE)
        assert page.locator("tbody.operation").count() == OPERATIONS
        assert page.locator(".log-table tbody tr").count() == ENTRIES
        assert page.locator("section.plot svg").count() >= 2
        last = page.locator("tbody.operation").last
        last.get_by_role("link", name="working of").click()
        assert "Source: " in last.locator(".shown-working").inner_text()
        grip = page.locator('[id="figure-grip.needed"]')
        assert grip.locator("a").get_attribute("aria-label") == "computed (working of Grip wanted at rest)"
        last.locator("input[type=checkbox]").check()
        last.locator("td.took input").fill("21")
        step = page.locator(".order input[type=checkbox]").first
        step.check()
        page.reload()
        wait_until(page, "!document.querySelector('.packed')", PATIENCE)
        assert step.is_checked()
        assert last.locator("input[type=checkbox]").is_checked()
        assert last.locator("td.took input").input_value() == "21"
        page.get_by_role("button", name="Large figures").click()
        assert page.locator("#large-view .card:not([hidden]) .head").inner_text().startswith("Step 2 of ")


def test_on_paper_it_is_whole(browser: Browser, large: Path) -> None:
    with opened(browser, large) as page:
        wait_until(page, "!document.querySelector('.packed')", PATIENCE)
        lines = page.locator(".appendix li").count()
        paper = printed_words(page, "Letter")
        assert lines > 800
        assert paper.count("Chips long and blue at the far end") == ENTRIES
        assert f"{OPERATIONS} Cut 2-8 UN-2A: time in all = " in paper
        assert "Not shown yet" not in paper


def test_in_a_set_it_is_whole(browser: Browser, large: Path) -> None:
    site = large.parents[2]
    address = large.relative_to(site).as_posix()
    with browser.new_page() as page:
        page.goto(f"{site.as_uri()}/print-set.html#{address}", wait_until="load")
        page.get_by_role("button", name="Print …").wait_for()
        assert page.locator(".sheet-set .log-table tbody tr").count() == ENTRIES
        assert page.locator(".sheet-set .appendix li").count() > 800
        assert page.locator(".sheet-set .packed").count() == 0


def test_without_scripts_it_says_what_is_missing_and_where_it_is(browser: Browser, large: Path) -> None:
    with opened(browser, large, scripts=False) as page:
        said = page.locator(".packed").all_inner_texts()
        named = [part for part in PARTS.values() if any(f": the {part}." in words for words in said)]
        assert len(said) == len(named)
        assert {"route", "log", "working of the figures"} <= set(named)
        assert all("python -m generator print" in words for words in said)
