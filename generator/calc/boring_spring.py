"""A bar that springs away from its cut, and how soon repeated passes at the same reading take it out.

    left_after        what is still left after some spring passes
    spring_passes     how many it takes until so much is left
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.language.say import say
from generator.si import Length


def left_after(spring: Length, cut: Length, passes: int) -> Length:
    """What is still left of the bar's spring after passes at the same reading.

    e(n) = e x (e / (h + e))^n

    Parameters
    ----------
    spring : e, how far the bar springs away in the last cut, radial (m)
    cut : h, that last cut as it was set, radial (m)
    passes : n

    Returns
    -------
    Length, radial (m)

    Raises
    ------
    OutsideRange
        When the cut is not above 0.

    Notes
    -----
    The force is taken in proportion to what is cut; under about 0.005 mm a tool rubs, and the last of it
    stays. No range is given in the source.

    Examples
    --------
    A bar that springs by a quarter of the cut leaves a fifth of that after one pass, a 25th after two:

    >>> [round(left_after(0.25, 1.0, passes), 6) for passes in (0, 1, 2)]
    [0.25, 0.05, 0.01]

    Source: arithmetic of a spring: what is cut springs it, what it springs is left to cut.
    """
    above_zero(say("last cut"), cut, "m")
    return spring * (spring / (cut + spring)) ** passes


def spring_passes(spring: Length, cut: Length, allowed: Length) -> int:
    """Passes at the same reading until no more than `allowed` is left.

    n = ln(allowed / e) / ln(e / (h + e)), up

    Parameters
    ----------
    spring : e, radial (m)
    cut : h, the last cut as set, radial (m)
    allowed : what may be left, radial (m)

    Returns
    -------
    Passes

    Raises
    ------
    OutsideRange
        When the cut or what may be left is not above 0.

    Notes
    -----
    As `left_after`.

    Examples
    --------
    >>> spring_passes(0.25, 1.0, 0.25), spring_passes(0.25, 1.0, 0.05), spring_passes(0.25, 1.0, 0.04)
    (0, 1, 2)

    Source: arithmetic, the inverse of `left_after`.
    """
    above_zero(say("last cut"), cut, "m")
    above_zero(say("what may be left"), allowed, "m")
    if spring <= allowed:
        return 0
    return math.ceil(math.log(allowed / spring) / math.log(spring / (cut + spring)) - 1e-9)
