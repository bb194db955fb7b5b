"""Reach against a lathe moved step by step: the parts are put where the tool is, and overlap is looked for.

The model of the test knows no swept intervals and no sides: it moves the tool's point along the cut in small
steps, lays out the room each part takes as a row of points, and looks which of them lie in an obstacle.
"""

from __future__ import annotations

import random
from math import inf, radians, sqrt

import pytest

from generator.calc.reach import Obstacle, Part, in_path, meetings, swung, tool_path

STEP = 0.05


def points(low: float, high: float) -> list[float]:
    """Places from low to high, at most a step apart, both ends among them."""
    count = max(1, round((high - low) / STEP))
    return [low + (high - low) * k / count for k in range(count + 1)]


def touched(
    start: float, end: float, left: float, right: float, obstacle: Obstacle, grow: float
) -> bool:
    """True when, somewhere on the way, the part with `grow` more on both sides has a point in it."""
    return any(
        obstacle.start < place < obstacle.end
        for tool in points(min(start, end), max(start, end))
        for place in points(tool - left - grow, tool + right + grow)
    )


def by_steps(start: float, end: float, part: Part, obstacle: Obstacle) -> float:
    """Room found by trying: how much the part may grow, or must shrink, until it only just clears.

    Negative when the part as it is meets the obstacle.
    """
    left = part.left if part.left is not None else 0.0
    right = part.right if part.right is not None else 0.0
    grow = 0.0
    if touched(start, end, left, right, obstacle, 0.0):
        while touched(start, end, left, right, obstacle, grow) and grow > -min(left, right):
            grow -= STEP
        return grow
    while not touched(start, end, left, right, obstacle, grow + STEP) and grow < 30:
        grow += STEP
    return grow


@pytest.mark.parametrize("seed", range(60))
def test_room_is_what_a_lathe_moved_by_steps_shows(seed):
    """One part with the same reach both ways, one obstacle that the tool does not pass."""
    dice = random.Random(seed)
    start, end = dice.uniform(0, 12), dice.uniform(0, 12)
    low, high = tool_path(start, end)
    reach = dice.uniform(0.5, 4)
    gap, width = dice.uniform(0, 6), dice.uniform(0.6, 3)
    left = dice.random() < 0.5
    obstacle = (
        Obstacle("steady rest", "bed", low - gap - width, low - gap)
        if left
        else Obstacle("tailstock", "bed", high + gap, dice.choice((high + gap + width, inf)))
    )
    (found,) = meetings(start, end, [Part("carriage", "bed", reach, reach)], [obstacle])
    assert found.side == ("left" if left else "right")
    assert (found.clearance < 0) == touched(start, end, reach, reach, obstacle, 0.0) or abs(
        found.clearance
    ) < 2 * STEP
    assert found.clearance == pytest.approx(
        by_steps(start, end, Part("carriage", "bed", reach, reach), obstacle), abs=3 * STEP
    )


@pytest.mark.parametrize("seed", range(60))
def test_a_whole_setup_collides_exactly_when_the_tightest_room_is_negative(seed):
    """Random carriage, tool, compound against jaws, headstock, steady rest, tailstock at two heights."""
    dice = random.Random(1000 + seed)
    jaws = 0.0
    steady_at = dice.choice((None, dice.uniform(2, 8)))
    low = (steady_at or jaws) + dice.uniform(0.8, 4)
    high = low + dice.uniform(0, 6)
    obstacles = [
        Obstacle("jaws", "center height", end=jaws),
        Obstacle("headstock", "bed", end=-dice.uniform(1, 4)),
        Obstacle("tailstock", "bed", high + dice.uniform(0, 6)),
        Obstacle("tailstock", "center height", high + dice.uniform(0, 6)),
    ]
    if steady_at is not None:
        obstacles.append(
            Obstacle(
                "steady rest", "bed", steady_at - dice.uniform(0.2, 1), steady_at + dice.uniform(0.2, 0.8)
            )
        )
        obstacles.append(Obstacle("steady rest", "center height", steady_at - 0.3, steady_at + 0.3))
    parts = [
        Part("carriage", "bed", dice.uniform(0, 4), dice.uniform(0, 4)),
        Part("tool holder", "center height", dice.uniform(0, 2)),
        Part("compound", "center height", None, dice.uniform(0, 5)),
    ]
    found = meetings(high, low, parts, obstacles)
    assert [one.clearance for one in found] == sorted(one.clearance for one in found)
    collides = any(
        touched(low, high, part.left or 0.0, part.right or 0.0, obstacle, 0.0)
        for part in parts
        for obstacle in obstacles
        if part.level == obstacle.level
    )
    assert collides == (found[0].clearance < 0) or abs(found[0].clearance) < 2 * STEP


def test_the_way_round_makes_no_difference():
    parts = [Part("carriage", "bed", 3, 6)]
    obstacles = [Obstacle("headstock", "bed", end=-7), Obstacle("tailstock", "bed", 16)]
    assert meetings(11, 9, parts, obstacles) == meetings(9, 11, parts, obstacles)


def test_a_reach_that_is_not_known_is_compared_with_nothing():
    obstacles = [Obstacle("headstock", "bed", end=-7), Obstacle("tailstock", "bed", 16)]
    (only,) = meetings(11, 9, [Part("carriage", "bed", None, 6)], obstacles)
    assert (only.obstacle, only.clearance) == ("tailstock", -1)
    assert meetings(11, 9, [Part("carriage", "bed")], obstacles) == []


def test_the_carriage_behind_a_long_bar_lies_wholly_to_the_right():
    """Point 8 inside the work, the carriage 5 behind it: what it reaches left of the point is -2."""
    (one,) = meetings(8, 2, [Part("carriage", "bed", -2, 9)], [Obstacle("chuck", "bed", end=0)])
    assert one.clearance == 4


def test_what_the_point_itself_runs_into_is_told_apart():
    steady = Obstacle("steady rest", "center height", 4, 5)
    assert in_path(8, 2, [steady]) == [steady]
    assert in_path(8, 5, [steady]) == []
    assert meetings(8, 2, [Part("tool holder", "center height", 1)], [steady]) == []


@pytest.mark.parametrize(
    ("angle", "share"), [(0, 0.0), (30, 0.5), (45, sqrt(0.5)), (60, sqrt(0.75)), (90, 1.0)]
)
def test_the_compound_swung_over_by_the_triangles_of_geometry(angle, share):
    """Sides of the right triangle at 30, 45, 60 degrees."""
    assert swung(6.0, radians(angle)) == pytest.approx(6 * share)
    assert swung(6.0, -radians(angle)) == pytest.approx(6 * share)
