"""The working of every size of an American taper pipe thread, as the sheet shows it (ASME B1.20.1)."""

from __future__ import annotations

from fractions import Fraction

from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.npt.planes import SHARP_V, TAPER, Planes, Truncation, rounded
from generator.threads.families.npt.reading import size_of
from generator.threads.sizes import Put, Range, SizeLine, size_line

TABLE = later("the table's value for this size")
TURN = "{P} ÷ 16"


def size_lines(
    d: Designation, of: Planes, truncated: Truncation, limits: tuple[Range, Range, Range]
) -> tuple[SizeLine, ...]:
    """All sizes of a taper pipe thread with their working, in the order of the sheet."""
    gauge = _inside(d, of) if d.internal else _outside(d, of)
    return (*_limits(d, of, truncated, limits), *gauge, *_common(d, of), *_turns(d, of))


def _limits(
    d: Designation, of: Planes, truncated: Truncation, limits: tuple[Range, Range, Range]
) -> list[SizeLine]:
    """Limits at the end face."""
    inside, pitch = d.internal, float(d.pitch)
    at, plane = (say("at the face"), "E1") if inside else (say("at the small end"), "E0")
    middle = float(of.e1 if inside else of.e0)
    sharp = float(SHARP_V * d.pitch)
    crest = [float(share * d.pitch) for share in (truncated.crest_min, truncated.crest_max)]
    root = [float(share * d.pitch) for share in (truncated.root_min, truncated.root_max)]
    outer, inner = (root, crest) if inside else (crest, root)
    letters = ("fr", "fc") if inside else ("fc", "fr")
    major, effective, minor = limits
    lines = [
        size_line(
            f"pitch_diameter.{end}", value, f"{{{plane}}} {sign} {TURN}", middle, pitch,
            label=say("Pitch diameter {at}, {end}", at=at, end=end),
            note=say("one turn of the gauge either way") if end == "max" else "",
        )
        for end, sign, value in (("max", "+", effective.max), ("min", "−", effective.min))
    ]
    for end, value, base, least in (
        ("max", major.max, effective.max, outer[0]), ("min", major.min, effective.min, outer[1])
    ):
        lines.append(
            size_line(
                f"major.{end}",
                value,
                f"{{d2 {end}}} + {{H}} − 2 × {{{letters[0]}}}",
                base,
                (sharp, "fine_length"),
                (least, "fine_length"),
                label=say("Major diameter {at}, {end}", at=at, end=end),
                note=say("{letters} is the least truncation", letters=letters[0]) if end == "max"
                else say("{letters} is the most truncation", letters=letters[0]),
            )
        )
    for end, value, base, most in (
        ("max", minor.max, effective.max, inner[1]), ("min", minor.min, effective.min, inner[0])
    ):
        lines.append(
            size_line(
                f"minor.{end}",
                value,
                f"{{d2 {end}}} − {{H}} + 2 × {{{letters[1]}}}",
                base,
                (sharp, "fine_length"),
                (most, "fine_length"),
                label=say("Minor diameter {at}, {end}", at=at, end=end),
            )
        )
    return lines


def _common(d: Designation, of: Planes) -> list[SizeLine]:
    """What a gauge is made to, outside and inside alike."""
    return [
        _length("l1", of.l1, say("Engagement by hand, L1"), TABLE),
        _diameter(
            "e1", of.e1, say("Pitch diameter at the hand-tight plane, E1"), "{E0} + {L1} ÷ 16",
            {"E0": (float(of.e0), "length"), "L1": (float(of.l1), "length")},
        ),
        _diameter(
            "per_turn", TAPER * d.pitch, say("Diameter for one turn of the gauge"), TURN,
            {"P": (float(d.pitch), "fine_length")},
        ),
        _diameter(
            "h", of.h, say("Height of thread, most"), "0.8 × {P}", {"P": (float(d.pitch), "fine_length")}
        ),
    ]


def _outside(d: Designation, of: Planes) -> list[SizeLine]:
    pitch = (float(d.pitch), "fine_length")
    pipe = float(size_of(d).diameter)
    e0, l2, l5 = float(of.e0), float(of.l2), float(of.l5)
    of_pipe: Put = {"D": (pipe, "length"), "P": (float(d.pitch), "fine_length")}
    return [
        _diameter(
            "e0", of.e0, say("Pitch diameter at the small end, E0"), "{D} − (0.05 × {D} + 1.1) × {P}", of_pipe
        ),
        _length("l2", of.l2, say("Effective thread, L2"), "(0.8 × {D} + 6.8) × {P}", of_pipe),
        _diameter(
            "e2", of.e2, say("Pitch diameter at the end of it, E2"), "{E0} + {L2} ÷ 16",
            {"E0": (e0, "length"), "L2": (l2, "length")},
        ),
        _length(
            "l5", of.l5, say("Thread with full crests, L5"), "{L2} − 2 × {P}",
            {"L2": (l2, "length"), "P": (pitch[0], "fine_length")},
        ),
        _diameter(
            "e5", of.e5, say("Pitch diameter at the end of it, E5"), "{E0} + {L5} ÷ 16",
            {"E0": (e0, "length"), "L5": (l5, "length")},
        ),
        _length("v", of.v, say("Vanish thread of a die, V"), TABLE),
        _length(
            "l4", of.l4, say("Whole length with the vanish thread, L4"), "{L2} + {V}",
            {"L2": (l2, "length"), "V": (float(of.v), "length")},
        ),
        _diameter(
            "k0", of.k0, say("Basic minor diameter at the small end, K0"), "{E0} − {h}",
            {"E0": (e0, "length"), "h": (float(of.h), "length")},
        ),
    ]


def _inside(d: Designation, of: Planes) -> list[SizeLine]:
    threads = float(size_of(d).wrench_threads)
    return [
        _length(
            "l3", of.l3, say("Make-up by wrench, L3"), f"{threads:g} × {{P}}",
            {"P": (float(d.pitch), "fine_length")},
        ),
        _diameter(
            "e3", of.e3, say("Pitch diameter at the end of it, E3"), "{E0} − {L3} ÷ 16",
            {"E0": (float(of.e0), "length"), "L3": (float(of.l3), "length")},
        ),
        _diameter(
            "k3", of.k3, say("Basic minor diameter there, K3"), "{E3} − {h}",
            {"E3": (float(of.e3), "length"), "h": (float(of.h), "length")},
        ),
    ]


def _turns(d: Designation, of: Planes) -> list[SizeLine]:
    pitch = (float(d.pitch), "fine_length")
    return [
        SizeLine(
            "gauge.turns_each_way",
            say("Gauge may stand off, turns each way"),
            1.0,
            say("the standard's tolerance"),
            quantity="ratio",
        ),
        SizeLine(
            "gauge.hand_turns",
            say("Turns of engagement by hand"),
            float(of.l1 / d.pitch),
            "{L1} ÷ {P}",
            {"L1": (float(of.l1), "length"), "P": (pitch[0], "fine_length")},
            quantity="ratio",
        ),
        SizeLine(
            "gauge.wrench_turns",
            say("Turns of make-up by wrench"),
            float(of.l3 / d.pitch),
            "{L3} ÷ {P}",
            {"L3": (float(of.l3), "length"), "P": (pitch[0], "fine_length")},
            quantity="ratio",
        ),
    ]


def _diameter(name: str, value: Fraction, label: str, formula: str, put: Put) -> SizeLine:
    return SizeLine(f"gauge.{name}", label, rounded(value, 5), formula, put)


def _length(name: str, value: Fraction, label: str, formula: str, put: Put | None = None) -> SizeLine:
    return SizeLine(f"gauge.{name}", label, rounded(value, 4), formula, put or {})
