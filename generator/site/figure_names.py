"""The names of a sheet's figures as the site lists them: those of an operation once, for every number.

figure_names              all of one sheet
"""

from __future__ import annotations

import re
from typing import Final

from generator.archive.figures import FigureName
from generator.language.say import say
from generator.sheet.figure import Kind
from generator.sheet.model import Sheet

_OF_OPERATION: Final = re.compile(r"(operation|give|grip)\.(\d+)\.(.+)")
FROM_FILES: Final = {Kind.GIVEN, Kind.MEASURED, Kind.SHOP, Kind.UNKNOWN}  # their source is a file or a person


def figure_names(sheet: Sheet) -> tuple[FigureName, ...]:
    """Every figure of a sheet, in its order, then its cautions.

    `operation.3.feed` stands as `operation.<n>.feed`, once.
    """
    titles = {str(line.number): f"{line.number} {line.title}: " for line in sheet.operations}
    found: dict[tuple[str, str], FigureName] = {}
    for figure in sheet.figures.values():
        name, label = _general(figure.name, str(figure.label), titles)
        source = "" if figure.kind in FROM_FILES else str(figure.source)
        found.setdefault(
            (name, source), FigureName(name, label, figure.quantity.replace("_", " "), source)
        )
    cautions = dict.fromkeys(str(caution.source) for caution in (*sheet.cautions, *sheet.for_use))
    return (*found.values(), *(FigureName("", say("Cautions"), "", source) for source in cautions))


def _general(name: str, label: str, titles: dict[str, str]) -> tuple[str, str]:
    """Name and label of a figure of one operation as those of any operation."""
    found = _OF_OPERATION.fullmatch(name)
    if found is None:
        return name, label
    part, number, rest = found.groups()
    return f"{part}.<n>.{rest}", say("Operation n: {label}", label=label.removeprefix(titles.get(number, "")))
