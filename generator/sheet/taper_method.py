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
from generator.sheet.figure import Kind
from generator.sheet.operation_cuts import dial_words
from generator.sheet.operation_task import PRACTICE, Task
from generator.sheet.wording import length_words
from generator.si import Angle, Length, degree, inch

Method = Literal["compound", "tailstock", "attachment"]
WORDS = {
    "compound": "with the compound swiveled", "attachment": "with the taper attachment",
    "tailstock": "with the tailstock set over",
}
JONES = "Jones, Turning and Boring (1914); geometry"
NAVY = "US Navy course NAVEDTRA 14345; Machinery's Handbook, Tapers (from memory)"


def lay_method(task: Task, asked: Method | None, ratio: float, length: Length) -> Method | None:
    """Lay how the taper is turned and what is set; None where the lathe has no way to turn it."""
    angle = half_angle(ratio)
    method, kind, source, note = asked, Kind.GIVEN, "given in the file", ""
    if method is None:
        method, note = _choose(task, angle, length)
        kind, source = Kind.COMPUTED, PRACTICE
    if method is None:
        task.unknown("by", "turned", "text", note)
        task.find(
            "taper-no-way", "check",
            f"{task.opening}: {note}. Turn it in two settings of the compound, or on another lathe.",
        )
        return None
    task.chosen("by", "turned", WORDS[method], "text", kind, source, note=note)
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
        return "compound", f"the compound's travel of {travel.with_unit} is enough"
    fits = attachment is not None and length <= attachment.length.si and angle <= attachment.steepest.si
    if attachment is not None and fits:
        return "attachment", f"the attachment takes {attachment.length.with_unit} in one setting"
    if travel is None:
        return "compound", "the lathe's record has no compound travel and no attachment for it: look at both"
    words = f"the compound travels {travel.with_unit} and the taper needs {_words(task, needs)}"
    if attachment is not None:
        takes = f"{attachment.length.with_unit} and {attachment.steepest.with_unit}"
        words += f", and the attachment takes {takes}"
    else:
        words += ", and there is no taper attachment on record"
    return None, words


def _lay_compound(task: Task, angle: Angle, length: Length) -> None:
    """The swivel, what its scale shows, and the travel against the compound's own."""
    lathe = task.bench.lathe
    swivel = f"compound {angle / degree:.2f}° from the axis"
    if lathe.compound_zero is None:
        task.unknown(
            "compound_scale", "reading of the compound's scale", "angle",
            "the lathe's record does not say where the compound's scale reads 0 (compound_zero)",
        )
        other = 90 - angle / degree
        either = f"{angle / degree:.2f}° or {other:.2f}°"
        task.remarks.append(f"{swivel}: its scale reads {either}, look where 0 is")
    else:
        across = lathe.compound_zero == "across"
        reading = task.computed(
            "compound_scale", "reading of the compound's scale", compound_reading(angle, lathe.compound_zero),
            "angle", "90° − {α}" if across else "{α}", {"α": (angle, "angle")}, JONES,
            note=f"its scale reads 0 when it points {lathe.compound_zero} the bed",
        )
        task.remarks.append(f"{swivel}: its scale reads {reading / degree:.2f}°")
    travel = task.computed(
        "compound_travel", "travel of the compound", compound_travel(length, angle), "length",
        "{l} ÷ cos {α}", {"l": (length, "length"), "α": (angle, "angle")}, "geometry", rounds="up",
    )
    task.remarks.append(f"compound from end to end: {dial_words(travel, lathe.compound_dial)}")
    has = lathe.compound_travel
    if has is not None and travel > has.si:
        instead = "the taper attachment" if lathe.taper_attachment else "two settings of the compound"
        task.find(
            "taper-compound", "stop",
            f"{task.opening} needs {_words(task, travel)} of the compound, and it travels "
            f"{has.with_unit}. Use {instead}, or another lathe.",
        )


def _lay_attachment(task: Task, ratio: float, angle: Angle, length: Length) -> None:
    """The attachment's own scale, and its limits."""
    attachment, lathe = task.bench.lathe.taper_attachment, task.bench.lathe
    if attachment is None:
        task.find(
            "taper-attachment", "check",
            f"The record of {lathe.name} has no taper attachment for {task.what}. Write it there, or turn it "
            "with the compound.",
        )
        return
    if attachment.scale is None:
        task.unknown(
            "attachment_scale", "reading of the attachment's scale", "angle",
            "the lathe's record does not say what the attachment's scale reads",
        )
    else:
        setting = attachment_setting(ratio, attachment.scale)
        per_foot = attachment.scale == "per foot"
        formula = {"per foot": "12 in × {taper}", "half angle": "arc tan ({taper} ÷ 2)"}.get(
            attachment.scale, "2 × arc tan ({taper} ÷ 2)"
        )
        task.computed(
            "attachment_scale", "reading of the attachment's scale", setting,
            "length" if per_foot else "angle", formula, {"taper": (ratio, "ratio")}, JONES,
            note=f"its scale reads {attachment.scale}",
        )
        shown = f"{setting / inch:.4f} in a foot"
        if not per_foot:
            shown = f"{setting / degree:.2f}° {attachment.scale}"
        task.remarks.append(f"taper attachment at {shown}")
    if length > attachment.length.si or angle > attachment.steepest.si:
        task.find(
            "taper-attachment", "stop",
            f"The attachment of {lathe.name} takes tapers of {attachment.length.with_unit} up to "
            f"{attachment.steepest.with_unit} to the axis; {task.what} is {_words(task, length)} long at "
            f"{angle / degree:.2f} degrees. Turn it with the compound, or in two settings.",
        )


def _lay_tailstock(task: Task, ratio: float, angle: Angle) -> None:
    """The offset over the whole length between centers; only for work that is driven between centers."""
    lathe, total = task.bench.lathe, task.bench.layout.total
    if task.bench.job.holding.centers is not None:
        task.find(
            "taper-between-centers", "note",
            f"{task.opening} is done with the tailstock set over. Line the tailstock up again afterwards, "
            "and see with a test bar or a long light cut that it turns parallel.",
        )
    else:
        task.find(
            "taper-between-centers", "check",
            f"{task.opening} with the tailstock set over is for work between centers, driven by a dog: "
            "jaws would bend this work and let it walk. Set it up between centers, or use the compound. Line "
            "the tailstock up again afterwards.",
        )
    if angle > SET_OVER_LIMIT:
        task.unknown("tailstock_offset", "tailstock set over", "length", "the taper is too steep for it")
        task.find(
            "taper-set-over", "stop",
            f"{task.opening} has {angle / degree:.2f} degrees to the axis; with the tailstock set "
            f"over the centers bear badly above {SET_OVER_LIMIT / degree:.0f} degrees ({PRACTICE}). Use the "
            "compound.",
        )
        return
    offset = task.computed(
        "tailstock_offset", "tailstock set over", tailstock_offset(ratio, total), "length",
        "{length between centers} × {taper} ÷ 2",
        {"length between centers": (total, "length"), "taper": (ratio, "ratio")}, NAVY,
        note="towards the operator for a small end at the tailstock; the whole length of the work counts; "
        f"{100 * set_over_error(ratio):.2f} % too large, as the work leans",
    )
    task.remarks.append(f"tailstock {_words(task, offset)} over")
    has = lathe.tailstock.offset if lathe.tailstock else None
    if has is not None and offset > has.si:
        task.find(
            "taper-set-over", "stop",
            f"{task.opening} needs the tailstock {_words(task, offset)} over, and that of "
            f"{lathe.name} goes {has.with_unit}. Use the compound or the attachment.",
        )


def _words(task: Task, length: Length) -> str:
    return length_words(length, task.bench.system)
