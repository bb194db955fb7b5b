"""One figure of a sheet as finished strings, with the number of its working in the appendix.

FigureLine                what the templates get
figure_lines              all figures of a sheet, by name
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from generator.language.say import later, say
from generator.render.formats import written
from generator.render.working import origin_words, working_line
from generator.sheet.explained_at import any_name
from generator.sheet.figure import Figure, Kind, System
from generator.sheet.model import Sheet

OF_OPERATION: Final = "operation.n."  # not written: there are many, and pages have to be light
KIND_WORDS: Final = {
    Kind.MEASURED: later("measured"),
    Kind.GIVEN: later("given"),
    Kind.STANDARD: later("standard"),
    Kind.COMPUTED: later("computed"),
    Kind.SHOP: later("shop's choice"),
    Kind.ASSUMED: later("ASSUMED"),
    Kind.UNKNOWN: later("UNKNOWN"),
}


@dataclass(frozen=True)
class FigureLine:
    """One figure with its kind, the number of its working, and the working itself.

    `noted` is set where the figure stands in no section, so that its note belongs into the appendix. `says`
    is its value in both units, where that is shown beside the working: of what the route opens. `of` is the
    name under which a figure that stands in no section is explained, without the first words of an
    operation's; the row of any other has its name.
    """

    name: str
    label: str
    first: str
    second: str
    kind: str
    number: str
    working: str
    source: str
    note: str
    unknown: bool
    computed: bool
    noted: bool
    says: str
    of: str


def figure_lines(sheet: Sheet) -> dict[str, FigureLine]:
    """Every figure of the sheet, numbered in the order in which they were computed."""
    in_sections = {name for section in sheet.sections for name in section.figures}
    in_route = {name for line in sheet.operations for name in line.figures.values()}
    return {
        name: _figure_line(figure, str(number), sheet.system, name not in in_sections, name in in_route)
        for number, (name, figure) in enumerate(sheet.figures.items(), 1)
    }


def _figure_line(figure: Figure, number: str, system: System, alone: bool, in_route: bool) -> FigureLine:
    shown = written(figure, system)
    notes = [str(figure.note)] if figure.note else []
    if shown.as_written:
        notes.append(say("written “{as_written}”", as_written=shown.as_written))
    kind = str(KIND_WORDS[figure.kind])
    if figure.kind is Kind.MEASURED:
        kind = str(figure.source)  # it begins with the same word
    working = working_line(figure, system)
    if figure.working is not None and (figure.text or figure.where):
        working += f"; {origin_words(figure)}"
    return FigureLine(
        figure.name,
        str(figure.label),
        shown.first,
        shown.second,
        kind,
        number,
        working,
        str(figure.source),
        "; ".join(notes),
        figure.value is None,
        figure.kind is Kind.COMPUTED,
        alone and bool(notes),
        shown.text if (alone or in_route) and (shown.second or not working.endswith(shown.first)) else "",
        any_name(figure.name).removeprefix(OF_OPERATION) if alone else "",
    )
