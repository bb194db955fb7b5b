"""Cutting times against print: Elementary Technical Mathematics, 1.8; the arithmetic of feed and speed."""

from __future__ import annotations

import pytest

from generator.calc.operation_time import feed_time
from generator.si import inch, rev_per_min


def test_exercise_53():
    """9 9/64 in at 3/128 in a revolution and 45 rev/min take 8 2/3 minutes."""
    assert feed_time((9 + 9 / 64) * inch, 3 / 128 * inch, 45 * rev_per_min) / 60 == pytest.approx(26 / 3)
