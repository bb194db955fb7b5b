"""Cutting speed, force and power: the Kienzle formula for turning and for one pass of a thread.

    spindle_speed       speed of the spindle for a cutting speed
    thread_chip_area    chip of one pass in a V groove
    thread_force        cutting force of that pass
    turning_force       cutting force of a longitudinal cut
    cutting_power       at the tool
"""

from __future__ import annotations

import math

from generator.errors import OutsideRange
from generator.si import Angle, Area, FeedPerRev, Force, Length, Power, Pressure, Speed, SpindleSpeed, mm


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
    _above_zero("cutting speed", surface_speed, "m/s")
    _above_zero("diameter", diameter, "m")
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


def _above_zero(quantity: str, value: float, unit: str) -> None:
    if not (value > 0 and math.isfinite(value)):
        raise OutsideRange(quantity, value, 0.0, None, "it has to be above zero", unit)
