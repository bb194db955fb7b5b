"""The sheet on paper and on screens, in a real Chromium: A4 and Letter, phone to desktop.

Height of capitals: 4 mm is read at 0.7 m (20 minutes of arc, NUREG-0700 rev. 3).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from html import escape
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from generator.render.loaded import STYLES
from generator.render.page import render_page
from generator.sheet.model import Sheet
from tests.printed import printed, printed_words

pytestmark = pytest.mark.browser

CSS = Path(__file__).parents[2] / "site_templates" / "css"
SCRIPTS = CSS.with_name("js") / "say.js", CSS.with_name("js") / "working.js"
PX_PER_MM = 96 / 25.4
FORMATS = ("A4", "Letter")


@pytest.fixture
def open_sheet(browser: Browser) -> Iterator[Callable[..., Page]]:
    pages = []

    def opened(sheet: Sheet, **options: Any) -> Page:
        style = "".join(
            f"<style>{(CSS / name).read_text(encoding='utf-8')}</style>"
            for name in STYLES
        )
        page = browser.new_page(**options)
        page.set_content(
            '<!doctype html><html lang="en"><meta charset="utf-8">'
            f'<meta name="viewport" content="width=device-width"><title>{escape(sheet.job)}</title>'
            f'{style}<body style="margin: 0"><main>{render_page(sheet)}</main>'
        )
        pages.append(page)
        return page

    yield opened
    for page in pages:
        page.close()


def texts(page: Page, paper: str) -> list[str]:
    """The words of each printed page."""
    return [side.text for side in printed(page, paper)]


def test_every_page_says_whose_it_is_and_the_first_is_for_the_machine(
    sheet: Sheet, open_sheet: Callable[..., Page]
) -> None:
    page = open_sheet(sheet)
    for paper in FORMATS:
        pages = texts(page, paper)
        for words in (
            "For the machine",
            "32 rpm",
            "any line",
            "29.5°",
            "2.2667 – 2.2747 in",
            "Setup",
            "Legal owner",
        ):
            assert words in pages[0]
        assert "Findings" not in pages[0].partition("Setup")[0]
        for number, text in enumerate(pages, 1):
            for words in ("Job SW-201", "2 1/4-8 UN-2A right hand", f"Page {number} of {len(pages)}"):
                assert words in text
            assert "NOT READY" not in text


def test_not_ready_stands_on_every_page(stopped: Sheet, open_sheet: Callable[..., Page]) -> None:
    assert all("NOT READY TO RUN" in text for text in texts(open_sheet(stopped), "A4"))


def test_hostile_words_reach_the_margin_as_they_are(sheet: Sheet, open_sheet: Callable[..., Page]) -> None:
    job = "\"}</style><b>\\22 & 'x'"
    for text in texts(open_sheet(replace(sheet, job=job)), "A4"):
        assert f"Job {job}" in text


@pytest.mark.parametrize("count", [3, 12, 18, 26])
def test_the_pass_table_is_never_split(
    sheet: Sheet, with_passes: Callable[[Sheet, int], Sheet], open_sheet: Callable[..., Page], count: int
) -> None:
    page = open_sheet(with_passes(sheet, count))
    for paper in FORMATS:
        (table,) = (text for text in texts(page, paper) if "As cut" in text)
        assert table.count("0.00031") == count


@pytest.mark.parametrize("paper", FORMATS)
def test_a_very_long_pass_table_comes_in_whole_named_parts_a_page_each(
    sheet: Sheet, with_passes: Callable[[Sheet, int], Sheet], open_sheet: Callable[..., Page], paper: str
) -> None:
    pages = [text for text in texts(open_sheet(with_passes(sheet, 60)), paper) if "0.00031" in text]
    assert [text.count("0.00031") for text in pages] == [20, 20, 20]
    for number, (text, span) in enumerate(zip(pages, ("1 to 20", "21 to 40", "41 to 60"), strict=True), 1):
        assert f"Passes {span}, part {number} of 3" in text
        assert text.count("As cut") == 1
    assert "Before starting" not in pages[0]


def test_capitals_are_4_mm_and_rows_to_write_in_8_mm_high(
    sheet: Sheet, open_sheet: Callable[..., Page]
) -> None:
    page = open_sheet(sheet)
    page.emulate_media(media="print")
    capitals = page.evaluate(
        """() => [...document.querySelectorAll('.cell .value')].map(cell => {
            const style = getComputedStyle(cell), pen = document.createElement('canvas').getContext('2d');
            // measured a hundred times as large, for the pen rounds to whole pixels
            pen.font = `${style.fontWeight} ${100 * parseFloat(style.fontSize)}px ${style.fontFamily}`;
            return pen.measureText('H').actualBoundingBoxAscent / 100;
        })"""
    )
    assert len(capitals) == 15
    assert min(capitals) / PX_PER_MM >= 4.0
    rows = page.evaluate(
        """() => [...document.querySelectorAll('.pass-table tbody tr, .record tbody tr, .questions tbody tr')]
            .map(row => row.getBoundingClientRect().height)"""
    )
    assert min(rows) / PX_PER_MM >= 8.0


def test_nothing_is_wider_than_186_mm_and_drawings_keep_their_scale(
    sheet: Sheet, open_sheet: Callable[..., Page]
) -> None:
    page = open_sheet(sheet, viewport={"width": int(186 * PX_PER_MM) + 1, "height": 900})
    page.emulate_media(media="print")
    widest = page.evaluate(
        """() => { const left = document.querySelector('.sheet').getBoundingClientRect().left;
            return Math.max(...[...document.querySelectorAll('.sheet *')].filter(e => !e.closest('svg'))
                .map(e => e.getBoundingClientRect().right - left)); }"""
    )
    assert widest / PX_PER_MM <= 186.5
    shrunk = page.evaluate(
        """() => [...document.querySelectorAll('.drawing svg')]
            .map(svg => svg.getBoundingClientRect().width - svg.width.baseVal.value)"""
    )
    assert len(shrunk) == 2 + len(sheet.plots)
    assert all(abs(difference) < 0.5 for difference in shrunk)


def test_workings_that_are_open_are_shut_on_paper_and_listed_in_the_appendix(
    sheet: Sheet, open_sheet: Callable[..., Page]
) -> None:
    page = open_sheet(sheet)
    for script in SCRIPTS:
        page.add_script_tag(path=script)
    row = page.locator('[id="figure-thread.pitch_diameter.max"]')
    row.locator("a").click()
    assert row.get_by_text("0.64951905 × 0.125").is_visible()
    text = printed_words(page, "A4")
    assert text.count("2.2476 − 0.64951905 × 0.125 = 2.1664 in") == 1
    assert text.count("Source: jobs/_shop/lathes/long-bed.yml") == 0


def test_no_screen_has_to_be_scrolled_sideways(
    sheet: Sheet, stopped: Sheet, open_sheet: Callable[..., Page]
) -> None:
    long_word = replace(sheet, title="x" * 300)
    for one in (sheet, stopped, long_word):
        page = open_sheet(one)
        for width in (320, 375, 820, 1280):
            page.set_viewport_size({"width": width, "height": 800})
            assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_no_accessibility_violation(sheet: Sheet, stopped: Sheet, open_sheet: Callable[..., Page]) -> None:
    for one in (sheet, stopped):
        found = Axe().run(open_sheet(one)).response["violations"]
        assert [(violation["id"], violation["nodes"][0]["html"]) for violation in found] == []
