"""Where the steady rest stands: the beam solved again at every place, and what bars a place."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from generator.sheet.holding import section
from generator.sheet.holding.steady_places import barred, cuts_with_steady, place_fault, tool_places
from generator.si import inch

LONG = {
    "{length: 11 5/8, od: 2.75}": "{length: 40, od: 2.75, surface: turned}",
    "  center: live": "  steady: {at: auto}\n  hold_back: yes",
}
CENTERED = {**LONG, "  center: live": "  steady: {at: auto}\n  center: live"}
STEPPED = {
    **LONG,
    "{length: 11 5/8, od: 2.75}": "{length: 14, od: 3 1/4, bore: 1, surface: turned}\n"
    "  - {length: 10, od: 2 7/8, bore: 1, surface: turned}\n  - {length: 16, od: 2.75, surface: turned}",
}


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def plot_of(sheet):
    return next(plot for plot in sheet.plots if plot.id == "steady")


@pytest.fixture
def held_of(sheet_of, monkeypatch):
    """The work as held, and its bench, of a job."""

    def make(*args, **named):
        seen = {}
        real = section.steady_section

        def watch(held, bench):
            seen["held"], seen["bench"] = held, bench
            return real(held, bench)

        monkeypatch.setattr(section, "steady_section", watch)
        sheet = sheet_of(*args, **named)
        return seen["held"], seen["bench"], sheet

    return make


def brute_force(held, x):
    """Largest deflection along the cut with the steady rest at x: the beam solved for this place."""
    return max(abs(float(give)) for give in held.beam(x).under_tool(1.0, tool_places(held)))


@pytest.mark.parametrize("changes", [LONG, CENTERED, STEPPED], ids=["chuck alone", "center", "stepped"])
def test_the_curve_is_the_whole_beam_solved_again_at_every_place(held_of, changes):
    """One solution for all places against a solution of its own for each."""
    held, bench, sheet = held_of(changes)
    curve = plot_of(sheet).curves[0].points
    radial = 0.6 * bench.cuts.last_force
    assert len(curve) > 30
    for x, error in curve:
        assert error == pytest.approx(2 * radial * brute_force(held, x), rel=1e-6)


@pytest.mark.parametrize("changes", [LONG, CENTERED, STEPPED], ids=["chuck alone", "center", "stepped"])
def test_the_place_chosen_is_the_best_of_all_by_brute_force(held_of, changes):
    held, _, sheet = held_of(changes)
    at = sheet.figures["holding.steady.position"].value
    plot = plot_of(sheet)
    together = []  # barred stretches that meet, as one
    for one in plot.barred:
        if together and one.start - together[-1][1] < 1e-9:
            together[-1][1] = one.end
        else:
            together.append([one.start, one.end])
    free = [
        x for x, _ in plot.curves[0].points
        if not any(start + 1e-9 < x < end - 1e-9 for start, end in together)
    ]
    least = min(brute_force(held, x) for x in free)
    on_the_rule = [x for x in free if abs(x / inch - round(x / inch)) < 1e-9]
    assert brute_force(held, at) == pytest.approx(min(brute_force(held, x) for x in on_the_rule), rel=1e-9)
    assert brute_force(held, at) <= 1.05 * least  # places between those of a rule gain no more than this
    assert plot.marks[0].x == at


def test_the_curve_agrees_with_an_independent_solver(held_of):
    """PyNite, a general-purpose structural library, at three places of the steady rest."""
    from Pynite import FEModel3D  # here, since it is slow to import

    held, bench, sheet = held_of(STEPPED)
    points = dict(plot_of(sheet).curves[0].points)
    radial = 0.6 * bench.cuts.last_force
    tool = tool_places(held)
    for x in sorted(points)[10:40:12]:
        worst = 0.0
        for at in (tool[0], tool[-1]):
            model = FEModel3D()
            model.add_material("work", 205e9, 80e9, 0.3, 7850)
            segments = held.beam(None).segments
            marks = sorted({0.0, x, at, *(one.end for one in segments)})
            marks = [a for a, b in zip(marks, [*marks[1:], 1e9], strict=True) if b - a > 1e-7]
            for number, place in enumerate(marks):
                model.add_node(f"N{number}", place, 0, 0)
            for number, (a, b) in enumerate(pairwise(marks)):
                one = next(piece for piece in segments if piece.start - 1e-7 <= (a + b) / 2 <= piece.end)
                second = 3.141592653589793 / 64 * (one.od**4 - one.bore**4)
                area = 3.141592653589793 / 4 * (one.od**2 - one.bore**2)
                model.add_section(f"S{number}", area, second, second, 2 * second)
                model.add_member(f"M{number}", f"N{number}", f"N{number + 1}", "work", f"S{number}")
            model.def_support("N0", True, True, True, True, True, False)
            model.def_support_spring("N0", "RZ", 1e5)
            model.def_support_spring(f"N{marks.index(x)}", "DY", 20e6)
            loaded = marks.index(at)
            model.add_node_load(f"N{loaded}", "FY", -1000.0)
            model.analyze_linear()
            worst = max(worst, -model.nodes[f"N{loaded}"].DY["Combo 1"] / 1000)
        assert points[x] >= 2 * radial * worst * (1 - 1e-4)
        assert points[x] == pytest.approx(2 * radial * worst, rel=1e-3)


@pytest.mark.parametrize(
    ("changes", "x", "words"),
    [
        ({}, 10.0, "on the thread"),
        ({}, 8.0, "on the relief"),
        ({}, 30.0, "not on the work"),
        ({}, 0.5, "whole width"),
        ({"operations:": "cross_holes: [{diameter: 1/2, from_end: 8 1/2}]\noperations:"}, 3.9, "cross hole"),
        ({"{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, od_end: 2 1/2}"}, 4.0, "taper"),
    ],
)
def test_a_place_that_cannot_be_has_its_reason(held_of, changes, x, words):
    held, _, _ = held_of(changes)
    assert words in place_fault(held, x * inch)


def test_sections_of_one_diameter_are_one_band(held_of):
    """A bore that ends under the fingers does not bar the place; a shoulder there does."""
    same = {"{length: 11 5/8, od: 2.75}": "{length: 6, od: 2.75, bore: 1}\n  - {length: 5 5/8, od: 2.75}"}
    held, _, _ = held_of(same)
    assert place_fault(held, 3 * inch) == ""
    other = {"{length: 11 5/8, od: 2.75}": "{length: 6, od: 2.80, bore: 1}\n  - {length: 5 5/8, od: 2.75}"}
    assert "whole width" in place_fault(held_of(other)[0], 3 * inch)


def test_the_steady_moves_off_a_cross_hole(held_of):
    at = held_of(LONG)[2].figures["holding.steady.position"].value
    out = (40 + 2.875 - 3) * inch
    hole = f"cross_holes: [{{diameter: 1/2, from_end: {(out - at) / inch:.4f}}}]\noperations:"
    sheet = held_of({**LONG, "operations:": hole})[2]
    moved = sheet.figures["holding.steady.position"].value
    assert abs(moved - at) >= (0.25 + 0.75) * inch - 1e-9  # half the hole and half the fingers
    assert any(one.why == "cross hole" for one in plot_of(sheet).barred)


def test_the_steady_moves_off_what_is_turned_while_it_stands(held_of):
    """A turned length right beside the relief, cut after the steady rest is set, wants the carriage too."""
    plain = held_of(LONG)[2].figures["holding.steady.position"].value
    later = {**LONG, "- turn: {diameter: 2 1/4, length: 2 7/8}": "- turn: {diameter: 2 1/4, length: 2 7/8}\n"
             "  - turn: {diameter: 2 5/8, from_end: 2 7/8, length: 8}"}
    sheet = held_of(later)[2]
    moved = sheet.figures["holding.steady.position"].value
    assert plain > (40 - 3 - 8) * inch - 4 * inch
    assert moved <= (40 - 3 - 8) * inch - 3 * inch - 0.75 * inch
    assert "cut-passes-steady" not in found(sheet)
    assert any(one.why.startswith("cut later") for one in plot_of(sheet).barred)


def test_what_is_turned_before_the_band_does_not_move_it(held_of):
    before = {**LONG, "operations:\n": "operations:\n  - turn: {diameter: 2.7, from_end: 2 7/8, length: 20}\n"
              "  - turn: {band: yes, from_end: 18, length: 2}\n"}
    held, _, sheet = held_of(before)
    names = [entry.name for entry, _ in cuts_with_steady(held)]
    assert names == ["turn", "thread"]
    assert not any("2.7 in" in one.why for one in plot_of(sheet).barred)


def test_a_turned_band_is_taken_before_a_rough_place_nearer_the_cut(held_of):
    rough = {**LONG, "{length: 11 5/8, od: 2.75}":
             "{length: 12, od: 2.75, surface: turned}\n  - {length: 28, od: 2.75, surface: rough}"}
    sheet = held_of(rough)[2]
    at = sheet.figures["holding.steady.position"].value
    assert at < (12 - 3) * inch - 0.74 * inch
    assert "steady-band" not in found(sheet)
    assert "rough" in found(sheet)["steady-better"].text
    assert any(one.why == "rough" for one in plot_of(sheet).barred)


def test_a_band_turned_for_it_is_taken(held_of):
    band = {**LONG, "{length: 11 5/8, od: 2.75}": "{length: 40, od: 2.75, surface: rough}",
            "operations:\n": "operations:\n  - turn: {band: yes, from_end: 12, length: 3}\n"}
    sheet = held_of(band)[2]
    at, out = sheet.figures["holding.steady.position"].value, (42.875 - 3) * inch
    assert out - 15 * inch + 0.74 * inch < at < out - 12 * inch - 0.74 * inch


def test_a_ground_surface_is_left_alone_where_a_turned_one_will_do(held_of):
    ground = {**LONG, "{length: 11 5/8, od: 2.75}":
              "{length: 20, od: 2.75, surface: turned}\n  - {length: 20, od: 2.75, surface: ground}"}
    sheet = held_of(ground)[2]
    assert sheet.figures["holding.steady.position"].value < 17 * inch
    assert "steady-on-ground" not in found(sheet)
    all_ground = {**LONG, "{length: 11 5/8, od: 2.75}": "{length: 40, od: 2.75, surface: ground}"}
    assert found(held_of(all_ground)[2])["steady-on-ground"].level == "note"


def test_without_a_thread_the_steady_helps_what_is_turned(held_of):
    text = """\
job: T-2
title: Bar
units: inch
lathe: long-bed
material: 1045 steel
work:
  - {length: 30, od: 2, surface: turned}
  - {length: 10, od: 2 1/4}
holding:
  chuck: {jaws: 4, grip: 3}
  steady: {at: auto}
operations:
  - turn: {diameter: 2, length: 10}
"""
    held, _, sheet = held_of({}, text)
    at = sheet.figures["holding.steady.position"].value
    assert at < 27 * inch - 3.75 * inch
    points = dict(plot_of(sheet).curves[0].points)
    assert points[at] == pytest.approx(200 * brute_force(held, at), rel=1e-6)
    assert "100 N" in plot_of(sheet).says


def test_an_asked_place_and_the_better_one_are_both_marked(held_of):
    sheet = held_of({**LONG, "steady: {at: auto}": "steady: {at: 6}"})[2]
    plot = plot_of(sheet)
    assert [mark.label for mark in plot.marks] == ["as asked", "least error"]
    assert plot.marks[0].x == pytest.approx(6 * inch)
    best = held_of(LONG)[2].figures["holding.steady.position"].value
    assert plot.marks[1].x == pytest.approx(best)
    assert "it would leave" in plot.says


def test_what_the_steady_does_not_take_is_barred(held_of):
    thick = {**LONG, "{length: 11 5/8, od: 2.75}":
             "{length: 20, od: 8 1/2, surface: turned}\n  - {length: 20, od: 2.75, surface: turned}"}
    held, _, sheet = held_of(thick)
    assert sheet.figures["holding.steady.position"].value > 17 * inch
    assert any(one.why == "too thick for it" for one in barred(held))


def test_barred_stretches_lie_side_by_side_on_the_work(held_of):
    plot = plot_of(held_of(STEPPED)[2])
    assert all(one.start < one.end for one in plot.barred)
    assert all(
        one.end <= after.start + 1e-12
        for one, after in pairwise(plot.barred)
    )
    assert {"jaws", "shoulder", "thread", "relief", "carriage"} <= {one.why for one in plot.barred}


def test_unknown_material_has_a_place_and_no_curve(held_of):
    sheet = held_of({**LONG, "material: 1045 steel": "material: unknown"})[2]
    assert sheet.figures["holding.steady.position"].value > 0
    assert not [plot for plot in sheet.plots if plot.id == "steady"]


def test_the_band_is_turned_where_the_sheet_puts_the_steady_rest(sheet_of):
    """A band without a place: fingers of 1 1/2 in and a quarter of an inch more."""
    sheet = sheet_of({**LONG, "operations:\n": "operations:\n  - turn: {band: yes}\n"})
    at = sheet.figures["holding.steady.position"].value
    end = sheet.figures["reach.turn_1.left"].working.put["tool at"][0]
    assert end == pytest.approx(at - 0.875 * inch)
    assert found(sheet).keys().isdisjoint({"steady-band", "cut-passes-steady"})


def test_a_band_is_proposed_where_the_sheet_puts_the_steady_rest(sheet_of):
    """Around a thread that stands alone, on work that is not said to be turned."""
    sheet = sheet_of({
        "{length: 11 5/8, od: 2.75}": "{length: 40, od: 2.75}",
        "  center: live": "  steady: {at: auto}\n  hold_back: yes",
        "  - turn: {diameter: 2 1/4, length: 2 7/8}\n": "",
    })
    (band,) = [line for line in sheet.operations if line.proposed and "band" in line.title]
    size = re.match(r"length ([0-9.]+) in, from the tailstock end ([0-9.]+) in", band.detail)
    width, from_end = (float(one) for one in size.groups())
    middle = (40 + 2.875 - 3 - from_end - width / 2) * inch
    assert middle == pytest.approx(sheet.figures["holding.steady.position"].value)
