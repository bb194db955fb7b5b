"""What nobody said: figures not known, and those that common practice stands in for.

AssumedLine               figures that belong together, and the value of each
missing_lines             what is not known, with the reason
assumed_lines             what is assumed
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.language.say import later, say, say_count
from generator.render.figure_line import FigureLine
from generator.sheet.figure import Figure, Kind
from generator.sheet.model import Sheet

TIMES = later("Times")


@dataclass(frozen=True)
class AssumedLine:
    """What the figures belong to, and of each its words, its value and that in the other unit."""

    label: str
    values: tuple[tuple[str, str, str], ...]


def missing_lines(sheet: Sheet) -> tuple[str, ...]:
    """Each figure that is not known, with the reason; of an operation the first, which most follow from."""
    found = []
    for together, figures in _grouped(sheet, Kind.UNKNOWN):
        first, rest = figures[0], len(figures) - 1
        said = f"{first.label}: {first.note}" if first.note else str(first.label)
        if together and rest:
            said += say_count(
                "; with it {count} more figure of the route",
                "; with it {count} more figures of the route",
                rest,
            )
        found.append(said)
    return tuple(found)


def assumed_lines(sheet: Sheet, lines: Mapping[str, FigureLine]) -> tuple[AssumedLine, ...]:
    """Each figure that is assumed; those of one operation, and the times, together."""
    found = []
    for together, figures in _grouped(sheet, Kind.ASSUMED):
        shown = [lines[figure.name] for figure in figures]
        if together:
            before = say("Time for {words}", words="") if together == TIMES else f"{together}: "
            values = ((line.label.removeprefix(before), line.first, line.second) for line in shown)
            found.append(AssumedLine(str(together), tuple(values)))
        else:
            found += [AssumedLine(line.label, (("", line.first, line.second),)) for line in shown]
    return tuple(found)


def _grouped(sheet: Sheet, kind: Kind) -> Iterable[tuple[str, list[Figure]]]:
    """The figures of a kind in their order; those of an operation, or the times, under one title."""
    titles = {f"operation.{line.number}": f"{line.number} {line.title}" for line in sheet.operations}
    groups: dict[str, list[Figure]] = {}
    for figure in sheet.figures.values():
        if figure.kind is not kind:
            continue
        first, _, rest = figure.name.partition(".")
        title = TIMES if first == "time" else titles.get(f"{first}.{rest.partition('.')[0]}", "")
        groups.setdefault(title or f" {figure.name}", []).append(figure)
    for title, figures in groups.items():
        yield ("" if title.startswith(" ") else title), figures
