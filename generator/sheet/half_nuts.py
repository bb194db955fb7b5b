"""Where the half nuts of this lathe may close for this lead, by its own thread dial.

    lay_thread_dial    the figures and findings: rule, how it is reckoned, gear of the dial, next start
    dial_gears_of      the gears of the dial on record, the best first
"""

from __future__ import annotations

from fractions import Fraction

from generator.calc import gearing
from generator.calc.dial_places import NextStart, engagements, next_starts
from generator.calc.thread_dial import DialGear, DialRule, and_words, dial_gears, dial_rule
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.sheet.desk import Desk
from generator.sheet.dial_words import DialFace, way_words
from generator.sheet.exact import lead_words, leadscrew_lead
from generator.sheet.figure import Figure, Kind
from generator.sheet.index_travel import lay_index_travel

JONES = "principle: Jones, Turning and Boring (1914), on catching the thread; arithmetic"
STARTS = "US Army Air Corps TM 1-420, Lathes (1940), p. 81, names the dial as a way; arithmetic"
INDEX = "index by the compound or the driving plate"


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
    name, label = "lathe.thread_dial", "Half nuts, thread dial"
    screw = leadscrew_lead(lathe)
    anywhere = screw is not None and (screw / lead).denominator == 1
    if screw is None or not (lathe.dial or lathe.has_no_dial or anywhere):
        _unknown_dial(lathe, "leadscrew" if screw is None else "thread dial", starts, where, desk)
        if starts > 1:
            lay_index_travel(lathe, starts, lead / starts, where, desk)
        return None
    gears = dial_gears_of(lathe, screw, lead)
    rule, teeth = gears[0].rule, gears[0].teeth
    source = f"{JONES}; jobs/_shop/lathes/{lathe.lathe}.yml"
    swapped = gears[0].matters and not gears[0].fitted
    says = f"gear of {teeth} teeth, {rule.describe()}" if swapped else rule.describe()
    desk.lay(Figure(name, label, says, "text", Kind.COMPUTED, source))
    reckoned = _reckoning(rule, screw, teeth if lathe.dial else None, lead, starts)
    desk.lay(Figure(f"{name}.rule", "How this is worked out", reckoned, "text", Kind.COMPUTED, source))
    if len(gears) > 1:
        _lay_gear(gears, swapped, screw, lead, source, where, desk)
    if rule.keep_half_nuts_closed:
        why = f"The thread dial of {lathe.name} cannot find this lead again"
        if lathe.dial is None:
            why = f"{lathe.name} has no thread dial, and its leadscrew does not find this lead by itself"
        desk.find(
            "half-nuts-closed", "note",
            f"{why}. Close the half nuts once, leave them closed to the end, and bring the carriage back by "
            "reversing the spindle with the tool withdrawn. At the end of each pass the carriage goes on "
            "until the spindle stands: withdraw first, then stop it.",
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
    why = f"not computed: the lathe record has no {missing}"
    desk.unknown("lathe.thread_dial", "Half nuts, thread dial", "text", why)
    desk.unknown("lathe.thread_dial.rule", "How this is worked out", "text", why)
    if starts > 1:
        desk.lay(Figure(
            "lathe.thread_dial.next_start", "To the next start", f"no {missing} on record: {INDEX}", "text",
            Kind.COMPUTED, STARTS,
        ))
    desk.find(
        "thread-dial-unknown", "note",
        f"The record of {lathe.name} has no {missing}, so where the half nuts may close was not computed. "
        "Keep them closed to the end and reverse the spindle to bring the carriage back.",
        where,
    )


def _reckoning(rule: DialRule, screw: Fraction, teeth: int | None, lead: Fraction, starts: int) -> str:
    """The rule in one sentence with this lathe's own numbers; no teeth where no dial is fitted."""
    one, thread = lead_words(screw), lead_words(lead)
    by_lead = ""
    if starts > 1:
        by_lead = f"; {starts} starts of {lead_words(lead / starts)} pitch count by the lead"
    if rule.anywhere:
        times = gearing.mixed(screw / lead)
        same = "just the lead of the thread" if screw == lead else f"{times} times the lead of {thread}"
        close = "wherever the half nuts close, the tool is in its groove"
        return f"one turn of the leadscrew is {one}, {same}: {close}{by_lead}"
    threads = (screw / lead).denominator
    together = f"leadscrew and thread come together only after {threads} leadscrew threads"
    if teeth is None:
        return f"no thread dial is fitted; one turn of the leadscrew is {one}, and {together}{by_lead}"
    around = teeth * screw
    if rule.step is None:
        return (
            f"one turn of the dial is {teeth} × {one} = {lead_words(around)}, or "
            f"{gearing.mixed(around / lead)} leads of {thread}, not a whole number: the same line comes "
            f"around without the tool in its groove;  {together}{by_lead}"
        )
    line = around / rule.marks
    travel = rule.step * line
    further = "one line" if rule.step == 1 else f"{rule.step} lines"
    turns = _several(travel / screw, "turn", "turns")
    return (
        f"from line to line the carriage moves {teeth} × {one} ÷ {rule.marks} = {lead_words(line)}; "
        f"{further} on, at {lead_words(travel)}, the half nuts close ({turns} of the leadscrew) and the tool "
        f"is in its groove ({_several(travel / lead, 'lead', 'leads')} of {thread}), and not before{by_lead}"
    )


def _several(count: Fraction, one: str, more: str) -> str:
    return f"one {one}" if count == 1 else f"{gearing.mixed(count)} {more}"


# -- the gear of the dial -------------------------------------------------------------------------------


def _lay_gear(
    gears: tuple[DialGear, ...], swapped: bool, screw: Fraction, lead: Fraction, source: str,
    where: Location, desk: Desk,
) -> None:
    """Which of several gears on record the dial is to have, and what each of them allows."""
    best, others = gears[0], gears[1:]
    name, label = "lathe.thread_dial.gear", "Gear of the thread dial"
    if best.rule.anywhere:
        desk.lay(Figure(name, label, "any: the dial need not be watched", "text", Kind.COMPUTED, source))
        return
    if best.rule.keep_half_nuts_closed:
        teeth = and_words(sorted(gear.teeth for gear in gears))
        needed = (screw / lead).denominator
        note = f"a multiple of {needed} teeth would be needed: {needed} × {lead_words(screw)} is whole leads"
        desk.lay(Figure(
            name, label, f"none serves of {teeth} teeth", "text", Kind.COMPUTED, source, note=note,
        ))
        return
    around = best.teeth * screw
    said = [
        f"{best.teeth} × {lead_words(screw)} = {lead_words(around)} is {gearing.mixed(around / lead)} leads, "
        "and no other gear allows more lines"
    ]
    said += [f"{_teeth(gear)}: {gear.rule.describe()}" for gear in others if gear.usable_lines]
    if idle := [_teeth(gear) for gear in others if not gear.usable_lines]:
        said.append(f"{and_words(idle)}: cannot find this lead")
    desk.lay(Figure(name, label, _teeth(best), "text", Kind.COMPUTED, source, note="; ".join(said)))
    if swapped:
        fitted = next(gear for gear in others if gear.fitted)
        with_it = (
            "would not find this lead again" if fitted.rule.keep_half_nuts_closed
            else f"would allow {fitted.rule.describe()}"
        )
        desk.find(
            "dial-gear", "note",
            f"Put the gear of {best.teeth} teeth on the thread dial and see that it meshes with the "
            f"leadscrew; the lines given are for it. The one of {fitted.teeth} teeth {with_it}.",
            where,
        )


def _teeth(gear: DialGear) -> str:
    return f"{gear.teeth} teeth (fitted)" if gear.fitted else f"{gear.teeth} teeth"


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
    rest = f"start{'s' if len(left) > 1 else ''} {and_words(left)}" if left else ""
    said = [f"start {way.start}: {words}" for way, words in led]
    if left:
        said.append(f"{rest}: not by the dial, {INDEX}" if led else f"not by the dial: {INDEX}")
    desk.lay(Figure(
        "lathe.thread_dial.next_start", "To the next start", "; ".join(said), "text", Kind.COMPUTED, STARTS,
        note="; ".join(_pitches(way, screw, lead / starts) for way, _ in led),
    ))
    if not led:
        words = "The dial brings the tool back into the same start"
        if rule.keep_half_nuts_closed:
            leads = "The dial does not lead" if lathe.dial else "No thread dial leads"
            words = f"{leads} from one start to the next"
        words += ". Index to the next start by the compound or the driving plate."
    else:
        words = (
            f"This thread has {starts} starts, and the thread dial tells them apart: for the start begun "
            f"with, {rule.describe()}; {'; '.join(said[:len(led)])}. Half nuts closed at the wrong place "
            "cut into another start. Set the slides to the same readings for every start."
        )
        if left:
            words += f" Index to {rest} by the compound or the driving plate."
    desk.find("dial-starts", "note", words, where)
    if left:
        lay_index_travel(lathe, max(int(start) for start in left), lead / starts, where, desk)


def _pitches(way: NextStart, screw: Fraction, pitch: Fraction) -> str:
    """Why the dial leads there."""
    assert way.threads is not None
    travel = abs(way.threads) * screw
    side = "past" if way.threads > 0 else "before"
    pitches = _several(travel / pitch, "pitch", "pitches")
    return f"start {way.start} is {lead_words(travel)} {side} the first, {pitches} of {lead_words(pitch)}"
