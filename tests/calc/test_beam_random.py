"""Forty random setups, stepped, hollow, some tapered, on all kinds of supports, against PyNite.

All places are whole millimetres, as a rule is set: that spares the frame program members too short for it.
"""

from __future__ import annotations

import importlib.util
import math
from pathlib import Path

import numpy as np
import pytest

from generator.calc.beam import Beam, Segment, Support
from generator.calc.modes import frequencies

_spec = importlib.util.spec_from_file_location("frame_program", Path(__file__).with_name("frame_program.py"))
frame_program = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(frame_program)

SETUPS = 40
LOAD = 1000.0  # N
E, RHO, G = 205e9, 7850.0, 9.80665
MEMBERS = 60  # of PyNite along the work: halving them moves its second frequency by less than 0.01 %

pytestmark = pytest.mark.filterwarnings("ignore")


def work(random: np.random.Generator) -> tuple[Segment, ...]:
    """One to six segments, from 15 to 120 mm thick; four in ten bored, one in four tapered."""
    segments, start = [], 0.0
    for _ in range(random.integers(1, 7)):
        length, od = round(random.uniform(0.030, 0.400), 3), random.uniform(0.015, 0.120)
        od_end = od * random.uniform(0.6, 1.5) if random.random() < 0.25 else None
        bore = min(od, od_end or od) * random.uniform(0.2, 0.8) if random.random() < 0.4 else 0.0
        segments.append(Segment(start, round(start + length, 3), od, bore, od_end))
        start = segments[-1].end
    return tuple(segments)


def holding(random: np.random.Generator, number: int, length: float) -> tuple[Support, ...]:
    """The setups of the trade in turn, rigid or as soft as they come."""
    soft_chuck = Support(0.0, math.inf, 10 ** random.uniform(4, 6))
    chuck = soft_chuck if random.random() < 0.7 else Support(0.0, math.inf, math.inf)
    steady = Support(round(length * random.uniform(0.25, 0.8), 3), random.choice([math.inf, 5e6, 2e7, 5e7]))
    center = Support(length, random.choice([math.inf, 1e7, 1e8]))
    follow = Support(round(length * random.uniform(0.1, 0.9), 3), random.choice([2e6, 1e7]))
    return (
        (chuck,), (chuck, steady), (chuck, center), (chuck, steady, center),
        (Support(0.0, random.choice([math.inf, 5e7])), center), (Support(0.0), steady, center),
        (chuck, center, follow), (chuck, steady, follow),
    )[number % 8]


def setup(number: int) -> tuple[Beam, list[float], list[float]]:
    """A beam, three places of the load, and four of reading."""
    random = np.random.default_rng([2026, number])
    segments = work(random)
    length = segments[-1].end
    beam = Beam(segments, holding(random, number, length), E, RHO)
    loads, where = (np.round(random.uniform(0.05, 0.95, n) * length, 3) for n in (2, 4))
    return beam, [*loads, round(0.98 * length, 3)], [*where]


def near(ours, theirs, floor=1e-5) -> bool:
    """Within 0.1 %, or within so little of the largest of them where one is next to nothing."""
    return np.allclose(ours, theirs, rtol=1e-3, atol=floor * np.abs(theirs).max())


@pytest.mark.parametrize("number", range(SETUPS))
def test_deflections_slopes_and_reactions_agree(number):
    beam, loads, where = setup(number)
    program = frame_program.FrameProgram(beam, [*loads, *where])
    program.under_loads(LOAD, loads)
    for case, at in enumerate(loads):
        deflections, slopes = program.read(case, [*where, at])
        assert near(beam.deflections(LOAD, at, [*where, at]), deflections)
        assert near(beam.slopes(LOAD, at, [*where, at]), slopes, 1e-4)
        assert near(beam.reactions(LOAD, at), program.reactions(case))
    under_tool = [program.read(case, [at])[0][0] for case, at in enumerate(loads)]
    assert near(beam.under_tool(LOAD, loads), under_tool)


@pytest.mark.parametrize("number", range(SETUPS))
def test_sag_and_carried_weight_agree(number):
    beam, _, where = setup(number)
    program = frame_program.FrameProgram(beam, where)
    program.under_weight(G)
    assert near(beam.sag(where, G), program.read(-1, where)[0])
    assert near(beam.carried(G), program.reactions(-1))


@pytest.mark.parametrize("number", range(SETUPS))
def test_first_and_second_frequency_agree(number):
    beam, _, _ = setup(number)
    theirs = frame_program.FrameProgram(beam, members=MEMBERS).frequencies(2)
    assert frequencies(beam, 2) == pytest.approx(theirs, rel=5e-3)


def test_the_frame_program_itself_has_the_frequencies_of_print():
    """Thomson, Theory of Vibration with Applications, app. D: K² = 3.5160, 22.0345 for a cantilever."""
    bar = Beam((Segment(0.0, 0.500, 0.040),), (Support(0.0, math.inf, math.inf),), E, RHO)
    unit = math.sqrt(E * 0.040**2 / 16 / (RHO * 0.500**4)) / (2 * math.pi)
    theirs = frame_program.FrameProgram(bar, members=MEMBERS).frequencies(2)
    assert theirs == pytest.approx([3.5160 * unit, 22.0345 * unit], rel=1e-4)


def test_more_members_change_nothing_in_the_frame_program():
    beam, _, _ = setup(3)
    some, twice = (frame_program.FrameProgram(beam, members=n).frequencies(2) for n in (MEMBERS, 2 * MEMBERS))
    assert some == pytest.approx(twice, rel=1e-4)
