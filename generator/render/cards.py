"""The large view: one card for each step of the order of work and each pass, read from a metre away.

CardFigure, Card          what the template gets
cards                     steps, route and passes -> Card
card_data                 Card -> what js/cards.js makes them from
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any, Final

from generator.language.say import later, say, say_count
from generator.render.figure_line import FigureLine
from generator.render.folded import Run, folded
from generator.render.pass_table import PassRow, PassTable
from generator.render.route_table import RouteRow, RouteTable
from generator.render.step_rows import StepRow

SET: Final = {
    "tool": later("Tool"),
    "spindle": later("Spindle"),
    "feed": later("Feed"),
    "cuts": later("Cuts"),
    "dial": later("Dial"),
}
NOT_SEATED: Final = "–"  # over wires, in the pass table


@dataclass(frozen=True)
class CardFigure:
    """One figure: its name, and number and unit apart; `words` where it is no number, and so not as large."""

    label: str
    value: str
    unit: str
    words: bool


@dataclass(frozen=True)
class Card:
    """One step or pass. `tick` and `field` name what is ticked and written on it ("" : nothing).

    `planned` is what the field gets by one touch where it was cut as planned; `trial` says that it is a place
    to measure or to try.
    """

    head: str
    title: str
    detail: str
    hold: bool
    marks: tuple[str, ...]
    figures: tuple[CardFigure, ...]
    tick: str
    field: str
    field_label: str
    field_unit: str
    planned: str
    trial: bool
    number: str


def cards(
    steps: Sequence[StepRow], route: RouteTable | None, passes: PassTable | None,
    lines: Mapping[str, FigureLine],
) -> tuple[Card, ...]:
    """All cards in order: the passes stand behind the step in which the thread is cut."""
    rows = {row.number: row for row in route.rows} if route else {}
    found: list[Card] = []
    for count, step in enumerate(steps, 1):
        head = say("Step {count} of {steps}", count=count, steps=len(steps))
        found.append(_step(head, step, rows.get(step.operation), lines))
        if passes is not None and step.passes:
            found += _passes(passes)
    return tuple(found)


def planned(row: PassRow) -> str:
    """What is written where a pass was cut as planned: whole turns, where there are any, and the reading."""
    if row.turns == "0":
        return row.dial
    return say_count("{count} turn {dial}", "{count} turns {dial}", int(row.turns), dial=row.dial)


def _step(head: str, step: StepRow, row: RouteRow | None, lines: Mapping[str, FigureLine]) -> Card:
    figures = [
        CardFigure(lines[name].label, *_apart(lines[name])) for name in step.figures if name in lines
    ]
    if row is not None:
        for setting in row.settings:
            if setting.name in SET and setting.parts:
                text = [f"{part.value} {part.unit}".strip() for part in setting.parts]
                one = setting.parts[0]
                single = len(text) == 1
                figures.append(CardFigure(
                    str(SET[setting.name]), one.value if single else f"{setting.between} ".join(text),
                    one.unit if single else "", bool(one.look) or not single,
                ))
    return Card(
        head, step.text, step.detail, step.hold, (), tuple(figures), step.entry, step.reading,
        say("Write here"), "", "", step.hold and step.trial, "",
    )


def _passes(table: PassTable) -> Iterator[Card]:
    rows = [row for part in table.parts for row in part.rows]
    for row in rows:
        head = say("Pass {number} of {rows}", number=row.number, rows=len(rows))
        figures = [
            CardFigure(say("Turns"), row.turns, "", False),
            CardFigure(say("Dial"), row.dial, table.dial_unit, False),
            CardFigure(say("Cut"), row.cut, table.dial_unit, False),
        ]
        if table.has_over_wires and row.over_wires != NOT_SEATED:
            figures.append(CardFigure(say("Then over wires"), row.over_wires, table.size_unit, False))
        else:
            figures.append(CardFigure(say("Then pitch diameter"), row.pitch_diameter, table.size_unit, False))
        yield Card(
            head, "", say("Set on: {dial}", dial=table.dial), False, row.marks, tuple(figures), "", row.entry,
            say("As cut, dial"), table.dial_unit, planned(row), row.stop_here, row.number,
        )


def _apart(line: FigureLine) -> tuple[str, str, bool]:
    """Number and unit of a figure; words stay whole."""
    number, _, unit = line.first.rpartition(" ")
    if _is_figures(number):
        return number, unit, False
    return line.first, "", not _is_figures(line.first.rstrip("°"))


def _is_figures(number: str) -> bool:
    return number.replace(".", "").replace(",", "").isdigit()


def card_data(found: Sequence[Card]) -> list[Run]:
    """The cards for js/cards.js, figures as columns; what those of one kind share is said once."""
    return folded(
        map(_data, found), lambda row: (row.get("labels"), row.get("planned") and row.get("detail"))
    )


def _data(card: Card) -> dict[str, Any]:
    row = {one.name: getattr(card, one.name) for one in fields(card) if one.name != "figures"}
    columns = {
        "labels": tuple(one.label for one in card.figures),
        "values": tuple(one.value for one in card.figures),
        "units": tuple(one.unit for one in card.figures),
        "words": tuple(int(one.words) for one in card.figures),
    }
    return {name: value for name, value in (row | columns).items() if value}
