"""The table of what is still to be cut: never past the size, in the dials' own divisions."""

from __future__ import annotations

import math

import pytest

from generator.si import inch


def table_of(sheet):
    assert sheet.corrections is not None
    return sheet.corrections


def test_a_cut_by_the_table_never_goes_past_the_size(sheet_of):
    """On the compound half of it over the cosine, on the cross slide half of it (plane trigonometry)."""
    sheet = sheet_of()
    angle = sheet.figures["passes.infeed_angle"].value
    for row in table_of(sheet).rows:
        assert row.depth == pytest.approx(row.excess / 2)
        compound = row.compound / (2 if sheet.corrections.compound_reads == "diameter" else 1)
        cross = row.cross_slide / (2 if sheet.corrections.cross_slide_reads == "diameter" else 1)
        for depth in (compound * math.cos(angle), cross):
            assert 0 <= depth <= row.depth + 1e-12
            assert row.depth - depth < 0.0006 * inch  # under half a division of these dials


def test_a_diameter_dial_is_turned_on_by_twice_as_much(sheet_of, shop):
    dial = shop.lathes["long-bed"].cross_dial
    on_radius, on_diameter = (
        table_of(sheet_of(lathe={"cross_dial": dial.model_copy(update={"reads": reads})}))
        for reads in ("radius", "diameter")
    )
    for one, other in zip(on_radius.rows, on_diameter.rows, strict=True):
        assert 0 <= other.cross_slide - 2 * one.cross_slide < dial.division.si


def test_straight_in_there_is_the_cross_slide_only(sheet_of):
    sheet = sheet_of({"tool: V1}": "tool: V1, infeed: {method: plunge}}"})
    assert sheet.ready
    assert all(row.compound is None for row in table_of(sheet).rows)
    assert sheet.figures["measure.correction"].value == 0.5


def test_steps_stay_below_the_depth_of_a_fine_thread(sheet_of):
    sheet = sheet_of()
    assert max(row.depth for row in table_of(sheet).rows) < sheet.passes[-1].depth


def test_a_sheet_that_may_not_be_run_has_no_table(sheet_of):
    sheet = sheet_of({"tool: V1}": "tool: V1, infeed: {angle: 40 deg}}"})
    assert not sheet.ready
    assert sheet.corrections is None
