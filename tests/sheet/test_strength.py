"""Strength on the sheet: what is laid when, against print and statics; figures, never a verdict of safe."""

from __future__ import annotations

import math
import re

import pytest

from generator.job.written import Given
from generator.sheet.compute import compute_sheet
from generator.sheet.figure import Kind
from generator.si import MPa, inch, lbf, psi

LOAD = {"by: customer}": "by: customer, load: 9000 lbf}"}
PRESSURE = {"by: customer}": "by: customer, pressure: 5000 psi}"}
HOLLOW = {
    "{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, bore: 1 1/4}",
    "{length: 2 7/8, od: 2 1/4}": "{length: 2 7/8, od: 2 1/4, bore: 1 1/4}",
}
WALL = {"operations:": "limits: {wall: 0.3}\noperations:"}
RING = """\
job: T-2
title: Ring
units: mm
lathe: metric
material: phosphor bronze
work:
  - {length: 60, od: 90, bore: 27.5}
holding:
  chuck: {jaws: 3, grip: 20}
mate: {part: screw, thread: M30x2-6g, engagement: 25}
duty: {said: pulls, by: customer, load: 20 kN}
operations:
  - thread: {designation: M30x2-6H, length: 30, fit: mate}
"""


def with_mate(*more, engagement="1 1/2"):
    """The nut with its engagement and whatever else is known of it."""
    said = ", ".join(("thread: 2 1/4-8 UN-2B", f"engagement: {engagement}", *more))
    return {"thread: 2 1/4-8 UN-2B,": f"{said},"}


ENGAGED = with_mate()


def strengths(sheet):
    return {name: figure for name, figure in sheet.figures.items() if name.startswith("strength.")}


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def of_strength(text, pressure):
    return text.model_copy(update={"yield_strength": Given(pressure, "x", "pressure")})


@pytest.fixture
def stronger(shop, read_of):
    """`stronger({"material": Pa}, changes)`: the sheet with yield strengths in the shop's list."""
    def make(strength, changes=None, **named):
        materials = dict(shop.materials)
        for name, pressure in strength.items():
            materials[name] = of_strength(materials[name], pressure)
        return compute_sheet(read_of(changes, **named), shop.model_copy(update={"materials": materials}))

    return make


# -- when -----------------------------------------------------------------------------------------------


def test_nothing_is_laid_where_nobody_says_what_it_must_carry(sheet_of):
    assert not strengths(sheet_of())
    assert not strengths(sheet_of(HOLLOW))


@pytest.mark.parametrize("changes", [LOAD, PRESSURE, {**HOLLOW, **WALL}])
def test_every_set_of_figures_says_first_that_it_is_no_design_check(sheet_of, changes):
    laid = strengths(sheet_of(changes))
    first = next(iter(laid.values()))
    assert first.value == "not a design check: a competent, where required licensed, person decides"
    unnoted = [
        name for name, figure in laid.items()
        if figure.kind is Kind.COMPUTED and figure.quantity in ("pressure", "force")
        and "not a design check" not in figure.note
    ]
    assert not unnoted


def test_no_sheet_calls_a_part_safe(stronger):
    for strength in (100 * MPa, 2000 * MPa):
        sheet = stronger({"1045 steel": strength}, {**HOLLOW, **LOAD})
        words = " ".join(
            [figure.label + figure.note for figure in strengths(sheet).values()]
            + [finding.text for finding in sheet.findings if finding.id.startswith("strength")]
        )
        assert not re.search(r"\b(safe|ok|okay|strong enough|adequate|passes)\b", words, re.IGNORECASE)


# -- wall and pressure ----------------------------------------------------------------------------------


def test_the_customers_wall_against_the_thinnest(sheet_of):
    sheet = sheet_of({**HOLLOW, **WALL})
    assert sheet.figures["strength.wall_spare"].value / inch == pytest.approx((2.060 - 1.25) / 2 - 0.3)
    assert "strength.hoop.bore" not in sheet.figures


def test_wall_under_pressure_at_the_relief(sheet_of):
    """Lamé and Barlow on 2.060 in outside and 1.250 in inside at 5000 psi, worked by hand."""
    laid = strengths(sheet_of({**HOLLOW, **PRESSURE}))
    outer, inner, p = 2.060**2, 1.25**2, 5000
    hoop = p * (outer + inner) / (outer - inner)
    expected = {
        "hoop.bore": hoop, "hoop.outside": hoop - p, "radial": -p, "ends": (hoop - p) / 2,
        "thin_wall": p * 2.060 / (2.060 - 1.25),
    }
    for name, value in expected.items():
        assert laid[f"strength.{name}"].value / psi == pytest.approx(value, rel=1e-9), name
        assert "at the relief" in laid[f"strength.{name}"].note
    three = (hoop, -p, (hoop - p) / 2)
    together = math.sqrt(sum((three[a] - three[b]) ** 2 for a, b in ((0, 1), (1, 2), (2, 0))) / 2)
    assert laid["strength.von_mises"].value / psi == pytest.approx(together)


def test_a_thinner_wall_elsewhere_is_the_one_that_counts(sheet_of):
    changes = {key: value.replace("od: 2.75, bore: 1 1/4", "od: 2.75, bore: 2 1/2")
               for key, value in {**HOLLOW, **PRESSURE}.items()}
    figure = strengths(sheet_of(changes))["strength.hoop.bore"]
    expected = 5000 * (2.75**2 + 2.5**2) / (2.75**2 - 2.5**2)
    assert figure.value / psi == pytest.approx(expected)
    assert "from the tailstock end" in figure.note


def test_pressure_pushes_on_the_bore_where_nobody_says_where_it_is_sealed(sheet_of):
    laid = strengths(sheet_of({**HOLLOW, **PRESSURE}))
    assert laid["strength.seal_diameter"].kind is Kind.ASSUMED
    assert laid["strength.push"].value / lbf == pytest.approx(5000 * math.pi / 4 * 1.25**2)
    sealed = {"by: customer}": "by: customer, pressure: 5000 psi, seal_diameter: 2}"}
    laid = strengths(sheet_of({**HOLLOW, **sealed}))
    assert laid["strength.seal_diameter"].kind is Kind.GIVEN
    section = math.pi / 4 * (2.060**2 - 1.25**2)
    assert laid["strength.axial"].value / psi == pytest.approx(5000 * math.pi / section)


def test_load_and_pressure_pull_together(sheet_of):
    both = {"by: customer}": "by: customer, load: 9000 lbf, pressure: 5000 psi}"}
    laid = strengths(sheet_of({**HOLLOW, **both}))
    assert laid["strength.pull"].value / lbf == pytest.approx(9000 + 5000 * math.pi / 4 * 1.25**2)


def test_solid_work_under_pressure_has_no_wall_and_no_place_that_pushes(sheet_of):
    laid = strengths(sheet_of(PRESSURE))
    assert laid["strength.seal_diameter"].kind is Kind.UNKNOWN
    assert not {"strength.hoop.bore", "strength.axial", "strength.stress_area"} & set(laid)


def test_without_a_thread_the_smallest_section_of_the_whole_part_carries(sheet_of):
    changes = {
        **LOAD, "  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}\n": "",
        "  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}\n": "",
        "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}\n": "",
    }
    laid = strengths(sheet_of(changes))
    assert laid["strength.axial"].value / psi == pytest.approx(9000 / (math.pi / 4 * 2.25**2))
    assert "strength.stress_area" not in laid


# -- threads --------------------------------------------------------------------------------------------


def test_areas_of_the_thread_as_the_handbook_works_them(sheet_of):
    """2 1/4-8 UN-2A/2B: limits D 2.2326, E 2.1584, K 2.140, En 2.1792 in (ASME B1.1), 1.5 in engaged."""
    laid = strengths(sheet_of({**LOAD, **ENGAGED}))
    tension = 0.7854 * (2.25 - 0.9743 / 8) ** 2
    assert laid["strength.stress_area"].value / inch**2 == pytest.approx(tension, rel=1e-4)
    screw = 3.1416 * 8 * 1.5 * 2.140 * (1 / 16 + 0.57735 * (2.1584 - 2.140))
    nut = 3.1416 * 8 * 1.5 * 2.2326 * (1 / 16 + 0.57735 * (2.2326 - 2.1792))
    assert laid["strength.shear_area.external"].value / inch**2 == pytest.approx(screw, rel=1e-4)
    assert laid["strength.shear_area.internal"].value / inch**2 == pytest.approx(nut, rel=1e-4)
    assert laid["strength.shear_stress.external"].value / psi == pytest.approx(9000 / screw, rel=1e-4)
    assert laid["strength.shear_stress.internal"].value / psi == pytest.approx(9000 / nut, rel=1e-4)
    assert laid["strength.screw_stress"].value / psi == pytest.approx(9000 / tension, rel=1e-4)


def test_a_hollow_screw_has_its_bore_less_to_pull_on(sheet_of):
    laid = strengths(sheet_of({**LOAD, **HOLLOW}))
    solid, net = (laid[f"strength.{name}"].value for name in ("stress_area", "net_stress_area"))
    assert net == pytest.approx(solid - math.pi / 4 * (1.25 * inch) ** 2)
    assert laid["strength.screw_stress"].value == pytest.approx(9000 * lbf / net)


def test_engagement_nobody_gives_is_assumed_and_one_longer_than_the_thread_is_not_believed(sheet_of):
    assumed = strengths(sheet_of(LOAD))["strength.engaged"]
    assert assumed.kind is Kind.ASSUMED
    assert assumed.value / inch == pytest.approx(2.5 - 1 / 8)
    short = {**LOAD, "length: 2 1/2, tool": "length: 1/8, tool"}
    assert strengths(sheet_of(short))["strength.engaged"].kind is Kind.UNKNOWN
    longer = {**LOAD, **with_mate(engagement="4")}
    assert strengths(sheet_of(longer))["strength.engaged"].value / inch == pytest.approx(2.5)


def test_short_engagement_is_asked_about(sheet_of):
    sheet = sheet_of({**LOAD, **with_mate(engagement="1")})
    wanted = sheet.figures["strength.engagement_equal"]
    area = 3.1416 * 8 * 2.140 * (1 / 16 + 0.57735 * (2.1584 - 2.140))
    assert wanted.value / inch == pytest.approx(2 * 0.7854 * (2.25 - 0.9743 / 8) ** 2 / area, rel=1e-4)
    assert found(sheet)["strength-engagement"].level == "check"
    assert "strength-engagement" not in found(sheet_of({**LOAD, **with_mate(engagement="2 1/4")}))
    little = {key: text.replace("9000 lbf", "90 lbf") for key, text in LOAD.items()}
    light = sheet_of({**little, **with_mate(engagement="1")})
    assert light.figures["strength.shear_stress.external"].value < 1e6
    assert "strength-engagement" not in found(light), "a few pounds ask nobody how much engages"


def test_a_mate_that_nobody_names_is_taken_as_the_usual_other_half(sheet_of):
    named = strengths(sheet_of({**LOAD, **ENGAGED}))["strength.shear_area.external"]
    changes = {**LOAD, "thread: 2 1/4-8 UN-2B,": "engagement: 1 1/2,"}
    unnamed = strengths(sheet_of(changes))["strength.shear_area.external"]
    assert unnamed.value == pytest.approx(named.value)
    assert "taken for the mate's" in unnamed.note
    assert "taken for the mate's" not in named.note


@pytest.mark.parametrize(
    ("own", "other"),
    [("2 1/4-8 UNR-2A", "2 1/4-8 UN-2B"), ("2 1/4-8 UN-2A-LH", "2 1/4-8 UN-2B-LH"),
     ("M56x4-6g-LH", "M56x4-6H-LH"), ("2 1/4-8 UN-3A", "2 1/4-8 UN-3B")],
)
def test_the_other_half_is_named_as_it_would_be_written(sheet_of, own, other):
    changes = {
        **LOAD, "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}\n": "",
        "2 1/4-8 UN-2A, length: 2 1/2, tool: V1": f"{own}, length: 2 1/2 in",
        "diameter: 2.060, radius: 1/16": "radius: 1/16",
    }
    assert f"of {other} that" in strengths(sheet_of(changes))["strength.shear_area.external"].note


def test_a_measured_mate_is_believed_before_the_limits(sheet_of):
    name, loose = "strength.shear_area.internal", {**LOAD, **with_mate("pitch_diameter: 2.190")}
    nut = 3.1416 * 8 * 1.5 * 2.2326 * (1 / 16 + 0.57735 * (2.2326 - 2.190))
    assert strengths(sheet_of(loose))[name].value / inch**2 == pytest.approx(nut, rel=1e-4)
    assert strengths(sheet_of({**LOAD, **ENGAGED}))[name].value > strengths(sheet_of(loose))[name].value


def test_an_internal_metric_thread_is_worked_with_the_screw_that_goes_in(sheet_of):
    """M30 x 2: A_s 621 mm² (ISO 898-1); 6g: d 29.682, d2 28.493; 6H: D1 28.210, D2 28.925 (ISO 965-2)."""
    laid = strengths(sheet_of(text=RING))
    assert laid["strength.stress_area"].value * 1e6 == pytest.approx(621, abs=0.5)
    assert "strength.net_stress_area" not in laid
    tan = math.tan(math.radians(30))
    screw = math.pi * 25 / 2 * 28.210 * (1 + tan * (28.493 - 28.210))
    nut = math.pi * 25 / 2 * 29.682 * (1 + tan * (29.682 - 28.925))
    assert laid["strength.shear_area.external"].value * 1e6 == pytest.approx(screw, rel=1e-6)
    assert laid["strength.shear_area.internal"].value * 1e6 == pytest.approx(nut, rel=1e-6)


# -- materials ------------------------------------------------------------------------------------------


def test_a_mate_of_another_material_needs_both_yield_strengths(stronger):
    other = {**LOAD, **with_mate("material: phosphor bronze")}
    sheet = stronger({}, other)
    assert sheet.figures["strength.engagement_equal"].kind is Kind.UNKNOWN
    both = stronger({"1045 steel": 400 * MPa, "phosphor bronze": 150 * MPa}, other).figures
    one = stronger({}, {**LOAD, **ENGAGED}).figures["strength.engagement_equal"].value
    ratio = (
        both["strength.shear_area.external"].value * 400 / (both["strength.shear_area.internal"].value * 150)
    )
    assert ratio > 1
    assert both["strength.engagement_equal"].value == pytest.approx(one * ratio)


def test_the_working_of_an_engagement_for_a_weaker_nut_multiplies_out(stronger):
    other = {**LOAD, **with_mate("material: phosphor bronze")}
    figure = stronger({"1045 steel": 400 * MPa, "phosphor bronze": 150 * MPa}, other).figures[
        "strength.engagement_equal"
    ]
    put = {name: value for name, (value, _) in figure.working.put.items()}
    worked = 2 * put["A t"] * put["L"] / put["A s"] * put["strength of screw"] / put["strength of nut"]
    assert figure.value == pytest.approx(worked)


def test_a_weak_nut_that_is_cut_here_asks_for_more_engagement(stronger):
    """The bronze ring is the nut: J = A_s × 400 ÷ (A_n × 150) (FED-STD-H28/2)."""
    text = RING.replace("engagement: 25", "engagement: 25, material: 1045 steel")
    laid = strengths(stronger({"1045 steel": 400 * MPa, "phosphor bronze": 150 * MPa}, text=text))
    tension, screw, nut = (
        laid[f"strength.{name}"].value
        for name in ("stress_area", "shear_area.external", "shear_area.internal")
    )
    expected = 2 * tension * 0.025 / screw * max(1, screw * 400 / (nut * 150))
    assert laid["strength.engagement_equal"].value == pytest.approx(expected)
    assert expected > 2 * tension * 0.025 / screw


def test_a_load_over_the_yield_strength_stops_the_sheet(stronger):
    changes = {**LOAD, **ENGAGED}
    weak = stronger({"1045 steel": 10 * MPa}, changes)
    assert found(weak)["strength-yield"].level == "stop"
    assert not weak.ready
    assert weak.figures["strength.yield_share"].value > 1
    fine = stronger({"1045 steel": 355 * MPa}, changes)
    assert "strength-yield" not in found(fine)
    largest = max(
        fine.figures["strength.axial"].value, fine.figures["strength.screw_stress"].value,
        math.sqrt(3) * fine.figures["strength.shear_stress.external"].value,
    )
    assert fine.figures["strength.yield_share"].value == pytest.approx(largest / (355 * MPa))


def test_the_mates_threads_are_held_against_the_mates_material(stronger):
    other = {**LOAD, **with_mate("material: phosphor bronze", engagement="1/4")}
    sheet = stronger({"1045 steel": 2000 * MPa, "phosphor bronze": 20 * MPa}, other)
    assert "strength-yield" not in found(sheet)
    assert found(sheet)["strength-mate-yield"].level == "stop"
    assert "nut's threads" in found(sheet)["strength-mate-yield"].text


def test_a_relief_through_the_wall_lays_no_stress(sheet_of):
    changes = {**LOAD, **{key: value.replace("1 1/4", "2.1") for key, value in HOLLOW.items()}}
    sheet = sheet_of(changes)
    assert not sheet.ready
    assert "strength.axial" not in sheet.figures
