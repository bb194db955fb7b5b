"""Where a thread begins and ends without a relief: run-out, distance from a shoulder, blind hole, lead-in.

    usual_run_out      how a thread fades out, and how far its last full turn stands from a shoulder
    hole_beyond        how far a blind hole goes on past the thread
    lead_in            the chamfer where the thread begins
    scatter            how far the end of the thread wanders with the hand that pulls the tool out
"""

from __future__ import annotations

from typing import Literal

from generator.si import Length, Speed, Time, inch, mm

RUN_OUT_PITCHES, SHORT_PITCHES, SHOULDER_PITCHES = 2.5, 1.25, 3.0  # what the tables of ISO 3508 come to
INSIDE_PITCHES, INSIDE_SHORT, INSIDE_SHOULDER = 4.0, 2.0, 5.0      # and those inside, of GB/T 3-1997
BLIND_PITCHES = 5.0   # what DIN 76-1 comes to for 1 mm; less for coarser pitches
PAST_ROOT = {"mm": 0.25 * mm, "inch": 0.010 * inch}  # on diameter, past the root; common practice
MOUTH = 1.05          # of the nominal diameter at most: GB/T 3-1997


def usual_run_out(pitch: Length, internal: bool = False) -> tuple[Length, Length, Length]:
    """Run-out normal and short, and the distance of the last full thread from a shoulder, in pitches.

    ``2.5 P, 1.25 P, 3 P``;  inside ``4 P, 2 P, 5 P``

    Parameters
    ----------
    pitch : P, m
    internal : the thread is in a bore

    Returns
    -------
    (normal, short, shoulder), m, all at most.

    Notes
    -----
    For threads that no table gives. No range.

    Examples
    --------
    >>> usual_run_out(2.0)
    (5.0, 2.5, 6.0)

    Source
    ------
    Reference values of GB/T 3-1997 (equivalent to ISO 3508), of metric threads; for others common practice.
    """
    if internal:
        return INSIDE_PITCHES * pitch, INSIDE_SHORT * pitch, INSIDE_SHOULDER * pitch
    return RUN_OUT_PITCHES * pitch, SHORT_PITCHES * pitch, SHOULDER_PITCHES * pitch


def hole_beyond(pitch: Length) -> Length:
    """How far a blind hole goes on past the last full thread: ``5 P``.

    Parameters
    ----------
    pitch : P, m

    Returns
    -------
    Length, m.

    Notes
    -----
    For threads that no table gives, without a relief. No range.

    Examples
    --------
    >>> hole_beyond(2.0)
    10.0

    Source
    ------
    DIN 76-1 comes to 5.1 P at 1 mm, 4 P at 6 mm; for other threads common practice.
    """
    return BLIND_PITCHES * pitch


def lead_in(root_diameter: Length, system: Literal["inch", "mm"], nominal: Length | None = None) -> Length:
    """Diameter of the 45 degree chamfer where a thread begins: a little past the root.

    outside: root - 0.25 mm (0.010 in);  inside: root + as much, not over 1.05 D

    Parameters
    ----------
    root_diameter : root that the tool leaves, m
    system : whose round figure is taken
    nominal : D of an internal thread, m; None for an external one

    Returns
    -------
    Diameter, m; 0 where the chamfer would meet the axis.

    Notes
    -----
    A thread that begins without one tears its first turn, and does not find its mate.

    Examples
    --------
    >>> [round(lead_in(13.546e-3, "mm") * 1000, 3), round(lead_in(16.0e-3, "mm", 16.0e-3) * 1000, 3)]
    [13.296, 16.25]

    Source
    ------
    GB/T 3-1997 (equivalent to ISO 3508): 45 degrees, also 60 or 30, at least as deep as the thread; inside
    120 degrees, also 90, D to 1.05 D. Past the root: common practice.
    """
    if nominal is None:
        return max(root_diameter - PAST_ROOT[system], 0.0)
    return max(min(root_diameter + PAST_ROOT[system], MOUTH * nominal), root_diameter)


def scatter(carriage_speed: Speed, hand: Time) -> Length:
    """How far the end of the thread wanders from pass to pass: ``carriage speed x spread of the hand``.

    Parameters
    ----------
    carriage_speed : lead x n, m/s
    hand : how much sooner or later the hand pulls, s

    Returns
    -------
    Length, m.

    Notes
    -----
    A tenth of a second is a steady hand (common practice, no source).

    Examples
    --------
    2 mm of lead at 60 rev/min, a tenth of a second:

    >>> round(scatter(2.0, 0.1), 3)
    0.2

    Source
    ------
    Arithmetic.
    """
    return carriage_speed * hand
