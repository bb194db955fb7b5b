"""The relief: against root, pitch and print, and the wall that is left in hollow work."""

from __future__ import annotations

import pytest

from generator.sheet.figure import Kind
from generator.si import inch, mm

GIVEN = "width: 3/8, diameter: 2.060, radius: 1/16"
HOLLOW = {"od: 2.75}": "od: 2.75, bore: 1 1/4}", "od: 2 1/4}": "od: 2 1/4, bore: 1 1/4}"}
METRIC = {
    "units: inch": "units: mm",
    "length: 11 5/8, od: 2.75": "length: 205, od: 16",
    "length: 2 7/8, od: 2 1/4": "length: 55, od: 16",
    "grip: 3": "grip: 40",
    "2 1/4-8 UN-2B": "M16-6H",
    "diameter: 2 1/4, length: 2 7/8": "diameter: 16, length: 55",
    GIVEN: "width: 7, radius: 1",
    "lathe: long-bed": "lathe: metric",
    "jaws: 4": "jaws: 3",
    "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1": "designation: M16x2-6g, length: 45, tool: V3",
}


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def limit(wall):
    return {"holding:": f"limits: {{wall: {wall}}}\nholding:"}


def test_a_given_relief_is_kept_as_written(sheet_of):
    sheet = sheet_of()
    for name, value in (("width", 0.375), ("diameter", 2.060), ("radius", 0.0625)):
        figure = sheet.figures[f"relief.{name}"]
        assert figure.kind is Kind.GIVEN
        assert figure.value == pytest.approx(value * inch)
    assert sheet.figures["relief.width_least"].value == pytest.approx(1.5 * inch / 8)
    assert not {name for name in ids(sheet) if name.startswith("relief")}


def test_a_diameter_that_nobody_gave_lies_a_little_under_the_root(sheet_of):
    """Common practice, no source: 0.010 to 0.020 in under the root."""
    sheet = sheet_of({"diameter: 2.060, ": ""})
    figure = sheet.figures["relief.diameter"]
    assert figure.kind is Kind.ASSUMED
    assert sheet.figures["thread.root"].value - figure.value == pytest.approx(0.012 * inch)
    assert "relief-root" not in ids(sheet)


@pytest.mark.parametrize(
    ("diameter", "level"), [("2.1130", "stop"), ("2.085", "check"), ("2.0750", "check"), ("2.0748", None)]
)
def test_a_relief_that_is_not_below_the_root_is_found(sheet_of, diameter, level):
    """Over the standard's own minor diameter 2.1123 (ASME B1.1) the thread could not be finished.

    By hand: blank 2.24385, pitch diameter 2.1624, flat 0.012: 2.24385 − 2 × 0.084459 = 2.074932 in.
    """
    sheet = sheet_of({"diameter: 2.060": f"diameter: {diameter}"})
    assert sheet.figures["thread.root"].value / inch == pytest.approx(2.074932, abs=0.000002)
    found = ids(sheet).get("relief-root")
    assert (found.level if found else None) == level
    if found:
        assert found.where.line == 17


@pytest.mark.parametrize(
    ("width", "found"),
    [("1/8", "relief-narrow"), ("3/16", "relief-short"), ("1/4", None), ("3/8", None)],
)
def test_width_against_the_pitch(sheet_of, width, found):
    """Common practice, no source: 1.5 pitches and the tool at least, 2 to 3 pitches usual."""
    names = ids(sheet_of({"width: 3/8": f"width: {width}", "radius: 1/16": "radius: 1/32"}))
    assert {name for name in names if name in ("relief-narrow", "relief-short")} == (
        {found} if found else set()
    )


@pytest.mark.parametrize(
    ("radius", "found", "level"),
    [
        (", radius: 1/16", None, None),
        ("", "relief-radius", "note"),
        (", radius: 0", "relief-sharp", "check"),
        (", radius: 0.010", "relief-radius-small", "note"),
        (", radius: 1/4", "relief-radius-wide", "check"),
    ],
)
def test_corner_radius(sheet_of, radius, found, level):
    """Common practice, no source: a quarter to a half of the thread's depth, never sharp."""
    sheet = sheet_of({", radius: 1/16": radius})
    names = {name for name in ids(sheet) if name.startswith(("relief-radius", "relief-sharp"))}
    assert names == ({found} if found else set())
    if found:
        assert ids(sheet)[found].level == level
    if not radius:
        assert sheet.figures["relief.radius"].kind is Kind.ASSUMED
        assert sheet.figures["relief.radius"].value == pytest.approx(sheet.figures["thread.depth"].value / 4)


def test_a_metric_relief_is_put_beside_the_published_ones(sheet_of):
    """P 2: d − 3.0, r 1.0; DIN 76-1 A 4.5 to 7, B 2.5 to 5; ISO 4755 3.4 to 6 mm (public transcriptions)."""
    note = ids(sheet_of(METRIC))["relief-standard"]
    assert note.level == "note"
    for words in (
        "diameter 13 mm",
        "radius 1 mm",
        "form A 4.5 to 7 mm",
        "form B 2.5 to 5 mm",
        "ISO 4755 3.4 to 6 mm",
    ):
        assert words in note.text
    assert "relief-standard" not in ids(sheet_of())


def test_a_published_width_from_memory_says_so(sheet_of):
    coarse = {
        **METRIC,
        "length: 11 5/8, od: 2.75": "length: 205, od: 36",
        "length: 2 7/8, od: 2 1/4": "length: 55, od: 36",
        "2 1/4-8 UN-2B": "M36-6H",
        "diameter: 2 1/4, length: 2 7/8": "diameter: 36, length: 55",
        "designation: 2 1/4-8 UN-2A, length: 2 1/2, tool: V1": "designation: M36x4-6g, length: 42",
        GIVEN: "width: 12, radius: 2",
    }
    assert "from memory, not checked" in ids(sheet_of(coarse))["relief-standard"].text


def test_solid_work_has_no_wall(sheet_of):
    sheet = sheet_of()
    assert "relief.wall" not in sheet.figures
    assert "wall-limit" not in ids(sheet)


def test_hollow_work_is_checked_at_relief_and_root(sheet_of):
    """(d − bore) ÷ 2 (geometry)."""
    sheet = sheet_of({**HOLLOW, **limit("0.250")})
    figures = sheet.figures
    assert figures["relief.wall"].value / inch == pytest.approx((2.060 - 1.25) / 2)
    assert figures["thread.wall"].value == pytest.approx((figures["thread.root"].value - 1.25 * inch) / 2)
    assert sheet.ready
    assert "wall-limit" not in ids(sheet)


@pytest.mark.parametrize(
    ("wall", "stops"),
    [
        ("0.400", set()),
        ("0.405", set()),
        ("0.406", {"relief-wall"}),
        ("0.4125", {"relief-wall", "thread-wall"}),
    ],
)
def test_a_wall_under_the_limit_stops_where_it_is(sheet_of, wall, stops):
    """Relief 0.405 in, root 0.4124 in."""
    sheet = sheet_of({**HOLLOW, **limit(wall)})
    assert {finding.id for finding in sheet.findings if finding.level == "stop"} == stops
    for name in stops:
        assert ids(sheet)[name].asks


def test_hollow_work_without_a_limit_is_asked_about(sheet_of):
    found = ids(sheet_of(HOLLOW))["wall-limit"]
    assert found.level == "check"
    assert "0.405 in" in found.text
    assert found.asks


def test_a_cut_into_the_bore_stops(sheet_of):
    through = {old: new.replace("1 1/4}", "2.07}") for old, new in HOLLOW.items()}
    sheet = sheet_of(through)
    assert ids(sheet)["relief-wall"].level == "stop"
    assert "breaks into the bore" in ids(sheet)["relief-wall"].text


def test_the_bore_under_the_relief_counts_even_where_the_thread_is_solid(sheet_of):
    """A bore that ends below the relief leaves the thread solid."""
    sheet = sheet_of(
        {
            "{length: 2 7/8, od: 2 1/4}": "{length: 3/8, od: 2 1/4, bore: 1}\n  - {length: 2 1/2, od: 2 1/4}",
            "turn: {diameter: 2 1/4, length: 2 7/8}": "turn: {diameter: 2 1/4, length: 2 1/2}",
        }
    )
    assert sheet.figures["relief.wall"].value / inch == pytest.approx((2.060 - 1) / 2)
    assert "thread.wall" not in sheet.figures


def test_hollow_work_without_a_relief_is_still_checked_at_the_root(sheet_of):
    sheet = sheet_of({**HOLLOW, f"  - relief: {{{GIVEN}}}\n": ""})
    assert "relief.width" not in sheet.figures
    assert sheet.figures["thread.wall"].value > 10 * mm


def test_other_threads_are_compared_where_they_lie_outside_the_metric_tables(sheet_of):
    """DIN 76-1 form B 3.7 mm, form A 10.5 mm for P 3; 8 to the inch is 3.175 mm: 0.154 to 0.4375 in.

    The nearest pitch in the table is 3 mm; the widths go in pitches.
    """
    wide = ids(sheet_of({GIVEN: "width: 1/2, diameter: 2.060, radius: 1/16"}))["relief-standard"].text
    assert "0.154 in" in wide
    assert "0.438 in" in wide
    assert "relief-standard" not in ids(sheet_of())


def test_a_steep_thread_wants_two_pitches(sheet_of):
    """Common practice: Acme, trapezoidal and square tools are wide; 2 pitches and the tool."""
    acme = {"2 1/4-8 UN-2A, length: 2 1/2, tool: V1": "2 1/4-4 ACME-2G, length: 2 1/2",
            "2 1/4-8 UN-2B": "unknown"}
    sheet = sheet_of({**acme, GIVEN: "width: 3/8, diameter: 1.95, radius: 1/16"})
    assert sheet.figures["relief.width_least"].value == pytest.approx(0.5 * inch)
    assert "2 pitches are 0.500 in" in ids(sheet)["relief-narrow"].text
