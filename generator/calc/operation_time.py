"""How long a cut takes: turning, facing, drilling, threading, and the wait for the thread dial.

    feed_time        along a length at a feed
    dial_wait        average wait for a line of the thread dial
"""

from __future__ import annotations

from generator.calc.guards import above_zero, at_least_zero
from generator.language.say import say
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
    at_least_zero(say("length of the cut"), length, "m")
    at_least_zero(say("number of cuts"), cuts, "")
    above_zero(say("feed"), feed, "m/rev")
    above_zero(say("spindle speed"), n, "rev/s")
    return cuts * length / (feed * n)


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

    Notes
    -----
    On the average, half nuts closed at the first line that serves. No range.

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
