"""The card to take a stopped thread up: on every screen, and alone on the upper half of a sheet of paper."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from generator.__main__ import main
from tests.printed import flat, printed, printed_words

JOBS = Path(__file__).parents[2] / "jobs"
INSIDE, OUTSIDE = "SW-112-tide-gauge-housing", "SW-113-bollard-spindle"
NOT_READY = "SW-198-tide-gauge-housing"  # the same on a lathe that cannot cut its lead
HALF = {"A4": 297 / 2, "Letter": 11 * 25.4 / 2}  # mm
POINT = 25.4 / 72  # mm
SMALLEST = 12.0  # pixels of the screen: 9 pt
FOOT = 60.0  # pt: below stands the line at the foot
STEPS = (
    "Clean it", "Hold it as it was", "Steady rest", "True", "Levers and gears", "Tool to the gauge",
    "Half nuts closed", "Find the groove", "New zero", "Dry run", "The least cut",
)


@pytest.fixture(scope="module")
def stopped(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with the two stopped threads: the demo's, and the spindle as it was before it was taken up."""
    home = tmp_path_factory.mktemp("stopped")
    shutil.copytree(JOBS / "_shop", home / "jobs" / "_shop")
    for name in (INSIDE, OUTSIDE):
        shutil.copytree(JOBS / "2026" / name, home / "jobs" / "2026" / name)
    elsewhere = shutil.copytree(JOBS / "2026" / INSIDE, home / "jobs" / "2026" / NOT_READY) / "job.yml"
    text = elsewhere.read_text(encoding="utf-8")
    text = text.replace("job: SW-112", "job: SW-198").replace("lathe: metric", "lathe: long-bed")
    elsewhere.write_text(text, encoding="utf-8")
    log = home / "jobs" / "2026" / OUTSIDE / "log.yml"
    text = log.read_text(encoding="utf-8")
    before, _, after = text.partition("- at: 2026-05-18 08:15")
    assert "taken_up" in after
    log.write_text(before, encoding="utf-8")
    assert main(["build", "--jobs", str(home / "jobs"), "--site", str(home / "site")]) == 0
    return home / "site"


def opened(browser: Browser, site: Path, name: str, width: int = 1280, *, dark: bool = False) -> Page:
    page = browser.new_page(
        viewport={"width": width, "height": 900}, color_scheme="dark" if dark else "light"
    )
    page.set_default_timeout(120_000)
    page.goto((site / "sheets" / "2026" / f"{name}.html").as_uri(), wait_until="load")
    return page


@pytest.mark.parametrize("name", [INSIDE, OUTSIDE])
@pytest.mark.parametrize("size", HALF)
def test_the_card_prints_alone_on_the_upper_half_of_a_page(
    name: str, size: str, browser: Browser, stopped: Path
) -> None:
    with opened(browser, stopped, name) as page:
        choice = page.get_by_label("Print", exact=True)
        choice.focus()
        page.keyboard.type("card")  # by keyboard alone
        assert choice.input_value() == "print-card"
        (paper,) = printed(page, size)
        steps = page.locator(".take-up ol > li").all_inner_texts()
        page.emulate_media(media="print")
        smallest = page.evaluate(
            """Math.min(...[...document.querySelectorAll('.take-up *')].filter(e => e.innerText.trim())
                .map(e => parseFloat(getComputedStyle(e).fontSize)))"""
        )
    for title in STEPS:
        assert f"{title}." in paper.text, title
    assert [flat(step).partition(".")[0] for step in steps] == list(STEPS)
    for other in ("How it was left", "Appendix", "Passes, planned", "For the machine", "Printed on"):
        assert other not in paper.text
    assert smallest >= SMALLEST - 0.01
    assert paper.lowest(FOOT) > paper.height - HALF[size] / POINT


@pytest.mark.parametrize("width", [360, 820, 1440])
@pytest.mark.parametrize("dark", [False, True])
def test_the_card_is_whole_on_every_screen(
    width: int, dark: bool, browser: Browser, stopped: Path
) -> None:
    with opened(browser, stopped, OUTSIDE, width, dark=dark) as page:
        card = page.locator(".take-up")
        assert card.is_visible()
        assert card.evaluate("e => e.scrollWidth <= e.clientWidth")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert card.get_by_text("After the tool was ground.").is_visible()
        assert card.get_by_text("On another lathe").is_visible()
        before = page.evaluate(
            """document.querySelector('.take-up').compareDocumentPosition(
                document.querySelector('section.machine')) & Node.DOCUMENT_POSITION_FOLLOWING"""
        )
        assert before


def test_the_card_alone_says_when_the_sheet_is_not_ready(browser: Browser, stopped: Path) -> None:
    """Nothing else of the sheet is on that paper to say so; above the sheet it is said already."""
    with opened(browser, stopped, NOT_READY) as page:
        line = page.locator(".take-up .alone", has_text="NOT READY TO RUN")
        assert not line.is_visible()
        page.get_by_label("Print", exact=True).select_option("print-card")
        assert line.is_visible()
        (paper,) = printed(page, "Letter")
    assert "NOT READY TO RUN The sheet says why" in paper.text
    assert paper.lowest(FOOT) > paper.height - HALF["Letter"] / POINT
    with opened(browser, stopped, INSIDE) as page:
        assert page.locator(".take-up .alone").count() == 0


def test_how_it_was_left_stands_once_on_the_paper(browser: Browser, stopped: Path) -> None:
    with opened(browser, stopped, INSIDE) as page:
        text = printed_words(page, "A4")
        assert text.count("jaw 1 at the filed notch") == 2  # on the card, and as the log has it
        assert page.locator("#left-as").count() == 0


def test_a_sheet_that_is_not_stopped_offers_no_card(browser: Browser, demo_site: Path) -> None:
    with opened(browser, demo_site, OUTSIDE) as page:
        assert page.locator(".take-up").count() == 0
        options = page.get_by_label("Print", exact=True).locator("option").all_inner_texts()
        assert "card to take it up" not in options
