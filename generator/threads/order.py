"""Limits that make no thread are refused: standards' formulas run on past where they mean anything."""

from __future__ import annotations

from itertools import pairwise

from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.threads.sizes import Range, ThreadLimits

NAMES = (later("major diameter"), later("pitch diameter"), later("minor diameter"))
TOO_FINE = later(
    "so fine a pitch on so large a diameter: the tolerances are wider than the thread is high; where there "
    "is such a thread, write it as special, made to its mate"
)
TOO_SMALL = later("its tolerances are larger than the thread itself")


def in_order(of: ThreadLimits) -> ThreadLimits:
    """The same limits, if any thread inside them is one.

    Each max stands over its min, all above zero, and no diameter's zone reaches into that of the next.

    Raises
    ------
    OutsideRange
        When they do not.

    Examples
    --------
    >>> from generator.threads.registry import limits, parse_designation
    >>> limits(parse_designation("500-2 STUB ACME"))
    Traceback (most recent call last):
    ...
    generator.errors.OutsideRange: height between pitch diameter and minor diameter of 500-2 STUB ACME \
-0.164 in is out of range: at least 0 in (so fine a pitch on so large a diameter: the tolerances are wider \
than the thread is high; where there is such a thread, write it as special, made to its mate)
    """
    ranges = dict(zip(NAMES, (of.major, of.pitch_diameter, of.minor), strict=True))
    for name, one in ranges.items():
        if one.max is not None and one.min is not None and one.max < one.min:
            raise _refused(of, say("tolerance of the {name}", name=name), one.max - one.min, TOO_SMALL)
        for end in (one.max, one.min):
            if end is not None and end <= 0:
                raise _refused(of, name, end, TOO_SMALL)
    for (outer, larger), (inner, smaller) in pairwise(ranges.items()):
        left = _between(larger, smaller)
        if left is not None and left <= 0:
            raise _refused(
                of, say("height between {outer} and {inner}", outer=outer, inner=inner), left, TOO_FINE
            )
    return of


def _between(larger: Range, smaller: Range) -> float | None:
    """From the top of the smaller diameter's zone to the bottom of the larger one's (own unit)."""
    bottom = larger.max if larger.min is None else larger.min
    top = smaller.min if smaller.max is None else smaller.max
    return None if bottom is None or top is None else bottom - top


def _refused(of: ThreadLimits, what: str, left: float, reason: str) -> OutsideRange:
    d = of.designation
    return OutsideRange(
        say("{what} of {thread}", what=what, thread=d.text or say("this thread")),
        round(left, 6),
        0.0,
        None,
        reason,
        d.unit,
    )
