"""Everything in the site that lists the jobs: data of the archive page, index of the search, lists."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from generator.archive.alike import alike_contents
from generator.archive.blocks import blocks_of
from generator.archive.calendar_pages import calendar_pages
from generator.archive.columns import columns_contents, orders_contents, rows_contents
from generator.archive.listed import Content, Listed
from generator.archive.lists import list_pages
from generator.site.kept import Paged
from generator.site.word_index import WordIndex


def archive_contents(
    jobs: Sequence[Listed], pages: Sequence[Paged], words: WordIndex
) -> Iterator[Content]:
    """The files; `jobs` are in the order of the archive, `pages` what is kept of each.

    Raises
    ------
    Damaged
        When the index has to be made anew.
    """
    blocks, rest = blocks_of(jobs), iter(pages)
    words.begin([(block, list(islice(rest, len(block.jobs)))) for block in blocks])  # made meanwhile
    yield from columns_contents(blocks)
    yield from orders_contents(blocks)
    yield from rows_contents(blocks)
    yield from calendar_pages(jobs)
    yield from list_pages(jobs)
    yield from alike_contents(jobs)
    yield from words.contents()
