"""Which thread came in: the block `found` on a sheet, its figures and what must be decided.

Sizes: ASME B1.1, BS 84; how much wear is likely is common practice, no source.
"""

from __future__ import annotations

import pytest

from generator.si import inch

MATE = "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}"
HALF = {  # the bench's pin as one of half an inch
    "work:\n  - {length: 11 5/8, od: 2.75}\n  - {length: 2 7/8, od: 2 1/4}":
        "work:\n  - {length: 4, od: 3/4}\n  - {length: 1 1/2, od: 1/2}",
    "chuck: {jaws: 4, grip: 3}\n  center: live": "chuck: {jaws: 4, grip: 2}",
    MATE: "mate: unknown",
    "turn: {diameter: 2 1/4, length: 2 7/8}": "turn: {diameter: 1/2, length: 1 1/2}",
    "relief: {width: 3/8, diameter: 2.060, radius: 1/16}": "relief: {width: 1/4, diameter: 0.390}",
    "designation: 2 1/4-8 UN-2A, length: 2 1/2": "designation: 1/2-13 UNC-2A, length: 1",
}

UNKNOWN = """\
job: T-1
title: Plug of an old burner
units: inch
lathe: long-bed
material: 1045 steel
work:
  - {length: 5, od: 1}
holding:
  chuck: {jaws: 3, grip: 2}
mate: unknown
found: {major: 0.921, pitch: 0.0709, angle: 60, within: 0.0002}
operations:
  - face: {end: right}
"""


def found_in(sheet):
    return {
        name.partition(".")[2]: figure for name, figure in sheet.figures.items() if name.startswith("found.")
    }


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings if finding.id.startswith("found")}


@pytest.fixture
def half(sheet_of):
    """`half("major: 0.496")`: the pin of half an inch with a block `found`."""

    def make(block, changes=None):
        found = {"operations:": f"found: {{{block}}}\noperations:"} if block else {}
        return sheet_of(HALF | found | (changes or {}))

    return make


def test_without_the_block_nothing_is_said(half):
    sheet = half("")
    assert found_in(sheet) == {}
    assert ids(sheet) == {}


def test_what_was_measured_stands_with_who_how_and_how_well(half):
    sheet = half(
        "worn: yes, major: {value: 0.494, by: machinist 1, with: micrometer 0-1 in}, tpi: 13, "
        "notes: Crests round."
    )
    figures = found_in(sheet)
    assert figures["thread"].value == "outside, right hand, worn"
    assert figures["major"].value / inch == pytest.approx(0.494)
    assert "machinist 1" in figures["major"].source
    assert "0.01 mm" in figures["major"].note  # a micrometer: common practice, no source
    assert figures["pitch"].value / inch == pytest.approx(1 / 13)
    assert figures["notes"].value == "Crests round."


def test_the_nearest_threads_stand_with_the_distance_of_each_reading(half):
    """13 threads are 0.7692 in over ten pitches, 12 are 0.8333 in: 0.0633 in short of it (B1.1, BS 84)."""
    sheet = half("major: 0.496, pitch_over_ten: 0.770")
    figures = found_in(sheet)
    assert figures["candidate.1"].value == "1/2-13 UNC-2A, fits"
    assert "1/2-13 NC-2" in figures["candidate.1"].note
    others = {figures[f"candidate.{place}"].value: figures[f"candidate.{place}"] for place in (2, 3)}
    whitworth = others["1/2 in - 12 BSW (medium), does not fit"]
    assert "ten pitches 0.0633 in" in whitworth.note
    assert "ten pitches 0.0633 in" in whitworth.working.formula
    assert whitworth.source.startswith("BS 84")
    assert figures["mistaken"].value == "1/2 in - 12 BSW (medium)"
    assert "Only the ten pitches rule it out: 0.7692 in" in figures["mistaken"].note
    assert figures["special"].value == "special: keep the measured form, once measured too: flank angle"
    assert ids(sheet) == {}


def test_the_measured_form_stands_as_a_designation_once_enough_is_known(half):
    figures = found_in(half("major: 0.496, tpi: 13, angle: 60"))
    assert figures["special"].value == "special: keep the measured form: special 0.496-13 60deg"


def test_another_thread_than_was_found_is_asked_about(half):
    """12 threads of 1/2 BSW were found, and 13 of 1/2 UNC are to be cut."""
    sheet = half("major: 0.496, pitch_over_ten: 0.833")
    said = ids(sheet)["found-differs"]
    assert said.level == "check"
    assert said.text.startswith("1/2-13 UNC-2A does not fit the thread that came in: ten pitches 0.063")
    assert "1/2 in - 12 BSW (medium)" in said.text
    assert said.asks == "Is it meant to get another thread than it had?"


def test_what_was_agreed_is_not_asked_again(half):
    agreed = {"duty:": "agreed: Next thread that the nuts of the shop fit, 2026-08-01.\nduty:"}
    said = ids(half("major: 0.496, pitch_over_ten: 0.833", agreed))["found-differs"]
    assert (said.level, said.asks) == ("note", "")


def test_hand_and_starts_are_compared_too(half):
    assert "left hand was found" in ids(half("hand: left, major: 0.496, tpi: 13"))["found-differs"].text
    assert "2 starts were counted" in ids(half("starts: 2, major: 0.496, tpi: 13"))["found-differs"].text


def test_twins_of_the_thread_to_cut_must_be_told_apart(sheet_of):
    """3/8-16 UNC and 3/8 BSW have one size and pitch, flanks of 60 and 55 degrees (ASME B1.1, BS 84)."""
    text = dict(HALF)
    for old, new in (
        ("designation: 1/2-13 UNC-2A", "designation: 3/8-16 UNC-2A"), ("od: 1/2}", "od: 3/8}"),
        ("diameter: 1/2,", "diameter: 3/8,"), ("diameter: 0.390", "diameter: 0.280"),
    ):
        text = {piece: wanted.replace(old, new) for piece, wanted in text.items()}
    sheet = sheet_of(text | {"operations:": "found: {major: 0.374, tpi: 16}\noperations:"})
    said = ids(sheet)["found-twin"]
    assert said.level == "check"
    assert "60 degrees for 3/8-16 UNC-2A; 55 degrees for 3/8 in - 16 BSW (medium)" in said.text
    told = sheet_of(text | {"operations:": "found: {major: 0.374, tpi: 16, angle: 60}\noperations:"})
    assert "found-twin" not in ids(told)
    assert found_in(told)["mistaken"].value == "3/8 in - 16 BSW (medium)"


def test_readings_of_the_pitch_that_contradict_each_other_decide_nothing(half):
    said = ids(half("major: 0.496, tpi: 12, pitch_over_ten: 0.770"))
    assert set(said) == {"found-pitch"}
    assert "they cannot both be right" in said["found-pitch"].text


def test_a_bore_that_was_measured_is_compared_with_the_nut_of_the_screw_to_cut(half):
    """The bore of 1/2-13 UNC-2B is 0.417 to 0.434 in (ASME B1.1)."""
    sheet = half("inside: yes, minor: 0.425, tpi: 13")
    assert found_in(sheet)["candidate.1"].value == "1/2-13 UNC-2B, fits"
    assert ids(sheet) == {}
    assert "minor diameter" in ids(half("inside: yes, minor: 0.450, tpi: 13"))["found-differs"].text


def test_wear_is_allowed_for_where_it_was_said(half):
    """1/2-13 UNC-2A is 0.4876 in at the least (ASME B1.1); 0.475 is worn, not out of the question."""
    assert "found-differs" not in ids(half("worn: yes, major: 0.475, tpi: 13"))
    assert "found-differs" in ids(half("major: 0.475, tpi: 13"))


def test_nothing_standard_and_nothing_to_cut_yet_is_made_to_the_mate(sheet_of):
    sheet = sheet_of(text=UNKNOWN)
    said = ids(sheet)["found-none"]
    assert said.level == "check"
    assert "Special: keep the measured form: special 0.921-14.1044 60deg" in said.text
