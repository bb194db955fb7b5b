"""Where the half nuts of this lathe may close for this lead, by its own thread dial."""

from __future__ import annotations

from fractions import Fraction

from generator.calc import gearing
from generator.calc.thread_dial import DialRule, dial_rule
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.sheet.desk import Desk
from generator.sheet.exact import lead_words, leadscrew_lead
from generator.sheet.model import Figure, Kind

JONES = "principle: Jones, Turning and Boring (1914), on catching the thread; arithmetic"


def lay_thread_dial(
    lathe: Lathe, lead: Fraction, starts: int, where: Location, desk: Desk
) -> DialRule | None:
    """Where the half nuts may close, and how that is reckoned; None when the record does not tell.

    Without a dial on record there is an answer where the leadscrew's lead is a multiple of the thread's.

    Raises
    ------
    OutsideRange
        When the record of the dial cannot be true.
    """
    name, label = "lathe.thread_dial", "Half nuts, thread dial"
    screw, dial = leadscrew_lead(lathe), lathe.thread_dial
    anywhere = screw is not None and (screw / lead).denominator == 1
    if screw is None or (dial is None and not anywhere):
        _unknown_dial(lathe, "leadscrew" if screw is None else "thread dial", where, desk)
        return None
    teeth, lines, numbered = (dial.teeth, dial.lines, dial.numbered_every) if dial else (1, 1, 1)
    rule = dial_rule(screw, teeth, lines, lead, numbered)
    source = f"{JONES}; jobs/_shop/lathes/{lathe.lathe}.yml"
    reckoned = _reckoning(rule, screw, teeth, lead)
    desk.lay(Figure(name, label, rule.describe(), "text", Kind.COMPUTED, source))
    desk.lay(Figure(f"{name}.rule", "How that is reckoned", reckoned, "text", Kind.COMPUTED, source))
    if rule.keep_half_nuts_closed:
        desk.find(
            "half-nuts-closed", "note",
            f"The thread dial of {lathe.name} cannot find this lead again. Close the half nuts once, leave "
            "them closed to the end, and bring the carriage back by reversing the spindle with the tool "
            "withdrawn.",
            where,
        )
    elif starts > 1:
        desk.find(
            "dial-starts", "note",
            "The dial brings the tool back into the same start. Index to the next start by the compound or "
            "the drive plate.",
            where,
        )
    return rule


def _unknown_dial(lathe: Lathe, missing: str, where: Location, desk: Desk) -> None:
    why = f"not computed: the lathe record has no {missing}"
    desk.unknown("lathe.thread_dial", "Half nuts, thread dial", "text", why)
    desk.unknown("lathe.thread_dial.rule", "How that is reckoned", "text", why)
    desk.find(
        "thread-dial-unknown", "note",
        f"The record of {lathe.name} has no {missing}, so where the half nuts may close was not computed. "
        "Keep them closed to the end and reverse the spindle to bring the carriage back.",
        where,
    )


def _reckoning(rule: DialRule, screw: Fraction, teeth: int, lead: Fraction) -> str:
    """The rule in one sentence with this lathe's own numbers."""
    one, thread = lead_words(screw), lead_words(lead)
    if rule.anywhere:
        times = gearing.mixed(screw / lead)
        same = "just the lead of the thread" if screw == lead else f"{times} times the lead of {thread}"
        close = "wherever the half nuts close, the tool is in its groove"
        return f"one turn of the leadscrew is {one}, {same}: {close}"
    around = teeth * screw
    if rule.step is None:
        return (
            f"one turn of the dial is {teeth} × {one} = {lead_words(around)}, or "
            f"{gearing.mixed(around / lead)} leads of {thread}, not a whole number: the same line comes "
            "round without the tool in its groove"
        )
    line = around / rule.marks
    travel = rule.step * line
    further = "one line" if rule.step == 1 else f"{rule.step} lines"
    return (
        f"from line to line the carriage moves {teeth} × {one} ÷ {rule.marks} = {lead_words(line)}; "
        f"{further} on, at {lead_words(travel)}, the half nuts close ({gearing.mixed(travel / screw)} turns "
        f"of the leadscrew) and the tool is in its groove ({gearing.mixed(travel / lead)} leads of "
        f"{thread}), and not before"
    )
