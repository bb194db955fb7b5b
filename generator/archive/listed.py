"""A job as the pages of the archive see it, and a page as they hand it over.

    Listed     a job: where its sheet is, what is known of it
    Content    a file of the site that is made only where its key is another than before
    key_of     a key, another for any other parts
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from hashlib import blake2b

from generator.sheet.row import ArchiveRow


@dataclass(frozen=True)
class Listed:
    """A job in the archive.

    `link` is the address of its sheet from the top of the site, ready for an attribute
    (``sheets/2026/SW-113-bollard-spindle.html``). `word` is another for any other link or row.
    """

    link: str
    row: ArchiveRow
    word: str


@dataclass(frozen=True)
class Content:
    """A file of the site, made by `make` from nothing but what `key` stands for.

    `name` is its address from the top of the site. One with a `title` is the body of a page, two folders
    deep, that gets the frame of the theme; another is the file itself.
    """

    name: str
    key: str
    make: Callable[[], str]
    title: str = ""


def key_of(*parts: str) -> str:
    """A key for these parts in this order, another for any others."""
    return blake2b("\0".join(parts).encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()


def key_of_jobs(jobs: Iterable[Listed]) -> str:
    """A key for these jobs in this order, another for every change of one."""
    return key_of(*(job.word for job in jobs))
