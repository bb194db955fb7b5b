"""What follows when work is taken up again: on its lathe, on another one, with another tool.

    says_taken_up    how the dial counts since then, while there is still something to cut
    says_tool        what a tool ground anew, or another one, changes
    left_on_dial     the passes that are left, on the dial of the other lathe
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from generator.calc.dials import reading, whole_graduations
from generator.calc.take_up import rests_higher
from generator.job.lathe import Lathe
from generator.job.shop import ThreadTool
from generator.job.source import LogEntry
from generator.language.say import say
from generator.sheet.happened import LeftOnDial
from generator.sheet.log_passes import Travels, infeed_travels
from generator.sheet.logged import Logged
from generator.sheet.wording import fine_words
from generator.si import Length, degree, mm

HALVES: Final = 2             # of a graduation: what the eye reads off between two lines
ALIKE: Final = 0.005 * mm     # two flats closer than this are one: common practice, no source
ONE_ANGLE: Final = degree / 2  # two angles closer than this are one: common practice, no source


def says_taken_up(logged: Logged) -> Iterator[str]:
    """How the dial counts since the thread was taken up again, while there is still something to cut."""
    back = next((one for one in reversed(logged.threads) if one.entry.taken_up is not None), None)
    if back is None or _done(logged):
        return
    lathe, travels = logged.lathe_at(back), infeed_travels(logged)
    if lathe is None:
        text = say(
            "Taken up on {at} on a lathe that this shop does not have: no dial reading since then can be "
            "understood.",
            at=back.entry.at,
        )
    elif lathe.lathe != logged.lathe.lathe:
        text = _elsewhere(back, lathe, travels, logged)
    else:
        text = _here(back, travels, logged)
    if not text:
        slide = logged.infeed_slide
        yield say(
            "Taken up on {at} with the {slide} dial as it was: the pass table goes on.",
            at=back.entry.at,
            slide=slide,
        )
        return
    logged.desk.find("log-zero", "check", text, back.where("taken_up"))
    yield text


def _done(logged: Logged) -> bool:
    return any(one.entry.finished for one in logged.threads)


def _here(back: LogEntry, travels: Travels, logged: Logged) -> str:
    """On the lathe of the job; empty where the dial counts as before."""
    at, slide, dial = back.entry.at, logged.infeed_slide, logged.infeed_dial(logged.lathe)
    shift = travels.shift * dial.per_travel
    if not travels.zero_known:
        return _no_zero(back, logged.lathe, logged)
    if back.entry.taken_up is None or back.entry.taken_up.dial is None:
        return say(
            "Taken up on {at}; how the {slide} dial stood with the tool in the groove is not in the log, "
            "and depths are worked out as if its zero were the old one.",
            at=at,
            slide=slide,
        )
    if abs(shift) < dial.division / 2:
        return ""
    shifted = fine_words(abs(shift), logged.lathe.units)
    if (shift > 0) != (logged.thread is not None and logged.thread.internal):
        return say(
            "Since it was taken up on {at} the {slide} dial reads {shift} more than the pass table says at "
            "the same depth: set it by as much differently in the passes that are left.",
            at=at, slide=slide, shift=shifted,
        )
    return say(
        "Since it was taken up on {at} the {slide} dial reads {shift} less than the pass table says at the "
        "same depth: set it by as much differently in the passes that are left.",
        at=at, slide=slide, shift=shifted,
    )


def _elsewhere(back: LogEntry, lathe: Lathe, travels: Travels, logged: Logged) -> str:
    """On another lathe: its readings have nothing to do with those of the pass table."""
    if not travels.zero_known:
        return _no_zero(back, lathe, logged)
    left = (
        say(
            " The passes that are left stand on its {slide} dial in the part The log.",
            slide=logged.infeed_slide,
        )
        if left_on_dial(logged) is not None
        else ""
    )
    return say(
        "Taken up on {at} on {name}: the dial readings of the pass table are those of "
        "{lathe} and do not hold there. Readings before and after cannot be compared; depths "
        "can.{left} Levers, speeds and reach are still those of {lathe}: see the sheet of the "
        "job for {name} before starting.",
        at=back.entry.at,
        name=lathe.name,
        lathe=logged.lathe.name,
        left=left,
    )


def _no_zero(back: LogEntry, lathe: Lathe, logged: Logged) -> str:
    return say(
        "Taken up on {at} on {name}; how its {slide} dial stood with the "
        "tool in the groove is not in the log. Readings before and after cannot be compared, and what depth "
        "its dial means is not known: bring the tool into the groove as deep as it was left, and write down "
        "what the dial reads under taken_up.",
        at=back.entry.at,
        name=lathe.name,
        slide=logged.infeed_slide,
    )


def left_on_dial(logged: Logged) -> LeftOnDial | None:
    """The passes that are left, on the infeed dial of another lathe, never past what the pass cuts.

    None on the lathe of the job, whose pass table has them; where the zero of the dial is not known; and when
    nothing is left.
    """
    lathe, travels = logged.lathe_now, infeed_travels(logged)
    moved = lathe is not None and lathe.lathe != logged.lathe.lathe
    if lathe is None or not moved or not travels.zero_known or logged.cuts is None or _done(logged):
        return None
    dial = logged.infeed_dial(lathe)
    inside = logged.thread is not None and logged.thread.internal
    last: dict[int | None, int] = {}
    for one in logged.threads:
        if one.entry.pass_ is not None:
            last[one.entry.start] = one.entry.pass_
    done, rows = min(last.values(), default=0), list[tuple[int, Length, int, Length]]()
    for line in logged.cuts.passes:
        travel = line.travel + travels.shift
        if line.number <= done or travel < 0:
            continue
        shown = whole_graduations(travel, dial, HALVES, "down") / HALVES * dial.graduation
        rows.append((line.number, line.depth, *reading(shown, dial, inside)))
    return LeftOnDial(lathe.name, logged.infeed_slide, lathe.units, tuple(rows)) if rows else None


# -- the tool -------------------------------------------------------------------------------------------


def says_tool(logged: Logged) -> Iterator[str]:
    """What follows from the last tool the log takes the thread up with, while there is something to cut."""
    if logged.thread is None or _done(logged):
        return
    flat: Length | None = logged.thread.nose_flat if logged.thread.nose_flat > 0 else None
    found: tuple[LogEntry, Length | None, Length | None] | None = None
    for one in logged.threads:
        back, stop = one.entry.taken_up, one.entry.stop
        if back is not None and (back.tool is not None or back.flat is not None):
            before, flat = flat, back.flat.si if back.flat is not None else _flat_of(back.tool, logged)
            found = one, before, flat
        if stop is not None and stop.flat is not None:
            flat = stop.flat.si
    if found is None:
        return
    text = _tool_text(*found, logged)
    logged.desk.find("log-tool", "check", text, found[0].where("taken_up"))
    yield text


def _tool_text(one: LogEntry, before: Length | None, now: Length | None, logged: Logged) -> str:
    """The change in words, and what follows from both flats."""
    back, thread = one.entry.taken_up, logged.thread
    assert back is not None
    assert thread is not None
    angle = _angle_text(back.tool, logged)
    text = (
        say("Cut on since {at} with tool {tool}. {angle}", at=one.entry.at, tool=back.tool, angle=angle)
        if back.tool is not None
        else say("Cut on since {at} with the reground tool. {angle}", at=one.entry.at, angle=angle)
    )
    if thread.flanks.square:
        return say("{text}A square groove is as wide as its tool: measure both before it cuts.", text=text)
    if before is None or now is None:
        return say(
            "{text}The flat of the one or the other is not known, so how high it rests in the groove is not "
            "either: measure the thread before the next cut.",
            text=text,
        )
    wider = now - before
    said = fine_words(abs(wider), logged.system)
    if abs(wider) <= ALIKE:
        return say(
            "{text}Its flat is that of the tool before: it rests in the groove as that one did.", text=text
        )
    if wider < 0:
        return say(
            "{text}Its flat is {said} narrower: it meets the bottom of the groove before it touches both "
            "flanks. Set it by a flank, and go by what the thread measures, not by the dial.",
            text=text,
            said=said,
        )
    higher = logged.desk.computed(
        "log.rests_higher", say("The wider flat rests higher in the groove by"),
        rests_higher(wider, thread.flanks), "fine_length", "{w} ÷ (tan {A} + tan {B})",
        {
            "w": (wider, "fine_length"), "A": (thread.flanks.load, "angle"),
            "B": (thread.flanks.clearance, "angle"),
        },
        say("plane geometry; both tools of one angle"), system=logged.system,
    )
    return say(
        "{text}Its flat is {said} wider: with both flanks touching it rests {higher} higher. Depths since "
        "then are those of its flanks, as the sizes of the pass table want them; the root stays shallower by "
        "as much. See that the mate's crests clear it.",
        text=text, said=said, higher=fine_words(higher, logged.system),
    )


def _flat_of(name: str | None, logged: Logged) -> Length | None:
    tool = _tool_of(name, logged)
    return tool.nose_flat.si if tool is not None and tool.nose_flat is not None else None


def _tool_of(name: str | None, logged: Logged) -> ThreadTool | None:
    return next((one for one in logged.tools.threading if one.name == name), None)


def _angle_text(name: str | None, logged: Logged) -> str:
    """A word when the tool is ground to another angle than the thread."""
    tool, thread = _tool_of(name, logged), logged.thread
    if tool is None or thread is None:
        return ""
    wanted = thread.flanks.load + thread.flanks.clearance
    if abs(tool.angle.si - wanted) <= ONE_ANGLE:
        return ""
    return say(
        "It is ground to {angle:g} degrees, the thread has {wanted:g}: it does not fit the groove. ",
        angle=tool.angle.si / degree, wanted=wanted / degree,
    )
