"""Places of a thread dial in words: a line by its number, a plain line or a space by what it follows.

    DialFace           the lines of one dial, which of them have a number, and several of them in words
    spaces_words       halfway between the lines
    way_words          how to get from one start to another
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from generator.calc.dial_places import NextStart
from generator.calc.gearing import mixed
from generator.calc.thread_dial import ordinal
from generator.language.lists import and_words
from generator.language.say import say, say_count
from generator.sheet.exact import lead_words

HALF = Fraction(1, 2)
_ONE_PLAIN = 2  # with a number at every second line there is one plain one between two


@dataclass(frozen=True)
class DialFace:
    """`lines` on a dial, a number at every `numbered_every`-th, starting with 1."""

    lines: int
    numbered_every: int = 1

    def number(self, line: int) -> str:
        """The number that stands at a line; empty at a plain one."""
        count, rest = divmod(line, self.numbered_every)
        return "" if rest else str(count + 1)

    def lines_words(self, lines: Iterable[int]) -> str:
        """Some lines of the dial, which are there, in words.

        >>> face = DialFace(8, 2)
        >>> [face.lines_words(lines) for lines in ((0, 4), range(8), (0, 2, 4, 6), (1, 3, 5, 7), (0, 3))]
        ['1 and 3', 'any line', '1, 2, 3 and 4', 'any plain line', '1, and the plain line after 2']
        """
        wanted = set(lines)
        if wanted == set(range(self.lines)):
            return say("any line")
        numbers = [self.number(line) for line in sorted(wanted) if self.number(line)]
        plain = [line for line in sorted(wanted) if not self.number(line)]
        if not plain:
            return and_words(numbers)
        if not numbers:
            return self._plain_words(plain)
        return say("{numbers}, and {plain}", numbers=and_words(numbers), plain=self._plain_words(plain))

    def _plain_words(self, plain: list[int]) -> str:
        every = [line for line in range(self.lines) if not self.number(line)]
        if plain == every:
            return say("any plain line")
        after: dict[int, list[str]] = {}
        for line in plain:
            count, rest = divmod(line, self.numbered_every)
            after.setdefault(rest, []).append(str(count + 1))
        if self.numbered_every <= _ONE_PLAIN:
            return and_words(
                say("the plain line after {numbers}", numbers=and_words(numbers))
                for numbers in after.values()
            )
        return and_words(
            say(
                "the {place} plain line after {numbers}",
                place=ordinal(rest), numbers=and_words(numbers),
            )
            for rest, numbers in after.items()
        )


def spaces_words(places: Iterable[Fraction], face: DialFace) -> str:
    """Some places between two lines, counted in lines from line 1, in words.

    >>> face = DialFace(8, 2)
    >>> spaces_words([line + HALF for line in range(8)], face)
    'halfway between the lines'
    >>> spaces_words([Fraction(1, 4), Fraction(17, 4), Fraction(1, 2)], face)
    '1/4 of a space past 1 and 3; half a space past 1'
    """
    at: dict[Fraction, list[int]] = {}
    for place in sorted(places):
        line, past = divmod(place, 1)
        at.setdefault(Fraction(past), []).append(int(line))

    def words(past: Fraction, lines: list[int]) -> str:
        if past == HALF and len(lines) == face.lines:
            return say("halfway between the lines")
        if past == HALF:
            return say("half a space past {lines}", lines=face.lines_words(lines))
        return say("{share} of a space past {lines}", share=mixed(past), lines=face.lines_words(lines))

    return "; ".join(words(past, lines) for past, lines in sorted(at.items()))


def way_words(way: NextStart, face: DialFace, leadscrew: Fraction, starts: int) -> str:
    """How the dial leads to another start, in words; empty when it does not.

    >>> way_words(NextStart(2, (), 1), DialFace(8, 2), Fraction(127, 20), 2)
    'half nuts one leadscrew thread (1/4 in) off a line of the first'
    """
    if way.lines:
        return face.lines_words(way.lines)
    if way.threads is None:
        return ""
    count = abs(way.threads)
    threads = say_count("one leadscrew thread", "{count} leadscrew threads", count)
    length = lead_words(count * leadscrew)
    if starts == 2:
        return say(
            "half nuts {threads} ({length}) off a line of the first", threads=threads, length=length
        )
    if way.threads > 0:
        return say(
            "half nuts {threads} ({length}) past a line of the first", threads=threads, length=length
        )
    return say(
        "half nuts {threads} ({length}) before a line of the first", threads=threads, length=length
    )
