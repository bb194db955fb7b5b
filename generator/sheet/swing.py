"""What swings clear: over the bed, in the gap with its bridge out, over the cross slide."""

from __future__ import annotations

import math

from generator.errors import Location
from generator.job.lathe import Lathe
from generator.job.lathe_parts import Head
from generator.job.model import Job
from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, System
from generator.sheet.head import HEAD_WORDS
from generator.sheet.layout import Layout
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import length_words
from generator.si import Length

SAME = 1e-9  # m: two sizes closer than this are one


def lay_size(desk: Desk, name: str, label: str, value: Length, limit: str) -> None:
    """Lay down a size of the work, with the limit that the lathe sets it."""
    desk.lay(
        Figure(
            f"capacity.{name}", label, value, "length", Kind.COMPUTED, say("the work's own sizes"), note=limit
        )
    )


def swing_section(
    job: Job,
    lathe: Lathe,
    head: Head | None,
    layout: Layout,
    thread: ThreadPlan | None,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    """Compare the largest diameters with what swings over bed, gap and cross slide."""
    largest = max(max(span.od_start, span.od_end) for span in layout.spans)
    where = job.work[max(layout.spans, key=lambda one: max(one.od_start, one.od_end)).section_index].od.where
    over_bed = lathe.swing.over_bed
    lay_size(
        desk,
        "swing_over_bed",
        say("Largest diameter"),
        largest,
        say("{over_bed} swings over the bed", over_bed=over_bed.with_unit),
    )
    if largest > over_bed.si:
        words = HEAD_WORDS[job.holding.held.kind]
        _over_bed(lathe, head, words, layout, largest, where, system, desk, unchecked)
    over_slide = lathe.swing.over_cross_slide
    if over_slide is None:
        unchecked.append(say("the swing over the cross slide (swing: over_cross_slide)"))
        return
    from_x = -layout.grip
    if thread is not None and lathe.carriage_left is not None:
        from_x = (thread.relief_end if thread.relief_end is not None else thread.end) - lathe.carriage_left.si
    passing = [max(span.od_start, span.od_end) for span in layout.spans if span.end > from_x]
    widest = max(passing, default=largest)
    lay_size(
        desk,
        "swing_over_cross_slide",
        say("Largest diameter over the cross slide"),
        widest,
        say("{over_slide} swings over the cross slide", over_slide=over_slide.with_unit),
    )
    if widest > over_slide.si:
        desk.find(
            "swing-slide",
            "stop",
            say(
                "{widest} has to pass over the cross slide; {lathe} swings {over_slide} there. Take a "
                "larger lathe, or hold it so that the wide part stays clear.",
                widest=length_words(widest, system), lathe=lathe.name, over_slide=over_slide.with_unit,
            ),
            where,
        )


def _over_bed(
    lathe: Lathe,
    head: Head | None,
    words: str,
    layout: Layout,
    largest: Length,
    where: Location,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    """Work that does not swing over the bed: it may lie in the gap, with the bridge out."""
    swing = lathe.swing
    too_large = say(
        "The work is {largest} across; {lathe} swings {over_bed} over the bed",
        largest=length_words(largest, system), lathe=lathe.name, over_bed=swing.over_bed.with_unit,
    )
    if swing.in_gap is None or largest > swing.in_gap.si:
        gap = say(" and {in_gap} in the gap", in_gap=swing.in_gap.with_unit) if swing.in_gap else ""
        text = say("{too_large}{gap}. Take a larger lathe.", too_large=too_large, gap=gap)
        desk.find("swing-bed", "stop", text, where)
        return
    open_gap = say(
        "{too_large}, {in_gap} in the gap. Take the bridge out; the carriage has no bed there, so try by "
        "hand how far it may go",
        too_large=too_large, in_gap=swing.in_gap.with_unit,
    )
    if swing.gap_width is None or head is None or head.length is None:
        if swing.gap_width is None:
            unchecked.append(say("how wide the gap is (swing: gap_width)"))
        desk.find(
            "swing-gap", "check", say(
                "{open_gap}. Measure first whether the wide part lies in the gap.",
                open_gap=open_gap,
            ), where
        )
        return
    from_nose = max(
        _wide_to(span.start, span.end, span.od_start, span.od_end, swing.over_bed.si) for span in layout.spans
    ) + head.length.si
    desk.computed(
        "capacity.gap",
        say("Gap needed, from the spindle nose"),
        from_nose,
        "length",
        f"{{{words}}} + {{end of the wide part}}",
        {
            words: (head.length.si, "length"),
            "end of the wide part": (from_nose - head.length.si, "length"),
        },
        say("geometry"),
        note=say(
            "the gap of {lathe} reaches {gap_width}",
            lathe=lathe.name, gap_width=swing.gap_width.with_unit,
        ),
        rounds="up",
    )
    if from_nose > swing.gap_width.si + SAME:
        desk.find(
            "swing-bed",
            "stop",
            say(
                "{too_large}, {in_gap} in the gap; but the wide part reaches {from_nose} from the spindle "
                "nose, and the gap {gap_width}. Grip it nearer to its wide part, or take a larger lathe.",
                too_large=too_large, in_gap=swing.in_gap.with_unit, from_nose=length_words(from_nose, system),
                gap_width=swing.gap_width.with_unit,
            ),
            where,
        )
        return
    desk.find("swing-gap", "check", f"{open_gap}.", where)


def _wide_to(
    start: Length, end: Length, od_start: Length, od_end: Length, over_bed: Length
) -> Length:
    """Where, nearest the tailstock, a section is wider than the swing; minus infinity: nowhere (m)."""
    if od_end > over_bed:
        return end
    if od_start <= over_bed:
        return -math.inf
    return start + (end - start) * (od_start - over_bed) / (od_start - od_end)
