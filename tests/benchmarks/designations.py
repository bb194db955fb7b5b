"""What reading, limits and writing of a designation cost, beside plain json in the same run.

    python tests/benchmarks/designations.py [N]

N designations (1,000 unless told) of all families, the standard sizes mixed, every second one left hand and
every third in a bore, are read, given their limits of size with the working of each, and written back, in
this one process. Families and tables are loaded before; that time stands on a line of its own. Beside it:
the same texts through Python's own `json`, for a measure of this machine. Processor time only. Not a test:
nothing here passes or fails.
"""

from __future__ import annotations

import json
import random
import sys
import time
from dataclasses import replace

from generator.threads.registry import (
    _parsed,
    families,
    limits,
    mate_of,
    parse_designation,
    write_designation,
)


def seconds(start: float) -> float:
    """Processor time since."""
    return time.process_time() - start


def texts(count: int) -> list[str]:
    """So many designations of all families, mixed, the same in every run."""
    draw = random.Random(7)
    by_family = [
        [size.designation for size in family.sizes()] or list(family.examples) for family in families()
    ]
    found = []
    for number in range(count):
        d = parse_designation(draw.choice(by_family[number % len(by_family)]))
        d = mate_of(d) if number % 3 == 0 else d
        found.append(write_designation(replace(d, hand="left") if number % 2 else d))
    return found


def main(count: int) -> None:
    """Read, compute, write, and print what it took."""
    start = time.process_time()
    wanted = texts(count)
    once = seconds(start)

    reading = 0.0
    for text in wanted:
        _parsed.cache_clear()  # every one is read, none remembered
        start = time.process_time()
        parse_designation(text)
        reading += seconds(start)

    whole, lines = 0.0, 0
    for text in wanted:
        _parsed.cache_clear()
        start = time.process_time()
        d = parse_designation(text)
        lines += len(limits(d).lines)
        assert write_designation(d) == text
        whole += seconds(start)

    start = time.process_time()
    rounds = 100
    for _ in range(rounds):
        for text in wanted:
            json.loads(json.dumps({"designation": text}))
    plain = seconds(start) / rounds

    print(f"once: {once:.2f} s for tables, families and {count} texts, {len(set(wanted))} of them different")
    print(f"read: {count / reading:,.0f} a second")
    print(f"read, limits with {lines / count:.1f} lines of working, write: {count / whole:,.0f} a second")
    print(f"one costs {whole / plain:.0f} times its text through json")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000)
