"""How much thread meets: relief, shoulder and chamfers taken off, worked by hand."""

from __future__ import annotations

import pytest

from generator.si import inch

NUT = "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}"
THREAD = "  - thread: {designation: 2 1/4-8 UN-2A"


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def nut(more):
    return NUT.replace("on_bench", f"{more}, on_bench")


def test_relief_and_the_nuts_chamfer_are_taken_off(sheet_of):
    """A nut of 2 in on 2.5 in of thread after 0.375 in of relief: 2 - 0.1 - 0.375 is 1.525, 12.2 pitches."""
    sheet = sheet_of({NUT: nut("engagement: 2, chamfer: 0.1")})
    assert sheet.figures["mate.engaged"].value / inch == pytest.approx(1.525)
    assert sheet.figures["mate.engaged_pitches"].value == pytest.approx(12.2)
    assert ids(sheet)["engaged-short"].level == "note"
    assert "0.68 of the diameter" in ids(sheet)["engaged-short"].text


def test_the_chamfer_of_the_thread_is_taken_off_too(sheet_of):
    """A long nut: 2.5 in of thread less its own chamfer of 0.125 in."""
    long = {NUT: nut("engagement: 4")}
    assert sheet_of(long).figures["mate.engaged"].value / inch == pytest.approx(2.5)
    chamfer = "  - chamfer: {end: right, width: 0.125, angle: 45}\n"
    sheet = sheet_of({**long, THREAD: chamfer + THREAD})
    assert sheet.figures["mate.engaged"].value / inch == pytest.approx(2.375)
    assert "engaged-short" not in ids(sheet)
    assert "not taken off" in sheet.figures["mate.engaged"].note


def test_a_nut_shorter_than_the_relief_meets_nothing(sheet_of):
    assert ids(sheet_of({NUT: nut("engagement: 0.3")}))["mate-not-engaged"].level == "stop"


def test_nothing_is_said_of_a_length_that_nobody_gave(sheet_of):
    assert "mate.engaged" not in sheet_of().figures
