"""Read a thread designation as a machinist writes it: Unified inch (ASME B1.1) and ISO metric (ISO 965-1).

`parse_designation` tidies the signs, names the families that are not computed, and hands the text to
`designation_unified` or `designation_metric`. Nothing is guessed: what cannot be read is refused in a
sentence that says what would be accepted.
"""

from __future__ import annotations

import re

from generator.calc.designation_metric import parse_metric
from generator.calc.designation_unified import parse_unified
from generator.calc.thread_designation import Designation
from generator.errors import BadDesignation

__all__ = ["Designation", "parse_designation"]

LONGEST = 80
EXAMPLES = "write it like 1/2-13 UNC-2A, 2 1/4-8 UN-2A, #10-32 UNF-2A, M10-6g or M20x1.5-6g"

_SIGNS = str.maketrans(
    {
        "‐": "-",
        "‑": "-",
        "‒": "-",
        "–": "-",
        "—": "-",
        "−": "-",
        "×": "x",
        "✕": "x",
        "⁄": "/",
        "∕": "/",
        "”": '"',
        "″": '"',
        "“": '"',
        "\u00a0": " ",
        "\u2009": " ",
        "\u202f": " ",
        "\t": " ",
        "¼": " 1/4",
        "½": " 1/2",
        "¾": " 3/4",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
    }
)

# Families a repair shop meets that are not computed: how they are recognised, and their name in a sentence.
_OTHER_FAMILIES = (
    (r"ACME", "Acme threads (ASME B1.5, B1.8)"),
    (r"\bTR\s*\.?\d|TRAP", "ISO trapezoidal threads (Tr, ISO 2904)"),
    (r"NPT|NPS|NPSM|ANPT|NPTF", "American pipe threads (NPT, NPS; ASME B1.20.1)"),
    (r"BSPP?|BSPT|^G\s*\d|^R[PCS]?\s*\d", "Whitworth pipe threads (G, R; ISO 228-1, ISO 7-1)"),
    (r"BSW|BSF|WHIT|^W\s*\d", "Whitworth threads (BSW, BSF; BS 84)"),
    (r"\bBA\b", "British Association threads (BA; BS 93)"),
    (r"UNJ|^\s*MJ", "controlled-radius threads (UNJ, MJ; ASME B1.15, ISO 5855)"),
    (r"UNM", "Unified miniature threads (UNM; ASME B1.10)"),
    (r"BUTT|^S\s*\d", "buttress threads (ASME B1.9, DIN 513)"),
    (r"^RD|KNUCKLE", "knuckle threads (Rd; DIN 405)"),
    (
        r"(?<![A-Z])N(C|F|EF|S)?(?![A-Z])\s*-?\s*[1-5]",
        "American National threads (NC, NF), which Unified threads replaced,",
    ),
)


def parse_designation(text: str) -> Designation:
    """The thread that a designation names.

    Accepts any case, spaces, × or x, and any dash.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.

    Examples
    --------
    >>> parse_designation("2 1/4-8 UN-2A").nominal
    2.25
    >>> parse_designation("m20 × 1.5 – 5g6g – LH").hand
    'left'

    Source: ASME B1.1 sec. 6 (Unified designations); ISO 965-1 (metric designations).
    """
    written = " ".join(str(text).split())
    if not written:
        raise BadDesignation(f"no thread was written; {EXAMPLES}")
    if len(written) > LONGEST:
        raise BadDesignation(f'"{written[:LONGEST]}…" is too long for a thread designation; {EXAMPLES}')
    plain = " ".join(written.translate(_SIGNS).split())
    if re.search(r"\d\s*,\s*\d", plain, re.ASCII):
        raise BadDesignation(
            f'"{written}" has a decimal comma; write a decimal point: {plain.replace(",", ".")}'
        )
    upper = plain.upper()
    for pattern, name in _OTHER_FAMILIES:
        if re.search(pattern, upper, re.ASCII):
            raise BadDesignation(
                f'"{written}": {name} are not computed yet; Unified inch (UN) and ISO metric (M) threads are'
            )
    if re.match(r"M\s*[\d.]", upper, re.ASCII):
        return parse_metric(written, plain)
    if re.match(r"[#\d.]|NO\b", upper, re.ASCII):
        return parse_unified(written, upper)
    raise BadDesignation(f'"{written}" is not a thread designation known here; {EXAMPLES}')
