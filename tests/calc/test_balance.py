"""Balance points against numerical integration and the handbook's frustum."""

from __future__ import annotations

import random

import pytest
from scipy.integrate import quad

from generator.calc.balance import Round, balance_point, centroid
from generator.errors import OutsideRange


def test_a_cone_balances_a_quarter_from_its_base():
    """Solid cone: height ÷ 4 (Machinery's Handbook); a frustum with almost nothing at its far end."""
    assert centroid(1.0, 1.0, 1e-9) == pytest.approx(0.25)
    assert centroid(1.0, 1e-9, 1.0) == pytest.approx(0.75)


def integrated(rounds):
    """Balance point by integrating the sections along x."""

    def section(one, x):
        od = one.od_start + (one.od_end - one.od_start) * (x - one.start) / (one.end - one.start)
        return od**2 - one.bore**2

    weights = [quad(lambda x, one=one: section(one, x), one.start, one.end)[0] for one in rounds]
    moments = [quad(lambda x, one=one: x * section(one, x), one.start, one.end)[0] for one in rounds]
    return sum(moments) / sum(weights)


@pytest.mark.parametrize("seed", range(20))
def test_stepped_hollow_tapered_work_balances_where_the_integral_says(seed):
    draw = random.Random(seed)
    rounds, x = [], -draw.uniform(0, 0.1)
    for _ in range(draw.randint(1, 6)):
        end = x + draw.uniform(0.01, 0.8)
        first, last = (draw.uniform(0.02, 0.2) for _ in range(2))
        rounds.append(Round(x, end, first, last, draw.choice([0.0, 0.9 * min(first, last)])))
        x = end
    assert balance_point(rounds) == pytest.approx(integrated(rounds), rel=1e-9, abs=1e-12)


def test_two_equal_bars_balance_in_the_middle_of_both():
    assert balance_point([Round(0, 1, 0.1, 0.1, 0.05), Round(1, 2, 0.1, 0.1, 0.05)]) == pytest.approx(1.0)


@pytest.mark.parametrize(
    "refused",
    [lambda: balance_point([]), lambda: centroid(0, 1, 1), lambda: centroid(1, 0, 1),
     lambda: centroid(1, 1, -1),
     lambda: balance_point([Round(0, 1, 0.1, 0.1, 0.1)])],
)
def test_what_is_no_work_is_refused(refused):
    with pytest.raises(OutsideRange):
        refused()
