"""What a lathe's record says about the leads it cuts: plate, change gears, leadscrew."""

from __future__ import annotations

from generator.calc.gear_trains import ChangeGears, change_gears
from generator.calc.gearing import INCH, mixed
from generator.calc.lead_search import Found, Setting, search
from generator.calc.wanted_lead import WantedLead
from generator.job.lathe import Lathe
from generator.language.say import say
from generator.sheet.exact import decimal_words, exact_mm, leadscrew_lead


def gears_of(lathe: Lathe) -> ChangeGears | None:
    """The change gears of the record.

    Raises
    ------
    OutsideRange
        For a gear with so few or so many teeth that it is none.
    """
    own = lathe.change_gears
    return change_gears(own.gears, own.most_pairs, own.clearance) if own else None


def not_tried(lathe: Lathe) -> str:
    """A sentence on the trains that were too many to try; empty where all were tried."""
    gears = gears_of(lathe)
    if gears is None or gears.pairs_tried == gears.most_pairs:
        return ""
    return say("With {gears} gears on record, trains of six gears were not tried.", gears=len(gears.gears))


def settings_of(lathe: Lathe) -> list[Setting]:
    """What trains can be put to on this lathe; entries that need no other gears first.

    With a gearbox, its plate: an entry is right with drivers over driven of the record's plate ratio, and
    other gears multiply it. An entry that has gears of its own is taken with those and no others. Without a
    gearbox, the leadscrew, by way of the stud. Empty where the record does not say enough.
    """
    own, screw = lathe.change_gears, leadscrew_lead(lathe)
    if lathe.gearbox is None:
        return [Setting(screw * own.stud)] if own and screw is not None else []
    of_plate, box = own.of_plate if own else 1, lathe.gearbox
    entries = [
        *(
            (INCH / tpi.exact, say("{tpi} threads per inch", tpi=mixed(tpi.exact)), box.tpi_with_gears)
            for tpi in box.tpi
        ),
        *(
            (lead := exact_mm(pitch), f"{decimal_words(lead)} mm", box.pitches_with_gears)
            for pitch in box.pitches
        ),
    ]
    settings = [
        Setting(None, say("{words}, with {gears}", words=words, gears=gears), lead)
        if gears
        else Setting(lead / of_plate, words, lead)
        for lead, words, gears in entries
    ]
    return sorted(settings, key=lambda setting: setting.lead is None)


def find_lead(lathe: Lathe, wanted: WantedLead) -> Found | None:
    """How this lathe comes to a lead, or as near as it can; None when its record does not say enough.

    Raises
    ------
    OutsideRange
        When the record of its change gears cannot be true.
    """
    settings = settings_of(lathe)
    return search(wanted, settings, gears_of(lathe)) if settings else None
