"""The German catalog has every text, with the same places in it, and no other."""

from __future__ import annotations

import re
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog

from generator.language.fragments import INLINE
from tests.language import catalog as catalogs
from tests.language.catalog import Text

TAG = re.compile(rf"</?(?:{'|'.join(sorted(INLINE))})\b")
TEMPLATE = re.compile(r"\{\{.*?\}\}|\{%.*?%\}")
ENDS = re.compile(r"\A(\s*)(?:\S.*\S|\S)?(\s*)\Z", re.DOTALL)


@pytest.fixture(scope="module")
def german() -> Catalog:
    return catalogs.read("de")


@pytest.fixture(scope="module")
def texts() -> dict[Text, str]:
    return catalogs.texts()


def pairs(german: Catalog) -> Iterator[tuple[str, str]]:
    """Each English text with each of its German forms."""
    for message in german:
        if message.id:
            ids = [message.id] if isinstance(message.id, str) else list(message.id)
            forms = [message.string] if isinstance(message.string, str) else list(message.string)
            yield from zip(ids, forms, strict=True)


def places(text: str) -> set[str]:
    """What is put into a text: whole expressions of templates, or names with their forms."""
    if "{{" in text or "{%" in text:
        return set(TEMPLATE.findall(text))
    try:
        return {
            f"{name}!{how}:{form}" for _, name, form, how in string.Formatter().parse(text)
            if name is not None
        }
    except ValueError:  # a lone brace: it is said as it is
        return set(re.findall(r"\{[^{}]*\}", text))


def test_every_text_is_in_it_and_nothing_else(german: Catalog, texts: dict[Text, str]) -> None:
    """`python tests/language/catalog.py` brings it up to date; then translate what is new."""
    there = {message.id if isinstance(message.id, str) else tuple(message.id) for message in german} - {""}
    assert sorted(map(str, set(texts) - there)) == []
    assert sorted(map(str, there - set(texts))) == []


def test_every_text_is_translated(german: Catalog) -> None:
    assert [english for english, said in pairs(german) if not said.strip() and english.strip()] == []


def test_what_is_put_in_is_the_same(german: Catalog) -> None:
    wrong = {
        english: said for english, said in pairs(german)
        if places(english) != places(said) and "{count" not in english
    }
    assert wrong == {}


def test_a_form_for_one_puts_in_nothing_that_the_other_lacks(german: Catalog) -> None:
    for english, said in pairs(german):
        if "{count" in english:
            assert places(said) - {"count!None:"} <= places(english) | {"count!None:"}, english


def test_tags_and_the_blanks_at_the_ends_are_the_same(german: Catalog) -> None:
    for english, said in pairs(german):
        assert sorted(TAG.findall(english)) == sorted(TAG.findall(said)), english
        assert ENDS.sub(r"\1|\2", english) == ENDS.sub(r"\1|\2", said), english


def test_bringing_it_up_to_date_changes_nothing(
    german: Catalog, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(catalogs, "CATALOGS", tmp_path)
    catalogs.write(catalogs.brought_up_to_date(german), "de")
    here = catalogs.ROOT / "generator" / "language" / "de.po"
    assert (tmp_path / "de.po").read_text(encoding="utf-8") == here.read_text(encoding="utf-8")


# -- words of the standards --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("english", "german_word"),
    [  # DIN 2244:2002 and DIN ISO 5408, DIN 6580, DIN 76-1, ANSI Z535.6 with DIN EN 82079-1; from memory
        ("Major diameter", "Außendurchmesser"),
        ("Pitch diameter", "Flankendurchmesser"),
        ("Minor diameter", "Kerndurchmesser"),
        ("Pitch", "Teilung"),
        ("Lead", "Steigung"),
        ("length of engagement", "Einschraublänge"),
        ("DANGER", "GEFAHR"),
        ("WARNING", "WARNUNG"),
        ("CAUTION", "VORSICHT"),
        ("Setup sheet", "Einrichteblatt"),
        ("Lathe", "Drehmaschine"),
    ],
)
def test_words_are_those_of_the_standards(german: Catalog, english: str, german_word: str) -> None:
    message = german.get(english)
    assert message is not None, english
    assert str(message.string) == german_word
