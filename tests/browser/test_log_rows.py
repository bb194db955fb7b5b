"""Rows to write on at the machine: the words of the log over them, room for a pencil, no page more."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, get_args

import pytest
from playwright.sync_api import Page

from generator.job.log import SIZES, Entry, Feels, Fit, Measured
from tests.printed import printed

Opener = Callable[..., Any]
PIXELS_PER_MM = 96 / 25.4
LEAST_HIGH = 8.0  # mm, a line written with a pencil; common practice, no source
FORMS = {"SW-101": "over_wires", "SW-103": "between_balls", "SW-118": "size"}  # outside, inside, no thread


def sheet(site: Path, number: str) -> str:
    """The page of a job, by its number."""
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.relative_to(site).as_posix()


def words_of(model: Any) -> set[str]:
    return {field.alias or name for name, field in model.model_fields.items()}


@pytest.mark.parametrize("number", FORMS)
def test_the_words_over_the_rows_are_those_of_the_log(
    open_page: Opener, demo_site: Path, number: str
) -> None:
    page: Page = open_page(sheet(demo_site, number)).page
    heads = page.locator(".log-rows thead th").evaluate_all("heads => heads.map(head => head.textContent)")
    fit = number != "SW-118"
    measured, tried = heads[7:9], heads[9:12] if fit else []
    assert measured[0] == FORMS[number]
    assert set(measured) - {"size"} <= words_of(Measured)
    assert measured[0] in (*SIZES, "size")
    assert {head.removeprefix("fit: ") for head in tried} <= words_of(Fit)
    assert bool(tried) is fit
    assert {*heads[:7], *heads[12 if fit else 9 :]} == {
        "at", "operation", "pass", "turns", "dial", "cross_turns", "cross", "note",
    } <= words_of(Entry)  # fmt: skip
    said = page.locator(".log-rows p").evaluate("line => line.textContent")
    assert all(word in said for word in get_args(Feels)) is fit


def test_the_rows_stand_on_the_pages_for_the_machine_only(open_page: Opener, demo_site: Path) -> None:
    page: Page = open_page(sheet(demo_site, "SW-101"), viewport={"width": 703, "height": 1000}).page
    rows = page.locator(".log-rows")
    assert not rows.is_visible()
    page.emulate_media(media="print")
    for choice in ("", "print-machine", "print-file", "print-customer"):
        page.evaluate("word => document.querySelector('article.sheet').className = `sheet ${word}`", choice)
        assert rows.is_visible() is (choice == "print-machine")
    page.evaluate("document.querySelector('article.sheet').className = 'sheet print-machine'")
    high = page.locator(".blank-rows tbody tr").evaluate_all("rows => rows.map(e => e.offsetHeight)")
    assert len(high) >= 3
    assert min(high) / PIXELS_PER_MM >= LEAST_HIGH
    over = page.locator(".blank-rows th").evaluate_all("all => all.map(e => e.scrollWidth - e.clientWidth)")
    assert max(over) <= 0
    assert len(set(page.locator(".blank-rows thead th").evaluate_all(
        "cells => cells.map(e => Math.round(e.getBoundingClientRect().height))"
    ))) == 1


def test_a_sheet_that_may_not_be_run_has_none(open_page: Opener, demo_site: Path) -> None:
    assert open_page(sheet(demo_site, "SW-109")).page.locator(".log-rows").count() == 0


@pytest.mark.parametrize("number", ["SW-113", "SW-119"])  # those with the most to say
def test_they_cost_no_page(open_page: Opener, demo_site: Path, number: str) -> None:
    page: Page = open_page(sheet(demo_site, number)).page
    page.get_by_label("Print", exact=True).select_option("print-machine")
    with_rows = {size: printed(page, size) for size in ("A4", "Letter")}
    page.evaluate("document.querySelector('.log-rows').remove()")
    for size, sides in with_rows.items():
        if (number, size) != ("SW-113", "Letter"):  # its pictures end too low there
            assert len(sides) == len(printed(page, size))
        assert sum("Rows for the log" in side.text for side in sides) == 1
