"""What a finding says, and at which level, read from the sources that say it.

It is chosen by its English words, and shown in the language that is spoken.

    Said         levels and sentences of one finding; … stands for what a job puts in
    all_said     of every finding whose id, level or words stand in the sources

Ids that are put together from two words ("tool-meets-jaws") have no sentence of their own here.
"""

from __future__ import annotations

import ast
import importlib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import FunctionType
from typing import Any, Final

import generator
from generator.explain.source_words import OPEN, Variants, Words, local_words, words_from, words_of
from generator.sheet.harm import HARM, LEVELS

PACKAGE: Final = Path(generator.__file__).parent
_PARTS: Final = ("job", "sheet")
_LEAST: Final = 25  # letters of a sentence


@dataclass
class Said:
    """What one finding says, each different level and sentence once; sentences by their English."""

    levels: list[str] = field(default_factory=list)
    sentences: dict[str, str] = field(default_factory=dict)


def all_said() -> dict[str, Said]:
    """By id; an id that is put together stands for every one it may be."""
    found: dict[str, Said] = {}
    for ids, words in _calls():
        levels = [level for level in LEVELS if any(level == each.english for each in words)]
        texts = [each for each in words if _is_sentence(each.english)]
        for id in ids:
            said = found.setdefault(id, Said())
            said.levels += [level for level in levels if level not in said.levels]
            said.sentences |= {text.english: text.said for text in texts[:2]}
    return found


def _is_sentence(text: str) -> bool:
    plain = text.replace(OPEN, "").strip()
    return len(plain) >= _LEAST and " " in plain and not plain.endswith("?")


def _calls() -> Iterator[tuple[list[str], list[Words]]]:
    """The ids that a call may be about, and all that it may say."""
    for part in _PARTS:
        for path in sorted((PACKAGE / part).rglob("*.py")):
            name = ".".join(("generator", *path.relative_to(PACKAGE).with_suffix("").parts))
            known = vars(importlib.import_module(name))
            tree = ast.parse(path.read_text(encoding="utf-8"))
            for scope in (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.Module)):
                yield from _calls_in(scope, known)


def _calls_in(
    scope: ast.FunctionDef | ast.Module, known: Mapping[str, Any]
) -> Iterator[tuple[list[str], list[Words]]]:
    whole = isinstance(scope, ast.FunctionDef)
    parts = [scope] if whole else [one for one in scope.body if not isinstance(one, ast.FunctionDef)]
    local = local_words(scope, known) if whole else {}
    for node in (node for part in parts for node in ast.walk(part)):
        if isinstance(node, ast.Call) and len(node.args) > 1:
            given = (*node.args, *(key.value for key in node.keywords))
            words = [_words_of(one, known, local) for one in given]
            if ids := [id for each in words[:2] for one in each for id in _ids(one.english)]:
                yield ids, [one for each in words for one in each]


def _words_of(node: ast.expr, known: Mapping[str, Any], local: Mapping[str, Variants]) -> Variants:
    """The texts of what is given to a call, which may come from a function of the module."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        function = known.get(node.func.id)
        if isinstance(function, FunctionType) and function.__module__ == known["__name__"]:
            return words_from(function)
    return words_of(node, known, local)


def _ids(word: str) -> list[str]:
    """The findings that a word may name."""
    if word in HARM:
        return [word]
    if OPEN not in word or not re.fullmatch(r"[a-z0-9…-]+", word) or not re.search(r"[a-z]{3}", word):
        return []
    for instead in ("[a-z0-9]+", "[a-z0-9-]+"):  # of one word, else of several
        pattern = re.escape(word).replace(re.escape(OPEN), instead)
        if found := [id for id in HARM if re.fullmatch(pattern, id) or re.fullmatch(pattern, f"{id}-1")]:
            return found
    return []
