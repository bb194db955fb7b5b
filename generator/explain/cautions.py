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
from typing import Final, cast

from generator.explain.source_words import local_words, words_of
from generator.language.say import later, say
from generator.sheet import cautions, cautions_for_use, cautions_holding
from generator.sheet.cautions import ORDER
from generator.sheet.lines import SIGNAL_WORDS, Signal

MODULES: Final = {
    cautions_holding: later("at the lathe"),
    cautions: later("at the lathe"),
    cautions_for_use: later("in use"),
}


@dataclass(frozen=True)
class CautionEntry:
    """One caution: `when` it is given, `where` it counts; texts have … for what the job puts in.

    `signals` are the signal words that it may have, as the program has them; `signal` says them.
    """

    id: str
    signals: tuple[Signal, ...]
    signal: str
    when: str
    where: str
    text: str
    source: str


def caution_entries() -> list[CautionEntry]:
    """All of them; those of one signal word in the order of their modules."""
    found = [entry for module, where in MODULES.items() for entry in _of_module(module, where)]
    return sorted(found, key=lambda entry: ORDER[entry.signals[0]])


def when_texts() -> Iterator[str]:
    """When each is given, as the catalogs have it."""
    for module in MODULES:
        yield from (_when(rule) for rule, _ in _rules(module))


def _of_module(module: ModuleType, where: str) -> Iterator[CautionEntry]:
    known = vars(module)
    for rule, given in _rules(module):
        local = local_words(rule, known)
        for caution in given:
            id, signal, text, _, source = (words_of(one, known, local) for one in caution.args)
            signals = cast("tuple[Signal, ...]", tuple(one.english for one in signal))
            yield CautionEntry(
                id[0].english, signals, say(" or ").join(str(SIGNAL_WORDS[one]) for one in signals),
                say(_when(rule)), str(where), say(" Or: ").join(one.said for one in text), source[0].said,
            )


def _rules(module: ModuleType) -> Iterator[tuple[ast.FunctionDef, list[ast.Call]]]:
    """The rules of a module, each with where it makes cautions."""
    for rule in ast.parse(inspect.getsource(module)).body:
        if isinstance(rule, ast.FunctionDef):
            calls = [node for node in ast.walk(rule) if isinstance(node, ast.Call)]
            made = [one for one in calls if isinstance(one.func, ast.Name) and one.func.id == "Caution"]
            if made:
                yield rule, made


def _when(rule: ast.FunctionDef) -> str:
    """The first line of a rule's docstring."""
    return (ast.get_docstring(rule) or rule.name).splitlines()[0]
