"""How much thread of both halves meets, with shoulder and relief, and the chamfers of both taken off."""

from __future__ import annotations

import math

from generator.calc.thread_fit import engaged_length
from generator.job.model import Job, Mate
from generator.job.operations import Chamfer, Thread
from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.figure import Quantity
from generator.sheet.threading import Threading, relief_operation
from generator.sheet.wording import length_words
from generator.si import Length

STANDARD_NUT = 0.8  # of the diameter: height of a standard nut, ISO 4032 (from memory of it)
LEAN = math.radians(45)  # a chamfer whose angle nobody said


def lay_engaged(job: Job, mate: Mate, threading: Threading, desk: Desk) -> None:
    """Lay down the length that engages and how many pitches that are, where the mate's length is known."""
    if mate.engagement is None:
        return
    relief, operation, system = relief_operation(job), threading.operation, threading.system
    gap, own = relief.width.si if relief else 0.0, own_chamfer(job, operation)
    its = mate.chamfer.si if mate.chamfer else 0.0
    engaged = engaged_length(mate.engagement.si, operation.length.si, gap, own, its)
    put: dict[str, tuple[float, Quantity]] = {
        "mate": (mate.engagement.si, "length"), "its chamfer": (its, "length"), "relief": (gap, "length"),
        "thread": (operation.length.si, "length"), "chamfer": (own, "length"),
    }
    desk.computed(
        "mate.engaged", say("Full thread that engages"), engaged, "length",
        say(
            "smaller of {mate} − {its chamfer} and {relief} + {thread} − {chamfer}, less the larger of {its "
            "chamfer} and {relief}"
        ),
        put, say("geometry: the mate run up to the shoulder"), system=system,
        note="" if mate.chamfer else say("the mate's chamfers were not given and are not taken off"),
    )
    desk.computed(
        "mate.engaged_pitches",
        say("Pitches that engage"),
        engaged / threading.pitch,
        "ratio",
        "{engaged} ÷ {P}",
        {"engaged": (engaged, "length"), "P": (threading.pitch, "fine_length")},
        say("arithmetic"),
        system=system,
    )
    _compare(engaged, mate, threading, desk)


def own_chamfer(job: Job, operation: Thread) -> Length:
    """What the chamfer at the thread's free end takes of it along the axis (m); 0 where none is cut."""
    if operation.from_end is not None and operation.from_end.si > 0:
        return 0.0
    for entry in job.operations:
        chamfer = entry.chamfer
        at_end = chamfer is not None and chamfer.end in (None, "right") and not chamfer.from_end
        if chamfer is not None and at_end and chamfer.inside == operation.read().internal:
            return _along(chamfer)
    return 0.0


def _along(chamfer: Chamfer) -> Length:
    """Length of a chamfer along the axis: its width or length, else from its depth and angle (m)."""
    given = chamfer.width or chamfer.length
    if given is not None:
        return given.si
    if chamfer.depth is None:
        return 0.0
    angle = chamfer.angle.si if chamfer.angle else LEAN
    return chamfer.depth.si / math.tan(angle) if angle else 0.0


def _compare(engaged: Length, mate: Mate, threading: Threading, desk: Desk) -> None:
    """The length beside what is usual; no verdict on strength."""
    assert mate.engagement is not None, "called with a length of the mate"
    diameter, system = threading.designation.nominal * threading.unit, threading.system
    where = mate.engagement.where
    if engaged <= 0:
        desk.find(
            "mate-not-engaged", "stop",
            say(
                "No full thread of the mate, {engagement} long, meets this thread: relief and chamfers take "
                "all of it.",
                engagement=mate.engagement.with_unit,
            ),
            where, say("How long is the mate's thread, and how far does it go on?"),
        )
    elif engaged < STANDARD_NUT * diameter:
        desk.find(
            "engaged-short", "note",
            say(
                "{engaged} of full thread engages, {pitches:.1f} pitches and {share:.2f} of the diameter; a "
                "standard nut has {standard_nut:g} of it. Whether that is enough is for whoever answers for "
                "the part.",
                engaged=length_words(engaged, system), pitches=engaged / threading.pitch,
                share=engaged / diameter, standard_nut=STANDARD_NUT,
            ),
            where,
        )
