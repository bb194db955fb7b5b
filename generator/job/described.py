"""What the keys of a model mean: the line under each, read from the source when somebody asks.

    described          the meanings in the language that is spoken
    described_texts    the same as the catalogs have them

pydantic can do this as it makes a model, and would take longer for it than for all the rest of starting.
"""

from __future__ import annotations

import ast
import inspect
import sys
from functools import cache, reduce
from itertools import pairwise

from pydantic import BaseModel

from generator.language.say import say
from generator.language.spoken import once_a_language


@once_a_language
def described(model: type[BaseModel]) -> dict[str, str]:
    """The meaning of each key that has one, by the name of its attribute; its bases' first."""
    return {name: say(meaning) for name, meaning in described_texts(model).items()}


def described_texts(model: type[BaseModel]) -> dict[str, str]:
    """The meaning of each key, in English."""
    found = (_written(one.__module__).get(one.__qualname__, {}) for one in reversed(model.__mro__))
    return reduce(lambda all_, own: {**all_, **own}, found, {})


@cache
def _written(module: str) -> dict[str, dict[str, str]]:
    """The lines under the attributes of every class of a module."""
    if not module.startswith("generator."):
        return {}
    tree = ast.parse(inspect.getsource(sys.modules[module]))
    return {one.name: dict(_lines(one)) for one in tree.body if isinstance(one, ast.ClassDef)}


def _lines(one: ast.ClassDef) -> list[tuple[str, str]]:
    return [
        (key.target.id, " ".join(line.value.value.split()))
        for key, line in pairwise(one.body)
        if isinstance(key, ast.AnnAssign) and isinstance(key.target, ast.Name)
        and isinstance(line, ast.Expr) and isinstance(line.value, ast.Constant)
        and isinstance(line.value.value, str)
    ]
