"""The number of a new job: the next after the newest, in the shop's own pattern.

    next_number    of the numbers of the newest jobs, the next one that no folder has
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from generator.pack.taken import free_number


def next_number(newest: Sequence[str], folders: Collection[str], year: int) -> str:
    """The number after the newest.

    Parameters
    ----------
    newest : numbers of the jobs that came in last, the last of all at the end
    folders : names of all job folders
    year : the year of the new job; a number that begins with an earlier year begins anew with this one

    Examples
    --------
    >>> next_number(["SW-101", "SW-123", "SW-122"], [], 2026), next_number(["2026-009"], [], 2026)
    ('SW-124', '2026-010')
    >>> next_number(["2025-131"], [], 2026), next_number([], [], 2026)
    ('2026-001', '2026-001')
    >>> next_number(["2026-9"], ["2026-10-pin"], 2026)
    '2026-11'
    """
    parts = [re.fullmatch(r"(.*?)([0-9]+)[A-Z]*", one) for one in newest]
    known = [(one[1], one[2]) for one in parts if one]
    if not known:
        known = [(f"{year}-", "000")]
    before, digits = known[-1]
    last = max(int(number) for prefix, number in known if prefix == before)
    if (of := re.fullmatch(r"((?:19|20)[0-9]{2})\W+", before)) and int(of[1]) < year:
        before, last = before.replace(of[1], str(year)), 0
    while free_number(tried := f"{before}{last + 1:0{len(digits)}}", folders) != tried:
        last += 1
    return tried
