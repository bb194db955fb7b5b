"""Measurement of internal threads between two balls, where no plug gauge is at hand.

    ball_circle           diameter on which the center of a ball on both flanks stands, lead left out
    ball_circle_exact     the same with the lead angle
    between_balls         size between two balls in opposite grooves
"""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.calc.helicoid import rest
from generator.calc.wires import LEAD_TERM_FROM, Form
from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.si import Length

SOURCE = later("geometry: a ball on both flanks of the groove")


def ball_circle(pitch_diameter: Length, ball: Length, pitch: Length, flanks: Flanks) -> Length:
    """Diameter of the circle on which the ball's center stands, lead angle left out.

    Dc = D2 + P/(tan A + tan A1) − W cos((A1 − A)/2) / sin((A1 + A)/2);
    60 degrees: Dc = D2 − 2 W + 0.866025 P

    Parameters
    ----------
    pitch_diameter : D2 (m)
    ball : W, diameter of the ball (m)
    pitch : P (m)
    flanks : A, A1

    Returns
    -------
    Dc (m)

    Raises
    ------
    OutsideRange
        When the ball does not go into the thread, or would not touch the flanks.

    Notes
    -----
    Range: 0 < W < Dc; for small lead angles.

    Examples
    --------
    The best ball, 0.57735 P, has its center H/4 inside the pitch cylinder of a 60 degree thread:

    >>> round(ball_circle(10.0, 0.57735, 1.0, Flanks.alike(math.radians(30))), 4)   # 10 - 2 x 0.1443
    9.7113

    Source: geometry, mirrored from the measurement over wires (NBS Handbook H28).
    """
    return _goes_in(pitch_diameter + pitch / flanks.tangents - ball * flanks.seat, ball)


def ball_circle_exact(
    pitch_diameter: Length, ball: Length, pitch: Length, lead: Length, flanks: Flanks
) -> Length:
    """Diameter of the circle on which the ball's center stands: Dc = 2 R, R by `helicoid.rest`.

    Parameters
    ----------
    pitch_diameter : D2 (m)
    ball : W, diameter of the ball (m)
    pitch : P (m)
    lead : L (m)
    flanks : A, A1

    Returns
    -------
    Dc (m)

    Raises
    ------
    OutsideRange
        As `ball_circle`.

    Notes
    -----
    Range: any lead angle. The ball stands nearer to the axis than `ball_circle` has it.

    Source: geometry of the helicoid.
    """
    _goes_in(ball_circle(pitch_diameter, ball, pitch, flanks), ball)
    return _goes_in(2 * rest(pitch_diameter, ball, pitch, lead, flanks, inside=True), ball)


def form_of(pitch_diameter: Length, ball: Length, pitch: Length, lead: Length, flanks: Flanks) -> Form:
    """Simple while the lead angle takes 0.00015 in at most off the circle, as over wires; else exact.

    Source: as over wires, Machinery's Handbook, 31st ed., p. 2127.
    """
    taken = ball_circle(pitch_diameter, ball, pitch, flanks) - ball_circle_exact(
        pitch_diameter, ball, pitch, lead, flanks
    )
    return Form.SIMPLE if taken <= LEAD_TERM_FROM else Form.EXACT


def between_balls(
    pitch_diameter: Length, ball: Length, pitch: Length, starts: int, flanks: Flanks
) -> Length:
    """Size between two balls that lie in opposite grooves, along the line through their centers.

    M = (Dc² + e²)^(1/2) − W;  e = P/2 with an odd number of starts, 0 with an even one

    Parameters
    ----------
    pitch_diameter : D2 (m)
    ball : W, diameter of both balls (m)
    pitch : P (m), the lead being starts × P
    starts : half a turn on, the nearest groove lies half a pitch off unless this is even
    flanks : A, A1

    Returns
    -------
    M (m)

    Raises
    ------
    OutsideRange
        As `ball_circle`.

    Notes
    -----
    Range: any lead angle; Dc in the form that `form_of` says. The balls lie straight across from each other.

    Examples
    --------
    M 20 x 2.5, basic pitch diameter 18.376 mm, balls of 1.443 mm; by the simple form it is 16.212 mm:

    >>> circle = ball_circle(18.376, 1.443, 2.5, Flanks.alike(math.radians(30)))
    >>> round(across_balls(circle, 1.443, 2.5, 1), 3)
    16.256

    Source: geometry.
    """
    lead = starts * pitch
    if form_of(pitch_diameter, ball, pitch, lead, flanks) is Form.SIMPLE:
        circle = ball_circle(pitch_diameter, ball, pitch, flanks)
    else:
        circle = ball_circle_exact(pitch_diameter, ball, pitch, lead, flanks)
    return across_balls(circle, ball, pitch, starts)


def across_balls(circle: Length, ball: Length, pitch: Length, starts: int) -> Length:
    """Size between two balls on a circle of centers: M = (Dc² + e²)^(1/2) − W, as `between_balls`.

    Source: geometry.
    """
    return math.hypot(circle, pitch / 2 if starts % 2 else 0.0) - ball


def _goes_in(circle: float, ball: float) -> float:
    if not (ball > 0 and circle > ball):
        raise OutsideRange(say("ball"), ball, 0.0, None, SOURCE, "m")
    return circle
