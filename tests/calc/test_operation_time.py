"""Times of cuts: worked figures, a spindle turned step by step, refusals."""

from __future__ import annotations

import math

import pytest

from generator.calc.drilling import point_length
from generator.calc.operation_time import dial_wait, drilling_time, facing_time, feed_time, threading_time
from generator.errors import OutsideRange
from generator.si import mm, rev_per_min


def test_turning_200_mm():
    """200 ÷ (0.2 × 240) = 4.16667 min."""
    assert feed_time(200 * mm, 0.2 * mm, 240 * rev_per_min) / 60 == pytest.approx(4.16667, abs=5e-6)


def test_threading_12_passes():
    """(56 ÷ (2 × 120) × 60 + 5 + 8) × 12 = 324 s."""
    assert threading_time(56 * mm, 2 * mm, 120 * rev_per_min, 12, 5.0, 8.0) == pytest.approx(324.0)


def test_a_faced_ring_takes_its_wall():
    n, feed = 160 * rev_per_min, 0.15 * mm
    assert facing_time(100 * mm, 60 * mm, feed, n) == pytest.approx(feed_time(20 * mm, feed, n))
    whole, inner = facing_time(100 * mm, 0, feed, n, 3), facing_time(60 * mm, 0, feed, n, 3)
    assert whole - inner == pytest.approx(facing_time(100 * mm, 60 * mm, feed, n, 3))


def test_drilling_by_counting_revolutions():
    """Turn by turn: the drill is through when its full diameter has come to the depth."""
    depth, feed, n = 40 * mm, 0.2 * mm, 5.0
    point = point_length(20 * mm)
    turns = math.ceil((depth + point) / feed - 1e-9)
    assert drilling_time(depth, point, feed, n) == pytest.approx(turns / n, abs=1 / n)
    assert drilling_time(depth, point, feed, n, 3, 7.0) == pytest.approx(
        drilling_time(depth, point, feed, n) + 21
    )


def test_the_wait_for_a_line_is_on_average_half_the_time_between_lines():
    """A thread dial of 16 teeth and 8 lines on 8 threads an inch, stepped through evenly spread arrivals."""
    line, lead, n = 25.4 / 4, 25.4 / 8, 2.0
    between = line / (lead * n)
    arrivals = [(k + 0.5) / 1000 * between for k in range(1000)]
    assert dial_wait(line, lead, n) == pytest.approx(sum(between - at for at in arrivals) / 1000)


def test_nothing_takes_no_time():
    assert feed_time(0.0, 0.1 * mm, 1.0) == 0.0
    assert feed_time(0.1, 0.1 * mm, 1.0, 0) == 0.0
    assert threading_time(0.05, 0.002, 2.0, 0, 5.0, 8.0) == 0.0
    assert facing_time(0.05, 0.05, 0.1 * mm, 1.0) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: feed_time(-1.0, 0.1, 1.0),
        lambda: feed_time(1.0, 0.0, 1.0),
        lambda: feed_time(1.0, 0.1, 0.0),
        lambda: feed_time(1.0, 0.1, math.nan),
        lambda: feed_time(math.inf, 0.1, 1.0),
        lambda: feed_time(1.0, 0.1, 1.0, -1),
        lambda: facing_time(0.0, 0.0, 0.1, 1.0),
        lambda: facing_time(0.1, 0.2, 0.1, 1.0),
        lambda: drilling_time(-0.1, 0.0, 0.1, 1.0),
        lambda: drilling_time(0.1, 0.0, 0.1, 1.0, 1, -1.0),
        lambda: drilling_time(0.1, 0.0, 0.1, 1.0, -1, 1.0),
        lambda: threading_time(0.1, 0.002, 1.0, 3, -1.0, 0.0),
        lambda: threading_time(0.1, 0.0, 1.0, 3, 1.0, 0.0),
        lambda: dial_wait(0.1, 0.002, 0.0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
