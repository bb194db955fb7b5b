"""Power and torque: worked figures, refusals."""

from __future__ import annotations

import math

import pytest

from generator.calc.cutting import cutting_power
from generator.calc.power import motor_power, spindle_torque
from generator.errors import OutsideRange
from generator.si import kW, m_per_min, mm


def test_a_thousand_newtons_at_thirty_metres_a_minute_on_90_mm():
    """P = F v ÷ 60 000 = 0.5 kW; 0.5 ÷ 0.7 = 0.714286 kW at the motor; T = F d ÷ 2000 = 45 N m."""
    power = cutting_power(1000.0, 30 * m_per_min)
    assert power == pytest.approx(0.5 * kW)
    assert motor_power(power, 0.7) == pytest.approx(0.714286 * kW, abs=5e-4)
    assert spindle_torque(1000.0, 90 * mm) == pytest.approx(45.0)


@pytest.mark.parametrize(
    "call",
    [
        lambda: motor_power(-1.0, 0.7),
        lambda: motor_power(1.0, 0.0),
        lambda: motor_power(1.0, 1.1),
        lambda: motor_power(1.0, math.nan),
        lambda: spindle_torque(-1.0, 0.1),
        lambda: spindle_torque(1.0, math.inf),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
