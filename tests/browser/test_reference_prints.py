"""Prints beside stored ones, page by page: their words, and their pictures as far as an eye would see.

The stored prints lie in `prints/`: a folder a print, with `text.txt` and a small grey picture of every page.
After a change that is meant, write them anew and look through the pictures before committing them:

    REWRITE_PRINTS=1 python -m pytest tests/browser/test_reference_prints.py

Words must be the same. Pictures may differ as far as another version of the browser draws its letters and
lines a little elsewhere; a drawing gone, a block that moved, letters over each other or a rule less are more.
"""

from __future__ import annotations

import datetime
import difflib
import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np
import numpy.typing as npt
import pypdfium2
import pytest
from PIL import Image
from playwright.sync_api import Browser, Page
from scipy import ndimage

PRINTS: Final = Path(__file__).parent / "prints"
REWRITE: Final = "REWRITE_PRINTS"
HOW: Final = f"{REWRITE}=1 python -m pytest tests/browser/{Path(__file__).name}"
REFERENCES: Final = {  # what is stored: job, choice of what is printed, paper
    "whole-SW-101-A4": ("SW-101", "", "A4"),  # in inches, outside, with a picture
    "whole-SW-118-Letter": ("SW-118", "", "Letter"),  # without a thread
    "machine-SW-113-Letter": ("SW-113", "print-machine", "Letter"),  # with a log
    "machine-SW-103-A4": ("SW-103", "print-machine", "A4"),  # in millimetres, inside
    "machine-SW-109-A4": ("SW-109", "print-machine", "A4"),  # not ready to run
    "customer-SW-101-A4": ("SW-101", "print-customer", "A4"),
}
PRINTED_ON: Final = datetime.datetime(2026, 6, 1, 9, 0)
FONTS: Final = {"LiberationSans", "DejaVuSans", "DejaVuSansMono"}  # families that .ci/run installs
PAGE_BREAK: Final = "\n-- page {} --\n"

DOTS: Final = 60  # an inch, of a stored picture
FINER: Final = 3  # times: a page is drawn finer first, for a thin rule is drawn as wide as a dot at least
INCH: Final = 72.0  # points
LEVELS: Final = 6  # of grey that are stored, for small files
NEAR: Final = 2  # dots, 0.85 mm: as far as a line may be from where it stood
INK: Final = 3  # dots square over which ink is evened out: where a line falls on the dots no longer matters
FAINTER: Final = 45  # of 255: so much less ink there may be than near its place
SEEN: Final = 20  # dots beside each other without their like near: 3.6 mm²
MOST_BYTES: Final = 1_500_000  # of all that is stored

Grey = npt.NDArray[np.uint8]


@dataclass(frozen=True)
class Print:
    """One print: the words of its pages, and their pictures, 0 black to 255 white."""

    texts: list[str]
    pictures: list[Grey]


def sheet(site: Path, number: str) -> str:
    """The address of a job's page, by its number."""
    (page,) = site.glob(f"sheets/*/{number}-*.html")
    return page.as_uri()


def printed(page: Page, size: str, finer: int = FINER) -> Print:
    """What the printer would get, drawn so many times finer before its dots are laid together."""
    document = pypdfium2.PdfDocument(page.pdf(format=size))
    pictures, texts = [], []
    for one in document:
        drawn = one.render(scale=finer * DOTS / INCH, grayscale=True).to_pil()
        pictures.append(few_levels(np.asarray(drawn.reduce(finer))))
        texts.append("\n".join(one.get_textpage().get_text_range().split("\r\n")).strip())
    document.close()
    return Print(texts, pictures)


def few_levels(picture: npt.NDArray[np.uint8]) -> Grey:
    """The nearest of the levels that are stored; black and white stay so."""
    step = 255 / (LEVELS - 1)
    return np.rint(np.rint(picture / step) * step).astype(np.uint8)


def stored(folder: Path) -> Print:
    """The print that lies in a folder."""
    text = (folder / "text.txt").read_text(encoding="utf-8").removesuffix("\n")
    pictures = [np.asarray(Image.open(file).convert("L")) for file in sorted(folder.glob("*.png"))]
    texts = []
    for number in range(len(pictures), 0, -1):
        text, _, last = text.rpartition(PAGE_BREAK.format(number))
        texts.insert(0, last)
    return Print(texts, pictures)


def store(made: Print, folder: Path) -> None:
    """Puts a print in the place of the one that lies in the folder."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    parts = (PAGE_BREAK.format(number) + text for number, text in enumerate(made.texts, 1))
    (folder / "text.txt").write_text("".join(parts) + "\n", encoding="utf-8", newline="\n")
    for number, picture in enumerate(made.pictures, 1):
        Image.fromarray(picture).quantize(LEVELS).save(folder / f"{number:02}.png", optimize=True)


def differing(before: Grey, now: Grey) -> npt.NDArray[np.bool_]:
    """Dots of two pictures of one size, where several that lie together have their like nowhere near."""
    far = np.zeros(before.shape, dtype=bool)
    old, new = (ndimage.uniform_filter(255.0 - one, INK) for one in (before, now))
    for one, other in ((old, new), (new, old)):
        far |= one - ndimage.grey_dilation(other, size=2 * NEAR + 1) > FAINTER
    groups, count = ndimage.label(far, structure=np.ones((3, 3)))
    sizes = ndimage.sum_labels(far, groups, range(count + 1))
    return np.asarray((sizes >= SEEN)[groups])


def pictures_differ(before: Print, now: Print, name: str, folder: Path) -> list[str]:
    """A sentence for each page that looks otherwise; its picture and one over the other go to a folder."""
    said = []
    for number, (old, new) in enumerate(zip(before.pictures, now.pictures, strict=False), 1):
        if old.shape != new.shape:
            said.append(f"page {number} is {new.shape[::-1]} dots, was {old.shape[::-1]}")
            continue
        where = differing(old, new)
        if not where.any():
            continue
        rows, columns = np.nonzero(where)
        top, left = round(rows.min() / DOTS * 25.4), round(columns.min() / DOTS * 25.4)
        files = [folder / f"{name}-{number:02}-{kind}.png" for kind in ("new", "over")]
        Image.fromarray(new).save(files[0])
        Image.fromarray(np.dstack([new, np.minimum(old, new), old])).save(files[1])
        said.append(
            f"page {number} looks otherwise, first {top} mm down, {left} mm from the left: {files[0]}, and "
            f" over the stored one (gone: red, come: blue): {files[1]}"
        )
    return said


def texts_differ(before: Print, now: Print) -> list[str]:
    """The lines that differ, with their pages."""
    said = []
    if len(before.texts) != len(now.texts):
        said.append(f"{len(now.texts)} pages, were {len(before.texts)}")
    for number, (old, new) in enumerate(zip(before.texts, now.texts, strict=False), 1):
        if old.split() != new.split():  # where a line breaks is for the pictures
            lines = difflib.unified_diff(old.splitlines(), new.splitlines(), n=0, lineterm="")
            said += [f"page {number}:", *list(lines)[3:23]]
    return said


@pytest.fixture(scope="module")
def open_sheet(browser: Browser, demo_site: Path) -> Iterator[Page]:
    """One tab for all prints, on a day that does not change."""
    with browser.new_page() as page:
        page.set_default_timeout(120_000)
        page.clock.set_fixed_time(PRINTED_ON)
        yield page


def chosen(page: Page, site: Path, number: str, choice: str) -> Page:
    page.goto(sheet(site, number), wait_until="load")
    page.get_by_label("Print", exact=True).select_option(choice)
    return page


@pytest.mark.parametrize("name", REFERENCES)
def test_a_print_has_the_words_and_the_looks_of_the_stored_one(
    open_sheet: Page, demo_site: Path, tmp_path_factory: pytest.TempPathFactory, name: str
) -> None:
    number, choice, size = REFERENCES[name]
    made = printed(chosen(open_sheet, demo_site, number, choice), size)
    if os.environ.get(REWRITE):
        store(made, PRINTS / name)
    before = stored(PRINTS / name)
    folder = tmp_path_factory.mktemp("prints")
    said = texts_differ(before, made) + pictures_differ(before, made, name, folder)
    assert not said, "\n".join([name, *said, f"If that is meant: {HOW}"])


def test_what_is_stored_is_asked_for_and_small() -> None:
    assert {folder.name for folder in PRINTS.iterdir()} == set(REFERENCES), f"remove what is too much; {HOW}"
    assert sum(file.stat().st_size for file in PRINTS.rglob("*") if file.is_file()) <= MOST_BYTES


# -- the comparison itself -------------------------------------------------------------------------


@pytest.fixture(scope="module")
def machine_pages(open_sheet: Page, demo_site: Path) -> tuple[Page, Print]:
    """A sheet for the machine, and how it prints."""
    page = chosen(open_sheet, demo_site, "SW-101", "print-machine")
    return page, printed(page, "A4")


def test_the_fonts_are_those_that_the_stored_prints_have(machine_pages: tuple[Page, Print]) -> None:
    """Otherwise every page differs, and not by what was changed."""
    with pypdfium2.PdfDocument(machine_pages[0].pdf(format="A4")) as document:
        fonts = {
            letters.get_font().get_base_name().partition("+")[2]
            for page in document
            for letters in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_TEXT])
        }
    assert fonts
    assert {font.partition("-")[0] for font in fonts} <= FONTS, "install fonts-liberation, fonts-dejavu-core"


CHANGES: Final = {  # what goes wrong: done to the page's style, or to what is in it
    "a drawing is gone": ".setup .drawing svg { visibility: hidden }",
    "a part of a drawing is gone": ".setup svg .item, .setup svg text { visibility: hidden }",
    "a block moved sideways": ".pass-table { transform: translateX(2mm) }",
    "a block moved down": ".machine .cells { transform: translateY(2mm) }",
    "a column is gone": ".pass-table td:nth-child(4) { visibility: hidden }",
    "a figure is gone": ".cell:nth-child(3) .value { visibility: hidden }",
    "letters stand over each other": ".order li:nth-child(3) label { position: relative; top: -4mm }",
    "a rule is gone": ".pass-table tbody tr:nth-child(5) :is(th, td) { border-bottom-color: transparent }"
    ".pass-table tbody tr:nth-child(6) :is(th, td) { border-top-color: transparent }",
    "a frame is gone": ".title-block { border-color: transparent !important }",
    "a rule came": ".order li:nth-child(3) { outline: .5pt solid #000 }",
    "letters are larger": ".cell .value { font-size: 18pt !important }",
    "letters are grey": ".findings { color: #bbb }",
    "a picture is gone": ".pictures img { visibility: hidden }",
}  # fmt: skip


@pytest.mark.parametrize("change", CHANGES)
def test_what_an_eye_would_see_is_seen(
    machine_pages: tuple[Page, Print], tmp_path: Path, change: str
) -> None:
    page, before = machine_pages
    style = page.add_style_tag(content=f"@media print {{ {CHANGES[change].replace('.', '.sheet .', 1)} }}")
    now = printed(page, "A4")
    style.evaluate("style => style.remove()")
    said = pictures_differ(before, now, "changed", tmp_path)
    assert said, change
    assert len(list(tmp_path.iterdir())) == 2 * len(said)
    assert str(tmp_path) in said[0]


@pytest.mark.parametrize("aside", [0.2, 0.45])  # mm
def test_lines_and_letters_a_little_aside_are_let_through(
    machine_pages: tuple[Page, Print], tmp_path: Path, aside: float
) -> None:
    page, before = machine_pages
    margins = f"{14 - aside}mm {12 - aside}mm {13 + aside}mm {12 + aside}mm"  # as print.css sets them, moved
    style = page.add_style_tag(content=f"@page {{ margin: {margins} !important }}")
    now = printed(page, "A4")
    style.evaluate("style => style.remove()")
    assert any((old != new).mean() > 0.01 for old, new in zip(before.pictures, now.pictures, strict=True))
    assert pictures_differ(before, now, "aside", tmp_path) == []


def test_edges_drawn_otherwise_are_let_through(machine_pages: tuple[Page, Print], tmp_path: Path) -> None:
    page, before = machine_pages
    now = printed(page, "A4", FINER + 2)
    assert any((old != new).mean() > 0.01 for old, new in zip(before.pictures, now.pictures, strict=True))
    assert pictures_differ(before, now, "edges", tmp_path) == []


def test_one_figure_changed_is_named_with_its_page(machine_pages: tuple[Page, Print]) -> None:
    page, before = machine_pages
    value = page.locator(".cell .value").first
    text = value.inner_text()
    value.evaluate("place => { place.textContent = '12.3' }")
    now = printed(page, "A4")
    value.evaluate("(place, text) => { place.textContent = text }", text)
    assert texts_differ(before, now) == ["page 1:", f"-{text}", "+12.3"]


def test_a_page_more_is_named() -> None:
    one, two = Print(["a"], []), Print(["a", "b"], [])
    assert texts_differ(one, two) == ["2 pages, were 1"]


def test_what_is_stored_comes_back(machine_pages: tuple[Page, Print], tmp_path: Path) -> None:
    made = machine_pages[1]
    store(made, tmp_path / "one")
    back = stored(tmp_path / "one")
    assert back.texts == made.texts
    assert all(np.array_equal(old, new) for old, new in zip(made.pictures, back.pictures, strict=True))
