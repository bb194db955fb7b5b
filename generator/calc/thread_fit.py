"""How a screw and its nut fit: what plating adds, what of their threads meets, how close the play is held.

    coated_pitch_change    what a coating of both flanks adds to a pitch diameter
    coated_diameter_change the same of a diameter
    engaged_length         full thread of both halves that meets
    fit_band               how far a thread that is cut to its mate may vary

All lengths in m.
"""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length

LEAST_BAND = 0.25  # of the standard's tolerance: closer no shop would promise (common practice, no source)


def coated_pitch_change(thickness: Length, flanks: Flanks) -> Length:
    """What a coating of the same thickness on both flanks adds to the pitch diameter of a screw.

    2 t (1 / cos a1 + 1 / cos a2) / (tan a1 + tan a2);  2 t / sin A where both lean A: 4 t at 30 degrees

    Parameters
    ----------
    thickness : t, square to the flank (m)
    flanks : of the groove

    Returns
    -------
    Growth of the pitch diameter (m); a nut's gets smaller by as much.

    Raises
    ------
    OutsideRange
        For a negative thickness, or flanks that do not lean: there a coating moves no pitch diameter.

    Notes
    -----
    Range: a coating that is thin beside the pitch; no range given in the source.

    Examples
    --------
    The pitch diameter of a 60 degree thread changes by four times the thickness (Machinery's Handbook, 27th
    ed., p. 1773, coated 60-degree threads):

    >>> round(coated_pitch_change(0.0002, Flanks.alike(math.radians(30))), 9)
    0.0008

    Source: ASME B1.1, coated threads; geometry of two flanks moved outwards by t.
    """
    _not_negative(say("coating thickness"), thickness)
    if flanks.square:
        raise OutsideRange(
            say("flank angle"),
            0.0,
            0.0,
            None,
            say("a coating moves the pitch diameter of leaning flanks"),
            "degrees",
        )
    slants = 1 / math.cos(flanks.load) + 1 / math.cos(flanks.clearance)
    return 2 * thickness * slants / flanks.tangents


def coated_diameter_change(thickness: Length) -> Length:
    """What a coating adds to an outside diameter: 2 t.

    Parameters
    ----------
    thickness : t (m)

    Returns
    -------
    Growth of the diameter (m); a bore gets smaller by as much.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    >>> coated_diameter_change(8e-6)
    1.6e-05

    Source: Machinery's Handbook, 27th ed., p. 1773, coated 60-degree threads.
    """
    _not_negative(say("coating thickness"), thickness)
    return 2 * thickness


def engaged_length(
    mate: Length, thread: Length, gap: Length = 0.0, own_chamfer: Length = 0.0, mate_chamfer: Length = 0.0
) -> Length:
    """Full thread of screw and nut that meets, the mate run up to the shoulder.

    min(m - cm, g + l - co) - max(cm, g), not below 0; all measured from the shoulder

    Parameters
    ----------
    mate : m, length of the mate's thread over all (m)
    thread : l, length of full thread cut (m)
    gap : g, from the shoulder to the first full thread, such as a relief's width; 0 without one (m)
    own_chamfer : co, what the chamfer at its free end takes of the thread cut (m)
    mate_chamfer : cm, what a chamfer takes of each end of the mate's thread (m)

    Returns
    -------
    Length that meets (m).

    Raises
    ------
    OutsideRange
        For a negative length.

    Notes
    -----
    Range: any lengths. A mate that stops short of the shoulder meets no less than this.

    Examples
    --------
    A nut 1 long, chamfered 0.1 at both ends, on a thread as long as one likes:

    >>> round(engaged_length(1.0, 5.0, mate_chamfer=0.1), 9)
    0.8

    Source: geometry.
    """
    for what, value in (
        (say("mate's thread"), mate), (say("thread"), thread), (say("gap"), gap),
        (say("chamfer"), own_chamfer), (say("mate's chamfer"), mate_chamfer),
    ):
        _not_negative(what, value)
    return max(min(mate - mate_chamfer, gap + thread - own_chamfer) - max(mate_chamfer, gap), 0.0)


def fit_band(tolerance: Length, clearance: Length) -> Length:
    """How far the pitch diameter of a thread that is cut to its mate may vary, largest less smallest.

    the smaller of T and c, but T / 4 at least

    Parameters
    ----------
    tolerance : T, the standard's tolerance of the pitch diameter (m)
    clearance : c, the play wanted (m)

    Returns
    -------
    The band (m): with it the play stays between c / 2 and 3 c / 2, but for very close fits.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    >>> fit_band(0.008, 0.003), fit_band(0.008, 0.0)
    (0.003, 0.002)

    Source: common practice, no source.
    """
    return max(min(tolerance, clearance), LEAST_BAND * tolerance)


def _not_negative(what: str, value: Length) -> None:
    if not 0 <= value < math.inf:
        raise OutsideRange(what, value, 0.0, None, say("geometry of a fit"), "m")
