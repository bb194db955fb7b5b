"""Every choice of change gears as rows of numbers, and the order in which the gears of a choice hang best.

    choices            all choices of drivers and driven gears from those owned
    hang               for each choice the order of gears that clears the studs and is easiest to turn

Only arrays of tooth numbers go in and out; what they mean for a lathe is said in `gear_trains`.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise, permutations

import numpy as np
from numpy.typing import NDArray

Rows = NDArray[np.int64]

STEEPEST = 6.0  # largest ratio of one pair either way; common practice


def choices(gears: Sequence[int], drivers: int, driven: int) -> tuple[Rows, Rows]:
    """All choices of so many drivers and so many driven gears, none used more often than owned.

    Parameters
    ----------
    gears : teeth of every gear owned, sorted; one owned twice stands twice
    drivers, driven : how many of each

    Returns
    -------
    Teeth of the drivers, n × drivers, and of the driven gears, n × driven; each row sorted.

    Examples
    --------
    >>> [rows.tolist() for rows in choices([20, 20, 40], 1, 1)]
    [[[20], [20], [40]], [[20], [40], [20]]]
    """
    kinds = np.array(sorted(set(gears)), dtype=np.int64)
    owned = np.array([list(gears).count(kind) for kind in kinds], dtype=np.int64)
    first, second = _sets(gears, drivers), _sets(gears, driven)
    used_first, used_second = _counts(first, kinds), _counts(second, kinds)
    fits = [np.flatnonzero((used_second <= owned - used).all(axis=1)) for used in used_first]
    left = np.repeat(np.arange(len(first)), [len(found) for found in fits])
    right = np.concatenate((*fits, np.empty(0, dtype=np.int64)))
    return first[left], second[right]


def _sets(gears: Sequence[int], size: int) -> Rows:
    found = sorted(set(combinations(gears, size)))
    return np.array(found, dtype=np.int64).reshape(len(found), size)


def _counts(rows: Rows, kinds: Rows) -> Rows:
    counts: Rows = (rows[:, :, None] == kinds).sum(axis=1)
    return counts


def hang(drivers: Rows, driven: Rows, clearance: int) -> tuple[Rows, NDArray[np.float64]]:
    """Of all orders in which the gears of a row can hang, the permitted one with the gentlest pairs.

    Parameters
    ----------
    drivers, driven : teeth, n × pairs, as from `choices`
    clearance : teeth by which a pair must reach past the next stud

    Returns
    -------
    Teeth in the order driver, driven, driver, driven ..., n × 2 pairs, and the steepest pair of each row
    as a ratio from 1 up; infinite where no order is permitted. Of equal orders the one with the smallest
    numbers first.

    Examples
    --------
    >>> rows, steepest = hang(np.array([[20, 100]]), np.array([[40, 50]]), 15)
    >>> rows.tolist(), steepest.tolist()
    ([[100, 40, 20, 50]], [2.5])
    """
    count, pairs = drivers.shape
    best = np.full(count, np.inf)
    rows = np.zeros((count, 2 * pairs), dtype=np.int64)
    steepness = {
        (i, j): np.maximum(drivers[:, i] / driven[:, j], driven[:, j] / drivers[:, i])
        for i in range(pairs)
        for j in range(pairs)
    }
    orders = list(permutations(range(pairs)))
    together = [tuple(zip(one, other, strict=True)) for one in orders for other in orders]
    for order in sorted(together):
        steepest = np.maximum.reduce([steepness[pair] for pair in order])
        better = (steepest <= STEEPEST) & (steepest < best)
        for (a, b), (c, d) in pairwise(order):
            better &= drivers[:, a] + driven[:, b] > drivers[:, c] + clearance
            better &= drivers[:, c] + driven[:, d] > driven[:, b] + clearance
        for place, (i, j) in enumerate(order):
            rows[better, 2 * place] = drivers[better, i]
            rows[better, 2 * place + 1] = driven[better, j]
        best[better] = steepest[better]
    return rows, best
