"""The working of every size of a Unified thread, as the sheet shows it (ASME B1.1)."""

from __future__ import annotations

from generator.language.say import later, say
from generator.threads.sizes import NO_MAX, SizeLine, ThreadLimits, in_inches, known, size_line

PITCH = "0.64951905 × {P}"  # 3/4 of H
CLASS_FACTOR = {"1A": 1.5, "2A": 1.0, "3A": 0.75, "1B": 1.95, "2B": 1.3, "3B": 0.975}
THREE_PLACES = later("the standard prints this limit at three places")


def size_lines(sizes: ThreadLimits) -> tuple[SizeLine, ...]:
    """All sizes of a Unified thread with their working, in the order of the sheet."""
    return _inside(sizes) if sizes.designation.internal else _outside(sizes)


def _outside(sizes: ThreadLimits) -> tuple[SizeLine, ...]:
    d, pitch = sizes.designation, float(sizes.designation.pitch)
    major, effective, minor = sizes.major, sizes.pitch_diameter, sizes.minor
    es = say("none for class 3A") if d.class_ == "3A" else say("0.300 × the class 2A tolerance")
    crest, root = ("0.090" if d.class_ == "1A" else "0.060"), (
        "1.19078493" if d.rounded_root else "1.08253175"
    )
    return (
        size_line("allowance", sizes.allowance, es),
        size_line("major.tolerance", sizes.major_tolerance, in_inches(f"{crest} × ∛{{P}}²"), pitch),
        _pitch_tolerance(sizes),
        size_line("major.max", major.max, "{d} − {es}", d.nominal, sizes.allowance),
        size_line("pitch_diameter.max", effective.max, f"{{d max}} − {PITCH}", major.max, pitch),
        size_line("major.min", major.min, "{d max} − {Td}", major.max, sizes.major_tolerance),
        size_line(
            "pitch_diameter.min", effective.min, "{d2 max} − {Td2}", effective.max, sizes.pitch_tolerance
        ),
        size_line(
            "minor.max", minor.max, f"{{d max}} − {root} × {{P}}", major.max, pitch,
            label=say("Minor diameter, max (reference)"),
        ),
    )


def _inside(sizes: ThreadLimits) -> tuple[SizeLine, ...]:
    d, pitch, major = sizes.designation, float(sizes.designation.pitch), sizes.major.min
    effective, minor = sizes.pitch_diameter, sizes.minor
    return (
        size_line("allowance", sizes.allowance, say("none for internal Unified threads")),
        _minor_tolerance(sizes),
        _pitch_tolerance(sizes),
        size_line("major.min", major, "{d} + {EI}", d.nominal, sizes.allowance, note=NO_MAX),
        size_line("pitch_diameter.min", effective.min, f"{{D min}} − {PITCH}", major, pitch),
        size_line(
            "pitch_diameter.max", effective.max, "{D2 min} + {TD2}", effective.min, sizes.pitch_tolerance
        ),
        size_line(
            "minor.min", minor.min, "{D min} − 1.08253175 × {P}", major, pitch, note=THREE_PLACES
        ),
        size_line(
            "minor.max", minor.max, "{D1 min} + {TD1}", minor.min, sizes.minor_tolerance, note=THREE_PLACES
        ),
    )


def _pitch_tolerance(sizes: ThreadLimits) -> SizeLine:
    d = sizes.designation
    return size_line(
        "pitch_diameter.tolerance", sizes.pitch_tolerance,
        say("{k} × (0.0015 ∛{D} + 0.0015 √{LE} + 0.015 ∛{P}²), all in inches"),
        (CLASS_FACTOR[d.class_], "ratio"), d.nominal, known(sizes.engagement), float(d.pitch),
    )


def _minor_tolerance(sizes: ThreadLimits) -> SizeLine:
    d, tpi, name = sizes.designation, 1 / sizes.designation.pitch, "minor.tolerance"
    pitch, value = float(d.pitch), sizes.minor_tolerance
    small = later(
        "0.05 ∛{{P}}² + 0.03 × {{P}} ÷ {{D}} − 0.002, at most 0.394 × {{P}}, at least {least}, all in inches"
    )
    general = "0.25 × {P} − 0.40 × {P}²"
    if d.class_ == "3B":
        least = "0.23 × {P} − 1.5 × {P}²" if tpi >= 13 else "0.120 × {P}"
        return size_line(
            name, value, say(small, least=least), pitch, d.nominal
        )
    if d.nominal < 0.25:
        return size_line(
            name,
            value,
            say(small, least=general),
            pitch,
            d.nominal,
        )
    if tpi >= 4:
        return size_line(name, value, in_inches(general), pitch)
    return size_line(name, value, "0.15 × {P}", pitch)
