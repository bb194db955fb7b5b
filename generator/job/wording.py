"""What the validation library reports -> sentences in the words of the file.

In reading order: problems_of (all problems of one file), then the sentences, one for each kind of report.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from generator.errors import Location, Missing, Problem
from generator.job.described import described
from generator.job.written import Block, Listing, Scalar, not_known, shown
from generator.language.say import first_small, say
from generator.units import nearest, quoted

MOST_KEYS: Final = 12  # more than that are not listed in a sentence
Loc = tuple[int | str, ...]


class Hole:
    """Stands where the text was refused already, so that nothing more is said about it."""


def problems_of(
    error: ValidationError, tree: Block | Listing | Scalar, model: type[BaseModel],
    places: Mapping[str, Location],
) -> Iterator[Problem]:
    """Each report of the library as a problem with its place; places of holes stay silent."""
    for report in error.errors(include_url=False):
        loc = tuple(part for part in report["loc"] if part not in ("<block>", "<word>"))
        while len(loc) > 1 and isinstance(at(tree, loc[:-1]), Scalar):
            loc = loc[:-1]  # a bare value that was read as the first key of a block
        if isinstance(at(tree, loc), Hole):
            continue
        for key, sentence in _sentences(report, loc, tree, model):
            field = ".".join(str(part) for part in (*loc, *([key] if key else [])))
            kind = Missing if report["type"] == "missing" else Problem
            yield kind(_place(report["type"], loc, field, tree, places), field, sentence)


def at(tree: object, loc: Sequence[int | str]) -> object:
    """The node at a location, or None."""
    for part in loc:
        if isinstance(tree, dict):
            tree = tree.get(part)
        elif isinstance(tree, list) and isinstance(part, int) and part < len(tree):
            tree = tree[part]
        else:
            return None
    return tree


def _place(kind: str, loc: Loc, field: str, tree: object, places: Mapping[str, Location]) -> Location:
    if kind == "extra_forbidden":
        parent = at(tree, loc[:-1])
        if isinstance(parent, Block):
            return parent.keys_where[str(loc[-1])]
    while field and field not in places:
        field = field.rpartition(".")[0]
    return places[field]


def _sentences(
    report: ErrorDetails, loc: Loc, tree: object, model: type[BaseModel]
) -> Sequence[tuple[str, str]]:
    kind, context = report["type"], report.get("ctx") or {}
    written = at(tree, loc)
    if kind == "refused":
        problems: Sequence[tuple[str, str]] = context["problems"]
        if _blank(written) and not _required(loc, model):
            return [(key, _or_nothing(sentence)) for key, sentence in problems]
        return problems
    if kind == "missing":
        return [("", _missing(loc, model))]
    if kind == "extra_forbidden":
        return [("", _unknown_key(str(loc[-1]), written, at(tree, loc[:-1]), loc, model))]
    if _blank(written):
        what = say("a list") if kind == "list_type" else say("a value")
        if kind == "model_type":
            what = say("its keys below it, indented, such as {keys_like}", keys_like=_keys_like(model, loc))
        sentence = say("is empty: write {what}", what=what)
        return [("", sentence if _required(loc, model) else _or_nothing(sentence))]
    if kind == "literal_error":
        sentence = _choice(written, str(context["expected"]))
        if "<word>" in report["loc"]:
            keys_like = _keys_like(model, loc)
            sentence = say("{sentence}, or a block of keys such as {keys}", sentence=sentence, keys=keys_like)
        return [("", sentence)]
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return [("", _no_block(written, loc, model))]
    if kind == "list_type":
        sentence = say(
            "{written} stands here, a list is wanted: begin each entry with a dash", written=shown(written)
        )
        return [("", sentence)]
    if kind == "too_short":
        return [("", say("is an empty list: write at least one entry, each with a dash"))]
    return [("", say("{written} cannot be read here", written=shown(written)))]


def _or_nothing(sentence: str) -> str:
    """A sentence about an entry that may be left out."""
    return say("{sentence}, or take the line out", sentence=sentence)


def _no_block(written: object, loc: Loc, model: type[BaseModel]) -> str:
    """What stands where a block of keys is wanted."""
    known = _keys_like(model, loc)
    if not isinstance(written, Scalar):
        return say(
            "{written} stands here: write key: value, with keys such as {known}",
            written=shown(written),
            known=known,
        )
    if (key := written.strip()) in _keys(model, loc):
        return say("{written} needs a colon here: write {key}:", written=shown(written), key=key)
    return say(
        "{written} stands here without a key: write key: value, with keys such as {known}",
        written=shown(written),
        known=known,
    )


def _blank(written: object) -> bool:
    return isinstance(written, Scalar) and not written.strip()


def _field(loc: Loc, model: type[BaseModel]) -> tuple[FieldInfo, str] | None:
    """The field of the models that a key belongs to, and what it means; None for an entry of a list."""
    parent = _model_at(model, loc[:-1])
    if parent is None:
        return None
    return next(
        (
            (known, described(parent).get(name, ""))
            for name, known in parent.model_fields.items() if (known.alias or name) == loc[-1]
        ),
        None,
    )


def _required(loc: Loc, model: type[BaseModel]) -> bool:
    known = _field(loc, model)
    return known is None or known[0].is_required()


def _missing(loc: Loc, model: type[BaseModel]) -> str:
    known = _field(loc, model)
    if known is None or not known[1]:
        return say("is missing: write {key}", key=loc[-1])
    meaning = first_small(known[1].rstrip("."))
    return say("is missing: write {key} ({meaning})", key=loc[-1], meaning=meaning)


def _unknown_key(key: str, written: object, parent: object, loc: Loc, model: type[BaseModel]) -> str:
    known = _keys(model, loc[:-1])
    said = say("{quoted} is not a key that is known here", quoted=quoted(key))
    bare = isinstance(written, Scalar) and not written
    if bare and isinstance(parent, Block) and re.fullmatch(r"[0-9]+.*", key):
        value = list(parent.values())[list(parent).index(key) - 1]  # what stands before the comma
        if isinstance(value, Scalar) and value:
            both = quoted(f"{value},{key}")
            if re.match(r"[0-9]{3}(?![0-9])", key):
                return say(
                    "{said}: if {both} is one number, write {value}{key} without the comma, or "
                    "{value}.{key}, with a point",
                    said=said,
                    both=both,
                    value=value,
                    key=key,
                )
            return say(
                "{said}: if {both} is one number, write {value}.{key}, with a point",
                said=said,
                both=both,
                value=value,
                key=key,
            )
    name, colon, rest = key.partition(":")
    if bare and colon and name in known:
        return say(
            "{quoted} has no space after its colon: write {name}: {rest}",
            quoted=quoted(key),
            name=name,
            rest=rest,
        )
    for above, value in parent.items() if isinstance(parent, Block) else ():
        if _blank(value) and key in _keys(model, (*loc[:-1], above)):
            return say("{said}: it belongs under {above}, indented", said=said, above=above)
    near = nearest(key, known)
    if near:
        return say("{said}: did you mean {near}?", said=said, near=near)
    first, more = ", ".join(known[:MOST_KEYS]), len(known) - MOST_KEYS
    if more > 0:
        return say("{said}: the keys here are {known} and {more} more", said=said, known=first, more=more)
    return say("{said}: the keys here are {known}", said=said, known=first)


def _choice(written: object, expected: str) -> str:
    words = re.findall(r"'([^']*)'|(\d+)", expected)
    known = [word or number for word, number in words]
    return not_known(written, known, nearest(str(written), known) if isinstance(written, str) else None)


def _keys(model: type[BaseModel], loc: Loc) -> list[str]:
    """The keys of the block at a location, its own before those that all operations have."""
    here = _model_at(model, loc)
    if here is None:
        return []
    fields = sorted(here.model_fields.items(), key=lambda field: field[0] not in here.__annotations__)
    return [known.alias or name for name, known in fields]


def _keys_like(model: type[BaseModel], loc: Loc) -> str:
    return ", ".join(_keys(model, loc)[:4])


def _model_at(model: type[BaseModel], loc: Loc) -> type[BaseModel] | None:
    """The model of the block at a location, found through the annotations of the fields on the way."""
    here: type[BaseModel] | None = model
    for part in loc:
        if isinstance(part, int):
            continue
        fields: dict[str, FieldInfo] = here.model_fields if here else {}
        found = next((known for name, known in fields.items() if (known.alias or name) == part), None)
        here = _model_in(found.annotation) if found else None
    return here


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        if found := _model_in(inner):
            return found
    return None


def places_of(tree: Block | Listing) -> dict[str, Location]:
    """Dotted name -> place, of everything in the file; a block or list stands where its key stands."""
    places: dict[str, Location] = {"": tree.where}

    def walk(node: object, name: str) -> None:
        entries: Iterator[tuple[str, object, Location | None]]
        if isinstance(node, Block):
            entries = ((key, value, node.keys_where[key]) for key, value in node.items())
        elif isinstance(node, Listing):
            entries = ((str(number), value, None) for number, value in enumerate(node))
        else:
            return
        for key, value, key_where in entries:
            full = f"{name}.{key}" if name else key
            own = getattr(value, "where", None)
            place = own if isinstance(value, Scalar) and value else key_where or own
            if place is not None:
                places[full] = place
            walk(value, full)

    walk(tree, "")
    return places
