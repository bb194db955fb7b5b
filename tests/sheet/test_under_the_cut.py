"""What a whole sheet says of the work under its cuts, against a frame program in space and closed forms."""

from __future__ import annotations

import importlib.util
import math
from pathlib import Path
from types import SimpleNamespace

import pytest

from generator.calc.steady_fingers import finger_forces
from generator.sheet.figure import Kind
from generator.si import mm

_spec = importlib.util.spec_from_file_location(
    "frame_in_space", Path(__file__).parents[1] / "frame_in_space.py"
)
assert _spec is not None
assert _spec.loader is not None
frame = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(frame)

E = 205e9  # of medium-carbon steel in the shop's table
CHUCK, STEADY, CENTER, FOLLOW = 1.5e5, 25e6, 40e6, 18e6
IN_JAWS = "  chuck: {jaws: 3, grip: 70}"
STIFFEST = 1e12  # N/m and N m/rad: as good as rigid

JOB = """\
job: T-2
title: Shaft
units: mm
lathe: metric
material: 1045 steel
material_known_by: stamp
work:
{work}
holding:
{holding}
duty: {{said: turns, by: customer}}
operations:
{operations}
"""


SETUP_PLACES = {  # all along the cut, m
    "chuck alone": [0.110, 0.150, 0.190, 0.230],
    "chuck and center, hollow and stepped": [0.130 + 0.370 * k / 40 for k in range(41)],
    "steady rest": [0.400, 0.450, 0.490, 0.530],
}


def said(value):
    return SimpleNamespace(si=value, with_unit=f"{value:g}", where=None)


HOUSE = {
    "chuck_stiffness": said(CHUCK), "steady_stiffness": said(STEADY), "center_stiffness": said(CENTER),
    "follow_rest_stiffness": said(FOLLOW),
}

# name: work, holding, operations; then the finished pieces outside the jaws (mm), and the supports
SETUPS = {
    "chuck alone": (
        "  - {length: 300, od: 50}", "  chuck: {jaws: 3, grip: 70}",
        "  - turn: {diameter: 44, from_diameter: 50, length: 120}",
        [(0, 110, 50, 0), (110, 230, 44, 0)], [(0, math.inf, CHUCK)],
    ),
    "chuck and center, hollow and stepped": (
        "  - {length: 200, od: 60, bore: 25}\n  - {length: 300, od: 48, bore: 25}\n  - {length: 70, od: 40}",
        IN_JAWS + "\n  center: live",
        "  - turn: {diameter: 45, from_diameter: 48, length: 370}",
        [(0, 130, 60, 25), (130, 430, 45, 25), (430, 500, 45, 0)], [(0, math.inf, CHUCK), (500, CENTER, 0)],
    ),
    "steady rest": (
        "  - {length: 470, od: 50, surface: turned}\n  - {length: 130, od: 50}",
        "  chuck: {jaws: 3, grip: 70}\n  steady: {at: 350}\n  hold_back: yes",
        "  - turn: {diameter: 42, from_diameter: 50, length: 130}",
        [(0, 400, 50, 0), (400, 530, 42, 0)], [(0, math.inf, CHUCK), (350, STEADY, 0)],
    ),
    "between centers": (
        "  - {length: 600, od: 40}", "  centers: {dog: 30}\n  center: dead",
        "  - turn: {diameter: 36, from_diameter: 40, length: 500}",
        [(0, 100, 40, 0), (100, 600, 36, 0)], [(0, CENTER, 0), (600, CENTER, 0)],
    ),
    "follow rest": (
        "  - {length: 770, od: 30}",
        "  chuck: {jaws: 3, grip: 70}\n  center: live\n  follow_rest: yes\n  follow_rest_from_tool: 20",
        "  - turn: {diameter: 27, from_diameter: 30, length: 600}",
        [(0, 100, 30, 0), (100, 700, 27, 0)], [(0, math.inf, CHUCK), (700, CENTER, 0)],
    ),
    "collet, bored": (
        "  - {length: 320, od: 40, bore: 20}", "  collet: {grip: 30}",
        "  - bore: {diameter: 26, from_diameter: 20, length: 60}",
        [(0, 230, 40, 20), (230, 290, 40, 26)], [(0, math.inf, CHUCK)],
    ),
    "faceplate, tapered": (
        "  - {length: 330, od: 60}\n  - {length: 150, od: 60, od_end: 40}",
        "  faceplate: {clamps: 3, clamp_circle: 150}",
        "  - turn: {diameter: 56, from_diameter: 60, length: 60, from_end: 150}",
        [(0, 270, 60, 0), (270, 330, 56, 0),
         *((330 + k, 331 + k, 60 - 20 * (k + 0.5) / 150, 0) for k in range(150))],
        [(0, math.inf, CHUCK)],
    ),
}


def made(sheet_of, name, **changes):
    work, holding, operations, *_ = SETUPS[name]
    text = JOB.format(work=work, holding=holding, operations=operations)
    return sheet_of(text=text, house={**HOUSE, **changes})


def cut_of(sheet):
    """Forces of the heaviest cut (N), last over heaviest, radius at which they act, from the sheet."""
    figures = sheet.figures
    main = figures["operation.1.force"].value
    turning, feed = (figures[f"holding.{key}"].value for key in ("turning_thrust_share", "feed_force_share"))
    put = figures["holding.diameter_error.max"].working.put
    return main, turning * main, feed * main, put["F last"][0] / put["F heaviest"][0]


def in_meters(rows):
    return [(*(x * mm for x in row[:-1]), row[-1] * mm) for row in rows]


def by_frame(name, sheet, x):
    """The frame program at one place of the tool, its last cut's error, and forces on the supports."""
    *_, pieces, supports = SETUPS[name]
    main, radial, feed, _ = cut_of(sheet)
    inside = "bore" in SETUPS[name][2]
    before = 50 if "from_diameter: 50" in SETUPS[name][2] else float(
        SETUPS[name][2].split("from_diameter: ")[1].split(",")[0]
    )
    after = float(SETUPS[name][2].split("diameter: ")[1].split(",")[0])
    held = [(at * mm, across, angular) for at, across, angular in supports]
    behind = x + 0.020
    if name == "follow rest" and behind <= held[-1][0]:
        held.append((behind, FOLLOW, 0.0))
    moved = frame.moved(
        in_meters(pieces), E, held, x, max(before, after) / 2 * mm,
        rear=-radial if inside else radial, up=main, towards_chuck=feed,
    )
    return moved, (-moved.rear if inside else moved.rear), min(before, after) / 2 * mm, inside


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", SETUPS)
def test_deflection_and_error_of_the_sheet_are_those_of_a_frame_program_in_space(sheet_of, name):
    """PyNite, the feed force beside the axis, at every place of the table beside the plot."""
    sheet = made(sheet_of, name)
    plot = next(one for one in sheet.plots if one.id == "deflection")
    *_, scale = cut_of(sheet)
    worst = []
    for _, (x, deflection, error) in plot.rows:
        moved, away, radius, inside = by_frame(name, sheet, x)
        worst.append(abs(deflection))
        assert deflection == pytest.approx(away, rel=1e-3, abs=1e-9)
        reach = math.hypot(radius + (-1 if inside else 1) * scale * away, scale * moved.up)
        assert error == pytest.approx(2 * (reach - radius), rel=2e-3, abs=1e-8)
    assert sheet.figures["holding.deflection.max"].value == pytest.approx(max(worst), rel=5e-3)


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", ["chuck alone", "chuck and center, hollow and stepped", "steady rest"])
def test_what_the_headstock_carries_is_that_of_the_frame_program_and_the_weight(sheet_of, name):
    """Force and moment of the cut by PyNite; the weight by PyNite too, as small weights all along."""
    sheet = made(sheet_of, name)
    *_, pieces, supports = SETUPS[name]
    heavy = [0.0, 0.0]
    for start, end, od, bore in in_meters(pieces):
        for step in range(20):
            x = start + (end - start) * (step + 0.5) / 20
            weight = 7850 * 9.80665 * math.pi / 4 * (od**2 - bore**2) * (end - start) / 20
            held = [(at * mm, across, angular) for at, across, angular in supports]
            one = frame.moved(
                in_meters(pieces), E, held, x, 0.01, rear=0.0, up=-weight, towards_chuck=0.0
            )
            heavy = [heavy[0] + one.forces[0][1], heavy[1] + one.moments[0][1]]
    forces, moments = [], []
    for x in SETUP_PLACES[name]:
        cut, *_ = by_frame(name, sheet, x)
        forces.append(math.hypot(cut.forces[0][0], cut.forces[0][1] + heavy[0]))
        moments.append(math.hypot(cut.moments[0][0], cut.moments[0][1] + heavy[1]))
    assert sheet.figures["give.head.force"].value == pytest.approx(max(forces), rel=2e-3)
    assert sheet.figures["give.head.moment"].value == pytest.approx(max(moments), rel=2e-3)
    couple = max(moments) / (70 * mm * 2 / 3)
    assert sheet.figures["give.head.couple"].value == pytest.approx(couple, rel=2e-3)


@pytest.mark.filterwarnings("ignore")
def test_the_fingers_carry_what_the_frame_program_puts_on_the_steady_rest(sheet_of):
    sheet = made(sheet_of, "steady rest")
    figures = sheet.figures
    weight = figures["holding.steady.weight"].value
    places = [row[1][0] for row in next(one for one in sheet.plots if one.id == "deflection").rows]
    fingers = [0.0, 0.0, 0.0]
    for x in places:
        moved, *_ = by_frame("steady rest", sheet, x)
        rear, up = moved.forces[1]
        fingers = [max(a, float(b)) for a, b in zip(fingers, finger_forces(rear, up - weight), strict=True)]
    for key, force in zip(("front", "rear", "top"), fingers, strict=True):
        assert figures[f"give.finger.{key}"].value == pytest.approx(force, rel=0.02, abs=1e-6)
    assert figures["give.finger.top"].value > 0
    finding = next(one for one in sheet.findings if one.id == "finger-lifts")
    assert "lower finger at the front comes free" in finding.text


@pytest.mark.filterwarnings("ignore")
def test_the_follow_rests_jaws_carry_what_the_frame_program_puts_on_them(sheet_of):
    sheet = made(sheet_of, "follow rest")
    top = rear = 0.0
    for _, (x, *_others) in next(one for one in sheet.plots if one.id == "deflection").rows:
        forces = by_frame("follow rest", sheet, x)[0].forces
        if len(forces) == 3:
            rear, top = max(rear, forces[2][0]), max(top, forces[2][1])
    assert sheet.figures["give.follow.rear"].value == pytest.approx(rear, rel=0.05)
    assert sheet.figures["give.follow.top"].value == pytest.approx(top, rel=0.05)
    assert sheet.figures["give.follow.from_tool"].kind is Kind.GIVEN


# -- closed forms of print through the whole sheet ---------------------------------------------------------

def rigid(sheet_of, work, holding, operations, **house):
    stiff = {name: said(STIFFEST) for name in HOUSE}
    text = JOB.format(work=work, holding=holding, operations=operations)
    return sheet_of(text=text, house={**stiff, **house})


def test_a_cantilever_of_print_with_the_feed_force_beside_it(sheet_of):
    """Roark, table 8.1, 1a and 3a: P L³ ÷ 3 E I − M L² ÷ 2 E I; here with M = F r. From memory."""
    sheet = rigid(
        sheet_of, "  - {length: 220, od: 30}", IN_JAWS,
        "  - turn: {diameter: 30, from_diameter: 34, length: 150}",
    )
    main, radial, feed, scale = cut_of(sheet)
    second, length = math.pi / 64 * 0.030**4, 0.150
    by_push = radial * length**3 / (3 * E * second)
    by_feed = feed * 0.017 * length**2 / (2 * E * second)
    assert sheet.figures["holding.deflection.max"].value == pytest.approx(by_push - by_feed, rel=1e-4)
    away, lift = scale * (by_push - by_feed), scale * main * length**3 / (3 * E * second)
    assert sheet.figures["holding.diameter_error.max"].value == pytest.approx(
        2 * away + lift**2 / 0.015, rel=1e-4
    )


def test_short_work_gives_by_shear_too(sheet_of):
    """Timoshenko's beam: P L ÷ κ G A beside P L³ ÷ 3 E I, κ of a solid round 0.886 (Cowper, 1966)."""
    sheet = rigid(sheet_of, "  - {length: 170, od: 50}", IN_JAWS,
                  "  - groove: {width: 4, diameter: 49.9, from_end: 4}")
    figure = sheet.figures["holding.deflection.max"]
    radial, at = sheet.figures["holding.force"].value, 0.094
    second, area = math.pi / 64 * 0.050**4, math.pi / 4 * 0.050**2
    bending = radial * at**3 / (3 * E * second)
    shear = radial * at / (0.886 * E / 2.6 * area)
    assert shear / bending > 0.1
    assert figure.value == pytest.approx(bending + shear, rel=2e-3)
    assert "shear of such short work is in it and adds about" in figure.note


def test_between_rigid_centers_the_barrel_is_that_of_print(sheet_of):
    """Roark, table 8.1, 1e and 3e: (P a² b² − F r a b (b − a)) ÷ 3 E I L; from memory."""
    sheet = rigid(
        sheet_of, "  - {length: 600, od: 30}", "  centers: {dog: 30}\n  center: dead",
        "  - turn: {diameter: 30, from_diameter: 34, length: 600}",
    )
    _, radial, feed, _ = cut_of(sheet)
    for _, (a, deflection, _) in sheet.plots[-1].rows:
        b = 0.6 - a
        bent = radial * a**2 * b**2 - feed * 0.017 * a * b * (b - a)
        give = bent / (3 * E * math.pi / 64 * 0.030**4 * 0.6)
        assert deflection == pytest.approx(give, rel=1e-4, abs=1e-9)
    assert sheet.figures["give.1.spread"].note.endswith("a barrel")
    assert "barrel" in sheet.plots[-1].says


def test_past_a_rigid_steady_rest_it_is_the_overhanging_beam_of_print(sheet_of):
    """P c² (a + c) ÷ 3 E I and P (a + c) ÷ a on the rest, chuck as a hinge; a textbook's overhanging beam."""
    sheet = rigid(
        sheet_of, "  - {length: 700, od: 40, surface: turned}\n  - {length: 170, od: 40}",
        IN_JAWS + "\n  steady: {at: 600}\n  hold_back: yes",
        "  - groove: {width: 4, diameter: 39.9, from_end: 4}", chuck_stiffness=said(1.0),
    )
    radial = sheet.figures["holding.force"].value
    a, c = 0.600, 0.794 - 0.600
    give = radial * c**2 * (a + c) / (3 * E * math.pi / 64 * 0.040**4)
    assert sheet.figures["holding.deflection.max"].value == pytest.approx(give, rel=5e-3)
    assert sheet.figures["holding.steady.force"].value == pytest.approx(radial * (a + c) / a, rel=1e-3)


def test_the_sag_of_a_bar_between_centers_is_that_of_print(sheet_of):
    """Roark, table 8.1, 2e: 5 w L⁴ ÷ 384 E I; steel of 7850 kg/m³."""
    sheet = rigid(
        sheet_of, "  - {length: 1200, od: 40}", "  centers: {dog: 30}\n  center: dead",
        "  - turn: {diameter: 40, from_diameter: 42, length: 300}",
    )
    weight = 7850 * 9.80665 * math.pi / 4 * 0.040**2
    sag = 5 * weight * 1.2**4 / (384 * E * math.pi / 64 * 0.040**4)
    assert sheet.figures["give.sag"].value == pytest.approx(sag, rel=1e-3)
    assert "600.00 mm" in sheet.figures["give.sag"].note


def test_the_sag_in_chuck_and_center_is_that_of_print(sheet_of):
    """Roark, table 8.1, 2c: w L⁴ ÷ 184.6 E I at 0.5785 L; W of 40 mm steel over 1200 mm is 0.0421745 mm."""
    sheet = rigid(
        sheet_of, "  - {length: 1270, od: 40}", IN_JAWS + "\n  center: dead",
        "  - turn: {diameter: 40, from_diameter: 42, length: 300}",
    )
    assert sheet.figures["give.sag"].value == pytest.approx(0.0421745 * mm, rel=2e-3)


# -- what is said --------------------------------------------------------------------------------------------


def found(sheet):
    return {finding.id: finding for finding in sheet.findings}


def test_a_short_grip_leaves_less_of_a_measured_stiffness_and_none_of_an_assumed_one(sheet_of):
    work, _, operations, *_ = SETUPS["chuck alone"]
    half = JOB.format(work=work, holding="  chuck: {jaws: 3, grip: 35}", operations=operations)
    figures = sheet_of(text=half, house=HOUSE).figures
    assert figures["holding.chuck_stiffness.gripped"].value == pytest.approx(CHUCK / 8)
    reversed_jaws = half.replace("grip: 35", "grip: 35, reversed: yes")
    assert "holding.chuck_stiffness.gripped" not in sheet_of(text=reversed_jaws, house=HOUSE).figures
    assert "holding.chuck_stiffness.gripped" not in sheet_of(text=half).figures
    assert "holding.chuck_stiffness.gripped" not in made(sheet_of, "chuck alone").figures


def test_the_depth_that_a_finding_names_is_right(sheet_of):
    """The force grows with the depth: set so deep, the finding is gone; a little deeper, it is there."""

    def cut(depth):
        return found(rigid(
            sheet_of, "  - {length: 670, od: 22}", IN_JAWS + "\n  center: live",
            f"  - turn: {{diameter: 22, from_diameter: {22 + 2 * depth:.4f}, length: 500, cut: {depth:.4f}, "
            "finish: 0}",
        )).get("climbs")

    said_of_it = cut(2.0).text
    named = float(said_of_it.split("Cuts of at most ")[1].split(" mm")[0])
    assert cut(named * 0.98) is None
    assert cut(named * 1.03) is not None
    assert "set a follow rest or a steady rest" in said_of_it


def test_a_bar_that_gives_a_quarter_of_any_depth_has_no_right_depth(sheet_of):
    sheet = rigid(
        sheet_of, "  - {length: 670, od: 16}", IN_JAWS + "\n  center: live",
        "  - turn: {diameter: 16, from_diameter: 22, length: 500}",
    )
    assert "No depth of cut is right for it as it is held" in found(sheet)["climbs"].text
    assert "cuts less than the dial says" in found(sheet)["climbs"].text


def test_a_cut_within_its_tolerance_is_not_asked_about(sheet_of):
    limits = "limits: {{diameter: {tolerance}}}\noperations:"
    text = JOB.format(work=SETUPS["chuck alone"][0], holding=SETUPS["chuck alone"][1],
                      operations=SETUPS["chuck alone"][2])
    wide = sheet_of(text=text.replace("operations:", limits.format(tolerance=1)), house=HOUSE)
    error = wide.figures["holding.diameter_error.max"].value
    assert "deflection" not in found(wide)
    assert [curve.kind for curve in wide.plots[-1].curves] == ["main", "limit"]
    tight = sheet_of(text=text.replace("operations:", limits.format(tolerance=3.9 * error / mm)), house=HOUSE)
    assert found(tight)["deflection"].level == "check"
    assert "operation 1 (turn to 44 mm)" in found(tight)["deflection"].text


def test_a_finger_over_its_load_is_asked_about(sheet_of, shop):
    calm = made(sheet_of, "steady rest")
    most = max(calm.figures[f"give.finger.{key}"].value for key in ("front", "rear", "top"))
    steady = shop.lathes["metric"].steady
    text = JOB.format(work=SETUPS["steady rest"][0], holding=SETUPS["steady rest"][1],
                      operations=SETUPS["steady rest"][2])
    for load, asked in ((most * 1.01, False), (most * 0.99, True)):
        lathe = {"steady": steady.model_copy(update={"finger_load": said(load)})}
        assert ("finger-load" in found(sheet_of(text=text, house=HOUSE, lathe=lathe))) == asked
    assert calm.figures["give.steady.finger_load"].kind is Kind.ASSUMED


def test_a_steady_rest_with_one_finger_below_has_its_load_above(sheet_of, shop):
    steady = shop.lathes["metric"].steady.model_copy(update={"lower_fingers": 1})
    text = JOB.format(work=SETUPS["steady rest"][0], holding=SETUPS["steady rest"][1],
                      operations=SETUPS["steady rest"][2])
    sheet = sheet_of(text=text, house=HOUSE, lathe={"steady": steady})
    assert sheet.figures["give.finger.rear"].value > sheet.figures["give.finger.bottom"].value
    assert "give.finger.top" not in sheet.figures


def test_the_slope_at_the_steady_rest_is_that_of_print(sheet_of):
    """Overhanging beam, chuck as a hinge: P c a ÷ 3 E I at the rest, here for both forces of the cut."""
    sheet = rigid(
        sheet_of, "  - {length: 700, od: 40, surface: turned}\n  - {length: 170, od: 40}",
        IN_JAWS + "\n  steady: {at: 600}\n  hold_back: yes",
        "  - groove: {width: 4, diameter: 39.9, from_end: 4}", chuck_stiffness=said(1.0),
    )
    main = radial = sheet.figures["holding.force"].value
    slope = math.hypot(main, radial) * 0.194 * 0.600 / (3 * E * math.pi / 64 * 0.040**4)
    assert sheet.figures["give.steady.slope"].value == pytest.approx(slope, rel=2e-3)


def test_without_a_cut_that_pushes_there_is_nothing_to_say(sheet_of):
    sheet = rigid(sheet_of, "  - {length: 220, od: 54}", IN_JAWS, "  - polish: {length: 50}")
    assert "holding.deflection.max" not in sheet.figures
    assert all(plot.id != "deflection" for plot in sheet.plots)


def test_a_boring_tool_pushes_the_work_onto_the_front_finger(sheet_of):
    """It cuts the side at the front from within: the work goes up and towards the operator."""
    sheet = rigid(
        sheet_of, "  - {length: 470, od: 50, bore: 20, surface: turned}\n  - {length: 130, od: 50, bore: 20}",
        IN_JAWS + "\n  steady: {at: 480}\n  hold_back: yes",
        "  - bore: {diameter: 26, from_diameter: 20, length: 40}",
    )
    assert sheet.figures["give.finger.front"].value > sheet.figures["give.finger.rear"].value
    assert "the lower finger at the rear comes free" in found(sheet)["finger-lifts"].text


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize(("hand", "behind"), [("", 0.025), ("-LH", -0.025)])
def test_the_follow_rest_stands_on_the_side_that_the_tool_has_left(sheet_of, hand, behind):
    """A left-hand thread is cut towards the tailstock: the rest bears on the chuck's side of the tool."""
    sheet = rigid(
        sheet_of, "  - {length: 770, od: 30}",
        IN_JAWS + "\n  center: live\n  follow_rest: yes\n  follow_rest_from_tool: 25",
        f"  - thread: {{designation: M30x2-6g{hand}, length: 200, from_end: 100}}",
        follow_rest_stiffness=said(FOLLOW),
    )
    radial, root = sheet.figures["holding.force"].value, sheet.figures["thread.root"].value / mm
    pieces = in_meters([(0, 400, 30, 0), (400, 600, root, 0), (600, 700, 30, 0)])
    supports = [(0.0, math.inf, STIFFEST), (0.7, STIFFEST, 0.0)]
    for _, (x, deflection, _) in sheet.plots[-1].rows:
        held = [*supports, (x + behind, FOLLOW, 0.0)]
        away = frame.moved(pieces, E, held, x, 0.015, rear=radial, up=0.0, towards_chuck=0.0).rear
        assert deflection == pytest.approx(away, rel=2e-3)


# -- workings ------------------------------------------------------------------------------------------------


def worked_out(figure):
    """The value of a figure from its own working, read as arithmetic."""
    formula = figure.working.formula
    for name, (value, _) in figure.working.put.items():
        formula = formula.replace(f"{{{name}}}", f"({value!r})")
    for sign, other in (("÷", "/"), ("×", "*"), ("−", "-"), ("²", "**2"), ("√", "math.sqrt")):
        formula = formula.replace(sign, other)
    return eval(formula, {"math": math})  # our own formulas


@pytest.mark.parametrize("name", SETUPS)
def test_every_working_under_the_cut_multiplies_out(sheet_of, name):
    figures = made(sheet_of, name).figures
    ours = {key: one for key, one in figures.items() if one.working and key.startswith((
        "give.1", "give.2", "give.head", "give.finger", "give.follow", "give.sag", "give.steady",
        "holding.deflection", "holding.diameter_error", "holding.steady", "holding.force", "holding.chuck",
    ))}
    assert len(ours) > 4
    for key, figure in ours.items():
        assert worked_out(figure) == pytest.approx(figure.value, rel=1e-9), key


def test_a_wire_that_bends_out_of_the_way_is_stopped_and_has_no_error_to_its_name(sheet_of):
    """Rod of 4 mm, 150 mm out: no small movement of a beam says how far it bends, and nobody would cut it."""
    wire = JOB.format(
        work="  - {length: 170, od: 4}", holding="  chuck: {jaws: 3, grip: 20}",
        operations="  - turn: {diameter: 3, from_diameter: 4, length: 100}",
    )
    sheet = sheet_of(text=wire)
    said_of = {finding.id: finding for finding in sheet.findings}
    assert said_of["climbs"].level == "stop"
    assert "out of the tool's way" in said_of["climbs"].text
    assert "deflection" not in said_of
    assert sheet.figures["holding.diameter_error.max"].kind is Kind.UNKNOWN
