"""The pages on which the site explains itself, made only where the program or their texts are others.

    how_to_pages         the pages of tasks, written by hand in site_templates/help
    explained_contents   these, and every page about figures and findings
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Final

from generator.archive.listed import Content
from generator.language.say import say
from generator.render.environment import templates_folder
from generator.site.program_key import folder_key, word
from generator.site.program_lists import ProgramLists

HOW_TO: Final = "help/how-to"


@dataclass(frozen=True)
class HowTo:
    """A page of tasks: its text, its address from the top of the site, its title."""

    text: Path
    address: str
    title: str


def how_to_pages() -> list[HowTo]:
    """The pages in their order: a file is called 1-job-file.md, and its first line is its title."""
    found = []
    for path in sorted((templates_folder() / "help").glob("*.md")):
        with path.open(encoding="utf-8") as text:
            title = say(text.readline().removeprefix("#").strip())
        found.append(HowTo(path, f"{HOW_TO}/{path.stem.partition('-')[2]}.html", title))
    return found


def explained_contents(lists: ProgramLists) -> Iterator[Content]:
    """The files of these pages, for the theme's frame."""
    key = word(*(folder_key(templates_folder() / name) for name in ("explain", "help")))
    for task in how_to_pages():
        yield Content(task.address, key, partial(_how_to, task.text), task.title)
    for page in lists("explained_pages"):
        yield Content(page["address"], key, partial(_page, page["address"]), page["title"])


def _page(address: str) -> str:
    from generator.explain import pages

    return pages.page_body(address)


def _how_to(text: Path) -> str:
    from generator.explain import pages

    return pages.how_to_body(text.read_text(encoding="utf-8"))
