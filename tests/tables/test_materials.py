"""Material groups: figures of the named sources, and no guess at a name."""

from __future__ import annotations

import pytest

from generator.si import GPa, MPa, ft_per_min
from generator.tables.cutting_speeds import speed_range
from generator.tables.materials import UnknownGroup, material_group, material_groups


@pytest.mark.parametrize(
    ("group", "modulus", "density"),
    [  # Gere, Mechanics of Materials, 5th ed., Appendix H: ranges
        ("low-carbon steel", (190, 210), (7850, 7850)),
        ("austenitic stainless", (190, 210), (7700, 8000)),
        ("grey cast iron", (83, 170), (7000, 7400)),
        ("aluminium alloy", (68, 79), (2600, 2800)),
        ("brass", (96, 110), (8400, 8600)),
        ("bronze", (96, 120), (8200, 8800)),
        ("copper", (110, 120), (8900, 8900)),
        ("titanium alloy", (100, 120), (4400, 4600)),
    ],
)
def test_table_stiffness_and_density_lie_in_the_printed_ranges(group, modulus, density):
    row = material_group(group)
    assert modulus[0] <= row.elastic_modulus / GPa <= modulus[1]
    assert density[0] <= row.density <= density[1]


@pytest.mark.parametrize(
    ("group", "low", "high"),
    [  # US Army TC 9-524 (1996), table 7-2, threading, ft/min: from memory
        ("low-carbon steel", 35, 40),
        ("medium-carbon steel", 25, 30),
        ("tool steel", 15, 20),
        ("austenitic stainless", 15, 20),
        ("aluminium alloy", 50, 60),
        ("brass", 40, 50),
        ("grey cast iron", 20, 25),
    ],
)
def test_table_threading_speeds(group, low, high):
    row = material_group(group)
    assert (row.threading_speed_low / ft_per_min, row.threading_speed_high / ft_per_min) == pytest.approx(
        (low, high)
    )
    assert "from memory" in row.speed_source


@pytest.mark.parametrize(
    ("group", "vdi", "k_c11", "m_c"),
    [  # a cutting-tool maker's turning catalog of 2017, groups after VDI 3323
        ("low-carbon steel", 1, 1350, 0.21),
        ("medium-carbon steel", 2, 1500, 0.22),
        ("high-carbon steel", 4, 1700, 0.24),
        ("alloy steel", 6, 1775, 0.24),
        ("heat-treated alloy steel", 8, 1725, 0.24),
        ("tool steel", 10, 2450, 0.23),
        ("austenitic stainless", 14, 2150, 0.20),
        ("grey cast iron", 15, 1150, 0.20),
        ("aluminium alloy", 22, 800, 0.25),
        ("brass", 27, 700, 0.27),
        ("copper", 28, 700, 0.27),
        ("titanium alloy", 37, 2110, 0.22),
    ],
)
def test_table_specific_cutting_force(group, vdi, k_c11, m_c):
    row = material_group(group)
    assert row.force_source.endswith(f"VDI 3323 group {vdi}")
    assert (row.k_c11 / MPa, row.m_c) == pytest.approx((k_c11, m_c))


def test_an_unknown_group_is_refused_with_the_nearest_name():
    with pytest.raises(UnknownGroup, match="did you mean medium-carbon steel"):
        material_group("medium carbon steel")


def test_threading_is_never_faster_than_turning():
    for name in material_groups():
        row = material_group(name)
        assert row.threading_speed_high < speed_range(name, "turn rough").high
        assert row.source
        assert row.speed_source
