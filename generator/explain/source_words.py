"""The text of an expression, as far as the source has it.

    words_of      … stands for what only a job knows, variants are parted by ``|``
    local_words   what the names of a function stand for
"""

from __future__ import annotations

import ast
import re
from collections.abc import Mapping
from typing import Any, Final

OPEN: Final = "…"


def words_of(node: ast.expr, known: Mapping[str, Any], local: Mapping[str, str]) -> str:
    """The text of an expression.

    Parameters
    ----------
    node : the expression
    known : what the names of its module stand for
    local : what the names of its function stand for, as texts
    """
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else OPEN
    if isinstance(node, ast.Name):
        value = known.get(node.id)
        return value if isinstance(value, str) else local.get(node.id, OPEN)
    if isinstance(node, ast.IfExp):
        return f"{words_of(node.body, known, local)}|{words_of(node.orelse, known, local)}"
    if isinstance(node, ast.JoinedStr):
        return re.sub(f"{OPEN}+", OPEN, "".join(_part(one, known, local) for one in node.values))
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        parts = [words_of(one, known, {}) for one in (node.left, node.right)]
        return re.sub(f"{OPEN}+", OPEN, "".join(max(one.split("|"), key=len) for one in parts))
    return OPEN


def _part(one: ast.expr, known: Mapping[str, Any], local: Mapping[str, str]) -> str:
    """What stands in a place of a text; the longest where it may be several."""
    if isinstance(one, ast.FormattedValue):
        text = words_of(one.value, known, local) if isinstance(one.value, ast.Name) else OPEN
        return max(text.split("|"), key=len)
    return str(one.value) if isinstance(one, ast.Constant) else OPEN


def local_words(scope: ast.AST, known: Mapping[str, Any]) -> dict[str, str]:
    """What the names stand for that a function gives a text to."""
    found: dict[str, str] = {}
    for node in ast.walk(scope):
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            found[node.targets[0].id] = words_of(node.value, known, found)
    return found
