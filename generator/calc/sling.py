"""Two slings on a length of work, so that it hangs level.

    even_places    the same distance each side of the balance point
    leg_pull       on each of two slings that lean towards one hook
    hook_height    how far above the work the hook has to be
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Force, Length, degree

MOST_LEAN = 60 * degree  # from straight up: 30 degrees from level, under which ASME B30.9 advises against


def even_places(balance: Length, low: Length, high: Length, spread: Length) -> tuple[Length, Length]:
    """Places of two slings, evenly each side of the balance point, on a stretch that may carry them.

    s = min(spread ÷ 2, balance − low, high − balance)

    Parameters
    ----------
    balance : balance point, m
    low, high : the stretch where slings may go, m
    spread : wanted from sling to sling, m

    Returns
    -------
    Place of each, m; each sling carries half the weight.

    Raises
    ------
    OutsideRange
        When the balance point does not lie inside the stretch, or the spread is not above zero.

    Notes
    -----
    Level only while both legs are equally long.

    Examples
    --------
    >>> even_places(3.0, 0.5, 10.0, 6.0)
    (0.5, 5.5)

    Source
    ------
    Statics.
    """
    above_zero(say("spread of the slings"), spread, "m")
    if not low < balance < high:
        raise OutsideRange(say("balance point"), balance, low, high, say("slings go each side of it"), "m")
    half = min(spread / 2, balance - low, high - balance)
    return balance - half, balance + half


def leg_pull(weight: Force, lean: Angle) -> Force:
    """Pull in each of two slings that lean towards one hook: ``F = W ÷ (2 cos β)``.

    Parameters
    ----------
    weight : W of the load, N (or kg, for a pull in kg)
    lean : β from straight up, rad

    Returns
    -------
    In the unit of the weight.

    Raises
    ------
    OutsideRange
        When the sling leans more than 60 degrees from straight up, or a value is below zero.

    Notes
    -----
    Both legs alike, the hook over the balance point.

    Examples
    --------
    At 30 degrees from straight up, as a share of the weight:

    >>> round(leg_pull(1.0, math.radians(30)), 4)
    0.5774

    Source
    ------
    Statics; ASME B30.9 for the limit.
    """
    at_least_zero(say("weight"), weight)
    _check_lean(lean)
    return weight / (2 * math.cos(lean))


def hook_height(spread: Length, lean: Angle) -> Length:
    """Height of the hook over the slings' places, so that they lean no more: ``h = s ÷ (2 tan β)``.

    Parameters
    ----------
    spread : s, from sling to sling, m
    lean : β from straight up, rad

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the spread is not above zero, or the sling stands straight or leans more than 60 degrees.

    Notes
    -----
    Exact; no range given in the source.

    Examples
    --------
    >>> round(hook_height(2.0, math.radians(45)), 6)
    1.0

    Source
    ------
    Geometry; ASME B30.9 for the limit.
    """
    above_zero(say("spread of the slings"), spread, "m")
    above_zero(say("lean of the slings"), lean, "rad")
    _check_lean(lean)
    return spread / (2 * math.tan(lean))


def _check_lean(lean: Angle) -> None:
    if not 0 <= lean <= MOST_LEAN + 1e-9:
        raise OutsideRange(
            say("lean of the slings"), math.degrees(lean), 0.0, 60.0, "ASME B30.9", "degrees"
        )
