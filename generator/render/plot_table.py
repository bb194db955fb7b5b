"""The table beside a plot, as finished strings: one unit and one number of decimals for a column."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from generator.render.formats import UNITS, Unit, decimals, digits, places_needed
from generator.render.plot_scale import shown_unit
from generator.sheet.drawn import PlotScene
from generator.sheet.figure import Quantity

NOT_KNOWN = "–"


@dataclass(frozen=True)
class PlotTable:
    """Heads with their units; each row is its word and its values. True marks words among numbers."""

    heads: tuple[tuple[str, bool], ...]  # text, and whether the column is one of words
    rows: tuple[tuple[str, tuple[tuple[str, bool], ...]], ...]


def plot_table(scene: PlotScene) -> PlotTable:
    """The table of a plot."""
    units = [shown_unit(scene, quantity) for quantity in scene.columns]
    columns = [
        _column([values[number] for _, values in scene.rows], unit, quantity)
        for number, (unit, quantity) in enumerate(zip(units, scene.columns, strict=True))
    ]
    first, *others = scene.heads
    words = [quantity == "text" for quantity in scene.columns]
    heads = [f"{head}, {unit.name}" if unit.name else head for head, unit in zip(others, units, strict=True)]
    rows = [
        (word, tuple((column[number], text) for column, text in zip(columns, words, strict=True)))
        for number, (word, _) in enumerate(scene.rows)
    ]
    return PlotTable(((first, True), *zip(heads, words, strict=True)), tuple(rows))


def _column(values: list[float | str | None], unit: Unit, quantity: Quantity) -> list[str]:
    """Values of one column in its unit; words stay words."""
    numbers = [value / unit.si for value in values if isinstance(value, int | float) and isfinite(value)]
    places = None
    if unit.places is not None:
        most = unit.places - 1 if quantity == "length" else unit.places  # a place, not a size to work to
        places = places_needed(numbers, 0, most)

    def shown(value: float | str | None) -> str:
        if isinstance(value, str):
            return value
        if value is None or not isfinite(value):
            return NOT_KNOWN
        number = value / unit.si
        return digits(number, decimals(number, unit) if places is None else places, UNITS[quantity].rounds)

    return [shown(value) for value in values]
