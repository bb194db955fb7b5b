"""How much a person should lift by hand where the hands are: the revised NIOSH lifting equation.

    recommended_weight    the limit at one place of the hands
    coupling              what a good or a poor hold counts

A guide for two-handed lifting by healthy people, no legal limit.
"""

from __future__ import annotations

from typing import Literal

from generator.calc.guards import at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Angle, Length, Mass, degree

LOAD_CONSTANT = 23.0   # kg
NEAR, FAR = 0.25, 0.63  # m: hands from the ankles; nearer counts as 25 cm, farther allows nothing
KNUCKLE = 0.75         # m: best height of the hands
TOP = 1.75             # m: above it nothing is allowed
SHORT = 0.25           # m: least travel that counts
TWIST = 135 * degree   # beyond it nothing is allowed
CM = 0.01              # m

Hold = Literal["good", "fair", "poor"]
_COUPLING: dict[Hold, tuple[float, float]] = {"good": (1.0, 1.0), "fair": (0.95, 1.0), "poor": (0.90, 0.90)}


def coupling(hold: Hold, height: Length) -> float:
    """What the hold on the load counts.

    Parameters
    ----------
    hold : good (handles), fair (fingers under it), poor (bulky, hard to grasp, sharp edges)
    height : of the hands, m

    Returns
    -------
    CM, 1 or less.

    Notes
    -----
    Below 75 cm a fair hold counts less.

    Examples
    --------
    >>> coupling("fair", 0.5), coupling("fair", 1.0), coupling("poor", 1.0)
    (0.95, 1.0, 0.9)

    Source
    ------
    NIOSH 94-110 (rev. 2021), table 7.
    """
    return _COUPLING[hold][0 if height < KNUCKLE else 1]


def recommended_weight(
    reach: Length,
    height: Length,
    travel: Length = SHORT,
    twist: Angle = 0.0,
    *,
    frequency: float = 1.0,
    hold: float = 1.0,
) -> Mass:
    """Recommended weight limit: ``RWL = 23 × HM × VM × DM × AM × FM × CM``, in kg and cm.

    HM = 25 ÷ H;  VM = 1 − 0.003 |V − 75|;  DM = 0.82 + 4.5 ÷ D;  AM = 1 − 0.0032 A

    Parameters
    ----------
    reach : H, hands from the ankles, m; less than 25 cm counts as 25 cm
    height : V, hands from the floor, m
    travel : D, up or down, m; less than 25 cm counts as 25 cm
    twist : A, how far the body turns, rad
    frequency, hold : FM and CM of the tables; 1 for a lift now and then, and a good hold

    Returns
    -------
    kg; 0 where nothing should be lifted: H over 63 cm, V over 175 cm, A over 135 degrees.

    Raises
    ------
    OutsideRange
        When a length or the twist is below zero, or a multiplier is not from 0 to 1.

    Notes
    -----
    Two hands, dry floor, time and room to lift; not seated, not one-handed, not unstable loads.

    Examples
    --------
    H 30, V 80, D 40 cm, no twist:

    >>> round(recommended_weight(0.30, 0.80, 0.40), 4)
    17.6048

    Source
    ------
    NIOSH 94-110 (rev. 2021), sec. 1.3.
    """
    for what, length in (
        (say("reach"), reach),
        (say("height of the hands"), height),
        (say("travel of the hands"), travel),
    ):
        at_least_zero(what, length, "m")
    at_least_zero(say("twist"), twist, "rad")
    for share in (frequency, hold):
        if not 0 <= share <= 1:
            raise OutsideRange(say("multiplier"), share, 0.0, 1.0, "NIOSH 94-110")
    if reach > FAR or height > TOP or twist > TWIST:
        return 0.0
    horizontal = NEAR / max(reach, NEAR)
    vertical = 1 - 0.003 * abs(height - KNUCKLE) / CM
    distance = min(1.0, 0.82 + 4.5 * CM / max(travel, SHORT))
    asymmetric = 1 - 0.0032 * twist / degree
    return LOAD_CONSTANT * horizontal * vertical * distance * asymmetric * frequency * hold
