"""The thread relief: sizes and times."""

from __future__ import annotations

import pytest

from generator.calc import relief
from generator.errors import OutsideRange
from generator.si import inch, mm, rev_per_min


def test_time_and_speed_are_each_other_turned_round():
    for width, lead, time in ((5.0, 2.0, 0.4), (0.375, 0.125, 1.0), (20, 18, 0.5)):
        speed = relief.highest_speed(width, lead, time)
        assert relief.reaction_time(width, lead * speed) == pytest.approx(time)


@pytest.mark.parametrize(
    ("width", "lead", "time", "tool", "margin", "rpm"),
    [(5, 2, 0.4, 1, 0.5, 262.5), (8, 3.175, 0.5, 1.6, 1, 204.094)],
)
def test_highest_speed_with_tool_and_margin(width, lead, time, tool, margin, rpm):
    """n = 60 (g − w − margin) ÷ (lead × t), worked by hand."""
    assert relief.highest_speed(width, lead, time, tool, margin) / rev_per_min == pytest.approx(
        rpm, abs=0.0005
    )


def test_a_relief_narrower_than_the_tool_has_no_speed():
    assert relief.highest_speed(1.0, 2.0, 0.5, 1.5) < 0


def test_default_diameter_lies_in_the_usual_range_under_the_root():
    """Common practice, no source: 0.25 to 0.5 mm, 0.010 to 0.020 in under the root."""
    assert 0.25 * mm <= 20 * mm - relief.default_diameter(20 * mm, "mm") <= 0.5 * mm
    assert 0.010 * inch <= inch - relief.default_diameter(inch, "inch") <= 0.020 * inch


def test_wall_of_hollow_and_broken_through_work():
    assert relief.wall(1.85, 1.125) == pytest.approx(0.3625)
    assert relief.wall(1.0, 1.2) < 0


def test_widths_and_corner():
    """Common practice, no source: 1.5 P and the tool, 2 to 3 P usual; corner 1/4 to 1/2 of depth."""
    assert relief.least_width(0.125) == pytest.approx(0.1875)
    assert relief.usual_width(2.0) == (4.0, 6.0)
    assert relief.corner_radius(1.2) == pytest.approx((0.3, 0.6))


@pytest.mark.parametrize(
    "call",
    [
        lambda: relief.reaction_time(1, 0),
        lambda: relief.highest_speed(1, 0, 1),
        lambda: relief.highest_speed(1, 1, 0),
        lambda: relief.default_diameter(0.2 * mm, "mm"),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises(OutsideRange):
        call()


@pytest.mark.parametrize(
    ("system", "over"), [("inch", (0.010 * inch, 0.020 * inch)), ("mm", (0.25 * mm, 0.5 * mm))]
)
def test_an_internal_recess_is_as_much_over_the_root_as_an_external_one_is_under(system, over):
    """0.010 to 0.020 in, 0.25 to 0.5 mm on diameter: common practice, no source."""
    recess, groove = relief.default_recess(50 * mm, system), relief.default_diameter(50 * mm, system)
    assert over[0] <= recess - 50 * mm <= over[1]
    assert recess - 50 * mm == pytest.approx(50 * mm - groove)
