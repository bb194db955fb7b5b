"""The tool that a thread wants: nose, sides, tilt, roughing; which flank leads; the infeed of every form."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from generator.sheet.figure import Kind
from generator.si import degree, inch, mm

THREAD = "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1"
HOUSE = {"compound_angle": None}


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def pin(designation, more=""):
    """The pin of 2 1/4 in with another thread on it, no tool named."""
    return {THREAD: f"designation: {designation}, length: 1 1/2 in{more}", "2 1/4-8 UN-2B": "unknown"}


def tools(shop, **entries):
    """The shop's tools with entries of V1 changed."""
    first, *rest = shop.tools.threading
    return shop.tools.model_copy(update={"threading": [first.model_copy(update=entries), *rest]})


def test_a_unified_thread_wants_few_figures(sheet_of):
    """By hand: root 2.074932 in, blank 2.24385, lead 1/8: atan(0.125 / (pi d)) = 1.0985° and 1.0158°.

    3 degrees left free on either side: common practice, no source.
    """
    figures = sheet_of().figures
    assert [name for name in figures if name.startswith("cut.")] == [
        "cut.included_angle", "cut.nose.most", "cut.clearance.leading", "cut.clearance.trailing",
    ]
    assert figures["cut.included_angle"].value / degree == pytest.approx(60)
    assert figures["cut.nose.most"].value / inch == pytest.approx(0.125 / 4)  # ASME B1.1: basic root flat P/4
    assert figures["cut.clearance.leading"].value / degree == pytest.approx(4.0985, abs=2e-4)
    assert figures["cut.clearance.trailing"].value / degree == pytest.approx(1.9842, abs=2e-4)
    assert "headstock" in figures["cut.clearance.leading"].label


def test_a_left_hand_thread_leads_on_the_other_side(sheet_of):
    sheet = sheet_of({"2 1/4-8 UN-2A": "2 1/4-8 UN-2A-LH", "2 1/4-8 UN-2B": "2 1/4-8 UN-2B-LH"})
    assert "tailstock" in sheet.figures["cut.clearance.leading"].label
    assert sheet.figures["cut.clearance.leading"].value / degree == pytest.approx(4.0985, abs=2e-4)


@pytest.mark.parametrize(("ground", "found"), [(3, True), (4, False)])
def test_a_tool_that_leans_back_too_little_is_found(sheet_of, shop, ground, found):
    """Wanted 4.0985° along the work; square to an edge at 30° that is 3.55°."""
    angle = replace(shop.tools.threading[0].angle, si=ground * degree)
    sheet = sheet_of(tools=tools(shop, side_clearance=angle))
    assert ("side-clearance" in ids(sheet)) == found


def test_acme_limits_of_the_nose_and_its_roughing(sheet_of):
    """2 1/4-4 Acme-2G by hand (ASME B1.5): es = 0.008 √2.25 = 0.0120, d2 max 2.1130; minor max 1.9800.

    Widest flat: 0.125 − tan 14.5° × (2.1130 − 1.9800) = 0.0906 in. A usual Acme point is 0.0875 in.
    Slot: flat − 2 × 0.15 mm.
    """
    sheet = sheet_of(pin("2 1/4-4 ACME-2G"))
    figures = sheet.figures
    assert figures["cut.nose.most"].value / inch == pytest.approx(0.0906, abs=5e-5)
    assert figures["cut.nose.least"].value < figures["thread.tool.nose_flat"].value
    slot = figures["cut.rough.width"].value
    assert slot == pytest.approx(figures["thread.tool.nose_flat"].value - 0.3 * mm)
    assert figures["cut.rough.depth"].value == pytest.approx(figures["thread.depth"].value - 0.15 * mm)
    top = figures["thread.tool.nose_flat"].value + 2 * figures["thread.depth"].value * math.tan(14.5 * degree)
    assert figures["cut.rough.side_steps"].value == math.ceil((top - slot) / 2 / (0.15 * mm))
    assert figures["passes.infeed_angle"].value / degree == pytest.approx(14.0)


@pytest.mark.parametrize(
    ("designation", "angle"),
    [("2 1/4-8 UN-2A", 29.5), ("2 1/4-4 BSW", 27.0), ("2 1/4-4 ACME-2G", 14.0), ("M56x5.5", 29.5),
     ("Tr 56x8", 14.5), ("2 1/4-4 SQUARE", 0.0), ("2 1/4-4 BUTT-2A", 44.5), ("M56x0.75-6g", 0.0)],
)
def test_the_infeed_of_every_form(sheet_of, designation, angle):
    """Common practice: half a degree under the half angle, square and fine threads straight in."""
    sheet = sheet_of(pin(designation), house=HOUSE)
    figure = sheet.figures["passes.infeed_angle"]
    assert figure.value / degree == pytest.approx(angle)
    assert figure.kind is Kind.ASSUMED
    travel, depth = sheet.figures["passes.travel"].value, sheet.figures["passes.depth"].value
    assert depth == pytest.approx(travel * math.cos(angle * degree))


@pytest.mark.parametrize(("designation", "angle"), [("2 1/4-4 BSW", 26.5), ("2 1/4-4 ACME-2G", 13.5)])
def test_the_shops_angle_is_for_sixty_degrees(sheet_of, shop, designation, angle):
    """29 for 60 degrees takes a degree off 30; so it does off any half angle."""
    own = shop.house.compound_angle
    sheet = sheet_of(pin(designation), house={"compound_angle": replace(own, si=29 * degree)})
    assert sheet.figures["passes.infeed_angle"].value / degree == pytest.approx(angle)
    assert sheet.figures["passes.infeed_angle"].kind is Kind.SHOP


@pytest.mark.parametrize(
    ("more", "flank", "towards"),
    [
        ("", 7, "headstock"), (", load_flank: tailstock", 7, "headstock"),
        (", load_flank: chuck", 45, "tailstock"),
    ],
)
def test_a_buttress_tool_leads_with_the_flank_that_the_load_says(sheet_of, more, flank, towards):
    """Load flanks that look at the tailstock are cut by the headstock side, which leads; the compound feeds
    along the clearance flank, towards the load flank."""
    sheet = sheet_of(pin("2 1/4-4 BUTT-2A", more))
    assert sheet.figures["cut.leading_flank"].value / degree == pytest.approx(flank)
    assert ("load-flank" in ids(sheet)) == (not more)
    assert any(f"towards the {towards}" in remark for remark in sheet.pass_remarks)
    assert sheet.figures["cut.included_angle"].value / degree == pytest.approx(52)


def test_a_steep_lead_wants_a_tilted_tool(sheet_of):
    """Tr 56x24(P8): atan(24 / (pi d)) is 9.27° at the root, 8.4° at 52, 7.77° at 56; 15° becomes 14.84°."""
    sheet = sheet_of(pin('"Tr 56x24(P8)"'))
    found = ids(sheet)["tool-tilt"].text
    assert "8.4 degrees" in found
    assert sheet.figures["cut.tilted_angle"].value / degree == pytest.approx(29.69, abs=0.02)
    leading, trailing = (sheet.figures[f"cut.clearance.{side}"].value for side in ("leading", "trailing"))
    assert leading / degree == pytest.approx(3 + (9.27 - 8.40), abs=0.05)
    assert trailing / degree == pytest.approx(3 + (8.40 - 7.77), abs=0.05)
    assert "tool-tilt" not in ids(sheet_of())


def test_a_whitworth_root_wants_a_radius(sheet_of):
    """BS 84: 0.137329 P; at most what clears the nut, at least what keeps the minor diameter."""
    figures = sheet_of(pin("2 1/4-4 BSW")).figures
    usual = 0.137329 * inch / 4
    assert figures["cut.nose.least"].value < usual <= figures["cut.nose.most"].value * 1.001
    assert "radius" in figures["cut.nose.most"].label
