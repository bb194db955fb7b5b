"""Templates and plain pages in another language: cut into the texts that are said as one, and put together.

A text is what stands between two tags that begin a block (a paragraph, a cell, a heading), with the tags
and the `{{ }}` and `{% if %}` in it; besides, what a person reads in an attribute. A translation has the same
ones, in whatever order that language wants.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable
from typing import Final

INLINE: Final = frozenset({  # elements within a sentence
    "a", "abbr", "b", "bdi", "br", "cite", "code", "dfn", "em", "i", "kbd", "mark", "q", "s", "samp", "small",
    "span", "strong", "sub", "sup", "time", "u", "var", "wbr",
})  # fmt: skip
READ: Final = ("aria-label", "alt", "title", "placeholder", "label")  # attributes with words
_TOKEN: Final = re.compile(
    r"(?P<note>\{#.*?#\}|<!--.*?-->)"
    r"|(?P<raw><(?P<silent>script|style|pre|svg)\b.*?</(?P=silent)>)"
    r"|(?P<statement>\{%.*?%\})"
    r"|(?P<shown>\{\{.*?\}\})"
    r"|(?P<tag></?(?P<name>[a-zA-Z][\w-]*)(?:\{\{.*?\}\}|\{%.*?%\}|\"[^\"]*\"|[^<>\"{]|\{(?![{%]))*>)"
    r"|(?P<text>[^<{]+|.)",
    re.DOTALL,
)
_CHOICE: Final = re.compile(r"\{%-?\s*(?:if|elif|else|endif)\b")
_ATTRIBUTE: Final = re.compile(rf"(?<=[\s%}}])({'|'.join(READ)})=\"([^\"]*)\"")
_WORD: Final = re.compile(r"[^\W\d_]{2}")
_SHOWN: Final = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_BLANKS: Final = re.compile(r"\s+")


def in_other_words(template: str, said: Callable[[str], str]) -> str:
    """A template with each of its texts put through `said`; the blanks around a text stay.

    >>> in_other_words('<p class="x">Pass <b>{{ one }}</b> of\\n  {{ all }}</p>', str.upper)
    '<p class="x">PASS <B>{{ ONE }}</B> OF {{ ALL }}</p>'
    >>> in_other_words('<tr>{% if a %}<td title="Pass one">{{ a }}</td>{% endif %}</tr>', str.upper)
    '<tr>{% if a %}<td title="PASS ONE">{{ a }}</td>{% endif %}</tr>'
    """
    made: list[str] = []
    run: list[re.Match[str]] = []
    for token in _TOKEN.finditer(template):
        if _goes_on(token):
            run.append(token)
            continue
        made += [_run_said(run, said), _attributes_said(token, said)]
        run = []
    made.append(_run_said(run, said))
    return "".join(made)


def texts_of(template: str) -> list[str]:
    """Every text of a template, as the catalogs have it."""
    return _gathered(in_other_words, template)


def _gathered(cut: Callable[[str, Callable[[str], str]], str], whole: str) -> list[str]:
    """What `cut` puts through its function."""
    found: list[str] = []

    def kept(text: str) -> str:
        found.append(text)
        return text

    cut(whole, kept)
    return found


def _goes_on(token: re.Match[str]) -> bool:
    """True for what may stand within a sentence."""
    if token["text"] or token["shown"]:
        return True
    if token["statement"]:
        return bool(_CHOICE.match(token["statement"]))
    return bool(token["tag"]) and token["name"].lower() in INLINE


def _run_said(run: list[re.Match[str]], said: Callable[[str], str]) -> str:
    """What stands between two blocks: from its first word to its last it is one text."""
    first, last = 0, len(run)
    while first < last and not _is_words(run[first]):
        first += 1
    while last > first and not _is_words(run[last - 1]):
        last -= 1
    if first == last or not _WORD.search("".join(token["text"] or "" for token in run)):
        return "".join(_attributes_said(token, said) for token in run)
    first, last = _balanced(run, first, last)
    middle = "".join(token[0] for token in run[first:last])
    text = middle.strip()
    before, _, after = middle.partition(text)
    ends = "".join(token[0] for token in run[:first]), "".join(token[0] for token in run[last:])
    return ends[0] + before + said(_BLANKS.sub(" ", text)) + after + ends[1]


def _is_words(token: re.Match[str]) -> bool:
    """True for what a text may begin or end with: words, or a value that is shown."""
    return bool(token["shown"] or (token["text"] or "").strip())


def _balanced(run: list[re.Match[str]], first: int, last: int) -> tuple[int, int]:
    """Bounds widened, so that every tag and every condition that a text opens is closed in it."""
    while True:
        open_, least = 0, 0
        for token in run[first:last]:
            open_ += _opens(token)
            least = min(least, open_)
        if least < 0 and first > 0:
            first -= 1
        elif open_ > 0 and last < len(run):
            last += 1
        else:
            return first, last


def _opens(token: re.Match[str]) -> int:
    if token["statement"]:
        return bool(re.match(r"\{%-?\s*if\b", token[0])) - bool(re.match(r"\{%-?\s*endif\b", token[0]))
    if not token["tag"] or token["name"].lower() in ("br", "wbr") or token[0].endswith("/>"):
        return 0
    return -1 if token[0].startswith("</") else 1


def _attributes_said(token: re.Match[str], said: Callable[[str], str]) -> str:
    """A tag with its attributes said that are for a reader."""
    if not token["tag"]:
        return token[0]

    def one(found: re.Match[str]) -> str:
        name, value = found.groups()
        words = _SHOWN.sub("", value)
        return f'{name}="{said(_BLANKS.sub(" ", value))}"' if _WORD.search(words) else found[0]

    return _ATTRIBUTE.sub(one, token[0])


_FENCE: Final = re.compile(r"^(```|~~~)")


def page_in_other_words(page: str, said: Callable[[str], str]) -> str:
    """A page of Markdown with each of its blocks put through `said`, and its title; code stays as it is.

    >>> page_in_other_words("---\\ntitle: Words\\n---\\n# Words\\n\\nChuck\\n:   It holds.\\n", str.upper)
    '---\\ntitle: WORDS\\n---\\n# WORDS\\n\\nCHUCK\\n:   IT HOLDS.\\n'
    """
    head, text = "", page
    if page.startswith("---\n"):
        end = page.index("\n---\n", 4) + 5
        head = re.sub(r"(?m)^(title: )(.+)$", lambda title: title[1] + said(title[2]), page[:end])
        text = page[end:]
    made, code = [], False
    for block in re.split(r"(\n(?:[ \t]*\n)+)", text):
        starts = sum(1 for line in block.split("\n") if _FENCE.match(line))
        if code or starts or not _WORD.search(_SHOWN.sub("", block)):
            made.append(block)
        else:
            marks = re.match(r"\s*(?:#+ )?", block)
            mark = marks[0] if marks else ""
            body = block[len(mark) :].rstrip()
            made.append(mark + said(body) + block[len(mark) + len(body) :])
        code ^= bool(starts % 2)
    return head + "".join(made)


def texts_of_page(page: str) -> list[str]:
    """Every text of a page of Markdown, as the catalogs have it."""
    return _gathered(page_in_other_words, page)


_REMARK: Final = re.compile(r"(?m)(?:^#(?: .*)?\n)+")
_REMARK_WIDTH: Final = 108


def remarks_in_other_words(text: str, said: Callable[[str], str]) -> str:
    """A file of YAML with its remarks put through `said`, those of one place as one; all else stays.

    >>> remarks_in_other_words("# Your tools,\\n# by name.\\ncutting: []\\n", str.upper)
    '# YOUR TOOLS, BY NAME.\\ncutting: []\\n'
    """

    def one(found: re.Match[str]) -> str:
        english = _BLANKS.sub(" ", found[0].replace("\n# ", " ").removeprefix("# ")).strip()
        told = said(english)
        if told == english:
            return found[0]
        lines = textwrap.wrap(told, _REMARK_WIDTH, break_on_hyphens=False)
        return "".join(f"# {line}\n" for line in lines)

    return _REMARK.sub(one, text)


def texts_of_remarks(text: str) -> list[str]:
    """Every remark of a file of YAML, as the catalogs have it."""
    return _gathered(remarks_in_other_words, text)
