"""The text of an expression, as far as the source has it.

    Words         a text as the source has it, and as it is said; … stands for what only a job knows
    words_of      the texts that an expression may have
    words_from    those that a function may return
    local_words   what the names of a function stand for
"""

from __future__ import annotations

import ast
import inspect
import re
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import FunctionType
from typing import Any, Final

from generator.language.say import Later
from generator.language.spoken import spoken

OPEN: Final = "…"
_SAYING: Final = frozenset({"say", "later", "say_count"})
_SAME_WORDS: Final = frozenset({"str", "first_large", "first_small"})
_PLACE: Final = re.compile(r"(?<!\{)\{(\w+)[^{}]*(?:\{\w+\}[^{}]*)?\}(?!\})")
_MANY: Final = 2


@dataclass(frozen=True)
class Words:
    """A text in English, and in the language that is spoken."""

    english: str
    said: str


Variants = Sequence[Words]
UNKNOWN: Final[Variants] = (Words(OPEN, OPEN),)


def words_of(node: ast.expr, known: Mapping[str, Any], local: Mapping[str, Variants]) -> Variants:
    """The texts of an expression, one of which it has.

    Parameters
    ----------
    node : the expression
    known : what the names of its module stand for
    local : what the names of its function stand for

    Examples
    --------
    >>> made = ast.parse('say("{steps} of {all:.2f} mm", steps=steps, all=all)', mode="eval").body
    >>> words_of(made, {}, {"steps": [Words("Steps", "Stufen")]})
    [Words(english='Steps of … mm', said='Stufen of … mm')]
    """
    if isinstance(node, ast.Constant):
        return _plain(node.value)
    if isinstance(node, ast.Name):
        return _plain(known[node.id]) if isinstance(known.get(node.id), str) else local.get(node.id, UNKNOWN)
    if isinstance(node, ast.IfExp):
        return [*words_of(node.body, known, local), *words_of(node.orelse, known, local)]
    if isinstance(node, ast.JoinedStr):
        return _joined(_part(one, known, local) for one in node.values)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        return _joined(_longest(words_of(one, known, {})) for one in (node.left, node.right))
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return _called(node.func.id, node, known, local)
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name):
        return _of_table(known.get(node.value.id))
    return UNKNOWN


def _of_table(table: object) -> Variants:
    """Every text of a table of sentences."""
    if isinstance(table, Mapping) and all(isinstance(one, str) and " " in one for one in table.values()):
        return [words for one in table.values() for words in _plain(one)]
    return UNKNOWN


def _plain(value: object) -> Variants:
    """A text that stands there; in a table it is one that is said where it is shown."""
    if isinstance(value, Later):
        return (Words(value.english, str(value)),)
    return (Words(value, value),) if isinstance(value, str) else UNKNOWN


def _called(
    function: str, node: ast.Call, known: Mapping[str, Any], local: Mapping[str, Variants]
) -> Variants:
    """A text that is said, with what stands in its places."""
    if function not in _SAYING | _SAME_WORDS or not node.args:
        return UNKNOWN
    texts = words_of(node.args[0], known, local)
    if function == "say_count":
        one, many = (words_of(each, known, local)[0].english for each in node.args[:2])
        texts = [Words(many, spoken().counted(one, many, _MANY))]
    elif function in _SAYING:
        texts = [Words(each.english, spoken().text(each.english)) for each in texts]
    if not node.keywords and function != "say_count":
        return texts
    put = {one.arg: _in_place(one.value, known, local) for one in node.keywords if one.arg}
    english = {name: one.english for name, one in put.items()}
    said = {name: one.said for name, one in put.items()}
    return [Words(_filled(each.english, english), _filled(each.said, said)) for each in texts]


def _filled(text: str, put: Mapping[str, str]) -> str:
    filled = _PLACE.sub(lambda place: put.get(place[1], OPEN), text)
    return _closed(filled.replace("{{", "{").replace("}}", "}"))


def _part(one: ast.expr, known: Mapping[str, Any], local: Mapping[str, Variants]) -> Words:
    """What a part of an f-string is."""
    if isinstance(one, ast.FormattedValue):
        return _in_place(one.value, known, local)
    text = str(one.value) if isinstance(one, ast.Constant) else OPEN
    return Words(text, text)


def _in_place(value: ast.expr, known: Mapping[str, Any], local: Mapping[str, Variants]) -> Words:
    """What stands in a place of a text; of a name that may stand for several the longest."""
    if not isinstance(value, ast.Name | ast.Call | ast.IfExp):
        return UNKNOWN[0]
    texts = [one for one in words_of(value, known, local) if one.english]
    return _longest(texts) if len(texts) == 1 or (texts and isinstance(value, ast.Name)) else UNKNOWN[0]


def _longest(variants: Variants) -> Words:
    return max(variants, key=lambda one: len(one.english))


def _joined(parts: Iterable[Words]) -> Variants:
    all_ = list(parts)
    english, said = "".join(one.english for one in all_), "".join(one.said for one in all_)
    return [Words(_closed(english), _closed(said))]


def _closed(text: str) -> str:
    return re.sub(f"{OPEN}+", OPEN, text)


def local_words(scope: ast.AST, known: Mapping[str, Any]) -> dict[str, Variants]:
    """What the names stand for that a function gives a text to."""
    found: dict[str, Variants] = {}
    for node in ast.walk(scope):
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            found[node.targets[0].id] = words_of(node.value, known, found)
    return found


def words_from(function: FunctionType) -> Variants:
    """The texts that a function returns, as far as its source has them."""
    scope, known = ast.parse(textwrap.dedent(inspect.getsource(function))), function.__globals__
    local = local_words(scope, known)
    returned = [node.value for node in ast.walk(scope) if isinstance(node, ast.Return) and node.value]
    return [words for one in returned for words in words_of(one, known, local)]
