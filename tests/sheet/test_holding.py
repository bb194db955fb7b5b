"""Work holding on the sheet: places, capacities, weight, deflection, and what is not checked."""

from __future__ import annotations

import math

import pytest

from generator.calc.sections import second_moment
from generator.sheet.capacity import capacity_section
from generator.sheet.desk import Desk
from generator.sheet.layout import lay_out
from generator.sheet.model import Kind
from generator.si import inch, mm

LONG = {
    "{length: 11 5/8, od: 2.75}": "{length: 40, od: 2.75, surface: turned}",
    "  center: live": "  steady: {at: auto}\n  hold_back: yes",
}


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def test_stick_out_is_length_less_grip(sheet_of):
    figures = sheet_of().figures
    assert figures["holding.stick_out"].value == pytest.approx(11.5 * inch)
    assert figures["holding.grip"].kind is Kind.GIVEN


def test_weight_of_a_steel_round_as_a_handbook_has_it(sheet_of):
    """2.673 D² lb/ft (steel at 0.2836 lb/in³)."""
    pounds = 2.673 * (2.75**2 * 11.625 + 2.25**2 * 2.875) / 12
    assert sheet_of().figures["holding.weight"].value / 0.45359237 == pytest.approx(pounds, rel=2e-3)


def test_steady_placed_by_the_program_stands_on_a_plain_place_clear_of_the_cut(sheet_of):
    sheet = sheet_of(LONG)
    at = sheet.figures["holding.steady.position"]
    end_of_cut = (40 + 2.875 - 3 - 2.5 - 0.375) * inch
    assert 0 < at.value < end_of_cut - 3 * inch - 0.75 * inch + 1e-9
    assert "places tried" in at.note
    assert "steady-place" not in found(sheet)


def test_the_place_chosen_is_no_worse_than_the_neighbours(sheet_of):
    best = sheet_of(LONG).figures
    chosen = best["holding.steady.position"].value / inch
    for other in (chosen - 4, chosen - 10):
        worse = sheet_of({**LONG, "steady: {at: auto}": f"steady: {{at: {other:.3f}}}"}).figures
        assert best["holding.deflection.max"].value <= worse["holding.deflection.max"].value


@pytest.mark.parametrize(
    ("at", "words"),
    [("10", "on the thread"), ("8", "on the relief"), ("30", "not on the work"), ("0.5", "whole width")],
)
def test_steady_on_a_bad_place_stops_the_sheet(sheet_of, at, words):
    sheet = sheet_of({"  center: live": f"  steady: {{at: {at}}}\n  hold_back: yes"})
    assert found(sheet)["steady-place"].level == "stop"
    assert words in found(sheet)["steady-place"].text
    assert not sheet.ready


def test_steady_on_a_taper_stops_the_sheet(sheet_of):
    sheet = sheet_of(
        {
            "{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, od_end: 2 1/2}",
            "  center: live": "  steady: {at: 4}\n  hold_back: yes",
        }
    )
    assert "taper" in found(sheet)["steady-place"].text


@pytest.mark.parametrize(
    ("id", "changes"),
    [
        ("chuck-range", {"jaws: 4, grip: 3": "jaws: 3, grip: 3", "od: 2.75": "od: 10 1/2"}),
        ("swing-slide", {"od: 2.75": "od: 13"}),
        ("swing-bed", {"od: 2.75": "od: 22"}),
        ("too-long", {"length: 11 5/8": "length: 70"}),
        ("chuck-missing", {"jaws: 4": "jaws: 6"}),
        ("spindle-bore", {"  center: live": "  center: live\n  behind_spindle: 30", "od: 2.75": "od: 3 1/4"}),
        ("hoist", {"od: 2.75": "od: 12", "length: 11 5/8": "length: 40"}),
    ],
)
def test_work_that_the_lathe_does_not_take_stops_the_sheet(sheet_of, id, changes):
    assert id not in found(sheet_of())
    sheet = sheet_of(changes)
    assert found(sheet)[id].level == "stop"


def test_stick_out_without_support_is_asked_about(sheet_of):
    sheet = sheet_of({"  center: live\n": ""})
    assert found(sheet)["stick-out"].level == "check"
    assert "4.2" in found(sheet)["stick-out"].text


def test_what_the_lathe_record_does_not_say_is_named(job_of, shop):
    """The metric lathe's record names all; taking an entry away costs that check only."""
    job = job_of()
    lathe = shop.lathes["long-bed"]
    bare = lathe.model_copy(
        update={
            "swing": lathe.swing.model_copy(update={"over_cross_slide": None}),
            "center_length": None,
        }
    )
    desk = Desk()
    capacity_section(job, bare, lay_out(job), None, None, desk)
    note = next(finding for finding in desk.findings if finding.id == "not-checked")
    assert "swing over the cross slide" in note.text
    assert "length of the center" in note.text
    assert "capacity.swing_over_bed" in desk.figures


def test_deflection_is_the_cantilever_of_print_when_nothing_else_gives(sheet_of, shop):
    """Roark table 8.1, 1a, with the chuck's own tilt P L²/k beside it; thread at the end of a bar."""
    changes = {
        "  - {length: 11 5/8, od: 2.75}\n": "",
        "  - {length: 2 7/8, od: 2 1/4}": "  - {length: 9, od: 2 1/4}",
        "  center: live\n": "",
        "turn: {diameter: 2 1/4, length: 2 7/8}": "turn: {diameter: 2 1/4, length: 6}",
    }
    figures = sheet_of(changes).figures
    force, stick_out = figures["holding.force"].value, 6 * inch
    tilt = force * stick_out**2 / 1e5
    solid = force * stick_out**3 / (3 * 205e9 * second_moment(2.25 * inch))
    root = force * stick_out**3 / (3 * 205e9 * second_moment(figures["thread.root"].value))
    assert tilt + solid < figures["holding.deflection.max"].value < tilt + root * 1.01


def test_error_on_diameter_is_twice_the_deflection_of_the_last_cut(sheet_of):
    sheet = sheet_of()
    figures = sheet.figures
    cuts = [line.force for line in sheet.passes if not line.spring]
    expected = 2 * figures["holding.deflection.max"].value * cuts[-1] / max(cuts)
    assert figures["holding.diameter_error.max"].value == pytest.approx(expected)


def test_assumed_stiffness_says_that_it_is_assumed(sheet_of):
    figure = sheet_of().figures["holding.chuck_stiffness"]
    assert figure.kind is Kind.ASSUMED
    assert "no source" in figure.source


def test_critical_speed_is_the_first_frequency_by_the_minute(sheet_of):
    figures = sheet_of().figures
    assert figures["holding.critical_speed"].value == figures["holding.first_frequency"].value
    assert figures["holding.speed_ratio"].value < 0.1
    assert math.isfinite(figures["holding.first_frequency"].value)


def test_a_metric_job_is_laid_out_in_the_same_metres(sheet_of):
    sheet = sheet_of({"od: 2.75": "od: 69.85 mm", "grip: 3": "grip: 76.2 mm"})
    assert sheet.figures["holding.stick_out"].value == pytest.approx(292.1 * mm)
