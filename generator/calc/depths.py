"""Stock divided into roughing cuts and a finishing cut, in whole graduations of the dial.

    cuts        depth of each cut
    readings    turns and reading of the dial after each cut
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate
from typing import Final

from generator.calc.dials import NEARLY, Dial, reading
from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length

MOST_CUTS: Final = 1000


def cuts(
    stock: Length, largest: Length, finish: Length, graduation: Length | None = None
) -> tuple[Length, ...]:
    """Divide stock into roughing cuts, none above the largest, and a finishing cut.

    ``cuts = (stock − finish) ÷ largest``, rounded up, then the finishing cut.

    Parameters
    ----------
    stock : to come off, on the radius, m
    largest : largest roughing cut, m
    finish : left for the finishing cut, m; 0 for none
    graduation : slide travel of one graduation of the dial, m; None when the dial is not known

    Returns
    -------
    Depths in the order of cutting, m; their sum is the stock. Roughing cuts are whole graduations, nearly
    equal, the heavier first; what does not fill a graduation is added to the finishing cut, or to the last
    roughing cut where none is wanted. Nothing for no stock; one cut when the stock is less than the finish
    and a graduation.

    Raises
    ------
    OutsideRange
        When the stock or the finish is below zero, the largest cut or the graduation is not above zero, or
        more than a thousand cuts would be needed.

    Notes
    -----
    A largest cut below one graduation cannot be set on the dial: the cuts are then equal, not whole.

    Examples
    --------
    0.250 in, at most 0.100 in a cut, 0.010 in to finish, on a dial of 0.001 in:

    >>> [round(cut, 6) for cut in cuts(0.250, 0.100, 0.010, 0.001)]
    [0.08, 0.08, 0.08, 0.01]

    Source
    ------
    Common practice, no source.
    """
    at_least_zero(say("stock"), stock, "m")
    at_least_zero(say("finishing cut"), finish, "m")
    above_zero(say("largest cut"), largest, "m")
    if graduation is not None:
        above_zero(say("graduation of the dial"), graduation, "m")
    if stock == 0:
        return ()
    roughing = stock - finish
    if graduation is not None and largest >= graduation * (1 - NEARLY):
        rough = _whole(roughing, largest, graduation)
    else:
        rough = _equal(roughing, largest)
    rest = stock - math.fsum(rough)
    if rest <= NEARLY * (graduation or largest):
        return rough
    if finish == 0 and rough and rough[-1] + rest <= largest:
        return (*rough[:-1], rough[-1] + rest)
    return (*rough, rest)


def readings(depths: Sequence[Length], dial: Dial) -> tuple[tuple[int, Length], ...]:
    """Turns and reading of the dial after each cut, from zero at touch.

    ``sum of depths ÷ travel of one turn``: whole turns, and what is left over as the dial reads.

    Parameters
    ----------
    depths : depth of each cut, on the radius, m
    dial : of the slide that feeds them

    Returns
    -------
    For each cut (whole turns, reading as the dial reads, m).

    Raises
    ------
    OutsideRange
        When a depth is below zero.

    Notes
    -----
    Arithmetic; no range.

    Examples
    --------
    >>> dial = Dial(0.001, 0.1, "radius")
    >>> [(turns, round(shown, 6)) for turns, shown in readings((0.08, 0.08, 0.01), dial)]
    [(0, 0.08), (1, 0.06), (1, 0.07)]

    Source
    ------
    Arithmetic.
    """
    for depth in depths:
        at_least_zero(say("depth of a cut"), depth, "m")
    return tuple(reading(after, dial) for after in accumulate(depths))


def _whole(roughing: Length, largest: Length, graduation: Length) -> tuple[Length, ...]:
    total = math.floor(roughing / graduation + NEARLY)
    most = math.floor(largest / graduation + NEARLY)
    if total < 1:
        return ()
    number = _number(total / most)
    each, over = divmod(total, number)
    return tuple((each + (place < over)) * graduation for place in range(number))


def _equal(roughing: Length, largest: Length) -> tuple[Length, ...]:
    if roughing <= NEARLY * largest:
        return ()
    number = _number(roughing / largest)
    return (roughing / number,) * number


def _number(needed: float) -> int:
    if not needed <= MOST_CUTS:
        raise OutsideRange(
            say("number of cuts"), needed, None, MOST_CUTS, say("a largest cut that small is a slip")
        )
    return max(math.ceil(needed - NEARLY), 1)
