"""Several things in one sentence, one after the other.

    and_words    all of them: pitch, hand and starts
    or_words     one of them: wires, mate or gauge
"""

from __future__ import annotations

from collections.abc import Iterable

from generator.language.say import say


def and_words(words: Iterable[object]) -> str:
    """The words with commas and a last "and"; nothing where there are none.

    >>> and_words([1]), and_words([1, 3]), and_words(["one", "two", "three"])
    ('1', '1 and 3', 'one, two and three')
    """
    *before, last = [*map(str, words)] or [""]
    return say("{before} and {last}", before=", ".join(before), last=last) if before else last


def or_words(words: Iterable[object]) -> str:
    """The words with commas and a last "or"; nothing where there are none.

    >>> or_words([1]), or_words(["one", "two", "three"]), or_words([])
    ('1', 'one, two or three', '')
    """
    *before, last = [*map(str, words)] or [""]
    return say("{before} or {last}", before=", ".join(before), last=last) if before else last
