"""The frame of the theme around the pages that mkdocs does not know."""

from __future__ import annotations

import html
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from generator.language.say import say
from generator.site.program_key import word

TITLE: Final = "The title of the page stands here"  # looked for, and so not said
BODY: Final = "<!-- the page stands here -->"  # also in the templates of the frames


@dataclass(frozen=True)
class Frame:
    """What the theme has before a page and after it; `TITLE` stands in both for the title of the page.

    Examples
    --------
    >>> Frame(f"<title>{TITLE}</title>", "</html>").around("A & B", b"body")
    (b'<title>A &amp; B</title>body</html>', 24)
    """

    before: str
    after: str

    @classmethod
    def of(cls, page: str) -> Frame:
        """The frame that the theme has put around nothing.

        Raises
        ------
        ValueError
            When the place of the page is not in it.
        """
        before, found, after = page.partition(BODY)
        if not found:
            raise ValueError(say("the template of the frame must hold {comment!r} once", comment=BODY))
        return cls(before, after)

    @cached_property
    def word(self) -> str:
        """Another one for any other frame."""
        return word(self.before, self.after)

    def around(self, title: str, body: bytes) -> tuple[bytes, int]:
        """The whole page, and where in it the body starts."""
        heading = html.escape(title)
        head, tail = (part.replace(TITLE, heading).encode("utf-8") for part in (self.before, self.after))
        return head + body + tail, len(head)
