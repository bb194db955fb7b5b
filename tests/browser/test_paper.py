"""A job on paper: one printed side, and the code on it gives the job file back, byte by byte.

The code is written by segno and read by zxing-cpp: two implementations of ISO/IEC 18004 that share nothing.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageFilter
from playwright.sync_api import Browser

from generator.__main__ import main
from generator.job.editor_line import without_line
from generator.job.without import without
from generator.paper_reading import read_paper

ROOT = Path(__file__).resolve().parents[2]
WIDE = {"A4": 595, "Letter": 612}  # points
Printer = Callable[[Path], list[Image.Image]]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "jobs" / "_shop", tmp_path / "jobs" / "_shop")
    for name in ("SW-113-bollard-spindle", "SW-122-gate-lifting-screw"):
        shutil.copytree(ROOT / "jobs" / "2026" / name, tmp_path / "jobs" / "2026" / name)
    return tmp_path


def job_of(shop: Path, number: str) -> Path:
    (found,) = shop.glob(f"jobs/2026/{number}-*/job.yml")
    return found


def printed(browser: Browser, file: Path) -> pypdfium2.PdfDocument:
    page = browser.new_page()
    try:
        page.goto(file.as_uri())
        return pypdfium2.PdfDocument(page.pdf(prefer_css_page_size=True, print_background=False))
    finally:
        page.close()


def at(document: pypdfium2.PdfDocument, dots: int) -> Image.Image:
    return document[0].render(scale=dots / 72).to_pil()


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("number", ["SW-113", "SW-122"])
def test_it_is_one_side_and_reads_back(browser: Browser, shop: Path, number: str, paper: str) -> None:
    out, job = shop / "p.html", job_of(shop, number)
    assert main(["paper", number, "-o", str(out), "--paper", paper, "--jobs", str(shop / "jobs")]) == 0
    document = printed(browser, out)
    assert len(document) == 1
    assert round(document[0].get_width()) == WIDE[paper]
    wanted = without(job.read_bytes(), job, customer=True)[0]
    for dots in (150, 200):
        at(document, dots).save(shop / "scan.png")
        assert read_paper(shop / "scan.png") == wanted
    photo = at(document, 200).convert("L")
    photo = photo.rotate(4, expand=True, fillcolor=200, resample=Image.Resampling.BICUBIC)
    photo = photo.filter(ImageFilter.GaussianBlur(1.0)).point(lambda level: 40 + level * 3 // 4)
    for name in ("photo.jpg", "photo.webp"):
        photo.save(shop / name, quality=75)
        assert read_paper(shop / name) == wanted


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_job_with_much_to_say_is_one_side_too(browser: Browser, shop: Path, paper: str) -> None:
    job = job_of(shop, "SW-122")
    text = job.read_text(encoding="utf-8")
    text = re.sub(r"(?m)^title: .*", f"title: {'A long title of a job ' * 8}", text)
    text = re.sub(r"(?m)^asked: .*", f"asked: {'Words and words. ' * 20}", text)
    more = "".join(f"  - chamfer: {{end: right, angle: 45, note: '{number}'}}\n" for number in range(11))
    text = text.replace("operations:\n", f"operations:\n{more}").replace("jaws: 3", "jaws: 4")
    job.write_text(text, encoding="utf-8")
    out = shop / "p.html"
    words = ("--paper", paper, "--jobs", str(shop / "jobs"), "--with", "customer")
    assert main(["paper", "SW-122", "-o", str(out), *words]) == 0
    document = printed(browser, out)
    assert len(document) == 1
    at(document, 200).save(shop / "scan.png")
    assert read_paper(shop / "scan.png") == without_line(job.read_bytes())


def test_what_does_not_fit_a_code_is_said(browser: Browser, shop: Path) -> None:
    job = job_of(shop, "SW-113")
    job.write_text(job.read_text(encoding="utf-8") + f"notes: [{'word ' * 500}]\n", encoding="utf-8")
    out = shop / "p.html"
    assert main(["paper", "SW-113", "-o", str(out), "--jobs", str(shop / "jobs")]) == 0
    document = printed(browser, out)
    assert len(document) == 1
    words = document[0].get_textpage().get_text_range()
    assert "The job file does not fit a code" in words
    assert "share SW-113" in words
