"""Published figures as rows of text: one CSV file a table, headed by its source.

Lines that begin with ``#`` above the column names say where the figures come from.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

HEAD = "#"


@cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """All rows of ``generator/tables/<name>.csv``, each a mapping of column name to text.

    >>> table("metric_coarse")[0]["pitch"]
    '0.25'
    """
    return tuple(csv.DictReader(line for line in _lines(name) if not line.startswith(HEAD)))


@cache
def source(name: str) -> str:
    """The head of the table's file, in one line: where its figures come from."""
    return " ".join(line.lstrip(HEAD).strip() for line in _lines(name) if line.startswith(HEAD))


def _lines(name: str) -> list[str]:
    return (files("generator.tables") / f"{name}.csv").read_text(encoding="utf-8").splitlines()
