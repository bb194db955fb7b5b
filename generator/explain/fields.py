"""Every key of every file: its place on the page Files, what counts without it, how the demo writes it.

    FieldList, Field   the keys of one kind of file
    field_lists        all, from the models that read the files
    written_in         how files write each key; that of the demo is kept in fields.json, as a test sees to
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.job.keys import ANY_CUT, ANY_OPERATION, Key, file_keys
from generator.job.reading import read_tree
from generator.job.written import Block, Listing, Scalar
from generator.language.say import later

FILE: Final = Path(__file__).with_name("fields.json")
KINDS: Final = ("job", "log", "lathe", "materials", "tools", "house")  # in the order of `file_keys`
LONGEST: Final = 48  # signs of an example
_OPERATIONS: Final = "operations: "
SHARED: Final = {
    ANY_OPERATION: later("operations: (any of them)"),
    ANY_CUT: later("operations: (any but relief and thread)"),
}


@dataclass(frozen=True)
class Field:
    """A key: `place` is its id on the page, `example` a line of a file with it."""

    place: str
    name: str
    meaning: str
    wanted: str
    needed: bool
    otherwise: str
    example: str


@dataclass(frozen=True)
class FieldList:
    """The keys of one kind of file."""

    title: str
    fields: tuple[Field, ...]


def field_lists() -> list[FieldList]:
    """All keys, in the order of the models.

    Examples
    --------
    >>> lathe = field_lists()[2].fields
    >>> next(one.place for one in lathe if one.name == "thread_dial: teeth")
    'lathe.thread_dial.teeth'
    """
    kept = json.loads(FILE.read_text(encoding="utf-8"))
    return [
        FieldList(one.title, tuple(_field(kind, key, kept.get(kind, {})) for key in one.keys))
        for kind, one in zip(KINDS, file_keys(), strict=True)
    ]


def _field(kind: str, key: Key, kept: dict[str, str]) -> Field:
    place = f"{kind}.{key.name}".replace(": ", ".").replace(ANY_CUT.removeprefix(_OPERATIONS), "cut")
    place = place.replace(ANY_OPERATION.removeprefix(_OPERATIONS), "any")
    last = key.name.rpartition(": ")[2]
    value = kept.get(key.name, "") or key.example
    example = f"{last}: {value}" if value else ""
    return Field(place, _shown(key.name), key.meaning, key.wanted, key.needed, key.otherwise, example)


def _shown(name: str) -> str:
    """A key with the operations it is one of in words."""
    for shared, words in SHARED.items():
        if name.startswith(shared):
            return f"{words}{name.removeprefix(shared)}"
    return name


def written_in(files: Iterable[tuple[str, Path]]) -> dict[str, dict[str, str]]:
    """How files write each key, the first that is short enough; `files` are kinds and paths."""
    names = {kind: {key.name for key in one.keys} for kind, one in zip(KINDS, file_keys(), strict=True)}
    found: dict[str, dict[str, str]] = {kind: {} for kind in KINDS}
    for kind, path in files:
        for name, value in _values(read_tree(path), ""):
            known = next((one for one in _shared(name) if one in names[kind]), "")
            if known and len(value) <= LONGEST:
                found[kind].setdefault(known, value)
    return {kind: dict(sorted(ones.items())) for kind, ones in found.items()}


def _shared(name: str) -> Iterator[str]:
    """The names under which a key of an operation may be listed."""
    yield name
    if name.startswith(_OPERATIONS):
        last = name.rpartition(": ")[2]
        yield from (f"{shared}: {last}" for shared in (ANY_CUT, ANY_OPERATION))


def _values(node: object, within: str) -> Iterator[tuple[str, str]]:
    if isinstance(node, Block):
        for key, one in node.items():
            yield from _values(one, f"{within}: {key}" if within else str(key))
    elif isinstance(node, Listing):
        if within and node and all(isinstance(one, Scalar) for one in node):
            yield within, f"[{', '.join(str(one) for one in node)}]"
        for one in node:
            yield from _values(one, within)
    elif str(node):
        yield within, str(node)
