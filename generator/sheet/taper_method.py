"""How a taper is turned on this lathe, and what is set: compound, taper attachment, or tailstock."""

from __future__ import annotations

from typing import Literal

from generator.calc.taper import half_angle
from generator.calc.taper_settings import (
    SET_OVER_LIMIT,
    attachment_setting,
    compound_reading,
    compound_travel,
    set_over_error,
    tailstock_offset,
)
from generator.language.say import later, say
from generator.sheet.figure import Kind
from generator.sheet.operation_cuts import dial_words
from generator.sheet.operation_task import PRACTICE, Task
from generator.sheet.wording import length_words
from generator.si import Angle, Length, degree, inch

Method = Literal["compound", "tailstock", "attachment"]
WORDS = {
    "compound": later("with the compound swiveled"), "attachment": later("with the taper attachment"),
    "tailstock": later("with the tailstock set over"),
}
SCALES = {  # what the scale of an attachment reads
    "half angle": later(
        "half angle"
    ), "included angle": later("included angle"), "per foot": later("per foot"),
}
JONES = later("Jones, Turning and Boring (1914); geometry")
NAVY = later("US Navy course NAVEDTRA 14345; Machinery's Handbook, Tapers (from memory)")


def lay_method(task: Task, asked: Method | None, ratio: float, length: Length) -> Method | None:
    """Lay how the taper is turned and what is set; None where the lathe has no way to turn it."""
    angle = half_angle(ratio)
    method, kind, source, note = asked, Kind.GIVEN, say("given in the file"), ""
    if method is None:
        method, note = _choose(task, angle, length)
        kind, source = Kind.COMPUTED, PRACTICE
    if method is None:
        task.unknown("by", say("turned"), "text", note)
        task.find(
            "taper-no-way", "check",
            say(
                "{opening}: {note}. Turn it in two settings of the compound, or on another lathe.",
                opening=task.opening, note=note,
            ),
        )
        return None
    task.chosen("by", say("turned"), WORDS[method], "text", kind, source, note=note)
    if method == "compound":
        _lay_compound(task, angle, length)
    elif method == "attachment":
        _lay_attachment(task, ratio, angle, length)
    else:
        _lay_tailstock(task, ratio, angle)
    return method


def _choose(task: Task, angle: Angle, length: Length) -> tuple[Method | None, str]:
    """The first way that this lathe has: the compound while its travel is enough, then the attachment."""
    lathe = task.bench.lathe
    travel, attachment = lathe.compound_travel, lathe.taper_attachment
    needs = compound_travel(length, angle)
    if travel is not None and needs <= travel.si:
        return "compound", say("the compound's travel of {travel} is enough", travel=travel.with_unit)
    fits = attachment is not None and length <= attachment.length.si and angle <= attachment.steepest.si
    if attachment is not None and fits:
        return "attachment", say(
            "the attachment takes {length} in one setting",
            length=attachment.length.with_unit,
        )
    if travel is None:
        return "compound", say(
            "the lathe's record has no compound travel and no attachment for it: look at both"
        )
    words = say(
        "the compound travels {travel} and the taper needs {needs}",
        travel=travel.with_unit, needs=_words(task, needs),
    )
    if attachment is not None:
        takes = say(
            "{length} and {steepest}",
            length=attachment.length.with_unit, steepest=attachment.steepest.with_unit,
        )
        words += say(", and the attachment takes {takes}", takes=takes)
    else:
        words += say(", and there is no taper attachment on record")
    return None, words


def _lay_compound(task: Task, angle: Angle, length: Length) -> None:
    """The swivel, what its scale shows, and the travel against the compound's own."""
    lathe = task.bench.lathe
    swivel = say("compound {angle:.2f}° from the axis", angle=angle / degree)
    if lathe.compound_zero is None:
        task.unknown(
            "compound_scale", say("reading of the compound's scale"), "angle",
            say("the lathe's record does not say where the compound's scale reads 0 (compound_zero)"),
        )
        other = 90 - angle / degree
        either = say("{angle:.2f}° or {other:.2f}°", angle=angle / degree, other=other)
        task.remarks.append(
            say("{swivel}: its scale reads {either}, look where 0 is", swivel=swivel, either=either)
        )
    else:
        across = lathe.compound_zero == "across"
        reading = task.computed(
            "compound_scale",
            say("reading of the compound's scale"),
            compound_reading(angle, lathe.compound_zero),
            "angle",
            "90° − {α}" if across else "{α}",
            {"α": (angle, "angle")},
            JONES,
            note=say("its scale reads 0 when it points across the bed") if across
            else say("its scale reads 0 when it points along the bed"),
        )
        task.remarks.append(
            say("{swivel}: its scale reads {reading:.2f}°", swivel=swivel, reading=reading / degree)
        )
    travel = task.computed(
        "compound_travel", say("travel of the compound"), compound_travel(length, angle), "length",
        "{l} ÷ cos {α}", {"l": (length, "length"), "α": (angle, "angle")}, say("geometry"), rounds="up",
    )
    task.remarks.append(
        say("compound from end to end: {travel}", travel=dial_words(travel, lathe.compound_dial))
    )
    has = lathe.compound_travel
    if has is not None and travel > has.si:
        instead = (
            say("the taper attachment") if lathe.taper_attachment else say("two settings of the compound")
        )
        task.find(
            "taper-compound", "stop",
            say(
                "{opening} needs {travel} of the compound, and it travels {has}. Use {instead}, or another "
                "lathe.",
                opening=task.opening, travel=_words(task, travel), has=has.with_unit, instead=instead,
            ),
        )


def _lay_attachment(task: Task, ratio: float, angle: Angle, length: Length) -> None:
    """The attachment's own scale, and its limits."""
    attachment, lathe = task.bench.lathe.taper_attachment, task.bench.lathe
    if attachment is None:
        task.find(
            "taper-attachment", "check",
            say(
                "The record of {lathe} has no taper attachment for {what}. Write it there, or turn it with "
                "the compound.",
                lathe=lathe.name, what=task.what,
            ),
        )
        return
    if attachment.scale is None:
        task.unknown(
            "attachment_scale", say("reading of the attachment's scale"), "angle",
            say("the lathe's record does not say what the attachment's scale reads"),
        )
    else:
        setting = attachment_setting(ratio, attachment.scale)
        per_foot = attachment.scale == "per foot"
        formula = {"per foot": "12 in × {taper}", "half angle": "arc tan ({taper} ÷ 2)"}.get(
            attachment.scale, "2 × arc tan ({taper} ÷ 2)"
        )
        task.computed(
            "attachment_scale", say("reading of the attachment's scale"), setting,
            "length" if per_foot else "angle", formula, {"taper": (ratio, "ratio")}, JONES,
            note=say("its scale reads {scale}", scale=SCALES[attachment.scale]),
        )
        shown = say("{setting:.4f} in a foot", setting=setting / inch)
        if not per_foot:
            shown = say("{setting:.2f}° {scale}", setting=setting / degree, scale=SCALES[attachment.scale])
        task.remarks.append(say("taper attachment at {shown}", shown=shown))
    if length > attachment.length.si or angle > attachment.steepest.si:
        task.find(
            "taper-attachment", "stop",
            say(
                "The attachment of {lathe} takes tapers of {longest} up to {steepest} to the axis; {what} "
                "is {length} long at {angle:.2f} degrees. Turn it with the compound, or in two settings.",
                lathe=lathe.name, longest=attachment.length.with_unit, steepest=attachment.steepest.with_unit,
                what=task.what, length=_words(task, length), angle=angle / degree,
            ),
        )


def _lay_tailstock(task: Task, ratio: float, angle: Angle) -> None:
    """The offset over the whole length between centers; only for work that is driven between centers."""
    lathe, total = task.bench.lathe, task.bench.layout.total
    if task.bench.job.holding.centers is not None:
        task.find(
            "taper-between-centers", "note",
            say(
                "{opening} is done with the tailstock set over. Line the tailstock up again afterwards, and "
                "see with a test bar or a long light cut that it turns parallel.",
                opening=task.opening,
            ),
        )
    else:
        task.find(
            "taper-between-centers", "check",
            say(
                "{opening} with the tailstock set over is for work between centers, driven by a dog: jaws "
                "would bend this work and let it walk. Set it up between centers, or use the compound. Line "
                "the tailstock up again afterwards.",
                opening=task.opening,
            ),
        )
    if angle > SET_OVER_LIMIT:
        task.unknown(
            "tailstock_offset", say("tailstock set over"), "length", say("the taper is too steep for it")
        )
        task.find(
            "taper-set-over", "stop",
            say(
                "{opening} has {angle:.2f} degrees to the axis; with the tailstock set over the centers "
                "bear badly above {set_over_limit:.0f} degrees ({practice}). Use the compound.",
                opening=task.opening, angle=angle / degree, set_over_limit=SET_OVER_LIMIT / degree,
                practice=PRACTICE,
            ),
        )
        return
    offset = task.computed(
        "tailstock_offset",
        say("tailstock set over"),
        tailstock_offset(ratio, total),
        "length",
        "{length between centers} × {taper} ÷ 2",
        {"length between centers": (total, "length"), "taper": (ratio, "ratio")},
        NAVY,
        note=say(
            "towards the operator for a small end at the tailstock; the whole length of the work counts; "
            "{set_over_error:.2f} % too large, as the work leans",
            set_over_error=100 * set_over_error(ratio),
        ),
    )
    task.remarks.append(say("tailstock {offset} over", offset=_words(task, offset)))
    has = lathe.tailstock.offset if lathe.tailstock else None
    if has is not None and offset > has.si:
        task.find(
            "taper-set-over", "stop",
            say(
                "{opening} needs the tailstock {offset} over, and that of {lathe} goes {has}. Use the "
                "compound or the attachment.",
                opening=task.opening, offset=_words(task, offset), lathe=lathe.name, has=has.with_unit,
            ),
        )


def _words(task: Task, length: Length) -> str:
    return length_words(length, task.bench.system)
