"""What a reading leaves to cut: against handbook sizes, and what must hold for every reading."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calc.left_to_cut import Feed, Read, left_to_cut, slip_in
from generator.errors import OutsideRange

COMPOUND = Feed(math.cos(math.radians(29.5)), 0.0005, 0.0005, 0.0844, 0.02, 4)
OUTSIDE = Read(2.2708, 2.2667, 2.2747, 1.0, 2.1864, 2.4481)
INSIDE = Read(3.4700, 3.4660, 3.4740, 1.0, 3.37, 3.53, inside=True)
feeds = st.builds(
    Feed,
    along=st.floats(0.5, 1.0), half=st.sampled_from((0.0005, 0.00025, 0.005, 0.01)),
    cross_half=st.sampled_from((0.0005, 0.00025, 0.005)), depth=st.floats(0.02, 2.0),
    first=st.floats(0.02, 0.5), small=st.sampled_from((2, 4, 6, 14)),
).filter(lambda feed: feed.small * feed.half * feed.along <= feed.first)


def test_a_handbook_thread_read_over_wires_leaves_half_its_excess_in_depth() -> None:
    """5/16-18 over wires of 0.035 in reads 0.3333 in at E = 0.2764 in (Machinery's Handbook, 31st ed.,
    p. 2130: E = M + 0.86603 P - 3 W). Read 0.3393: 0.006 in too full, 0.003 in radially.
    """
    read = Read(0.3333, 0.3304, 0.3333, 1.0, 0.30, 0.42)
    feed = Feed(1.0, 0.00025, 0.00025, 0.0361, 0.012, 4)
    left = left_to_cut(0.3393, read, feed)
    printed = 0.3393 + 0.86603 / 18 - 3 * 0.035
    assert left.over == pytest.approx(printed - 0.2764, abs=5e-5)
    assert (left.means, left.halves, left.cross_halves) == ("to cut", 12, 12)


def test_a_compound_set_over_moves_further_than_the_depth() -> None:
    """A published table of feeds at 29 degrees: 0.0928 in for 8 per inch, 3/4 H (0.649519 / 8 in) deep;
    here a tenth of both."""
    feed = Feed(math.cos(math.radians(29)), 0.00005, 0.00005, 0.01, 0.01, 20)
    left = left_to_cut(1 + 2 * 0.649519 / 80, Read(1.0, 0.99, 1.0, 1.0, 0.9, 1.1), feed)
    assert left.halves * feed.half == pytest.approx(0.0928 / 10, abs=1e-4)
    assert left.cross_halves * feed.cross_half == pytest.approx(0.649519 / 80, abs=1e-4)


@pytest.mark.parametrize(
    ("reading", "means"),
    [(2.2747, "inside"), (2.2667, "inside"), (2.2666, "past"), (2.2748, "to cut"), (2.1863, "no sense"),
     (2.4482, "no sense"), (22.7, "no sense"), (0.0, "no sense"), (math.nan, "no sense"),
     (math.inf, "no sense")],
)
def test_a_limit_itself_is_inside(reading: float, means: str) -> None:
    assert left_to_cut(reading, OUTSIDE, COMPOUND).means == means


@pytest.mark.parametrize(
    ("reading", "means"),
    [(3.4741, "past"), (3.4740, "inside"), (3.4660, "inside"), (3.4659, "to cut"), (3.6, "no sense")],
)
def test_inside_a_bore_the_reading_grows_as_it_is_cut(reading: float, means: str) -> None:
    assert left_to_cut(reading, INSIDE, COMPOUND).means == means


@pytest.mark.parametrize(("reading", "means"), [
    (2.2708, "inside"), (2.2714, "inside"), (2.2730, "to cut"), (2.2705, "inside"), (2.2690, "past"),
])
def test_without_limits_half_a_division_is_the_size(reading: float, means: str) -> None:
    read = Read(2.2708, None, None, 1.0, 2.1864, 2.4481)
    assert left_to_cut(reading, read, COMPOUND).means == means


@settings(deadline=None)
@given(st.floats(-0.1, 1.05), feeds)
def test_no_cuts_go_past_the_size_and_the_last_is_small(share: float, feed: Feed) -> None:
    reading = 10.0 + 2 * feed.depth * share
    read = Read(10.0, 10.0 - 1e-9, 10.0, 1.0, 10 - feed.depth, 10 + 2.1 * feed.depth)
    left = left_to_cut(reading, read, feed)
    depth = left.over / 2
    assert sum(left.cuts) * feed.half * feed.along <= max(depth, 0) + 1e-6 * feed.half
    if left.means != "to cut":
        assert left.cuts == ()
        return
    assert sum(left.cuts) == left.halves
    assert all(cut > 0 for cut in left.cuts)
    if left.cuts:
        assert left.cuts[-1] <= feed.small
        assert depth - left.halves * feed.half * feed.along < feed.half * feed.along
    if left.halves > feed.small:
        assert len(left.cuts) >= 2


@settings(deadline=None)
@given(st.floats(0.1, 1.0), feeds)
def test_no_cut_takes_a_larger_chip_than_the_first(share: float, feed: Feed) -> None:
    """A groove's area grows with the square of its depth; both ends are rounded, to a division at most.

    A cut as small as the smallest is always taken: a lighter one rubs.
    """
    reading = 10.0 + 2 * feed.depth * share
    left = left_to_cut(reading, Read(10.0, 9.9, 10.0, 1.0, 9.0, 10 + 3 * feed.depth), feed)
    step, deep = feed.half * feed.along, max(feed.depth - left.over / 2, 0.0)
    for cut in left.cuts[:-1]:
        start, end = deep, deep + cut * step
        chip = (end - 2 * step) ** 2 - (start + 2 * step) ** 2
        assert cut <= feed.small or chip <= feed.first**2 * (1 + 1e-9)
        deep = end


@pytest.mark.parametrize(
    ("typed", "inch", "slip"),
    [(22.768, True, ("point", 2.2768)), (57.83, True, ("mm", 57.83 / 25.4)),
     (0.22768, True, ("point", 2.2768)), (22768.0, True, ("point", 2.2768)), (7.0, True, ("", 0.0))],
)
def test_a_slip_is_named(typed: float, inch: bool, slip: tuple[str, float]) -> None:
    found = slip_in(typed, OUTSIDE, inch)
    assert found == (slip[0], pytest.approx(slip[1]))


def test_inches_typed_for_millimetres_are_named() -> None:
    read = Read(57.678, 57.575, 57.777, 1.0, 55.5, 62.2)
    assert slip_in(2.2708, read, False) == ("inch", pytest.approx(57.678, abs=1e-3))


@pytest.mark.parametrize("feed", [
    Feed(0.0, 0.0005, 0.0005, 0.1, 0.02, 4), Feed(1.1, 0.0005, 0.0005, 0.1, 0.02, 4),
    Feed(1.0, 0.0, 0.0005, 0.1, 0.02, 4), Feed(1.0, 0.0005, -1.0, 0.1, 0.02, 4),
    Feed(1.0, 0.0005, 0.0005, 0.1, 0.0, 4), Feed(1.0, 0.0005, 0.0005, 0.1, 0.02, 0),
])
def test_slides_that_cannot_be_are_refused(feed: Feed) -> None:
    with pytest.raises(OutsideRange):
        left_to_cut(2.28, OUTSIDE, feed)
