"""Words in a sentence, one after the other.

    listed    all of them: pitch, hand and starts
    either    one of them: wires, mate or gauge
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.language.say import say


def listed(words: Sequence[str]) -> str:
    """All of the words.

    >>> listed(["pitch", "hand", "starts"]), listed(["pitch"])
    ('pitch, hand and starts', 'pitch')
    """
    if len(words) < 2:
        return "".join(map(str, words))
    return say("{some} and {last}", some=", ".join(map(str, words[:-1])), last=words[-1])


def either(words: Sequence[str]) -> str:
    """One of the words.

    >>> either(["wires", "mate", "gauge"]), either(["mate"])
    ('wires, mate or gauge', 'mate')
    """
    if len(words) < 2:
        return "".join(map(str, words))
    return say("{some} or {last}", some=", ".join(map(str, words[:-1])), last=words[-1])
