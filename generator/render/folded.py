"""Rows of data for a script, with what neighbours share said once; js/sheet_data.js unfolds them.

folded       rows -> runs of rows
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from itertools import groupby
from typing import Any

Row = Mapping[str, Any]


def folded(rows: Iterable[Row], alike: Callable[[Row], Hashable]) -> list[tuple[Row, list[Row]]]:
    """Neighbours that are `alike`, as what all of them have in common, and of each what is left.

    >>> folded([{"at": 1, "in": "mm"}, {"at": 2, "in": "mm"}], lambda row: row["in"])
    [({'in': 'mm'}, [{'at': 1}, {'at': 2}])]
    """
    return [_run(list(run)) for _, run in groupby(rows, alike)]


def _run(rows: list[Row]) -> tuple[Row, list[Row]]:
    first = rows[0]
    if len(rows) == 1:
        return {}, rows
    same = {key: first[key] for key in first if all(key in row and row[key] == first[key] for row in rows)}
    return same, [{key: value for key, value in row.items() if key not in same} for row in rows]
