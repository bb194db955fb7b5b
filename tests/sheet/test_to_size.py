"""What the page at the machine gets: for every demo thread a reading comes back as its own pitch diameter."""

from __future__ import annotations

import math
import random
from pathlib import Path

import pytest

from generator.calc import balls, wires
from generator.calc.left_to_cut import left_to_cut
from generator.job.reading import read_job
from generator.sheet.compute import compute_sheet

JOBS = Path(__file__).parents[2] / "jobs"

def test_every_reading_over_wires_comes_back_as_the_pitch_diameter(sheet_of):
    """Against the exact inverse of the wire formula, from the limits to half the way in (0.0001 in)."""
    sheet = sheet_of()
    to_size, wire = sheet.to_size, sheet.figures["thread.wire.size"].value
    pitch, flanks = sheet.figures["thread.pitch"].value, wires.Flanks.alike(math.radians(30))
    (over, _) = to_size.readings
    aim = sheet.passes[-1].pitch_diameter
    chance = random.Random(4)
    for _ in range(50):
        read = chance.uniform(over.read.least, over.read.aim + to_size.feed.depth)
        diameter = wires.pitch_diameter_from_wires(read, wire, pitch, pitch, flanks)
        assert left_to_cut(read, over.read, to_size.feed).over == pytest.approx(diameter - aim, abs=2.5e-6)


def test_between_balls_inside(shop):
    (path,) = JOBS.glob("*/SW-103-*/job.yml")
    ring = compute_sheet(read_job(path, shop), shop)
    (between,) = ring.to_size.readings
    assert between.key == "between_balls"
    assert between.read.inside
    assert between.read.least < between.read.aim < between.read.most
    ball = ring.figures["thread.balls.size"].value
    pitch = ring.figures["thread.pitch"].value
    flanks = balls.Flanks.alike(math.radians(30))
    aim = ring.passes[-1].pitch_diameter
    smaller = balls.between_balls(aim - 2e-4, ball, pitch, 1, flanks)
    assert left_to_cut(smaller, between.read, ring.to_size.feed).over == pytest.approx(2e-4, abs=1e-6)


def test_the_limits_are_those_that_the_sheet_shows(sheet_of):
    sheet = sheet_of()
    over, micrometer = sheet.to_size.readings
    for read, stem in ((over.read, "thread.over_wires"), (micrometer.read, "thread.pitch_diameter")):
        assert read.least == pytest.approx(sheet.figures[f"{stem}.min"].value, abs=1e-9)
        assert read.most == pytest.approx(sheet.figures[f"{stem}.max"].value, abs=1e-9)


def test_the_uncut_blank_is_a_reading_and_twice_the_depth_is_none(sheet_of):
    sheet = sheet_of()
    read, feed = sheet.to_size.readings[0].read, sheet.to_size.feed
    assert left_to_cut(read.aim + 2 * feed.depth, read, feed).means == "to cut"
    assert left_to_cut(read.aim - 2 * feed.depth, read, feed).means == "no sense"


def test_a_sheet_that_is_not_ready_gives_no_cuts(sheet_of):
    assert sheet_of({"tool: V1}": "tool: V1, infeed: {method: plunge, angle: 29}}"}).to_size is None


def test_steps_name_what_is_set_in_them(sheet_of):
    sheet = sheet_of()
    steps = {step.text: step for step in sheet.steps}
    assert steps["Measure the blank"].figures == ("thread.blank",)
    assert "spindle.step" in steps["Set levers, gears, feed direction"].figures
    numbers = [step.operation for step in sheet.steps if step.operation]
    assert numbers == [line.number for line in sheet.operations]
