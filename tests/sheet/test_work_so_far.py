"""The work between operations: what each cut leaves for the next one, against a lookup point by point."""

from __future__ import annotations

import random

import pytest

from generator.sheet.layout import Layout, Span
from generator.sheet.work_so_far import WorkSoFar, work_before

SPANS = (Span(-0.05, 0.1, 0.08, 0.08, 0.02, 0), Span(0.1, 0.2, 0.08, 0.05, 0.0, 1))
LAYOUT = Layout(SPANS, 0.05, 0.25, 0.2)


@pytest.fixture
def work() -> WorkSoFar:
    return work_before(LAYOUT)


def test_before_any_cut_it_is_the_work_of_the_job_file(work):
    assert work.largest(0.0, 0.1) == pytest.approx(0.08)
    assert work.smallest(0.0, 0.2) == pytest.approx(0.05)
    assert work.largest(0.15, 0.2) == pytest.approx(0.065), "half-way down the taper"
    assert work.bore(-0.05, 0.1) == pytest.approx(0.02)
    assert work.bore(0.05, 0.15) == 0.0, "part of it is solid"
    assert not work.touched(-0.05, 0.2)


def test_at_one_place_the_side_towards_the_chuck_counts(work):
    assert work.largest(0.2, 0.2) == pytest.approx(0.05)
    turned = work.turned(0.0, 0.1, 0.06, 0.06)
    assert turned.largest(0.1, 0.1) == pytest.approx(0.06)


def test_off_the_work_there_is_nothing(work):
    assert work.largest(0.3, 0.4) is None
    assert work.smallest(0.3, 0.4) is None
    assert work.bore(0.3, 0.4) == 0.0


def test_a_cut_changes_only_its_own_length(work):
    after = work.turned(0.12, 0.15, 0.04, 0.045).bored(0.1, 0.2, 0.01)
    assert after.largest(0.12, 0.15) == pytest.approx(0.045)
    assert after.smallest(0.12, 0.15) == pytest.approx(0.04)
    assert after.largest(0.15, 0.2) == pytest.approx(work.largest(0.15, 0.2))
    assert after.bore(0.1, 0.2) == pytest.approx(0.01)
    assert after.bore(-0.05, 0.1) == pytest.approx(0.02)
    assert after.touched(0.1, 0.2)
    assert not after.touched(-0.05, 0.1)


def test_a_hole_is_never_made_smaller(work):
    assert work.bored(-0.05, 0.1, 0.01).bore(-0.05, 0.1) == pytest.approx(0.02)


@pytest.mark.parametrize("seed", range(20))
def test_many_cuts_agree_with_a_lookup_point_by_point(work, seed):
    """Independent: at each point the last cut that covers it decides."""
    draw = random.Random(seed)
    cuts = []
    for _ in range(8):
        low, high = sorted(draw.uniform(-0.05, 0.2) for _ in range(2))
        ends = draw.uniform(0.01, 0.07), draw.uniform(0.01, 0.07)
        cuts.append((low, high, *ends))
        work = work.turned(low, high, *ends)

    def diameter(x):
        for low, high, at_low, at_high in reversed(cuts):
            if low < x < high:
                return at_low + (at_high - at_low) * (x - low) / (high - low)
        span = LAYOUT.span_at(x)
        assert span is not None
        return span.od_at(x)

    for _ in range(50):
        x = draw.uniform(-0.049, 0.199)
        assert work.largest(x, x + 1e-8) == pytest.approx(diameter(x), abs=1e-6)
