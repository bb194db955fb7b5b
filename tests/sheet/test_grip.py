"""Grip on the sheet: what the cuts want, what there is, speed, marks, jaws past the body, creeping out."""

from __future__ import annotations

import math
import re
from types import SimpleNamespace

import pytest

from generator.calc.sections import second_moment
from generator.calc.slenderness import shear_share
from generator.job.written import Given
from generator.sheet.desk import Desk
from generator.sheet.figure import Kind
from generator.sheet.holding.grip_demand import Gripped, demands
from generator.sheet.holding.grip_words import lay_push
from generator.sheet.plans import CutLoad, Forces
from generator.sheet.work_so_far import Stretch, WorkSoFar
from generator.si import inch, lbf

HELD = "chuck: {jaws: 4, grip: 3}"
OPEN = {"  center: live\n": ""}
ROUTE = """\
  - turn: {diameter: 2 1/4, length: 2 7/8}
  - relief: {width: 3/8, diameter: 2.060, radius: 1/16}
  - thread: {designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1}
"""


def given(si: float, quantity: str) -> Given:
    return Given(si, f"{si:g}", quantity, unit="SI", bare=True)


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def value(sheet, name):
    return sheet.figures[name].value


UNSAID = dict.fromkeys(
    ("key_torque", "grip_force", "jaw_mass", "jaw_middle", "jaw_width", "jaw_length", "stiffness")
)


def chucks(shop, **entries):
    """The long lathe's chucks, nothing said of their jaws but what `entries` says of the four-jaw one."""
    bare = [one.model_copy(update=UNSAID) for one in shop.lathes["long-bed"].chucks]
    return {"chucks": [one.model_copy(update=entries) if one.jaws == 4 else one for one in bare]}


@pytest.fixture
def sheet_of(sheet_of, shop):
    """As the bench's, with chucks of which nothing more is said, and no grip of the shop's own."""
    def make(changes=None, *, lathe=None, house=None, **named):
        own = {"grip_safety": None, "key_torque": None, **(house or {})}
        return sheet_of(changes, lathe={**chucks(shop), **(lathe or {})}, house=own, **named)

    return make


def multiplied_out(figure) -> float:
    """The formula of a figure with its numbers put in, worked out by Python."""
    text = figure.working.formula
    for old, new in (("×", "*"), ("÷", "/"), ("−", "-"), ("√", "math.sqrt"), ("²", "**2"), ("π", "math.pi")):
        text = text.replace(old, new)
    names = list(figure.working.put)
    text = re.sub(r"\{([^}]*)\}", lambda hit: f"put[{names.index(hit.group(1))}]", text)
    put = [number for number, _ in figure.working.put.values()]
    return eval(text, {"math": math, "put": put})  # our own formulas


RATED = {
    "key_torque": given(200.0, "torque"), "grip_force": given(50e3, "force"),
    "jaw_mass": given(2.0, "mass"), "jaw_middle": given(0.05, "length"), "jaw_width": given(0.03, "length"),
}
ROUTES = {
    "center": {},
    "open": OPEN,
    "steady": {"  center: live": "  steady: {at: 4, off_axis: 0.010}"},
    "inside": {HELD: "chuck: {jaws: 4, grip: 3, inside: yes}", "od: 2.75}": "od: 2.75, bore: 2}", **OPEN},
    "past body": {HELD: "chuck: {jaws: 4, grip: 3, past_body: 1, key_torque: 90 N m}"},
    "collet": {HELD: "collet: {grip: 2, force: 6000 lbf}"},
    "faceplate": {HELD: "faceplate: {clamps: 4, clamp_circle: 8, clamp_force: 3000 lbf}", **OPEN},
    "centers": {HELD: "centers: {dog: 1}"},
    "drill": {**OPEN, ROUTE: "  - drill: {diameter: 1, depth: 2}\n"},
}


@pytest.mark.parametrize("route", ROUTES)
def test_every_working_multiplies_out(sheet_of, shop, route):
    figures = sheet_of(ROUTES[route], lathe=chucks(shop, **RATED)).figures
    ours = [one for name, one in figures.items() if name.startswith("grip.") and one.working]
    assert len(ours) >= 3
    for one in ours:
        assert multiplied_out(one) == pytest.approx(one.value, rel=1e-9), one.name
        assert one.source


# -- what the cuts want --------------------------------------------------------------------------------------


def test_grip_holds_torque_and_push_of_the_hardest_cut(sheet_of):
    """Coulomb by hand, from the torque that stands in the route: fine turned or ground, smooth jaws, 0.07."""
    sheet = sheet_of()
    number = re.search(r"operation (\d)", value(sheet, "grip.cut")).group(1)
    torque = value(sheet, f"operation.{number}.torque")
    by_hand = 2 * torque / (2.75 * inch) / 0.07
    assert value(sheet, "grip.holds") == pytest.approx(by_hand)
    assert value(sheet, "grip.needed") == pytest.approx(2.25 * by_hand)
    assert "grip.tipping" not in sheet.figures


def test_no_cut_of_the_route_wants_more(sheet_of):
    sheet = sheet_of()
    for number in (1, 2):
        torque, force = value(sheet, f"operation.{number}.torque"), value(sheet, f"operation.{number}.force")
        push = 0.5 * force if number == 1 else 0.0
        wants = math.hypot(2 * torque / (2.75 * inch), push) / 0.07
        assert wants <= value(sheet, "grip.holds") * (1 + 1e-9)


def test_without_a_support_the_cut_tips_the_work(sheet_of):
    """By hand: main and radial force at the end of the work, about the middle of three inches of grip."""
    sheet = sheet_of({**OPEN, ROUTE: "  - groove: {width: 1/8, diameter: 2, from_end: 0}\n"})
    arm = (11.5 - 0.0625 + 1.5) * inch  # a groove lies about its middle, give or take its half width
    force = value(sheet, "operation.1.force")
    assert value(sheet, "grip.tipping") == pytest.approx(math.hypot(force, force) * arm, rel=0.01)
    assert value(sheet, "grip.holds") > 2 * value(sheet, "grip.torque") / (2.75 * inch) / 0.07
    assert "nothing bears" in sheet.figures["grip.cut"].note


def test_heavy_work_tips_by_its_weight_when_the_cut_does_not(sheet_of):
    """A hole drilled in a solid round that stands out: weight × (half its length + half the grip)."""
    drilled = {**OPEN, ROUTE: "  - drill: {diameter: 1/4, depth: 1}\n", "od: 2 1/4": "od: 2.75"}
    sheet = sheet_of(drilled)
    weight = 7850 * 9.80665 * math.pi / 4 * (2.75 * inch) ** 2 * 11.5 * inch
    assert value(sheet, "grip.tipping") == pytest.approx(weight * (11.5 / 2 + 1.5) * inch, rel=2e-3)


def test_a_drill_asks_twice_the_torque_of_its_lips_and_its_thrust(sheet_of):
    sheet = sheet_of({**OPEN, ROUTE: "  - drill: {diameter: 1, depth: 2}\n"})
    assert value(sheet, "grip.torque") == pytest.approx(2 * value(sheet, "operation.1.torque"))
    assert value(sheet, "grip.push") == pytest.approx(value(sheet, "operation.1.force"))
    assert "seated" in sheet.figures["grip.holds"].note


def test_a_seat_takes_the_push_of_a_drill_but_not_its_torque(sheet_of):
    drill = {**OPEN, ROUTE: "  - drill: {diameter: 1, depth: 2}\n"}
    free, on_seat = sheet_of(drill), sheet_of({**drill, HELD: "chuck: {jaws: 4, grip: 3, seated: yes}"})
    assert "grip.push" not in on_seat.figures
    assert value(on_seat, "grip.torque") == value(free, "grip.torque")
    # torque alone: F = 2 M / (mu d), statics
    assert value(on_seat, "grip.holds") == pytest.approx(
        2 * value(on_seat, "grip.torque") / (value(on_seat, "grip.friction") * 2.75 * inch)
    )
    assert value(free, "grip.holds") > 2 * value(on_seat, "grip.holds")



def test_a_mass_off_the_axis_tips_the_work_too(sheet_of):
    """m r ω² by hand at the step of the cut, at its place, on top of what the cut does."""
    turned = {**OPEN, ROUTE: "  - turn: {diameter: 2, length: 2 7/8, from_diameter: 2 1/4}\n"}
    alone = sheet_of(turned)
    heavy = sheet_of({**turned, "grip: 3}": "grip: 3}\n  unbalance: {mass: 2 lb, radius: 3, at: 8}"})
    pull = 2 * 0.45359237 * 3 * inch * (2 * math.pi * value(heavy, "operation.1.step")) ** 2
    more = value(heavy, "grip.tipping") - value(alone, "grip.tipping")
    assert more == pytest.approx(pull * (8 + 1.5) * inch)


def test_a_mass_off_the_axis_of_work_that_vanishes_in_the_jaws_is_no_help(sheet_of):
    """A grip longer than the work is found elsewhere; here it must not come out as a moment below nothing."""
    changes = {**OPEN, "grip: 3}": "grip: 16}\n  unbalance: {mass: 2 lb, radius: 3}"}
    sheet = sheet_of({**changes, ROUTE: "  - face: {end: right, stock: 1/32}\n"})
    assert "grip-too-long" in found(sheet)
    assert sheet.figures["grip.needed"].value > 0


def test_the_push_of_a_center_takes_nothing_off_the_grip(sheet_of):
    """It is there without the cut, and work that gives way to it is held again: a stress of its own."""
    pushed = sheet_of({"live": "live\n  center_push: 400 lbf"})
    assert value(pushed, "grip.holds") == value(sheet_of(), "grip.holds")


def test_a_feed_away_from_the_chuck_is_held_by_friction_only(sheet_of):
    """A cut that runs towards the tailstock: its words, and the same grip as the other way."""
    work = WorkSoFar((Stretch(0.0, 0.3, 0.05, 0.05, 0.0),))
    found = []
    for feed in (-300.0, 300.0):
        forces = Forces(800.0, 400.0, feed)
        load = CutLoad(1, "turn", "Turn", 0.0, 0.3, 0.05, forces, forces, None, 2.0, work, center=True)
        one = demands(SimpleNamespace(loads=(load,)), 0.02)[0]
        desk = Desk()
        lay_push(desk, one)
        found.append((one.holds(Gripped(0.05, 0.05, 0.1, 3)).force, desk.figures["grip.push"]))
    assert found[0][0] == found[1][0] == pytest.approx(math.hypot(800.0, 300.0) / 0.1)
    assert [figure.note for _, figure in found] == ["away from the chuck", "towards the chuck"]
    assert [figure.value for _, figure in found] == [300.0, 300.0]


@pytest.mark.parametrize(
    ("inside", "feed", "level"),
    [  # radial 400 N at 0.12 m: 48 N m; feed at 25 mm: 7.5 N m, and which way each of them tips the work
        (False, 300.0, 48.0), (False, -300.0, 55.5), (True, 300.0, 55.5), (True, -300.0, 48.0),
    ],
)
def test_the_feed_tips_the_work_with_the_radial_force_or_against_it(inside, feed, level):
    """By hand: outside the tool pushes the work away, in a bore to the front; never counted as a help."""
    work = WorkSoFar((Stretch(0.0, 0.1, 0.05, 0.05, 0.0),))
    forces = Forces(800.0, 400.0, feed)
    load = CutLoad(1, "turn", "Turn", 0.1, 0.0, 0.05, forces, forces, None, 2.0, work, inside=inside)
    holding = SimpleNamespace(unbalance=None)
    case = SimpleNamespace(
        loads=(load,), held=SimpleNamespace(material=None),
        bench=SimpleNamespace(job=SimpleNamespace(holding=holding)),
    )
    one = demands(case, 0.02)[0]
    assert one.level == pytest.approx(level)
    assert one.upright == pytest.approx(800.0 * 0.12)


@pytest.mark.parametrize(("grip", "tips"), [("3", False), ("1/2", True)])
def test_a_short_grip_that_rocks_is_asked_about(sheet_of, grip, tips):
    """By hand: one end of a jaw lifts once the moment is more than force × length ÷ 12."""
    sheet = sheet_of({**OPEN, HELD: f"chuck: {{jaws: 4, grip: {grip}, force: 60 kN}}", "11 5/8": "4"})
    lifts = value(sheet, "grip.tipping") > 60e3 * float(grip.replace("1/2", "0.5")) * inch / 12
    assert lifts == tips
    assert ("grip-tipping" in found(sheet)) == tips


def test_without_a_material_the_grip_is_unknown(sheet_of):
    sheet = sheet_of({"1045 steel": "unknown"})
    assert sheet.figures["grip.needed"].kind is Kind.UNKNOWN
    assert not [name for name in sheet.figures if name.startswith("grip.") and name != "grip.needed"]


@pytest.mark.parametrize(
    ("chuck", "surface", "friction", "assumed"),
    [
        ("face: smooth", "", 0.07, True),
        ("face: smooth", "ground", 0.07, False),
        ("face: serrated", "turned", 0.35, False),
        ("face: diamond-cut", "rough", 0.30, False),
        ("soft_jaws: yes", "turned", 0.10, False),
        ("soft_jaws: yes, face: serrated", "turned", 0.35, False),
        ("pie_jaws: yes", "turned", 0.10, False),
        ("reversed: yes", "turned", 0.10, True),
    ],
)
def test_friction_is_that_of_the_guides_table(sheet_of, chuck, surface, friction, assumed):
    """RN-1391, table 4; what nobody said is the cautious one, and says that it is assumed."""
    lies = f"od: 2.75, surface: {surface}}}" if surface else "od: 2.75}"
    changes = {HELD: f"chuck: {{jaws: 4, grip: 3, {chuck}}}", "od: 2.75}": lies}
    figure = sheet_of(changes).figures["grip.friction"]
    assert figure.value == pytest.approx(friction)
    assert figure.assumed == assumed
    assert "RN-1391" in figure.source


def test_the_shops_own_safety_comes_first(sheet_of):
    sheet = sheet_of(house={"grip_safety": given(3.0, "number")})
    assert value(sheet, "grip.needed") == pytest.approx(3 * value(sheet, "grip.holds"))
    assert sheet.figures["grip.safety"].kind is Kind.SHOP


def test_only_what_the_jaws_touch_is_gripped(sheet_of, shop):
    """Jaws shorter than the grip; and a step in the jaws, of which they touch the larger."""
    short = chucks(shop, jaw_length=given(1 * inch, "length"))
    long, cut = sheet_of(OPEN), sheet_of(OPEN, lathe=short)
    assert value(cut, "grip.holds") > value(long, "grip.holds")
    stepped = {"  - {length: 11 5/8, od: 2.75}": "  - {length: 1, od: 2}\n  - {length: 10 5/8, od: 2.75}"}
    sheet = sheet_of({**OPEN, **stepped})
    assert sheet.figures["grip.holds"].working.put["d"][0] == pytest.approx(2.75 * inch)


def test_operations_whose_force_is_not_known_are_named(sheet_of):
    knurled = {ROUTE: ROUTE + "  - knurl: {length: 1, pitch: 1/16}\n"}
    assert "operation 4 not in it" in sheet_of(knurled).figures["grip.needed"].note
    assert "operation" not in sheet_of().figures["grip.needed"].note


# -- what there is -------------------------------------------------------------------------------------------


def wanted(sheet):
    return value(sheet, "grip.holds"), value(sheet, "grip.needed")


SAID = {"od: 2.75}": "od: 2.75, surface: turned}"}


@pytest.mark.parametrize(("share", "level"), [(0.9, "stop"), (1.1, "check"), (2.2, "check"), (2.3, None)])
def test_too_little_grip_is_found(sheet_of, share, level):
    holds, needed = wanted(sheet_of({**SAID, HELD: "chuck: {jaws: 4, grip: 3, face: smooth}"}))
    force = f"chuck: {{jaws: 4, grip: 3, face: smooth, force: {share * holds:.0f} N}}"
    sheet = sheet_of({**SAID, HELD: force})
    assert value(sheet, "grip.force") == pytest.approx(share * holds, rel=1e-3)
    low = found(sheet).get("grip-low")
    assert (low.level if low else None) == level
    assert "grip-unknown" not in found(sheet)
    assert needed > holds
    if level:
        assert "kN" in low.text
        assert "lbf" in low.text
        assert "guess" not in low.text


@pytest.mark.parametrize(("share", "level"), [(0.1, "stop"), (0.5, "check")])
def test_a_guess_of_the_friction_stops_only_what_no_friction_would_hold(sheet_of, share, level):
    """0.07 is guessed; serrated jaws on a rough surface may have 0.45, RN-1391 table 4."""
    holds, _ = wanted(sheet_of())
    low = found(sheet_of({HELD: f"chuck: {{jaws: 4, grip: 3, force: {share * holds:.0f} N}}"}))["grip-low"]
    assert low.level == level
    assert "the cautious guess" in low.text
    assert "work: surface" in low.text


def test_an_unknown_grip_is_a_note_with_the_force_of_one_jaw(sheet_of):
    note = found(sheet_of())["grip-unknown"]
    assert note.level == "note"
    assert "a jaw" in note.text
    assert "grip_force" in note.text


def test_a_torque_on_the_key_without_the_chucks_rating_gives_no_force(sheet_of):
    sheet = sheet_of({HELD: "chuck: {jaws: 3, grip: 3, key_torque: 150 N m}"})
    assert "grip.force" not in sheet.figures
    text = found(sheet)["grip-unknown"].text
    assert "What force 150 N m on the key gives is not known" in text
    assert "scroll chuck" in text
    assert "scroll chuck" not in found(sheet_of())["grip-unknown"].text


def test_force_follows_the_torque_on_the_key(sheet_of, shop):
    rated = chucks(shop, key_torque=given(200.0, "torque"), grip_force=given(50e3, "force"))
    sheet = sheet_of({HELD: "chuck: {jaws: 4, grip: 3, key_torque: 150 N m}"}, lathe=rated)
    assert value(sheet, "grip.force") == pytest.approx(37.5e3)
    assert "50%" in sheet.figures["grip.force"].note
    assert "grip-over-key" not in found(sheet)
    over = sheet_of({HELD: "chuck: {jaws: 4, grip: 3, key_torque: 260 N m}"}, lathe=rated)
    assert "260 N m" in found(over)["grip-over-key"].text


def test_the_shops_usual_torque_stands_in_where_the_job_says_none(sheet_of, shop):
    rated = chucks(shop, key_torque=given(200.0, "torque"), grip_force=given(50e3, "force"))
    sheet = sheet_of(lathe=rated, house={"key_torque": given(100.0, "torque")})
    assert value(sheet, "grip.force") == pytest.approx(25e3)


def test_the_torque_that_the_key_wants_is_said(sheet_of, shop):
    rated = chucks(shop, key_torque=given(200.0, "torque"), grip_force=given(50e3, "force"))
    sheet = sheet_of(lathe=rated)
    assert value(sheet, "grip.key_torque") == pytest.approx(value(sheet, "grip.needed") / 250)
    assert "on the key" in found(sheet)["grip-unknown"].text
    weak = chucks(shop, key_torque=given(200.0, "torque"), grip_force=given(5e3, "force"))
    assert found(sheet_of(lathe=weak))["grip-over-key"].level == "check"


# -- speed ---------------------------------------------------------------------------------------------------


def step_of_the_worst(sheet):
    number = int(re.search(r"operation (\d)", value(sheet, "grip.cut")).group(1))
    return value(sheet, "spindle.step" if number == 3 else f"operation.{number}.step")


def test_speed_takes_from_the_grip_from_outside(sheet_of, shop):
    """n m r ω² by hand at the step of the worst cut and at the highest; VDI 3106: 1.5 times it at rest."""
    weighed = chucks(shop, jaw_mass=given(2.0, "mass"), jaw_middle=given(0.05, "length"))
    drilled = {ROUTE: "  - center_drill: {end: right, depth: 3/16}\n" + ROUTE}
    sheet = sheet_of(drilled, lathe=weighed)
    pull = 4 * 2.0 * (2.75 * inch / 2 + 0.05) * (2 * math.pi) ** 2
    number = int(re.search(r"operation (\d)", value(sheet, "grip.cut")).group(1))
    loss = pull * value(sheet, f"operation.{number}.step") ** 2
    assert value(sheet, "grip.loss") == pytest.approx(loss)
    assert value(sheet, "grip.loss.highest") == pytest.approx(pull * value(sheet, "operation.1.step") ** 2)
    assert value(sheet, "grip.needed") == pytest.approx(2.25 * value(sheet, "grip.holds") + 1.5 * loss)


def test_speed_adds_to_the_grip_from_inside(sheet_of, shop):
    near = chucks(shop, jaw_mass=given(2.0, "mass"), jaw_middle=given(0.01, "length"))
    inside = sheet_of(ROUTES["inside"], lathe=near)
    gain = 4 * 2.0 * (inch - 0.01) * (2 * math.pi * step_of_the_worst(inside)) ** 2
    assert value(inside, "grip.gain") == pytest.approx(gain)
    assert value(inside, "grip.needed") == pytest.approx(2.25 * value(inside, "grip.holds") - 1.5 * gain)
    far = chucks(shop, jaw_mass=given(2.0, "mass"), jaw_middle=given(0.05, "length"))
    assert value(sheet_of(ROUTES["inside"], lathe=far), "grip.gain") == 0  # balance point beyond the axis


def test_what_the_record_does_not_say_of_the_jaws_is_named(sheet_of):
    sheet = sheet_of()
    assert "jaw_mass" in sheet.figures["grip.loss"].source
    assert "jaw_width" in sheet.figures["grip.jaw_pressure"].source
    assert "not in it" in sheet.figures["grip.needed"].note


def test_a_chuck_that_lets_go_at_speed_stops_the_sheet(sheet_of, shop):
    """EN 1550, as a chuck maker's manual quotes it: not more than two thirds of the grip may go."""
    heavy = chucks(shop, jaw_mass=given(60.0, "mass"), jaw_middle=given(0.3, "length"))
    sheet = sheet_of({HELD: "chuck: {jaws: 4, grip: 3, force: 2 kN}"}, lathe=heavy)
    assert found(sheet)["grip-speed"].level == "stop"
    assert found(sheet)["grip-low"].level == "stop"


# -- marks ---------------------------------------------------------------------------------------------------

TURNED = {"od: 2.75}": "od: 2.75, surface: turned}"}


def test_pressure_under_a_jaw_is_force_over_face_and_line(sheet_of, shop):
    """Mean by hand; line contact as Carvill has it: w = √(32 F (1 − ν²) r ÷ (π L E)), σ = 4 F ÷ (π w L)."""
    sheet = sheet_of({**TURNED, HELD: "chuck: {jaws: 4, grip: 3, face: smooth, force: 40 kN}"},
                     lathe=chucks(shop, jaw_width=given(0.03, "length")))
    assert value(sheet, "grip.jaw_pressure") == pytest.approx(10e3 / (0.03 * 3 * inch))
    width = math.sqrt(32 * 10e3 * 0.91 * 2.75 / 2 * inch / (math.pi * 3 * inch * 205e9))
    line = 4 * 10e3 / (math.pi * width * 3 * inch)
    assert value(sheet, "grip.line_pressure") == pytest.approx(line)
    assert value(sheet, "grip.marks.yield") == pytest.approx(line / 1.67, rel=2e-3)


@pytest.mark.parametrize(
    ("chuck", "surface", "marks"),
    [
        ("face: serrated", "ground", True),
        ("face: diamond-cut", "turned", True),
        ("face: serrated", "rough", False),
        ("face: smooth", "ground", False),
        ("soft_jaws: yes", "ground", False),
    ],
)
def test_teeth_on_a_finished_surface_are_asked_about(sheet_of, chuck, surface, marks):
    changes = {HELD: f"chuck: {{jaws: 4, grip: 3, {chuck}}}", "od: 2.75}": f"od: 2.75, surface: {surface}}}"}
    assert ("grip-marks" in found(sheet_of(changes))) == marks


@pytest.mark.parametrize(("strength", "marks"), [(200e6, True), (900e6, False)])
def test_hard_jaws_mark_what_yields_under_them(read_of, shop, strength, marks):
    from generator.sheet.compute import compute_sheet

    metal = shop.materials["1045 steel"].model_copy(update={"yield_strength": given(strength, "pressure")})
    changed = shop.model_copy(update={"materials": {**shop.materials, "1045 steel": metal}})
    sheet = compute_sheet(read_of({**TURNED, HELD: "chuck: {jaws: 4, grip: 3, force: 40 kN}"}), changed)
    assert 200e6 < value(sheet, "grip.marks.yield") < 900e6
    assert ("grip-marks" in found(sheet)) == marks


# -- jaws past the body --------------------------------------------------------------------------------------


def test_jaws_past_the_body_have_a_lower_top_speed(sheet_of):
    sheet = sheet_of({HELD: "chuck: {jaws: 4, grip: 3, past_body: 1}"})
    assert value(sheet, "grip.past_body") == pytest.approx(1 * inch)
    assert value(sheet, "grip.past_body.speed") == pytest.approx(800 / 60 * math.sqrt(16 / 20))
    finding = found(sheet)["grip-past-body"]
    assert finding.level == "note"
    assert "OSHA" in finding.text


def test_a_step_above_that_speed_is_asked_about(sheet_of, shop):
    slow = chucks(shop, top_speed=given(100 / 60, "spindle_speed"))
    assert found(sheet_of({HELD: "chuck: {jaws: 4, grip: 3, past_body: 3}"}, lathe=slow))[
        "grip-past-body"].level == "check"


def test_work_larger_than_the_chuck_holds_its_jaws_past_the_body(sheet_of, shop):
    small = chucks(shop, diameter=given(2 * inch, "length"))
    sheet = sheet_of(lathe=small)
    assert value(sheet, "grip.past_body") == pytest.approx(0.375 * inch)
    assert "at least" in sheet.figures["grip.past_body"].note
    assert "grip.past_body" not in sheet_of().figures


# -- creeping out --------------------------------------------------------------------------------------------

PLAIN = {
    "  - {length: 11 5/8, od: 2.75}": "  - {length: 11 5/8, od: 2 1/4}",
    "  center: live": "  steady: {at: 6}",
    ROUTE: "  - groove: {width: 1/8, diameter: 2, from_end: 0}\n",
}
STIFF = {"stiffness": given(1e12, "angular_stiffness")}
FIRM = {"steady_stiffness": given(1e15, "stiffness")}


def test_the_limit_is_that_of_a_clamped_bar(sheet_of, shop):
    """By hand: 3 E I e ÷ a² of a clamped bar against μ F r, four jaws in their worst position r = d ÷ 4."""
    changes = {**PLAIN, HELD: "chuck: {jaws: 4, grip: 3, force: 30 kN, face: smooth}"}
    sheet = sheet_of(changes, lathe={**chucks(shop, **STIFF), "steady": _firm_rest(shop)}, house=FIRM)
    per_metre = 3 * 205e9 * second_moment(2.25 * inch) / (6 * inch) ** 2
    limit = 0.07 * 30e3 * 2.25 * inch / 4 / per_metre
    sheared = limit * (1 + shear_share(6 * inch, 2.25 * inch))  # where the beam takes shear in
    assert 0.999 * limit < value(sheet, "grip.creep.off_axis_limit") < 1.01 * sheared
    assert "√(front² + top²)" in sheet.figures["grip.creep.off_axis_limit"].note


def _firm_rest(shop):
    return shop.lathes["long-bed"].steady.model_copy(update={"stiffness": given(1e15, "stiffness")})


@pytest.mark.parametrize(
    ("off", "back", "level"),
    [
        ("", "", "check"), ("", "\n  hold_back: yes", None), (", off_axis: 0.0001", "", None),
        (", off_axis: 0.020", "\n  hold_back: yes", "check"), (", off_axis: 0.020", "", "stop"),
        (", off_axis: 0.060", "\n  hold_back: yes", "stop"),
    ],
)
def test_a_steady_rest_off_the_axis_is_found(sheet_of, off, back, level):
    steady = {**PLAIN, "  center: live": f"  steady: {{at: 6{off}}}{back}"}
    creep = found(sheet_of(steady)).get("grip-creep")
    assert (creep.level if creep else None) == level
    if creep:
        assert "Mark the work at the jaws" in creep.text


def test_near_to_creeping_is_told_before_it_creeps(sheet_of):
    """Over half of what the friction holds: a friction nobody measured is not known better."""
    steady = "  steady: {{at: 6, off_axis: {:.6f}}}"
    true = sheet_of({**PLAIN, "  center: live": steady.format(0.0001)})
    limit = value(true, "grip.creep.off_axis_limit") / inch
    near = found(sheet_of({**PLAIN, "  center: live": steady.format(0.6 * limit)}))["grip-creep"]
    assert near.level == "check"
    assert "50%" in near.text
    assert "grip-creep" not in found(sheet_of({**PLAIN, "  center: live": steady.format(0.4 * limit)}))


def test_with_a_center_as_well_the_bend_is_that_of_a_propped_bar(sheet_of, shop):
    """Clamped in the chuck, propped by the center: M = P b (L² − b²) ÷ (2 L²); Roark, table 8.1, 1c."""
    both = {**PLAIN, "  center: live": "  center: live\n  steady: {at: 6, off_axis: 0.010}"}
    stiff = {**chucks(shop, **STIFF), "steady": _firm_rest(shop)}
    sheet = sheet_of(both, lathe=stiff, house={**FIRM, "center_stiffness": given(1e15, "stiffness")})
    length, b = 11.5 * inch, 5.5 * inch
    share = value(sheet, "grip.creep.moment") / value(sheet, "grip.creep.push")
    assert share == pytest.approx(b * (length**2 - b**2) / (2 * length**2), rel=0.05)  # shear, if it is in


def test_a_softer_chuck_lets_the_rest_stand_further_off(sheet_of, shop):
    limits = [
        value(sheet_of(PLAIN, lathe=chucks(shop, stiffness=given(stiffness, "angular_stiffness"))),
              "grip.creep.off_axis_limit")
        for stiffness in (1e4, 1e5, 1e6)
    ]
    assert limits == sorted(limits, reverse=True)


def test_a_center_keeps_the_work_from_walking_out(sheet_of):
    """The bend is still said where somebody measured it, but nothing is found."""
    both = {**PLAIN, "  center: live": "  center: live\n  steady: {at: 6, off_axis: 0.060}"}
    sheet = sheet_of(both)
    assert "grip.creep.moment" in sheet.figures
    assert "grip-creep" not in found(sheet)
    quiet = sheet_of({**PLAIN, "  center: live": "  center: live\n  steady: {at: 6}"})
    assert not [name for name in quiet.figures if name.startswith("grip.creep")]


# -- without jaws --------------------------------------------------------------------------------------------


def test_a_collet_grips_all_round_with_the_force_of_job_or_record(sheet_of):
    sheet = sheet_of({HELD: "collet: {grip: 2, force: 6000 lbf}"})
    assert value(sheet, "grip.force") == pytest.approx(6000 * lbf)
    assert "collet" in sheet.figures["grip.friction"].label
    assert "grip.line_pressure" not in sheet.figures
    assert "grip.loss" not in sheet.figures


def test_clamps_on_a_faceplate_by_hand(sheet_of):
    """Four clamps on 8 in: friction against torque and what pushes across, or a bolt circle that tips."""
    sheet = sheet_of({HELD: "faceplate: {clamps: 4, clamp_circle: 8, clamp_force: 3000 lbf}", **OPEN})
    torque, across, tips = (value(sheet, f"grip.{name}") for name in ("torque", "across", "tipping"))
    circle = 8 * inch
    slip, lift = (2 * torque / circle + across) / 0.07, 4 * tips / circle
    assert value(sheet, "grip.holds") == pytest.approx(max(slip, lift), rel=1e-6)
    assert value(sheet, "grip.force") == pytest.approx(12000 * lbf)
    assert value(sheet, "grip.clamp") == pytest.approx(value(sheet, "grip.needed") / 4)
    low = found(sheet)["grip-low"]
    assert low.level == ("stop" if value(sheet, "grip.force") < value(sheet, "grip.holds") else "check")
    assert "stop bolted on the plate" in low.text
    share = value(sheet, "grip.holds") / 4
    for of_one, level in ((0.95 * share, "stop"), (1.05 * share, "check"), (2.3 * share, None)):
        clamps = {HELD: f"faceplate: {{clamps: 4, clamp_circle: 8, clamp_force: {of_one:.0f} N}}", **OPEN}
        again = found(sheet_of(clamps)).get("grip-low")
        assert (again.level if again else None) == level
    unsaid = sheet_of({HELD: "faceplate: {clamps: 4, clamp_circle: 8}", **OPEN})
    assert found(unsaid)["grip-unknown"].level == "note"


def test_between_centers_the_dog_carries_the_torque(sheet_of):
    sheet = sheet_of({HELD: "centers: {dog: 1}"})
    torque = value(sheet, "grip.torque")
    assert value(sheet, "grip.dog.around") == pytest.approx(2 * torque / (2.75 * inch))
    assert value(sheet, "grip.dog.tail") == pytest.approx(torque / (2.75 * inch))
    assert "Tie the tail" in found(sheet)["dog-tail"].text
    assert "grip.needed" not in sheet.figures


def test_what_is_wanted_at_the_lathe_stands_first_and_nothing_is_lost(sheet_of):
    """Grip wanted first, then what it comes from; other sections keep their order."""
    figures = sheet_of().figures
    grip = [name for name in figures if name.startswith("grip.")]
    assert grip[:3] == ["grip.needed", "grip.holds", "grip.friction"]
    assert len(grip) == len(set(grip))
    names = list(figures)
    assert names.index("holding.grip") < names.index(grip[0]) < names.index("handling.balance")
