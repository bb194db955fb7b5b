"""The texts of the scripts: found where Babel's extractor finds them, exchanged without harm to a script."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from pathlib import Path
from re import findall

import pytest
from babel.messages.extract import extract_javascript

from generator.language.scripts import in_other_words, texts_of
from generator.language.spoken import LANGUAGES, speak, spoken
from generator.render.loaded import ARCHIVE_SCRIPTS, SET_SCRIPTS, SHEET_SCRIPTS, loaded_text

SCRIPTS = sorted((Path(__file__).parents[2] / "site_templates" / "js").glob("*.js"))
NAMES = [path.name for path in SCRIPTS]
EVIL = '"</script><!-- \\ \n'


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    yield
    speak("en")


def text_of(name: str) -> str:
    return next(path for path in SCRIPTS if path.name == name).read_text(encoding="utf-8")


def forms(script: str) -> Iterator[str]:
    """Every text of a script, that for one and that for many apart."""
    for text in texts_of(script):
        yield from (text,) if isinstance(text, str) else text


@pytest.mark.parametrize("name", NAMES)
def test_every_text_that_babel_finds_in_a_script_is_found(name: str) -> None:
    """Babel looks into no call within a call, and so it finds fewer."""
    source = io.BytesIO(text_of(name).encode())
    found = {
        text
        for _, function, messages, _ in extract_javascript(source, ["say", "sayCount"], [], {"jsx": "false"})
        for text in ([messages] if isinstance(messages, str) else messages[: 1 if function == "say" else 2])
    }
    assert found <= set(forms(text_of(name)))


def test_what_is_said_always_stands_in_the_call() -> None:
    """A text that came from elsewhere would stay English."""
    called = r"(?<!function )\b(?:say|sayCount)\((?!…|\s*\")[^\n]*"
    assert [(path.name, found) for path in SCRIPTS for found in findall(called, path.read_text("utf-8"))] == [
        ("say.js", "say(count === 1 ? one : many, Object.assign({ count: count }, parts));")
    ]
    assert sum(len(list(texts_of(path.read_text("utf-8")))) for path in SCRIPTS) > 140


@pytest.mark.parametrize("name", NAMES)
def test_an_english_script_stays_as_it_is(name: str) -> None:
    assert in_other_words(text_of(name)) == text_of(name)


@pytest.mark.parametrize("name", NAMES)
def test_every_text_is_exchanged_and_nothing_else(name: str) -> None:
    speak("en-XA")
    said = in_other_words(text_of(name))
    assert list(forms(said)) == [f"⟦{text}⟧" for text in forms(text_of(name))]
    bare = said.replace("⟦", "").replace("⟧", "")
    assert bare.replace('DECIMAL_SIGN = ","', 'DECIMAL_SIGN = "."') == text_of(name)


@pytest.mark.parametrize(("code", "sign"), [("en", "."), ("en-GB", "."), ("de", ","), ("en-XA", ",")])
def test_the_scripts_know_the_decimal_sign(code: str, sign: str) -> None:
    speak(code)
    assert findall(r"DECIMAL_SIGN = (.*);", in_other_words(text_of("say.js"))) == [f'"{sign}"']


def test_british_shops_read_british_words() -> None:
    speak("en-GB")
    said = set(forms(in_other_words(text_of("measured.js"))))
    assert {"That looks like millimetres: {size} meant?", "Left on the top slide"} <= said


def test_no_translation_can_end_a_literal_or_the_element_that_it_stands_in(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    speak("en-XA")
    monkeypatch.setattr(spoken(), "text", lambda english: EVIL + english)
    said = in_other_words('say("Hold"); sayCount("{count} job", "{count} jobs", 2);')
    assert "</" not in said
    assert "<!" not in said
    literals = findall(r'"(?:[^"\\]|\\.)*"', said)  # JavaScript takes \! for !, JSON does not
    assert [json.loads(one.replace(r"\!", "!")) for one in literals] == [
        EVIL + "Hold", EVIL + "{count} job", EVIL + "{count} jobs",
    ]


@pytest.mark.parametrize("code", LANGUAGES)
def test_the_ways_of_accepting_stand_in_one_order_in_every_language(code: str) -> None:
    speak(code)
    (own,) = findall(r'WAYS\.join\(" "\), say\("([^"]+)"\)', in_other_words(text_of("log_text.js")))
    assert len(own.split(" ")) == 5


def test_a_script_is_loaded_in_the_language_of_the_shop() -> None:
    speak("en-XA")
    assert 'say("⟦HOLD⟧")' in loaded_text("js/cards.js")
    assert "⟦" not in loaded_text("css/print.css")


@pytest.mark.parametrize("scripts", [ARCHIVE_SCRIPTS, SHEET_SCRIPTS, SET_SCRIPTS])
def test_what_says_the_texts_is_loaded_first(scripts: tuple[str, ...]) -> None:
    assert scripts[0] == "say.js"
