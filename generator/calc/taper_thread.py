"""A thread on a taper: diameters along it, and what the gauge's turns are in diameter, depth and travel.

    far_diameter          diameter at the other end of the thread
    full_crests           how far the crests are full on straight work
    diameter_per_turn     what the diameter changes for one turn of the gauge
    depth_for_turns       how much deeper lets the gauge go so many turns further
    turns_for_depth       the other way
    travel_for_turns      the same on the slide that feeds in

A taper c is a ratio, change of diameter over length. Any consistent unit; SI (m, rad) by convention.
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.calc.taper import checked_ratio
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length


def far_diameter(diameter: Length, ratio: float, length: Length, internal: bool = False) -> Length:
    """Diameter at the other end of a taper thread: ``d + c l`` outside, ``d − c l`` inside.

    Parameters
    ----------
    diameter : d at the end where the thread starts: the small end outside, the large end inside (m)
    ratio : c
    length : l, along the axis (m)
    internal : the thread is in a bore

    Returns
    -------
    m

    Raises
    ------
    OutsideRange
        When a size is not above zero, the ratio is below zero, or the bore closes before that length.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    From E0 = 0.61201 in of 3/8-18 NPT to E2 at L2 = 0.4078 in (ASME B1.20.1, table 2), in inches:

    >>> round(far_diameter(0.61201, 1 / 16, 0.4078), 5)
    0.6375

    Source: ASME B1.20.1, formulas at table 2.
    """
    above_zero(say("diameter at the end of the taper thread"), diameter, "m")
    above_zero(say("length of the taper thread"), length, "m")
    change = checked_ratio(ratio) * length
    far = diameter - change if internal else diameter + change
    if far <= 0:
        raise OutsideRange(
            say("diameter at the far end of the taper thread"),
            far,
            0.0,
            None,
            say("the bore would close"),
            "m",
        )
    return far


def full_crests(outside: Length, blank: Length, ratio: float) -> Length:
    """How far from the small end a taper runs before it meets the straight outside: ``(D − d) ÷ c``.

    Parameters
    ----------
    outside : D of the straight work (m)
    blank : d, of the turned taper at its small end (m)
    ratio : c

    Returns
    -------
    m; 0 where the work is no larger than the small end

    Raises
    ------
    OutsideRange
        When the ratio is not above zero.

    Notes
    -----
    Beyond it the thread runs out with flat crests, as on a pipe.

    Examples
    --------
    2-11.5 NPT on a pipe of 2.375 in: the blank is E0 + h = 2.33859 at the small end; the crests are full for
    L5 = 0.5826 (ASME B1.20.1, table 2: nominal complete external threads), in inches:

    >>> round(full_crests(2.375, 2.26902 + 0.06957, 1 / 16), 3)
    0.583

    Source: geometry.
    """
    if not ratio > 0:
        raise OutsideRange(say("taper"), ratio, 0.0, None, say("a thread on a taper"))
    return max(outside - blank, 0.0) / ratio


def diameter_per_turn(lead: Length, ratio: float) -> Length:
    """What the diameter changes for one turn of the gauge: ``c L``.

    Parameters
    ----------
    lead : L (m)
    ratio : c

    Returns
    -------
    m, on the diameter

    Raises
    ------
    OutsideRange
        When the lead is not above zero, or the ratio below it.

    Notes
    -----
    Arithmetic; no range.

    Examples
    --------
    11.5 threads per inch, "increase in diameter per thread" (ASME B1.20.1, table 2), in inches:

    >>> round(diameter_per_turn(1 / 11.5, 1 / 16), 5)
    0.00543

    Source: ASME B1.20.1, table 2.
    """
    above_zero(say("lead"), lead, "m")
    return checked_ratio(ratio) * lead


def depth_for_turns(turns: float, lead: Length, ratio: float) -> Length:
    """How much deeper, radially, lets the gauge go so many turns further: ``n c L ÷ 2``.

    Parameters
    ----------
    turns : n, that the gauge stands short
    lead : L (m)
    ratio : c

    Returns
    -------
    m, radial; below zero for turns the other way

    Raises
    ------
    OutsideRange
        When the lead is not above zero, or the ratio below it.

    Examples
    --------
    One turn of 11.5 threads per inch is 0.0027 in radially:

    >>> round(depth_for_turns(1, 1 / 11.5, 1 / 16), 4)
    0.0027

    Source: geometry; half of the increase in diameter per thread of ASME B1.20.1, table 2.
    """
    return turns * diameter_per_turn(lead, ratio) / 2


def turns_for_depth(depth: Length, lead: Length, ratio: float) -> float:
    """How many turns further the gauge goes when the thread is cut deeper: ``2 Δh ÷ (c L)``.

    Parameters
    ----------
    depth : Δh, radial (m)
    lead : L (m)
    ratio : c, above zero

    Returns
    -------
    Turns

    Raises
    ------
    OutsideRange
        When lead or ratio are not above zero.

    Examples
    --------
    0.001 in deeper lets the gauge of 14 threads per inch go on 0.45 turn:

    >>> round(turns_for_depth(0.001, 1 / 14, 1 / 16), 2)
    0.45

    Source: geometry.
    """
    per_turn = diameter_per_turn(lead, ratio)
    if not per_turn > 0:
        raise OutsideRange(
            say("taper"), ratio, 0.0, None, say("a parallel thread's gauge goes on all the way or not")
        )
    return 2 * depth / per_turn


def travel_for_turns(turns: float, lead: Length, ratio: float, angle: Angle) -> Length:
    """The same on the slide that feeds in, set over by an angle: ``n c L ÷ (2 cos φ)``.

    Parameters
    ----------
    turns : n
    lead : L (m)
    ratio : c
    angle : φ, of the slide from the cross-slide direction (rad); 0 straight in

    Returns
    -------
    m, along the slide

    Raises
    ------
    OutsideRange
        When the lead is not above zero, the ratio below it, or the angle is not within 0 and a right angle.

    Notes
    -----
    Slides set over by less than a right angle.

    Examples
    --------
    One turn of 8 threads per inch with the compound at 29.5 degrees, in inches:

    >>> round(travel_for_turns(1, 1 / 8, 1 / 16, math.radians(29.5)), 5)
    0.00449

    Source: geometry.
    """
    if not 0 <= angle < math.pi / 2:
        raise OutsideRange(
            say("angle of the compound"), angle, 0.0, math.pi / 2, say("it would not feed in"), "rad"
        )
    return depth_for_turns(turns, lead, ratio) / math.cos(angle)
