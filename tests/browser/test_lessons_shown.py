"""What was learned before stands at the top of the sheet, on every screen and on the machine's pages."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.__main__ import main
from tests.printed import printed_words

Opener = Callable[..., Any]
JOBS = Path(__file__).parents[2] / "jobs"
SHAFT, SPINDLE = "SW-117-pump-shaft", "SW-113-bollard-spindle"
FINGERS = "The lower fingers of the steady rest open by themselves"


@pytest.fixture(scope="module")
def taught(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site in which one job has learned more things that matter on the other than are shown."""
    home = tmp_path_factory.mktemp("taught")
    shutil.copytree(JOBS / "_shop", home / "jobs" / "_shop")
    for name in (SHAFT, SPINDLE):
        shutil.copytree(JOBS / "2026" / name, home / "jobs" / "2026" / name)
    with (home / "jobs" / "2026" / SPINDLE / "log.yml").open("a", encoding="utf-8") as log:
        for number in range(13):
            log.write(f"- {{at: 2026-05-19, do_differently: Number {number}., lesson_for: [lathe]}}\n")
    assert main(["build", "--jobs", str(home / "jobs"), "--site", str(home / "site")]) == 0
    return home / "site"


@pytest.mark.parametrize("width", [360, 820, 1440])
def test_a_lesson_of_another_job_is_seen_before_anything_is_cut(width: int, open_page: Opener) -> None:
    page: Page = open_page(f"sheets/2026/{SHAFT}.html", viewport={"width": width, "height": 900}).page
    page.context.set_offline(True)
    lesson = page.locator(".lessons li", has_text=FINGERS)
    assert lesson.is_visible()
    assert "2026-05-18, SW-113: the same lathe" in lesson.inner_text()
    below = page.evaluate(
        """document.querySelector('.lessons').getBoundingClientRect().top
            < document.querySelector('section.machine').getBoundingClientRect().top"""
    )
    assert below
    assert lesson.bounding_box()["y"] + lesson.bounding_box()["height"] < 900
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    lesson.locator("a").click()
    page.wait_for_url(f"**/{SPINDLE}.html")


def test_the_rest_is_unfolded_by_keyboard(browser: Browser, taught: Path) -> None:
    with browser.new_page() as page:
        page.set_default_timeout(120_000)
        page.goto((taught / "sheets" / "2026" / f"{SHAFT}.html").as_uri())
        assert page.locator(".lessons > ul > li").count() == 4
        folded = page.get_by_text("Number 5.")
        assert not folded.is_visible()
        page.locator(".lessons summary").focus()
        page.keyboard.press("Enter")
        assert folded.is_visible()
        assert page.evaluate("document.querySelector('.more-lessons').open")
        assert "2 more of other jobs are left out" in page.locator(".left-out").inner_text()
        page.get_by_label("Print", exact=True).select_option("print-machine")
        machine = printed_words(page, "A4")
        page.get_by_label("Print", exact=True).select_option("print-customer")
        customer = printed_words(page, "A4")
    assert "For the customer" in customer
    assert "Learned before" in machine
    assert "10 more are on the page of this sheet and in the archive." in machine
    assert "Learned before" not in customer


def test_the_archive_is_searched_for_those_that_are_left_out(browser: Browser, taught: Path) -> None:
    with browser.new_page() as page:
        page.set_default_timeout(120_000)
        page.goto((taught / "sheets" / "2026" / f"{SHAFT}.html").as_uri())
        page.locator(".lessons summary").click()
        page.get_by_role("link", name="the same lathe").last.click()
        page.wait_for_url("**/index.html#find=*")
        lathe = page.get_by_label("Find a job").input_value()
        assert lathe
        rows = page.locator("#jobs-table tbody tr")
        expect(rows).to_have_count(2)
        assert lathe in rows.first.inner_text()
        page.evaluate("location.hash = '#find=%'")  # no address: the search stays as it was
        assert page.get_by_label("Find a job").input_value() == lathe
