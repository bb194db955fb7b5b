"""What stands under the pass table: how to set and use it, in the order it is met at the lathe."""

from __future__ import annotations

import math

from generator.calc.form_tool import SIDES
from generator.job.operations import Thread
from generator.language.say import later, say
from generator.sheet.infeed import Infeed, hardens
from generator.sheet.lines import PassLine
from generator.sheet.plans import ThreadPlan
from generator.si import degree
from generator.tables.materials import MaterialRow

HALF_WAY = later(
    "Some readings stand halfway between graduations: a whole one would not land inside the limits."
)
SPRING = later("Spring passes: the same reading again; the tool takes off what work and slides gave way.")
RUBS = later(
    "No spring passes: this material hardens under a tool that only rubs. Keep every cut at the smallest or "
    "above, and do not dwell."
)
ROUND = later("Chip area and force are for the flat that leaves the same pitch diameter as the nose radius.")
MEASURE_INSIDE = later(
    "Measure at the marked lines between balls, where they seat; the plug gauge and the mate only near size."
)
TRIED_WITH = {"wires": later("the mate"), "mate": later("the mate"), "gauge": later("the go gauge")}
TRIED_INSIDE = {
    "wires": later("the go plug gauge"),
    "mate": later("the mate"),
    "gauge": later("the go plug gauge"),
}


def dial_words(infeed: Infeed, internal: bool = False) -> str:
    """The dial the table is for."""
    record = infeed.record
    back = say(", turned back towards you: its numbers run down from 0") if internal else ""
    parts = {
        "slide": infeed.slide, "division": record.division.with_unit, "turn": record.turn.with_unit,
        "back": back,
    }
    return (
        say("{slide} dial, {division} a graduation, {turn} a turn, reads radius{back}", **parts)
        if record.reads == "radius"
        else say("{slide} dial, {division} a graduation, {turn} a turn, reads diameter{back}", **parts)
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
    touch = say(
        "Touch the turned surface and set both dials to zero with the backlash out; come up to every "
        "reading from the same side."
    )
    if not infeed.angle:
        return touch, say("Straight in: withdraw at the end of each pass, feed in to the next reading.")
    return (
        say(
            "Compound set over {angle:g}° from the cross-slide direction, so that it feeds in towards the "
            "{towards}. Protractors differ: it may read {protractor:g}° there.",
            angle=infeed.angle / degree, towards=SIDES[infeed.towards], protractor=90 - infeed.angle / degree,
        ),
        touch,
        say(
            "Withdraw with the cross slide at the end of each pass and bring it back to the same zero "
            "before the next; feed in with the compound only."
        ),
    )


def _setting_inside(infeed: Infeed) -> tuple[str, ...]:
    """Depth is outwards, towards the operator; everything that was away is now towards, and back."""
    touch = say(
        "Cut on your side of the bore: depth is towards you. Touch the bore and set both dials to zero with "
        "the slack taken up towards you, the other way than outside; come up to every reading towards you. "
        "The dial runs down from 0: the table gives the number at the mark, after the whole turns back."
    )
    withdraw = say(
        "Withdraw with the cross slide away from you, towards the middle of the bore, no further than the "
        "bar has room"
    )
    look = say(
        "Bar at center height, parallel with the bore; run it in by hand once with the spindle stopped."
    )
    if not infeed.angle:
        return (
            look,
            touch,
            say("Straight outwards: at the end of each pass stop. {withdraw}.", withdraw=withdraw),
        )
    return (
        say(
            "Compound set over {angle:g}° from the cross-slide direction to the other side than for an "
            "outside thread, so that turned back it feeds towards you and towards the {towards}. "
            "Protractors differ: it may read {protractor:g}° there.",
            angle=infeed.angle / degree, towards=SIDES[infeed.towards], protractor=90 - infeed.angle / degree,
        ),
        look,
        touch,
        say(
            "{withdraw}; bring it back to the same zero before the next pass, and feed in with the compound "
            "only.",
            withdraw=withdraw,
        ),
    )


def _diameter(infeed: Infeed) -> str:
    if infeed.dial.reads == "radius":
        return ""
    return say(
        "The {slide} dial reads diameter: it shows twice what the slide travels. Cut and depth in the table "
        "are radial.",
        slide=infeed.slide,
    )


def _trying(
    operation: Thread, infeed: Infeed, thread: ThreadPlan, lines: tuple[PassLine, ...]
) -> tuple[str, str]:
    trial = next((line for line in lines if line.try_mate), None)
    if thread.profile.taper:
        return (
            say(
                "Try the taper gauge from pass {number} on, by hand, spindle stopped, thread clean; it may "
                "still stop short there.",
                number=trial.number,
            )
            if trial
            else "",
            say(
                "What is still to be cut stands at the gauge lines of the thread data: so much further in "
                "for every turn that it stops short."
            ),
        )
    share = say(", times {cos:.3f} on the compound", cos=1 / math.cos(infeed.angle)) if infeed.angle else ""
    with_what = TRIED_INSIDE if thread.internal else TRIED_WITH
    return (
        say(
            "Try {with_what} from pass {number} on, spindle stopped, thread clean; it may still be tight "
            "there.",
            with_what=with_what[operation.fit], number=trial.number,
        )
        if trial
        else "",
        say(
            "After measuring, half of what the pitch diameter is under its aim is still to be cut, "
            "radial{share}.",
            share=share,
        )
        if thread.internal
        else say(
            "After measuring, half of what the pitch diameter is above its aim is still to be cut, "
            "radial{share}.",
            share=share,
        ),
    )
