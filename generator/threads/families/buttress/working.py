"""The working of every size of a buttress thread, as the sheet shows it (ASME B1.9)."""

from __future__ import annotations

from dataclasses import replace

from generator.language.say import later, say
from generator.threads.sizes import SizeLine, ThreadLimits, in_inches, known, size_line

SHARE = {"1": "1.5 × ", "2": "", "3": "⅔ × "}
DEEPEST = later("the root may be that much deeper, and no more (least truncation 0.0413 P)")


def size_lines(sizes: ThreadLimits, mean: float, allowance: float) -> ThreadLimits:
    """The same limits with the working of each size; `mean` is the D of the tolerance (in)."""
    d, pitch = sizes.designation, float(sizes.designation.pitch)
    crest = "minor.tolerance" if d.internal else "major.tolerance"
    lines = [
        _allowance(sizes, mean, allowance),
        _tolerance("pitch_diameter.tolerance", sizes, mean),
        size_line(
            crest, sizes.pitch_tolerance, say("as the pitch diameter's: {T}"), sizes.pitch_tolerance,
        ),
    ]
    lines += _inside(sizes, pitch) if d.internal else _outside(sizes, pitch)
    return replace(sizes, lines=tuple(lines))


def _allowance(sizes: ThreadLimits, mean: float, allowance: float) -> SizeLine:
    if sizes.designation.internal:
        return size_line("allowance", 0.0, say("none inside: the least sizes are basic"))
    if sizes.engagement_standard:
        return size_line(
            "allowance",
            allowance,
            say("⅔ × (0.002 ∛{D} + 0.0173 √{P}), in inches: the tolerance of class 3"),
            mean,
            float(sizes.designation.pitch),
        )
    return size_line(
        "allowance", allowance, in_inches("⅔ × (0.002 ∛{D} + 0.00278 √{LE} + 0.00854 √{P})"), mean,
        known(sizes.engagement), float(sizes.designation.pitch),
    )


def _tolerance(name: str, sizes: ThreadLimits, mean: float) -> SizeLine:
    share, pitch = SHARE[sizes.designation.class_[0]], float(sizes.designation.pitch)
    note = say("D is the middle of the standard's diameter range")
    if sizes.engagement_standard:
        return size_line(
            name, sizes.pitch_tolerance, in_inches(f"{share}(0.002 ∛{{D}} + 0.0173 √{{P}})"), mean, pitch,
            note=note,
        )
    return size_line(
        name, sizes.pitch_tolerance, in_inches(f"{share}(0.002 ∛{{D}} + 0.00278 √{{LE}} + 0.00854 √{{P}})"),
        mean, known(sizes.engagement), pitch, note=note,
    )


def _outside(sizes: ThreadLimits, pitch: float) -> list[SizeLine]:
    d, major, effective, minor = sizes.designation, sizes.major, sizes.pitch_diameter, sizes.minor
    return [
        size_line("major.max", major.max, "{D} − {G}", d.nominal, sizes.allowance),
        size_line("major.min", major.min, "{d max} − {T}", major.max, sizes.major_tolerance),
        size_line(
            "pitch_diameter.max", effective.max, "{D} − 0.6 × {P} − {G}", d.nominal, pitch, sizes.allowance
        ),
        size_line(
            "pitch_diameter.min", effective.min, "{d2 max} − {T}", effective.max, sizes.pitch_tolerance
        ),
        size_line(
            "minor.max", minor.max, "{D} − 1.32542 × {P} − {G}", d.nominal, pitch, sizes.allowance
        ),
        size_line("minor.min", minor.min, "{d2 min} − 0.80803 × {P}", effective.min, pitch, note=DEEPEST),
    ]


def _inside(sizes: ThreadLimits, pitch: float) -> list[SizeLine]:
    d, major, effective, minor = sizes.designation, sizes.major, sizes.pitch_diameter, sizes.minor
    return [
        size_line("minor.min", minor.min, "{D} − 1.2 × {P}", d.nominal, pitch),
        size_line("minor.max", minor.max, "{D1 min} + {T}", minor.min, sizes.minor_tolerance),
        size_line("pitch_diameter.min", effective.min, "{D} − 0.6 × {P}", d.nominal, pitch),
        size_line(
            "pitch_diameter.max", effective.max, "{D2 min} + {T}", effective.min, sizes.pitch_tolerance
        ),
        size_line("major.min", major.min, "{D} + 0.12542 × {P}", d.nominal, pitch),
        size_line("major.max", major.max, "{D2 max} + 0.80803 × {P}", effective.max, pitch, note=DEEPEST),
    ]
