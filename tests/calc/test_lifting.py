"""The NIOSH equation against its printed tables, and slings against printed factors and statics."""

from __future__ import annotations

import math

import pytest

from generator.calc.lifting import LOAD_CONSTANT, coupling, recommended_weight
from generator.calc.sling import even_places, hook_height, leg_pull
from generator.errors import OutsideRange
from generator.si import degree


def test_worked_value():
    """H 30, V 80, D 40 cm, no twist, FM and CM 1: 23 × 0.8333 × 0.985 × 0.9325 = 17.6048 kg."""
    assert recommended_weight(0.30, 0.80, 0.40) == pytest.approx(17.6048, abs=5e-5)
    assert pytest.approx(17.6048, abs=5e-5) == 23 * 25 / 30 * (1 - 0.003 * 5) * (0.82 + 4.5 / 40)


@pytest.mark.parametrize(
    ("reach", "printed"),
    [(25, 1.00), (28, 0.89), (30, 0.83), (34, 0.74), (40, 0.63), (50, 0.50), (54, 0.46), (60, 0.42),
     (63, 0.40)],
)
def test_table_horizontal_multiplier(reach, printed):
    """NIOSH 94-110, table 1."""
    assert recommended_weight(reach / 100, 0.75) / LOAD_CONSTANT == pytest.approx(printed, abs=5.1e-3)


@pytest.mark.parametrize(
    ("height", "printed"), [(0, 0.78), (75, 1.00), (100, 0.93), (150, 0.78), (175, 0.70)]
)
def test_table_vertical_multiplier(height, printed):
    """NIOSH 94-110, table 2."""
    assert recommended_weight(0.25, height / 100) / LOAD_CONSTANT == pytest.approx(printed, abs=5.1e-3)


@pytest.mark.parametrize(("twist", "printed"), [(0, 1.00), (30, 0.90), (45, 0.86), (90, 0.71), (135, 0.57)])
def test_table_asymmetric_multiplier(twist, printed):
    """NIOSH 94-110, table 4."""
    assert recommended_weight(0.25, 0.75, twist=twist * degree) / LOAD_CONSTANT == pytest.approx(
        printed, abs=5.1e-3
    )


@pytest.mark.parametrize(
    ("travel", "printed"), [(10, 1.00), (25, 1.00), (40, 0.93), (100, 0.87), (175, 0.85)]
)
def test_table_distance_multiplier(travel, printed):
    """NIOSH 94-110, table 3."""
    assert recommended_weight(0.25, 0.75, travel / 100) / LOAD_CONSTANT == pytest.approx(printed, abs=5.1e-3)


def test_out_of_reach_nothing_is_lifted():
    """NIOSH 94-110: H over 63 cm, V over 175 cm, A over 135 degrees give 0."""
    assert recommended_weight(0.64, 0.75) == 0
    assert recommended_weight(0.3, 1.76) == 0
    assert recommended_weight(0.3, 0.75, twist=136 * degree) == 0


def test_table_coupling():
    """NIOSH 94-110, table 7."""
    assert [coupling(hold, height) for hold in ("good", "fair", "poor") for height in (0.5, 0.75)] == [
        1.00, 1.00, 0.95, 1.00, 0.90, 0.90,
    ]
    assert recommended_weight(0.3, 0.8, 0.4, hold=0.9) == pytest.approx(0.9 * 17.6048, abs=5e-5)


@pytest.mark.parametrize(
    ("from_level", "factor"),
    [(90, 1.000), (85, 1.004), (75, 1.035), (60, 1.155), (45, 1.414), (30, 2.000)],
)
def test_table_factor_of_a_leaning_sling(from_level, factor):
    """Riggers' charts, angle from level: pull of a leg over that of a straight one."""
    assert 2 * leg_pull(1.0, (90 - from_level) * degree) == pytest.approx(factor, abs=6e-4)


def test_slings_hold_the_weight_up_and_turn_it_nowhere():
    """Statics: vertical parts carry the weight, moments about the balance point cancel."""
    left, right = even_places(0.7, -0.1, 2.0, 1.0)
    pull, lean = leg_pull(1000, 30 * degree), 30 * degree
    assert 2 * pull * math.cos(lean) == pytest.approx(1000)
    assert pull * math.cos(lean) * ((right - 0.7) - (0.7 - left)) == pytest.approx(0, abs=1e-9)
    assert math.atan((right - left) / 2 / hook_height(right - left, lean)) == pytest.approx(lean)


def test_slings_stay_on_the_stretch_that_may_carry_them():
    assert even_places(0.7, 0.5, 2.0, 1.0) == pytest.approx((0.5, 0.9))
    assert even_places(0.7, 0.0, 0.8, 1.0) == pytest.approx((0.6, 0.8))


@pytest.mark.parametrize(
    "refused",
    [
        lambda: recommended_weight(-0.1, 1), lambda: recommended_weight(0.3, math.nan),
        lambda: recommended_weight(0.3, 1, hold=1.1), lambda: recommended_weight(0.3, 1, frequency=-0.1),
        lambda: leg_pull(1, 61 * degree), lambda: leg_pull(-1, 0.1), lambda: hook_height(1, 0),
        lambda: hook_height(0, 0.5), lambda: even_places(0.7, 0.8, 2, 1), lambda: even_places(0.7, 0, 2, 0),
    ],
)
def test_what_cannot_be_lifted_is_refused(refused):
    with pytest.raises(OutsideRange):
        refused()
