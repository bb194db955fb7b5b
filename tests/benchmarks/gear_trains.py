"""What a request for change gears costs, beside a plain search through every train in the same run.

    python tests/benchmarks/gear_trains.py [N]

N different leads (10,000 unless told: millimetres, threads per inch, modules and diametral pitches) are
asked of sixteen gears in trains of up to six, on a bare leadscrew and on a gearbox plate of 34 entries.
The trains of a set are worked out once; that time stands on a line of its own and is in no other figure.
The plain search goes through the same trains in lists, exact in whole numbers; it is timed on a few leads.
Processor time only. Not a test: nothing here passes or fails.
"""

from __future__ import annotations

import itertools
import sys
import time
from fractions import Fraction

from generator.calc.gear_trains import ChangeGears, Train, clears
from generator.calc.gearing import INCH
from generator.calc.lead_search import Setting, search
from generator.calc.wanted_lead import (
    WantedLead,
    lead_of_diametral_pitch,
    lead_of_length,
    lead_of_module,
    lead_of_tpi,
)

GEARS = (20, 24, 28, 30, 32, 36, 40, 44, 45, 48, 50, 55, 60, 63, 65, 80)
TPI = ("2 9/4 5/2 11/4 3 13/4 7/2 4 9/2 5 11/2 6 13/2 7 8 9 10 11 23/2 12 13 14 16 18 20 22 24 28 32 36 40 "
       "44 48 56")
SCREW = [Setting(INCH / 8)]
PLATE = [Setting(INCH / Fraction(tpi), f"{tpi} per inch", INCH / Fraction(tpi)) for tpi in TPI.split()]
PLAIN = 3  # leads for the plain search


def requests(count: int) -> list[WantedLead]:
    """So many leads, all different, mixed as a shop might ask."""
    kinds = (
        (lead_of_length(Fraction(n, 400)) for n in itertools.count(80)),
        (lead_of_tpi(Fraction(n, 32)) for n in itertools.count(64)),
        (lead_of_module(Fraction(n, 200)) for n in itertools.count(40)),
        (lead_of_diametral_pitch(Fraction(n, 16)) for n in itertools.count(40)),
    )
    different: dict[tuple[Fraction, bool], WantedLead] = {}
    for one in itertools.chain.from_iterable(zip(*kinds, strict=True)):
        different.setdefault((one.rational, one.times_pi), one)
        if len(different) == count:
            break
    return list(different.values())


def plain_trains(gears: tuple[int, ...]) -> list[tuple[int, int]]:
    """(product of drivers, product of driven) of every choice of gears that hangs in some order."""
    found = []
    for pairs in (1, 2, 3):
        for drivers in itertools.combinations(range(len(gears)), pairs):
            rest = [number for number in range(len(gears)) if number not in drivers]
            for driven in itertools.combinations(rest, pairs):
                if any(
                    clears(Train(tuple(gears[n] for pair in zip(one, other, strict=True) for n in pair)))
                    for one in itertools.permutations(drivers)
                    for other in itertools.permutations(driven)
                ):
                    above = below = 1
                    for one, other in zip(drivers, driven, strict=True):
                        above, below = above * gears[one], below * gears[other]
                    found.append((above, below))
    return found


def plain_search(ratio: Fraction, trains: list[tuple[int, int]]) -> tuple[int, int]:
    """The exact train, or the closest, by looking at each."""
    over, under = ratio.numerator, ratio.denominator
    best, off = trains[0], float("inf")
    for above, below in trains:
        if above * under == below * over:
            return above, below
        error = abs(above * under / (below * over) - 1)
        if error < off:
            best, off = (above, below), error
    return best


def seconds(start: float) -> float:
    """Processor time since."""
    return time.process_time() - start


def main(count: int) -> None:
    """Ask, and print what it took."""
    start = time.process_time()
    gears = ChangeGears(GEARS)
    size = sum(len(table.ratios) for table in gears.tables) + sum(
        len(table.ratios) for _, _, table in gears.open_tables
    )
    once = seconds(start)

    wanted = requests(count)
    each = {}
    for name, settings in (("bare leadscrew", SCREW), ("gearbox plate", PLATE)):
        start = time.process_time()
        found = [search(one, settings, gears) for one in wanted]
        each[name] = seconds(start) / count
        exact, buy = sum(bool(one.exact) for one in found), sum(one.to_buy is not None for one in found)
        print(f"{name}: {each[name] * 1e3:.3f} ms a request, {count} requests; {exact} exact, "
              f"{buy} with a gear to buy")

    start = time.process_time()
    trains = plain_trains(GEARS)
    listing = seconds(start)
    start = time.process_time()
    for one in wanted[:PLAIN]:
        plain_search(one.length / SCREW[0].lead, trains)
    plain = seconds(start) / PLAIN

    print(f"once for a set of gears: {once:.2f} s for {size} choices; plain listing: {listing:.1f} s")
    print(f"plain search through {len(trains)} trains: {plain * 1e3:.0f} ms a request, without a gear to buy")
    print(f"a request costs {each['bare leadscrew'] / plain:.5f} of a plain search")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
