"""How a text is said in each language: by `say`, in a table, with numbers, for one and for many."""

from __future__ import annotations

import json
import pickle
from collections.abc import Iterator
from pathlib import Path

import pytest
from markupsafe import escape

from generator.language.say import Later, figure, first_large, first_small, later, say, say_count
from generator.language.spoken import LANGUAGES, language, once_a_language, speak, spoken, written_for
from generator.language.uk import in_uk_words
from generator.render.formats import in_unit

SETTLED = "Decide before starting, and write down what was decided."  # of a plain page, in every catalog


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    yield
    speak("en")


def test_english_is_said_as_it_is_written() -> None:
    assert say("Pass {number}, {depth:.3f} in", number=3, depth=0.0125) == "Pass 3, 0.013 in"
    assert say("{d max} − {P}") == "{d max} − {P}"  # nothing is put in: a formula
    assert say("") == ""


@pytest.mark.parametrize("code", ["de", "en-XA"])
def test_numbers_have_a_comma_where_the_language_has_it(code: str) -> None:
    speak(code)
    assert say("{depth:.3f}", depth=0.0125).strip("⟦⟧") == "0,013"
    assert say("{designation}", designation="M10x1.25").strip("⟦⟧") == "M10x1.25"  # a text is not a number
    assert figure(0.5, ".2f") == "0,50"
    assert in_unit(0.0254, "length", "mm") == "25,400 mm"
    assert in_unit(0.0254, "length", "mm", tidy=True) == "25,4 mm"
    assert in_unit(2540.0, "length", "inch") == "100\u202f000,0000 in"


def test_what_was_said_before_in_another_language_is_said_anew() -> None:
    assert in_unit(0.0127, "length", "inch") == "0.5000 in"
    speak("de")
    assert in_unit(0.0127, "length", "inch") == "0,5000 in"
    speak("en")
    assert in_unit(0.0127, "length", "inch") == "0.5000 in"


def test_a_function_is_called_once_a_language_and_arguments() -> None:
    called = []

    @once_a_language
    def saying(word: str) -> str:
        called.append((spoken().code, word))
        return word

    for code in ("en", "de", "en", "de"):
        speak(code)
        saying("bore")
    saying(word="bore")
    assert called == [("en", "bore"), ("de", "bore"), ("de", "bore")]


def test_one_and_many() -> None:
    assert say_count("{count} pass", "{count} passes", 1) == "1 pass"
    assert say_count("{count} pass of {all}", "{count} passes of {all}", 0, all=7) == "0 passes of 7"
    speak("en-XA")
    assert say_count("{count} pass", "{count} passes", 2) == "⟦2 passes⟧"


def test_a_text_in_a_table_is_english_inside_and_said_where_it_is_shown() -> None:
    text = later(SETTLED)
    speak("en-XA")
    shown = f"⟦{SETTLED}⟧"
    assert text == SETTLED
    assert {SETTLED: 1}[text] == 1
    assert text.english == SETTLED
    assert str(text) == f"{text}" == format(text) == str(escape(text)) == shown
    assert say("{text}", text=text) == f"⟦{shown}⟧"
    assert f"{later('Bore'):>8}" == "  ⟦Bore⟧"
    again = pickle.loads(pickle.dumps(text))
    assert isinstance(again, Later)
    assert str(again) == shown
    assert json.loads(json.dumps({"text": text})) == {"text": SETTLED}


def test_first_letters() -> None:
    assert first_large("steady rest") == "Steady rest"
    assert first_small("Steady rest") == "steady rest"
    speak("en-XA")
    assert first_large(say("steady rest")) == "⟦Steady rest⟧"
    speak("de")
    assert first_small("Lünette") == "Lünette"  # a noun stays large


def test_a_text_that_no_catalog_has_stays_english() -> None:
    speak("de")
    assert say("Nobody says this: {what}.", what=1.5) == "Nobody says this: 1,5."


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_language_has_a_name_and_says(code: str) -> None:
    speak(code)
    assert spoken() is language(code)
    assert spoken().code == code
    assert spoken().name
    assert say(SETTLED).strip("⟦⟧") != ""


def test_there_is_no_other_language() -> None:
    with pytest.raises(KeyError):
        speak("tlh")
    assert spoken().code == "en"


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("language: de\n", "de"),
        ("shop: Saltmarsh\nlanguage:   'en-GB'  # as we speak\n", "en-GB"),
        ('language: "de"\n', "de"),
        ("shop: language: de\n", "en"),
        ("# language: de\n", "en"),
        ("language: fr\n", "en"),
        ("language:\n", "en"),
        ("", "en"),
    ],
)
def test_the_language_is_found_before_anything_is_read(tmp_path: Path, written: str, code: str) -> None:
    (tmp_path / "_shop").mkdir()
    (tmp_path / "_shop" / "house.yml").write_text(written, encoding="utf-8")
    assert written_for(tmp_path) == code


def test_without_a_shop_it_is_english(tmp_path: Path) -> None:
    assert written_for(tmp_path) == "en"
    (tmp_path / "_shop" / "house.yml").mkdir(parents=True)
    assert written_for(tmp_path) == "en"


@pytest.mark.parametrize(
    ("american", "british"),
    [
        ("Live center, center drill, between centers", "Live centre, centre drill, between centres"),
        ("STEADY REST", "FIXED STEADY"),
        ("Set the follow rest.", "Set the travelling steady."),
        ("compound at 29 1/2°, compound gears", "top slide at 29 1/2°, compound gears"),
        ("the dog's tail, lathe dogs", "the carrier's tail, lathe carriers"),
        ("soft, as aluminum", "soft, as aluminium"),
        ("{center} and {dog:.2f}", "{center} and {dog:.2f}"),
        ("center_drill, centering", "center_drill, centring"),
        ("micrometer, diameter, 0.1 millimeters", "micrometer, diameter, 0.1 millimetres"),
    ],
)
def test_british_words(american: str, british: str) -> None:
    """Spellings of the Concise Oxford Dictionary, from memory; words of shops: common practice, no source."""
    assert in_uk_words(american) == british
