"""What each of the three fingers of a steady rest carries.

    finger_forces     of a force that the work puts on the rest
"""

from __future__ import annotations

import math
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle

SPREAD: Final[Angle] = math.pi / 3  # of the pair from the middle between them: three fingers, evenly round
DUST: Final = 1e-12  # of the largest force: a finger that carries so little is free

Array = NDArray[np.float64]


def finger_forces(
    rear: ArrayLike, up: ArrayLike, *, lower: Literal[1, 2] = 2, spread: Angle = SPREAD
) -> Array:
    """Force of the work on each finger: ``W = Σ N u``, none of them pulling, as little as will do.

    ``u`` points from the axis to the finger: the pair stands ``spread`` each side of straight down, or of
    straight up where only one finger is below; the single one stands opposite, between them.

    Parameters
    ----------
    rear, up : force of the work on the rest, away from the operator and upwards, N; numbers or arrays
    lower : fingers below, 2 with one above, or 1 with two above
    spread : of the pair, rad

    Returns
    -------
    (3, ...) N: the finger at the front, the one at the rear, the single one above or below. 0: it is free.

    Raises
    ------
    OutsideRange
        When the spread is not between 0 and a right angle: there the fingers do not hold the work.

    Notes
    -----
    Without friction and without being set up tight: fingers that squeeze the work carry that as well. Two
    fingers carry any force, the third is free; derived from the balance of forces.

    Examples
    --------
    600 N of weight on two fingers at 60°, then at 45°:

    >>> [round(float(N), 1) for N in finger_forces(0.0, -600.0)]
    [600.0, 600.0, 0.0]
    >>> round(float(finger_forces(0.0, -1.0, spread=math.pi / 4)[0]), 3)
    0.707

    Source
    ------
    Statics.
    """
    if not 0 < spread < math.pi / 2:
        high = math.pi / 2
        raise OutsideRange(
            say("spread of the fingers"), spread, 0, high, say("they stand around the work"), "rad"
        )
    down = -1.0 if lower == 2 else 1.0
    sine, cosine = math.sin(spread), math.cos(spread)
    across, upwards = np.broadcast_arrays(np.asarray(rear, dtype=float), np.asarray(up, dtype=float))
    pair = across / (2 * sine)
    some = np.stack([-pair, pair, -down * upwards])  # balances the load, but may pull
    squeeze = np.array([1.0, 1.0, 2 * cosine]).reshape(3, *([1] * across.ndim))  # balances itself
    least = some + squeeze * np.max(-some / squeeze, axis=0)
    return np.where(least < DUST * np.abs(least).max(axis=0), 0.0, least)
