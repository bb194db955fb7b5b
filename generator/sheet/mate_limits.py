"""The mate's own thread: its limits, the play that both leave, and what its measured size means."""

from __future__ import annotations

from generator.errors import BadDesignation, OutsideRange
from generator.job.model import Job, Mate
from generator.sheet.desk import Desk
from generator.sheet.model import Kind
from generator.sheet.threading import Threading
from generator.sheet.wording import fine_words
from generator.si import Length
from generator.threads.registry import Designation, ThreadLimits, limits, parse_designation

ARITHMETIC = "arithmetic; ASME B1.1, ISO 965-1 for the limits"
SAME = 1e-9  # m: two sizes closer than this are one


def lay_mate(
    job: Job, threading: Threading, largest: Length, smallest: Length, target: Length, desk: Desk
) -> None:
    """Lay down the mate's limits and the play on the pitch diameter, where its designation has a class.

    `largest` and `smallest` are the limits of the thread to be cut, `target` what it is cut to (m).
    """
    mate = job.mate
    if not isinstance(mate, Mate):
        return
    other = mate_thread(mate, threading.designation)
    if other is not None:
        try:
            _lay_limits(other, limits(other), threading, (largest, smallest), desk)
        except OutsideRange:
            return  # the mate's own limits are in no standard here
    if mate.pitch_diameter is not None:
        _lay_measured(mate, threading, target, desk)


def mate_thread(mate: Mate, own: Designation) -> Designation | None:
    """The mate's designation, where it is the other half of the same thread with its class written.

    One that cannot be read as it stands is left to the contradictions.
    """
    try:
        other = parse_designation(mate.thread) if mate.thread else None
    except BadDesignation:
        return None
    return other if other is not None and _goes_with(other, own) else None


def _goes_with(other: Designation, own: Designation) -> bool:
    """True for the other half of the same thread, with its class written."""
    halves = [(one.nominal, one.pitch, one.lead, one.unit, one.hand) for one in (own, other)]
    return halves[0] == halves[1] and other.side != own.side and not other.class_assumed


def _lay_limits(
    other: Designation, sizes: ThreadLimits, threading: Threading, own: tuple[Length, Length], desk: Desk
) -> None:
    unit, system = threading.unit, threading.system
    pitch = sizes.pitch_diameter
    assert pitch.max is not None, "every thread has both limits of the pitch diameter"
    assert pitch.min is not None, "every thread has both limits of the pitch diameter"
    inside = other.internal
    crest = ("minor", "min", sizes.minor.min) if inside else ("major", "max", sizes.major.max)
    for name, label, value, rounds in (
        ("pitch_diameter.max", "Mate's pitch diameter, max", pitch.max, "down"),
        ("pitch_diameter.min", "Mate's pitch diameter, min", pitch.min, "up"),
        (f"{crest[0]}.{crest[1]}", f"Mate's {crest[0]} diameter, {crest[1]}", crest[2],
         "up" if inside else "down"),
    ):
        assert value is not None, "the standard limits the crests of every thread towards the mate"
        desk.computed(
            f"mate.{name}", label, value * unit, "length", f"the standard's limit of {other.text}", {},
            sizes.source, kind=Kind.STANDARD, system=system, rounds=rounds,
        )
    nut = (pitch.max * unit, pitch.min * unit) if inside else own
    screw = own if inside else (pitch.max * unit, pitch.min * unit)
    for name, label, inner, outer in (
        ("least", "Play on pitch diameter, least", nut[1], screw[0]),
        ("most", "Play on pitch diameter, most", nut[0], screw[1]),
    ):
        ends = ("min", "max") if name == "least" else ("max", "min")
        desk.computed(
            f"mate.play.{name}", label, inner - outer, "fine_length",
            f"{{internal {ends[0]}}} − {{external {ends[1]}}}",
            {f"internal {ends[0]}": (inner, "length"), f"external {ends[1]}": (outer, "length")}, ARITHMETIC,
            system=system, note="when both threads are inside their limits",
        )


def _lay_measured(mate: Mate, threading: Threading, target: Length, desk: Desk) -> None:
    """Play against the mate as measured; a word when it will not go together."""
    given, system = mate.pitch_diameter, threading.system
    assert given is not None, "called with a measured mate"
    size = desk.given("mate.measured", "Mate's pitch diameter, as measured", given, "length")
    inside = threading.designation.internal
    play = desk.computed(
        "mate.play.measured", "Play to expect with this mate", target - size if inside else size - target,
        "fine_length", "{aim} − {mate}" if inside else "{mate} − {aim}",
        {"aim": (target, "length"), "mate": (size, "length")}, "arithmetic", system=system,
        note="on pitch diameter, at the size aimed at",
    )
    if play < -SAME:
        desk.find(
            "mate-tight", "check",
            f"The mate measures {given.with_unit} on pitch diameter, and this thread aims at "
            f"{fine_words(target, system)}: it would be {fine_words(-play, system)} too tight. Measure the "
            "mate again, or decide what is to be cut instead.",
            given.where, "Was the mate measured right, and which of the two is to be changed?",
        )
