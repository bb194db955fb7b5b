"""Whether what holds the work takes it, and at which speed: collet, faceplate, centers, jaws on both sides.

The sizes are those of the invented lathes of the demo archive; the rules are common practice, no source.
"""

from __future__ import annotations

import pytest

from generator.job.lathe import Lathe
from generator.sheet.capacity import capacity_section, used_head
from generator.sheet.desk import Desk
from generator.sheet.layout import lay_out
from generator.sheet.lines import Finding
from generator.si import inch

COLLET = "  collet: {grip: 1 1/2}"
CENTERS = "  centers: {dog: 1}\n  center: dead"
PLATE = "  faceplate: {clamps: 3, clamp_circle: 6}"


def found(sheet, id: str) -> Finding:
    """The one finding of that name."""
    (one,) = [finding for finding in sheet.findings if finding.id == id]
    return one


def ids(sheet) -> set[str]:
    return {finding.id for finding in sheet.findings}


@pytest.mark.parametrize(
    ("id", "changes", "level", "text", "line"),
    [
        (
            "collet-missing", {"lathe: thirteen-inch": "lathe: long-bed"}, "stop",
            "L1 Long lathe has no collets in its record. If it has some, write them there; if not, "
            "take a chuck, or a lathe that has collets.", 11,
        ),
        (
            "collet-range", {"{length: 6, od: 7/8}": "{length: 6, od: 1 1/4}"}, "stop",
            "The work is 1.250 in (31.75 mm) in the collet; those of L2 Thirteen-inch lathe take 1/16 in to "
            "1 in. Take a chuck, or another lathe.", 11,
        ),
        (
            "collet-part-filled", {"grip: 1 1/2": "grip: 3/4"}, "check",
            "The work fills 3/4 in of the 1 3/4 in that the collet closes on. Less than half of it, and the "
            "collet tips and holds at one end only. Push the work further in, or put a plug of the same "
            "diameter behind it.", 11,
        ),
        (
            "grip-past-jaws", {"grip: 1 1/2": "grip: 2"}, "check",
            "The grip is 2 in, but the collet holds only 1 3/4 in of the work. Measure both again: the "
            "stick-out counts from the face of the collet.", 11,
        ),
        (
            "grip-taper", {"{length: 6, od: 7/8}": "{length: 6, od: 15/16, od_end: 7/8}"}, "stop",
            "The collet would close on a taper and hold on one edge only: the work slips and spoils the "
            "collet. Take a chuck with soft jaws bored to the taper, or hold the work at a straight place.",
            11,
        ),
        (
            "faceplate-missing", {COLLET: PLATE, "lathe: thirteen-inch": "lathe: metric"}, "stop",
            "L3 Metric lathe has no faceplate in its record. If it has one, write it there; if not, "
            "take a chuck, or a lathe that has one.", 11,
        ),
        (
            "faceplate-range", {COLLET: "  faceplate: {clamps: 3, clamp_circle: 12}"}, "stop",
            "The clamps press on a circle of 12 in; the faceplate of L2 Thirteen-inch lathe is 12 in across, "
            "and the clamps need its slots outside the work. Take a larger faceplate, or clamp nearer the "
            "middle.",
            11,
        ),
        (
            "few-clamps", {COLLET: "  faceplate: {clamps: 1, clamp_circle: 6}"}, "check",
            "One clamp holds the work at one place, and the cut turns it around that clamp. Use at least 2, "
            "better three, spread around the plate, and a stop against the turning.", 11,
        ),
        (
            "faceplate-overhung", {COLLET: PLATE, "{length: 6, od: 7/8}": "{length: 6, od: 12 1/2}"}, "check",
            "The work is 12.500 in (317.50 mm) across at the faceplate, which is only 12 in. What stands out "
            "past "
            "the plate turns unsupported: check that it clears bed and carriage by hand, and guard it.", 11,
        ),
        (
            "too-long", {COLLET: CENTERS, "{length: 6, od: 7/8}": "{length: 38 1/4, od: 7/8}"}, "stop",
            "The work takes 40.250 in (1022.35 mm); L2 Thirteen-inch lathe has 40 in between centers. Take a "
            "longer lathe.", 8,
        ),
        (
            "too-long",
            {COLLET: f"{COLLET}\n  center: live", "{length: 6, od: 7/8}": "{length: 34, od: 7/8}"},
            "stop",
            "Work, collet and center take 41.000 in (1041.40 mm); L2 Thirteen-inch lathe has 40 in between "
            "centers. Take a longer lathe, or pass the work through the spindle.", 8,
        ),
    ],
)
def test_what_does_not_take_the_work_is_said(shaft_of, id, changes, level, text, line) -> None:
    one = found(shaft_of(changes), id)
    assert (one.level, one.text, one.where.line) == (level, text, line)


@pytest.mark.parametrize(
    ("changes", "gone"),
    [
        ({}, {"collet-missing", "collet-range", "collet-part-filled", "grip-past-jaws", "grip-taper"}),
        ({"od: 7/8": "od: 1"}, {"collet-range"}),                  # the largest of the set
        ({"grip: 1 1/2": "grip: 1 3/4"}, {"grip-past-jaws"}),      # all of the collet
        ({"grip: 1 1/2": "grip: 7/8"}, {"collet-part-filled"}),    # just half of it
        ({COLLET: PLATE}, {"faceplate-missing", "faceplate-range", "few-clamps", "faceplate-overhung"}),
        ({COLLET: CENTERS, "{length: 6, od: 7/8}": "{length: 38, od: 7/8}"}, {"too-long"}),
    ],
)
def test_at_the_limit_it_does(shaft_of, changes, gone) -> None:
    assert not ids(shaft_of(changes)) & gone


def test_the_length_counts_what_is_mounted(shaft_of) -> None:
    """Collet 1 in, faceplate 2 in, and nothing between the points of two centers; the center takes 4 in."""
    need = [
        shaft_of(changes).figures["capacity.between_centers"].value / inch
        for changes in ({}, {COLLET: PLATE}, {COLLET: CENTERS}, {COLLET: f"{COLLET}\n  center: live"})
    ]
    assert need == pytest.approx([9, 10, 8, 13])




def test_jaws_in_the_bore_ask_for_the_bore(ring_of) -> None:
    """The long lathe's three jaws open in 3 to 9 in, whatever the outside is."""
    sheet = ring_of()
    assert sheet.figures["capacity.chuck"].value == pytest.approx(6 * inch)
    assert "chuck-range" not in ids(sheet)
    assert "chuck-range" not in ids(ring_of({"od: 8,": "od: 11,"})), "no jaw closes on the outside"
    one = found(ring_of({"bore: 6": "bore: 2"}), "chuck-range")
    assert one.level == "stop"
    assert one.text == (
        "The bore is 2.000 in (50.80 mm) over the jaws; the 3-jaw chuck of L1 Long lathe takes 3 in to 9 in "
        "from inside. Hold the work from outside, or take another chuck or lathe."
    )


def test_a_record_without_inside_jaws_is_named(ring_of) -> None:
    sheet = ring_of({"lathe: long-bed": "lathe: metric", "bore: 6": "bore: 4"})
    assert "chucks: grips_inside" in found(sheet, "not-checked").text


def test_jaws_in_the_bore_leave_the_outside_free_and_bar_the_bore(ring_of) -> None:
    """The ring is turned over its whole length; a bore through it would meet the jaws."""
    assert "operation-in-jaws" not in ids(ring_of())
    outside = ring_of({"{jaws: 3, grip: 1, inside: yes}": "{jaws: 3, grip: 1}"})
    assert "operation-in-jaws" in ids(outside)
    bore = "  - bore: {diameter: 6, length: 3, from_diameter: 5 7/8}"
    bored = ring_of({"  - turn: {diameter: 8, length: 3, from_diameter: 8 1/8}": bore})
    one = found(bored, "operation-in-jaws")
    assert one.text.startswith("Boring (operation 1) reaches the jaws as the work is held now.")
    short = ring_of({"length: 3, from": "length: 1 3/4, from", "turn: {diameter: 8": "bore: {diameter: 6",
                      "from_diameter: 8 1/8": "from_diameter: 5 7/8"})
    assert "operation-in-jaws" not in ids(short)


@pytest.mark.parametrize(
    ("changes", "text"),
    [
        (
            {COLLET: CENTERS},
            "The driving plate of L2 Thirteen-inch lathe may turn at 800 rpm at most, and the step is 1200 "
            "rpm. Take a lower step or another driving plate.",
        ),
        (
            {COLLET: PLATE},
            "The faceplate of L2 Thirteen-inch lathe may turn at 400 rpm at most, and the step is 1200 rpm. "
            "Take a lower step or another faceplate.",
        ),
        ({COLLET: "  chuck: {jaws: 3, grip: 1 1/2}"}, ""),
        ({}, ""),
    ],
)
def test_the_step_is_held_against_the_mark_of_what_turns(shaft_of, changes, text) -> None:
    """Marks of the demo lathe: chuck 2000, collet 1800, driving plate 800, faceplate 400 rpm."""
    asked = {"tool: V1}": "tool: V1, spindle: 1200 rpm}"}
    told = [one.text for one in shaft_of({**changes, **asked}).findings if one.id == "chuck-speed"]
    assert told == ([text] if text else [])


def test_the_step_of_an_operation_stays_below_the_mark(shaft_of) -> None:
    """Carbide would turn 3/4 in far faster than the faceplate's 400 rpm."""
    carbide = {"from_diameter: 7/8}": "from_diameter: 7/8, tool: T2}"}
    step = [
        shaft_of({**carbide, COLLET: held}).figures["operation.1.step"].value * 60
        for held in (PLATE, CENTERS, COLLET)
    ]
    assert step[0] == pytest.approx(400)
    assert 400 < step[1] <= 800
    assert step[2] >= step[1]


def test_a_record_without_its_own_entry_costs_only_its_checks(shaft_job, shop) -> None:
    """Between centers on a lathe whose record has no driving plate: named, and nothing more."""
    job = shaft_job({COLLET: CENTERS})
    lathe = shop.lathes["thirteen-inch"].model_copy(update={"headstock_center": None})
    desk = Desk()
    unchecked = capacity_section(job, lathe, lay_out(job), None, None, desk)
    assert "the center and driving plate of the headstock (headstock_center)" in unchecked
    assert not desk.findings


@pytest.mark.parametrize(("size", "place"), [("7/8", 0), ("1 1/4", 1), ("5", 0)])
def test_the_set_of_collets_that_has_the_size_is_used(shaft_job, shop, size, place) -> None:
    """Two sets, to 1 in and from 1 to 3 in; where neither has the size, the first is spoken of."""
    lathe: Lathe = shop.lathes["thirteen-inch"]
    first, three = lathe.collets[0], shop.lathes["long-bed"].chucks[0].grips_inside.from_
    larger = first.model_copy(
        update={"grips": first.grips.model_copy(update={"from_": first.grips.to, "to": three})}
    )
    sets = [first, larger]
    head = used_head(
        shaft_job({"od: 7/8": f"od: {size}"}), lathe.model_copy(update={"collets": sets})
    )
    assert head is sets[place]
