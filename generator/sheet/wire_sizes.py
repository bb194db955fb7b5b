"""Measurement over three wires: best wire, the wire used, and the sizes over it."""

from __future__ import annotations

from collections.abc import Sequence

from generator.calc import wire_choice, wires
from generator.calc.thread_form import lead_angle
from generator.job.shop import Tools
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity
from generator.sheet.threading import Threading
from generator.sheet.wire_words import (
    best_wire_formula,
    between_flanks,
    form_words,
    over_wires_formula,
    wires_source,
)
from generator.sheet.wording import fine_words
from generator.si import Length

TOOLS_FILE = "jobs/_shop/tools.yml"
UPRIGHT = later(
    "; a straight wire does not follow the upright flank, and reads higher still: 0.001 of the pitch at 5°, "
    "0.002 at 10°"
)
SET_SOURCE = later("jobs/_shop/tools.yml: the nearest usable wire of the shop's set")


def lay_wires(
    threading: Threading, tools: Tools, largest: Length, smallest: Length, root: Length, desk: Desk
) -> Length:
    """Lay down wires and sizes over them for the limits of the pitch diameter; returns the wire (m).

    `root` is the diameter at the bottom of the groove, below which no wire goes (m).
    """
    flanks, system, pitch = threading.profile.flanks, threading.system, threading.pitch
    source = wires_source(flanks)
    best = desk.computed(
        "thread.wire.best", say("Best wire"), wire_choice.best_wire(pitch, flanks), "fine_length",
        best_wire_formula(wire_choice.best_wire(1.0, flanks)), {"P": (pitch, "fine_length")}, source,
        system=system, note=between_flanks(flanks),
    )
    usable = threading.profile.usable_wires(pitch, (smallest - root) / 2)
    wire, kind, why = _wire(threading, tools, best, usable, desk)
    desk.lay(Figure("thread.wire.size", say("Wire used"), wire, "fine_length", kind, why, system=system))
    _lay_over("max", say("Over wires, max"), largest, wire, threading, "down", desk)
    _lay_over("min", say("Over wires, min"), smallest, wire, threading, "up", desk)
    _lay_lead(largest, wire, threading, desk)
    return wire


def _wire(
    threading: Threading, tools: Tools, best: Length, usable: tuple[Length, Length], desk: Desk
) -> tuple[Length, Kind, str]:
    """The wire to measure over, how it is known, and why this one."""
    given = threading.operation.wire
    if given is not None:
        if not usable[0] <= given.si <= usable[1]:
            desk.find(
                "wire-unusable", "stop",
                say(
                    "A {given} wire does not seat on the flanks of this pitch: wires from {least} to {most} "
                    "do.",
                    given=given.with_unit, least=fine_words(usable[0], threading.system),
                    most=fine_words(usable[1], threading.system),
                ),
                given.where,
            )
        return given.si, Kind(given.kind), given.origin
    chosen = wire_choice.choose_wire(best, _sizes(tools.wires), usable)
    if chosen is not None:
        return chosen, Kind.SHOP, SET_SOURCE
    fitting = wire_choice.fitting(best, usable)
    desk.find(
        "wire-missing", "check",
        say(
            "No wire of the shop's set seats in this pitch. Borrow three of {fitting}; any from {least} to "
            "{most} do, with sizes of their own.",
            fitting=fine_words(fitting, threading.system), least=fine_words(usable[0], threading.system),
            most=fine_words(usable[1], threading.system),
        ),
        threading.operation.length.where,
    )
    return fitting, Kind.ASSUMED, say("no wire of the shop fits this pitch; one that does")


def _sizes(given: Sequence[Given]) -> list[Length]:
    return [one.si for one in given]


def _lay_over(
    name: str, label: str, diameter: Length, wire: Length, threading: Threading, rounds: str, desk: Desk
) -> None:
    flanks = threading.profile.flanks
    over = wires.over_wires(diameter, wire, threading.pitch, threading.lead, flanks)
    simple = wires.over_wires_simple(diameter, wire, threading.pitch, flanks)
    shown = round(over / threading.unit, threading.limits.places) * threading.unit
    put: dict[str, tuple[float, Quantity]] = {
        "d2": (diameter, "length"), "W": (wire, "fine_length"), "P": (threading.pitch, "fine_length"),
    }
    formula = over_wires_formula(flanks)
    if over != simple:
        formula += " + {lead angle term}"
        put["lead angle term"] = (over - simple, "fine_length")
    desk.computed(
        f"thread.over_wires.{name}", label, shown, "length", formula, put, wires_source(flanks),
        system=threading.system, rounds=rounds,
    )


def _lay_lead(diameter: Length, wire: Length, threading: Threading, desk: Desk) -> None:
    """What the lead angle adds, by the exact form, and which form the sizes are worked out by."""
    flanks, pitch, lead = threading.profile.flanks, threading.pitch, threading.lead
    exact = wires.over_wires_exact(diameter, wire, pitch, lead, flanks)
    simple = wires.over_wires_simple(diameter, wire, pitch, flanks)
    form = wires.form_of(diameter, wire, lead, flanks)
    upright = "" if wires.follows(diameter, wire, lead, flanks) else UPRIGHT
    desk.computed(
        "thread.wire.lead_correction",
        say("What the lead angle adds over wires"),
        exact - simple,
        "fine_length",
        "{exact size} − {simple size}",
        {"exact size": (exact, "fine_length"), "simple size": (simple, "fine_length")},
        say("geometry of a wire on both helical flanks; {wires_source}", wires_source=wires_source(flanks)),
        note=f"{form_words(form, lead_angle(lead, diameter))}{upright}",
        system=threading.system,
    )
