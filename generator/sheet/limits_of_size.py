"""The thread's limits of size on the sheet, each with the standard's formula or table as its working."""

from __future__ import annotations

from generator.calc import thread_form
from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.threading import Threading
from generator.si import Length
from generator.threads.sizes import PutQuantity, SizeLine

LENGTHS: tuple[PutQuantity, ...] = ("length", "fine_length")


def lay_limits(threading: Threading, desk: Desk) -> tuple[Length | None, Length | None]:
    """Lay down tolerances, limits and lead angle; returns the pitch diameter's max and min (m)."""
    sizes, unit = threading.limits, threading.unit
    for line in sizes.lines:
        _lay(line, threading, desk)
    largest, smallest = (
        None if end is None else end * unit
        for end in (sizes.pitch_diameter.max, sizes.pitch_diameter.min)
    )
    lead_at = (smallest if threading.designation.internal else largest) or threading.basic_pitch_diameter
    desk.computed(
        "thread.lead_angle", say("Lead angle"), thread_form.lead_angle(threading.lead, lead_at), "angle",
        "arctan({L} ÷ (π × {d2}))", {"L": (threading.lead, "fine_length"), "d2": (lead_at, "length")},
        say("geometry of the helix; ASME B1.7"), system=threading.system,
    )
    if sizes.engagement is not None:
        desk.lay(
            Figure(
                "thread.engagement",
                say("Length of engagement the limits are for"),
                sizes.engagement * unit,
                "length",
                Kind.STANDARD if sizes.engagement_standard else Kind.GIVEN,
                sizes.source,
                system=threading.system,
            )
        )
    _find_remarks(threading, desk)
    return largest, smallest


def _lay(line: SizeLine, threading: Threading, desk: Desk) -> None:
    """One size with its working, from the thread's own unit."""
    unit = threading.unit

    def si(value: float, quantity: PutQuantity) -> float:
        return value * unit if quantity in LENGTHS else value

    desk.computed(
        f"thread.{line.name}", line.label, si(line.value, line.quantity), line.quantity, line.formula,
        {name: (si(value, quantity), quantity) for name, (value, quantity) in line.put.items()},
        threading.limits.source, kind=Kind.STANDARD, system=threading.system, rounds=line.rounds,
        note=line.note,
    )


def _find_remarks(threading: Threading, desk: Desk) -> None:
    sizes, where = threading.limits, threading.operation.length.where
    for number, remark in enumerate(sizes.remarks, 1):
        desk.find(f"limits-remark-{number}", "note", remark, where)
    if sizes.memory:
        desk.find(
            "limits-from-memory", "check",
            say(
                "{designation}: {memory} could only be had from memory of {standard}: check your copy.",
                designation=threading.designation.text, memory=sizes.memory, standard=threading.standard,
            ),
            where,
        )
    if not sizes.tabulated:
        desk.find(
            "not-tabulated", "note",
            say(
                "{designation} is not in the standard's tables; its limits come from the standard's "
                "formulas.",
                designation=threading.designation.text,
            ),
            where,
        )
