"""The mate's own thread: its limits, what its measured size means, and the play at pitch diameter and crests.

    lay_mate     all of it, where the job has a mate
    mate_thread  the mate's designation, where it is the other half of this thread with its class written
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.errors import BadDesignation, OutsideRange
from generator.job.model import Job, Mate
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Kind
from generator.sheet.mate_engagement import lay_engaged
from generator.sheet.mate_fit import Aim, plating_growth
from generator.sheet.threading import Threading
from generator.sheet.wording import fine_words
from generator.si import Length
from generator.threads.registry import (
    Designation,
    Range,
    ThreadLimits,
    limits,
    parse_designation,
    write_designation,
)

ARITHMETIC = later("arithmetic; ASME B1.1, ISO 965-1 for the limits")
SAME = 1e-9  # m: two sizes closer than this are one
DIAMETERS = {
    "major": later("major diameter"),
    "pitch_diameter": later("pitch diameter"),
    "minor": later("minor diameter"),
}
PLAYS = {"pitch_diameter": "mate.play", "major": "mate.play.major", "minor": "mate.play.minor"}


@dataclass(frozen=True)
class Own:
    """The thread to cut as it comes out finished, at the size aimed at (m)."""

    pitch_diameter: Length
    major: Length
    minor: Length


def lay_mate(
    job: Job, threading: Threading, aim: Aim, blank: Length, root: Length, desk: Desk
) -> None:
    """Lay down the mate's limits, the play to expect, and the length that engages.

    `blank` and `root` are what the thread is cut into and to (m), before plating.
    """
    mate = job.mate
    if not isinstance(mate, Mate):
        return
    other = mate_thread(mate, threading.designation)
    sizes: ThreadLimits | None = None
    if other is not None:
        try:
            sizes = limits(other)
        except OutsideRange:
            sizes = None  # the mate's own limits are in no standard here
    if sizes is not None:
        _lay_limits(sizes, threading, desk)
    if mate.pitch_diameter is not None:
        _lay_measured(mate.pitch_diameter, "pitch_diameter", sizes, threading, desk)
    for name in ("major", "minor"):
        given: Given | None = getattr(mate, name)
        if given is not None:
            _lay_measured(given, name, sizes, threading, desk)
    _lay_play_with_measured(mate, threading, _own(threading, aim, blank, root), desk)
    lay_engaged(job, mate, threading, desk)


def mate_thread(mate: Mate, own: Designation) -> Designation | None:
    """The mate's designation, where it is the other half of the same thread with its class written.

    One that cannot be read as it stands is left to the contradictions. Where its form does not say the side,
    it is the other one.
    """
    if not mate.thread:
        return None
    try:
        other = parse_designation(mate.thread, "external" if own.internal else "internal")
    except BadDesignation:
        return None
    halves = [(one.nominal, one.pitch, one.lead, one.unit, one.hand) for one in (own, other)]
    return other if halves[0] == halves[1] and not other.class_assumed else None


def _own(threading: Threading, aim: Aim, blank: Length, root: Length) -> Own:
    """The thread to cut, finished: with its plating on."""
    inside, growth = threading.designation.internal, plating_growth(threading)
    plating = threading.operation.plating
    skin, way = (2 * plating.si if plating else 0.0), -1 if inside else 1
    outer, inner = (root, blank) if inside else (blank, root)
    return Own(aim.target + way * growth, outer + way * skin, inner + way * skin)


def _lay_limits(sizes: ThreadLimits, threading: Threading, desk: Desk) -> None:
    """The mate's limits that count, and the least and most play when both threads are inside their limits."""
    unit, system, other = threading.unit, threading.system, sizes.designation
    crest = "minor" if other.internal else "major"
    named = other.text or write_designation(other)
    for name, end in (
        ("pitch_diameter", "max"), ("pitch_diameter", "min"), (crest, "min" if other.internal else "max"),
    ):
        value = getattr(getattr(sizes, name), end)
        if value is not None:
            desk.computed(
                f"mate.{name}.{end}",
                say("Mate's {diameters}, {end}", diameters=DIAMETERS[name], end=end),
                value * unit,
                "length",
                say("the standard's limit of {named}", named=named),
                {},
                sizes.source,
                kind=Kind.STANDARD,
                system=system,
                rounds="down" if end == "max" else "up",
            )
    own = threading.finished
    nut, screw = (sizes, own) if other.internal else (own, sizes)
    for name, prefix in PLAYS.items():
        wide, thin = getattr(nut, name), getattr(screw, name)
        _lay_play(prefix, name, "least", wide, thin, threading, desk)
        _lay_play(prefix, name, "most", wide, thin, threading, desk)


def _lay_play(
    prefix: str, name: str, which: str, nut: Range, screw: Range, threading: Threading, desk: Desk
) -> None:
    """Least or most play at one diameter, where both threads have the limit that it needs."""
    ends = ("min", "max") if which == "least" else ("max", "min")
    inner, outer = getattr(nut, ends[0]), getattr(screw, ends[1])
    if inner is None or outer is None:
        return
    inner, outer = inner * threading.unit, outer * threading.unit
    desk.computed(
        f"{prefix}.{which}",
        say("Play on {diameters}, least", diameters=DIAMETERS[name]) if which == "least"
        else say("Play on {diameters}, most", diameters=DIAMETERS[name]),
        inner - outer,
        "fine_length",
        f"{{internal {ends[0]}}} − {{external {ends[1]}}}",
        {
            f"internal {ends[0]}": (inner, "length"),
            f"external {ends[1]}": (outer, "length"),
        },
        ARITHMETIC,
        system=threading.system,
        note=say("when both threads are inside their limits"),
    )


def _lay_measured(
    given: Given, name: str, sizes: ThreadLimits | None, threading: Threading, desk: Desk
) -> None:
    """A size of the mate as measured; how far it is outside its standard's limits, where they are known."""
    figure = "mate.measured" if name == "pitch_diameter" else f"mate.measured.{name}"
    size = desk.given(
        figure, say("Mate's {diameters}, as measured", diameters=DIAMETERS[name]), given, "length"
    )
    if sizes is None:
        return
    unit, system, other = threading.unit, threading.system, sizes.designation
    of: Range = getattr(sizes, name)
    over = size - of.max * unit if of.max is not None else 0.0
    under = of.min * unit - size if of.min is not None else 0.0
    if max(over, under) <= SAME:
        return
    off = fine_words(max(over, under), system)
    beyond = (
        say("{off} over the largest of {thread}", off=off, thread=other.text) if over > under
        else say("{off} under the smallest of {thread}", off=off, thread=other.text)
    )
    loose = (over > under) == other.internal
    meaning = (
        say("worn, or never to this class")
        if loose
        else say("bruised, not cleaned, or never to this class: tight")
    )
    desk.find(
        "mate-worn" if loose else "mate-undersize", "check",
        say(
            "The mate measures {given} on {diameter}, {beyond}: {meaning}.",
            given=given.with_unit, diameter=DIAMETERS[name], beyond=beyond, meaning=meaning,
        ),
        given.where,
        say("Is the mate to be used as it is, repaired, or made new?") if loose
        else say("Is the mate clean and undamaged, and is this its thread?"),
    )


def _lay_play_with_measured(mate: Mate, threading: Threading, own: Own, desk: Desk) -> None:
    """Play against the mate as measured at each diameter that was; a word when it will not go together."""
    inside, system = threading.designation.internal, threading.system
    for name, prefix in PLAYS.items():
        given: Given | None = getattr(mate, name)
        if given is None or (name == "pitch_diameter" and threading.profile.square):
            continue
        mine = getattr(own, name)
        play = desk.computed(
            f"{prefix}.measured",
            say("Play to expect with this mate") if name == "pitch_diameter"
            else say("Play to expect on {diameters} with this mate", diameters=DIAMETERS[name]),
            mine - given.si if inside else given.si - mine, "fine_length",
            "{aim} − {mate}" if inside else "{mate} − {aim}",
            {"aim": (mine, "length"), "mate": (given.si, "length")}, say("arithmetic"), system=system,
            note=say("on {diameters}, at the size aimed at", diameters=DIAMETERS[name]),
        )
        if play < -SAME:
            desk.find(
                "mate-tight" if name == "pitch_diameter" else "mate-crests-meet", "check",
                say(
                    "The mate measures {given} on {diameter}, and this thread aims at {mine}: it would be "
                    "{play} too tight. Measure the mate again, or decide what is to be cut instead.",
                    given=given.with_unit, diameter=DIAMETERS[name], mine=fine_words(mine, system),
                    play=fine_words(-play, system),
                ),
                given.where, say("Was the mate measured right, and which of the two is to be changed?"),
            )
