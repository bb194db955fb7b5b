"""Work that creeps out of the jaws because the steady rest holds it off the spindle's axis.

    steady_push          force with which the steady rest bends the work
    friction_moment      bending moment that friction along the jaws takes
    off_axis_limit       how far off the axis the fingers may hold it
    pressure_swing       how the pressure at a jaw's end comes and goes once a turn

The bend stands still while the work turns, so every jaw feels it come and go once a turn. As soon as friction
along the jaws no longer takes it whole, the work slips a little at each of them, every turn, always to where
it goes more easily: out.
"""

from __future__ import annotations

import math

from generator.calc.grip import LIFTS
from generator.calc.guards import above_zero, at_least_zero
from generator.language.say import say
from generator.si import Force, Length, Torque


def steady_push(off_axis: Length, give: float, stiffness: float = math.inf) -> Force:
    """Force with which the fingers push work to one side: ``R = e ÷ (c + 1 ÷ k)``.

    Parameters
    ----------
    off_axis : e, how far off the axis the work is held, m
    give : c, deflection at the steady rest under 1 N there, the work on its other supports, m/N
    stiffness : k, of the steady rest, N/m; inf for a rigid one

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        When the place is below zero, or give or stiffness are not above zero.

    Notes
    -----
    Elastic: the work springs back when the fingers are opened.

    Examples
    --------
    50 mm steel, 0.1 mm off, 300 mm from a chuck that does not give, ``3 E I e ÷ a³``:

    >>> round(steady_push(0.1e-3, 0.3**3 / (3 * 205e9 * 306.796e-9)))
    699

    Source
    ------
    Forced deflection of a beam, derived here.
    """
    at_least_zero(say("distance from the axis"), off_axis, "m")
    above_zero(say("give at the steady rest"), give, "m/N")
    if not stiffness > 0:
        above_zero(say("stiffness of the steady rest"), stiffness, "N/m")
    return off_axis / (give + (0.0 if math.isinf(stiffness) else 1 / stiffness))


def friction_moment(grip: Force, friction: float, arm: Length) -> Torque:
    """Bending moment that friction along the jaws takes before the work slips in them: ``M = μ F r``.

    Parameters
    ----------
    grip : F, sum of the jaws, N
    friction : μ
    arm : r, lever of `grip.friction_arm`, m

    Returns
    -------
    N m.

    Raises
    ------
    OutsideRange
        When a value is below zero.

    Notes
    -----
    While nothing is cut: torque and push of a cut take part of the friction away.

    Examples
    --------
    >>> round(friction_moment(25e3, 0.1, 0.0165), 2)
    41.25

    Source
    ------
    Coulomb friction, derived here.
    """
    for name, value in (
        (say("grip"), grip), (say("friction"), friction), (say("lever of the friction"), arm),
    ):
        at_least_zero(name, value)
    return friction * grip * arm


def off_axis_limit(moment: Torque, off_axis: Length, held: Torque) -> Length:
    """How far off the axis the fingers may hold the work: ``e_max = e M_f ÷ M``.

    Parameters
    ----------
    moment : M, at the jaws while the work is e off, N m
    off_axis : e, m
    held : M_f of `friction_moment`, N m

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the moment or e are not above zero.

    Notes
    -----
    The moment grows with the distance.

    Examples
    --------
    >>> round(off_axis_limit(60.0, 0.3e-3, 40.0) * 1e3, 6)
    0.2

    Source
    ------
    Proportion, derived here.
    """
    above_zero(say("bending moment"), moment, "N m")
    above_zero(say("distance from the axis"), off_axis, "m")
    return off_axis * held / moment


def pressure_swing(moment: Torque, grip: Force, length: Length) -> float:
    """How the pressure at a jaw's end comes and goes once a turn, over its mean: ``12 M ÷ (F l)``.

    Parameters
    ----------
    moment : M, bending moment at the jaws, N m
    grip : F, sum of the jaws, N
    length : l, gripped, m

    Returns
    -------
    A number; at 1 the end begins to lift once a turn.

    Raises
    ------
    OutsideRange
        When grip or length are not above zero.

    Notes
    -----
    As `grip.lift_moment`: the jaws' pressure carries the whole moment.

    Examples
    --------
    >>> pressure_swing(50.0, 12e3, 0.050)
    1.0

    Source
    ------
    Statics, derived here.
    """
    above_zero(say("grip"), grip, "N")
    above_zero(say("gripped length"), length, "m")
    return LIFTS * moment / (grip * length)
