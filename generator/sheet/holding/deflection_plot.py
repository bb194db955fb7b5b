"""The plot of what the last cuts leave on the diameter, along the work."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from generator.language.say import first_large, say
from generator.sheet.drawn import Curve, Mark, PlotScene
from generator.sheet.head import ZERO_WORDS
from generator.sheet.holding.case import Case
from generator.sheet.holding.cut_line import ERROR_SHARE, CutWalk
from generator.sheet.holding.shape import NOTHING, shape_words

ROWS: Final = 7  # places of the table, the ends and the worst among them
DRAWN: Final = 67  # points of a curve
BESIDE: Final = 1.0  # length of the cuts drawn beside them, towards the chuck


def deflection_plot(case: Case, leading: CutWalk, shaped: Sequence[CutWalk]) -> tuple[PlotScene, ...]:
    """The leading cut's error and the worst of the others beside it; nothing where none can be measured."""
    held, holding = case.held, case.bench.job.holding
    main = leading if leading.shaped else None
    others = [cut for cut in shaped if cut is not main]
    second = max(others, key=lambda cut: abs(cut.shape.worst), default=None)
    if main is None:
        return ()
    drawn = [main] if second is None else [main, second]
    if all(abs(cut.shape.worst) < NOTHING for cut in drawn):
        return ()
    curves = [Curve(_name(main), _points(main))]
    if second is not None:
        curves.append(Curve(_name(second), _points(second), "second"))
    limit, out, low = _limit(main), held.layout.stick_out, _from(drawn)
    if limit is not None:
        curves.append(Curve(say("A quarter of the tolerance"), ((low, limit), (out, limit)), "limit"))
    marks = [Mark(ZERO_WORDS[holding.held.kind], 0.0)]
    if case.plan.steady_at is not None:
        marks.append(Mark(say("steady rest"), case.plan.steady_at))
    if holding.center is not None:
        marks.append(Mark(say("center"), out))
    return (
        PlotScene(
            id="deflection",
            title=say("What the last cuts leave"),
            x_label=say("Along the work, from the {origin}", origin=held.origin),
            x_quantity="length",
            y_label=say("Diameter error"),
            y_quantity="fine_length",
            curves=tuple(curves),
            heads=(_name(main), say("From the {origin}", origin=held.origin),
                   say("Deflection, heaviest cut"), say("Diameter error, last cut")),
            columns=("length", "fine_length", "fine_length"),
            rows=_rows(main),
            caption=say("Diameter error after the last cut: bigger is up, smaller is down. "
                        "Spring passes take part of it out."),
            says=f"{first_large(main.what)} {shape_words(main, held)}.",
            system=held.system,
            job=held.job.job,
            marks=tuple(mark for mark in marks if mark.x >= low),
        ),
    )


def _from(drawn: Sequence[CutWalk]) -> float:
    """Where the plot begins (m): as far from the cuts as they are long, or at the jaws where that is near."""
    low = min(float(cut.places[0]) for cut in drawn)
    high = max(float(cut.places[-1]) for cut in drawn)
    return max(low - BESIDE * (high - low), 0.0)


def _name(cut: CutWalk) -> str:
    return f"{cut.load.number} {cut.load.title}"


def _points(cut: CutWalk) -> tuple[tuple[float, float], ...]:
    rows = np.linspace(0, len(cut.places) - 1, DRAWN).round().astype(int)
    return tuple(zip(cut.places[rows].tolist(), cut.error[rows].tolist(), strict=True))


def _limit(cut: CutWalk) -> float | None:
    """A quarter of the tolerance, on the side of the error (m)."""
    if cut.load.tolerance is None:
        return None
    return float(np.copysign(ERROR_SHARE * cut.load.tolerance, cut.shape.worst))


def _rows(cut: CutWalk) -> tuple[tuple[str, tuple[float | str | None, ...]], ...]:
    last = len(cut.places) - 1
    worst = int(np.abs(cut.error).argmax())
    names = {round(number * last / (ROWS - 1)): "" for number in range(ROWS)}
    nearest = min(names, key=lambda row: abs(row - worst))
    if worst not in names and nearest not in (0, last):
        del names[nearest]
    names[worst] = say("worst")
    names[0] = say("end towards the headstock, worst") if worst == 0 else say("end towards the headstock")
    names[last] = (
        say("end towards the tailstock, worst") if worst == last else say("end towards the tailstock")
    )
    return tuple(
        (names[row], (float(cut.places[row]), float(cut.away.at_tool[row]), float(cut.error[row])))
        for row in sorted(names)
    )
