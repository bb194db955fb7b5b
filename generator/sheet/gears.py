"""Gearbox and change gears of this lathe for this lead, reckoned in fractions from the lathe's own record.

`lay_gearbox` goes the way of a machinist at the headstock: has the plate the lead; if not, do change gears
give it; if not, how near do they come and does the thread bear that; and may the leadscrew turn the other
way for a left-hand thread.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.calc import gearing
from generator.calc.lead_search import Found, Geared, beside, equivalent_diameter
from generator.calc.wanted_lead import WantedLead
from generator.errors import Location
from generator.job.lathe import Lathe
from generator.language.lists import and_words
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.exact import exact_lead, lead_words, leadscrew_lead
from generator.sheet.figure import Figure, Kind
from generator.sheet.lathe_leads import find_lead, not_tried, settings_of
from generator.sheet.plans import ThreadPlan
from generator.sheet.wording import fine_words, length_words
from generator.si import Length, mm

JONES = later("Jones, Turning and Boring (1914), change gears")
FIT = later("NPL, Notes on Screw Gauges, and FED-STD-H28, both from memory")
UNSEEN = 0.01 * mm  # of lead over the engagement, what a micrometer shows; common practice, no source
SHARE = 0.5  # of the pitch diameter tolerance that an error of lead may use up; common practice
ALTERNATES = 3
NAME, GEARS = "lathe.gearbox", "lathe.change_gears"


@dataclass(frozen=True)
class GearPlan:
    """How the lead is had.

    `lead` is what is cut, mm, and None where it is unknown or cannot be had; `exact` is true when that is the
    lead of the thread and no other; `words` are the lever and the gears.
    """

    lead: Fraction | None
    exact: bool
    words: str


def lay_gearbox(
    lathe: Lathe, thread: ThreadPlan, engagement: Length | None, where: Location, desk: Desk
) -> GearPlan:
    """The entry on the plate and the change gears for this thread, with the findings that follow.

    `engagement` is the length on the mate; None takes the whole thread.

    Raises
    ------
    OutsideRange
        When the lathe's record of its change gears cannot be true.
    """
    lead = exact_lead(thread)
    found = find_lead(lathe, WantedLead(lead, lead_words(lead)))
    _check_direction(lathe, thread, where, desk)
    if found is None:
        return _lay_unknown(lathe, where, desk)
    if found.exact and found.exact[0].train is None:
        entry = found.exact[0].describe()
        desk.lay(
            Figure(
                NAME,
                say("Gearbox"),
                entry,
                "text",
                Kind.SHOP,
                _record(lathe),
                note=say("an exact entry on the plate"),
            )
        )
        return GearPlan(lead, True, entry)
    if found.exact:
        _lay_train(found.exact[0], found.exact[1:], lathe, desk)
        if lathe.gearbox is not None:
            desk.find(
                "change-gears", "note",
                say(
                    "The plate of {lathe} has no entry for this lead; other change gears give it exactly: "
                    "{gears}. With them every other entry of the plate cuts another lead: put the gears "
                    "back afterwards that belong there.",
                    lathe=lathe.name, gears=found.exact[0].describe(),
                ),
                where,
            )
        return GearPlan(lead, True, found.exact[0].describe())
    if not found.closest:
        why = say(
            "{name} has no two change gears that run together (1:6 to 6:1). Take another lathe.",
            name=lathe.name,
        )
        return _lay_none(why, where, lathe, desk)
    return _lay_closest(found, lathe, thread, engagement, where, desk)


def _lay_none(why: str, where: Location, lathe: Lathe, desk: Desk) -> GearPlan:
    """The lead cannot be had here."""
    desk.lay(Figure(NAME, say("Gearbox"), say("cannot be cut here"), "text", Kind.SHOP, _record(lathe)))
    desk.find("gearbox", "stop", why, where)
    return GearPlan(None, False, "")


def _record(lathe: Lathe) -> str:
    return f"jobs/_shop/lathes/{lathe.lathe}.yml"


def _lay_unknown(lathe: Lathe, where: Location, desk: Desk) -> GearPlan:
    lacks = say("leadscrew") if lathe.gearbox is None and lathe.change_gears else say("gearbox plate")
    desk.unknown(
        NAME, say("Gearbox"), "text", say("not computed: the lathe record has no {lacks}", lacks=lacks)
    )
    desk.find(
        "gearbox-unknown", "note",
        say(
            "The record of {lathe} has no {lacks}, so whether it cuts this lead was not checked.",
            lathe=lathe.name, lacks=lacks,
        ),
        where,
    )
    return GearPlan(None, False, "")


def _lay_train(best: Geared, others: tuple[Geared, ...], lathe: Lathe, desk: Desk) -> None:
    """The gears to put up, how the lead comes out of them, and other gears for the same."""
    assert best.train is not None
    source = say("{jones}; gears from {record}", jones=JONES, record=_record(lathe))
    plate = best.setting.words
    desk.lay(
        Figure(
            NAME,
            say("Gearbox"),
            say("{plate}, with change gears", plate=plate) if plate else say("none: change gears alone"),
            "text",
            Kind.SHOP,
            _record(lathe),
        )
    )
    also = say("; or ").join(_with_error(other) for other in others[:ALTERNATES])
    desk.lay(Figure(
        GEARS, say("Change gears"), best.describe(), "text", Kind.COMPUTED, source,
        note=say(
            "from the spindle to the leadscrew; any gear that reaches runs between as idler; or {also}",
            also=also,
        )
        if also
        else say("from the spindle to the leadscrew; any gear that reaches runs between as idler"),
    ))
    desk.lay(Figure(
        f"{GEARS}.rule", say("How this is worked out"), _reckoning(best, lathe), "text", Kind.COMPUTED, source
    ))
    drivers, driven = math.prod(best.train.gears[::2]), math.prod(best.train.gears[1::2])
    assert best.setting.lead is not None
    desk.computed(
        f"{GEARS}.lead", say("Lead that these gears cut"), float(best.lead) * mm, "fine_length",
        "{lead with gears of 1:1} × {drivers} ÷ {driven}",
        {
            "lead with gears of 1:1": (float(best.setting.lead) * mm, "fine_length"),
            "drivers": (drivers, "count"), "driven": (driven, "count"),
        },
        source,
    )


def _reckoning(geared: Geared, lathe: Lathe) -> str:
    """The train in one sentence with this lathe's own numbers."""
    assert geared.train is not None
    assert lathe.change_gears is not None
    own, screw = lathe.change_gears, leadscrew_lead(lathe)
    if geared.setting.standard is not None:
        one = say("the plate's {standard}", standard=lead_words(geared.setting.standard))
        factor = f" ÷ {gearing.mixed(own.of_plate)}" if own.of_plate != 1 else ""
        right = say(
            "; the plate is right with drivers over driven of {ratio}", ratio=gearing.mixed(own.of_plate)
        )
    else:
        assert screw is not None
        one, right = say("the leadscrew's {screw}", screw=lead_words(screw)), ""
        factor = say(" × {stud} (stud)", stud=gearing.mixed(own.stud)) if own.stud != 1 else ""
    above, below = (" × ".join(map(str, geared.train.gears[start::2])) for start in (0, 1))
    several = len(geared.train.pairs) > 1
    ratio = f"({above}) ÷ ({below})" if several else f"{above} ÷ {below}"
    clears = (
        say(
            "; each pair reaches past the next stud by more than {clearance} teeth (Machinery's Handbook, "
            "from memory)",
            clearance=own.clearance,
        )
        if several
        else ""
    )
    cut = lead_words(geared.lead)
    if not geared.exact:
        cut = say(
            "{lead:.5f} mm, and {wanted} is wanted", lead=float(geared.lead), wanted=geared.wanted.words
        )
    return say(
        "{one}{factor} × {ratio} = {cut}{right}{clears}; whether the banjo's slot reaches was not checked",
        one=one, factor=factor, ratio=ratio, cut=cut, right=right, clears=clears,
    )


# -- when nothing is exact ------------------------------------------------------------------------------


def _lay_closest(
    found: Found, lathe: Lathe, thread: ThreadPlan, engagement: Length | None, where: Location, desk: Desk
) -> GearPlan:
    """The closest lead when the thread bears it, and the question; else why it cannot be cut here."""
    best = found.closest[0]
    whole = abs(thread.start - thread.end)
    length = min(engagement, whole) if engagement else whole
    far = length_words(length, thread.system)
    closest = say(
        "{name} cannot cut a lead of {wanted} exactly. The closest it comes is {best}, {off}: {error} over "
        "{along}",
        name=lathe.name, wanted=best.wanted.words, best=best.describe(), off=best.off(),
        error=fine_words(abs(best.over(length)), thread.system, 1),
        along=say("{length} of engagement", length=far) if engagement
        else say("{length} of thread", length=far),
    )
    tolerance = thread.pitch_diameter_max - thread.pitch_diameter_min
    effect = equivalent_diameter(best.over(length), thread.half_angle) if tolerance else None
    if effect is None:
        said = say(
            "{closest}. No standard limits the pitch diameter of this thread, so that nothing says whether "
            "that will do; a micrometer shows 0.01 mm (0.0004 in).",
            closest=closest,
        )
        too_far, why = abs(best.over(length)) > UNSEEN, say("That is more.")
    else:
        said = say(
            "{closest}, which acts like {effect} on the pitch diameter, whose tolerance is {tolerance}.",
            closest=closest, effect=fine_words(effect, thread.system, 1),
            tolerance=fine_words(tolerance, thread.system),
        )
        too_far, why = effect > SHARE * tolerance, say("That is more than half of it.")
    instead = {"or_buy": _or_buy(found, lathe), "not_tried": not_tried(lathe)}
    if too_far:
        plate = list(beside(best.wanted.rational, settings_of(lathe)))
        nearest = say(" Nearest on its plate: {plate}.", plate=and_words(plate)) if plate else ""
        take = say("Take another lathe{or_buy}. {not_tried}", **instead).rstrip()
        return _lay_none(f"{said} {why}{nearest} {take}", where, lathe, desk)
    if best.train is None:
        desk.lay(Figure(
            NAME, say("Gearbox"), f"{best.describe()}, {best.off()}", "text", Kind.SHOP, _record(lathe),
            note=say("not exact"),
        ))
    else:
        _lay_train(best, found.closest[1:], lathe, desk)
    _lay_error(best, thread, length, effect, desk)
    desk.find(
        "gearbox", "check",
        say(
            "{said} Decide whether the thread bears that, or take another lathe{or_buy}. {not_tried}",
            said=said, **instead,
        ).rstrip(),
        where, say("May the lead be off by this much?"),
    )
    return GearPlan(best.lead, False, best.describe())


def _lay_error(
    best: Geared, thread: ThreadPlan, length: Length, effect: Length | None, desk: Desk
) -> None:
    cut, wanted = float(best.lead) * mm, float(best.wanted.length) * mm
    desk.computed(
        f"{GEARS}.error", say("Error of lead"), best.error, "ratio", "{lead cut} ÷ {lead wanted} − 1",
        {"lead cut": (cut, "fine_length"), "lead wanted": (wanted, "fine_length")}, say("arithmetic"),
        note=best.off(),
    )
    off = desk.computed(
        f"{GEARS}.error_over_engagement", say("Error over the engaged length"), abs(best.over(length)),
        "fine_length", "{error of lead} × {length}",
        {"error of lead": (abs(best.error), "ratio"), "length": (length, "length")}, say("arithmetic"),
        rounds="up",
    )
    if effect is None:
        return
    desk.computed(
        f"{GEARS}.error_on_pitch_diameter", say("Acts on the pitch diameter like"), effect, "fine_length",
        "{error} ÷ tan({half angle})",
        {"error": (off, "fine_length"), "half angle": (thread.half_angle, "angle")}, FIT, rounds="up",
        note=say("may use up half the tolerance of the pitch diameter: common practice, no source"),
    )


def _with_error(geared: Geared) -> str:
    return geared.describe() + ("" if geared.exact else f", {geared.off()}")


def _or_buy(found: Found, lathe: Lathe) -> str:
    """What else would give the lead."""
    if lathe.change_gears is None:
        return say(", or write the change gears it has into its file, under change_gears")
    if found.with_it is None:
        return say("; no single gear that could be bought makes it exact")
    return say(
        ", or buy or borrow a gear of {to_buy} teeth: {with_it} is exact",
        to_buy=found.to_buy,
        with_it=found.with_it.describe(),
    )


# -- left-hand ------------------------------------------------------------------------------------------


def _check_direction(lathe: Lathe, thread: ThreadPlan, where: Location, desk: Desk) -> None:
    """Whether the leadscrew turns the other way, which a left-hand thread needs."""
    if thread.designation.hand != "left" or lathe.leadscrew_reverse:
        return
    if lathe.leadscrew_reverse is None:
        desk.find(
            "leadscrew-reverse-unknown", "note",
            say(
                "The record of {lathe} does not say whether its leadscrew can be reversed, so whether it "
                "cuts left-hand threads was not checked. Try the lever before setting up.",
                lathe=lathe.name,
            ),
            where,
        )
    elif lathe.change_gears is not None:
        desk.find(
            "leadscrew-reverse", "check",
            say(
                "{lathe} has no lever to reverse the leadscrew, and the thread is left-hand. Put one more "
                "idler between the change gears than for a right-hand thread, and see with the half nuts "
                "open that the leadscrew turns the other way.",
                lathe=lathe.name,
            ),
            where,
        )
    else:
        desk.find(
            "leadscrew-reverse", "stop",
            say(
                "{lathe} cannot reverse its leadscrew, and the thread is left-hand. Take another lathe, or "
                "write its change gears into its file when one more idler can be put between them.",
                lathe=lathe.name,
            ),
            where,
        )
