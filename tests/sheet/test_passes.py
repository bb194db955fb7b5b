"""The pass table: it adds up, stands on the dial, lands inside the limits, and says what to expect."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from pydantic import TypeAdapter

from generator.job import fields
from generator.job.lathe_parts import Dial
from generator.sheet.figure import Kind
from generator.si import degree, hp, inch, mm

NO_RULES = dict.fromkeys(("first_cut", "last_cut", "spring_passes", "compound_angle", "try_mate_above"))
METRIC = {
    "units: inch": "units: mm",
    "length: 11 5/8, od: 2.75": "length: 205, od: 16",
    "length: 2 7/8, od: 2 1/4": "length: 55, od: 16",
    "grip: 3": "grip: 40",
    "2 1/4-8 UN-2B": "M16-6H",
    "diameter: 2 1/4, length: 2 7/8": "diameter: 16, length: 55",
    "width: 3/8, diameter: 2.060, radius: 1/16": "width: 7, radius: 1",
    "lathe: long-bed": "lathe: metric",
    "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1": "designation: M16x2-6g, length: 45, tool: V3",
    "jaws: 4": "jaws: 3",
}
FINE = {
    "2 1/4-8 UN-2A": "2 1/4-32 UN-3A",
    "2 1/4-8 UN-2B": "2 1/4-32 UN-3B",
    "2.060": "2.18",
    ", tool: V1": "",
}
STAINLESS = {"1045 steel": "316 stainless"}


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def thread(words):
    return {"length: 2 1/2, tool": f"length: 2 1/2, {words}, tool"}


def length(text):
    return TypeAdapter(fields.Length).validate_python(text)


def cuts_of(sheet):
    return [line for line in sheet.passes if not line.spring]


def dial(division, turn, reads):
    return Dial(division=length(division), turn=length(turn), reads=reads)


JOBS = [
    ({}, {}),
    ({}, {"house": NO_RULES}),
    (METRIC, {}),
    (METRIC, {"house": NO_RULES}),
    (thread("infeed: {method: plunge}"), {}),
    (thread("infeed: {angle: 29 deg}"), {}),
    (thread("first_cut: 0.030"), {}),
    (thread("last_cut: 0.005"), {}),
    (STAINLESS, {}),
    (FINE, {"house": NO_RULES}),
    ({}, {"lathe": {"compound_dial": dial("0.05 mm", "3 mm", "diameter")}}),
    ({}, {"lathe": {"compound_dial": dial("0.002 in", "0.100 in", "radius")}}),
]


@pytest.mark.parametrize(("changes", "more"), JOBS)
def test_every_table_keeps_its_promises(sheet_of, changes, more):
    sheet = sheet_of(changes, **more)
    assert sheet.ready, [finding.text for finding in sheet.findings if finding.level == "stop"]
    figures, lines, cuts = sheet.figures, sheet.passes, cuts_of(sheet)
    angle = figures["passes.infeed_angle"].value

    assert [line.number for line in lines] == list(range(1, len(lines) + 1))
    assert sum(line.cut for line in lines) == pytest.approx(figures["passes.depth"].value, abs=1e-12)
    assert cuts[-1].depth == pytest.approx(figures["passes.depth"].value, abs=1e-12)
    for line in lines:
        assert line.depth == pytest.approx(line.travel * math.cos(angle), abs=1e-12)

    assert all(after.depth > before.depth for before, after in pairwise(cuts))
    assert all(after.cut <= before.cut + 1e-9 for before, after in pairwise(cuts)), (
        "the last cuts are the small ones"
    )
    assert cuts[0].cut <= max(figures["passes.first_cut"].value, cuts[-1].cut) + 1e-9
    assert min(line.cut for line in cuts) >= figures["passes.last_cut"].value - 1e-9
    low, high = (figures[f"thread.pitch_diameter.{end}"].value for end in ("min", "max"))
    assert low <= lines[-1].pitch_diameter <= high
    assert figures["passes.final_pitch_diameter"].value == lines[-1].pitch_diameter

    (trial,) = [line for line in lines if line.try_mate]
    assert trial.number < cuts[-1].number
    assert trial.pitch_diameter > cuts[-1].pitch_diameter
    assert lines[-1].measure
    assert cuts[-1].measure
    assert figures["passes.count"].value == len(cuts)
    assert figures["passes.spring"].value == len(lines) - len(cuts)


@pytest.mark.parametrize(
    ("record", "infeed"),
    [
        (dial("0.001 in", "0.125 in", "radius"), "compound"),
        (dial("0.001 in", "0.100 in", "diameter"), "compound"),
        (dial("0.02 mm", "2 mm", "radius"), "plunge"),
        (dial("0.05 mm", "4 mm", "diameter"), "plunge"),
    ],
)
def test_readings_stand_on_whole_graduations_and_say_the_travel(sheet_of, record, infeed):
    slide = "compound_dial" if infeed == "compound" else "cross_dial"
    sheet = sheet_of(thread(f"infeed: {{method: {infeed}}}"), lathe={slide: record})
    for line in sheet.passes:
        graduations = line.dial_reading / record.division.si
        assert graduations == pytest.approx(round(graduations), abs=1e-6)
        assert 0 <= line.dial_reading < record.turn.si
        shown = line.dial_turns * record.turn.si + line.dial_reading
        assert shown == pytest.approx(line.travel * (2 if record.reads == "diameter" else 1), abs=1e-12)
    assert record.reads in sheet.pass_dial
    assert slide.split("_")[0] in sheet.pass_dial
    assert any("reads diameter" in remark for remark in sheet.pass_remarks) == (record.reads == "diameter")


def test_sizes_over_wires_are_those_of_the_handbook_formula(sheet_of):
    """M = E + 3 W − 0.866025 P (NBS Handbook H28), E from the groove: every line that has a size."""
    sheet = sheet_of()
    sized = [line for line in sheet.passes if line.over_wires is not None]
    assert sized
    for line in sized:
        by_hand = line.pitch_diameter + 3 * 0.0722 * inch - 0.8660254 * inch / 8
        assert line.over_wires == pytest.approx(by_hand, abs=1e-8)


def test_no_size_over_wires_before_the_wires_seat(sheet_of):
    """A best wire touches at the pitch cylinder, so not before that is under the surface (geometry)."""
    sheet = sheet_of(thread("wire: 0.0722"))
    blank = sheet.figures["thread.blank"].value
    assert sheet.passes[0].over_wires is None
    for line in sheet.passes:
        assert (line.over_wires is not None) == (line.pitch_diameter <= blank + 1e-6), line.number


def test_pitch_diameter_falls_by_twice_the_cut(sheet_of):
    for before, after in pairwise(sheet_of().passes):
        assert before.pitch_diameter - after.pitch_diameter == pytest.approx(2 * after.cut, abs=1e-12)


def test_chips_add_up_to_the_groove(sheet_of):
    """Area of the groove: F h + h² tan 30° (geometry), with the tool's flat of 0.012 in."""
    sheet = sheet_of()
    depth, flat = sheet.figures["passes.depth"].value, 0.012 * inch
    assert sum(line.chip_area for line in sheet.passes) == pytest.approx(
        flat * depth + depth**2 * math.tan(30 * degree)
    )


def test_usual_first_cut_makes_chips_of_about_one_size(sheet_of):
    """Constant chip area of a sharp tool; the nose flat and whole graduations spread it."""
    for changes in ({}, METRIC):
        cuts = cuts_of(sheet_of(changes, house=NO_RULES))
        areas = [line.chip_area for line in cuts]
        assert max(areas) / min(areas) < 2.5


@pytest.mark.parametrize(("changes", "low", "high"), [({}, 15, 32), (METRIC, 10, 24)])
def test_usual_number_of_passes(sheet_of, changes, low, high):
    """Carbide 10 to 16 passes at 3 mm and 7 to 12 at 2 mm (2020 guide), 1.5 to 2 times as many with steel."""
    sheet = sheet_of(changes, house=NO_RULES)
    assert low <= sheet.figures["passes.count"].value <= high
    assert sheet.figures["passes.first_cut"].kind is Kind.ASSUMED
    assert sheet.figures["passes.last_cut"].kind is Kind.ASSUMED
    assert "many-passes" not in ids(sheet)


def test_many_passes_are_worth_a_word(sheet_of):
    sheet = sheet_of(thread("first_cut: 0.008, last_cut: 0.001"))
    assert ids(sheet)["many-passes"].level == "note"
    assert sheet.ready


def test_where_the_cuts_come_from(sheet_of):
    figures = sheet_of().figures
    assert figures["passes.first_cut"].kind is Kind.SHOP
    assert figures["passes.infeed_angle"].kind is Kind.SHOP
    figures = sheet_of(
        thread("first_cut: 0.020, last_cut: 0.002, spring_passes: 1, infeed: {angle: 29 deg}")
    ).figures
    for name in ("first_cut", "last_cut", "spring", "infeed_angle"):
        assert figures[f"passes.{name}"].kind is Kind.GIVEN, name
    figures = sheet_of(house=NO_RULES).figures
    for name in ("first_cut", "last_cut", "spring", "infeed_angle"):
        assert figures[f"passes.{name}"].kind is Kind.ASSUMED, name


def test_compound_is_set_over_29_and_a_half_degrees_when_nobody_says(sheet_of):
    figures = sheet_of(house=NO_RULES).figures
    assert figures["passes.infeed_angle"].value == pytest.approx(29.5 * degree)
    assert figures["passes.travel"].value == pytest.approx(figures["passes.depth"].value * 1.1490, rel=1e-4)


def test_straight_in_uses_the_cross_slide(sheet_of):
    sheet = sheet_of(thread("infeed: {method: plunge}"))
    assert sheet.pass_dial.startswith("cross slide dial")
    assert sheet.figures["passes.infeed_angle"].value == 0
    assert sheet.passes[0].travel == sheet.passes[0].depth


def test_an_angle_over_the_flank_stops(sheet_of):
    sheet = sheet_of(thread("infeed: {angle: 31 deg}"))
    assert ids(sheet)["infeed-angle"].level == "stop"
    assert "infeed-angle" not in ids(sheet_of(thread("infeed: {angle: 30 deg}")))


def test_plunge_with_an_angle_contradicts_itself(sheet_of):
    sheet = sheet_of(thread("infeed: {method: plunge, angle: 29 deg}"))
    assert ids(sheet)["infeed-contradiction"].level == "stop"
    assert sheet.passes == ()


def test_a_last_cut_above_the_first_contradicts_itself(sheet_of):
    sheet = sheet_of(thread("first_cut: 0.002, last_cut: 0.005"))
    assert ids(sheet)["cuts-contradict"].level == "stop"
    assert sheet.passes == ()


def test_a_usual_first_cut_gives_way_to_the_shop_s_least_cut(sheet_of):
    """Nobody said how large the first cut is to be, so there is nothing to contradict."""
    sheet = sheet_of(FINE, house={**NO_RULES, "last_cut": length("0.008 in")})
    assert "cuts-contradict" not in ids(sheet)


def test_half_graduations_where_whole_ones_are_too_coarse(sheet_of):
    """A graduation of 0.005 in on radius is 0.0087 on the pitch diameter; the limits are 0.0080 apart."""
    coarse = dial("0.005 in", "0.125 in", "radius")
    seen = set()
    for blank in ("2.2440", "2.2450", "2.2460", "2.2470"):
        sheet = sheet_of(
            thread(f"blank: {{value: {blank}, by: KL, with: micrometer}}"), lathe={"compound_dial": coarse}
        )
        low, high = (sheet.figures[f"thread.pitch_diameter.{end}"].value for end in ("min", "max"))
        assert low <= sheet.passes[-1].pitch_diameter <= high
        halves = any("halfway between graduations" in remark for remark in sheet.pass_remarks)
        readings = [line.dial_reading / coarse.division.si for line in sheet.passes]
        assert halves == any(abs(reading - round(reading)) > 0.01 for reading in readings)
        assert ("half" in sheet.figures["passes.travel"].note) == halves
        seen.add(halves)
    assert seen == {True, False}


def test_a_dial_too_coarse_for_the_tolerance_stops(sheet_of):
    sheet = sheet_of(FINE, lathe={"compound_dial": dial("0.025 in", "0.250 in", "radius")}, house=NO_RULES)
    assert ids(sheet)["dial-coarse"].level == "stop"
    assert sheet.passes == ()


def test_a_dial_whose_turn_is_no_whole_number_of_divisions_stops(sheet_of):
    odd = Dial.model_construct(division=length("0.003 in"), turn=length("0.100 in"), reads="radius")
    sheet = sheet_of(lathe={"compound_dial": odd})
    assert ids(sheet)["outside-range"].level == "stop"


def test_no_spring_passes_on_metal_that_hardens_unless_the_job_asks(sheet_of):
    """No passes without infeed on work-hardening material: guide of a maker of threading tools (2020)."""
    sheet = sheet_of(STAINLESS)
    assert sheet.figures["passes.spring"].value == 0
    assert any("hardens" in remark for remark in sheet.pass_remarks)
    sheet = sheet_of({**STAINLESS, **thread("spring_passes: 1")})
    assert sheet.figures["passes.spring"].value == 1
    assert not any("hardens" in remark for remark in sheet.pass_remarks)
    assert sheet_of(STAINLESS, house=NO_RULES).figures["passes.last_cut"].value == pytest.approx(0.002 * inch)


def test_spring_passes_cut_nothing_and_keep_the_reading(sheet_of):
    sheet = sheet_of(thread("spring_passes: 3"))
    springs = [line for line in sheet.passes if line.spring]
    end = cuts_of(sheet)[-1]
    assert len(springs) == 3
    for line in springs:
        assert (line.cut, line.chip_area, line.force) == (0, 0, None)
        assert (line.depth, line.dial_reading, line.over_wires) == (
            end.depth,
            end.dial_reading,
            end.over_wires,
        )


@pytest.mark.parametrize(("above", "system"), [("0.002 in", {}), ("0.010 in", {}), ("0.05 mm", METRIC)])
def test_the_mate_is_tried_from_the_first_line_near_size(sheet_of, above, system):
    sheet = sheet_of(system, house={"try_mate_above": length(above)})
    line_to_start = sheet.figures["thread.pitch_diameter.max"].value + length(above).si
    cuts = cuts_of(sheet)
    trial = next(line for line in cuts if line.try_mate)
    assert all(line.pitch_diameter > line_to_start for line in cuts[: trial.number - 1])
    assert trial.pitch_diameter <= line_to_start or trial.number == cuts[-1].number - 1
    assert sheet.figures["passes.try_mate_over_wires"].value == trial.over_wires


def test_one_cut_leaves_nothing_to_try(sheet_of):
    sheet = sheet_of(thread("first_cut: 0.2, last_cut: 0.1"))
    assert ids(sheet)["one-cut"].level == "check"
    assert sheet.figures["passes.try_mate_over_wires"].kind is Kind.UNKNOWN
    assert [line.number for line in cuts_of(sheet)] == [1]


def test_measuring_starts_at_four_fifths(sheet_of):
    cuts = cuts_of(sheet_of())
    first = next(line for line in cuts if line.measure)
    assert first.depth >= 0.8 * cuts[-1].depth
    assert cuts[first.number - 2].depth < 0.8 * cuts[-1].depth


def test_force_and_power_follow_the_material(sheet_of):
    """Kienzle: kc1.1 1500 N/mm² and mc 0.22 for medium-carbon steel (2017 catalogue); one flank cuts."""
    sheet = sheet_of()
    line = max(cuts_of(sheet), key=lambda line: line.force)
    edge = line.depth / math.cos(30 * degree)
    by_hand = 1500 * (line.chip_area / edge / mm) ** -0.22 * line.chip_area * 1e6
    assert line.force == pytest.approx(by_hand)
    figure = sheet.figures["passes.largest_force"]
    assert figure.value == line.force
    assert figure.working.put["h in mm"][0] == pytest.approx(line.chip_area / edge / mm)
    speed = math.pi * sheet.figures["thread.blank"].value * sheet.figures["spindle.step"].value
    assert sheet.figures["passes.power"].value == pytest.approx(line.force * speed)


def test_straight_in_takes_more_force_than_along_the_flank(sheet_of):
    """Both flanks cut, so the chip is half as thick and its specific force larger (Kienzle)."""
    specific = []
    for method in ("compound", "plunge"):
        end = cuts_of(sheet_of(thread(f"infeed: {{method: {method}}}, last_cut: 0.0025")))[-1]
        specific.append(end.force / end.chip_area)
    assert specific[1] / specific[0] == pytest.approx(2**0.22, rel=0.06)


def test_unknown_material_has_passes_without_force(sheet_of):
    sheet = sheet_of({"material: 1045 steel\nmaterial_known_by: stamp": "material: unknown"})
    assert sheet.passes
    assert all(line.force is None for line in sheet.passes)
    for name in ("passes.largest_force", "passes.power"):
        assert sheet.figures[name].kind is Kind.UNKNOWN


def test_a_weak_motor_is_asked_about(sheet_of):
    power = TypeAdapter(fields.Power).validate_python("0.05 hp")
    sheet = sheet_of(lathe={"power": power})
    assert sheet.figures["passes.power"].value > 0.75 * 0.05 * hp
    assert ids(sheet)["power"].level == "check"


def test_a_left_hand_thread_feeds_the_other_way(sheet_of):
    left = {"2 1/4-8 UN-2A": "2 1/4-8 UN-2A-LH", "2 1/4-8 UN-2B": "2 1/4-8 UN-2B-LH"}
    assert "towards the headstock" in sheet_of().pass_remarks[0]
    assert "towards the tailstock" in sheet_of(left).pass_remarks[0]


def test_the_remark_says_with_what_it_is_tried(sheet_of):
    assert any("Try the mate from pass" in remark for remark in sheet_of().pass_remarks)
    assert any("Try the go gauge" in remark for remark in sheet_of(thread("fit: gauge")).pass_remarks)
