"""Speeds, feeds, forces and power against print.

US Navy courses NAVEDTRA 14345 (drilling speeds and feeds) and 14076 (finishing speed); US Air Force
T.O. 1-1A-9, table 2-8 (stainless steels); The Ferrous Metals Data Book, chapter 9 (turning of steels);
Machinery's Handbook, 31st ed., Machining Power, tables 1b (power constants) and 7 to 9 (drilling); Carvill,
Mechanical Engineer's Data Handbook, 5.7 (drilling); catalogues of tool makers (power, drilling); manuals of
lathes and drilling machines and a trade course (spindle speeds).
"""

from __future__ import annotations

import math

import pytest

from generator.calc.cutting import cutting_power, likely_force, spindle_speed, turning_force
from generator.calc.drilling import drilling_thrust, drilling_torque, likely_drilling
from generator.calc.power import motor_power, spindle_torque
from generator.si import ft, ft_per_min, hp, inch, kW, lbf, m_per_min, mm, rev_per_min
from generator.tables.cutting_feeds import feed_range
from generator.tables.cutting_speeds import speed_range
from generator.tables.materials import material_group, material_groups

SHOP_FORM = 4 / (12 / math.pi)  # the shop's 4 × CS ÷ D against the exact 12 × CS ÷ (π D)


@pytest.mark.parametrize(
    ("speed", "diameter", "printed"),
    [
        (100, 2, 200),  # a trade course: (100 × 4) ÷ 2
        (300, 1, 1200),  # a lathe operator's manual: 300 × 4 ÷ 1, finishing aluminium
    ],
)
def test_example_spindle_speed_by_the_shop_form(speed, diameter, printed):
    """The shop form is 4.7 % above the exact formula."""
    exact = spindle_speed(speed * ft_per_min, diameter * inch) / rev_per_min
    assert exact * SHOP_FORM == pytest.approx(printed)


def test_example_spindle_speed_of_a_drill():
    """A public page on high-speed-steel drills: (80 × 3.82) ÷ 0.5 = 611 rev/min."""
    assert round(spindle_speed(80 * ft_per_min, 0.5 * inch) / rev_per_min) == 611


@pytest.mark.parametrize(
    ("diameter", "mild_steel", "brass"),
    [(1 / 8, 3100, 6000), (1 / 4, 1550, 3000), (1 / 2, 775, 1500), (1, 387, 750), (2, 193, 375)],
)
def test_table_spindle_speeds_of_a_bench_lathe(diameter, mild_steel, brass):
    """A bench lathe's leaflet: one surface speed a material, high-speed steel."""
    for at_one_inch, printed in ((387.5, mild_steel), (750, brass)):
        speed = math.pi * inch * at_one_inch * rev_per_min
        assert spindle_speed(speed, diameter * inch) / rev_per_min == pytest.approx(printed, abs=1)


@pytest.mark.parametrize(
    ("diameter", "low", "high"),
    [
        (0.0135, 0.001, 0.002),
        (0.125, 0.001, 0.002),
        (0.126, 0.002, 0.004),
        (0.25, 0.002, 0.004),
        (0.375, 0.004, 0.007),
        (0.5, 0.004, 0.007),
        (1.0, 0.007, 0.015),
        (1.001, 0.015, 0.025),
        (2.0, 0.015, 0.025),
    ],
)
def test_table_drilling_feeds(diameter, low, high):
    """NAVEDTRA 14345: No. 80 to 1/8 in, to 1/4, to 1/2, to 1, above 1 in; in. a revolution."""
    found = feed_range("drill", diameter=diameter * inch)
    assert (found.low / inch, found.high / inch) == pytest.approx((low, high))
    assert "NAVEDTRA 14345" in found.source


@pytest.mark.parametrize(
    ("group", "low", "high"),
    [
        ("low-carbon steel", 80, 110),
        ("medium-carbon steel", 70, 80),
        ("alloy steel", 50, 70),
        ("austenitic stainless", 30, 40),
        ("brass", 200, 300),
        ("bronze", 200, 300),
        ("aluminium alloy", 200, 300),
        ("grey cast iron", 70, 150),
    ],
)
def test_table_drilling_speeds(group, low, high):
    """NAVEDTRA 14345, high-speed-steel drills; carbide two to three times as fast."""
    found = speed_range(group, "drill")
    assert (found.low / ft_per_min, found.high / ft_per_min) == pytest.approx((low, high))
    carbide = speed_range(group, "drill", "carbide")
    assert (carbide.low / ft_per_min, carbide.high / ft_per_min) == pytest.approx((2 * low, 3 * high))


@pytest.mark.parametrize(
    ("operation", "tool", "low", "high"),
    [
        ("turn rough", "high-speed steel", 20, 40),
        ("turn finish", "high-speed steel", 50, 80),
        ("turn rough", "carbide", 150, 200),
        ("turn finish", "carbide", 150, 300),
    ],
)
def test_table_austenitic_stainless(operation, tool, low, high):
    """T.O. 1-1A-9, table 2-8: 302, 304, 309, 310, 314, 316."""
    found = speed_range("austenitic stainless", operation, tool)
    assert (found.low / ft_per_min, found.high / ft_per_min) == pytest.approx((low, high))
    assert "1-1A-9" in found.source


@pytest.mark.parametrize(
    ("group", "heavy", "medium", "light"),
    [  # speeds at 0.300, 0.150 and 0.040 in deep, softest and hardest row that the group takes in
        ("low-carbon steel", (100, 75), (125, 95), (150, 125)),
        ("medium-carbon steel", (90, 70), (115, 90), (140, 115)),
        ("high-carbon steel", (70, 60), (90, 80), (120, 100)),
        ("alloy steel", (80, 70), (105, 90), (135, 115)),
        ("heat-treated alloy steel", (60, 40), (75, 55), (95, 70)),
    ],
)
def test_table_turning_of_steels(group, heavy, medium, light):
    """Ferrous Metals Data Book, tables 9-2 to 9-4 and 9-6, high-speed steel."""
    rough, finish = speed_range(group, "turn rough"), speed_range(group, "turn finish")
    for printed in (*heavy, *medium):
        assert rough.low <= printed * ft_per_min * 1.000001
        assert rough.high >= printed * ft_per_min * 0.999999
    assert (finish.high / ft_per_min, finish.low / ft_per_min) == pytest.approx(light)
    assert "Ferrous Metals Data Book" in rough.source


@pytest.mark.parametrize("group", material_groups())
def test_threading_speeds_lie_in_the_shares_of_a_machine_shop_course(group):
    """A quarter to a third of the turning speed, roughing to finishing: the rows from memory overlap it."""
    found = speed_range(group, "thread")
    rough, finish = speed_range(group, "turn rough"), speed_range(group, "turn finish")
    assert found.low <= finish.high / 3
    assert found.high >= rough.low / 4


def test_example_finishing_half_as_fast_again():
    """NAVEDTRA 14076: try a 50 percent increase over the roughing speed."""
    rough, finish = (speed_range("grey cast iron", name) for name in ("turn rough", "turn finish"))
    assert finish.high == pytest.approx(1.5 * rough.high)


def test_example_power_of_a_turning_cut():
    """A tool maker's page: 3 mm × 0.2 mm × 120 m/min × 3100 MPa ÷ (60 000 × 0.8) = 4.65 kW."""
    force = turning_force(3100e6, 0.0, 3 * mm, 0.2 * mm)
    assert motor_power(cutting_power(force, 120 * m_per_min), 0.8) == pytest.approx(4.65 * kW)


@pytest.mark.parametrize(
    ("group", "printed"),
    [  # kW for a cubic centimetre a second, at 0.012 in feed
        ("low-carbon steel", 1.88),  # plain carbon, 120 to 140 HB
        ("medium-carbon steel", 2.24),  # plain carbon, 180 to 200 HB
        ("high-carbon steel", 2.43),  # plain carbon, 220 to 240 HB
        ("alloy steel", 1.88),  # 4140 and the like, 180 to 200 HB
        ("heat-treated alloy steel", 2.38),  # the same, 280 to 300 HB
    ],
)
def test_table_power_constants_lie_around_the_kienzle_force(group, printed):
    """Machinery's Handbook, table 1b: power over volume is force over chip area, in GPa."""
    row = material_group(group)
    depth, feed = 2 * mm, 0.012 * inch
    low, high = likely_force(turning_force(row.k_c11, row.m_c, depth, feed))
    assert low <= printed * 1e9 * depth * feed * 1.01
    assert high >= printed * 1e9 * depth * feed


def test_example_drilling_seven_eighths_at_200_brinell():
    """Machinery's Handbook: 7/8 in drill, steel of 200 HB, 350 rev/min, 0.008 in a revolution.

    Torque 24 000 F_f F_M A W, thrust 2 × 24 000 F_f F_T B W + 24 000 d² J W: F_f 0.021, F_T 0.899, F_M 0.786,
    A 1.085, B 1.355, J 0.030 as printed in tables 7 to 9; material factor 24 000 from memory; W 1 for a sharp
    drill. The two-lip formula lies below, twice itself above.
    """
    torque = 24_000 * 0.021 * 0.786 * 1.085 * inch * lbf
    thrust = (2 * 24_000 * 0.021 * 0.899 * 1.355 + 24_000 * 0.875**2 * 0.030) * lbf
    row = material_group("medium-carbon steel")
    drill = (row.k_c11, row.m_c, 0.875 * inch, 0.008 * inch)
    for printed, ours in ((torque, drilling_torque(*drill)), (thrust, drilling_thrust(*drill))):
        low, high = likely_drilling(ours)
        assert low <= printed <= high


@pytest.mark.parametrize("diameter", [8, 12, 20, 30])
@pytest.mark.parametrize("feed", [0.1, 0.2, 0.3])
def test_table_drilling_mild_steel(diameter, feed):
    """Torque in N m, d and f in mm, for mild steel of 160 HB.

    Carvill: 0.36 f^0.75 d^1.8 (constant as printed, exponents from memory), up to a quarter below the two
    lips' own. A drill maker's catalogue: 2.22 d² (0.630 + 16.84 f) ÷ 100, thrust 570 × 2.22 d f^0.85 N, up to
    twice it.
    """
    row = material_group("low-carbon steel")
    drill = (row.k_c11, row.m_c, diameter * mm, feed * mm)
    low, high = likely_drilling(drilling_torque(*drill))
    assert low * 0.75 <= 0.36 * feed**0.75 * diameter**1.8 <= high
    assert low <= 2.22 * diameter**2 * (0.630 + 16.84 * feed) / 100 <= high * 1.01
    low, high = likely_drilling(drilling_thrust(*drill))
    assert low <= 570 * 2.22 * diameter * feed**0.85 <= high


def test_torque_and_power_of_the_handbooks():
    """Machinery's Handbook: hp = M n ÷ 63 025 in inch pounds, kW = M n ÷ 9550; so 5252 in foot pounds."""
    for force, diameter, n in ((559.0, 0.050, 350.0), (430.0, 0.120, 280.0)):
        torque = spindle_torque(force, diameter)
        power = cutting_power(force, math.pi * diameter * n * rev_per_min)
        assert power / hp == pytest.approx(torque / (inch * lbf) * n / 63_025, rel=1e-5)
        assert power / kW == pytest.approx(torque * n / 9550, rel=2e-4)
        assert power / hp == pytest.approx(torque / (ft * lbf) * n / 5252, rel=1e-4)


def test_power_of_a_force_in_inches():
    """Handbooks: hp = F v ÷ 33 000 in pounds and feet a minute."""
    assert cutting_power(550 * lbf, 60 * ft_per_min) == pytest.approx(550 * 60 / 33_000 * hp)


def test_torque_times_speed_is_force_times_surface_speed():
    force, diameter, n = 1000.0, 90 * mm, 106.1 * rev_per_min
    torque = spindle_torque(force, diameter)
    assert torque * 2 * math.pi * n == pytest.approx(cutting_power(force, math.pi * diameter * n))
