"""Beams with grooves a hair wide, and places at ends, steps and supports, against exact fractions.

Moments integrated twice along straight segments from a free left end, the supports' forces from the balance
of forces and moments (Gere, Mechanics of Materials, method of integration): every number a fraction, so that
no digit is lost.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import numpy as np
import pytest

from generator.calc.beam import Beam, Segment, Support

SETUPS = 120
E = 205e9
HAIR, APART = 5e-5, 0.01  # m
PI = Fraction(math.pi)


def along(beam: Beam, x: Fraction, start: Fraction, power: Callable[[Fraction], Fraction]) -> Fraction:
    """∫ of what `power` is the integral of, over E I, from `start` to `x`."""
    total = Fraction(0)
    for one in beam.segments:
        low, high = max(Fraction(one.start), start), min(Fraction(one.end), x)
        if high > low:
            moment = PI * (Fraction(one.od) ** 4 - Fraction(one.bore) ** 4) / 64
            total += (power(high) - power(low)) / (Fraction(E) * moment)
    return total


def moved(beam: Beam, x: Fraction, at: Fraction, *, couple: bool) -> tuple[Fraction, Fraction]:
    """Deflection and slope at x by 1 N, or 1 N m, at `at`, the left end free and held still."""
    if couple:
        return along(beam, x, at, lambda t: x * t - t**2 / 2), along(beam, x, at, lambda t: t)
    return (
        along(beam, x, at, lambda t: (x + at) * t**2 / 2 - t**3 / 3 - x * at * t),
        along(beam, x, at, lambda t: t**2 / 2 - at * t),
    )


def solved(rows: list[list[Fraction]]) -> list[Fraction]:
    """The unknowns of equations whose last column is the right side."""
    for place in range(len(rows)):
        pivot = max(range(place, len(rows)), key=lambda row: abs(rows[row][place]))
        rows[place], rows[pivot] = rows[pivot], rows[place]
        rows[place] = [one / rows[place][place] for one in rows[place]]
        for row in range(len(rows)):
            if row != place:
                rows[row] = [a - rows[row][place] * b for a, b in zip(rows[row], rows[place], strict=True)]
    return [row[-1] for row in rows]


def exactly(beam: Beam, at: float, where: list[float]) -> tuple[list[float], list[float], list[float]]:
    """Deflections and slopes under 1 N, and what the supports carry."""
    across = [(Fraction(one.at), one.stiffness, False) for one in beam.supports]
    tilting = [(Fraction(one.at), one.angular, True) for one in beam.supports if one.angular]
    held, end, load = [*across, *tilting], Fraction(beam.end), Fraction(at)

    def row(x: Fraction, slope: bool) -> list[Fraction]:
        """By end's deflection and slope, by each support's force or couple, and less by the load."""
        own = [Fraction(not slope), Fraction(1) if slope else x]
        by = [moved(beam, x, place, couple=couple)[slope] for place, _, couple in held]
        return [*own, *by, -moved(beam, x, load, couple=False)[slope]]

    rows = [row(place, couple) for place, _, couple in held]
    for number, (_, stiffness, couple) in enumerate(held):
        if math.isfinite(stiffness):  # the couple that bends is the one that the work puts on the spring
            rows[number][2 + number] += (-1 if couple else 1) / Fraction(stiffness)
    rows.append([Fraction(0)] * 2 + [Fraction(not couple) for *_, couple in held] + [Fraction(-1)])
    arms = [Fraction(1) if couple else end - place for place, _, couple in held]
    rows.append([Fraction(0)] * 2 + arms + [load - end])
    unknown = [*solved(rows), Fraction(-1)]
    gives = [
        [float(sum(a * b for a, b in zip(row(Fraction(x), slope), unknown, strict=True))) for x in where]
        for slope in (False, True)
    ]
    return *gives, [-float(one) for one in unknown[2 : 2 + len(across)]]


def setup(number: int) -> tuple[Beam, list[float]]:
    """A beam with two or three grooves a hair wide on one to three supports, and places of all kinds."""
    random = np.random.default_rng([1930, number])
    segments, start = [], 0.0
    for place in range(int(random.integers(3, 8))):
        length = float(random.uniform(0.03, 0.3)) if place % 2 == 0 else HAIR
        od = float(random.uniform(0.02, 0.1))
        bore = od * float(random.choice([0.0, 0.0, 0.5, 0.9]))
        segments.append(Segment(start, start + length, od, bore))
        start += length
    edges = [one.end for one in segments]
    chuck = Support(0.0, math.inf, float(random.choice([math.inf, 1e4, 1e6])))
    rests = [
        Support(float(x), float(random.choice([math.inf, 5e6, 1e8])))
        for x in random.choice(edges, int(random.integers(0, 3)), replace=False)
    ]
    apart = [
        one for one in rests
        if start - one.at > APART and all(abs(one.at - x.at) > APART for x in rests if x is not one)
    ]
    where = [0.0, start, *(float(x) for x in random.choice(edges, 2)), *(one.at for one in apart)]
    return Beam(tuple(segments), (chuck, *apart), E, 7850.0), [*where, float(random.uniform(0, start))]


@pytest.mark.parametrize("number", range(SETUPS))
def test_no_digit_is_lost_to_a_groove_a_hair_wide(number):
    beam, where = setup(number)
    for at in where[1:4]:
        deflections, slopes, reactions = exactly(beam, at, where)
        # what is next to nothing beside a rigid support counts against the free work's movement
        little = 1e-8 * float(beam.under_tool(1.0, np.linspace(0.1, 1, 10) * beam.end).max())
        for places in (where, *([x] for x in where)):  # together, and alone: supports alone are a case apart
            rows = [where.index(x) for x in places]
            expected = [[gives[row] for row in rows] for gives in (deflections, slopes)]
            assert beam.deflections(1.0, at, places) == pytest.approx(expected[0], rel=1e-7, abs=little)
            assert beam.slopes(1.0, at, places) == pytest.approx(expected[1], rel=1e-7, abs=little / beam.end)
        assert beam.reactions(1.0, at) == pytest.approx(reactions, rel=1e-7, abs=1e-7)
