"""A sheet for machines: every figure, finding and pass as plain values (``figures --json``)."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from generator.render.formats import UNITS, written
from generator.render.view import finding_where, may_run
from generator.render.working import working_line
from generator.sheet.figure import Figure, Quantity, System
from generator.sheet.lines import PassLine
from generator.sheet.model import Sheet

_FIGURES = 10  # significant figures kept: what lies beyond is float dust


def figures_record(sheet: Sheet, job_path: Path) -> dict[str, Any]:
    """The JSON record of a sheet.

    Values are plain numbers in the figure's own unit, not rounded for show; `text` is what the sheet shows.
    An operation names its figures by the column of the route that they stand in.
    Lengths of the passes are in `pass_unit`, chip areas in its square, forces in `pass_force_unit`. A sheet
    that may not be run has no passes.
    """
    ready = may_run(sheet)
    here = f"{job_path.name}:1"
    return {
        "job": sheet.job,
        "title": sheet.title,
        "ready": ready,
        "units": sheet.system,
        "figures": {name: _figure(figure, sheet.system) for name, figure in sheet.figures.items()},
        "findings": [
            {
                "id": finding.id,
                "level": finding.level,
                "text": finding.text,
                "where": finding_where(finding, here),
                "asks": finding.asks,
            }
            for finding in sheet.findings
        ],
        "cautions": [
            {
                "id": caution.id,
                "signal": caution.signal,
                "text": caution.text,
                "because": caution.because,
                "source": caution.source,
            }
            for caution in sheet.cautions
        ],
        "operations": [
            {
                "number": line.number,
                "name": line.name,
                "title": line.title,
                "detail": line.detail,
                "hold": line.hold,
                "proposed": line.proposed,
                "figures": dict(line.figures),
            }
            for line in sheet.operations
        ],
        "passes": [_pass(line, sheet.system) for line in sheet.passes] if ready else [],
        "log": _log(sheet),
        "take_up": _take_up(sheet),
        "lessons": [
            {
                "kind": one.kind, "text": one.words, "on": one.at, "job": one.number or sheet.job,
                "why": one.why,
            }
            for one in sheet.learned.lines
        ],
        "lessons_left_out": sheet.learned.more,
        "pass_unit": UNITS["length"].unit(sheet.system).name,
        "pass_force_unit": UNITS["force"].unit(sheet.system).name,
    }


def _take_up(sheet: Sheet) -> dict[str, Any] | None:
    """The card of what is stopped: its steps with what stands beside them, in the words of the page."""
    card = sheet.take_up
    if card is None:
        return None
    return {
        "stopped": card.stopped,
        "after": card.after,
        "finished": card.finished,
        "numbers": dict(card.numbers),
        "steps": [
            {"title": step.title, "text": step.text, "left": {name: left for name, left, _ in step.values}}
            for step in card.steps
        ],
        "never_when": list(card.never),
        "ground_anew": list(card.reground),
    }


def _log(sheet: Sheet) -> dict[str, Any] | None:
    """What the log says beside the plan; lengths as those of the passes, times in minutes."""
    history = sheet.history
    if history is None:
        return None

    def length(value: float | None) -> float | None:
        return None if value is None else _plain(value, "length", sheet.system)

    return {
        "entries": [
            {
                "at": line.at, "by": line.by, "operation": line.operation, "pass": line.pass_number,
                "marks": list(line.marks), "said": dict(line.said),
            }
            for line in history.lines
        ],
        "size_by": history.size_by,
        "passes": [
            {
                "pass": one.number, "depth_planned": length(one.plan.depth if one.plan else None),
                "depth": length(one.depth), "expected": length(one.expected), "size": length(one.size),
            }
            for one in history.passes
        ],
        "times": [
            {
                "operation": one.number,
                "estimated": None if one.planned is None else _plain(one.planned, "duration", sheet.system),
                "taken": _plain(one.taken, "duration", sheet.system),
            }
            for one in history.times
        ],
        "says": list(history.says),
        "problems": [str(problem) for problem in history.problems],
    }


def figure_value(figure: Figure, system: System) -> dict[str, Any]:
    """A figure's value in its own unit, not rounded for show, and the name of the unit."""
    own = figure.system or system
    value = figure.value
    if isinstance(value, int | float):
        value = _plain(value, figure.quantity, own)
    return {"value": value, "unit": UNITS[figure.quantity].unit(own).name}


def _figure(figure: Figure, system: System) -> dict[str, Any]:
    return {
        **figure_value(figure, system),
        "working": working_line(figure, system),
        "source": figure.source,
        "assumed": figure.assumed,
        "kind": figure.kind.value,
        "label": figure.label,
        "text": written(figure, system).text,
    }


def _plain(value: float, quantity: Quantity, system: System) -> float | int:
    """A SI value as a plain number in the unit of one system."""
    number = float(f"{value / UNITS[quantity].unit(system).si:.{_FIGURES}g}")
    return int(number) if quantity == "count" else number


def _pass(line: PassLine, system: System) -> dict[str, Any]:
    def length(value: float | None) -> float | None:
        return None if value is None else _plain(value, "length", system)

    return {
        "pass": line.number,
        "depth": length(line.depth),
        "cut": length(line.cut),
        "travel": length(line.travel),
        "dial_turns": line.dial_turns,
        "dial": length(line.dial_reading),
        "chip_area": _plain(line.chip_area, "area", system),
        "pitch_diameter": length(line.pitch_diameter),
        "over_wires": length(line.over_wires),
        "force": None if line.force is None else _plain(line.force, "force", system),
        "spring": line.spring,
        "measure": line.measure,
        "try_mate": line.try_mate,
    }
