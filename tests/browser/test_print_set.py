"""A set of sheets: ticked in the archive, put together from disk without a network, printed as one."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.__main__ import main
from tests.barriers import ALL_BUT_CONTRAST, ONLY_CONTRAST, barriers, shorten
from tests.browser.rows import show_all
from tests.printed import Side, printed

Opener = Callable[..., Any]
WIDTHS = (360, 820, 1440)
IN_ORDER = ["SW-109", "SW-113", "SW-118"]  # not ready to run; with a log and pictures; without a thread
PAPERS = ("A4", "Letter")
TARGET = 44  # px, WCAG 2.2 success criterion 2.5.5
STEPS = 400  # of the Tab key, more than the archive has places
REFUSED = """Object.defineProperty(window, 'localStorage',
    {get() { throw new DOMException('no', 'SecurityError'); }});"""
FULL = "Storage.prototype.setItem = function () { throw new DOMException('full', 'QuotaExceededError'); };"

TWICE = """() => { const seen = {};
    document.querySelectorAll('[id]').forEach(e => seen[e.id] = (seen[e.id] || 0) + 1);
    return Object.keys(seen).filter(id => seen[id] > 1); }"""
LEADS_OUT = """() => [...document.querySelectorAll('.sheet-set > article.sheet')].flatMap(sheet =>
    [...sheet.querySelectorAll('*')].flatMap(element => [...element.attributes].flatMap(({name, value}) => {
        const refers = /^(for|headers|aria-(labelledby|describedby|details|controls|owns))$/;
        const ids = refers.test(name) ? value.split(/\\s+/) : [];
        if (/(^|:)href$/.test(name) && value.startsWith('#')) ids.push(decodeURIComponent(value.slice(1)));
        for (const found of value.matchAll(/url\\(["']?#([^"')]+)/g)) ids.push(found[1]);
        return ids.filter(id => !sheet.contains(document.getElementById(id))).map(id => `${name} ${id}`);
    })))"""
COUNTED = """() => [...document.querySelectorAll('.sheet-set > article.sheet')]
    .map(e => e.querySelectorAll('[aria-labelledby], a[href^="#"]').length)"""


def page_of(site: Path, number: str) -> str:
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.relative_to(site).as_posix()


def set_of(site: Path, *numbers: str) -> str:
    return "print-set.html#" + "&".join(page_of(site, number) for number in numbers)


def open_set(page: Page, site: Path, *numbers: str) -> Page:
    page.goto(f"{site.as_uri()}/{set_of(site, *numbers)}", wait_until="load")
    page.get_by_role("button", name="Print …").wait_for()
    return page


def tick(page: Page, number: str) -> Any:
    return page.get_by_label(f"Tick {number} to print it")


def ticked(page: Page) -> Any:
    return page.locator("#jobs-ticked")


# -- ticks in the archive --------------------------------------------------------------------------


@pytest.mark.parametrize("width", WIDTHS)
def test_jobs_are_ticked_and_printed_by_keyboard_alone(open_page: Opener, width: int) -> None:
    opened = open_page("index.html", viewport={"width": width, "height": 900})
    page = opened.page
    page.context.set_offline(True)

    def tab_to(name: str) -> None:
        for _ in range(STEPS):
            page.keyboard.press("Tab")
            if page.evaluate(
                """name => [document.activeElement.getAttribute('aria-label'),
                    document.activeElement.textContent].includes(name)""",
                name,
            ):
                return
        pytest.fail(f"the Tab key does not reach {name!r}")

    for number in ("SW-109", "SW-118"):
        tab_to(f"Tick {number} to print it")
        page.keyboard.press("Space")
    expect(ticked(page)).to_have_text("2 ticked")
    page.locator("#jobs-words").focus()
    tab_to("Print the ticked sheets")
    page.keyboard.press("Enter")
    expect(page.locator("#set-said")).to_have_text("2 sheets, ready to print: SW-109, SW-118.")
    page.evaluate("window.print = () => { window.wasPrinted = document.title }")
    page.get_by_label("Print", exact=True).focus()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("window.wasPrinted") == "Setup sheets SW-109 SW-118"
    assert (opened.complaints, opened.requests) == ([], [])


@pytest.mark.parametrize("width", WIDTHS)
def test_a_tick_is_large_enough_for_a_thumb_and_nothing_scrolls_sideways(
    open_page: Opener, demo_site: Path, width: int
) -> None:
    page = open_page("index.html", viewport={"width": width, "height": 900}).page
    for target in (*page.locator(".archive-tick").all(), *page.locator(".archive-ticks button").all()):
        box = target.bounding_box()
        assert box["width"] >= TARGET
        assert box["height"] >= TARGET
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    open_set(page, demo_site, "SW-109", "SW-118")
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_ticks_stay_through_search_filter_and_reload_and_come_off(open_page: Opener) -> None:
    page = open_page("index.html").page
    expect(page.get_by_role("button", name="Print the ticked sheets")).to_be_disabled()
    tick(page, "SW-113").check()
    page.get_by_label("Find a job").fill("SW-118")
    expect(page.locator("#jobs-count")).to_contain_text("1 of ")
    expect(ticked(page)).to_have_text("1 ticked, 1 of them not shown here")
    page.get_by_role("button", name="Tick all shown").click()
    expect(ticked(page)).to_have_text("2 ticked, 1 of them not shown here")
    page.get_by_label("Find a job").fill("")
    expect(tick(page, "SW-113")).to_be_checked()
    assert tick(page, "SW-118").is_checked()
    page.reload()
    page.locator("[data-facet=status] > summary").click()
    page.locator("[data-facet=status]").get_by_label("in work").check()
    expect(ticked(page)).to_have_text("2 ticked, 1 of them not shown here")
    tick(page, "SW-113").uncheck()
    expect(ticked(page)).to_have_text("1 ticked, 1 of them not shown here")
    page.get_by_role("button", name="Take all ticks off").click()
    page.reload()
    expect(ticked(page)).to_have_text("0 ticked")


def test_all_shown_are_those_in_the_table(open_page: Opener, demo: Path) -> None:
    page = open_page("index.html").page
    count = len(list((demo / "jobs").glob("*/*/job.yml")))
    show_all(page)
    expect(page.locator("#jobs-table tbody tr")).to_have_count(count)
    page.get_by_role("button", name="Tick all shown").click()
    expect(ticked(page)).to_have_text(f"{count} ticked")
    assert page.locator(".archive-tick input:checked").count() == count
    expect(page.get_by_role("button", name="Tick all shown")).to_be_disabled()


def test_two_tabs_lose_no_tick_of_each_other(open_page: Opener) -> None:
    one = open_page("index.html").page
    other = one.context.new_page()
    other.goto(one.url)
    tick(one, "SW-113").check()
    tick(other, "SW-118").check()
    for page in (one, other):
        expect(ticked(page)).to_have_text("2 ticked")


@pytest.mark.parametrize("hindrance", [REFUSED, FULL], ids=["refused", "full"])
def test_without_a_store_the_ticks_hold_in_the_page_which_says_so(
    browser: Browser, demo_site: Path, hindrance: str
) -> None:
    with browser.new_context() as context:
        context.add_init_script(hindrance)
        page = context.new_page()
        page.goto((demo_site / "index.html").as_uri())
        expect(page.locator("#jobs-ticks-lost")).to_be_hidden()
        tick(page, "SW-118").check()
        expect(page.locator("#jobs-ticks-lost")).to_be_visible()
        page.get_by_label("Find a job").fill("SW-109")
        tick(page, "SW-109").check()
        page.get_by_label("Find a job").fill("")
        expect(ticked(page)).to_have_text("2 ticked")
        assert tick(page, "SW-118").is_checked()
        page.get_by_role("button", name="Print the ticked sheets").click()
        expect(page.locator("#set-said")).to_have_text("2 sheets, ready to print: SW-109, SW-118.")


@pytest.mark.parametrize("kept", ["{", '{"a": 1}', '["sheets/2020/gone.html", 7, null]'])
def test_what_else_is_in_the_store_does_no_harm(open_page: Opener, kept: str) -> None:
    opened = open_page("index.html")
    page = opened.page
    tick(page, "SW-118").check()
    changed = page.evaluate(
        """kept => Object.keys(localStorage).filter(key => key.startsWith('setup-sheet-ticks'))
            .map(key => localStorage.setItem(key, kept)).length""",
        kept,
    )
    assert changed == 1
    page.reload()
    expect(ticked(page)).to_have_text("0 ticked")
    tick(page, "SW-109").check()
    page.reload()
    expect(ticked(page)).to_have_text("1 ticked")
    assert opened.complaints == []


# -- the page of a set -----------------------------------------------------------------------------


@pytest.fixture(scope="module")
def the_set(browser: Browser, demo_site: Path) -> Any:
    """The page of a set of three, opened from disk without a network."""
    with browser.new_context(offline=True) as context:
        context.set_default_timeout(120_000)
        yield open_set(context.new_page(), demo_site, *IN_ORDER)


@pytest.fixture(scope="module")
def the_file(browser: Browser, demo: Path) -> Any:
    """The same sheets as one file, as the command writes it."""
    file = demo / "set.html"
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(demo)
        assert main(["print", *IN_ORDER, "--out", "set.html"]) == 0
    with browser.new_context(offline=True) as context:
        context.set_default_timeout(120_000)
        page = context.new_page()
        page.goto(file.as_uri())
        yield page


@pytest.fixture(scope="module")
def alone(browser: Browser, demo_site: Path) -> Iterator[Callable[..., list[Side]]]:
    """Prints a sheet by itself: its number, paper and the choice of its pages. Each is printed once."""
    with browser.new_page() as page:

        @cache
        def print_alone(number: str, size: str, choice: str = "") -> list[Side]:
            page.goto((demo_site / page_of(demo_site, number)).as_uri())
            page.get_by_label("Print", exact=True).select_option(choice)
            return printed(page, size)

        yield print_alone


@pytest.fixture(params=["the_set", "the_file"])
def composed(request: pytest.FixtureRequest) -> Page:
    page: Page = request.getfixturevalue(request.param)
    page.get_by_label("Print", exact=True).select_option("")
    return page


def test_the_sheets_are_all_there_with_their_pictures(composed: Page) -> None:
    sheets = composed.locator(".sheet-set > article.sheet")
    assert sheets.evaluate_all("all => all.map(one => one.dataset.job)") == IN_ORDER
    days = composed.locator(".sheet-set .print-date").all_text_contents()
    assert len(days) >= len(IN_ORDER)
    assert all(re.fullmatch(r"\d{4}-\d\d-\d\d", day) for day in days)
    images = composed.locator(".sheet-set img")
    assert images.count() > 0
    assert images.evaluate_all("all => all.every(one => one.complete && one.naturalWidth > 0)")


def test_no_id_stands_twice_and_what_refers_to_one_stays_in_its_sheet(composed: Page) -> None:
    assert composed.evaluate(TWICE) == []
    assert composed.evaluate(LEADS_OUT) == []
    assert all(count > 5 for count in composed.evaluate(COUNTED))  # there was something to look at


@pytest.mark.parametrize("size", PAPERS)
def test_a_set_prints_the_pages_of_its_sheets_each_with_its_own_head(
    composed: Page, alone: Callable[..., list[Side]], size: str
) -> None:
    pages = [side.text for side in printed(composed, size)]
    at = 0
    for number in IN_ORDER:
        single = [side.text for side in alone(number, size)]
        for count, (text, own) in enumerate(zip(pages[at : at + len(single)], single, strict=True), 1):
            assert text.startswith(own[: own.index("Page ")])  # the running head, word for word
            assert text.startswith(f"Job {number}, rev. A")
            assert f"Page {count} of this sheet, {at + count} of {len(pages)} of the set" in text
            assert f"Page {count} of {len(single)}" in own
        at += len(single)
    assert at == len(pages)


@pytest.mark.parametrize("choice", ["print-machine", "print-file", "print-customer"])
def test_the_choice_of_pages_holds_for_every_sheet(
    composed: Page, alone: Callable[..., list[Side]], choice: str
) -> None:
    composed.get_by_label("Print", exact=True).select_option(choice)
    counts = Counter(_job_at_the_head(side) for side in printed(composed, "A4"))
    assert counts == {number: len(alone(number, "A4", choice)) for number in IN_ORDER}


def _job_at_the_head(side: Side) -> str:
    found = re.match(r"Job (\S+),", side.text)
    assert found, side.text[:80]
    return found[1]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_serious_barrier_in_a_set_nor_in_an_archive_with_ticks(
    open_page: Opener, demo_site: Path, scheme: str
) -> None:
    """Both whole in light, their contrast in both."""
    page = open_page("index.html", scheme=scheme).page
    two = IN_ORDER[1:]  # with all that a log adds, and short
    for number in two:
        tick(page, number).check()
    found = []
    for _ in ("the archive", "the set"):
        if scheme == "light":
            found += barriers(page, options=ALL_BUT_CONTRAST)
        shorten(page)
        found += barriers(page, options=ONLY_CONTRAST)
        open_set(page, demo_site, *two)
    assert found == []


def test_what_was_written_on_a_sheet_stands_in_the_set_and_is_changed_only_there(
    open_page: Opener, demo_site: Path
) -> None:
    page = open_page(page_of(demo_site, "SW-113")).page
    page.locator(".order input[type=checkbox]").first.check()
    page.locator("input.entry").first.fill("2.0171")
    open_set(page, demo_site, "SW-113", "SW-118")
    sheet = page.locator("article.sheet").first
    assert sheet.locator(".order input[type=checkbox]").first.is_checked()
    assert sheet.locator("input.entry").first.input_value() == "2.0171"
    assert sheet.locator(".order input[type=checkbox]").first.is_disabled()
    assert not sheet.locator("input.entry").first.is_editable()
    assert page.locator("article.sheet").nth(1).locator("input:checked").count() == 0


def test_what_is_not_in_the_archive_is_named_on_the_paper_too_and_never_opened(
    open_page: Opener, demo_site: Path
) -> None:
    bad = "&javascript:alert(1)&sheets/2020/gone.html&../../etc/passwd&%E0%A4"
    opened = open_page("print-set.html")
    page = opened.page
    page.evaluate("hash => { location.hash = hash }", set_of(demo_site, "SW-118").partition("#")[2] + bad)
    page.get_by_role("button", name="Print …").wait_for()
    lacking = page.get_by_role("alert")
    assert "This set is not complete." in lacking.inner_text()
    assert lacking.locator("li").count() == 4
    assert page.locator("iframe").count() == 0
    first, second, *_ = printed(page, "A4")
    assert "This set is not complete." in first.text
    assert second.text.startswith("Job SW-118")
    assert opened.complaints == []


def test_a_sheet_that_does_not_answer_is_named_and_the_others_are_there(
    browser: Browser, demo_site: Path, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    shutil.copytree(demo_site, site)
    (site / page_of(site, "SW-109")).write_text("<!doctype html><title>spoilt</title>", encoding="utf-8")
    with browser.new_page() as page:
        open_set(page, site, "SW-109", "SW-118")
        assert "SW-109" in page.get_by_role("alert").inner_text()
        expect(page.locator("#set-said")).to_have_text("1 sheet, ready to print: SW-118.")


def test_a_set_is_put_together_on_a_server_too(
    browser: Browser, demo_site: Path, served: Callable[[Path], str]
) -> None:
    with browser.new_page() as page:
        page.goto(served(demo_site) + set_of(demo_site, "SW-109", "SW-118"))
        expect(page.locator("#set-said")).to_have_text("2 sheets, ready to print: SW-109, SW-118.")


def test_without_ticks_the_page_says_what_to_do(open_page: Opener) -> None:
    page = open_page("print-set.html").page
    assert page.locator("#set-said").inner_text() == "No sheet is ticked. Tick jobs in the archive first."
    expect(page.get_by_role("button", name="Print …")).to_be_hidden()
    page.get_by_role("link", name="All jobs").click()
    expect(page.locator("h1")).to_have_text("Archive")


def test_a_sheet_gives_itself_to_nobody_else(browser: Browser, demo_site: Path, tmp_path: Path) -> None:
    frame = tmp_path / "frame.html"
    address = (demo_site / page_of(demo_site, "SW-118")).as_uri()
    frame.write_text(
        "<!doctype html><script>heard = 0; onmessage = () => heard += 1</script>"
        f'<iframe src="{address}"></iframe>',
        encoding="utf-8",
    )
    with browser.new_page() as page:
        page.goto(frame.as_uri(), wait_until="load")
        page.wait_for_timeout(200)
        assert page.evaluate("heard") == 0


def test_the_file_asks_for_nothing_beside_it_and_takes_the_paper_it_was_told(
    browser: Browser, demo: Path
) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(demo)
        assert main(["print", "SW-118", "--paper", "Letter", "--pages", "customer", "--out", "one.html"]) == 0
    with browser.new_page() as page:
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.goto((demo / "one.html").as_uri())
        assert [url for url in asked if not url.startswith("data:")] == [(demo / "one.html").as_uri()]
        (only,) = printed(page, prefer_css_page_size=True)
        assert (round(only.width), round(only.height)) == (612, 792)
        assert "For the customer" in only.text


def test_without_scripts_the_file_still_prints_each_sheet_under_its_own_head(
    browser: Browser, demo: Path, the_file: Page
) -> None:
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(the_file.url)
        assert sorted({_job_at_the_head(side) for side in printed(page, "A4")}) == IN_ORDER
