"""Every text that a user may read, held against words that a machinist would not say and against UK spelling.

Read from the sources: the strings of `generator/` (docstrings left out), what the keys of the files mean (the
lines under the fields of the models), the texts of the templates, scripts and pages, the README.
"""

from __future__ import annotations

import ast
import functools
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
# Words of programmers, and what to say instead.
NOT_SAID = {
    r"invalid": "what is wrong with it",
    r"value error|exception|traceback|run-?time": "what happened",
    r"must be (?:an?|one|above|below|between|positive)|expected (?:an?|one of)": "write ...",
    r"fail(?:ed|ure|s)?": "what could not be done",
    r"null|None|undefined": "empty, not known",
    r"strings?|integers?|booleans?|floats?|arrays?|tuples?": "words, a number, yes or no, a list",
    r"pars(?:e|ed|er|ing)": "read",
    r"not supported|unsupported": "not taken, not computed here",
    r"tokens?|arguments?|parameters?|syntax|regex": "what stands there",
    r"illegal|abort(?:ed)?|fatal|timeout|timed out": "what happened",
    r"initiali[sz]e|instantiate|invoke|deprecated": "say what it does",
}
# Where one of them is right, and why.
RIGHT_THERE = {
    ("generator/job/source.py", "token"): "what the YAML library says, to be looked for; never shown",
    **{
        ("generator/usage.py", word): "what the library says of a command line, to be said otherwise"
        for word in ("invalid", "argument", "arguments")
    },
    ("generator/site/kept.py", "integer"): "the language of the kept file; never shown",
    ("generator/sheet/capacity_head.py", "unsupported"): "work that stands out without support",
    ("generator/sheet/cautions_holding.py", "unsupported"): "a bar without support",
    ("site_templates/pages/figures.md", "null"): "the page for other programs, which read JSON",
}
OTHER_WORDS = "## Other words for the same"  # the last part of the page of words: what others say
# UK words and spellings, and the one word that a sheet has for the thing.
SAID_SO = {
    r"centre(?:s|d)?|centring": "center", r"\w*metres?": "meter", r"colour\w*": "color",
    r"grey": "gray", r"aluminium": "aluminum", r"catalogues?": "catalog", r"neighbour\w*": "neighbor",
    r"behaviour|favour\w*|labour|vapour|harbour": "-or", r"swivelled|swivelling": "swiveled",
    r"travell(?:ed|ing|er)": "traveled", r"labell(?:ed|ing)|cancell(?:ed|ing)|levell(?:ed|ing)": "one l",
    r"\w*(?:pressur|organ|recogn|real|minim|maxim|summar|optim|standard|special|util|general)is(?:e|ed|es|ing)":
        "-ize", r"analys(?:e|ed|es)": "analyze", r"judgement": "judgment", r"licence": "license",
    r"programmes?": "program", r"mould(?:s|ed)?": "mold", r"fibres?": "fiber", r"tyres?": "tire",
    r"sulphur": "sulfur", r"plough": "plow", r"draught": "draft", r"cheque": "check",
    r"swarf": "chips", r"spanners?": "wrench", r"grub screws?|set-screws?": "set screw",
    r"top[- ]slides?": "compound", r"change wheels?": "change gears", r"saddle": "carriage",
    r"drive plates?": "driving plate", r"driving dogs?": "dog", r"centre lathe": "engine lathe",
    r"bush(?:es|ed)?": "bushing", r"half-way": "halfway", r"anti-?clockwise": "counterclockwise",
    r"all round|once round|go(?:es)? round|way round": "around", r"whilst|amongst": "while, among",
    r"core diameters?|effective diameters?": "minor, pitch diameter",
}


KEYS = {"grey cast iron", "aluminium alloy"}  # of the shop's list of materials, since its first day


def _strings(tree: ast.AST) -> Iterator[str]:
    """The strings of one source with words in them; `{}` for what is filled in, docstrings left out."""
    silent: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr):
            silent.add(id(node.value))
        elif isinstance(node, ast.JoinedStr):
            silent.update(id(part) for part in node.values)
            yield "".join(str(one.value) if isinstance(one, ast.Constant) else "{}" for one in node.values)
        elif isinstance(node, ast.ClassDef):  # what a key of a file means stands under its field
            for field, under in zip(node.body, node.body[1:], strict=False):
                if isinstance(field, ast.AnnAssign) and isinstance(under, ast.Expr):
                    yield str(getattr(under.value, "value", ""))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in silent:
            yield node.value


def _without(text: str, *patterns: str) -> str:
    return functools.reduce(lambda rest, pattern: re.sub(pattern, " ", rest, flags=re.DOTALL), patterns, text)


def _texts(path: Path) -> Iterator[str]:
    text = path.read_text("utf-8")
    match path.suffix:
        case ".py":
            said = _strings(ast.parse(text))
            yield from (one for one in said if re.search(r"[A-Za-z]{2,} [a-zA-Z{]", one))
        case ".js":
            bare = _without(text, r"/\*.*?\*/", r"(?<![:\"'])//[^\n]*")
            yield from (said for said in re.findall(r'"((?:[^"\\\n]|\\.)*)"', bare) if " " in said)
        case ".md":
            base = text.partition(OTHER_WORDS)[0]
            yield from _without(base, r"```.*?```", r"`[^`]*`").split("\n")
        case ".toml":
            yield from re.findall(r'"((?:[^"\\\n]|\\.)*)"', _without(text, r"(?m:^#[^\n]*)"))
        case _:
            named = re.findall(r'(?:title|aria-label|alt|placeholder)="([^"]*)"', text)
            yield from named
            yield from _without(
                text, r"\{#.*?#\}", r"\{[%{].*?[%}]\}", r"<(style|script|code|pre)\b.*?</\1>", r"<[^>]*>"
            ).split("\n")


@functools.cache
def _said() -> list[tuple[str, str]]:
    """Source and text, of everything."""
    paths = [*ROOT.glob("generator/**/*.py"), *ROOT.glob("generator/**/*.toml"), ROOT / "README.md"]
    paths.remove(ROOT / "generator" / "language" / "uk.py")  # it turns these very words into others
    paths += [one for kind in ("html", "js", "md") for one in ROOT.glob(f"site_templates/**/*.{kind}")]
    return [
        (path.relative_to(ROOT).as_posix(), text) for path in sorted(paths) for text in _texts(path)
    ]


@pytest.mark.parametrize(("word", "instead"), NOT_SAID.items(), ids=NOT_SAID)
def test_no_text_speaks_as_a_programmer(word: str, instead: str) -> None:
    found = [
        f"{source}: {text.strip()[:160]} -> {instead}" for source, text in _said()
        for match in re.finditer(rf"(?<![\w.<$-])(?:{word})(?![\w>=(-])", text, re.IGNORECASE)
        if match[0] != "none" and (source, match[0].lower()) not in RIGHT_THERE
    ]
    assert found == []


@pytest.mark.parametrize(("word", "instead"), SAID_SO.items(), ids=SAID_SO)
def test_the_base_text_is_the_trade_english_of_the_united_states(word: str, instead: str) -> None:
    found = [
        f"{source}: {text.strip()[:160]} -> {instead}" for source, text in _said()
        if re.search(rf"\b(?:{word})\b", text, re.IGNORECASE) and text not in KEYS
    ]
    assert found == []


def test_each_exception_is_still_needed() -> None:
    for source, word in RIGHT_THERE:
        assert any(word in text.lower() for where, text in _said() if where == source), (source, word)


def test_the_texts_are_found() -> None:
    """One of each kind: a message, the meaning of a key, a template, a script, a page."""
    said = {(source, text.strip()) for source, text in _said()}
    for source, text in (
        ("generator/job/fields.py", "{scalar} is neither yes nor no: write one of the two"),
        ("generator/job/model.py", "How much of the work is inside the jaws."),
        ("site_templates/js/cards.js", "I measured, or tried"),
        ("site_templates/pages/safety.md", "# Safety"),
    ):
        assert (source, text) in said, source
    assert sum(source.endswith(".html") for source, _ in said) > 200
