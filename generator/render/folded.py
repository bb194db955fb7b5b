"""Rows of data for a script, written once what many share; js/sheet_data.js unfolds them.

Run          rows of one kind: what all have in common, the names of the rest, and their values row by row
folded       rows -> runs
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from itertools import groupby
from typing import Any

Row = Mapping[str, Any]
Run = tuple[Row, list[str], list[list[Any]]]


def folded(rows: Iterable[Row], alike: Callable[[Row], Hashable]) -> list[Run]:
    """Neighbours that are `alike` as one run; what a row does not have is None there.

    >>> folded([{"at": 1, "in": "mm"}, {"at": 2, "in": "mm"}], lambda row: row["in"])
    [({'in': 'mm'}, ['at'], [[1], [2]])]
    """
    return [_run(list(run)) for _, run in groupby(rows, alike)]


def _run(rows: list[Row]) -> Run:
    names = list(dict.fromkeys(name for row in rows for name in row))
    first = rows[0]
    same = {name: first.get(name) for name in names if all(row.get(name) == first.get(name) for row in rows)}
    rest = [name for name in names if name not in same]
    return same, rest, [[row.get(name) for name in rest] for row in rows]
