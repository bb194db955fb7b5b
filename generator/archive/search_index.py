"""The index of the search: which jobs have which word, in many small files.

    spread        how many files there are, by how many blocks of jobs; their names are shard_names
    segment       the words of one block's jobs -> what each file holds of that block
    shard         what one file holds of every block -> its text

A word stands in the file that its first signs lead to, so that the browser loads one file for each word
typed (`shard_name`; js/find_words.js finds the same). Fewer signs than that, ``0.7``, are found as an entry
of their own, with all jobs that have a word which begins so: ``0.7*``.

A segment is one line of entries in the order of the alphabet, each

    how many signs it shares with the entry before, the other signs, its jobs, `_WROTE` and those that have it
    in what somebody wrote; nothing after `_WROTE` where these are the same

The jobs are numbers in the block, in capital letters and brackets, which no folded word has: the gap before
a run of them, and with `_RUN` how many more follow one by one; or, where that is shorter, `_BITS` and five
jobs a sign, the first in the lowest bit. A word on every sheet of a block costs four signs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from itertools import chain
from operator import or_
from typing import Final
from zlib import crc32

from generator.archive.scripts import script
from generator.archive.words import WRITTEN

SHORTER: Final = "*"  # after signs that stand for every word which begins with them

_LAST: Final = "ABCDEFGHIJKLMNOP"  # the last sign of a number, 4 bits
_MORE: Final = "QRSTUVWXYZ[]^{}|"  # the signs before it, 4 bits each, the high ones first
_RUN: Final = "_"
_BITS: Final = "~"
_WROTE: Final = "@"
_FIVE: Final = _LAST + _MORE  # five bits
_SHARED: Final = "0123456789abcdefghijklmnopqrstuvwxyz"
_FEW_FILES: Final = ((2, 64), (8, 256), (32, 1024))  # up to as many blocks: as many files
_FILES: Final = 2048


def spread(blocks: int) -> int:
    """How many files the index has, with this many blocks of jobs.

    >>> spread(1), spread(80)
    (64, 2048)
    """
    return next((files for most, files in _FEW_FILES if blocks <= most), _FILES)


def shard_names(files: int) -> list[str]:
    """All files there are; each is written even where no word leads to it, so that none is missed in vain.

    >>> shard_names(64)[:2]
    ['000', '001']
    """
    return [f"{number:03x}" for number in range(files)]


def shard_name(word: str, files: int) -> str:
    """The file, one of `files`, that holds `word`: hexadecimal, so a safe file name on every system.

    >>> shard_name("thread", 2048) == shard_name("three", 2048) != shard_name("trapped", 2048)
    True
    """
    signs = word if word.endswith(SHORTER) else word[: _depth(word)]
    return f"{crc32(signs.encode()) % files:03x}"


def segment(words_of_each_job: Sequence[Collection[str]], files: int) -> dict[str, str]:
    """What every file holds of one block; a file without a word of it is not named.

    `words_of_each_job` are the words of each job of the block, each once, in the order of the block
    (`words.words_of`).
    """
    found: dict[str, int] = {}
    wrote: dict[str, int] = {}
    for word, jobs in _jobs_of_each_word(words_of_each_job).items():
        if word.startswith(WRITTEN):
            wrote[word.removeprefix(WRITTEN)] = jobs
        else:
            found[word] = jobs
    written = {entry: jobs for entries in _entries(wrote).values() for entry, jobs in entries.items()}
    in_file: dict[str, dict[str, int]] = {}
    for signs, entries in _entries(found).items():
        in_file.setdefault(shard_name(signs, files), {}).update(entries)
    return {name: _coded(in_file[name], written) for name in sorted(in_file)}


def shard(name: str, segments: Iterable[tuple[str, str]]) -> str:
    """The text of one file, a classic script; `segments` are each block's name and what it holds of it.

    >>> shard("0a1", [("2026-1", "0boltA")])
    'setupSheetData("words/0a1",[["2026-1","0boltA"]]);\\n'
    """
    return script(f"words/{name}", list(segments))


def read_segment(text: str) -> dict[str, tuple[list[int], list[int]]]:
    """The entries of a segment: the jobs that have each, and those where somebody wrote it.

    >>> read_segment("0boltA_C@4sE@AB")
    {'bolt': ([0, 1, 2, 3], [0, 1, 2, 3]), 'bolts': ([4], [0, 2])}
    """
    found: dict[str, tuple[list[int], list[int]]] = {}
    word, at = "", 0
    while at < len(text):
        start = at + 1
        shared = _SHARED.index(text[at])
        at = next(place for place in range(start, len(text)) if text[place] in _FIVE + _BITS)
        word = word[:shared] + text[start:at]
        jobs, at = _read_numbers(text, at)
        wrote: list[int] = []
        if text[at : at + 1] == _WROTE:
            wrote, at = _read_numbers(text, at + 1)
            wrote = wrote or jobs
        found[word] = jobs, wrote
    return found


# -- words to files ----------------------------------------------------------------------------------------


def _jobs_of_each_word(words_of_each_job: Sequence[Collection[str]]) -> dict[str, int]:
    """Every word with the bits of its jobs.

    Most words of a sheet stand on most sheets: those start with all jobs, and lose those without.
    """
    count = len(words_of_each_job)
    counted = Counter(chain.from_iterable(words_of_each_job))
    common = {word for word, often in counted.items() if 2 * often > count}
    jobs = dict.fromkeys(common, (1 << count) - 1)
    for number, words in enumerate(words_of_each_job):
        bit = 1 << number
        for word in common.difference(words):
            jobs[word] ^= bit
        for word in set(words) - common:
            jobs[word] = jobs.get(word, 0) | bit
    return jobs


def _depth(word: str) -> int:
    """How many first signs lead to a word's file: more for figures, of which there are most."""
    if not "0" <= word[:1] <= "9":
        return 4 if word[:4].isalpha() else 6
    return 7 if word.startswith("0.00") else 6 if word.startswith("0.0") else 5 if word[1:2] == "." else 4


def _entries(jobs: Mapping[str, int]) -> dict[str, dict[str, int]]:
    """What the index has of words: by the first signs that lead to its file, each entry with its jobs."""
    entries: dict[str, dict[str, int]] = {}
    for word, bits in jobs.items():
        entries.setdefault(word[: _depth(word)], {})[word] = bits
    shorter: dict[str, int] = {}
    for signs, words in entries.items():
        every = reduce(or_, words.values())
        for start in _starts(signs):
            shorter[start] = shorter.get(start, 0) | every
    found = {signs: words for signs, words in entries.items() if len(signs) in (1, _depth(signs))}
    return found | {start: {start: bits} for start, bits in shorter.items()}


def _starts(signs: str) -> Iterator[str]:
    """The entries for fewer signs than lead to a file; one sign is a word of its own only."""
    for count in range(2, min(len(signs) + 1, _depth(signs))):
        if count < _depth(signs[:count]):
            yield signs[:count] + SHORTER


# -- the coding --------------------------------------------------------------------------------------------


def _coded(held: Mapping[str, int], wrote: Mapping[str, int]) -> str:
    """Entries with the bits of their jobs as a segment."""
    parts: list[str] = []
    before = ""
    for word in sorted(held):
        shared = 0
        for sign, other in zip(before, word, strict=False):
            if sign != other:
                break
            shared += 1
        jobs, written = held[word], wrote.get(word, 0)
        parts += (_SHARED[shared], word[shared:], _coded_numbers(jobs))
        if written:
            parts += (_WROTE, "" if written == jobs else _coded_numbers(written))
        before = word
    return "".join(parts)


@lru_cache(maxsize=1 << 14)
def _coded_numbers(bits: int) -> str:
    """Which bits are set, from the lowest on."""
    parts: list[str] = []
    left = bits
    while left:
        gap = (left & -left).bit_length() - 1
        left >>= gap
        length = (~left & (left + 1)).bit_length() - 1
        left >>= length
        more = length - 1
        parts += (_number(gap), f"{_RUN}{_number(more - 1)}" if more > 1 else _number(0) * more)
    runs = "".join(parts)
    signs = -(-bits.bit_length() // 5)
    if len(runs) <= signs + len(_BITS):
        return runs
    return _BITS + "".join(_FIVE[bits >> 5 * place & 31] for place in range(signs))


@lru_cache(maxsize=1 << 12)
def _number(value: int) -> str:
    last = _LAST[value & 15]
    value >>= 4
    more = ""
    while value:
        more = _MORE[value & 15] + more
        value >>= 4
    return more + last


def _read_numbers(text: str, at: int) -> tuple[list[int], int]:
    """The numbers from a place on, and the place after them."""
    numbers: list[int] = []
    if text[at : at + 1] == _BITS:
        at += 1
        first = 0
        while at < len(text) and text[at] in _FIVE:
            numbers += (first + place for place in range(5) if _FIVE.index(text[at]) >> place & 1)
            first, at = first + 5, at + 1
        return numbers, at
    while at < len(text) and text[at] in _FIVE + _RUN:
        run = text[at] == _RUN
        number, at = _read_number(text, at + run)
        last = numbers[-1] if numbers else -1
        numbers.extend(range(last + 1, last + 2 + number) if run else [last + 1 + number])
    return numbers, at


def _read_number(text: str, at: int) -> tuple[int, int]:
    value = 0
    while text[at] in _MORE:
        value = value << 4 | _MORE.index(text[at])
        at += 1
    return value << 4 | _LAST.index(text[at]), at + 1
