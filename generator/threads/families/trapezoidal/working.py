"""The working of every size of a trapezoidal thread, as the sheet shows it (ISO 2901, ISO 2903)."""

from __future__ import annotations

from generator.language.say import figure, later, say
from generator.threads.families.trapezoidal.limits import MANY_STARTS, MICROMETER, MULTIPLE_START, basis
from generator.threads.sizes import NO_MAX, SizeLine, ThreadLimits, size_line

TABLE = later("the table's value for this pitch")
CLEARANCE = later("ac is the clearance at the crest, by pitch")


def size_lines(sizes: ThreadLimits) -> tuple[SizeLine, ...]:
    """All sizes of a trapezoidal thread with their working, in the order of the sheet."""
    return _inside(sizes) if sizes.designation.internal else _outside(sizes)


def _outside(sizes: ThreadLimits) -> tuple[SizeLine, ...]:
    d, pitch, of = sizes.designation, float(sizes.designation.pitch), basis(sizes.designation)
    major, effective, minor = sizes.major, sizes.pitch_diameter, sizes.minor
    td3 = float(MICROMETER * of.minor_tolerance)
    return (
        size_line(
            "allowance",
            sizes.allowance,
            say("{table} and position", table=TABLE),
            label=say("Allowance at the pitch diameter"),
        ),
        size_line("major.tolerance", sizes.major_tolerance, TABLE),
        _pitch_tolerance(sizes),
        size_line(
            "minor.tolerance",
            td3,
            say("1.25 × {Td2} + {es}, the product to a whole micrometer"),
            sizes.pitch_tolerance,
            sizes.allowance,
        ),
        size_line("major.max", major.max, say("the nominal diameter")),
        size_line(
            "pitch_diameter.max", effective.max, "{d} − {P} ÷ 2 − {es}", d.nominal, pitch, sizes.allowance
        ),
        size_line(
            "minor.max",
            minor.max,
            "{d} − {P} − 2 × {ac}",
            d.nominal,
            pitch,
            float(of.row.clearance),
            note=CLEARANCE,
        ),
        size_line("major.min", major.min, "{d} − {Td}", d.nominal, sizes.major_tolerance),
        size_line(
            "pitch_diameter.min", effective.min, "{d2 max} − {Td2}", effective.max, sizes.pitch_tolerance
        ),
        size_line("minor.min", minor.min, "{d3 max} − {Td3}", minor.max, td3),
    )


def _inside(sizes: ThreadLimits) -> tuple[SizeLine, ...]:
    d, pitch, of = sizes.designation, float(sizes.designation.pitch), basis(sizes.designation)
    major, effective, minor = sizes.major, sizes.pitch_diameter, sizes.minor
    return (
        size_line("allowance", sizes.allowance, say("none: position H")),
        size_line("minor.tolerance", sizes.minor_tolerance, TABLE),
        _pitch_tolerance(sizes),
        size_line(
            "major.min", major.min, "{d} + 2 × {ac}", d.nominal, float(of.row.clearance),
            note=f"{CLEARANCE}; {NO_MAX}",
        ),
        size_line("pitch_diameter.min", effective.min, "{d} − {P} ÷ 2", d.nominal, pitch),
        size_line(
            "pitch_diameter.max", effective.max, "{D2 min} + {TD2}", effective.min, sizes.pitch_tolerance
        ),
        size_line("minor.min", minor.min, "{d} − {P}", d.nominal, pitch),
        size_line("minor.max", minor.max, "{D1 min} + {TD1}", minor.min, sizes.minor_tolerance),
    )


def _pitch_tolerance(sizes: ThreadLimits) -> SizeLine:
    starts = sizes.designation.starts
    more = (
        ""
        if starts == 1
        else say(
            ", times {factor} for {starts} starts",
            factor=figure(float(MULTIPLE_START.get(starts, MANY_STARTS)), "g"), starts=starts,
        )
    )
    return size_line(
        "pitch_diameter.tolerance",
        sizes.pitch_tolerance,
        say("{table}, diameter range and grade{more}", table=TABLE, more=more),
    )
