"""How the taper of a thread is cut on this lathe: the taper attachment, or the tailstock set over.

The compound cannot: the leadscrew moves the carriage, and the compound stands still.
"""

from __future__ import annotations

from generator.calc.taper import half_angle
from generator.calc.taper_settings import attachment_setting, tailstock_offset
from generator.calc.taper_thread_setup import set_over_pitch
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.operations import Thread
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.layout import Layout
from generator.sheet.plans import ThreadPlan
from generator.sheet.taper_blank import PRACTICE
from generator.sheet.taper_method import JONES, NAVY, WORDS
from generator.sheet.wording import fine_words, length_words
from generator.si import Length, degree

RUN_IN = 2  # turns before the thread, to take up the slack of attachment and leadscrew: common practice


def lay_taper_method(
    job: Job, lathe: Lathe, layout: Layout, thread: ThreadPlan, operation: Thread, desk: Desk
) -> None:
    """Lay how the taper is cut and what is set; a stop where this lathe has no way."""
    angle = half_angle(thread.profile.taper)
    relief = 0.0 if thread.relief_end is None else abs(thread.end - thread.relief_end)
    length = abs(thread.start - thread.end) + relief
    way = length + RUN_IN * thread.lead
    attachment = lathe.taper_attachment
    if attachment is not None and angle <= attachment.steepest.si and way <= attachment.length.si:
        _lay_words("attachment", f"the attachment takes {attachment.length.with_unit} in one setting", desk)
        _lay_attachment(lathe, thread, way, operation, desk)
        return
    has = lathe.tailstock.offset if lathe.tailstock else None
    if job.holding.centers is not None and not thread.internal:
        offset = tailstock_offset(thread.profile.taper, layout.total)
        if has is None or offset <= has.si:
            _lay_words("tailstock", "no taper attachment on record takes it, and it is between centers", desk)
            _lay_tailstock(layout, thread, offset, operation, desk)
            return
    desk.unknown("cut.taper.method", "The taper is cut", "text", "this lathe has no way to cut it as held")
    _find_no_way(lathe, thread, way, operation, desk)


def _lay_words(method: str, why: str, desk: Desk) -> None:
    words = {"attachment": WORDS["attachment"], "tailstock": WORDS["tailstock"]}[method]
    desk.lay(Figure("cut.taper.method", "The taper is cut", words, "text", Kind.COMPUTED, PRACTICE, note=why))


def _lay_attachment(
    lathe: Lathe, thread: ThreadPlan, way: Length, operation: Thread, desk: Desk
) -> None:
    attachment = lathe.taper_attachment
    assert attachment is not None, "chosen because there is one"
    ratio, system = thread.profile.taper, thread.system
    if attachment.scale is None:
        desk.unknown(
            "cut.taper.scale", "Reading of the attachment's scale", "angle",
            "the lathe's record does not say what the attachment's scale reads",
        )
    else:
        per_foot = attachment.scale == "per foot"
        desk.computed(
            "cut.taper.scale", "Reading of the attachment's scale"
            + (", in a foot" if per_foot else f", {attachment.scale}"),
            attachment_setting(ratio, attachment.scale), "length" if per_foot else "angle",
            {
                "per foot": "{taper} × 12 inch", "half angle": "arc tan ({taper} ÷ 2)",
                "included angle": "2 × arc tan ({taper} ÷ 2)",
            }[attachment.scale],
            {"taper": (ratio, "ratio")}, JONES, system=system,
        )
    start = "face" if thread.internal else "small end"
    desk.find(
        "taper-thread-attachment", "note",
        f"Try the attachment on the blank: {fine_words(ratio * thread.pitch, system)} on the diameter for "
        f"one pitch of travel. Start every pass {length_words(RUN_IN * thread.lead, system)} or more before "
        f"the {start}, so that its slack is taken up on the way, and do not reset it between blank and "
        f"thread. It needs {length_words(way, system)} of its bar.",
        operation.length.where,
    )


def _lay_tailstock(
    layout: Layout, thread: ThreadPlan, offset: Length, operation: Thread, desk: Desk
) -> None:
    ratio, system = thread.profile.taper, thread.system
    desk.computed(
        "cut.taper.tailstock_offset", "Tailstock set over", offset, "length",
        "{length between centers} × {taper} ÷ 2",
        {"length between centers": (layout.total, "length"), "taper": (ratio, "ratio")}, NAVY, system=system,
        note="towards the operator for a small end at the tailstock; the whole length of the work counts",
    )
    short = thread.pitch - set_over_pitch(thread.pitch, ratio)
    length = abs(thread.start - thread.end)
    desk.find(
        "taper-thread-set-over", "check",
        f"With the tailstock set over, the work leans: the pitch comes out short by "
        f"{fine_words(short / thread.pitch * length, system)} over the thread, and a bent dog drives "
        "unevenly once in a turn. The attachment cuts the better thread. Set the tool square to the work's "
        "own axis, not to the lathe's. Line the tailstock up again afterwards.",
        operation.length.where,
    )


def _find_no_way(
    lathe: Lathe, thread: ThreadPlan, way: Length, operation: Thread, desk: Desk
) -> None:
    attachment, system = lathe.taper_attachment, thread.system
    if attachment is None:
        has = f"the record of {lathe.name} has no taper attachment"
    else:
        has = (
            f"the attachment of {lathe.name} takes {attachment.length.with_unit} up to "
            f"{attachment.steepest.with_unit} to the axis, and this needs {length_words(way, system)} at "
            f"{half_angle(thread.profile.taper) / degree:.2f} degrees"
        )
    other = "" if thread.internal else "set the work up between centers with the tailstock over, "
    desk.find(
        "taper-thread-no-way", "stop",
        f"{thread.designation.text} cannot be cut as held: {has}, and the compound does not follow the "
        f"leadscrew. Write the attachment in the lathe's record if it has one, {other}take another lathe, or "
        "cut it with a die or tap.",
        operation.length.where, "On which lathe, or with which taps and dies, is it to be cut?",
    )
