"""Stock divided into cuts: what a machinist would check, on many random cases."""

from __future__ import annotations

import math
import random

import pytest

from generator.calc.depths import cuts, readings
from generator.calc.dials import Dial
from generator.errors import OutsideRange
from generator.si import mm, thou


def test_every_division_is_one_that_can_be_cut():
    """Sum is the stock, no roughing cut above the largest, whole graduations, fewest cuts, heavier first."""
    chance = random.Random(11)
    for _ in range(2000):
        graduation = chance.choice([1 * thou, 0.5 * thou, 0.01 * mm, 0.02 * mm, 0.05 * mm])
        stock = chance.uniform(0, 900) * graduation
        most = chance.randint(1, 80)
        largest = (most + chance.uniform(0, 0.99)) * graduation
        finish = chance.choice([5 * graduation, chance.uniform(0.001, 0.5) * mm])
        found = cuts(stock, largest, finish, graduation)
        assert math.fsum(found) == pytest.approx(stock, rel=1e-12)
        *rough, last = found
        counts = [cut / graduation for cut in rough]
        assert all(abs(count - round(count)) < 1e-6 for count in counts)
        assert all(cut <= largest * (1 + 1e-6) for cut in rough)
        assert rough == sorted(rough, reverse=True)
        assert not rough or max(counts) - min(counts) < 1.5
        if rough:
            assert finish - 1e-9 * mm <= last < finish + graduation * (1 + 1e-6)
            assert len(rough) == math.ceil(math.floor((stock - finish) / graduation + 1e-6) / most)
        else:
            assert stock < finish + graduation * (1 + 1e-6)


def test_without_a_finishing_cut_no_sliver_is_left_for_the_end():
    """What does not fill a graduation goes with the last cut, unless that would be above the largest."""
    assert cuts(0.2504, 0.100, 0.0, 0.001) == pytest.approx((0.084, 0.083, 0.0834))
    assert cuts(0.3004, 0.100, 0.0, 0.001) == pytest.approx((0.1, 0.1, 0.1, 0.0004))


def test_the_finish_stands_last_and_exactly_when_all_is_whole():
    found = cuts(0.250, 0.100, 0.010, 0.001)
    assert found == pytest.approx((0.080, 0.080, 0.080, 0.010))
    assert cuts(0.251, 0.100, 0.010, 0.001) == pytest.approx((0.081, 0.080, 0.080, 0.010))


def test_what_does_not_fill_a_graduation_goes_with_the_finish():
    assert cuts(0.2504, 0.100, 0.010, 0.001)[-1] == pytest.approx(0.0104)


def test_without_a_dial_the_roughing_cuts_are_equal():
    assert cuts(10 * mm, 3 * mm, 1 * mm) == pytest.approx((3 * mm, 3 * mm, 3 * mm, 1 * mm))
    assert cuts(10 * mm, 4 * mm, 1 * mm) == pytest.approx((3 * mm, 3 * mm, 3 * mm, 1 * mm))


def test_a_largest_cut_below_a_graduation_is_not_rounded_away():
    found = cuts(0.1 * mm, 0.005 * mm, 0.0, 0.02 * mm)
    assert len(found) == 20
    assert math.fsum(found) == pytest.approx(0.1 * mm)


@pytest.mark.parametrize("stock", [0.004, 0.010, 0.0105])
def test_little_stock_is_one_cut(stock):
    assert cuts(stock, 0.1, 0.010, 0.001) == pytest.approx((stock,))


def test_no_stock_no_cut():
    assert cuts(0.0, 0.1, 0.01, 0.001) == ()


def test_dial_readings_add_up():
    dial = Dial(0.02 * mm, 4 * mm, "diameter")
    depths = cuts(5 * mm, 1.5 * mm, 0.2 * mm, dial.graduation)
    after = [(turns * dial.turn + shown) / dial.per_travel for turns, shown in readings(depths, dial)]
    assert after[-1] == pytest.approx(5 * mm)
    assert [b - a for a, b in zip([0.0, *after], after, strict=False)] == pytest.approx(list(depths))


@pytest.mark.parametrize(
    "arguments",
    [
        (-1.0, 0.1, 0.01, 0.001),
        (1.0, 0.0, 0.01, 0.001),
        (1.0, 0.1, -0.01, 0.001),
        (1.0, 0.1, 0.01, 0.0),
        (1.0, 0.1, 0.01, math.nan),
        (math.inf, 0.1, 0.01, 0.001),
        (1.0, 1e-9, 0.0, None),
        (1e9, 0.1, 0.01, 0.001),
    ],
)
def test_what_cannot_be_is_refused(arguments):
    with pytest.raises(OutsideRange):
        cuts(*arguments)
    with pytest.raises(OutsideRange):
        readings((0.1, -0.1), Dial(0.001, 0.1, "radius"))
