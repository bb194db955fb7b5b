"""What a chuck's jaws press with: as the key is pulled, and at speed.

    jaw_loss           what turning takes from the grip
    grip_at_rest       what must be there before it turns
    force_on_key       the pull on the key for it
    past_body_speed    the speed with jaws past the body of the chuck
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Force, Length, Mass, SpindleSpeed, Torque


def jaw_loss(jaws: int, mass: Mass, radius: Length, speed: SpindleSpeed) -> Force:
    """What speed takes from the grip from outside, or adds from inside: ``F_c = n m r (2 π n_s)²``.

    Parameters
    ----------
    jaws : n, number of jaws
    mass : m, of one jaw, kg
    radius : r, of its balance point from the spindle's axis, m
    speed : n_s, rev/s

    Returns
    -------
    N, of all jaws.

    Raises
    ------
    OutsideRange
        When a value is below zero.

    Notes
    -----
    Stiff jaws: a chuck that gives loses somewhat less.

    Examples
    --------
    Three jaws of 0.8 kg at 70 mm, 600 rpm:

    >>> round(jaw_loss(3, 0.8, 0.070, 10.0), 2)
    663.24

    Source
    ------
    VDI 3106, as chuck makers' manuals print it.
    """
    for name, value in (
        (say("mass of a jaw"), mass),
        (say("radius of a jaw"), radius),
        (say("spindle speed"), speed),
    ):
        at_least_zero(name, value)
    return jaws * mass * radius * (2 * math.pi * speed) ** 2


def grip_at_rest(needed: Force, loss: Force, safety: float, *, inside: bool = False) -> Force:
    """Grip wanted at rest: ``F_0 = S (F + F_c)`` from outside, ``S (F − F_c)`` from inside, not below zero.

    Parameters
    ----------
    needed : F, wanted while the work turns, N
    loss : F_c of `jaw_loss`, N
    safety : S, for the grip; VDI 3106 takes 1.5 or more
    inside : True where the jaws hold the work from inside

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        When a force is below zero, or the safety is below 1.

    Notes
    -----
    From inside speed adds to the grip, and to the stress in the work.

    Examples
    --------
    >>> round(grip_at_rest(10e3, jaw_loss(3, 0.8, 0.070, 10.0), 1.5), 1)
    15994.9

    Source
    ------
    VDI 3106, as chuck makers' manuals print it.
    """
    at_least_zero(say("grip"), needed, "N")
    at_least_zero(say("loss of grip"), loss, "N")
    if not safety >= 1:
        raise OutsideRange(say("safety"), safety, 1.0, None, say("VDI 3106 takes 1.5 or more"))
    return safety * max(needed - loss if inside else needed + loss, 0.0)


def force_on_key(key_torque: Torque, rated_torque: Torque, rated_force: Force) -> Force:
    """Force of the jaws for a torque on the key: ``F = T ÷ T_r × F_r``.

    Parameters
    ----------
    key_torque : T, N m
    rated_torque : T_r, with which the chuck gives its rated force, N m
    rated_force : F_r, N

    Returns
    -------
    Sum of the jaws' forces, N.

    Raises
    ------
    OutsideRange
        When a value is not above zero.

    Notes
    -----
    A screw or scroll under friction: force follows torque. Clean and greased; dirty or dry it gives about
    half (common practice, no source).

    Examples
    --------
    >>> force_on_key(75.0, 150.0, 30e3)
    15000.0

    Source
    ------
    Common practice, no source.
    """
    for name, value in (
        (say("torque on the key"), key_torque),
        (say("rated torque"), rated_torque),
        (say("rated force"), rated_force),
    ):
        above_zero(name, value)
    return key_torque / rated_torque * rated_force


def past_body_speed(top_speed: SpindleSpeed, body: Length, past: Length) -> SpindleSpeed:
    """Top speed of a chuck whose jaws stand out past its body: ``n = n_top √(D ÷ (D + 4 p))``.

    Parameters
    ----------
    top_speed : n_top, marked on the chuck for jaws within its body, rev/s
    body : D, diameter of the body, m
    past : p, how far the jaws stand out, m

    Returns
    -------
    rev/s at which a jaw pulls no harder than at the marked speed with its outer end at the rim.

    Raises
    ------
    OutsideRange
        When top speed or body are not above zero, or the jaws stand out less than nothing.

    Notes
    -----
    An estimate: the jaw is taken to reach from the middle of the chuck to the rim, so that its balance point
    is at a quarter of the diameter; the maker's own figure comes first.

    Examples
    --------
    >>> round(past_body_speed(25.0, 0.250, 0.025) * 60)
    1268

    Source
    ------
    Centrifugal force, derived here.
    """
    above_zero(say("top speed"), top_speed, "rev/s")
    above_zero(say("body of the chuck"), body, "m")
    at_least_zero(say("how far the jaws stand out"), past, "m")
    return top_speed * math.sqrt(body / (body + 4 * past))
