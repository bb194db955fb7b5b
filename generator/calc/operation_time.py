"""How long a cut takes: turning, facing, drilling, threading, and the wait for the thread dial.

    feed_time        along a length at a feed
    facing_time      from the rim to the middle or a bore
    drilling_time    with the drill's point and its withdrawals
    threading_time   all passes, with return and handling
    dial_wait        average wait for a line of the thread dial
"""

from __future__ import annotations

from generator.calc.guards import above_zero, at_least_zero
from generator.errors import OutsideRange
from generator.si import FeedPerRev, Length, SpindleSpeed, Time


def feed_time(length: Length, feed: FeedPerRev, n: SpindleSpeed, cuts: int = 1) -> Time:
    """Time along a length: ``t = i L ÷ (f n)``.

    Parameters
    ----------
    length : L, with the run-in and run-out, m
    feed : f, m/rev
    n : spindle speed, rev/s
    cuts : i, how many times

    Returns
    -------
    s.

    Raises
    ------
    OutsideRange
        When the feed or the speed is not above zero, or the length or the count is below.

    Notes
    -----
    No range given in the source.

    Examples
    --------
    200 mm at 0.2 mm and 240 rev/min, in minutes:

    >>> round(feed_time(0.200, 0.2e-3, 240 / 60) / 60, 5)
    4.16667

    Source
    ------
    Krar, Technology of Machine Tools, machining time (from memory).
    """
    at_least_zero("length of the cut", length, "m")
    at_least_zero("number of cuts", cuts, "")
    above_zero("feed", feed, "m/rev")
    above_zero("spindle speed", n, "rev/s")
    return cuts * length / (feed * n)


def facing_time(
    outer: Length, inner: Length, feed: FeedPerRev, n: SpindleSpeed, cuts: int = 1
) -> Time:
    """Time across a face: ``t = i (D − d) ÷ 2 ÷ (f n)``.

    Parameters
    ----------
    outer, inner : D and d, diameters, d = 0 for a solid face, m
    feed : f, m/rev
    n : spindle speed, rev/s
    cuts : i, how many times

    Returns
    -------
    s.

    Raises
    ------
    OutsideRange
        When d is not within 0 and D, or as for `feed_time`.

    Examples
    --------
    100 mm solid at 0.2 mm and 240 rev/min, in minutes:

    >>> round(facing_time(0.100, 0, 0.2e-3, 240 / 60) / 60, 5)
    1.04167

    Source
    ------
    Krar, Technology of Machine Tools, machining time: half the diameter is the length (from memory).
    """
    above_zero("diameter of the face", outer, "m")
    if not 0 <= inner <= outer:
        raise OutsideRange("inner diameter of the face", inner, 0.0, outer, "inside the rim", "m")
    return feed_time((outer - inner) / 2, feed, n, cuts)


def drilling_time(
    depth: Length,
    point: Length,
    feed: FeedPerRev,
    n: SpindleSpeed,
    withdrawals: int = 0,
    withdrawal_time: Time = 0.0,
) -> Time:
    """Time of a hole: ``t = (l + p) ÷ (f n) + j t_w``.

    Parameters
    ----------
    depth : l, at full diameter, m
    point : p, of the drill (`drilling.point_length`), m
    feed : f, m/rev
    n : spindle speed, rev/s
    withdrawals : j, how often the drill is drawn out to clear its chips
    withdrawal_time : t_w, of one, s

    Returns
    -------
    s.

    Raises
    ------
    OutsideRange
        As for `feed_time`; nothing may be below zero.

    Examples
    --------
    60 mm with a point of 6 mm at 0.3 mm and 300 rev/min, two withdrawals of 6 s:

    >>> round(drilling_time(0.060, 0.006, 0.3e-3, 300 / 60, 2, 6.0), 6)
    56.0

    Source
    ------
    Groover, Fundamentals of Modern Manufacturing, drilling (from memory).
    """
    at_least_zero("depth of the hole", depth, "m")
    at_least_zero("length of the point", point, "m")
    at_least_zero("number of withdrawals", withdrawals, "")
    at_least_zero("time of a withdrawal", withdrawal_time, "s")
    return feed_time(depth + point, feed, n) + withdrawals * withdrawal_time


def threading_time(
    length: Length, lead: Length, n: SpindleSpeed, passes: int, return_time: Time, handling: Time
) -> Time:
    """Time of a thread: ``t = i (L ÷ (P_h n) + t_r + t_h)``.

    Parameters
    ----------
    length : L, with the run-in and run-out, m
    lead : P_h, m
    n : spindle speed, rev/s
    passes : i, all starts and spring passes counted
    return_time : t_r, carriage back to the start, s
    handling : t_h, dials, levers and the wait for the thread dial, s

    Returns
    -------
    s.

    Raises
    ------
    OutsideRange
        As for `feed_time`; nothing may be below zero.

    Notes
    -----
    By hand, return and handling together take 10 to 20 s a pass (common practice, no source).

    Examples
    --------
    50 mm and 6 mm of run-out, lead 2 mm, 120 rev/min, 12 passes, 5 s back and 8 s of handling:

    >>> round(threading_time(0.056, 0.002, 120 / 60, 12, 5.0, 8.0), 6)
    324.0

    Source
    ------
    Arithmetic of the leadscrew.
    """
    at_least_zero("return time", return_time, "s")
    at_least_zero("handling time", handling, "s")
    at_least_zero("number of passes", passes, "")
    return passes * (feed_time(length, lead, n) + return_time + handling)


def dial_wait(line_travel: Length, lead: Length, n: SpindleSpeed) -> Time:
    """Average wait for a line of the thread dial: half of ``s ÷ (P_h n)``.

    Parameters
    ----------
    line_travel : s, carriage travel between usable lines: teeth × leadscrew pitch ÷ lines × step, m
    lead : P_h, of the thread, m
    n : spindle speed, rev/s

    Returns
    -------
    s.

    Raises
    ------
    OutsideRange
        As for `feed_time`.

    Examples
    --------
    16 teeth on 8 threads an inch, any of 8 lines, so 1/4 in; 8 threads an inch at 60 rev/min:

    >>> dial_wait(0.25, 0.125, 1.0)
    1.0

    Source
    ------
    Arithmetic of the leadscrew.
    """
    return feed_time(line_travel, lead, n) / 2
