"""Which lines of the thread dial may be used, computed from this lathe's leadscrew, dial gear and lines.

    DialRule           what is allowed, and how to say it
    dial_rule          the rule for one lathe and one lead

Everything is exact (fractions): a printed chart is not to be trusted without this rule, and a rule such as
"odd threads, any numbered line" is right on one lathe and wrong on the next.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.errors import OutsideRange


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
            return "any place"
        if self.step is None:
            return "keep the half nuts closed"
        if self.step == self.marks:
            return "the same line only"
        if self.step == 1:
            return "any line"
        if self.step == self.numbered_every:
            return "numbered lines: " + ", ".join(str(number) for number in self.lines[0])
        if self.step % self.numbered_every:
            return f"every {_ordinal(self.step)} line, counted from the first one used"
        if self.marks == 2 * self.step:
            return "one opposite pair: " + ", or ".join(_and(pair) for pair in self.lines)
        return "lines of one set only: " + "; or ".join(_and(group) for group in self.lines)


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
    Exact for any leadscrew and lead. For several starts it brings the tool back into the same groove.

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
    for name, value in (
        ("leadscrew lead", leadscrew), ("teeth of the dial gear", teeth), ("lines on the dial", marks),
        ("lead of the thread", lead), ("lines from number to number", numbered_every),
    ):
        if value <= 0:
            raise OutsideRange(name, float(value), 0.0, None, "it has to be above zero")
    if marks % numbered_every:
        raise OutsideRange(
            "lines from number to number", numbered_every, 1, marks, "numbers stand evenly around the dial"
        )
    anywhere = (leadscrew / lead).denominator == 1
    closes = Fraction(teeth, marks).denominator
    in_groove = (Fraction(teeth, marks) * leadscrew / lead).denominator
    least = math.lcm(closes, in_groove)
    step = least if marks % least == 0 else None
    return DialRule(anywhere, step, _sets(step, marks, numbered_every), marks, numbered_every)


def _sets(step: int | None, marks: int, numbered_every: int) -> tuple[tuple[int, ...], ...]:
    """The numbers on the dial, sorted into sets that may be used together."""
    if step is None:
        return ()
    sets: dict[int, list[int]] = {}
    for mark in range(0, marks, numbered_every):
        sets.setdefault(mark % step, []).append(mark // numbered_every + 1)
    return tuple(tuple(numbers) for numbers in sets.values())


def _and(numbers: tuple[int, ...]) -> str:
    words = [str(number) for number in numbers]
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


def _ordinal(number: int) -> str:
    words = {2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh", 8: "eighth"}
    return words.get(number, f"{number}th")
