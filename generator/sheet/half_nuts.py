"""Where the half nuts of this lathe may close for this lead, by its own thread dial.

    lay_thread_dial    the figures and findings: rule, how it is reckoned, gear of the dial, next start
    dial_gears_of      the gears of the dial on record, the best first
"""

from __future__ import annotations

from fractions import Fraction

from generator.calc import gearing
from generator.calc.dial_places import NextStart, engagements, next_starts
from generator.calc.thread_dial import DialGear, DialRule, dial_gears, dial_rule
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.language.lists import and_words
from generator.language.say import later, say, say_count
from generator.sheet.desk import Desk
from generator.sheet.dial_words import DialFace, way_words
from generator.sheet.exact import lead_words, leadscrew_lead
from generator.sheet.figure import Figure, Kind
from generator.sheet.index_travel import lay_index_travel

JONES = later("principle: Jones, Turning and Boring (1914), on catching the thread; arithmetic")
STARTS = later("US Army Air Corps TM 1-420, Lathes (1940), p. 81, names the dial as a way; arithmetic")
INDEX = later("index by the compound or the driving plate")


def lay_thread_dial(
    lathe: Lathe, lead: Fraction, starts: int, where: Location, desk: Desk
) -> DialRule | None:
    """Where the half nuts may close, and how that is reckoned; None when the record does not tell.

    `lead` (mm, exact) is the lead that is cut: where the gears give the thread's own only nearly, the one
    that they give, for that is the groove which the tool has to find again. Without a dial on record there
    is an answer where the leadscrew's lead is a multiple of the thread's. Of several gears on record the one
    with the fewest restrictions is reckoned with.

    Raises
    ------
    OutsideRange
        When the record of the dial cannot be true.
    """
    name, label = "lathe.thread_dial", say("Half nuts, thread dial")
    screw = leadscrew_lead(lathe)
    anywhere = screw is not None and (screw / lead).denominator == 1
    if screw is None or not (lathe.dial or lathe.has_no_dial or anywhere):
        missing = say("leadscrew") if screw is None else say("thread dial")
        _unknown_dial(lathe, missing, starts, where, desk)
        if starts > 1:
            lay_index_travel(lathe, starts, lead / starts, where, desk)
        return None
    gears = dial_gears_of(lathe, screw, lead)
    rule, teeth = gears[0].rule, gears[0].teeth
    source = say("{jones}; jobs/_shop/lathes/{lathe}.yml", jones=JONES, lathe=lathe.lathe)
    swapped = gears[0].matters and not gears[0].fitted
    says = (
        say("gear of {teeth} teeth, {rule}", teeth=teeth, rule=rule.describe())
        if swapped
        else rule.describe()
    )
    desk.lay(Figure(name, label, says, "text", Kind.COMPUTED, source))
    reckoned = _reckoning(rule, screw, teeth if lathe.dial else None, lead, starts)
    desk.lay(Figure(f"{name}.rule", say("How this is worked out"), reckoned, "text", Kind.COMPUTED, source))
    if len(gears) > 1:
        _lay_gear(gears, swapped, screw, lead, source, where, desk)
    if rule.keep_half_nuts_closed:
        why = say("The thread dial of {name} cannot find this lead again", name=lathe.name)
        if lathe.dial is None:
            why = say(
                "{name} has no thread dial, and its leadscrew does not find this lead by itself",
                name=lathe.name,
            )
        desk.find(
            "half-nuts-closed", "note",
            say(
                "{why}. Close the half nuts once, leave them closed to the end, and bring the carriage back "
                "by reversing the spindle with the tool withdrawn. At the end of each pass the carriage "
                "goes on until the spindle stands: withdraw first, then stop it.",
                why=why,
            ),
            where,
        )
    if starts > 1:
        _lay_next_start(lathe, rule, screw, teeth, lead, starts, where, desk)
    return rule


def dial_gears_of(lathe: Lathe, screw: Fraction, lead: Fraction) -> tuple[DialGear, ...]:
    """The gears of the dial on record, the best for a lead first; without a dial one that does not matter."""
    dial = lathe.dial
    if dial is None:
        return (DialGear(1, True, dial_rule(screw, 1, 1, lead)),)
    return dial_gears(screw, dial.teeth, dial.more_gears, dial.lines, lead, dial.numbered_every)


def _unknown_dial(lathe: Lathe, missing: str, starts: int, where: Location, desk: Desk) -> None:
    why = say("not computed: the lathe record has no {missing}", missing=missing)
    desk.unknown("lathe.thread_dial", say("Half nuts, thread dial"), "text", why)
    desk.unknown("lathe.thread_dial.rule", say("How this is worked out"), "text", why)
    if starts > 1:
        desk.lay(
            Figure(
                "lathe.thread_dial.next_start",
                say("To the next start"),
                say("no {missing} on record: {index}", missing=missing, index=INDEX),
                "text",
                Kind.COMPUTED,
                STARTS,
            )
        )
    desk.find(
        "thread-dial-unknown", "note",
        say(
            "The record of {lathe} has no {missing}, so where the half nuts may close was not computed. "
            "Keep them closed to the end and reverse the spindle to bring the carriage back.",
            lathe=lathe.name, missing=missing,
        ),
        where,
    )


def _reckoning(rule: DialRule, screw: Fraction, teeth: int | None, lead: Fraction, starts: int) -> str:
    """The rule in one sentence with this lathe's own numbers; no teeth where no dial is fitted."""
    one, thread = lead_words(screw), lead_words(lead)
    by_lead = ""
    if starts > 1:
        by_lead = say(
            "; {starts} starts of {lead} pitch count by the lead",
            starts=starts,
            lead=lead_words(lead / starts),
        )
    if rule.anywhere:
        times = gearing.mixed(screw / lead)
        same = (
            say("just the lead of the thread")
            if screw == lead
            else say("{times} times the lead of {thread}", times=times, thread=thread)
        )
        close = say("wherever the half nuts close, the tool is in its groove")
        return say(
            "one turn of the leadscrew is {one}, {same}: {close}{by_lead}",
            one=one,
            same=same,
            close=close,
            by_lead=by_lead,
        )
    threads = (screw / lead).denominator
    together = say(
        "leadscrew and thread come together only after {threads} leadscrew threads", threads=threads
    )
    if teeth is None:
        return say(
            "no thread dial is fitted; one turn of the leadscrew is {one}, and {together}{by_lead}",
            one=one,
            together=together,
            by_lead=by_lead,
        )
    around = teeth * screw
    if rule.step is None:
        return say(
            "one turn of the dial is {teeth} × {one} = {around}, or {leads} leads of {thread}, not a whole "
            "number: the same line comes around without the tool in its groove;  {together}{by_lead}",
            teeth=teeth, one=one, around=lead_words(around), leads=gearing.mixed(around / lead),
            thread=thread, together=together, by_lead=by_lead,
        )
    line = around / rule.marks
    travel = rule.step * line
    turns = (
        say("one turn of the leadscrew") if travel == screw
        else say("{count} turns of the leadscrew", count=gearing.mixed(travel / screw))
    )
    leads = (
        say("one lead of {thread}", thread=thread) if travel == lead
        else say("{count} leads of {thread}", count=gearing.mixed(travel / lead), thread=thread)
    )
    return say(
        "from line to line the carriage moves {teeth} × {one} ÷ {marks} = {line}; {further} on, at {travel}, "
        "the half nuts close ({turns}) and the tool is in its groove ({leads}), and not before{by_lead}",
        teeth=teeth, one=one, marks=rule.marks, line=lead_words(line),
        further=say_count("one line", "{count} lines", rule.step),
        travel=lead_words(travel), turns=turns, leads=leads, by_lead=by_lead,
    )


# -- the gear of the dial -------------------------------------------------------------------------------


def _lay_gear(
    gears: tuple[DialGear, ...], swapped: bool, screw: Fraction, lead: Fraction, source: str,
    where: Location, desk: Desk,
) -> None:
    """Which of several gears on record the dial is to have, and what each of them allows."""
    best, others = gears[0], gears[1:]
    name, label = "lathe.thread_dial.gear", say("Gear of the thread dial")
    if best.rule.anywhere:
        desk.lay(Figure(name, label, say("any: the dial need not be watched"), "text", Kind.COMPUTED, source))
        return
    if best.rule.keep_half_nuts_closed:
        teeth = and_words(sorted(gear.teeth for gear in gears))
        needed = (screw / lead).denominator
        note = say(
            "a multiple of {needed} teeth would be needed: {needed} × {screw} is whole leads",
            needed=needed,
            screw=lead_words(screw),
        )
        desk.lay(
            Figure(
                name,
                label,
                say("none serves of {teeth} teeth", teeth=teeth),
                "text",
                Kind.COMPUTED,
                source,
                note=note,
            )
        )
        return
    around = best.teeth * screw
    said = [
        say(
            "{teeth} × {screw} = {around} is {leads} leads, and no other gear allows more lines",
            teeth=best.teeth, screw=lead_words(screw), around=lead_words(around),
            leads=gearing.mixed(around / lead),
        )
    ]
    said += [f"{_teeth(gear)}: {gear.rule.describe()}" for gear in others if gear.usable_lines]
    if idle := [_teeth(gear) for gear in others if not gear.usable_lines]:
        said.append(say("{idle}: cannot find this lead", idle=and_words(idle)))
    desk.lay(Figure(name, label, _teeth(best), "text", Kind.COMPUTED, source, note="; ".join(said)))
    if swapped:
        fitted = next(gear for gear in others if gear.fitted)
        with_it = (
            say("The one of {teeth} teeth would not find this lead again.", teeth=fitted.teeth)
            if fitted.rule.keep_half_nuts_closed
            else say(
                "The one of {teeth} teeth would allow {rule}.",
                teeth=fitted.teeth, rule=fitted.rule.describe(),
            )
        )
        desk.find(
            "dial-gear", "note",
            say(
                "Put the gear of {teeth} teeth on the thread dial and see that it meshes with the "
                "leadscrew; the lines given are for it. {with_it}",
                teeth=best.teeth, with_it=with_it,
            ),
            where,
        )


def _teeth(gear: DialGear) -> str:
    return (
        say("{teeth} teeth (fitted)", teeth=gear.teeth)
        if gear.fitted
        else say("{teeth} teeth", teeth=gear.teeth)
    )


# -- several starts -------------------------------------------------------------------------------------


def _lay_next_start(
    lathe: Lathe, rule: DialRule, screw: Fraction, teeth: int, lead: Fraction, starts: int, where: Location,
    desk: Desk,
) -> None:
    """How the dial leads from one start to the next, or what else does."""
    face = DialFace(rule.marks, rule.numbered_every)
    ways = next_starts(engagements(screw, teeth, rule.marks, lead, starts), starts)
    if lathe.dial is None:
        ways = tuple(NextStart(way.start, (), None) for way in ways)
    led = [(way, words) for way in ways if (words := way_words(way, face, screw, starts))]
    left = [str(way.start) for way in ways if way.threads is None]
    rest = say_count("start {starts}", "starts {starts}", len(left), starts=and_words(left)) if left else ""
    said = [say("start {start}: {words}", start=way.start, words=words) for way, words in led]
    if left:
        said.append(
            say("{rest}: not by the dial, {index}", rest=rest, index=INDEX)
            if led
            else say("not by the dial: {index}", index=INDEX)
        )
    desk.lay(
        Figure(
            "lathe.thread_dial.next_start",
            say("To the next start"),
            "; ".join(said),
            "text",
            Kind.COMPUTED,
            STARTS,
            note="; ".join(_pitches(way, screw, lead / starts) for way, _ in led),
        )
    )
    if not led and not rule.keep_half_nuts_closed:
        words = say(
            "The dial brings the tool back into the same start. Index to the next start by the compound or "
            "the driving plate."
        )
    elif not led and lathe.dial:
        words = say(
            "The dial does not lead from one start to the next. Index to the next start by the compound or "
            "the driving plate."
        )
    elif not led:
        words = say(
            "No thread dial leads from one start to the next. Index to the next start by the compound or the "
            "driving plate."
        )
    else:
        words = say(
            "This thread has {starts} starts, and the thread dial tells them apart: for the start begun "
            "with, {rule}; {said}. Half nuts closed at the wrong place "
            "cut into another start. Set the slides to the same readings for every start.{more}",
            starts=starts, rule=rule.describe(), said="; ".join(said[: len(led)]),
            more=say(" Index to {rest} by the compound or the driving plate.", rest=rest) if left else "",
        )
    desk.find("dial-starts", "note", words, where)
    if left:
        lay_index_travel(lathe, max(int(start) for start in left), lead / starts, where, desk)


def _pitches(way: NextStart, screw: Fraction, pitch: Fraction) -> str:
    """Why the dial leads there."""
    assert way.threads is not None
    travel = abs(way.threads) * screw
    pitches = (
        say("one pitch of {pitch}", pitch=lead_words(pitch)) if travel == pitch
        else say("{count} pitches of {pitch}", count=gearing.mixed(travel / pitch), pitch=lead_words(pitch))
    )
    if way.threads > 0:
        return say(
            "start {start} is {travel} past the first, {pitches}",
            start=way.start, travel=lead_words(travel), pitches=pitches,
        )
    return say(
        "start {start} is {travel} before the first, {pitches}",
        start=way.start, travel=lead_words(travel), pitches=pitches,
    )
