"""What shape a cut leaves when its diameter comes out more wrong in some places than in others.

    CutShape     how the diameter goes along the cut
    cut_shape    of a computed error
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length

Array = NDArray[np.float64]
Form = Literal["even", "taper", "bell", "barrel", "waist"]

EVEN: Final = 0.1        # spread over largest error below which nobody speaks of a shape
SHOULDER: Final = 0.1    # of the spread by which both ends lie below the middle (or above it)
STRAIGHT: Final = 0.1    # of the spread by which a straight line may miss a taper
FEWEST: Final = 3        # places that show a shape


@dataclass(frozen=True)
class CutShape:
    """How the diameter goes along a cut.

    `form`: even; taper, straight from one end to the other; bell, flaring at the larger end; barrel, large
    between the ends; waist, small between them. `largest` and `smallest` are errors on diameter (m), with
    their places (m).
    """

    form: Form
    largest: Length
    largest_at: Length
    smallest: Length
    smallest_at: Length

    @property
    def spread(self) -> Length:
        """Largest less smallest, m."""
        return self.largest - self.smallest

    @property
    def worst(self) -> Length:
        """The error that is farthest from nothing, with its sign, m."""
        return max(self.largest, self.smallest, key=abs)

    @property
    def worst_at(self) -> Length:
        """Where that is, m."""
        return self.largest_at if self.worst == self.largest else self.smallest_at


def cut_shape(places: Sequence[Length] | Array, errors: Sequence[Length] | Array) -> CutShape:
    """Shape of a cut from its diameter error: bigger is +, smaller is −.

    ``spread = largest error − smallest error``; the form by where the largest and the smallest stand.

    Parameters
    ----------
    places : n places along the cut, rising, m
    errors : diameter error at each, m

    Returns
    -------
    Its shape.

    Raises
    ------
    OutsideRange
        With fewer than three places, or a figure that is no number.

    Notes
    -----
    The words are the trade's; where one ends and the next begins (a tenth of the spread) is common practice,
    no source. A bell is judged by its side: it is the curve that turns away from its straight line towards
    the axis and is steepest at the end that is farther off size.

    Examples
    --------
    Work held at one end gives with the third power of the distance, between two centers in the middle:

    >>> from numpy import linspace
    >>> x = linspace(0, 1, 21)
    >>> cut_shape(x, x**3).form, cut_shape(x, x**2 * (1 - x) ** 2).form, cut_shape(x, 0.1 * x).form
    ('bell', 'barrel', 'taper')

    Source
    ------
    Common practice, no source.
    """
    x, error = np.asarray(places, dtype=float), np.asarray(errors, dtype=float)
    if len(x) < FEWEST:
        raise OutsideRange(say("number of places"), len(x), FEWEST, None, say("a shape needs its middle"))
    if not np.isfinite(error).all():
        raise OutsideRange(say("diameter error"), math.nan, None, None, say("it has to be finite"), "m")
    high, low = int(np.argmax(error)), int(np.argmin(error))
    return CutShape(
        _form(x, error), float(error[high]), float(x[high]), float(error[low]), float(x[low])
    )


def _form(x: Array, error: Array) -> Form:
    spread = float(np.ptp(error))
    if spread <= EVEN * float(np.abs(error).max()):
        return "even"
    first, last = float(error[0]), float(error[-1])
    if error.max() - max(first, last) > SHOULDER * spread:
        return "barrel"
    if min(first, last) - error.min() > SHOULDER * spread:
        return "waist"
    line = np.interp(x, [x[0], x[-1]], [first, last])
    off = error - line
    if float(np.abs(off).max()) <= STRAIGHT * spread:
        return "taper"
    outwards = 1.0 if first + last >= 0 else -1.0  # a bore that comes out small flares by being smaller
    return "bell" if outwards * float(off[np.argmax(np.abs(off))]) < 0 else "taper"
