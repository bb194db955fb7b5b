"""Thread gauges: by which standard a thread is gauged, with which gauges, of what sizes.

    LimitGauges, TaperGauges   how a parallel and a taper thread are gauged
    whitworth_gauges           those of the British families
    usual_gauging              the rule where a family says nothing of its own
    limit_gauge_lines          pitch diameter and crest of the go and the no-go gauge, with their working

The sizes are those that a gauge stands for. What its maker may be off, and its wear, are not in them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from generator.language.say import later, say
from generator.threads.designation import Side
from generator.threads.profile import Profile
from generator.threads.rounding import rounded
from generator.threads.sizes import SizeLine, ThreadLimits, known, size_line

PRACTICE = later("common practice, no source")
Remembered = Literal["standard", "turns", "crests", "crest of the no-go ring"]
REMEMBERED: Mapping[Remembered, str] = {
    "standard": later("the standard of the gauges"),
    "turns": later("the turns of the no-go gauge"),
    "crests": later("the crests of the gauges"),
    "crest of the no-go ring": later("the crest of the no-go ring gauge"),
}


@dataclass(frozen=True)
class Crests:
    """How far the crests of gauges stand off their pitch diameter, on the diameter, over the pitch.

    A go ring reaches in to the root of the largest screw; a no-go gauge is cut short, so that it bears on
    the flanks alone. A go plug needs no entry: it reaches out to the nut's least major diameter.
    """

    go_ring: Decimal
    no_go_ring: Decimal
    no_go_plug: Decimal


@dataclass(frozen=True)
class LimitGauges:
    """A go and a no-go gauge, of a parallel thread.

    `standard` is that of the gauges, `PRACTICE` where none is known here. `turns` is how many the no-go
    gauge may go on or in by hand. `crests` is None where no rule for them is known here. `remembered` is what
    of this is from memory of the standard, `from_memory` the same in words. `remark` is a finished sentence
    on what is special.
    """

    standard: str = PRACTICE
    turns: int = 2
    crests: Crests | None = None
    remembered: tuple[Remembered, ...] = ()
    remark: str = ""

    @property
    def from_memory(self) -> tuple[str, ...]:
        """What is from memory, in words."""
        return tuple(str(REMEMBERED[one]) for one in self.remembered)


@dataclass(frozen=True)
class TaperGauges:
    """The gauges of a taper thread, or of a parallel one that is gauged with a taper plug.

    `gauges` names them, for the side that the thread is on; `proves` says what they prove, and what not.
    `apart` is how many turns the second gauge may stand off the first (None: one decides), `plain` names a
    further gauge of the crests (empty: none is asked for). `from_memory` as in `LimitGauges`.
    """

    standard: str
    gauges: str
    proves: str
    apart: float | None = None
    plain: str = ""
    from_memory: tuple[str, ...] = ()


GAUGES: Mapping[Side, Mapping[str, str]] = {  # what they are called, by the side of the thread
    "internal": {
        "go": later("Go plug gauge, pitch diameter"),
        "go.crest": later("Go plug gauge, outside"),
        "no_go": later("No-go plug gauge, pitch diameter"),
        "no_go.crest": later("No-go plug gauge, outside"),
    },
    "external": {
        "go": later("Go ring gauge, pitch diameter"),
        "go.crest": later("Go ring gauge, bore"),
        "no_go": later("No-go ring gauge, pitch diameter"),
        "no_go.crest": later("No-go ring gauge, bore"),
    },
}
Gauging = LimitGauges | TaperGauges

# H/2 and H/4 of 60 degrees: ASME B1.2, from memory. 0.2 P: ANSI/ASME B1.16M for the plug; ring from memory.
UNIFIED_CRESTS = Crests(Decimal("0.433013"), Decimal("0.216506"), Decimal("0.433013"))
METRIC_CRESTS = Crests(Decimal("0.433013"), Decimal("0.2"), Decimal("0.2"))


def whitworth_gauges(internal: bool) -> LimitGauges:
    """BS 919-2: Whitworth, BA and cycle threads. It has no-go rings, and advises against them.

    Source: BS 919-2:2007, scope (as its publisher prints it); turns from memory.
    """
    advice = "" if internal else say("BS 919-2 would have a caliper gauge in place of the no-go ring.")
    return LimitGauges("BS 919-2", remembered=("turns",), remark=advice)


def usual_gauging(profile: Profile, internal: bool) -> Gauging | None:
    """How a thread is gauged where its family says nothing; None for a square one: no gauge is made for it.

    A parallel thread: go at most material, over the whole length; no-go at least material, the pitch diameter
    alone. A taper thread: how far the gauge goes on by hand.

    Source: common practice, no source (the rule of limit gauges).
    """
    if profile.square:
        return None
    if profile.taper:
        return TaperGauges(
            PRACTICE, say("taper plug gauge") if internal else say("taper ring gauge"),
            say("how far it goes by hand proves pitch diameter, taper and lead together, and not the crests"),
        )
    return LimitGauges()


def limit_gauge_lines(sizes: ThreadLimits, gauging: LimitGauges) -> tuple[SizeLine, ...]:
    """Pitch diameter and crest of the go and the no-go gauge; what has no limit has no gauge.

    outside: go ring d2 max, no-go ring d2 min;  inside: go plug D2 min, no-go plug D2 max

    Parameters
    ----------
    sizes : limits of the parallel thread to be gauged
    gauging : how it is gauged

    Returns
    -------
    ``gauge.go``, ``gauge.go.crest``, ``gauge.no_go``, ``gauge.no_go.crest`` (own unit), the crest being the
    bore of a ring and the outside of a plug.

    Notes
    -----
    Range: any thread with flanks that lean.

    Examples
    --------
    M20 x 1.5 - 6H, no-go plug: 19.216 + 0.2 x 1.5 (ANSI/ASME B1.16M, table of gauges):

    >>> from generator.threads.registry import limits, parse_designation
    >>> lines = limit_gauge_lines(limits(parse_designation("M20x1.5-6H")), LimitGauges(crests=METRIC_CRESTS))
    >>> [line.value for line in lines]
    [19.026, 20.0, 19.216, 19.516]

    Source: ASME B1.2, ISO 1502, ANSI/ASME B1.16M; the rule of limit gauges for all other threads.
    """
    inside, of = sizes.designation.internal, sizes.pitch_diameter
    labels = GAUGES[sizes.designation.side]
    lines: list[SizeLine] = []
    for name, end in (("go", "min" if inside else "max"), ("no_go", "max" if inside else "min")):
        size: float | None = getattr(of, end)
        if size is None:
            continue
        limit = f"{{{'D2' if inside else 'd2'} {end}}}"
        line = size_line(
            f"gauge.{name}",
            size,
            limit,
            size,
            label=labels[name],
        )
        lines.append(replace(line, rounds="down" if end == "max" else "up"))
        if gauging.crests is not None:
            crest = f"{name}.crest"
            lines.append(_crest(f"gauge.{crest}", labels[crest], size, limit, sizes, gauging.crests))
    return tuple(lines)


def _crest(
    name: str, label: str, size: float, limit: str, sizes: ThreadLimits, crests: Crests
) -> SizeLine:
    """The gauge's crest, from its pitch diameter `size`, whose name in the formula is `limit`."""
    d, go = sizes.designation, name.startswith("gauge.go")
    if d.internal and go:
        return size_line(name, known(sizes.major.min), "{D min}", sizes.major.min, label=label)
    share = crests.no_go_plug if d.internal else -(crests.go_ring if go else crests.no_go_ring)
    pitch = Decimal(d.pitch.numerator) / Decimal(d.pitch.denominator)
    value = rounded(Decimal(str(size)) + share * pitch, Decimal(1).scaleb(-sizes.places))
    sign = "+" if share > 0 else "−"
    formula = f"{limit} {sign} {abs(share)} × {{P}}"
    return size_line(name, float(value), formula, size, float(pitch), label=label)
