"""The decision table of the test fit: made for this thread, and never a last cut by number alone."""

from __future__ import annotations

import math

import pytest

ROWS = [
    "Does not start", "Starts, and binds after N turns", "Tight all along",
    "Tight, and shines at the crest only", "Free, then tight", "Rocks, or is loose",
]


def row(sheet, felt):
    return next(one for one in sheet.trial_fit if one.felt.startswith(felt))


def test_a_row_for_everything_that_is_felt(sheet_of):
    assert [one.felt for one in sheet_of().trial_fit] == ROWS
    assert all(one.look and one.then for one in sheet_of().trial_fit)


def test_the_next_cut_is_whole_divisions_and_no_larger_than_the_last(sheet_of, shop):
    """Plane geometry: the pitch diameter loses twice the depth, the depth is the travel times the cosine."""
    sheet = sheet_of()
    step = sheet.figures["measure.next_cut"].value
    angle = sheet.figures["passes.infeed_angle"].value
    dial = shop.lathes["long-bed"].compound_dial
    division = dial.division.si / (2 if dial.reads == "diameter" else 1)
    assert step / division == pytest.approx(round(step / division))
    last = [line for line in sheet.passes if not line.spring][-1]
    assert step <= max(last.cut / math.cos(angle), division) + 1e-12
    assert sheet.figures["measure.next_cut_takes"].value == pytest.approx(2 * step * math.cos(angle))


def test_every_next_cut_comes_with_a_reading_and_a_trial(sheet_of):
    for one in sheet_of().trial_fit:
        if "No more than" in one.then or "no more than" in one.then:
            assert "spring pass; read, and try again" in one.then


def test_a_cross_hole_is_met_after_so_many_turns(sheet_of):
    """3/8 in across, its axis 3/4 in from the end: its edge is 9/16 in from it, 4.5 turns of 1/8 in."""
    sheet = sheet_of({"mate:": "cross_holes: [{diameter: 3/8, from_end: 3/4}]\nmate:"})
    assert "cross hole of 0.375 in (9.53 mm) is met after 4.5 turns" in row(sheet, "Starts").look[0]
    assert "cross hole" not in row(sheet_of(), "Starts").look[0]


def test_a_hole_beyond_the_thread_is_not_spoken_of(sheet_of):
    sheet = sheet_of({"mate:": "cross_holes: [{diameter: 3/8, from_end: 6}]\nmate:"})
    assert "cross hole" not in row(sheet, "Starts").look[0]


def test_a_warm_part_is_a_large_part(sheet_of):
    """Steel, 11 to 12.5 millionths a degree (Gere, Mechanics of Materials, table H-4), 20 K, 2.16 in."""
    said = row(sheet_of(), "Tight all along").look[0]
    low, high = (round(2.16 * part * 1e-6 * 20, 4) for part in (11.0, 12.5))
    assert any(f"{size:.4f} in" in said for size in (low, high))
    unknown = sheet_of({"1045 steel": "unknown"})
    assert "a warm part is a large part" in row(unknown, "Tight all along").look[0]


def test_the_crests_are_measured_against_their_own_limits(sheet_of):
    """2 1/4-8 UN-2A: 2.2476 to 2.2326 in over the crests (ASME B1.1; Machinery's Handbook)."""
    look = " ".join(row(sheet_of(), "Tight, and shines").look)
    assert "2.2326 in" in look
    assert "2.2476 in" in look


def test_a_sheet_that_may_not_be_run_has_no_next_cut(sheet_of):
    sheet = sheet_of({"tool: V1}": "tool: V1, infeed: {angle: 40 deg}}"})
    assert not sheet.ready
    assert sheet.trial_fit == ()


def test_without_a_thread_there_is_nothing_to_try(ring_of):
    assert ring_of().trial_fit == ()
