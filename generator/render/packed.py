"""A page that is too heavy for a slow line, with its longest parts packed; js/unpack.js puts them back.

HEAVIEST     bytes of a body that still makes a light page
packed       a body with marks around its parts -> the body, as light as it has to be
unmarked     the body whole, however heavy
unpacked     a body that was packed -> as it was, for the search

Parts are marked in sheet/page.html, ``<!--part NAME-->`` to ``<!--/part-->``; no text of a job can hold such
a mark, for all of it is escaped. What is packed is a zlib stream (RFC 1950), which browsers read themselves.
"""

from __future__ import annotations

import re
import zlib
from base64 import b64decode, b64encode
from typing import Final

from jinja2 import Environment

from generator.language.say import later

HEAVIEST: Final = 230_000  # with the frame of the theme, some 15 kB, the page stays under 250 kB
PARTS: Final = {  # in the order in which they are packed, and what the reader misses without script
    "working": later("working of the figures"),
    "log": later("log"),
    "sections": later("figures of the holding"),
    "plots": later("plots"),
    "other": later("comparison with the other lathes"),
    "route": later("route"),
    "order": later("order of work"),
}
_PART: Final = re.compile(r"<!--part (\w+)-->(.*?)<!--/part-->", re.DOTALL)
_PACKED: Final = re.compile(  # as sheet/packed.html has it
    r'<div class="packed">\n<p[^\n]*\n<script type="application/zlib">([A-Za-z0-9+/=]*)</script>\n</div>'
)


def packed(body: str, env: Environment, heaviest: int = HEAVIEST) -> str:
    """The body without its marks; parts are packed, one after the other, until it is no heavier (bytes)."""
    parts = {found[1]: found[2] for found in _PART.finditer(body)}
    weight = len(unmarked(body).encode())
    instead: dict[str, str] = {}
    for name, words in PARTS.items():
        if weight <= heaviest:
            break
        if not parts.get(name, "").strip():
            continue
        data = b64encode(zlib.compress(parts[name].encode(), 9)).decode()
        instead[name] = env.get_template("sheet/packed.html").render(words=words, data=data)
        weight += len(instead[name].encode()) - len(parts[name].encode())
    return _PART.sub(lambda found: instead.get(found[1], found[2]), body)


def unpacked(body: str) -> str:
    """The body with its packed parts in their places, as js/unpack.js shows it."""
    return _PACKED.sub(lambda found: zlib.decompress(b64decode(found[1])).decode(), body)


def unmarked(body: str) -> str:
    """The body without its marks, nothing packed."""
    return _PART.sub(r"\2", body)
