"""Published figures as rows of text: one CSV file a table, headed by its source.

Lines that begin with ``#`` above the column names say where the figures come from.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Final

HEAD = "#"

HERE = "generator.tables"
THREADS = "generator.threads"
WORDED: Final[Mapping[tuple[str, str], tuple[str, ...]]] = {  # what is shown of the tables
    ("cutting_depths", HERE): ("source",),
    ("cutting_feeds", HERE): ("source", "note"),
    ("cutting_speeds", HERE): ("source", "note"),
    ("cutting_speed_shares", HERE): ("source", "note"),
    ("materials", HERE): ("source", "speed_source"),
    ("relief", HERE): ("doubt",),
    ("relief_internal", HERE): ("doubt",),
    ("run_out", HERE): ("doubt",),
    ("tapers", HERE): ("source",),
    ("differences", THREADS): ("source", "reason"),
    ("old_metric_forms", f"{THREADS}.families.old_metric"): ("name",),
}


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


def worded() -> Iterator[str]:
    """Every text of the tables that a sheet or a page shows, for the catalogs of the languages.

    >>> "by hand" in worded()
    True
    """
    for (name, package), columns in WORDED.items():
        yield from (row[column] for row in table(name, package) for column in columns if row[column])


def _lines(name: str, package: str) -> list[str]:
    return (files(package) / f"{name}.csv").read_text(encoding="utf-8").splitlines()
