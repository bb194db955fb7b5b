"""How far the work may stick out, and what support it wants: against beams of their own and closed forms."""

from __future__ import annotations

import math
import re
from types import SimpleNamespace

import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.modes import frequencies
from generator.calc.sections import second_moment
from generator.si import inch

E, RHO = 205e9, 7850.0
BAR = """\
job: T-5
title: Bar
units: inch
lathe: long-bed
material: 1045 steel
work:
  - {length: 11, od: 1.5}
holding:
  chuck: {jaws: 3, grip: 3}
limits: {diameter: 0.002}
operations:
  - turn: {diameter: 1.4, from_diameter: 1.5, length: 6}
"""
CLAMP = {"chuck_stiffness": SimpleNamespace(si=1e9, with_unit="-", where=None)}
RIGID = SimpleNamespace(si=1e12, with_unit="-", where=None)


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def plot_of(sheet):
    return next((plot for plot in sheet.plots if plot.id == "stick-out"), None)


@pytest.fixture
def bar_of(sheet_of):
    return lambda changes=None, house=None, **named: sheet_of(changes, BAR, house=house or CLAMP, **named)


def last_of(sheet):
    """Radial force of the last cut, as the working has it (N)."""
    return sheet.figures["give.stick_out.most"].working.put["F last"][0]


def turned(out):
    """The bar as turned, `out` of it standing out of a clamp (in)."""
    deep = max(out - 6, 0)
    pieces = [Segment(0.0, deep * inch, 1.5 * inch)] if deep else []
    pieces.append(Segment(deep * inch, out * inch, 1.4 * inch))
    return Beam(tuple(pieces), (Support(0.0, math.inf, 1e9),), E, RHO)


def error_of(sheet, out):
    """Diameter error of the last cut at the end of the bar, solved for this one stick-out (m)."""
    last = last_of(sheet)
    feed = last  # both shares are a half
    push, tilt, _ = turned(out).moved([out * inch], [out * inch])
    # the feed force, towards the chuck at the front, bends the end towards the tool
    return 2 * abs(last * push[0, 0] - feed * 0.75 * inch * tilt[0, 0])


@pytest.mark.parametrize("out", [6.5, 8, 10, 12])
def test_the_curve_is_a_beam_of_its_own_at_every_stick_out(bar_of, out):
    """Longer than its own length is what is in the jaws, drawn out."""
    far = {**CLAMP, "stick_out_check": SimpleNamespace(si=8.0, where=None)}  # 12 in, and a quarter more
    points = plot_of(bar_of(house=far)).curves[0].points
    after = next(number for number, (x, _) in enumerate(points) if x > out * inch)
    (x0, y0), (x1, y1) = points[after - 1], points[after]
    there = y0 + (y1 - y0) * (out * inch - x0) / (x1 - x0)
    assert there == pytest.approx(error_of(bar_of(), out), rel=5e-3)


def test_the_longest_stick_out_just_takes_a_quarter_of_the_tolerance(bar_of):
    sheet = bar_of()
    most = sheet.figures["give.stick_out.most"].value
    assert error_of(sheet, most / inch) == pytest.approx(0.0005 * inch, rel=2e-3)
    assert "limit" in [curve.kind for curve in plot_of(sheet).curves]


def test_working_of_the_longest_stick_out_multiplies_out(bar_of):
    put = bar_of().figures["give.stick_out.most"].working.put
    last, stiff, limit = (put[name][0] for name in (
        "F last", "stiffness under the tool", "quarter of the tolerance"
    ))
    assert 2 * last / stiff == pytest.approx(limit)


def test_the_rule_of_thumb_stands_beside_it(bar_of):
    assert bar_of().figures["give.stick_out.rule"].value == pytest.approx(4.5 * inch)
    own = {**CLAMP, "stick_out_check": SimpleNamespace(si=4.0, where=None)}
    assert bar_of(house=own).figures["give.stick_out.rule"].value == pytest.approx(6 * inch)
    assert "manuals" in bar_of().figures["give.stick_out.rule"].source


def test_the_stick_out_at_which_it_whips_is_a_safe_bound(bar_of):
    """The true critical speed there, from beam elements, leaves the share and little more."""
    slow = {**CLAMP, "speed_share_of_critical": SimpleNamespace(si=0.01, where=None)}
    sheet = bar_of(house=slow)
    at = sheet.figures["give.stick_out.speed"].value / inch
    step = sheet.figures["give.stick_out.speed"].working.put["n"][0]
    share = step / frequencies(turned(at), 1)[0]
    assert 0.0094 < share <= 0.01
    assert "give.stick_out.speed" not in bar_of().figures  # far off at the usual share


def test_without_a_tolerance_there_is_a_curve_and_no_limit(bar_of):
    sheet = bar_of({"limits: {diameter: 0.002}\n": ""})
    assert "give.stick_out.most" not in sheet.figures
    assert [curve.kind for curve in plot_of(sheet).curves] == ["main"]
    assert "nobody said" in plot_of(sheet).says


def test_the_plot_marks_where_it_stands_and_the_table_has_the_same(bar_of):
    plot = plot_of(bar_of())
    assert {mark.label for mark in plot.marks} == {"as it is", "rule of thumb", "quarter of the tolerance"}
    assert [row[1][0] for row in plot.rows] == sorted(row[1][0] for row in plot.rows)
    now = dict(plot.rows)["as it is"]
    assert now[0] == pytest.approx(8 * inch)
    assert all(one[0] < after[0] for one, after in zip(
        plot.curves[0].points, plot.curves[0].points[1:], strict=False
    ))


@pytest.mark.parametrize("more", ["  center: live", "  steady: {at: 1}"])
def test_supported_work_has_no_such_plot(bar_of, more):
    assert plot_of(bar_of({"grip: 3}": "grip: 3}\n" + more})) is None


# -- is a center enough -----------------------------------------------------------------------------------


def stiffness_of(sheet, key):
    figure = sheet.figures[f"give.support.{key}"]
    return 2 * figure.working.put["F last"][0] / figure.value


def test_the_error_alone_is_the_one_that_the_sheet_has_for_the_cut(bar_of):
    """Both are worked out from the same beam, here at fewer places."""
    sheet = bar_of()
    assert sheet.figures["give.support.alone"].value == pytest.approx(
        sheet.figures["holding.diameter_error.max"].value, rel=1e-3
    )


def test_a_center_is_the_propped_bar_of_print(sheet_of):
    """Plain bar, clamp and rigid center: 0.009812 P L³ ÷ E I at the worst place (Roark, table 8.1, 1c).

    A last cut of no depth to speak of, its feed force 0, all along the bar.
    """
    text = BAR.replace("length: 11, od: 1.5", "length: 33, od: 1.5").replace(
        "{diameter: 1.4, from_diameter: 1.5, length: 6}", "{diameter: 1.5, from_diameter: 1.6, length: 30}"
    )
    house = {**CLAMP, "center_stiffness": RIGID, "feed_force_share": SimpleNamespace(
        si=0.0, with_unit="0", where=None
    )}
    sheet = sheet_of({}, text, house=house)
    expected = 1 / (0.009812 * (30 * inch) ** 3 / (E * second_moment(1.5 * inch)))
    assert stiffness_of(sheet, "center") == pytest.approx(expected, rel=0.03)  # lift, and places between
    cantilever = 3 * E * second_moment(1.5 * inch) / (30 * inch) ** 3
    assert stiffness_of(sheet, "alone") == pytest.approx(cantilever, rel=0.03)


def test_more_support_never_gives_more(bar_of):
    figures = bar_of({"length: 11": "length: 25", "length: 6}": "length: 10}"}).figures
    alone, center, steady, both = (
        figures[f"give.support.{key}"].value for key in ("alone", "center", "steady", "center_and_steady")
    )
    assert both <= center * 1.001
    assert both <= steady * 1.001
    assert center < alone
    assert steady < alone
    assert figures["give.support.follow_rest"].value < center * 1.001


@pytest.mark.parametrize(
    ("length", "tolerance", "words"),
    [("11", "0.1", "alone keeps"), ("25", "0.004", "With a center"), ("60", "0.00002", "Not one of these")],
)
def test_the_least_support_that_will_do_is_named(bar_of, length, tolerance, words):
    sheet = bar_of({"length: 11": f"length: {length}", "diameter: 0.002": f"diameter: {tolerance}"})
    assert words in sheet.figures["give.support.least"].value


def test_the_least_is_the_first_whose_error_keeps_the_quarter(bar_of):
    """Read off the figures themselves, for a tolerance between each two of them."""
    order = ("alone", "center", "steady", "center_and_steady", "follow_rest")
    words = ("alone keeps", "With a center:", "With a steady rest", "With center and steady", "follow rest")
    long = {"length: 11": "length: 25", "length: 6}": "length: 10}"}
    errors = [bar_of(long).figures[f"give.support.{key}"].value / inch for key in order]
    for wanted in (0.9, 1.1):
        for error in errors:
            tolerance = 4 * error * wanted
            sheet = bar_of({**long, "diameter: 0.002": f"diameter: {tolerance:.9f}"})
            named = zip(words, errors, strict=True)
            least = next((word for word, one in named if one <= error * wanted), "Not one of these")
            assert least in sheet.figures["give.support.least"].value


def test_a_support_that_would_do_is_named_where_the_jobs_own_does_not(bar_of):
    long = {"length: 11": "length: 25"}
    assert re.search("With a center the last cut", found(bar_of(long))["support-wanted"].text)
    enough = {**long, "grip: 3}": "grip: 3}\n  center: live", "diameter: 0.002": "diameter: 0.02"}
    assert "support-wanted" not in found(bar_of(enough))


def test_the_steady_rest_of_the_job_is_taken_where_it_stands(bar_of):
    sheet = bar_of({"length: 11": "length: 25", "grip: 3}": "grip: 3}\n  steady: {at: 14}"})
    assert "14.000 in" in sheet.figures["give.support.steady"].note


def test_between_centers_nothing_is_alone(bar_of):
    sheet = bar_of({
        "chuck: {jaws: 3, grip: 3}": "centers: {dog: 1}\n  center: live", "length: 11": "length: 30",
    })
    names = {name for name in sheet.figures if name.startswith("give.support")}
    assert "give.support.alone" not in names
    assert "give.support.steady" not in names
    assert {"give.support.center", "give.support.center_and_steady", "give.support.follow_rest"} <= names
    assert "between centers" in sheet.figures["give.support.center"].label


def test_a_lathe_without_rests_has_no_figures_for_them(bar_of):
    names = bar_of({"length: 11": "length: 25"}, lathe={"steady": None, "follow_rest": None}).figures
    assert "give.support.center" in names
    assert "give.support.steady" not in names
    assert "give.support.follow_rest" not in names


def test_stout_work_that_holds_its_tolerance_is_not_asked_how_to_support_it(bar_of):
    sheet = bar_of({"length: 11, od: 1.5": "length: 6, od: 4", "1.4, from_diameter: 1.5, length: 6":
                    "3.9, from_diameter: 4, length: 2", "diameter: 0.002": "diameter: 0.05"})
    assert not [name for name in sheet.figures if name.startswith("give.support")]


@pytest.mark.parametrize(("length", "wants"), [("7", "chuck alone"), ("11", "center"), ("30", "steady rest")])
def test_the_rule_of_thumb_for_its_diameters(bar_of, length, wants):
    sheet = bar_of({
        "length: 11": f"length: {length}", "length: 6}": "length: 3}", "diameter: 0.002": "diameter: 0.00001"
    })
    assert wants in sheet.figures["give.support.rule"].value


def test_unknown_material_or_nothing_turned_has_none_of_it(bar_of):
    assert plot_of(bar_of({"material: 1045 steel": "material: unknown"})) is None
    faced = bar_of({"turn: {diameter: 1.4, from_diameter: 1.5, length: 6}": "face: {end: right}"})
    assert plot_of(faced) is None


def test_a_bore_is_not_supported_by_a_center(bar_of):
    bored = {
        "length: 11, od: 1.5": "length: 25, od: 3, bore: 1",
        "turn: {diameter: 1.4, from_diameter: 1.5, length: 6}": "bore: {diameter: 1 1/8, length: 4}",
    }
    names = {name for name in bar_of(bored).figures if name.startswith("give.support")}
    assert {"give.support.alone", "give.support.steady"} <= names
    assert names.isdisjoint({f"give.support.{key}" for key in ("center", "center_and_steady", "follow_rest")})


def test_a_follow_rest_is_named_for_what_it_takes_only(bar_of):
    """Up to 4 in, as its record says."""
    for od, takes in (("3.9", True), ("4.5", False)):
        sheet = bar_of({
            "length: 11, od: 1.5": f"length: 30, od: {od}",
            "1.4, from_diameter: 1.5, length: 6": f"{float(od) - 0.1}, from_diameter: {od}, length: 6",
        })
        assert ("give.support.follow_rest" in sheet.figures) == takes


@pytest.mark.parametrize("key", ["steady", "center_and_steady"])
def test_the_steady_rest_that_is_thought_of_stands_at_a_good_place(bar_of, key):
    """No other place that leaves carriage and tool their room is better."""
    center = "\n  center: live" if key == "center_and_steady" else ""
    long = {"length: 11": "length: 43", "length: 6}": "from_end: 16, length: 4}"}
    thought = bar_of({**long, "grip: 3}": f"grip: 3}}{center}"}).figures[f"give.support.{key}"]
    at = float(re.search(r"([0-9.]+) in", thought.note).group(1))
    tried = 0
    for other in (at - 6, at - 1, at + 1, at + 6):
        placed = {**long, "grip: 3}": f"grip: 3}}{center}\n  steady: {{at: {other:.3f}}}"}
        sheet = bar_of(placed)
        if found(sheet).keys().isdisjoint({"steady-place", "carriage-meets-steady", "cut-passes-steady"}):
            tried += 1
            assert thought.value <= sheet.figures[f"give.support.{key}"].value
    assert tried >= 2


def test_the_cut_that_asks_most_for_its_tolerance_decides(sheet_of):
    """The thread, whose tolerance is closer than that of the diameter turned before it."""
    sheet = sheet_of({"mate:": "limits: {diameter: 0.1}\nmate:"})
    assert "operation 3" in sheet.figures["give.support.least"].value
    close = sheet_of({"mate:": "limits: {diameter: 0.000001}\nmate:"})
    assert "operation 1" in close.figures["give.support.least"].value


def test_work_that_stands_out_little_is_not_asked_how_far_it_may(bar_of):
    ring = {"length: 11, od: 1.5": "length: 4, od: 4", "1.4, from_diameter: 1.5, length: 6":
            "3.9, from_diameter: 4, length: 0.9"}
    assert plot_of(bar_of(ring)) is None
    assert plot_of(bar_of({**ring, "diameter: 0.002": "diameter: 0.0000001"})) is not None


def test_no_center_is_proposed_for_a_bore_that_none_fits(bar_of):
    tube = {
        "length: 11, od: 1.5": "length: 30, od: 7, bore: 6 1/4",
        "1.4, from_diameter: 1.5": "6.9, from_diameter: 7",
    }
    names = {name for name in bar_of(tube).figures if name.startswith("give.support.")}
    assert "give.support.alone" in names
    assert "give.support.center" not in names


def test_a_hollow_end_takes_a_pipe_center(bar_of):
    long = {"length: 11, od: 1.5": "length: 25, od: 1.5, bore: 1/2"}
    assert "pipe center" in bar_of(long).figures["give.support.center"].label
    assert "pipe" not in bar_of({"length: 11": "length: 25"}).figures["give.support.center"].label


def test_a_wire_that_bends_away_has_no_deflection_and_no_error_to_its_name(bar_of):
    wire = {"length: 11, od: 1.5": "length: 60, od: 0.05", "1.4, from_diameter: 1.5, length: 6":
            "0.04, from_diameter: 0.05, length: 50"}
    sheet = bar_of(wire)
    figure = sheet.figures["give.support.alone"]
    assert figure.value is None
    assert "bends away" in figure.note
    assert sheet.figures["holding.deflection.max"].value is None
    assert sheet.figures["holding.diameter_error.max"].value is None
    assert [one.level for one in sheet.findings if one.id == "climbs"] == ["stop"]
    assert plot_of(sheet) is None
