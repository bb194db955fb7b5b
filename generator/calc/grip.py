"""Grip of a chuck, a collet or clamps: what friction must hold. What speed and key make of it: `chuck_force`.

    slip_grip          grip that just holds torque and push
    friction_arm       lever with which friction along the jaws resists tipping
    pressure_arm       lever with which the jaws' pressure resists it
    lift_moment        tipping moment at which one end of a jaw begins to lift
    just_holding       grip that just holds torque, push and tipping together
    clamp_force        the same for work clamped on a faceplate

Forces are sums: of all jaws, all round the work, of all clamps.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Force, Length, Torque

LIFTS = 12.0  # the gripped length over the lever at which a jaw's end lifts: linear pressure along it
HALF_TOUCHES = 3.0  # the same where half of each jaw still touches, with pressure rising to its end
FEWEST_JAWS = 3


@dataclass(frozen=True)
class Holding:
    """Grip that just holds, N, and what is left of the tipping moment for friction, as a force along, N."""

    force: Force
    tilt: Force


def slip_grip(torque: Torque, push: Force, diameter: Length, friction: float) -> Force:
    """Grip that just holds torque and push along the lathe: ``F = √((2 T ÷ d)² + F_a²) ÷ μ``.

    Parameters
    ----------
    torque : T, N m
    push : F_a, along the lathe, either way, N
    diameter : d, gripped, m
    friction : μ

    Returns
    -------
    Sum of the jaws' forces, N; without any safety.

    Raises
    ------
    OutsideRange
        When diameter or friction are not above zero, or the torque is below zero.

    Notes
    -----
    The friction of every jaw carries both at once. Tipping and what pushes across is not in it.

    Examples
    --------
    1500 N at 90 mm on a grip of 110 mm, 500 N along, friction 0.2, safety 2:

    >>> round(2 * slip_grip(1500 * 0.090 / 2, 500, 0.110, 0.2), 1)
    13252.2

    Source
    ------
    Coulomb friction, in the form of VDI 3106.
    """
    above_zero(say("gripped diameter"), diameter, "m")
    above_zero(say("friction"), friction)
    at_least_zero(say("torque"), torque, "N m")
    return math.hypot(2 * torque / diameter, push) / friction


def friction_arm(diameter: Length, jaws: int | None = None) -> Length:
    """Lever of friction along the jaws against tipping, in their worst position: ``r = k d ÷ 2``.

    ``k`` is ``2 ÷ π`` of a grip all round the work, ``cot(π ÷ 2n) ÷ n`` of an odd number of jaws and
    ``2 cot(π ÷ n) ÷ n`` of an even one: the mean of |cos| of the jaws' angles where it is least.

    Parameters
    ----------
    diameter : d, gripped, m
    jaws : n; None all round

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the diameter is not above zero, or there are fewer than three jaws.

    Notes
    -----
    The work turns past the tool, so every position of the jaws comes up.

    Examples
    --------
    >>> [round(friction_arm(2.0, jaws), 4) for jaws in (3, 4, 6, None)]
    [0.5774, 0.5, 0.5774, 0.6366]

    Source
    ------
    Statics, derived here.
    """
    above_zero(say("gripped diameter"), diameter, "m")
    return _least_share(jaws) * diameter / 2


def pressure_arm(length: Length, jaws: int | None = None) -> Length:
    """Lever of the jaws' pressure against tipping, in their worst position: ``h = k l ÷ 3``.

    Parameters
    ----------
    length : l, gripped, m
    jaws : n, for k as in `friction_arm`; None all round

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When the length is not above zero, or there are fewer than three jaws.

    Notes
    -----
    Jaws that all press alike, and still touch on half of their length, the pressure rising to its end. With
    all of it at the very end the work would hold half as much again.

    Examples
    --------
    >>> round(pressure_arm(0.060, 4) * 1e3, 6)
    10.0

    Source
    ------
    Statics, derived here.
    """
    above_zero(say("gripped length"), length, "m")
    return _least_share(jaws) * length / HALF_TOUCHES


def _least_share(jaws: int | None) -> float:
    if jaws is None:
        return 2 / math.pi
    if jaws < FEWEST_JAWS:
        raise OutsideRange(
            say("number of jaws"), jaws, FEWEST_JAWS, None, say("fewer do not hold against tipping")
        )
    share = 2 / math.tan(math.pi / jaws) if jaws % 2 == 0 else 1 / math.tan(math.pi / (2 * jaws))
    return share / jaws


def lift_moment(force: Force, length: Length) -> Torque:
    """Tipping moment at which one end of a jaw begins to lift: ``M = F l ÷ 12``.

    Parameters
    ----------
    force : F, sum of the jaws, N
    length : l, gripped, m

    Returns
    -------
    N m.

    Raises
    ------
    OutsideRange
        When force or length are below zero.

    Notes
    -----
    Stiff jaws, three or more, that all press alike, pressure linear along each. The work still holds, but
    it rocks; it tips out at two to three times as much.

    Examples
    --------
    >>> lift_moment(12e3, 0.050)
    50.0

    Source
    ------
    Statics, derived here.
    """
    at_least_zero(say("force of the jaws"), force, "N")
    at_least_zero(say("gripped length"), length, "m")
    return force * length / LIFTS


def just_holding(
    torque: Torque, push: Force, tipping: Torque, diameter: Length, length: Length, friction: float,
    jaws: int | None = None,
) -> Holding:
    """Grip that just holds torque, push and tipping together.

    ``μ F = √((2 T ÷ d)² + (F_a + X)²)``, ``X = (M − F h) ÷ r``, not below zero: of the tipping moment the
    jaws' pressure carries what it can, friction along them the rest.

    Parameters
    ----------
    torque : T, N m
    push : F_a, along the lathe, either way, N
    tipping : M, about the middle of the grip, N m
    diameter, length : d, l, gripped, m
    friction : μ
    jaws : number of them, for the levers h and r of `pressure_arm` and `friction_arm`; None all round

    Returns
    -------
    F and X; without any safety. Twice the loads want twice the grip.

    Raises
    ------
    OutsideRange
        When a length or the friction is not above zero, or a load is below zero.

    Notes
    -----
    Cautious: a distribution of forces that holds, not the most favorable one. Jaws that fit the work along
    its whole gripped length; what pushes across is carried by the jaws as stops.

    Examples
    --------
    Torque and push alone, then with 90 N m of tipping, on 50 mm of 57 mm, turned work in smooth jaws:

    >>> round(just_holding(20.0, 300.0, 0.0, 0.057, 0.050, 0.1, 3).force)
    7632
    >>> held = just_holding(20.0, 300.0, 90.0, 0.057, 0.050, 0.1, 3)
    >>> round(held.force * pressure_arm(0.050, 3) + held.tilt * friction_arm(0.057, 3), 6)
    90.0

    Source
    ------
    Statics and Coulomb friction, derived here; without tipping it is the form of VDI 3106.
    """
    at_least_zero(say("tipping moment"), tipping, "N m")
    slip, lever = slip_grip(torque, push, diameter, friction), pressure_arm(length, jaws)
    if tipping <= slip * lever:
        return Holding(slip, 0.0)
    arm, around = friction_arm(diameter, jaws), 2 * torque / diameter
    along, eased = abs(push) + tipping / arm, lever / arm  # X + push is along - eased F
    both = along**2 + around**2
    force = both / (along * eased + math.sqrt((along * eased) ** 2 + (friction**2 - eased**2) * both))
    return Holding(force, along - eased * force - abs(push))


def clamp_force(
    torque: Torque, sideways: Force, pull: Force, tipping: Torque, circle: Length, friction: float
) -> Force:
    """Force of all clamps on a faceplate that just holds.

    ``F = max((2 T ÷ D + Q) ÷ μ, 4 M ÷ D) + P``: friction on the plate carries torque and what pushes across
    it, and the clamps keep every side of the work on the plate.

    Parameters
    ----------
    torque : T, N m
    sideways : Q, across the lathe, weight of the work included, N
    pull : P, away from the plate, N
    tipping : M, about the plate, N m
    circle : D, diameter on which the clamps press, m
    friction : μ, between work and plate

    Returns
    -------
    Sum of the clamps, N; without any safety.

    Raises
    ------
    OutsideRange
        When circle or friction are not above zero, or a load is below zero.

    Notes
    -----
    Three clamps or more, evenly round the work, alike tight. Only the plate's side counts, for a clamp gives
    sideways.

    Examples
    --------
    >>> round(clamp_force(50.0, 1000.0, 0.0, 60.0, 0.200, 0.1))
    15000

    Source
    ------
    Statics and Coulomb friction, derived here.
    """
    above_zero(say("circle of the clamps"), circle, "m")
    above_zero(say("friction"), friction)
    for name, load in (
        (say("torque"), torque),
        (say("push"), sideways),
        (say("pull"), pull),
        (say("tipping moment"), tipping),
    ):
        at_least_zero(name, load)
    return max((2 * torque / circle + sideways) / friction, 4 * tipping / circle) + pull


