"""Crests that come out sharp are said, drawn and do not stop the page."""

from __future__ import annotations

import pytest

from generator.render.page import render_page
from generator.si import inch


def found(sheet):
    return [finding for finding in sheet.findings if finding.id == "crest-sharp"]


def test_a_blank_a_little_too_large_comes_out_sharp(sheet_of):
    """At most H over the pitch line is there for a crest: 2.1664 + 2 x 0.4330 x 0.125 (ASME B1.1)."""
    sheet = sheet_of({"tool: V1}": "tool: V1, blank: 2.290}"})
    pitch_diameter = sheet.figures["passes.final_pitch_diameter"].value / inch
    (said,) = found(sheet)
    crest = pitch_diameter + 0.8660254 * 0.125
    assert f"{crest:.4f} in" in said.text
    assert said.level == "check"
    assert "<svg" in render_page(sheet)


@pytest.mark.parametrize("blank", ["2.2476", "2.2400", "2.265"])
def test_a_crest_with_a_flat_is_not_spoken_of(sheet_of, blank):
    assert not found(sheet_of({"tool: V1}": f"tool: V1, blank: {blank}}}"}))
