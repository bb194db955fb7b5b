"""The settings of the site, what is kept of the program, and a job's row, in the language of the shop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from mkdocs.config import load_config

from generator.archive.listed import Listed
from generator.archive.lists import list_pages
from generator.framework.said import OWN, say_settings
from generator.language.say import later
from generator.language.spoken import speak
from generator.render.environment import templates_folder
from generator.sheet.row import ArchiveRow, ThreadRow
from generator.site.archive import _said
from generator.site.kept import Cache
from generator.site.program_lists import ProgramLists

SETTINGS = templates_folder() / "mkdocs.yml"


@pytest.fixture(autouse=True)
def marked() -> Iterator[None]:
    """Every text stands in marks, so that those that are not said can be told."""
    speak("en-XA")
    yield
    speak("en")


def test_the_settings_of_the_program_are_said() -> None:
    config = load_config(str(SETTINGS))
    say_settings(config)
    assert (config.site_name, config.nav[0]) == ("⟦Setup sheets⟧", {"⟦Archive⟧": "index.md"})
    switches = [one["toggle"]["name"] for one in config.theme["palette"]]
    assert switches == ["⟦Switch to dark⟧", "⟦Switch to light⟧"]
    assert config.theme["language"] == "en"


def test_all_words_of_the_settings_are_known() -> None:
    speak("en")
    config = load_config(str(SETTINGS))
    named = [title for entry in config.nav for title in entry]
    below = [one for entry in config.nav for one in entry.values() if isinstance(one, list)]
    inner = [title for entries in below for entry in entries for title in entry]
    assert {*named, *inner, config.site_name, config.site_description} <= OWN


def test_what_a_shop_wrote_in_the_settings_stays(tmp_path: Path) -> None:
    own = tmp_path / "mkdocs.yml"
    own.write_text(
        f"INHERIT: {SETTINGS}\nsite_name: Our sheets\ndocs_dir: {SETTINGS.parent / 'pages'}\n"
        f"theme: {{custom_dir: {SETTINGS.parent / 'theme'}}}\nnav: [Ours: index.md, Help: help.md]\n"
    )
    config = load_config(str(own))
    say_settings(config)
    assert (config.site_name, config.nav) == ("Our sheets", [{"Ours": "index.md"}, {"⟦Help⟧": "help.md"}])


def test_lists_of_the_program_are_kept_for_each_language(tmp_path: Path) -> None:
    with Cache(tmp_path / "cache") as cache:
        marked = ProgramLists(cache)("set_tools")
        speak("en")
        plain = ProgramLists(cache)("set_tools")
        speak("en-XA")
        assert ProgramLists(cache)("set_tools") == marked
    assert "⟦everything⟧" in marked
    assert ">everything<" in plain
    assert "⟦" not in plain


def test_a_row_is_kept_with_its_words_said() -> None:
    family = later("ISO metric threads")
    thread = ThreadRow("M30x2", family, "30 mm", 0.03, "2 mm", 0.002, 1, "left", "inside")
    row = _said(ArchiveRow("A", "Pin", "2026", "done", thread=thread, holding=(later("chuck"),)))
    assert row.thread == replace(thread, family="⟦ISO metric threads⟧")
    assert row.holding == ("⟦chuck⟧",)


def test_a_list_says_its_heads_once_for_narrow_screens() -> None:
    row = ArchiveRow("A", "Pin", "2026", "in work", material="steel")
    page = next(list_pages([Listed("sheets/2026/A.html", row, "1")]))
    made = page.make()
    assert made.count("⟦Holding⟧") == 1
    assert made.count("--head-6") == 1
    assert "⟦in work⟧" in made
