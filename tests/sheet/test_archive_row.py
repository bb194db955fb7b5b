"""The archive's row of a job: what its thread is called where jobs are listed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.job.reading import ReadJob
from generator.job.shop import Shop
from generator.sheet.archive_row import archive_row


@pytest.mark.parametrize(
    ("designation", "size"),
    [
        ("2 1/4-8 UN-2A", "2 1/4 in"), ("M56x2-6g", "56 mm"), ("1 1/2-11.5 NPT", "1 1/2 in"),
        ("G 1 1/2 A", "G 1 1/2"), ("R 3/4", "R 3/4"), ("0 BA", "0 BA"), ("Pg 13.5", "Pg 13.5"),
    ],
)
def test_a_size_that_is_a_name_is_listed_as_one(
    read_of: Callable[..., ReadJob], shop: Shop, designation: str, size: str
) -> None:
    """G 1 1/2, R 3/4, 0 BA and Pg 13.5 are names: they measure 47.8, 26.4, 6.0 and 20.4 mm."""
    changes = {"2 1/4-8 UN-2A": designation, "2 1/2, tool": "2 1/2 in, tool"}
    row = archive_row(read_of(changes), shop.lathes["long-bed"], True, ())
    assert row.thread is not None
    assert row.thread.size == size
