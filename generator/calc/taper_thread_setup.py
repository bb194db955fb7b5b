"""What goes wrong with a taper thread when tool or work stand wrong in the lathe.

    tilted_half_angles    what a tool set square to the taper makes of the flanks
    tilt_diameter         how much that costs on the pitch diameter
    set_over_pitch        what the pitch becomes with the tailstock set over

A taper c is a ratio, change of diameter over length. Any consistent unit; SI (m, rad) by convention.
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.calc.taper import half_angle
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length


def tilted_half_angles(flank: Angle, ratio: float) -> tuple[Angle, Angle]:
    """Half angles that a tool set square to the side of the taper leaves: ``A + α`` and ``A − α``.

    Parameters
    ----------
    flank : A, half angle of the tool (rad)
    ratio : c, of the taper; tan α = c ÷ 2

    Returns
    -------
    Half angles of both flanks against the plane across the axis (rad), the larger first

    Raises
    ------
    OutsideRange
        When the taper leans more than the flank.

    Examples
    --------
    60 degrees on 1 in 16, whose half angle is 1° 47' 24" (ASME B1.20.1):

    >>> [round(math.degrees(angle), 2) for angle in tilted_half_angles(math.radians(30), 1 / 16)]
    [31.79, 28.21]

    Source: geometry; ASME B1.20.1 for the taper.
    """
    tilt = half_angle(ratio)
    if not tilt < flank < math.pi / 2 - tilt:
        name = say("half angle of the tool")
        raise OutsideRange(name, flank, tilt, math.pi / 2 - tilt, say("geometry"), "rad")
    return flank + tilt, flank - tilt


def tilt_diameter(height: Length, flank: Angle, tilt: Angle) -> Length:
    """What leaning flanks cost on the pitch diameter of a gauge that has them right.

    ΔE = (h ÷ 2) (tan(A + α) − tan(A − α)) ÷ tan A

    One flank then bears at its crest and the other at its root, and the gauge stops as if the pitch diameter
    were larger outside, or smaller inside, by ΔE.

    Parameters
    ----------
    height : h, of the flanks in contact, radial (m)
    flank : A, half angle of thread and gauge (rad)
    tilt : α, that the whole groove leans (rad)

    Returns
    -------
    m, on the diameter

    Raises
    ------
    OutsideRange
        When height or flank are not above zero, or the groove leans past a flank.

    Notes
    -----
    For gauges with full flanks; a truncated gauge is stopped less.

    Examples
    --------
    National form, height 0.6495 of the pitch: 1.5 P tan α (NBS Handbook H28, from memory), here for a degree:

    >>> lean = math.radians(1)
    >>> round(tilt_diameter(0.6495, math.radians(30), lean), 3), round(1.5 * math.tan(lean), 3)
    (0.026, 0.026)

    Source: geometry; NBS Handbook H28, diameter equivalent of errors in half angle (from memory).
    """
    above_zero(say("height of the thread"), height, "m")
    above_zero(say("half angle of the flanks"), flank, "rad")
    if not 0 <= tilt < min(flank, math.pi / 2 - flank):
        raise OutsideRange(say("lean of the groove"), tilt, 0.0, flank, say("geometry"), "rad")
    return height / 2 * (math.tan(flank + tilt) - math.tan(flank - tilt)) / math.tan(flank)


def set_over_pitch(pitch: Length, ratio: float) -> Length:
    """Pitch along the work when it leans in the lathe, with the tailstock set over: ``P cos α``.

    Parameters
    ----------
    pitch : P, that the lathe is geared for (m)
    ratio : c, of the taper; tan α = c ÷ 2

    Returns
    -------
    m

    Raises
    ------
    OutsideRange
        When the pitch is not above zero, or the ratio below it.

    Notes
    -----
    A bent-tail dog then drives unevenly besides, once in a turn.

    Examples
    --------
    1 in 16 shortens an inch of thread by 0.0005 in:

    >>> round(1 - set_over_pitch(1.0, 1 / 16), 4)
    0.0005

    Source: geometry; that the pitch is then not correct: Shop Practice (1910s), Taper Taps.
    """
    above_zero(say("pitch"), pitch, "m")
    return pitch * math.cos(half_angle(ratio))
