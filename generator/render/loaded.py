"""Style sheets and scripts of the pages, by their names below `site_templates` and in the site.

    STYLES           of every page
    SHEET_SCRIPTS    of a sheet; further those of the archive page and of the page of a set
    loaded_files     all of them, with what is in them
    loaded_text      what is in one of them, in the language of the shop
"""

from __future__ import annotations

from typing import Final

from generator.language import scripts
from generator.render.environment import templates_folder

STYLES: Final = (  # a later one wins: paper over screen
    "site.css", "drawing.css", "sheet.css", "at_machine.css", "take_up.css", "lessons.css",
    "log_rows.css", "lists.css", "alike.css", "archive_pages.css", "explained.css",
    "print.css",
)
SHEET_SCRIPTS: Final = (  # in the order in which they need each other
    "say.js", "left_to_cut.js", "log_text.js", "sheet_data.js", "cards.js", "kept.js", "fields.js",
    "log_piece.js", "large_view.js", "measured.js", "working.js", "unpack.js", "sheet.js", "give_sheet.js",
    "alike.js",
)
ARCHIVE_SCRIPTS: Final = (
    "say.js", "find_data.js", "find_words.js", "find_choice.js", "find_facets.js", "facet_groups.js",
    "ticks.js", "archive.js",
)
ARCHIVE_STYLE: Final = "css/archive.css"  # of the archive page alone
SET_SCRIPTS: Final = ("say.js", "find_data.js", "join_sheets.js", "sheet.js", "gather_sheets.js")
SCRIPTS: Final = tuple(dict.fromkeys((*ARCHIVE_SCRIPTS, *SHEET_SCRIPTS, *SET_SCRIPTS)))
SET_STYLE: Final = "set/set.css"  # of the page of a set alone: it changes the page numbers


def loaded_files() -> list[tuple[str, str]]:
    """Our style sheets and scripts: name in the site, and text."""
    names = [f"css/{name}" for name in STYLES] + [f"js/{name}" for name in SCRIPTS]
    return [(name, loaded_text(name)) for name in (*names, ARCHIVE_STYLE, SET_STYLE)]


def loaded_text(name: str) -> str:
    """A style sheet or script, by its name, with its texts in the language that is spoken now."""
    text = (templates_folder() / name).read_text(encoding="utf-8")
    return scripts.in_other_words(text) if name.endswith(".js") else text
