"""Work holding on the sheet: places, capacities, weight, deflection, and what is not checked."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from generator.calc.beam import Beam
from generator.calc.sections import second_moment
from generator.errors import OutsideRange
from generator.sheet.capacity import capacity_section, unchecked_note
from generator.sheet.desk import Desk
from generator.sheet.figure import Kind
from generator.sheet.layout import lay_out
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
    unchecked_note(bare, capacity_section(job, bare, lay_out(job), None, None, desk), desk)
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
    assert figures["holding.diameter_error.max"].value == pytest.approx(expected, rel=1e-3)  # and the lift


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


BLUNT = {"  center: live": "  steady: {at: 4}\n  hold_back: yes"}


def test_overhang_counts_from_the_last_support_before_the_cut(sheet_of):
    assert sheet_of().figures["holding.overhang"].value == pytest.approx(11.5 * inch)
    assert sheet_of(BLUNT).figures["holding.overhang"].value == pytest.approx(7.5 * inch)


def test_weight_and_cut_on_the_steady_follow_from_statics_when_the_chuck_does_not_resist(sheet_of):
    """Hinge at the jaws: the steady carries moment over distance (statics)."""
    changes = {**BLUNT, "{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, surface: turned}"}
    soft = SimpleNamespace(si=1e-3, with_unit="-", where=None)
    figures = sheet_of(changes, house={"chuck_stiffness": soft}).figures
    thread_start = 11.5 * inch
    expected = figures["holding.force"].value * thread_start / (4 * inch)
    assert figures["holding.steady.force"].value == pytest.approx(expected, rel=1e-6)
    big, root = 2.75**2, (figures["thread.root"].value / inch) ** 2
    relief = (figures["relief.diameter"].value / inch) ** 2
    lengths = [(0, 8.625, big), (8.625, 9.0, relief), (9.0, 11.5, root)]
    moment = sum(area * (b - a) * (a + b) / 2 for a, b, area in lengths) * inch**4 * math.pi / 4
    assert figures["holding.steady.weight"].value == pytest.approx(
        moment * 7850 * 9.80665 / (4 * inch), rel=2e-3
    )


def test_steady_on_the_tailstock_side_of_the_thread_needs_the_carriage_room_on_that_side(sheet_of):
    changes = {
        "  - {length: 2 7/8, od: 2 1/4}": "  - {length: 2 7/8, od: 2 1/4}\n"
        "  - {length: 20, od: 2, surface: turned}",
        "length: 2 1/2, tool": "length: 2 1/2, from_end: 20, tool",
        "  center: live": "  center: live\n  steady: {at: 15}",
    }
    sheet = sheet_of(changes)
    assert "steady-place" not in found(sheet)
    assert found(sheet)["carriage-meets-steady"].level == "stop"
    assert "towards the tailstock" in found(sheet)["carriage-meets-steady"].text
    assert "carriage-meets-steady" not in found(sheet_of({**changes, "at: 15}": "at: 24}"}))
    free = sheet_of(changes, lathe={"carriage_right": None})
    assert "towards the tailstock" in found(free)["not-checked"].text


def test_no_place_for_the_steady_rest_stops_the_sheet(sheet_of):
    sheet = sheet_of(
        {
            "{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, od_end: 2 1/2}",
            "  center: live": "  steady: {at: auto}\n  hold_back: yes",
        }
    )
    assert found(sheet)["steady-place"].level == "stop"
    assert sheet.figures["holding.steady.position"].kind is Kind.UNKNOWN


@pytest.mark.parametrize("surface", ["", ", surface: rough"])
def test_a_band_that_is_not_turned_is_asked_about(sheet_of, surface):
    sheet = sheet_of(
        {**BLUNT, "{length: 11 5/8, od: 2.75}": f"{{length: 11 5/8, od: 2.75{surface}}}"}
    )
    assert found(sheet)["steady-band"].level == "check"


def test_a_better_place_for_the_steady_rest_is_named(sheet_of):
    far = sheet_of({**LONG, "steady: {at: auto}": "steady: {at: 6}"})
    assert found(far)["steady-better"].level == "note"
    assert "less under the tool" in found(far)["steady-better"].text


def test_steady_rest_alone_without_a_hold_back_is_asked_about(sheet_of):
    assert found(sheet_of({"  center: live": "  steady: {at: 4}"}))["no-hold-back"].level == "check"
    assert "no-hold-back" not in found(sheet_of(BLUNT))


def test_unknown_material_leaves_weight_force_and_deflection_unknown(sheet_of):
    figures = sheet_of({"material: 1045 steel": "material: unknown"}).figures
    names = ("weight", "force", "deflection.max", "diameter_error.max", "first_frequency", "critical_speed")
    for name in names:
        assert figures[f"holding.{name}"].kind is Kind.UNKNOWN
        assert figures[f"holding.{name}"].value is None
    assert figures["holding.stick_out"].value


def test_bar_behind_the_headstock_whips_at_the_cantilever_frequency_of_print(sheet_of):
    """Thomson, appendix D: f = 3.516 ÷ 2π × √(E I ÷ μ L⁴)."""
    changes = {
        "  - {length: 11 5/8, od: 2.75}\n": "",
        "  - {length: 2 7/8, od: 2 1/4}": "  - {length: 9, od: 2 1/4}",
        "  center: live": "  behind_spindle: 240",
        "turn: {diameter: 2 1/4, length: 2 7/8}": "turn: {diameter: 2 1/4, length: 6}",
    }
    sheet = sheet_of(changes)
    length, od = 240 * inch, 2.25 * inch
    expected = 3.516 / (2 * math.pi) * math.sqrt(205e9 * od**2 / 16 / 7850) / length**2
    assert sheet.figures["holding.tail.critical_speed"].value == pytest.approx(expected, rel=1e-3)
    ratio = sheet.figures["spindle.step"].value / expected
    assert found(sheet)["tail-whip"].level == ("stop" if ratio >= 1 else "check")
    short = sheet_of({**changes, "behind_spindle: 240": "behind_spindle: 20"})
    assert "tail-whip" not in found(short)


def test_a_spindle_near_the_critical_speed_is_asked_about_and_above_it_stops(sheet_of):
    calm = sheet_of(LONG)
    ratio = calm.figures["holding.speed_ratio"].value
    soft = SimpleNamespace(si=1.0, with_unit="-", where=None)
    weak = {"chuck_stiffness": soft, "speed_share_of_critical": SimpleNamespace(si=ratio / 2, where=None)}
    assert "critical-speed" not in found(calm)
    near = sheet_of({"  center: live\n": ""}, house={"chuck_stiffness": soft})
    assert found(near)["critical-speed"].level == "stop"
    assert found(sheet_of(LONG, house=weak))["critical-speed"].level == "check"


def test_a_grip_longer_than_the_jaws_is_asked_about(sheet_of):
    assert found(sheet_of({"grip: 3": "grip: 6"}))["grip-past-jaws"].level == "check"


def test_a_short_grip_alone_is_asked_about(sheet_of):
    assert found(sheet_of({"  center: live\n": ""}))["grip-short"].level == "check"
    assert "grip-short" not in found(sheet_of())


def test_jaws_on_a_taper_are_asked_about(sheet_of):
    sheet = sheet_of({"{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, od_end: 2 1/2}"})
    assert found(sheet)["grip-taper"].level == "check"
    assert "grip-taper" not in found(sheet_of())


def test_a_grip_as_long_as_the_work_leaves_a_sheet_without_beam_figures(sheet_of):
    sheet = sheet_of({"grip: 3": "grip: 15"})
    assert not sheet.ready
    assert "holding.deflection.max" not in sheet.figures


@pytest.mark.parametrize(
    ("bore", "id"), [("2 1/4", "bore-too-large"), ("2.1", "no-wall")]  # 2.1 is over the root of the thread
)
def test_a_bore_without_a_wall_stops_the_sheet_and_is_said_once(sheet_of, bore, id):
    sheet = sheet_of({"{length: 2 7/8, od: 2 1/4}": f"{{length: 2 7/8, od: 2 1/4, bore: {bore}}}"})
    assert found(sheet)[id].level == "stop"
    assert ("no-wall" in found(sheet)) == (id == "no-wall")
    assert sheet.figures["holding.deflection.max"].kind is Kind.UNKNOWN


def test_a_thread_inside_the_jaws_stops_the_sheet_and_leaves_deflection_out(sheet_of):
    sheet = sheet_of({"length: 2 1/2, tool": "length: 1/2, from_end: 13, tool"})
    assert found(sheet)["cut-in-jaws"].level == "stop"
    assert "holding.deflection.max" not in sheet.figures
    assert sheet.figures["holding.first_frequency"].value


def test_carriage_that_may_meet_the_chuck_is_asked_about(sheet_of):
    near = sheet_of({"length: 2 1/2, tool": "length: 2 1/2, from_end: 7, tool"})
    room = (11.5 - 7 - 2.5 - 0.375) * inch
    assert near.figures["capacity.carriage_to_chuck"].value == pytest.approx(room)
    assert found(near)["carriage-meets-chuck"].level == "check"
    assert "there is 1.625 in" in found(near)["carriage-meets-chuck"].text
    assert "carriage-meets-chuck" not in found(sheet_of())
    assert "carriage_to_chuck" not in sheet_of(BLUNT).figures


def test_findings_give_the_unit_of_the_job_first(sheet_of):
    inches = found(sheet_of({"od: 2.75": "od: 13"}))["swing-slide"].text
    changes = {
        "units: inch": "units: mm",
        "11 5/8, od: 2.75": "11 5/8 in, od: 330",
        "2 7/8, od: 2 1/4": "2 7/8 in, od: 2 1/4 in",
        "grip: 3": "grip: 3 in",
        "diameter: 2 1/4, length: 2 7/8": "diameter: 2 1/4 in, length: 2 7/8 in",
        "3/8, diameter: 2.060, radius: 1/16": "3/8 in, diameter: 2.060 in, radius: 1/16 in",
        "length: 2 1/2": "length: 2 1/2 in",
    }
    metric = found(sheet_of(changes))["swing-slide"].text
    assert "13.000 in (330.20 mm)" in inches
    assert "330.00 mm (12.992 in)" in metric


def test_work_that_cannot_be_worked_out_as_a_beam_is_questioned(sheet_of, monkeypatch):
    def refuse(beam, elements=40):
        reason = "too thin beside the rest of the work"
        raise OutsideRange("thinnest diameter", 0.4 * mm, None, None, reason, "m")

    monkeypatch.setattr(Beam, "first_frequency", refuse)
    sheet = sheet_of()
    assert found(sheet)["too-thin"].level == "stop"
    assert "0.016 in (0.40 mm) is too thin" in found(sheet)["too-thin"].text
    assert sheet.figures["holding.first_frequency"].value is None


def test_a_wire_that_carries_a_shaft_ends_in_a_figure_or_a_question(sheet_of):
    """Stiffness 10^9 times apart: never a fault of this program."""
    sheet = sheet_of({"{length: 11 5/8, od: 2.75}": "{length: 54 1/2, od: 1/64}", "  center: live\n": ""})
    assert not sheet.ready


def test_a_cut_right_beside_the_center_gives_nothing(sheet_of):
    sheet = sheet_of({"length: 2 1/2, tool": "length: 0.001, tool"})
    assert found(sheet)["thread-too-short"].level == "stop"
    assert sheet.figures["holding.deflection.max"].value < 1e-8
