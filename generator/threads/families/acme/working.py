"""The working of every size of an Acme thread, as the sheet shows it (ASME B1.5, ASME/ANSI B1.8)."""

from __future__ import annotations

from generator.language.say import later, say
from generator.threads.families.acme.limits import (
    OF_DIAMETER,
    OF_PITCH,
    Form,
    basis,
)
from generator.threads.rounding import FOUR
from generator.threads.sizes import SizeLine, ThreadLimits, size_line

TABLE = later("the standard's table for this range of diameters, beyond 5 1/2 in its formula")
CREST = later("0.05 × {P}, at least 0.005 in")


def size_lines(sizes: ThreadLimits, form: Form) -> tuple[SizeLine, ...]:
    """All sizes of an Acme thread with their working, in the order of the sheet."""
    return _inside(sizes, form) if sizes.designation.internal else _outside(sizes, form)


def _outside(sizes: ThreadLimits, form: Form) -> tuple[SizeLine, ...]:
    d, pitch, of = sizes.designation, float(sizes.designation.pitch), basis(sizes.designation, form)
    major, effective, minor = sizes.major, sizes.pitch_diameter, sizes.minor
    share = "" if form.minor_share == 1 else f"{form.minor_share} × "
    exact = of.exact_tolerance if share else of.tolerance
    return (
        size_line("allowance", sizes.allowance, TABLE, label=say("Allowance at the pitch diameter")),
        size_line("major.tolerance", sizes.major_tolerance, CREST, pitch),
        _pitch_tolerance(sizes, form),
        size_line("major.max", major.max, say("the nominal diameter")),
        size_line(
            "pitch_diameter.max", effective.max, f"{{d}} − {form.height} × {{P}} − {{es}}",
            d.nominal, pitch, sizes.allowance,
        ),
        size_line(
            "minor.max", minor.max, f"{{d}} − {_twice(form)}{{P}} − {{c}}",
            d.nominal, pitch, float(of.clearance), note=say("c is the clearance at the root"),
        ),
        size_line("major.min", major.min, "{d max} − {Td}", major.max, sizes.major_tolerance),
        size_line(
            "pitch_diameter.min", effective.min, "{d2 max} − {Td2}", effective.max, sizes.pitch_tolerance
        ),
        size_line("minor.min", minor.min, f"{{d1 max}} − {share}{{Td2}}", minor.max, float(exact)),
    )


def _inside(sizes: ThreadLimits, form: Form) -> tuple[SizeLine, ...]:
    d, pitch, of = sizes.designation, float(sizes.designation.pitch), basis(sizes.designation, form)
    major, effective, minor = sizes.major, sizes.pitch_diameter, sizes.minor
    clearance = float(of.clearance)
    more = ("{c}", clearance) if form.root_tolerance == "clearance" else ("{TD2}", sizes.pitch_tolerance)
    deepest = (major.min, clearance) if more[0] == "{c}" else (major.min, sizes.pitch_tolerance)
    return (
        size_line("allowance", sizes.allowance, say("none for internal Acme threads")),
        size_line("minor.tolerance", sizes.minor_tolerance, CREST, pitch),
        _pitch_tolerance(sizes, form),
        size_line(
            "major.min",
            major.min,
            "{D} + {c}",
            d.nominal,
            clearance,
            note=say("c is the clearance at the root"),
        ),
        size_line("major.max", major.max, f"{{D min}} + {more[0]}", *deepest),
        size_line("pitch_diameter.min", effective.min, f"{{D}} − {form.height} × {{P}}", d.nominal, pitch),
        size_line(
            "pitch_diameter.max", effective.max, "{D2 min} + {TD2}", effective.min, sizes.pitch_tolerance
        ),
        size_line("minor.min", minor.min, f"{{D}} − {_twice(form)}{{P}}", d.nominal, pitch),
        size_line("minor.max", minor.max, "{D1 min} + {TD1}", minor.min, sizes.minor_tolerance),
    )


def _twice(form: Form) -> str:
    """Twice the height of thread, as the factor of the pitch."""
    return "" if 2 * form.height == 1 else f"{(2 * form.height).normalize()} × "


def _pitch_tolerance(sizes: ThreadLimits, form: Form) -> SizeLine:
    d, of = sizes.designation, basis(sizes.designation, form)
    return size_line(
        "pitch_diameter.tolerance", sizes.pitch_tolerance,
        say(
            "{diameter} × √{{D}} + {pitch} × √{{P}}, all in inches",
            diameter=OF_DIAMETER[d.class_], pitch=OF_PITCH[d.class_],
        ),
        float(of.listed_diameter.quantize(FOUR)), float(d.pitch),
        note=say("D is the nominal diameter, or the next larger one that the standard lists"),
    )
