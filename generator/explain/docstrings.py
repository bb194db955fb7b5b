"""A calculation as its docstring explains it: formula, what goes in, range, source, example.

    Calculation       what was said of one function
    calculation       the one from a name such as ``calc.grip.slip_grip``

A docstring has numpydoc sections and one of our own, Source. The examples are doctests, which the test suite
runs; the standard library's own reader takes them apart. The parsers of docstrings that were tried lose them.
"""

from __future__ import annotations

import doctest
import importlib
import inspect
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

_SECTION: Final = re.compile(r"^(\w+)\n-{3,}\n", re.MULTILINE)
_LAST_SOURCE: Final = re.compile(r"(?:\A|\n\n)Source: (.*?)\Z", re.DOTALL)
_FORMULA: Final = re.compile(r"``[^`]+``|[=÷×√/]|\n\n.* - ")


@dataclass(frozen=True)
class Example:
    """Some words, then what is typed and what comes out."""

    words: str
    typed: str


@dataclass(frozen=True)
class Calculation:
    """One function: texts are Markdown; `inputs` are (name, meaning with unit)."""

    name: str
    says: str
    inputs: tuple[tuple[str, str], ...]
    gives: str
    range: str
    source: str
    examples: tuple[Example, ...]

    @property
    def has_formula(self) -> bool:
        """True where the docstring has a formula, or an equation in its words."""
        return _FORMULA.search(self.says) is not None


@cache
def calculation(name: str) -> Calculation:
    """What the docstring of a function says.

    Raises
    ------
    AttributeError, ModuleNotFoundError
        When there is no such function any more.

    Examples
    --------
    >>> one = calculation("calc.slenderness.slenderness")
    >>> one.says, one.inputs[0], one.source
    ('Stick-out in diameters: ``L ÷ D``.', ('stick_out', 'L, m'), 'Common practice, no source.')
    >>> one.examples[0].typed
    '>>> slenderness(0.150, 0.050)\\n3.0'
    """
    module, _, function = name.rpartition(".")
    return _explained(name, getattr(importlib.import_module(f"generator.{module}"), function))


def _explained(name: str, function: Callable[..., Any]) -> Calculation:
    text = inspect.cleandoc(function.__doc__ or "")
    says, *rest = _SECTION.split(text)
    sections = {title: body.strip() for title, body in zip(rest[::2], rest[1::2], strict=True)}
    source = sections.pop("Source", "")
    for title, body in sections.items():
        if found := _LAST_SOURCE.search(body):
            source, sections[title] = found[1], body[: found.start()]
    if found := _LAST_SOURCE.search(says):
        source, says = found[1], says[: found.start()]
    return Calculation(
        name, says.strip(), tuple(_inputs(sections.get("Parameters", ""))), sections.get("Returns", ""),
        sections.get("Notes", ""), " ".join(source.split()), tuple(_examples(sections.get("Examples", ""))),
    )


def _inputs(section: str) -> list[tuple[str, str]]:
    """Name and meaning of each; what is indented goes on with the one before it."""
    found: list[tuple[str, str]] = []
    for line in section.splitlines():
        name, colon, meaning = line.partition(" : ")
        if line[:1].isspace() and found:
            found[-1] = (found[-1][0], f"{found[-1][1]} {line.strip()}".strip())
        elif line.strip():
            found.append((name.strip(), meaning.strip() if colon else ""))
    return found


def _examples(section: str) -> list[Example]:
    found: list[Example] = []
    words = ""
    for part in doctest.DocTestParser().parse(section):
        if isinstance(part, str):
            words = part.strip()
        else:
            typed = "\n".join(f"{'... ' if number else '>>> '}{line}"
                              for number, line in enumerate(part.source.rstrip("\n").split("\n")))
            shown = f"{typed}\n{part.want}".rstrip("\n")
            if found and not words:
                found[-1] = Example(found[-1].words, f"{found[-1].typed}\n{shown}")
            else:
                found.append(Example(words, shown))
            words = ""
    return found
