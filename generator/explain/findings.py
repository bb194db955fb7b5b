"""One entry for every finding: why it is one, what to do, whom it can harm, and what it says.

    FindingEntry      one finding, everything in words
    finding_entries   all, by id
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import cache

from generator.explain.sentences import Said, all_said
from generator.explain.written import FindingText, finding_texts
from generator.sheet.harm import HARM, LEVELS

MOST = 3  # sentences that are shown of one


@dataclass(frozen=True)
class FindingEntry:
    """A finding; `harm` is the class of harm in one word, `sentences` have … for what the job puts in."""

    id: str
    levels: tuple[str, ...]
    harm: str
    why: str
    do: str
    source: str
    sentences: tuple[str, ...]


@cache
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
    sentences = tuple(sentence[:1].upper() + sentence[1:] for sentence in said.sentences[:MOST])
    return FindingEntry(id, levels, HARM[id].name.lower(), text.why, text.do, text.source, sentences)
