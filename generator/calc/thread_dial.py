"""Which lines of the thread dial may be used, computed from this lathe's leadscrew, dial gear and lines.

    DialRule           what is allowed, and how to say it
    dial_rule          the rule for one lathe and one lead
    DialGear           one gear of the dial, and what is allowed with it
    dial_gears         all gears that fit the dial, the one with the fewest restrictions first

Everything is exact (fractions): a printed chart is not to be trusted without this rule, and a rule such as
"odd threads, any numbered line" is right on one lathe and wrong on the next. What each single place of the
dial does, the way to the other starts too, is in `dial_places`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.lists import and_words
from generator.language.say import say


@dataclass(frozen=True)
class DialRule:
    """Where the half nuts may be closed again.

    `anywhere`: the dial need not be watched. `step`: every how many lines from the first one used; None
    when the dial cannot tell. `lines`: the numbers on the dial in the sets that may be used together.
    `marks` lines stand on the dial, a number at every `numbered_every`-th, starting with 1.
    """

    anywhere: bool
    step: int | None
    lines: tuple[tuple[int, ...], ...]
    marks: int
    numbered_every: int

    @property
    def keep_half_nuts_closed(self) -> bool:
        """True when the dial cannot find the groove again."""
        return not self.anywhere and self.step is None

    def describe(self) -> str:
        """What the sheet says, in trade words.

        Examples
        --------
        >>> dial_rule(Fraction(1, 8), 16, 8, Fraction(1, 7), 2).describe()
        'one opposite pair: 1 and 3, or 2 and 4'
        """
        if self.anywhere:
            return say("any place")
        if self.step is None:
            return say("keep the half nuts closed")
        if self.step == self.marks:
            return say("the same line only")
        if self.step == 1:
            return say("any line")
        if self.step == self.numbered_every:
            return say("numbered lines: {lines}", lines=", ".join(str(number) for number in self.lines[0]))
        if self.step % self.numbered_every:
            return say("every {ordinal} line, counted from the first one used", ordinal=ordinal(self.step))
        if self.marks == 2 * self.step:
            pairs = say(", or ").join(and_words(pair) for pair in self.lines)
            return say("one opposite pair: {pairs}", pairs=pairs)
        sets = say("; or ").join(and_words(group) for group in self.lines)
        return say("lines of one set only: {sets}", sets=sets)


def dial_rule(
    leadscrew: Fraction, teeth: int, marks: int, lead: Fraction, numbered_every: int = 1
) -> DialRule:
    """Where the half nuts may be closed for a thread, by divisibility.

    From one line of the dial to the next, carriage and leadscrew move ``T × pL ÷ M`` against each other.
    After k lines the half nuts can close when ``k T ÷ M`` is whole, and the tool is in its groove when
    ``k T pL ÷ (M × lead)`` is whole. The smallest k that does both is the step. Anywhere will do only
    when ``pL ÷ lead`` is whole: then every closing is right.

    Parameters
    ----------
    leadscrew : pL, lead of the leadscrew
    teeth : T, teeth of the dial's gear
    marks : M, equally spaced lines on the dial
    lead : starts × pitch of the thread, in the unit of `leadscrew`
    numbered_every : a number stands at every so many lines

    Returns
    -------
    The rule; no step when the dial comes round to the same line without the tool being in its groove.

    Raises
    ------
    OutsideRange
        When a value is not above zero, or the numbers do not go evenly around the dial.

    Notes
    -----
    Exact for any leadscrew and lead. For several starts it brings the tool back into the same groove. Where
    the gears give a lead only nearly, `lead` is the one they give: that is the thread the tool has to find.

    Examples
    --------
    A leadscrew of 4 threads per inch, 16 teeth, 8 lines, numbered each inch; 8, 6, 7, 11 1/2, 2 3/4 threads:

    >>> for lead in ("1/8", "1/6", "1/7", "2/23", "4/11"):
    ...     print(dial_rule(Fraction(1, 4), 16, 8, Fraction(lead), 2).describe())
    any place
    any line
    numbered lines: 1, 2, 3, 4
    one opposite pair: 1 and 3, or 2 and 4
    the same line only

    Source
    ------
    Principle: Jones, Turning and Boring (1914), sec. 76; the rest is arithmetic.
    """
    refuse_zero(leadscrew, teeth, marks, lead, {say("lines from number to number"): numbered_every})
    if marks % numbered_every:
        raise OutsideRange(
            say("lines from number to number"),
            numbered_every,
            1,
            marks,
            say("numbers stand evenly around the dial"),
        )
    anywhere = (leadscrew / lead).denominator == 1
    closes = Fraction(teeth, marks).denominator
    in_groove = (Fraction(teeth, marks) * leadscrew / lead).denominator
    least = math.lcm(closes, in_groove)
    step = least if marks % least == 0 else None
    return DialRule(anywhere, step, _sets(step, marks, numbered_every), marks, numbered_every)


def refuse_zero(
    leadscrew: Fraction, teeth: int, marks: int, lead: Fraction, more: Mapping[str, int]
) -> None:
    """Refuse a dial, leadscrew or thread of nothing.

    Parameters
    ----------
    leadscrew, teeth, marks, lead : as for `dial_rule`
    more : further counts by their name in trade words

    Raises
    ------
    OutsideRange
        When a value is not above zero.

    Examples
    --------
    >>> refuse_zero(Fraction(1, 4), 16, 8, Fraction(1, 7), {"starts of the thread": 1})
    """
    values: dict[str, Fraction | int] = {
        say("leadscrew lead"): leadscrew, say("teeth of the dial gear"): teeth,
        say("lines on the dial"): marks, say("lead of the thread"): lead, **more,
    }
    for name, value in values.items():
        above_zero(name, float(value))


@dataclass(frozen=True)
class DialGear:
    """One gear of the dial: its teeth, whether it is the one fitted, and the rule with it."""

    teeth: int
    fitted: bool
    rule: DialRule

    @property
    def usable_lines(self) -> int:
        """How many lines of the dial may be used together; 0 when it cannot find the groove again."""
        return self.rule.marks // self.rule.step if self.rule.step else 0

    @property
    def matters(self) -> bool:
        """True when the dial is to be watched, and can be with this gear."""
        return not (self.rule.anywhere or self.rule.keep_half_nuts_closed)


def dial_gears(
    leadscrew: Fraction,
    teeth: int,
    more_gears: Sequence[int],
    marks: int,
    lead: Fraction,
    numbered_every: int = 1,
) -> tuple[DialGear, ...]:
    """The gears that fit the dial, the one with the fewest restrictions first.

    A gear of T teeth finds the groove again when ``T × pL ÷ lead`` is whole. The more lines may be used, the
    fewer the restrictions; then the fitted gear, then the shorter way of the carriage between two lines.

    Parameters
    ----------
    leadscrew : lead of the leadscrew
    teeth : teeth of the gear that is fitted
    more_gears : teeth of the other gears that fit
    marks : equally spaced lines on the dial
    lead : starts × pitch of the thread that is cut, in the unit of `leadscrew`
    numbered_every : a number stands at every so many lines

    Returns
    -------
    Each gear once; with `anywhere` the fitted one first, for then no gear is needed.

    Raises
    ------
    OutsideRange
        As `dial_rule` does.

    Notes
    -----
    Exact, in fractions. No range.

    Examples
    --------
    A leadscrew of 6 mm, a dial of 8 lines: 1.25 mm needs a multiple of 5 teeth, 3.5 mm a multiple of 7.

    >>> gears = (14, 15, 16, 20, 21, 28)
    >>> for lead in ("5/4", "7/2"):
    ...     best = dial_gears(Fraction(6), 16, gears, 8, Fraction(lead))[0]
    ...     print(best.teeth, best.rule.describe())
    20 lines of one set only: 1, 3, 5 and 7; or 2, 4, 6 and 8
    28 lines of one set only: 1, 3, 5 and 7; or 2, 4, 6 and 8

    Source
    ------
    As `dial_rule`; the order of preference is common practice, no source.
    """
    gears = [
        DialGear(count, count == teeth, dial_rule(leadscrew, count, marks, lead, numbered_every))
        for count in dict.fromkeys((teeth, *more_gears))
    ]
    if gears[0].rule.anywhere:
        return tuple(gears)

    def restrictions(gear: DialGear) -> tuple[int, bool, int]:
        return (-gear.usable_lines, not gear.fitted, gear.teeth * (gear.rule.step or 0))

    return tuple(sorted(gears, key=restrictions))


def _sets(step: int | None, marks: int, numbered_every: int) -> tuple[tuple[int, ...], ...]:
    """The numbers on the dial, sorted into sets that may be used together."""
    if step is None:
        return ()
    sets: dict[int, list[int]] = {}
    for mark in range(0, marks, numbered_every):
        sets.setdefault(mark % step, []).append(mark // numbered_every + 1)
    return tuple(tuple(numbers) for numbers in sets.values())


def ordinal(number: int) -> str:
    """A place in a row.

    Parameters
    ----------
    number : from 1 up

    Returns
    -------
    The word up to eighth, then figures.

    Examples
    --------
    >>> ordinal(2), ordinal(12), ordinal(21)
    ('second', '12th', '21st')
    """
    words = (
        say("first"), say("second"), say("third"), say("fourth"), say("fifth"), say("sixth"), say("seventh"),
        say("eighth"),
    )
    if number <= len(words):
        return words[number - 1]
    last = 0 if number // 10 % 10 == 1 else number % 10
    if last == 1:
        return say("{number}st", number=number)
    if last == 2:
        return say("{number}nd", number=number)
    return say("{number}rd", number=number) if last == 3 else say("{number}th", number=number)
