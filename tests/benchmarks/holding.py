"""What the whole holding of a stepped hollow part costs, beside the same deflections by a frame program.

    python tests/benchmarks/holding.py [TIMES]

For 200 places of the tool: how far the work gives at each, with the steady rest where it is and at 60 other
places, and with a follow rest beside the tool; what every support carries at every place, three frequencies
and the push that buckles it. PyNite solves the deflections alone, 200 load cases in one model. The same time
of PyNite stands beside the whole holding of sheets, which has 200 places of the tool on every cut: those of
the demo archive and 20 generated ones. One run does all and prints the ratios as JSON; seconds alone say
little on a busy machine. What is kept from one beam to the next is forgotten before each turn. Not a test:
nothing here passes or fails.
"""

from __future__ import annotations

import importlib.util
import json
import math
import sys
import time
import warnings
from collections.abc import Callable
from pathlib import Path
from statistics import median

import numpy as np
from held_sheets import report

from generator.calc.beam import Beam, Segment, Support
from generator.calc.compliance import compliance
from generator.calc.modes import buckling_push, frequencies
from generator.calc.tool_walk import tool_walk

TOOL_PLACES, RESTS_TRIED = 200, 60
FORCE = 800.0  # N
REST_STIFFNESS = 2e7  # N/m
FOLLOWS = 0.015  # m: the follow rest beyond the tool
PART = (
    Segment(0.0, 0.300, 0.1016, 0.0635),
    Segment(0.300, 0.304, 0.0860, 0.0635),
    Segment(0.304, 0.500, 0.0900, 0.0500, 0.0820),
    Segment(0.500, 0.800, 0.0760, 0.0500),
    Segment(0.800, 1.000, 0.0600),
)
CHUCK, CENTER = Support(0.0, math.inf, 2e5), Support(1.0, 1e8)
STEADY = Support(0.600, REST_STIFFNESS)


def part(*rests: Support) -> Beam:
    """The part in its chuck and on its center, and on such rests."""
    return Beam(PART, (CHUCK, CENTER, *rests), 205e9, 7850.0)


def holding(tools: list[float]) -> np.ndarray:
    """All of it; the deflection under the tool at each place is returned (m)."""
    whole = part(STEADY)
    rests = list(np.linspace(0.04, 0.96, RESTS_TRIED))
    places = sorted({*tools, *rests})
    row = {x: number for number, x in enumerate(places)}
    free = compliance(part(), places)
    free.rested([row[x] for x in rests], REST_STIFFNESS)
    tool_walk(whole, tools, [0.0, 0.6, 1.0], rest_from_tool=FOLLOWS, rest_stiffness=REST_STIFFNESS)
    whole.reactions_along(FORCE, tools)
    frequencies(whole, 3)
    buckling_push(whole)
    return whole.under_tool(FORCE, tools)


def by_frame_program(tools: list[float]) -> tuple[np.ndarray, float]:
    """Deflections under the tool, the steady rest where it is (m), and processor time without imports (s)."""
    place = Path(__file__).resolve().parents[1] / "calc" / "frame_program.py"
    spec = importlib.util.spec_from_file_location("frame_program", place)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    start = time.process_time()
    program = module.FrameProgram(part(STEADY), tools)
    program.under_loads(FORCE, tools)
    found = np.array([program.read(number, [x])[0][0] for number, x in enumerate(tools)])
    return found, time.process_time() - start


def forget() -> None:
    """Forget what any calculation kept."""
    for name, module in sys.modules.items():
        if name.startswith("generator.calc."):
            for one in vars(module).values():
                if hasattr(one, "cache_clear"):
                    one.cache_clear()


def seconds(work: Callable[[], object]) -> float:
    """Processor time of the work, with nothing kept from before."""
    forget()
    start = time.process_time()
    work()
    return time.process_time() - start


def main(times: int) -> None:
    """Work it out so many times, once by the frame program, and print what it took."""
    tools = [round(PART[-1].end * number / TOOL_PLACES, 6) for number in range(1, TOOL_PLACES + 1)]
    ours = holding(tools)  # first, so that all is imported
    each = [seconds(lambda: holding(tools)) for _ in range(times)]
    alone = [seconds(lambda: part(STEADY).under_tool(FORCE, tools)) for _ in range(times)]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        theirs, long = by_frame_program(tools)
    print(json.dumps({
        "tool places": TOOL_PLACES,
        "rests tried": RESTS_TRIED,
        "holding ms": round(1e3 * median(each), 3),
        "deflections alone ms": round(1e3 * median(alone), 3),
        "frame program, deflections alone ms": round(1e3 * long),
        "frame program over deflections alone": round(long / median(alone)),
        "frame program over the whole holding": round(long / median(each)),
        "largest difference": float(f"{np.abs(ours / theirs - 1).max():.2g}"),
        "whole holding of a sheet": report(forget, long),
    }, indent=1))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 30)
