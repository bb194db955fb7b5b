"""What a reader sees of a page: its texts, and what of them stands outside of the marks of `en-XA`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from html.parser import HTMLParser
from typing import Final

from generator.language.fragments import INLINE, READ
from generator.language.spoken import MARKS

APART: Final = frozenset({"small", "br"})  # within a sentence, and still on a line of its own
SILENT: Final = frozenset({"script", "style", "noscript"})
BLANKS: Final = re.compile(r"\s+")


class Texts(HTMLParser):
    """Gathers the texts of a page: what stands between two blocks is one, and each attribute that is read."""

    def __init__(self, silent: frozenset[str] = SILENT) -> None:
        super().__init__()
        self._leave_out = silent
        self.texts: list[str] = []
        self._run: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element begins; a block ends the text before it."""
        self._silent += tag in self._leave_out
        if tag in APART:
            self._run.append(" ")
        if tag not in INLINE:
            self.ended()
        if not self._silent:
            self.texts += [value for name, value in attrs if name in READ and value]

    def handle_endtag(self, tag: str) -> None:
        """An element ends, and with a block its text."""
        self._silent -= tag in self._leave_out
        if tag in APART:
            self._run.append(" ")
        if tag not in INLINE:
            self.ended()

    def handle_data(self, data: str) -> None:
        """A piece of text."""
        if not self._silent:
            self._run.append(data)

    def ended(self) -> None:
        """The text up to here is whole."""
        text = BLANKS.sub(" ", "".join(self._run)).strip()
        self.texts += [text] if text else []
        self._run = []


def texts_of(page: str, drawings: bool = True) -> list[str]:
    """Every text of a page, those of its drawings too unless said otherwise."""
    parser = Texts(SILENT if drawings else SILENT | {"svg"})
    parser.feed(page)
    parser.close()
    parser.ended()
    return parser.texts


def outside_of_marks(texts: Iterable[str]) -> Iterator[str]:
    """The pieces of a page's texts that were not said; one that is said may go on over several lines."""
    depth = 0
    for text in texts:
        piece = ""
        for sign in text:
            if sign == MARKS[0]:
                depth += 1
            elif sign == MARKS[1]:
                depth -= 1
            elif not depth:
                piece += sign
                continue
            if piece.strip():
                yield piece.strip()
            piece = ""
        if piece.strip():
            yield piece.strip()


def without_marks(text: str) -> str:
    """A text as it is in English, but for the decimal signs."""
    return text.replace(MARKS[0], "").replace(MARKS[1], "")
