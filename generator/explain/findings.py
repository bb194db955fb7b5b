"""One entry for every finding: why it is one, what to do, whom it can harm, and what it says.

    FindingEntry      one finding, everything in words
    finding_entries   all, by id
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Final

from generator.explain.sentences import Said, all_said
from generator.explain.written import FindingText, finding_texts
from generator.language.say import first_large, later, say
from generator.language.spoken import once_a_language
from generator.sheet.harm import HARM, LEVELS, Harm

MOST = 3  # sentences that are shown of one
LEVEL_WORDS: Final[Mapping[str, str]] = {
    "stop": later("stop"),
    "check": later("check"),
    "note": later("note"),
}
HARM_WORDS: Final[Mapping[Harm, str]] = {
    Harm.PEOPLE: later("people"),
    Harm.LATHE: later("lathe"),
    Harm.WORK: later("work"),
    Harm.TIME: later("time"),
}


@dataclass(frozen=True)
class FindingEntry:
    """A finding; `sentences` have … for what the job puts in.

    `levels` and `harm` are as the program has them, `LEVEL_WORDS` and `HARM_WORDS` say them.
    """

    id: str
    levels: tuple[str, ...]
    harm: Harm
    why: str
    do: str
    source: str
    sentences: tuple[str, ...]


@once_a_language
def finding_entries() -> Mapping[str, FindingEntry]:
    """Every finding by its id, in order.

    Raises
    ------
    KeyError
        When one is not explained.
    """
    said, texts = all_said(), finding_texts()
    return {id: _entry(id, text_of(id, texts), said.get(id, Said())) for id in sorted(HARM)}


def text_of(id: str, texts: Mapping[str, FindingText]) -> FindingText:
    """Its own text, else the one for all that begin alike."""
    return texts.get(id) or texts[next((name for name in texts if fnmatchcase(id, name)), id)]


def _entry(id: str, text: FindingText, said: Said) -> FindingEntry:
    levels = tuple(level for level in LEVELS if level in (text.levels or said.levels))
    sentences = tuple(first_large(sentence) for sentence in list(said.sentences.values())[:MOST])
    return FindingEntry(id, levels, HARM[id], say(text.why), say(text.do), say(text.source), sentences)
