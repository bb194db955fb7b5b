"""What goes to whoever makes the sheets, and what comes back.

    Making       what every job of one jobs folder is made with
    Done         a job that was made
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.archive.figures import FigureName
from generator.job.learned import Lessons, Likeness
from generator.site.entry import Entry


@dataclass(frozen=True)
class Making:
    """What every job of one jobs folder is made with.

    `shop` is the folder of the shop's files, `shop_key` one word for what they held when the build began.
    `address` is where the site will stand on the web, "" where it will not; `top` the top folder of pages.
    `language` is the one that the whole site is in.
    """

    shop: Path
    shop_key: str
    address: str
    top: str
    lessons: Lessons
    language: str


@dataclass(frozen=True)
class Done:
    """A job that was made: its page without the frame, what it brings to the site's lists, its pictures.

    `likeness` is what makes another job like it; `words` what it is searched by, a line each.
    """

    entry: Entry
    body: str
    figures: tuple[FigureName, ...]
    pictures: Mapping[str, bytes]
    likeness: Likeness
    words: str = ""
