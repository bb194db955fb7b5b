"""Designations as text, tidied: signs made plain, the side and the hand taken out where words say them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.threads.designation import Hand, Side

LONGEST = 80
EXAMPLES = later("write it like 1/2-13 UNC-2A, 2 1/4-8 UN-2A, #10-32 UNF-2A, M10-6g or M20x1.5-6g")

_SIGNS = str.maketrans(
    {
        "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "−": "-",
        "×": "x", "✕": "x", "⁄": "/", "∕": "/", "”": '"', "″": '"', "“": '"',
        "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\t": " ",
        "¼": " 1/4", "½": " 1/2", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
        "°": " deg ", "_": " ",
    }
)
# Ways of writing that say nothing else in any family: what each is, and what stands for it.
_WAYS = tuple((re.compile(pattern, re.ASCII | re.IGNORECASE), plain) for pattern, plain in (
    (r"(?<![\d.])(\d+),(\d+)(?![\d.])", r"\1.\2"),  # ISO writes its own designations with a decimal comma
    (r"[,;]", " "),
    (r"(?<=\d)\.(?=\d{1,2}/\d)", " "),  # 1.1/4
    (r"(?<![A-Z])([A-Z])\.([A-Z])\.?(?:([A-Z])\.?)?(?:([A-Z])\.?)?(?![A-Z])", r"\1\2\3\4"),  # B.S.W.
    (r"(?<![A-Z])N[OR]\b\.?\s*(?=\d)", "#"),
    (r"\bCLASS\b|\bCL\b\.?(?=\s*\d)", " "),
))
_SIDES: tuple[tuple[str, Side], ...] = (
    (r"\bINTERNAL\b|\bINT\b\.?|\bFEMALE\b|\bNUT\b|\bINSIDE\b", "internal"),
    (r"\bEXTERNAL\b|\bEXT\b\.?|\bMALE\b|\bBOLT\b|\bSCREW\b|\bOUTSIDE\b", "external"),
)
_LEFT = r"\bLEFT[\s-]*HAND(ED)?\b|\bL\.\s*H\.|(?<![A-Z])LH(?![A-Z])|\bLEFT\b"
_RIGHT = r"\bRIGHT[\s-]*HAND(ED)?\b|\bR\.\s*H\.|(?<![A-Z])RH(?![A-Z])|\bRIGHT\b"
_COUNTS = {
    "ONE": 1, "SINGLE": 1, "TWO": 2, "DOUBLE": 2, "THREE": 3, "TRIPLE": 3, "FOUR": 4, "QUADRUPLE": 4,
    "FIVE": 5, "SIX": 6, "EIGHT": 8,
}
_STARTS = re.compile(r"\(?\s*(?P<count>\d{1,2}|[A-Z]+)[\s-]*STARTS?\s*\)?", re.ASCII)


@dataclass(frozen=True)
class Written:
    """A designation as it was written, and the same tidied.

    `plain` has plain signs and single spaces, case as written; `upper` is `plain` in capitals. `side` is what
    a word (internal, nut, male …) or the job file beside it says, None where neither does; that word is
    already taken out of `plain`.
    """

    written: str
    plain: str
    side: Side | None = None

    @property
    def upper(self) -> str:
        """The tidied text in capitals."""
        return self.plain.upper()


def tidy(text: str, side: Side | None = None) -> Written:
    """The text with plain signs; `side` is what stands beside the designation.

    Raises
    ------
    BadDesignation
        For nothing, too much, or words that say both sides.

    Examples
    --------
    >>> tidy("m20 × 1.5 – 6H nut").side
    'internal'
    >>> tidy("M20x1,5, L.H.").plain, tidy("1.1/4 B.S.W.").plain, tidy("No. 10-32 UNF class 2A").plain
    ('M20x1.5 LH', '1 1/4 BSW', '#10-32 UNF 2A')
    """
    written = " ".join(str(text).split())
    if not written:
        raise BadDesignation(say("no thread was written; {examples}", examples=EXAMPLES))
    if len(written) > LONGEST:
        raise BadDesignation(
            say(
                '"{written}…" is too long for a thread designation; {examples}',
                written=written[:LONGEST],
                examples=EXAMPLES,
            )
        )
    plain = written.translate(_SIGNS)
    for way, meant in _WAYS:
        plain = way.sub(meant, plain)
    plain, said = " ".join(plain.split()), side
    for pattern, of in _SIDES:
        without = re.sub(pattern, " ", plain, flags=re.IGNORECASE)
        if without == plain:
            continue
        if said not in (None, of):
            raise BadDesignation(
                say('"{written}" is said to be internal and external at once; write one', written=written)
            )
        plain, said = " ".join(re.sub(r"\(\s*\)", " ", without).split()).strip(" -"), of
    return Written(written, plain, said)


def take_hand(text: Written, upper: str) -> tuple[str, Hand]:
    """`upper` without its words for the hand, and the hand; right where none is written.

    Raises
    ------
    BadDesignation
        When it says both.

    Examples
    --------
    >>> take_hand(tidy("Tr 60x18(P9)LH-7e"), "TR 60X18(P9)LH-7E")
    ('TR 60X18(P9) -7E', 'left')
    """
    without_left = re.sub(_LEFT, " ", upper)
    without = re.sub(_RIGHT, " ", without_left)
    if without_left != upper and without != without_left:
        raise BadDesignation(say('"{written}" says two things at once; write one hand', written=text.written))
    return without.rstrip(" -"), "left" if without_left != upper else "right"


def take_starts(text: Written, upper: str) -> tuple[str, int | None]:
    """`upper` without its words for the number of starts, and that number; None where none is written.

    >>> take_starts(tidy("1-5 ACME (2 starts)"), "1-5 ACME (2 STARTS)")
    ('1-5 ACME ', 2)
    """
    found = _STARTS.search(upper)
    if found is None:
        return upper, None
    count = _COUNTS.get(found["count"]) or (int(found["count"]) if found["count"].isdecimal() else 0)
    if not count:
        raise BadDesignation(
            say(
                '"{written}": {found} is not a number of starts',
                written=text.written,
                found=found["count"].lower(),
            )
        )
    return upper[: found.start()] + " " * (found.end() < len(upper)) + upper[found.end() :], count


def mixed_number(text: str) -> Fraction | None:
    """A whole number, decimal, fraction or mixed number (``2``, ``.5``, ``2 1/4``); None if it is none.

    >>> mixed_number("2 1/4"), mixed_number("2-1/4"), mixed_number("1/0")
    (Fraction(9, 4), Fraction(9, 4), None)
    """
    found = re.fullmatch(
        r"(?:(?P<whole>\d{1,4})(?:\s+|\s*-\s*))?(?P<top>\d{1,3})\s*/\s*(?P<bottom>\d{1,3})|(?P<plain>\d{0,4}\.\d{1,8}|\d{1,4}\.?)",
        text.strip(),
        re.ASCII,
    )
    if found is None:
        return None
    if found["plain"]:
        return Fraction(found["plain"].rstrip(".") or "0")
    top, bottom = int(found["top"]), int(found["bottom"])
    if bottom == 0 or top == 0 or top >= bottom:
        return None
    return Fraction(int(found["whole"] or 0)) + Fraction(top, bottom)


def number_text(value: Fraction | float) -> str:
    """A number as it stands in a designation: 13, 4.5, 0.0625.

    >>> number_text(Fraction(9, 2))
    '4.5'
    """
    return f"{float(value):.8g}"
