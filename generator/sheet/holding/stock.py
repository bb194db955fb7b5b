"""The work as it is lifted in: before its cuts, with all the stock that the route takes off."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from generator.calc.balance import Round
from generator.sheet.layout import Layout, Span
from generator.sheet.plans import OperationPlan
from generator.si import Length

SAME = 1e-9  # m: places closer than this are one
OUTSIDE, INSIDE = ("turn", "taper"), ("bore", "drill")


def finished_rounds(layout: Layout) -> tuple[Round, ...]:
    """The work as the job file describes it, length by length."""
    return tuple(
        Round(span.start, span.end, span.od_start, span.od_end, span.bore) for span in layout.spans
    )


def stock_rounds(layout: Layout, plans: Iterable[OperationPlan]) -> tuple[Round, ...]:
    """The same with what its cuts start from where that is more: diameters, bores, stock on the end."""
    cuts = [plan for plan in plans if plan.name in (*OUTSIDE, *INSIDE)]
    marks = {span.start for span in layout.spans} | {layout.stick_out}
    marks.update(x for plan in cuts for x in (plan.start, plan.end))
    low, high = layout.spans[0].start, layout.stick_out
    places = sorted(x for x in marks if low <= x <= high)
    rounds = []
    for start, end in pairwise(places):
        span = layout.span_at((start + end) / 2)
        if end - start > SAME and span is not None:
            rounds.append(_round(start, end, span, cuts))
    faced = _faced(layout, plans)
    if faced and rounds:
        last = rounds[-1]
        rounds.append(Round(last.end, last.end + faced, last.od_end, last.od_end, last.bore))
    return tuple(rounds)


def _round(start: Length, end: Length, span: Span, cuts: list[OperationPlan]) -> Round:
    here = [
        plan for plan in cuts
        if min(plan.start, plan.end) < end - SAME and max(plan.start, plan.end) > start + SAME
    ]
    outside = [plan.from_diameter for plan in here if plan.name in OUTSIDE and not plan.inside]
    inside = [plan.from_diameter for plan in here if plan.name in INSIDE]
    return Round(
        start, end, max(span.od_at(start), *outside, 0.0), max(span.od_at(end), *outside, 0.0),
        min([span.bore, *inside]),
    )


def _faced(layout: Layout, plans: Iterable[OperationPlan]) -> Length:
    """What facing takes off the tailstock end (m)."""
    return sum(
        sum(plan.depths) for plan in plans
        if plan.name == "face" and max(plan.start, plan.end) >= layout.stick_out - SAME
    )
