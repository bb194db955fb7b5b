"""What happens at each place of the thread dial when the half nuts are closed there.

    Engagement         one place of the dial: a line, half-way between two, or wherever the half nuts close
    engagements        all of them, for one lathe and one thread
    NextStart          how the dial leads from the first start of a thread to another
    next_starts        the same for each of its other starts

Exact (fractions), like `thread_dial`, whose rule is the part of this that keeps the start. Places are counted
in lines of the dial, in the order in which the lines come to the mark, from the line of the first pass.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.calc.thread_dial import refuse_zero
from generator.language.say import say

Outcome = Literal[
    "same start",      # the tool is in the groove of the first pass
    "other start",     # it is in the groove of another start
    "wrong",           # the half nuts close, and the tool is in no groove
    "changes",         # the half nuts close, and what the tool meets changes from turn to turn of the dial
    "does not close",  # the half nuts meet the crests of the leadscrew
]


@dataclass(frozen=True)
class Engagement:
    """One place of the dial.

    `place` is counted in lines from the first one used, below the lines on the dial; `threads` is how many
    leadscrew threads pass from there. `start` is the start that the tool meets, 1 the first, each next one a
    pitch further on; None where it meets none, or not always the same.
    """

    place: Fraction
    threads: Fraction
    outcome: Outcome
    start: int | None = None

    @property
    def on_line(self) -> bool:
        """True at a line of the dial, false between two."""
        return self.place.denominator == 1


def engagements(
    leadscrew: Fraction, teeth: int, marks: int, lead: Fraction, starts: int = 1
) -> tuple[Engagement, ...]:
    """What the tool meets at every line, at every half space, and wherever else the half nuts close.

    At the place k, in lines, ``n = k T ÷ M`` leadscrew threads have passed: the half nuts close where n is
    whole. The tool stands ``n pL`` beside the groove of the first pass: it is in start s where that is
    s − 1 pitches and any number of leads. A turn of the dial adds T threads; a place is to be relied on
    only when ``T pL ÷ lead`` is whole, for then each turn does the same.

    Parameters
    ----------
    leadscrew : pL, lead of the leadscrew
    teeth : T, teeth of the dial's gear
    marks : M, equally spaced lines on the dial
    lead : starts × pitch of the thread that is cut, in the unit of `leadscrew`
    starts : starts of the thread

    Returns
    -------
    The places of one turn of the dial, in order, the first one at the line of the first pass.

    Raises
    ------
    OutsideRange
        When a value is not above zero.

    Notes
    -----
    Exact for any leadscrew and lead. Which way round the starts are counted depends on which way the dial
    turns; the lines that belong together do not.

    Examples
    --------
    Two starts, lead 1/2 in, leadscrew of 4 threads per inch, 16 teeth, 8 lines: every line keeps the start,
    and one leadscrew thread off a line, which is half a space, is in the other one.

    >>> for found in engagements(Fraction(1, 4), 16, 8, Fraction(1, 2), 2)[:3]:
    ...     print(found.place, found.threads, found.outcome, found.start)
    0 0 same start 1
    1/2 1 other start 2
    1 2 same start 1

    Source
    ------
    Principle: Jones, Turning and Boring (1914), on the thread indicator; the rest is arithmetic.
    """
    refuse_zero(leadscrew, teeth, marks, lead, {say("starts of the thread"): starts})
    places = {Fraction(half, 2) for half in range(2 * marks)}
    places |= {Fraction(threads * marks, teeth) for threads in range(teeth)}
    return tuple(
        Engagement(place, threads, *_meets(threads, teeth, leadscrew / lead, starts))
        for place in sorted(places)
        for threads in (place * teeth / marks,)
    )


def _meets(threads: Fraction, teeth: int, leads: Fraction, starts: int) -> tuple[Outcome, int | None]:
    """What the tool meets after so many leadscrew threads, `leads` leads each, at every turn of the dial."""
    if threads.denominator != 1:
        return "does not close", None
    beside = threads * leads % 1  # leads beside the groove of the first pass
    pitches = beside * starts
    turn = teeth * leads
    if turn.denominator == 1:
        if pitches.denominator != 1:
            return "wrong", None
        return ("other start" if pitches else "same start"), int(pitches) + 1
    # a turn shifts the tool by any multiple of 1/denominator of a lead: does any turn bring it into a start?
    reached = Fraction(math.gcd(starts, turn.denominator), starts * turn.denominator)
    return ("changes" if (beside / reached).denominator == 1 else "wrong"), None


@dataclass(frozen=True)
class NextStart:
    """How the dial leads from a line of the first start to another start.

    `lines` are the lines of that start, counted from the first one used; `threads` is the fewest leadscrew
    threads to get there, past the line when positive, before it when negative. None and empty when the dial
    does not lead there: the start is then indexed by the compound or the driver.
    """

    start: int
    lines: tuple[int, ...]
    threads: int | None


def next_starts(found: Iterable[Engagement], starts: int) -> tuple[NextStart, ...]:
    """How the dial leads to each start but the first.

    A line leads to start k when ``(travel to the line ÷ lead) × starts`` leaves k − 1 over whole turns.

    Parameters
    ----------
    found : what `engagements` gives for the thread
    starts : starts of the thread

    Returns
    -------
    One entry for each start from the second on.

    Notes
    -----
    Exact, in fractions. No range.

    Examples
    --------
    The same thread on a leadscrew of 8 threads per inch: every second line is in the other start.

    >>> for way in next_starts(engagements(Fraction(1, 8), 16, 8, Fraction(1, 2), 2), 2):
    ...     print(way.start, way.lines, way.threads)
    2 (1, 3, 5, 7) 2

    Source
    ------
    Arithmetic. US Army Air Corps TM 1-420, Lathes (1940), p. 81, names the dial first among the ways to
    space the grooves of several starts.
    """
    closing = [one for one in found if one.threads.denominator == 1]
    around = len(closing)

    def way(start: int) -> NextStart:
        there = [one for one in closing if one.start == start]
        threads = [count for one in there for count in (int(one.threads), int(one.threads) - around)]
        return NextStart(
            start,
            tuple(int(one.place) for one in there if one.on_line),
            min(threads, key=lambda count: (abs(count), -count), default=None),
        )

    return tuple(way(start) for start in range(2, starts + 1))
