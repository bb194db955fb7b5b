"""The languages that texts can be said in, and the one that this process speaks.

In reading order:

    Language, British, Translated, Marked   how a language says texts and figures
    LANGUAGES, OFFERED, language            all of them, by the code that a shop's house.yml has
    speak, spoken                           the one of this process
    written_for                             the one that a shop wants, found without reading its files whole
    once_a_language                         keeps what a function has made, for each language apart
"""

from __future__ import annotations

import gettext
import io
import re
from collections.abc import Callable, Mapping
from functools import cache, lru_cache, wraps
from pathlib import Path
from string import Formatter
from typing import Any, Final, ParamSpec, TypeVar, cast

from generator.language.uk import in_uk_words

_P = ParamSpec("_P")
_T = TypeVar("_T")
CATALOGS: Final = Path(__file__).resolve().parent
MARKS: Final = ("\u27e6", "\u27e7")  # white square brackets: no text has them
_WANTED: Final = re.compile(r"(?m)^language:[ \t]*[\"']?([\w-]+)")


class Language:
    """English as the texts stand in the code: American words, decimal points."""

    code = "en"
    name = "English, American words"

    def text(self, english: str) -> str:
        """A text in this language."""
        return english

    def counted(self, one: str, many: str, count: int) -> str:
        """The form of a text that belongs to a number."""
        return one if count == 1 else many

    def filled(self, text: str, parts: Mapping[str, Any]) -> str:
        """A text of this language with its parts put in."""
        return text.format(**parts)

    def figures(self, number: str) -> str:
        """A number, written with a point, in this language."""
        return number

    def begun(self, text: str) -> str:
        """A text with its first letter large."""
        return text[:1].upper() + text[1:]

    def continued(self, text: str) -> str:
        """A text as it goes on within a sentence."""
        return text[:1].lower() + text[1:]


class British(Language):
    """English with British words of the trade."""

    code = "en-GB"
    name = "English, British words"

    def text(self, english: str) -> str:
        """A text with its words exchanged, before anything of a job is put into it."""
        return in_uk_words(english)

    def counted(self, one: str, many: str, count: int) -> str:
        """The form of a text that belongs to a number."""
        return self.text(super().counted(one, many, count))


class _Commas(Formatter):
    """Fills in parts as `str.format` does, and writes the numbers among them with a comma."""

    def format_field(self, value: Any, format_spec: str) -> str:
        """One part; numbers only, as texts are written by whoever made them."""
        text: str = format(value, format_spec)
        if not isinstance(value, int | float):
            return text
        if "," in format_spec:  # thousands: apart by a narrow space, as ISO 80000-1 has it
            text = text.replace(",", "\u202f")
        return text.replace(".", ",")


class WithCommas(Language):
    """What languages with decimal commas have in common."""

    _formatter: Final = _Commas()

    def filled(self, text: str, parts: Mapping[str, Any]) -> str:
        """A text of this language with its parts put in, numbers with a comma."""
        if any(isinstance(part, int | float) for part in parts.values()):
            return self._formatter.vformat(text, (), parts)
        return text.format(**parts)

    def figures(self, number: str) -> str:
        """A number, written with a point, with a comma."""
        return number.replace(".", ",")


class Translated(WithCommas):
    """A language of a catalog beside this file, with decimal commas."""

    def __init__(self, code: str, name: str) -> None:
        from babel.messages.mofile import write_mo  # here: most shops speak English
        from babel.messages.pofile import read_po

        self.code, self.name = code, name
        compiled = io.BytesIO()
        with (CATALOGS / f"{code}.po").open("rb") as file:
            write_mo(compiled, read_po(file, locale=code))
        compiled.seek(0)
        self._catalog = gettext.GNUTranslations(compiled)

    def text(self, english: str) -> str:
        """A text of the catalog; one that is not in it stays English."""
        return self._catalog.gettext(english) if english else ""

    def counted(self, one: str, many: str, count: int) -> str:
        """The form of a text that belongs to a number, by the rule in the catalog's head."""
        return self._catalog.ngettext(one, many, count)

    def continued(self, text: str) -> str:
        """The same text: whether its first word is a noun, which stays large, nobody knows here."""
        return text


class Marked(WithCommas):
    """English with a mark around each text that is said, and decimal commas: it shows those that are not."""

    code = "en-XA"
    name = "English in marks, for tests"

    def text(self, english: str) -> str:
        """A text between marks."""
        return f"{MARKS[0]}{english}{MARKS[1]}" if english else ""

    def counted(self, one: str, many: str, count: int) -> str:
        """The form of a text that belongs to a number, between marks."""
        return self.text(super().counted(one, many, count))

    def begun(self, text: str) -> str:
        """A text with its first letter large, behind the marks."""
        bare = text.lstrip(MARKS[0])
        return text[: len(text) - len(bare)] + super().begun(bare)

    def continued(self, text: str) -> str:
        """A text as it goes on within a sentence, behind the marks."""
        bare = text.lstrip(MARKS[0])
        return text[: len(text) - len(bare)] + super().continued(bare)


LANGUAGES: Final[Mapping[str, Callable[[], Language]]] = {
    "en": Language,
    "en-GB": British,
    "de": lambda: Translated("de", "Deutsch"),
    "en-XA": Marked,
}
OFFERED: Final = ("en", "en-GB", "de")  # to a shop; the rest is for tests


@cache
def language(code: str) -> Language:
    """One of `LANGUAGES`, made once.

    Raises
    ------
    KeyError
        When there is no such language.
    """
    return LANGUAGES[code]()


_spoken: Language = language("en")


def speak(code: str) -> None:
    """Speak a language from now on, in this process.

    Raises
    ------
    KeyError
        When there is no such language.
    """
    global _spoken
    _spoken = language(code)


def spoken() -> Language:
    """The language that is spoken."""
    return _spoken


def written_for(jobs: Path) -> str:
    """The language that the shop of a jobs folder wants; English where it says nothing, or nothing known.

    The file is not checked here: before any text is said, only one line of it matters.
    """
    try:
        text = (jobs / "_shop" / "house.yml").read_text(encoding="utf-8", errors="replace")
    except OSError:
        return "en"
    found = _WANTED.search(text)
    return found[1] if found and found[1] in LANGUAGES else "en"


def once_a_language(function: Callable[_P, _T]) -> Callable[_P, _T]:
    """Call a function once for the same arguments, in each language that is spoken."""
    kept: dict[str, Callable[_P, _T]] = {}

    @wraps(function)
    def said(*args: _P.args, **named: _P.kwargs) -> _T:
        code = spoken().code
        if code not in kept:
            kept[code] = cast("Callable[_P, _T]", lru_cache(maxsize=4096)(function))
        return kept[code](*args, **named)

    return said
