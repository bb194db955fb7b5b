"""How much of a chuck's stiffness is left when the work is gripped less deep than the jaws are long.

    gripped_stiffness
"""

from __future__ import annotations

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length


def gripped_stiffness(stiffness: float, grip: Length, jaws: Length) -> float:
    """Stiffness against tilting with a part of the jaws gripping: ``k (g ÷ l)³``.

    Parameters
    ----------
    stiffness : k with the jaws full, N m/rad
    grip : g, length of the work in the jaws, m
    jaws : l, length of the jaws, m

    Returns
    -------
    N m/rad.

    Raises
    ------
    OutsideRange
        When a figure is not above zero, or the grip is longer than the jaws.

    Notes
    -----
    Derived: jaws as an even elastic bed of c N/m on each meter of grip turn the work about the middle of the
    grip with ∫ c x² dx = c g³ ÷ 12. For loads that act well outside the jaws; what gives inside the
    chuck does not give more by a shorter grip, so this is the cautious side.

    Examples
    --------
    >>> gripped_stiffness(8e5, 0.040, 0.080)
    100000.0

    Source
    ------
    Derived; the bed is Winkler's.
    """
    above_zero(say("stiffness of the chuck"), stiffness, "N m/rad")
    above_zero(say("grip"), grip, "m")
    if grip > jaws:
        raise OutsideRange(say("grip"), grip, 0.0, jaws, say("no more than the jaws is gripped"), "m")
    return float(stiffness * (grip / jaws) ** 3)
