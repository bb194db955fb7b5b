"""The order of work as finished strings, each step with the names of its tick and of its reading.

StepRow                   what the template gets
step_rows                 the steps of a sheet -> StepRow
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from generator.render.entries import entry_name
from generator.sheet.model import Sheet


@dataclass(frozen=True)
class StepRow:
    """One step; `reading` names the field of a step that holds for one ("" elsewhere).

    `figures` names what is set or measured in it, `operation` its number in the route ("": none). `passes`:
    the passes are cut in it; `trial`: the step after them.
    """

    text: str
    detail: str
    hold: bool
    entry: str
    reading: str
    figures: tuple[str, ...]
    operation: str
    passes: bool
    trial: bool


def step_rows(sheet: Sheet, ticks: Mapping[str, str]) -> tuple[StepRow, ...]:
    """The steps; an operation of the route shares the tick of its row there (`ticks`, by number)."""
    seen = Counter[tuple[str, str]]()
    threads = {line.number for line in sheet.operations if line.name == "thread"}
    rows: list[StepRow] = []
    for step in sheet.steps:
        seen[step.text, step.detail] += 1
        what = (step.text, step.detail, str(seen[step.text, step.detail]))
        number = str(step.operation) if step.operation else ""
        rows.append(
            StepRow(
                step.text, step.detail, step.hold, ticks.get(number) or entry_name("step", *what),
                entry_name("reading", *what) if step.hold else "", step.figures, number,
                step.operation in threads, bool(rows) and rows[-1].passes,
            )
        )
    return tuple(rows)
