"""The working of every size of a metric saw-tooth thread, as the sheet shows it (DIN 513)."""

from __future__ import annotations

from dataclasses import replace

from generator.language.say import later, say
from generator.threads.sizes import NO_MAX, SizeLine, ThreadLimits, size_line

TABLE = later("the table's value for this pitch")
TOLERANCE = later("R 40 number by 90 × P^0.4 × D^0.1 µm, diameter range and grade")


def size_lines(sizes: ThreadLimits) -> ThreadLimits:
    """The same limits with the working of each size."""
    lines = [_allowance(sizes), size_line("pitch_diameter.tolerance", sizes.pitch_tolerance, TOLERANCE)]
    lines += _inside(sizes) if sizes.designation.internal else _outside(sizes)
    return replace(sizes, lines=tuple(lines))


def _allowance(sizes: ThreadLimits) -> SizeLine:
    d = sizes.designation
    position = d.class_[1:]
    if position == "AZ":
        return size_line(
            "allowance", sizes.allowance, say("3.1758 × 0.1 × √{P}, in millimeters"), float(d.pitch),
            note=say("the play of this thread lies in the nut"),
        )
    return size_line(
        "allowance",
        sizes.allowance,
        say("none for position {position}", position=position) if sizes.allowance == 0 else TABLE,
    )


def _outside(sizes: ThreadLimits) -> list[SizeLine]:
    d, pitch = sizes.designation, float(sizes.designation.pitch)
    major, effective, minor = sizes.major, sizes.pitch_diameter, sizes.minor
    lines = []
    if sizes.major_tolerance is not None:
        lines.append(size_line("major.tolerance", sizes.major_tolerance, TABLE))
    lines.append(size_line("major.max", major.max, "{d}", d.nominal))
    if sizes.major_tolerance is not None:
        lines.append(size_line("major.min", major.min, "{d} − {Td}", d.nominal, sizes.major_tolerance))
    return [
        *lines,
        size_line(
            "pitch_diameter.max", effective.max, "{d} − 0.75 × {P} − {es}", d.nominal, pitch, sizes.allowance
        ),
        size_line(
            "pitch_diameter.min", effective.min, "{d2 max} − {Td2}", effective.max, sizes.pitch_tolerance
        ),
        size_line("minor.max", minor.max, "{d} − 1.735534 × {P}", d.nominal, pitch),
        size_line(
            "minor.min", minor.min, "{d3} − (1.25 × {Td2} + {es})", minor.max, sizes.pitch_tolerance,
            sizes.allowance,
        ),
    ]


def _inside(sizes: ThreadLimits) -> list[SizeLine]:
    d, pitch = sizes.designation, float(sizes.designation.pitch)
    effective, minor = sizes.pitch_diameter, sizes.minor
    lines = [size_line("minor.min", minor.min, "{d} − 1.5 × {P}", d.nominal, pitch)]
    if sizes.minor_tolerance is not None:
        lines.insert(0, size_line("minor.tolerance", sizes.minor_tolerance, TABLE))
        lines.append(size_line("minor.max", minor.max, "{D1} + {TD1}", minor.min, sizes.minor_tolerance))
    return [
        *lines,
        size_line(
            "pitch_diameter.min", effective.min, "{d} − 0.75 × {P} + {EI}", d.nominal, pitch, sizes.allowance
        ),
        size_line(
            "pitch_diameter.max", effective.max, "{D2 min} + {TD2}", effective.min, sizes.pitch_tolerance
        ),
        size_line("major.min", sizes.major.min, "{d}", d.nominal, note=NO_MAX),
    ]
