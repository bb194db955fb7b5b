"""From one start of a thread to the next: where the slide stands, which gears divide, what an error comes to.

    StartPlace, compound_places   the compound's dial for every start
    teeth_between                 teeth of a gear from start to start, where they are whole
    axial_error                   what an error of the turned part leaves along the axis
    slant_error                   what a compound that is not parallel does to the depth

Gear and leadscrew are for the lead; tool, depth and limits for the pitch.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.calc.dials import Dial, reading, whole_graduations
from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length


@dataclass(frozen=True)
class StartPlace:
    """One start: its number, how the compound's dial stands for it, and how far that is off (m, along)."""

    start: int
    travel: Length
    turns: int
    shown: Length
    error: Length


def compound_places(pitch: Length, starts: int, dial: Dial) -> tuple[StartPlace, ...]:
    """Where the compound stands for every start after the first, moved along the bed from zero.

    travel of start k = (k - 1) P, to the nearest graduation

    Parameters
    ----------
    pitch : P (m)
    starts : 2 or more
    dial : of the compound

    Returns
    -------
    One place a start; every one is rounded by itself, so that what is left over does not add up

    Raises
    ------
    OutsideRange
        For fewer than two starts, or a pitch that is not above 0.

    Notes
    -----
    The dial goes on the same way from start to start, its play taken up. No range is given in the source.

    Examples
    --------
    Three starts of 1/8 in pitch on a dial of 0.001 in, 0.125 in a turn; then of 3.5 mm on it:

    >>> dial = Dial(0.001, 0.125, "radius")
    >>> [(place.start, place.turns, place.shown) for place in compound_places(0.125, 3, dial)]
    [(2, 1, 0.0), (3, 2, 0.0)]
    >>> [round(place.error, 6) for place in compound_places(3.5 / 25.4, 3, dial)]
    [0.000205, 0.000409]

    Source: US Army Air Corps TM 1-420, Lathes (1940), p. 81: compound parallel to the ways, moved one pitch;
    arithmetic.
    """
    _several(starts)
    above_zero(say("pitch"), pitch, "m")
    places = []
    for start in range(2, starts + 1):
        exact = (start - 1) * pitch
        travel = whole_graduations(exact, dial) * dial.graduation
        places.append(StartPlace(start, travel, *reading(travel, dial), travel - exact))
    return tuple(places)


def teeth_between(teeth: int, starts: int, turns: Fraction = Fraction(1)) -> int | None:
    """Teeth by which a gear is moved from start to start; None where they are not whole.

    teeth x turns / starts

    Parameters
    ----------
    teeth : of the gear, or slots or holes of a plate
    starts : 2 or more
    turns : of the gear in one turn of the spindle, exactly

    Returns
    -------
    Teeth, or None

    Raises
    ------
    OutsideRange
        For fewer than two starts.

    Notes
    -----
    The gear is marked, taken out of mesh, the spindle turned by so many teeth of it, and put back. No range.

    Examples
    --------
    A stud gear of 96 teeth, geared 1 to 1, for two and for three starts; one of 40 for three:

    >>> teeth_between(96, 2), teeth_between(96, 3), teeth_between(40, 3)
    (48, 32, None)

    Source: Jones, Turning and Boring (1914), on cutting multiple threads: the teeth must be divisible by the
    starts, and the ratio of stud to spindle counts.
    """
    _several(starts)
    step = teeth * turns / starts
    return int(step) if step.denominator == 1 and step > 0 else None


def axial_error(lead: Length, arc: Length, radius: Length) -> Length:
    """How far a start stands beside its place when the work was turned wrong by an arc.

    e = L arc / (2 pi R)

    Parameters
    ----------
    lead : L (m)
    arc : error on the circle of the slots, holes or teeth (m)
    radius : R of that circle (m)

    Returns
    -------
    e, along the axis (m)

    Raises
    ------
    OutsideRange
        When the radius is not above 0.

    Notes
    -----
    No range.

    Examples
    --------
    Slots 0.1 mm out on a circle of 100 mm radius, lead 18 mm:

    >>> round(axial_error(18.0, 0.1, 100.0), 4)
    0.0029

    Source: arithmetic of the lead.
    """
    above_zero(say("radius"), radius, "m")
    return lead * arc / (2 * math.pi * radius)


def slant_error(travel: Length, angle: Angle) -> Length:
    """How much deeper or shallower the next start comes when the compound is not parallel to the bed.

    e = s sin(angle)

    Parameters
    ----------
    travel : s of the compound (m)
    angle : between the compound and the bed (rad)

    Returns
    -------
    e, radial (m)

    Notes
    -----
    No range.

    Examples
    --------
    >>> round(slant_error(9.0, math.radians(0.5)), 4)
    0.0785

    Source: geometry.
    """
    return travel * math.sin(angle)


def _several(starts: int) -> None:
    if starts < 2:
        raise OutsideRange(say("starts"), starts, 2, None, say("a thread of one start needs no indexing"))
