"""Drilling: the two lips cut into small pieces, special cases, refusals."""

from __future__ import annotations

import math

import pytest

from generator.calc.drilling import drilling_thrust, drilling_torque, likely_drilling, point_length
from generator.errors import OutsideRange
from generator.si import mm

STEEL = {"k_c11": 1675e6, "m_c": 0.24}  # VDI 3323 group 3, a cutting-tool maker's turning catalogue, 2017


@pytest.mark.parametrize("bore", [0.0, 8.0])
@pytest.mark.parametrize("point", [90, 118, 180])
def test_torque_by_summing_along_the_lips(bore, point):
    """Each piece of lip: Kienzle force at its own radius (k_c1.1 h^−m × length of edge × h), both lips."""
    diameter, feed, pieces = 20.0, 0.3, 2000
    sine = math.sin(math.radians(point) / 2)
    step = (diameter - bore) / 2 / pieces
    chip = feed / 2 * sine
    torque = sum(
        2 * 1675 * chip**-0.24 * (step / sine) * chip * (bore / 2 + (k + 0.5) * step) for k in range(pieces)
    )
    found = drilling_torque(
        **STEEL, diameter=diameter * mm, feed=feed * mm, point_angle=math.radians(point), bore=bore * mm
    )
    assert found == pytest.approx(torque / 1000, rel=1e-6)


def test_opening_a_hole_takes_less_than_drilling_it():
    solid, opened = (
        drilling_torque(**STEEL, diameter=20 * mm, feed=0.2 * mm, bore=bore * mm) for bore in (0, 10)
    )
    assert opened == pytest.approx(0.75 * solid)
    assert drilling_thrust(**STEEL, diameter=20 * mm, feed=0.2 * mm, bore=10 * mm) == pytest.approx(
        drilling_thrust(**STEEL, diameter=20 * mm, feed=0.2 * mm) / 4
    )


@pytest.mark.parametrize(
    ("angle", "share"), [(118, 0.300), (90, 0.5), (180, 0.0), (60, 0.866)]
)  # tables of drill points: length over diameter
def test_length_of_the_point(angle, share):
    assert point_length(10 * mm, math.radians(angle)) == pytest.approx(share * 10 * mm, abs=0.005 * mm)
    assert point_length(10 * mm, math.radians(angle), 5 * mm) == pytest.approx(share * 5 * mm, abs=0.005 * mm)


@pytest.mark.parametrize(
    "call",
    [
        lambda: point_length(0.0),
        lambda: point_length(10 * mm, 0.0),
        lambda: point_length(10 * mm, 4.0),
        lambda: point_length(10 * mm, bore=10 * mm),
        lambda: point_length(10 * mm, bore=-1 * mm),
        lambda: drilling_torque(**STEEL, diameter=10 * mm, feed=0.0),
        lambda: drilling_torque(**STEEL, diameter=math.nan, feed=0.1 * mm),
        lambda: drilling_thrust(**STEEL, diameter=10 * mm, feed=-0.1 * mm),
        lambda: likely_drilling(-1.0),
    ],
)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutsideRange):
        call()
