"""The route on paper and on a phone: nothing cut off, no operation split, its head on every page."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import PATIENCE
from tests.printed import printed, squeezed

Opener = Callable[..., Any]
PX_PER_MM = 96 / 25.4
WIDTHS = {"A4": 210 - 24, "Letter": 215.9 - 24}  # mm between the margins of print.css
JOBS = ("SW-101", "SW-110", "SW-113", "SW-115")
PHONE = {"width": 375, "height": 812}


def page_of(site: Path, number: str) -> str:
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.relative_to(site).as_posix()


@pytest.fixture(params=JOBS)
def file(request: pytest.FixtureRequest, demo_site: Path) -> str:
    return page_of(demo_site, request.param)


@dataclass(frozen=True)
class Paper:
    """A page laid out for print; `width` is between the margins, in pixels. Nothing in it is changed."""

    page: Page
    width: float


@pytest.fixture(scope="module", params=product(JOBS, WIDTHS), ids="-".join)
def paper(request: pytest.FixtureRequest, browser: Browser, demo_site: Path) -> Iterator[Paper]:
    job, size = request.param
    width = WIDTHS[size] * PX_PER_MM
    with browser.new_page(viewport={"width": int(width), "height": 1000}) as page:
        page.set_default_timeout(PATIENCE)
        page.goto((demo_site / page_of(demo_site, job)).as_uri())
        page.emulate_media(media="print")
        yield Paper(page, width)


def test_no_cell_of_the_route_is_cut_off_on_paper(paper: Paper) -> None:
    table = paper.page.locator("table.route-table")
    assert table.count() == 1
    cut = table.evaluate(
        """(table, width) => {
            const left = document.querySelector('.sheet').getBoundingClientRect().left;
            return [...table.querySelectorAll('th, td, b, .unit, .kind, .key')].filter(e => {
                if (e.closest('.unseen')) return false;
                const box = e.getBoundingClientRect(), edge = e.closest('th, td').getBoundingClientRect();
                return box.right > Math.min(left + width, edge.right) + 1 || box.bottom > edge.bottom + 1;
            }).map(e => e.textContent);
        }""",
        paper.width,
    )
    assert cut == []


def test_no_word_of_the_settings_is_broken_on_paper(paper: Paper) -> None:
    """A word that is wider than its column would be broken in two: "unkno" and "wn"."""
    broken = paper.page.locator("table.route-table").evaluate(
        """table => {
            const words = [];
            const walker = document.createTreeWalker(table, NodeFilter.SHOW_TEXT);
            while (walker.nextNode()) {
                const node = walker.currentNode;
                if (node.parentElement.closest('details, caption, .unseen')) continue;
                for (const word of node.data.matchAll(/\\S+/g)) {
                    const range = document.createRange();
                    range.setStart(node, word.index);
                    range.setEnd(node, word.index + word[0].length);
                    const tops = new Set([...range.getClientRects()].map(box => Math.round(box.top)));
                    if (tops.size > 1 && !/[-–/]/.test(word[0])) words.push(word[0]);
                }
            }
            return words;
        }"""
    )
    assert broken == []


def test_a_route_over_several_pages_repeats_its_head_and_splits_no_operation(
    open_page: Opener, file: str
) -> None:
    page: Page = open_page(file).page
    page.evaluate(
        """() => { // long enough for several pages
            const table = document.querySelector('table.route-table');
            const rows = [...table.querySelectorAll('tbody.operation')];
            let count = 0;
            for (let round = 0; round < 5; round++) for (const row of rows) {
                const copy = row.cloneNode(true);
                copy.querySelector('.title').textContent = `Begin${++count}x`;
                copy.querySelector('tr:last-child td:last-child').textContent = `End${count}x`;
                rows.at(-1).parentElement.append(copy);
            }
        }"""
    )
    for size in WIDTHS:
        texts = [squeezed(side.text) for side in printed(page, size, print_background=False)]
        begun = [re.findall(r"Begin(\d+)x", text) for text in texts]
        assert sum(map(len, begun)) >= 15
        assert sum(map(bool, begun)) >= 2
        for text, started in zip(texts, begun, strict=True):
            assert re.findall(r"End(\d+)x", text) == started
            if started:
                assert text.count("ToolSpindleFeedCutsDialForce") == 1


def test_the_heading_is_on_the_page_of_the_first_operation(open_page: Opener, demo_site: Path) -> None:
    """Pushed down the page step by step, it never stays behind alone."""
    page: Page = open_page(page_of(demo_site, "SW-115")).page
    page.evaluate(
        """() => {
            const route = document.querySelector('section.route'), space = document.createElement('div');
            const sheet = document.querySelector('article.sheet');
            space.id = 'space';
            sheet.replaceChildren(sheet.querySelector('style'), space, route);
        }"""
    )
    for height in range(0, 260, 12):
        page.evaluate("height => document.getElementById('space').style.height = `${height}mm`", height)
        (heading,) = (side.text for side in printed(page, "A4") if "Route" in map(str.strip, side.lines))
        assert "Setting the work up" in heading, f"{height} mm down"
        assert "Face the right end" in heading, f"{height} mm down"


def test_there_is_room_to_write_what_it_took(paper: Paper) -> None:
    boxes = paper.page.locator("td.took").evaluate_all(
        "cells => cells.map(e => e.getBoundingClientRect()).map(box => [box.width, box.height])"
    )
    assert len(boxes) >= 5
    assert min(width for width, _ in boxes) / PX_PER_MM >= 15
    assert min(height for _, height in boxes) / PX_PER_MM >= 8


def test_what_is_set_at_the_lathe_is_lettered_large(paper: Paper) -> None:
    """Figures of 11 points or more, as the pass table's and larger than the text around them."""
    set_there = paper.page.locator("tr.settings td:is(.spindle, .feed, .cuts) b:not(.words, .unknown)")
    sizes = set_there.evaluate_all(
        "cells => cells.map(e => parseFloat(getComputedStyle(e).fontSize) * 72 / 96)"
    )
    assert sizes
    assert min(sizes) >= 11 - 1e-6


def test_on_a_phone_the_route_scrolls_in_its_own_box(open_page: Opener, file: str) -> None:
    page = open_page(file, viewport=PHONE).page
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    box = page.locator("section.route .scroll")
    assert box.evaluate("e => e.scrollWidth > e.clientWidth && e.clientWidth <= innerWidth")
    box.focus()
    page.keyboard.press("ArrowRight")
    while not box.evaluate("e => e.scrollLeft > 0"):  # it scrolls smoothly, and pages let no one eval
        page.wait_for_timeout(20)


def test_an_operation_can_be_ticked_and_its_working_opened_by_keyboard(open_page: Opener, file: str) -> None:
    page = open_page(file).page
    row = page.locator("tbody.operation").first
    row.locator("input[type=checkbox]").focus()
    page.keyboard.press("Space")
    assert row.locator("input[type=checkbox]").is_checked()
    row.get_by_role("link", name="working of").focus()
    page.keyboard.press("Enter")
    assert row.get_by_text("Source:").first.is_visible()
    assert row.locator(".shown-working p").first.inner_text().startswith("T1, high-speed steel Tool: ")
