"""Every page opened from disk: no complaint, no network, no barrier, nothing wider than a phone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.barriers import ALL_BUT_CONTRAST, ONLY_CONTRAST, barriers, shorten
from tests.browser.conftest import PATIENCE
from tests.waiting import wait_until

Opener = Callable[..., Any]
PHONE, TABLET, DESKTOP = ({"width": width, "height": 900} for width in (375, 810, 1280))
PAGES = (
    "index.html", "words.html", "safety.html", "sources.html", "figures.html", "families.html",
    "threads.html", "times.html", "calendar.html", "lists/calendar/2026.html", "findings.html",
    "help/figures/grip.html", "help/how-to/job-file.html",
)
READY, LEFT_HAND, NOT_READY = "SW-101", "SW-116", "SW-109"


def sheet(site: Path, number: str) -> str:
    """The page of a job, by its number."""
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.relative_to(site).as_posix()


@pytest.fixture(params=[*PAGES, READY, LEFT_HAND, NOT_READY])
def name(request: pytest.FixtureRequest, demo_site: Path) -> str:
    asked: str = request.param
    return asked if asked in PAGES else sheet(demo_site, asked)


def test_a_page_opens_from_disk_without_complaint_and_without_network(open_page: Opener, name: str) -> None:
    opened = open_page(name)
    opened.page.wait_for_timeout(200)
    assert opened.page.locator("h1").first.is_visible()
    assert opened.complaints == []
    assert opened.requests == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_serious_barrier(open_page: Opener, name: str, scheme: str) -> None:
    """The whole page in light, its contrast in both."""
    page = open_page(name, scheme=scheme).page
    found = barriers(page, options=ALL_BUT_CONTRAST) if scheme == "light" else []
    shorten(page)
    assert found + barriers(page, options=ONLY_CONTRAST) == []


def test_nothing_scrolls_sideways(open_page: Opener, name: str) -> None:
    page = open_page(name, viewport=PHONE).page
    for viewport in (PHONE, TABLET, DESKTOP):
        page.set_viewport_size(viewport)
        assert page.evaluate("document.documentElement.scrollWidth") <= viewport["width"]


def test_the_toggle_changes_between_light_and_dark(open_page: Opener) -> None:
    page = open_page("index.html").page
    paper = "getComputedStyle(document.body).backgroundColor"
    before = page.evaluate(paper)
    page.get_by_title("Switch to dark").click()
    wait_until(page, f"{paper} !== {before!r}", PATIENCE)


def test_a_working_opens_by_keyboard_and_shows_formula_and_source(open_page: Opener, demo_site: Path) -> None:
    page = open_page(sheet(demo_site, READY)).page
    row = page.locator('[id="figure-thread.pitch_diameter.max"]')
    link, shown = row.locator("a[href^='#w']"), row.locator(".shown-working")
    assert (shown.count(), link.get_attribute("aria-expanded")) == (0, "false")
    assert link.get_attribute("aria-label") == "standard (working of Pitch diameter, max)"
    link.focus()
    page.keyboard.press("Enter")
    assert "= 2.2476 − 0.64951905 × 0.125 = 2.1664 in" in shown.inner_text()
    assert "Source: ASME B1.1" in shown.inner_text()
    explained = shown.locator("a.explains").get_attribute("href") or ""
    assert explained == "../../help/figures/thread.html#thread.pitch_diameter.max"
    assert link.get_attribute("aria-expanded") == "true"
    assert not page.locator(".appendix").is_visible()
    page.keyboard.press("Enter")
    assert (shown.count(), link.get_attribute("aria-expanded")) == (0, "false")


def test_every_working_leads_to_a_place_where_its_figure_is_explained(
    open_page: Opener, demo_site: Path
) -> None:
    """The script knows figures by their names, as `sheet/explained_at.py` does."""
    page = open_page(sheet(demo_site, READY)).page
    places = page.evaluate(
        """() => {
            const all = words => [...document.querySelectorAll(words)];
            all(":is(.figures, .route-table) a[href^='#w']").forEach(one => one.click());
            return all(".shown-working a.explains").map(one => one.getAttribute("href"));
        }"""
    )
    assert len(places) > 100
    for place in set(places):
        address, _, name = place.removeprefix("../../").partition("#")
        assert f'id="{name}"' in (demo_site / address).read_text(encoding="utf-8")


def test_a_link_to_a_working_opens_it_beside_its_figure(open_page: Opener, demo_site: Path) -> None:
    page = open_page(sheet(demo_site, READY)).page
    link = page.locator('[id="figure-thread.pitch_diameter.max"] a[href^="#w"]')
    page.evaluate("hash => { location.hash = hash; }", link.get_attribute("href"))
    page.locator('[id="figure-thread.pitch_diameter.max"] .shown-working').wait_for()
    assert link.evaluate("link => link === document.activeElement")


def test_without_scripts_the_appendix_shows_the_working_that_a_link_leads_to(
    open_page: Opener, demo_site: Path
) -> None:
    page = open_page(sheet(demo_site, READY), scripts=False).page
    link = page.locator('[id="figure-thread.pitch_diameter.max"] a')
    link.click()
    line = page.locator(f".appendix li{link.get_attribute('href')}")
    line.wait_for()
    assert line.bounding_box()["y"] < page.viewport_size["height"]
    assert "= 2.2476 − 0.64951905 × 0.125 = 2.1664 in" in line.inner_text()


def test_a_sheet_that_is_not_ready_says_so_and_has_no_pass_table(open_page: Opener, demo_site: Path) -> None:
    page = open_page(sheet(demo_site, NOT_READY)).page
    assert "NOT READY TO RUN" in page.locator(".title-block").inner_text()
    assert page.locator("table.pass-table").count() == 0
