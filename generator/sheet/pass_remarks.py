"""What stands under the pass table: how to set and use it, in the order it is met at the lathe."""

from __future__ import annotations

import math

from generator.job.operations import Thread
from generator.sheet.infeed import Infeed, hardens
from generator.sheet.lines import PassLine
from generator.sheet.plans import ThreadPlan
from generator.si import degree
from generator.tables.materials import MaterialRow

HALF_WAY = "Some readings stand halfway between graduations: a whole one would not land inside the limits."
SPRING = "Spring passes: the same reading again; the tool takes off what work and slides gave way."
RUBS = (
    "No spring passes: this material hardens under a tool that only rubs. Keep every cut at the smallest or "
    "above, and do not dwell."
)
ROUND = "Chip area and force are for the flat that leaves the same pitch diameter as the nose radius."
MEASURE_INSIDE = (
    "Measure at the marked lines between balls, where they seat; the plug gauge and the mate only near size."
)
TRIED_WITH = {"wires": "the mate", "mate": "the mate", "gauge": "the go gauge"}
TRIED_INSIDE = {"wires": "the go plug gauge", "mate": "the mate", "gauge": "the go plug gauge"}


def dial_words(infeed: Infeed, internal: bool = False) -> str:
    """The dial the table is for."""
    record = infeed.record
    back = ", turned back towards you: its numbers run down from 0" if internal else ""
    return (
        f"{infeed.slide} dial, {record.division.with_unit} a graduation, {record.turn.with_unit} a turn, "
        f"reads {record.reads}{back}"
    )


def pass_remarks(
    operation: Thread, infeed: Infeed, parts: int, thread: ThreadPlan, material: MaterialRow | None,
    lines: tuple[PassLine, ...],
) -> tuple[str, ...]:
    """All remarks (common practice; Jones, Turning and Boring, 1914, on the compound)."""
    springs = any(line.spring for line in lines)
    return tuple(remark for remark in (
        *(_setting_inside(infeed) if thread.internal else _setting(infeed)),
        _diameter(infeed),
        HALF_WAY if parts > 1 else "",
        *_trying(operation, infeed, thread, lines),
        MEASURE_INSIDE if thread.internal else "",
        SPRING if springs else "",
        RUBS if hardens(material) and not springs else "",
        ROUND if thread.nose_radius else "",
    ) if remark)


def _setting(infeed: Infeed) -> tuple[str, ...]:
    touch = (
        "Touch the turned surface and set both dials to zero with the backlash out; come up to every "
        "reading from the same side."
    )
    if not infeed.angle:
        return touch, "Straight in: withdraw at the end of each pass, feed in to the next reading."
    return (
        f"Compound set over {infeed.angle / degree:g}° from the cross-slide direction, so that it feeds in "
        f"towards the {infeed.towards}. Protractors differ: it may read {90 - infeed.angle / degree:g}° "
        "there.",
        touch,
        "Withdraw with the cross slide at the end of each pass and bring it back to the same zero before "
        "the next; feed in with the compound only.",
    )


def _setting_inside(infeed: Infeed) -> tuple[str, ...]:
    """Depth is outwards, towards the operator; everything that was away is now towards, and back."""
    touch = (
        "Cut on your side of the bore: depth is towards you. Touch the bore and set both dials to zero with "
        "the slack taken up towards you, the other way than outside; come up to every reading towards you. "
        "The dial runs down from 0: the table gives the number at the mark, after the whole turns back."
    )
    withdraw = (
        "Withdraw with the cross slide away from you, towards the middle of the bore, no further than the "
        "bar has room"
    )
    look = "Bar at center height, parallel with the bore; run it in by hand once with the spindle stopped."
    if not infeed.angle:
        return look, touch, f"Straight outwards: at the end of each pass stop. {withdraw}."
    return (
        f"Compound set over {infeed.angle / degree:g}° from the cross-slide direction to the other side than "
        f"for an outside thread, so that turned back it feeds towards you and towards the {infeed.towards}. "
        f"Protractors differ: it may read {90 - infeed.angle / degree:g}° there.",
        look,
        touch,
        f"{withdraw}; bring it back to the same zero before the next pass, and feed in with the compound "
        "only.",
    )


def _diameter(infeed: Infeed) -> str:
    if infeed.dial.reads == "radius":
        return ""
    return (
        f"The {infeed.slide} dial reads diameter: it shows twice what the slide travels. Cut and depth in "
        "the table are radial."
    )


def _trying(
    operation: Thread, infeed: Infeed, thread: ThreadPlan, lines: tuple[PassLine, ...]
) -> tuple[str, str]:
    trial = next((line for line in lines if line.try_mate), None)
    if thread.profile.taper:
        return (
            f"Try the taper gauge from pass {trial.number} on, by hand, spindle stopped, thread clean; it "
            "may still stop short there." if trial else "",
            "What is still to be cut stands at the gauge lines of the thread data: so much further in for "
            "every turn that it stops short.",
        )
    share = f", times {1 / math.cos(infeed.angle):.3f} on the compound" if infeed.angle else ""
    with_what = TRIED_INSIDE if thread.internal else TRIED_WITH
    return (
        f"Try {with_what[operation.fit]} from pass {trial.number} on, spindle stopped, thread clean; it may "
        "still be tight there." if trial else "",
        "After measuring, half of what the pitch diameter is "
        f"{'under' if thread.internal else 'above'} its aim is still to be cut, radial{share}.",
    )
