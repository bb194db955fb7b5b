"""What asking which thread it is costs as a whole process, beside starting Python and reading the units.

    python tests/benchmarks/identify_process.py

The least of three runs each, and their ratio: every command pays for the units. Not a test: nothing here
passes or fails.
"""

from __future__ import annotations

import subprocess
import sys
import time

UNITS = ("-c", "from generator import units; units.factor('length', 'mm')")
ASKED = ("-m", "generator", "identify", "--major", "12.6mm", "--pitch-over-ten", "19.5mm")


def took(*words: str) -> float:
    """Seconds of a whole process."""
    start = time.perf_counter()
    subprocess.run([sys.executable, *words], check=True, capture_output=True)
    return time.perf_counter() - start


if __name__ == "__main__":
    units, whole = (min(took(*words) for _ in range(3)) for words in (UNITS, ASKED))
    print(f"units alone {units:.2f} s, identify {whole:.2f} s: {whole / units:.1f} times")
