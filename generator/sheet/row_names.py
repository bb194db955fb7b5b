"""What a job's lists and data are called in the site, found from its row alone, on its sheet as elsewhere.

safe_name       any text -> a file name that no other text has
Pitched, pitched    a thread as it is listed, however it is spelt
thread_title    what its list is called
list_address    where the list of a thread, a material ... is
alike_names     what the data of the jobs like a job is called
alike_address   where it is
"""

from __future__ import annotations

import re
from base64 import b32encode
from collections.abc import Iterator
from functools import lru_cache
from hashlib import blake2b
from typing import Final, NamedTuple

from generator.language.say import say
from generator.sheet.row import ArchiveRow, ThreadRow
from generator.si import mm

LISTS: Final = "lists"
ALIKE: Final = "alike"

_SHOWN: Final = 24  # signs of the text that stand in its file name, to be read
_MARK: Final = 60  # bits that tell texts apart: of a million, two are the same by a chance of 1 in 2 million
_NOT_PLAIN: Final = re.compile("[^a-z0-9]+")


@lru_cache(maxsize=8192)  # the lists and their front page ask for the same
def safe_name(text: str, shown: str | None = None) -> str:
    """A file name that no other text has, on every system, whatever the letters' case; never a reserved one.

    The words of it (or of `shown`) are there to be read, what follows them tells it apart.

    >>> safe_name("1 1/2-12"), safe_name("../..")
    ('1-1-2-12_pzywape76lg4', '_maf42d66vvmq')
    >>> safe_name("CON") == safe_name("con")
    False
    """
    words = _NOT_PLAIN.sub("-", (text if shown is None else shown).lower()[: 4 * _SHOWN])
    digest = blake2b(text.encode("utf-8", "surrogatepass"), digest_size=10).digest()
    return f"{words[:_SHOWN].strip('-')}_{b32encode(digest).decode().lower()[: _MARK // 5]}"


class Pitched(NamedTuple):
    """A thread by what makes it the same to cut: nominal size in 0.1 µm, pitch in 10 nm.

    They are sorted by family and size.
    """

    family: str
    nominal: int
    pitch: int
    starts: int
    hand: str

    @property
    def turns(self) -> str:
        """What tells it from others of its family and size."""
        return f"{self.pitch} {self.starts} {self.hand}"

    @property
    def name(self) -> str:
        """The file name of its list."""
        return safe_name(f"{self.family}\n{self.nominal} {self.turns}", self.family)


def pitched(thread: ThreadRow) -> Pitched:
    """The thread as it is listed: without its class, its side and the way its size is written."""
    return _pitched(thread.family, thread.nominal, thread.pitch_si, thread.starts, thread.hand)


@lru_cache(maxsize=4096)
def _pitched(family: str, nominal: float, pitch: float, starts: int, hand: str) -> Pitched:
    return Pitched(family, round(nominal / mm * 1e4), round(pitch / mm * 1e5), starts, hand)


def thread_title(thread: ThreadRow) -> str:
    """Size, pitch, and what is out of the ordinary, as the thread is listed under its family.

    >>> thread_title(ThreadRow("", "trapezoidal", "40 mm", .04, "7 mm", .007, 2, "left", "outside"))
    '40 mm, pitch 7 mm, 2 starts, left hand'
    """
    said = [
        thread.size,
        say("pitch {pitch}", pitch=thread.pitch) if thread.pitch.endswith((" mm", " in")) else thread.pitch,
    ]
    said += [say("{starts} starts", starts=thread.starts)] if thread.starts != 1 else []
    said += [say("left hand")] if thread.hand == "left" else []
    return ", ".join(said)


def list_address(kind: str, name: str) -> str:
    """Where a list is, from the top of the site; `name` is a safe one."""
    return f"{LISTS}/{kind}/{name}.html"


def alike_address(name: str) -> str:
    """Where the data of jobs that are alike is, from the top of the site."""
    return f"{ALIKE}/{name}.js"


def alike_names(row: ArchiveRow) -> Iterator[str]:
    """The names of the data of jobs like this one.

    They are those with the same family and nominal size, where there is a thread, and those with the same
    material and holding.
    """
    if row.thread is not None:
        one = pitched(row.thread)
        yield safe_name(f"{one.family}\n{one.nominal}", one.family)
    yield safe_name(f"{row.material}\n{row.held}", row.material)
