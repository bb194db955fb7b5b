"""What of a sheet is printed is chosen on it: all, the machine's, the file's or the customer's pages.

Compared are the words of every page and where they stand, not pictures of pages: a picture changes with every
line of every section above it, and with the browser's own version.
"""

from __future__ import annotations

import datetime
import io
import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, Page

from generator.__main__ import main
from tests.printed import Side, flat, pictures, printed, printed_words, read_pdf, squeezed

Opener = Callable[..., Any]
ROOT = Path(__file__).resolve().parents[2]
MARGIN = 14 / 25.4 * 72  # points, at the top, as print.css sets it
LEAST_FILLED = 0.4  # of a page's height, on every page but the last
WIDTH = 703  # pixels between the margins of A4
MOST_PAGES = {"A4": 17, "Letter": 18}
CHOICES = ("", "print-machine", "print-file", "print-customer")
NUMBERS = ("SW-101", "SW-119", "SW-109")  # ready, the one with the most to say, not ready to run
TITLE_BLOCK = "Identification number"
# Headings that each part has, where the sheet has them at all, and words that belong to another part only.
MACHINE = {
    "For the machine", "Setup", "Before starting", "Findings", "Cautions", "Route", "Room along the bed",
    "Lathe settings", "Relief", "Thread dial", "Passes", "Still to cut", "Order of work", "Test fit",
}  # fmt: skip
FILE = {"How far it gives", "Work holding", "Grip", "Thread data", "Another lathe", "Safety notes", "Working"}
ADDRESS = "https://sheets.saltmarsh.example/sheets/2026/SW-118-pump-lug.html"


@dataclass(frozen=True)
class Printed:
    """One part of one sheet on paper; `heads` are the headings of the sheet on the screen."""

    number: str
    size: str
    choice: str
    pages: list[Side]
    heads: set[str]

    @property
    def texts(self) -> list[str]:
        """The words of every page."""
        return [page.text for page in self.pages]


def page_of(site: Path, number: str) -> str:
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.relative_to(site).as_posix()


def printed_heads(page: Page) -> set[str]:
    """The headings that are laid out for print; the page stays laid out so."""
    page.emulate_media(media="print")
    heads = page.evaluate(
        """[...document.querySelectorAll('article.sheet :is(h2, h3)')]
            .filter(e => e.getClientRects().length).map(e => e.innerText)"""
    )
    return {flat(head) for head in heads}


@pytest.fixture(
    scope="module", params=[(number, choice) for number in NUMBERS for choice in CHOICES], ids="-".join
)
def both(request: pytest.FixtureRequest, browser: Browser, demo_site: Path) -> list[Printed]:
    """A part of a sheet on both papers."""
    number, choice = request.param
    with browser.new_page() as page:
        page.set_default_timeout(120_000)
        page.goto((demo_site / page_of(demo_site, number)).as_uri(), wait_until="load")
        page.get_by_label("Print", exact=True).select_option(choice)
        heads = printed_heads(page)
        return [Printed(number, size, choice, printed(page, size), heads) for size in MOST_PAGES]


def test_each_part_has_its_own_headings_and_no_others(both: list[Printed]) -> None:
    for paper in both:
        machine, file = paper.heads & MACHINE, paper.heads & FILE
        if paper.choice == "print-customer":
            assert paper.heads == {"For the customer", "Inspection record", "Before it is used"}
            continue
        assert bool(machine) is (paper.choice != "print-file")
        assert bool(file) is (paper.choice != "print-machine")
        assert "For the customer" not in paper.heads
        if paper.choice != "print-file":
            assert machine >= {"Before starting", "Cautions", "Passes"}
            assert paper.number == "SW-109" or machine >= {"For the machine", "Setup", "Test fit"}


def test_what_is_laid_out_is_on_the_paper(both: list[Printed]) -> None:
    for paper in both:
        text = squeezed("".join(paper.texts)).casefold()
        for head in paper.heads:
            assert squeezed(head).casefold() in text, head


def test_the_parts_together_are_the_whole(both: list[Printed], browser: Browser, demo_site: Path) -> None:
    """Nothing gets lost between the parts."""
    if both[0].choice != "":
        return
    with browser.new_page() as page:
        page.goto((demo_site / page_of(demo_site, both[0].number)).as_uri(), wait_until="load")
        found: set[str] = set()
        for choice in CHOICES[1:]:
            page.emulate_media(media="screen")
            page.get_by_label("Print", exact=True).select_option(choice)
            found |= printed_heads(page)
    assert both[0].heads <= found


def test_pages_are_few_and_full_and_numbered(both: list[Printed]) -> None:
    for paper in both:
        most = 1 if paper.choice == "print-customer" else MOST_PAGES[paper.size]
        assert 1 <= len(paper.pages) <= most
        for number, page in enumerate(paper.pages, 1):
            assert paper.number in page.text
            assert f"Page {number} of {len(paper.pages)}" in page.text
            if number < len(paper.pages):
                filled = page.height - MARGIN - page.lowest(MARGIN, MARGIN)
                assert filled / (page.height - 2 * MARGIN) >= LEAST_FILLED, f"{paper.size} page {number}"


def test_the_first_page_says_which_part_it_is(both: list[Printed]) -> None:
    for paper in both:
        first = paper.texts[0]
        assert ("Pages for the machine." in first) is (paper.choice == "print-machine")
        assert ("Pages for the file. Nothing is cut from" in first) is (paper.choice == "print-file")
        assert ("For the customer" in first) is (paper.choice == "print-customer")
        if paper.choice in ("", "print-machine") and paper.number != "SW-109":
            assert "Setup seen from above" in first


def test_the_day_of_printing_and_the_revision_are_on_the_paper(both: list[Printed]) -> None:
    days = {(datetime.date.today() - datetime.timedelta(days=back)).isoformat() for back in (0, 1)}
    for paper in both:
        said = re.search(r"Printed on (\S+)", paper.texts[0])
        assert said is not None
        assert said[1] in days
        assert all("rev. A" in text for text in paper.texts)


def test_the_customers_page_keeps_the_shops_own_figures_to_the_shop(both: list[Printed]) -> None:
    for paper in both:
        if paper.choice != "print-customer":
            continue
        (text,) = paper.texts
        for wanted in ("Thread", "What the part does", "Limits", "not a certificate", "Handed over by"):
            assert wanted in text, wanted
        for own in ("rpm", "lathe: ", "Long lathe", "dollars", "Grip", "lbf", "steady rest", "machinist"):
            assert own not in text, own


@pytest.mark.parametrize("choice", CHOICES)
def test_nothing_printed_is_wider_than_the_paper(open_page: Opener, demo_site: Path, choice: str) -> None:
    page = open_page(page_of(demo_site, "SW-101"), viewport={"width": WIDTH, "height": 1000}).page
    page.get_by_label("Print", exact=True).select_option(choice)
    page.emulate_media(media="print")
    assert page.evaluate(
        """width => [...document.querySelectorAll('article.sheet *')].filter(e => !e.closest('.unseen'))
            .filter(e => e.getBoundingClientRect().right > width + 1).map(e => e.outerHTML.slice(0, 80))""",
        WIDTH,
    ) == []


# -- the control -----------------------------------------------------------------------------------


def test_the_choice_is_made_from_the_keyboard_and_asks_no_network(open_page: Opener, demo_site: Path) -> None:
    opened = open_page(page_of(demo_site, "SW-101"))
    page = opened.page
    page.evaluate("window.print = () => { window.printed = document.querySelector('.sheet').className }")
    page.get_by_label("Print", exact=True).focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert "print-machine" in page.evaluate("window.printed").split()
    assert (opened.complaints, opened.requests) == ([], [])
    for part in ("Findings", "Working"):  # on the screen nothing changes
        assert page.locator(f"article.sheet :is(h2, h3):text-is('{part}')").count() == 1
    assert page.locator("#before-starting").is_visible()


def test_without_a_script_everything_is_printed_and_the_day_is_written_by_hand(
    open_page: Opener, demo_site: Path
) -> None:
    page = open_page(page_of(demo_site, "SW-101"), scripts=False).page
    assert page.locator("form.print-choice").is_hidden()
    text = printed_words(page, "A4")
    assert "Printed on ________" in text
    for head in ("For the machine", "Working", "Before it is used"):
        assert head in text


def test_a_picture_is_shown_with_its_caption_on_screen_and_paper(open_page: Opener, demo_site: Path) -> None:
    page = open_page(page_of(demo_site, "SW-101")).page
    picture = page.get_by_alt_text("Sketch MF-07/2, from the old pin")
    assert picture.evaluate("e => e.complete && e.naturalWidth") == 1200
    width, height = picture.evaluate("e => [e.clientWidth, e.clientHeight]")
    assert width / height == pytest.approx(1200 / 640, rel=0.01)
    pdf = page.pdf(format="A4")
    captioned = ["Sketch MF-07/2, from the old pin" in side.text for side in read_pdf(pdf)]
    assert captioned.count(True) == 1
    assert pictures(pdf)[captioned.index(True)] == 1


# -- the code of the address -----------------------------------------------------------------------


@pytest.fixture(scope="module")
def on_the_web(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of one job, with an address."""
    folder = tmp_path_factory.mktemp("web")
    for name in ("_shop", "2026/SW-118-pump-lug"):
        shutil.copytree(ROOT / "jobs" / name, folder / "jobs" / name)
    (folder / "mkdocs.yml").write_text(
        f"INHERIT: {(ROOT / 'site_templates' / 'mkdocs.yml').as_posix()}\nsite_url: https://sheets.saltmarsh.example\n"
        f"docs_dir: {(ROOT / 'site_templates' / 'pages').as_posix()}\n"
        f"theme: {{custom_dir: {(ROOT / 'site_templates' / 'theme').as_posix()}}}\n",
        encoding="utf-8",
    )
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert main(["build"]) == 0
    return folder / "site"


@pytest.mark.parametrize("media", ["screen", "print"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_code_beside_the_title_leads_to_the_page(
    browser: Browser, on_the_web: Path, media: str, scheme: str
) -> None:
    dots = 300 / 96  # as a printer of 300 dots an inch
    context = browser.new_context(device_scale_factor=dots, color_scheme=scheme)
    page = context.new_page()
    page.goto((on_the_web / page_of(on_the_web, "SW-118")).as_uri(), wait_until="load")
    page.emulate_media(media=media, color_scheme=scheme)
    code = page.locator(".title-block .address svg")
    side = code.evaluate("e => e.getBoundingClientRect().width") * 25.4 / 96
    assert 15 <= side <= 20.1
    picture = Image.open(io.BytesIO(code.screenshot())).convert("L").point(lambda level: 255 * (level > 127))
    assert [found.text for found in zxingcpp.read_barcodes(np.asarray(picture))] == [ADDRESS]
    context.close()


@pytest.mark.parametrize("size", MOST_PAGES)
def test_the_address_stands_under_the_code_and_the_setup_stays_on_the_first_page(
    open_page: Opener, on_the_web: Path, size: str
) -> None:
    page = open_page(page_of(on_the_web, "SW-118"), site=on_the_web).page
    first = printed(page, size)[0].text
    assert ADDRESS in first.replace(" ", "")
    assert "Setup seen from above" in first


def test_without_an_address_there_is_no_code(open_page: Opener, demo_site: Path) -> None:
    assert open_page(page_of(demo_site, "SW-118")).page.locator(".address").count() == 0
