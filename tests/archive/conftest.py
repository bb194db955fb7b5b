"""A large archive, made once."""

from __future__ import annotations

import pytest

from generator.archive.listed import Listed
from tests.archive.rows import made_jobs
from tests.archive.worked import worked


@pytest.fixture(scope="session")
def many_jobs() -> list[Listed]:
    """Twenty thousand jobs of forty years."""
    return made_jobs(20_000)


@pytest.fixture(scope="session")
def many_worked(many_jobs: list[Listed]) -> list[Listed]:
    """The same with days and three times each."""
    return worked(many_jobs)
