"""From one reading of the thread to the cuts left: never past the size, never the last by number alone.

    Read            what one way of measuring reads at the size aimed at, at its limits, and with a slip
    Feed            the slides' half divisions, and how large cuts may be
    left_to_cut     reading -> Left: what it means, and the cuts
    slip_in         what a reading outside all sense may have been meant for

The page at the machine does the same sums, step for step (site_templates/js/left_to_cut.js); a test holds
both against each other, so each step here is one that both languages do alike: + − × ÷ √ and rounding down.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Length

NEARLY = 1e-6  # of a half division: less is none
SLIPS = (10.0, 0.1, 100.0, 0.01, 1000.0, 0.001, 10000.0, 0.0001)  # a decimal point in the wrong place
MM_IN_INCH = 25.4

Means = Literal["no sense", "past", "inside", "to cut"]


@dataclass(frozen=True)
class Read:
    """One way of measuring the thread; lengths in any one unit, as the instrument reads.

    `aim` is what the last pass leaves. `least` and `most` are the limits, None where no standard gives one.
    `per` is how much the reading changes over the pitch diameter. Readings below `bottom` or above `top` are
    no readings of this thread. `inside` says that cutting makes the reading larger.
    """

    aim: Length
    least: Length | None
    most: Length | None
    per: float
    bottom: Length
    top: Length
    inside: bool = False


@dataclass(frozen=True)
class Feed:
    """How the tool is fed in; lengths in the unit of the readings.

    `along` is depth over travel of the slide that feeds (cos of its angle, 1 straight in). `half` and
    `cross_half` are the travel of half a division of that slide and of the cross slide. `depth` is radial, of
    the whole thread; `first` the largest first cut, radial; `small` the last small cut, in half divisions.
    """

    along: float
    half: Length
    cross_half: Length
    depth: Length
    first: Length
    small: int


@dataclass(frozen=True)
class Left:
    """What a reading means. `over` is how much too full the pitch diameter is (negative: past the aim).

    `halves` and `cross_halves` are what is left on the dial of the slide that feeds, or on the cross slide
    instead, in half divisions, rounded down. `cuts` are in half divisions of the first; the last of them is
    the small cut that is taken after measuring again.
    """

    means: Means
    over: Length = 0.0
    halves: int = 0
    cross_halves: int = 0
    cuts: tuple[int, ...] = ()


def left_to_cut(reading: Length, read: Read, feed: Feed) -> Left:
    """What a reading says is still to be cut.

    over = (reading − aim) / per, inside (aim − reading) / per;  travel = over / 2 / cos α, in half divisions

    Parameters
    ----------
    reading : as the instrument reads, in the unit of `read` and `feed`
    read : what it should read
    feed : how the tool is fed in

    Returns
    -------
    Left; without cuts when nothing may be cut, or when less than half a division is left.

    Raises
    ------
    OutsideRange
        For a travel of a half division, a depth or a cut that is not above zero.

    Notes
    -----
    Range: a reading from `bottom` to `top`; outside it means "no sense". Past a limit nothing is cut. Where
    no limit is given, half a division either side of the aim is the size.

    Examples
    --------
    0.0060 in over on a compound at 29.5 degrees: 0.00345 in along it, so 6 half divisions of 0.001 in; the
    last small cut is one of 0.001 in, and what comes before it goes in one cut.

    >>> read = Read(2.2708, 2.2667, 2.2747, 1.0, 2.2, 2.5)
    >>> feed = Feed(math.cos(math.radians(29.5)), 0.0005, 0.0005, 0.09, 0.02, 2)
    >>> left = left_to_cut(2.2768, read, feed)
    >>> left.means, left.halves, left.cross_halves, left.cuts
    ('to cut', 6, 6, (4, 2))
    >>> left_to_cut(2.2666, read, feed).means, left_to_cut(22.7, read, feed).means
    ('past', 'no sense')

    Source: plane geometry of the groove; cuts of about one chip, a last small cut and a trial: common
    practice, no source.
    """
    for name, value in (
        (say("half a division"), feed.half),
        (say("half a division of the cross slide"), feed.cross_half),
        (say("depth of the thread"), feed.depth),
        (say("first cut"), feed.first),
        (say("small cut"), feed.small),
        (say("reading over pitch diameter"), read.per),
    ):
        above_zero(name, value)
    if not 0 < feed.along <= 1:
        raise OutsideRange(say("depth over travel"), feed.along, 0.0, 1.0, say("the cosine of an angle"))
    if not read.bottom <= reading <= read.top:
        return Left("no sense")
    over = (read.aim - reading if read.inside else reading - read.aim) / read.per
    travel = over / 2 / feed.along
    halves = max(math.floor(travel / feed.half + NEARLY), 0)
    cross_halves = max(math.floor(over / 2 / feed.cross_half + NEARLY), 0)
    gone, full = (read.most, read.least) if read.inside else (read.least, read.most)
    beyond = NEARLY - travel / feed.half >= 1
    past = beyond if gone is None else reading > gone if read.inside else reading < gone
    if past:
        return Left("past", over)
    within = halves == 0 if full is None else reading >= full if read.inside else reading <= full
    if within:
        return Left("inside", over, halves, cross_halves)
    return Left("to cut", over, halves, cross_halves, _cuts(over, halves, feed))


def _cuts(over: Length, halves: int, feed: Feed) -> tuple[int, ...]:
    """All cuts in half divisions: chips of about one size, then the small one."""
    if halves <= feed.small:
        return (halves,) if halves else ()
    if halves < 2 * feed.small:
        return (feed.small, halves - feed.small)
    before = halves - feed.small
    step = feed.half * feed.along
    deep = max(feed.depth - over / 2, 0.0)
    end = deep + before * step
    count = max(math.ceil((end * end - deep * deep) / (feed.first * feed.first) - NEARLY), 1)
    cuts, done = [], 0
    for number in range(1, count + 1):
        square = deep * deep + (end * end - deep * deep) * number / count
        there = before if number == count else math.floor((math.sqrt(square) - deep) / step / 2 + 0.5) * 2
        there = min(there, before)
        if there > done:
            cuts.append(there - done)
            done = there
    return (*cuts, feed.small)


def slip_in(reading: Length, read: Read, inch: bool) -> tuple[str, Length]:
    """What a reading that makes no sense may have been meant for: the other unit, or a point that slipped.

    Parameters
    ----------
    reading : as typed
    read : what the instrument should read
    inch : the reading is in inches; otherwise in millimetres

    Returns
    -------
    ("mm" or "inch", the reading in the right unit), ("point", with its point moved), or ("", 0).

    Examples
    --------
    >>> read = Read(2.2708, 2.2667, 2.2747, 1.0, 2.2, 2.5)
    >>> [slip_in(typed, read, True)[0] for typed in (57.7, 22.7, 2270, 9)]
    ['mm', 'point', 'point', '']

    Source: arithmetic.
    """
    turned = reading / MM_IN_INCH if inch else reading * MM_IN_INCH
    if read.bottom <= turned <= read.top:
        return ("mm" if inch else "inch"), turned
    for factor in SLIPS:
        moved = reading * factor
        if read.bottom <= moved <= read.top:
            return "point", moved
    return "", 0.0
