"""The pages on which the site explains its figures and findings, and the lists that lead to them.

    Explained          a page: its address from the top of the site, its title
    explained_pages    all of them
    page_body          one of them, as HTML
    how_to_body        a page of tasks from its text, as HTML
    figure_list        every figure with the place where it is explained
    finding_list       every finding with the same
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from markdown import markdown
from markupsafe import Markup

from generator.explain.figures import figure_entries
from generator.explain.findings import HARM_WORDS, LEVEL_WORDS, finding_entries
from generator.language.fragments import page_in_other_words
from generator.language.say import later, say
from generator.render.environment import environment
from generator.sheet.explained_at import figure_page, figure_place, finding_page, finding_place
from generator.sheet.harm import Harm

CHAPTERS: Final = {  # by the first word of a figure's name
    "job": later("The job"),
    "work": later("The work"),
    "holding": later("How the work is held"),
    "capacity": later("Whether it goes into the lathe"),
    "reach": later("Whether the carriage gets there"),
    "give": later("What gives under the cut"),
    "grip": later("Whether the jaws hold"),
    "thin": later("Thin work in jaws"),
    "strength": later("What is left to carry"),
    "heat": later("Heat"),
    "handling": later("Weight and handling"),
    "found": later("Which thread came in"),
    "thread": later("The thread"),
    "mate": later("The mate"),
    "measure": later("Measuring the thread"),
    "cut": later("Tool and infeed"),
    "passes": later("Passes"),
    "relief": later("Relief and ends of the thread"),
    "spindle": later("Spindle speed"),
    "carriage": later("Carriage speed"),
    "lathe": later("Lathe settings"),
    "operation": later("Operations of the route"),
    "time": later("Time"),
    "log": later("By the log"),
    "take_up": later("Taking it up again"),
}
HARMED: Final = {
    Harm.PEOPLE: (
        later("Findings that bear on people"),
        later("Ignore one of these, and somebody may be hurt."),
    ),
    Harm.LATHE: (later("Findings that bear on the lathe"), later("What meets, stalls, burns or breaks.")),
    Harm.WORK: (later("Findings that bear on the work"), later("What makes scrap of the customer's part.")),
    Harm.TIME: (later("Findings that cost time"), later("What costs time, or is only worth knowing.")),
}


@dataclass(frozen=True)
class Explained:
    """A page by its address from the top of the site."""

    address: str
    title: str


def explained_pages() -> list[Explained]:
    """Every page of figures, in the order of the work, then those of findings, the worst harm first."""
    pages = [Explained(figure_page(first), str(title)) for first, title in CHAPTERS.items()]
    return pages + [Explained(finding_page(harm), str(title)) for harm, (title, _) in HARMED.items()]


def page_body(address: str) -> str:
    """The body of one of these pages."""
    chapter = {figure_page(first): first for first in CHAPTERS}.get(address)
    if chapter is not None:
        return _figures(chapter)
    return _findings(next(harm for harm in HARMED if finding_page(harm) == address))


def how_to_body(text: str) -> str:
    """A page of tasks, which is Markdown of our own with fenced blocks, said block by block."""
    made = markdown(page_in_other_words(text, say), extensions=["def_list", "fenced_code", "tables"])
    return _filled("how_to.html", text=Markup(made))


def figure_list() -> list[dict[str, str]]:
    """Name, label and place of every figure, by name."""
    return [{"name": one.name, "label": one.label, "unit": one.unit, "place": figure_place(one.name)}
            for one in figure_entries().values()]


def finding_list() -> list[dict[str, str]]:
    """Id, levels and harm in words, and place of every finding, by id."""
    return [{"id": one.id, "levels": ", ".join(str(LEVEL_WORDS[level]) for level in one.levels),
             "harm": str(HARM_WORDS[one.harm]), "place": finding_place(one.id)}
            for one in finding_entries().values()]


def _figures(chapter: str) -> str:
    shown = [one for name, one in figure_entries().items() if name.partition(".")[0] == chapter]
    return _filled("figures.html", title=CHAPTERS[chapter], figures=shown)


def _findings(harm: Harm) -> str:
    title, says = HARMED[harm]
    shown = [one for one in finding_entries().values() if one.harm == harm]
    return _filled("findings.html", title=title, says=says, findings=shown, level_words=LEVEL_WORDS)


def _filled(template: str, **filled: Any) -> str:
    found = environment().get_template(f"explain/{template}")
    return found.render(marked=_marked, **filled)


def _marked(text: str) -> Markup:
    """Words of a docstring, which are Markdown."""
    return Markup(markdown(text))
