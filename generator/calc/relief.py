"""The thread relief: how wide, how deep, how round, what wall it leaves, and the time it gives the hand.

    least_width        narrowest relief for a pitch and a tool
    usual_width        the width where there is room
    default_diameter   under the root of the thread
    default_recess     over the root of an internal thread
    corner_radius      smallest and largest usual corner radius
    wall               wall between a diameter and a bore
    reaction_time      seconds from the end of the thread to the shoulder
    highest_speed      spindle speed that leaves a wanted time
"""

from __future__ import annotations

from typing import Literal

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length, Speed, SpindleSpeed, Time, inch, mm

# On diameter, under an external root, over an internal one. Usual: 0.25 to 0.5 mm, 0.010 to 0.020 in.
UNDER_ROOT = {"mm": 0.3 * mm, "inch": 0.012 * inch}
LEAST_PITCHES = 1.5   # of pitch, beside the tool's own width; common practice
STEEP_PITCHES = 2.0   # the same of Acme, trapezoidal and square threads, whose tools are wide
USUAL_PITCHES = (2.0, 3.0)  # width in pitches where there is room; common practice
CORNER_SHARE = (0.25, 0.5)  # corner radius over pitch depth; common practice


def least_width(pitch: Length, tool_width: Length = 0.0, steep: bool = False) -> Length:
    """Narrowest relief: ``1.5 P + tool``; ``2 P + tool`` for steep flanks.

    Parameters
    ----------
    pitch : P, m
    tool_width : how far the tool reaches ahead of its point, m
    steep : the groove is nearly as wide at the bottom as at the top: Acme, trapezoidal, square

    Returns
    -------
    Width, m.

    Notes
    -----
    Several starts need no more width, but more speed of hand; see `reaction_time`.

    Examples
    --------
    >>> least_width(2.0, 1.5), least_width(2.0, 1.5, steep=True)
    (4.5, 5.5)

    Source
    ------
    Common practice, no source.
    """
    return (STEEP_PITCHES if steep else LEAST_PITCHES) * pitch + tool_width


def usual_width(pitch: Length) -> tuple[Length, Length]:
    """Width of a relief where there is room: ``2 P`` to ``3 P``.

    Parameters
    ----------
    pitch : P, m

    Returns
    -------
    (from, to), m.

    Notes
    -----
    Where there is room; the drawing or the thread's own standard goes before.

    Examples
    --------
    >>> [round(one, 3) for one in usual_width(2.0)]
    [4.0, 6.0]

    Source
    ------
    Common practice, no source. DIN 76-1 form A comes to about 3.5 P at most, form B to 2.5 P.
    """
    return USUAL_PITCHES[0] * pitch, USUAL_PITCHES[1] * pitch


def default_diameter(root_diameter: Length, system: Literal["inch", "mm"]) -> Length:
    """Diameter of an external relief that nobody gave: a little under the root the tool leaves.

    ``d_root − 0.012 in`` or ``d_root − 0.3 mm``, by the shop's own round figure.

    Parameters
    ----------
    root_diameter : root of the thread, m
    system : whose round figure is taken off, 0.012 in or 0.3 mm

    Returns
    -------
    Diameter, m.

    Raises
    ------
    OutsideRange
        When nothing would be left.

    Notes
    -----
    0.010 to 0.020 in, 0.25 to 0.5 mm are usual; the owner's drawing or the thread's own standard overrides.

    Examples
    --------
    >>> round(default_diameter(16.7e-3, "mm") * 1000, 3)
    16.4

    Source
    ------
    Common practice, no source.
    """
    diameter = root_diameter - UNDER_ROOT[system]
    if diameter <= 0:
        raise OutsideRange(
            say("root diameter"), root_diameter, UNDER_ROOT[system], None, say("nothing is left"), "m"
        )
    return diameter


def default_recess(root_diameter: Length, system: Literal["inch", "mm"]) -> Length:
    """Diameter of an internal relief that nobody gave: a little over the root the tool leaves.

    Parameters
    ----------
    root_diameter : root of the internal thread, its major diameter, m
    system : whose round figure is added, 0.012 in or 0.3 mm

    Returns
    -------
    Diameter, m.

    Notes
    -----
    Major diameter + 0.010 to 0.020 in, 0.25 to 0.5 mm are usual; the owner's drawing or the thread's own
    standard overrides.

    Examples
    --------
    >>> round(default_recess(90.1e-3, "mm") * 1000, 3)
    90.4

    Source
    ------
    Common practice, no source. DIN 76-1 forms C and D: nominal diameter + 0.3 mm, + 0.5 mm from P 1 mm.
    """
    return root_diameter + UNDER_ROOT[system]


def corner_radius(depth: Length) -> tuple[Length, Length]:
    """Usual corner radius of a relief, never sharp: ``h ÷ 4`` to ``h ÷ 2``.

    Parameters
    ----------
    depth : h, radial depth of the thread, m

    Returns
    -------
    (from, to), m.

    Notes
    -----
    Where the drawing or the thread's own standard gives a radius, that one goes before.

    Examples
    --------
    >>> [round(one, 3) for one in corner_radius(2.0)]
    [0.5, 1.0]

    Source
    ------
    Common practice, no source.
    """
    return CORNER_SHARE[0] * depth, CORNER_SHARE[1] * depth


def wall(diameter: Length, bore: Length) -> Length:
    """Wall of hollow work: ``(d − bore) ÷ 2``; negative when the cut breaks through.

    Parameters
    ----------
    diameter : outside, m
    bore : inside, of the bore or of an internal thread's root or recess, m; 0 for solid work

    Returns
    -------
    Wall, m.

    Notes
    -----
    Bore and outside taken as concentric: runout takes its half off the thin side.

    Examples
    --------
    >>> wall(2.0, 1.125)
    0.4375

    Source
    ------
    Geometry.
    """
    return (diameter - bore) / 2


def reaction_time(width: Length, carriage_speed: Speed) -> Time:
    """Time the tool takes to cross the relief: ``t = width ÷ carriage speed``.

    Parameters
    ----------
    width : of the relief, or the part of it that the tool point has, m
    carriage_speed : lead × n, m/s

    Returns
    -------
    Seconds.

    Raises
    ------
    OutsideRange
        When the carriage does not move.

    Notes
    -----
    To see and to move one hand takes 0.25 s at best; opening the half nuts and withdrawing are two
    movements. 0.5 s is a plan value, 1 s a cautious one (common practice, no source).

    Examples
    --------
    3/8 in at 8 threads per inch and 32 rev/min:

    >>> round(reaction_time(0.375, 32 / 60 / 8), 1)
    5.6

    Source
    ------
    Arithmetic.
    """
    above_zero(say("carriage speed"), carriage_speed, "m/s")
    return width / carriage_speed


def highest_speed(
    width: Length, lead: Length, time: Time, tool_width: Length = 0.0, margin: Length = 0.0
) -> SpindleSpeed:
    """Highest spindle speed that leaves a wanted time: ``n = (g − w − margin) ÷ (lead × t)``.

    Parameters
    ----------
    width : of the relief g, m
    lead : starts × pitch, m
    time : wanted, s
    tool_width : how far the tool reaches ahead of its point w, m
    margin : to stay clear of the shoulder, m

    Returns
    -------
    rev/s; zero or below when the relief is too narrow for the tool.

    Raises
    ------
    OutsideRange
        When lead or time is not above zero.

    Examples
    --------
    Lead 2 mm, relief 5 mm, tool 1 mm, margin 0.5 mm, 0.4 s, in rev/min:

    >>> round(highest_speed(5, 2, 0.4, 1, 0.5) * 60, 1)
    262.5

    Source
    ------
    Arithmetic; the times are common practice, no source.
    """
    above_zero(say("lead"), lead, "m")
    above_zero(say("time wanted"), time, "s")
    return (width - tool_width - margin) / (lead * time)
