"""Measurement of internal threads between two balls, where no plug gauge is at hand.

    ball_circle     diameter on which the center of a ball stands that touches both flanks
    between_balls   size between two balls in opposite grooves
"""

from __future__ import annotations

import math

from generator.errors import OutsideRange
from generator.si import Angle, Length

SOURCE = "geometry: a ball on both flanks of the groove"


def ball_circle(pitch_diameter: Length, ball: Length, pitch: Length, half_angle: Angle) -> Length:
    """Diameter of the circle on which the ball's center stands.

    Dc = D2 - W / sin A + (P/2) cot A;  for 60 degrees Dc = D2 - 2 W + 0.866025 P

    Parameters
    ----------
    pitch_diameter : D2 (m)
    ball : W, diameter of the ball (m)
    pitch : P (m)
    half_angle : A (rad)

    Returns
    -------
    Dc (m)

    Raises
    ------
    OutsideRange
        When the ball does not go into the thread, or would not touch the flanks.

    Notes
    -----
    Range: 0 < W, Dc > 0. Lead angle left out, as in the simple form of the measurement over wires.

    Examples
    --------
    The best ball, 0.57735 P, has its center H/4 inside the pitch cylinder of a 60 degree thread:

    >>> round(ball_circle(10.0, 0.57735, 1.0, math.radians(30)), 4)   # 10 - 2 x 0.1443
    9.7113

    Source: geometry, mirrored from the measurement over wires (NBS Handbook H28).
    """
    circle = pitch_diameter - ball / math.sin(half_angle) + pitch / 2 / math.tan(half_angle)
    if not (ball > 0 and circle > ball):
        raise OutsideRange("ball", ball, 0.0, None, SOURCE, "m")
    return circle


def between_balls(
    pitch_diameter: Length, ball: Length, pitch: Length, starts: int, half_angle: Angle
) -> Length:
    """Size between two balls that lie in opposite grooves, along the line through their centers.

    M = sqrt(Dc^2 + e^2) - W;  e = P/2 with an odd number of starts, 0 with an even one

    Parameters
    ----------
    pitch_diameter : D2 (m)
    ball : W, diameter of both balls (m)
    pitch : P (m)
    starts : number of starts; half a turn on, the nearest groove lies half a pitch off unless it is even
    half_angle : A (rad)

    Returns
    -------
    M (m)

    Raises
    ------
    OutsideRange
        As `ball_circle`.

    Notes
    -----
    Range: lead angles up to about 5 degrees; beyond, the ball rides higher than in the axial section.

    Examples
    --------
    M 20 x 2.5, basic pitch diameter 18.376 mm, balls of 1.443 mm; by the simple form it is 16.212 mm:

    >>> round(between_balls(18.376, 1.443, 2.5, 1, math.radians(30)), 3)
    16.256

    Source: geometry.
    """
    offset = pitch / 2 if starts % 2 else 0.0
    return math.hypot(ball_circle(pitch_diameter, ball, pitch, half_angle), offset) - ball
