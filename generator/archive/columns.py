"""What the table of jobs is narrowed, counted and sorted by, and what it shows, as scripts for the browser.

    columns_contents   what the table shows of all jobs and is narrowed by, one script that is loaded with the
                       page, and a script for each column that only narrows, loaded when it is opened
    orders_contents    the jobs by number and by title, loaded when somebody sorts by them
    rows_contents      address, number and title of a few jobs each, loaded when they are shown

The columns are coded by a dictionary each, laid out byte by byte, packed with zlib and written in base64,
which a classic script can hold and so loads from disk, too; the browser unpacks them with its
DecompressionStream (every browser since 2023; in an older one the page says so). js/find_data.js reads what
is written here:

    a line of JSON: the columns with their dictionaries; then, for every column, its bytes

A job's entry in a column is 0 where its value stands nowhere before: it is the next of the dictionary. Else
it is the place in the dictionary, from 1. Values of several words are sets of words, a bit for each word.
"""

from __future__ import annotations

import json
import re
import zlib
from base64 import b64encode
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from operator import attrgetter
from typing import Final

from generator.archive.blocks import SHEAF, Block, sheaves_of
from generator.archive.listed import Content, Listed, key_of, key_of_jobs
from generator.archive.scripts import script
from generator.archive.search_index import spread
from generator.archive.words import fold
from generator.sheet.row import ArchiveRow

FOLDER: Final = "find"  # of all data of the archive page, from the top of the site
SHEETS: Final = "sheets/"  # what an address begins with
PAGE: Final = ".html"  # and ends with


@dataclass(frozen=True)
class Packed:
    """One column: its dictionary and each job's place in it; `sets` where a value is several words.

    `values` are the dictionary, or with `sets` the words; `sets` are then the dictionary.
    """

    values: tuple[Hashable, ...]
    places: tuple[int, ...]
    sets: tuple[tuple[str, ...], ...] | None = None


def _thread(row: ArchiveRow) -> tuple[str | float, ...]:
    """As the table shows it, then what it is counted by; sizes in mm."""
    if row.thread is None:
        return ()
    one = row.thread
    nominal, pitch = round(one.nominal * 1000, 4), round(one.pitch_si * 1000, 5)
    return one.designation, one.family, one.size, nominal, one.pitch, pitch, one.hand, one.side


SINGLE: Final[dict[str, Callable[[ArchiveRow], Hashable]]] = {
    "thread": _thread,
    "material": attrgetter("material"),
    "lathe": attrgetter("lathe"),
    "state": attrgetter("status", "ready"),
    "customer": attrgetter("customer"),
    "mate": attrgetter("mate"),
}
SEVERAL: Final[dict[str, Callable[[ArchiveRow], tuple[str, ...]]]] = {
    "holding": attrgetter("holding"),
    "duty": attrgetter("duty"),
    "findings": attrgetter("findings"),
}
SHOWN: Final = ("thread", "material", "lathe", "holding", "state")  # in the table
OTHERS: Final = ("customer", "mate", "duty", "findings")


def columns_contents(blocks: Sequence[Block]) -> list[Content]:
    """The scripts of all facets of all jobs; `blocks` are the whole archive."""
    first = Content(f"{FOLDER}/columns.js", _key("columns", blocks), partial(_columns_script, blocks))
    return [first, *(_column_content(name, blocks) for name in OTHERS)]


def _column_content(name: str, blocks: Sequence[Block]) -> Content:
    key = _key_of_values(name, blocks)
    return Content(f"{FOLDER}/columns/{name}.js", key, partial(_column_script, name, blocks))


def orders_contents(blocks: Sequence[Block]) -> list[Content]:
    """For number and title, the jobs as they are sorted by it."""
    return [
        Content(
            f"{FOLDER}/orders/{name}.js", _key_of_values(name, blocks), partial(_order_script, name, blocks)
        )
        for name in ORDERS
    ]


def rows_contents(blocks: Sequence[Block]) -> list[Content]:
    """The scripts with what the table shows of a few jobs each and no column has."""
    return [
        Content(f"{FOLDER}/rows/{name}.js", key_of_jobs(jobs), partial(_rows_script, name, jobs))
        for block in blocks
        for name, jobs in sheaves_of(block)
    ]


def packed(values: Iterable[Hashable]) -> Packed:
    """A column of single values.

    >>> packed(["a", "b", "a", "c"])
    Packed(values=('a', 'b', 'c'), places=(0, 0, 1, 0), sets=None)
    """
    seen: dict[Hashable, int] = {}
    places = []
    for value in values:
        places.append(seen.get(value, 0))
        seen.setdefault(value, len(seen) + 1)
    return Packed(tuple(seen), tuple(places))


def packed_sets(values: Iterable[tuple[str, ...]]) -> Packed:
    """A column of sets of words.

    >>> packed_sets([("chuck", "steady rest"), ("chuck",), ("chuck",)])
    Packed(values=('chuck', 'steady rest'), places=(0, 0, 2), sets=(('chuck', 'steady rest'), ('chuck',)))
    """
    column = packed(values)
    sets: tuple[tuple[str, ...], ...] = column.values  # type: ignore[assignment]  # as they came in
    return Packed(tuple(dict.fromkeys(word for words in sets for word in words)), column.places, sets)


def natural(number: str) -> tuple[tuple[bool, int, str], ...]:
    """What numbers of jobs are sorted by: figures in them by their value.

    >>> sorted(["SW-10", "SW-9", "AB-100"], key=natural)
    ['AB-100', 'SW-9', 'SW-10']
    """
    parts = re.findall(r"[0-9]+|[^0-9]+", fold(number))
    return tuple((part.isdigit(), int(part) if part.isdigit() else 0, part) for part in parts)


ORDERS: Final[dict[str, Callable[[ArchiveRow], tuple[object, ...]]]] = {
    "number": lambda row: natural(row.number),
    "title": lambda row: (fold(row.title), row.title),
}


# -- the texts ---------------------------------------------------------------------------------------------


def _columns_script(blocks: Sequence[Block]) -> str:
    head = {
        "blocks": [[block.name, block.jobs[0].row.year, len(block.jobs)] for block in blocks],
        "files": spread(len(blocks)),
        "sheaf": SHEAF,
    }
    return script("columns", _packed_columns(head, SHOWN, blocks))


def _column_script(name: str, blocks: Sequence[Block]) -> str:
    return script(f"columns/{name}", _packed_columns({}, (name,), blocks))


def _packed_columns(head: dict[str, object], names: Sequence[str], blocks: Sequence[Block]) -> str:
    rows = [job.row for block in blocks for job in block.jobs]
    columns = {
        name: packed(map(SINGLE[name], rows)) if name in SINGLE else packed_sets(map(SEVERAL[name], rows))
        for name in names
    }
    head["columns"] = [
        [name, column.values, _width(column), -1 if column.sets is None else len(column.sets)]
        for name, column in columns.items()
    ]
    parts = [json.dumps(head, ensure_ascii=False, separators=(",", ":")).encode(), b"\n"]
    for column in columns.values():
        parts.append(_in_planes(column.places, _width(column)))
        parts += _bits(column)
    return _in_base64(b"".join(parts))


def _order_script(name: str, blocks: Sequence[Block]) -> str:
    rows = [job.row for block in blocks for job in block.jobs]
    key = ORDERS[name]
    keys = [key(row) for row in rows]
    order = sorted(range(len(rows)), key=keys.__getitem__)
    return script(f"orders/{name}", _in_base64(_in_planes(order, 4)))


def _rows_script(name: str, jobs: Sequence[Listed]) -> str:
    begin = f"{SHEETS}{jobs[0].row.year}/"
    rows = []
    for job in jobs:
        address = job.link.removeprefix(begin).removesuffix(PAGE)
        usual = job.link == f"{begin}{address}{PAGE}"
        rows.append([address if usual else f"/{job.link}", job.row.number, job.row.title])
    return script(f"rows/{name}", [begin, PAGE, rows])


def _key_of_values(name: str, blocks: Sequence[Block]) -> str:
    """A word for the values of one field of all jobs: most changes of a job leave most fields as they are."""
    value = attrgetter(name)
    values = [value(job.row) for block in blocks for job in block.jobs]
    return key_of(*(map("\x1f".join, values) if name in SEVERAL else values))


def _key(name: str, blocks: Sequence[Block]) -> str:
    return key_of(name, *(f"{block.name} {block.key}" for block in blocks))


def _width(column: Packed) -> int:
    """Bytes of a place in the dictionary."""
    return (max(column.places, default=0).bit_length() + 7) // 8 or 1


def _in_planes(numbers: Sequence[int], width: int) -> bytes:
    """Numbers of `width` bytes: the low byte of all of them, then the next, which packs best."""
    return b"".join(bytes(number >> 8 * plane & 255 for number in numbers) for plane in range(width))


def _bits(column: Packed) -> list[bytes]:
    """For each word one bit for each set, the first set in the lowest bit of the first byte."""
    if column.sets is None:
        return []
    held = dict.fromkeys(column.values, 0)
    for number, words in enumerate(column.sets):
        for word in words:
            held[word] |= 1 << number
    return [bits.to_bytes((len(column.sets) + 7) // 8, "little") for bits in held.values()]


def _in_base64(data: bytes) -> str:
    return b64encode(zlib.compress(data, 9)).decode("ascii")
