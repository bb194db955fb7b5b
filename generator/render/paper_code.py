"""A whole job file as a QR code (ISO/IEC 18004), to hand a setup over on paper.

    paper_code    the bytes of a job file -> PaperCode, with no code where they do not fit
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import segno
from markupsafe import Markup

from generator.language.say import say

LEVELS: Final = ("m", "l")  # error correction; the stronger first, for a shop's paper gets oil on it
MOST_BYTES: Final = 2953  # that the largest code holds at level L (ISO/IEC 18004, version 40)
MODULE: Final = 0.5  # mm on paper: 3 dots at 150 dots an inch, the coarsest that scanners are set to
LEAST_SIDE: Final = 45.0  # mm
QUIET: Final = 4  # modules of white all round (ISO/IEC 18004)


@dataclass(frozen=True)
class PaperCode:
    """The code as an `<svg>` and its side in mm with the white round it; nothing of it where `over` is more
    than 0: so many bytes the file has too many."""

    svg: Markup
    side: float
    over: int = 0


def paper_code(data: bytes) -> PaperCode:
    """The code that holds these bytes, as plain text to any telephone.

    Examples
    --------
    >>> paper_code(b"job: SW-1").side
    45.0
    >>> paper_code(bytes(3000)).over
    47
    """
    for level in LEVELS:
        try:
            code = segno.make_qr(data, error=level, mode="byte")
        except segno.DataOverflowError:
            continue
        svg = code.svg_inline(
            border=QUIET, dark="#000", light="#fff", omitsize=True, svgclass=None, lineclass=None,
            title=say("QR code of the job file"),
        )
        return PaperCode(Markup(svg), max(LEAST_SIDE, MODULE * code.symbol_size(border=QUIET)[0]))
    return PaperCode(Markup(), 0.0, len(data) - MOST_BYTES)
