"""The sheet on paper, A4 and Letter: job, thread and hand on every page, nothing cut off, passes whole."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.printed import Side, printed, squeezed

Opener = Callable[..., Any]
POINTS_PER_INCH = 72.0
SIZES = {
    "A4": (8.27 * POINTS_PER_INCH, 11.69 * POINTS_PER_INCH),
    "Letter": (8.5 * POINTS_PER_INCH, 11 * POINTS_PER_INCH),
}
MOST_PAGES = {"A4": 17, "Letter": 18}  # the working of every figure takes four or five, log and pictures two
LEAST_FILLED = 0.4  # of a page's height, on every page but the last
LONG_WORD = 20  # characters: longer ones may be broken over two lines, and so taken apart
EDGE = 5.0  # mm that no printer reaches, common practice
SHEETS = {  # ready jobs; what its running header must hold, besides the number
    "SW-101": ("2 1/4-8 UN-2A", "right"),
    "SW-107": ("8-12 UN-2B", "right"),
    "SW-113": ("right",),
    "SW-116": ("1-8 UNC-2A-LH", "left"),
    "SW-117": ("1 1/2-8 UN-2A", "right"),  # between centers
    "SW-119": ("4-8 UN-2A", "right"),  # the one with the most to say
    "SW-122": ("Tr 40x14(P7)LH-7e", "left"),  # two starts, the longest pass table
}


@dataclass(frozen=True)
class Paper:
    """One sheet as printed; `file` is its page relative to the site."""

    number: str
    size: str
    file: str
    sides: list[Side]

    @property
    def texts(self) -> list[str]:
        """The words of every page."""
        return [side.text for side in self.sides]


PAPERS = [  # every sheet on A4, those with the most to say on Letter, too
    (number, size) for number in SHEETS for size in SIZES
    if size == "A4" or number in ("SW-101", "SW-113", "SW-119")
]


@pytest.fixture(scope="module", params=PAPERS, ids="-".join)
def paper(request: pytest.FixtureRequest, browser: Browser, demo_site: Path) -> Paper:
    number, size = request.param
    file = sheet(demo_site, number)
    with browser.new_page() as page:
        page.set_default_timeout(120_000)  # ms, for a busy machine
        page.goto((demo_site / file).as_uri(), wait_until="load")
        return Paper(number, size, file, printed(page, size, print_background=False))


def sheet(site: Path, number: str) -> str:
    """The page of a job, by its number."""
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.relative_to(site).as_posix()


def test_every_page_carries_job_thread_and_hand(paper: Paper) -> None:
    for count, text in enumerate(paper.texts, 1):
        for wanted in (paper.number, *SHEETS[paper.number], f"Page {count} of {len(paper.sides)}"):
            assert wanted in text, f"page {count} lacks {wanted}"


def test_the_paper_has_its_size_and_the_sheet_a_reasonable_number_of_pages(paper: Paper) -> None:
    for side in paper.sides:
        assert (side.width, side.height) == pytest.approx(SIZES[paper.size], abs=2.0)
    assert 2 <= len(paper.sides) <= MOST_PAGES[paper.size]


def test_nothing_of_the_site_around_the_sheet_is_printed(paper: Paper) -> None:
    text = " ".join(paper.texts)
    for site in ("All jobs", "Switch to", "see Safety"):
        assert site not in text


def test_every_word_of_the_sheet_is_on_the_paper(paper: Paper, open_page: Opener) -> None:
    """What the browser lays out for print is what arrives: no cell, no line of text is lost."""
    page = open_page(paper.file).page
    page.emulate_media(media="print")
    page.evaluate("document.querySelectorAll('.unseen').forEach(element => element.remove())")
    shown = page.locator("article.sheet").inner_text()
    text = squeezed("".join(paper.texts))
    words = {squeezed(word) for word in shown.split()}
    missing = {word for word in words if word.casefold() not in text.casefold()}
    assert missing <= {word for word in words if len(word) > LONG_WORD}, missing


def test_no_text_stands_outside_the_printable_part(paper: Paper) -> None:
    edge = EDGE / 25.4 * POINTS_PER_INCH
    for side in paper.sides:
        assert side.boxes
        assert [
            (left, bottom, right, top)
            for left, bottom, right, top in side.boxes
            if not (edge <= left <= right <= side.width - edge and 0 <= bottom <= top <= side.height)
        ] == []


@pytest.mark.parametrize("number", SHEETS)
def test_nothing_is_wider_than_the_paper(open_page: Opener, demo_site: Path, number: str) -> None:
    """Every element of the sheet, laid out for print at the width between the margins, ends inside it."""
    page = open_page(sheet(demo_site, number)).page
    page.emulate_media(media="print")
    margins = 24.0 / 25.4  # inch, both sides, as print.css sets them
    for size in SIZES:
        width = int((SIZES[size][0] / POINTS_PER_INCH - margins) * 96)
        page.set_viewport_size({"width": width, "height": 1000})
        too_wide = page.evaluate(
            """width => [...document.querySelectorAll('article.sheet *')]
                .filter(e => e.getBoundingClientRect().right > width + 1)
                .filter(e => !e.closest('.unseen') && getComputedStyle(e).display !== 'none')
                .map(e => `${e.tagName}.${e.getAttribute("class")}: ${e.textContent.slice(0, 30)}`)""",
            width,
        )
        assert too_wide == [], size


def test_a_pass_table_that_fits_a_page_is_in_one_piece(paper: Paper, open_page: Opener) -> None:
    page = open_page(paper.file).page
    table = page.locator("table.pass-table")
    if table.count() == 0:
        pytest.fail(f"{paper.number} has no pass table")
    pages_with_table = [text for text in paper.texts if "As cut" in text]
    long = page.locator("section.passes.long").count()
    assert len(pages_with_table) >= 1
    if not long:
        assert len(pages_with_table) == 1


def test_the_first_page_is_for_the_machine(paper: Paper) -> None:
    text = paper.texts[0]
    assert "For the machine" in text
    assert SHEETS[paper.number][-1] in text


def test_no_page_but_the_last_is_nearly_empty(paper: Paper) -> None:
    margin = 14 / 25.4 * POINTS_PER_INCH  # as print.css sets it
    for number, side in enumerate(paper.sides[:-1], 1):
        filled = side.height - margin - side.lowest(margin, margin)
        assert filled / (side.height - 2 * margin) >= LEAST_FILLED, f"page {number}"


def test_the_setup_is_drawn_on_the_first_page(paper: Paper) -> None:
    assert "Setup seen from above" in paper.texts[0]


def test_the_thread_dial_comes_before_the_passes(paper: Paper, demo_site: Path) -> None:
    pages = paper.texts
    drawn = [number for number, text in enumerate(pages) if "fixed mark" in text and "Thread dial" in text]
    if 'id="thread-dial"' not in (demo_site / paper.file).read_text(encoding="utf-8"):
        assert not drawn, "the half nuts stay closed: no dial is drawn"
        return
    (dial,) = drawn
    passes = next(number for number, text in enumerate(pages) if "As cut" in text)
    assert dial <= passes
    if dial == passes:
        assert pages[dial].index("fixed mark") < pages[dial].index("As cut")


def test_figures_to_set_are_in_capitals_of_four_millimetres_and_rows_to_write_in_eight_high(
    open_page: Opener, demo_site: Path
) -> None:
    file = sheet(demo_site, "SW-101")
    page = open_page(file, viewport={"width": 700, "height": 1000}).page
    page.emulate_media(media="print")
    pixels_per_mm = 96 / 25.4
    cap = page.evaluate(
        """() => { const e = document.querySelector('.cell .value'); const s = getComputedStyle(e);
            const c = document.createElement('canvas').getContext('2d');
            c.font = `${s.fontWeight} 1000px ${s.fontFamily}`;
            return c.measureText('H').actualBoundingBoxAscent * parseFloat(s.fontSize) / 1000; }"""
    )
    assert cap / pixels_per_mm >= 4.0
    heights = page.evaluate(
        """[...document.querySelectorAll('.pass-table tbody tr, .record tbody tr')]
            .map(e => e.getBoundingClientRect().height)"""
    )
    assert heights
    assert min(heights) / pixels_per_mm >= 8.0
