"""A large archive, made once."""

from __future__ import annotations

import pytest

from generator.archive.listed import Listed
from tests.archive.rows import made_jobs
from tests.archive.worked import worked


@pytest.fixture(scope="session")
def many_worked() -> list[Listed]:
    """Twenty thousand jobs with days and three times each."""
    return worked(made_jobs(20_000))
