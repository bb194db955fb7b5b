"""The thread micrometer: which anvils, what it reads, what it does not see, and where it does not measure."""

from __future__ import annotations

from generator.calc.thread_form import lead_angle
from generator.calc.wires import EXACT_FROM
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.plans import ThreadPlan
from generator.si import degree

SOURCE = later("Machinery's Handbook, thread micrometers (from memory); common practice")
STOCK = (60, 55)        # degrees: anvils that are kept; common practice, no source


def micrometer_reads(thread: ThreadPlan) -> bool:
    """Whether a V and a cone on opposite sides both seat: flanks alike, and a crest opposite to a groove.

    On opposite sides of a thread with an even number of starts crest faces crest and groove faces groove.

    Source: geometry.
    """
    profile = thread.profile
    leans = profile.flanks.symmetrical and not profile.square and not profile.taper
    return leans and thread.designation.starts % 2 == 1


def lay_micrometer(thread: ThreadPlan, desk: Desk) -> None:
    """Lay the anvils to take and what the reading is; why not, where they do not seat.

    Nothing for square and taper threads: what measures them is said with the gauges.
    """
    profile, inside = thread.profile, thread.internal
    if profile.square or profile.taper:
        return
    if micrometer_reads(thread):
        angle, pitch = _angle(thread), _pitch(thread)
        value, note = (
            say("{angle:g}° points for {pitch}", angle=angle, pitch=pitch) if inside
            else say("{angle:g}° anvils for {pitch}", angle=angle, pitch=pitch),
            _reading(thread),
        )
    elif not profile.flanks.symmetrical:
        value, note = (
            say("not for this thread"),
            say("its two ends lean alike on both sides, these flanks do not"),
        )
    else:
        value = say("not for this thread")
        note = say("with an even number of starts crest faces crest: its two ends do not face each other")
    label = say("Inside thread micrometer") if inside else say("Thread micrometer")
    desk.lay(Figure("measure.micrometer", label, value, "text", Kind.COMPUTED, SOURCE, note=note))


def _angle(thread: ThreadPlan) -> float:
    return round(thread.flanks.included / degree, 1)


def _pitch(thread: ThreadPlan) -> str:
    designation = thread.designation
    if designation.tpi is not None:
        return say("{tpi:g} threads per inch", tpi=float(designation.tpi))
    return say("{pitch:g} {unit} pitch", pitch=float(designation.pitch), unit=designation.unit)


def _reading(thread: ThreadPlan) -> str:
    """What it reads, and how it is set."""
    said = say("reads the pitch diameter at one place, neither lead nor flank angle")
    if thread.internal:
        said = say("where it goes in: {said}", said=said)
    most_material = thread.pitch_diameter_min if thread.internal else thread.pitch_diameter_max
    lead = lead_angle(thread.lead, most_material)
    if lead > EXACT_FROM:
        said += say(
            "; at a lead angle of {lead:.1f}° it bears beside the pitch line: compare it with a thread of "
            "the same lead, read no size off it",
            lead=lead / degree,
        )
    else:
        said += say("; set it on a thread standard of this pitch and form")
    return said if _angle(thread) in STOCK else say("{said}. Ends of this angle are to order", said=said)
