"""American words of the trade turned into the British ones, so that a sheet never mixes them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Final

WORDS: Final[Mapping[str, str]] = {  # common practice in British shops, no source; the longer first
    "steady rests": "fixed steadies",
    "steady rest": "fixed steady",
    "follow rests": "travelling steadies",
    "follow rest": "travelling steady",
    "compound rest": "top slide",
    "lathe dog": "lathe carrier",
    "dogs": "carriers",
    "dog": "carrier",
    "centerline": "centreline",
    "centers": "centres",
    "centered": "centred",
    "centering": "centring",
    "center": "centre",
    "aluminum": "aluminium",
    "gray": "grey",
    "gages": "gauges",
    "gage": "gauge",
    "colors": "colours",
    "colored": "coloured",
    "color": "colour",
    "millimeters": "millimetres",
    "millimeter": "millimetre",
    "meters": "metres",
    "meter": "metre",
    "set screws": "grub screws",
    "set screw": "grub screw",
    "catalog": "catalogue",
    "toward": "towards",
    "change gears": "change wheels",
    "change gear": "change wheel",
    "bushings": "bushes",
    "bushing": "bush",
    "harbor": "harbour",
    "neighbors": "neighbours",
    "neighbor": "neighbour",
    "traveled": "travelled",
    "traveling": "travelling",
    "swiveled": "swivelled",
    "labeled": "labelled",
    "judgment": "judgement",
    "molds": "moulds",
    "mold": "mould",
    "fiber": "fibre",
    "sulfur": "sulphur",
}
_COMPOUND: Final = r"compound(?!\s+(?:gear|train|wheel))"  # gears are compounded in both countries
_ANY: Final = re.compile(
    rf"(?<![\w{{.-])(?:(?P<slide>{_COMPOUND})|(?P<word>{'|'.join(WORDS)}))(?![\w}}])", re.IGNORECASE
)


@lru_cache(maxsize=1 << 14)  # a sheet says the same texts for every lathe, and the next job says them again
def in_uk_words(text: str) -> str:
    """A text of this program with the words of a British shop; names in braces stay as they are.

    >>> in_uk_words("Center drill, then the steady rest on {center}; compound at 29.5°, compound gears")
    'Centre drill, then the fixed steady on {center}; top slide at 29.5°, compound gears'
    """
    return _ANY.sub(_exchanged, text)


def _exchanged(found: re.Match[str]) -> str:
    word = found[0]
    british = "top slide" if found["slide"] else WORDS[word.lower()]
    if word.isupper() and len(word) > 1:
        return british.upper()
    return british[:1].upper() + british[1:] if word[:1].isupper() else british
