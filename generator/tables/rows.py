"""Published figures as rows of text: one CSV file a table, headed by its source.

Lines that begin with ``#`` above the column names say where the figures come from.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

HEAD = "#"


HERE = "generator.tables"


@cache
def table(name: str, package: str = HERE) -> tuple[dict[str, str], ...]:
    """All rows of ``<name>.csv`` in the folder of a package, each a mapping of column name to text.

    >>> table("metric_coarse", "generator.threads.families.metric")[0]["pitch"]
    '0.25'
    """
    return tuple(csv.DictReader(line for line in _lines(name, package) if not line.startswith(HEAD)))


@cache
def source(name: str, package: str = HERE) -> str:
    """The head of the table's file, in one line: where its figures come from."""
    return " ".join(line.lstrip(HEAD).strip() for line in _lines(name, package) if line.startswith(HEAD))


def _lines(name: str, package: str) -> list[str]:
    return (files(package) / f"{name}.csv").read_text(encoding="utf-8").splitlines()
