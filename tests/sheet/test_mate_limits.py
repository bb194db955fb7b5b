"""The mate's limits and the play between both threads: print, and arithmetic on it."""

from __future__ import annotations

import pytest

from generator.si import inch

NUT = "mate: {part: nut, thread: 2 1/4-8 UN-2B, on_bench: yes}"


def value(sheet, name):
    return sheet.figures[name].value / inch


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


def test_limits_of_the_mate_and_the_least_play_is_the_allowance(sheet_of):
    """2 1/4-8 UN: 2A allowance 0.0024, pitch 2.1584 to 2.1664; 2B from 2.1688 (formulas of ASME B1.1)."""
    sheet = sheet_of()
    assert value(sheet, "mate.pitch_diameter.min") == pytest.approx(2.1688)
    assert value(sheet, "mate.minor.min") == pytest.approx(2.115)
    assert value(sheet, "mate.play.least") == pytest.approx(value(sheet, "thread.allowance"))
    most = value(sheet, "mate.pitch_diameter.max") - 2.1584
    assert value(sheet, "mate.play.most") == pytest.approx(most)


@pytest.mark.parametrize(
    "mate",
    [
        "mate: {part: nut, on_bench: yes}", "mate: {part: nut, thread: 2 1/4-8 UN, on_bench: yes}",
        "mate: {part: nut, thread: as on the ramp, on_bench: yes}", "mate: unknown",
    ],
)
def test_a_mate_without_class_has_no_limits(sheet_of, mate):
    assert not any(name.startswith("mate.play") for name in sheet_of({NUT: mate}).figures)


def test_a_measured_mate_shows_its_play_or_that_it_is_tight(sheet_of):
    """Play = measured nut less the pitch diameter aimed at, the middle of 2.1584 and 2.1664."""
    loose = sheet_of({NUT: NUT.replace("on_bench", "pitch_diameter: 2.1700, on_bench")})
    assert value(loose, "mate.play.measured") == pytest.approx(2.1700 - 2.1624)
    assert "mate-tight" not in ids(loose)
    tight = sheet_of({NUT: NUT.replace("on_bench", "pitch_diameter: 2.1600, on_bench")})
    assert value(tight, "mate.play.measured") == pytest.approx(2.1600 - 2.1624)
    assert ids(tight)["mate-tight"].level == "check"
