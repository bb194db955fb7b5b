"""What is still to be cut when a thread measures too full: the reading's excess as a travel of the slides."""

from __future__ import annotations

import math

from generator.calc.passes import infeed_travel
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length


def still_to_cut(excess: Length, angle: Angle = 0.0) -> Length:
    """Travel of a slide that takes an excess of the pitch diameter away.

    s = (excess / 2) / cos alpha

    Parameters
    ----------
    excess : what the pitch diameter, or a size over wires, reads above the size aimed at; of an internal
        thread what it reads under it (m)
    angle : alpha, how far the slide is set over from the cross-slide direction (rad); 0 is the cross slide

    Returns
    -------
    s (m), towards the work

    Raises
    ------
    OutsideRange
        For a negative excess (the metal is gone), or an angle outside 0 to 90 degrees.

    Notes
    -----
    Range: flanks that lean, excess small beside the diameter. A size over wires and the pitch diameter then
    change by the same amount; a cut along the compound widens one flank, the pitch diameter follows the
    depth alone.

    Examples
    --------
    0.0060 in over on a compound at 29.5 degrees: half of it, radial, is 0.00345 in along the compound.

    >>> round(still_to_cut(0.0060, math.radians(29.5)), 5)
    0.00345
    >>> still_to_cut(0.0060)
    0.003

    Source: plane geometry of the groove.
    """
    if not 0 <= excess < math.inf:
        raise OutsideRange(say("excess"), excess, 0.0, None, say("nothing puts metal back"), "m")
    return infeed_travel(excess / 2, angle)
