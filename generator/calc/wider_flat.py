"""How high a threading tool with a wider flat rests in a groove that a narrower one has cut."""

from __future__ import annotations

from generator.calc.flanks import Flanks
from generator.errors import OutsideRange
from generator.si import Length


def rests_higher(wider: Length, flanks: Flanks) -> Length:
    """How much less deep the point stands when both flanks touch: h = w / (tan A + tan B).

    Parameters
    ----------
    wider : w, how much wider the flat is than that of the tool which cut the groove (m)
    flanks : A and B, both flanks of groove and tool (rad)

    Returns
    -------
    h, radial (m).

    Raises
    ------
    OutsideRange
        When the flat is not wider, or the groove has upright walls: then nothing rests on flanks.

    Examples
    --------
    A flat as wide as a pitch of 1 fills the whole triangle of a 60 degree thread, H = 0.866025 P high
    (ASME B1.1-2003, H):

    >>> round(rests_higher(1.0, Flanks.alike(0.5235987755982988)), 6)
    0.866025

    Source: plane geometry; both tools of one angle.
    """
    if wider <= 0 or flanks.square:
        raise OutsideRange("what the flat is wider by", wider, 0.0, None, "geometry of two flanks", "m")
    return wider / flanks.tangents
