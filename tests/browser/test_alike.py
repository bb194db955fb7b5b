"""Jobs like this one, and the lists, opened from disk in a real Chromium."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from generator.archive.alike import alike_contents
from generator.archive.listed import Listed
from generator.sheet.row import ArchiveRow, ThreadRow
from generator.si import inch
from tests.printed import printed_words

Opener = Callable[..., Any]
SHEET = "sheets/2026/SW-113-bollard-spindle.html"
PHONE = {"width": 375, "height": 812}
HOSTILE = "<img src=x onerror=alert(1)> & </script>"
THREAD = ThreadRow(
    "2-8 UN-2A", "Unified inch threads", "2 in", 2 * inch, "8 per inch", inch / 8, 1, "right", "outside"
)
OTHER = replace(THREAD, designation="2-12 UN-2A", pitch="12 per inch", pitch_si=inch / 12)
STEEL, CHUCK = "1045 steel", ("3-jaw chuck", "steady rest")
JOBS = (  # number, thread, material, holding; the newest first
    ("J-1", OTHER, "brass", ("collet",)),
    ("J-2", OTHER, STEEL, ("collet",)),
    ("J-3", THREAD, "brass", CHUCK),
    ("J-4", THREAD, STEEL, ("collet",)),
    ("J-5", THREAD, "brass", ("collet",)),
    ("J-6", THREAD, STEEL, CHUCK),
    ("J-7", OTHER, "brass", CHUCK),
    ("J-8", THREAD, STEEL, CHUCK),
    ("J-9", None, STEEL, CHUCK),
)
RANKED = ["J-6", "J-8", "J-4", "J-3", "J-5", "J-2", "J-7", "J-1", "J-9"]


@pytest.fixture(scope="module")
def taught(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site with more jobs like one of its own."""
    site = tmp_path_factory.mktemp("alike") / "site"
    shutil.copytree(demo_site, site)
    rows = [
        ArchiveRow(number, f"Pin {HOSTILE}", "2025", "done", True, thread, material, "L1", held,
                   learned=(f"Mind the dog {HOSTILE}",))
        for number, thread, material, held in JOBS
    ]  # fmt: skip
    own = ArchiveRow("SW-113", "", "2026", "in work", True, THREAD, STEEL, "L1", CHUCK)
    jobs = [Listed(SHEET, own, ""), *(Listed(f"sheets/2025/{row.number}.html", row, "") for row in rows)]
    for content in alike_contents(jobs):
        (site / content.name).write_text(content.make(), encoding="utf-8")
    return site


@pytest.mark.parametrize("viewport", [PHONE, {"width": 1300, "height": 900}])
def test_the_jobs_are_ranked_and_say_why_they_stand_there(
    open_page: Opener, taught: Path, viewport: dict[str, int]
) -> None:
    opened = open_page(SHEET, site=taught, viewport=viewport)
    page = opened.page
    block = page.locator("section.alike")
    assert page.evaluate("typeof window.setupSheetData") == "undefined"  # not loaded yet
    summary = block.locator("summary")
    summary.focus()
    page.keyboard.press("Enter")
    expect(block.locator("li")).to_have_count(6)
    block.get_by_role("button", name="Show more").click()
    expect(block.locator("li")).to_have_count(len(RANKED))
    assert block.locator("li a").all_inner_texts() == RANKED
    why = block.locator("li .why").all_inner_texts()
    assert why[0] == "same thread, same material, same holding"
    assert why[2:5] == ["same thread, same material", "same thread, same holding", "same thread"]
    assert why[-2:] == ["same size", "same material, same holding"]
    assert HOSTILE in block.locator("li").first.inner_text()
    assert f"Learned: Mind the dog {HOSTILE}" in block.locator("li").first.inner_text()
    assert block.locator("img").count() == 0
    assert not block.get_by_role("button", name="Show more").is_visible()
    assert page.evaluate("document.activeElement.textContent") == RANKED[6]
    assert page.evaluate("document.documentElement.scrollWidth") <= viewport["width"]
    assert not opened.complaints
    assert not opened.requests


def test_without_scripts_there_is_the_link_to_the_plain_list(open_page: Opener) -> None:
    page = open_page(SHEET, scripts=False).page
    assert not page.locator(".alike details").is_visible()
    page.get_by_role("link", name="All jobs with this thread").click()
    expect(page.locator("h1")).to_have_text("Unified inch threads, 2 in, 8 per inch")
    page.get_by_role("link", name="SW-113").click()
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-113")


def test_a_sheet_that_is_the_only_one_of_its_size_says_so(open_page: Opener) -> None:
    page = open_page(SHEET).page
    page.locator(".alike summary").click()
    expect(page.locator(".alike [role=status]")).to_have_text(
        "There is no other job of this size, or of this material and held like this yet."
    )


def test_data_that_is_not_there_is_said(open_page: Opener, taught: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    shutil.copytree(taught, site)
    shutil.rmtree(site / "alike")
    page = open_page(SHEET, site=site).page
    page.locator(".alike summary").click()
    expect(page.locator(".alike [role=status]")).to_contain_text("could not be loaded")


def test_the_block_stays_off_the_paper(open_page: Opener, taught: Path) -> None:
    page = open_page(SHEET, site=taught).page
    page.locator(".alike summary").click()
    expect(page.locator(".alike li")).to_have_count(6)
    paper = printed_words(page, "A4")
    assert "Bollard spindle" in paper
    assert "Jobs like this one" not in paper


@pytest.mark.parametrize("viewport", [PHONE, {"width": 1300, "height": 900}])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_lists_fit_the_screen(
    open_page: Opener, demo_site: Path, viewport: dict[str, int], scheme: str
) -> None:
    names = ["lists.html", *(
        next((demo_site / "lists" / kind).glob("*.html")).relative_to(demo_site).as_posix()
        for kind in ("thread", "lathe", "material", "customer", "year")
    )]  # fmt: skip
    for name in names:
        opened = open_page(name, viewport=viewport, scheme=scheme)
        assert opened.page.evaluate("document.documentElement.scrollWidth") <= viewport["width"], name
        assert not opened.complaints
        assert not opened.requests
