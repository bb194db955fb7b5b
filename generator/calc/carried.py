"""What the supports of the work carry, by the balance of forces and moments.

    Carried          at the headstock and at a center
    carried          of a load at the tool and what other supports take of it
    own_weight       the work's own weight and its moment about its end at the headstock
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.calc.beam import Segment
from generator.calc.guards import above_zero
from generator.calc.sections import section_area
from generator.language.say import say
from generator.si import Force, Length, Torque

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Carried:
    """Of `n` loads: force (N) and moment (N m) at the headstock, force at the center (N)."""

    head: Array
    moment: Array
    center: Array


def carried(
    force: ArrayLike, at: ArrayLike, moment: ArrayLike = 0.0, *,
    others: Sequence[tuple[ArrayLike, ArrayLike]] = (), head_moment: ArrayLike = 0.0,
    center_at: Length | None = None,
) -> Carried:
    """What is left for headstock and center: ``Σ R = F``, ``M₀ + Σ x R = x F + M``.

    Parameters
    ----------
    force, at, moment : F across the work, N; where, from the headstock's support, m; M at the tool, N m
    others : (place, force) of the other supports, m and N
    head_moment : M₀ that the headstock takes with a center at the other end, N m
    center_at : of the center, m; None without one, when the headstock takes all of the moment

    Returns
    -------
    Numbers or arrays as put in; forces of the work on its supports.

    Raises
    ------
    OutsideRange
        When the center is not outside the headstock.

    Notes
    -----
    Exact.

    Examples
    --------
    Past a steady rest at 600 mm, 500 N at the end at 700, chuck as a hinge: 583.333 N on the rest, the rest
    of it the other way on the chuck:

    >>> found = carried(500.0, 0.7, others=[(0.6, 583.3333333)])
    >>> round(float(found.head), 2), round(float(found.moment), 3)
    (-83.33, -0.0)

    Source
    ------
    Statics.
    """
    load, x = np.asarray(force, dtype=float), np.asarray(at, dtype=float)
    left = load - sum((np.asarray(one) for _, one in others), np.zeros(()))
    taken = (np.asarray(where) * np.asarray(one) for where, one in others)
    turn = x * load + moment - sum(taken, np.zeros(()))
    if center_at is None:
        return Carried(left, np.asarray(turn), np.zeros_like(left))
    above_zero(say("place of the center"), center_at, "m")
    center = np.asarray((turn - head_moment) / center_at)
    return Carried(left - center, np.asarray(head_moment + np.zeros_like(center)), center)


def own_weight(segments: Sequence[Segment], density: float, gravity: float) -> tuple[Force, Torque]:
    """The work's own weight and its moment about x = 0: ``∫ ρ g A dx`` and ``∫ ρ g A x dx``.

    Parameters
    ----------
    segments : of the work
    density : kg/m³
    gravity : m/s²

    Returns
    -------
    N and N m.

    Notes
    -----
    Exact for cylinders and cones: Simpson's rule is so for a cubic.

    Examples
    --------
    A steel bar of 50 mm, 1 m long, weighs 15.4134 kg, and does so at its middle:

    >>> weight, moment = own_weight([Segment(0.0, 1.0, 0.050)], 7850, 1.0)
    >>> round(weight, 4), round(moment / weight, 4)
    (15.4134, 0.5)

    Source
    ------
    Statics.
    """
    weight = moment = 0.0
    for one in segments:
        middle, end = (one.start + one.end) / 2, one.od if one.od_end is None else one.od_end
        for x, od, share in ((one.start, one.od, 1), (middle, (one.od + end) / 2, 4), (one.end, end, 1)):
            part = density * gravity * section_area(od, one.bore) * (one.end - one.start) * share / 6
            weight, moment = weight + part, moment + part * x
    return weight, moment
