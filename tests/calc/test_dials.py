"""Dials: whole graduations, turns, radius and diameter."""

from __future__ import annotations

import random

import pytest

from generator.calc.dials import Dial, reading, travel_read, whole_graduations
from generator.errors import OutsideRange

RADIUS = Dial(0.001, 0.125, "radius")
DIAMETER = Dial(0.02, 4.0, "diameter")


def test_one_graduation_of_a_diameter_dial_moves_the_slide_by_half():
    assert DIAMETER.graduation == pytest.approx(0.01)
    assert DIAMETER.divisions == 200
    assert RADIUS.graduation == pytest.approx(0.001)


@pytest.mark.parametrize(
    ("travel", "dial", "turns", "shown"),
    [
        (0.0, RADIUS, 0, 0.0),
        (0.124, RADIUS, 0, 0.124),
        (0.125, RADIUS, 1, 0.0),
        (0.130, RADIUS, 1, 0.005),
        (1.9, DIAMETER, 0, 3.8),
        (2.0, DIAMETER, 1, 0.0),
        (2.5, DIAMETER, 1, 1.0),
        (0.1 + 0.2, Dial(0.01, 0.1, "radius"), 3, 0.0),
    ],
)
def test_turns_and_reading(travel, dial, turns, shown):
    got_turns, got = reading(travel, dial)
    assert got_turns == turns
    assert got == pytest.approx(shown, abs=1e-12)


def test_turns_and_reading_say_the_travel_again():
    chance = random.Random(2)
    for _ in range(500):
        dial = chance.choice([RADIUS, DIAMETER, Dial(2.54e-5, 2.54e-3, "diameter")])
        count = chance.randrange(5000)
        travel = count * dial.graduation
        turns, shown = reading(travel, dial)
        assert 0 <= shown < dial.turn
        assert (turns * dial.turn + shown) / dial.per_travel == pytest.approx(travel, abs=1e-9 * dial.turn)
        assert whole_graduations(travel, dial) == count
        assert whole_graduations(travel, dial, rounds="down") == count
        assert whole_graduations(travel, dial, rounds="up") == count


def test_rounding_goes_the_way_it_is_asked():
    assert [whole_graduations(0.0464, RADIUS, rounds=way) for way in ("down", "nearest", "up")] == [
        46,
        46,
        47,
    ]
    assert [whole_graduations(0.0464, RADIUS, 2, way) for way in ("down", "nearest", "up")] == [92, 93, 93]
    assert whole_graduations(0.0465, RADIUS) == 47


@pytest.mark.parametrize("wrong", [(0.001, 0.1254), (0.002, 0.001), (0.0, 0.1)])
def test_a_dial_whose_turn_does_not_hold_its_divisions_is_refused(wrong):
    with pytest.raises(OutsideRange):
        Dial(*wrong, "radius")


def test_nothing_is_read_before_touch():
    with pytest.raises(OutsideRange):
        reading(-0.001, RADIUS)


@pytest.mark.parametrize(
    ("travel", "turns", "shown"),
    [(0.0, 0, 0.0), (0.001, 0, 0.124), (0.124, 0, 0.001), (0.125, 1, 0.0), (0.126, 1, 0.124)],
)
def test_a_dial_turned_back_runs_down_from_zero(travel, turns, shown):
    """Counted on a dial of 125 graduations: one back from 0 stands at 124, a whole turn back at 0 again."""
    got = reading(travel, Dial(0.001, 0.125, "radius"), back=True)
    assert got[0] == turns
    assert got[1] == pytest.approx(shown)


@pytest.mark.parametrize("back", [False, True])
@pytest.mark.parametrize("reads", ["radius", "diameter"])
@pytest.mark.parametrize("count", [0, 1, 62, 124, 125, 126, 250, 377])
def test_what_a_dial_shows_is_read_back_as_the_travel(count: int, reads: str, back: bool) -> None:
    """Counted in graduations of a dial of 125 in a turn, outwards and turned back: arithmetic."""
    dial = Dial(0.001, 0.125, reads)
    travel = count * dial.graduation
    assert travel_read(*reading(travel, dial, back), dial, back) == pytest.approx(travel, abs=1e-12)


def test_a_reading_past_the_last_graduation_is_none_of_the_dial() -> None:
    dial = Dial(0.001, 0.125, "radius")
    assert travel_read(0, 0.124, dial) == pytest.approx(0.124)
    for shown in (0.125, 0.189, -0.001):
        with pytest.raises(OutsideRange):
            travel_read(0, shown, dial)
