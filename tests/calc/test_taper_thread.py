"""A thread on a taper against print: ASME B1.20.1, table 2, and geometry worked another way.

The printed sizes are those of 24 pipes; the formulas know nothing of the standard but its taper.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from generator.calc.flanks import Flanks
from generator.calc.taper import half_angle
from generator.calc.taper_thread import (
    depth_for_turns,
    diameter_per_turn,
    far_diameter,
    full_crests,
    travel_for_turns,
    turns_for_depth,
)
from generator.calc.taper_thread_setup import set_over_pitch, tilt_diameter, tilted_half_angles
from generator.calc.thread_form import depth_for_flat, pitch_diameter_at_depth
from generator.errors import OutsideRange

PRINTED = Path(__file__).parents[1] / "published" / "data" / "family_npt.csv"
TAPER = 1 / 16
PIPES = {  # outside diameter (in): ASME B1.20.1, table 2; Machinery's Handbook, 27th ed., p. 1861
    "1/8-27": 0.405, "1/4-18": 0.540, "3/8-18": 0.675, "1/2-14": 0.840, "3/4-14": 1.050, "1-11.5": 1.315,
    "1 1/4-11.5": 1.660, "1 1/2-11.5": 1.900, "2-11.5": 2.375, "2 1/2-8": 2.875, "3-8": 3.500,
}


def printed():
    """Quantities of each size as printed, by the first source that has them."""
    sizes = {}
    with PRINTED.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            name, _, rest = row["designation"].partition(" NPT")
            quantity = row["quantity"].removeprefix("gauge.")
            sizes.setdefault((name, rest), {}).setdefault(quantity, row["value"])
    return sizes


SIZES = {name: {q: float(v) for q, v in of.items()} for (name, rest), of in printed().items() if not rest}


@pytest.mark.parametrize("name", SIZES)
def test_pitch_diameters_along_the_taper(name):
    """E1 and E2 lie L1 and L2 from the small end: within the rounding of the printed lengths."""
    of = SIZES[name]
    for length, diameter in (("l1", "e1"), ("l2", "e2")):
        if length in of and diameter in of:
            assert far_diameter(of["e0"], TAPER, of[length]) == pytest.approx(of[diameter], abs=1.5e-5)


@pytest.mark.parametrize("name", PIPES)
def test_crests_are_full_as_far_as_the_standard_says(name):
    """L5, the nominal complete external threads, is where the crests reach the pipe's outside."""
    of = SIZES[name]
    assert full_crests(PIPES[name], of["e0"] + of["h"], TAPER) == pytest.approx(of["l5"], abs=3e-4)


@pytest.mark.parametrize(("tpi", "printed"), [(14, 0.00446), (11.5, 0.00543), (8, 0.00781)])
def test_increase_in_diameter_per_thread(tpi, printed):
    """Printed in the web page of thread standard practices of family_npt.csv (ASME B1.20.1, table 2)."""
    assert round(diameter_per_turn(1 / tpi, TAPER), 5) == printed


def test_turns_depth_and_travel_go_round():
    for turns in (-1.0, 0.25, 3.0):
        depth = depth_for_turns(turns, 2.309e-3, TAPER)
        assert turns_for_depth(depth, 2.309e-3, TAPER) == pytest.approx(turns)
        assert travel_for_turns(turns, 2.309e-3, TAPER, 0.0) == pytest.approx(depth)
        set_over = travel_for_turns(turns, 2.309e-3, TAPER, math.radians(29.5))
        assert set_over * math.cos(math.radians(29.5)) == pytest.approx(depth)


def test_the_depth_of_a_turn_moves_the_pitch_diameter_by_a_turn():
    """Cut so much deeper, the groove's pitch diameter falls by P/16 (formulas of a parallel thread)."""
    pitch, flanks, flat = 1 / 14, Flanks.alike(math.radians(30)), 0.038 / 14
    depth = depth_for_flat(0.8156, 0.75843, pitch, flanks, flat)
    deeper = depth + depth_for_turns(1, pitch, TAPER)
    after = pitch_diameter_at_depth(0.8156, deeper, pitch, flanks, flat, 0.0, False)
    assert 0.75843 - after == pytest.approx(pitch / 16)


def test_inside_the_bore_narrows():
    """E3 of 1/2-14 NPT lies L3 inside E0: 0.74504 (Machinery's Handbook, 27th ed., p. 1862)."""
    assert far_diameter(0.75843, TAPER, 0.2143, internal=True) == pytest.approx(0.74504, abs=1e-5)
    with pytest.raises(OutsideRange, match="the bore would close"):
        far_diameter(0.5, TAPER, 9.0, internal=True)


def test_the_taper_leans_as_the_standard_says():
    """1 in 16 on the diameter: 1 degree 47 minutes 24 seconds to the axis (ASME B1.20.1)."""
    assert math.degrees(half_angle(TAPER)) == pytest.approx(1 + 47 / 60 + 24 / 3600, abs=1 / 3600)
    wide, narrow = tilted_half_angles(math.radians(30), TAPER)
    assert math.degrees(wide + narrow) == pytest.approx(60)


def test_a_leaning_groove_by_points_on_its_flanks():
    """The same by shifting a gauge until no point of either flank cuts into it."""
    height, flank, lean = 0.8, math.radians(30), half_angle(TAPER)
    radii = [-height / 2 + height * i / 400 for i in range(401)]  # over the pitch line
    gaps = [(radius * math.tan(flank + lean), radius * math.tan(flank - lean)) for radius in radii]

    def stands_clear(grown):
        """Gauge wider by `grown` on the diameter, wherever along the axis it settles."""
        own = [(radius + grown / 2) * math.tan(flank) for radius in radii]
        left = min(gauge - wide for gauge, (wide, _) in zip(own, gaps, strict=True))
        right = min(gauge - narrow for gauge, (_, narrow) in zip(own, gaps, strict=True))
        return left + right >= 0

    low, high = 0.0, 0.5
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if stands_clear(middle) else (middle, high)
    assert tilt_diameter(height, flank, lean) == pytest.approx(high, rel=1e-6)


def test_set_over_work_comes_out_short():
    """The tool goes along the side of the cone: over the axis the pitch is the cosine of it."""
    along_side = math.hypot(1.0, TAPER / 2)
    assert set_over_pitch(1.0, TAPER) == pytest.approx(1 / along_side)


@pytest.mark.parametrize("refused", [
    lambda: far_diameter(0.0, TAPER, 1.0), lambda: far_diameter(1.0, -0.1, 1.0),
    lambda: far_diameter(1.0, TAPER, math.nan), lambda: full_crests(1.0, 0.9, 0.0),
    lambda: diameter_per_turn(0.0, TAPER), lambda: turns_for_depth(0.001, 0.1, 0.0),
    lambda: travel_for_turns(1, 0.1, TAPER, math.pi / 2), lambda: tilted_half_angles(0.01, TAPER),
    lambda: tilt_diameter(0.0, 0.5, 0.03), lambda: tilt_diameter(0.8, 0.5, 0.6),
    lambda: set_over_pitch(-1.0, TAPER),
])
def test_what_cannot_be_is_refused(refused):
    with pytest.raises(OutsideRange):
        refused()
