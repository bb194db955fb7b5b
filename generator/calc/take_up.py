"""A thread that is taken up again: how the point rests in a groove already cut, and what truing may leave.

    rests_higher         a point with a wider flat, or a larger radius, in the same groove
    runout_cleaned_up    the most runout that the cuts left still clean up all round

The groove is as it was left, both flanks straight; the tool is ground to the same angles as before.
"""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length


def rests_higher(wider: Length, flanks: Flanks, larger_radius: Length = 0.0) -> Length:
    """How much less deep a point comes to rest on both flanks of the same groove after grinding.

    h = w / (tan A + tan B) + q (seat - 1);  seat: see `Flanks.seat`

    Parameters
    ----------
    wider : w, by how much the flat at the nose is wider than before (m); below 0 for a narrower one
    flanks : A and B, of the groove (rad), not square
    larger_radius : q, by how much the radius at the nose is larger, of a tool that has one (m)

    Returns
    -------
    h (m), radial; below 0: it goes deeper. The root comes out as much less deep at one size on the flanks.

    Raises
    ------
    OutsideRange
        For a square groove: its flanks do not stop a point, and a wider one does not go in.

    Notes
    -----
    No range; both flanks straight and the point still on both. A tool has a flat or a radius, not both.

    Examples
    --------
    60 degrees: a flat wider by P/8 - P/24 (from a 24th of the pitch to an eighth) lies P/12 higher over
    2 tan 30 degrees, 0.0722 P; ISO 68-1 has H/8 under a flat of P/8 and so H/24 under P/24, H = 0.866025 P:

    >>> round(rests_higher(1 / 8 - 1 / 24, Flanks.alike(math.radians(30))), 5)
    0.07217
    >>> round((1 / 8 - 1 / 24) * 0.8660254, 5)
    0.07217

    Source: plane geometry of the groove.
    """
    if flanks.square:
        raise OutsideRange(
            say("flank angle"), 0.0, 0.0, 90.0,
            say("a square groove does not stop a point; a wider one does not go in"), "degrees",
        )
    return wider / flanks.tangents + larger_radius * (flanks.seat - 1)


def runout_cleaned_up(depth_left: Length) -> Length:
    """The most runout, full reading of the indicator, that the cuts left still clean up all round.

    T = 2 t

    Parameters
    ----------
    depth_left : t, radial depth still to be cut (m)

    Returns
    -------
    T (m): the groove is then T / 2 off the spindle's axis, and at one place nothing of its flanks is cut

    Raises
    ------
    OutsideRange
        For a depth below 0.

    Notes
    -----
    No range; small beside the diameter.

    Examples
    --------
    0.012 in left takes up 0.024 in on the indicator:

    >>> runout_cleaned_up(0.012)
    0.024

    Source: plane geometry of two circles, one off the other's center by half the reading.
    """
    if not 0 <= depth_left < math.inf:
        raise OutsideRange(say("depth left"), depth_left, 0.0, None, say("nothing puts metal back"), "m")
    return 2 * depth_left
