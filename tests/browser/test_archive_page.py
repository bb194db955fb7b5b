"""The archive page: the search works from disk, by keyboard, on a phone, and without a script."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

Opener = Callable[..., Any]
PHONE = {"width": 375, "height": 812}


def numbers(page: Any) -> list[str]:
    """The job numbers that the table shows."""
    return page.locator("#jobs-table tbody td:first-child").all_inner_texts()


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("SW-113", ["SW-113"]),
        ("sw-113", ["SW-113"]),
        ("M16", ["SW-115"]),  # a thread
        ("1-8 UNC-2A-LH", ["SW-116"]),
        ("bent service", ["SW-101"]),  # two words of the notes, not side by side
        ("turnbuckle thirteen", ["SW-116"]),  # a word of the mate and one of the lathe
        ("  hook   COUPLING ", ["SW-116"]),
        ("no such word", []),
    ],
)
def test_the_search_finds_the_jobs_that_have_all_the_words(
    open_page: Opener, words: str, expected: list[str]
) -> None:
    page = open_page("index.html").page
    page.get_by_label("Find a job").fill(words)
    assert numbers(page) == expected


def test_every_job_has_one_row_and_every_row_opens_its_sheet(open_page: Opener, demo: Path) -> None:
    page = open_page("index.html").page
    jobs = sorted(path.parent.name for path in (demo / "jobs").glob("*/*/job.yml"))
    assert len(numbers(page)) == len(jobs)
    expect(page.locator("#jobs-count")).to_have_text(f"{len(jobs)} jobs")
    page.get_by_label("Find a job").fill("SW-101")
    page.get_by_role("link", name="SW-101").click()
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-101")


def test_a_row_shows_number_title_thread_material_lathe_holding_year_and_status(open_page: Opener) -> None:
    page = open_page("index.html").page
    headings = page.locator("#jobs-table thead th").all_inner_texts()
    assert headings == ["Number", "Title", "Thread", "Material", "Lathe", "Holding", "Year", "Status"]
    page.get_by_label("Find a job").fill("SW-116")
    cells = page.locator("#jobs-table tbody td").all_inner_texts()
    assert cells[:4] == ["SW-116", "Coupling hook, left-hand end", "1-8 UNC-2A-LH", "EN8 steel"]
    assert "4-jaw chuck" in cells[5]
    assert cells[6] == "2026"


def test_the_columns_year_lathe_and_status_filter(open_page: Opener) -> None:
    page = open_page("index.html").page
    status = page.get_by_label("Status")
    assert "in work" in status.locator("option").all_inner_texts()
    status.select_option("in work")
    assert numbers(page) == ["SW-113"]
    expect(page.locator("#jobs-count")).to_contain_text("1 of ")
    page.get_by_label("Find a job").fill("SW-101")
    assert numbers(page) == []
    expect(page.locator("#jobs-count")).to_contain_text("No job")


def test_the_search_works_by_keyboard_alone(open_page: Opener) -> None:
    page = open_page("index.html").page
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == "jobs-words":
            break
    page.keyboard.type("bollard")
    page.keyboard.press("Enter")
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-113")


def test_going_back_from_a_sheet_finds_the_search_as_it_was(open_page: Opener) -> None:
    page = open_page("index.html").page
    page.get_by_label("Find a job").fill("SW-113")
    page.get_by_role("link", name="SW-113").click()
    page.get_by_role("link", name="All jobs").click()
    expect(page.locator("#jobs-table tbody tr")).to_have_count(1)  # waits for the page to be there
    assert numbers(page) == ["SW-113"]


def test_without_scripts_the_whole_table_stands_there(open_page: Opener) -> None:
    page = open_page("index.html", scripts=False).page
    links = page.locator("noscript a")
    assert "SW-116" in links.all_inner_texts()
    links.filter(has_text="SW-116").click()
    expect(page.locator("article.sheet")).to_have_attribute("data-job", "SW-116")


def test_on_a_phone_rows_become_cards_with_their_headings(open_page: Opener) -> None:
    page = open_page("index.html", viewport=PHONE).page
    first = page.locator("#jobs-table tbody td").first
    assert (
        page.evaluate("cell => getComputedStyle(cell, '::before').content", first.element_handle())
        == '"Number"'
    )


def test_accents_and_hostile_text_are_only_text(open_page: Opener, demo_site: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    shutil.copytree(demo_site, site)
    hostile = "<img src=x onerror=\"document.title='owned'\"></script><script>document.title='owned'</script>"
    row = ["a.html", "X-1", f"Schlüssel {hostile}", "é", "", "", "", "2026", "done", "yes", "Größe"]
    (site / "archive-index.js").write_text(f"var setupSheetJobs={json.dumps([row])};", encoding="utf-8")
    page = open_page("index.html", site=site).page
    for words in ("schlussel", "SCHLÜSSEL", "große e"):
        page.get_by_label("Find a job").fill(words)
        assert numbers(page) == ["X-1"]
    assert page.title() != "owned"
    assert page.locator("#jobs-table img").count() == 0


def test_ten_thousand_jobs_are_shown_step_by_step(open_page: Opener, demo_site: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    shutil.copytree(demo_site, site)
    rows = [
        [
            f"{n}.html",
            f"J-{n:05}",
            "Pin",
            "2-8 UN-2A",
            "steel",
            "a",
            "b",
            str(2000 + n % 20),
            "done",
            "yes",
            "",
        ]
        for n in range(10_000)
    ]
    (site / "archive-index.js").write_text(f"var setupSheetJobs={json.dumps(rows)};", encoding="utf-8")
    page = open_page("index.html", site=site).page
    expect(page.locator("#jobs-count")).to_have_text("10000 jobs")
    shown = len(numbers(page))
    assert shown < 1000
    page.get_by_role("button", name="Show more jobs").click()
    assert len(numbers(page)) == 2 * shown
    page.get_by_label("Find a job").fill("J-09999")
    assert numbers(page) == ["J-09999"]


def test_on_a_phone_the_menu_opens_and_an_empty_result_shows_no_table(open_page: Opener) -> None:
    page = open_page("index.html", viewport=PHONE).page
    page.get_by_label("Find a job").fill("no such word")
    expect(page.locator("#jobs-table")).to_be_hidden()
    page.locator("label.md-header__button[for=__drawer]").click()
    page.locator(".md-sidebar--primary a", has_text="Safety").click()
    expect(page.locator("h1")).to_have_text("Safety")


def test_only_the_page_that_is_open_is_marked_in_the_tabs(open_page: Opener) -> None:
    page = open_page("words.html").page
    marked = page.evaluate(
        """[...document.querySelectorAll('.md-tabs__link')]
            .filter(link => getComputedStyle(link).textDecorationLine === 'underline')
            .map(link => link.textContent.trim())"""
    )
    assert marked == ["Words"]
