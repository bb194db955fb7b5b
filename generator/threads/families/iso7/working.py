"""The working of every size of the pipe threads R, Rc and Rp, as the sheet shows it (ISO 7-1)."""

from __future__ import annotations

from generator.language.say import later, say
from generator.threads.designation import Designation
from generator.threads.families.iso7.sizes import TAPER, PipeSize
from generator.threads.sizes import Put, Range, SizeLine, size_line

TABLE = later("the table's value for this size")
AT = {"R": later(" at the small end"), "Rc": later(" at the gauge plane"), "Rp": ""}


def size_lines(
    d: Designation, size: PipeSize, limits: tuple[Range, Range, Range], offset: float, each_way: float
) -> tuple[SizeLine, ...]:
    """All sizes of a pipe thread with their working, in the order of the sheet."""
    lines = list(_at_gauge_plane(size)) if d.series != "Rp" else []
    lines += _limits(d, size, limits, offset, each_way)
    if d.series == "R":
        lines += _lengths(size)
    if d.series == "Rp":
        lines.append(
            _table("plus_minus", say("Tolerance of all three diameters, each way"), float(size.parallel))
        )
    lines += _turns(d, size)
    return tuple(lines)


def _at_gauge_plane(size: PipeSize) -> list[SizeLine]:
    major, height = float(size.major), float(size.height)
    lines = [_table("major", say("Gauge diameter: major diameter at the gauge plane"), major)]
    for name, label, times in (
        ("pitch_diameter", say("Pitch diameter at the gauge plane"), 1),
        ("minor", say("Minor diameter at the gauge plane"), 2),
    ):
        put: Put = {"d": (major, "length"), "h": (height, "length")}
        lines.append(
            SizeLine(
                f"gauge.{name}",
                label,
                round(major - times * height, 3),
                "{d} − {h}" if times == 1 else "{d} − 2 × {h}",
                put,
            )
        )
    return lines


def _limits(
    d: Designation, size: PipeSize, limits: tuple[Range, Range, Range], offset: float, each_way: float
) -> list[SizeLine]:
    """Limits at the end; outside the gauge length's limits decide, inside the gauge plane's."""
    at, lines = AT[d.series], []
    major, height = float(size.major), float(size.height)
    for name, label, of, basic in (
        ("pitch_diameter", say("Pitch diameter"), limits[1], major - height),
        ("major", say("Major diameter"), limits[0], major),
        ("minor", say("Minor diameter"), limits[2], major - 2 * height),
    ):
        for end, sign, value in (("max", "+", of.max), ("min", "−", of.min)):
            if d.series == "R":
                change = size.gauge_tolerance * (-1 if end == "max" else 1)
                length = float(size.gauge + change)
                formula, put = "{size at the gauge plane} − {gauge length} ÷ 16", (basic, length)
            else:
                formula, put = f"{{basic size}} {sign} {{tolerance}}", (basic, each_way)
            lines.append(
                size_line(
                    f"{name}.{end}",
                    value,
                    formula,
                    *put,
                    label=f"{label}{at}, {end}",
                )
            )
    return lines


def _lengths(size: PipeSize) -> list[SizeLine]:
    gauge, each_way, fitting = float(size.gauge), float(size.gauge_tolerance), float(size.fitting)
    put: Put = {"gauge length": (gauge, "length"), "tolerance": (each_way, "length")}
    wrench = round(float(size.wrench_turns) * float(size.pitch), 1)
    return [
        _table("length", say("Gauge length: small end to the gauge plane"), gauge),
        SizeLine(
            "gauge.length.max",
            say("Gauge length, max"),
            round(gauge + each_way, 1),
            "{gauge length} + {tolerance}",
            put,
            "down",
        ),
        SizeLine(
            "gauge.length.min",
            say("Gauge length, min"),
            round(gauge - each_way, 1),
            "{gauge length} − {tolerance}",
            put,
            "up",
        ),
        _table("fitting", say("Fitting allowance beyond the gauge plane"), fitting),
        *(
            SizeLine(
                f"gauge.useful{end}",
                say("Useful thread{words}, at least", words=words),
                round(gauge + shift + fitting, 1),
                "{gauge length} + {fitting allowance}",
                {"gauge length": (gauge + shift, "length"), "fitting allowance": (fitting, "length")},
                "up",
            )
            for end, words, shift in (
                ("", "", 0.0),
                (".max", say(" with the longest gauge length"), each_way),
                (".min", say(" with the shortest gauge length"), -each_way),
            )
        ),
        SizeLine(
            "gauge.wrench",
            say("Wrenching allowance"),
            wrench,
            "{turns} × {P}",
            {"turns": (float(size.wrench_turns), "ratio"), "P": (float(size.pitch), "fine_length")},
        ),
    ]


def _turns(d: Designation, size: PipeSize) -> list[SizeLine]:
    pitch = float(size.pitch)
    fine: Put = {"P": (pitch, "fine_length")}
    inside = d.internal
    each_way = float(size.internal_turns if inside else size.gauge_turns)
    lines = [
        SizeLine(
            "gauge.turns_each_way",
            say("Gauge may stand off, turns each way"),
            each_way,
            TABLE,
            quantity="ratio",
        ),
        SizeLine(
            "gauge.per_turn",
            say("Diameter for one turn of the gauge"),
            round(float(TAPER) * pitch, 4),
            "{P} ÷ 16",
            fine,
        ),
    ]
    if not inside:
        gauge = float(size.gauge)
        lines.append(SizeLine(
            "gauge.hand_turns", say("Turns of engagement by hand"), gauge / pitch, "{gauge length} ÷ {P}",
            {"gauge length": (gauge, "length"), **fine}, quantity="ratio",
        ))
        lines.append(SizeLine(
            "gauge.wrench_turns", say("Turns of make-up by wrench"), float(size.wrench_turns),
            say("{fitting allowance} − {internal tolerance}, in turns"),
            {
                "fitting allowance": (float(size.fitting_turns), "ratio"),
                "internal tolerance": (float(size.internal_turns), "ratio"),
            },
            quantity="ratio",
        ))
    return lines


def _table(name: str, label: str, value: float) -> SizeLine:
    return SizeLine(f"gauge.{name}", label, value, TABLE)
