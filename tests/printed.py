"""What stands on printed pages, read by pdfium: a reader in plain Python takes 15 times as long."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

import pypdfium2
from playwright.sync_api import Page
from pypdfium2 import raw

BROKEN = "\ufffe"  # stands for a hyphen at the end of a line
Box = tuple[float, float, float, float]  # left, bottom, right, top, in points


@dataclass(frozen=True)
class Side:
    """One printed page; lengths in points, from the lower left corner."""

    lines: list[str]
    boxes: list[Box]  # around the pieces of its text
    width: float
    height: float

    @cached_property
    def text(self) -> str:
        """Its words, with one blank between them, whatever stood there."""
        return flat(" ".join(self.lines))

    def lowest(self, foot: float, head: float = 0.0) -> float:
        """Where its text ends below, without the lines in the margins at the foot and the head."""
        return min(bottom for _, bottom, _, _ in self.boxes if foot < bottom < self.height - head)


def flat(text: str) -> str:
    """Text with one blank for all that is white."""
    return re.sub(r"\s+", " ", text).strip()


def squeezed(text: str) -> str:
    """Text without blanks and hyphens, which the lines of a page place anew."""
    return re.sub(r"[\s\-‐\u00ad]+", "", text)


def printed(page: Page, size: str | None = None, **options: bool) -> list[Side]:
    """What a printer gets of a page: on A4, Letter, or, without a size, on the browser's own."""
    return read_pdf(page.pdf(format=size, **options))


def printed_words(page: Page, size: str, **options: bool) -> str:
    """The words of all that a printer gets of a page."""
    return " ".join(side.text for side in printed(page, size, **options))


def read_pdf(pdf: bytes) -> list[Side]:
    """The pages of a PDF."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [_read(page) for page in document]


def pictures(pdf: bytes) -> list[int]:
    """How many pictures stand on each page of a PDF."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [sum(1 for _ in page.get_objects(filter=[raw.FPDF_PAGEOBJ_IMAGE])) for page in document]


def _read(page: pypdfium2.PdfPage) -> Side:
    found = page.get_textpage()
    lines = found.get_text_range().replace(BROKEN, "-\n").splitlines()
    boxes = [found.get_rect(number) for number in range(found.count_rects())]
    return Side(lines, boxes, *page.get_size())
