"""Times of cuts: worked figures, a spindle turned step by step, refusals."""

from __future__ import annotations

import math

import pytest

from generator.calc.operation_time import dial_wait, feed_time
from generator.errors import OutsideRange
from generator.si import mm, rev_per_min


def test_turning_200_mm():
    """200 ÷ (0.2 × 240) = 4.16667 min."""
    assert feed_time(200 * mm, 0.2 * mm, 240 * rev_per_min) / 60 == pytest.approx(4.16667, abs=5e-6)


def test_the_wait_for_a_line_is_on_average_half_the_time_between_lines():
    """A thread dial of 16 teeth and 8 lines on 8 threads an inch, stepped through evenly spread arrivals."""
    line, lead, n = 25.4 / 4, 25.4 / 8, 2.0
    between = line / (lead * n)
    arrivals = [(k + 0.5) / 1000 * between for k in range(1000)]
    assert dial_wait(line, lead, n) == pytest.approx(sum(between - at for at in arrivals) / 1000)


def test_nothing_takes_no_time():
    assert feed_time(0.0, 0.1 * mm, 1.0) == 0.0
    assert feed_time(0.1, 0.1 * mm, 1.0, 0) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: feed_time(-1.0, 0.1, 1.0),
        lambda: feed_time(1.0, 0.0, 1.0),
        lambda: feed_time(1.0, 0.1, 0.0),
        lambda: feed_time(1.0, 0.1, math.nan),
        lambda: feed_time(math.inf, 0.1, 1.0),
        lambda: feed_time(1.0, 0.1, 1.0, -1),
        lambda: dial_wait(0.1, 0.002, 0.0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
