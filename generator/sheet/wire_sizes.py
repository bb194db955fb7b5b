"""Measurement over three wires: best wire, the wire used, and the sizes over it."""

from __future__ import annotations

from generator.calc import thread_form, wires
from generator.job.shop import Tools
from generator.sheet.desk import Desk
from generator.sheet.model import Figure, Kind, Quantity
from generator.sheet.threading import Threading
from generator.sheet.wire_words import over_wires_formula
from generator.sheet.wording import fine_words
from generator.si import Length, degree

SOURCE = "NBS Handbook H28; ASME B1.2"
PLACES = {"in": 4, "mm": 3}  # as ASME B1.1 and ISO 965-2 print limits


def lay_wires(
    threading: Threading, tools: Tools, largest: Length, smallest: Length, desk: Desk
) -> Length:
    """Lay down wires and sizes over them for the limits of the pitch diameter; returns the wire (m)."""
    pitch, half_angle, system = threading.pitch, threading.half_angle, threading.system
    best = desk.computed(
        "thread.wire.best", "Best wire", wires.best_wire(pitch, half_angle), "fine_length",
        f"{wires.best_wire(1.0, half_angle):.6f} × {{P}}",
        {"P": (pitch, "fine_length")}, SOURCE, system=system,
    )
    angle = f"{half_angle / degree:g}°"
    wire, kind, why = _wire(threading, tools, best, desk)
    desk.lay(Figure("thread.wire.size", "Wire used", wire, "fine_length", kind, why, system=system))
    _lay_over("max", "Over wires, max", largest, wire, threading, "down", desk)
    _lay_over("min", "Over wires, min", smallest, wire, threading, "up", desk)
    desk.computed(
        "thread.wire.lead_correction", "What the lead angle would add over wires",
        wires.lead_correction(largest, wire, pitch, threading.lead, half_angle), "fine_length",
        f"{{W}} ÷ 2 × tan² {{λ}} × cos {angle} × cot {angle}",
        {
            "W": (wire, "fine_length"),
            "λ": (thread_form.lead_angle(threading.lead, largest), "angle"),
        },
        SOURCE + "; left out where it is under 0.00015 in (0.004 mm)", system=system,
    )
    return wire


def _wire(threading: Threading, tools: Tools, best: Length, desk: Desk) -> tuple[Length, Kind, str]:
    """The wire to measure over, how it is known, and why this one."""
    given = threading.operation.wire
    if given is not None:
        low, high = wires.usable_wires(
            threading.pitch, threading.half_angle, threading.profile.addendum
        )
        if not low <= given.si <= high:
            desk.find(
                "wire-unusable", "stop",
                f"A {given.with_unit} wire does not seat on the flanks of this pitch: wires from "
                f"{fine_words(low, threading.system)} to {fine_words(high, threading.system)} do.",
                given.where,
            )
        return given.si, Kind(given.kind), given.origin
    chosen = wires.choose_wire(
        best, [wire.si for wire in tools.wires], threading.pitch, threading.half_angle,
        threading.profile.addendum,
    )
    if chosen is not None:
        return chosen, Kind.SHOP, "jobs/_shop/tools.yml: the nearest usable wire of the shop's set"
    desk.find(
        "wire-missing", "check",
        "No wire of the shop's set seats in this pitch. Borrow the best wire or measure with a thread "
        "micrometer.",
        threading.operation.length.where,
    )
    return best, Kind.ASSUMED, "no wire of the shop fits this pitch; the best wire is assumed"


def _lay_over(
    name: str, label: str, diameter: Length, wire: Length, threading: Threading, rounds: str, desk: Desk
) -> None:
    exact = wires.over_wires(diameter, wire, threading.pitch, threading.lead, threading.half_angle)
    simple = wires.over_wires_simple(diameter, wire, threading.pitch, threading.half_angle)
    shown = round(exact / threading.unit, PLACES[threading.designation.unit]) * threading.unit
    put: dict[str, tuple[float, Quantity]] = {
        "d2": (diameter, "length"), "W": (wire, "fine_length"), "P": (threading.pitch, "fine_length"),
    }
    formula = over_wires_formula(threading.profile.flanks)
    if exact != simple:
        formula += " + {lead angle term}"
        put["lead angle term"] = (exact - simple, "fine_length")
    desk.computed(
        f"thread.over_wires.{name}", label, shown, "length", formula, put, SOURCE, system=threading.system,
        rounds=rounds,
    )
