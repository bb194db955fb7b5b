"""Sheets that are printed as one set.

set_tools        the choice of what is printed, for the site's page of a set
set_document     bodies of sheets -> one file with all they need, to be opened in a browser

The sheets stand in the document one after the other as each was made: what they show and their running heads
need no more. That two sheets share no id is seen to in the browser (`js/join_sheets.js`), which has to do it
for the sheets that are ticked in the archive, and so there is one way of doing it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from generator.language.say import say
from generator.language.spoken import spoken
from generator.render.css_words import OF_PAGES, css_numbers, css_set
from generator.render.environment import environment
from generator.render.loaded import SET_STYLE, STYLES, loaded_text
from generator.render.policy import policy, policy_element
from generator.render.print_choice import EVERYTHING, print_choices

MARK: Final = "<!-- Setup sheets in one file, written by the command print, which may replace it. -->"
SCRIPTS: Final = ("join_sheets.js", "sheet.js")
PAPERS: Final = ("A4", "Letter")


def set_tools() -> Markup:
    """The choice of what is printed of every sheet of a set."""
    tools = environment().get_template("set/tools.html")
    return Markup(tools.render(print_choices=print_choices(), of_pages=_of_pages()))


def _of_pages() -> Markup:
    """What stands behind the number of a page: which page of the set it is, besides."""
    _, behind = css_numbers(say("Page {number} of this sheet, {page} of {all} of the set"))
    return Markup(css_set(OF_PAGES, behind))


def set_document(
    numbers: Sequence[str],
    bodies: Sequence[str],
    part: str = EVERYTHING,
    paper: str = "",
) -> str:
    """One whole page of the sheets in `bodies`, with nothing beside it.

    Parameters
    ----------
    numbers
        The job numbers, in the order of the bodies.
    part
        What of each sheet is printed, a word of `print_choice.PARTS`.
    paper
        A size of `PAPERS`; empty leaves it to the printer.
    """
    scripts = [Markup("\n{}\n").format(_read(f"js/{name}")) for name in SCRIPTS]
    return (
        environment()
        .get_template("set/document.html")
        .render(
            language=spoken().code,
            mark=Markup(MARK),
            numbers=" ".join(numbers),
            bodies=[Markup(body) for body in bodies],
            styles=[*(_read(f"css/{name}") for name in STYLES), _read(SET_STYLE), _of_pages(), *_size(paper)],
            scripts=scripts,
            policy=policy_element(policy(scripts, beside=False)),
            print_choices=print_choices(part),
        )
        + "\n"
    )


def _read(name: str) -> Markup:
    """A file of ours, for a style or script element: it holds neither's end tag."""
    return Markup(loaded_text(name).strip())


def _size(paper: str) -> list[Markup]:
    return [Markup(f"@page {{ size: {paper}; }}")] if paper in PAPERS else []
