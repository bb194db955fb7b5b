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
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind
from generator.sheet.layout import Layout
from generator.sheet.plans import ThreadPlan
from generator.sheet.taper_blank import PRACTICE
from generator.sheet.taper_method import JONES, NAVY, WORDS
from generator.sheet.wording import fine_words, length_words
from generator.si import Length, degree

RUN_IN = 2  # turns before the thread, to take up the slack of attachment and leadscrew: common practice
READINGS = {  # of the scale of an attachment
    "half angle": later("Reading of the attachment's scale, half angle"),
    "included angle": later("Reading of the attachment's scale, included angle"),
    "per foot": later("Reading of the attachment's scale, in a foot"),
}


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
        _lay_words(
            "attachment",
            say("the attachment takes {length} in one setting", length=attachment.length.with_unit),
            desk,
        )
        _lay_attachment(lathe, thread, way, operation, desk)
        return
    has = lathe.tailstock.offset if lathe.tailstock else None
    if job.holding.centers is not None and not thread.internal:
        offset = tailstock_offset(thread.profile.taper, layout.total)
        if has is None or offset <= has.si:
            _lay_words(
                "tailstock", say("no taper attachment on record takes it, and it is between centers"), desk
            )
            _lay_tailstock(layout, thread, offset, operation, desk)
            return
    desk.unknown(
        "cut.taper.method", say("The taper is cut"), "text", say("this lathe has no way to cut it as held")
    )
    _find_no_way(lathe, thread, way, operation, desk)


def _lay_words(method: str, why: str, desk: Desk) -> None:
    words = {"attachment": WORDS["attachment"], "tailstock": WORDS["tailstock"]}[method]
    desk.lay(
        Figure("cut.taper.method", say("The taper is cut"), words, "text", Kind.COMPUTED, PRACTICE, note=why)
    )


def _lay_attachment(
    lathe: Lathe, thread: ThreadPlan, way: Length, operation: Thread, desk: Desk
) -> None:
    attachment = lathe.taper_attachment
    assert attachment is not None, "chosen because there is one"
    ratio, system = thread.profile.taper, thread.system
    if attachment.scale is None:
        desk.unknown(
            "cut.taper.scale", say("Reading of the attachment's scale"), "angle",
            say("the lathe's record does not say what the attachment's scale reads"),
        )
    else:
        per_foot = attachment.scale == "per foot"
        desk.computed(
            "cut.taper.scale", say(READINGS[attachment.scale]),
            attachment_setting(ratio, attachment.scale), "length" if per_foot else "angle",
            {
                "per foot": say("{taper} × 12 inch"), "half angle": "arc tan ({taper} ÷ 2)",
                "included angle": "2 × arc tan ({taper} ÷ 2)",
            }[attachment.scale],
            {"taper": (ratio, "ratio")}, JONES, system=system,
        )
    parts = {
        "ratio": fine_words(ratio * thread.pitch, system),
        "run_in": length_words(RUN_IN * thread.lead, system), "way": length_words(way, system),
    }
    desk.find(
        "taper-thread-attachment", "note",
        say(
            "Try the attachment on the blank: {ratio} on the diameter for one pitch of travel. Start every "
            "pass {run_in} or more before the face, so that its slack is taken up on the way, and do not "
            "reset it between blank and thread. It needs {way} of its bar.",
            **parts,
        )
        if thread.internal
        else say(
            "Try the attachment on the blank: {ratio} on the diameter for one pitch of travel. Start every "
            "pass {run_in} or more before the small end, so that its slack is taken up on the way, and do "
            "not reset it between blank and thread. It needs {way} of its bar.",
            **parts,
        ),
        operation.length.where,
    )


def _lay_tailstock(
    layout: Layout, thread: ThreadPlan, offset: Length, operation: Thread, desk: Desk
) -> None:
    ratio, system = thread.profile.taper, thread.system
    desk.computed(
        "cut.taper.tailstock_offset",
        say("Tailstock set over"),
        offset,
        "length",
        "{length between centers} × {taper} ÷ 2",
        {"length between centers": (layout.total, "length"), "taper": (ratio, "ratio")},
        NAVY,
        system=system,
        note=say(
            "towards the operator for a small end at the tailstock; the whole length of the work counts"
        ),
    )
    short = thread.pitch - set_over_pitch(thread.pitch, ratio)
    length = abs(thread.start - thread.end)
    desk.find(
        "taper-thread-set-over", "check",
        say(
            "With the tailstock set over, the work leans: the pitch comes out short by {short} over the "
            "thread, and a bent dog drives unevenly once in a turn. The attachment cuts the better thread. "
            "Set the tool square to the work's own axis, not to the lathe's. Line the tailstock up again "
            "afterwards.",
            short=fine_words(short / thread.pitch * length, system),
        ),
        operation.length.where,
    )


def _find_no_way(
    lathe: Lathe, thread: ThreadPlan, way: Length, operation: Thread, desk: Desk
) -> None:
    attachment, system = lathe.taper_attachment, thread.system
    if attachment is None:
        has = say("the record of {lathe} has no taper attachment", lathe=lathe.name)
    else:
        has = say(
            "the attachment of {lathe} takes {length} up to {steepest} to the axis, and this needs {way} at "
            "{angle:.2f} degrees",
            lathe=lathe.name, length=attachment.length.with_unit, steepest=attachment.steepest.with_unit,
            way=length_words(way, system), angle=half_angle(thread.profile.taper) / degree,
        )
    other = "" if thread.internal else say("set the work up between centers with the tailstock over, ")
    desk.find(
        "taper-thread-no-way", "stop",
        say(
            "{designation} cannot be cut as held: {has}, and the compound does not follow the leadscrew. "
            "Write the attachment in the lathe's record if it has one, {other}take another lathe, or cut it "
            "with a die or tap.",
            designation=thread.designation.text, has=has, other=other,
        ),
        operation.length.where, say("On which lathe, or with which taps and dies, is it to be cut?"),
    )
