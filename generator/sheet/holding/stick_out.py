"""How far the work may stick out of what holds it, and whether a center is enough, from the same beam."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.calc.beam import Segment
from generator.calc.run_out import RunOut, run_out
from generator.calc.slenderness import ALONE
from generator.calc.tool_walk import feed_moment
from generator.language.say import later, say
from generator.sheet.drawn import Curve, Mark, PlotScene
from generator.sheet.figure import System
from generator.sheet.holding.case import Case
from generator.sheet.holding.cut_line import ERROR_SHARE
from generator.sheet.holding.held_work import DUST, HeldWork
from generator.sheet.holding.lengths import FROM, HELD_BY, MANUALS
from generator.sheet.holding.safe_steps import speed_limit
from generator.sheet.holding.support import leading_finish, support_section
from generator.sheet.plans import CutLoad
from generator.sheet.wording import fine_words, length_words
from generator.si import Length

DUNKERLEY = later(
    "Dunkerley's formula (Thomson, Theory of Vibration with Applications), a lower bound; common practice, "
    "no source"
)
SHOWN = 1.25        # times the longest stick-out that has a name
LOOKED_AT = 3.0     # times the stick-out now, or the rule's, as far as it is worked out
POINTS = 80         # of the curve


@dataclass(frozen=True, eq=False)
class Alone:
    """The work alone in what holds it, run out; `error` (n,) m of diameter for the last cut of `load`.

    `diameter` is that at the jaws, `rule` the longest stick-out by the rule of thumb, `most` the longest for
    the error `limit`, `whips` the one at which the cut's speed gets too near to the critical one (m); None
    where there is none so near.
    """

    load: CutLoad
    found: RunOut
    error: NDArray[np.float64]
    now: Length
    diameter: Length
    rule: Length
    limit: Length | None
    most: Length | None
    whips: Length | None

    def error_at(self, out: Length) -> Length:
        """Diameter error at a stick-out (m)."""
        return float(np.interp(out, self.found.out, self.error))


def stick_out_section(case: Case) -> tuple[PlotScene, ...]:
    """Lay down how far the work may stand out alone, and what support it wants; return the plot.

    None where nothing is turned along the work, the material is unknown, something supports it, or it stands
    out so little that nobody asks.
    """
    load = leading_finish(case)
    if case.held.material is None or load is None:
        return ()
    support_section(case, load)
    holding = case.held.job.holding
    if holding.center is not None or holding.steady is not None:
        return ()
    alone = _run_out(case, load)
    if alone is None or not _matters(alone):
        return ()
    _lay(case, alone)
    return (_plot(case, alone),)


def _matters(alone: Alone) -> bool:
    """True for work that stands out by more than its diameter, or too far for its tolerance.

    Not for a wire that bends away by more than its diameter: no small movement of a beam says how far.
    """
    if alone.error_at(alone.now) > alone.load.diameter:
        return False
    return alone.now > alone.diameter or (alone.most is not None and alone.most < alone.now)


# -- run out ----------------------------------------------------------------------------------------------


def _from_end(held: HeldWork, load: CutLoad) -> list[Segment]:
    """The work after the cut, counted from its free end: what stands out, then what is in the jaws."""
    out, segments = held.layout.stick_out, []
    for one in reversed(held.beam_under(load, None).segments):
        od_end = one.od if one.od_end is None else one.od_end
        segments.append(Segment(out - one.end, out - one.start, od_end, one.bore, one.od))
    for span in reversed(held.layout.spans):
        low, high = span.start, min(span.end, 0.0)
        if high - low > DUST:
            end = segments[-1].end
            segments.append(Segment(end, end + high - low, span.od_at(high), span.bore, span.od_at(low)))
    return segments


def _run_out(case: Case, load: CutLoad) -> Alone | None:
    """The curve of the last cut's error over the stick-out, and the places on it that have a name."""
    held, now = case.held, case.held.layout.stick_out
    material, at_jaws = held.material, held.layout.span_at(0.0)
    assert material is not None
    if at_jaws is None:
        return None
    own = case.bench.house.stick_out_check
    diameter = at_jaws.od_at(0.0)
    rule = (own.si if own else ALONE) * diameter
    tool = max(now - load.high, 0.0)
    found = run_out(
        _from_end(held, load), material.elastic_modulus, material.density, held.chuck_stiffness, tool,
        LOOKED_AT * max(now, rule, 2 * tool),
    )
    moment = feed_moment(load.last.feed, load.diameter / 2, inside=load.inside)
    error = 2 * np.abs(load.last.radial * found.push + moment * found.tilt)
    limit = ERROR_SHARE * load.tolerance if load.tolerance else None
    most = None if limit is None else _crossing(found, error, limit)
    whips = None
    if load.spindle_speed:
        times = load.spindle_speed / (speed_limit(case.bench.house) * found.whirl)
        whips = _crossing(found, times, 1.0)
    return Alone(load, found, error, now, diameter, rule, limit, most, whips)


def _crossing(found: RunOut, rising: NDArray[np.float64], value: float) -> Length | None:
    """The stick-out at which a curve first goes over a value; None when it stays below all along."""
    over = np.nonzero(rising > value)[0]
    if not len(over):
        return None
    first = int(over[0])
    beside = slice(max(first - 1, 0), first + 1)
    return float(np.interp(value, rising[beside], found.out[beside]))


# -- figures ----------------------------------------------------------------------------------------------


def _lay(case: Case, alone: Alone) -> None:
    desk, held, load = case.desk, case.held, alone.load
    kind = held.job.holding.held.kind
    what = load.what
    if alone.most is not None and alone.limit is not None:
        desk.computed(
            "give.stick_out.most",
            say("Longest stick-out alone, by a quarter of the tolerance"),
            alone.most,
            "length",
            say("the stick-out at which 2 × {F last} ÷ {stiffness under the tool} = {quarter of the "
                "tolerance}"),
            {
                "F last": (load.last.radial, "force"),
                "stiffness under the tool": (2 * load.last.radial / alone.limit, "stiffness"),
                "quarter of the tolerance": (alone.limit, "fine_length"),
            },
            say("unit-load method (Gere, Mechanics of Materials), the {kind} elastic; common practice, no "
                "source", kind=HELD_BY[kind]),
            note=say(
                "for the last cut of {what}; the same work gripped further in or out; longer work taken "
                "as going on as thick as its end in the {from_}",
                what=what,
                from_=FROM[kind],
            ),
            rounds="down",
        )
    desk.computed(
        "give.stick_out.rule",
        say("Longest stick-out alone, by the rule of thumb"),
        alone.rule,
        "length",
        "{diameters} × {D}",
        {"diameters": (alone.rule / alone.diameter, "ratio"), "D": (alone.diameter, "length")},
        MANUALS,
        rounds="down",
    )
    if alone.whips is not None and load.spindle_speed:
        desk.computed(
            "give.stick_out.speed", say("Longest stick-out alone, by its speed"), alone.whips, "length",
            say("the stick-out at which {n} = {share} × n critical"),
            {"n": (load.spindle_speed, "spindle_speed"), "share": (speed_limit(case.bench.house), "ratio")},
            DUNKERLEY, note=say("at the step of {what}", what=what), rounds="down",
        )


# -- the plot ---------------------------------------------------------------------------------------------


def _plot(case: Case, alone: Alone) -> PlotScene:
    system, load = case.held.system, alone.load
    kind = case.held.job.holding.held.kind
    named = [
        (say("as it is"), alone.now),
        (say("rule of thumb"), alone.rule),
        (say("quarter of the tolerance"), alone.most),
        (say("begins to whip"), alone.whips),
    ]
    ends = [x for _, x in named[:3] if x is not None]
    far = min(SHOWN * max(ends), float(alone.found.out[-1]))
    shown = [(name, x) for name, x in named if x is not None and x <= far]
    first = float(alone.found.out[0])
    xs = sorted({*(float(x) for x in np.linspace(first, far, POINTS)), *(x for _, x in shown)})
    curves = [Curve(say("Diameter error of the last cut"), tuple((x, alone.error_at(x)) for x in xs))]
    if alone.limit is not None:
        across = ((first, alone.limit), (far, alone.limit))
        curves.append(Curve(say("A quarter of the tolerance"), across, "limit"))
    return PlotScene(
        id="stick-out",
        title=say("How far it may stick out"),
        x_label=say("Stick-out from the {from_}", from_=FROM[kind]),
        x_quantity="length",
        y_label=say("Diameter error of the last cut"),
        y_quantity="fine_length",
        curves=tuple(curves),
        heads=(say("Stick-out"), say("Length"), say("Diameter error")),
        columns=("length", "fine_length"),
        rows=tuple((name, (x, alone.error_at(x))) for name, x in sorted(shown, key=lambda one: one[1])),
        caption=say(
            "The work alone in the {kind}, run out further or less far, under the last cut of operation "
            "{number}. Shear is left out.",
            kind=HELD_BY[kind],
            number=load.number,
        ),
        says=_says(alone, system),
        system=system,
        job=case.held.job.job,
        marks=tuple(Mark(name, x) for name, x in shown),
    )


def _says(alone: Alone, system: System) -> str:
    error = fine_words(alone.error_at(alone.now), system)
    here = say(
        "It sticks out {length}, where the last cut leaves {error} on diameter",
        length=length_words(alone.now, system), error=error,
    )
    if alone.limit is None:
        return say("{here}; nobody said what tolerance that has to keep.", here=here)
    if alone.most is None:
        return say("{here}; a quarter of the tolerance is not reached as far as was looked.", here=here)
    most = length_words(alone.most, system)
    if alone.most >= alone.now:
        return say(
            "{here}; for a quarter of the tolerance it may stick out no more than "
            "{most}.", here=here, most=most
        )
    return say("{here}; for a quarter of the tolerance it may stick out only {most}.", here=here, most=most)
