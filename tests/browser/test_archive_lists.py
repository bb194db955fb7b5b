"""Times and calendar as pages: every link leads somewhere, and on a phone they are as wide as the screen."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from generator.archive.calendar_pages import calendar_front, calendar_pages
from generator.archive.times import times_page
from generator.site.frame import BODY
from tests.archive.rows import made_jobs
from tests.archive.worked import worked

Opener = Callable[..., Any]
PHONE, DESKTOP = {"width": 375, "height": 812}, {"width": 1280, "height": 900}
DAYS = "lists/calendar/2026.html"
BUSY = "lists/calendar/2025.html"


@pytest.fixture(scope="module")
def busy_site(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site with the pages of a large archive on top; its jobs have no sheets there."""
    site = tmp_path_factory.mktemp("busy") / "site"
    shutil.copytree(demo_site, site)
    jobs = worked(made_jobs(4000))
    pages = {"times.html": times_page(jobs), "calendar.html": calendar_front(jobs)}
    pages |= {content.name: content.make() for content in calendar_pages(jobs) if content.name == BUSY}
    head = '<!doctype html><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
    styles = "".join(
        f'<link rel="stylesheet" href="{{up}}{path.relative_to(site).as_posix()}">'
        for path in [*sorted(site.glob("assets/stylesheets/*.css")), *sorted(site.glob("css/*.css"))]
    )
    body = f'<body data-md-color-scheme="default"><main class="md-content__inner md-typeset">{BODY}</main>'
    for name, text in pages.items():
        page = head + styles.format(up="../" * name.count("/")) + body.replace(BODY, text)
        (site / name).write_text(page, encoding="utf-8")
    return site


@pytest.fixture(params=[PHONE, DESKTOP], ids=["phone", "desktop"])
def viewport(request: pytest.FixtureRequest) -> dict[str, int]:
    size: dict[str, int] = request.param
    return size


@pytest.mark.parametrize("name", ["times.html", "calendar.html", BUSY])
def test_the_pages_of_a_large_archive_are_no_wider_than_the_screen(
    open_page: Opener, busy_site: Path, name: str, viewport: dict[str, int]
) -> None:
    page = open_page(name, viewport=viewport, site=busy_site).page
    assert page.evaluate("document.documentElement.scrollWidth") <= viewport["width"]


@pytest.mark.parametrize("name", ["times.html", "calendar.html", DAYS])
def test_every_link_leads_to_a_file_and_to_a_place_in_it(open_page: Opener, name: str) -> None:
    page = open_page(name).page
    links = page.eval_on_selector_all(".md-content a[href]", "links => links.map(link => link.href)")
    for link in set(links):
        path, _, place = link.removeprefix("file://").partition("#")
        assert Path(path).is_file(), link
        if place and not path.endswith("/index.html"):
            assert page.locator(f'[id="{place}"]').count() == 1, link


def test_from_the_calendar_to_a_day_to_a_sheet(open_page: Opener) -> None:
    page = open_page("index.html").page
    page.locator(".md-tabs").get_by_role("link", name="Calendar").click()
    page.get_by_role("link", name="2026", exact=True).click()
    march = page.locator("table.calendar-month", has_text="March 2026")
    expect(march.locator("td", has_text="SW-101").first).to_contain_text("received")
    march.get_by_role("link", name="SW-101").first.click()
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-101")


def test_on_a_phone_a_day_leads_to_its_place_in_the_list(open_page: Opener) -> None:
    page = open_page(DAYS, viewport=PHONE).page
    day = page.locator("a.calendar-number[href='#d2026-03-02']")
    expect(page.locator(".calendar-month li").first).to_be_hidden()
    box = day.bounding_box()
    assert box["width"] >= 44
    assert box["height"] >= 44
    day.click()
    expect(page.locator("dt:target")).to_have_text("2026-03-02 Monday")
    expect(page.locator("dt:target + dd")).to_be_in_viewport()
    top = page.locator("dt:target").bounding_box()["y"]
    assert top >= page.locator(".md-header").bounding_box()["height"]


def test_every_kind_of_work_has_a_sentence_and_plots_with_named_axes(open_page: Opener) -> None:
    page = open_page("times.html").page
    kinds = page.locator("section.times-kind")
    names = kinds.locator("h3").all_inner_texts()
    assert {"Whole jobs", "Turning", "Facing"} <= set(names)
    for number in range(len(names)):
        said = kinds.nth(number).locator("svg text").all_text_contents()
        assert {"planned, min", "taken, min", "year"} <= set(said)
        expect(kinds.nth(number).locator(".times-says")).to_contain_text("as planned")
