"""Words in a style: the margins of printed pages, and heads that a narrow screen shows beside their cells.

css_string      any text as a CSS string that can end neither itself nor a style element
css_numbers     the words around the number of a page
css_set         a custom property of the whole page
"""

from __future__ import annotations

import re
from typing import Final

LONGEST_RUNNING_TEXT: Final = 48  # characters that fit half a page's width in the margin
OF_PAGES: Final = "--of-pages"  # the document says in it what stands behind the number of a page
_COUNTED: Final = re.compile(r"(\{page\}|\{all\})")


def css_string(text: str) -> str:
    r"""Any text as a CSS string, by CSS Syntax Level 3: all but letters, digits and spaces escaped by number.

    Line ends become spaces and long text is cut, for it has to fit one line of a page's margin.

    >>> css_string('a"\\</style>')
    '"a\\22 \\5c \\3c \\2f style\\3e "'
    """
    line = " ".join(str(text).split())
    if len(line) > LONGEST_RUNNING_TEXT:
        line = line[: LONGEST_RUNNING_TEXT - 1] + "…"
    return _quoted(line)


def _quoted(line: str) -> str:
    signs = (sign if sign == " " or sign.isalnum() else f"\\{ord(sign):x} " for sign in line)
    return f'"{"".join(signs)}"'


def css_numbers(words: str) -> tuple[str, str]:
    """What stands before the `{number}` of a page, and behind it, with `{page}` and `{all}` counted.

    >>> css_numbers("Page {number} of {all}")
    ('"Page "', '" of " counter(pages)')
    """
    counters = {"{page}": "counter(page)", "{all}": "counter(pages)"}
    before, _, behind = words.partition("{number}")
    parts = (part for part in _COUNTED.split(behind) if part)
    return _quoted(before), " ".join(counters.get(part) or _quoted(part) for part in parts)


def css_set(name: str, value: str) -> str:
    """A rule that sets a custom property of the whole page.

    >>> css_set("--head", '"Number"')
    ':root { --head: "Number"; }'
    """
    return f":root {{ {name}: {value}; }}"
