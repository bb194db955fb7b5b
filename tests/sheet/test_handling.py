"""Weight and handling on the sheet: balance point, stock, slings, hands, what droops, the chuck itself."""

from __future__ import annotations

import math

import pytest

from generator.job.written import Given
from generator.sheet.figure import Kind
from generator.sheet.holding.stock import finished_rounds, stock_rounds
from generator.sheet.layout import lay_out
from generator.si import inch, lb

HEAVY = {"{length: 11 5/8, od: 2.75}": "{length: 60, od: 5, surface: turned}"}
STEADY = {**HEAVY, "  center: live": "  steady: {at: auto}\n  hold_back: yes"}
STOCK = {
    "turn: {diameter: 2 1/4, length: 2 7/8}": "turn: {diameter: 2 1/4, length: 2 7/8, from_diameter: 2.75}",
}
DENSITY = 7850.0


def handled(sheet):
    return {name: figure for name, figure in sheet.figures.items() if name.startswith("handling.")}


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def given(value, quantity):
    return Given(value, "x", quantity)


# -- balance point --------------------------------------------------------------------------------------


def test_a_stepped_pin_balances_where_its_two_cylinders_do(sheet_of):
    """Statics by hand: 11 5/8 in of 2 3/4 and 2 7/8 in of 2 1/4; 3 in gripped."""
    first, second = 11.625 * 2.75**2, 2.875 * 2.25**2
    middle = (first * 11.625 / 2 + second * (11.625 + 2.875 / 2)) / (first + second) - 3
    laid = handled(sheet_of())
    assert laid["handling.balance"].value / inch == pytest.approx(middle)
    assert laid["handling.balance_from_end"].value / inch == pytest.approx(11.5 - middle)


def test_a_hollow_tapered_part_balances_where_thin_slices_do(sheet_of):
    changes = {"{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 4, od_end: 2.75, bore: 1 1/2}"}
    steps, weighed, moment = 20000, 0.0, 0.0
    for step in range(steps):
        x = 14.5 * (step + 0.5) / steps
        od, bore = (4 - 1.25 * x / 11.625, 1.5) if x < 11.625 else (2.25, 0)
        weighed += od**2 - bore**2
        moment += (od**2 - bore**2) * (x - 3)
    sheet = sheet_of(changes)
    assert handled(sheet)["handling.balance"].value / inch == pytest.approx(moment / weighed, rel=1e-4)


def test_its_working_multiplies_out(sheet_of):
    figure = handled(sheet_of(STOCK))["handling.balance"]
    put = {name: value for name, (value, _) in figure.working.put.items()}
    lengths = range(1, len(put) // 2 + 1)
    assert sum(put[f"share {n}"] for n in lengths) == pytest.approx(1)
    assert figure.value == pytest.approx(sum(put[f"share {n}"] * put[f"middle {n}"] for n in lengths))


def test_the_balance_point_needs_no_material(sheet_of):
    unknown = {"material: 1045 steel": "material: unknown", "material_known_by: stamp\n": ""}
    laid = handled(sheet_of(unknown))
    assert laid["handling.balance"].value == pytest.approx(handled(sheet_of())["handling.balance"].value)
    assert set(laid) == {"handling.balance", "handling.balance_from_end"}


# -- what is lifted in ----------------------------------------------------------------------------------


def test_the_heaviest_state_is_what_is_lifted_in(sheet_of):
    """2.673 D² lb a foot (steel at 0.2836 lb/in³): 14.5 in of 2 3/4 in once the stock is on."""
    laid = handled(sheet_of(STOCK))
    assert laid["handling.stock_weight"].value / lb == pytest.approx(2.673 * 2.75**2 * 14.5 / 12, rel=2e-3)
    assert laid["handling.balance"].value / inch == pytest.approx(14.5 / 2 - 3)
    assert "handling.stock_weight" not in handled(sheet_of())


def test_a_bore_that_is_still_full_weighs_too(sheet_of):
    """The bore of the finished part is drilled here: a solid bar is lifted in."""
    changes = {
        "{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, bore: 1}",
        "{length: 2 7/8, od: 2 1/4}": "{length: 2 7/8, od: 2 1/4, bore: 1}",
        "operations:\n": "operations:\n  - drill: {diameter: 1, depth: 14 1/2}\n",
    }
    solid, laid = sheet_of().figures["holding.weight"].value, handled(sheet_of(changes))
    assert laid["handling.stock_weight"].value == pytest.approx(solid)


def test_stock_on_the_end_counts(sheet_of):
    faced = {"operations:\n": "operations:\n  - face: {end: right, stock: 1}\n"}
    end = math.pi / 4 * (2.25 * inch) ** 2 * inch * DENSITY
    laid = handled(sheet_of(faced))
    assert laid["handling.stock_weight"].value == pytest.approx(
        sheet_of().figures["holding.weight"].value + end
    )
    both = laid["handling.balance_from_end"].value + laid["handling.balance"].value
    assert both == pytest.approx(12.5 * inch)


def test_stock_that_takes_it_over_what_one_lifts_is_found(sheet_of):
    """40 lb finished, 66 lb with its stock."""
    changes = {
        "{length: 11 5/8, od: 2.75}": "{length: 16, od: 2 1/4}",
        "turn: {diameter: 2 1/4, length: 2 7/8}": "turn: {diameter: 2 1/4, length: 15 3/4, from_diameter: 4}",
    }
    sheet = sheet_of(changes)
    assert sheet.figures["holding.weight"].value < 25
    assert handled(sheet)["handling.stock_weight"].value > 25
    assert "With its stock" in found(sheet)["lift"].text
    caution = next(one for one in sheet.cautions if one.id == "lift")
    heavier = handled(sheet)["handling.stock_weight"].value
    assert f"about {heavier / lb:.0f} lb ({heavier:.0f} kg) as it is lifted in" in caution.because
    tired = sheet_of(changes, lathe={"hoist": given(20.0, "mass")})
    assert found(tired)["hoist"].level == "stop"


def test_a_little_stock_is_not_worth_a_line(sheet_of):
    faced = handled(sheet_of({"operations:\n": "operations:\n  - face: {end: right, stock: 1/64}\n"}))
    assert "handling.stock_weight" not in faced
    assert faced["handling.balance"].value == pytest.approx(handled(sheet_of())["handling.balance"].value)
    assert "lifted in" not in faced["handling.balance"].note


def test_a_hoist_is_asked_for_once(sheet_of):
    sheet = sheet_of({**HEAVY, **STOCK})
    assert [finding.id for finding in sheet.findings].count("lift") == 1


def test_flat_work_on_a_faceplate_does_not_hang_out_of_it(sheet_of):
    """A ring of 3 in clamped all round on 11 in; a post three times as long as its clamps are apart."""
    plate = {
        "{length: 11 5/8, od: 2.75}": "{length: 3, od: 9}",
        "chuck: {jaws: 4, grip: 3}\n  center: live": "faceplate: {clamps: 4, clamp_circle: 11}",
    }
    assert "droop" not in found(sheet_of(plate))
    tall = {**plate, "{length: 11 5/8, od: 2.75}": "{length: 30, od: 9}"}
    assert "droop" in found(sheet_of(tall))


# -- hands ----------------------------------------------------------------------------------------------


def test_what_hands_lift_over_the_bed(sheet_of):
    """NIOSH 94-110, tables: HM at 50 cm 0.50, VM at 100 cm 0.93, AM at 45° 0.86; 23 kg × these = 9.2 kg."""
    sheet = sheet_of()
    figure = handled(sheet)["handling.lift_reaching"]
    assert figure.kind is Kind.ASSUMED
    assert figure.value == pytest.approx(23 * 0.50 * 0.93 * 0.86, rel=0.02)
    worked = math.prod(value for value, _ in figure.working.put.values())
    assert figure.value == pytest.approx(worked)
    assert found(sheet)["lift-reach"].level == "note"
    light = sheet_of({"{length: 11 5/8, od: 2.75}": "{length: 4, od: 2.75}", "grip: 3": "grip: 1"})
    assert "lift-reach" not in found(light)
    assert "lift-reach" not in found(sheet_of(HEAVY))


# -- slings ---------------------------------------------------------------------------------------------


def test_two_slings_lie_evenly_each_side_of_the_balance_point(sheet_of):
    """Each carries half, W ÷ (2 cos 30°) along the sling (riggers' charts: 1.155 at 60° from level)."""
    sheet = sheet_of(STEADY)
    laid = handled(sheet)
    middle = laid["handling.balance_from_end"].value
    near, far = (laid[f"handling.sling.{end}"].value for end in ("tailstock", "chuck"))
    assert (near + far) / 2 == pytest.approx(middle, abs=inch / 8 + 1e-9)
    assert near < middle < far
    weight = sheet.figures["holding.weight"].value
    assert laid["handling.sling_load"].value == pytest.approx(weight * 1.155 / 2, rel=1e-3)
    assert laid["handling.hook_height"].value >= (far - near) / 2 / math.tan(math.radians(30)) - 1e-9
    assert "hangs level" in found(sheet)["sling"].text


def test_slings_stay_clear_of_jaws_and_steady_rest(sheet_of):
    sheet = sheet_of(STEADY)
    end = sheet.figures["holding.stick_out"].value
    at = sheet.figures["holding.steady.position"].value
    places = [end - handled(sheet)[f"handling.sling.{end_}"].value for end_ in ("tailstock", "chuck")]
    assert all(place > 0.04 for place in places)
    assert all(abs(place - at) > 0.05 for place in places)
    for place, name in zip(places, ("tailstock", "chuck"), strict=True):
        moved = handled(sheet_of({**STEADY, "{at: auto}": f"{{at: {place / inch:.2f}}}"}))
        assert abs(end - moved[f"handling.sling.{name}"].value - place) > 0.05


def test_short_heavy_work_hangs_in_one_sling(sheet_of):
    changes = {"{length: 11 5/8, od: 2.75}": "{length: 14, od: 6 1/2}"}
    laid = handled(sheet_of(changes))
    middle = laid["handling.balance_from_end"].value
    assert laid["handling.sling"].value == pytest.approx(middle, abs=inch / 8)
    assert "handling.sling.chuck" not in laid


def test_work_that_balances_inside_the_jaws_gets_a_board(sheet_of):
    changes = {"{length: 11 5/8, od: 2.75}": "{length: 6, od: 9}", "jaws: 4, grip: 3": "jaws: 4, grip: 3 1/2"}
    sheet = sheet_of(changes)
    assert "lift" in found(sheet)
    assert "board" in found(sheet)["sling"].text
    assert "handling.sling" not in sheet.figures


def test_light_work_wants_no_sling(sheet_of):
    assert "sling" not in found(sheet_of())


# -- hanging out ----------------------------------------------------------------------------------------


def test_heavy_work_in_the_chuck_alone_hangs_with_its_weight_at_its_balance_point(sheet_of):
    sheet = sheet_of(STEADY)
    laid = handled(sheet)
    moment = sheet.figures["holding.weight"].value * 9.80665 * laid["handling.balance"].value
    assert laid["handling.droop"].value == pytest.approx(moment)
    assert found(sheet)["droop"].level == "check"
    assert "until the steady rest is set" in found(sheet)["droop"].text
    assert "until the center is in" in found(sheet_of(HEAVY))["droop"].text


def test_short_work_does_not_droop(sheet_of):
    assert "droop" not in found(sheet_of())
    assert "handling.droop" not in handled(sheet_of())


def test_between_centers_nothing_hangs_out(sheet_of):
    changes = {**HEAVY, "  chuck: {jaws: 4, grip: 3}\n": "  centers: {dog: 1}\n"}
    sheet = sheet_of(changes)
    assert "droop" not in found(sheet)
    assert "headstock end" in handled(sheet)["handling.balance"].label


# -- the chuck ------------------------------------------------------------------------------------------


def test_a_chuck_is_one_more_thing_to_lift(sheet_of, shop):
    chucks = shop.lathes["long-bed"].chucks

    def with_mass(kilograms):
        mass = given(kilograms, "mass") if kilograms else None
        return {"chucks": [one.model_copy(update={"mass": mass}) for one in chucks]}

    assert handled(sheet_of(lathe=with_mass(None)))["handling.head_weight"].kind is Kind.UNKNOWN
    heavy = sheet_of(lathe=with_mass(70.0))
    assert handled(heavy)["handling.head_weight"].value == 70
    assert found(heavy)["chuck-lift"].level == "note"
    assert "cradle board" in found(heavy)["chuck-lift"].text
    assert found(sheet_of(lathe=with_mass(15.0)))["chuck-lift"].level == "note"
    assert "chuck-lift" not in found(sheet_of(lathe=with_mass(6.0)))
    weak = {**with_mass(70.0), "hoist": given(50.0, "mass")}
    assert found(sheet_of(lathe=weak))["chuck-lift"].level == "check"
    assert "more than the x that the hoist" in found(sheet_of(lathe=weak))["chuck-lift"].text


def test_the_layout_of_a_pin_is_what_its_rounds_are_made_from(job_of):
    layout = lay_out(job_of())
    assert [(one.start, one.end) for one in finished_rounds(layout)] == [
        (span.start, span.end) for span in layout.spans
    ]
    assert sum(one.volume for one in stock_rounds(layout, ())) == pytest.approx(
        sum(one.volume for one in finished_rounds(layout))
    )
