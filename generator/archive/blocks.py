"""The archive in blocks of one year each, so that a new job leaves the blocks of other years as they were.

blocks_of      jobs in the order of the archive -> blocks of at most 250
sheaves_of     a block -> its jobs in small sheaves, as the rows of the table are loaded
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import Final

from generator.archive.listed import Listed, key_of_jobs

BLOCK: Final = 250  # jobs
SHEAF: Final = 25  # jobs whose rows are loaded together; a block holds a whole number of them


@dataclass(frozen=True)
class Block:
    """Jobs of one year, in the order of the archive; a job's number in it is its place, from 0.

    `name` is a safe file name on every system, ``2026-1``, and belongs to no other block.
    """

    name: str
    jobs: tuple[Listed, ...]

    @cached_property
    def key(self) -> str:
        """Another for every change of its jobs."""
        return key_of_jobs(self.jobs)


def blocks_of(jobs: Sequence[Listed]) -> list[Block]:
    """All jobs in blocks, in their order; `jobs` stand together by their year.

    >>> from generator.sheet.row import ArchiveRow
    >>> jobs = [Listed("", ArchiveRow(str(n), "", "2026" if n < 260 else "2025", ""), "") for n in range(270)]
    >>> [(block.name, len(block.jobs)) for block in blocks_of(jobs)]
    [('2026-1', 250), ('2026-2', 10), ('2025-1', 10)]
    """
    blocks = []
    for year, found in groupby(jobs, key=lambda job: job.row.year):
        members = tuple(found)
        for count, start in enumerate(range(0, len(members), BLOCK), 1):
            blocks.append(Block(f"{safe(year)}-{count}", members[start : start + BLOCK]))
    return blocks


def sheaves_of(block: Block) -> list[tuple[str, tuple[Listed, ...]]]:
    """The block's jobs in sheaves, each with a name of its own: ``2026-1.0``, ``2026-1.1``."""
    starts = range(0, len(block.jobs), SHEAF)
    return [(f"{block.name}.{start // SHEAF}", block.jobs[start : start + SHEAF]) for start in starts]


def safe(name: str) -> str:
    """A folder's name as a part of a file name; no two names become the same, whatever the letters' case.

    >>> safe("2026"), safe("old jobs"), safe("Old")
    ('2026', 'old_20_jobs', '_4f_ld')
    """
    return "".join(sign if sign in _SAFE else f"_{ord(sign):x}_" for sign in name)


_SAFE: Final = frozenset("abcdefghijklmnopqrstuvwxyz0123456789")
