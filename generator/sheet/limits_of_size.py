"""The thread's limits of size on the sheet, each with the standard's formula or table as its working."""

from __future__ import annotations

from collections.abc import Mapping

from generator.calc import thread_form
from generator.sheet.desk import Desk
from generator.sheet.model import Figure, Kind, Quantity
from generator.sheet.threading import Threading
from generator.si import Length

Put = Mapping[str, tuple[float, Quantity]]


def lay_limits(threading: Threading, desk: Desk) -> tuple[Length, Length]:
    """Lay down tolerances, limits and lead angle; returns the pitch diameter's max and min (m)."""
    sizes, unit = threading.limits, threading.unit
    lay = _Layer(threading, desk)
    lay.tolerances()
    largest, smallest = _lay_inside(lay) if threading.designation.internal else _lay_outside(lay)
    lead_at = smallest if threading.designation.internal else largest
    desk.computed(
        "thread.lead_angle", "Lead angle", thread_form.lead_angle(threading.lead, lead_at), "angle",
        "arctan({L} ÷ (π × {d2}))", {"L": (threading.lead, "fine_length"), "d2": (lead_at, "length")},
        "geometry of the helix; ASME B1.7", system=threading.system,
    )
    desk.lay(Figure(
        "thread.engagement", "Length of engagement the limits are for", sizes.engagement * unit, "length",
        Kind.STANDARD if sizes.engagement_standard else Kind.GIVEN, sizes.source, system=threading.system,
    ))
    _find_remarks(threading, desk)
    return largest, smallest


def _lay_outside(lay: _Layer) -> tuple[Length, Length]:
    """Major, pitch and minor diameter of an external thread; returns the pitch diameter's max and min (m)."""
    threading, sizes, unit = lay.threading, lay.threading.limits, lay.threading.unit
    assert sizes.major_tolerance is not None, "every external thread has one"
    nominal: tuple[float, Quantity] = (threading.designation.nominal * unit, "length")
    pitch: tuple[float, Quantity] = (threading.pitch, "fine_length")
    major_max = lay.limit(
        "major.max", "Major diameter, max", sizes.major.max, "{d} − {es}", "down",
        {"d": nominal, "es": (sizes.allowance * unit, "length")},
    )
    largest = lay.limit(
        "pitch_diameter.max", "Pitch diameter, max", sizes.pitch_diameter.max,
        "{d max} − 0.64951905 × {P}", "down", {"d max": (major_max, "length"), "P": pitch},
    )
    lay.limit(
        "major.min", "Major diameter, min", sizes.major.min, "{d max} − {Td}", "up",
        {"d max": (major_max, "length"), "Td": (sizes.major_tolerance * unit, "length")},
    )
    smallest = lay.limit(
        "pitch_diameter.min", "Pitch diameter, min", sizes.pitch_diameter.min, "{d2 max} − {Td2}", "up",
        {"d2 max": (largest, "length"), "Td2": (sizes.pitch_tolerance * unit, "length")},
    )
    factor = "1.19078493" if threading.designation.rounded_root else "1.08253175"
    if sizes.minor.max is not None:
        lay.limit(
            "minor.max", "Minor diameter, max (reference)", sizes.minor.max,
            f"{{d max}} − {factor} × {{P}}", "down", {"d max": (major_max, "length"), "P": pitch},
        )
    if sizes.minor.min is not None:
        lay.limit(
            "minor.min", "Minor diameter, min", sizes.minor.min, "{d2 min} − 0.616025 × {P}", "up",
            {"d2 min": (smallest, "length"), "P": pitch},
        )
    return largest, smallest


def _lay_inside(lay: _Layer) -> tuple[Length, Length]:
    """Major, pitch and minor diameter of an internal thread; returns the pitch diameter's max and min (m)."""
    threading, sizes, unit = lay.threading, lay.threading.limits, lay.threading.unit
    assert sizes.minor_tolerance is not None, "every internal thread has one"
    nominal: tuple[float, Quantity] = (threading.designation.nominal * unit, "length")
    pitch: tuple[float, Quantity] = (threading.pitch, "fine_length")
    major = lay.limit(
        "major.min", "Major diameter, min", sizes.major.min, "{d} + {EI}", "up",
        {"d": nominal, "EI": (sizes.allowance * unit, "length")},
        note="the standard gives no max: a deeper groove costs only wall",
    )
    smallest = lay.limit(
        "pitch_diameter.min", "Pitch diameter, min", sizes.pitch_diameter.min,
        "{D min} − 0.64951905 × {P}", "up", {"D min": (major, "length"), "P": pitch},
    )
    largest = lay.limit(
        "pitch_diameter.max", "Pitch diameter, max", sizes.pitch_diameter.max, "{D2 min} + {TD2}", "down",
        {"D2 min": (smallest, "length"), "TD2": (sizes.pitch_tolerance * unit, "length")},
    )
    note = (
        "the standard prints this limit at three places"
        if threading.designation.family == "UN" else ""
    )
    minor = lay.limit(
        "minor.min", "Minor diameter, min", sizes.minor.min, "{D min} − 1.08253175 × {P}", "up",
        {"D min": (major, "length"), "P": pitch}, note=note,
    )
    lay.limit(
        "minor.max", "Minor diameter, max", sizes.minor.max, "{D1 min} + {TD1}", "down",
        {"D1 min": (minor, "length"), "TD1": (sizes.minor_tolerance * unit, "length")}, note=note,
    )
    return largest, smallest


class _Layer:
    """Lays limits and tolerances with the source and system of one thread."""

    def __init__(self, threading: Threading, desk: Desk) -> None:
        self.threading, self.desk = threading, desk

    def limit(
        self, name: str, label: str, value: float | None, formula: str, rounds: str, put: Put, note: str = ""
    ) -> Length:
        """One limit, given in the thread's own unit; returns it in m."""
        assert value is not None, f"the standard gives every such thread a {label.lower()}"
        return self.desk.computed(
            f"thread.{name}", label, value * self.threading.unit, "length", formula, put,
            self.threading.limits.source, kind=Kind.STANDARD, system=self.threading.system, rounds=rounds,
            note=note,
        )

    def tolerances(self) -> None:
        """Allowance and the tolerances of the crests' diameter and of the pitch diameter."""
        sizes, inside = self.threading.limits, self.threading.designation.internal
        allowance, crest, pitch = (
            self._metric() if self.threading.designation.family == "M"
            else self._unified_inside() if inside else self._unified()
        )
        crests = "minor" if inside else "major"
        tolerance = sizes.minor_tolerance if inside else sizes.major_tolerance
        for name, label, value, (formula, put) in (
            ("allowance", "Allowance", sizes.allowance, allowance),
            (f"{crests}.tolerance", f"{crests.capitalize()} diameter tolerance", tolerance, crest),
            ("pitch_diameter.tolerance", "Pitch diameter tolerance", sizes.pitch_tolerance, pitch),
        ):
            self.limit(name, label, value, formula, "nearest", put)

    def _unified(self) -> tuple[tuple[str, Put], ...]:
        threading = self.threading
        of_class = threading.designation.class_
        pitch: tuple[float, Quantity] = (threading.pitch, "fine_length")
        return (
            ("none for class 3A" if of_class == "3A" else "0.300 × the class 2A tolerance", {}),
            (f"{'0.090' if of_class == '1A' else '0.060'} × ∛{{P}}², in inches", {"P": pitch}),
            self._unified_pitch({"1A": 1.5, "2A": 1.0, "3A": 0.75}[of_class]),
        )

    def _unified_inside(self) -> tuple[tuple[str, Put], ...]:
        threading = self.threading
        pitch: tuple[float, Quantity] = (threading.pitch, "fine_length")
        nominal: tuple[float, Quantity] = (threading.designation.nominal * threading.unit, "length")
        of_class, tpi = threading.designation.class_, threading.designation.tpi
        small, put = "0.05 ∛{P}² + 0.03 × {P} ÷ {D} − 0.002", {"P": pitch, "D": nominal}
        if of_class == "3B":
            least = "0.23 × {P} − 1.5 × {P}²" if tpi is not None and tpi >= 13 else "0.120 × {P}"
            crest: tuple[str, Put] = (f"{small}, at most 0.394 × {{P}}, at least {least}, all in inches", put)
        elif threading.designation.nominal < 0.25:
            least = "0.25 × {P} − 0.40 × {P}²"
            crest = (f"{small}, at most 0.394 × {{P}}, at least {least}, all in inches", put)
        elif tpi is not None and tpi >= 4:
            crest = ("0.25 × {P} − 0.40 × {P}², in inches", {"P": pitch})
        else:
            crest = ("0.15 × {P}", {"P": pitch})
        return (
            ("none for internal Unified threads", {}),
            crest,
            self._unified_pitch({"1B": 1.95, "2B": 1.3, "3B": 0.975}[of_class]),
        )

    def _unified_pitch(self, factor: float) -> tuple[str, Put]:
        threading, unit = self.threading, self.threading.unit
        return (
            "{k} × (0.0015 ∛{D} + 0.0015 √{LE} + 0.015 ∛{P}²), all in inches",
            {
                "k": (factor, "ratio"),
                "D": (threading.designation.nominal * unit, "length"),
                "LE": (threading.limits.engagement * unit, "length"),
                "P": (threading.pitch, "fine_length"),
            },
        )

    def _metric(self) -> tuple[tuple[str, Put], ...]:
        table = "the table's value for this pitch"
        return (
            (f"{table} and position", {}),
            (f"{table} and grade", {}),
            (f"{table}, diameter range and grade", {}),
        )


def _find_remarks(threading: Threading, desk: Desk) -> None:
    where = threading.operation.length.where
    for number, remark in enumerate(threading.limits.remarks, 1):
        desk.find(f"limits-remark-{number}", "note", remark, where)
    if not threading.limits.tabulated:
        desk.find(
            "not-tabulated", "note",
            f"{threading.designation.text} is not in the standard's tables; its limits come from the "
            "standard's formulas.",
            where,
        )
