"""The working of every size of a metric thread, as the sheet shows it (ISO 965-1)."""

from __future__ import annotations

from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.sizes import NO_MAX, SizeLine, ThreadLimits, size_line

TABLE = later("the table's value for this pitch")
CREST = later("Allowance of the crests")
PITCH, MINOR, ROOT = "0.64951905 × {P}", "1.08253175 × {P}", "0.616025 × {P}"


def size_lines(sizes: ThreadLimits, crest: float) -> tuple[SizeLine, ...]:
    """All sizes of a metric thread with their working, in the order of the sheet.

    `crest` is the allowance of its crests (mm), which may be at another position than the pitch diameter.
    """
    return (_inside if sizes.designation.internal else _outside)(sizes, crest)


def _outside(sizes: ThreadLimits, crest: float) -> tuple[SizeLine, ...]:
    d, pitch = sizes.designation, float(sizes.designation.pitch)
    major, effective, minor = sizes.major, sizes.pitch_diameter, sizes.minor
    if _one_position(d):
        own: tuple[SizeLine, ...] = ()
        put: tuple[float | None, ...]
        top, bottom, put = f"{{d max}} − {PITCH}", f"{{d max}} − {MINOR}", (major.max, pitch)
    else:
        own = (
            size_line(
                "major.allowance", crest, say("{table} and the crest's position", table=TABLE), label=CREST
            ),
        )
        top, bottom = f"{{d}} − {{es}} − {PITCH}", f"{{d}} − {{es}} − {MINOR}"
        put = (d.nominal, sizes.allowance, pitch)
    return (
        size_line("allowance", sizes.allowance, say("{table} and position", table=TABLE)),
        *own,
        size_line("major.tolerance", sizes.major_tolerance, say("{table} and grade", table=TABLE)),
        _pitch_tolerance(sizes),
        size_line("major.max", major.max, "{d} − {es}", d.nominal, crest),
        size_line("pitch_diameter.max", effective.max, top, *put),
        size_line("major.min", major.min, "{d max} − {Td}", major.max, sizes.major_tolerance),
        size_line(
            "pitch_diameter.min", effective.min, "{d2 max} − {Td2}", effective.max, sizes.pitch_tolerance
        ),
        size_line("minor.max", minor.max, bottom, *put, label=say("Minor diameter, max (reference)")),
        size_line("minor.min", minor.min, f"{{d2 min}} − {ROOT}", effective.min, pitch),
    )


def _inside(sizes: ThreadLimits, crest: float) -> tuple[SizeLine, ...]:
    d, pitch, major = sizes.designation, float(sizes.designation.pitch), sizes.major.min
    effective, minor = sizes.pitch_diameter, sizes.minor
    if _one_position(d):
        own: tuple[SizeLine, ...] = ()
        put: tuple[float | None, ...]
        formula, put = f"{{D min}} − {MINOR}", (major, pitch)
    else:
        own = (
            size_line(
                "minor.allowance", crest, say("{table} and the crest's position", table=TABLE), label=CREST
            ),
        )
        formula, put = f"{{d}} + {{EI}} − {MINOR}", (d.nominal, crest, pitch)
    return (
        size_line("allowance", sizes.allowance, say("{table} and position", table=TABLE)),
        *own,
        size_line("minor.tolerance", sizes.minor_tolerance, say("{table} and grade", table=TABLE)),
        _pitch_tolerance(sizes),
        size_line("major.min", major, "{d} + {EI}", d.nominal, sizes.allowance, note=NO_MAX),
        size_line("pitch_diameter.min", effective.min, f"{{D min}} − {PITCH}", major, pitch),
        size_line(
            "pitch_diameter.max", effective.max, "{D2 min} + {TD2}", effective.min, sizes.pitch_tolerance
        ),
        size_line("minor.min", minor.min, formula, *put),
        size_line("minor.max", minor.max, "{D1 min} + {TD1}", minor.min, sizes.minor_tolerance),
    )


def _one_position(d: Designation) -> bool:
    """Whether pitch diameter and crest have the same position."""
    return d.class_[1] == d.class_[-1]


def _pitch_tolerance(sizes: ThreadLimits) -> SizeLine:
    return size_line(
        "pitch_diameter.tolerance",
        sizes.pitch_tolerance,
        say("{table}, diameter range and grade", table=TABLE),
    )
