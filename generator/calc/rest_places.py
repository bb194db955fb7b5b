"""What a rest does at each of many places on the work, from one solution of the beam.

    gives_with_rest     deflection of every place of the tool for every place of the rest
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from generator.calc.compliance import Compliance
from generator.calc.guards import above_zero

Array = NDArray[np.float64]


def gives_with_rest(
    solved: Compliance, tools: Sequence[int], rests: Sequence[int], stiffness: float, standing: int
) -> Array:
    """Deflection under the tool while one rest is moved from place to place.

    ``G' = G − g gᵀ ÷ (1 ÷ k + g_s)`` sets a rest at s, and with ``−k`` takes one away.

    Parameters
    ----------
    solved : compliance of the work with the rest at one place, m/N
    tools : rows of the places of the tool
    rests : rows of the places of the rest that are tried
    stiffness : k of the rest, N/m
    standing : row of the place where it stands in `solved`

    Returns
    -------
    (rests, tools) m/N, deflection of each place of the tool under 1 N there.

    Raises
    ------
    OutsideRange
        When the stiffness is not above zero, or not finite.

    Notes
    -----
    The rest is set at its new place before it is taken from the old one, so that work which hangs on it
    keeps its digits; they are lost again with a rest that is 10⁸ times stiffer than the work.

    Examples
    --------
    Bar of 50 mm steel, 700 mm from a clamp, a nearly rigid rest moved to 600 mm, 500 N at the end (mm):

    >>> import math
    >>> from generator.calc.beam import Beam, Segment, Support
    >>> from generator.calc.compliance import compliance
    >>> held = (Support(0.0, math.inf, math.inf), Support(0.3, 1e11))
    >>> bar = Beam((Segment(0.0, 0.7, 0.050),), held, 205e9)
    >>> solved = compliance(bar, [0.3, 0.6, 0.7])
    >>> float(round(500 * gives_with_rest(solved, [2], [1], 1e11, 0)[0, 0] * 1e3, 4))
    0.0146

    Source
    ------
    Sherman and Morrison, Adjustment of an Inverse Matrix, 1950.
    """
    above_zero("stiffness of the rest", stiffness, "N/m")
    push, gives = solved.push, 1 / stiffness
    tool, rest = np.asarray(tools), np.asarray(rests)
    from_rest = push[np.ix_(rest, tool)]
    to_standing = push[rest, standing]
    share = 1 / (gives + push[rest, rest])
    under_tool = np.diag(push)[tool] - share[:, None] * from_rest**2
    at_standing = push[standing, standing] - share * to_standing**2
    between = push[standing, tool] - (share * to_standing)[:, None] * from_rest
    return np.asarray(under_tool + between**2 / (gives - at_standing)[:, None])
