"""Cutting speed, force and power: the Kienzle formula for turning and for one pass of a thread.

    spindle_speed       speed of the spindle for a cutting speed
    thread_chip_area    chip of one pass in a V groove
    thread_force        cutting force of that pass
    turning_force       cutting force of a longitudinal cut
    grooving_force      cutting force of a grooving or parting tool
    likely_force        range around a force: scatter of the handbooks, rake, wear
    cutting_power       at the tool
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import (
    Angle,
    Area,
    FeedPerRev,
    Force,
    Length,
    Power,
    Pressure,
    Speed,
    SpindleSpeed,
    mm,
)

FORCE_PER_DEGREE = 0.015  # share of the cutting force that a degree of rake changes; Kienzle, from memory
SHARP, WORN = 0.8, 1.5  # of the formula's force: handbooks' scatter, wear; common practice, no source
MOST_RAKE = math.radians(20)


def spindle_speed(surface_speed: Speed, diameter: Length) -> SpindleSpeed:
    """Spindle speed at which `diameter` runs at `surface_speed`: ``n = v ÷ (π d)``.

    Parameters
    ----------
    surface_speed : v, m/s
    diameter : largest diameter in the cut, m

    Returns
    -------
    rev/s.

    Raises
    ------
    OutsideRange
        When either is not above zero.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    100 ft/min on 2 in, in rev/min:

    >>> round(spindle_speed(100 * 0.3048 / 60, 2 * 0.0254) * 60, 1)
    191.0

    Source
    ------
    US Army course OD1645, Lathe Operations (12 × fpm ÷ (π × D)).
    """
    above_zero(say("cutting speed"), surface_speed, "m/s")
    above_zero(say("diameter"), diameter, "m")
    return surface_speed / (math.pi * diameter)


def thread_chip_area(
    nose_flat: Length, depth_before: Length, depth_after: Length, half_angle: Angle
) -> Area:
    """Chip of one pass in a groove: ``A = F (t1 − t0) + (t1² − t0²) tan α``.

    Parameters
    ----------
    nose_flat : F, m
    depth_before, depth_after : t0, t1, radial, m
    half_angle : α, rad

    Returns
    -------
    Area, m².

    Notes
    -----
    Exact for a flat nose; no range needed.

    Examples
    --------
    Sharp tool, 0.8 to 1.0 mm, in mm²:

    >>> round(thread_chip_area(0, 0.8e-3, 1.0e-3, math.radians(30)) * 1e6, 6)
    0.207846

    Source
    ------
    Geometry.
    """
    squares = depth_after**2 - depth_before**2
    return nose_flat * (depth_after - depth_before) + squares * math.tan(half_angle)


def thread_force(
    k_c11: Pressure,
    m_c: float,
    nose_flat: Length,
    depth_before: Length,
    depth_after: Length,
    half_angle: Angle,
    plunge: bool,
) -> Force:
    """Cutting force of one thread pass: ``F_c = k_c1.1 h^(−m_c) A``, ``h = A ÷ b``.

    The engaged edge is ``b = 2 t1 ÷ cos α + F`` straight in (both flanks), ``b = t1 ÷ cos α`` along a flank.

    Parameters
    ----------
    k_c11 : specific cutting force at 1 mm chip thickness, Pa
    m_c : exponent
    nose_flat : F, m
    depth_before, depth_after : t0, t1, radial, m
    half_angle : α, rad
    plunge : straight in

    Returns
    -------
    N; 0 for a spring pass.

    Notes
    -----
    The formula holds for chips of 0.05 to 2.5 mm; the last thin passes are understated. Handbooks differ by
    20 % and more for one material.

    Examples
    --------
    60 degree sharp tool, 0.8 to 1.0 mm, k_c1.1 1675 N/mm², m_c 0.24:

    >>> round(thread_force(1675e6, 0.24, 0, 0.8e-3, 1.0e-3, math.radians(30), True), 1)
    620.5

    Source
    ------
    Kienzle (1952); Koenig and Klocke, Fertigungsverfahren 1; engaged edge from geometry.
    """
    if depth_after <= depth_before:
        return 0.0
    area = thread_chip_area(nose_flat, depth_before, depth_after, half_angle)
    flank = depth_after / math.cos(half_angle)
    edge = 2 * flank + nose_flat if plunge else flank
    return k_c11 * math.pow(area / edge / mm, -m_c) * area


def turning_force(
    k_c11: Pressure, m_c: float, depth: Length, feed: FeedPerRev, entering_angle: Angle = math.pi / 2
) -> Force:
    """Cutting force in turning: ``F_c = k_c1.1 h^(−m_c) a_p f``, ``h = f sin κ``.

    Parameters
    ----------
    k_c11 : Pa
    m_c : exponent
    depth : a_p, m
    feed : f, m/rev
    entering_angle : κ, rad; 90 degrees is a square shoulder

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        When the feed is not above zero, the depth is below, or the angle is not within 0 and 180 degrees.

    Notes
    -----
    Chip thickness 0.05 to 2.5 mm.

    Examples
    --------
    >>> round(turning_force(1675e6, 0.24, 2e-3, 0.2e-3), 1)
    985.9

    Source
    ------
    Kienzle (1952); DIN 6584.
    """
    at_least_zero(say("depth of cut"), depth, "m")
    above_zero(say("feed"), feed, "m/rev")
    if not 0 < entering_angle < math.pi:
        raise OutsideRange(
            say("entering angle"), entering_angle, 0.0, math.pi, say("edge against feed"), "rad"
        )
    return k_c11 * math.pow(feed * math.sin(entering_angle) / mm, -m_c) * depth * feed


def cutting_power(force: Force, speed: Speed) -> Power:
    """Power at the tool: ``P = F_c v``.

    Parameters
    ----------
    force : F_c, N
    speed : cutting speed, m/s

    Returns
    -------
    W.

    Notes
    -----
    Arithmetic; no range.

    Examples
    --------
    1000 N at 30 m/min:

    >>> round(cutting_power(1000, 30 / 60), 6)
    500.0

    Source
    ------
    DIN 6584.
    """
    return force * speed


def grooving_force(k_c11: Pressure, m_c: float, width: Length, feed: FeedPerRev) -> Force:
    """Cutting force of a grooving or parting tool fed straight in: ``F_c = k_c1.1 h^(−m_c) b f``, ``h = f``.

    Parameters
    ----------
    k_c11 : Pa
    m_c : exponent
    width : b, of the tool, m
    feed : f, m/rev

    Returns
    -------
    N.

    Raises
    ------
    OutsideRange
        When the width or the feed is not above zero.

    Notes
    -----
    Chip thickness 0.05 to 2.5 mm. The chip is squeezed between the walls and takes up to a third more (common
    practice, no source).

    Examples
    --------
    3 mm wide at 0.1 mm into steel of 1675 N/mm², 0.24:

    >>> round(grooving_force(1675e6, 0.24, 3e-3, 0.1e-3), 1)
    873.2

    Source
    ------
    Kienzle (1952); DIN 6584.
    """
    above_zero(say("width of the tool"), width, "m")
    return turning_force(k_c11, m_c, width, feed)


def likely_force(force: Force, rake_above_reference: Angle = 0.0) -> tuple[Force, Force]:
    """Range in which a force by Kienzle's formula is likely to lie, sharp tool to worn tool.

    ``low = 0.8 F (1 − 0.015 Δγ)``, ``high = 1.5 F (1 − 0.015 Δγ)``, Δγ in degrees.

    Parameters
    ----------
    force : F, N
    rake_above_reference : Δγ, how much more rake the tool has than the table's, rad

    Returns
    -------
    (low, high), N.

    Raises
    ------
    OutsideRange
        When the force is below zero, or the rake differs by more than 20 degrees.

    Notes
    -----
    Handbooks differ by 20 % for one material; each degree of rake changes the force by about 1.5 %; a worn
    tool takes 30 to 50 % more.

    Examples
    --------
    >>> low, high = likely_force(1000.0, math.radians(10))
    >>> round(low, 6), round(high, 6)
    (680.0, 1275.0)

    Source
    ------
    Kienzle (1952), rake and wear corrections, from memory; the scatter is common practice, no source.
    """
    at_least_zero(say("cutting force"), force, "N")
    if not abs(rake_above_reference) <= MOST_RAKE:
        raise OutsideRange(
            say("rake above the table's"), rake_above_reference, -MOST_RAKE, MOST_RAKE, say("Kienzle"), "rad"
        )
    corrected = force * (1 - FORCE_PER_DEGREE * math.degrees(rake_above_reference))
    return SHARP * corrected, WORN * corrected
