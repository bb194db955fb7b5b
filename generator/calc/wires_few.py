"""Over two wires or one, and over wires on a taper thread.
"""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.calc.guards import above_zero
from generator.calc.taper import half_angle
from generator.language.say import later, say
from generator.si import Length

TAPER_SOURCE = later("NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2138")


def over_two_wires(over: Length, wire: Length, pitch: Length, starts: int) -> Length:
    """Size over two wires, one on each side, by a micrometer that is rocked to its largest reading.

    M2 = W + [(M3 − W)² + (P/2)²]^(1/2) with an odd number of starts;  M2 = M3 with an even one

    Parameters
    ----------
    over : M3, the size over three wires (m)
    wire : W (m)
    pitch : P (m)
    starts : half a turn on, the nearest groove lies half a pitch off unless this is even

    Returns
    -------
    M2 (m)

    Raises
    ------
    OutsideRange
        Where M3 is not above W.

    Notes
    -----
    Range: above zero. The faces then stand square to the line through both wires, not to the thread's axis.

    Examples
    --------
    >>> over_two_wires(10.0, 1.0, 2.4, 1), over_two_wires(10.0, 1.0, 2.4, 2)
    (10.08, 10.0)

    Source: geometry; common practice, no source.
    """
    above_zero(say("size over wires less the wire"), over - wire, "m")
    return wire + math.hypot(over - wire, pitch / 2 if starts % 2 else 0.0)


def over_one_wire(over: Length, crest: Length) -> Length:
    """Size over one wire and the crests opposite: M1 = (M3 + d) / 2.

    Parameters
    ----------
    over : M3, the size over three wires (m)
    crest : d, the crest diameter as measured at the same place (m)

    Returns
    -------
    M1 (m)

    Notes
    -----
    Range: crests round and true to the thread; half of what they run out, and of an error of d, is in it.

    Examples
    --------
    >>> over_one_wire(10.5, 10.0)
    10.25

    Source: geometry; common practice, no source.
    """
    return (over + crest) / 2


def over_wires_taper(
    pitch_diameter: Length, wire: Length, pitch: Length, flanks: Flanks, taper: float
) -> Length:
    """Size over three wires on a taper thread, of which the faces of the micrometer follow the taper.

    M = [E − P/(tan A + tan A1) + W (sec b + k)] / sec b,  tan b = taper / 2, k as in `lead_correction`;
    60 degrees, 1 in 16:  E = 1.00049 M − 3.00049 W + 0.86603 P

    Parameters
    ----------
    pitch_diameter : E, where the single wire lies (m)
    wire : W (m)
    pitch : P (m)
    flanks : A, A1, from the plane across the axis
    taper : on the diameter over the length

    Returns
    -------
    M (m)

    Notes
    -----
    Range: tapers up to 3/4 inch per foot, 1 in 16; lead angle left out, as the source does.

    Examples
    --------
    The constants of 60 degrees and 1 in 16:

    >>> over = over_wires_taper(1.0, 0.1, 0.125, Flanks.alike(math.radians(30)), 1 / 16)
    >>> round(1.00049 * over - 3.00049 * 0.1 + 0.86603 * 0.125, 5)
    1.0

    Source: NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2138.
    """
    inclined = 1 / math.cos(half_angle(taper))
    return (pitch_diameter - pitch / flanks.tangents + wire * (inclined + flanks.seat)) / inclined
