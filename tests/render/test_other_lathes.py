"""The section "Another lathe" of a page: what differs side by side, what stays, the best lathe."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from generator.job.reading import find_jobs, read_job, read_shop
from generator.job.shop import Shop
from generator.render.compare_table import compare_table
from generator.render.compare_text import compare_lines
from generator.render.page import render_page
from generator.sheet.other_lathes import Comparison, comparison
from tests.barriers import barriers
from tests.printed import printed_words

ReadPage = Callable[[str], Any]
JOBS = Path(__file__).parents[2] / "jobs"
CSS = Path(__file__).parents[2] / "site_templates" / "css"
HOSTILE = "</td><script>alert(1)</script> & \"L9\""


@cache
def shop() -> Shop:
    return read_shop(JOBS / "_shop")


@cache
def compared(number: str) -> Comparison:
    """A job of the demo archive on the three lathes of its shop."""
    return comparison(read_job(next(path for path in find_jobs(JOBS) if number in str(path))), shop())


def with_lathes(count: int) -> Comparison:
    """A job in a shop with so many lathes, all like the first but in name."""
    own = shop().lathes["long-bed"]
    keys = {f"more-{number}": f"M{number}" for number in range(count - 1)}
    more = {
        key: own.model_copy(update={"lathe": key, "name": name, "hoist": None}) for key, name in keys.items()
    }
    larger = shop().model_copy(update={"lathes": {"long-bed": own, **more}})
    return comparison(read_job(next(path for path in find_jobs(JOBS) if "SW-110" in str(path))), larger)


def section(made: Comparison, read_page: ReadPage) -> Any:
    (found,) = read_page(render_page(made.here.sheet, made)).all("section", class_="other-lathes")
    return found


@pytest.mark.parametrize("number", ["SW-101", "SW-109", "SW-110", "SW-115"])
def test_the_table_is_headed_by_lathes_and_rows_and_has_a_caption(number: str, read_page: ReadPage) -> None:
    (table,) = section(compared(number), read_page).all("table")
    heads = table.all("thead")[0].all("th")
    assert [head.attributes["scope"] for head in heads] == ["col"] * 4
    names = [compared(number).here.lathe.name, *(one.there.lathe.name for one in compared(number).others)]
    assert [head.text.removesuffix("planned") for head in heads[1:]] == names
    assert heads[1].text.endswith("planned")
    assert table.all("caption")[0].text
    for row in [row for body in table.all("tbody") for row in body.all("tr")]:
        assert [head.attributes["scope"] for head in row.all("th")] == ["row"]
        assert len(row.all("td")) == 3
    scroll = table.parent
    assert scroll.attributes["tabindex"] == "0"
    assert scroll.attributes["aria-label"]


def test_what_cannot_be_done_is_a_word_with_its_reason(read_page: ReadPage) -> None:
    found = section(compared("SW-110"), read_page)
    marks = [mark.text for mark in found.all("strong", class_="mark")]
    assert "CANNOT BE DONE" in marks
    assert "NOT KNOWN" in marks
    assert "L2 Thirteen-inch lathe has 40 in between centers" in found.text


def test_the_lathes_are_listed_in_order_with_the_planned_one_marked(read_page: ReadPage) -> None:
    found = section(compared("SW-110"), read_page)
    lines = found.all("ol")[0].all("li")
    assert [line.text.partition(":")[0] for line in lines] == [
        one.on.lathe.name for one in compared("SW-110").ranking
    ]
    assert lines[0].all("strong")[0].text == "L1 Long lathe"
    assert "the one it is planned for" in found.text


def test_where_every_lathe_is_stopped_none_is_called_the_best(read_page: ReadPage) -> None:
    found = section(compared("SW-109"), read_page)
    assert "No lathe of the shop runs it as it is planned." in found.text
    assert "Best lathe" not in found.text


def test_what_stays_is_said_once_and_not_in_the_table(read_page: ReadPage) -> None:
    table = compare_table(compared("SW-101"))
    assert table is not None
    labels = {row.label for part in table.parts for group in part.groups for row in group}
    assert table.stays
    assert not labels & {said.partition(": ")[0] for said in table.stays}


@pytest.mark.parametrize("number", ["SW-101", "SW-109", "SW-110", "SW-113", "SW-115", "SW-116"])
def test_nothing_is_called_safe(number: str, read_page: ReadPage) -> None:
    assert "safe" not in section(compared(number), read_page).text.lower()
    assert "safe" not in " ".join(compare_lines(compared(number))).lower()


def test_a_shop_with_one_lathe_and_a_sheet_alone_have_no_such_section(read_page: ReadPage) -> None:
    alone = with_lathes(1)
    for html in (render_page(alone.here.sheet, alone), render_page(alone.here.sheet)):
        assert not read_page(html).all("section", class_="other-lathes")


@pytest.mark.parametrize(("lathes", "columns"), [(2, [3]), (4, [5]), (5, [5, 3]), (8, [5, 5, 3])])
def test_many_lathes_stand_in_several_tables(lathes: int, columns: list[int], read_page: ReadPage) -> None:
    tables = section(with_lathes(lathes), read_page).all("table")
    assert [len(table.all("thead")[0].all("th")) for table in tables] == columns


def test_names_of_lathes_are_only_text(read_page: ReadPage) -> None:
    made = with_lathes(2)
    there = made.others[0].there
    hostile = replace(there, lathe=there.lathe.model_copy(update={"name": HOSTILE}))
    changed = replace(made, others=(replace(made.others[0], there=hostile),))
    found = section(changed, read_page)
    assert not found.all("script")
    assert found.all("thead")[0].all("th")[2].text == " ".join(HOSTILE.split())


# in a browser


@pytest.fixture
def opened(browser: Browser) -> Any:
    pages: list[Page] = []

    def page_of(made: Comparison, width: int = 1280) -> Page:
        style = "".join(
            f"<style>{(CSS / name).read_text(encoding='utf-8')}</style>"
            for name in ("drawing.css", "sheet.css", "print.css")
        )
        page = browser.new_page(viewport={"width": width, "height": 900})
        page.set_content(
            '<!doctype html><html lang="en"><meta charset="utf-8"><title>Sheet</title>'
            f'{style}<body style="margin: 0"><main>{render_page(made.here.sheet, made)}</main>'
        )
        pages.append(page)
        return page

    yield page_of
    for page in pages:
        page.close()


@pytest.mark.browser
@pytest.mark.parametrize("width", [375, 810, 1280])
def test_nothing_scrolls_sideways_but_the_table_itself(opened: Any, width: int) -> None:
    section = opened(with_lathes(4), width).locator(".other-lathes")
    assert section.evaluate("section => section.scrollWidth") <= width


@pytest.mark.browser
def test_no_serious_barrier(opened: Any) -> None:
    assert barriers(opened(compared("SW-110")), ".other-lathes") == []


@pytest.mark.browser
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("lathes", [2, 4])
def test_on_paper_the_table_is_no_wider_than_the_sheet(opened: Any, paper: str, lathes: int) -> None:
    page = opened(with_lathes(lathes))
    page.emulate_media(media="print")
    page.set_viewport_size({"width": round(186 * 96 / 25.4), "height": 1000})
    tables = page.locator(".compare")
    sizes = tables.evaluate_all("all => all.map(one => [one.offsetWidth, one.closest('.sheet').clientWidth])")
    assert sizes
    assert all(table <= sheet + 1 for table, sheet in sizes)
    text = printed_words(page, paper)
    assert "Another lathe" in text
    assert f"M{lathes - 2}" in text
