"""Wires laid in other ways: three, two, one, on a taper; the groove of square threads; balls of the shop."""

from __future__ import annotations

import math

import pytest

from generator.calc import wires
from generator.calc.flanks import Flanks
from generator.render.page import render_page
from generator.sheet.figure import Kind
from generator.si import degree, inch, mm

PIN = "2 1/4-8 UN-2A"
UNKNOWN = {"mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}": "mate: unknown"}
HEAD = """\
job: T-1
title: A thread
units: inch
lathe: long-bed
material: 1045 steel
material_known_by: stamp
mate: unknown
duty: {said: carries water, by: customer}
"""
RING = HEAD + """\
work:
  - {length: 3, od: 4}
  - {length: 1 3/4, od: 4, bore: 1.880}
holding:
  chuck: {jaws: 4, grip: 1 1/2}
operations:
  - thread: {designation: 2-8 UN-2B, length: 1, inside: yes}
"""
NIPPLE = HEAD + """\
work:
  - {length: 6, od: 2.375}
  - {length: 1 1/2, od: 2.375}
holding:
  chuck: {jaws: 4, grip: 3}
operations:
  - thread: {designation: 2 NPT, length: 1.06}
"""
BUSH = RING.replace("1.880", "2 1/8").replace("2-8 UN-2B", "2 NPT internal")


def value(sheet, name):
    return sheet.figures[name].value / inch


@pytest.fixture
def cut(sheet_of):
    """The pin's sheet with another thread on it."""
    return lambda thread, changes=(), **named: sheet_of(
        {PIN: thread, "length: 2 1/2,": "length: 2 1/2 in,", **UNKNOWN, **dict(changes)}, **named
    )


def test_two_wires_and_one_from_three(cut):
    """W + √((M − W)² + (P/2)²) by a rocked micrometer; (M + d)/2 over the crests (common practice)."""
    sheet = cut(PIN)
    for end in ("max", "min"):
        three, wire = value(sheet, f"thread.over_wires.{end}"), value(sheet, "thread.wire.size")
        across = math.hypot(three - wire, 1 / 16) + wire
        assert value(sheet, f"measure.two_wires.{end}") == pytest.approx(across)
        crests = value(sheet, "thread.blank")
        assert value(sheet, f"measure.one_wire.{end}") == pytest.approx((three + crests) / 2)
    assert "rock the micrometer" in sheet.figures["measure.two_wires.max"].note
    assert "measure the crests" in sheet.figures["measure.one_wire.max"].note
    assert "neighboring grooves" in sheet.figures["measure.three_wires"].value


def test_the_crests_go_in_as_measured(cut):
    """Over the crest diameter that was written down: the blank, with who measured it."""
    sheet = cut(PIN, {"tool: V1": "tool: V1, blank: {value: 2.2440, by: machinist 2, with: micrometer}"})
    three = value(sheet, "thread.over_wires.max")
    assert value(sheet, "measure.one_wire.max") == pytest.approx((three + 2.2440) / 2)
    assert sheet.figures["measure.one_wire.max"].working.put["d"][0] == pytest.approx(2.2440 * inch)


def test_an_even_number_of_starts(cut):
    """Groove faces groove: two wires read as three, and the pair on one side leaves a groove free."""
    sheet = cut("2.25-0.125P-0.25L UN-2A")
    assert value(sheet, "measure.two_wires.max") == value(sheet, "thread.over_wires.max")
    assert "straight across" in sheet.figures["measure.two_wires.max"].note
    assert "one groove between them" in sheet.figures["measure.three_wires"].value
    assert "groove faces groove" in sheet.figures["measure.three_wires"].note


def test_where_three_wires_do_not_do(cut):
    """The anvil of a quarter inch, and two pitches of thread beside the wires: common practice."""
    assert "anvil" not in cut(PIN).figures["measure.three_wires"].note
    assert "gauge block" in cut("2 1/4-4 UN-2A").figures["measure.three_wires"].note
    short = cut(PIN, {"length: 2 1/2 in": "length: 1/4"})
    assert "too short for three" in short.figures["measure.three_wires"].note


@pytest.mark.parametrize(
    ("thread", "form", "says"),
    [
        (PIN, "simple", "the simple form"),
        ("2 1/4-4-ACME-2G", "lead angle", "up to 5°"),
        ("2.25-0.25P-0.75L-ACME-2G", "exact", "at 6.4°, above 5°"),
    ],
)
def test_what_the_lead_angle_adds_is_said_with_the_form(cut, thread, form, says):
    """Exact less simple, whichever form the sizes are by; limits go by the form that is named."""
    sheet = cut(thread)
    added = sheet.figures["thread.wire.lead_correction"]
    assert says in added.note
    put = {name: size for name, (size, _) in added.working.put.items()}
    assert added.value == pytest.approx(put["exact size"] - put["simple size"])
    assert added.value > 0
    diameter, wire = value(sheet, "thread.pitch_diameter.max"), value(sheet, "thread.wire.size")
    pitch, lead = value(sheet, "thread.pitch"), value(sheet, "thread.lead")
    flanks = Flanks.alike((30 if "UN" in thread else 14.5) * degree)
    by = {
        "simple": lambda: wires.over_wires_simple(diameter, wire, pitch, flanks),
        "lead angle": lambda: wires.over_wires_with_lead(diameter, wire, pitch, lead, flanks),
        "exact": lambda: wires.over_wires_exact(diameter, wire, pitch, lead, flanks),
    }[form]()
    assert value(sheet, "thread.over_wires.max") == pytest.approx(by, abs=0.5001e-4)


@pytest.mark.parametrize(
    ("thread", "factor", "pitches"), [("2.25-8 BUTT-2A", 3.15689, 0.89064), ("S60x8-7h", 4.42366, 1.58792)]
)
def test_buttress_and_sawtooth_threads_over_wires(cut, thread, factor, pitches):
    """7/45 degrees: E − 0.89064 P + 3.15689 W (ASME B1.9, from memory); 3/30 by the same formula."""
    sheet = cut(thread)
    wire, pitch = value(sheet, "thread.wire.size"), value(sheet, "thread.pitch")
    added = value(sheet, "thread.wire.lead_correction") if "lead-angle form" in sheet.figures[
        "thread.wire.lead_correction"].note else 0.0
    for end in ("max", "min"):
        expected = value(sheet, f"thread.pitch_diameter.{end}") - pitches * pitch + factor * wire + added
        assert value(sheet, f"thread.over_wires.{end}") == pytest.approx(expected, abs=1e-4)
    assert "ASME B1.9" in sheet.figures["thread.over_wires.max"].source
    assert "<svg" in render_page(sheet)


def test_the_shops_wire_that_clears_crest_and_root(cut):
    """Stub Acme grooves are shallow: the best wire would lie on the root (geometry)."""
    sheet = cut("2 1/4-4 STUB ACME", {", tool: V1": ""})
    best, used = value(sheet, "thread.wire.best"), value(sheet, "thread.wire.size")
    below = (value(sheet, "thread.pitch_diameter.min") - value(sheet, "thread.root")) / 2
    seat = 1 / math.sin(14.5 * degree)
    bottom = used / 2 * (seat - 1) - 0.25 / 4 / math.tan(14.5 * degree)
    assert used > best
    assert bottom > -below


@pytest.mark.parametrize("thread", ["2 1/4-4 SQUARE", "2.25-0.25P-0.5L SQUARE", "SQ 56x6"])
def test_square_grooves_are_measured_across(cut, thread):
    """P/2 and the play of practice along the axis; a gauge block lies square to the groove: times cos λ."""
    sheet = cut(thread)
    assert not [name for name in sheet.figures if "wires" in name or "balls" in name]
    pitch, unit = value(sheet, "thread.pitch"), mm / inch if "SQ 56" in thread else 1.0
    plays = (0.08 * unit, 0.02 * unit) if "SQ 56" in thread else (0.003, 0.001)
    for end, play, does in zip(("max", "min"), plays, ("does not go in", "goes in"), strict=True):
        figure = sheet.figures[f"measure.groove_width.{end}"]
        assert figure.value / inch == pytest.approx(pitch / 2 + play, abs=1e-6)
        lead = math.atan(value(sheet, "thread.lead") / math.pi / value(sheet, "thread.pitch_diameter.max"))
        block = figure.value / inch * math.cos(lead)
        assert (f"{block:.4f} in" in figure.note) or (f"{block / unit:.3f} mm" in figure.note)
        assert does in figure.note


def test_a_square_groove_without_limits(cut):
    sheet = cut("special 2.25-6 0deg")
    assert value(sheet, "measure.groove_width") == pytest.approx(1 / 12)


def test_three_wires_on_a_taper(sheet_of):
    """M = (E − 0.866025 P)/1.00049 + ... at the hand-tight plane (Machinery's Handbook, 31st ed., p. 2138).

    2-11 1/2 NPT: E1 2.29627, L1 0.436 (ASME B1.20.1), one turn of the gauge either way P/16.
    """
    sheet = sheet_of(text=NIPPLE)
    wire, pitch = value(sheet, "measure.taper_wires.size"), 1 / 11.5
    assert value(sheet, "measure.taper_wires.at") == pytest.approx(0.436)
    for end, sign in (("max", 1), ("min", -1)):
        local = 2.29627 + sign * pitch / 16
        expected = (local - 0.866025 * pitch + wire * (1.00049 + 2)) / 1.00049
        assert value(sheet, f"measure.taper_wires.{end}") == pytest.approx(expected, abs=3e-5)
    assert "gauge decides" in sheet.figures["measure.taper_wires.max"].note
    assert "<svg" in render_page(sheet)
    assert not [name for name in sheet_of(text=BUSH).figures if "wire" in name]


def test_balls_of_the_shop(sheet_of, shop):
    """The nearest usable one of the shop's set; without one that fits, the best ball, which is said."""
    ball = sheet_of(text=RING).figures["thread.balls.size"]
    assert ball.value == pytest.approx(5 / 64 * inch)
    assert ball.kind is Kind.SHOP
    for own, says in (([], "records no balls"), (shop.tools.balls[:1], "fits")):
        tools = shop.tools.model_copy(update={"balls": own})
        best = sheet_of(text=RING, tools=tools).figures["thread.balls.size"]
        assert best.kind is Kind.ASSUMED
        assert says in best.source
        assert best.value == pytest.approx(0.57735 / 8 * inch, abs=1e-9)


def test_balls_with_a_steep_lead(sheet_of):
    """Four starts: the exact form, which reads less than the axial section has it."""
    sheet = sheet_of({"2-8 UN-2B": "2-0.125P-0.5L UN-2B"}, RING)
    taken = sheet.figures["thread.balls.lead_correction"]
    assert "exact form" in taken.note
    circle = value(sheet, "thread.pitch_diameter.min") - 2 * 5 / 64 + 0.866025 / 8
    between = value(sheet, "thread.between_balls.min") + 5 / 64
    assert between == pytest.approx(circle - taken.value / inch, abs=2e-5)
    assert taken.value / inch > 0.00015
