"""The face of the thread dial as the sheet draws it, and the table of its places beside the drawing."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.calc.dial_places import Engagement, engagements
from generator.job.lathe import Lathe
from generator.language.say import later, say
from generator.sheet.dial_words import DialFace, spaces_words
from generator.sheet.drawn import DialPlace, DialRow, DialScene
from generator.sheet.exact import lead_words, leadscrew_lead
from generator.sheet.half_nuts import dial_gears_of
from generator.threads.registry import Designation

_SAYS = {
    "same start": later("half nuts close, the tool is in its groove"),
    "wrong": later("half nuts close, the tool is beside its groove: do not close here"),
    "changes": later("the tool is not sure to be in its groove: leave the half nuts closed"),
    "does not close": later("half nuts do not close"),
}


def dial_scene(lathe: Lathe, designation: Designation, lead: Fraction, job: str) -> DialScene | None:
    """The face of the thread dial for one thread; None when the record has no dial or no leadscrew.

    `lead` (mm, exact) is the lead that is cut, as for `lay_thread_dial`, with which gear and rule agree.

    Raises
    ------
    OutsideRange
        As `lay_thread_dial` does.
    """
    screw, dial = leadscrew_lead(lathe), lathe.dial
    if screw is None or dial is None:
        return None
    gear = dial_gears_of(lathe, screw, lead)[0]
    face = DialFace(dial.lines, dial.numbered_every)
    found = engagements(screw, gear.teeth, dial.lines, lead, designation.starts)
    says = gear.rule.describe()
    if designation.starts > 1 and not gear.rule.keep_half_nuts_closed:
        says = say("to keep the start, {says}", says=says)
    unsure = (DialRow("changes", None, say("any place"), _SAYS["changes"]),)
    return DialScene(
        lines=dial.lines,
        places=tuple(_place(one, face) for one in found),
        rows=unsure if gear.rule.keep_half_nuts_closed else _rows(found, face, designation.starts),
        rule=say("gear of {teeth} teeth: {says}", teeth=gear.teeth, says=says)
        if dial.more_gears and gear.matters
        else says,
        gear=say("dial gear of {teeth} teeth", teeth=gear.teeth),
        leadscrew=say("leadscrew of {screw} lead", screw=lead_words(screw)),
        starts=designation.starts,
        designation=designation.text,
        job=job,
        closing=gear.rule,
    )


def _place(one: Engagement, face: DialFace) -> DialPlace:
    number = face.number(int(one.place)) if one.on_line else ""
    return DialPlace(float(one.place), one.on_line, number, one.outcome, one.start)


def _rows(found: Sequence[Engagement], face: DialFace, starts: int) -> tuple[DialRow, ...]:
    """The places that do the same, the right ones first; none of them changes from turn to turn."""
    order = (*range(1, starts + 1), "wrong", "does not close")
    groups: dict[int | str, list[Engagement]] = {key: [] for key in order}
    for one in found:
        groups[one.start or one.outcome].append(one)
    rows = []
    for key, ones in groups.items():
        if places := _places_words(key, ones, groups, face):
            rows.append(DialRow(ones[0].outcome, ones[0].start, places, _says(ones[0], starts)))
    return tuple(rows)


def _places_words(
    key: int | str, ones: Sequence[Engagement], groups: dict[int | str, list[Engagement]], face: DialFace
) -> str:
    """The places of one group; what is wrong is what the groups before it have left."""
    lines = [int(one.place) for one in ones if one.on_line]
    spaces = [one.place for one in ones if not one.on_line]
    named = face.lines_words(lines) if lines else ""
    if not any(ones for other, ones in groups.items() if other not in (key, "does not close")):
        return say("any place") if ones and key != "does not close" else named
    before = [one for start in groups if isinstance(start, int) for one in groups[start]]
    if key == "wrong":
        if lines and not any(one.on_line for one in groups["does not close"]):
            named = say("the other lines")
        elsewhere = any(not one.on_line for one in before)
        between = (
            "" if not spaces
            else say("elsewhere between the lines") if elsewhere
            else say("between the lines")
        )
    elif key == "does not close":
        closing = any(not one.on_line for one in (*before, *groups["wrong"]))
        between = "" if closing else say("between the lines")
    else:
        between = spaces_words(spaces, face)
    return "; ".join(words for words in (named, between) if words)


def _says(one: Engagement, starts: int) -> str:
    if starts > 1 and one.start is not None:
        return (
            say("half nuts close, the tool is in the start begun with") if one.start == 1
            else say("half nuts close, the tool is in start {start}", start=one.start)
        )
    return _SAYS[one.outcome]
