"""The tailstock center: what it carries, what it has to push with, and what bends the work out."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from generator.calc.sections import second_moment
from generator.sheet.figure import Kind
from generator.si import inch, lb, lbf

E, G = 205e9, 9.80665
BAR = """\
job: T-4
title: Bar
units: inch
lathe: long-bed
material: 1045 steel
work:
  - {length: 60, od: 1, surface: turned}
holding:
  centers: {dog: 1}
  center: live
operations:
  - turn: {diameter: 0.9, from_diameter: 1, length: 60}
"""
CHUCKED = {"centers: {dog: 1}": "chuck: {jaws: 3, grip: 3}", "length: 60}\n  ": "length: 50}\n  "}


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


@pytest.fixture
def bar_of(sheet_of):
    return lambda changes=None, **named: sheet_of(changes, BAR, **named)


def forces_of(sheet):
    """Main, radial and feed force of the largest cut, from the operation's own figure and the shares."""
    main = sheet.figures["operation.1.force"].value
    shares = (sheet.figures[f"holding.{name}"].value for name in ("turning_thrust_share", "feed_force_share"))
    return (main, *(share * main for share in shares))


def test_the_center_carries_the_cut_beside_it_and_half_the_weight(bar_of):
    """Between centers, statics: the cut at the end, its feed force at its radius, half the weight."""
    sheet = bar_of()
    main, radial, feed = forces_of(sheet)
    weight = sheet.figures["holding.weight"].value * G
    level = radial + feed * 0.5 * inch / (60 * inch)
    expected = math.hypot(level, main - weight / 2)
    assert sheet.figures["give.center.force"].value == pytest.approx(expected, rel=1e-3)


def test_between_centers_the_feed_takes_from_the_push(bar_of):
    sheet = bar_of()
    _, _, feed = forces_of(sheet)
    across = sheet.figures["give.center.force"].value
    least = sheet.figures["give.center.least_push"].value
    assert least == pytest.approx(2 * across * math.tan(math.radians(30)) + feed)
    held = bar_of({"centers: {dog: 1}": "chuck: {jaws: 3, grip: 3}", "1, length: 60}": "1, length: 50}"})
    across, least = (held.figures[f"give.center.{name}"].value for name in ("force", "least_push"))
    assert least == pytest.approx(2 * across * math.tan(math.radians(30)))


HEAVY = {
    "{length: 60, od: 1,": "{length: 60, od: 12,", "diameter: 0.9, from_diameter: 1, length: 60":
    "diameter: 11.99, from_diameter: 12, length: 6, feed: 0.003 in/rev",
}


def test_a_heavy_roll_weighs_on_the_center_more_than_the_cut(bar_of):
    sheet = bar_of(HEAVY)
    figure = sheet.figures["give.center.force"]
    pounds = 2.673 * 144 * 5  # lb/ft of steel rounds from a handbook
    assert figure.value == pytest.approx(pounds / 2 * lb * G, rel=2e-3)
    assert "weight" in figure.label
    least = 2 * figure.value * math.tan(math.radians(30)) + forces_of(sheet)[2]  # and the feed takes its part
    assert sheet.figures["give.center.least_push"].value == pytest.approx(least)


@pytest.mark.parametrize(("push", "level"), [("10 lbf", "stop"), (None, None), ("900 lbf", None)])
def test_a_push_that_does_not_seat_the_center_is_found(bar_of, push, level):
    changes = {} if push is None else {"center: live": f"center: live\n  center_push: {push}"}
    sheet = bar_of(changes)
    finding = found(sheet).get("center-push-low")
    assert (finding.level if finding else None) == level
    said = sheet.figures["give.center.push"]
    assert said.kind is (Kind.ASSUMED if push is None else Kind.GIVEN)


def test_a_push_that_nobody_said_and_that_may_not_do_is_asked_about(bar_of):
    """A roll of 1.6 t: half of it would climb off a center that is only snug."""
    assert found(bar_of(HEAVY))["center-push-low"].level == "check"
    assert "taken as" in found(bar_of(HEAVY))["center-push-low"].text


def test_a_push_that_only_half_seats_it_is_asked_about(bar_of):
    least = bar_of().figures["give.center.least_push"].value
    _, _, feed = forces_of(bar_of())
    between = ((least - feed) * 0.75 + feed) / lbf
    assert found(bar_of({"center: live": f"center: live\n  center_push: {between:.0f} lbf"}))[
        "center-push-low"
    ].level == "check"


def test_work_in_a_chuck_is_not_thrown_when_it_climbs_off(bar_of):
    chucked = {"centers: {dog: 1}": "chuck: {jaws: 3, grip: 3}", "1, length: 60}": "1, length: 50}"}
    sheet = bar_of({**chucked, "center: live": "center: live\n  center_push: 10 lbf"})
    assert "whips" in found(sheet)["center-push-low"].text
    thrown = bar_of({"center: live": "center: live\n  center_push: 10 lbf"})
    assert "thrown" in found(thrown)["center-push-low"].text


def test_the_houses_own_push_is_taken(bar_of):
    own = SimpleNamespace(si=4321.0, with_unit="4321 N", where=None)
    figure = bar_of(house={"center_push": own}).figures["give.center.push"]
    assert (figure.value, figure.kind) == (4321.0, Kind.SHOP)


def test_buckling_push_is_eulers_of_print_between_centers(bar_of):
    """π² E I ÷ L² (Gere, Mechanics of Materials, chapter 11)."""
    stiff = {"center_stiffness": SimpleNamespace(si=1e12, with_unit="-", where=None)}
    sheet = bar_of({"center: live": "center: live\n  center_push: 500 lbf"}, house=stiff)
    expected = math.pi**2 * E * second_moment(inch) / (60 * inch) ** 2
    assert sheet.figures["give.center.buckling"].value == pytest.approx(expected, rel=1e-4)
    share = sheet.figures["give.center.buckling_share"].value
    assert share == pytest.approx(500 * lbf / expected, rel=1e-4)


def test_push_lowers_the_critical_speed_as_print_has_it(bar_of):
    """Two hinges: f = f0 √(1 − P ÷ P Euler) (Timoshenko, Vibration Problems in Engineering)."""
    sheet = bar_of({"center: live": "center: live\n  center_push: 2000 lbf"})
    share = sheet.figures["give.center.buckling_share"].value
    lowered = sheet.figures["give.center.critical_speed"].value
    assert 0.2 < share < 0.5
    assert lowered == pytest.approx(
        sheet.figures["holding.critical_speed"].value * math.sqrt(1 - share), rel=2e-3
    )


@pytest.mark.parametrize(("push", "level"), [("1100 lbf", "check"), ("9000 lbf", "stop"), ("900 lbf", None)])
def test_a_push_that_bends_the_work_out_is_found(bar_of, push, level):
    sheet = bar_of({"center: live": f"center: live\n  center_push: {push}"})
    finding = found(sheet).get("center-buckling")
    assert (finding.level if finding else None) == level


def test_stout_work_has_no_buckling_figures(bar_of):
    sheet = bar_of({
        "{length: 60, od: 1,": "{length: 12, od: 3,",
        "diameter: 0.9, from_diameter: 1, length: 60": "diameter: 2.9, from_diameter: 3, length: 12",
    })
    assert "give.center.buckling" not in sheet.figures
    assert "give.center.push" in sheet.figures


def test_a_live_center_that_carries_too_much_is_found(bar_of, shop):
    tailstock = shop.lathes["long-bed"].tailstock
    most = SimpleNamespace(si=100.0, with_unit="100 N", where=None)
    weak = tailstock.model_copy(update={"center_load": most})
    sheet = bar_of(lathe={"tailstock": weak})
    assert "100 N" in found(sheet)["center-load"].text
    more = SimpleNamespace(si=1e6, with_unit="1 MN", where=None)
    strong = tailstock.model_copy(update={"center_load": more})
    assert "center-load" not in found(bar_of(lathe={"tailstock": strong}))
    assert "center-load" not in found(bar_of({"center: live": "center: dead"}, lathe={"tailstock": weak}))


def test_no_center_no_figures(sheet_of):
    names = sheet_of({"  center: live\n": ""}).figures
    assert not [name for name in names if name.startswith("give.center")]


def test_unknown_material_leaves_the_push(bar_of):
    sheet = bar_of({"material: 1045 steel": "material: unknown"})
    assert sheet.figures["give.center.force"].kind is Kind.UNKNOWN
    assert sheet.figures["give.center.push"].value > 0


def test_in_a_chuck_the_feed_force_tips_the_work_against_center_and_jaws(bar_of):
    """A moment M at the end of a bar from a clamp to a center loads it with 3 M ÷ 2 L (Roark, table 8.1)."""
    stiff = SimpleNamespace(si=1e12, with_unit="-", where=None)
    sheet = bar_of(
        {"centers: {dog: 1}": "chuck: {jaws: 3, grip: 3}", "0.9, from_diameter: 1, length: 60":
         "0.9, from_diameter: 1, length: 57"},
        house={"chuck_stiffness": stiff, "center_stiffness": stiff},
    )
    put = sheet.figures["give.center.force"].working.put
    assert put["lever"][0] == pytest.approx(57 * inch / 1.5, rel=2e-3)
    assert put["share"][0] == pytest.approx(1.0, rel=1e-3)
