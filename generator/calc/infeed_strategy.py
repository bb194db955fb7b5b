"""How a form of groove is best cut: straight in or along a flank, and in what steps a coarse one is roughed.

    straight_in       whether the tool goes straight in
    house_angle       the compound angle of a shop that has its own for 60 degrees, for another form
    rounded_floor     the floor of a groove that a rounded nose leaves
    Roughing, roughing    a slot with a narrow tool, then the flanks in side steps
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.calc.flanks import Flanks
from generator.calc.guards import above_zero
from generator.language.say import say
from generator.si import Angle, Length, mm

HALF_OF_SIXTY = math.radians(30)
FINE_PITCH = 0.75 * mm    # up to this the tool goes straight in; common practice
STEEP = math.radians(35)  # included angle up to which a groove is roughed with a slot: Acme, Tr, square
COARSE = 4.0 * mm         # from this pitch on; common practice: about 6 to the inch
LEFT = 0.15 * mm          # on the bottom and on each flank, for the form tool; common practice 0.1 to 0.25
WIDEST_TOOL = 4.0 * mm    # of a grooving tool that a medium lathe bears straight in; common practice
SLENDER = 4.0             # depth over width that a grooving tool bears; common practice
SIDE_STEP = 0.15 * mm     # off one flank at a time; common practice 0.1 to 0.2


def straight_in(pitch: Length, flanks: Flanks) -> bool:
    """Whether a thread is usually cut straight in: square ones and fine pitches.

    Parameters
    ----------
    pitch : P (m)
    flanks : of the groove (rad)

    Returns
    -------
    True where a compound set over gains nothing

    Notes
    -----
    The limit of 0.75 mm, finer than 32 to the inch, is common practice, no source.

    Examples
    --------
    >>> straight_in(0.5e-3, Flanks.alike(HALF_OF_SIXTY)), straight_in(2e-3, Flanks.alike(HALF_OF_SIXTY))
    (True, False)

    Source: US Navy training manual 14345, on the position of the compound: threads of fine lead straight in,
    coarse ones with the compound set over.
    """
    return flanks.square or pitch <= FINE_PITCH * (1 + 1e-9)


def house_angle(house: Angle, flanks: Flanks) -> Angle:
    """What a shop's own compound angle for 60 degree threads comes to for another form.

    A - (30 degrees - house);  of unlike flanks A is the clearance flank; never below 0

    Parameters
    ----------
    house : the shop's angle for 60 degree threads (rad)
    flanks : of the groove (rad)

    Returns
    -------
    Angle (rad)

    Notes
    -----
    It takes off as much as the shop takes off 30 degrees. No range.

    Examples
    --------
    A shop that sets 29 sets 26.5 for 55 degree threads:

    >>> round(math.degrees(house_angle(math.radians(29), Flanks.alike(math.radians(27.5)))), 3)
    26.5

    Source: arithmetic.
    """
    flank = flanks.half_angle if flanks.symmetrical else flanks.clearance
    return max(flank - (HALF_OF_SIXTY - house), 0.0)


def rounded_floor(nose_radius: Length, left: Length = LEFT) -> Length:
    """How wide the floor of a rounded groove is where the roughing stops.

    w = 2 sqrt(2 r left - left^2)

    Parameters
    ----------
    nose_radius : r (m)
    left : stock on the floor (m)

    Returns
    -------
    Width (m); 0 where the radius is smaller than the stock

    Notes
    -----
    For left up to r; the flanks only make it wider.

    Examples
    --------
    >>> round(rounded_floor(1.0, 0.2), 6), rounded_floor(0.1, 0.2)
    (1.2, 0.0)

    Source: geometry of a chord.
    """
    return 2 * math.sqrt(2 * nose_radius * left - left**2) if nose_radius > left else 0.0


@dataclass(frozen=True)
class Roughing:
    """A coarse groove cut in steps: a slot first, then its flanks.

    `width` is that of the grooving tool, `plunges` how many stand side by side in the slot, `shift` how far
    apart they are (m, 0 for one), `depth` how deep they go (m, radial). Then the form tool takes `side_steps`
    of at most `step` (m, along the axis) off each flank, and last the bottom.
    """

    width: Length
    plunges: int
    shift: Length
    depth: Length
    side_steps: int
    step: Length


def roughing(
    pitch: Length, flanks: Flanks, depth: Length, bottom: Length, left: Length = LEFT,
    widest_tool: Length = WIDEST_TOOL, side_step: Length = SIDE_STEP,
) -> Roughing | None:
    """The slot and the side steps of a coarse groove with steep flanks; None where the form tool alone does.

    slot = F - 2 left;  plunges = slot / widest, up;  top of the groove = F + depth (tan A + tan B)
    side steps = ((top - slot) / 2) / step, up

    Parameters
    ----------
    pitch : P (m)
    flanks : of the groove (rad)
    depth : radial depth from touch (m)
    bottom : width of the finished groove's floor, F (m)
    left : stock for the form tool on the floor and on each flank (m)
    widest_tool : of the grooving tool (m)
    side_step : most that one cut takes off one flank, along the axis (m)

    Returns
    -------
    Roughing, or None: V forms, pitches under 4 mm, and floors too narrow for a tool that deep

    Raises
    ------
    OutsideRange
        When the depth is not above 0.

    Notes
    -----
    Plunges overlap by a quarter of their width at least. For unlike flanks the slot stands under the flank
    that leans more, and the steps are those of the mean flank. No range is given in the source.

    Examples
    --------
    Tr 40x7: a floor of 2.29 mm is slotted 1.99 mm wide, then 9 steps a flank:

    >>> found = roughing(7e-3, Flanks.alike(math.radians(15)), 4e-3, 2.294e-3)
    >>> round(found.width * 1000, 2), found.plunges, found.side_steps
    (1.99, 1, 9)

    Source: Shop Practice, vol. 1 (web library), taps for square threads: first a tool somewhat narrower than
    the groove, then one of the right width. The sizes are common practice, no source.
    """
    above_zero(say("depth of the thread"), depth, "m")
    slot = bottom - 2 * left
    if flanks.included > STEEP or pitch < COARSE * (1 - 1e-9) or slot < max(2 * left, depth / SLENDER):
        return None
    plunges = math.ceil(slot / widest_tool - 1e-9)
    if plunges > 1:  # each after the first takes three quarters of its width at most
        plunges = 1 + math.ceil((slot - widest_tool) / (0.75 * widest_tool) - 1e-9)
    width = slot if plunges == 1 else widest_tool
    shift = 0.0 if plunges == 1 else (slot - width) / (plunges - 1)
    stock = (bottom + depth * flanks.tangents - slot) / 2
    return Roughing(width, plunges, shift, depth - left, math.ceil(stock / side_step - 1e-9), side_step)
