"""The words of a job that the search finds, as a machinist types them.

    fold          how a text is made plain before it is searched; the browser does the same (js/find_words.js)
    whole_words   the words of a text: ``2-8``, ``m30x3.5``, ``1/2``, ``2+1/4-8`` for 2 1/4-8, ``0.7854``
    words_of      all that a job is found by, of its page and its row

A typed word finds every word that begins with it, so a word is kept once more from every place within it
where somebody may begin to type: ``2-8un-2a`` also as ``8un-2a``, ``un-2a`` and ``2a``, ``ø63`` as ``63``.

Of a page are left out the workings, folded and in the appendix, and the points of its curves, since nobody
looks for the numbers put into a formula, and they are two words in five; what other jobs say, quoted under
"Learned before", which is found on their own sheets; the comparison with other lathes, where every sheet
names every lathe; and what the page does not show (scripts, templates, windows that open).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from html import unescape
from itertools import pairwise
from typing import Final
from unicodedata import normalize

from generator.sheet.row import ArchiveRow

WRITTEN: Final = "'"  # before a word that somebody wrote in the job file or the log; it is kept twice
LONGEST: Final = 32  # signs of a word that are kept, and of one that is typed

_SIGNS: Final = str.maketrans(
    {"×": "x", "⌀": "ø", "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "⁄": "/"}
)
_FRACTION: Final = re.compile("([\u00bc-\u00be\u2150-\u215e\u2189])")
_MARK: Final = re.compile(
    "[\u0300-\u036f\u0483-\u0489\u0591-\u05bd\u064b-\u065f\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20f0]"
)
_BRACKET: Final = re.compile(r"[()\[\]{}]")
_COMMA: Final = re.compile(r"(?<=[0-9]),(?=[0-9])")
_POINT: Final = re.compile(r"(?<![^\W_])(?<![.])\.(?=[0-9])")
_MIXED: Final = re.compile(r"(?<![^\W_])(?<![-./+])([0-9]{1,3})(?:-|\s+)(?=[0-9]+/[0-9])")
_WORD: Final = re.compile(r"[^\W_]+(?:[-./+][^\W_]+)*")

_BEGIN: Final = re.compile(
    r"(?<=[-+])"  # 2-8, 2+1/4-8
    r"|(?<=[/.])(?<![0-9][/.](?=[0-9]))"  # feed/speed, but not 3/16
    r"|(?<=[^\W\d_])(?=[0-9])"  # ø63, m30
    r"|(?<=[0-9])(?=[^\W\d_])(?!x[0-9])"  # 8un, but not the x of 40x14
)
_LETTER_ALONE: Final = re.compile(r"(?:^|[-+])([^\W_])(?=[-+])")

_UNSEEN: Final = (  # what it begins and ends with; none holds another of its kind
    ('<section class="appendix"', "</section>"),
    ('<section class="other-lathes"', "</section>"),
    ('<section class="lessons"', "</section>"),
    ('<div class="on-paper lessons-on-paper"', "</div>"),
    ('<section class="plot"', "</section>"),
    ('<details class="working"', "</details>"),
    ("<dialog", "</dialog>"),
    ("<script", "</script>"),
    ("<style", "</style>"),
    ("<template", "</template>"),
)
_WITHIN_A_WORD: Final = re.compile(r"</?(?:sub|sup|wbr)>")
_TAG: Final = re.compile(r"<[^>]*>")


def fold(text: str) -> str:
    """A text as it is compared: compatible signs made one, marks off, lower case, one sign for each dash.

    >>> fold("Größe Ø63 × 2½ − ﬁt")
    'große ø63 x 2 1/2 - fit'
    """
    if not text.isascii():
        text = normalize("NFKD", _FRACTION.sub(r" \1", text.translate(_SIGNS))).translate(_SIGNS)
        text = _MARK.sub("", text)
    return text.lower()


def whole_words(text: str) -> list[str]:
    """The words of a text, each once, as they are searched.

    Brackets go, a comma between figures is a decimal point, and a whole number with a fraction is one word.

    >>> whole_words("2-8 UN-2A, 2 1/4-8, Tr40x14(P7)LH; Ø63 .785 1,5 #10-32")
    ['2-8', 'un-2a', '2+1/4-8', 'tr40x14p7lh', 'ø63', '0.785', '1.5', '10-32']
    """
    plain = _POINT.sub("0.", _COMMA.sub(".", _BRACKET.sub("", fold(text))))
    found = (word[:LONGEST] for word in _WORD.findall(_MIXED.sub(r"\1+", plain)))
    return list(dict.fromkeys(found))


def words_of(body: str, row: ArchiveRow) -> tuple[str, ...]:
    """All that a job is found by, each word once, sorted.

    `body` is its page as this program made it, HTML in which every ``<`` and ``>`` of a text is escaped.

    >>> row = ArchiveRow("SW-1", "Pin", "2026", "done")
    >>> words_of("<p>Thread <b>2-8 UN-2A</b></p><details class=\\"working\\">0.5</details>", row)
    ("'1", "'pin", "'sw-1", '1', '2', '2-8', '2026', '2a', '8', 'a', 'done', 'pin', 'sw-1', 'thread', 'un-2a')
    """
    written = _all_words(" ; ".join(_written(row)))
    found = _all_words(" ; ".join((_seen(body), *_other(row))))
    found.update(written)
    found.update(WRITTEN + word for word in written)
    return tuple(sorted(found))


def _written(row: ArchiveRow) -> Iterator[str]:
    """What somebody wrote."""
    yield from (row.number, row.title, row.designation, row.material, row.lathe, row.customer, row.text)
    yield from row.learned


def _other(row: ArchiveRow) -> Iterator[str]:
    yield from (row.year, row.status, row.mate, *row.holding, *row.duty, *row.findings)
    yield from (f"{day.day} {day.what}" for day in row.days)
    yield from (time.work for time in row.times)
    if row.thread:
        yield from (row.thread.family, row.thread.size, row.thread.pitch, row.thread.hand, row.thread.side)


def _seen(body: str) -> str:
    """The text of a page without what is left out."""
    for begin, end in _UNSEEN:
        first, *others = body.split(begin)
        body = " ".join((first, *(part.partition(end)[2] for part in others)))
    return unescape(_TAG.sub(" ", _WITHIN_A_WORD.sub("", body)))


def _all_words(text: str) -> set[str]:
    found: set[str] = set()
    for piece in _pieces(text):
        found.update(_words_of_piece(piece))
    return found


def _pieces(text: str) -> set[str]:
    """What stands between spaces, each once, and the whole numbers with their fractions."""
    pieces = text.split()
    mixed = [f"{whole} {other}" for whole, other in pairwise(pieces) if "/" in other and whole.isdecimal()]
    return {*pieces, *mixed}


@lru_cache(maxsize=1 << 17)  # the same few thousand stand on every sheet
def _words_of_piece(piece: str) -> tuple[str, ...]:
    words: dict[str, None] = {}
    for word in whole_words(piece):
        words[word] = None
        words.update(dict.fromkeys(word[found.end() :] for found in _BEGIN.finditer(word)))
        words.update(dict.fromkeys(_LETTER_ALONE.findall(word)))
    return tuple(words)
