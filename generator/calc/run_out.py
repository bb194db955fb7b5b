"""Work in the chuck alone, run out further and further: how much it gives at the tool, and where it whips.

    RunOut        for every stick-out up to a longest one
    run_out       of work whose sections are counted from its free end
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from generator.calc.beam import Segment
from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length, Pressure

CELLS: Final = 600  # along the longest stick-out, besides the steps of the work

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class RunOut:
    """For each of `n` stick-outs, longer than the tool is from the end.

    Parameters
    ----------
    out : (n,) stick-out, rising, m
    push, tilt : (n,) deflection at the tool under 1 N there, m/N, and under 1 N m, 1/N
    whirl : (n,) lower bound of the first bending frequency, Hz
    """

    out: Array
    push: Array
    tilt: Array
    whirl: Array


def run_out(
    segments: Sequence[Segment], elastic_modulus: Pressure, density: float, tilt_stiffness: float,
    tool: Length, longest: Length,
) -> RunOut:
    """How work in the chuck alone gives and whips, for every stick-out.

    ``push = (L − t)² ÷ k + ∫ (v − t)² ÷ E I dv`` and ``tilt = (L − t) ÷ k + ∫ (v − t) ÷ E I dv`` from t to L;
    ``1 ÷ (2 π f)² = ∫ μ g dv`` from 0 to L, g the deflection of each place under 1 N there.

    Parameters
    ----------
    segments : from the free end, which is 0, towards the chuck; the last goes on as far as it is wanted
    elastic_modulus, density : E, Pa; kg/m³
    tilt_stiffness : k of the chuck against tilting, N m/rad; inf is a clamp
    tool : t, from the free end, m
    longest : stick-out up to which it is worked out, m

    Returns
    -------
    Deflection, and frequency, at the steps of the work and at many places between.

    Raises
    ------
    OutsideRange
        When there is no work, the longest stick-out does not reach past the tool, or E, density or k is not
        above zero.

    Notes
    -----
    Slender work: shear is left out. Each step exact, a taper as many short steps. The frequency is
    Dunkerley's: never above the true one, 1.5 % below it for a plain round in a clamp.

    Examples
    --------
    50 mm steel, 150 mm out of a clamp, 500 N at its end (mm):

    >>> found = run_out([Segment(0.0, 0.2, 0.050)], 205e9, 7850.0, math.inf, 0.0, 0.2)
    >>> round(500 * float(np.interp(0.150, found.out, found.push)) * 1e3, 6)
    0.008944

    Source
    ------
    Gere, Mechanics of Materials, 5th ed., unit-load method; Thomson, Theory of Vibration with Applications,
    Dunkerley's formula.
    """
    above_zero(say("elastic modulus"), elastic_modulus, "Pa")
    above_zero(say("density"), density, "kg/m³")
    at_least_zero(say("place of the tool"), tool, "m")
    if not tilt_stiffness > 0:
        reason = say("it has to be above zero")
        raise OutsideRange(say("stiffness against tilting"), tilt_stiffness, 0.0, None, reason, "N m/rad")
    if not segments or not longest > tool:
        raise OutsideRange(say("stick-out"), longest, tool, None, say("it has to reach past the tool"), "m")
    edges, bends, heavy = _cells(segments, longest, tool)
    bends, heavy = bends / elastic_modulus, heavy * density
    j = [np.concatenate(([0.0], np.cumsum(bends * _moment(edges, power)))) for power in range(3)]
    m = [np.concatenate(([0.0], np.cumsum(heavy * _moment(edges, power)))) for power in range(3)]
    start = int(np.searchsorted(edges, tool))
    from_tool = [one - one[start] for one in j]
    arm, k = edges - tool, tilt_stiffness
    push = arm**2 / k + from_tool[2] - 2 * tool * from_tool[1] + tool**2 * from_tool[0]
    tilt = arm / k + from_tool[1] - tool * from_tool[0]
    # ∫ μ (J2(v) − 2 v J1(v) + v² J0(v)) dv, each cell's middle standing for it
    middle = [(one[1:] + one[:-1]) / 2 for one in (edges, *j)]
    inner = heavy * np.diff(edges) * (middle[3] - 2 * middle[0] * middle[2] + middle[0] ** 2 * middle[1])
    passed = np.concatenate(([0.0], np.cumsum(inner)))
    gives = (edges**2 * m[0] - 2 * edges * m[1] + m[2]) / k
    gives += j[2] * m[0] - 2 * j[1] * m[1] + j[0] * m[2] - passed
    after = slice(start + 1, None)
    return RunOut(edges[after], push[after], tilt[after], 1 / (2 * math.pi * np.sqrt(gives[after])))


def _cells(segments: Sequence[Segment], longest: Length, tool: Length) -> tuple[Array, Array, Array]:
    """Edges of the cells, and 1 ÷ I and area at the middle of each."""
    last = segments[-1]
    steps = [one.start for one in segments] + [last.end]
    edges = np.unique(np.concatenate((np.linspace(0.0, longest, CELLS + 1), steps, [tool])))
    edges = edges[(edges >= 0) & (edges <= longest)]
    middle = (edges[1:] + edges[:-1]) / 2
    which = np.minimum(np.searchsorted(steps[1:], middle), len(segments) - 1)
    starts, ends, od, bore = (
        np.array([getattr(one, name) for one in segments]) for name in ("start", "end", "od", "bore")
    )
    od_end = np.array([one.od if one.od_end is None else one.od_end for one in segments])
    along = np.clip((middle - starts[which]) / (ends[which] - starts[which]), 0.0, 1.0)
    outside, inside = od[which] + (od_end[which] - od[which]) * along, bore[which]
    return edges, 64 / (math.pi * (outside**4 - inside**4)), math.pi / 4 * (outside**2 - inside**2)


def _moment(edges: Array, power: int) -> Array:
    """∫ vⁿ dv over each cell."""
    return np.asarray(np.diff(edges ** (power + 1)) / (power + 1))
