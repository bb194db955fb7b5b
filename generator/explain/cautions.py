"""Every caution that a sheet may give, with its signal word, its reason and its source, read from its rule.

    CautionEntry      one caution
    caution_entries   all, the worst signal word first
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from dataclasses import dataclass
from types import ModuleType
from typing import Final

from generator.explain.source_words import local_words, words_of
from generator.sheet import cautions, cautions_for_use, cautions_holding
from generator.sheet.cautions import ORDER

MODULES: Final = {cautions_holding: "at the lathe", cautions: "at the lathe", cautions_for_use: "in use"}


@dataclass(frozen=True)
class CautionEntry:
    """One caution: `when` it is given, `where` it counts; texts have … for what the job puts in."""

    id: str
    signal: str
    when: str
    where: str
    text: str
    source: str


def caution_entries() -> list[CautionEntry]:
    """All of them; those of one signal word in the order of their modules."""
    found = [entry for module, where in MODULES.items() for entry in _of_module(module, where)]
    return sorted(found, key=lambda entry: ORDER[entry.signal.partition(" or ")[0]])


def _of_module(module: ModuleType, where: str) -> Iterator[CautionEntry]:
    for rule in ast.parse(inspect.getsource(module)).body:
        if not isinstance(rule, ast.FunctionDef):
            continue
        local = local_words(rule, vars(module))
        for node in ast.walk(rule):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Caution":
                id, signal, text, _, source = (words_of(one, vars(module), local) for one in node.args)
                when = (ast.get_docstring(rule) or rule.name).splitlines()[0]
                text, signal = text.replace("|", " Or: "), signal.replace("|", " or ")
                yield CautionEntry(id.partition("|")[0], signal, when, where, text, source)
