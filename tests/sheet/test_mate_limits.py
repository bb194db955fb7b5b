"""The mate's limits and the play between both threads: print, and arithmetic on it."""

from __future__ import annotations

import pytest

from generator.sheet.desk import Desk
from generator.sheet.mate_fit import Aim
from generator.sheet.mate_limits import PLAYS, lay_mate, mate_thread
from generator.sheet.threading import thread_operation, threading_of
from generator.si import inch
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)

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


def test_play_at_both_crests(sheet_of):
    """2 1/4-8 UN: major 2.2476 in 2.25 at least; minor from 2.115 (2B) over the 2.1123 of a flat 2A root."""
    sheet = sheet_of()
    assert value(sheet, "mate.play.major.least") == pytest.approx(2.25 - 2.2476)
    assert "mate.play.major.most" not in sheet.figures
    assert value(sheet, "mate.play.minor.least") == pytest.approx(2.115 - 2.1123, abs=1e-4)


def test_crests_of_the_mate_as_measured(sheet_of):
    """Play at the crests is the mate's size less the blank and the root that this tool leaves."""
    sheet = sheet_of({NUT: NUT.replace("on_bench", "major: 2.2550, minor: 2.1300, on_bench")})
    assert value(sheet, "mate.measured.major") == pytest.approx(2.2550)
    blank, root = value(sheet, "thread.blank"), value(sheet, "thread.root")
    assert value(sheet, "mate.play.major.measured") == pytest.approx(2.2550 - blank)
    assert value(sheet, "mate.play.minor.measured") == pytest.approx(2.1300 - root)
    assert "mate-crests-meet" not in ids(sheet)
    low = sheet_of({NUT: NUT.replace("on_bench", "minor: 2.0500, on_bench")})
    assert ids(low)["mate-crests-meet"].level == "check"
    assert "under the smallest of 2 1/4-8 UN-2B" in ids(low)["mate-undersize"].text


def test_a_worn_mate_is_said_with_how_much(sheet_of):
    """2B ends at 2.1792 on pitch diameter; 2.1850 is over it by the difference."""
    sheet = sheet_of({NUT: NUT.replace("on_bench", "pitch_diameter: 2.1850, on_bench")})
    largest = value(sheet, "mate.pitch_diameter.max")
    said = ids(sheet)["mate-worn"].text
    assert f"{2.1850 - largest:.4f} in" in said
    assert "over the largest of 2 1/4-8 UN-2B" in said
    inside = sheet_of({NUT: NUT.replace("on_bench", "pitch_diameter: 2.1700, on_bench")})
    assert not {"mate-worn", "mate-undersize"} & set(ids(inside))


@pytest.mark.parametrize("text", [one for family in families() for one in family.examples])
def test_a_mate_of_every_family_has_its_play(read_of, text):
    """Least play is what the limits of both leave, whatever the family, inside and outside."""
    for d in (parse_designation(text), mate_of(parse_designation(text))):
        other = parse_designation(write_designation(mate_of(d)))
        side = "yes" if d.internal else "no"
        job = read_of({
            "thread: 2 1/4-8 UN-2B": f'thread: "{write_designation(other)}"',
            "designation: 2 1/4-8 UN-2A, length: 2 1/2":
                f'designation: "{write_designation(d)}", inside: {side}, length: 2 1/2 in',
        }).job
        threading, desk = threading_of(thread_operation(job)), Desk()
        lay_mate(job, threading, Aim(1.0, 1.0, 1.0), 1.0, 1.0, desk)
        nut, screw = (limits(d), limits(other)) if d.internal else (limits(other), limits(d))
        assert mate_thread(job.mate, d) is not None, write_designation(other)
        for name, prefix in PLAYS.items():
            inner, outer = getattr(nut, name).min, getattr(screw, name).max
            if inner is None or outer is None:
                assert f"{prefix}.least" not in desk.figures
                continue
            play = desk.figures[f"{prefix}.least"].value
            assert play == pytest.approx((inner - outer) * d.unit_si, abs=1e-9)
            if not profile(d).taper:  # taper threads wedge; the minor of Unified nuts has three places
                assert play >= -1.3e-5
