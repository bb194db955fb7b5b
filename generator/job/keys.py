"""Every key that a file of the archive may have, for people: what it means and what is written there.

    Key, KeyList              one key; all keys of one kind of file
    file_keys                 all kinds of file: the job file, its log, then the shop's own

They come from the JSON Schemas, which come from the models, so this list cannot say what the reader does
not do.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from generator.job.operations import Cut, Settings
from generator.job.schema import job_schema, log_schema, shop_schemas
from generator.language.say import say

ANY_OPERATION: Final = "operations: (any of them)"
ANY_CUT: Final = "operations: (any but relief and thread)"
_BLOCKS: Final = "#/$defs/"
_SETTINGS: Final = frozenset(Settings.model_fields)
_CUT: Final = frozenset(Cut.model_fields) - _SETTINGS
_OPERATIONS: Final = "operations: "
_FIRST: Final = "face"  # the first operation of the models: what several have stands there


@dataclass(frozen=True)
class Key:
    """One key: `name` with the blocks it stands in ("spindle: speeds"), and what goes there.

    `wanted` says what is written there; the keys of a block follow it. `needed` is true when its block
    cannot do without it. `otherwise` is what counts where it is left out, if the model has that as a word;
    `example` is the first of what may be written, where that is known.
    """

    name: str
    meaning: str
    wanted: str
    needed: bool
    otherwise: str = ""
    example: str = ""


@dataclass(frozen=True)
class KeyList:
    """The keys of one kind of file."""

    title: str
    keys: tuple[Key, ...]


def file_keys() -> tuple[KeyList, ...]:
    """The keys of every kind of file, in the order in which the models have them.

    Examples
    --------
    >>> lists = {one.title.partition(":")[0]: one.keys for one in file_keys()}
    >>> next(key for key in lists["A lathe"] if key.name == "thread_dial: teeth").meaning
    'Teeth of the gear that runs on the leadscrew.'
    """
    schemas = [job_schema(), log_schema(), *shop_schemas().values()]
    return tuple(KeyList(schema["title"], tuple(_listed(schema))) for schema in schemas)


def _listed(schema: Mapping[str, Any]) -> Iterator[Key]:
    """The keys in order; what several operations may say stands once, with the first of them."""
    top = schema if "properties" in schema else _block_in(schema, schema["$defs"])[0] or {}
    for key in _keys(top, schema["$defs"], ""):
        operation, _, last = key.name.removeprefix(_OPERATIONS).partition(": ")
        shared = _shared(operation, last) if key.name.startswith(_OPERATIONS) and last else ""
        if not shared:
            yield key
        elif operation == _FIRST:
            yield replace(key, name=f"{shared}: {last}")


def _shared(operation: str, key: str) -> str:
    """Which operations have this key; empty for a key of its own."""
    if key in _SETTINGS:
        return ANY_OPERATION
    return ANY_CUT if key in _CUT and operation not in ("relief", "thread") else ""


def _keys(block: Mapping[str, Any], known: Mapping[str, Any], within: str) -> Iterator[Key]:
    for name, entry in block.get("properties", {}).items():
        full = f"{within}: {name}" if within else name
        inner, listed = _block_in(entry, known)
        meaning = entry.get("description") or (inner or {}).get("description", "")
        if inner is None or _alone(entry, known):
            wanted, example = _wanted(entry, known), _example(entry, known)
        else:
            wanted, example = say("a list of blocks") if listed else say("a block"), ""
        yield Key(full, meaning, wanted, name in block.get("required", ()), _default(entry), example)
        if inner is not None:
            yield from _keys(inner, known, full)


def _default(entry: Mapping[str, Any]) -> str:
    """What counts where the key is left out, as it would be written."""
    default = entry.get("default")
    if isinstance(default, bool):
        return "yes" if default else "no"
    return str(default) if isinstance(default, str | int | float) else ""


def _block_in(entry: Mapping[str, Any], known: Mapping[str, Any]) -> tuple[Mapping[str, Any] | None, bool]:
    """The block of keys that may stand there, and whether it is one of a list."""
    if "items" in entry:
        return _block_in(entry["items"], known)[0], True
    for one in (entry, *_choices(entry)):
        target = known.get(str(one.get("$ref", "")).removeprefix(_BLOCKS))
        if target is not None and "properties" in target:
            return target, False
    return None, False


def _choices(entry: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    return [*entry.get("anyOf", ()), *entry.get("oneOf", ())]


def _alone(entry: Mapping[str, Any], known: Mapping[str, Any]) -> bool:
    """True when something else than a block may stand there, too."""
    one = entry.get("items", entry)
    return any(
        _block_in(choice, known)[0] is None and choice.get("type") != "null" for choice in _choices(one)
    )


def _wanted(entry: Mapping[str, Any], known: Mapping[str, Any]) -> str:
    """What is written there, in words."""
    if "items" in entry:
        return say("a list; each {wanted}", wanted=_wanted(entry["items"], known))
    if "$ref" in entry:
        target = known[entry["$ref"].removeprefix(_BLOCKS)]
        return say("a block") if "properties" in target else str(target["description"])
    if "const" in entry:
        return str(entry["const"])
    if "enum" in entry:
        return say(" or ").join(_enumerated(entry))
    if choices := [one for one in _choices(entry) if one.get("type") != "null"]:
        return say(", or ").join(dict.fromkeys(_wanted(one, known) for one in choices))
    kinds = entry.get("type")
    if kinds == "integer":
        return say("a whole number")
    if entry.get("format") == "date":
        return say("a date, such as {entry}", entry=entry["examples"][0])
    if "pattern" in entry:
        return say("a date, or a date and a time, such as {entry}", entry=entry["examples"][-1])
    return say("words")


def _example(entry: Mapping[str, Any], known: Mapping[str, Any]) -> str:
    """The first of what may be written there, where that is said."""
    if "items" in entry:
        return _example(entry["items"], known)
    if "$ref" in entry:
        return _example(known[entry["$ref"].removeprefix(_BLOCKS)], known)
    if len(entry.get("enum", ())) > 1:
        return _enumerated(entry)[0]
    words = "type" in entry and not entry.keys() & {"format", "pattern"}
    if some := [str(one) for one in entry.get("examples", ()) if isinstance(one, str) and not words]:
        return some[-1] if "pattern" in entry else some[0]
    return next((one for choice in _choices(entry) if (one := _example(choice, known))), "")


def _enumerated(entry: Mapping[str, Any]) -> list[str]:
    """The words of which one is written."""
    return ["yes", "no"] if "yes" in entry["enum"] else [str(one) for one in entry["enum"]]
