"""Speeds, feeds and depths for every operation: there, in order, sourced; the shop's own come first."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from generator.errors import OutsideRange, SheetError
from generator.si import ft_per_min, inch, m_per_min
from generator.tables.cutting_feeds import BY_DIAMETER, DEPTH_OPERATIONS, depth_range, feed_range
from generator.tables.cutting_speeds import OPERATIONS, TOOLS, NoCuttingData, SpeedRange, speed_range
from generator.tables.materials import UnknownGroup, material_groups
from generator.tables.rows import table

OWN = SpeedRange(20 * m_per_min, 20 * m_per_min, "the shop's own")
SLOW = ("thread", "knurl", "part off", "groove")


@pytest.mark.parametrize("tool", TOOLS)
@pytest.mark.parametrize("operation", OPERATIONS)
@pytest.mark.parametrize("group", [*material_groups(), None])
def test_every_operation_has_a_sourced_speed(group, operation, tool):
    found = speed_range(group, operation, tool)
    assert 0 < found.low <= found.high
    assert found.source
    assert found.from_memory == ("from memory" in found.source)
    if operation in SLOW:
        assert found.high < speed_range(group, "turn rough", tool).high


@pytest.mark.parametrize("operation", OPERATIONS)
@pytest.mark.parametrize("tool", TOOLS)
def test_an_unknown_material_takes_in_every_known_one(operation, tool):
    every = [speed_range(group, operation, tool) for group in material_groups()]
    found = speed_range(None, operation, tool)
    assert found.low == min(one.low for one in every)
    assert found.high == max(one.high for one in every)
    assert "material not known" in found.note


def test_the_shops_own_turning_speed_leads_every_other():
    for group in ("tool steel", None):
        for operation, low, high in (
            ("turn rough", 1, 1), ("face", 1, 1), ("turn finish", 1, 1.5), ("groove", 0.5, 0.6),
            ("part off", 0.5, 0.6), ("thread", 1 / 4, 1 / 3), ("bore", 0.7, 1), ("drill", 0.7, 0.9),
            ("ream", 0.35, 0.6),
        ):  # fmt: skip
            found = speed_range(group, operation, turning=OWN)
            assert (found.low / OWN.low, found.high / OWN.low) == pytest.approx((low, high)), operation
            assert found.source.endswith("the shop's own")
            assert "not known" not in found.note


def test_the_shops_own_drilling_speed_leads_drilling_only():
    drilling = replace(OWN, source="drills of the shop")
    assert speed_range("brass", "drill", drilling=drilling) == drilling
    assert speed_range("brass", "center drill", turning=OWN, drilling=drilling).low == OWN.low
    assert speed_range("brass", "ream", drilling=drilling).high == pytest.approx(OWN.high * 2 / 3)
    assert speed_range("brass", "drill", "carbide", drilling=drilling).low == pytest.approx(2 * OWN.low)
    assert speed_range("brass", "turn rough", drilling=drilling) == speed_range("brass", "turn rough")


def test_the_shops_own_speed_with_carbide_is_not_taken_for_high_speed_steel():
    found = speed_range("brass", "turn rough", "carbide", turning=OWN)
    assert found == OWN
    assert speed_range("brass", "groove", "carbide", turning=OWN).high == pytest.approx(0.6 * OWN.high)
    assert speed_range("brass", "drill", "carbide", turning=OWN).low > 0


@pytest.mark.parametrize(
    ("low", "high"), [(0.0, 1.0), (-1.0, 1.0), (2.0, 1.0), (math.nan, 1.0), (1.0, math.inf)]
)
def test_a_range_that_is_none_is_refused(low, high):
    with pytest.raises(OutsideRange):
        SpeedRange(low, high, "the shop's own")


@pytest.mark.parametrize("tool", TOOLS)
@pytest.mark.parametrize("operation", OPERATIONS)
def test_every_operation_has_a_sourced_feed(operation, tool):
    found = feed_range(operation, tool, diameter=0.5 * inch)
    if operation in {"thread", "polish"}:
        assert found is None
        return
    assert 0 < found.low < found.high
    assert found.source


def test_a_reamer_feeds_two_to_three_times_as_fast_as_a_drill():
    drill, ream = (feed_range(name, diameter=0.4 * inch) for name in ("drill", "ream"))
    assert (ream.low / drill.low, ream.high / drill.high) == pytest.approx((2, 3))


@pytest.mark.parametrize("tool", TOOLS)
@pytest.mark.parametrize("operation", DEPTH_OPERATIONS)
def test_every_depth_is_sourced_and_finishing_is_lighter(operation, tool):
    found = depth_range(operation, tool)
    assert 0 < found.low < found.high
    assert found.source
    kind, _, cut = operation.partition(" ")
    if cut == "finish":
        assert found.high <= depth_range(f"{kind} rough", tool).low


@pytest.mark.parametrize(
    ("operation", "tool", "low", "high"),
    [  # quick reference of a machine-shop course, Machine Tool Fundamentals, in. a revolution
        ("turn rough", "high-speed steel", 0.005, 0.015),
        ("turn rough", "carbide", 0.008, 0.020),
        ("turn finish", "high-speed steel", 0.002, 0.005),
        ("turn finish", "carbide", 0.003, 0.008),
        ("part off", "high-speed steel", 0.002, 0.005),
        ("part off", "carbide", 0.003, 0.006),
    ],
)
def test_table_turning_feeds(operation, tool, low, high):
    found = feed_range(operation, tool)
    assert (found.low / inch, found.high / inch) == pytest.approx((low, high))


@pytest.mark.parametrize(
    ("group", "tool", "low", "high"),
    [  # the same quick reference, ft/min
        ("tool steel", "high-speed steel", 40, 60),
        ("aluminium alloy", "high-speed steel", 200, 300),
        ("brass", "high-speed steel", 150, 250),
        ("bronze", "high-speed steel", 100, 150),
        ("grey cast iron", "high-speed steel", 50, 80),
        ("low-carbon steel", "carbide", 300, 500),
        ("medium-carbon steel", "carbide", 250, 400),
        ("alloy steel", "carbide", 200, 350),
        ("tool steel", "carbide", 150, 250),
        ("aluminium alloy", "carbide", 800, 1500),
        ("grey cast iron", "carbide", 250, 400),
    ],
)
def test_table_turning_speeds(group, tool, low, high):
    found = speed_range(group, "turn rough", tool)
    assert (found.low / ft_per_min, found.high / ft_per_min) == pytest.approx((low, high))


@pytest.mark.parametrize(
    "call",
    [
        lambda: speed_range("brass", "mill"),
        lambda: speed_range("brass", "drill", "diamond"),
        lambda: feed_range("mill"),
        lambda: feed_range("drill"),
        lambda: depth_range("drill"),
        lambda: depth_range("turn rough", "diamond"),
    ],
)
def test_what_the_tables_do_not_have_is_refused_and_says_what_they_have(call):
    with pytest.raises(NoCuttingData) as refusal:
        call()
    assert isinstance(refusal.value, SheetError)


def test_an_unknown_group_and_an_impossible_diameter_are_refused():
    with pytest.raises(UnknownGroup):
        speed_range("brasss", "drill")
    for diameter in (0.0, -1.0, math.nan):
        for operation in BY_DIAMETER:
            with pytest.raises(OutsideRange):
                feed_range(operation, diameter=diameter)


@pytest.mark.parametrize(
    "name", ["cutting_speeds", "cutting_speed_shares", "cutting_feeds", "cutting_depths"]
)
def test_the_rows_use_known_words_once(name):
    seen = set()
    for row in table(name):
        assert row["operation"] in {*OPERATIONS, *DEPTH_OPERATIONS}
        assert row.get("tool", "") in {"", *TOOLS}
        assert row.get("group") in {None, *material_groups()}
        assert row["source"]
        assert row["from_memory"] in {"yes", "no"}
        key = tuple(row.get(column) for column in ("group", "operation", "tool", "above"))
        assert key not in seen
        seen.add(key)
