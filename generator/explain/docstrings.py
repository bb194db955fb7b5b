"""A calculation as its docstring explains it: formula, what goes in, range, source, example.

    Calculation       what was said of one function
    calculation       the one from a name such as ``calc.grip.slip_grip``, in the language that is spoken
    pieces            the texts that it is said in, as the catalogs have them

A docstring has numpydoc sections and one of our own, Source. The examples are doctests, which the test suite
runs; the standard library's own reader takes them apart. The parsers of docstrings that were tried lose them.
Each paragraph is one text, whatever its lines are.
"""

from __future__ import annotations

import doctest
import importlib
import inspect
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any, Final

from generator.language.say import say
from generator.language.spoken import once_a_language

_SECTION: Final = re.compile(r"^(\w+)\n-{3,}\n", re.MULTILINE)
_LAST_SOURCE: Final = re.compile(r"(?:\A|\n\n)Source: (.*?)\Z", re.DOTALL)
_BETWEEN: Final = re.compile(r"\n\s*\n")
_WORD: Final = re.compile(r"[^\W\d_]{2}")
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


@once_a_language
def calculation(name: str) -> Calculation:
    """What the docstring of a function says, in the language that is spoken.

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
    one = _explained(name)
    return replace(
        one, says=_said(one.says), gives=_said(one.gives), range=_said(one.range), source=_said(one.source),
        inputs=tuple((input_, _said(meaning)) for input_, meaning in one.inputs),
        examples=tuple(replace(example, words=_said(example.words)) for example in one.examples),
    )


def pieces(name: str) -> Iterator[str]:
    """Every text of the docstring of a function that `calculation` says.

    Examples
    --------
    >>> list(pieces("calc.slenderness.slenderness"))[:2]
    ['Stick-out in diameters: ``L ÷ D``.', 'D at the jaws, m']
    """
    one = _explained(name)
    texts = [one.says, *(meaning for _, meaning in one.inputs), one.gives, one.range, one.source]
    for text in (*texts, *(example.words for example in one.examples)):
        yield from (piece for piece in _paragraphs(text) if _WORD.search(piece))


def _paragraphs(text: str) -> list[str]:
    """The paragraphs of a text, each on one line."""
    return [" ".join(piece.split()) for piece in _BETWEEN.split(text)]


def _said(text: str) -> str:
    return "\n\n".join(say(piece) if _WORD.search(piece) else piece for piece in _paragraphs(text))


def _explained(name: str) -> Calculation:
    """What the docstring says, as it stands there."""
    module, _, function = name.rpartition(".")
    return _taken_apart(name, getattr(importlib.import_module(f"generator.{module}"), function))


def _taken_apart(name: str, function: Callable[..., Any]) -> Calculation:
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
